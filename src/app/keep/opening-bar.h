/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opens project files on threads of their own. It is seen, with how far it has come and a way to
 * stop, only where that takes long. */
#pragma once

#include "project/project.h"
#include <gtk/gtk.h>

#define BW_TYPE_OPENING_BAR (bw_opening_bar_get_type ())
G_DECLARE_FINAL_TYPE (BwOpeningBar, bw_opening_bar, BW, OPENING_BAR, GtkBox)

/* project is borrowed, NULL with an error (G_IO_ERROR_CANCELLED when it was stopped). */
typedef void (*BwOpened) (GFile *file, BwProject *project, const GError *error, gpointer data);

/* Calls opened once, later, unless the bar goes first: then never. */
void bw_opening_bar_open (BwOpeningBar *self, GFile *file, BwOpened opened, gpointer data);
/* Stops all that is being opened. */
void bw_opening_bar_stop (BwOpeningBar *self);
gboolean bw_opening_bar_is_busy (BwOpeningBar *self);
