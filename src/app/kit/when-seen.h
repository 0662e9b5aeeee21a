/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work that is only worth doing where it is seen. */
#pragma once

#include <gtk/gtk.h>

typedef void (*BwShow) (gpointer widget);

/* Has show called with the widget: now where it is on screen, else when it comes there, once. A
 * widget has one such work. */
void bw_when_seen (GtkWidget *widget, BwShow show);
