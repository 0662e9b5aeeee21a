/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cord and ring in the drawn projection: short pieces, each a four-sided patch shaded across, so
 * that the painter can put them between the beads they pass. */
#include "preview/picture/painter-tube.h"

#define OVERLAP_PIXELS 0.6 /* of a piece onto its neighbours, so that no seam shows */

static const float cord_colour[3] = { 0.125f, 0.070f, 0.040f };
static const float metal_colour[3] = { 0.62f, 0.61f, 0.59f };

static int
pieces_of (const BwSceneTube *tube)
{
  return MAX ((int)tube->stations->len - 1, 0);
}

int
bw_painter_n_tubes (const BwPainter *p)
{
  return pieces_of (&p->scene->cord) + pieces_of (&p->scene->ring);
}

static const BwSceneTube *
tube_of (const BwPainter *p, int piece, const BwSceneStation **station)
{
  int n_cord = pieces_of (&p->scene->cord);
  const BwSceneTube *tube = piece < n_cord ? &p->scene->cord : &p->scene->ring;
  *station
      = &g_array_index (tube->stations, BwSceneStation, piece < n_cord ? piece : piece - n_cord);
  return tube;
}

void
bw_painter_tube_middle (const BwPainter *p, int piece, float at[3])
{
  const BwSceneStation *station;
  tube_of (p, piece, &station);
  for (int k = 0; k < 3; k++)
    at[k] = (station[0].at[k] + station[1].at[k]) / 2;
}

/* A station as it falls on the paper. */
typedef struct {
  double x, y, radius;
  double across_x, across_y; /* unit, across the tube on the paper */
} Seen;

static gboolean
see (const BwPainter *p, const BwSceneTube *tube, const BwSceneStation *station, Seen *seen)
{
  double way[3], depth = 0;
  if (!bw_eye_project (&p->eye, station->at, p->width, p->height, &seen->x, &seen->y))
    return FALSE;
  for (int i = 0; i < 3; i++)
    depth += (double)((p->eye.eye[i] - station->at[i]) * p->eye.view[i][2]);
  seen->radius = (double)tube->radius / (depth * (double)p->eye.pixel);
  bw_painter_turn (p, station->tangent, way);
  double flat = hypot (way[0], way[1]);
  seen->across_x = flat > 1e-6 ? way[1] / flat : 1;
  seen->across_y = flat > 1e-6 ? way[0] / flat : 0;
  return TRUE;
}

static void
patch_path (cairo_t *cr, const Seen *a, const Seen *b)
{
  double dx = b->x - a->x, dy = b->y - a->y, size = MAX (hypot (dx, dy), 1e-6);
  dx *= OVERLAP_PIXELS / size;
  dy *= OVERLAP_PIXELS / size;
  cairo_new_path (cr);
  cairo_move_to (cr, a->x - dx + a->across_x * a->radius, a->y - dy + a->across_y * a->radius);
  cairo_line_to (cr, b->x + dx + b->across_x * b->radius, b->y + dy + b->across_y * b->radius);
  cairo_line_to (cr, b->x + dx - b->across_x * b->radius, b->y + dy - b->across_y * b->radius);
  cairo_line_to (cr, a->x - dx - a->across_x * a->radius, a->y - dy - a->across_y * a->radius);
  cairo_close_path (cr);
}

/* Light across the tube, from one side to the other. */
static cairo_pattern_t *
across (const BwPainter *p, const Seen *a, gboolean metal, double shown)
{
  cairo_pattern_t *pattern = cairo_pattern_create_linear (
      a->x + a->across_x * a->radius, a->y + a->across_y * a->radius,
      a->x - a->across_x * a->radius, a->y - a->across_y * a->radius);
  for (int i = 0; i <= 8; i++) {
    double s = 1 - i / 4.0, rgb[3];
    const double n[3] = { s * a->across_x, -s * a->across_y, sqrt (1 - s * s) };
    double key = MAX (n[0] * p->key[0] + n[1] * p->key[1] + n[2] * p->key[2], 0);
    double gleam = metal ? 0.7 * pow (key, 14) : 0.03 * pow (key, 6);
    bw_painter_shade (p, metal ? metal_colour : cord_colour,
                      bw_painter_falling (p, n) * (metal ? 0.75 : 1.1), gleam, rgb);
    cairo_pattern_add_color_stop_rgba (pattern, i / 8.0, rgb[0], rgb[1], rgb[2], shown);
  }
  return pattern;
}

void
bw_painter_paint_tube (const BwPainter *p, int piece)
{
  const BwSceneStation *station;
  const BwSceneTube *tube = tube_of (p, piece, &station);
  Seen a, b;
  if (!see (p, tube, &station[0], &a) || !see (p, tube, &station[1], &b))
    return;
  double shown = (double)(station[0].shown + station[1].shown) / 2;
  cairo_pattern_t *pattern = across (p, &a, tube == &p->scene->ring, shown);
  patch_path (p->cr, &a, &b);
  cairo_set_source (p->cr, pattern);
  cairo_pattern_destroy (pattern);
  cairo_fill (p->cr);
}
