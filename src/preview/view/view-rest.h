/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the piece stands in the view: upright, on its way to rest, or hanging at rest; and the camera
 * that walks to its side meanwhile. It knows a widget only as the owner of a frame clock. */
#pragma once

#include "preview/scene/camera.h"
#include "preview/scene/swing.h"
#include <gtk/gtk.h>

typedef struct {
  GtkWidget *ticker;                      /* whose frame clock is the time; borrowed */
  BwScene *(*get_scene) (gpointer owner); /* the scene as it is due now; borrowed */
  void (*moved) (gpointer owner);         /* the stance is another: a new picture is due */
  gpointer owner;

  BwScene *scene;        /* the one that stands; borrowed, never NULL once it hung */
  gboolean hung;         /* the piece hangs, or is on its way there */
  guint tick;            /* 0 when it does not swing */
  gint64 since;          /* of the frame clock, µs; 0 until its first frame */
  BwSwing swing;         /* how it began */
  double lean, speed;    /* now, of the pose; radians, and radians a second */
  gboolean gliding;      /* the camera is on its way from the upright one */
  double glide;          /* how far, 0..1 */
  BwCamera glides_from;  /* about the plumb line */
  BwCamera upright;      /* the camera the piece was last seen upright with */
  gboolean stance_stale; /* set at each new stance; cleared by who has shown it */
} BwViewRest;

/* The session is at rest, or not any more, and its camera is this one. */
void bw_view_rest_follow (BwViewRest *self, gboolean at_rest, BwCamera camera);
/* Puts a new scene into the stance the piece had, and lets it go where its rest is another now. */
void bw_view_rest_take_scene (BwViewRest *self, BwScene *scene, gboolean at_rest);
/* At rest at once, when it was on its way there. */
void bw_view_rest_end_swing (BwViewRest *self);
/* Stops where it is; nothing ticks any more. */
void bw_view_rest_stop (BwViewRest *self);
gboolean bw_view_rest_is_swinging (const BwViewRest *self);
/* The camera of the picture, on its way to the session's own `to`. */
BwCamera bw_view_rest_camera (const BwViewRest *self, BwCamera to);
