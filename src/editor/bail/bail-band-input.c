/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pulling the bail by the pointer and stepping it by keys. A pull is one step of undo, taken back
 * by Escape; so is a run of key presses, which ends with a short rest. */
#include "config.h"

#include "editor/bail/bail-band-private.h"
#include "core/bail/bail-place.h"
#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WHEEL_PX 60.0    /* one notch of a wheel rolls this far */
#define STRIDE 5         /* steps that Shift takes at once */
#define REST_MS 900      /* ends a run of keys */
#define PUSH_PER_PX 10.0 /* pixels a second for every pixel beyond the edge */
#define PUSH_MOST 1200.0 /* pixels a second */
#define PUSH_STEP_S 0.05 /* no step is longer, however late the frame */

static const char *
step_label (BwBailGrip grip, BwBailStyle style)
{
  gboolean along = grip == BW_BAIL_GRIP_LEFT || grip == BW_BAIL_GRIP_RIGHT;
  if (grip == BW_BAIL_GRIP_BODY)
    return _ ("Move the bail");
  return along == (style == BW_BAIL_UPRIGHT) ? _ ("Width of the bail") : _ ("Base of the bail");
}

static const char *
knob_label (BwBailKnob knob)
{
  switch (knob) {
  case BW_BAIL_PLACE:
    return _ ("Move the bail");
  case BW_BAIL_COLUMNS:
    return _ ("Width of the bail");
  case BW_BAIL_BASE:
  default:
    return _ ("Base of the bail");
  }
}

static BwBailStyle
style_of (BwBailBand *self)
{
  return bw_project_get_design (self->project)->bail.style;
}

static BwBailGrip
grip_at (BwBailBand *self, double x, double y)
{
  const BwBandLayout *layout = &self->layout;
  if (style_of (self) == BW_BAIL_NONE || x < layout->x || y >= layout->y + layout->height)
    return BW_BAIL_GRIP_NONE;
  return bw_bail_grip_at (layout, bw_bail_box (bw_project_bail_base (self->project)), x, y,
                          BAIL_REACH_PX);
}

const char *
bw_bail_band_tip (BwBailBand *self, double x, double y)
{
  BwBailStyle style = style_of (self);
  BwBailGrip grip = x < 0 ? BW_BAIL_GRIP_BODY : grip_at (self, x, y);
  if (style == BW_BAIL_NONE || grip == BW_BAIL_GRIP_NONE)
    return NULL;
  if (grip == BW_BAIL_GRIP_BODY)
    return _ ("Drag the bail round the stone. Keys: ← → move it, Shift farther, Page Up and Page "
              "Down to the next face, Home to the join, ↑ ↓ its width, Ctrl+← → its base");
  if (g_strcmp0 (step_label (grip, style), _ ("Width of the bail")) == 0)
    return _ ("Drag to make the bail wider or narrower");
  return _ ("Drag to change how much of the band the loop spans");
}

static const char *
cursor_of (BwBailGrip grip)
{
  switch (grip) {
  case BW_BAIL_GRIP_BODY:
    return "grab";
  case BW_BAIL_GRIP_LEFT:
  case BW_BAIL_GRIP_RIGHT:
    return "ew-resize";
  case BW_BAIL_GRIP_BOTTOM:
  case BW_BAIL_GRIP_TOP:
    return "ns-resize";
  case BW_BAIL_GRIP_NONE:
  default:
    return "default";
  }
}

static void
point_at (BwBailBand *self, BwBailGrip grip)
{
  if (self->over == grip)
    return;
  self->over = grip;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), cursor_of (grip));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- Ending ------------------------------------------------------------------------------------
 */

void
bw_bail_band_stop_push (BwBailBand *self)
{
  if (self->push != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->push);
  self->push = 0;
}

static gboolean
is_busy (const BwBailBand *self)
{
  return self->held != BW_BAIL_GRIP_NONE || self->stepping;
}

static void
end (BwBailBand *self, gboolean keep)
{
  gboolean busy = is_busy (self);
  g_clear_handle_id (&self->rest, g_source_remove);
  bw_bail_band_stop_push (self);
  self->held = BW_BAIL_GRIP_NONE;
  self->stepping = FALSE;
  if (!busy)
    return;
  if (keep)
    bw_project_commit (self->project);
  else
    bw_project_revert (self->project);
  bw_bail_band_reveal (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
bw_bail_band_settle (BwBailBand *self)
{
  end (self, TRUE);
}

void
bw_bail_band_revert (BwBailBand *self)
{
  end (self, FALSE);
}

/* --- Pulling -----------------------------------------------------------------------------------
 */

static void
pull_to (BwBailBand *self, double x, double y)
{
  BwBandPoint at = bw_band_layout_point (&self->layout, x, y);
  BwDesign design;
  bw_bail_pull (&design, &self->from, bw_project_mid_ring (self->project), self->held,
                at.u - self->took.u, at.v - self->took.v);
  const BwBail *now = &bw_project_get_design (self->project)->bail;
  if (design.bail.columns != now->columns || design.bail.base_beads != now->base_beads
      || design.bail.at_deg != now->at_deg)
    bw_bail_band_put (self, &design);
}

/* How far a place lies outside the view, with its sign. */
static double
beyond (const BwBandLayout *layout, double x)
{
  return x < layout->x ? x - layout->x : MAX (0, x - layout->x - layout->width);
}

static gboolean
push (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwBailBand *self = BW_BAIL_BAND (widget);
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double seconds = self->push_last ? (double)(now - self->push_last) / G_USEC_PER_SEC : 0;
  double across = beyond (&self->layout, self->push_x);
  if (self->held != BW_BAIL_GRIP_BODY || across == 0) {
    self->push = 0;
    return G_SOURCE_REMOVE;
  }
  self->push_last = now;
  bw_band_layout_pan (
      &self->layout,
      -CLAMP (across * PUSH_PER_PX, -PUSH_MOST, PUSH_MOST) * MIN (seconds, PUSH_STEP_S), 0);
  pull_to (self, self->push_x, self->push_y);
  gtk_widget_queue_draw (widget);
  return G_SOURCE_CONTINUE;
}

static void
push_on (BwBailBand *self, double x, double y)
{
  self->push_x = x;
  self->push_y = y;
  if (self->push != 0 || self->held != BW_BAIL_GRIP_BODY || beyond (&self->layout, x) == 0)
    return;
  self->push_last = 0;
  self->push = gtk_widget_add_tick_callback (GTK_WIDGET (self), push, NULL, NULL);
}

static void
take_hold (BwBailBand *self, BwBailGrip grip, double x, double y)
{
  self->held = grip;
  self->from = *bw_project_get_design (self->project);
  self->took = bw_band_layout_point (&self->layout, x, y);
  bw_project_begin (self->project, step_label (grip, self->from.bail.style));
  gtk_widget_trigger_tooltip_query (GTK_WIDGET (self));
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self),
                                   grip == BW_BAIL_GRIP_BODY ? "grabbing" : cursor_of (grip));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Beside the bail the band itself is taken hold of and rolled. */
static void
on_begin (GtkGestureDrag *drag, double x, double y, BwBailBand *self)
{
  BwBailGrip grip = grip_at (self, x, y);
  bw_session_settle (self->session);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  self->drag_x = x;
  self->drag_y = y;
  self->rolled_px = 0;
  self->rolling = grip == BW_BAIL_GRIP_NONE;
  if (self->rolling)
    return;
  /* A finger that holds the bail does not scroll the page. */
  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
  take_hold (self, grip, x, y);
}

static void
roll_by (BwBailBand *self, double px)
{
  bw_band_layout_pan (&self->layout, px, 0);
  bw_band_layout_normalise (&self->layout);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_update (GtkGestureDrag *drag, double dx, double dy, BwBailBand *self)
{
  if (self->rolling) {
    roll_by (self, dx - self->rolled_px);
    self->rolled_px = dx;
  } else if (self->held != BW_BAIL_GRIP_NONE) {
    pull_to (self, self->drag_x + dx, self->drag_y + dy);
    push_on (self, self->drag_x + dx, self->drag_y + dy);
  }
}

static void
show_cursor (BwBailBand *self)
{
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), cursor_of (self->over));
}

static void
on_end (GtkGestureDrag *drag, double dx, double dy, BwBailBand *self)
{
  if (self->held != BW_BAIL_GRIP_NONE) {
    pull_to (self, self->drag_x + dx, self->drag_y + dy);
    end (self, TRUE);
  }
  self->rolling = FALSE;
  bw_band_layout_normalise (&self->layout);
  show_cursor (self);
}

static void
on_cancel (GtkGesture *gesture, GdkEventSequence *sequence, BwBailBand *self)
{
  if (self->held != BW_BAIL_GRIP_NONE)
    end (self, FALSE);
  self->rolling = FALSE;
  show_cursor (self);
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, BwBailBand *self)
{
  if (self->held == BW_BAIL_GRIP_NONE)
    point_at (self, grip_at (self, x, y));
}

static void
on_leave (BwBailBand *self)
{
  if (self->held == BW_BAIL_GRIP_NONE)
    point_at (self, BW_BAIL_GRIP_NONE);
}

/* A wheel rolls sideways; upright it scrolls the page. */
static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, BwBailBand *self)
{
  GtkEventController *controller = GTK_EVENT_CONTROLLER (scroll);
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  gboolean wheel = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
  if (state & GDK_SHIFT_MASK)
    dx += dy, dy = 0;
  if (fabs (dx) <= fabs (dy))
    return GDK_EVENT_PROPAGATE;
  roll_by (self, -dx * (wheel ? WHEEL_PX : 1));
  return GDK_EVENT_STOP;
}

/* --- Keys --------------------------------------------------------------------------------------
 */

static gboolean
rested (gpointer data)
{
  BwBailBand *self = data;
  self->rest = 0;
  end (self, TRUE);
  return G_SOURCE_REMOVE;
}

/* Opens a run of one knob's steps, or goes on with it. */
static void
run_on (BwBailBand *self, BwBailKnob knob)
{
  if (!self->stepping || self->knob != knob) {
    bw_session_settle (self->session);
    bw_project_begin (self->project, knob_label (knob));
    self->stepping = TRUE;
    self->knob = knob;
  }
  g_clear_handle_id (&self->rest, g_source_remove);
  self->rest = g_timeout_add (REST_MS, rested, self);
}

static void
step (BwBailBand *self, BwBailKnob knob, int by)
{
  BwDesign design = *bw_project_get_design (self->project);
  run_on (self, knob);
  if (bw_bail_step (&design, bw_project_mid_ring (self->project), knob, by))
    bw_bail_band_put (self, &design);
  else
    gtk_widget_error_bell (GTK_WIDGET (self));
}

static void
stand_at (BwBailBand *self, double row)
{
  BwDesign design = *bw_project_get_design (self->project);
  run_on (self, BW_BAIL_PLACE);
  bw_bail_stand (&design, bw_project_mid_ring (self->project), row);
  bw_bail_band_put (self, &design);
}

/* At least one place on, even where the next face's middle is that near. */
static void
to_face (BwBailBand *self, int dir)
{
  const BwBandFaces *faces = bw_bail_band_faces (self);
  BwBailBox box = bw_bail_box (bw_project_bail_base (self->project));
  double u = (box.left + box.right) / 2;
  if (faces->faces == 0) {
    step (self, BW_BAIL_PLACE, dir);
    return;
  }
  int column = MAX (1, self->layout.columns / 2);
  stand_at (self, 1 + 2 * bw_band_faces_next (faces, column, u + 0.75 * dir, dir));
}

static gboolean
on_arrow (BwBailBand *self, guint key, gboolean shift, gboolean control)
{
  int by = shift ? STRIDE : 1;
  BwBailKnob across = control ? BW_BAIL_BASE : BW_BAIL_PLACE;
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    step (self, across, -by);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    step (self, across, by);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    step (self, BW_BAIL_COLUMNS, by);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    step (self, BW_BAIL_COLUMNS, -by);
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_jump (BwBailBand *self, guint key)
{
  switch (key) {
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
    to_face (self, -1);
    return TRUE;
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    to_face (self, 1);
    return TRUE;
  case GDK_KEY_Home:
  case GDK_KEY_KP_Home:
    stand_at (self, 1);
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, BwBailBand *self)
{
  gboolean shift = (state & GDK_SHIFT_MASK) != 0, control = (state & GDK_CONTROL_MASK) != 0;
  if (state & (GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK))
    return FALSE;
  if (key == GDK_KEY_Escape) {
    gboolean busy = is_busy (self);
    end (self, FALSE);
    return busy;
  }
  if (style_of (self) == BW_BAIL_NONE || self->held != BW_BAIL_GRIP_NONE)
    return FALSE;
  return on_arrow (self, key, shift, control) || (!control && on_jump (self, key));
}

/* --- Wiring ------------------------------------------------------------------------------------
 */

static void
add_drag (BwBailBand *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), GDK_BUTTON_PRIMARY);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_end), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_cancel), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
}

void
bw_bail_band_add_controllers (BwBailBand *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  add_drag (self);
  g_signal_connect (motion, "enter", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (on_leave), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (bw_bail_band_settle), self);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, keys);
  gtk_widget_add_controller (widget, focus);
}
