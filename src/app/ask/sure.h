/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Asks before something is gone for good. lost: what is gone and what is not; keep, destroy: the
 * two buttons, of which the first is the default. answered (GtkDialog *, int, data) hears
 * GTK_RESPONSE_ACCEPT for the second, and lets the dialog go. */
void bw_ask_sure (GtkWindow *parent, const char *question, const char *lost, const char *keep,
                  const char *destroy, GCallback answered, gpointer data);
