/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening, saving and closing as a window does them, and the commands for it. What must be known of
 * windows is asked of the owner. */
#pragma once

#include "app/form/draft.h"
#include "app/keep/opening-bar.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BW_TYPE_FILES (bw_files_get_type ())
G_DECLARE_FINAL_TYPE (BwFiles, bw_files, BW, FILES, GObject)

/* What the owning window does for it. */
typedef struct {
  /* The window that shows this file already, by this or another name; NULL when none does. stamp
   * tells which file it is, where that is known. */
  GtkWindow *(*find) (GtkWindow *window, GFile *file, const BwStamp *stamp);
  /* Shows a project that was opened: here, or in a window of its own, which is given. */
  GtkWindow *(*show) (GtkWindow *window, BwProject *project);
  /* Shows a new project whose stone is to be measured: here, or in a window of its own. */
  void (*measure) (GtkWindow *window, BwProject *project);
  /* Brings a window that shows the file already to the fore, and its work in it. */
  void (*come) (GtkWindow *window);
  /* Shows a project in place of this window's. */
  void (*replace) (GtkWindow *window, BwProject *project);
  /* Puts the window's unsaved work among what was discarded. */
  gboolean (*lay_aside) (GtkWindow *window, GError **error);
  /* The project of the window was saved. */
  void (*saved) (GtkWindow *window);
} BwFilesOwner;

/* For this window, which must own it; adds the commands to its actions. opening is the window's
 * own; owner must last. */
BwFiles *bw_files_new (GtkApplicationWindow *window, BwDraft *draft, BwOpeningBar *opening,
                       const BwFilesOwner *owner);

/* Opens a file on a thread; one that cannot be opened is told in the window. */
void bw_files_open (BwFiles *self, GFile *file);
/* Takes what is typed first. TRUE when closing must wait for an answer; it closes the window itself
 * then. */
gboolean bw_files_hold_close (BwFiles *self);
/* Closes the window as part of quitting: when it asks about unsaved work first, its answer goes on
 * quitting. FALSE when it stays open, TRUE when it is closed and may be gone. */
gboolean bw_files_close_for_quit (BwFiles *self);

G_END_DECLS
