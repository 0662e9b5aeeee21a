/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a row of the band is called once it is woven. How many rows it takes is known only when the
 * ends meet, so whatever comes after is told from where it lies: near the beginning by its number,
 * near the end from the last row, L, and at a bail that stands off the join from that bail's own
 * row, F. */
#pragma once

#include "project/project.h"

typedef struct {
  int rows; /* of the band as planned */
  int foot; /* F as planned; 0 where the bail stands by the join, or there is none */
} BwRowNames;

BwRowNames bw_row_names (BwProject *project);

/* "3", "L − 1", "F + 2": a row of the closed band. Owned. */
char *bw_row_name (const BwRowNames *names, int row);

/* The row of a bead that is passed: "band row L − 1 (119)", the planned number in brackets; "bail
 * row 3". Owned, translated. */
char *bw_row_name_of (const BwRowNames *names, const BwVisit *visit);

/* F if the band ends with another even count of rows: the bail keeps its place round the stone. */
int bw_row_names_foot_at (BwProject *project, int rows);
