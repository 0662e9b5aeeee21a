/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/draw/history-popover.h"
#include "app/kit/key-words.h"
#include "app/kit/part-names.h"
#include "app/kit/tip.h"
#include "app/window/undo-box.h"

#include <glib/gi18n-lib.h>

struct _BwUndoBox {
  GtkWidget parent_instance;
  BwDraft *draft;
  BwProject *project; /* the one whose steps are followed */
  GActionMap *actions;
  GtkButton *undo;
  GtkButton *redo;
  GtkMenuButton *steps;
};

G_DEFINE_FINAL_TYPE (BwUndoBox, bw_undo_box, GTK_TYPE_WIDGET)

static void
undo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwUndoBox *self = data;
  bw_draft_settle (self->draft);
  bw_project_undo (self->project);
}

static void
redo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwUndoBox *self = data;
  bw_draft_settle (self->draft);
  bw_project_redo (self->project);
}

static void
show_steps (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwUndoBox *self = data;
  bw_draft_settle (self->draft);
  gtk_menu_button_popup (self->steps);
}

static void
enable (BwUndoBox *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (self->actions, name);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

/* prefix: "Undo: " with what would be undone behind it; alone: without anything to undo. The key is
 * for the eye: a reader tells it by itself. */
static void
show_label (GtkButton *button, const char *action, const char *prefix, const char *alone,
            const char *label)
{
  g_autofree char *words = label && *label ? g_strconcat (prefix, label, NULL) : g_strdup (alone);
  g_autofree char *tip = bw_key_words (words, action);
  bw_tip_set (GTK_WIDGET (button), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
}

static void
show_where_it_stands (BwUndoBox *self)
{
  BwProject *project = self->project;
  enable (self, "undo", bw_project_can_undo (project));
  enable (self, "redo", bw_project_can_redo (project));
  show_label (self->undo, "win.undo", _ ("Undo: "), _ ("Undo"), bw_project_undo_label (project));
  show_label (self->redo, "win.redo", _ ("Redo: "), _ ("Redo"), bw_project_redo_label (project));
}

static void
follow_project (BwUndoBox *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, show_where_it_stands, self);
  g_set_object (&self->project, bw_draft_get_project (self->draft));
  g_signal_connect_object (self->project, "history", G_CALLBACK (show_where_it_stands), self,
                           G_CONNECT_SWAPPED);
  show_where_it_stands (self);
}

/* The list is made when it is first opened. */
static void
make_list (GtkMenuButton *button, gpointer data)
{
  BwUndoBox *self = data;
  if (gtk_menu_button_get_popover (button))
    return;
  GtkWidget *list = g_object_new (BW_TYPE_HISTORY_POPOVER, NULL);
  gtk_menu_button_set_popover (button, list);
  bw_history_popover_bind (BW_HISTORY_POPOVER (list), bw_draft_get_session (self->draft));
  bw_part_names_give (GTK_WIDGET (button));
}

void
bw_undo_box_bind (BwUndoBox *self, BwDraft *draft, GActionMap *actions)
{
  static const GActionEntry entries[] = {
    { "undo", undo },
    { "redo", redo },
    { "history", show_steps },
  };
  g_return_if_fail (BW_IS_UNDO_BOX (self) && BW_IS_DRAFT (draft));
  BwSession *session = bw_draft_get_session (draft);
  g_set_object (&self->draft, draft);
  self->actions = actions;
  g_action_map_add_action_entries (actions, entries, G_N_ELEMENTS (entries), self);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (follow_project), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
}

static void
bw_undo_box_dispose (GObject *object)
{
  BwUndoBox *self = BW_UNDO_BOX (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->project);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_undo_box_parent_class)->dispose (object);
}

static void
bw_undo_box_class_init (BwUndoBoxClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_undo_box_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/undo-box.ui");
  gtk_widget_class_bind_template_child (widget_class, BwUndoBox, undo);
  gtk_widget_class_bind_template_child (widget_class, BwUndoBox, redo);
  gtk_widget_class_bind_template_child (widget_class, BwUndoBox, steps);
}

static void
bw_undo_box_init (BwUndoBox *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_autofree char *tip = bw_key_words (_ ("Steps so far"), "win.history");
  bw_tip_set (GTK_WIDGET (self->steps), tip);
  gtk_menu_button_set_create_popup_func (self->steps, make_list, self, NULL);
}
