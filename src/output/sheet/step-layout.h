/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where everything of one step's drawing lies, before a pen is taken up: the band as worn with its
 * axis upward, rows to the right; beside it the bail laid flat, or, where it stands across the
 * stone, over it as seen from above. */
#pragma once

#include "core/base/vec.h"
#include "output/sheet/steps.h"
#include "project/project.h"

/* What has happened before a step: passes in every hole, rows woven. */
typedef struct {
  guint16 *band, *bail;     /* passes, by row and bead; bail NULL without one */
  int band_rows, bail_rows; /* woven so far */
  gboolean closed;          /* the zip has been */
} BwStepState;

void bw_step_state_init (BwStepState *state, BwProject *project);
void bw_step_state_clear (BwStepState *state);
/* Counts visits from..to − 1 in. */
void bw_step_state_take (BwStepState *state, BwProject *project, guint from, guint to);

typedef enum {
  BW_BEAD_THERE,  /* woven before, not touched now */
  BW_BEAD_LEFT,   /* the thread comes from it */
  BW_BEAD_PASSED, /* passed again */
  BW_BEAD_NEW,    /* picked up */
} BwStepRole;

/* A bead as it lies: upright holes are drawn upright. Points; x, y: top left corner. */
typedef struct {
  gboolean in_bail;
  int row, column;
  double x, y, width, height;
  BwStepRole role;
  gboolean full; /* its hole took all it can before this step */
} BwStepBead;

/* The thread in one bead, which link of a numbered chain it is (0: there is none), and how often
 * it has gone through the bead in this step before. */
typedef struct {
  BwVec2 in, out;
  int link, earlier;
} BwStepPass;

/* A row's or a column's name beside the beads it counts. */
typedef struct {
  char *text; /* owned */
  double x, y, align;
  double room; /* points wide at most */
  gboolean in_bail, is_row;
} BwStepLabel;

typedef struct {
  GArray *beads;  /* of BwStepBead; those over others come last */
  GArray *thread; /* of BwVec2, from where it comes to where it goes */
  GArray *passes; /* of BwStepPass, one a visit drawn */
  GArray *sewn;   /* of GArray of BwVec2: thread that holds the other end of a strip already */
  GArray *labels; /* of BwStepLabel */
  BwStepBegin begin;
  gboolean in_part; /* the pass goes on beyond what is drawn */
  gboolean is_cut;  /* the middle of the drawing is left out, between two lines */
  double cut_y[2];
  BwVec2 band_name, bail_name; /* where they are to be written; y 0: not at all */
  double unit;                 /* half a bead's pitch, points */
  double width, height;        /* of the drawing */
} BwStepLayout;

/* Fits a step, with the state before it, into a box: every visit of it, or those of the first
 * columns when it crosses more than 24. */
void bw_step_layout_init (BwStepLayout *layout, BwProject *project, const BwStep *step,
                          const BwStepState *state, double width, double height);
void bw_step_layout_clear (BwStepLayout *layout);
