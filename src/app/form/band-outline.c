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
see (BwProject *project, BwPlace place, int row, int column, double azimuth_deg)
{
  const BwTray *tray = bw_project_shown_tray (project);
  int colour = bw_drawing_get (bw_project_shown_drawing (project), row, column);
  double s = sin (bw_radians (azimuth_deg)), c = cos (bw_radians (azimuth_deg));
  return (Seen){ .x = bw_outline_x (bw_vec2 (place.at.x, place.at.y), azimuth_deg),
                 .z = place.at.z,
                 .depth = place.at.x * s - place.at.y * c,
                 .facing = place.normal.x * s - place.normal.y * c,
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

/* What a recording of so many strokes takes is far more than the picture of them. */
#define RECORDED_MOST 4000
/* Pixels of a screen may be twice as fine as those that are drawn for. */
#define FINER 2
#define IMAGE_MOST 4096.0 /* pixels a side */

typedef struct {
  double w, h, line_mm;
} Pencil;

static void
draw_beads (cairo_t *cr, const GArray *seen, const Pencil *pencil)
{
  cairo_set_line_width (cr, pencil->line_mm);
  for (guint i = 0; i < seen->len; i++) {
    const Seen *bead = &g_array_index (seen, Seen, i);
    cairo_rectangle (cr, bead->x - pencil->w / 2, bead->z - pencil->h / 2, pencil->w, pencil->h);
    set_shaded (cr, bead->srgb, 0.72 + 0.28 * MAX (bead->facing, 0));
    cairo_fill_preserve (cr);
    set_shaded (cr, bead->srgb, 0.5);
    cairo_stroke (cr);
  }
}

typedef struct {
  double x0, z0, x1, z1;
} Extent;

static Extent
extent_of (const GArray *seen, const Pencil *pencil)
{
  Extent all = { INFINITY, INFINITY, -INFINITY, -INFINITY };
  for (guint i = 0; i < seen->len; i++) {
    const Seen *bead = &g_array_index (seen, Seen, i);
    all = (Extent){ MIN (all.x0, bead->x - pencil->w), MIN (all.z0, bead->z - pencil->h),
                    MAX (all.x1, bead->x + pencil->w), MAX (all.z1, bead->z + pencil->h) };
  }
  return all;
}

/* The same as one picture, as fine as the device and finer. */
static void
draw_picture (cairo_t *cr, const GArray *seen, const Pencil *pencil)
{
  Extent all = extent_of (seen, pencil);
  double wide = all.x1 - all.x0, high = all.z1 - all.z0, dx = 1, dy = 0;
  cairo_user_to_device_distance (cr, &dx, &dy);
  double scale = MIN (FINER * hypot (dx, dy), IMAGE_MOST / MAX (wide, high));
  cairo_surface_t *image = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, (int)ceil (wide * scale), (int)ceil (high * scale));
  cairo_t *on_image = cairo_create (image);
  cairo_scale (on_image, scale, scale);
  cairo_translate (on_image, -all.x0, -all.z0);
  draw_beads (on_image, seen, pencil);
  cairo_destroy (on_image);
  cairo_save (cr);
  cairo_translate (cr, all.x0, all.z0);
  cairo_scale (cr, 1 / scale, 1 / scale);
  cairo_set_source_surface (cr, image, 0, 0);
  cairo_paint (cr);
  cairo_restore (cr);
  cairo_surface_destroy (image);
}

void
bw_outline_band (cairo_t *cr, BwProject *project, double azimuth_deg, double line_mm)
{
  const BwDesign *design = bw_project_get_design (project);
  const Pencil pencil = { design->bead.diameter_mm,
                          MIN (design->bead.length_mm, design->gauge.column_mm), line_mm };
  g_autoptr (GArray) seen = all_seen (project, azimuth_deg);
  if (seen->len > RECORDED_MOST)
    draw_picture (cr, seen, &pencil);
  else
    draw_beads (cr, seen, &pencil);
}
