/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same stone measured another way: what the entries hold when the maker changes how a stone is
 * measured, how many faces it has, or how its point is given. Values are rounded to 0.01 mm
 * (0.01°), as a calliper would read them. */
#pragma once

#include "core/stone/stone.h"

/* What the measured value i is called. Owned. */
char *bw_value_title (const BwStoneMeasures *stone, int i);

/* Each changes nothing when the present measures do not make a stone. */

/* FALSE (unchanged) for across-flats with an odd number of faces. */
gboolean bw_measures_set_way (BwStoneMeasures *measures, BwMeasured way);
/* A regular section of the same girth; an odd count is measured by face widths then. */
void bw_measures_set_faces (BwStoneMeasures *measures, int faces);
/* With a second girth at four fifths of the prism, or without. */
void bw_measures_set_taper (BwStoneMeasures *measures, gboolean tapered);
/* The point by its natural angle, or by its shoulder height. */
void bw_measures_set_point (BwStoneMeasures *measures, gboolean by_angle);
void bw_measures_set_base (BwStoneMeasures *measures, BwBase base);
