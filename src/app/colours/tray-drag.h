/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of a list that are put in another order by dragging them. */
#pragma once

#include <gtk/gtk.h>

/* A row is to go from one place to another, both counted from 0 in the order as it is. */
typedef void (*BwTrayMoved) (int from, int to, gpointer data);

/* data must live as long as the list. */
void bw_tray_drag_add (GtkListBox *list, BwTrayMoved moved, gpointer data);
