/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pulling the bail by the pointer and stepping it by keys. A pull is one step of undo, taken back
 * by Escape; so is a run of key presses, which ends with a short rest. */
#include "config.h"

#include "editor/bail/bail-grasp.h"

#include "core/bail/bail-place.h"
#include "editor/bail/bail-frame.h"
#include "editor/bail/bail-look.h"
#include "editor/bail/bail-words.h"
#include "editor/cloth/listening.h"

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
  return along == (style == BW_BAIL_UPRIGHT) ? _ ("Width of the bail") : _ ("Foot of the loop");
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
    return _ ("Foot of the loop");
  }
}

static BwBailStyle
style_of (BwBailGrasp *grasp)
{
  return bw_project_get_design (grasp->view->project)->bail.style;
}

static BwBailGrip
grip_at (BwBailGrasp *grasp, double x, double y)
{
  const BwBandLayout *layout = &grasp->view->layout;
  if (style_of (grasp) == BW_BAIL_NONE || x < layout->x || y >= layout->y + layout->height)
    return BW_BAIL_GRIP_NONE;
  return bw_bail_grip_at (layout, bw_bail_box (bw_project_bail_base (grasp->view->project)), x, y,
                          BW_BAIL_REACH_PX);
}

const char *
bw_bail_grasp_tip (BwBailGrasp *grasp, double x, double y)
{
  BwBailStyle style = style_of (grasp);
  BwBailGrip grip = x < 0 ? BW_BAIL_GRIP_BODY : grip_at (grasp, x, y);
  if (style == BW_BAIL_NONE || grip == BW_BAIL_GRIP_NONE)
    return NULL;
  if (grip == BW_BAIL_GRIP_BODY)
    return _ ("Drag the bail round the stone. Keys: ← → move it, Shift farther, Page Up and Page "
              "Down to the next face, Home to the join, ↑ ↓ its width, Ctrl+← → its foot");
  if (g_strcmp0 (step_label (grip, style), _ ("Width of the bail")) == 0)
    return _ ("Drag to make the bail wider or narrower");
  return _ ("Drag to change how far apart the loop’s feet stand");
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
point_at (BwBailGrasp *grasp, BwBailGrip grip)
{
  if (grasp->over == grip)
    return;
  grasp->over = grip;
  gtk_widget_set_cursor_from_name (grasp->view->widget, cursor_of (grip));
  gtk_widget_queue_draw (grasp->view->widget);
}

/* --- Ending ------------------------------------------------------------------------------------
 */

static void
stop_push (BwBailGrasp *grasp)
{
  if (grasp->push != 0)
    gtk_widget_remove_tick_callback (grasp->view->widget, grasp->push);
  grasp->push = 0;
}

static gboolean
is_busy (const BwBailGrasp *grasp)
{
  return grasp->held != BW_BAIL_GRIP_NONE || grasp->stepping;
}

static void
end (BwBailGrasp *grasp, gboolean keep)
{
  gboolean busy = is_busy (grasp);
  g_clear_handle_id (&grasp->rest, g_source_remove);
  stop_push (grasp);
  grasp->held = BW_BAIL_GRIP_NONE;
  grasp->stepping = FALSE;
  if (!busy)
    return;
  if (keep)
    bw_project_commit (grasp->view->project);
  else
    bw_project_revert (grasp->view->project);
  bw_bail_frame_reveal (grasp->view);
  gtk_widget_queue_draw (grasp->view->widget);
}

void
bw_bail_grasp_settle (BwBailGrasp *grasp)
{
  end (grasp, TRUE);
}

void
bw_bail_grasp_revert (BwBailGrasp *grasp)
{
  end (grasp, FALSE);
}

/* Sets the design inside the open step; what it cannot be is told. */
static void
put (BwBailGrasp *grasp, const BwDesign *design)
{
  g_autoptr (GError) error = NULL;
  if (bw_project_set_design (grasp->view->project, "", design, &error))
    bw_bail_look_at (grasp->view->session);
  else
    bw_bail_words_tell (BW_UNROLLED (grasp->view->widget), error->message);
}

gboolean
bw_bail_grasp_is_busy (const BwBailGrasp *grasp)
{
  return is_busy (grasp);
}

/* --- Pulling -----------------------------------------------------------------------------------
 */

static void
pull_to (BwBailGrasp *grasp, double x, double y)
{
  BwBandPoint at = bw_band_layout_point (&grasp->view->layout, x, y);
  BwDesign design;
  bw_bail_pull (&design, &grasp->from, bw_project_mid_ring (grasp->view->project), grasp->held,
                at.u - grasp->took.u, at.v - grasp->took.v);
  const BwBail *now = &bw_project_get_design (grasp->view->project)->bail;
  if (design.bail.columns != now->columns || design.bail.base_beads != now->base_beads
      || design.bail.at_deg != now->at_deg)
    put (grasp, &design);
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
  BwBailGrasp *grasp = data;
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double seconds = grasp->push_last ? (double)(now - grasp->push_last) / G_USEC_PER_SEC : 0;
  double across = beyond (&grasp->view->layout, grasp->push_x);
  if (grasp->held != BW_BAIL_GRIP_BODY || across == 0) {
    grasp->push = 0;
    return G_SOURCE_REMOVE;
  }
  grasp->push_last = now;
  bw_band_layout_pan (
      &grasp->view->layout,
      -CLAMP (across * PUSH_PER_PX, -PUSH_MOST, PUSH_MOST) * MIN (seconds, PUSH_STEP_S), 0);
  pull_to (grasp, grasp->push_x, grasp->push_y);
  gtk_widget_queue_draw (widget);
  return G_SOURCE_CONTINUE;
}

static void
push_on (BwBailGrasp *grasp, double x, double y)
{
  grasp->push_x = x;
  grasp->push_y = y;
  if (grasp->push != 0 || grasp->held != BW_BAIL_GRIP_BODY || beyond (&grasp->view->layout, x) == 0)
    return;
  grasp->push_last = 0;
  grasp->push = gtk_widget_add_tick_callback (grasp->view->widget, push, grasp, NULL);
}

static void
take_hold (BwBailGrasp *grasp, BwBailGrip grip, double x, double y)
{
  grasp->held = grip;
  grasp->from = *bw_project_get_design (grasp->view->project);
  grasp->took = bw_band_layout_point (&grasp->view->layout, x, y);
  bw_project_begin (grasp->view->project, step_label (grip, grasp->from.bail.style));
  gtk_widget_trigger_tooltip_query (grasp->view->widget);
  gtk_widget_set_cursor_from_name (grasp->view->widget,
                                   grip == BW_BAIL_GRIP_BODY ? "grabbing" : cursor_of (grip));
  gtk_widget_queue_draw (grasp->view->widget);
}

/* Beside the bail the band itself is taken hold of and rolled. */
static void
on_begin (GtkGestureDrag *drag, double x, double y, BwBailGrasp *grasp)
{
  BwBailGrip grip = grip_at (grasp, x, y);
  bw_session_settle (grasp->view->session);
  gtk_widget_grab_focus (grasp->view->widget);
  grasp->drag_x = x;
  grasp->drag_y = y;
  grasp->rolled_px = 0;
  grasp->rolling = grip == BW_BAIL_GRIP_NONE;
  if (grasp->rolling)
    return;
  /* A finger that holds the bail does not scroll the page. */
  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
  take_hold (grasp, grip, x, y);
}

static void
roll_by (BwBailGrasp *grasp, double px)
{
  bw_band_layout_pan (&grasp->view->layout, px, 0);
  bw_band_layout_normalise (&grasp->view->layout);
  gtk_widget_queue_draw (grasp->view->widget);
}

static void
on_update (GtkGestureDrag *drag, double dx, double dy, BwBailGrasp *grasp)
{
  if (grasp->rolling) {
    roll_by (grasp, dx - grasp->rolled_px);
    grasp->rolled_px = dx;
  } else if (grasp->held != BW_BAIL_GRIP_NONE) {
    pull_to (grasp, grasp->drag_x + dx, grasp->drag_y + dy);
    push_on (grasp, grasp->drag_x + dx, grasp->drag_y + dy);
  }
}

static void
show_cursor (BwBailGrasp *grasp)
{
  gtk_widget_set_cursor_from_name (grasp->view->widget, cursor_of (grasp->over));
}

static void
on_end (GtkGestureDrag *drag, double dx, double dy, BwBailGrasp *grasp)
{
  if (grasp->held != BW_BAIL_GRIP_NONE) {
    pull_to (grasp, grasp->drag_x + dx, grasp->drag_y + dy);
    end (grasp, TRUE);
  }
  grasp->rolling = FALSE;
  bw_band_layout_normalise (&grasp->view->layout);
  show_cursor (grasp);
}

static void
on_cancel (GtkGesture *gesture, GdkEventSequence *sequence, BwBailGrasp *grasp)
{
  if (grasp->held != BW_BAIL_GRIP_NONE)
    end (grasp, FALSE);
  grasp->rolling = FALSE;
  show_cursor (grasp);
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, BwBailGrasp *grasp)
{
  if (grasp->held == BW_BAIL_GRIP_NONE)
    point_at (grasp, grip_at (grasp, x, y));
}

static void
on_leave (BwBailGrasp *grasp)
{
  if (grasp->held == BW_BAIL_GRIP_NONE)
    point_at (grasp, BW_BAIL_GRIP_NONE);
}

/* A wheel rolls sideways; upright it scrolls the page. */
static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, BwBailGrasp *grasp)
{
  GtkEventController *controller = GTK_EVENT_CONTROLLER (scroll);
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  gboolean wheel = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
  if (state & GDK_SHIFT_MASK)
    dx += dy, dy = 0;
  if (fabs (dx) <= fabs (dy))
    return GDK_EVENT_PROPAGATE;
  roll_by (grasp, -dx * (wheel ? WHEEL_PX : 1));
  return GDK_EVENT_STOP;
}

/* --- Keys --------------------------------------------------------------------------------------
 */

static gboolean
rested (gpointer data)
{
  BwBailGrasp *grasp = data;
  grasp->rest = 0;
  end (grasp, TRUE);
  return G_SOURCE_REMOVE;
}

/* Opens a run of one knob's steps, or goes on with it. */
static void
run_on (BwBailGrasp *grasp, BwBailKnob knob)
{
  if (!grasp->stepping || grasp->knob != knob) {
    bw_session_settle (grasp->view->session);
    bw_project_begin (grasp->view->project, knob_label (knob));
    grasp->stepping = TRUE;
    grasp->knob = knob;
  }
  g_clear_handle_id (&grasp->rest, g_source_remove);
  /* Behind the keys that already wait: a machine that is busy ends no run. */
  grasp->rest = g_timeout_add_full (G_PRIORITY_DEFAULT_IDLE, REST_MS, rested, grasp, NULL);
}

/* Why a step changes nothing. */
static const char *
limit_words (BwBailKnob knob, int by)
{
  switch (knob) {
  case BW_BAIL_COLUMNS:
    return by > 0 ? _ ("The bail is as wide as this band lets it be.")
                  : _ ("A bail cannot be narrower than two columns.");
  case BW_BAIL_BASE:
    return by > 0 ? _ ("A longer foot would not let this loop arch: give the bail more rows.")
                  : _ ("The foot of the bail cannot be shorter.");
  case BW_BAIL_PLACE:
  default:
    return _ ("The bail can stand in this one place only.");
  }
}

static void
step (BwBailGrasp *grasp, BwBailKnob knob, int by)
{
  BwDesign design = *bw_project_get_design (grasp->view->project);
  run_on (grasp, knob);
  if (bw_bail_step (&design, bw_project_mid_ring (grasp->view->project), knob, by)) {
    put (grasp, &design);
    return;
  }
  gtk_widget_error_bell (grasp->view->widget);
  bw_bail_words_tell (BW_UNROLLED (grasp->view->widget), limit_words (knob, by));
}

static void
stand_at (BwBailGrasp *grasp, double row)
{
  BwDesign design = *bw_project_get_design (grasp->view->project);
  run_on (grasp, BW_BAIL_PLACE);
  bw_bail_stand (&design, bw_project_mid_ring (grasp->view->project), row);
  put (grasp, &design);
}

/* At least one place on, even where the next face's middle is that near. */
static void
to_face (BwBailGrasp *grasp, int dir)
{
  const BwBandFaces *faces = bw_band_view_faces (grasp->view);
  BwBailBox box = bw_bail_box (bw_project_bail_base (grasp->view->project));
  double u = (box.left + box.right) / 2;
  if (faces->faces == 0) {
    step (grasp, BW_BAIL_PLACE, dir);
    return;
  }
  int column = MAX (1, grasp->view->layout.columns / 2);
  stand_at (grasp, 1 + 2 * bw_band_faces_next (faces, column, u + 0.75 * dir, dir));
}

static gboolean
on_arrow (BwBailGrasp *grasp, guint key, gboolean shift, gboolean control)
{
  int by = shift ? STRIDE : 1;
  BwBailKnob across = control ? BW_BAIL_BASE : BW_BAIL_PLACE;
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    step (grasp, across, -by);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    step (grasp, across, by);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    step (grasp, BW_BAIL_COLUMNS, by);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    step (grasp, BW_BAIL_COLUMNS, -by);
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_jump (BwBailGrasp *grasp, guint key)
{
  switch (key) {
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
    to_face (grasp, -1);
    return TRUE;
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    to_face (grasp, 1);
    return TRUE;
  case GDK_KEY_Home:
  case GDK_KEY_KP_Home:
    stand_at (grasp, 1);
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
        BwBailGrasp *grasp)
{
  gboolean shift = (state & GDK_SHIFT_MASK) != 0, control = (state & GDK_CONTROL_MASK) != 0;
  if (state & (GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK))
    return FALSE;
  if (key == GDK_KEY_Escape) {
    gboolean busy = is_busy (grasp);
    end (grasp, FALSE);
    return busy;
  }
  if (style_of (grasp) == BW_BAIL_NONE || grasp->held != BW_BAIL_GRIP_NONE)
    return FALSE;
  return on_arrow (grasp, key, shift, control) || (!control && on_jump (grasp, key));
}

/* --- Wiring ------------------------------------------------------------------------------------
 */

static void
add_drag (BwBailGrasp *grasp)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), GDK_BUTTON_PRIMARY);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_begin), grasp);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_update), grasp);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_end), grasp);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_cancel), grasp);
  gtk_widget_add_controller (grasp->view->widget, GTK_EVENT_CONTROLLER (drag));
}

void
bw_bail_grasp_init (BwBailGrasp *grasp, BwBandView *view)
{
  static const BwListening listening = {
    .pointed = G_CALLBACK (on_motion),
    .left = G_CALLBACK (on_leave),
    .scrolled = G_CALLBACK (on_scroll),
    .key_pressed = G_CALLBACK (on_key),
    .unfocused = G_CALLBACK (bw_bail_grasp_settle),
  };
  *grasp = (BwBailGrasp){ .view = view };
  add_drag (grasp);
  bw_listen (view->widget, &listening, grasp);
}
