/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The question what a motif of the maker's own should be called. */
#pragma once

#include <gtk/gtk.h>

/* Where the answer goes. */
typedef void (*BwMotifNamed) (const char *name, gpointer data);

/* Asks, with a name to begin from. A name that another motif has is given only when the maker would
 * replace that one. `accept` is the button's label; data is freed when nothing more is asked. */
void bw_name_motif_ask (GtkWindow *parent, const char *question, const char *accept,
                        const char *name, BwMotifNamed named, gpointer data, GDestroyNotify free);
