/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Watching the piece being woven, over the stone: how far it is, in words and on a slider; running
 * on by itself, by beads and by rows. What is shown is the session's `played`. While the session
 * shows a finished piece the bar is hidden. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_PLAY_BAR (bw_play_bar_get_type ())
G_DECLARE_FINAL_TYPE (BwPlayBar, bw_play_bar, BW, PLAY_BAR, GtkWidget)

void bw_play_bar_bind (BwPlayBar *self, BwSession *session);

/* Begins where the bench helper stands, and runs on where the desktop lets things move. */
void bw_play_bar_open (BwPlayBar *self);
/* The finished piece again, seen from where the maker saw it, unless they turned it meanwhile. */
void bw_play_bar_close (BwPlayBar *self);

/* Runs, or stands still. */
void bw_play_bar_toggle (BwPlayBar *self);
gboolean bw_play_bar_is_running (BwPlayBar *self);
