/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone: a prism with a point, as an intersection of half-spaces, from what a maker can
 * measure.
 *
 * z runs along the axis from the base (0) to the tip (length). Faces i = 0..N−1 count
 * counter-clockwise seen from the tip; the outward normal of prism face i has azimuth
 * θ_i = 360° i/N, face 0 looks along +x. The section's area centroid lies on the axis.
 * Prism face i:   n_i·(x,y) ≤ h_i s(z),  s(z) = 1 + k (z − z1)
 * Point face i:   n_i·(x,y) ≤ h_i s(z_s) − lean_i (z − z_s), through the apex.
 * The angle between neighbouring faces of a six-sided mineral is fixed (law of constant interfacial
 * angles: N. Steno, De solido intra solidum naturaliter contento, Florence 1669). */
#pragma once

#include "core/base/fault.h"
#include "core/base/limits.h"
#include "core/base/vec.h"
#include <glib.h>

typedef enum {
  BW_MEASURED_ACROSS_FLATS, /* N/2 calliper distances between opposite faces (N even) */
  BW_MEASURED_FACE_WIDTHS,  /* N widths in order */
  BW_MEASURED_GIRTH,        /* one paper-strip girth, a regular section */
} BwMeasured;

typedef enum { BW_BASE_FLAT, BW_BASE_POINT } BwBase;

/* What the maker wrote down. Plain data, copied by assignment. */
typedef struct {
  int faces; /* N, 3..64 */
  BwMeasured measured;
  double values_mm[BW_FACES_MAX]; /* bw_stone_value_count() of them */
  double at_mm;                   /* z1, height of those measurements, on the prism */
  gboolean has_second;            /* a second girth: taper */
  double second_girth_mm, second_at_mm;
  double length_mm;      /* L, base to tip */
  gboolean has_shoulder; /* wins over the natural angle */
  double shoulder_mm;    /* z_s */
  gboolean has_natural_angle;
  double natural_angle_deg; /* between the normals of prism face and point face, 0..90 exclusive */
  double apex_offset_mm[2];
  BwBase base;
  gboolean has_base_shoulder; /* only with BW_BASE_POINT; default length − shoulder */
  double base_shoulder_mm;
  double base_apex_offset_mm[2];
  double girth_sd_mm;   /* standard error of a girth, ≥ 0 */
  double density_g_cm3; /* > 0 */
} BwStoneMeasures;

#define BW_STONE_MAX_VERTICES (2 * BW_FACES_MAX + 2)
#define BW_STONE_MAX_FACES (3 * BW_FACES_MAX)

typedef enum { BW_FACE_PRISM, BW_FACE_POINT, BW_FACE_BASE, BW_FACE_BASE_POINT } BwFaceKind;

/* The solved stone. Plain data, no pointers; bw_stone_init() alone fills it. */
typedef struct {
  int faces;
  double h_mm[BW_FACES_MAX];   /* axis to prism face i at z1 */
  BwVec2 corner[BW_FACES_MAX]; /* section at z1; corner i lies between faces i and i+1 */
  double girth_mm;             /* g1, of that section */
  double at_mm;                /* z1 */
  double taper_per_mm;         /* k */
  double length_mm;            /* L */
  double shoulder_mm;          /* z_s */
  double base_shoulder_mm;     /* where the prism begins; 0 with a flat base */
  BwVec2 apex, base_apex;
  BwBase base;
  double closing_error_mm;      /* |(c, s)|, face-widths only, else 0 */
  gboolean closing_error_large; /* above 2 % of the girth: measure again */
  int n_vertices;
  BwVec3 vertex[BW_STONE_MAX_VERTICES];
  int n_polygons; /* faces of the polyhedron */
  double volume_mm3;
  double mass_g;
  BwVec3 centroid; /* centre of mass */
} BwStone;

/* How many values_mm this way of measuring wants (0 for across-flats with an odd N). */
int bw_stone_value_count (BwMeasured measured, int faces);

/* Unit outward normal of prism face i. */
BwVec2 bw_stone_normal (int faces, int i);

/* Solves the stone. On a fault returns FALSE, leaves *stone as it was, and names the measurement at
 * fault under /stone. Faults: a face width that is not positive; scale ≤ 0 on the prism; a point
 * face that does not lean in more than its prism face; a height off the prism; any range. */
gboolean bw_stone_init (BwStone *stone, const BwStoneMeasures *measures, BwFault *fault);

/* The whole ranges-and-geometry check without keeping the result. */
gboolean bw_stone_measures_validate (const BwStoneMeasures *measures, BwFault *fault);

/* Polygon f of the polyhedron, 0 ≤ f < n_polygons: writes its vertex indices counter-clockwise seen
 * from outside, returns how many (3..64). kind and index (the face number i; 0 for a flat base) may
 * be NULL. Order: prism 0..N−1, point 0..N−1, then the base or base point 0..N−1. */
int bw_stone_polygon (const BwStone *stone, int f, int vertices[BW_FACES_MAX], BwFaceKind *kind,
                      int *index);

/* Edges as pairs of vertex indices; writes at most max pairs, returns how many there are. */
int bw_stone_edges (const BwStone *stone, int (*edges)[2], int max);

/* Plane of polygon f: unit outward normal n and distance d with n·x = d on the face. */
void bw_stone_plane (const BwStone *stone, int f, BwVec3 *normal, double *distance);

/* s(z) = 1 + k (z − z1): the scale of the prism's section, also beyond the prism. */
double bw_stone_prism_scale (const BwStone *stone, double z_mm);
