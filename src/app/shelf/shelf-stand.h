/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One place on a board with the piece that stands there: its picture with a shadow at its foot, or
 * the outline of a stone where there is none. */
#pragma once

#include "app/shelf/shelf-look.h"
#include <gtk/gtk.h>

#define BW_TYPE_SHELF_STAND (bw_shelf_stand_get_type ())
G_DECLARE_FINAL_TYPE (BwShelfStand, bw_shelf_stand, BW, SHELF_STAND, GtkWidget)

typedef enum {
  BW_STAND_WAITS, /* nobody knows yet what it looks like */
  BW_STAND_BLANK, /* a stone still to be measured */
  BW_STAND_GONE,
  BW_STAND_PIECE,
} BwStandKind;

/* picture: of a piece, may be NULL. length_mm: of its stone; long ones stand higher. */
void bw_shelf_stand_set (BwShelfStand *self, BwStandKind kind, cairo_surface_t *picture,
                         double length_mm);

/* How thick the board beneath is, in pixels; the lowest part of a stand is that. */
int bw_shelf_stand_board (GtkWidget *self);
