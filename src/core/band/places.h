/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where each bead of the closed band sits, what lies under it, and how far neighbours splay. */
#pragma once

#include "core/design/design.h"
#include "core/band/fit.h"
#include "core/band/ring.h"

typedef struct {
  BwVec3 at;       /* bead centre; the hole runs along z */
  BwVec2 normal;   /* outward unit, horizontal */
  BwVec2 foot;     /* nearest point of the section at the bead's height */
  int face;        /* face under the bead, or −1 */
  int corner;      /* corner under it, called after the face before it, or −1 */
  double along_mm; /* on a face: signed distance from its middle */
} BwPlace;

/* How one column is laid. */
typedef struct {
  BwRing ring;
  double start;      /* arc length of its first bead */
  gboolean has_step; /* FALSE: equal arcs, for want of a ring */
  double step;       /* chord from bead to bead */
  double *way;       /* arc length of each bead, rising by row */
} BwCourse;

/* A place follows from the ring its column is laid round and the way along it: that alone is kept,
 * for there are very many. On a prism all odd columns are laid alike, and all even ones. */
typedef struct {
  int columns, rows;
  int *course;     /* of each column, in courses */
  double *z_mm;    /* of each column */
  GArray *courses; /* of BwCourse; columns that are laid alike share one */
} BwPlaces;

/* n equal chords on the relaxed bed, one whole turn: what fit and splay speak of. */
void bw_places_init_closed (BwPlaces *places, const BwDesign *design, const BwStone *stone);
/* As the strip would lie: an open gap at the join when it will not close (or is not finished), a
 * stand-off from the bed when it is long. fit: of the design's own rows. */
void bw_places_init_true (BwPlaces *places, const BwDesign *design, const BwStone *stone,
                          const BwFit *fit);
void bw_places_clear (BwPlaces *places);
BwPlace bw_places_get (const BwPlaces *places, int row, int column);

/* Greatest turn of the normals between neighbours of one column, the join included (of the closed
 * ring) but for a place that odd rows leave empty; above 65° (common practice, no source) thread
 * shows at the corner. cure: the bed thickness that brings it to the limit, t ≥ p/(2 sin(limit/2))
 * − D/2. */
#define BW_SPLAY_LIMIT_DEG 65.0
typedef struct {
  double max_deg;
  int row, column; /* one of the two neighbours, 0 when there are none */
  double cure_mm;
  int n_corners_over; /* corners of the stone where the limit is passed */
  gboolean corner_over[BW_FACES_MAX];
} BwSplay;
void bw_splay_init (BwSplay *splay, const BwPlaces *places, const BwDesign *design);

/* The stone's faces as the unrolled band sees them: along column `column` (1..W), in pitches from
 * the position of row 1 (0..n, cyclic), where each face's middle lies and where each corner's
 * middle lies (corner i after face i). What the section there has not keeps its value. n is the
 * number of beads around. */
void bw_places_faces (const BwDesign *design, const BwStone *stone, int column, int n,
                      double middle[BW_FACES_MAX], double corner[BW_FACES_MAX]);
