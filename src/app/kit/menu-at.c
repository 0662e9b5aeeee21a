/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Built anew each time, because what can be done depends on where one points. */
#include "app/kit/menu-at.h"

#define KEPT "menu-at" /* an owner's last menu */

static void
take_away (gpointer popover)
{
  if (gtk_widget_get_parent (popover))
    gtk_widget_unparent (popover);
  g_object_unref (popover);
}

static void
closed (GtkWidget *inside)
{
  gtk_widget_grab_focus (inside);
}

static void
let_go (GtkWidget *owner)
{
  g_object_set_data (G_OBJECT (owner), KEPT, NULL);
}

/* A press on an item closes the menu before it acts and before it is let go: a menu stays until the
 * next one opens, or its owner goes. */
static void
keep (GtkWidget *owner, GtkWidget *popover)
{
  if (!g_object_get_data (G_OBJECT (owner), KEPT))
    g_signal_connect (owner, "destroy", G_CALLBACK (let_go), NULL);
  g_object_set_data_full (G_OBJECT (owner), KEPT, g_object_ref (popover), take_away);
}

void
bw_menu_open_at (GtkWidget *owner, GtkWidget *inside, double x, double y, GMenuModel *menu)
{
  GtkWidget *popover = gtk_popover_menu_new_from_model (menu);
  double owner_x = 0, owner_y = 0;
  gtk_widget_translate_coordinates (inside, owner, x, y, &owner_x, &owner_y);
  gtk_widget_set_parent (popover, owner);
  keep (owner, popover);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_pointing_to (GTK_POPOVER (popover),
                               &(GdkRectangle){ (int)owner_x, (int)owner_y, 1, 1 });
  gtk_widget_set_halign (popover, GTK_ALIGN_START);
  g_signal_connect_object (popover, "closed", G_CALLBACK (closed), inside, G_CONNECT_SWAPPED);
  gtk_popover_popup (GTK_POPOVER (popover));
}

void
bw_menu_add (GMenu *menu, const char *label, const char *action)
{
  g_auto (GStrv) parts = g_strsplit (label, "_", -1);
  g_autofree char *plain = g_strjoinv ("__", parts);
  /* An action that nobody has makes the item grey. */
  g_menu_append (menu, plain, action ? action : "menu.never");
}

void
bw_menu_add_to (GMenu *menu, const char *label, const char *action, guint number)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
  g_menu_item_set_action_and_target (item, action, "u", number);
  g_menu_append_item (menu, item);
}

GMenu *
bw_menu_section (GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
  return section;
}

gboolean
bw_menu_is_key (guint key, GdkModifierType state)
{
  return key == GDK_KEY_Menu || (key == GDK_KEY_F10 && state & GDK_SHIFT_MASK);
}
