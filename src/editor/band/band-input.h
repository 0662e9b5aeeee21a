/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mouse, pen, finger, wheel and keyboard of the canvas. */
#pragma once

#include "editor/band/band-work.h"

typedef struct {
  BwBandWork *work;
  double held_x, held_y; /* where the last step of a drag was */
  double drag_x, drag_y; /* where a drag began */
  double pinch_zoom;     /* zoom when the pinch began */
} BwBandInput;

/* Adds the controllers to the work's widget; both must live as long as it. */
void bw_band_input_init (BwBandInput *input, BwBandWork *work);
