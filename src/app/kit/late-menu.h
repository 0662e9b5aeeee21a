/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A menu's many parts are made when it is first opened, not with the window. */
#pragma once

#include <gtk/gtk.h>

/* In place of the button's own menu. */
void bw_late_menu_give (GtkMenuButton *button, GMenuModel *menu);
