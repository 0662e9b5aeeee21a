/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker does to the canvas: draw with mouse, pen or finger, roll and come nearer.
 * Everything that changes a bead goes through the hand. */
#include "config.h"

#include "editor/band/band-input.h"

#include "editor/band/band-deeds.h"
#include "editor/band/band-keys.h"
#include "editor/cloth/listening.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WHEEL_PX 60.0 /* one notch of a wheel rolls this far */
#define CLICK_PX 4.0  /* a press that moves no farther is a click */

/* --- Drawing and picking up --------------------------------------------------------------------
 */

static BwBandPoint
point_of (BwBandInput *input, double x, double y)
{
  return bw_band_layout_point (&input->work->view->layout, x, y);
}

static void
begin_tool (BwBandInput *input, const BwTool *tool, double x, double y)
{
  BwBeadAt bead;
  input->drag_x = x;
  input->drag_y = y;
  bw_band_work_say (input->work, NULL);
  bw_band_work_settle (input->work);
  input->work->cursor.extending = FALSE;
  input->work->by_keyboard = FALSE;
  bw_band_roll_hold (&input->work->roll, x);
  gtk_widget_grab_focus (input->work->view->widget);
  if (bw_band_view_bead (input->work->view, x, y, &bead))
    bw_band_work_set_cursor (input->work, bead, FALSE);
  bw_hand_begin (input->work->hand, tool, &input->work->view->layout, point_of (input, x, y));
}

static void
take_held (BwBandInput *input, GtkEventController *controller)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  bw_band_keys_hold (input->work, state);
}

/* A press on a piece in the air takes hold of it; one beside it lays it down and does no more. */
static void
hold_piece (BwBandInput *input, double x, double y)
{
  input->drag_x = x;
  input->drag_y = y;
  gtk_widget_grab_focus (input->work->view->widget);
  if (!bw_band_air_hold (&input->work->air, point_of (input, x, y)))
    bw_band_work_lay_down (input->work);
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
would_miss_a_trial (BwBandInput *input, double x, double y)
{
  BwBeadAt bead;
  return bw_project_has_trial (input->work->view->project)
         && !bw_band_view_bead (input->work->view, x, y, &bead);
}

/* What a press beside the band cannot do; NULL where a pull may yet come onto it. */
static const char *
missed (const BwTool *tool)
{
  switch (tool->kind) {
  case BW_TOOL_FLOOD:
  case BW_TOOL_SWAP:
  case BW_TOOL_PICK:
    return _ ("There is no bead here: press on the band.");
  case BW_TOOL_MOVE:
    return _ ("Nothing is selected.");
  case BW_TOOL_BEAD:
  case BW_TOOL_LINE:
  case BW_TOOL_RECTANGLE:
  case BW_TOOL_FRAME:
  case BW_TOOL_ERASE:
  case BW_TOOL_SELECT:
  case BW_TOOL_SELECT_COLOUR:
  case BW_N_TOOLS:
  default:
    return NULL;
  }
}

static void
say_locked (BwBandWork *work, int column)
{
  g_autofree char *words
      = g_strdup_printf (_ ("Column %d is locked: a click on its number unlocks it."), column);
  bw_band_work_say (work, words);
}

static void
begin_or_say (BwBandInput *input, const BwTool *tool, double x, double y)
{
  BwBandWork *work = input->work;
  BwBeadAt bead;
  gboolean on_band = bw_band_view_bead (work->view, x, y, &bead);
  begin_tool (input, tool, x, y);
  if (on_band && tool->kind == BW_TOOL_PICK)
    bw_band_work_pick_up (work, bead);
  else if (!on_band)
    bw_band_work_say (work, missed (tool));
  else if (tool->step != NULL && bw_session_is_locked (work->view->session, bead.column))
    say_locked (work, bead.column);
}

static void
refuse (BwBandInput *input, GtkGestureDrag *drag, const char *sentence)
{
  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
  if (sentence != NULL)
    bw_band_work_say (input->work, sentence);
}

/* The column whose number is there, beside the band; 0 for none. */
static int
column_on_ruler (BwBandInput *input, double x, double y)
{
  const BwBandLayout *layout = &input->work->view->layout;
  int column = bw_band_brick (point_of (input, x, y)).column;
  gboolean beside = x < layout->x && y < layout->y + layout->height;
  return beside && column >= 1 && column <= layout->columns ? column : 0;
}

/* The row whose number is there, beneath the band; 0 for none. Rows of even and of odd columns take
 * turns. */
static int
row_on_ruler (BwBandInput *input, double x, double y)
{
  const BwBandLayout *layout = &input->work->view->layout;
  if (x < layout->x || y < layout->y + layout->height)
    return 0;
  double u = point_of (input, x, y).u;
  int one = bw_band_brick ((BwBandPoint){ u, 0.5 }).row;
  int other = bw_band_brick ((BwBandPoint){ u, 1.5 }).row;
  gboolean nearer = fabs (bw_band_middle (one, 1).u - u) < fabs (bw_band_middle (other, 2).u - u);
  return bw_band_layout_row (layout, nearer ? one : other);
}

/* A press on a column's number locks the column, or unlocks it. */
static void
press_ruler (BwBandInput *input, double x, double y)
{
  int column = column_on_ruler (input, x, y);
  if (column > 0)
    bw_band_deeds_lock (input->work, column);
}

/* A second button during a stroke belongs to the stroke. */
static void
on_draw_begin (GtkGestureDrag *drag, double x, double y, BwBandInput *input)
{
  BwBandWork *work = input->work;
  if (bw_band_work_is_drawing (work) || !bw_band_view_has (work->view, x, y)) {
    refuse (input, drag, NULL);
    if (!bw_band_work_is_drawing (work))
      press_ruler (input, x, y);
    return;
  }
  if (would_miss_a_trial (input, x, y)) {
    refuse (input, drag, _ ("There is no bead here; what is tried stays as it is."));
    return;
  }
  take_held (input, GTK_EVENT_CONTROLLER (drag));
  if (work->air.piece != NULL) {
    hold_piece (input, x, y);
    return;
  }
  const BwTool *tool
      = is_rubber (GTK_GESTURE (drag))
            ? bw_tool_get (BW_TOOL_ERASE)
            : bw_tool_at (work->view->session, &work->view->layout, point_of (input, x, y));
  begin_or_say (input, tool, x, y);
}

/* When it is let go: a menu that opened under a button still pressed would be released on, not
 * pressed.
 */
static void
on_menu_press (GtkGestureClick *click, int n_press, double x, double y, BwBandInput *input)
{
  BwBandWork *work = input->work;
  BwBeadAt bead = { 0, 0 };
  if (bw_band_work_is_drawing (work))
    return;
  gtk_widget_grab_focus (work->view->widget);
  bw_band_work_say (work, NULL);
  if (bw_band_view_bead (work->view, x, y, &bead))
    bw_band_work_set_cursor (work, bead, FALSE);
  else
    bead = (BwBeadAt){ row_on_ruler (input, x, y), column_on_ruler (input, x, y) };
  bw_band_work_open_menu (work, x, y, bead);
}

static void
on_tool_update (GtkGestureDrag *drag, double dx, double dy, BwBandInput *input)
{
  double x = input->drag_x + dx, y = input->drag_y + dy;
  bw_band_air_pull (&input->work->air, point_of (input, x, y));
  if (!bw_band_work_is_drawing (input->work))
    return;
  take_held (input, GTK_EVENT_CONTROLLER (drag));
  bw_hand_update (input->work->hand, point_of (input, x, y));
  bw_band_work_tell (input->work);
  bw_band_roll_push (&input->work->roll, x, y);
}

static void
on_tool_end (GtkGestureDrag *drag, double dx, double dy, BwBandInput *input)
{
  input->work->air.held = FALSE;
  if (bw_band_work_is_drawing (input->work))
    bw_hand_end (input->work->hand, point_of (input, input->drag_x + dx, input->drag_y + dy));
  bw_band_layout_normalise (&input->work->view->layout);
  bw_band_work_tell (input->work);
}

static void
on_tool_cancel (GtkGesture *gesture, GdkEventSequence *sequence, BwBandInput *input)
{
  if (bw_band_work_is_drawing (input->work))
    bw_hand_revert (input->work->hand);
}

/* A pen reports more places than the display shows frames: the stroke goes through all of them. */
static void
on_pen_motion (GtkGestureStylus *pen, double x, double y, BwBandInput *input)
{
  g_autofree GdkTimeCoord *backlog = NULL;
  guint n = 0;
  if (!bw_hand_busy (input->work->hand) || !gtk_gesture_stylus_get_backlog (pen, &backlog, &n))
    return;
  for (guint i = 0; i < n; i++)
    bw_hand_update (input->work->hand,
                    point_of (input, backlog[i].axes[GDK_AXIS_X], backlog[i].axes[GDK_AXIS_Y]));
}

/* --- Rolling and coming nearer -----------------------------------------------------------------
 */

static void
on_pan_begin (GtkGestureDrag *drag, double x, double y, BwBandInput *input)
{
  input->held_x = input->held_y = 0;
  input->drag_x = x;
  input->drag_y = y;
  gtk_widget_set_cursor_from_name (input->work->view->widget, "grabbing");
}

static void
on_pan_update (GtkGestureDrag *drag, double dx, double dy, BwBandInput *input)
{
  bw_band_layout_pan (&input->work->view->layout, dx - input->held_x, dy - input->held_y);
  input->held_x = dx;
  input->held_y = dy;
  bw_band_work_moved (input->work);
}

/* Pressed and let go in one place, the middle button picks up the colour there. */
static void
on_pan_end (GtkGestureDrag *drag, double dx, double dy, BwBandInput *input)
{
  BwBeadAt bead;
  if (fabs (dx) + fabs (dy) < CLICK_PX && !bw_hand_busy (input->work->hand)
      && bw_band_view_bead (input->work->view, input->drag_x, input->drag_y, &bead))
    bw_band_work_pick_up (input->work, bead);
  const BwTool *tool = bw_tool_get (bw_session_get_tool (input->work->view->session));
  gtk_widget_set_cursor_from_name (input->work->view->widget, tool->cursor);
}

static gboolean
band_fits_upright (BwBandInput *input)
{
  return input->work->view->layout.columns * bw_band_layout_column_px (&input->work->view->layout)
         <= input->work->view->layout.height;
}

/* A wheel has one axis: it rolls when there is nothing to see above or below, or with Shift. */
static void
scroll_by (BwBandInput *input, double dx, double dy, gboolean shift)
{
  if (shift || (band_fits_upright (input) && fabs (dy) > fabs (dx)))
    dx += dy, dy = 0;
  bw_band_layout_pan (&input->work->view->layout, -dx, -dy);
  bw_band_work_moved (input->work);
}

static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, BwBandInput *input)
{
  GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  gboolean wheel = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
  double unit = wheel ? WHEEL_PX : 1;

  if (state & GDK_CONTROL_MASK) {
    double notches = wheel ? dy : dy / WHEEL_PX;
    bw_band_work_zoom (input->work, input->work->view->layout.zoom * pow (BW_ZOOM_NOTCH, -notches));
  } else {
    scroll_by (input, dx * unit, dy * unit, (state & GDK_SHIFT_MASK) != 0);
  }
  return GDK_EVENT_STOP;
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, BwBandInput *input)
{
  bw_hand_revert (input->work->hand);
  input->work->air.held = FALSE;
  input->pinch_zoom = input->work->view->layout.zoom;
  gtk_gesture_get_bounding_box_center (gesture, &input->held_x, &input->held_y);
}

/* What the fingers hold stays between them. */
static void
on_pinch (GtkGestureZoom *pinch, double scale, BwBandInput *input)
{
  double x, y;
  if (!gtk_gesture_get_bounding_box_center (GTK_GESTURE (pinch), &x, &y))
    return;
  bw_band_layout_pan (&input->work->view->layout, x - input->held_x, y - input->held_y);
  bw_band_layout_zoom_about (&input->work->view->layout, input->pinch_zoom * scale, x, y);
  input->held_x = x;
  input->held_y = y;
  bw_band_work_moved (input->work);
}

/* --- Focus -------------------------------------------------------------------------------------
 */

static void
on_focus_enter (BwBandInput *input)
{
  bw_band_work_set_cursor (input->work, input->work->cursor.at, input->work->cursor.shown);
}

static void
on_focus_leave (BwBandInput *input)
{
  bw_band_work_settle (input->work);
  if (input->work->cursor.shown)
    bw_session_set_hover (input->work->view->session, FALSE, 0, 0);
  gtk_widget_queue_draw (input->work->view->widget);
}

/* --- Wiring ------------------------------------------------------------------------------------
 */

static void
add_drag (BwBandInput *input, guint button, GCallback begin, GCallback update, GCallback end,
          GCallback cancel)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), button);
  g_signal_connect (drag, "drag-begin", begin, input);
  g_signal_connect (drag, "drag-update", update, input);
  g_signal_connect (drag, "drag-end", end, input);
  if (cancel != NULL)
    g_signal_connect (drag, "cancel", cancel, input);
  gtk_widget_add_controller (input->work->view->widget, GTK_EVENT_CONTROLLER (drag));
}

static void
add_gestures (BwBandInput *input)
{
  GtkGesture *pinch = gtk_gesture_zoom_new (), *pen = gtk_gesture_stylus_new ();
  GtkGesture *menu = gtk_gesture_click_new ();

  add_drag (input, GDK_BUTTON_PRIMARY, G_CALLBACK (on_draw_begin), G_CALLBACK (on_tool_update),
            G_CALLBACK (on_tool_end), G_CALLBACK (on_tool_cancel));
  add_drag (input, GDK_BUTTON_MIDDLE, G_CALLBACK (on_pan_begin), G_CALLBACK (on_pan_update),
            G_CALLBACK (on_pan_end), NULL);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  g_signal_connect (menu, "released", G_CALLBACK (on_menu_press), input);
  gtk_widget_add_controller (input->work->view->widget, GTK_EVENT_CONTROLLER (menu));
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), input);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), input);
  gtk_widget_add_controller (input->work->view->widget, GTK_EVENT_CONTROLLER (pinch));
  /* Added last, so that the pen's backlog arrives before the drag's newest place. */
  g_signal_connect (pen, "motion", G_CALLBACK (on_pen_motion), input);
  gtk_widget_add_controller (input->work->view->widget, GTK_EVENT_CONTROLLER (pen));
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, BwBandInput *input)
{
  /* GTK repeats the last place after a redraw; that must not take the lead from the keyboard. */
  if (input->work->pointer_inside && x == input->work->pointer_x && y == input->work->pointer_y)
    return;
  bw_band_work_hover_at (input->work, x, y);
}

static void
on_leave (BwBandInput *input)
{
  bw_band_work_unhover (input->work);
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
        BwBandInput *input)
{
  return bw_band_keys_press (input->work, key, state);
}

static gboolean
on_modifiers (GtkEventControllerKey *keys, GdkModifierType state, BwBandInput *input)
{
  bw_band_keys_hold (input->work, state);
  bw_band_work_tell (input->work);
  return FALSE;
}

void
bw_band_input_init (BwBandInput *input, BwBandWork *work)
{
  static const BwListening listening = {
    .pointed = G_CALLBACK (on_motion),
    .left = G_CALLBACK (on_leave),
    .scrolled = G_CALLBACK (on_scroll),
    .key_pressed = G_CALLBACK (on_key),
    .modifiers = G_CALLBACK (on_modifiers),
    .focused = G_CALLBACK (on_focus_enter),
    .unfocused = G_CALLBACK (on_focus_leave),
  };
  *input = (BwBandInput){ .work = work };
  add_gestures (input);
  bw_listen (work->view->widget, &listening, input);
}
