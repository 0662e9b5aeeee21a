/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A parallel projection on paper, for sketches with measures on them; the stone view is for looks.
 */
#include "config.h"

#include "app/form/stone-outline.h"
#include "core/stone/section.h"

#include <glib.h>

double
bw_outline_x (BwVec2 at, double azimuth_deg)
{
  double azimuth = bw_radians (azimuth_deg);
  return at.x * cos (azimuth) + at.y * sin (azimuth);
}

/* The viewer stands a quarter turn clockwise from what points to the right. */
static gboolean
faces_viewer (const BwStone *stone, int polygon, double azimuth_deg)
{
  BwVec3 normal;
  double distance, azimuth = bw_radians (azimuth_deg);
  bw_stone_plane (stone, polygon, &normal, &distance);
  return normal.x * sin (azimuth) - normal.y * cos (azimuth) > 1e-9;
}

void
bw_outline_stone_path (cairo_t *cr, const BwStone *stone, double azimuth_deg)
{
  for (int f = 0; f < stone->n_polygons; f++) {
    int corners[BW_FACES_MAX];
    if (!faces_viewer (stone, f, azimuth_deg))
      continue;
    int n = bw_stone_polygon (stone, f, corners, NULL, NULL);
    for (int i = 0; i < n; i++) {
      BwVec3 at = stone->vertex[corners[i]];
      double x = bw_outline_x (bw_vec2 (at.x, at.y), azimuth_deg);
      if (i == 0)
        cairo_move_to (cr, x, at.z);
      else
        cairo_line_to (cr, x, at.z);
    }
    cairo_close_path (cr);
  }
}

void
bw_outline_extent (const BwStone *stone, double z_mm, double azimuth_deg, double grow_mm,
                   double *left_mm, double *right_mm)
{
  BwSection section;
  bw_section_init (&section, stone, z_mm);
  *left_mm = G_MAXDOUBLE;
  *right_mm = -G_MAXDOUBLE;
  for (int i = 0; i < section.edges; i++) {
    double x = bw_outline_x (section.corner[i], azimuth_deg);
    *left_mm = MIN (*left_mm, x - grow_mm);
    *right_mm = MAX (*right_mm, x + grow_mm);
  }
}

double
bw_outline_reach (const BwStone *stone, double azimuth_deg)
{
  double reach = 0;
  for (int i = 0; i < stone->n_vertices; i++) {
    BwVec2 at = { stone->vertex[i].x, stone->vertex[i].y };
    reach = MAX (reach, fabs (bw_outline_x (at, azimuth_deg)));
  }
  return reach;
}
