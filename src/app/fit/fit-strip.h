/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fit as a picture: the band's columns as a strip of beads, the lowest column first, each in
 * the colour most of its beads have, lying between two brass gates. What sags below the lower gate
 * is loose, what is pulled above the upper one will not close. Place says it, colour only helps. */
#pragma once

#include "core/band/fit.h"
#include "core/pattern/drawing.h"
#include "project/document/tray.h"
#include <gtk/gtk.h>

#define BW_TYPE_FIT_STRIP (bw_fit_strip_get_type ())
G_DECLARE_FINAL_TYPE (BwFitStrip, bw_fit_strip, BW, FIT_STRIP, GtkWidget)

/* All are copied. colour: one for each column of the fit. */
void bw_fit_strip_set (BwFitStrip *self, const BwFit *fit, double slack_mm, const BwColour *colour);

/* The colour most beads of a column (from 1) have, the lowest of equals. Of a very long band every
 * so many rows are looked at. */
guint8 bw_fit_strip_main (const BwDrawing *drawing, int column);

/* Where a gap lies: 0 at the loose limit, 1 at the closing limit, linear between; beyond them it
 * runs out towards −1 and 2 without reaching them. pull + slack > 0. */
double bw_fit_scale (double gap_mm, double pull_mm, double slack_mm);
