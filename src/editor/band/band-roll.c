/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Movement belongs here whole: whoever moves the view ends what moved it before, and the view is
 * told in one way. */
#include "editor/band/band-roll.h"

#include "editor/cloth/unrolled.h"

#include <math.h>

#define FIT_SPARE_PITCHES 2.5 /* of the neighbouring ghosts, shown when the whole band is */
#define GLIDE_US 220000       /* how long a roll to a place takes */
#define PUSH_WITHIN_PX                                                                             \
  16.0                   /* an end of the view begins so far within it: a canvas may end where the \
                          * screen does */
#define PUSH_PER_PX 12.0 /* pixels a second for every pixel beyond the edge */
#define PUSH_MOST 1500.0 /* pixels a second */
#define PUSH_STEP_S 0.05 /* no step is longer, however late the frame */

void
bw_band_roll_init (BwBandRoll *roll, BwBandView *view, BwHand *hand)
{
  *roll = (BwBandRoll){ .view = view, .hand = hand, .fitted = BW_FIT_TO_DRAW };
}

/* --- Fitting and standing ----------------------------------------------------------------------
 */

void
bw_band_roll_follow (BwBandRoll *roll)
{
  BwBandLayout *layout = &roll->view->layout;
  double margin = bw_band_margin_px (&roll->view->style) + 2;
  if (roll->fitted == BW_FIT_NOT)
    bw_band_layout_pan (layout, 0, 0);
  else if (layout->width <= 0 || layout->height <= 0)
    return;
  else if (roll->fitted == BW_FIT_WHOLE)
    bw_band_layout_fit (layout, FIT_SPARE_PITCHES, margin);
  else
    bw_band_layout_fit_to_draw (layout, margin);
}

static void
tell_view (BwBandRoll *roll)
{
  gtk_widget_queue_draw (roll->view->widget);
  bw_unrolled_seen (BW_UNROLLED (roll->view->widget));
}

static void
stop_glide (BwBandRoll *roll)
{
  if (roll->glide != 0)
    gtk_widget_remove_tick_callback (roll->view->widget, roll->glide);
  roll->glide = 0;
}

void
bw_band_roll_fit (BwBandRoll *roll, BwBandFit how)
{
  stop_glide (roll);
  roll->fitted = how;
  bw_band_roll_follow (roll);
  tell_view (roll);
}

void
bw_band_roll_shown_anew (BwBandRoll *roll)
{
  if (!bw_hand_busy (roll->hand))
    bw_band_layout_normalise (&roll->view->layout);
  tell_view (roll);
}

void
bw_band_roll_moved (BwBandRoll *roll)
{
  stop_glide (roll);
  roll->fitted = BW_FIT_NOT;
  bw_band_roll_shown_anew (roll);
}

/* How far [at − half, at + half] must move to lie in [low, high]; its middle wins when it cannot.
 */
static double
into_view (double at, double half, double low, double high)
{
  if (at - half < low)
    return low - (at - half);
  if (at + half > high)
    return high - (at + half);
  return 0;
}

void
bw_band_roll_reveal (BwBandRoll *roll, BwBeadAt bead)
{
  BwBandLayout *layout = &roll->view->layout;
  BwBandPoint middle = bw_band_middle (bw_band_layout_nearest (layout, bead.row), bead.column);
  double x = bw_band_layout_x (layout, middle.u), y = bw_band_layout_y (layout, middle.v);
  double dx
      = into_view (x, 1.5 * bw_band_layout_pitch_px (layout), layout->x, layout->x + layout->width);
  double dy = into_view (y, 1.5 * bw_band_layout_column_px (layout), layout->y,
                         layout->y + layout->height);
  if (dx == 0 && dy == 0)
    return;
  bw_band_layout_pan (layout, dx, dy);
  bw_band_roll_moved (roll);
}

/* --- To a place --------------------------------------------------------------------------------
 */

static gboolean
glide (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwBandRoll *roll = data;
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  if (roll->glide_start == 0)
    roll->glide_start = now;
  double rest = 1 - CLAMP ((double)(now - roll->glide_start) / GLIDE_US, 0, 1);

  roll->view->layout.roll
      = roll->glide_to + (roll->glide_from - roll->glide_to) * rest * rest * rest;
  bw_band_roll_shown_anew (roll);
  if (rest > 0)
    return G_SOURCE_CONTINUE;
  roll->glide = 0;
  return G_SOURCE_REMOVE;
}

static gboolean
is_animated (GtkWidget *widget)
{
  gboolean animated = FALSE;
  g_object_get (gtk_widget_get_settings (widget), "gtk-enable-animations", &animated, NULL);
  return animated && gtk_widget_get_mapped (widget);
}

void
bw_band_roll_glide_to (BwBandRoll *roll, double to)
{
  stop_glide (roll);
  roll->fitted = BW_FIT_NOT;
  if (!is_animated (roll->view->widget)) {
    roll->view->layout.roll = to;
    bw_band_roll_shown_anew (roll);
    return;
  }
  roll->glide_from = roll->view->layout.roll;
  roll->glide_to = to;
  roll->glide_start = 0;
  roll->glide = gtk_widget_add_tick_callback (roll->view->widget, glide, roll, NULL);
}

double
bw_band_roll_goal (const BwBandRoll *roll)
{
  return roll->glide ? roll->glide_to : roll->view->layout.roll;
}

/* --- Onward under a stroke ---------------------------------------------------------------------
 */

/* How far a place lies outside a span, with its sign. */
static double
beyond (double at, double low, double length)
{
  return at < low ? at - low : MAX (0, at - low - length);
}

static double
beyond_ends (const BwBandRoll *roll, double x)
{
  const BwBandLayout *layout = &roll->view->layout;
  double within = roll->within ? PUSH_WITHIN_PX : 0;
  return beyond (x, layout->x + within, layout->width - 2 * within);
}

static void
note_within (BwBandRoll *roll, double x)
{
  const BwBandLayout *layout = &roll->view->layout;
  if (beyond (x, layout->x + PUSH_WITHIN_PX, layout->width - 2 * PUSH_WITHIN_PX) == 0)
    roll->within = TRUE;
}

void
bw_band_roll_hold (BwBandRoll *roll, double x)
{
  roll->within = FALSE;
  note_within (roll, x);
}

static double
speed_at (double beyond_px)
{
  return CLAMP (beyond_px * PUSH_PER_PX, -PUSH_MOST, PUSH_MOST);
}

static gboolean
push (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwBandRoll *roll = data;
  BwBandLayout *layout = &roll->view->layout;
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double seconds = roll->push_last ? (double)(now - roll->push_last) / G_USEC_PER_SEC : 0;
  double across = beyond_ends (roll, roll->push_x);
  double up = beyond (roll->push_y, layout->y, layout->height);

  if (!bw_hand_busy (roll->hand) || (across == 0 && up == 0)) {
    roll->push = 0;
    return G_SOURCE_REMOVE;
  }
  roll->push_last = now;
  seconds = MIN (seconds, PUSH_STEP_S);
  bw_band_layout_pan (layout, -speed_at (across) * seconds, -speed_at (up) * seconds);
  roll->fitted = BW_FIT_NOT;
  bw_hand_update (roll->hand, bw_band_layout_point (layout, roll->push_x, roll->push_y));
  bw_band_roll_shown_anew (roll);
  return G_SOURCE_CONTINUE;
}

void
bw_band_roll_push (BwBandRoll *roll, double x, double y)
{
  const BwBandLayout *layout = &roll->view->layout;
  roll->push_x = x;
  roll->push_y = y;
  note_within (roll, x);
  if (roll->push != 0 || (beyond_ends (roll, x) == 0 && beyond (y, layout->y, layout->height) == 0))
    return;
  roll->push_last = 0;
  roll->push = gtk_widget_add_tick_callback (roll->view->widget, push, roll, NULL);
}

void
bw_band_roll_stop (BwBandRoll *roll)
{
  stop_glide (roll);
  if (roll->push != 0)
    gtk_widget_remove_tick_callback (roll->view->widget, roll->push);
  roll->push = 0;
}
