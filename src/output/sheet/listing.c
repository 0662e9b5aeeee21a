/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The square picture that the page of a shop wants. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/chart/ribbon.h"
#include "output/page/whole-file.h"
#include "output/sheet/tags.h"

#include <glib/gi18n-lib.h>

#define UNITS 400.0 /* it is laid out in */
#define EDGE 20.0
#define RIBBON 24.0
#define TITLE 44.0

/* On one line; a long title is set smaller before it is cut. */
static void
draw_title (cairo_t *cr, const char *title)
{
  const double room = UNITS - 2 * EDGE;
  int width;
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_TITLE, title, 0);
  pango_layout_get_size (layout, &width, NULL);
  g_clear_object (&layout);
  layout = bw_type_layout (
      cr, pango_units_to_double (width) > room ? BW_TYPE_HEADING : BW_TYPE_TITLE, title, room);
  pango_layout_set_height (layout, -1);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_move_to (cr, EDGE, UNITS - EDGE - TITLE + 8);
  pango_cairo_show_layout (cr, layout);
}

static void
draw_band (cairo_t *cr, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  double width = MIN (UNITS, bw_ribbon_width (design, RIBBON));
  cairo_save (cr);
  cairo_translate (cr, (UNITS - width) / 2, UNITS - EDGE - TITLE - RIBBON);
  bw_ribbon_draw (cr, design, bw_project_get_drawing (project), bw_project_get_tray (project),
                  width);
  cairo_restore (cr);
}

static void
draw (cairo_t *cr, BwProject *project, const char *title, cairo_surface_t *picture)
{
  double tall = UNITS - 3 * EDGE - TITLE - RIBBON;
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_paint (cr);
  if (picture) {
    cairo_save (cr);
    cairo_translate (cr, EDGE, EDGE);
    bw_sheet_draw_picture (cr, picture, UNITS - 2 * EDGE, tall);
    cairo_restore (cr);
  }
  draw_band (cr, project);
  draw_title (cr, title);
}

BwSheet *
bw_listing_new (BwProject *project, cairo_surface_t *picture)
{
  BwPaper square = { UNITS, UNITS, 0 };
  BwSheet *sheet = bw_sheet_alloc (project, square, _ ("Picture for a shop"), TRUE);
  sheet->bare = TRUE;
  bw_sheet_open_page (sheet);
  cairo_t *cr = bw_sheet_open_stretch (sheet, 0, BW_TAG_FIGURE);
  draw (cr, project, sheet->title, picture);
  cairo_destroy (cr);
  return sheet;
}

gboolean
bw_listing_write (const BwSheet *listing, const char *path, GError **error)
{
  g_autoptr (GByteArray) png = g_byte_array_new ();
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, BW_LISTING_SIDE, BW_LISTING_SIDE);
  cairo_t *cr = cairo_create (surface);
  cairo_scale (cr, BW_LISTING_SIDE / UNITS, BW_LISTING_SIDE / UNITS);
  bw_sheet_draw_page (listing, cr, 0);
  cairo_destroy (cr);
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, bw_whole_file_append, png);
  cairo_surface_destroy (surface);
  return bw_whole_file_write (png, status, path, error);
}
