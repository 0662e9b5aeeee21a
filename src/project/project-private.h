/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project's inside, shared by the files that make it up: project.c (steps), edits.c (what a
 * step may change), files.c (loading and saving), derived.c (what follows from it). Private to this
 * room. */
#pragma once

#include "project/document/canvas.h"
#include "project/document/history.h"
#include "project/project.h"

/* Takes a trial back before an edit, unless the edit is the trial's own. */
void bw_project_leave_trial (BwProject *self);

/* The document without the trial, as it is saved; put it back after use. Without a trial nothing
 * happens. */
typedef struct {
  BwHead head;
} BwTrialAside;
void bw_project_trial_aside (BwProject *self, BwTrialAside *aside);
void bw_project_trial_back (BwProject *self, BwTrialAside *aside);

typedef struct _BwDerived BwDerived;

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
  gboolean trial;     /* the open step is a trial */
  gboolean in_trial;  /* while it is being made: its own edits do not take it back */
  gboolean told_open; /* "history" was emitted for the open step's first change */
  BwDerived *derived;
};

/* Takes document, which must be sound; its drawings must be there. */
BwProject *bw_project_new_for_document (BwDocument *document);

/* Tells the world about a change inside the open step. old is the head as it was before. */
void bw_project_note (BwProject *self, const BwHead *old, gboolean cells);

BwDerived *bw_derived_new (void);
void bw_derived_free (BwDerived *derived);
/* groups: bits as of bw_design_difference(). */
void bw_derived_drop (BwDerived *derived, guint groups, gboolean cells, gboolean tray);
