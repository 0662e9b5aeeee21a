/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes by pointer, pen or finger, and the same by keys. */
#include "config.h"

#include "editor/bail/bail-strip-input.h"

#include "editor/bail/bail-look.h"
#include "editor/cloth/listening.h"
#include "core/base/lattice.h"
#include "editor/tool/stroke.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WHEEL_PX 60.0

static BwBandPoint
point_of (BwBailStripInput *input, double x, double y)
{
  return bw_band_layout_point (&input->laid->view->layout, x, y);
}

static int
bail_rows (BwBailStripInput *input)
{
  return bw_drawing_rows (bw_bail_laid_drawing (input->laid));
}

/* --- Strokes -----------------------------------------------------------------------------------
 */

typedef struct {
  BwBailStripInput *input;
  GArray *beads; /* of BwBeadColour */
} Lay;

static void
lay_one (int cloth_row, int column, gpointer data)
{
  Lay *lay = data;
  BwBeadColour bead = { cloth_row - lay->input->laid->lead, column,
                        (guint8)bw_session_get_colour (lay->input->laid->view->session) };
  g_array_append_val (lay->beads, bead);
}

static void
lay_to (BwBailStripInput *input, BwBandPoint to)
{
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadColour));
  Lay lay = { input, beads };
  bw_stroke_visit (input->last, to, input->laid->view->layout.columns, lay_one, &lay);
  input->last = to;
  bw_project_set_beads (input->laid->view->project, "", TRUE,
                        (const BwBeadColour *)(void *)beads->data, beads->len);
}

void
bw_bail_strip_input_end (BwBailStripInput *input, gboolean keep)
{
  if (!input->drawing)
    return;
  input->drawing = FALSE;
  if (keep)
    bw_project_commit (input->laid->view->project);
  else
    bw_project_revert (input->laid->view->project);
}

static void
set_bead (BwBailStripInput *input, BwBeadAt bead, int colour)
{
  bw_session_settle (input->laid->view->session);
  bw_bail_look_at (input->laid->view->session);
  bw_project_set_bead (input->laid->view->project, _ ("Colour the bail"), TRUE, bead.row,
                       bead.column, (guint8)colour);
}

static void
pick (BwBailStripInput *input, BwBeadAt bead)
{
  bw_session_set_colour (
      input->laid->view->session,
      bw_drawing_get (bw_bail_laid_drawing (input->laid), bead.row, bead.column));
}

static void
on_begin (GtkGestureDrag *drag, double x, double y, BwBailStripInput *input)
{
  BwBeadAt bead;
  gtk_widget_grab_focus (input->laid->view->widget);
  if (input->drawing || !bw_bail_laid_bead_at (input->laid, x, y, &bead.row, &bead.column)) {
    gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
    if (!input->drawing)
      bw_bail_laid_tell (input->laid, bw_bail_laid_missed (input->laid, x, y));
    return;
  }
  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
  bw_session_settle (input->laid->view->session);
  bw_bail_laid_set_cursor (input->laid, bead, FALSE);
  bw_bail_look_at (input->laid->view->session);
  bw_project_begin (input->laid->view->project, _ ("Colour the bail"));
  input->drawing = TRUE;
  input->drag_x = x;
  input->drag_y = y;
  input->last = point_of (input, x, y);
  lay_to (input, input->last);
}

static void
on_update (GtkGestureDrag *drag, double dx, double dy, BwBailStripInput *input)
{
  if (input->drawing)
    lay_to (input, point_of (input, input->drag_x + dx, input->drag_y + dy));
}

static void
on_end (GtkGestureDrag *drag, double dx, double dy, BwBailStripInput *input)
{
  on_update (drag, dx, dy, input);
  bw_bail_strip_input_end (input, TRUE);
}

static void
on_cancel (GtkGesture *gesture, GdkEventSequence *sequence, BwBailStripInput *input)
{
  bw_bail_strip_input_end (input, FALSE);
}

static void
on_pick (GtkGestureClick *click, int n_press, double x, double y, BwBailStripInput *input)
{
  BwBeadAt bead;
  gtk_widget_grab_focus (input->laid->view->widget);
  if (bw_bail_laid_bead_at (input->laid, x, y, &bead.row, &bead.column))
    pick (input, bead);
  else
    bw_bail_laid_tell (input->laid, bw_bail_laid_missed (input->laid, x, y));
}

/* --- Pointing ----------------------------------------------------------------------------------
 */

static void
point_at_cursor (BwBailStripInput *input)
{
  gboolean keyboard = input->laid->cursor_shown && gtk_widget_has_focus (input->laid->view->widget);
  bw_session_set_hover (input->laid->view->session, TRUE, keyboard ? input->laid->cursor.row : 0,
                        keyboard ? input->laid->cursor.column : 0);
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, BwBailStripInput *input)
{
  int row, column;
  if (bw_bail_laid_bead_at (input->laid, x, y, &row, &column))
    bw_session_set_hover (input->laid->view->session, TRUE, row, column);
  else
    point_at_cursor (input);
}

/* A wheel rolls a strip too long for the view sideways; upright it scrolls the page. */
static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, BwBailStripInput *input)
{
  GtkEventController *controller = GTK_EVENT_CONTROLLER (scroll);
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  gboolean wheel = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
  BwBandLayout *layout = &input->laid->view->layout;
  if (state & GDK_SHIFT_MASK)
    dx += dy, dy = 0;
  if (fabs (dx) <= fabs (dy) || layout->rows < 1)
    return GDK_EVENT_PROPAGATE;
  double half = layout->width / 2 / bw_band_layout_pitch_px (layout) - 0.75;
  double reach = (layout->rows - 1) / 2.0;
  if (2 * half >= reach)
    return GDK_EVENT_PROPAGATE;
  bw_band_layout_pan (layout, -dx * (wheel ? WHEEL_PX : 1), 0);
  layout->roll = CLAMP (layout->roll, half, reach - half);
  gtk_widget_queue_draw (input->laid->view->widget);
  return GDK_EVENT_STOP;
}

/* --- Keys --------------------------------------------------------------------------------------
 */

/* Within the strip: sideways by a bead, up and down by a column, to and fro by half a bead. */
static BwBeadAt
walked (BwBailStripInput *input, int along, int up)
{
  BwBeadAt to = input->laid->cursor;
  int rows = bail_rows (input);
  if (up != 0 && to.column + up >= 1 && to.column + up <= input->laid->view->layout.columns) {
    int row = to.row % 2 ? to.row + 1 : to.row - 1;
    row = row > rows ? rows - 1 : row;
    if (row < 1)
      return to;
    to = (BwBeadAt){ row, to.column + up };
  }
  if (to.row + 2 * along >= 1 && to.row + 2 * along <= rows)
    to.row += 2 * along;
  return to;
}

static void
walk (BwBailStripInput *input, int along, int up)
{
  bw_bail_laid_set_cursor (
      input->laid, input->laid->cursor_shown ? walked (input, along, up) : input->laid->cursor,
      TRUE);
}

static void
walk_to_row (BwBailStripInput *input, int row)
{
  BwBeadAt to = { row, input->laid->cursor.column };
  if (!bw_lattice_has (row, to.column))
    to.column += to.column < input->laid->view->layout.columns ? 1 : -1;
  bw_bail_laid_set_cursor (input->laid, to, TRUE);
}

static gboolean
on_walk_key (BwBailStripInput *input, guint key)
{
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    walk (input, -1, 0);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    walk (input, 1, 0);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    walk (input, 0, 1);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    walk (input, 0, -1);
    return TRUE;
  case GDK_KEY_Home:
  case GDK_KEY_KP_Home:
    walk_to_row (input, 1);
    return TRUE;
  case GDK_KEY_End:
  case GDK_KEY_KP_End:
    walk_to_row (input, bail_rows (input));
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_letter_key (BwBailStripInput *input, guint key)
{
  gunichar letter = gdk_keyval_to_unicode (key);
  int index = letter ? bw_tray_find (bw_project_get_tray (input->laid->view->project), letter) : -1;
  if (index >= 0)
    bw_session_set_colour (input->laid->view->session, index);
  else if (key == GDK_KEY_p || key == GDK_KEY_P)
    pick (input, input->laid->cursor);
  else
    return FALSE;
  return TRUE;
}

static gboolean
on_deed_key (BwBailStripInput *input, guint key, gboolean shift)
{
  switch (key) {
  case GDK_KEY_space:
  case GDK_KEY_KP_Space:
    if (shift)
      pick (input, input->laid->cursor);
    else
      set_bead (input, input->laid->cursor, bw_session_get_colour (input->laid->view->session));
    break;
  case GDK_KEY_Delete:
  case GDK_KEY_KP_Delete:
  case GDK_KEY_BackSpace:
    set_bead (input, input->laid->cursor, bw_drawing_ground (bw_bail_laid_drawing (input->laid)));
    break;
  default:
    return FALSE;
  }
  bw_bail_laid_set_cursor (input->laid, input->laid->cursor, TRUE);
  return TRUE;
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
        BwBailStripInput *input)
{
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK)
      || !bw_bail_laid_drawing (input->laid))
    return FALSE;
  if (key == GDK_KEY_Escape) {
    gboolean drawing = input->drawing;
    bw_bail_strip_input_end (input, FALSE);
    return drawing;
  }
  if (input->drawing)
    return FALSE;
  return on_deed_key (input, key, (state & GDK_SHIFT_MASK) != 0) || on_walk_key (input, key)
         || on_letter_key (input, key);
}

static void
on_focus_leave (BwBailStripInput *input)
{
  bw_bail_strip_input_end (input, TRUE);
  if (input->laid->cursor_shown)
    bw_session_set_hover (input->laid->view->session, TRUE, 0, 0);
  gtk_widget_queue_draw (input->laid->view->widget);
}

/* Come by Tab, the cursor is what the keys will act on: it shows. */
static void
on_focus_enter (BwBailStripInput *input)
{
  gboolean shown = gtk_widget_has_visible_focus (input->laid->view->widget);
  if (bw_bail_laid_drawing (input->laid))
    bw_bail_laid_set_cursor (input->laid, input->laid->cursor, shown || input->laid->cursor_shown);
}

/* --- Wiring ------------------------------------------------------------------------------------
 */

static void
add_pointing (BwBailStripInput *input)
{
  GtkGesture *drag = gtk_gesture_drag_new (), *click = gtk_gesture_click_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), GDK_BUTTON_PRIMARY);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_begin), input);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_update), input);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_end), input);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_cancel), input);
  gtk_widget_add_controller (input->laid->view->widget, GTK_EVENT_CONTROLLER (drag));
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "pressed", G_CALLBACK (on_pick), input);
  gtk_widget_add_controller (input->laid->view->widget, GTK_EVENT_CONTROLLER (click));
}

void
bw_bail_strip_input_init (BwBailStripInput *input, BwBailLaid *laid)
{
  static const BwListening listening = {
    .pointed = G_CALLBACK (on_motion),
    .left = G_CALLBACK (point_at_cursor),
    .scrolled = G_CALLBACK (on_scroll),
    .key_pressed = G_CALLBACK (on_key),
    .focused = G_CALLBACK (on_focus_enter),
    .unfocused = G_CALLBACK (on_focus_leave),
  };
  *input = (BwBailStripInput){ .laid = laid };
  add_pointing (input);
  bw_listen (laid->view->widget, &listening, input);
}
