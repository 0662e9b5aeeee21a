/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The design of one project on the stone of another. */
#pragma once

#include "project/project.h"
#include "tool/options.h"

/* Writes the new project; gives nothing to print, NULL with an error. */
char *bw_restone_run (BwProject *project, const BwOptions *options, GError **error);
