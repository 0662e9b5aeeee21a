/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Neighbouring columns mostly carry a mark at the same pixel: they become one rectangle. */
#include "editor/cloth/band-strip.h"

BwBandStrip
bw_band_strip (const BwBandPaint *paint, const double *left, const double *right, int image)
{
  const BwBandFaces *faces = paint->faces;
  int stride = faces->faces * (int)(sizeof (BwBandFace) / sizeof (double));
  return (BwBandStrip){ left, right, stride, image * (double)faces->around, 0 };
}

static double
left_of (const BwBandPaint *paint, const BwBandStrip *strip, int column)
{
  double u = strip->left[(column - 1) * strip->stride];
  return bw_band_paint_x (paint, u + strip->shift - strip->extra);
}

static double
right_of (const BwBandPaint *paint, const BwBandStrip *strip, int column)
{
  double u = strip->right[(column - 1) * strip->stride];
  return bw_band_paint_x (paint, u + strip->shift + strip->extra);
}

static void
emit_run (const BwBandPaint *paint, const BwBandStrip *strip, int low, int high,
          BwBandStripPiece piece, gpointer data)
{
  double left = left_of (paint, strip, low), right = right_of (paint, strip, low);
  double top = bw_band_paint_y (paint, high), bottom = bw_band_paint_y (paint, low - 1);
  graphene_rect_t rect;

  if (right < paint->layout->x || left > paint->layout->x + paint->layout->width)
    return;
  graphene_rect_init (&rect, (float)left, (float)top, (float)(right - left), (float)(bottom - top));
  piece (paint, &rect, data);
}

void
bw_band_each_run (const BwBandPaint *paint, const BwBandStrip *strip, BwBandStripPiece piece,
                  gpointer data)
{
  int first = MIN (paint->range.first_column, paint->layout->columns);
  int last = MAX (paint->range.last_column, first);
  int low = first;
  for (int column = first + 1; column <= last + 1; column++) {
    gboolean same = column <= last && left_of (paint, strip, column) == left_of (paint, strip, low)
                    && right_of (paint, strip, column) == right_of (paint, strip, low);
    if (!same) {
      emit_run (paint, strip, low, column - 1, piece, data);
      low = column;
    }
  }
}

void
bw_band_paint_across (const BwBandPaint *paint, const graphene_rect_t *rect,
                      const GskColorStop *stops, gsize n_stops)
{
  graphene_point_t from = rect->origin;
  graphene_point_t to = GRAPHENE_POINT_INIT (rect->origin.x + rect->size.width, rect->origin.y);
  gtk_snapshot_append_linear_gradient (paint->snapshot, rect, &from, &to, stops, n_stops);
}
