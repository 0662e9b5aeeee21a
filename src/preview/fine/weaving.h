/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece being woven as a row of pictures: from nothing strung to the last end woven in, evenly
 * along the thread. */
#pragma once

#include "preview/fine/turntable.h"
#include "project/project.h"

/* Where each picture stands; plain data, for another thread. */
typedef struct {
  int n; /* BW_TURNTABLE_LEAST up to BW_TURNTABLE_MOST */
  int visits[BW_TURNTABLE_MOST];
  double turn_deg[BW_TURNTABLE_MOST];
} BwWeaving;

/* follows: the eye goes round with the needle; else it stays at `turn_deg`. */
void bw_weaving_init (BwWeaving *weaving, BwProject *project, int n, gboolean follows,
                      double turn_deg);

/* The pictures, of the scene standing upright and in the end finished, with the thread shown; told
 * and errors as bw_turntable_pngs() has them. */
GPtrArray *bw_weaving_pngs (BwScene *scene, const BwStill *still, const BwWeaving *weaving,
                            const BwFineOptions *fine, GCancellable *stop, BwFineTold told,
                            gpointer data, GError **error);
