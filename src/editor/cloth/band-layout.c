/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The unrolled band's geometry kept free of widgets, so that every answer the canvas gives can be
 * tested for all beads at once. */
#include "editor/cloth/band-layout.h"

#include "core/base/lattice.h"
#include <math.h>

int
bw_band_layout_around (const BwBandLayout *layout)
{
  return bw_lattice_beads_around (layout->rows);
}

double
bw_band_layout_zoom_max (const BwBandLayout *layout)
{
  double largest_mm = MAX (layout->pitch_mm, layout->column_mm);
  return CLAMP (BW_ZOOM_BEAD_PX / (BW_ZOOM_PX_PER_MM * largest_mm), BW_ZOOM_MIN, BW_ZOOM_MAX);
}

double
bw_band_layout_pitch_px (const BwBandLayout *layout)
{
  return layout->zoom * BW_ZOOM_PX_PER_MM * layout->pitch_mm;
}

double
bw_band_layout_column_px (const BwBandLayout *layout)
{
  return layout->zoom * BW_ZOOM_PX_PER_MM * layout->column_mm;
}

static double
middle_x (const BwBandLayout *layout)
{
  return layout->x + layout->width / 2;
}

static double
middle_y (const BwBandLayout *layout)
{
  return layout->y + layout->height / 2;
}

BwBandPoint
bw_band_layout_point (const BwBandLayout *layout, double x, double y)
{
  return (BwBandPoint){
    layout->roll + (x - middle_x (layout)) / bw_band_layout_pitch_px (layout),
    layout->rise - (y - middle_y (layout)) / bw_band_layout_column_px (layout),
  };
}

double
bw_band_layout_x (const BwBandLayout *layout, double u)
{
  return middle_x (layout) + (u - layout->roll) * bw_band_layout_pitch_px (layout);
}

double
bw_band_layout_y (const BwBandLayout *layout, double v)
{
  return middle_y (layout) - (v - layout->rise) * bw_band_layout_column_px (layout);
}

BwBandPoint
bw_band_middle (int long_row, int column)
{
  return (BwBandPoint){ bw_lattice_pitches (long_row), column - 0.5 };
}

/* Odd rows lie at whole pitches and fill even columns, even rows half a pitch on fill odd ones. */
BwBeadAt
bw_band_brick (BwBandPoint point)
{
  int column = (int)floor (point.v) + 1;
  int row = column % 2 == 0 ? 2 * (int)floor (point.u + 0.5) + 1 : 2 * (int)floor (point.u) + 2;
  return (BwBeadAt){ row, column };
}

static int
floor_div (int a, int b)
{
  return a / b - (a % b < 0);
}

int
bw_band_layout_row (const BwBandLayout *layout, int long_row)
{
  int period = 2 * bw_band_layout_around (layout);
  int row = long_row - period * floor_div (long_row - 1, period);
  return row <= layout->rows ? row : 0;
}

int
bw_band_layout_nearest (const BwBandLayout *layout, int row)
{
  int n = bw_band_layout_around (layout);
  double turns = (layout->roll - bw_lattice_pitches (row)) / n;
  return row + 2 * n * (int)lround (turns);
}

gboolean
bw_band_layout_bead (const BwBandLayout *layout, BwBandPoint point, BwBeadAt *bead)
{
  BwBeadAt brick = bw_band_brick (point);
  int row = bw_band_layout_row (layout, brick.row);
  if (row == 0 || brick.column < 1 || brick.column > layout->columns)
    return FALSE;
  *bead = (BwBeadAt){ row, brick.column };
  return TRUE;
}

/* Image k reaches from the left edge of row 1 (u = k n − ½) to the right edge of the last slot
 * (k n + n): neighbours interlock by half a pitch. */
BwBandRange
bw_band_layout_range (const BwBandLayout *layout)
{
  int n = bw_band_layout_around (layout);
  BwBandPoint low = bw_band_layout_point (layout, layout->x, layout->y + layout->height);
  BwBandPoint high = bw_band_layout_point (layout, layout->x + layout->width, layout->y);
  return (BwBandRange){
    .first_image = (int)ceil (low.u / n) - 1,
    .last_image = (int)floor ((high.u + 0.5) / n),
    .first_row = (int)floor (2 * low.u),
    .last_row = (int)ceil (2 * high.u) + 2,
    .first_column = CLAMP ((int)floor (low.v) + 1, 1, layout->columns + 1),
    .last_column = CLAMP ((int)floor (high.v) + 1, 0, layout->columns),
  };
}

static void
keep_on_band (BwBandLayout *layout)
{
  layout->rise = CLAMP (layout->rise, 0, layout->columns);
}

void
bw_band_layout_zoom_about (BwBandLayout *layout, double zoom, double x, double y)
{
  BwBandPoint held = bw_band_layout_point (layout, x, y);
  layout->zoom = CLAMP (zoom, BW_ZOOM_MIN, bw_band_layout_zoom_max (layout));
  BwBandPoint now = bw_band_layout_point (layout, x, y);
  layout->roll += held.u - now.u;
  layout->rise += held.v - now.v;
  keep_on_band (layout);
}

void
bw_band_layout_pan (BwBandLayout *layout, double dx, double dy)
{
  layout->roll -= dx / bw_band_layout_pitch_px (layout);
  layout->rise += dy / bw_band_layout_column_px (layout);
  keep_on_band (layout);
}

void
bw_band_layout_fit (BwBandLayout *layout, double spare, double margin_px)
{
  int n = bw_band_layout_around (layout);
  double across_mm = (n + 0.5 + 2 * spare) * layout->pitch_mm;
  double up_mm = layout->columns * layout->column_mm;
  double zoom_across = layout->width / (across_mm * BW_ZOOM_PX_PER_MM);
  double zoom_up = (layout->height - 2 * margin_px) / (up_mm * BW_ZOOM_PX_PER_MM);

  layout->zoom = CLAMP (MIN (zoom_across, zoom_up), BW_ZOOM_MIN, bw_band_layout_zoom_max (layout));
  layout->rise = layout->columns / 2.0;
  layout->roll = (n - 0.5) / 2;
  if (zoom_across < BW_ZOOM_MIN)
    layout->roll = layout->width / 2 / bw_band_layout_pitch_px (layout) - spare - 0.5;
}

void
bw_band_layout_fit_to_draw (BwBandLayout *layout, double margin_px)
{
  double smaller_px = MIN (layout->pitch_mm, layout->column_mm) * BW_ZOOM_PX_PER_MM;
  double up_px = layout->columns * layout->column_mm * BW_ZOOM_PX_PER_MM;
  double open = BW_OPEN_SHARE * layout->height / up_px;
  double whole = (layout->height - 2 * margin_px) / up_px;

  layout->zoom = CLAMP (MAX (open, MIN (BW_ZOOM_DRAW_PX / smaller_px, whole)), BW_ZOOM_MIN,
                        bw_band_layout_zoom_max (layout));
  layout->rise = layout->columns / 2.0;
  layout->roll = (bw_band_layout_around (layout) - 0.5) / 2;
}

void
bw_band_layout_normalise (BwBandLayout *layout)
{
  int n = bw_band_layout_around (layout);
  layout->roll -= n * floor ((layout->roll + 0.5) / n);
}

double
bw_band_layout_ghost (const BwBandLayout *layout, int image)
{
  const double fade = 4; /* pitches */
  int n = bw_band_layout_around (layout);
  double left = image * (double)n - 0.5, right = left + n;
  double outside = MAX (left - layout->roll, layout->roll - right);
  return CLAMP (outside / fade, 0, 1);
}

/* One column up or down: within the pair of rows (2m − 1, 2m) that were picked up side by side. */
static BwBeadAt
step_up (BwBeadAt from, int up)
{
  return (BwBeadAt){ from.row % 2 ? from.row + 1 : from.row - 1, from.column + up };
}

BwBeadAt
bw_band_layout_walk (const BwBandLayout *layout, BwBeadAt from, int along, int up)
{
  int period = 2 * bw_band_layout_around (layout);
  BwBeadAt to = from;

  for (; up != 0; up -= up > 0 ? 1 : -1) {
    BwBeadAt next = step_up (to, up > 0 ? 1 : -1);
    if (next.column < 1 || next.column > layout->columns)
      break;
    to = next;
  }
  to.row += 2 * along;
  to.row -= period * floor_div (to.row - 1, period);
  if (to.row > layout->rows)
    to.row += along < 0 ? -2 : 2;
  to.row -= period * floor_div (to.row - 1, period);
  return to.row <= layout->rows ? to : from;
}
