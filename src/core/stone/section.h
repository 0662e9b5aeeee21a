/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The section of the stone at one height: a convex polygon whose edges say which face they belong
 * to. What stands on the stone asks for nothing else: it knows of no way of measuring, and takes no
 * angle between two faces for granted. */
#pragma once

#include "core/stone/stone.h"

typedef struct {
  int edges;
  double z_mm;
  BwVec2 corner[BW_FACES_MAX]; /* corner i lies between edge i and edge i+1, counter-clockwise */
  BwVec2 normal[BW_FACES_MAX]; /* of edge i: outward unit, told where its length is 0 as well */
  double turn[BW_FACES_MAX];   /* from normal i to normal i+1, radians, 0..π; 2π all together */
  int face[BW_FACES_MAX];      /* edge i belongs to that face of the stone; −1: to none */
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

/* Length of edge i, the width of its face here. Edge i runs from corner i−1 to corner i. */
double bw_section_face_width_mm (const BwSection *section, int i);
