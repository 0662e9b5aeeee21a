/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's inside, shared by the files that make it up: window.c (what is shown),
 * window-actions.c (commands), window-file.c (opening, saving, closing). */
#pragma once

#include "app/bench/bench-page.h"
#include "app/draw/draw-stage.h"
#include "app/fit/fit-line.h"
#include "app/hang/hang-stage.h"
#include "app/draw/history-popover.h"
#include "app/make/make-stage.h"
#include "app/measure/measure-stage.h"
#include "app/keep/recovery.h"
#include "app/window/stone-panel.h"
#include "app/window/window.h"

struct _BwWindow {
  GtkApplicationWindow parent_instance;
  BwSession *session;
  BwDraft *draft;
  BwProject *project;
  BwRecovery *recovery;
  gboolean answered;                   /* the maker has answered; close without asking */
  gboolean quitting;                   /* while the application closes us to quit */
  void (*after_save) (BwWindow *self); /* what a save in progress is for; NULL for itself */

  GtkLabel *title;
  GtkLabel *state;
  GtkButton *undo_button;
  GtkButton *redo_button;
  GtkMenuButton *history_button;
  BwHistoryPopover *history;
  GtkInfoBar *notice;
  GtkLabel *notice_words;
  GtkPaned *paned;
  GtkStack *stages;
  BwMeasureStage *measure;
  BwDrawStage *draw;
  BwHangStage *hang;
  BwMakeStage *make;
  BwBenchPage *bench;
  BwStonePanel *stone;
  BwFitLine *fit;
  GMenu *recent_menu;
  GMenu *demo_menu;
};

/* The project in words for a title: its title, or "Untitled". Borrowed. */
const char *bw_window_name (BwWindow *self);

void bw_window_add_actions (BwWindow *self);
void bw_window_add_menus (BwWindow *self);
void bw_window_update_history (BwWindow *self);

/* Saves to its file, asking for one first when it has none (or always, with ask). then, when not
 * NULL, is called once it is saved. */
void bw_window_save (BwWindow *self, gboolean ask, void (*then) (BwWindow *self));
void bw_window_ask_open (BwWindow *self);
/* TRUE when closing must wait for an answer. */
gboolean bw_window_hold_close (BwWindow *self);
/* Shows a failure with the file's name in it. */
void bw_window_tell_failure (BwWindow *self, const char *format, GFile *file, const GError *error);

void bw_window_export_csv (BwWindow *self);
void bw_window_copy_list (BwWindow *self);
void bw_window_save_picture (BwWindow *self);
void bw_window_save_model (BwWindow *self);

/* Adds the commands that put the piece on paper, or into files as if on paper. */
void bw_window_add_print_actions (BwWindow *self);
/* Tells that the file was written. */
void bw_window_tell_written (BwWindow *self, GFile *file);
/* Tells that the file was written, or why not. */
void bw_window_tell_outcome (BwWindow *self, GFile *file, const GError *error);
