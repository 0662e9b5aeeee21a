/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A painter's picture of the same scene. What the stone hides is painted first and shows faintly
 * through it, as it does through the real one; the rest is painted far to near on top. */
#include "preview/picture/projection.h"

#include "core/pattern/colour.h"
#include "core/pattern/tint.h"
#include "preview/gl/gl-frame.h"
#include "preview/picture/painter-bead.h"
#include "preview/picture/painter-tube.h"
#include "preview/scene/played.h"
#include "preview/scene/scene-thread.h"
#include <string.h>

static gboolean
point (const BwPainter *p, const float at[3], double *x, double *y)
{
  return bw_eye_project (&p->eye, at, p->width, p->height, x, y);
}

static gboolean
faces_eye (const BwPainter *p, const BwSceneVertex *vertex)
{
  double facing = 0;
  for (int i = 0; i < 3; i++)
    facing += (double)(vertex->normal[i] * (p->eye.eye[i] - vertex->at[i]));
  return facing > 0;
}

static void
triangle_path (const BwPainter *p, const BwSceneVertex *corner)
{
  for (int k = 0; k < 3; k++) {
    double x, y;
    if (point (p, corner[k].at, &x, &y))
      cairo_line_to (p->cr, x, y);
  }
  cairo_close_path (p->cr);
}

/* One side of the stone: the faces that look away, or those that look at the viewer. */
static void
paint_stone (const BwPainter *p, gboolean front)
{
  const float glass[3] = { 0.62f, 0.68f, 0.72f };
  const GArray *stone = p->scene->stone;
  for (guint i = 0; i + 2 < stone->len;) {
    const BwSceneVertex *first = &g_array_index (stone, BwSceneVertex, i);
    double n[3], rgb[3];
    gboolean wanted = faces_eye (p, first) == front;
    bw_painter_turn (p, first->normal, n);
    /* A face is a fan of triangles with one normal: painted as one, so that no seam shows. */
    for (; i + 2 < stone->len; i += 3) {
      const BwSceneVertex *corner = &g_array_index (stone, BwSceneVertex, i);
      if (memcmp (corner->normal, first->normal, sizeof corner->normal))
        break;
      if (wanted)
        triangle_path (p, corner);
    }
    if (!wanted)
      continue;
    double edge_on = 1 - MIN (fabs (n[2]), 1);
    bw_painter_shade (p, glass, 0.05 + 1.35 * bw_painter_falling (p, n), 0.12 * edge_on * edge_on,
                      rgb);
    cairo_set_source_rgba (p->cr, rgb[0], rgb[1], rgb[2], front ? 0.66 + 0.2 * edge_on : 0.5);
    cairo_fill (p->cr);
  }
}

static gboolean
line_path (const BwPainter *p, const BwSceneLine *line)
{
  double x0, y0, x1, y1;
  if (!point (p, line->from, &x0, &y0) || !point (p, line->to, &x1, &y1))
    return FALSE;
  cairo_move_to (p->cr, x0, y0);
  cairo_line_to (p->cr, x1, y1);
  return TRUE;
}

/* As the eye takes it: sRGB. */
static void
edge_colour (const BwPainter *p, double rgb[3])
{
  float light[3];
  bw_scene_edge_light (p->scene, light);
  for (int i = 0; i < 3; i++)
    rgb[i] = bw_colour_encode ((double)light[i]);
}

/* Seen through the front of the stone. */
static void
paint_needles (const BwPainter *p)
{
  const BwNature *nature = &p->scene->nature;
  double away = (double)glm_vec3_distance ((float *)p->eye.eye, (float *)p->scene->focus);
  cairo_set_source_rgba (p->cr, 0.55, 0.40, 0.16, 0.9);
  for (int i = 0; i < nature->n_needles; i++) {
    const BwNeedle *needle = &nature->needle[i];
    BwSceneLine line = { { (float)needle->from.x, (float)needle->from.y, (float)needle->from.z },
                         { (float)needle->to.x, (float)needle->to.y, (float)needle->to.z },
                         1 };
    cairo_set_line_width (p->cr, MAX (2 * needle->radius / ((double)p->eye.pixel * away), 0.6));
    if (line_path (p, &line))
      cairo_stroke (p->cr);
  }
}

/* On a pale ground each edge has a dark seam, lest clear stone melt into it. */
static void
paint_edges (const BwPainter *p)
{
  double wide = MAX (1, MIN (p->width, p->height) / 700.0);
  double rgb[3];
  edge_colour (p, rgb);
  cairo_set_line_cap (p->cr, CAIRO_LINE_CAP_ROUND);
  for (guint i = 0; i < p->scene->stone_edges->len; i++) {
    const BwSceneLine *edge = &g_array_index (p->scene->stone_edges, BwSceneLine, i);
    float middle[3];
    for (int k = 0; k < 3; k++)
      middle[k] = (edge->from[k] + edge->to[k]) / 2;
    if (!line_path (p, edge))
      continue;
    double shows = (double)edge->strength * (bw_painter_behind_stone (p, middle) ? 0.18 : 0.75);
    if (!p->scene->on_dark) {
      cairo_set_line_width (p->cr, 3 * wide);
      cairo_set_source_rgba (p->cr, BW_ON_PAPER (INK), 0.3 * shows);
      cairo_stroke_preserve (p->cr);
    }
    cairo_set_line_width (p->cr, wide);
    cairo_set_source_rgba (p->cr, rgb[0], rgb[1], rgb[2], shows);
    cairo_stroke (p->cr);
  }
}

/* TRUE for a piece of the sleeve that the stone stands before: its inner wall, which only shows on
 * the far side, and the far part of its rims. */
static gboolean
lies_behind (const BwPainter *p, const BwSceneVertex *corner)
{
  const float *n = corner->normal;
  float middle[3];
  if (fabsf (n[2]) < 0.5f)
    return n[0] * corner->at[0] + n[1] * corner->at[1] < 0;
  for (int k = 0; k < 3; k++)
    middle[k] = (corner[0].at[k] + corner[1].at[k] + corner[2].at[k]) / 3;
  return bw_painter_behind_stone (p, middle);
}

static void
paint_bed (const BwPainter *p, gboolean behind)
{
  const GArray *bed = p->scene->bed;
  cairo_set_line_width (p->cr, 0.6);
  for (guint i = 0; i + 2 < bed->len; i += 3) {
    const BwSceneVertex *corner = &g_array_index (bed, BwSceneVertex, i);
    double n[3], rgb[3];
    if (!faces_eye (p, corner) || lies_behind (p, corner) != behind)
      continue;
    bw_painter_turn (p, corner->normal, n);
    bw_painter_shade (p, bw_cord_colour, 0.8 * bw_painter_falling (p, n), 0, rgb);
    triangle_path (p, corner);
    cairo_set_source_rgb (p->cr, rgb[0], rgb[1], rgb[2]);
    cairo_fill_preserve (p->cr);
    cairo_stroke (p->cr);
  }
}

static void
thread_path (const BwPainter *p, const GArray *lines)
{
  for (guint i = 0; i < lines->len; i++) {
    const BwSceneLine *line = &g_array_index (lines, BwSceneLine, i);
    if (!bw_painter_behind_stone (p, line->from))
      line_path (p, line);
  }
}

static void
paint_thread (const BwPainter *p)
{
  double away = (double)glm_vec3_distance ((float *)p->eye.eye, (float *)p->scene->focus);
  double width = 2 * (double)p->scene->thread_radius / ((double)p->eye.pixel * away);
  cairo_set_line_width (p->cr, MAX (0.8, width));
  cairo_set_source_rgb (p->cr, 0.80, 0.77, 0.72);
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
  gboolean holes = !(p->layers & BW_LAYER_BAND);
  bw_scene_thread_lines (p->scene, bw_played_holes (p->scene), holes ? lines : NULL, lines);
  thread_path (p, lines);
  cairo_stroke (p->cr);
}

static int
far_first (gconstpointer a, gconstpointer b)
{
  float x = ((const BwDrawnPart *)a)->depth, y = ((const BwDrawnPart *)b)->depth;
  return (x > y) - (x < y);
}

/* TRUE for a bead behind the stone that the bed's far wall covers wholly: its line of sight,
 * however slanted, meets the wall between the bed's edges. */
static gboolean
covered_by_bed (const BwPainter *p, int index)
{
  const BwScene *scene = p->scene;
  const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, index);
  if (index >= scene->n_band || !(p->layers & BW_LAYER_BED)
      || scene->bed_span[1] <= scene->bed_span[0])
    return FALSE;
  /* How far up or down the line of sight moves over the bead and the bed's thickness. */
  float slant
      = fabsf (p->eye.view[2][2]) / MAX (hypotf (p->eye.view[0][2], p->eye.view[1][2]), 1e-3f);
  float room = scene->bead_half_length + 4 * scene->bead_radius * slant + 0.1f * scene->bead_radius;
  return bead->at[2] - room > scene->bed_span[0] && bead->at[2] + room < scene->bed_span[1];
}

static float
depth_of (const BwPainter *p, const float at[3])
{
  float depth = 0;
  for (int k = 0; k < 3; k++)
    depth += at[k] * p->eye.view[k][2];
  return depth;
}

static void
order_tubes (const BwPainter *p, GArray *order, gboolean hidden)
{
  for (int i = 0; i < bw_painter_n_tubes (p) && (p->layers & BW_LAYER_CORD); i++) {
    float middle[3];
    bw_painter_tube_middle (p, i, middle);
    gboolean behind = (p->layers & BW_LAYER_STONE) && bw_painter_behind_stone (p, middle);
    BwDrawnPart entry = { depth_of (p, middle), -1 - i };
    if (behind == hidden)
      g_array_append_val (order, entry);
  }
}

GArray *
bw_projection_parts (const BwPainter *p, gboolean hidden)
{
  GArray *order = g_array_new (FALSE, FALSE, sizeof (BwDrawnPart));
  for (guint i = 0; i < p->scene->beads->len; i++) {
    const BwSceneBead *bead = &g_array_index (p->scene->beads, BwSceneBead, i);
    BwDrawnPart entry = { depth_of (p, bead->at), (int)i };
    if (!bw_played_has (p->scene, (int)i))
      continue;
    gboolean behind = (p->layers & BW_LAYER_STONE) && bw_painter_behind_stone (p, bead->at);
    if (!(p->layers & ((int)i >= p->scene->n_band ? BW_LAYER_BAIL : BW_LAYER_BAND))
        || behind != hidden || (behind && covered_by_bed (p, (int)i)))
      continue;
    g_array_append_val (order, entry);
  }
  order_tubes (p, order, hidden);
  g_array_sort (order, far_first);
  return order;
}

static void
paint_parts (const BwPainter *p, const GArray *order)
{
  for (guint i = 0; i < order->len; i++) {
    int index = g_array_index (order, BwDrawnPart, i).index;
    if (index < 0)
      bw_painter_paint_tube (p, -1 - index);
    else
      bw_painter_paint_bead (p, index);
  }
}

void
bw_projection_paint (const BwPainter *p, const GArray *hidden, const GArray *shown)
{
  gboolean stone = (p->layers & BW_LAYER_STONE) != 0, bed = (p->layers & BW_LAYER_BED) != 0;
  cairo_save (p->cr);
  if (stone)
    paint_stone (p, FALSE);
  paint_parts (p, hidden);
  if (bed)
    paint_bed (p, TRUE);
  if (stone) {
    paint_needles (p);
    paint_stone (p, TRUE);
    paint_edges (p);
  }
  if (bed)
    paint_bed (p, FALSE);
  if (p->layers & BW_LAYER_THREAD)
    paint_thread (p);
  paint_parts (p, shown);
  cairo_restore (p->cr);
}

void
bw_projection_begin (BwPainter *p, const BwScene *scene, BwCamera camera, guint layers,
                     BwLight light, int width, int height)
{
  *p = (BwPainter){
    .scene = scene, .layers = bw_played_layers (scene, layers), .width = width, .height = height
  };
  bw_eye_init (&p->eye, camera, scene, width, height);
  bw_painter_set_light (p, light);
}

void
bw_projection_draw (cairo_t *cr, const BwScene *scene, BwCamera camera, guint layers, BwLight light,
                    int hover, int width, int height)
{
  BwPainter p;
  bw_projection_begin (&p, scene, camera, layers, light, width, height);
  p.cr = cr;
  g_autoptr (GArray) hidden = bw_projection_parts (&p, TRUE);
  g_autoptr (GArray) shown = bw_projection_parts (&p, FALSE);
  bw_projection_paint (&p, hidden, shown);
  bw_painter_paint_hover (&p, hover);
}
