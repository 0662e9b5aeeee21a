/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The session's camera on its way by itself: running on after a turn by hand, or going over to
 * where it was asked to look. It knows a widget only as the owner of a frame clock. */
#pragma once

#include "preview/scene/camera-way.h"
#include <gtk/gtk.h>

typedef struct {
  GtkWidget *ticker;  /* whose frame clock is the time; borrowed */
  BwSession *session; /* whose camera moves; borrowed */

  guint tick;          /* 0 while nothing moves */
  gint64 since;        /* of the frame clock, µs; 0 until the first frame */
  gboolean going_over; /* to a camera; else running on */
  BwCoast coast;
  BwCamera from, to;
  BwCamera set; /* what the session was given last: another's hand ends the motion */
} BwViewMotion;

/* Runs on where the desktop lets things move; else stays. */
void bw_view_motion_run_on (BwViewMotion *self, BwCoast coast);
/* Goes over to a camera, and is there at once where nothing may move. */
void bw_view_motion_go_over (BwViewMotion *self, BwCamera to);
/* Stops where it is; nothing ticks any more. */
void bw_view_motion_stop (BwViewMotion *self);
