/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The beads of one whole turn of the band as square textures, painted when they first show and kept
 * while they hold: scrolling only moves them, a painted bead repaints the one or two it touches. */
#pragma once

#include "editor/cloth/bead-sprites.h"
#include "core/pattern/drawing.h"
#include "project/project.h"
#include <gdk/gdk.h>

#define BW_TILE_PX 256 /* a tile's side, pixels of the screen */

typedef struct _BwBandTiles BwBandTiles;

BwBandTiles *bw_band_tiles_new (void);
void bw_band_tiles_free (BwBandTiles *tiles);

/* What the tiles show from now on. Tiles that no longer hold are dropped; nothing is painted yet.
 * Call it once before a frame's bw_band_tiles_get(). font as in bw_bead_sprites_new(). */
void bw_band_tiles_set (BwBandTiles *tiles, const BwDrawing *drawing, const BwTray *tray,
                        const BwBeadSize *size, PangoContext *font);

/* The same with the project's own band and tray: of a drawing it showed before, only the beads are
 * looked at that the project says were set. */
void bw_band_tiles_set_band (BwBandTiles *tiles, BwProject *project, const BwBeadSize *size,
                             PangoContext *font);

/* The same of any drawing and its tray, when these beads (BwBeadOf) alone can be others than what
 * was shown before; NULL: any. */
void bw_band_tiles_set_beads (BwBandTiles *tiles, const BwDrawing *drawing, const BwTray *tray,
                              const BwBeadSize *size, PangoContext *font, const GArray *beads);

/* Size in pixels of the whole turn: from the left edge of row 1 to the right edge of the last row,
 * and from the upper edge of the highest column to the lower edge of column 1. */
void bw_band_tiles_extent (BwBandTiles *tiles, int *width, int *height);

/* The tile i-th from the left and j-th from the top. Borrowed until the next set. */
GdkTexture *bw_band_tiles_get (BwBandTiles *tiles, int i, int j);

/* Forgets the tiles not asked for since the last set, once there are too many of them. */
void bw_band_tiles_trim (BwBandTiles *tiles);

/* How many tiles were painted so far: what a test and a bench look at. */
guint64 bw_band_tiles_painted (BwBandTiles *tiles);
/* And how many beads of what it shows were compared with a drawing. */
guint64 bw_band_tiles_looked (BwBandTiles *tiles);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwBandTiles, bw_band_tiles_free)
