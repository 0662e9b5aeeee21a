/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One step of the needle drawn: the beads there, those passed, the thread through them. */
#pragma once

#include "output/sheet/steps.h"
#include "project/project.h"
#include <cairo.h>

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

/* Draws into a box of this size, with the state before the step: every visit of it, or those of the
 * first columns when it crosses more than 24. Returns the height it took. */
double bw_step_draw (cairo_t *cr, BwProject *project, const BwStep *step, const BwStepState *state,
                     double width, double height);
