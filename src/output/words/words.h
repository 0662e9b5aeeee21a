/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts the words of a piece are put together from. */
#pragma once

#include "project/document/length.h"
#include "project/project.h"

/* Every colour as the words call it, by tray index, NULL-terminated, owned. A name that another
 * colour has too is followed by its letter; one with a comma stands in quotes; a colour without a
 * name is called by its letter. */
char **bw_words_labels (const BwTray *tray);

/* "2 Night water, 1 Lamp glass" for n colours in this order. */
char *bw_words_runs (const guint8 *colours, int n, char **labels);

/* One row as the needle works it. */
typedef struct {
  int row;
  gboolean up; /* the needle runs towards higher columns */
  int n;
  guint8 *colours; /* in the order in which the needle meets the new beads; owned */
} BwWordsRow;

/* Rows in the order worked: an array of BwWordsRow that owns their colours. */
GArray *bw_words_rows_new (void);

/* Rows first..last of the band. */
GArray *bw_words_band_rows (const BwDrawing *drawing, int first, int last);

/* The pick-up that makes rows 1 and 2: columns beads, column 1 first (the W/2 beads of row 1 alone
 * when there is no row 2). Owned. */
guint8 *bw_words_pick_up (const BwDrawing *drawing, int *n);

/* "↑" or "↓". */
const char *bw_words_arrow (gboolean up);

/* Something told between two rows. */
typedef struct {
  int before_row;
  char *sentence; /* owned by the array it lies in */
} BwWordsEvent;

/* Events in the order of their rows; the array owns their sentences. */
GArray *bw_words_events_new (void);
/* Takes sentence. Events of the same row stay in the order they were added. */
void bw_words_events_add (GArray *events, int before_row, char *sentence);

/* Tells the rows, equal ones drawn together, and the events at their places: none lies within rows
 * told as one, none is left out. */
void bw_words_append_rows (GString *text, const GArray *rows, char **labels, const GArray *events);

/* What is to be known before the ends are joined; length: of the thread in the needle. */
void bw_words_append_join_head (GString *text, BwProject *project, int length, BwUnit unit);
/* One pass of the join, which begins at visit `first` of the path: the change of thread before it,
 * if it has one, and the way. */
void bw_words_append_join_pass (GString *text, BwProject *project, guint first, int *length,
                                BwUnit unit);
/* The join, from the last row to the anchors, and every change of thread in it; *length: the length
 * in the needle, before and after. */
void bw_words_append_join (GString *text, BwProject *project, int *length, BwUnit unit);

/* What comes after the last row: further rows, the join, the bail, the ends of the thread. */
void bw_words_append_finish (GString *text, BwProject *project, char **labels, BwUnit unit);
