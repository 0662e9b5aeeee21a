/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would make the band fit: each remedy re-solved before it is offered. */
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
  gboolean voids_girth_over; /* the measurement over the bed no longer holds and is dropped */
  BwDesign design;           /* the whole design with the remedy applied */
} BwRemedy;

/* Every remedy there is, in the order of the kinds, nearest first within a kind. sizes: the bead
 * sizes to try. Returns a GArray of BwRemedy, owned by the caller. */
GArray *bw_remedies (const BwDesign *design, const BwStone *stone, const BwBead *sizes,
                     int n_sizes);
