/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture of the finished piece as a PNG file. */
#pragma once

#include "project/project.h"
#include "tool/options.h"

/* Renders to options->output; returns "" (nothing goes to standard output), or NULL with an error
 * that names the file. A file already there is replaced only by a whole one. */
char *bw_render_run (BwProject *project, const BwOptions *options, GError **error);
/* Small, for a file manager: no larger than the size, the piece alone. */
char *bw_render_run_thumbnail (BwProject *project, const BwOptions *options, GError **error);
