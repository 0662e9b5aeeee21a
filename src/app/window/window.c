/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window shows, and how it follows its project. */
#include "config.h"

#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "app/window/window-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

G_DEFINE_FINAL_TYPE (BwWindow, bw_window, GTK_TYPE_APPLICATION_WINDOW)

const char *
bw_window_name (BwWindow *self)
{
  const char *title = bw_project_get_title (self->project);
  return title && *title ? title : _ ("Untitled");
}

static const char *
state_words (BwWindow *self)
{
  if (bw_project_get_modified (self->project))
    return _ ("not saved");
  return bw_project_get_file (self->project) ? _ ("saved") : _ ("new");
}

static void
show_title (BwWindow *self)
{
  const char *name = bw_window_name (self);
  g_autofree char *full = g_strdup_printf (
      bw_project_get_modified (self->project) ? "• %s — %s" : "%s — %s", name, _ ("Bandwright"));
  gtk_window_set_title (GTK_WINDOW (self), full);
  gtk_label_set_text (self->title, name);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->title), name);
  gtk_label_set_text (self->state, state_words (self));
}

static void
project_changed (BwWindow *self, guint what)
{
  if (what & BW_CHANGED_TITLE)
    show_title (self);
}

static void
history_changed (BwWindow *self)
{
  show_title (self);
  bw_window_update_history (self);
}

static void
recovery_failed (BwWindow *self, const char *sentence)
{
  bw_window_tell (self, GTK_MESSAGE_WARNING, sentence);
}

static void
follow_project (BwWindow *self, BwProject *project)
{
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  if (self->recovery)
    bw_recovery_end (self->recovery);
  g_clear_object (&self->recovery);
  g_set_object (&self->project, project);
  g_signal_connect_swapped (project, "changed", G_CALLBACK (project_changed), self);
  g_signal_connect_swapped (project, "history", G_CALLBACK (history_changed), self);
  self->recovery = bw_recovery_new (project);
  g_signal_connect_object (self->recovery, "failed", G_CALLBACK (recovery_failed), self,
                           G_CONNECT_SWAPPED);
  bw_recovery_keep (self->recovery);
  history_changed (self);
}

void
bw_window_set_project (BwWindow *self, BwProject *project)
{
  g_return_if_fail (BW_IS_WINDOW (self) && BW_IS_PROJECT (project));
  bw_session_set_project (self->session, project);
  follow_project (self, project);
  gtk_info_bar_set_revealed (self->notice, FALSE);
}

gboolean
bw_window_is_untouched (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), FALSE);
  return !bw_project_get_modified (self->project) && !bw_project_get_file (self->project)
         && bw_draft_count_pending (self->draft) == 0;
}

void
bw_window_tell (BwWindow *self, GtkMessageType type, const char *sentence)
{
  g_return_if_fail (BW_IS_WINDOW (self));
  gtk_info_bar_set_message_type (self->notice, type);
  gtk_label_set_text (self->notice_words, sentence);
  gtk_info_bar_set_revealed (self->notice, TRUE);
}

static void
notice_closed (BwWindow *self)
{
  gtk_info_bar_set_revealed (self->notice, FALSE);
}

/* At the bench the row in hand wants the room; on the Hang stage the piece hangs. */
static void
stage_changed (BwWindow *self)
{
  const char *shown = gtk_stack_get_visible_child_name (self->stages);
  if (self->fit)
    gtk_widget_set_visible (GTK_WIDGET (self->fit), g_strcmp0 (shown, "bench") != 0);
  if (self->stone)
    bw_stone_panel_set_hanging (self->stone, g_strcmp0 (shown, "hang") == 0);
}

void
bw_window_show_stage (BwWindow *self, const char *name)
{
  g_return_if_fail (BW_IS_WINDOW (self));
  gtk_stack_set_visible_child_name (self->stages, name);
}

BwSession *
bw_window_get_session (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), NULL);
  return self->session;
}

BwProject *
bw_window_get_project (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), NULL);
  return self->project;
}

BwDraft *
bw_window_get_draft (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), NULL);
  return self->draft;
}

/* The paned's place is kept as a share, so that it means the same in the next, other window. */
static void
keep_place (BwWindow *self)
{
  BwSettings *settings = bw_settings_get ();
  int width, height, whole = gtk_widget_get_width (GTK_WIDGET (self->paned));
  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  g_object_set (settings, "maximized", gtk_window_is_maximized (GTK_WINDOW (self)), NULL);
  if (width > 0 && height > 0)
    g_object_set (settings, "window-width", CLAMP (width, 600, 16384), "window-height",
                  CLAMP (height, 400, 16384), NULL);
  if (whole > 0) {
    double share = (double)gtk_paned_get_position (self->paned) / whole;
    g_object_set (settings, "stage-share", CLAMP (share, 0.2, 0.9), NULL);
  }
}

/* Only now is it known what the share is of: the window's frame and a maximised window differ from
 * the size that was asked for, and a share taken of the wrong whole would drift with every start.
 */
static gboolean
share_out (GtkWidget *paned, GdkFrameClock *clock, gpointer data)
{
  int whole = gtk_widget_get_width (paned);
  if (whole <= 0)
    return G_SOURCE_CONTINUE;
  double share = bw_settings_get_number (bw_settings_get (), "stage-share");
  gtk_paned_set_position (GTK_PANED (paned), (int)lround (whole * share));
  return G_SOURCE_REMOVE;
}

static void
take_place (BwWindow *self)
{
  BwSettings *settings = bw_settings_get ();
  int width = bw_settings_get_count (settings, "window-width");
  int height = bw_settings_get_count (settings, "window-height");
  gtk_window_set_default_size (GTK_WINDOW (self), width, height);
  gtk_paned_set_position (self->paned,
                          (int)(width * bw_settings_get_number (settings, "stage-share")));
  gtk_widget_add_tick_callback (GTK_WIDGET (self->paned), share_out, NULL, NULL);
  if (bw_settings_get_flag (settings, "maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
}

static gboolean
bw_window_close_request (GtkWindow *window)
{
  BwWindow *self = BW_WINDOW (window);
  bw_draft_settle (self->draft);
  if (bw_window_hold_close (self))
    return TRUE;
  keep_place (self);
  bw_recovery_end (self->recovery);
  return GTK_WINDOW_CLASS (bw_window_parent_class)->close_request (window);
}

/* The lamp is a preference: every window's stone view follows it. */
static void
follow_light (BwWindow *self)
{
  gboolean lamp = bw_settings_get_flag (bw_settings_get (), "lamp-light");
  bw_session_set_light (self->session, lamp ? BW_LIGHT_LAMP : BW_LIGHT_DAY);
}

static void
bw_window_dispose (GObject *object)
{
  BwWindow *self = BW_WINDOW (object);
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  /* It holds the stages, and menus among them hold the window's actions: a circle. */
  g_action_map_remove_action (G_ACTION_MAP (self), "stage");
  g_clear_object (&self->recovery);
  g_clear_object (&self->project);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_window_parent_class)->dispose (object);
}

static void
bw_window_finalize (GObject *object)
{
  g_clear_object (&BW_WINDOW (object)->session);
  G_OBJECT_CLASS (bw_window_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, state);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, history_button);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, history);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, notice);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, notice_words);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, paned);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, stages);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, measure);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, draw);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, hang);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, make);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, bench);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, stone);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, fit);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, recent_menu);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, demo_menu);
  gtk_widget_class_bind_template_callback (widget_class, notice_closed);
  gtk_widget_class_bind_template_callback (widget_class, stage_changed);
}

static void
bw_window_class_init (BwWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_window_finalize;
  GTK_WINDOW_CLASS (klass)->close_request = bw_window_close_request;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/window.ui");
  bind_children (widget_class);
}

static void
bw_window_init (BwWindow *self)
{
  g_type_ensure (BW_TYPE_HISTORY_POPOVER);
  g_type_ensure (BW_TYPE_MEASURE_STAGE);
  g_type_ensure (BW_TYPE_DRAW_STAGE);
  g_type_ensure (BW_TYPE_HANG_STAGE);
  g_type_ensure (BW_TYPE_MAKE_STAGE);
  g_type_ensure (BW_TYPE_BENCH_PAGE);
  g_type_ensure (BW_TYPE_STONE_PANEL);
  g_type_ensure (BW_TYPE_FIT_LINE);
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_window_add_actions (self);
  bw_window_add_menus (self);
  take_place (self);
}

static void
bind_parts (BwWindow *self)
{
  bw_history_popover_bind (self->history, self->session);
  bw_measure_stage_bind (self->measure, self->draft);
  bw_draw_stage_bind (self->draw, self->draft);
  bw_hang_stage_bind (self->hang, self->draft);
  bw_make_stage_bind (self->make, self->draft);
  bw_bench_page_bind (self->bench, self->draft);
  bw_stone_panel_bind (self->stone, self->session);
  bw_fit_line_bind (self->fit, self->draft);
}

BwWindow *
bw_window_new (GtkApplication *application, BwProject *project)
{
  BwWindow *self = g_object_new (BW_TYPE_WINDOW, "application", application, NULL);
  self->session = bw_session_new (project);
  self->draft = bw_draft_new (self->session);
  follow_light (self);
  g_signal_connect_object (bw_settings_get (), "notify::lamp-light", G_CALLBACK (follow_light),
                           self, G_CONNECT_SWAPPED);
  follow_project (self, project);
  bind_parts (self);
  bw_part_names_give (GTK_WIDGET (self));
  return self;
}
