/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The equal chord found the plain way: a general bracketing root finder for each bead and another
 * one round the whole ring, on a curve written down anew. GNU Scientific Library, reference
 * manual 2.7, "One Dimensional Root-Finding": the Brent–Dekker method. */
#pragma once

#include "core/stone/section.h"

/* The chord with which n beads close from arc length `start` (face 0 begins at 0), round the
 * parallel curve at distance rho. n must be large enough that the chord is no longer than 2 rho.
 * within: relative error allowed. */
double gsl_chord (const BwSection *section, double rho, int n, double start, double within);
