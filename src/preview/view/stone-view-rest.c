/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hanging in the view: the piece is let go upright, swings about the point it hangs by and comes to
 * rest, while the viewer walks round to its side. Time is the frame clock's; once at rest nothing
 * ticks. Which camera is whose is the session's business, so that undo never moves one. */
#include "config.h"

#include "preview/view/stone-view-private.h"

#include <glib/gi18n-lib.h>

#define NEARLY_LEVEL_DEG 85.0 /* from here on an eye sees a level piece, not one tip up or down */

static gboolean
may_move (BwStoneView *self)
{
  gboolean animations = TRUE;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animations,
                NULL);
  return animations && gtk_widget_get_mapped (GTK_WIDGET (self));
}

static void
stop_ticking (BwStoneView *self)
{
  if (self->swing_tick)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->swing_tick);
  self->swing_tick = 0;
  self->gliding = FALSE;
}

static void
settle (BwStoneView *self)
{
  stop_ticking (self);
  bw_scene_stand_at_rest (self->scene);
  self->lean = self->scene->rest.stance.pose.lean;
  self->speed = 0;
  self->stance_stale = TRUE;
}

void
bw_stone_view_end_swing (BwStoneView *self)
{
  if (!self->swing_tick)
    return;
  settle (self);
  bw_stone_view_redraw (self);
}

static void
stand_as_swung (BwStoneView *self, double seconds)
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
  BwStoneView *self = BW_STONE_VIEW (widget);
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  bw_stone_view_get_scene (self);
  if (!self->swing_since)
    self->swing_since = now;
  double seconds = (double)(now - self->swing_since) / G_USEC_PER_SEC;
  if (seconds < BW_SWING_S)
    stand_as_swung (self, seconds);
  else
    settle (self);
  bw_stone_view_redraw (self);
  return self->swing_tick ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

/* From where the piece is now; offset: from where it will rest. */
static void
let_go (BwStoneView *self, double offset, double speed)
{
  if (!may_move (self)) {
    settle (self);
    return;
  }
  self->swing = (BwSwing){ offset, speed };
  self->swing_since = 0;
  stand_as_swung (self, 0);
  if (!self->swing_tick)
    self->swing_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), tick, NULL, NULL);
}

/* The upright camera, seen about the plumb line: the piece has turned its bail to azimuth 0. */
static BwCamera
upright_about_plumb (BwStoneView *self)
{
  BwCamera camera = self->upright;
  camera.turn_deg -= bw_degrees (self->scene->rest.stance.pose.turn);
  return camera;
}

static void
hang (BwStoneView *self)
{
  self->hung = TRUE;
  self->glides_from = upright_about_plumb (self);
  self->gliding = TRUE;
  self->lean = 0;
  let_go (self, -self->scene->rest.stance.pose.lean, 0);
}

static void
take_down (BwStoneView *self)
{
  stop_ticking (self);
  self->hung = FALSE;
  bw_scene_stand_upright (self->scene);
  self->stance_stale = TRUE;
}

static gboolean
shall_hang (BwStoneView *self)
{
  return bw_session_get_at_rest (self->session) && self->scene->rest.hangs;
}

void
bw_stone_view_follow_rest (BwStoneView *self)
{
  if (!bw_session_get_at_rest (self->session))
    self->upright = bw_session_get_camera (self->session);
  if (bw_session_get_at_rest (self->session) == self->hung)
    return;
  bw_stone_view_get_scene (self);
  if (shall_hang (self) && !self->hung)
    hang (self);
  else if (!shall_hang (self) && self->hung)
    take_down (self);
}

void
bw_stone_view_take_stance (BwStoneView *self)
{
  if (shall_hang (self) != self->hung) {
    if (self->hung)
      take_down (self);
    else
      hang (self);
    return;
  }
  if (!self->hung)
    return;
  double offset = self->lean - self->scene->rest.stance.pose.lean;
  if (fabs (offset) > 1e-9 || self->swing_tick)
    let_go (self, offset, self->speed);
  else
    settle (self);
}

/* The shorter way round. */
static double
turn_between (double from, double to, double share)
{
  return from + share * remainder (to - from, 360);
}

BwCamera
bw_stone_view_get_camera (BwStoneView *self)
{
  BwCamera to = bw_session_get_camera (self->session), from = self->glides_from;
  if (!self->gliding || self->glide >= 1)
    return to;
  return (BwCamera){ .turn_deg = turn_between (from.turn_deg, to.turn_deg, self->glide),
                     .tip_deg = from.tip_deg + self->glide * (to.tip_deg - from.tip_deg),
                     .zoom = from.zoom * pow (to.zoom / from.zoom, self->glide) };
}

gboolean
bw_stone_view_is_swinging (BwStoneView *self)
{
  g_return_val_if_fail (BW_IS_STONE_VIEW (self), FALSE);
  return self->swing_tick != 0;
}

char *
bw_stone_view_tilt_words (const BwSceneRest *rest)
{
  if (rest->up == BW_UP_LEVEL)
    return g_strdup (_ ("Hangs level."));
  if (rest->tilt_deg > NEARLY_LEVEL_DEG)
    return g_strdup (rest->up == BW_UP_TIP ? _ ("Nearly level, the tip a little higher.")
                                           : _ ("Nearly level, the tip a little lower."));
  /* Translators: the angle between the stone's axis and the plumb line. */
  if (rest->up == BW_UP_TIP)
    return g_strdup_printf (_ ("Tip up, %.0f° off the plumb line."), rest->tilt_deg);
  return g_strdup_printf (_ ("Tip down, %.0f° off the plumb line."), rest->tilt_deg);
}
