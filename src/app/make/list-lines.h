/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of words and numbers in a grid. */
#pragma once

#include <gtk/gtk.h>

void bw_list_clear (GtkGrid *grid);
/* xalign: 0 for words, 1 for numbers; style: a class, or NULL. The second column takes the room. */
void bw_list_put (GtkGrid *grid, int column, int row, const char *text, float xalign,
                  const char *style);
G_GNUC_PRINTF (5, 6)
void bw_list_put_number (GtkGrid *grid, int column, int row, const char *style, const char *format,
                         ...);
