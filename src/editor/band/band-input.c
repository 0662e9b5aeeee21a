/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker does to the canvas: draw with mouse, pen or finger, roll and come nearer, walk the
 * lattice by keyboard. Everything that changes a bead goes through the hand. */
#include "config.h"

#include "editor/band/band-canvas-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WHEEL_PX 60.0 /* one notch of a wheel rolls this far */

/* --- Drawing and picking up --------------------------------------------------------------------
 */

static BwBandPoint
point_of (BwBandCanvas *self, double x, double y)
{
  return bw_band_layout_point (&self->layout, x, y);
}

static void
begin_tool (BwBandCanvas *self, const BwTool *tool, double x, double y)
{
  int row, column;
  self->drag_x = x;
  self->drag_y = y;
  bw_band_canvas_say (self, NULL);
  bw_band_canvas_settle (self);
  self->extending = FALSE;
  self->by_keyboard = FALSE;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (bw_band_canvas_bead_at (self, x, y, &row, &column))
    bw_band_canvas_set_cursor_bead (self, (BwBeadAt){ row, column }, FALSE);
  bw_hand_begin (self->hand, tool, &self->layout, point_of (self, x, y));
}

static gboolean
is_drawing_by_pointer (BwBandCanvas *self)
{
  return bw_hand_busy (self->hand) && !self->by_keyboard;
}

static gboolean
is_on_band_view (BwBandCanvas *self, double x, double y)
{
  const BwBandLayout *layout = &self->layout;
  return x >= layout->x && x < layout->x + layout->width && y >= layout->y
         && y < layout->y + layout->height;
}

static void
take_held (BwBandCanvas *self, GtkEventController *controller)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  bw_hand_set_held (self->hand, bw_band_held (state));
}

/* A press on a piece in the air takes hold of it; one beside it lays it down and does no more. */
static void
hold_piece (BwBandCanvas *self, double x, double y)
{
  self->drag_x = x;
  self->drag_y = y;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (!bw_band_canvas_hold_piece (self, point_of (self, x, y)))
    bw_band_canvas_lay_down (self);
}

/* A pen turned over rubs out, whatever is in hand. */
static gboolean
is_rubber (GtkGesture *gesture)
{
  GdkEventSequence *sequence
      = gtk_gesture_single_get_current_sequence (GTK_GESTURE_SINGLE (gesture));
  GdkEvent *event = gtk_gesture_get_last_event (gesture, sequence);
  GdkDeviceTool *pen = event ? gdk_event_get_device_tool (event) : NULL;
  return pen && gdk_device_tool_get_tool_type (pen) == GDK_DEVICE_TOOL_TYPE_ERASER;
}

/* A motif or a picture that is only shown is not lost by a press beside the band. */
static gboolean
would_miss_a_trial (BwBandCanvas *self, double x, double y)
{
  int row, column;
  return bw_project_has_trial (self->project)
         && !bw_band_canvas_bead_at (self, x, y, &row, &column);
}

static void
on_draw_begin (GtkGestureDrag *drag, double x, double y, BwBandCanvas *self)
{
  if (is_drawing_by_pointer (self) || !is_on_band_view (self, x, y)
      || would_miss_a_trial (self, x, y)) {
    gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
    return;
  }
  take_held (self, GTK_EVENT_CONTROLLER (drag));
  if (self->piece != NULL) {
    hold_piece (self, x, y);
    return;
  }
  const BwTool *tool = is_rubber (GTK_GESTURE (drag))
                           ? bw_tool_get (BW_TOOL_ERASE)
                           : bw_tool_at (self->session, &self->layout, point_of (self, x, y));
  begin_tool (self, tool, x, y);
}

static void
on_pick_begin (GtkGestureDrag *drag, double x, double y, BwBandCanvas *self)
{
  if (is_drawing_by_pointer (self) || !is_on_band_view (self, x, y)) {
    gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
    return;
  }
  begin_tool (self, bw_tool_get (BW_TOOL_PICK), x, y);
}

static void
on_tool_update (GtkGestureDrag *drag, double dx, double dy, BwBandCanvas *self)
{
  double x = self->drag_x + dx, y = self->drag_y + dy;
  bw_band_canvas_pull_piece (self, point_of (self, x, y));
  if (!is_drawing_by_pointer (self))
    return;
  take_held (self, GTK_EVENT_CONTROLLER (drag));
  bw_hand_update (self->hand, point_of (self, x, y));
  bw_band_canvas_tell (self);
  bw_band_canvas_push (self, x, y);
}

static void
on_tool_end (GtkGestureDrag *drag, double dx, double dy, BwBandCanvas *self)
{
  self->piece_held = FALSE;
  if (is_drawing_by_pointer (self))
    bw_hand_end (self->hand, point_of (self, self->drag_x + dx, self->drag_y + dy));
  bw_band_layout_normalise (&self->layout);
  bw_band_canvas_tell (self);
}

static void
on_tool_cancel (GtkGesture *gesture, GdkEventSequence *sequence, BwBandCanvas *self)
{
  if (is_drawing_by_pointer (self))
    bw_hand_revert (self->hand);
}

/* A pen reports more places than the display shows frames: the stroke goes through all of them. */
static void
on_pen_motion (GtkGestureStylus *pen, double x, double y, BwBandCanvas *self)
{
  g_autofree GdkTimeCoord *backlog = NULL;
  guint n = 0;
  if (!bw_hand_busy (self->hand) || !gtk_gesture_stylus_get_backlog (pen, &backlog, &n))
    return;
  for (guint i = 0; i < n; i++)
    bw_hand_update (self->hand,
                    point_of (self, backlog[i].axes[GDK_AXIS_X], backlog[i].axes[GDK_AXIS_Y]));
}

/* --- Rolling and coming nearer -----------------------------------------------------------------
 */

static void
on_pan_begin (GtkGestureDrag *drag, double x, double y, BwBandCanvas *self)
{
  self->held_x = self->held_y = 0;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grabbing");
}

static void
on_pan_update (GtkGestureDrag *drag, double dx, double dy, BwBandCanvas *self)
{
  bw_band_layout_pan (&self->layout, dx - self->held_x, dy - self->held_y);
  self->held_x = dx;
  self->held_y = dy;
  bw_band_canvas_moved (self);
}

static void
on_pan_end (GtkGestureDrag *drag, double dx, double dy, BwBandCanvas *self)
{
  const BwTool *tool = bw_tool_get (bw_session_get_tool (self->session));
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), tool->cursor);
}

static gboolean
band_fits_upright (BwBandCanvas *self)
{
  return self->layout.columns * bw_band_layout_column_px (&self->layout) <= self->layout.height;
}

/* A wheel has one axis: it rolls when there is nothing to see above or below, or with Shift. */
static void
scroll_by (BwBandCanvas *self, double dx, double dy, gboolean shift)
{
  if (shift || (band_fits_upright (self) && fabs (dy) > fabs (dx)))
    dx += dy, dy = 0;
  bw_band_layout_pan (&self->layout, -dx, -dy);
  bw_band_canvas_moved (self);
}

static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, BwBandCanvas *self)
{
  GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  gboolean wheel = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
  double unit = wheel ? WHEEL_PX : 1;

  if (state & GDK_CONTROL_MASK) {
    double notches = wheel ? dy : dy / WHEEL_PX;
    bw_band_canvas_set_zoom (self, self->layout.zoom * pow (ZOOM_NOTCH, -notches));
  } else {
    scroll_by (self, dx * unit, dy * unit, (state & GDK_SHIFT_MASK) != 0);
  }
  return GDK_EVENT_STOP;
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, BwBandCanvas *self)
{
  bw_hand_revert (self->hand);
  self->piece_held = FALSE;
  self->pinch_zoom = self->layout.zoom;
  gtk_gesture_get_bounding_box_center (gesture, &self->held_x, &self->held_y);
}

/* What the fingers hold stays between them. */
static void
on_pinch (GtkGestureZoom *pinch, double scale, BwBandCanvas *self)
{
  double x, y;
  if (!gtk_gesture_get_bounding_box_center (GTK_GESTURE (pinch), &x, &y))
    return;
  bw_band_layout_pan (&self->layout, x - self->held_x, y - self->held_y);
  bw_band_layout_zoom_about (&self->layout, self->pinch_zoom * scale, x, y);
  self->held_x = x;
  self->held_y = y;
  bw_band_canvas_moved (self);
}

/* --- Focus -------------------------------------------------------------------------------------
 */

static void
on_focus_enter (BwBandCanvas *self)
{
  bw_band_canvas_set_cursor_bead (self, self->cursor, self->cursor_shown);
}

static void
on_focus_leave (BwBandCanvas *self)
{
  bw_band_canvas_settle (self);
  if (self->cursor_shown)
    bw_session_set_hover (self->session, FALSE, 0, 0);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- Wiring ------------------------------------------------------------------------------------
 */

static void
add_drag (BwBandCanvas *self, guint button, GCallback begin, GCallback update, GCallback end,
          GCallback cancel)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), button);
  g_signal_connect (drag, "drag-begin", begin, self);
  g_signal_connect (drag, "drag-update", update, self);
  g_signal_connect (drag, "drag-end", end, self);
  if (cancel != NULL)
    g_signal_connect (drag, "cancel", cancel, self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
}

static void
add_gestures (BwBandCanvas *self)
{
  GtkGesture *pinch = gtk_gesture_zoom_new (), *pen = gtk_gesture_stylus_new ();

  add_drag (self, GDK_BUTTON_PRIMARY, G_CALLBACK (on_draw_begin), G_CALLBACK (on_tool_update),
            G_CALLBACK (on_tool_end), G_CALLBACK (on_tool_cancel));
  add_drag (self, GDK_BUTTON_SECONDARY, G_CALLBACK (on_pick_begin), G_CALLBACK (on_tool_update),
            G_CALLBACK (on_tool_end), G_CALLBACK (on_tool_cancel));
  add_drag (self, GDK_BUTTON_MIDDLE, G_CALLBACK (on_pan_begin), G_CALLBACK (on_pan_update),
            G_CALLBACK (on_pan_end), NULL);
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (pinch));
  /* Added last, so that the pen's backlog arrives before the drag's newest place. */
  g_signal_connect (pen, "motion", G_CALLBACK (on_pen_motion), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (pen));
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, BwBandCanvas *self)
{
  /* GTK repeats the last place after a redraw; that must not take the lead from the keyboard. */
  if (self->pointer_inside && x == self->pointer_x && y == self->pointer_y)
    return;
  bw_band_canvas_hover_at (self, x, y);
}

void
bw_band_canvas_add_controllers (BwBandCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  add_gestures (self);
  g_signal_connect (motion, "enter", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (bw_band_canvas_unhover), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (bw_band_canvas_on_key), self);
  g_signal_connect (keys, "modifiers", G_CALLBACK (bw_band_canvas_on_modifiers), self);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (on_focus_enter), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (on_focus_leave), self);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, keys);
  gtk_widget_add_controller (widget, focus);
}
