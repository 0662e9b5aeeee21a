/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band on a stone drawn in outline: every bead the viewer sees in its own colour and place. */
#pragma once

#include "project/project.h"
#include <cairo.h>

/* The beads that are turned to the viewer, in mm as bw_outline_stone_path() has them (x right, z up
 * through the current transformation), when azimuth_deg points to the right. line_mm: how wide the
 * line between two beads is. */
void bw_outline_band (cairo_t *cr, BwProject *project, double azimuth_deg, double line_mm);
