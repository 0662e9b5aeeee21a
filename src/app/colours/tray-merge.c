/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list is that of the moment the question is asked. */
#include "config.h"

#include "app/colours/tray-merge.h"
#include "app/kit/tray-row.h"

#include <glib/gi18n-lib.h>

struct _BwTrayMerge {
  GtkPopover parent_instance;
  BwSession *session;
  GtkLabel *question;
  GtkDropDown *other;
};

G_DEFINE_FINAL_TYPE (BwTrayMerge, bw_tray_merge, GTK_TYPE_POPOVER)

void
bw_tray_merge_bind (BwTrayMerge *self, BwSession *session)
{
  g_return_if_fail (BW_IS_TRAY_MERGE (self) && BW_IS_SESSION (session));
  g_set_object (&self->session, session);
}

static void
ask (BwTrayMerge *self)
{
  const BwTray *tray = bw_project_get_tray (bw_session_get_project (self->session));
  int chosen = bw_session_get_colour (self->session);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  g_autofree char *name = bw_colour_words (&tray->colour[chosen]);
  g_autofree char *words = g_strdup_printf (_ ("“%s” takes in every bead of"), name);
  for (int i = 0; i < tray->n_colours; i++)
    if (i != chosen)
      gtk_string_list_take (names, bw_colour_words (&tray->colour[i]));
  gtk_drop_down_set_model (self->other, G_LIST_MODEL (names));
  gtk_label_set_text (self->question, words);
}

static void
merge_clicked (BwTrayMerge *self)
{
  int chosen = bw_session_get_colour (self->session);
  int gone = (int)gtk_drop_down_get_selected (self->other);
  gtk_popover_popdown (GTK_POPOVER (self));
  if (gone >= chosen)
    gone++;
  bw_project_remove_colour (bw_session_get_project (self->session), _ ("Merge two colours"), gone,
                            chosen, NULL);
  bw_session_set_colour (self->session, chosen - (gone < chosen));
}

static void
bw_tray_merge_show (GtkWidget *widget)
{
  if (BW_TRAY_MERGE (widget)->session)
    ask (BW_TRAY_MERGE (widget));
  GTK_WIDGET_CLASS (bw_tray_merge_parent_class)->show (widget);
}

static void
bw_tray_merge_dispose (GObject *object)
{
  g_clear_object (&BW_TRAY_MERGE (object)->session);
  G_OBJECT_CLASS (bw_tray_merge_parent_class)->dispose (object);
}

static void
bw_tray_merge_class_init (BwTrayMergeClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_tray_merge_dispose;
  widget_class->show = bw_tray_merge_show;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/tray-merge.ui");
  gtk_widget_class_bind_template_child (widget_class, BwTrayMerge, question);
  gtk_widget_class_bind_template_child (widget_class, BwTrayMerge, other);
  gtk_widget_class_bind_template_callback (widget_class, merge_clicked);
}

static void
bw_tray_merge_init (BwTrayMerge *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
