/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones, sections and designs to test with: one invented example, and as many random ones as a
 * property wants, the same for the same seed. */
#pragma once

#include "core/band/column.h"
#include "core/band/places.h"
#include "core/design/design.h"
#include "core/path/path.h"
#include "core/stone/section.h"

/* Fails unless the two differ by no more than `within`; NaN is near nothing. */
#define assert_near(found, expected, within)                                                       \
  sample_assert_near ((found), (expected), (within), #found, __FILE__, __LINE__)
void sample_assert_near (double found, double expected, double within, const char *what,
                         const char *file, int line);

/* A uniform number. */
double sample_between (GRand *rand, double lo, double hi);

/* The section with N faces at the given distances from the axis; every face must have a width. */
void sample_section (BwSection *section, int faces, const double *distance_mm);

/* A random section of 3 to 12 faces, irregular, 8 to 50 mm across. */
void sample_random_section (BwSection *section, GRand *rand);

/* An irregular quartz of six faces with a band of 14 columns and 114 rows of 11/0 beads. */
BwDesign sample_design (void);

/* Solves the design's stone; the design must be sound. */
void sample_solve (const BwDesign *design, BwStone *stone);

/* A random sound design on a random stone, tapered or not, the band anywhere on the prism, with
 * about as many rows as close. */
BwDesign sample_random_design (GRand *rand, BwStone *stone);

/* The bead-centre curve that the design's bail stands on. */
void sample_mid_ring (BwRing *ring, const BwDesign *design);

/* Where the design's bail stands, and the thread's path with it. */
void sample_bail_base (BwBailBase *base, const BwDesign *design);
void sample_path (BwPath *path, const BwDesign *design);

/* The beads as the strip would lie. */
void sample_true_places (BwPlaces *places, const BwDesign *design, const BwStone *stone);

/* The same design with every length multiplied. */
BwDesign sample_scaled (const BwDesign *design, double factor);

/* The same piece with the faces numbered from another one, `by` faces further on. */
BwDesign sample_renumbered (const BwDesign *design, int by);
