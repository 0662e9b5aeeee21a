/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/hands/line-rows.h"

#include "app/kit/words.h"

static void
set_up (GtkSignalListItemFactory *factory, GtkListItem *item)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "numeric");
  gtk_list_item_set_child (item, label);
}

static void
bind (GtkSignalListItemFactory *factory, GtkListItem *item)
{
  GtkStringObject *words = gtk_list_item_get_item (item);
  bw_label_set_words (GTK_LABEL (gtk_list_item_get_child (item)),
                      gtk_string_object_get_string (words));
}

void
bw_line_rows_use (GtkListView *list)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (set_up), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind), NULL);
  gtk_list_view_set_factory (list, factory);
}
