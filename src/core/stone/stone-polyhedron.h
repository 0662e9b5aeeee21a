/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The solved stone's corners, and what follows from them. */
#pragma once

#include "core/stone/stone.h"

/* Fills vertices, polygons, volume, mass and centroid of a stone whose half-spaces are solved. */
void bw_stone_build_polyhedron (BwStone *stone, double density_g_cm3);
