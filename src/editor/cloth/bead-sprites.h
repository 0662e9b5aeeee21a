/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pictures of the tray's beads at one size, painted when first wanted and kept. */
#pragma once

#include "project/document/tray.h"
#include <pango/pango.h>

/* What all pictures of one size share. Compared as a whole. Pixels are those of the screen. */
typedef struct {
  double pitch_px, column_px; /* the brick */
  double fill_x, fill_y;      /* share of it that is glass */
  gboolean letters;
} BwBeadSize;

/* One picture: width × height words, premultiplied ARGB. */
typedef struct {
  int width, height;
  const guint32 *pixels;
} BwBeadSprite;

typedef struct _BwBeadSprites BwBeadSprites;

/* font is used for letters alone and is referenced; it may be NULL without letters. */
BwBeadSprites *bw_bead_sprites_new (const BwBeadSize *size, const BwTray *tray, PangoContext *font);
void bw_bead_sprites_free (BwBeadSprites *sprites);

/* The picture of a tray colour for a brick whose upper left corner lies at (x, y): *left and *top
 * receive the pixel that its first pixel goes to. Bricks seldom fall on whole pixels; small beads
 * are kept in several shifted pictures, so that their spacing looks even. Borrowed. */
BwBeadSprite bw_bead_sprites_get (BwBeadSprites *sprites, guint8 colour, double x, double y,
                                  int *left, int *top);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwBeadSprites, bw_bead_sprites_free)
