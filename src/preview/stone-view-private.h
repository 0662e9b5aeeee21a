/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the two halves of the stone view share: the widget with its picture, and its input. */
#pragma once

#include "preview/camera.h"
#include "preview/gl-picture.h"
#include "preview/stone-view.h"

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

  BwCamera grabbed; /* where a drag or a pinch began */
  gboolean turning; /* a drag is going on: nothing is pointed at */
  BwCamera drawn_from;
  BwGlPace pace;
  guint describe_source, refine_source;
};

/* The scene as the project is now. */
const BwScene *bw_stone_view_scene (BwStoneView *self);
/* Asks for a new picture. */
void bw_stone_view_redraw (BwStoneView *self);
/* Adds gestures, wheel, pointer and keys. */
void bw_stone_view_add_input (BwStoneView *self);
