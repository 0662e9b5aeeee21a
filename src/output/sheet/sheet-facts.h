/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers that belong to the pages and to nothing else of the project: reckoned here once, printed
 * by the pages and told by their answer. */
#pragma once

#include "core/design/bed-layers.h"
#include "project/project.h"

/* The swatch that is woven first, and what it measures as these pages take it. */
typedef struct {
  int columns, rows;
  double long_mm, wide_mm;
} BwFirstSwatch;

BwFirstSwatch bw_first_swatch_of (const BwDesign *design);

/* Numbers of the row ruler stand at every so many rows. */
#define BW_RULER_STEP 20

/* A strip of so many rows from edge to edge, lying flat: (rows + 1) half pitches. */
double bw_strip_length_mm (const BwDesign *design, int rows);
/* From one line of the ruler's table to the next, in rows; a longer strip is looked at less often.
 */
int bw_ruler_table_step (int rows);

/* How much of the cord is held up along the stone while the bed is begun, millimetres. */
#define BW_BED_HELD_MM 100

/* The bed as it is wound. Heights are above the base. */
typedef struct {
  double cord_mm;         /* of cord to cut, ends included; 0: no bed is wound */
  double low_mm, high_mm; /* of its first and last turn */
  int turns;              /* of a layer from edge to edge */
  int n_layers;
  BwBedLayer layer[BW_BED_LAYERS_LISTED];
  double mid_mm;           /* half way up the band: there a strip of paper checks it */
  double bare_mm, over_mm; /* round the stone there and round the bed; over_mm 0: not known */
} BwBedFacts;

BwBedFacts bw_bed_facts_of (BwProject *project);
