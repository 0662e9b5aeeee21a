/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking for a colour. The one place that knows which dialog the toolkit has for it. */
#pragma once

#include <gtk/gtk.h>

typedef void (*BwColourChosen) (guint32 srgb, gpointer data);

/* Starts from srgb (0xRRGGBB). Not called when the maker cancels. data is freed with free_data in
 * either case; free_data may be NULL. */
void bw_colour_dialog_ask (GtkWindow *parent, const char *title, guint32 srgb,
                           BwColourChosen chosen, gpointer data, GDestroyNotify free_data);

GdkRGBA bw_colour_to_rgba (guint32 srgb);
guint32 bw_colour_from_rgba (const GdkRGBA *rgba);
