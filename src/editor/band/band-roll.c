/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band moving by itself: gently to a place asked for, and onward under a stroke that is held
 * against the view's edge. */
#include "editor/band/band-canvas-private.h"

#include <math.h>

#define GLIDE_US 220000  /* how long a roll to a place takes */
#define PUSH_PER_PX 12.0 /* pixels a second for every pixel beyond the edge */
#define PUSH_MOST 1500.0 /* pixels a second */
#define PUSH_STEP_S 0.05 /* no step is longer, however late the frame */

/* --- To a place --------------------------------------------------------------------------------
 */

void
bw_band_canvas_stop_glide (BwBandCanvas *self)
{
  if (self->glide != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->glide);
  self->glide = 0;
}

static gboolean
glide (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwBandCanvas *self = BW_BAND_CANVAS (widget);
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  if (self->glide_start == 0)
    self->glide_start = now;
  double rest = 1 - CLAMP ((double)(now - self->glide_start) / GLIDE_US, 0, 1);

  self->layout.roll = self->glide_to + (self->glide_from - self->glide_to) * rest * rest * rest;
  bw_band_canvas_shown_anew (self);
  if (rest > 0)
    return G_SOURCE_CONTINUE;
  self->glide = 0;
  return G_SOURCE_REMOVE;
}

static gboolean
is_animated (BwBandCanvas *self)
{
  gboolean animated = FALSE;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animated,
                NULL);
  return animated && gtk_widget_get_mapped (GTK_WIDGET (self));
}

void
bw_band_canvas_glide_to (BwBandCanvas *self, double roll)
{
  bw_band_canvas_stop_glide (self);
  self->fitted = BW_FIT_NOT;
  if (!is_animated (self)) {
    self->layout.roll = roll;
    bw_band_canvas_shown_anew (self);
    return;
  }
  self->glide_from = self->layout.roll;
  self->glide_to = roll;
  self->glide_start = 0;
  self->glide = gtk_widget_add_tick_callback (GTK_WIDGET (self), glide, NULL, NULL);
}

/* --- Onward under a stroke ---------------------------------------------------------------------
 */

void
bw_band_canvas_stop_push (BwBandCanvas *self)
{
  if (self->push != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->push);
  self->push = 0;
}

/* How far a place lies outside a span, with its sign. */
static double
beyond (double at, double low, double length)
{
  return at < low ? at - low : MAX (0, at - low - length);
}

static double
speed_at (double beyond_px)
{
  return CLAMP (beyond_px * PUSH_PER_PX, -PUSH_MOST, PUSH_MOST);
}

static gboolean
push (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwBandCanvas *self = BW_BAND_CANVAS (widget);
  BwBandLayout *layout = &self->layout;
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double seconds = self->push_last ? (double)(now - self->push_last) / G_USEC_PER_SEC : 0;
  double across = beyond (self->push_x, layout->x, layout->width);
  double up = beyond (self->push_y, layout->y, layout->height);

  if (!bw_hand_busy (self->hand) || (across == 0 && up == 0)) {
    self->push = 0;
    return G_SOURCE_REMOVE;
  }
  self->push_last = now;
  seconds = MIN (seconds, PUSH_STEP_S);
  bw_band_layout_pan (layout, -speed_at (across) * seconds, -speed_at (up) * seconds);
  self->fitted = BW_FIT_NOT;
  bw_hand_update (self->hand, bw_band_layout_point (layout, self->push_x, self->push_y));
  bw_band_canvas_shown_anew (self);
  return G_SOURCE_CONTINUE;
}

void
bw_band_canvas_push (BwBandCanvas *self, double x, double y)
{
  const BwBandLayout *layout = &self->layout;
  self->push_x = x;
  self->push_y = y;
  if (self->push != 0
      || (beyond (x, layout->x, layout->width) == 0 && beyond (y, layout->y, layout->height) == 0))
    return;
  self->push_last = 0;
  self->push = gtk_widget_add_tick_callback (GTK_WIDGET (self), push, NULL, NULL);
}
