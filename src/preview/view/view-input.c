/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turning the piece in the hand. A drag moves the near side of the band with the pointer, so it
 * feels held, and a piece that is let go while it turns runs on a little; nothing here paints, and
 * a click alone does nothing but take the focus. */
#include "preview/view/view-input.h"

#include "preview/scene/seen-from.h"

/* Many desktops keep Alt and a drag for moving windows; none keeps Control. */
#define PAINT_MASK (GDK_ALT_MASK | GDK_CONTROL_MASK)
#define KEY_TURN_DEG 5.0
#define KEY_FINE_DEG 1.0
#define KEY_ZOOM 1.2
#define WHEEL_ZOOM 1.12
/* Slower than that, and the hand has laid the piece down; quicker, and the eye could not follow. */
#define LEAST_THROW_DEG_S 25.0
#define MOST_THROW_DEG_S 360.0
/* However near, a drag across the widget shall still turn visibly. */
#define LEAST_DEG_PER_PIXEL 0.08

/* Degrees for one pixel of drag: what moves the nearest bead of the band by that pixel. */
static double
degrees_per_pixel (BwViewInput *self)
{
  const BwScene *scene = self->get_scene (self->widget);
  BwEye eye;
  double radius = 0;
  bw_eye_init (&eye, bw_session_get_camera (self->session), scene,
               MAX (gtk_widget_get_width (self->widget), 1),
               MAX (gtk_widget_get_height (self->widget), 1));
  for (int i = 0; i < scene->n_band; i += MAX (scene->n_band / 64, 1)) {
    const float *at = g_array_index (scene->beads, BwSceneBead, i).at;
    BwVec3 from
        = bw_vec3_sub (bw_vec3 ((double)at[0], (double)at[1], (double)at[2]), scene->stance.centre);
    BwVec3 stands = bw_pose_turn (scene->stance.pose, from);
    radius = MAX (radius, hypot (stands.x, stands.y));
  }
  radius = MAX (radius, 0.05 * (double)scene->radius);
  double away = (double)glm_vec3_distance (eye.eye, (float *)scene->focus) - radius;
  return MAX (bw_degrees (away * (double)eye.pixel / radius), LEAST_DEG_PER_PIXEL);
}

static void
turn_by (BwViewInput *self, BwCamera from, double turn_deg, double tip_deg)
{
  from.turn_deg += turn_deg;
  from.tip_deg = CLAMP (from.tip_deg + tip_deg, -90, 90);
  bw_session_set_camera (self->session, from);
}

static void
zoom_by (BwViewInput *self, double factor)
{
  BwCamera camera = bw_session_get_camera (self->session);
  camera.zoom *= factor;
  bw_session_set_camera (self->session, camera);
}

static gboolean
is_held (GdkModifierType state)
{
  return (state & PAINT_MASK) != 0;
}

static gboolean
paints (const BwViewInput *self, GdkModifierType state)
{
  return self->brush && (self->brushing || is_held (state));
}

void
bw_view_input_show_cursor (BwViewInput *self, GdkModifierType state)
{
  gtk_widget_set_cursor_from_name (self->widget, paints (self, state) ? "crosshair" : NULL);
}

/* With the brush a drag that begins beside the beads turns the piece, to come at the next place;
 * a key held says that nothing shall turn. */
static gboolean
begin_stroke (BwViewInput *self, double x, double y, GdkModifierType state)
{
  BwViewBead bead = self->pick (self->widget, x, y);
  if (!bead.row && !is_held (state))
    return FALSE;
  self->painting = TRUE;
  self->drag_x = x;
  self->drag_y = y;
  if (bead.row)
    self->brush->begin (self->brush_data, &bead);
  return TRUE;
}

static void
go_on (BwViewInput *self, double x, double y, GdkModifierType state)
{
  BwViewBead bead = self->pick (self->widget, x, y);
  bw_session_set_hover (self->session, bead.in_bail, bead.row, bead.column);
  if (bead.row)
    self->brush->go_on (self->brush_data, &bead, (state & GDK_SHIFT_MASK) != 0);
}

static void
end_stroke (BwViewInput *self, gboolean keep)
{
  if (self->painting)
    self->brush->end (self->brush_data, keep);
  self->painting = FALSE;
}

static GdkModifierType
state_of (gpointer gesture)
{
  return gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
}

static void
drag_begin (GtkGestureDrag *gesture, double x, double y, BwViewInput *self)
{
  gtk_widget_grab_focus (self->widget);
  self->take_hold (self->widget);
  self->grabbed = bw_session_get_camera (self->session);
  self->hand = (BwHandSpeed){ .n = 0 };
  if (paints (self, state_of (gesture)) && begin_stroke (self, x, y, state_of (gesture)))
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
drag_cancel (GtkGesture *gesture, GdkEventSequence *sequence, BwViewInput *self)
{
  end_stroke (self, FALSE);
}

static guint32
time_of (gpointer gesture)
{
  return gtk_event_controller_get_current_event_time (GTK_EVENT_CONTROLLER (gesture));
}

/* Where frames are slow one of them tells of many moves. */
static void
note_hand (BwViewInput *self, gpointer gesture, double scale, double dx, double dy)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (gesture));
  double x, y;
  guint n = 0;
  gboolean told = event && gdk_event_get_event_type (event) == GDK_MOTION_NOTIFY
                  && gdk_event_get_position (event, &x, &y);
  g_autofree GdkTimeCoord *passed = told ? gdk_event_get_history (event, &n) : NULL;
  for (guint i = 0; passed && i < n; i++)
    bw_hand_speed_note (&self->hand, passed[i].time, -scale * (dx + passed[i].axes[GDK_AXIS_X] - x),
                        scale * (dy + passed[i].axes[GDK_AXIS_Y] - y));
  bw_hand_speed_note (&self->hand, time_of (gesture), -scale * dx, scale * dy);
}

static void
drag_update (GtkGestureDrag *gesture, double dx, double dy, BwViewInput *self)
{
  if (self->painting) {
    go_on (self, self->drag_x + dx, self->drag_y + dy, state_of (gesture));
    return;
  }
  double scale = degrees_per_pixel (self);
  if (!self->turning && !gtk_drag_check_threshold (self->widget, 0, 0, (int)dx, (int)dy)
      && hypot (dx, dy) < 3)
    return;
  self->turning = TRUE;
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  note_hand (self, gesture, scale, dx, dy);
  turn_by (self, self->grabbed, -dx * scale, dy * scale);
}

/* Runs on as the hand moved when it let go. */
static void throw (BwViewInput * self, guint32 ms)
{
  BwCoast coast;
  if (!bw_hand_speed_at (&self->hand, ms, &coast.turn, &coast.tip))
    return;
  double speed = hypot (coast.turn, coast.tip);
  if (speed < LEAST_THROW_DEG_S)
    return;
  double share = MIN (MOST_THROW_DEG_S / speed, 1);
  self->let_go (self->widget, (BwCoast){ share * coast.turn, share * coast.tip });
}

static void
drag_end (GtkGestureDrag *gesture, double dx, double dy, BwViewInput *self)
{
  if (self->turning)
    throw (self, time_of (gesture));
  self->turning = FALSE;
  end_stroke (self, TRUE);
}

/* A stroke claims its press, so that nothing but a plain click gets here. Four clicks are two
 * double ones. */
static void
clicked (GtkGestureClick *gesture, int n_press, double x, double y, BwViewInput *self)
{
  if (n_press % 2 == 0)
    self->face (self->widget, x, y);
}

static void
pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, BwViewInput *self)
{
  end_stroke (self, FALSE);
  self->take_hold (self->widget);
  self->grabbed = bw_session_get_camera (self->session);
  gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
pinch_scale (GtkGestureZoom *gesture, double scale, BwViewInput *self)
{
  BwCamera camera = bw_session_get_camera (self->session);
  camera.zoom = self->grabbed.zoom * scale;
  bw_session_set_camera (self->session, camera);
}

/* Two fingers that turn on the picture turn the piece with them: seen from above it stays under
 * them, from below it goes the other way round. */
static void
twist_angle (GtkGestureRotate *gesture, double angle, double delta, BwViewInput *self)
{
  BwCamera camera = bw_session_get_camera (self->session);
  double turn = bw_degrees (delta);
  camera.turn_deg = self->grabbed.turn_deg + (camera.tip_deg < 0 ? -turn : turn);
  bw_session_set_camera (self->session, camera);
}

static gboolean
scroll (GtkEventControllerScroll *controller, double dx, double dy, BwViewInput *self)
{
  /* A touchpad reports pixels where a wheel reports notches. */
  if (gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_SURFACE)
    dy /= 40;
  zoom_by (self, pow (WHEEL_ZOOM, -dy));
  return TRUE;
}

static void
point_at (BwViewInput *self, double x, double y)
{
  BwViewBead bead = self->pick (self->widget, x, y);
  bw_session_set_hover (self->session, bead.in_bail, bead.row, bead.column);
}

static void
motion (GtkEventControllerMotion *controller, double x, double y, BwViewInput *self)
{
  if (!self->turning && !self->painting)
    point_at (self, x, y);
  bw_view_input_show_cursor (self, state_of (controller));
}

static void
leave (GtkEventControllerMotion *controller, BwViewInput *self)
{
  bw_session_set_hover (self->session, FALSE, 0, 0);
}

static gboolean
turn_key (BwViewInput *self, guint key, double step)
{
  BwCamera camera = bw_session_get_camera (self->session);
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    turn_by (self, camera, step, 0);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    turn_by (self, camera, -step, 0);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    turn_by (self, camera, 0, -step);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    turn_by (self, camera, 0, step);
    return TRUE;
  default:
    return FALSE;
  }
}

static void
look_from (BwViewInput *self, BwSeenFrom where)
{
  BwProject *project = bw_session_get_project (self->session);
  bw_session_set_camera (self->session, bw_seen_from (where, project, self->is_hung (self->widget),
                                                      bw_session_get_camera (self->session)));
}

/* Keys move the piece the way a drag in their direction would. */
static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             BwViewInput *self)
{
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK))
    return FALSE;
  self->stop (self->widget);
  switch (key) {
  case GDK_KEY_plus:
  case GDK_KEY_KP_Add:
  case GDK_KEY_equal:
    zoom_by (self, KEY_ZOOM);
    return TRUE;
  case GDK_KEY_minus:
  case GDK_KEY_KP_Subtract:
    zoom_by (self, 1 / KEY_ZOOM);
    return TRUE;
  case GDK_KEY_Home:
  case GDK_KEY_KP_Home:
    look_from (self, BW_SEEN_FROM_FRONT);
    return TRUE;
  case GDK_KEY_End:
  case GDK_KEY_KP_End:
    look_from (self, BW_SEEN_FROM_JOIN);
    return TRUE;
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    look_from (self, BW_SEEN_FROM_FACE);
    return TRUE;
  case GDK_KEY_0:
  case GDK_KEY_KP_0:
    zoom_by (self, 1 / bw_session_get_camera (self->session).zoom);
    return TRUE;
  default:
    return turn_key (self, key, state & GDK_SHIFT_MASK ? KEY_FINE_DEG : KEY_TURN_DEG);
  }
}

static gboolean
modifiers (GtkEventControllerKey *controller, GdkModifierType state, BwViewInput *self)
{
  bw_view_input_show_cursor (self, state);
  return FALSE;
}

static void
add (BwViewInput *self, gpointer controller)
{
  gtk_widget_add_controller (self->widget, GTK_EVENT_CONTROLLER (controller));
}

static void
add_gestures (BwViewInput *self)
{
  GtkGesture *drag = gtk_gesture_drag_new (), *pinch = gtk_gesture_zoom_new ();
  GtkGesture *click = gtk_gesture_click_new (), *twist = gtk_gesture_rotate_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), GDK_BUTTON_PRIMARY);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_PRIMARY);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (drag_cancel), self);
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_scale), self);
  g_signal_connect (twist, "begin", G_CALLBACK (pinch_begin), self);
  g_signal_connect (twist, "angle-changed", G_CALLBACK (twist_angle), self);
  g_signal_connect (click, "released", G_CALLBACK (clicked), self);
  add (self, drag);
  add (self, click);
  add (self, pinch);
  add (self, twist);
  /* The same two fingers do both. */
  gtk_gesture_group (pinch, twist);
}

void
bw_view_input_add (BwViewInput *self)
{
  GtkEventController *wheel
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  GtkEventController *pointer = gtk_event_controller_motion_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect (wheel, "scroll", G_CALLBACK (scroll), self);
  g_signal_connect (pointer, "enter", G_CALLBACK (motion), self);
  g_signal_connect (pointer, "motion", G_CALLBACK (motion), self);
  g_signal_connect (pointer, "leave", G_CALLBACK (leave), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), self);
  g_signal_connect (keys, "modifiers", G_CALLBACK (modifiers), self);
  add_gestures (self);
  add (self, wheel);
  add (self, pointer);
  add (self, keys);
}
