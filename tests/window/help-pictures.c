/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pictures of the help, taken of the program itself: `meson compile -C build help-pictures`
 * writes them anew into data/help/C/figures. */
#include "maker.h"

#include "app/bench/bench-page.h"
#include "app/draw/draw-stage.h"
#include "app/fit/fit-line.h"
#include "app/hang/hang-stage.h"
#include "app/measure/measure-stage.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#define WIDE 640 /* no picture is wider: it shall fit beside the work */

/* What the screen shows of the widget, no larger than a page wants it. */
static void
take (const char *folder, const char *name, GtkWidget *widget)
{
  int x, y, width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  desk_rest ();
  desk_point (widget, 0, 0, &x, &y);
  cairo_surface_t *screen = desk_picture ();
  double scale = MIN (1, (double)WIDE / width);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)(width * scale),
                                                         (int)(height * scale));
  cairo_t *cr = cairo_create (picture);
  cairo_scale (cr, scale, scale);
  cairo_set_source_surface (cr, screen, -x, -y);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_BEST);
  cairo_paint (cr);
  g_autofree char *file = g_strconcat (name, ".png", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  assert_int_equal (cairo_surface_write_to_png (picture, path), CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (picture);
  cairo_surface_destroy (screen);
}

static int
take_all (gconstpointer folder)
{
  Maker maker = { 0 };
  g_autofree char *demo
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (&maker, demo);
  maker_stage (&maker, "measure");
  take (folder, "measure", maker_find (&maker, BW_TYPE_MEASURE_STAGE));
  take (folder, "fit", maker_find (&maker, BW_TYPE_FIT_LINE));
  maker_stage (&maker, "draw");
  take (folder, "draw", maker_find (&maker, BW_TYPE_DRAW_STAGE));
  maker_stage (&maker, "hang");
  take (folder, "hang", GTK_WIDGET (maker.window));
  desk_key ("F11", 0);
  take (folder, "bench", maker_find (&maker, BW_TYPE_BENCH_PAGE));
  desk_key ("F11", 0);
  maker_stop (&maker);
  return 0;
}

int
main (int argc, char **argv)
{
  g_return_val_if_fail (argc == 2, 2);
  return maker_work (take_all, argv[1]);
}
