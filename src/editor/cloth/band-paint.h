/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One frame of the band: what every part of the drawing needs to know, and those parts. */
#pragma once

#include "editor/cloth/band-faces.h"
#include "editor/cloth/band-layout.h"
#include "editor/cloth/band-style.h"
#include "editor/cloth/band-tiles.h"
#include "project/session.h"

typedef struct {
  GtkSnapshot *snapshot;
  BwSession *session;
  const BwBandLayout *layout;
  const BwBandStyle *style;
  const BwBandFaces *faces;
  PangoLayout *text;
  GdkRGBA stone_light, stone_dark; /* the stone's faces turned to the light and away */
  BwBandRange range;
  double scale;           /* screen pixels to a logical pixel */
  double widget_height;   /* the rulers' */
  const BwBeadAt *marked; /* the bead the rulers point out; NULL for none */
} BwBandPaint;

/* On the nearest whole pixel of the screen. */
static inline double
bw_band_snap (const BwBandPaint *paint, double at)
{
  return floor (at * paint->scale + 0.5) / paint->scale;
}

static inline double
bw_band_paint_x (const BwBandPaint *paint, double u)
{
  return bw_band_snap (paint, bw_band_layout_x (paint->layout, u));
}

static inline double
bw_band_paint_y (const BwBandPaint *paint, double v)
{
  return bw_band_snap (paint, bw_band_layout_y (paint->layout, v));
}

void bw_band_paint_rect (const BwBandPaint *paint, double x, double y, double width, double height,
                         GdkRGBA colour);
/* Text centred on x, its top at y. */
void bw_band_paint_text (const BwBandPaint *paint, const char *words, double x, double y,
                         GdkRGBA colour);
double bw_band_paint_text_width (const BwBandPaint *paint, const char *words);
/* Text on a rounded label centred on x, its top at y. */
void bw_band_paint_label (const BwBandPaint *paint, const char *words, double x, double y,
                          GdkRGBA ground, GdkRGBA ink);

/* The rectangle of a bead's brick. */
graphene_rect_t bw_band_paint_brick (const BwBandPaint *paint, int long_row, int column);

/* A ring round a rectangle, `out` pixels outside it. */
void bw_band_paint_ring (const BwBandPaint *paint, graphene_rect_t rect, double out,
                         double thickness, GdkRGBA colour, float radius);

/* A ring round a bead in every image that shows, in two tones, so that it shows on every colour. */
void bw_band_paint_marked (const BwBandPaint *paint, BwBeadAt bead, GdkRGBA colour,
                           double thickness);

/* Room the stone keeps above and below the band. */
double bw_band_margin_px (const BwBandStyle *style);

/* band-beads.c: what the tiles show from now on, of the size the layout has; then one image of it,
 * paler by how much of a ghost it is. */
void bw_band_beads_take (const BwBandPaint *paint, BwBandTiles *tiles, BwProject *project,
                         const BwDrawing *drawing, gboolean letters);
/* The same of a drawing that is not the project's own, without letters; beads as in
 * bw_band_tiles_set_beads (). */
void bw_band_beads_take_set (const BwBandPaint *paint, BwBandTiles *tiles, BwProject *project,
                             const BwDrawing *drawing, const GArray *beads);
void bw_band_paint_beads (const BwBandPaint *paint, BwBandTiles *tiles, int image,
                          double ghost_opacity);

/* band-stone.c: the stone under the beads, in its mineral's colour. */
void bw_band_stone_tints (BwBandPaint *paint, const char *mineral);
void bw_band_paint_stone (const BwBandPaint *paint);

/* band-marks.c: what lies over them. */
void bw_band_paint_edges (const BwBandPaint *paint);
void bw_band_paint_bail (const BwBandPaint *paint);
void bw_band_paint_join (const BwBandPaint *paint);
void bw_band_paint_face_names (const BwBandPaint *paint);

/* band-rulers.c: column numbers on the left, row numbers and the needle's way below. */
double bw_band_ruler_width (const BwBandStyle *style);
double bw_band_ruler_height (const BwBandStyle *style);
void bw_band_paint_rulers (const BwBandPaint *paint);
