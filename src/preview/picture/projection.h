/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawn projection: the same scene in cairo, back to front, for machines without OpenGL. */
#pragma once

#include "preview/scene/scene.h"
#include <cairo.h>

void bw_projection_draw (cairo_t *cr, const BwScene *scene, BwCamera camera, guint layers,
                         BwLight light, int hover, int width, int height);
