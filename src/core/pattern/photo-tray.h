/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours of beads in a photograph: what is no ground, gathered round a few colours.
 *
 * At most 160 × 160 points of it are looked at, spread evenly, so that a large photograph costs no
 * more than a small one. Points that let more than half of what is behind them through are none. */
#pragma once

#include "core/pattern/kmeans.h"

#define BW_PHOTO_COLOURS_MAX BW_KMEANS_MAX
#define BW_PHOTO_SUGGEST_MOST 12

typedef enum {
  BW_PHOTO_GROUND_BORDER, /* the commonest colour along the photograph's border */
  BW_PHOTO_GROUND_MARKED, /* the colour round a point */
  BW_PHOTO_GROUND_NONE,   /* everything is beads */
} BwPhotoGround;

typedef struct {
  int k; /* 1..BW_PHOTO_COLOURS_MAX; 0: as the photograph suggests */
  BwPhotoGround ground;
  double x, y; /* the point marked, 0..1 from the left and from the top */
} BwPhotoWish;

typedef struct {
  int n; /* 0 where no point of the photograph can be seen */
  guint32 srgb[BW_PHOTO_COLOURS_MAX];
  double share[BW_PHOTO_COLOURS_MAX]; /* of what is no ground; the most first */
  gboolean has_ground;
  BwLab ground;
  double ground_share; /* of all points seen */
} BwPhotoTray;

/* FALSE when stopped. There is no ground where the border has no common colour, or where nothing
 * else would be left. */
gboolean bw_photo_tray_find (BwPhotoTray *tray, const BwPicture *picture, const BwPhotoWish *wish,
                             BwGoOn go_on, gpointer data);

/* Whether a point of this colour (0xRRGGBB) counts as ground. Light and shade on the ground change
 * its lightness more than its hue: a difference in lightness counts half (common practice, no
 * source). */
gboolean bw_photo_tray_is_ground (const BwPhotoTray *tray, guint32 srgb);
