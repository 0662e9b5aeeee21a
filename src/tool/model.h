/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished piece as a binary glTF file. */
#pragma once

#include "project/project.h"
#include "tool/options.h"

/* Writes to options->output; as bw_render_run(). */
char *bw_model_run (BwProject *project, const BwOptions *options, GError **error);
