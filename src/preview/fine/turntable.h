/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece turning once round: pictures from evenly spaced sides, so that the first follows the
 * last as each follows the one before it. The light stands still. */
#pragma once

#include "preview/fine/fine.h"

#define BW_TURNTABLE_LEAST 2
#define BW_TURNTABLE_MOST 360
#define BW_TURNTABLE_USUAL 36

/* Where frame i of n, counted from 0, is seen from; 0 up to 360. Frame n is frame 0. */
double bw_turntable_turn (double first_deg, int i, int n);

/* The n frames, the first from the still's own camera: fine, or as the stone view draws where fine
 * is NULL. told is told the share of all; it may be NULL, and so_far is NULL where nothing is to be
 * seen yet. NULL with *error set where it was stopped or a picture could not be made. */
GPtrArray *bw_turntable_pngs (BwScene *scene, const BwStill *first, int n,
                              const BwFineOptions *fine, GCancellable *stop, BwFineTold told,
                              gpointer data, GError **error);
/* The same as one animated WebP file. */
GBytes *bw_turntable_webp (BwScene *scene, const BwStill *first, int n, const BwFineOptions *fine,
                           GCancellable *stop, BwFineTold told, gpointer data, GError **error);

/* "piece.png" and "piece": "piece-001.png" for frame 0 of n up to 999. Owned. */
char *bw_turntable_name (const char *path, int i);
