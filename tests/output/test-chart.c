/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chart read back bead by bead, and what makes it legible without colour. */
#include "output/chart/chart.h"
#include "output/chart/mark.h"
#include "sample.h"

#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

static BwProject *
project_of (const Sample *sample)
{
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

/* Reads every bead of an SVG into a grid of `columns` columns; each place is filled once. */
static int
read_beads (const char *svg, char *grid, int columns)
{
  g_autoptr (GRegex) regex = g_regex_new (
      "<use class=\"bead\"[^>]*data-row=\"(\\d+)\" data-column=\"(\\d+)\" data-letter=\"(.)\"", 0,
      0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  int n = 0;
  for (g_regex_match (regex, svg, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL), n++) {
    g_autofree char *row = g_match_info_fetch (match, 1);
    g_autofree char *column = g_match_info_fetch (match, 2);
    g_autofree char *letter = g_match_info_fetch (match, 3);
    char *cell = &grid[(atoi (row) - 1) * columns + atoi (column) - 1];
    assert_int_equal (*cell, 0);
    *cell = *letter;
  }
  return n;
}

static void
the_svg_has_exactly_the_beads_of_the_project (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);
  for (int i = 0; i < 12; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 2 * g_rand_int_range (rand, 3, 12), 0, i % 4);
    g_autoptr (BwProject) project = project_of (sample);
    g_autofree char *svg = bw_chart_svg (project);
    g_autofree char *grid = g_new0 (char, sample->columns * sample->rows);
    assert_int_equal (read_beads (svg, grid, sample->columns), sample->columns * sample->rows / 2);
    for (int row = 1; row <= sample->rows; row++)
      for (int column = 1; column <= sample->columns; column++)
        if ((row + column) % 2)
          assert_int_equal (grid[(row - 1) * sample->columns + column - 1],
                            sample_bead (sample->cells, row, column));
  }
}

/* Below the beads stands what the letters mean: every colour in use once. */
static void
the_svg_has_a_key_of_the_colours_in_use (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (44);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  g_autofree char *svg = bw_chart_svg (project);
  for (int i = 0; i < sample->n_colours; i++) {
    gboolean used = FALSE;
    for (guint row = 0; row < sample->cells->len; row++)
      used |= strchr (sample->cells->pdata[row], 'a' + i) != NULL;
    g_autofree char *entry = g_strdup_printf ("<use class=\"key\" xlink:href=\"#c%d\"", i);
    char *first = strstr (svg, entry);
    assert_int_equal (first != NULL, used);
    assert_true (!first || !strstr (first + 1, entry));
  }
}

/* A lit bead lies right of the row before and above the column before. */
static void
the_svg_stands_as_the_band_is_worn (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (42);
  g_autoptr (Sample) sample = sample_new (rand, 8, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  g_autofree char *svg = bw_chart_svg (project);
  double x[3], y[3];
  static const char *const marks[]
      = { "data-row=\"1\" data-column=\"2\"", "data-row=\"3\" data-column=\"2\"",
          "data-row=\"1\" data-column=\"4\"" };
  for (int i = 0; i < 3; i++) {
    const char *bead = strstr (svg, marks[i]);
    assert_non_null (bead);
    x[i] = g_ascii_strtod (strstr (bead, " x=\"") + 4, NULL);
    y[i] = g_ascii_strtod (strstr (bead, " y=\"") + 4, NULL);
  }
  assert_true (x[1] > x[0] && y[1] - y[0] < 1e-9 && y[0] - y[1] < 1e-9);
  assert_true (y[2] < y[0] && x[2] - x[0] < 1e-9 && x[0] - x[2] < 1e-9);
}

static void
letters_and_names_that_markup_would_take_are_escaped (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwTray tray = *bw_project_get_tray (project);
  tray.colour[0].id = '&';
  g_strlcpy (tray.colour[0].name, "<b> \"", sizeof tray.colour[0].name);
  assert_true (bw_project_set_tray (project, "", &tray, NULL));
  bw_project_set_title (project, "", "A < B & C");
  g_autofree char *svg = bw_chart_svg (project);
  assert_non_null (strstr (svg, "<title>A &lt; B &amp; C</title>"));
  assert_non_null (strstr (svg, "<title>&lt;b&gt; &quot;</title>"));
  assert_non_null (strstr (svg, "data-letter=\"&amp;\""));
  assert_null (strstr (svg, "<b>"));
}

static void
neighbours_in_the_tray_differ_in_their_patterns (void **state)
{
  for (int a = 0; a < 16; a++)
    for (int b = 0; b < a; b++) {
      int n, m;
      const BwMarkStroke *first = bw_mark_strokes (a, &n), *second = bw_mark_strokes (b, &m);
      assert_false (n == m && memcmp (first, second, (size_t)n * sizeof *first) == 0);
    }
}

static void
a_letter_can_be_read_on_every_colour (void **state)
{
  assert_int_equal (bw_mark_ink (0xffffff), 0x000000);
  assert_int_equal (bw_mark_ink (0x000000), 0xffffff);
  assert_int_equal (bw_mark_ink (0xffff00), 0x000000);
  assert_int_equal (bw_mark_ink (0x000080), 0xffffff);
}

static void
a_long_band_becomes_a_picture_of_several_lines (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (43);
  g_autoptr (Sample) sample = sample_new (rand, 8, 1000, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  g_autofree char *folder = g_dir_make_tmp ("bandwright-chart-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "chart.PNG", NULL);
  g_autoptr (GError) error = NULL;
  assert_true (bw_chart_write (project, path, &error));
  cairo_surface_t *picture = cairo_image_surface_create_from_png (path);
  assert_int_equal (cairo_surface_status (picture), CAIRO_STATUS_SUCCESS);
  assert_in_range (cairo_image_surface_get_width (picture), 1000, 30000);
  assert_true (cairo_image_surface_get_height (picture) > 3 * 8 * 19);
  cairo_surface_destroy (picture);
  g_remove (path);
  g_rmdir (folder);
}

static void
a_name_that_ends_otherwise_is_refused (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  assert_false (bw_chart_write (project, "/tmp/chart.gif", &error));
  assert_string_equal (error->message, "/tmp/chart.gif: the name must end in .svg, .png or .pdf");
  assert_false (bw_chart_knows ("svg"));
  assert_true (bw_chart_knows ("a.SVG"));
}

static void
a_folder_that_is_not_there_is_named (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  assert_false (bw_chart_write (project, "/no/such/folder/chart.svg", &error));
  assert_string_equal (error->message, "/no/such/folder/chart.svg: there is no such folder");
}

/* --- What lies below the beads ------------------------------------------------------------------
 */

static double
number_of (const char *element, const char *name)
{
  g_autofree char *begin = g_strdup_printf (" %s=\"", name);
  const char *at = strstr (element, begin);
  assert_non_null (at);
  return g_ascii_strtod (at + strlen (begin), NULL);
}

/* Without a gap the faces lie under the whole band, each after the one before. */
static void
the_svg_has_a_ribbon_of_the_faces (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (46);
  for (int i = 0; i < 8; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 2 * g_rand_int_range (rand, 3, 12), 0, i % 4);
    g_autoptr (BwProject) project = project_of (sample);
    g_autofree char *svg = bw_chart_svg (project);
    int faces = bw_project_stone (project)->faces, n = 0;
    gboolean seen[BW_FACES_MAX + 1] = { FALSE };
    double width = 0, least = INFINITY, most = 0;
    for (const char *at = svg; (at = strstr (at, "<rect class=\"face\"")); at++, n++) {
      double x = number_of (at, "x"), wide = number_of (at, "width");
      seen[(int)number_of (at, "data-face")] = TRUE;
      width += wide;
      least = MIN (least, x);
      most = MAX (most, x + wide);
    }
    for (int face = 1; face <= faces; face++)
      assert_true (seen[face]);
    assert_false (seen[0]);
    assert_true (n >= faces && n <= faces + 2);
    assert_true (fabs (width - (most - least)) < 0.1);
    assert_true (fabs (width - 8 * (sample->rows + 1)) < 0.1);
  }
}

/* The piece as it is worn stands beside the colours, inside the picture, with beads of the band. */
static void
a_small_stone_stands_beside_the_strung_colours (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (47);
  for (int i = 0; i < 8; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 2 * g_rand_int_range (rand, 3, 12), 0, i % 4);
    g_autoptr (BwProject) project = project_of (sample);
    g_autofree char *svg = bw_chart_svg (project);
    double wide = number_of (svg, "width"), tall = number_of (svg, "height"), key = 0;
    double left = INFINITY, right = 0, low = 0, high = INFINITY;
    int shapes = 0, lines = 0;
    for (const char *at = svg; (at = strstr (at, "<use class=\"key\"")); at++)
      key = MAX (key, number_of (at, "x") + 16);
    for (const char *at = svg; (at = strstr (at, "<path class=\"thread\"")); at++)
      lines++;
    const char *stone = strstr (svg, "<g class=\"stone\">"), *end = strstr (stone, "</g>");
    for (const char *at = stone; (at = strstr (at, "<path d=\"M")) && at < end; at++, shapes++) {
      char *rest;
      double x = g_ascii_strtod (at + 10, &rest), y = g_ascii_strtod (rest, NULL);
      left = MIN (left, x);
      right = MAX (right, x);
      high = MIN (high, y);
      low = MAX (low, y);
    }
    assert_true (lines >= 1);
    assert_true (left > key && right < wide);
    assert_true (low < tall && high > tall / 4);
    assert_true (low - high > 60);
    assert_true (shapes > sample->rows * sample->columns / 8);
  }
}

/* Pieces of the thread, none of which runs over a bead of the key. */
static void
the_thread_of_the_key_runs_between_its_beads (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (49);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  g_autofree char *svg = bw_chart_svg (project);
  int pieces = 0;
  for (const char *line = svg; (line = strstr (line, "<path class=\"thread\"")); line++) {
    const char *end = strchr (line, '>');
    for (const char *at = line; (at = strchr (at, 'M')) && at < end; at++, pieces++) {
      char *rest;
      double from = g_ascii_strtod (at + 1, &rest);
      double y = g_ascii_strtod (rest, &rest), to = g_ascii_strtod (rest + 1, NULL);
      for (const char *bead = svg; (bead = strstr (bead, "<use class=\"key\"")); bead++) {
        double left = number_of (bead, "x"), top = number_of (bead, "y");
        assert_true (y < top || y > top + 16 || to <= left || from >= left + 16);
      }
    }
  }
  assert_true (pieces > 2);
}

static void
the_chart_alone_is_a_page_as_well (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (48);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  g_autofree char *folder = g_dir_make_tmp ("bandwright-chart-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "chart.PDF", NULL);
  g_autofree char *data = NULL, *text = NULL;
  gsize length;
  assert_true (bw_chart_knows (path));
  assert_true (bw_chart_write (project, path, NULL));
  assert_true (g_file_get_contents (path, &data, &length, NULL));
  assert_memory_equal (data, "%PDF", 4);
  const char *argv[] = { "pdftotext", path, "-", NULL };
  assert_true (g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text,
                             NULL, NULL, NULL));
  assert_non_null (strstr (text, "face 1"));
  const char *name = bw_project_get_tray (project)->colour[0].name;
  g_autofree char *first = g_strndup (name, 5);
  assert_non_null (strstr (text, first));
  g_unlink (path);
  g_rmdir (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_svg_has_exactly_the_beads_of_the_project),
    cmocka_unit_test (the_svg_has_a_key_of_the_colours_in_use),
    cmocka_unit_test (the_svg_has_a_ribbon_of_the_faces),
    cmocka_unit_test (a_small_stone_stands_beside_the_strung_colours),
    cmocka_unit_test (the_thread_of_the_key_runs_between_its_beads),
    cmocka_unit_test (the_chart_alone_is_a_page_as_well),
    cmocka_unit_test (the_svg_stands_as_the_band_is_worn),
    cmocka_unit_test (letters_and_names_that_markup_would_take_are_escaped),
    cmocka_unit_test (neighbours_in_the_tray_differ_in_their_patterns),
    cmocka_unit_test (a_letter_can_be_read_on_every_colour),
    cmocka_unit_test (a_long_band_becomes_a_picture_of_several_lines),
    cmocka_unit_test (a_name_that_ends_otherwise_is_refused),
    cmocka_unit_test (a_folder_that_is_not_there_is_named),
  };
  return cmocka_run_group_tests_name ("chart", tests, NULL, NULL);
}
