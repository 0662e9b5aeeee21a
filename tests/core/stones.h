/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones to test with. A random stone is drawn as an outline first and measured afterwards by plain
 * means, so that what the core solves can be held against an outline it has not made itself. */
#pragma once

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/design/design.h"
#include "core/base/fault.h"

typedef struct {
  BwStoneMeasures measures;
  BwVec2 corner[BW_FACES_MAX]; /* the outline at at_mm, centroid on the axis */
  double taper_per_mm;
} DrawnStone;

/* A possible stone of 3 to 64 faces: any way of measuring, with or without taper, its tip anywhere
 * over the prism, one or two points. */
void draw_stone (DrawnStone *drawn, GRand *rand);

/* The same with this number of faces and this way of measuring (an even number for flats). */
void draw_stone_of (DrawnStone *drawn, GRand *rand, int faces, BwMeasured measured);

/* A six-sided stone of 58 mm, measured across the flats, with a little taper and a tip off centre.
 */
BwStoneMeasures bench_stone (void);

/* The bench stone with a plain sound band of 11/0 cylinders and a flap. */
BwDesign bench_design (void);

/* Solves, and fails the test with the core's own message when it cannot. */
BwStone solved (const BwStoneMeasures *measures);

/* |a − b| ≤ tolerance × max(1, |b|); never true for what is not a number. */
#define assert_near(a, b, tolerance) near_at (a, b, tolerance, #a, __FILE__, __LINE__)
void near_at (double a, double b, double tolerance, const char *what, const char *file, int line);

/* What a fault is before anything was found. */
#define NO_FAULT                                                                                   \
  {                                                                                                \
    .kind = BW_N_FAULT_KINDS                                                                       \
  }

/* A fault of this kind at this key, as a whole or at one value of its list; makes it none again. */
#define assert_fault(fault, kind, key) fault_at (fault, kind, key, BW_WHOLE, __FILE__, __LINE__)
#define assert_fault_of(fault, kind, key, index)                                                   \
  fault_at (fault, kind, key, index, __FILE__, __LINE__)
void fault_at (BwFault *fault, BwFaultKind kind, BwFaultKey key, int index, const char *file,
               int line);
