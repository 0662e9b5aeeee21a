/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/late-menu.h"
#include "app/kit/part-names.h"

static void
make (GtkMenuButton *button, gpointer menu)
{
  if (gtk_menu_button_get_popover (button))
    return;
  gtk_menu_button_set_popover (button, gtk_popover_menu_new_from_model (menu));
  bw_part_names_give (GTK_WIDGET (button));
}

void
bw_late_menu_give (GtkMenuButton *button, GMenuModel *menu)
{
  g_return_if_fail (GTK_IS_MENU_BUTTON (button) && G_IS_MENU_MODEL (menu));
  gtk_menu_button_set_create_popup_func (button, make, g_object_ref (menu), g_object_unref);
}
