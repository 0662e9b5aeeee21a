/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks for a name and keeps the beads selected as a motif of the maker's own. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

/* sentence: what has become of it, for the status line; saved: whether it was kept. */
typedef void (*BwMotifSaved) (gboolean saved, const char *sentence, gpointer data);

/* Something must be selected. Nothing is told when the maker thinks better of it. data must live as
 * long as the parent. */
void bw_save_motif_ask (GtkWindow *parent, BwSession *session, BwMotifSaved told, gpointer data);
