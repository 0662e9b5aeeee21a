/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/bead-figure.h"

#include "app/kit/palette.h"
#include "editor/cloth/bead-picture.h"

#include <math.h>

#define EVERYDAY_MM 2.4 /* smaller beads are drawn on the scale of one so thick and long */
#define GAP 0.12        /* between both views, of the longer side */

/* Pixels a millimetre: both views after one another along the longer side. */
static double
scale_of (const BwBead *bead, double longer, double shorter, gboolean upright)
{
  double along = upright ? bead->length_mm + bead->diameter_mm : 2 * bead->diameter_mm;
  double across = upright ? bead->diameter_mm : fmax (bead->length_mm, bead->diameter_mm);
  return fmin (longer * (1 - GAP) / fmax (along, 2 * EVERYDAY_MM),
               shorter / fmax (across, EVERYDAY_MM));
}

/* The glass as on the band. */
static void
draw_side (cairo_t *cr, guint32 srgb, BwFinish finish, double x, double y, double wide, double high,
           int sharp)
{
  int columns = MAX ((int)lround (wide * sharp), 1), rows = MAX ((int)lround (high * sharp), 1);
  BwBeadFrame frame = { .width = columns, .height = rows, .fill_x = 0.98, .fill_y = 0.98 };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, columns, rows);
  cairo_surface_flush (surface);
  bw_bead_picture_paint ((guint32 *)(void *)cairo_image_surface_get_data (surface), columns, rows,
                         &frame, srgb, finish);
  cairo_surface_mark_dirty (surface);
  cairo_surface_set_device_scale (surface, sharp, sharp);
  cairo_set_source_surface (cr, surface, x, y);
  cairo_paint (cr);
  cairo_surface_destroy (surface);
}

static void
draw_end (cairo_t *cr, const BwPalette *palette, double x, double y, double outside, double hole)
{
  GdkRGBA glass = bw_palette_tint (BW_TINT_STONE, FALSE);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_arc (cr, x, y, outside / 2, 0, 2 * G_PI);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, hole / 2, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, &glass);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, &palette->ink);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

void
bw_bead_figure_draw (GtkWidget *widget, cairo_t *cr, const BwBead *bead, BwFinish finish, int width,
                     int height)
{
  BwPalette palette = bw_palette_get (widget);
  gboolean upright = height > width;
  if (!(bead->diameter_mm > 0 && bead->length_mm > 0 && bead->hole_mm < bead->diameter_mm))
    return;
  double scale = scale_of (bead, MAX (width, height), MIN (width, height), upright);
  double wide = scale * bead->diameter_mm, high = scale * bead->length_mm;
  double gap = GAP * MAX (width, height);
  double left = upright ? (width - wide) / 2 : (width - 2 * wide - gap) / 2;
  double top = upright ? (height - high - gap - wide) / 2 : (height - high) / 2;
  double end_x = upright ? width / 2.0 : left + 1.5 * wide + gap;
  double end_y = upright ? top + high + gap + wide / 2 : height / 2.0;
  draw_side (cr, bw_tint_srgb (BW_TINT_STONE, FALSE), finish, left, top, wide, high,
             gtk_widget_get_scale_factor (widget));
  draw_end (cr, &palette, end_x, end_y, wide - 1, scale * bead->hole_mm);
}
