/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole work sheet in a PDF file in memory, against cairo drawing the bare shapes of its chart
 * alone: as many rounded boxes and letters on as many pages. */
#include "output/page/sheet.h"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>
#include <stdio.h>

typedef struct {
  guint64 bytes;
} Sink;

static cairo_status_t
swallow (void *closure, const unsigned char *data, unsigned int length)
{
  ((Sink *)closure)->bytes += length;
  return CAIRO_STATUS_SUCCESS;
}

static double
milliseconds_since (gint64 start)
{
  return (double)(g_get_monotonic_time () - start) / 1000;
}

static double
time_sheet (BwProject *project, int *n_pages, Sink *sink)
{
  gint64 start = g_get_monotonic_time ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream (swallow, sink, 595, 842);
  cairo_t *cr = cairo_create (pdf);
  *n_pages = bw_sheet_n_pages (sheet);
  for (int page = 0; page < *n_pages; page++) {
    bw_sheet_draw_page (sheet, cr, page);
    cairo_show_page (cr);
  }
  cairo_destroy (cr);
  cairo_surface_destroy (pdf);
  return milliseconds_since (start);
}

static double
time_shapes (int beads, int n_pages, Sink *sink)
{
  gint64 start = g_get_monotonic_time ();
  cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream (swallow, sink, 595, 842);
  cairo_t *cr = cairo_create (pdf);
  g_autoptr (PangoLayout) letter = pango_cairo_create_layout (cr);
  pango_layout_set_text (letter, "a", -1);
  for (int i = 0; i < beads; i++) {
    double x = 40 + i % 37 * 13.6, y = 40 + i / 37 % 60 * 11;
    for (int corner = 0; corner < 4; corner++)
      cairo_arc (cr, x + (corner == 0 || corner == 3 ? 11 : 2), y + (corner < 2 ? 8 : 2), 2,
                 corner * G_PI / 2, (corner + 1) * G_PI / 2);
    cairo_close_path (cr);
    cairo_set_source_rgb (cr, 0.3, 0.4, 0.6);
    cairo_fill_preserve (cr);
    cairo_set_source_rgb (cr, 0, 0, 0);
    cairo_stroke (cr);
    cairo_move_to (cr, x, y);
    pango_cairo_show_layout (cr, letter);
    if (i % MAX (1, beads / n_pages) == 0)
      cairo_show_page (cr);
  }
  cairo_destroy (cr);
  cairo_surface_destroy (pdf);
  return milliseconds_since (start);
}

/* Best of some runs: whatever else the machine does only adds. */
static void
compare (int columns, int rows, double girth_mm, int runs)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.stone = (BwStoneMeasures){ .faces = 6,
                                    .measured = BW_MEASURED_GIRTH,
                                    .values_mm = { girth_mm },
                                    .at_mm = 60,
                                    .length_mm = 200,
                                    .has_shoulder = TRUE,
                                    .shoulder_mm = 150,
                                    .girth_sd_mm = 0.4,
                                    .density_g_cm3 = 2.65 };
  design.band = (BwBand){ columns, rows, 20, 180 };
  design.bail.style = BW_BAIL_NONE;
  if (!bw_project_set_design (project, "", &design, NULL))
    g_error ("the piece cannot be");
  double sheet = G_MAXDOUBLE, shapes = G_MAXDOUBLE;
  int n_pages = 0;
  Sink sink = { 0 };
  for (int i = 0; i < runs; i++) {
    sheet = MIN (sheet, time_sheet (project, &n_pages, &sink));
    shapes = MIN (shapes, time_shapes (columns * rows / 2, n_pages, &sink));
  }
  printf ("%2d × %4d: %3d pages, sheet %7.1f ms, bare shapes %7.1f ms, %.2f times\n", columns, rows,
          n_pages, sheet, shapes, sheet / shapes);
}

int
main (void)
{
  compare (14, 120, 90, 5);
  compare (60, 2000, 900, 2);
  return 0;
}
