/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A weaver who does what is told, bead by bead, on a lattice of its own, and to whom nothing is
 * possible that needle and thread cannot do. */
#pragma once

#include "told.h"

/* What the hands, the beads and the thread are like, of which the words say nothing. Millimetres.
 */
typedef struct {
  double column, pitch; /* from column to column, from bead to bead */
  double jog;           /* a thread goes aside by so much from bead to bead */
  double tail, working; /* left at each end; the longest thread */
} Hands;

typedef struct {
  gboolean in_bail;
  int row, column;
  gboolean up;
} Pass;

typedef struct {
  const Sample *sample;
  Hands hands;
  int rows;         /* woven before the ends are zipped */
  GPtrArray *cells; /* char * by row: what the band ought to become */
  GArray *passes;   /* of Pass: beads picked up and passed, in order, ends apart */
  int threads;      /* taken */
  gboolean closed;  /* zipped, anchored, the stopper bead off before */
  int ends[4];      /* beads and turns of the end in the needle, of the tail */
} Weaver;

/* Follows what is told until `rows` rows are woven, and all that comes after. The test fails where
 * that cannot be done or makes another piece. */
void weaver_follow (Weaver *weaver, const GArray *told);
void weaver_clear (Weaver *weaver);

/* Whether the thread can go from one bead straight into the other, both lying on one lattice whose
 * ring has `period` rows (0: not closed). */
gboolean weaver_can_go (const Pass *from, const Pass *to, int period);
