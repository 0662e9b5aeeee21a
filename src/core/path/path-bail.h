/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside the thread's path only: the bail, once the needle knows where it stands. */
#pragma once

#include "core/path/path-needle.h"

/* The bead the needle must have left to begin the bail. */
BwStitch bw_bail_path_entry (const BwNeedle *needle);
/* Its way there, its rows, and how it is sewn down. A flap of m columns: m visits out and m back. A
 * strip: each end to and fro, m visits a run, two to each raised bead; 3 m/2 at the upper edge,
 * where a stitch goes down through one bead of the band and up through its neighbour. */
void bw_bail_path_weave (BwNeedle *needle);
