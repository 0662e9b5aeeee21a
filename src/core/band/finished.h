/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How large the finished piece is, as one tells a buyer: its length and its greatest breadth. */
#pragma once

#include "core/band/places.h"

typedef struct {
  double length_mm;  /* of the stone, base to tip; a bail adds to it */
  double breadth_mm; /* the greatest across the axis, stone or band, without the bail */
} BwFinished;

/* places: of the closed ring of this design. */
BwFinished bw_finished_size (const BwDesign *design, const BwStone *stone, const BwPlaces *places);
