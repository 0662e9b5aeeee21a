/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Very many beads, told in stretches: put in an order in which those that follow one another lie
 * close together, some dozens are found hidden, or beside the picture, by one look. */
#pragma once

#include "preview/scene/camera.h"

#define BW_STRETCH_BEADS 64

/* Some beads that follow one another in a list, in a sphere. */
typedef struct {
  float at[3], reach; /* mm; every bead lies wholly within */
} BwStretch;

/* Where a run of beads begins in that list, and how many there are. */
typedef struct {
  int first, n;
} BwStretchRun;

/* Puts n indices in scene->beads into such an order: round the piece, belt by belt up it. */
void bw_stretches_sort (const BwScene *scene, gint32 *order, int n);
/* The stretches of n beads in that order: of BwStretch, owned by the caller. */
GArray *bw_stretches_new (const BwScene *scene, const gint32 *order, int n);
/* What of n beads may be seen: appends runs (BwStretchRun), rising. Beads in none are surely hidden
 * by the stone, where that is shown, or outside the picture. */
void bw_stretches_seen (const GArray *stretches, int n, const BwScene *scene, const BwEye *eye,
                        gboolean stone_shown, GArray *runs);
