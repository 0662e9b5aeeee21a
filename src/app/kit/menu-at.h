/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A menu that opens at a point: what the right button and the menu key offer. */
#pragma once

#include <gtk/gtk.h>

/* Opens a menu at a point of `inside`, as a child of `owner`, whose actions it finds; when it
 * closes, `inside` has the keyboard again. */
void bw_menu_open_at (GtkWidget *owner, GtkWidget *inside, double x, double y, GMenuModel *menu);

/* An item whose label may hold underlines; action NULL: it cannot be chosen now. */
void bw_menu_add (GMenu *menu, const char *label, const char *action);
/* The same with a number for the action. */
void bw_menu_add_to (GMenu *menu, const char *label, const char *action, guint number);
/* Appends a section, which is left empty. Borrowed. */
GMenu *bw_menu_section (GMenu *menu);

/* The keys that ask for it. */
gboolean bw_menu_is_key (guint key, GdkModifierType state);
