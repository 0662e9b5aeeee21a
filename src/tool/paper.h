/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands that write something to print: work sheet and kit sheet, chart, paper strip, tags
 * and the picture for a shop. */
#pragma once

#include "project/project.h"
#include "tool/options.h"

/* All write to options->output, whole or not at all, and return "" (nothing goes to standard
 * output), or NULL with an error that names the file. */
char *bw_paper_run_sheet (BwProject *project, const BwOptions *options, GError **error);
char *bw_paper_run_chart (BwProject *project, const BwOptions *options, GError **error);
char *bw_paper_run_strip (BwProject *project, const BwOptions *options, GError **error);
char *bw_paper_run_tags (BwProject *project, const BwOptions *options, GError **error);
char *bw_paper_run_listing (BwProject *project, const BwOptions *options, GError **error);
