/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages as such: nothing cut off, nothing left out of the needle's path, whole files or none. */
#define _GNU_SOURCE
#include "../fewer.h"
#include "output/sheet/cautions.h"
#include "output/page/sheet.h"
#include "output/sheet/steps.h"
#include "sample.h"

#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
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

/* A piece in which each of n colours has beads. */
static char *
json_of_colours (int n)
{
  GString *json = g_string_new (
      "{ \"format\": \"bandwright-project\", \"version\": 1, \"stone\": { \"faces\": 6, "
      "\"measured\": \"girth\", \"values_mm\": [90], \"at_mm\": 20, \"length_mm\": 70, "
      "\"shoulder_mm\": 50 }, \"bead\": { \"diameter_mm\": 1.6, \"length_mm\": 1.3, "
      "\"hole_mm\": 0.8 }, \"band\": { \"columns\": 14, \"rows\": 120, \"cells\": [");
  for (int row = 0; row < 120; row++) {
    g_string_append (json, row > 0 ? ", \"" : "\"");
    for (int j = 0; j < 7; j++)
      g_string_append_unichar (json, 0x4e00 + (gunichar)((row * 7 + j) % n));
    g_string_append_c (json, '"');
  }
  g_string_append (json, "] }, \"tray\": [");
  for (int i = 0; i < n; i++) {
    g_string_append (json, i > 0 ? ", { \"id\": \"" : "{ \"id\": \"");
    g_string_append_unichar (json, 0x4e00 + (gunichar)i);
    g_string_append_printf (json, "\", \"name\": \"Colour of the sea no. %d\", ", i + 1);
    g_string_append (json, "\"srgb\": \"#1b2a41\", \"finish\": \"matte\" }");
  }
  g_string_append (json, "] }");
  return g_string_free (json, FALSE);
}

/* A picture with something in its middle. */
static cairo_surface_t *
some_picture (void)
{
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 60, 90);
  cairo_t *cr = cairo_create (picture);
  cairo_rectangle (cr, 20, 20, 10, 50);
  cairo_fill (cr);
  cairo_destroy (cr);
  return picture;
}

#define BEYOND 150 /* points looked at beyond the paper's edges */

/* The box of all ink of a page, drawn on a ground larger than the paper. */
static cairo_rectangle_int_t
ink_of (const BwSheet *sheet, int page)
{
  int width = (int)bw_sheet_get_paper (sheet).width + 2 * BEYOND;
  int height = (int)bw_sheet_get_paper (sheet).height + 2 * BEYOND;
  int left = width, right = 0, top = height, bottom = 0;
  cairo_surface_t *ground = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_t *cr = cairo_create (ground);
  cairo_translate (cr, BEYOND, BEYOND);
  bw_sheet_draw_page (sheet, cr, page);
  assert_int_equal (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (ground);
  for (int y = 0; y < height; y++) {
    const guint32 *row
        = (const guint32 *)(gconstpointer)(cairo_image_surface_get_data (ground)
                                           + y * cairo_image_surface_get_stride (ground));
    for (int x = 0; x < width; x++)
      if (row[x]) {
        left = MIN (left, x);
        right = MAX (right, x + 1);
        top = MIN (top, y);
        bottom = y + 1;
      }
  }
  cairo_surface_destroy (ground);
  return (cairo_rectangle_int_t){ left - BEYOND, top - BEYOND, right - left, bottom - top };
}

/* What a page leaves on paper lies well within it: no printer prints to the very edge. */
static void
assert_page_whole (const BwSheet *sheet, int page)
{
  BwPaper paper = bw_sheet_get_paper (sheet);
  double edge = 4 * BW_POINTS_PER_MM;
  cairo_rectangle_int_t ink = ink_of (sheet, page);
  if (ink.x < edge || ink.y < edge || ink.x + ink.width > paper.width - edge
      || ink.y + ink.height > paper.height - edge)
    fail_msg ("page %d: %d × %d from %d, %d", page, ink.width, ink.height, ink.x, ink.y);
  assert_true (ink.width > 100 && ink.height > 100);
}

static int
assert_whole (BwSheet *taken)
{
  g_autoptr (BwSheet) sheet = taken;
  int n = bw_sheet_n_pages (sheet);
  assert_true (n > 0);
  for (int page = 0; page < n; page++)
    assert_page_whole (sheet, page);
  return n;
}

static void
assert_all_whole (BwProject *project, BwPaper paper)
{
  cairo_surface_t *picture = some_picture ();
  assert_whole (bw_sheet_new (project, paper, picture, picture));
  assert_whole (bw_sheet_new (project, paper, NULL, NULL));
  assert_whole (bw_strip_new (project, paper));
  int kit = assert_whole (bw_kit_new (project, paper, 3, picture));
  /* A list and a page a maker, but on papers shorter than the usual ones. */
  assert_true (kit == 4 || (kit > 4 && paper.height < BW_PAPER_LETTER.height));
  cairo_surface_destroy (picture);
}

static void
nothing_is_cut_off_with_any_bail_on_any_paper (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (51);
  for (int i = 0; i < few (8); i++) {
    g_autoptr (Sample) sample = sample_new (rand, 2 * g_rand_int_range (rand, 4, 14), 0, i % 4);
    sample->prices = i % 2;
    sample->taper = i % 3 == 0;
    g_autoptr (BwProject) project = project_of (sample);
    assert_all_whole (project, i / 4 ? BW_PAPER_LETTER : BW_PAPER_A4);
  }
}

static void
titles_of_300_characters_and_in_arabic_stay_on_the_page (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *one_word = g_strnfill (300, 'W');
  GString *words = g_string_new (NULL);
  for (int i = 0; i < 60; i++)
    g_string_append (words, "band ");
  const char *titles[] = { one_word, words->str, "قلادة ضوء الميناء الليلي", "", "two\nlines\t" };
  for (gsize i = 0; i < G_N_ELEMENTS (titles); i++) {
    bw_project_set_title (project, "", titles[i]);
    assert_all_whole (project, BW_PAPER_A4);
  }
  g_string_free (words, TRUE);
}

static void
a_band_of_60_by_2000_runs_over_many_whole_pages (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.stone = (BwStoneMeasures){ .faces = 6,
                                    .measured = BW_MEASURED_GIRTH,
                                    .values_mm = { 900 },
                                    .at_mm = 60,
                                    .length_mm = 200,
                                    .has_shoulder = TRUE,
                                    .shoulder_mm = 150,
                                    .girth_sd_mm = 0.4,
                                    .density_g_cm3 = 2.65 };
  design.band = (BwBand){ 60, 2000, 20, 180 };
  design.bail.style = BW_BAIL_NONE;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  assert_true (assert_whole (bw_sheet_new (project, BW_PAPER_A4, NULL, NULL)) > 27);
}

/* The pass that picks up the first bead of a row, or none. */
static int
pass_of_row (const GArray *visits, gboolean in_bail, int row)
{
  for (guint i = 0; i < visits->len; i++) {
    const BwVisit *visit = &g_array_index (visits, BwVisit, i);
    if (visit->in_bail == in_bail && visit->is_new && visit->row == row)
      return visit->pass;
  }
  return G_MAXINT;
}

/* From the fifth row of the band and the fourth of the bail on. */
static void
assert_plain_row (const BwVisit *visit, int band_pass, int bail_pass)
{
  assert_true ((visit->part == BW_PART_ROWS && visit->pass >= band_pass)
               || (visit->part == BW_PART_BAIL && visit->pass >= bail_pass));
}

/* Which step holds a visit: the last that does not begin after it. */
static const BwStep *
step_at (const GArray *steps, guint visit)
{
  guint k = 0;
  while (k + 1 < steps->len && g_array_index (steps, BwStep, k + 1).first <= visit)
    k++;
  return &g_array_index (steps, BwStep, k);
}

/* Steps follow one another without overlap, and what lies between them are plain rows alone. */
static void
the_steps_hold_every_visit_but_those_of_the_plain_rows (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (53);
  for (int i = 0; i < few (16); i++) {
    g_autoptr (Sample) sample = sample_new (rand, 2 * g_rand_int_range (rand, 3, 10), 0, i % 4);
    g_autoptr (BwProject) project = project_of (sample);
    const GArray *visits = bw_project_path (project)->visits;
    g_autoptr (GArray) steps = bw_steps_new (bw_project_path (project));
    int band_pass = pass_of_row (visits, FALSE, 5), bail_pass = pass_of_row (visits, TRUE, 4);
    assert_true (band_pass < G_MAXINT && (bail_pass < G_MAXINT) == (i % 4 != SAMPLE_NO_BAIL));
    for (guint k = 0, end = 0; k < steps->len; k++) {
      const BwStep *step = &g_array_index (steps, BwStep, k);
      assert_true (step->first >= end && step->n > 0);
      end = step->first + step->n;
    }
    for (guint v = 0; v < visits->len; v++)
      if (v >= step_at (steps, v)->first + step_at (steps, v)->n)
        assert_plain_row (&g_array_index (visits, BwVisit, v), band_pass, bail_pass);
  }
}

/* One page a maker, whatever is in the bag. */
static void
a_kit_of_any_number_of_colours_has_one_page_a_maker (void **state)
{
  static const int numbers[] = { 1, 12, 13, 40, 90, BW_TRAY_MAX };
  static const char *const words[] = { "a4", "letter" };
  for (gsize i = 0; i < 2 * G_N_ELEMENTS (numbers); i++) {
    g_autofree char *json = json_of_colours (numbers[i / 2]);
    g_autoptr (BwProject) project = bw_project_load_data (json, strlen (json), NULL);
    BwPaper paper;
    assert_non_null (project);
    assert_true (bw_paper_from_word (words[i % 2], &paper));
    int one = assert_whole (bw_kit_new (project, paper, 1, NULL));
    assert_int_equal (assert_whole (bw_kit_new (project, paper, 4, NULL)), one + 3);
  }
}

static void
a_target_that_cannot_be_written_is_named_and_left_alone (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwSheet) sheet = bw_strip_new (project, BW_PAPER_A4);
  g_autofree char *folder = g_dir_make_tmp ("bandwright-sheet-XXXXXX", NULL);
  g_autofree char *inside = g_build_filename (folder, "there", "strip.pdf", NULL);
  g_autofree char *expected = g_strdup_printf ("%s: there is no such folder", inside);
  g_autofree char *itself = g_strdup_printf ("%s: this is a folder", folder);
  g_autoptr (GError) error = NULL;
  assert_false (bw_sheet_write_pdf (sheet, inside, &error));
  assert_string_equal (error->message, expected);
  g_clear_error (&error);
  assert_false (bw_sheet_write_pdf (sheet, folder, &error));
  assert_string_equal (error->message, itself);
  assert_int_equal (g_rmdir (folder), 0);
}

/* What an independent reader (pdfinfo) takes for the day the file was made: newer files keep it
 * compressed. */
static void
expect_day (const char *path, const char *day)
{
  const char *argv[] = { "pdfinfo", "-rawdates", path, NULL };
  g_autofree char *text = NULL;
  int status;
  assert_true (g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text,
                             NULL, &status, NULL));
  assert_true (g_spawn_check_wait_status (status, NULL));
  assert_non_null (strstr (text, day));
}

static void
the_same_project_gives_the_same_bytes_on_a_given_day (void **state)
{
  g_autofree char *folder = g_dir_make_tmp ("bandwright-sheet-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "sheet.pdf", NULL);
  g_autoptr (BwProject) project = bw_project_new ();
  char *bytes[2];
  gsize length[2];
  g_setenv ("SOURCE_DATE_EPOCH", "86400", TRUE);
  for (int i = 0; i < 2; i++) {
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
    assert_true (bw_sheet_write_pdf (sheet, path, NULL));
    assert_true (g_file_get_contents (path, &bytes[i], &length[i], NULL));
  }
  g_unsetenv ("SOURCE_DATE_EPOCH");
  assert_int_equal (length[0], length[1]);
  assert_memory_equal (bytes[0], bytes[1], length[0]);
  expect_day (path, "CreationDate:    19700102000000Z");
  g_free (bytes[0]);
  g_free (bytes[1]);
  g_remove (path);
  g_rmdir (folder);
}

static void
a_ring_is_cautioned_about_only_where_there_is_one (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (54);
  for (int i = 0; i < 4; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, i);
    g_autoptr (BwProject) project = project_of (sample);
    g_auto (GStrv) cautions = bw_cautions_new (project, NULL);
    g_autofree char *all = g_strjoinv (" ", cautions);
    assert_int_equal (strstr (all, "metal ring") != NULL, i == SAMPLE_RING);
    assert_non_null (strstr (all, "children"));
  }
}

static void
papers_are_named_and_sized (void **state)
{
  static const char *const wrong[]
      = { "a6",          "",    "179x200", "200x1201", "200",     "200x", "x200",
          "200x200x200", "0x0", "nanxnan", "-200x200", "200 x200" };
  BwPaper paper;
  assert_true (bw_paper_from_word ("Letter", &paper) && bw_paper_equal (paper, BW_PAPER_LETTER));
  assert_true (bw_paper_from_word ("a4", &paper) && bw_paper_equal (paper, BW_PAPER_A4));
  assert_true (fabs (paper.width / BW_POINTS_PER_MM - 210) < 1e-9);
  assert_true (fabs (paper.height / BW_POINTS_PER_MM - 297) < 1e-9);
  assert_true (bw_paper_from_word ("A5", &paper) && bw_paper_equal (paper, BW_PAPER_A5));
  assert_true (fabs (paper.width / BW_POINTS_PER_MM - 148) < 1e-9);
  assert_true (bw_paper_from_word ("420x297.5", &paper));
  assert_true (fabs (paper.width / BW_POINTS_PER_MM - 420) < 1e-9);
  assert_true (fabs (paper.height / BW_POINTS_PER_MM - 297.5) < 1e-9);
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    assert_false (bw_paper_from_word (wrong[i], &paper));
  assert_true (fabs (BW_PAPER_LETTER.width - 8.5 * 72) < 1e-9);
}

/* The least and the most that can be laid out on, and papers lying across. */
static void
nothing_is_cut_off_on_papers_of_other_sizes (void **state)
{
  static const char *const words[] = { "180x180", "297x210", "180x600", "420x297" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (55);
  for (int i = 0; i < few (G_N_ELEMENTS (words)); i++) {
    g_autoptr (Sample) sample = sample_new (rand, 14, 0, (SampleBail)(i % 4));
    sample->taper = TRUE;
    g_autoptr (BwProject) project = project_of (sample);
    BwPaper paper;
    assert_true (bw_paper_from_word (words[i], &paper));
    assert_all_whole (project, paper);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nothing_is_cut_off_with_any_bail_on_any_paper),
    cmocka_unit_test (titles_of_300_characters_and_in_arabic_stay_on_the_page),
    cmocka_unit_test (a_band_of_60_by_2000_runs_over_many_whole_pages),
    cmocka_unit_test (the_steps_hold_every_visit_but_those_of_the_plain_rows),
    cmocka_unit_test (a_kit_of_any_number_of_colours_has_one_page_a_maker),
    cmocka_unit_test (a_target_that_cannot_be_written_is_named_and_left_alone),
    cmocka_unit_test (the_same_project_gives_the_same_bytes_on_a_given_day),
    cmocka_unit_test (a_ring_is_cautioned_about_only_where_there_is_one),
    cmocka_unit_test (papers_are_named_and_sized),
    cmocka_unit_test (nothing_is_cut_off_on_papers_of_other_sizes),
  };
  return cmocka_run_group_tests_name ("sheet", tests, NULL, NULL);
}
