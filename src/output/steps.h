/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The needle's path cut into steps that can be drawn one by one. */
#pragma once

#include "core/path.h"

typedef enum {
  BW_STEP_BEGINNING, /* the pick-up and the first two rows after it */
  BW_STEP_ZIP,
  BW_STEP_RETURN,
  BW_STEP_ANCHORS,
  BW_STEP_BAIL, /* up to BW_STEP_BAIL_PASSES of its passes */
  BW_STEP_ATTACHMENT,
  BW_STEP_WEAVING_IN,
} BwStepKind;

#define BW_STEP_BAIL_PASSES 4

/* Visits first .. first + n − 1 of the path. */
typedef struct {
  BwStepKind kind;
  guint first, n;
} BwStep;

/* An array of BwStep in the order of the needle. Every visit lies in exactly one step but those of
 * the rows from the fifth on, which all go like the third and the fourth. */
GArray *bw_steps_new (const BwPath *path);
