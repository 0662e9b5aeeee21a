/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shapes between two places of the half-drop lattice: pure arithmetic. Long rows as in
 * band-layout.h. */
#pragma once

#include "editor/tool/stroke.h"

/* Rows and columns of a rectangle, ends included. */
typedef struct {
  int first_row, last_row, first_column, last_column;
} BwShapeBox;

/* The rectangle two beads span. It is never half a bead thin: where it has more than one column it
 * has at least two rows. No more than `around` beads along the band: one turn round the stone. */
BwShapeBox bw_shape_box (BwBeadAt a, BwBeadAt b, int around);

/* Visits the beads of a rectangle: all, or a frame one bead thick that is closed, each bead
 * touching the next. */
void bw_shape_fill (BwShapeBox box, BwStrokeVisit visit, gpointer data);
void bw_shape_frame (BwShapeBox box, BwStrokeVisit visit, gpointer data);

/* `to`, moved so that the line from `from` runs straight along the lattice: round the stone, up in
 * steps to and fro, or along one of the two slants, whichever is nearest as it looks. */
BwBeadAt bw_shape_straighten (BwBeadAt from, BwBeadAt to, double pitch_mm, double column_mm);

/* `to`, moved along the longer side so that the rectangle looks as nearly square as beads allow. */
BwBeadAt bw_shape_square (BwBeadAt from, BwBeadAt to, double pitch_mm, double column_mm);
