/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The needle of a piece that is still being woven, painted over its picture. */
#pragma once

#include "preview/picture/painter.h"

/* Nothing where there is no needle (see bw_played_needle()); faintly where the stone hides it. */
void bw_played_needle_paint (cairo_t *cr, const BwScene *scene, BwCamera camera, guint layers,
                             int width, int height);
