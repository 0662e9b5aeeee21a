/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The swatch card: a woven patch in each finish, as the stone view shows it. */
#pragma once

#include "project/document/tray.h"
#include <cairo.h>

/* Fills picture[] with side × side surfaces (16..512) of beads in this colour (sRGB), owned by the
 * caller; any thread may ask that holds no OpenGL context of its own. FALSE, and none is made,
 * where not all could be. */
gboolean bw_finish_pictures (guint32 srgb, int side, cairo_surface_t *picture[BW_N_FINISHES]);
