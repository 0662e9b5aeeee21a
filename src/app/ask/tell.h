/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sentence from any widget to the maker. The window that holds the widget shows it; nothing but
 * the action's name is known of that window. */
#pragma once

#include <gtk/gtk.h>

/* The window's action, with the message's type and the sentence: "(is)". */
#define BW_TELL_ACTION "tell"

/* Does nothing when the widget is in no window that tells. */
void bw_tell (GtkWidget *widget, GtkMessageType type, const char *sentence);
