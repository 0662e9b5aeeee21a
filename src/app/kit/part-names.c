/* SPDX-License-Identifier: GPL-3.0-or-later */
/* GTK 4.8 names a drop-down but gives the keyboard to a nameless button within it, gives an
 * expander no name at all, and reads a mnemonic's underline aloud. What the maker hears is put
 * right here, once for the whole program instead of beside every control. */
#include "config.h"

#include "app/kit/part-names.h"

/* Owned. */
static char *
without_underline (const char *label)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (const char *c = label; *c; c++) {
    if (*c == '_' && *++c == '\0')
      break;
    g_string_append_c (text, *c);
  }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
set_name (GtkWidget *widget, const char *label)
{
  g_autofree char *name = without_underline (label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* The button that takes the keyboard is called as the label that belongs to the drop-down, or by
 * its tooltip. */
static void
name_drop_down (GtkWidget *drop_down)
{
  GtkWidget *button = gtk_widget_get_first_child (drop_down);
  g_autoptr (GList) labels = gtk_widget_list_mnemonic_labels (drop_down);
  const char *tooltip = gtk_widget_get_tooltip_text (drop_down);
  if (!GTK_IS_TOGGLE_BUTTON (button))
    return;
  if (labels)
    gtk_accessible_update_relation (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_RELATION_LABELLED_BY,
                                    labels->data, NULL, -1);
  else if (tooltip)
    set_name (button, tooltip);
}

/* What a button opens is called as the button is. */
static void
name_popover (GtkMenuButton *button)
{
  GtkPopover *popover = gtk_menu_button_get_popover (button);
  const char *label = gtk_menu_button_get_label (button);
  const char *words = label ? label : gtk_widget_get_tooltip_text (GTK_WIDGET (button));
  if (popover && words)
    set_name (GTK_WIDGET (popover), words);
}

static void
name_expander (GtkExpander *expander)
{
  const char *label = gtk_expander_get_label (expander);
  if (label)
    set_name (GTK_WIDGET (expander), label);
}

/* The words on a button are its name, also where they were set as its child; a mnemonic's raw text
 * beside them would be read as well. */
static void
name_button (GtkButton *button)
{
  GtkWidget *words = gtk_button_get_child (button);
  if (!GTK_IS_LABEL (words))
    return;
  gtk_accessible_update_relation (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_RELATION_LABELLED_BY,
                                  words, NULL, -1);
  if (gtk_button_get_use_underline (button))
    gtk_accessible_reset_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL);
}

static void
name_check_button (GtkCheckButton *button)
{
  const char *label = gtk_check_button_get_label (button);
  if (label && gtk_check_button_get_use_underline (button))
    set_name (GTK_WIDGET (button), label);
}

void
bw_part_names_give (GtkWidget *root)
{
  g_return_if_fail (GTK_IS_WIDGET (root));
  if (GTK_IS_DROP_DOWN (root))
    name_drop_down (root);
  else if (GTK_IS_MENU_BUTTON (root))
    name_popover (GTK_MENU_BUTTON (root));
  else if (GTK_IS_EXPANDER (root))
    name_expander (GTK_EXPANDER (root));
  else if (GTK_IS_BUTTON (root))
    name_button (GTK_BUTTON (root));
  else if (GTK_IS_CHECK_BUTTON (root))
    name_check_button (GTK_CHECK_BUTTON (root));
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    bw_part_names_give (child);
}
