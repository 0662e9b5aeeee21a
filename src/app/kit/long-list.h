/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists to choose from that may be long. Where there are more words than a look goes over, they are
 * found by typing how one begins: Return takes the first that does. */
#pragma once

#include <gtk/gtk.h>

/* The list's words from now on; the first is selected. words is borrowed. */
void bw_long_list_fill (GtkDropDown *list, GtkStringList *words);
