/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps of undo: labelled, without limit, each holding only what it changed. Private to this
 * room. */
#pragma once

#include "project/document/patch.h"

typedef struct _BwStep BwStep;

/* changes must be joined; heads are kept only when they differ. */
BwStep *bw_step_new (const char *label, const BwHead *before, const BwHead *after,
                     const GArray *changes);
void bw_step_free (BwStep *step);
gboolean bw_step_has_cells (const BwStep *step);

/* Bytes this step keeps to itself (shared values not counted). */
gsize bw_step_bytes (const BwStep *step);

typedef struct {
  GPtrArray *steps; /* of BwStep, oldest first */
  guint done;       /* steps applied; those after it can be redone */
  gint64 saved;     /* value of done when last saved; −1: cannot be reached any more */
} BwHistory;

void bw_history_init (BwHistory *history);
void bw_history_clear (BwHistory *history);

/* Keeps a step; what could be redone is forgotten. Takes step. */
void bw_history_push (BwHistory *history, BwStep *step);

/* Takes one step back or forward in the document and returns it, NULL when there is none. */
const BwStep *bw_history_undo (BwHistory *history, BwDocument *document);
const BwStep *bw_history_redo (BwHistory *history, BwDocument *document);

/* The label of step 1..steps->len. */
const char *bw_history_label (const BwHistory *history, guint step);

/* Labels of the next step either way, NULL when there is none. */
const char *bw_history_undo_label (const BwHistory *history);
const char *bw_history_redo_label (const BwHistory *history);
