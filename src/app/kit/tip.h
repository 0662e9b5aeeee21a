/* SPDX-License-Identifier: GPL-3.0-or-later */
/* GTK asks the screen where the pointer is, and waits for the answer, whenever a tooltip is set on
 * a widget that is not hidden, be it on the screen or not. A start asked for
 * the pointer 364 times until all stages were there, each time waiting. */
#pragma once

#include <gtk/gtk.h>

/* As gtk_widget_set_tooltip_text(), without a question where the words stay or nobody sees them. */
void bw_tip_set (GtkWidget *widget, const char *words);
