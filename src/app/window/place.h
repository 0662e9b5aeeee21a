/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where and how large a window was the last time, and how it was shared out. */
#pragma once

#include <gtk/gtk.h>

/* Gives a new window the size and its pane the share that were kept. */
void bw_place_take (GtkWindow *window, GtkPaned *paned);
/* Keeps them for the next window. */
void bw_place_keep (GtkWindow *window, GtkPaned *paned);
