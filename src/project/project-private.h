/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project's inside, shared by the files that make it up: project.c (steps), edits.c (what a
 * step may change), trial.c (what is only shown), files.c (loading and saving), derived.c (what
 * follows from it). Private to this room. */
#pragma once

#include "project/document/canvas.h"
#include "project/document/history.h"
#include "project/project.h"

typedef struct _BwDerived BwDerived;

/* What is only shown: it stands beside the document, which knows nothing of it. */
typedef struct {
  char *label; /* of the step it becomes when it is kept */
  BwDrawing *drawing;
  BwTrayValue *tray; /* NULL: the document's */
  BwMade *made;      /* the motif that it is; NULL for anything else */
} BwTrial;

/* Where an open step, or one nested in it, began. */
typedef struct {
  BwHead head;
  guint n_changes;
} BwMark;

struct _BwProject {
  GObject parent_instance;
  BwDocument *document;
  BwHistory history;
  GFile *file;
  BwStamp stamp;      /* of file, when it was read or written last */
  GArray *marks;      /* of BwMark, outermost first; empty when no step is open */
  GArray *changes;    /* of BwChange: the open step's log */
  char *label;        /* of the open step */
  BwTrial *trial;     /* NULL for none; never while a step is open */
  gboolean told_open; /* "history" was emitted for the open step's first change */
  BwDerived *derived;
};

/* Takes document, which must be sound; its drawings must be there. */
BwProject *bw_project_new_for_document (BwDocument *document);

/* Puts a trial in place of the one shown, if any, and tells the views. Takes trial, which may be
 * NULL. */
void bw_project_take_trial (BwProject *self, BwTrial *trial);

/* Whether the tray (NULL: the present one) could be set now, and with it this drawing of the band.
 */
gboolean bw_project_allows (BwProject *self, const BwTray *tray, const BwDrawing *drawing,
                            GError **error);

/* Tells the world about a change inside the open step. old is the head as it was before. */
void bw_project_note (BwProject *self, const BwHead *old, gboolean cells);

BwDerived *bw_derived_new (void);
void bw_derived_free (BwDerived *derived);
/* groups: bits as of bw_design_difference(). */
void bw_derived_drop (BwDerived *derived, guint groups, gboolean cells, gboolean tray);
