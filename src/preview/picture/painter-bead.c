/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/picture/painter-bead.h"

#include "core/pattern/tint.h"
#include "preview/scene/scene-bead.h"

#define OUTLINE_PIXELS 9
#define OUTLINE_WIDTH 0.05 /* of the radius */
/* Seen from the side an end is still a little round. Of the radius. */
#define NARROWEST_END 0.12

static double
shine_of (BwFinish finish)
{
  const double shine[BW_N_FINISHES] = { 0.16, 0.0, 0.30, 0.05, 0.24, 0.34, 0.55, 0.40, 0.44, 0.36 };
  return shine[finish];
}

/* A bead lies along x here, round about y; the units are pixels. */
typedef struct {
  double x, y, angle;       /* middle; where the axis points on the paper */
  double half, radius, end; /* half length as seen, radius, half width of the end's ellipse */
  double axis[3];           /* in the eye's space */
} Seen;

static gboolean
see (const BwPainter *p, const BwSceneBead *bead, Seen *seen)
{
  if (!bw_eye_project (&p->eye, bead->at, p->width, p->height, &seen->x, &seen->y))
    return FALSE;
  double depth = 0;
  for (int i = 0; i < 3; i++)
    depth += (double)((p->eye.eye[i] - bead->at[i]) * p->eye.view[i][2]);
  double scale = 1 / (depth * (double)p->eye.pixel);
  float axis[3];
  bw_bead_axis (bead, axis);
  bw_painter_turn (p, axis, seen->axis);
  double flat = hypot (seen->axis[0], seen->axis[1]);
  seen->angle = flat > 1e-6 ? atan2 (-seen->axis[1], seen->axis[0]) : 0;
  seen->half = (double)p->scene->bead_half_length * flat * scale;
  seen->radius = (double)p->scene->bead_radius * scale;
  seen->end = seen->radius * fabs (seen->axis[2]);
  return TRUE;
}

static void
bead_path (cairo_t *cr, const Seen *seen)
{
  cairo_new_path (cr);
  for (int side = 1; side >= -1; side -= 2) {
    cairo_save (cr);
    cairo_translate (cr, side * seen->half, 0);
    cairo_scale (cr, MAX (seen->end, NARROWEST_END * seen->radius) * side, seen->radius * side);
    cairo_arc (cr, 0, 0, 1, -G_PI / 2, G_PI / 2);
    cairo_restore (cr);
  }
  cairo_close_path (cr);
}

/* Light across the bead: the wall bends from one side to the other. */
static cairo_pattern_t *
across (const BwPainter *p, const BwSceneBead *bead, const Seen *seen)
{
  cairo_pattern_t *pattern = cairo_pattern_create_linear (0, -seen->radius, 0, seen->radius);
  double side[3] = { sin (seen->angle), cos (seen->angle), 0 };
  double toward[3] = { -seen->axis[0] * seen->axis[2], -seen->axis[1] * seen->axis[2],
                       1 - seen->axis[2] * seen->axis[2] };
  double size = MAX (sqrt (bw_painter_dot (toward, toward)), 1e-6);
  double shine = shine_of ((BwFinish)bead->finish);
  float away[3], light[3];
  double out[3];
  bw_bead_out (bead, away);
  bw_bead_light (bead, light);
  bw_painter_turn (p, away, out);
  for (int i = 0; i <= 6; i++) {
    double s = 1 - i / 3.0, n[3], rgb[3];
    for (int k = 0; k < 3; k++)
      n[k] = s * side[k] + sqrt (1 - s * s) * toward[k] / size;
    double open = 0.35 + 0.65 * CLAMP (0.4 + 0.8 * bw_painter_dot (n, out), 0, 1);
    double gleam = pow (MAX (bw_painter_dot (n, p->key), 0), 12) * shine;
    bw_painter_shade (p, light, bw_painter_falling (p, n) * open * 1.05, gleam * open, rgb);
    cairo_pattern_add_color_stop_rgb (pattern, i / 6.0, rgb[0], rgb[1], rgb[2]);
  }
  return pattern;
}

static void
paint_end (const BwPainter *p, const BwSceneBead *bead, const Seen *seen)
{
  double side = seen->axis[2] > 0 ? 1 : -1, rgb[3];
  double hole = (double)(p->scene->hole_radius / p->scene->bead_radius);
  double n[3] = { side * seen->axis[0], side * seen->axis[1], side * seen->axis[2] };
  float light[3];
  bw_bead_light (bead, light);
  bw_painter_shade (p, light, bw_painter_falling (p, n) * 0.9, 0, rgb);
  cairo_translate (p->cr, side * seen->half, 0);
  cairo_scale (p->cr, seen->end, seen->radius);
  cairo_arc (p->cr, 0, 0, 0.94, 0, 2 * G_PI);
  cairo_set_source_rgb (p->cr, rgb[0], rgb[1], rgb[2]);
  cairo_fill (p->cr);
  cairo_arc (p->cr, 0, 0, hole, 0, 2 * G_PI);
  cairo_set_source_rgb (p->cr, rgb[0] * 0.25, rgb[1] * 0.25, rgb[2] * 0.25);
  cairo_fill (p->cr);
}

void
bw_painter_paint_bead (const BwPainter *p, int index)
{
  const BwSceneBead *bead = &g_array_index (p->scene->beads, BwSceneBead, index);
  Seen seen;
  if (!see (p, bead, &seen))
    return;
  cairo_save (p->cr);
  cairo_translate (p->cr, seen.x, seen.y);
  cairo_rotate (p->cr, seen.angle);
  bead_path (p->cr, &seen);
  cairo_pattern_t *pattern = across (p, bead, &seen);
  cairo_set_source (p->cr, pattern);
  cairo_pattern_destroy (pattern);
  cairo_fill_preserve (p->cr);
  /* An outline helps large beads apart; among small ones it is half the work and hardly seen. */
  if (seen.radius > OUTLINE_PIXELS) {
    cairo_set_source_rgba (p->cr, BW_ON_PAPER (SHADOW), 0.35);
    cairo_set_line_width (p->cr, seen.radius * OUTLINE_WIDTH);
    cairo_stroke (p->cr);
  }
  cairo_new_path (p->cr);
  if (seen.end > 1.5)
    paint_end (p, bead, &seen);
  cairo_restore (p->cr);
}

gboolean
bw_painter_bead_box (const BwPainter *p, int index, cairo_rectangle_int_t *box)
{
  Seen seen;
  *box = (cairo_rectangle_int_t){ 0 };
  if (!see (p, &g_array_index (p->scene->beads, BwSceneBead, index), &seen))
    return FALSE;
  double along = seen.half + MAX (seen.end, NARROWEST_END * seen.radius);
  double c = fabs (cos (seen.angle)), s = fabs (sin (seen.angle));
  double reach = 1 + OUTLINE_WIDTH * seen.radius / 2; /* outline, and the softened edge */
  double wide = c * along + s * seen.radius + reach, high = s * along + c * seen.radius + reach;
  box->x = (int)floor (CLAMP (seen.x - wide, 0, p->width));
  box->y = (int)floor (CLAMP (seen.y - high, 0, p->height));
  box->width = (int)ceil (CLAMP (seen.x + wide, 0, p->width)) - box->x;
  box->height = (int)ceil (CLAMP (seen.y + high, 0, p->height)) - box->y;
  return box->width > 0 && box->height > 0;
}

void
bw_painter_paint_hover (const BwPainter *p, int hover)
{
  Seen seen;
  if (hover < 0 || hover >= (int)p->scene->beads->len
      || !see (p, &g_array_index (p->scene->beads, BwSceneBead, hover), &seen))
    return;
  cairo_save (p->cr);
  cairo_translate (p->cr, seen.x, seen.y);
  cairo_rotate (p->cr, seen.angle);
  bead_path (p->cr, &seen);
  cairo_set_source_rgb (p->cr, BW_ON_PAPER (SHADOW));
  cairo_set_line_width (p->cr, 5);
  cairo_stroke_preserve (p->cr);
  cairo_set_source_rgb (p->cr, BW_ON_PAPER (GLEAM));
  cairo_set_line_width (p->cr, 2.5);
  cairo_stroke (p->cr);
  cairo_restore (p->cr);
}
