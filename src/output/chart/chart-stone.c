/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seen along the ground from before the bail, or before the join without one: what points to the
 * eye is drawn, its azimuth turned into a place from left to right. */
#include "config.h"

#include "output/chart/chart-stone.h"

#include "core/base/lattice.h"
#include "core/pattern/tint.h"

#include <math.h>

#define AIR_MM 1.0
#define BEADS_MOST 4000 /* on the side that is seen; more are thinned out by whole rows */

typedef struct {
  GArray *shapes;
  BwVec2 to_eye, right; /* units, along the ground */
  double top_mm;        /* height of the tip, with air */
  double left_mm;       /* x of what lies farthest left, with air */
} View;

static double
dot (BwVec2 a, BwVec2 b)
{
  return a.x * b.x + a.y * b.y;
}

static double
screen_x (const View *view, BwVec2 at)
{
  return dot (at, view->right) - view->left_mm;
}

static double
screen_y (const View *view, double z)
{
  return view->top_mm - z;
}

static View
view_of (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  double azimuth = bw_radians (design->bail.style == BW_BAIL_NONE ? design->band.seam_deg
                                                                  : design->bail.at_deg);
  BwVec2 to_eye = { cos (azimuth), sin (azimuth) };
  return (View){ .shapes = g_array_new (FALSE, FALSE, sizeof (BwStoneShape)),
                 .to_eye = to_eye,
                 .right = { -to_eye.y, to_eye.x } };
}

static guint32
mix (guint32 srgb, guint32 other, double share)
{
  guint32 mixed = 0;
  for (int shift = 0; shift <= 16; shift += 8) {
    double a = srgb >> shift & 0xff, b = other >> shift & 0xff;
    mixed |= (guint32)lround (a + share * (b - a)) << shift;
  }
  return mixed;
}

/* A face between two heights: lighter the more it points to the eye. */
static void
add_face (View *view, const BwSection *low, const BwSection *high, int edge)
{
  int before = (edge + low->edges - 1) % low->edges;
  double facing = dot (low->normal[edge], view->to_eye);
  BwStoneShape shape = { .n = 4 };
  BwVec2 corners[4]
      = { low->corner[before], low->corner[edge], high->corner[edge], high->corner[before] };
  if (facing <= 0)
    return;
  for (int i = 0; i < 4; i++) {
    shape.x[i] = screen_x (view, corners[i]);
    shape.y[i] = screen_y (view, i < 2 ? low->z_mm : high->z_mm);
  }
  shape.srgb = mix (bw_tint_srgb (BW_TINT_STONE, FALSE), bw_tint_srgb (BW_TINT_SHEET, FALSE),
                    0.25 + 0.5 * facing);
  g_array_append_val (view->shapes, shape);
  for (int i = 1; i < 4; i += 2) {
    BwStoneShape line = { .n = 2, .is_line = TRUE, .srgb = bw_tint_srgb (BW_TINT_HAIR, FALSE) };
    line.x[0] = shape.x[i];
    line.y[0] = shape.y[i];
    line.x[1] = shape.x[(i + 1) % 4];
    line.y[1] = shape.y[(i + 1) % 4];
    g_array_append_val (view->shapes, line);
  }
}

static void
add_stone (View *view, const BwStone *stone, const double *heights, int n)
{
  for (int i = 0; i + 1 < n; i++) {
    BwSection low, high;
    if (!(heights[i + 1] > heights[i]))
      continue;
    bw_section_init (&low, stone, heights[i]);
    bw_section_init (&high, stone, heights[i + 1]);
    for (int edge = 0; edge < MIN (low.edges, high.edges); edge++)
      add_face (view, &low, &high, edge);
  }
}

static void
add_bead (View *view, BwPlace place, guint32 srgb, double across, double along)
{
  double facing = dot (place.normal, view->to_eye);
  double half = across / 2 * MAX (facing, 0.12);
  if (facing <= 0)
    return;
  double x = screen_x (view, (BwVec2){ place.at.x, place.at.y });
  double y = screen_y (view, place.at.z);
  BwStoneShape shape = { .n = 4, .srgb = mix (srgb, 0, 0.25 * (1 - facing)) };
  for (int i = 0; i < 4; i++) {
    shape.x[i] = x + (i == 1 || i == 2 ? half : -half);
    shape.y[i] = y + (i < 2 ? -along / 2 : along / 2);
  }
  g_array_append_val (view->shapes, shape);
}

static void
add_beads (View *view, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwDrawing *drawing = bw_project_get_drawing (project);
  const BwTray *tray = bw_project_get_tray (project);
  const BwPlaces *places = bw_project_places (project);
  int columns = design->band.columns, rows = design->band.rows;
  int step = 2 * MAX (1, rows * columns / 4 / BEADS_MOST) - 1;
  for (int row = 1; row <= rows; row += row % 2 ? 1 : step)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      add_bead (view, bw_places_get (places, row, column),
                tray->colour[bw_drawing_get (drawing, row, column)].srgb,
                0.94 * design->gauge.pitch_mm * step, 0.94 * design->gauge.column_mm);
    }
}

/* How far left and right anything reaches at these heights. */
static double
reach (const View *view, BwProject *project, const double *heights, int n)
{
  double most = 0;
  for (int i = 0; i < n; i++) {
    BwSection section;
    bw_section_init (&section, bw_project_stone (project), heights[i]);
    for (int k = 0; k < section.edges; k++)
      most = MAX (most, fabs (dot (section.corner[k], view->right)));
  }
  const BwDesign *design = bw_project_get_design (project);
  return most + design->bead.diameter_mm + bw_project_mid_ring (project)->rho_mm + AIR_MM;
}

GArray *
bw_chart_stone (BwProject *project, double *width_mm, double *height_mm)
{
  const BwStoneMeasures *measures = &bw_project_get_design (project)->stone;
  const BwStone *stone = bw_project_stone (project);
  double base = measures->base == BW_BASE_POINT ? stone->base_shoulder_mm : 0;
  double heights[] = { 0, base, stone->shoulder_mm, measures->length_mm };
  View view = view_of (project);
  double most = reach (&view, project, heights, G_N_ELEMENTS (heights));
  view.left_mm = -most;
  view.top_mm = measures->length_mm + AIR_MM;
  add_stone (&view, stone, heights, G_N_ELEMENTS (heights));
  add_beads (&view, project);
  *width_mm = 2 * most;
  *height_mm = measures->length_mm + 2 * AIR_MM;
  return view.shapes;
}

static void
set_colour (cairo_t *cr, guint32 srgb)
{
  cairo_set_source_rgb (cr, (srgb >> 16 & 0xff) / 255.0, (srgb >> 8 & 0xff) / 255.0,
                        (srgb & 0xff) / 255.0);
}

void
bw_chart_stone_draw (const GArray *shapes, cairo_t *cr, double scale)
{
  for (guint i = 0; i < shapes->len; i++) {
    const BwStoneShape *shape = &g_array_index (shapes, BwStoneShape, i);
    set_colour (cr, shape->srgb);
    for (int k = 0; k < shape->n; k++)
      cairo_line_to (cr, shape->x[k] * scale, shape->y[k] * scale);
    if (shape->is_line) {
      cairo_set_line_width (cr, 0.6);
      cairo_stroke (cr);
    } else {
      cairo_fill (cr);
    }
  }
}
