/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead's hole runs along the axis, so it is a rectangle from every side; what is turned away is
 * in shade, as a pencil would have it. */
#include "config.h"

#include "app/form/band-outline.h"
#include "app/form/stone-outline.h"
#include "core/base/lattice.h"

#include <math.h>

/* One bead as seen. */
typedef struct {
  double x, z;
  double depth;  /* towards the viewer */
  double facing; /* −1..1: turned away to turned to the viewer */
  guint32 srgb;
} Seen;

static Seen
see (BwProject *project, const BwPlace *place, int row, int column, double azimuth_deg)
{
  const BwTray *tray = bw_project_shown_tray (project);
  int colour = bw_drawing_get (bw_project_shown_drawing (project), row, column);
  double s = sin (bw_radians (azimuth_deg)), c = cos (bw_radians (azimuth_deg));
  return (Seen){ .x = bw_outline_x (bw_vec2 (place->at.x, place->at.y), azimuth_deg),
                 .z = place->at.z,
                 .depth = place->at.x * s - place->at.y * c,
                 .facing = place->normal.x * s - place->normal.y * c,
                 .srgb = tray->colour[MIN (colour, tray->n_colours - 1)].srgb };
}

static int
by_depth (gconstpointer a, gconstpointer b)
{
  double difference = ((const Seen *)a)->depth - ((const Seen *)b)->depth;
  return (difference > 0) - (difference < 0);
}

/* Of BwSeen, the farthest first. */
static GArray *
all_seen (BwProject *project, double azimuth_deg)
{
  const BwPlaces *places = bw_project_places (project);
  GArray *seen = g_array_new (FALSE, FALSE, sizeof (Seen));
  for (int row = 1; row <= places->rows; row++)
    for (int i = 0; i < places->columns / 2; i++) {
      int column = bw_lattice_column (row, i);
      Seen bead = see (project, bw_places_get (places, row, column), row, column, azimuth_deg);
      if (bead.facing > -0.25)
        g_array_append_val (seen, bead);
    }
  g_array_sort (seen, by_depth);
  return seen;
}

static void
set_shaded (cairo_t *cr, guint32 srgb, double light)
{
  cairo_set_source_rgb (cr, light * ((srgb >> 16) & 255) / 255, light * ((srgb >> 8) & 255) / 255,
                        light * (srgb & 255) / 255);
}

void
bw_outline_band (cairo_t *cr, BwProject *project, double azimuth_deg, double line_mm)
{
  const BwDesign *design = bw_project_get_design (project);
  double w = design->bead.diameter_mm;
  double h = MIN (design->bead.length_mm, design->gauge.column_mm);
  g_autoptr (GArray) seen = all_seen (project, azimuth_deg);
  cairo_set_line_width (cr, line_mm);
  for (guint i = 0; i < seen->len; i++) {
    const Seen *bead = &g_array_index (seen, Seen, i);
    cairo_rectangle (cr, bead->x - w / 2, bead->z - h / 2, w, h);
    set_shaded (cr, bead->srgb, 0.72 + 0.28 * MAX (bead->facing, 0));
    cairo_fill_preserve (cr);
    set_shaded (cr, bead->srgb, 0.5);
    cairo_stroke (cr);
  }
}
