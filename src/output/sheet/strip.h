/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The paper strip as numbers: what is drawn is what this says. */
#pragma once

#include "project/project.h"

typedef struct {
  double girth_mm;            /* of the stone half way up the band: the strip's measuring line */
  double low_girth_mm;        /* at the band's lower edge */
  double high_girth_mm;       /* at its upper edge */
  double over_mm;             /* round the relaxed bed, half way up; equals girth without a bed */
  double bottom_mm, width_mm; /* of the band */
  int faces;
  double corner_mm[BW_FACES_MAX]; /* along the measuring line from the join, where face i begins */
  int n_bails;       /* places where a bail stands: none, one, or both feet of a loop */
  double bail_mm[2]; /* along the measuring line, 0 ≤ bail < girth */
} BwStripMarks;

/* Everything is laid off from the join to the right, seen from outside with the tip up: as the rows
 * advance. */
void bw_strip_marks_init (BwStripMarks *marks, BwProject *project);
