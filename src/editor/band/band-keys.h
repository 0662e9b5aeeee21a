/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a key does to the canvas. */
#pragma once

#include "editor/band/band-work.h"

/* TRUE when the canvas has a use for the key. */
gboolean bw_band_keys_press (BwBandWork *work, guint key, GdkModifierType state);

/* Shift and Control as they are held now, for the tool under way. */
void bw_band_keys_hold (BwBandWork *work, GdkModifierType state);
