/* SPDX-License-Identifier: GPL-3.0-or-later */
/* GTK's own list has a box to search with, which finds nothing before it is told where an item's
 * words are, and which takes no key before it is clicked on. */
#include "config.h"

#include "app/kit/long-list.h"

#define MANY 12 /* words to look through without searching */

static GtkWidget *
find_below (GtkWidget *widget, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (widget), type))
    return widget;
  GtkWidget *found = NULL;
  GtkWidget *child = gtk_widget_get_first_child (widget);
  for (; child && !found; child = gtk_widget_get_next_sibling (child))
    found = find_below (child, type);
  return found;
}

/* The place of the first that begins so, whatever its case; G_MAXUINT: none does. */
static guint
find_word (GListModel *words, const char *beginning)
{
  g_autofree char *sought = g_utf8_casefold (beginning, -1);
  for (guint i = 0; i < g_list_model_get_n_items (words); i++) {
    g_autoptr (GtkStringObject) item = g_list_model_get_item (words, i);
    g_autofree char *word = g_utf8_casefold (gtk_string_object_get_string (item), -1);
    if (g_str_has_prefix (word, sought))
      return i;
  }
  return G_MAXUINT;
}

/* By the text and not by what the list shows, which follows the text a little later. */
static void
take_first (GtkEditable *entry, GtkDropDown *list)
{
  const char *text = gtk_editable_get_text (entry);
  guint found = find_word (gtk_drop_down_get_model (list), text);
  if (found == G_MAXUINT)
    return;
  if (*text)
    gtk_drop_down_set_selected (list, found);
  gtk_popover_popdown (
      GTK_POPOVER (gtk_widget_get_ancestor (GTK_WIDGET (entry), GTK_TYPE_POPOVER)));
}

static void
prepare (GtkDropDown *list)
{
  g_autoptr (GtkExpression) words
      = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");
  GtkWidget *entry = find_below (GTK_WIDGET (list), GTK_TYPE_SEARCH_ENTRY);
  gtk_drop_down_set_expression (list, words);
  g_signal_connect (entry, "map", G_CALLBACK (gtk_widget_grab_focus), NULL);
  g_signal_connect_object (entry, "activate", G_CALLBACK (take_first), list, 0);
}

void
bw_long_list_fill (GtkDropDown *list, GtkStringList *words)
{
  if (!gtk_drop_down_get_expression (list))
    prepare (list);
  gtk_drop_down_set_model (list, G_LIST_MODEL (words));
  gtk_drop_down_set_enable_search (list, g_list_model_get_n_items (G_LIST_MODEL (words)) > MANY);
}
