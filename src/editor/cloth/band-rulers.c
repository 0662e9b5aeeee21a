/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows and columns are counted at the bench; the rulers count them on screen. They grow with the
 * font, and thin out their numbers as the beads become small. */
#include "editor/cloth/band-paint.h"

#include "core/base/lattice.h"
#include <math.h>

double
bw_band_ruler_width (const BwBandStyle *style)
{
  return ceil (style->digit * 3 + 16);
}

double
bw_band_ruler_height (const BwBandStyle *style)
{
  return ceil (style->text * 2 + 8);
}

/* The least of 1, 2, 5, 10, 20, 50 … whose numbers stand `room` pixels apart. */
static int
number_step (double px_each, double room)
{
  static const int steps[] = { 1, 2, 5 };
  for (int ten = 1;; ten *= 10)
    for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
      if (steps[i] * ten * px_each >= room || ten >= 10000)
        return steps[i] * ten;
}

static int
digits (int number)
{
  return number < 10 ? 1 : 1 + digits (number / 10);
}

static void
paint_number (const BwBandPaint *paint, int number, double x, double y, gboolean marked,
              GdkRGBA colour)
{
  char words[16];
  g_snprintf (words, sizeof words, "%d", number);
  if (marked)
    bw_band_paint_label (paint, words, x, y, paint->style->accent, paint->style->on_accent);
  else
    bw_band_paint_text (paint, words, x, y, colour);
}

static gboolean
is_marked_column (const BwBandPaint *paint, int column)
{
  return paint->marked != NULL && paint->marked->column == column;
}

/* A padlock beside the number of a column that nothing is drawn in. */
static void
paint_lock (const BwBandPaint *paint, double y)
{
  double side = floor (paint->style->text * 0.4), x = bw_band_snap (paint, 2);
  double body = bw_band_snap (paint, y + paint->style->text * 0.5), line = MAX (1, floor (side / 4));
  GdkRGBA ink = paint->style->ink;
  bw_band_paint_rect (paint, x, body, side + 1, side, ink);
  bw_band_paint_rect (paint, x + 1, body - side + 1, line, side - 1, ink);
  bw_band_paint_rect (paint, x + side - line, body - side + 1, line, side - 1, ink);
  bw_band_paint_rect (paint, x + 1, body - side + 1, side - 1, line, ink);
}

static void
paint_columns (const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  const BwBandStyle *style = paint->style;
  int step = number_step (bw_band_layout_column_px (layout), style->text + 2);
  int marked = paint->marked ? paint->marked->column : -1000;

  for (int column = paint->range.first_column; column <= paint->range.last_column; column++) {
    double y = bw_band_layout_y (layout, column - 0.5) - style->text / 2;
    gboolean locked = bw_session_is_locked (paint->session, column);
    gboolean told = locked || column == 1 || (column % step == 0 && column - 1 >= 0.8 * step);
    if (column == marked || (told && abs (column - marked) >= step))
      paint_number (paint, column, layout->x / 2 + 2, bw_band_snap (paint, y),
                    is_marked_column (paint, column), style->ink);
    if (locked)
      paint_lock (paint, y);
  }
}

/* What the rows have in common. */
typedef struct {
  double y, arrow_y;
  double row_px;
  int step, period;
  int marked; /* long row, or far away */
  gboolean all_arrows;
} RowRuler;

/* Row 1 and the multiples, but no two that touch: the next turn's row 1 keeps its place. */
static gboolean
is_numbered (const RowRuler *ruler, int row, int long_row)
{
  if (long_row == ruler->marked)
    return TRUE;
  if (abs (long_row - ruler->marked) < ruler->step)
    return FALSE;
  if (row == 1)
    return TRUE;
  return row % ruler->step == 0 && row - 1 >= 0.8 * ruler->step
         && ruler->period + 1 - row >= 0.8 * ruler->step;
}

/* A number that the view's edge would cut is left out: half of a 90 reads as another number. */
static gboolean
has_room (const BwBandPaint *paint, int row, double x)
{
  double half = (digits (row) * paint->style->digit + 8) / 2;
  return x - half >= paint->layout->x && x + half <= paint->layout->x + paint->layout->width;
}

static void
paint_row (const BwBandPaint *paint, const RowRuler *ruler, int long_row)
{
  int row = bw_band_layout_row (paint->layout, long_row);
  if (row == 0)
    return;
  int image = (int)floor ((long_row - 1) / (double)ruler->period);
  double pale = paint->style->strong ? 0.3 : 0.5;
  double shade = 1 - pale * bw_band_layout_ghost (paint->layout, image);
  double x = bw_band_layout_x (paint->layout, bw_lattice_pitches (long_row));
  gboolean numbered = is_numbered (ruler, row, long_row) && has_room (paint, row, x);
  GdkRGBA ink = bw_band_style_fade (paint->style->ink, shade);

  if (numbered)
    paint_number (paint, row, bw_band_snap (paint, x), ruler->y, long_row == ruler->marked, ink);
  if (long_row == ruler->marked || ruler->all_arrows)
    bw_band_paint_text (paint, bw_lattice_direction (row) > 0 ? "↑" : "↓", bw_band_snap (paint, x),
                        ruler->arrow_y, bw_band_style_fade (ink, numbered ? 1 : 0.55));
  if (ruler->row_px >= 3)
    bw_band_paint_rect (paint, bw_band_snap (paint, x), paint->layout->y + paint->layout->height,
                        paint->style->line, numbered ? 5 : 3,
                        bw_band_style_fade (paint->style->faint, shade));
}

static void
paint_rows (const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  const BwBandStyle *style = paint->style;
  double row_px = bw_band_layout_pitch_px (layout) / 2;
  double room = (digits (layout->rows) + 1) * style->digit + 6;
  RowRuler ruler = {
    .y = layout->y + layout->height + 5,
    .row_px = row_px,
    .step = number_step (row_px, room),
    .period = 2 * bw_band_layout_around (layout),
    .marked = G_MININT / 2,
    .all_arrows = row_px >= style->digit,
  };
  ruler.arrow_y = ruler.y + style->text - 1;
  if (paint->marked != NULL)
    ruler.marked = bw_band_layout_nearest (layout, paint->marked->row);
  for (int row = paint->range.first_row; row <= paint->range.last_row; row++)
    paint_row (paint, &ruler, row);
}

static void
push_clip (const BwBandPaint *paint, double x, double y, double width, double height)
{
  gtk_snapshot_push_clip (paint->snapshot,
                          &GRAPHENE_RECT_INIT ((float)x, (float)y, (float)width, (float)height));
}

void
bw_band_paint_rulers (const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  const BwBandStyle *style = paint->style;
  double bottom = layout->y + layout->height, line = style->line;

  bw_band_paint_rect (paint, 0, 0, layout->x, paint->widget_height, style->ruler);
  bw_band_paint_rect (paint, 0, bottom, layout->x + layout->width, paint->widget_height - bottom,
                      style->ruler);
  bw_band_paint_rect (paint, layout->x - line, 0, line, bottom, style->faint);
  bw_band_paint_rect (paint, layout->x - line, bottom, layout->width + line, line, style->faint);

  push_clip (paint, 0, layout->y, layout->x, layout->height);
  paint_columns (paint);
  gtk_snapshot_pop (paint->snapshot);
  push_clip (paint, layout->x, bottom, layout->width, paint->widget_height - bottom);
  paint_rows (paint);
  gtk_snapshot_pop (paint->snapshot);
}
