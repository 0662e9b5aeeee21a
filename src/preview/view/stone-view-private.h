/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the two halves of the stone view share: the widget with its picture, and its input. */
#pragma once

#include "preview/scene/camera.h"
#include "preview/gl/gl-picture.h"
#include "preview/view/stone-view.h"
#include "preview/scene/swing.h"

struct _BwStoneView {
  GtkWidget parent;
  BwSession *session;
  BwProject *project; /* the one the signals are connected to */

  GtkWidget *area;      /* a GtkGLArea; NULL when drawn */
  BwRenderer *renderer; /* these two only while the area is realized */
  BwGlPicture *picture;
  gboolean es;

  BwScene *scene;
  gboolean scene_stale;   /* must be built anew */
  gboolean colours_stale; /* must be coloured anew */
  gboolean upload_stale;  /* the renderer has not seen the scene */

  gboolean hung;         /* the piece hangs, or is on its way there */
  guint swing_tick;      /* 0 when it does not swing */
  gint64 swing_since;    /* of the frame clock, µs; 0 until its first frame */
  BwSwing swing;         /* how it began */
  double lean, speed;    /* now, of the pose */
  gboolean gliding;      /* the camera is on its way from the upright one */
  double glide;          /* how far, 0..1 */
  BwCamera glides_from;  /* about the plumb line */
  BwCamera upright;      /* the camera the piece was last seen upright with */
  gboolean stance_stale; /* the renderer has not seen the cord in this stance */

  BwCamera grabbed; /* where a drag or a pinch began */
  gboolean turning; /* a drag is going on: nothing is pointed at */
  BwCamera drawn_from;
  BwGlPace pace;
  guint describe_source, refine_source;
};

/* Follows the session into rest and out of it. */
void bw_stone_view_follow_rest (BwStoneView *self);
/* Puts a new scene into the stance the piece had, and lets it go where its rest is another now. */
void bw_stone_view_take_stance (BwStoneView *self);
/* At rest at once, when it was on its way there. */
void bw_stone_view_end_swing (BwStoneView *self);
/* Balance point, plumb line and tilt, over the picture. */
void bw_stone_view_draw_marks (BwStoneView *self, GtkSnapshot *snapshot, int width, int height);
/* The tilt in words. Owned. */
char *bw_stone_view_tilt_words (const BwSceneRest *rest);
/* Asks for a new picture. */
void bw_stone_view_redraw (BwStoneView *self);
/* Adds gestures, wheel, pointer and keys. */
void bw_stone_view_add_input (BwStoneView *self);
