/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time is the frame clock's; while nothing runs nothing ticks. The needle is kept in front by
 * turning the piece along, until the maker turns it by hand: from then on it is theirs. Where the
 * desktop wants less motion it turns only when the needle would be out of sight. */
#include "config.h"

#include "app/kit/wrap-layout.h"
#include "app/window/play-bar.h"
#include "app/window/play-clock.h"
#include "core/path/path-pass.h"
#include "output/words/played-words.h"
#include "preview/scene/seen-from.h"
#include "preview/view/may-move.h"

#include <glib/gi18n-lib.h>

#define IN_SIGHT_DEG 60 /* off the middle: there a bead still looks half as wide as it is */

struct _BwPlayBar {
  GtkWidget parent_instance;
  BwSession *session;
  BwProject *project; /* the one whose changes are followed */
  GSimpleActionGroup *actions;
  GtkWidget *sheet, *buttons;
  GtkLabel *now, *then;
  GtkRange *slider;
  GtkButton *run_button;
  BwCamera own;    /* the maker's camera when the bar was opened */
  double turned;   /* where the bar has last turned the piece to, degrees */
  gboolean moving; /* the bar is changing the session itself */
  guint tick;      /* 0 while nothing runs */
  gint64 since;    /* of the frame clock, µs; 0 until the first frame */
  BwPlayRun run;
  int kept_width, kept_height; /* see bw_play_bar_measure() */
};

G_DEFINE_FINAL_TYPE (BwPlayBar, bw_play_bar, GTK_TYPE_WIDGET)

static int
all_visits (BwPlayBar *self)
{
  return (int)bw_project_path (self->project)->visits->len;
}

static int
played (BwPlayBar *self)
{
  return CLAMP (bw_session_get_played (self->session), 0, all_visits (self));
}

static gboolean
is_open (BwPlayBar *self)
{
  return bw_session_get_played (self->session) >= 0;
}

/* --- Keeping the needle in sight ----------------------------------------------------------------
 */

static gboolean
is_followed (BwPlayBar *self)
{
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (self->actions), "follow");
  return g_variant_get_boolean (state);
}

static void
set_followed (BwPlayBar *self, gboolean follow)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self->actions), "follow");
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (follow));
}

static gboolean
may_stay (BwPlayBar *self, double turn_deg)
{
  double now = bw_session_get_camera (self->session).turn_deg;
  return !bw_view_may_move (GTK_WIDGET (self))
         && fabs (remainder (turn_deg - now, 360)) < IN_SIGHT_DEG;
}

/* asked: it is what the maker has just wanted, and no motion by itself. */
static void
look_at_needle (BwPlayBar *self, gboolean asked)
{
  if (!is_followed (self))
    return;
  BwCamera camera
      = bw_seen_from_needle (self->project, played (self), bw_session_get_camera (self->session));
  if (asked || !may_stay (self, camera.turn_deg))
    bw_session_set_camera (self->session, camera);
  self->turned = bw_session_get_camera (self->session).turn_deg;
}

/* Somebody else has turned the piece. */
static void
give_way (BwPlayBar *self)
{
  if (!self->moving && is_open (self)
      && bw_session_get_camera (self->session).turn_deg != self->turned)
    set_followed (self, FALSE);
}

/* --- What is shown -----------------------------------------------------------------------------
 */

static void
tell (BwPlayBar *self)
{
  g_autofree char *now = bw_played_now (self->project, played (self));
  g_autofree char *then = bw_played_then (self->project, played (self));
  g_autofree char *both = g_strjoin (*then ? "; " : "", now, then, NULL);
  gtk_label_set_text (self->now, now);
  gtk_label_set_text (self->then, then);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->slider), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                  both, -1);
}

static void
show_run (BwPlayBar *self)
{
  gboolean runs = self->tick != 0, may = bw_view_may_move (GTK_WIDGET (self));
  const char *words = runs ? _ ("Pause") : _ ("Play");
  gtk_button_set_icon_name (self->run_button,
                            runs ? "bandwright-pause-symbolic" : "bandwright-play-symbolic");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->run_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->run_button),
                               may ? words : _ ("The desktop wants less motion: go by steps"));
  gtk_widget_set_sensitive (GTK_WIDGET (self->run_button), may);
}

static void
show_played (BwPlayBar *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), is_open (self));
  if (!is_open (self))
    return;
  gtk_range_set_range (self->slider, 0, MAX (all_visits (self), 1));
  gtk_range_set_value (self->slider, played (self));
  tell (self);
}

static void
set_played (BwPlayBar *self, int visits)
{
  self->moving = TRUE;
  bw_session_set_played (self->session, CLAMP (visits, 0, all_visits (self)));
  look_at_needle (self, FALSE);
  self->moving = FALSE;
}

/* --- Running -----------------------------------------------------------------------------------
 */

static void
stand_still (BwPlayBar *self)
{
  if (!self->tick)
    return;
  gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  show_run (self);
}

static gboolean
tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwPlayBar *self = data;
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  if (!self->since)
    self->since = now;
  set_played (self, bw_play_run_at (self->run, (double)(now - self->since) / G_USEC_PER_SEC,
                                    all_visits (self)));
  if (played (self) == all_visits (self))
    stand_still (self);
  return self->tick ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static BwPlaySpeed
speed_of (BwPlayBar *self)
{
  BwPlaySpeed speed = BW_PLAY_ROWS;
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (self->actions), "speed");
  bw_play_speed_parse (g_variant_get_string (state, NULL), &speed);
  return speed;
}

/* From where it stands; from the beginning when there is nothing left. */
static void
run_on (BwPlayBar *self)
{
  int all = all_visits (self), columns = bw_project_get_design (self->project)->band.columns;
  if (!bw_view_may_move (GTK_WIDGET (self)))
    return;
  if (played (self) == all)
    set_played (self, 0);
  self->run = (BwPlayRun){ played (self), bw_play_per_second (speed_of (self), columns, all) };
  self->since = 0;
  if (!self->tick)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), tick, self, NULL);
  show_run (self);
}

void
bw_play_bar_toggle (BwPlayBar *self)
{
  g_return_if_fail (BW_IS_PLAY_BAR (self));
  if (self->tick)
    stand_still (self);
  else if (is_open (self))
    run_on (self);
}

gboolean
bw_play_bar_is_running (BwPlayBar *self)
{
  g_return_val_if_fail (BW_IS_PLAY_BAR (self), FALSE);
  return self->tick != 0;
}

/* --- Steps -------------------------------------------------------------------------------------
 */

/* To the end of the pass under way; back, to where it begins, and from there to where the one
 * before it does. */
static int
a_row_from (BwPlayBar *self, int visits, gboolean on)
{
  const BwPath *path = bw_project_path (self->project);
  int all = (int)path->visits->len;
  if (on ? visits >= all : visits <= 0)
    return visits;
  BwPass pass = bw_path_pass_at (path, (guint)(on ? visits : visits - 1));
  return (int)(on ? pass.first + pass.n : pass.first);
}

typedef enum { BW_STEP_ROW_BACK = -2, BW_STEP_BACK, BW_STEP_ON = 1, BW_STEP_ROW_ON } Step;

static void
go (BwPlayBar *self, Step step)
{
  int visits = played (self);
  stand_still (self);
  if (step == BW_STEP_ROW_BACK || step == BW_STEP_ROW_ON)
    set_played (self, a_row_from (self, visits, step > 0));
  else
    set_played (self, visits + step);
}

static void
stepped (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  go (data, (Step)g_variant_get_int32 (parameter));
}

static void
run_toggled (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_play_bar_toggle (data);
}

static void
speed_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  BwPlayBar *self = data;
  g_simple_action_set_state (action, state);
  if (self->tick)
    run_on (self);
}

static void
follow_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  BwPlayBar *self = data;
  g_simple_action_set_state (action, state);
  self->moving = TRUE;
  look_at_needle (self, TRUE);
  self->moving = FALSE;
}

static void
slid (BwPlayBar *self)
{
  int visits = (int)gtk_range_get_value (self->slider);
  if (!self->session || !is_open (self) || visits == played (self))
    return;
  stand_still (self);
  set_played (self, visits);
}

/* On the slider, whose own keys go by beads and to the ends. */
static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             BwPlayBar *self)
{
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK))
    return FALSE;
  switch (key) {
  case GDK_KEY_space:
  case GDK_KEY_KP_Space:
    bw_play_bar_toggle (self);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
  case GDK_KEY_Page_Up:
    go (self, BW_STEP_ROW_BACK);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
  case GDK_KEY_Page_Down:
    go (self, BW_STEP_ROW_ON);
    return TRUE;
  default:
    return FALSE;
  }
}

/* --- Opening and closing -----------------------------------------------------------------------
 */

/* The end of the last row that is woven; 0 when none is, or nothing is left of the band. */
static int
visits_at_bench (BwPlayBar *self)
{
  int row = bw_project_get_rows_done (self->project);
  BwPass pass;
  if (row <= 0 || row >= bw_project_get_design (self->project)->band.rows
      || !bw_path_row_pass (bw_project_path (self->project), FALSE, row, &pass))
    return 0;
  return (int)(pass.first + pass.n);
}

void
bw_play_bar_open (BwPlayBar *self)
{
  g_return_if_fail (BW_IS_PLAY_BAR (self));
  if (is_open (self))
    return;
  self->own = bw_session_get_camera (self->session);
  set_followed (self, TRUE);
  set_played (self, visits_at_bench (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->slider));
  run_on (self);
  show_run (self);
}

void
bw_play_bar_close (BwPlayBar *self)
{
  g_return_if_fail (BW_IS_PLAY_BAR (self));
  if (!is_open (self))
    return;
  gboolean give_back = is_followed (self);
  stand_still (self);
  self->moving = TRUE;
  bw_session_set_played (self->session, -1);
  if (give_back)
    bw_session_set_camera (self->session, self->own);
  self->moving = FALSE;
}

/* --- What others change ------------------------------------------------------------------------
 */

static void
view_changed (BwPlayBar *self)
{
  give_way (self);
  if (!is_open (self))
    stand_still (self);
  show_played (self);
}

/* Another band has another path. */
static void
project_changed (BwPlayBar *self, guint what)
{
  if (!(what & BW_CHANGED_SHAPE) || !is_open (self))
    return;
  stand_still (self);
  set_played (self, played (self));
  show_played (self);
}

static void
follow_project (BwPlayBar *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, project_changed, self);
  g_set_object (&self->project, bw_session_get_project (self->session));
  g_signal_connect_object (self->project, "changed", G_CALLBACK (project_changed), self,
                           G_CONNECT_SWAPPED);
  view_changed (self);
}

/* Where motion is no longer wanted it ends at once. */
static void
motion_wanted (BwPlayBar *self)
{
  if (!bw_view_may_move (GTK_WIDGET (self)))
    stand_still (self);
  show_run (self);
}

void
bw_play_bar_bind (BwPlayBar *self, BwSession *session)
{
  g_return_if_fail (BW_IS_PLAY_BAR (self) && BW_IS_SESSION (session));
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (view_changed), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (follow_project), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_widget_get_settings (GTK_WIDGET (self)),
                           "notify::gtk-enable-animations", G_CALLBACK (motion_wanted), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
}

/* --- The widget --------------------------------------------------------------------------------
 */

/* The words change with every bead, and the piece above them must not jump: as long as the bar is
 * so wide it keeps the greatest height it has needed. */
static void
bw_play_bar_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                     int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwPlayBar *self = BW_PLAY_BAR (widget);
  gtk_widget_measure (self->sheet, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL || for_size < 0)
    return;
  if (for_size != self->kept_width)
    self->kept_height = 0;
  self->kept_width = for_size;
  self->kept_height = *minimum = *natural = MAX (*natural, self->kept_height);
}

static void
bw_play_bar_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  gtk_widget_size_allocate (BW_PLAY_BAR (widget)->sheet, &(GtkAllocation){ 0, 0, width, height },
                            -1);
}

static GtkSizeRequestMode
bw_play_bar_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_play_bar_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  BW_PLAY_BAR (widget)->kept_width = 0;
  GTK_WIDGET_CLASS (bw_play_bar_parent_class)->css_changed (widget, change);
}

static void
bw_play_bar_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_play_bar_parent_class)->map (widget);
  show_run (BW_PLAY_BAR (widget));
}

static void
bw_play_bar_unmap (GtkWidget *widget)
{
  stand_still (BW_PLAY_BAR (widget));
  GTK_WIDGET_CLASS (bw_play_bar_parent_class)->unmap (widget);
}

static void
bw_play_bar_dispose (GObject *object)
{
  BwPlayBar *self = BW_PLAY_BAR (object);
  GtkWidget *child;
  stand_still (self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->project);
  g_clear_object (&self->session);
  g_clear_object (&self->actions);
  G_OBJECT_CLASS (bw_play_bar_parent_class)->dispose (object);
}

static void
bw_play_bar_class_init (BwPlayBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_play_bar_dispose;
  widget_class->measure = bw_play_bar_measure;
  widget_class->size_allocate = bw_play_bar_size_allocate;
  widget_class->get_request_mode = bw_play_bar_get_request_mode;
  widget_class->css_changed = bw_play_bar_css_changed;
  widget_class->map = bw_play_bar_map;
  widget_class->unmap = bw_play_bar_unmap;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/play-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPlayBar, sheet);
  gtk_widget_class_bind_template_child (widget_class, BwPlayBar, buttons);
  gtk_widget_class_bind_template_child (widget_class, BwPlayBar, now);
  gtk_widget_class_bind_template_child (widget_class, BwPlayBar, then);
  gtk_widget_class_bind_template_child (widget_class, BwPlayBar, slider);
  gtk_widget_class_bind_template_child (widget_class, BwPlayBar, run_button);
  gtk_widget_class_bind_template_callback (widget_class, slid);
}

static void
bw_play_bar_init (BwPlayBar *self)
{
  static const GActionEntry entries[] = {
    { "run", run_toggled },
    { "step", stepped, "i" },
    { "speed", NULL, "s", "'rows'", speed_changed },
    { "follow", NULL, NULL, "true", follow_changed },
  };
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->buttons, bw_wrap_layout_new (4));
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries),
                                   self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "play", G_ACTION_GROUP (self->actions));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self->slider), keys);
}
