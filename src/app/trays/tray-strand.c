/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/trays/tray-strand.h"

#include "app/kit/bead-swatch.h"
#include "app/kit/palette.h"

#define END_SHARE 0.4 /* of a bead: how far the thread is seen at either end */

static void
paint_thread (GtkWidget *widget, cairo_t *cr, double length, double y)
{
  GdkRGBA hair = bw_palette_get (widget).hair;
  gdk_cairo_set_source_rgba (cr, &hair);
  cairo_set_line_width (cr, 1.5);
  cairo_move_to (cr, 0, y);
  cairo_line_to (cr, length, y);
  cairo_stroke (cr);
}

static void
paint_bead (cairo_t *cr, const BwColour *colour, double x, double side, int scale)
{
  cairo_surface_t *bead = bw_bead_surface (colour, side, scale);
  cairo_set_source_surface (cr, bead, x, 0);
  cairo_paint (cr);
  cairo_surface_destroy (bead);
}

void
bw_tray_strand_paint (GtkWidget *widget, cairo_t *cr, const BwTray *tray, int width, int height)
{
  double side = MIN (height, width / (tray->n_colours + 2 * END_SHARE));
  double length = side * (tray->n_colours + 2 * END_SHARE);
  gboolean mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  cairo_translate (cr, mirrored ? width - length : 0, (height - side) / 2);
  paint_thread (widget, cr, length, side / 2);
  for (int i = 0; i < tray->n_colours; i++) {
    int place = mirrored ? tray->n_colours - 1 - i : i;
    paint_bead (cr, &tray->colour[i], side * (place + END_SHARE), side,
                gtk_widget_get_scale_factor (widget));
  }
}
