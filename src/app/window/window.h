/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window: one document, four stages, the stone beside them and the fit line below. */
#pragma once

#include "app/form/draft.h"
#include "app/keep/leftover.h"
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
/* Another project may take the place of the one in it without a question: nothing in it is the
 * maker's own, or, at the shelf, it is a design as it was opened. */
gboolean bw_window_makes_way (BwWindow *self);

/* Tells one sentence in the window, until it is closed or another takes its place. */
void bw_window_tell (BwWindow *self, GtkMessageType type, const char *sentence);

/* Opens a file, on a thread: here when the window is untouched then, else in a window of its own. A
 * window that shows the file already is brought to the front. A file that cannot be opened is told
 * here. Presents the window that has something to show. */
void bw_window_open (BwWindow *self, GFile *file);
/* Something is still being opened for this window. */
gboolean bw_window_is_opening (BwWindow *self);
/* Work that was left by a crash: into the window that shows its file, else as an opened file would
 * be shown. leftover is the copy it was loaded from; its lock is taken. */
void bw_window_take_recovered (BwWindow *self, BwProject *project, BwLeftover *leftover);
/* Writes the safety copy now: the program is about to be ended from outside. */
void bw_window_keep_work (BwWindow *self);
/* "measure", "draw", "hang", "make". */
/* The page to start from, over the window's work, which waits behind it. */
void bw_window_show_shelf (BwWindow *self);
void bw_window_show_stage (BwWindow *self, const char *name);
/* Closes it as part of quitting: when it asks about unsaved work first, its answer goes on
 * quitting. FALSE when it stays open, TRUE when it is closed and may be gone. */
gboolean bw_window_close_for_quit (BwWindow *self);
