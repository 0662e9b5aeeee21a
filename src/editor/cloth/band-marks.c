/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone's faces, the bail's place and the join: what tells a maker where on the stone a bead
 * will sit. All marks follow the columns one by one, as the stone does. */
#include "config.h"

#include "editor/cloth/band-paint.h"

#include <glib/gi18n-lib.h>
#include <math.h>

double
bw_band_margin_px (const BwBandStyle *style)
{
  return ceil (style->text * 2.4);
}

/* Where there is room, more of the stone shows than the marks need. */
static double
stone_px (const BwBandPaint *paint)
{
  return ceil (paint->style->text * 4.5);
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

/* A mark between two places that vary from column to column: one rectangle for each run of columns
 * in which neither moves by a pixel. */
typedef struct {
  const double *left, *right; /* of column 1; u; one of each a column, a row of faces apart */
  int stride;
  double shift;     /* pitches: which image of the band */
  double extra;     /* pitches beyond the places on both sides */
  gboolean margins; /* the outermost runs reach over the stone's margins */
} Strip;

static Strip
strip_of (const BwBandPaint *paint, const double *left, const double *right, int image)
{
  const BwBandFaces *faces = paint->faces;
  int stride = faces->faces * (int)(sizeof (BwBandFace) / sizeof (double));
  return (Strip){ left, right, stride, image * (double)faces->around, 0, FALSE };
}

typedef void (*StripPiece) (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data);

static double
strip_left (const BwBandPaint *paint, const Strip *strip, int column)
{
  double u = strip->left[(column - 1) * strip->stride];
  return bw_band_paint_x (paint, u + strip->shift - strip->extra);
}

static double
strip_right (const BwBandPaint *paint, const Strip *strip, int column)
{
  double u = strip->right[(column - 1) * strip->stride];
  return bw_band_paint_x (paint, u + strip->shift + strip->extra);
}

static void
emit_run (const BwBandPaint *paint, const Strip *strip, int low, int high, StripPiece piece,
          gpointer data)
{
  double margin = strip->margins ? stone_px (paint) : 0;
  double left = strip_left (paint, strip, low), right = strip_right (paint, strip, low);
  double top = bw_band_paint_y (paint, high) - (high == paint->layout->columns ? margin : 0);
  double bottom = bw_band_paint_y (paint, low - 1) + (low == 1 ? margin : 0);
  graphene_rect_t rect;

  if (right < paint->layout->x || left > paint->layout->x + paint->layout->width)
    return;
  graphene_rect_init (&rect, (float)left, (float)top, (float)(right - left), (float)(bottom - top));
  piece (paint, &rect, data);
}

static void
each_run (const BwBandPaint *paint, const Strip *strip, StripPiece piece, gpointer data)
{
  int first = MIN (paint->range.first_column, paint->layout->columns);
  int last = MAX (paint->range.last_column, first);
  int low = first;
  for (int column = first + 1; column <= last + 1; column++) {
    gboolean same = column <= last
                    && strip_left (paint, strip, column) == strip_left (paint, strip, low)
                    && strip_right (paint, strip, column) == strip_right (paint, strip, low);
    if (!same) {
      emit_run (paint, strip, low, column - 1, piece, data);
      low = column;
    }
  }
}

static GdkRGBA
blend (GdkRGBA a, GdkRGBA b, double share)
{
  float s = (float)share;
  return (GdkRGBA){
    a.red + (b.red - a.red) * s,
    a.green + (b.green - a.green) * s,
    a.blue + (b.blue - a.blue) * s,
    a.alpha + (b.alpha - a.alpha) * s,
  };
}

static void
across (const BwBandPaint *paint, const graphene_rect_t *rect, const GskColorStop *stops, gsize n)
{
  graphene_point_t from = rect->origin;
  graphene_point_t to = GRAPHENE_POINT_INIT (rect->origin.x + rect->size.width, rect->origin.y);
  gtk_snapshot_append_linear_gradient (paint->snapshot, rect, &from, &to, stops, n);
}

/* A face is lit as if the light stood still while the stone is turned past it. */
static void
face_piece (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data)
{
  double angle = 2 * G_PI * *(int *)data / paint->faces->faces;
  double tone = 0.5 - 0.38 * cos (angle - 0.9);
  GdkRGBA light = paint->style->stone_light, dark = paint->style->stone_dark;
  GskColorStop stops[] = {
    { 0, blend (light, dark, tone - 0.10) },
    { 1, blend (light, dark, tone + 0.10) },
  };
  across (paint, rect, stops, G_N_ELEMENTS (stops));
}

/* The stone fades into the tray away from the band. */
static void
fade_margin (const BwBandPaint *paint, double edge, double outer)
{
  const BwBandLayout *layout = paint->layout;
  graphene_rect_t rect = GRAPHENE_RECT_INIT ((float)layout->x, (float)MIN (edge, outer),
                                             (float)layout->width, (float)fabs (outer - edge));
  GdkRGBA ground = paint->style->ground;
  GskColorStop stops[] = {
    { 0, bw_band_style_fade (ground, 0) },
    { 0.35f, bw_band_style_fade (ground, 0.1) },
    { 1, ground },
  };
  gtk_snapshot_append_linear_gradient (
      paint->snapshot, &rect, &GRAPHENE_POINT_INIT (0, (float)edge),
      &GRAPHENE_POINT_INIT (0, (float)outer), stops, G_N_ELEMENTS (stops));
}

static void
line_piece (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data)
{
  const GdkRGBA *colour = data;
  double line = paint->style->line;
  bw_band_paint_rect (paint, rect->origin.x, rect->origin.y, line, rect->size.height, *colour);
}

void
bw_band_paint_stone (const BwBandPaint *paint)
{
  double margin = stone_px (paint);
  GdkRGBA fine = bw_band_style_fade (paint->style->ink, paint->style->strong ? 1 : 0.4);
  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++)
    for (int face = 0; face < paint->faces->faces; face++) {
      const BwBandFace *place = bw_band_faces_get (paint->faces, 1, face);
      Strip strip = strip_of (paint, &place->left, &place->right, image);
      strip.margins = TRUE;
      each_run (paint, &strip, face_piece, &face);
      strip.right = strip.left;
      each_run (paint, &strip, line_piece, &fine);
    }
  fade_margin (paint, band_top (paint), band_top (paint) - margin);
  fade_margin (paint, band_bottom (paint), band_bottom (paint) + margin);
}

/* The band bends over the stone's edge: a soft shadow on the beads there. */
static void
edge_piece (const BwBandPaint *paint, const graphene_rect_t *rect, gpointer data)
{
  GdkRGBA clear = bw_band_style_shadow (0);
  GdkRGBA deep = bw_band_style_shadow (paint->style->strong ? 0.5 : 0.26);
  GskColorStop stops[] = { { 0, clear }, { 0.5f, deep }, { 1, clear } };
  across (paint, rect, stops, G_N_ELEMENTS (stops));
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
      Strip strip = strip_of (paint, &place->right, &place->right, image);
      strip.extra = 0.8;
      each_run (paint, &strip, edge_piece, NULL);
      strip.extra = 0;
      each_run (paint, &strip, line_piece, &fine);
      strip = strip_of (paint, &place->middle, &place->middle, image);
      each_run (paint, &strip, line_piece, &middle);
    }
}

/* A short mark on the stone just outside the band, at a face's middle. */
static void
paint_middle_mark (const BwBandPaint *paint, double x, double y)
{
  double width = 2 * paint->style->line, height = ceil (paint->style->text * 0.4);
  bw_band_paint_rect (paint, x - width / 2, y, width, height, paint->style->mark);
}

/* A name stays in sight while its face is: it keeps to the face's visible part. */
static void
paint_face_name (const BwBandPaint *paint, int face, double middle, double left, double right)
{
  const BwBandLayout *layout = paint->layout;
  double low = MAX (left, layout->x), high = MIN (right, layout->x + layout->width);
  double mark = ceil (paint->style->text * 0.4);
  g_autofree char *name = g_strdup_printf (_ ("Face %d"), face + 1);
  g_autofree char *number = g_strdup_printf ("%d", face + 1);

  const char *words = name;
  double half = bw_band_paint_text_width (paint, words) / 2 + 6;
  if (high - low < 2 * half) {
    words = number;
    half = bw_band_paint_text_width (paint, words) / 2 + 6;
  }
  if (high - low < 2 * half)
    return;
  double x = CLAMP (middle, low + half, high - half);
  double y = band_top (paint) - mark - paint->style->text - 4;
  if (y >= layout->y)
    bw_band_paint_text (paint, words, x, y, paint->style->ink);
  else
    bw_band_paint_label (paint, words, x, layout->y + 4,
                         bw_band_style_fade (paint->style->ruler, 0.88), paint->style->ink);
}

void
bw_band_paint_face_names (const BwBandPaint *paint)
{
  const BwBandFaces *faces = paint->faces;
  const BwBandLayout *layout = paint->layout;
  double mark = ceil (paint->style->text * 0.4);

  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++)
    for (int f = 0; f < faces->faces; f++) {
      double shift = image * (double)faces->around;
      const BwBandFace *high = bw_band_faces_get (faces, layout->columns, f);
      const BwBandFace *low = bw_band_faces_get (faces, 1, f);
      double left = bw_band_paint_x (paint, high->left + shift);
      double right = bw_band_paint_x (paint, high->right + shift);
      double middle = bw_band_paint_x (paint, high->middle + shift);
      if (right < layout->x || left > layout->x + layout->width)
        continue;
      paint_middle_mark (paint, middle, band_top (paint) - mark - 2);
      paint_middle_mark (paint, bw_band_paint_x (paint, low->middle + shift),
                         band_bottom (paint) + 2);
      paint_face_name (paint, f, middle, left, right);
    }
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
