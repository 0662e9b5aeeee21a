/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "tool/options.h"

/* The colours of beads in a photograph: printed, or with an output written as a palette. Owned;
 * NULL with an error that names the file. */
char *bw_photo_run_tray (const BwOptions *options, GError **error);
