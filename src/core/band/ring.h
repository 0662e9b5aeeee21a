/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ring: where bead centres of one column run round a section, and the exact equal chord at
 * which n beads close.
 *
 * The curve lies at distance ρ outside a convex polygon: straight along each edge, an arc of radius
 * ρ about each corner; length Λ = girth + 2πρ (Steiner). The chord is never replaced by Λ/n. */
#pragma once

#include "core/stone/section.h"

typedef struct {
  int edges;
  double rho_mm;               /* ρ ≥ 0 */
  double length_mm;            /* Λ */
  BwVec2 corner[BW_FACES_MAX]; /* as in the section, like the next three */
  BwVec2 normal[BW_FACES_MAX];
  double turn[BW_FACES_MAX];
  int face[BW_FACES_MAX];
  double width[BW_FACES_MAX]; /* of edge i */
  double start[BW_FACES_MAX]; /* arc length at which edge i begins; edge 0 begins at 0 */
} BwRing;

/* A point of the curve. */
typedef struct {
  BwVec2 at;
  BwVec2 normal;   /* outward unit */
  BwVec2 foot;     /* nearest point of the section */
  int face;        /* of the stone, under it; −1 on an arc, or where the edge belongs to none */
  int corner;      /* on an arc: the corner under it, called after the face before it; else −1 */
  double along_mm; /* on a face: signed distance of the foot from the face's middle */
} BwRingPoint;

void bw_ring_init (BwRing *ring, const BwSection *section, double rho_mm);

/* The point at arc length u (any real; taken modulo Λ). */
BwRingPoint bw_ring_point (const BwRing *ring, double u);

/* Arc length at which the ray from the axis at this azimuth (radians) leaves the curve. When the
 * axis is not inside the section (near an offset tip) the ray starts at the section's centroid. */
double bw_ring_ray (const BwRing *ring, double azimuth);

/* The azimuth of that ray, radians in −π..π, for the point at arc length u: the inverse. */
double bw_ring_azimuth (const BwRing *ring, double u);

/* Moves arc length *u to the first later one whose point is at distance s. FALSE when there is none
 * within one turn; *u is then as it was. */
gboolean bw_ring_advance (const BwRing *ring, double *u, double s);

/* chord(n, ρ): the length s for which n equal chords from arc length `start` close after exactly
 * one turn. n ≥ 3. Solved to 1e-13 relative. */
double bw_ring_chord (const BwRing *ring, int n, double start);

/* What fit uses: the mean of the chords started at `start` and at start + Λ/(2n). */
double bw_ring_chord_mean (const BwRing *ring, int n, double start);

/* Whether n beads close with chords no longer than s: bw_ring_chord_mean() ≤ s, decided by walking
 * the curve once or twice where that is enough. */
gboolean bw_ring_closes (const BwRing *ring, int n, double start, double s);

/* How many chords of length s > 0 it takes from `start` to make one whole turn or more. */
int bw_ring_count (const BwRing *ring, double start, double s);
