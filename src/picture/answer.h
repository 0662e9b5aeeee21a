/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the program and its decoder say to each other. The decoder is a program of its own: it reads
 * one file from its standard input, writes one answer to its standard output, and ends. What goes
 * wrong in it, even in a library, ends it alone.
 *
 * The answer is a BwPictureAnswer, and with BW_PICTURE_DONE the points after it: rows from the top,
 * three or four bytes a point (red, green, blue, opacity), nothing between the rows. */
#pragma once

#include <glib.h>

/* What a picture may have and may cost. */
#define BW_PICTURE_BYTES_MAX (256 * 1024 * 1024)
#define BW_PICTURE_POINTS_MAX (64 * 1000 * 1000)
#define BW_PICTURE_MEMORY_MAX                                                                      \
  (1536 * 1024 * 1024LL)      /* of addresses: points twice over, and the file */
#define BW_PICTURE_SECONDS 20 /* of the processor's time, and three times as long by the clock */

typedef enum {
  BW_PICTURE_DONE,
  BW_PICTURE_NONE,      /* no PNG, JPEG or SVG */
  BW_PICTURE_BROKEN,    /* ends early, or makes no picture */
  BW_PICTURE_TOO_LARGE, /* width and height are told */
  BW_PICTURE_COSTLY,    /* never said, but found: it wanted more time or memory than it may have,
                           or the library that draws it gave up */
  BW_PICTURE_NO_DECODER /* never said: the decoder could not be started */
} BwPictureOutcome;

#define BW_PICTURE_MAGIC 0x42775069u

typedef struct {
  guint32 magic;
  guint32 outcome;      /* a BwPictureOutcome */
  gint32 width, height; /* points; ≥ 1 with DONE and TOO_LARGE, else 0 */
  gint32 channels;      /* 3 or 4 with DONE, else 0 */
} BwPictureAnswer;
