/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One frame of the canvas, from the tray upward: stone, beads, marks, what is pointed at, rulers.
 */
#include "editor/band/band-draw.h"

#include "editor/band/band-overlay.h"

#define GHOST_OPACITY 0.55

static void
paint_beads (const BwBandShown *shown, const BwBandPaint *paint)
{
  bw_band_beads_take (paint, shown->view->tiles, shown->view->project,
                      bw_project_shown_drawing (shown->view->project), shown->letters);
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++)
    bw_band_paint_beads (paint, shown->view->tiles, image, GHOST_OPACITY);
  bw_band_tiles_trim (shown->view->tiles);
}

/* At the bench what is woven recedes; while one draws it stays readable, for the pattern goes on
 * from there. */
static int
woven_rows (const BwBandShown *shown, float *depth)
{
  int rows = shown->view->layout.rows, at_bench = bw_session_get_woven (shown->view->session);
  int done = bw_project_get_rows_done (shown->view->project);
  *depth = at_bench > 0 ? 0.72f : 0.5f;
  return MIN (at_bench > 0 ? at_bench : done, rows);
}

/* A veil of the ground over one column of one image, from row 1 on. */
static void
veil_rows (const BwBandPaint *paint, int image, int column, int woven, GdkRGBA veil)
{
  double around = bw_band_layout_around (paint->layout);
  int first = column % 2 ? 2 : 1, last = woven - (woven - first) % 2;
  if (last < first)
    return;
  double left = bw_band_paint_x (paint, bw_band_middle (first, column).u - 0.5 + image * around);
  double right = bw_band_paint_x (paint, bw_band_middle (last, column).u + 0.5 + image * around);
  double top = bw_band_paint_y (paint, column), bottom = bw_band_paint_y (paint, column - 1);
  bw_band_paint_rect (paint, left, top, right - left, bottom - top, veil);
}

/* The veil's edge runs along the beads. */
static void
paint_woven (const BwBandShown *shown, const BwBandPaint *paint)
{
  GdkRGBA veil = paint->style->ground;
  int woven = woven_rows (shown, &veil.alpha);
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++)
    for (int column = 1; woven > 0 && column <= paint->layout->columns; column++)
      veil_rows (paint, image, column, woven, veil);
}

/* A locked column is greyed, all the way round. */
static void
paint_locked (const BwBandPaint *paint)
{
  GdkRGBA veil = bw_band_style_tint (BW_TINT_HAIR, paint->style->dark, 0.62);
  for (int column = paint->range.first_column; column <= paint->range.last_column; column++) {
    double top = bw_band_paint_y (paint, column), bottom = bw_band_paint_y (paint, column - 1);
    if (bw_session_is_locked (paint->session, column))
      bw_band_paint_rect (paint, paint->layout->x, top, paint->layout->width, bottom - top, veil);
  }
}

/* A drop of the colour in hand on the bead under the pointer. */
static void
paint_drop (const BwBandShown *shown, const BwBandPaint *paint, BwBeadAt bead)
{
  int index = shown->drop;
  graphene_rect_t rect = bw_band_paint_brick (paint, shown->drop_row, bead.column);
  float size = MIN (rect.size.width, rect.size.height) * 0.45f;
  if (index < 0 || size < 5)
    return;

  guint32 srgb = bw_project_shown_tray (shown->view->project)->colour[index].srgb;
  GdkRGBA colour = { (float)(srgb >> 16 & 0xff) / 255, (float)(srgb >> 8 & 0xff) / 255,
                     (float)(srgb & 0xff) / 255, 1 };
  GskRoundedRect drop;
  graphene_rect_inset (&rect, (rect.size.width - size) / 2, (rect.size.height - size) / 2);
  gsk_rounded_rect_init_from_rect (&drop, &rect, size / 2);
  gtk_snapshot_push_rounded_clip (paint->snapshot, &drop);
  gtk_snapshot_append_color (paint->snapshot, &colour, &rect);
  gtk_snapshot_pop (paint->snapshot);
  bw_band_paint_ring (paint, rect, 0, 1, bw_band_style_gleam (0.8), size / 2);
}

static void
paint_content (const BwBandShown *shown, const BwBandPaint *paint)
{
  const BwBeadAt *hover = shown->hover, *cursor = shown->cursor;
  const BwBandLayout *layout = paint->layout;
  double line = paint->style->line;

  gtk_snapshot_push_clip (paint->snapshot,
                          &GRAPHENE_RECT_INIT ((float)layout->x, (float)layout->y,
                                               (float)layout->width, (float)layout->height));
  bw_band_paint_rect (paint, layout->x, layout->y, layout->width, layout->height,
                      paint->style->ground);
  bw_band_paint_stone (paint);
  paint_beads (shown, paint);
  paint_woven (shown, paint);
  paint_locked (paint);
  bw_band_paint_edges (paint);
  bw_band_paint_join (paint);
  bw_band_paint_bail (paint);
  bw_band_paint_face_names (paint);
  bw_band_paint_symmetry (paint, shown->view->session);
  bw_band_paint_broken (paint, shown->view->session);
  if (bw_session_get_selection (shown->view->session) != NULL)
    bw_band_paint_selection (paint, bw_session_get_selection (shown->view->session));
  if (hover != NULL) {
    bw_band_paint_marked (paint, *hover, paint->style->mark, line);
    paint_drop (shown, paint, *hover);
  }
  if (cursor != NULL)
    bw_band_paint_marked (paint, *cursor, paint->style->mark, 2 + line);
  gtk_snapshot_pop (paint->snapshot);
}

void
bw_band_draw (const BwBandShown *shown, GtkSnapshot *snapshot)
{
  BwBandPaint paint;
  if (!bw_band_view_paint (shown->view, snapshot, &paint))
    return;
  paint.marked = shown->cursor ? shown->cursor : shown->hover;
  paint_content (shown, &paint);
  bw_band_paint_rulers (&paint);
}
