/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone view: the piece, live. Drag turns, scroll and pinch come nearer, arrow keys turn, plus
 * and minus zoom, Home looks from the front. Pointing at a bead lights it in every view of the
 * session. Without OpenGL the drawn projection takes its place inside the same widget. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_STONE_VIEW (bw_stone_view_get_type ())
G_DECLARE_FINAL_TYPE (BwStoneView, bw_stone_view, BW, STONE_VIEW, GtkWidget)

GtkWidget *bw_stone_view_new (BwSession *session);
/* Which way it draws now: "gl", "gles" or "drawn". */
const char *bw_stone_view_get_driver (BwStoneView *self);
/* The bead under a point of the widget (logical pixels), −1 when none; index into the scene's
 * beads. */
int bw_stone_view_pick (BwStoneView *self, double x, double y, gboolean *in_bail, int *row,
                        int *column);
