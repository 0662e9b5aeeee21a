/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies over the beads for the tools' sake: what is selected, the axes and centres of the live
 * symmetry, and the beads at the join that break a repeat. */
#include "config.h"

#include "editor/band/band-overlay.h"

#include "core/base/lattice.h"
#include "editor/tool/live.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define DASH 7.0

/* A line in two tones shows on every colour of bead. */
static void
bar (const BwBandPaint *paint, double x, double y, double width, double height, GdkRGBA colour)
{
  GdkRGBA dark = bw_band_style_shadow (0.7);
  bw_band_paint_rect (paint, x - 1, y - 1, width + 2, height + 2, dark);
  bw_band_paint_rect (paint, x, y, width, height, colour);
}

/* --- Selection ---------------------------------------------------------------------------------
 */

/* The sides of a selected bead that face beads not selected. Above and below lie two half
 * neighbours. */
static void
paint_sides (const BwBandPaint *paint, const BwRegion *region, int long_row, int column)
{
  graphene_rect_t rect = bw_band_paint_brick (paint, long_row, column);
  double x = rect.origin.x, y = rect.origin.y, w = rect.size.width, h = rect.size.height;
  double line = 1 + paint->style->line;
  GdkRGBA light = bw_band_style_gleam (1);

  if (!bw_region_has (region, long_row - 2, column))
    bar (paint, x, y, line, h, light);
  if (!bw_region_has (region, long_row + 2, column))
    bar (paint, x + w - line, y, line, h, light);
  for (int side = 0; side < 2; side++) {
    double left = side == 0 ? x : x + w / 2;
    if (!bw_region_has (region, long_row + (side == 0 ? -1 : 1), column + 1))
      bar (paint, left, y, w / 2, line, light);
    if (!bw_region_has (region, long_row + (side == 0 ? -1 : 1), column - 1))
      bar (paint, left, y + h - line, w / 2, line, light);
  }
}

void
bw_band_paint_selection (const BwBandPaint *paint, const BwRegion *region)
{
  GdkRGBA tint = bw_band_style_fade (paint->style->accent, 0.28);
  gboolean close = bw_band_layout_pitch_px (paint->layout) >= 5;
  for (int column = paint->range.first_column; column <= paint->range.last_column; column++)
    for (int row = paint->range.first_row; row <= paint->range.last_row; row++) {
      if (!bw_lattice_has (row, column) || !bw_region_has (region, row, column))
        continue;
      if (close) {
        graphene_rect_t rect = bw_band_paint_brick (paint, row, column);
        gtk_snapshot_append_color (paint->snapshot, &tint, &rect);
      }
      paint_sides (paint, region, row, column);
    }
}

/* --- Symmetry ----------------------------------------------------------------------------------
 */

static void
upright_dashes (const BwBandPaint *paint, double u, double reach)
{
  double x = bw_band_paint_x (paint, u) - 1;
  double top = bw_band_paint_y (paint, paint->layout->columns) - reach;
  double bottom = bw_band_paint_y (paint, 0) + reach;
  for (double y = top; y < bottom; y += 2 * DASH)
    bar (paint, x, y, 2, MIN (DASH, bottom - y), paint->style->mark);
}

static void
midline_dashes (const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  double y = bw_band_paint_y (paint, layout->columns / 2.0) - 1;
  for (double x = layout->x; x < layout->x + layout->width; x += 2 * DASH)
    bar (paint, x, y, DASH, 2, paint->style->mark);
}

/* A centre of a half-turn: a ring with two opposite ticks. */
static void
centre_mark (const BwBandPaint *paint, double u)
{
  double r = 6, x = bw_band_paint_x (paint, u);
  double y = bw_band_paint_y (paint, paint->layout->columns / 2.0);
  graphene_rect_t rect
      = GRAPHENE_RECT_INIT ((float)(x - r), (float)(y - r), (float)(2 * r), (float)(2 * r));
  float widths[4] = { 2, 2, 2, 2 };
  GdkRGBA ink = paint->style->mark, colours[4] = { ink, ink, ink, ink };
  GskRoundedRect round;
  gsk_rounded_rect_init_from_rect (&round, &rect, (float)r);
  bar (paint, x + r, y - r - 6, 2, 8, ink);
  bar (paint, x - r - 2, y + r - 2, 2, 8, ink);
  gtk_snapshot_push_rounded_clip (paint->snapshot, &round);
  bw_band_paint_rect (paint, x - r, y - r, 2 * r, 2 * r, bw_band_style_shadow (0.7));
  gtk_snapshot_pop (paint->snapshot);
  gtk_snapshot_append_border (paint->snapshot, &round, widths, colours);
}

/* Where one repeat ends and the next begins: a tick above and below the band. */
static void
repeat_tick (const BwBandPaint *paint, double u)
{
  double x = bw_band_paint_x (paint, u) - 1;
  bar (paint, x, bw_band_paint_y (paint, paint->layout->columns) - 8, 2, 8, paint->style->mark);
  bar (paint, x, bw_band_paint_y (paint, 0), 2, 8, paint->style->mark);
}

typedef void (*Mark) (const BwBandPaint *paint, double u);

static void
upright_line (const BwBandPaint *paint, double u)
{
  upright_dashes (paint, u, 8);
}

/* Marks at first, first + step, … u within one image of the band, in every image that shows. */
static void
each_mark (const BwBandPaint *paint, double first, double step, Mark mark)
{
  const BwBandLayout *layout = paint->layout;
  int n = bw_band_layout_around (layout);
  double at = first - step * floor ((first + 0.5) / step);
  if (step * bw_band_layout_pitch_px (layout) < 4)
    return;
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++)
    for (double u = at; u < n - 0.25; u += step) {
      double x = bw_band_layout_x (layout, u + image * (double)n);
      if (x >= layout->x - 12 && x <= layout->x + layout->width + 12)
        mark (paint, u + image * (double)n);
    }
}

static void
paint_frieze (const BwBandPaint *paint, const BwSymmetry *frieze)
{
  int n = bw_band_layout_around (paint->layout);
  double k = frieze->repeat_rows > 0 ? frieze->repeat_rows : 2 * n; /* half pitches */
  gboolean mirrors = frieze->frieze == BW_FRIEZE_P1M1 || frieze->frieze == BW_FRIEZE_P2MG;
  double turn = frieze->centre + 0.5;

  if (frieze->frieze == BW_FRIEZE_P11G || frieze->frieze == BW_FRIEZE_P2MG)
    midline_dashes (paint);
  if (mirrors)
    each_mark (paint, frieze->centre / 2.0, k / 4, upright_line);
  if (frieze->frieze == BW_FRIEZE_P2MG)
    turn = frieze->centre + k / 4;
  if (frieze->frieze == BW_FRIEZE_P2 || frieze->frieze == BW_FRIEZE_P2MG)
    each_mark (paint, turn / 2, k / 4, centre_mark);
  if (frieze->repeat_rows > 0 && !mirrors)
    each_mark (paint, 0, k / 2, repeat_tick);
}

static void
paint_faces (const BwBandPaint *paint, const BwLive *live)
{
  int n = bw_band_layout_around (paint->layout);
  gboolean mirror = live->want.frieze.frieze == BW_FRIEZE_P1M1;
  for (int i = 0; i < live->n_faces; i++)
    each_mark (paint, live->face[i].middle / 2.0, n, mirror ? upright_line : repeat_tick);
}

void
bw_band_paint_symmetry (const BwBandPaint *paint, BwSession *session)
{
  BwLive live;
  bw_live_init (&live, session);
  if (bw_live_is_none (&live))
    return;
  if (live.want.each_face)
    paint_faces (paint, &live);
  else
    paint_frieze (paint, &live.want.frieze);
}

/* A repeat that breaks at the join: a small cross on every bead that differs from the one a repeat
 * before it. */
void
bw_band_paint_broken (const BwBandPaint *paint, BwSession *session)
{
  BwLiveSymmetry live = bw_session_get_symmetry (session);
  int period = 2 * bw_band_layout_around (paint->layout);
  if (live.each_face || bw_symmetry_fit (&live.frieze, paint->layout->rows) != BW_FRIEZE_OPEN)
    return;
  BwProject *project = bw_session_get_project (session);
  BwJoin tried = { 0 };
  if (bw_project_has_trial (project))
    bw_join_init (&tried, bw_project_fit (project), bw_project_get_design (project),
                  bw_project_shown_drawing (project));
  const GArray *broken = tried.broken ? tried.broken : bw_project_join (project)->broken;
  for (guint i = 0; i < broken->len; i++) {
    BwBeadAt bead = g_array_index (broken, BwBeadAt, i);
    for (int image = paint->range.first_image; image <= paint->range.last_image; image++) {
      graphene_rect_t rect = bw_band_paint_brick (paint, bead.row + image * period, bead.column);
      double x = rect.origin.x + rect.size.width / 2, y = rect.origin.y + rect.size.height / 2;
      double arm = CLAMP (rect.size.width / 5, 2, 8);
      bar (paint, x - arm, y - 1, 2 * arm, 2, bw_band_style_tint (BW_TINT_RUST, TRUE, 1));
      bar (paint, x - 1, y - arm, 2, 2 * arm, bw_band_style_tint (BW_TINT_RUST, TRUE, 1));
    }
  }
  if (tried.broken)
    bw_join_clear (&tried);
}
