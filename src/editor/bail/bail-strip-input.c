/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes by pointer, pen or finger, and the same by keys. */
#include "config.h"

#include "editor/bail/bail-strip-private.h"

#include "editor/bail/bail-look.h"
#include "core/base/lattice.h"
#include "editor/tool/stroke.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WHEEL_PX 60.0

static BwBandPoint
point_of (BwBailStrip *self, double x, double y)
{
  return bw_band_layout_point (&self->layout, x, y);
}

static int
bail_rows (BwBailStrip *self)
{
  return bw_drawing_rows (bw_bail_strip_drawing (self));
}

/* --- Strokes -----------------------------------------------------------------------------------
 */

typedef struct {
  BwBailStrip *strip;
  GArray *beads; /* of BwBeadColour */
} Lay;

static void
lay_one (int cloth_row, int column, gpointer data)
{
  Lay *lay = data;
  BwBeadColour bead = { cloth_row - lay->strip->lead, column,
                        (guint8)bw_session_get_colour (lay->strip->session) };
  g_array_append_val (lay->beads, bead);
}

static void
lay_to (BwBailStrip *self, BwBandPoint to)
{
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadColour));
  Lay lay = { self, beads };
  bw_stroke_visit (self->last, to, self->layout.columns, lay_one, &lay);
  self->last = to;
  bw_project_set_beads (self->project, "", TRUE, (const BwBeadColour *)(void *)beads->data,
                        beads->len);
}

void
bw_bail_strip_end (BwBailStrip *self, gboolean keep)
{
  if (!self->drawing)
    return;
  self->drawing = FALSE;
  if (keep)
    bw_project_commit (self->project);
  else
    bw_project_revert (self->project);
}

static void
set_bead (BwBailStrip *self, BwBeadAt bead, int colour)
{
  bw_session_settle (self->session);
  bw_bail_look_at (self->session);
  bw_project_set_bead (self->project, _ ("Colour the bail"), TRUE, bead.row, bead.column,
                       (guint8)colour);
}

static void
pick (BwBailStrip *self, BwBeadAt bead)
{
  bw_session_set_colour (self->session,
                         bw_drawing_get (bw_bail_strip_drawing (self), bead.row, bead.column));
}

static void
on_begin (GtkGestureDrag *drag, double x, double y, BwBailStrip *self)
{
  BwBeadAt bead;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (self->drawing || !bw_bail_strip_bead_at (self, x, y, &bead.row, &bead.column)) {
    gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
    return;
  }
  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
  bw_session_settle (self->session);
  bw_bail_strip_set_cursor (self, bead, FALSE);
  bw_bail_look_at (self->session);
  bw_project_begin (self->project, _ ("Colour the bail"));
  self->drawing = TRUE;
  self->drag_x = x;
  self->drag_y = y;
  self->last = point_of (self, x, y);
  lay_to (self, self->last);
}

static void
on_update (GtkGestureDrag *drag, double dx, double dy, BwBailStrip *self)
{
  if (self->drawing)
    lay_to (self, point_of (self, self->drag_x + dx, self->drag_y + dy));
}

static void
on_end (GtkGestureDrag *drag, double dx, double dy, BwBailStrip *self)
{
  on_update (drag, dx, dy, self);
  bw_bail_strip_end (self, TRUE);
}

static void
on_cancel (GtkGesture *gesture, GdkEventSequence *sequence, BwBailStrip *self)
{
  bw_bail_strip_end (self, FALSE);
}

static void
on_pick (GtkGestureClick *click, int n_press, double x, double y, BwBailStrip *self)
{
  BwBeadAt bead;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (bw_bail_strip_bead_at (self, x, y, &bead.row, &bead.column))
    pick (self, bead);
}

/* --- Pointing ----------------------------------------------------------------------------------
 */

static void
point_at_cursor (BwBailStrip *self)
{
  gboolean keyboard = self->cursor_shown && gtk_widget_has_focus (GTK_WIDGET (self));
  bw_session_set_hover (self->session, TRUE, keyboard ? self->cursor.row : 0,
                        keyboard ? self->cursor.column : 0);
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, BwBailStrip *self)
{
  int row, column;
  if (bw_bail_strip_bead_at (self, x, y, &row, &column))
    bw_session_set_hover (self->session, TRUE, row, column);
  else
    point_at_cursor (self);
}

/* A wheel rolls a strip too long for the view sideways; upright it scrolls the page. */
static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, BwBailStrip *self)
{
  GtkEventController *controller = GTK_EVENT_CONTROLLER (scroll);
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  gboolean wheel = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
  BwBandLayout *layout = &self->layout;
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
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return GDK_EVENT_STOP;
}

/* --- Keys --------------------------------------------------------------------------------------
 */

/* Within the strip: sideways by a bead, up and down by a column, to and fro by half a bead. */
static BwBeadAt
walked (BwBailStrip *self, int along, int up)
{
  BwBeadAt to = self->cursor;
  int rows = bail_rows (self);
  if (up != 0 && to.column + up >= 1 && to.column + up <= self->layout.columns) {
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
walk (BwBailStrip *self, int along, int up)
{
  bw_bail_strip_set_cursor (self, self->cursor_shown ? walked (self, along, up) : self->cursor,
                            TRUE);
}

static void
walk_to_row (BwBailStrip *self, int row)
{
  BwBeadAt to = { row, self->cursor.column };
  if (!bw_lattice_has (row, to.column))
    to.column += to.column < self->layout.columns ? 1 : -1;
  bw_bail_strip_set_cursor (self, to, TRUE);
}

static gboolean
on_walk_key (BwBailStrip *self, guint key)
{
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    walk (self, -1, 0);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    walk (self, 1, 0);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    walk (self, 0, 1);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    walk (self, 0, -1);
    return TRUE;
  case GDK_KEY_Home:
  case GDK_KEY_KP_Home:
    walk_to_row (self, 1);
    return TRUE;
  case GDK_KEY_End:
  case GDK_KEY_KP_End:
    walk_to_row (self, bail_rows (self));
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_letter_key (BwBailStrip *self, guint key)
{
  gunichar letter = gdk_keyval_to_unicode (key);
  int index = letter ? bw_tray_find (bw_project_get_tray (self->project), letter) : -1;
  if (index >= 0)
    bw_session_set_colour (self->session, index);
  else if (key == GDK_KEY_p || key == GDK_KEY_P)
    pick (self, self->cursor);
  else
    return FALSE;
  return TRUE;
}

static gboolean
on_deed_key (BwBailStrip *self, guint key, gboolean shift)
{
  switch (key) {
  case GDK_KEY_space:
  case GDK_KEY_KP_Space:
    if (shift)
      pick (self, self->cursor);
    else
      set_bead (self, self->cursor, bw_session_get_colour (self->session));
    break;
  case GDK_KEY_Delete:
  case GDK_KEY_KP_Delete:
  case GDK_KEY_BackSpace:
    set_bead (self, self->cursor, bw_drawing_ground (bw_bail_strip_drawing (self)));
    break;
  default:
    return FALSE;
  }
  bw_bail_strip_set_cursor (self, self->cursor, TRUE);
  return TRUE;
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
        BwBailStrip *self)
{
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK)
      || !bw_bail_strip_drawing (self))
    return FALSE;
  if (key == GDK_KEY_Escape) {
    gboolean drawing = self->drawing;
    bw_bail_strip_end (self, FALSE);
    return drawing;
  }
  if (self->drawing)
    return FALSE;
  return on_deed_key (self, key, (state & GDK_SHIFT_MASK) != 0) || on_walk_key (self, key)
         || on_letter_key (self, key);
}

static void
on_focus_leave (BwBailStrip *self)
{
  bw_bail_strip_end (self, TRUE);
  if (self->cursor_shown)
    bw_session_set_hover (self->session, TRUE, 0, 0);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Come by Tab, the cursor is what the keys will act on: it shows. */
static void
on_focus_enter (BwBailStrip *self)
{
  gboolean shown = gtk_widget_has_visible_focus (GTK_WIDGET (self));
  if (bw_bail_strip_drawing (self))
    bw_bail_strip_set_cursor (self, self->cursor, shown || self->cursor_shown);
}

/* --- Wiring ------------------------------------------------------------------------------------
 */

static void
add_pointing (BwBailStrip *self)
{
  GtkGesture *drag = gtk_gesture_drag_new (), *click = gtk_gesture_click_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), GDK_BUTTON_PRIMARY);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_end), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_cancel), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "pressed", G_CALLBACK (on_pick), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
}

void
bw_bail_strip_add_controllers (BwBailStrip *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  add_pointing (self);
  g_signal_connect (motion, "enter", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (point_at_cursor), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (on_focus_enter), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (on_focus_leave), self);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, keys);
  gtk_widget_add_controller (widget, focus);
}
