/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The section of the stone at one height: a convex polygon with the stone's own face numbering. */
#pragma once

#include "core/stone/stone.h"

typedef struct {
  int faces;
  double z_mm;
  BwVec2 corner[BW_FACES_MAX]; /* corner i lies between face i and face i+1, counter-clockwise */
  double girth_mm;
  double slope; /* dg/dz here, dimensionless; at a shoulder that of the prism side */
} BwSection;

/* The section at height z, 0 ≤ z ≤ length (clamped). At a tip it is a single point, girth 0. */
void bw_section_init (BwSection *section, const BwStone *stone, double z_mm);

/* The section scaled by lambda about the stone's axis, at the same height. */
void bw_section_scale (BwSection *section, const BwSection *from, double lambda);

/* Shoelace area, and the centroid of the area. */
double bw_section_area_mm2 (const BwSection *section);
BwVec2 bw_section_centroid (const BwSection *section);

/* Width of face i here. Face i runs from corner i−1 to corner i. */
double bw_section_face_width_mm (const BwSection *section, int i);
