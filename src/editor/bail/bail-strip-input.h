/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes on the strip, by pointer, pen or finger, and the same by keys. */
#pragma once

#include "editor/bail/bail-laid.h"

typedef struct {
  BwBailLaid *laid;
  gboolean drawing; /* a stroke's step of undo is open */
  BwBandPoint last;
  double drag_x, drag_y;
} BwBailStripInput;

/* Adds the controllers to the view's widget; both must live as long as it. */
void bw_bail_strip_input_init (BwBailStripInput *input, BwBailLaid *laid);

/* Ends the stroke under way, if any; keeps it or takes it back. */
void bw_bail_strip_input_end (BwBailStripInput *input, gboolean keep);
