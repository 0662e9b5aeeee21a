/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside the thread's path only: the bail, once the needle knows where it stands. */
#pragma once

#include "core/path/path-needle.h"

/* The bead the needle must have left to begin the bail. */
BwStitch bw_bail_path_entry (const BwNeedle *needle);
/* Its way there, its rows, and how it is sewn down. */
void bw_bail_path_weave (BwNeedle *needle);
