/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/view/view-motion.h"

#include "preview/scene/swing.h"
#include "preview/view/may-move.h"

void
bw_view_motion_stop (BwViewMotion *self)
{
  if (self->tick)
    gtk_widget_remove_tick_callback (self->ticker, self->tick);
  self->tick = 0;
}

/* Brings the camera to where it is due; TRUE when it has arrived. */
static gboolean
move (BwViewMotion *self, double seconds)
{
  double share = bw_swing_glide (seconds);
  BwCamera camera = self->going_over ? bw_camera_between (self->from, self->to, share)
                                     : bw_coast_after (self->from, self->coast, seconds);
  bw_session_set_camera (self->session, camera);
  self->set = bw_session_get_camera (self->session);
  return self->going_over ? share >= 1 : seconds >= BW_COAST_S;
}

static gboolean
is_others (BwViewMotion *self)
{
  BwCamera now = bw_session_get_camera (self->session), set = self->set;
  return now.turn_deg != set.turn_deg || now.tip_deg != set.tip_deg || now.zoom != set.zoom;
}

static gboolean
tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwViewMotion *self = data;
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  if (!self->since)
    self->since = now;
  if (!is_others (self) && !move (self, (double)(now - self->since) / G_USEC_PER_SEC))
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  return G_SOURCE_REMOVE;
}

static void
start (BwViewMotion *self)
{
  bw_view_motion_stop (self);
  self->from = self->set = bw_session_get_camera (self->session);
  self->since = 0;
  self->tick = gtk_widget_add_tick_callback (self->ticker, tick, self, NULL);
}

void
bw_view_motion_run_on (BwViewMotion *self, BwCoast coast)
{
  if (!bw_view_may_move (self->ticker))
    return;
  self->going_over = FALSE;
  self->coast = coast;
  start (self);
}

void
bw_view_motion_go_over (BwViewMotion *self, BwCamera to)
{
  bw_view_motion_stop (self);
  if (!bw_view_may_move (self->ticker)) {
    bw_session_set_camera (self->session, to);
    return;
  }
  self->going_over = TRUE;
  self->to = to;
  start (self);
}
