/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's commands: what menu, buttons and keys do. */
#include "config.h"

#include "app/keep/demos.h"
#include "app/kit/tell.h"
#include "app/window/window-private.h"

#include <glib/gi18n-lib.h>

static void
undo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  bw_draft_settle (self->draft);
  bw_project_undo (self->project);
}

static void
redo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  bw_draft_settle (self->draft);
  bw_project_redo (self->project);
}

static void
history (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  bw_draft_settle (self->draft);
  gtk_menu_button_popup (self->history_button);
}

static void
open (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_ask_open (data);
}

static void
open_recent (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  bw_window_open (data, file);
}

static void
open_demo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (g_variant_get_string (parameter, NULL));
  g_autoptr (BwProject) project = bw_demo_load (file, &error);
  if (!project) {
    bw_window_tell_failure (self, _ ("“%s” could not be opened: %s"), file, error);
  } else if (bw_window_is_untouched (self)) {
    bw_window_set_project (self, project);
  } else {
    GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
    gtk_window_present (GTK_WINDOW (bw_window_new (application, project)));
  }
}

static void
save (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_save (data, FALSE, NULL);
}

static void
save_as (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_save (data, TRUE, NULL);
}

static void
close_window (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_close (data);
}

static void
export_csv (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_export_csv (data);
}

static void
copy_list (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_copy_list (data);
}

static void
save_picture (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_save_picture (data);
}

static void
save_model (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_save_model (data);
}

static void
zoom_in (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_draw_stage_zoom (((BwWindow *)data)->draw, 1.25);
}

static void
zoom_out (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_draw_stage_zoom (((BwWindow *)data)->draw, 1 / 1.25);
}

static void
zoom_fit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_draw_stage_zoom (((BwWindow *)data)->draw, 0);
}

/* The bench helper is a stage of its own, come to from Make and left to it. */
static void
bench (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  const char *shown = gtk_stack_get_visible_child_name (self->stages);
  bw_draft_settle (self->draft);
  bw_window_show_stage (self, g_strcmp0 (shown, "bench") == 0 ? "make" : "bench");
}

static void
tell (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  int type;
  const char *sentence;
  g_variant_get (parameter, "(i&s)", &type, &sentence);
  bw_window_tell (self, type, sentence);
}

static const GActionEntry entries[] = {
  { BW_TELL_ACTION, tell, "(is)" },
  { "bench", bench },
  { "undo", undo },
  { "redo", redo },
  { "history", history },
  { "open", open },
  { "open-recent", open_recent, "s" },
  { "open-demo", open_demo, "s" },
  { "save", save },
  { "save-as", save_as },
  { "close", close_window },
  { "export-csv", export_csv },
  { "copy-list", copy_list },
  { "save-picture", save_picture },
  { "save-model", save_model },
  { "zoom-in", zoom_in },
  { "zoom-out", zoom_out },
  { "zoom-fit", zoom_fit },
};

static void
enable (BwWindow *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

/* prefix: "Undo: " with what would be undone behind it; alone: without anything to undo. */
static void
show_label (GtkButton *button, const char *prefix, const char *alone, const char *label)
{
  g_autofree char *text = label && *label ? g_strconcat (prefix, label, NULL) : g_strdup (alone);
  gtk_widget_set_tooltip_text (GTK_WIDGET (button), text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

void
bw_window_update_history (BwWindow *self)
{
  BwProject *project = self->project;
  enable (self, "undo", bw_project_can_undo (project));
  enable (self, "redo", bw_project_can_redo (project));
  show_label (self->undo_button, _ ("Undo: "), _ ("Undo"), bw_project_undo_label (project));
  show_label (self->redo_button, _ ("Redo: "), _ ("Redo"), bw_project_redo_label (project));
}

void
bw_window_add_actions (BwWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  bw_window_add_print_actions (self);
  g_autoptr (GPropertyAction) stage
      = g_property_action_new ("stage", self->stages, "visible-child-name");
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (stage));
}
