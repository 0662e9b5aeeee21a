/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files dropped on a widget. A project opens wherever it is dropped, by the window's "open-file";
 * what other files are for is the widget's own business. */
#pragma once

#include <gtk/gtk.h>

typedef void (*BwDropped) (GtkWidget *widget, GFile *file);

/* other: what to do with a file that is no project by its name. */
void bw_drops_take (GtkWidget *widget, BwDropped other);
/* Opens a file as a project in the window that holds the widget. */
void bw_drops_open (GtkWidget *widget, GFile *file);
