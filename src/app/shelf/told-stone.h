/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The little that must be known of a stone before a design is laid on it; the rest is measured
 * later. Pure functions. */
#pragma once

#include "project/project.h"

/* 0 where it is not told yet. */
typedef struct {
  int faces;
  double girth_mm, at_mm; /* round the stone, and at which height */
  double length_mm, shoulder_mm;
} BwToldStone;

/* What is told, and for the rest what the design's own stone has, brought to the new length. A
 * stone of which nothing is told is the old one. examples: what is still to be measured. */
void bw_told_stone_fill (const BwToldStone *told, BwProject *project, BwStoneMeasures *measures,
                         BwExamples *examples);
