/* SPDX-License-Identifier: GPL-3.0-or-later */
/* It lies over everything, as it does in the hand: a slender blade with a light seam, so that it
 * shows on stone and beads alike, blunt at the eye and pointed where it goes. */
#include "preview/picture/played-needle.h"

#include "core/pattern/tint.h"
#include "preview/picture/projection.h"
#include "preview/scene/played.h"

#define LEAST_PIXELS 1.6 /* half the width at the eye */
#define SLIM 0.035       /* the same, in its length */
#define SHOULDER 0.55    /* share of its length that is not yet the point */
#define HIDDEN 0.35      /* how much shows through the stone */

/* Blade from (x0, y0), half so wide, to the point at (x1, y1). */
static void
blade_path (cairo_t *cr, double x0, double y0, double x1, double y1, double half)
{
  double dx = x1 - x0, dy = y1 - y0, length = MAX (hypot (dx, dy), 1e-6);
  double ax = -dy / length * half, ay = dx / length * half;
  double sx = x0 + SHOULDER * dx, sy = y0 + SHOULDER * dy;
  cairo_new_path (cr);
  cairo_move_to (cr, x0 + ax, y0 + ay);
  cairo_line_to (cr, sx + ax, sy + ay);
  cairo_line_to (cr, x1, y1);
  cairo_line_to (cr, sx - ax, sy - ay);
  cairo_line_to (cr, x0 - ax, y0 - ay);
  cairo_close_path (cr);
}

void
bw_played_needle_paint (cairo_t *cr, const BwScene *scene, BwCamera camera, guint layers, int width,
                        int height)
{
  BwSceneLine needle;
  BwPainter p;
  double x0, y0, x1, y1;
  if (!bw_played_needle (scene, &needle))
    return;
  bw_projection_begin (&p, scene, camera, layers, BW_LIGHT_DAY, width, height);
  if (!bw_eye_project (&p.eye, needle.from, width, height, &x0, &y0)
      || !bw_eye_project (&p.eye, needle.to, width, height, &x1, &y1))
    return;
  gboolean hidden = (layers & BW_LAYER_STONE) && bw_painter_behind_stone (&p, needle.from);
  double shows = hidden ? HIDDEN : 1, half = MAX (SLIM * hypot (x1 - x0, y1 - y0), LEAST_PIXELS);
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  blade_path (cr, x0, y0, x1, y1, half);
  cairo_set_line_width (cr, half);
  cairo_set_source_rgba (cr, BW_ON_PAPER (CARD), 0.85 * shows);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgba (cr, BW_ON_PAPER (INK), 0.95 * shows);
  cairo_fill (cr);
  cairo_restore (cr);
}
