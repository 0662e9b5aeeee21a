/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit keeps the last hundred icons that were asked for, however often it was the same one,
 * and may drop the last hold on one from the thread in which it loads another. Who asks for the
 * first at that moment is given an icon that is being freed, and the program dies (seen, and read
 * in the source, with GTK 4.8.3). The program's own icons are therefore held for as long as it
 * runs: they are never freed, and never loaded anew. */
#pragma once

#include <gtk/gtk.h>

/* Holds them as this window shows them, in its scale and direction, once its first picture is on
 * the screen; and anew when its scale or the theme is another. */
void bw_kept_icons_follow (GtkWidget *window);
