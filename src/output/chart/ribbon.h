/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band laid out as a ribbon: all of it at a glance, to be looked at and not to be read. */
#pragma once

#include "core/design/design.h"
#include "project/document/tray.h"
#include <cairo.h>

/* How high a ribbon of this width is when its beads keep their proportions. */
double bw_ribbon_height (const BwDesign *design, double width);
/* The width at which it is so high. */
double bw_ribbon_width (const BwDesign *design, double height);
/* Draws it with its top left corner at (0, 0): the stone's axis up, rows to the right. */
void bw_ribbon_draw (cairo_t *cr, const BwDesign *design, const BwDrawing *drawing,
                     const BwTray *tray, double width);
