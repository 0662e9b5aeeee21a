/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone view: the piece, live. Drag turns, and a piece let go while it turns runs on a little;
 * scroll and pinch come nearer, two fingers turn, a double-click looks straight at what lies there,
 * arrow keys turn, plus and minus zoom, Home looks from the front. Pointing at a bead lights it in
 * every view of the session. Without OpenGL the drawn projection takes its place inside the same
 * widget.
 *
 * While the session is at rest the piece hangs: it is let go, swings a little and comes to rest
 * under the point it hangs by, with the balance point and the plumb line marked. Where the desktop
 * asks for no animations, or the maker takes hold of it, it is at rest at once. */
#pragma once

#include "preview/scene/scene.h"
#include "preview/view/view-brush.h"
#include <gtk/gtk.h>

#define BW_TYPE_STONE_VIEW (bw_stone_view_get_type ())
G_DECLARE_FINAL_TYPE (BwStoneView, bw_stone_view, BW, STONE_VIEW, GtkWidget)

GtkWidget *bw_stone_view_new (BwSession *session);
/* Which way it draws now: "gl", "gles" or "drawn". */
const char *bw_stone_view_get_driver (BwStoneView *self);
/* What is shown now, in the stance it is shown in; borrowed until the main loop runs again. */
const BwScene *bw_stone_view_get_scene (BwStoneView *self);
/* How many beads were handed to OpenGL so far, or painted without it: what a test counts. */
guint64 bw_stone_view_uploaded (BwStoneView *self);
/* The camera of the picture: the session's own, but on the way to rest. */
BwCamera bw_stone_view_get_camera (BwStoneView *self);
gboolean bw_stone_view_is_swinging (BwStoneView *self);
/* Whether the camera moves by itself. */
gboolean bw_stone_view_is_turning (BwStoneView *self);
/* Who is told of strokes over the picture, made with Control or Alt held or while brushing is set.
 * brush: a constant; data must outlive the view or the next call. NULL: nothing is painted, as at
 * first. */
void bw_stone_view_set_brush (BwStoneView *self, const BwStoneBrush *brush, gpointer data);
void bw_stone_view_set_brushing (BwStoneView *self, gboolean brushing);
/* So many logical pixels at the foot are for what lies over the picture: the piece keeps clear of
 * them, the ground does not. 0 at first. */
void bw_stone_view_set_free_below (BwStoneView *self, int pixels);
/* The bead under a point of the widget (logical pixels), −1 when none; index into the scene's
 * beads. */
int bw_stone_view_pick (BwStoneView *self, double x, double y, gboolean *in_bail, int *row,
                        int *column);
