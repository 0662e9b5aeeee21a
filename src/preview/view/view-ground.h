/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ground under the live picture: as on a saved one, painted by the toolkit. */
#pragma once

#include "preview/picture/ground.h"
#include <gtk/gtk.h>

typedef struct {
  gboolean drawn; /* FALSE where the theme is one of high contrast: the ground is the system's */
  BwGroundLook look;
} BwViewGround;

/* As the widget's theme and the light want it. */
BwViewGround bw_view_ground (GtkWidget *widget, BwLight light);
/* Whether what lies behind the piece is dark. */
gboolean bw_view_ground_is_dark (GtkWidget *widget, const BwViewGround *ground);
/* The colour of what is marked on the ground; leaves it alone where the ground is the system's. */
void bw_view_ground_mark (const BwViewGround *ground, GdkRGBA *colour);
void bw_view_ground_draw (GtkSnapshot *snapshot, const BwViewGround *ground, const BwShadow *shadow,
                          int n_shadows, int width, int height);
