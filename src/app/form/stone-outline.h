/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone in outline, as drawn on paper: seen level from the side, the axis up. */
#pragma once

#include "core/stone/stone.h"
#include <cairo.h>

/* Where a point of the stone falls on paper when azimuth_deg points to the right: x to the right in
 * mm; z stays z. */
double bw_outline_x (BwVec2 at, double azimuth_deg);

/* Adds the edges of all faces turned to the viewer as closed paths, in mm (x right, z up through
 * the current transformation). */
void bw_outline_stone_path (cairo_t *cr, const BwStone *stone, double azimuth_deg);

/* Least and greatest x of the section at a height, grown by `grow_mm`. */
void bw_outline_extent (const BwStone *stone, double z_mm, double azimuth_deg, double grow_mm,
                        double *left_mm, double *right_mm);
/* The greatest |x| of the whole stone from this side. */
double bw_outline_reach (const BwStone *stone, double azimuth_deg);
