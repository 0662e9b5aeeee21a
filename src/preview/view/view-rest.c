/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hanging in the view: the piece is let go upright, swings about the point it hangs by and comes to
 * rest, while the viewer walks round to its side. Time is the frame clock's; once at rest nothing
 * ticks. Which camera is whose is the session's business, so that undo never moves one. */
#include "preview/view/view-rest.h"

#include "preview/scene/camera-way.h"
#include "preview/view/may-move.h"
#include <math.h>

#define SAME_LEAN 1e-9 /* radians: a new scene rests as the old one did */

static void
stop_ticking (BwViewRest *self)
{
  if (self->tick)
    gtk_widget_remove_tick_callback (self->ticker, self->tick);
  self->tick = 0;
  self->gliding = FALSE;
}

static void
settle (BwViewRest *self)
{
  stop_ticking (self);
  bw_scene_stand_at_rest (self->scene);
  self->lean = self->scene->rest.stance.pose.lean;
  self->speed = 0;
  self->stance_stale = TRUE;
}

void
bw_view_rest_end_swing (BwViewRest *self)
{
  if (!self->tick)
    return;
  settle (self);
  self->moved (self->owner);
}

static void
stand_as_swung (BwViewRest *self, double seconds)
{
  const BwSceneRest *rest = &self->scene->rest;
  BwSwing now = bw_swing_after (self->swing, seconds);
  self->lean = rest->stance.pose.lean + now.offset;
  self->speed = now.speed;
  self->glide = self->gliding ? bw_swing_glide (seconds) : 1;
  bw_scene_stand_swinging (self->scene, self->lean, self->glide);
  self->stance_stale = TRUE;
}

static gboolean
tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwViewRest *self = data;
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  self->scene = self->get_scene (self->owner);
  if (!self->since)
    self->since = now;
  double seconds = (double)(now - self->since) / G_USEC_PER_SEC;
  if (seconds < BW_SWING_S)
    stand_as_swung (self, seconds);
  else
    settle (self);
  self->moved (self->owner);
  return self->tick ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

/* From where the piece is now; offset: from where it will rest. */
static void
let_go (BwViewRest *self, double offset, double speed)
{
  if (!bw_view_may_move (self->ticker)) {
    settle (self);
    return;
  }
  self->swing = (BwSwing){ offset, speed };
  self->since = 0;
  stand_as_swung (self, 0);
  if (!self->tick)
    self->tick = gtk_widget_add_tick_callback (self->ticker, tick, self, NULL);
}

/* The upright camera, seen about the plumb line: the piece has turned its bail to azimuth 0. */
static BwCamera
upright_about_plumb (BwViewRest *self)
{
  BwCamera camera = self->upright;
  const BwPose *pose = &self->scene->rest.stance.pose;
  camera.turn_deg -= bw_degrees (pose->turn - pose->spin);
  return camera;
}

static void
hang (BwViewRest *self)
{
  self->hung = TRUE;
  self->glides_from = upright_about_plumb (self);
  self->gliding = TRUE;
  self->lean = 0;
  let_go (self, -self->scene->rest.stance.pose.lean, 0);
}

static void
take_down (BwViewRest *self)
{
  stop_ticking (self);
  self->hung = FALSE;
  bw_scene_stand_upright (self->scene);
  self->stance_stale = TRUE;
}

static gboolean
shall_hang (BwViewRest *self, gboolean at_rest)
{
  return at_rest && self->scene->rest.hangs;
}

void
bw_view_rest_follow (BwViewRest *self, gboolean at_rest, BwCamera camera)
{
  if (!at_rest)
    self->upright = camera;
  if (at_rest == self->hung)
    return;
  self->scene = self->get_scene (self->owner);
  if (shall_hang (self, at_rest) && !self->hung)
    hang (self);
  else if (!shall_hang (self, at_rest) && self->hung)
    take_down (self);
}

void
bw_view_rest_take_scene (BwViewRest *self, BwScene *scene, gboolean at_rest)
{
  self->scene = scene;
  if (shall_hang (self, at_rest) != self->hung) {
    if (self->hung)
      take_down (self);
    else
      hang (self);
    return;
  }
  if (!self->hung)
    return;
  double offset = self->lean - self->scene->rest.stance.pose.lean;
  if (fabs (offset) > SAME_LEAN || self->tick)
    let_go (self, offset, self->speed);
  else
    settle (self);
}

void
bw_view_rest_stop (BwViewRest *self)
{
  stop_ticking (self);
}

gboolean
bw_view_rest_is_swinging (const BwViewRest *self)
{
  return self->tick != 0;
}

BwCamera
bw_view_rest_camera (const BwViewRest *self, BwCamera to)
{
  return self->gliding ? bw_camera_between (self->glides_from, to, self->glide) : to;
}
