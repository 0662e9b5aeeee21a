/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One frame of the bail's band. */
#pragma once

#include "editor/bail/bail-grip.h"
#include "editor/cloth/band-view.h"

typedef struct {
  BwBandView *view;
  BwBailGrip lit; /* held, or under the pointer */
  gboolean busy;  /* the bail itself is being moved or could be */
} BwBailShown;

void bw_bail_band_draw (const BwBailShown *shown, GtkSnapshot *snapshot);
