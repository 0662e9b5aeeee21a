/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is dragged over the desk and dropped: a thing in the window, or a file out of its folder. */
#pragma once

#include <gtk/gtk.h>

/* Presses on a point of a widget from which, or from one it lies in, things are dragged, and moves
 * to and fro there until this is a drag. Gives its source, for drags_let_go (). Fails when none
 * begins. */
GtkDragSource *drags_pick_up (GtkWidget *widget, double x, double y);
/* Lets go where the pointer is, and waits until the drag is over. */
void drags_let_go (GtkDragSource *source);

/* Opens a folder's window beside the program's, drags the file out of it and lets it go over a
 * point of the widget. What the widget does with it is left to be waited for. */
void drags_file (const char *path, GtkWidget *onto, double x, double y);
