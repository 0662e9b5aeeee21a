/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What counts as nothing. Doubles carry sixteen digits and the sums of this trade lose a few of
 * them: these are the few ways in which that is met. What one search alone asks for has its name
 * beside it. */
#pragma once

#include <glib.h>

/* Whether two numbers are the very same: one that was copied, never one that was reckoned. */
static inline gboolean
bw_same_number (double a, double b)
{
  return !(a < b || a > b);
}

/* Lengths that differ by less are equal: a millionth of a micron, far below what can be measured
 * and far above what sums of metres lose. */
#define BW_ROUNDING_MM 1e-9

/* Angles in degrees likewise. */
#define BW_ROUNDING_DEG 1e-9

/* By how much a quotient may miss the whole number it is: 3 layers must not become 4, nor 2. Enough
 * for counts up to millions. */
#define BW_ROUNDING_WHOLE 1e-9

/* A vector (mm), a sine or a share of a turn below this is what a few roundings of 1 leave over: it
 * points nowhere. */
#define BW_ROUNDING_UNIT 1e-12

/* A root is found when its last step was smaller, as a share of it: some hundred roundings, which
 * the walk round a ring needs. */
#define BW_SOLVED 1e-13
