/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands that read the maker's book and no project. */
#pragma once

#include "tool/options.h"

/* What goes to standard output, owned; NULL with an error that names the book. */
char *bw_workshop_run_hands (const BwOptions *options, GError **error);
