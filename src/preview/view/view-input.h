/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turning the piece in the hand: gestures, wheel, pointer and keys of the stone view. What it asks
 * of the widget it asks by the functions it is given. */
#pragma once

#include "preview/scene/camera-way.h"
#include "preview/scene/camera.h"
#include "preview/scene/hand-speed.h"
#include "preview/view/view-brush.h"
#include <gtk/gtk.h>

typedef struct {
  GtkWidget *widget;  /* what is turned; not owned */
  BwSession *session; /* whose camera turns; not owned */
  BwScene *(*get_scene) (gpointer widget);
  BwViewBead (*pick) (gpointer widget, double x, double y);
  gboolean (*is_hung) (gpointer widget);
  void (*take_hold) (gpointer widget); /* a hand is on the piece: it swings and turns no more */
  void (*stop) (gpointer widget);      /* it turns no more by itself */
  void (*let_go) (gpointer widget, BwCoast coast);    /* of a turning piece */
  void (*face) (gpointer widget, double x, double y); /* what lies there */

  const BwStoneBrush *brush; /* who is told of strokes; NULL: nothing is painted */
  gpointer brush_data;
  gboolean brushing; /* a drag paints, whatever key is held */

  BwCamera grabbed;  /* where a drag, a pinch or a twist began */
  BwHandSpeed hand;  /* of the drag under way */
  gboolean painting; /* the drag under way is a stroke, or missed every bead where it began */
  double drag_x, drag_y;
  gboolean turning; /* a drag is going on: nothing is pointed at */
} BwViewInput;

/* The pointer as what a drag would do asks for. */
void bw_view_input_show_cursor (BwViewInput *self, GdkModifierType state);

/* Adds the controllers to the widget; self must live as long as the widget does. */
void bw_view_input_add (BwViewInput *self);
