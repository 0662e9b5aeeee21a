/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The needle's path cut into steps that can be drawn one by one. */
#pragma once

#include "core/path/path.h"

typedef enum {
  BW_STEP_PICK_UP,
  BW_STEP_ROW, /* one of the first rows of the band */
  BW_STEP_ZIP,
  BW_STEP_RETURN,
  BW_STEP_ANCHORS,
  BW_STEP_BAIL, /* one pass of it */
  BW_STEP_ATTACHMENT,
  BW_STEP_WEAVING_IN,
} BwStepKind;

/* Rows of band and bail that are drawn; those after them go alike. */
#define BW_STEP_BAND_ROWS 4
#define BW_STEP_BAIL_ROWS 3

/* Visits first .. first + n − 1 of the path: one pass in one part with one length of thread. */
typedef struct {
  BwStepKind kind;
  guint first, n;
} BwStep;

/* An array of BwStep in the order of the needle. Every visit lies in exactly one step but those of
 * the passes that add rows of the band beyond the fourth and rows of the bail beyond the third. */
GArray *bw_steps_new (const BwPath *path);

/* What the thread of a step comes out of. */
typedef enum {
  BW_BEGIN_STOPPER, /* the first beads of all, strung beyond the stopper bead */
  BW_BEGIN_TAIL,    /* a fresh thread, from outside the work */
  BW_BEGIN_BEAD,    /* the bead it has left last */
} BwStepBegin;

/* Where a step begins; *from: the bead it comes from, seen the way it is left, for BW_BEGIN_BEAD.
 */
BwStepBegin bw_step_begin (const BwPath *path, const BwStep *step, BwVisit *from);
