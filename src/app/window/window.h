/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window: one document, four stages, the stone beside them and the fit line below. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_WINDOW (bw_window_get_type ())
G_DECLARE_FINAL_TYPE (BwWindow, bw_window, BW, WINDOW, GtkApplicationWindow)

/* A window on a project; not presented yet. */
BwWindow *bw_window_new (GtkApplication *application, BwProject *project);

BwSession *bw_window_get_session (BwWindow *self); /* borrowed */
BwProject *bw_window_get_project (BwWindow *self); /* borrowed */
BwDraft *bw_window_get_draft (BwWindow *self);     /* borrowed */

/* Puts another project into the window. */
void bw_window_set_project (BwWindow *self, BwProject *project);
/* Nothing in it is the maker's own: another project may take its place without a question. */
gboolean bw_window_is_untouched (BwWindow *self);

/* Tells one sentence in the window, until it is closed or another takes its place. */
void bw_window_tell (BwWindow *self, GtkMessageType type, const char *sentence);

/* Opens a file here when the window is untouched, else in a window of its own. A file that cannot
 * be opened is told here. */
void bw_window_open (BwWindow *self, GFile *file);
/* "measure", "draw", "hang", "make". */
void bw_window_show_stage (BwWindow *self, const char *name);
/* Closes it as part of quitting: when it asks about unsaved work first, its answer goes on
 * quitting. FALSE when it stays open, TRUE when it is closed and may be gone. */
gboolean bw_window_close_for_quit (BwWindow *self);
