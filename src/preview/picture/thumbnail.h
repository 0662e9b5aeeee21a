/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece small, as it stands on a board: upright, without cord, seen as on paper; for shelves
 * and file managers. */
#pragma once

#include "project/project.h"
#include <cairo.h>

/* Beads beyond which no small picture is made: nobody has woven so many, and painting them would
 * take minutes. */
#define BW_THUMBNAIL_BEADS_MOST 60000

/* No larger than the piece in a square of so many points (16..8192), on a clear ground; NULL when
 * it has too many beads or none could be painted. Owned by the caller. */
cairo_surface_t *bw_thumbnail_new (BwProject *project, int side);
