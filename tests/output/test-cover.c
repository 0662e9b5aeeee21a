/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cover of the printed pages, and what the maker may want of a print. */
#define _GNU_SOURCE
#include "core/band/finished.h"
#include "core/pattern/tint.h"
#include "output/chart/ribbon.h"
#include "output/page/sheet.h"
#include "output/report/report.h"
#include "pen.h"
#include "sample.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static BwProject *
some_project (guint32 seed, SampleBail bail, gboolean prices)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, bail);
  sample->prices = prices;
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

static void
the_cover_tells_of_maker_and_licence_what_is_said_and_no_more (void **state)
{
  g_autoptr (BwProject) project = some_project (81, SAMPLE_FLAP, FALSE);
  bw_project_set_about (project, "", BW_ABOUT_MAKER, "Tidewrack workshop");
  bw_project_set_about (project, "", BW_ABOUT_SKILL, "some peyote");
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  const PenWords *maker = pen_find ("Tidewrack workshop"), *first = pen_word (0);
  assert_ptr_equal (maker->page, first->page);
  assert_ptr_equal (pen_find ("some peyote")->page, first->page);
  assert_non_null (pen_look_for ("Designed by"));
  assert_null (pen_look_for ("Licence"));
  assert_null (pen_look_for ("Version"));
  assert_null (pen_look_for ("Hours"));
}

static BwFinished
size_of (BwProject *project)
{
  return bw_finished_size (bw_project_get_design (project), bw_project_stone (project),
                           bw_project_places (project));
}

static void
the_cover_tells_the_size_in_both_units_and_so_does_the_report (void **state)
{
  g_autoptr (BwProject) project = some_project (82, SAMPLE_FLAP, FALSE);
  BwFinished size = size_of (project);
  g_autofree char *told
      = g_strdup_printf ("%.0f × %.0f\u00a0mm (%.2f × %.2f\u00a0in)", size.length_mm,
                         size.breadth_mm, size.length_mm / 25.4, size.breadth_mm / 25.4);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  assert_non_null (pen_look_for (told));
  g_autofree char *json = bw_report_hang (project, TRUE);
  g_autoptr (JsonNode) root = json_from_string (json, NULL);
  JsonArray *both = json_object_get_array_member (json_node_get_object (root), "finished_mm");
  assert_float_equal (json_array_get_double_element (both, 0), size.length_mm, 1e-6);
  assert_float_equal (json_array_get_double_element (both, 1), size.breadth_mm, 1e-6);
}

static void
a_piece_without_a_bail_speaks_of_none_beside_its_size (void **state)
{
  for (int bail = 0; bail < 2; bail++) {
    g_autoptr (BwProject) project = some_project (82, bail ? SAMPLE_FLAP : SAMPLE_NO_BAIL, FALSE);
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
    g_autofree char *text = pen_text ();
    assert_int_equal (strstr (text, "without the bail") != NULL, bail);
  }
}

static void
costs_are_printed_only_when_they_are_asked_for (void **state)
{
  g_autoptr (BwProject) project = some_project (83, SAMPLE_FLAP, TRUE);
  BwPaper paper = BW_PAPER_A4;
  assert_true (bw_project_materials (project)->has_cost);
  for (int asked = 0; asked < 2; asked++) {
    paper.wishes = asked ? BW_PRINT_COSTS : 0;
    for (int kit = 0; kit < 2; kit++) {
      pen_begin ();
      g_autoptr (BwSheet) sheet
          = kit ? bw_kit_new (project, paper, 2, NULL) : bw_sheet_new (project, paper, NULL, NULL);
      assert_int_equal (pen_look_for ("Work") != NULL && pen_look_for ("One piece") != NULL, asked);
    }
  }
}

#define FINE 3        /* pixels a point */
#define RAW 0x00ff00u /* a colour that nothing else on a page has */

static BwProject *
green_project (void)
{
  BwProject *project = some_project (84, SAMPLE_UPRIGHT, FALSE);
  BwTray tray = *bw_project_get_tray (project);
  for (int i = 0; i < tray.n_colours; i++)
    tray.colour[i].srgb = RAW;
  assert_true (bw_project_set_tray (project, "", &tray, NULL));
  return project;
}

static guint
count_green (const BwSheet *sheet, int page)
{
  BwPaper paper = bw_sheet_get_paper (sheet);
  int width = FINE * (int)paper.width, height = FINE * (int)paper.height;
  cairo_surface_t *ground = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (ground);
  guint n = 0;
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, FINE, FINE);
  bw_sheet_draw_page (sheet, cr, page);
  cairo_destroy (cr);
  cairo_surface_flush (ground);
  for (int y = 0; y < height; y++) {
    const guint32 *row
        = (const guint32 *)(gconstpointer)(cairo_image_surface_get_data (ground)
                                           + y * cairo_image_surface_get_stride (ground));
    for (int x = 0; x < width; x++)
      n += (row[x] & 0xffffff) == RAW;
  }
  cairo_surface_destroy (ground);
  return n;
}

static void
where_ink_is_spared_no_page_has_a_beads_colour (void **state)
{
  g_autoptr (BwProject) project = green_project ();
  BwPaper paper = BW_PAPER_A4;
  for (int sparing = 0; sparing < 2; sparing++) {
    paper.wishes = sparing ? BW_PRINT_SPARING : 0;
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, paper, NULL, NULL);
    g_autoptr (BwSheet) kit = bw_kit_new (project, paper, 1, NULL);
    guint n = count_green (kit, 1);
    for (int page = 0; page < bw_sheet_n_pages (sheet); page++)
      n += count_green (sheet, page);
    if (sparing)
      assert_int_equal (n, 0);
    else
      assert_true (n > 1000);
  }
}

static void
every_page_but_the_first_has_the_band_at_its_head (void **state)
{
  g_autoptr (BwProject) project = green_project ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  assert_true (bw_sheet_n_pages (sheet) > 4);
  for (int page = 1; page < bw_sheet_n_pages (sheet); page++)
    assert_true (count_green (sheet, page) > 200);
}

static void
a_ribbon_has_every_beads_colour_where_it_is_worn (void **state)
{
  g_autoptr (BwProject) project = some_project (85, SAMPLE_NO_BAIL, FALSE);
  const BwDesign *design = bw_project_get_design (project);
  const BwDrawing *drawing = bw_project_get_drawing (project);
  BwTray tray = *bw_project_get_tray (project);
  double width = 10 * (design->band.rows / 2.0 + 0.5);
  double tall = bw_ribbon_height (design, width) / design->band.columns;
  cairo_surface_t *ground = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)width, 200);
  cairo_t *cr = cairo_create (ground);
  for (int i = 0; i < tray.n_colours; i++)
    tray.colour[i].srgb = 0x010101u * (guint)(20 + 20 * i);
  bw_ribbon_draw (cr, design, drawing, &tray, width);
  cairo_destroy (cr);
  cairo_surface_flush (ground);
  assert_float_equal (bw_ribbon_width (design, bw_ribbon_height (design, width)), width, 1e-9);
  for (int row = 1; row <= design->band.rows; row++)
    for (int column = 1; column <= design->band.columns; column++) {
      if ((row + column) % 2 == 0)
        continue;
      int x = (int)((row - 1) * 5 + 5), y = (int)((design->band.columns - column + 0.5) * tall);
      const guint32 *line
          = (const guint32 *)(gconstpointer)(cairo_image_surface_get_data (ground)
                                             + y * cairo_image_surface_get_stride (ground));
      assert_int_equal (line[x] & 0xffffff,
                        tray.colour[bw_drawing_get (drawing, row, column)].srgb);
    }
  cairo_surface_destroy (ground);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_cover_tells_of_maker_and_licence_what_is_said_and_no_more),
    cmocka_unit_test (the_cover_tells_the_size_in_both_units_and_so_does_the_report),
    cmocka_unit_test (a_piece_without_a_bail_speaks_of_none_beside_its_size),
    cmocka_unit_test (costs_are_printed_only_when_they_are_asked_for),
    cmocka_unit_test (where_ink_is_spared_no_page_has_a_beads_colour),
    cmocka_unit_test (every_page_but_the_first_has_the_band_at_its_head),
    cmocka_unit_test (a_ribbon_has_every_beads_colour_where_it_is_worn),
  };
  return cmocka_run_group_tests_name ("cover", tests, NULL, NULL);
}
