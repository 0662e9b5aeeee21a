/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thread's path: every bead the needle visits, from the pick-up to the last weaving-in. */
#pragma once

#include "core/bail/bail-place.h"
#include "core/design/design.h"

typedef enum {
  BW_PART_PICK_UP,
  BW_PART_ROWS,
  BW_PART_ZIP,
  BW_PART_RETURN,
  BW_PART_ANCHORS,
  BW_PART_BAIL,
  BW_PART_ATTACHMENT,
  BW_PART_WEAVING_IN,
  BW_PART_TAILS, /* a length without visits */
  BW_N_PARTS,
} BwPart;

/* "pick-up", "rows", "zip", "return", "anchors", "bail", "attachment", "weaving-in", "tails". */
const char *bw_part_word (BwPart part);

/* Packed, because there are two for every bead: rows go to BW_ROWS_MAX, columns to BW_COLUMNS_MAX,
 * and passes and lengths to a few for each row of band and bail. */
typedef struct __attribute__ ((packed)) {
  guint row : 15;      /* of the bead, from 1, on its own lattice (band or bail) */
  guint column : 8;    /* of the bead, from 1 */
  guint part : 4;      /* BwPart */
  guint in_bail : 1;   /* the bead belongs to the bail, else to the band */
  guint is_new : 1;    /* picked up here; else passed again */
  guint direction : 1; /* 1: needle runs towards higher columns, 0: lower */
  guint pass : 17;     /* passes count up from 1; a pass is never split between two lengths */
  guint length : 17;   /* index into BwPath.lengths: another thread is in the needle where it
                            changes */
} BwVisit;

/* A length of thread: rows of the band run 1..R; R + 1 is the zip, R + 2 the return and the
 * anchors, then each pass of the bail and of its attachment is one more. */
typedef struct {
  int from_row, to_row;
  double length_mm; /* both tails and both weavings-in included */
} BwThreadLength;

typedef struct {
  guint64 visits;
  double length_mm;
} BwPartSum;

typedef struct {
  gboolean in_bail;
  int row, column;
  int passes; /* already in the hole when the needle had to pass again */
} BwFullHole;

typedef struct {
  GArray *visits;       /* of BwVisit, in the order of the needle */
  GArray *lengths;      /* of BwThreadLength */
  GArray *full_holes;   /* of BwFullHole: beads that had to be passed though full */
  guint16 *band_passes; /* rows × columns/2, row by row: passes in each hole at the end */
  guint16 *bail_passes; /* same for the bail, NULL without one */
  int passes_max;
  BwPartSum part[BW_N_PARTS];
  double length_mm;       /* all of it */
  gboolean pass_too_long; /* one pass alone is longer than a working length allows */
} BwPath;

/* Thread for one bead on the way, without a turn: √(w² + j²). */
double bw_path_step_mm (const BwDesign *design);

/* A pass of m beads: m √(w² + j²) + p, jog j = max(0, p/2 − (d_hole − d_thread)). */
double bw_path_pass_mm (const BwDesign *design, int beads);

/* Beads an end of thread is woven in through, wherever the work offers so many. */
#define BW_WEAVING_VISITS 16

/* How much of a hole's section thread and needle may take. */
#define BW_FULL_SHARE 0.7

/* A further pass does not go when passes·d_thread² + d_needle² > 0.7 d_hole² (common practice, no
 * source; compare the published packings of circles in a circle, Graham et al. 1998). */
gboolean bw_path_is_full (const BwDesign *design, int passes);

/* The whole path for design->band.rows rows. Linear in beads. The design must be valid. base: where
 * its bail stands; not looked at when there is none.
 *
 * A strip of odd rows cannot be zipped: its path has no zip, return, anchors or bail. A weaving-in
 * has 16 visits wherever the work offers a bead to go on with (a single strung row does not); the
 * tail of the very beginning is woven in last, with the visits' `length` 0 again. Where the anchors
 * do not end at the bail's first bead, the way there counts with the bail. */
void bw_path_init (BwPath *path, const BwDesign *design, const BwBailBase *base);
void bw_path_clear (BwPath *path);
