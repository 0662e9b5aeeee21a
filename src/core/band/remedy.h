/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would make the band fit: each remedy re-solved before it is offered. No even bed thicker
 * than 2 mm is offered, unless the present one is already (common practice, no source). */
#pragma once

#include "core/band/fit.h"

typedef enum {
  BW_REMEDY_ROWS,   /* value: rows */
  BW_REMEDY_BED,    /* value: change of bed thickness in mm */
  BW_REMEDY_LAYERS, /* value: layers of cord */
  BW_REMEDY_GRADE,  /* value: top_extra_mm, at most 1.5 mm either way; with its own row
                       count, and more layers where the grade takes away more than there is */
  BW_REMEDY_MOVE,   /* value: bottom_mm, the band wholly on the prism */
  BW_REMEDY_BEAD,   /* value: the size's diameter; with its own columns and rows */
} BwRemedyKind;

/* "rows", "bed", "layers", "grade", "move", "bead". */
const char *bw_remedy_word (BwRemedyKind kind);

typedef struct {
  BwRemedyKind kind;
  double value;
  BwVerdict verdict; /* of `design`, re-solved */
  double gap_min_mm, gap_max_mm;
  gboolean joint;            /* more than the kind's own knob is turned: `design` says what */
  gboolean voids_girth_over; /* the measurement over the bed no longer holds and is dropped */
  BwDesign design;           /* the whole design with the remedy applied */
} BwRemedy;

/* Every remedy there is, in the order of the kinds, nearest first within a kind. sizes: the bead
 * sizes to try.
 *
 * Where no knob alone makes the band snug, another bead not counted, joint ones follow, all of them
 * snug: rows far off or bed and rows, grade and rows, height and bed; of each the one nearest to
 * what is. Where none of these does, what is nearest on the whole grid of columns, heights in half
 * millimetres, layers up to four, a level bed and the one that makes both edges alike; and another
 * bead with columns, bed and rows of its own; and where no bead has any at this height, the nearest
 * size that has on the whole grid. So there is a cure wherever the joint search
 * ("core/workshop/ways.h") finds a way for one of these beads.
 *
 * Returns a GArray of BwRemedy, owned by the caller. */
GArray *bw_remedies (const BwDesign *design, const BwStone *stone, const BwBead *sizes,
                     int n_sizes);
