/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a colour looks in print: its own colour, a letter and a pattern, so that a chart can be read
 * when all three of printer, paper and light take the colour away. */
#pragma once

#include "project/document/tray.h"
#include <pango/pangocairo.h>

/* A stroke of a pattern in a bead of size 1 × 1, y down; one of no length is a dot. */
typedef struct {
  double x0, y0, x1, y1;
} BwMarkStroke;

#define BW_MARK_LETTER 0.6 /* size of a letter, in heights */
#define BW_MARK_PATTERNS 16

/* The strokes of the pattern of tray colour `colour`; patterns come round again after 16 colours,
 * letters never. Borrowed. */
const BwMarkStroke *bw_mark_strokes (int colour, int *n_strokes);

/* How wide a stroke is drawn, in heights of the bead. */
double bw_mark_stroke_width (const BwMarkStroke *stroke);

/* The black of print or white, as 0xrrggbb: what can be read on this colour. */
guint32 bw_mark_ink (guint32 srgb);

/* A bead whose top left corner is (x, y), without its letter. */
void bw_mark_draw (cairo_t *cr, const BwTray *tray, int colour, double x, double y, double width,
                   double height);
/* Letters for many beads of one size: each is shaped once. */
typedef struct {
  const BwTray *tray; /* borrowed */
  double width, height;
  PangoLayout *letter[BW_TRAY_MAX];
  double x[BW_TRAY_MAX], y[BW_TRAY_MAX]; /* from the bead's corner to the layout's */
} BwMarkPen;

void bw_mark_pen_init (BwMarkPen *pen, const BwTray *tray, double width, double height);
void bw_mark_pen_clear (BwMarkPen *pen);
/* The letter of a colour in the middle of the bead whose top left corner is (x, y). */
void bw_mark_pen_draw (BwMarkPen *pen, cairo_t *cr, int colour, double x, double y);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BwMarkPen, bw_mark_pen_clear)

/* A bead with its letter. */
void bw_mark_draw_whole (cairo_t *cr, const BwTray *tray, int colour, double x, double y,
                         double width, double height);
