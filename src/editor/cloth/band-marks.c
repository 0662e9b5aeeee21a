/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone's edges, the bail's place, the join and the faces' ribbon: what tells a maker where on
 * the stone a bead will sit. All marks follow the columns one by one, as the stone does. */
#include "config.h"

#include "editor/cloth/band-strip.h"

#include <glib/gi18n-lib.h>
#include <math.h>

double
bw_band_margin_px (const BwBandStyle *style)
{
  return ceil (style->text * 1.25) + ceil (style->text * 0.4) + 4;
}

static double
band_top (const BwBandPaint *paint)
{
  return bw_band_paint_y (paint, paint->layout->columns);
}

static double
band_bottom (const BwBandPaint *paint)
{
  return bw_band_paint_y (paint, 0);
}

static void
line_piece (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data)
{
  const GdkRGBA *colour = data;
  double line = paint->style->line;
  bw_band_paint_rect (paint, rect->origin.x, rect->origin.y, line, rect->size.height, *colour);
}

/* The band bends over the stone's edge: a soft shadow on the beads there. */
static void
edge_piece (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data)
{
  GdkRGBA clear = bw_band_style_shadow (0);
  GdkRGBA deep = bw_band_style_shadow (paint->style->strong ? 0.5 : 0.26);
  GskColorStop stops[] = { { 0, clear }, { 0.5f, deep }, { 1, clear } };
  bw_band_paint_across (paint, rect, stops, G_N_ELEMENTS (stops));
}

void
bw_band_paint_edges (const BwBandPaint *paint)
{
  const BwBandFaces *faces = paint->faces;
  GdkRGBA fine = bw_band_style_shadow (0.30);
  GdkRGBA middle = bw_band_style_gleam (0.22);

  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++)
    for (int f = 0; f < faces->faces; f++) {
      const BwBandFace *place = bw_band_faces_get (faces, 1, f);
      BwBandStrip strip = bw_band_strip (paint, &place->right, &place->right, image);
      strip.extra = 0.8;
      bw_band_each_run (paint, &strip, edge_piece, NULL);
      strip.extra = 0;
      bw_band_each_run (paint, &strip, line_piece, &fine);
      strip = bw_band_strip (paint, &place->middle, &place->middle, image);
      bw_band_each_run (paint, &strip, line_piece, &middle);
    }
}

/* --- The faces' ribbon -------------------------------------------------------------------------
 */

/* It lies along the band's upper edge, and stays in view where that is out of it. */
static graphene_rect_t
ribbon (const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  double height = ceil (paint->style->text * 1.25);
  double y = band_top (paint) - height - ceil (paint->style->text * 0.4);
  return GRAPHENE_RECT_INIT ((float)layout->x, (float)MAX (y, layout->y + 2), (float)layout->width,
                             (float)height);
}

/* A short mark between ribbon and band, or below the band, at a face's middle. */
static void
paint_middle_mark (const BwBandPaint *paint, double x, double y)
{
  double width = 2 * paint->style->line, height = ceil (paint->style->text * 0.4);
  bw_band_paint_rect (paint, x - width / 2, y, width, height, paint->style->mark);
}

/* A name stays in sight while its face is: it keeps to the face's visible part. */
static void
paint_face_name (const BwBandPaint *paint, int face, double middle, double left, double right,
                 double y)
{
  const BwBandLayout *layout = paint->layout;
  double low = MAX (left, layout->x), high = MIN (right, layout->x + layout->width);
  g_autofree char *name = g_strdup_printf (_ ("Face %d"), face + 1);
  g_autofree char *number = g_strdup_printf ("%d", face + 1);

  const char *words = name;
  double half = bw_band_paint_text_width (paint, words) / 2 + 6;
  if (high - low < 2 * half) {
    words = number;
    half = bw_band_paint_text_width (paint, words) / 2 + 6;
  }
  if (high - low >= 2 * half)
    bw_band_paint_text (paint, words, CLAMP (middle, low + half, high - half), y,
                        paint->style->ink);
}

/* The ribbon is cut where the stone has an edge. */
static void
paint_face_of_ribbon (const BwBandPaint *paint, const graphene_rect_t *rect, int face, int image)
{
  const BwBandLayout *layout = paint->layout;
  double shift = image * (double)paint->faces->around;
  const BwBandFace *high = bw_band_faces_get (paint->faces, layout->columns, face);
  const BwBandFace *low = bw_band_faces_get (paint->faces, 1, face);
  double left = bw_band_paint_x (paint, high->left + shift);
  double right = bw_band_paint_x (paint, high->right + shift);
  double middle = bw_band_paint_x (paint, high->middle + shift);
  double y = (double)rect->origin.y, height = (double)rect->size.height;
  if (right < layout->x || left > layout->x + layout->width)
    return;
  bw_band_paint_rect (paint, left + 1, y, right - left - 2, height, paint->style->ribbon);
  bw_band_paint_rect (paint, left + 1, y + height - 1, right - left - 2, 1,
                      bw_band_style_fade (paint->style->ink, paint->style->strong ? 1 : 0.3));
  paint_middle_mark (paint, middle, y + height);
  paint_middle_mark (paint, bw_band_paint_x (paint, low->middle + shift), band_bottom (paint) + 2);
  paint_face_name (paint, face, middle, left, right, y + (height - paint->style->text) / 2);
}

void
bw_band_paint_face_names (const BwBandPaint *paint)
{
  graphene_rect_t rect = ribbon (paint);
  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++)
    for (int face = 0; face < paint->faces->faces; face++)
      paint_face_of_ribbon (paint, &rect, face, image);
}

static void
outline (const BwBandPaint *paint, graphene_rect_t rect, float radius, float thickness,
         GdkRGBA colour)
{
  GskRoundedRect rounded;
  float widths[4] = { thickness, thickness, thickness, thickness };
  GdkRGBA colours[4] = { colour, colour, colour, colour };
  gsk_rounded_rect_init_from_rect (&rounded, &rect, radius);
  gtk_snapshot_append_border (paint->snapshot, &rounded, widths, colours);
}

void
bw_band_paint_bail (const BwBandPaint *paint)
{
  const BwBandFaces *faces = paint->faces;
  if (!faces->has_bail)
    return;

  float line = (float)paint->style->line;
  double top = bw_band_paint_y (paint, faces->bail_top);
  double bottom = bw_band_paint_y (paint, faces->bail_bottom);
  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++) {
    double left = bw_band_paint_x (paint, faces->bail_left + image * (double)faces->around);
    double right = bw_band_paint_x (paint, faces->bail_right + image * (double)faces->around);
    graphene_rect_t rect = GRAPHENE_RECT_INIT ((float)left, (float)top, (float)(right - left),
                                               (float)(bottom - top));
    /* Light and dark together show on every colour of bead. */
    outline (paint, rect, 4, 2 * line, bw_band_style_shadow (0.6));
    graphene_rect_inset (&rect, line, line);
    outline (paint, rect, 3, 2 * line, bw_band_style_gleam (0.85));
    double half = bw_band_paint_text_width (paint, _ ("Bail")) / 2 + 4;
    if (right - left > 2 * half + 8 && bottom - top > paint->style->text + 10)
      bw_band_paint_label (paint, _ ("Bail"), left + half + 4, MAX (top, paint->layout->y) + 4,
                           bw_band_style_shadow (0.6), bw_band_style_gleam (1));
  }
}

/* The line between the last row and the first steps to and fro with the beads' edges. */
static void
paint_join_line (const BwBandPaint *paint, double u, GdkRGBA colour)
{
  double line = 1 + paint->style->line;
  double before = 0;
  for (int column = paint->range.first_column; column <= paint->range.last_column; column++) {
    double x = bw_band_paint_x (paint, column % 2 == 0 ? u - 0.5 : u) - line / 2;
    double top = bw_band_paint_y (paint, column), bottom = bw_band_paint_y (paint, column - 1);
    bw_band_paint_rect (paint, x, top, line, bottom - top, colour);
    if (column > paint->range.first_column)
      bw_band_paint_rect (paint, MIN (x, before), bottom - line / 2, fabs (x - before) + line, line,
                          colour);
    before = x;
  }
}

void
bw_band_paint_join (const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  int around = bw_band_layout_around (layout);
  double line = 1 + paint->style->line;
  double low = layout->y + layout->height - paint->style->text - 6;

  for (int image = paint->range.first_image; image <= paint->range.last_image + 1; image++) {
    double u = image * (double)around;
    double x = bw_band_paint_x (paint, u - 0.25);
    paint_join_line (paint, u, bw_band_style_fade (paint->style->mark, 0.9));
    double y = MIN (band_bottom (paint) + ceil (paint->style->text * 0.5) + 4, low);
    bw_band_paint_rect (paint, x - line / 2, band_bottom (paint), line,
                        MAX (0, y - band_bottom (paint)), paint->style->mark);
    bw_band_paint_label (paint, _ ("Join"), x, y, paint->style->accent, paint->style->on_accent);
  }
}
