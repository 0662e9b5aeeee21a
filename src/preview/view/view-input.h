/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turning the piece in the hand: gestures, wheel, pointer and keys of the stone view. What it asks
 * of the widget it asks by the functions it is given. */
#pragma once

#include "preview/scene/camera.h"
#include <gtk/gtk.h>

/* A bead as rows and columns count it, from 1; row 0: none. */
typedef struct {
  gboolean in_bail;
  int row, column;
} BwViewBead;

typedef struct {
  GtkWidget *widget;  /* what is turned; not owned */
  BwSession *session; /* whose camera turns; not owned */
  BwScene *(*get_scene) (gpointer widget);
  BwViewBead (*pick) (gpointer widget, double x, double y);
  gboolean (*is_hung) (gpointer widget);
  void (*take_hold) (gpointer widget); /* a hand is on the piece: it swings no more */

  BwCamera grabbed; /* where a drag or a pinch began */
  gboolean turning; /* a drag is going on: nothing is pointed at */
} BwViewInput;

/* Adds the controllers to the widget; self must live as long as the widget does. */
void bw_view_input_add (BwViewInput *self);
