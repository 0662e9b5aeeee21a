/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone the band lies on, unrolled with it and to its scale: prism faces side by side as
 * strips, the point as a crown of triangles that converge above, the base below. Faces and edges
 * run through under the beads. */
#include "editor/cloth/band-strip.h"

#include "core/stone/mineral-keeps.h"

#include <math.h>

static GdkRGBA
blend (GdkRGBA a, GdkRGBA b, double share)
{
  float s = (float)CLAMP (share, 0, 1);
  return (GdkRGBA){
    a.red + (b.red - a.red) * s,
    a.green + (b.green - a.green) * s,
    a.blue + (b.blue - a.blue) * s,
    1,
  };
}

/* Common practice, no source: a clear stone on a mat is a little cooler than the mat, a coloured
 * one shows its colour most where it turns from the light; in the dark it glows rather than shines.
 */
void
bw_band_stone_tints (BwBandPaint *paint, const char *mineral)
{
  static const double lamp[3] = { 0.93, 0.99, 1.06 };
  double bright = paint->style->dark ? 0.46 : 0.97, deep = paint->style->dark ? 0.24 : 0.72;
  float keeps[3], light[3], dark[3];
  bw_mineral_keeps (mineral, keeps);
  for (int k = 0; k < 3; k++) {
    double tint = paint->style->dark ? lamp[k] : 1;
    light[k] = (float)(tint * bright * pow ((double)keeps[k], 0.5));
    dark[k] = (float)(tint * deep * pow ((double)keeps[k], 1.1));
  }
  paint->stone_light = (GdkRGBA){ light[0], light[1], light[2], 1 };
  paint->stone_dark = (GdkRGBA){ dark[0], dark[1], dark[2], 1 };
}

/* How far a face is turned from the light, 0..1: as if the light stood still while the stone is
 * turned past it. */
static double
tone_of (const BwBandPaint *paint, int face)
{
  return 0.42 - 0.34 * cos (2 * G_PI * face / paint->faces->faces - 0.9);
}

static GdkRGBA
shade (const BwBandPaint *paint, double tone)
{
  return blend (paint->stone_light, paint->stone_dark, tone);
}

static void
face_piece (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data)
{
  double tone = tone_of (paint, *(int *)data);
  GskColorStop stops[] = {
    { 0, shade (paint, tone - 0.14) },
    { 0.55f, shade (paint, tone) },
    { 1, shade (paint, tone + 0.14) },
  };
  bw_band_paint_across (paint, rect, stops, G_N_ELEMENTS (stops));
}

static GdkRGBA
edge_ink (const BwBandPaint *paint)
{
  return bw_band_style_fade (paint->style->ink, paint->style->strong ? 1 : 0.42);
}

/* The edge between two faces, with the glint that a polished one has beside it. */
static void
paint_edge (const BwBandPaint *paint, double x, double top, double bottom)
{
  GdkRGBA glint = bw_band_style_gleam (paint->style->dark ? 0.16 : 0.6);
  bw_band_paint_rect (paint, x, top, paint->style->line, bottom - top, edge_ink (paint));
  bw_band_paint_rect (paint, x + paint->style->line, top, 1, bottom - top, glint);
}

static void
edge_piece (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data)
{
  double top = (double)rect->origin.y;
  paint_edge (paint, (double)rect->origin.x, top, top + (double)rect->size.height);
}

/* --- Face by face ------------------------------------------------------------------------------
 */

typedef void (*FaceVisit) (const BwBandPaint *paint, int face, int image, gpointer data);

static void
each_face (const BwBandPaint *paint, FaceVisit visit, gpointer data)
{
  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++)
    for (int face = 0; face < paint->faces->faces; face++)
      visit (paint, face, image, data);
}

/* Under the beads: the edges lean as the columns have them. */
static void
under_band (const BwBandPaint *paint, int face, int image, gpointer data)
{
  const BwBandFace *place = bw_band_faces_get (paint->faces, 1, face);
  BwBandStrip strip = bw_band_strip (paint, &place->left, &place->right, image);
  bw_band_each_run (paint, &strip, face_piece, &face);
  strip.right = strip.left;
  bw_band_each_run (paint, &strip, edge_piece, NULL);
}

/* A stretch of the prism beside the band, with the edges of the column next to it. */
typedef struct {
  int column;
  double top, bottom; /* pixels */
} Stretch;

static void
beside_band (const BwBandPaint *paint, int face, int image, gpointer data)
{
  const Stretch *stretch = data;
  const BwBandFace *place = bw_band_faces_get (paint->faces, stretch->column, face);
  double shift = image * (double)paint->faces->around;
  double left = bw_band_paint_x (paint, place->left + shift);
  double right = bw_band_paint_x (paint, place->right + shift);
  if (right < paint->layout->x || left > paint->layout->x + paint->layout->width)
    return;
  graphene_rect_t rect
      = GRAPHENE_RECT_INIT ((float)left, (float)stretch->top, (float)(right - left),
                            (float)(stretch->bottom - stretch->top));
  face_piece (paint, &rect, &face);
  paint_edge (paint, left, stretch->top, stretch->bottom);
}

/* --- Points ------------------------------------------------------------------------------------
 */

/* A point's faces: each stands on the prism's edge of its face and ends above the face's middle. */
typedef struct {
  int column;
  double edge, tip; /* pixels */
  cairo_t *cr;
} Point;

static void
point_face (const BwBandPaint *paint, int face, int image, gpointer data)
{
  const Point *point = data;
  const BwBandFace *place = bw_band_faces_get (paint->faces, point->column, face);
  double shift = image * (double)paint->faces->around, lift = point->tip < point->edge ? 0.2 : -0.1;
  double left = bw_band_layout_x (paint->layout, place->left + shift);
  double right = bw_band_layout_x (paint->layout, place->right + shift);
  double middle = bw_band_layout_x (paint->layout, place->middle + shift);
  double tone = tone_of (paint, face) - lift;
  GdkRGBA from = shade (paint, tone - 0.12), to = shade (paint, tone + 0.16),
          ink = edge_ink (paint);
  if (right < paint->layout->x || left > paint->layout->x + paint->layout->width)
    return;
  cairo_pattern_t *fill = cairo_pattern_create_linear (left, 0, right, 0);
  cairo_pattern_add_color_stop_rgb (fill, 0, (double)from.red, (double)from.green,
                                    (double)from.blue);
  cairo_pattern_add_color_stop_rgb (fill, 1, (double)to.red, (double)to.green, (double)to.blue);
  cairo_move_to (point->cr, left, point->edge);
  cairo_line_to (point->cr, right, point->edge);
  cairo_line_to (point->cr, middle, point->tip);
  cairo_close_path (point->cr);
  cairo_set_source (point->cr, fill);
  cairo_fill_preserve (point->cr);
  gdk_cairo_set_source_rgba (point->cr, &ink);
  cairo_set_line_width (point->cr, paint->style->line);
  cairo_stroke (point->cr);
  cairo_pattern_destroy (fill);
}

/* Only what of it is in view is drawn. */
static void
paint_point (const BwBandPaint *paint, int column, double edge_v, double tip_v)
{
  const BwBandLayout *layout = paint->layout;
  Point point
      = { column, bw_band_layout_y (layout, edge_v), bw_band_layout_y (layout, tip_v), NULL };
  double top = MAX (MIN (point.edge, point.tip) - 2, layout->y);
  double bottom = MIN (MAX (point.edge, point.tip) + 2, layout->y + layout->height);
  if (bottom <= top)
    return;
  point.cr = gtk_snapshot_append_cairo (
      paint->snapshot, &GRAPHENE_RECT_INIT ((float)layout->x, (float)top, (float)layout->width,
                                            (float)(bottom - top)));
  each_face (paint, point_face, &point);
  cairo_destroy (point.cr);
}

/* --- The whole ---------------------------------------------------------------------------------
 */

/* What lies on the stone, or the stone on the mat, darkens what is beside it. */
static void
paint_shadow (const BwBandPaint *paint, double from, double to, double depth)
{
  const BwBandLayout *layout = paint->layout;
  graphene_rect_t rect = GRAPHENE_RECT_INIT ((float)layout->x, (float)MIN (from, to),
                                             (float)layout->width, (float)fabs (to - from));
  GskColorStop stops[] = { { 0, bw_band_style_shadow (depth) },
                           { 0.4f, bw_band_style_shadow (0.35 * depth) },
                           { 1, bw_band_style_shadow (0) } };
  if (!paint->style->strong)
    gtk_snapshot_append_linear_gradient (
        paint->snapshot, &rect, &GRAPHENE_POINT_INIT (0, (float)from),
        &GRAPHENE_POINT_INIT (0, (float)to), stops, G_N_ELEMENTS (stops));
}

static void
paint_level (const BwBandPaint *paint, double y)
{
  bw_band_paint_rect (paint, paint->layout->x, y, paint->layout->width, paint->style->line,
                      edge_ink (paint));
}

/* A band too short to have faces lies on a round of one tone. */
static void
paint_round (const BwBandPaint *paint)
{
  double top = bw_band_paint_y (paint, paint->faces->shoulder);
  bw_band_paint_rect (paint, paint->layout->x, top, paint->layout->width,
                      bw_band_paint_y (paint, paint->faces->foot) - top, shade (paint, 0.4));
}

static void
paint_prism (const BwBandPaint *paint)
{
  const BwBandFaces *faces = paint->faces;
  Stretch above = { faces->columns, bw_band_paint_y (paint, faces->shoulder),
                    bw_band_paint_y (paint, faces->columns) };
  Stretch below = { 1, bw_band_paint_y (paint, 0), bw_band_paint_y (paint, MIN (faces->heel, 0)) };
  each_face (paint, under_band, NULL);
  if (above.bottom > above.top)
    each_face (paint, beside_band, &above);
  if (below.bottom > below.top)
    each_face (paint, beside_band, &below);
}

void
bw_band_paint_stone (const BwBandPaint *paint)
{
  const BwBandFaces *faces = paint->faces;
  double reach = ceil (paint->style->text * 1.2);
  double band_top = bw_band_paint_y (paint, paint->layout->columns);
  double band_bottom = bw_band_paint_y (paint, 0), foot = bw_band_paint_y (paint, faces->foot);
  if (faces->faces == 0) {
    paint_round (paint);
    return;
  }
  if (faces->heel <= faces->foot)
    paint_shadow (paint, foot, foot + reach, 0.3);
  paint_prism (paint);
  paint_point (paint, faces->columns, faces->shoulder, faces->tip);
  if (faces->heel > faces->foot)
    paint_point (paint, 1, faces->heel, faces->foot);
  else
    paint_level (paint, foot);
  paint_shadow (paint, band_top, band_top - reach, 0.22);
  paint_shadow (paint, band_bottom, band_bottom + reach, 0.32);
}
