/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of the fit line and what helps, and where its beads lie. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/fit/fit-strip.h"
#include "app/fit/remedy-list.h"
#include "app/fit/remedy-words.h"
#include "app/fit/sure-words.h"
#include "app/kit/words.h"
#include "core/band/would-help.h"
#include "project/project.h"

#include <math.h>
#include <string.h>

/* A new project as a file knows it: no measurement is an example any more. */
static BwProject *
own_project (void)
{
  g_autoptr (BwProject) example = bw_project_new ();
  g_autofree char *data = bw_project_to_data (example, NULL);
  BwProject *project = bw_project_load_data (data, strlen (data), NULL);
  assert_non_null (project);
  return project;
}

static BwProject *
project_of_rows (int rows)
{
  BwProject *project = own_project ();
  BwDesign design = *bw_project_get_design (project);
  design.band.rows = rows;
  assert_true (bw_project_set_design (project, "Rows", &design, NULL));
  return project;
}

static char *
detail_of (BwProject *project)
{
  BwFitTold told = bw_fit_told (project);
  return bw_fit_words_sentence (&told, bw_project_fit (project),
                                bw_project_get_design (project)->limits.slack_mm, BW_UNIT_MM);
}

static void
assert_tells (const char *text, const char *part)
{
  if (!strstr (text, part))
    fail_msg ("“%s” does not tell “%s”", text, part);
}

static void
the_scale_meets_its_limits_and_runs_one_way (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  for (int i = 0; i < 500; i++) {
    double slack = g_rand_double_range (rand, 0.01, 3), pull = g_rand_double_range (rand, 0.01, 3);
    double before = -2;
    assert_true (fabs (bw_fit_scale (-slack, pull, slack)) < 1e-12);
    assert_true (fabs (bw_fit_scale (pull, pull, slack) - 1) < 1e-12);
    for (double gap = -40; gap < 40; gap += 0.37) {
      double scale = bw_fit_scale (gap, pull, slack);
      assert_true (scale > before);
      assert_true (scale > -1 && scale < 2);
      assert_true ((gap < -slack) == (scale < 0));
      assert_true ((gap > pull) == (scale > 1));
      before = scale;
    }
  }
}

static void
a_band_too_short_names_its_worst_column (void **state)
{
  g_autoptr (BwProject) plain = bw_project_new ();
  int rows = bw_project_get_design (plain)->band.rows;
  g_autoptr (BwProject) project = project_of_rows (rows - 6);
  const BwFit *fit = bw_project_fit (project);
  g_autofree char *detail = detail_of (project);
  assert_int_equal (fit->verdict, BW_VERDICT_WILL_NOT_CLOSE);
  assert_string_equal (bw_fit_words_verdict (fit->verdict), "Will not close");
  assert_tells (detail, "Even when pulled, the ends stay");
  int worst = 0;
  for (int i = 1; i < fit->n_columns; i++)
    if (fit->column[i].gap_mm - fit->column[i].pull_mm
        > fit->column[worst].gap_mm - fit->column[worst].pull_mm)
      worst = i;
  g_autofree char *column = g_strdup_printf ("apart in column %d.", worst + 1);
  assert_tells (detail, column);
}

static void
a_band_too_long_tells_what_is_allowed (void **state)
{
  g_autoptr (BwProject) plain = bw_project_new ();
  g_autoptr (BwProject) project = project_of_rows (bw_project_get_design (plain)->band.rows + 6);
  g_autofree char *detail = detail_of (project);
  assert_int_equal (bw_project_fit (project)->verdict, BW_VERDICT_LOOSE);
  assert_tells (detail, "slack; up to 0.8 mm still grips");
}

static void
odd_rows_and_short_strips_are_told_as_such (void **state)
{
  g_autoptr (BwProject) plain = bw_project_new ();
  int rows = bw_project_get_design (plain)->band.rows;
  g_autoptr (BwProject) odd = project_of_rows (rows - 1);
  g_autoptr (BwProject) strip = project_of_rows (20);
  g_autofree char *about_odd = detail_of (odd);
  g_autofree char *about_strip = detail_of (strip);
  g_autofree char *even = g_strdup_printf ("The ends of %d rows cannot interlock.", rows - 1);
  assert_string_equal (bw_fit_words_verdict (bw_project_fit (odd)->verdict), "Odd rows");
  assert_tells (about_odd, even);
  assert_tells (about_strip, "still open");
}

static void
every_remedy_says_what_to_do_and_what_it_gives (void **state)
{
  g_autoptr (BwProject) plain = bw_project_new ();
  g_autoptr (BwProject) project = project_of_rows (bw_project_get_design (plain)->band.rows - 4);
  const BwDesign *design = bw_project_get_design (project);
  g_autoptr (GArray) remedies = bw_remedy_list_collect (project);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  assert_true (remedies->len >= 4);
  for (guint i = 0; i < remedies->len; i++) {
    const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
    char *what = bw_remedy_words_do (remedy, design, BW_UNIT_MM);
    g_autofree char *gives = bw_remedy_words_gives (remedy, BW_UNIT_MM);
    assert_tells (gives, bw_fit_words_verdict (remedy->verdict));
    assert_tells (gives, remedy->gap_max_mm < -0.005  ? " slack"
                         : remedy->gap_max_mm < 0.005 ? " "
                                                      : " pulled");
    if (!g_hash_table_add (seen, what))
      fail_msg ("two remedies say “%s”", what);
  }
}

static void
the_recommended_rows_are_offered_first_and_fit (void **state)
{
  g_autoptr (BwProject) plain = bw_project_new ();
  int rows = bw_project_get_design (plain)->band.rows;
  g_autoptr (BwProject) project = project_of_rows (rows - 8);
  BwRemedy best;
  assert_true (bw_remedy_list_best (project, &best));
  assert_int_equal (best.kind, BW_REMEDY_ROWS);
  assert_int_equal (best.design.band.rows, 2 * bw_project_forecast (project)->recommended);
  assert_true (bw_project_set_design (project, "Best", &best.design, NULL));
  assert_int_equal (bw_project_fit (project)->verdict, BW_VERDICT_SNUG);
}

static void
a_remedy_that_voids_the_girth_over_says_so (void **state)
{
  BwRemedy remedy = { .kind = BW_REMEDY_LAYERS, .voids_girth_over = TRUE };
  g_autofree char *gives = bw_remedy_words_gives (&remedy, BW_UNIT_MM);
  assert_tells (gives, "no longer holds");
}

static void
lengths_in_words_follow_the_unit (void **state)
{
  g_autofree char *mm = bw_fit_words_gaps (-0.254, 2.54, BW_UNIT_MM);
  g_autofree char *inch = bw_fit_words_gaps (-0.254, 2.54, BW_UNIT_INCH);
  g_autofree char *one = bw_fit_words_gaps (0.2999, 0.3001, BW_UNIT_MM);
  assert_string_equal (mm, "0.25 mm slack to 2.54 mm pulled");
  assert_string_equal (inch, "0.01 in slack to 0.1 in pulled");
  assert_string_equal (one, "0.3 mm pulled");
}

/* Only what helps is listed as such; nothing that was tried is lost. */
static void
what_helps_makes_it_snug_or_surer (void **state)
{
  g_autoptr (BwProject) plain = own_project ();
  int rows = bw_project_get_design (plain)->band.rows, helps = 0, tried = 0;
  for (int more = -6; more <= 6; more += 2) {
    g_autoptr (BwProject) project = project_of_rows (rows + more);
    BwFitTold told = bw_fit_told (project);
    g_autoptr (GArray) all = bw_remedy_list_collect (project);
    for (guint i = 0; i < all->len; i++) {
      const BwRemedy *remedy = &g_array_index (all, BwRemedy, i);
      gboolean safer
          = remedy->kind == BW_REMEDY_ROWS && remedy->design.band.rows == told.safer_rows;
      gboolean mends = told.verdict != BW_VERDICT_SNUG && remedy->verdict == BW_VERDICT_SNUG;
      assert_int_equal (bw_fit_told_helps (&told, remedy), safer || mends);
      helps += safer || mends;
      tried += !safer && !mends;
    }
  }
  assert_true (helps > 5 && tried > 5);
}

/* Near even, the safer count is what is offered, snug on paper or not, and it is called that. */
static void
near_even_the_safer_count_is_offered (void **state)
{
  int loose = 0, offered = 0;
  for (double flats = 18; flats < 24; flats += 0.25) {
    g_autoptr (BwProject) project = own_project ();
    BwDesign design = *bw_project_get_design (project);
    design.stone.values_mm[0] = flats;
    assert_true (bw_project_set_design (project, "Stone", &design, NULL));
    design.band.rows = 2 * bw_project_forecast (project)->recommended;
    assert_true (bw_project_set_design (project, "Rows", &design, NULL));
    BwFitTold told = bw_fit_told (project);
    BwRemedy best;
    if (told.verdict != BW_VERDICT_SNUG || told.safer_rows == told.rows)
      continue;
    assert_int_equal (told.sign, BW_SIGN_NEAR_EVEN);
    assert_true (bw_remedy_list_best (project, &best));
    assert_int_equal (best.kind, BW_REMEDY_ROWS);
    assert_int_equal (best.design.band.rows, told.safer_rows);
    g_autofree char *promise = bw_remedy_words_promise (&best, &told, BW_UNIT_MM);
    g_autofree char *closes = g_strdup_printf ("closes with %.0f %%", 100 * told.safer);
    assert_tells (promise, "The safer count");
    assert_tells (promise, closes);
    loose += best.verdict != BW_VERDICT_SNUG;
    offered++;
  }
  assert_true (loose > 0 && offered > 5);
}

/* Counted bead by bead by another rule than the drawing's own. */
static void
a_column_is_told_by_the_colour_most_of_its_beads_have (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (74);
  for (int i = 0; i < 40; i++) {
    int columns = 2 * g_rand_int_range (rand, 1, 9), rows = g_rand_int_range (rand, 4, 120);
    g_autoptr (BwDrawing) drawing = bw_drawing_new (columns, rows, 0);
    int counts[17][5] = { { 0 } };
    for (int row = 1; row <= rows; row++)
      for (int column = 1 + row % 2; column <= columns; column += 2) {
        guint8 colour = (guint8)g_rand_int_range (rand, 0, 5);
        bw_drawing_set (drawing, row, column, colour);
        counts[column][colour]++;
      }
    for (int column = 1; column <= columns; column++) {
      int best = 0;
      for (int c = 1; c < 5; c++)
        if (counts[column][c] > counts[column][best])
          best = c;
      assert_int_equal (bw_fit_strip_main (drawing, column), best);
    }
  }
}

static void
gaps_of_one_kind_are_told_as_one (void **state)
{
  const struct {
    double least, greatest;
    const char *words;
  } told[] = {
    { 0.21, 0.28, "0.21 mm to 0.28 mm pulled" }, { -0.62, -0.13, "0.13 mm to 0.62 mm slack" },
    { -0.8, 0, "up to 0.8 mm slack" },           { 0.002, 0.5, "up to 0.5 mm pulled" },
    { -0.26, -0.26, "0.26 mm slack" },           { -0.001, 0.001, "nothing to pull and no slack" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (told); i++) {
    g_autofree char *words = bw_fit_words_gaps (told[i].least, told[i].greatest, BW_UNIT_MM);
    assert_string_equal (words, told[i].words);
  }
}

/* One more reading can only make the pitch surer, the longer strip more so; the exact value is the
 * normal posterior's. */
static void
a_swatch_makes_the_pitch_surer (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const BwDesign *design = bw_project_get_design (project);
  BwDesign swatched = *design;
  swatched.gauge.has_swatch = TRUE;
  swatched.gauge.swatch
      = (BwSwatch){ BW_SWATCH_COLUMNS, BW_SWATCH_ROWS, BW_SWATCH_COLUMNS * design->gauge.column_mm,
                    (BW_SWATCH_ROWS + 1) / 2.0 * design->gauge.pitch_mm };
  BwPitch pitch = bw_gauge_pitch (&swatched.gauge, NULL, 0);
  double after = bw_sure_sd_after (design, BW_SWATCH_ROWS);
  assert_true (after < design->pitch.sd_mm);
  assert_true (bw_sure_sd_after (design, 100) < after);
  assert_true (fabs (after - pitch.sd_mm) < 1e-12);
}

static void
the_chance_is_told_with_and_without_a_swatch (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  g_autofree char *without = bw_sure_words_chance (&design, stone, 92);
  assert_tells (without, "with a swatch");
  assert_tells (without, "row 92");
  design.gauge.has_swatch = TRUE;
  g_autofree char *with = bw_sure_words_chance (&design, stone, 92);
  assert_null (strstr (with, "with a swatch"));
}

/* Three lines at most, each with a better chance than there is. */
static void
what_would_help_most_is_told_in_order (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  BwHelps helps;
  bw_helps_init (&helps, &design, stone);
  g_autofree char *words = bw_sure_words_helps (&design, stone, 92, 0);
  g_auto (GStrv) lines = g_strsplit (words, "\n", -1);
  assert_true (helps.n >= 3);
  assert_int_equal (g_strv_length (lines), 4);
  assert_tells (lines[0], "What helps most");
  for (int i = 0; i < 3; i++) {
    g_autofree char *percent = g_strdup_printf (": %.0f %%", 100 * helps.help[i].chance);
    assert_true (g_str_has_suffix (lines[i + 1], percent));
  }
  design.tried = (BwBelief){ TRUE, 0.1, 0.3, 57 };
  g_autofree char *tried = bw_sure_words_helps (&design, stone, 92, 0);
  assert_null (strstr (tried, "help most"));
}

/* The words at the foot and those on Measure, with so many rows woven. Owned. */
static char *
advice_with (BwProject *project, int done)
{
  const BwDesign *design = bw_project_get_design (project);
  assert_true (bw_project_set_progress (project, "", done, NULL, 0, NULL));
  BwFitTold told = bw_fit_told (project);
  g_autofree char *foot = bw_fit_words_sentence (&told, bw_project_fit (project),
                                                 design->limits.slack_mm, BW_UNIT_MM);
  g_autofree char *measure
      = bw_sure_words_helps (design, bw_project_stone (project), told.try_on_row, done);
  return g_strconcat (foot, measure, NULL);
}

/* A row that lies behind is no row to do anything at. */
static void
what_can_no_longer_be_done_is_not_advised (void **state)
{
  g_autoptr (BwProject) example = bw_project_new ();
  gsize length;
  g_autofree char *data = bw_project_to_data (example, &length);
  g_autoptr (BwProject) project = bw_project_load_data (data, length, NULL);
  assert_non_null (project);
  int rows = bw_project_get_design (project)->band.rows;
  int row = bw_project_forecast (project)->try_on_row;
  g_autofree char *at_row = g_strdup_printf ("try on at row %d", row);
  g_autofree char *begun = advice_with (project, 4), *due = advice_with (project, row);
  g_autofree char *woven = advice_with (project, rows);
  assert_tells (begun, at_row);
  assert_tells (due, "try on now");
  assert_null (strstr (due, at_row));
  assert_null (strstr (due, "Measure the strip once"));
  assert_tells (woven, "rows are woven: how the ends meet decides.");
  assert_null (strstr (woven, "try on"));
}

/* Wherever a line is broken, a share at its end has a word beside it. */
static void
a_share_that_ends_a_line_is_not_left_alone (void **state)
{
  static const char *const pairs[][2] = {
    { "by calliper: 78 %", "by calliper:\u00a078\u00a0%" },
    { "now, 70.5 %.", "now,\u00a070.5\u00a0%." },
    { "first: 33 %\nthen: 78 %", "first:\u00a033\u00a0%\nthen:\u00a078\u00a0%" },
    { "78 % of them at 12 mm", "78\u00a0% of them at 12\u00a0mm" },
    { "33 % instead of 40 %, now", "33\u00a0% instead of 40\u00a0%, now" },
    { "", "" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++) {
    g_autofree char *kept = bw_words_kept (pairs[i][0]);
    assert_string_equal (kept, pairs[i][1]);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_scale_meets_its_limits_and_runs_one_way),
    cmocka_unit_test (a_share_that_ends_a_line_is_not_left_alone),
    cmocka_unit_test (a_band_too_short_names_its_worst_column),
    cmocka_unit_test (a_band_too_long_tells_what_is_allowed),
    cmocka_unit_test (odd_rows_and_short_strips_are_told_as_such),
    cmocka_unit_test (every_remedy_says_what_to_do_and_what_it_gives),
    cmocka_unit_test (the_recommended_rows_are_offered_first_and_fit),
    cmocka_unit_test (a_remedy_that_voids_the_girth_over_says_so),
    cmocka_unit_test (lengths_in_words_follow_the_unit),
    cmocka_unit_test (gaps_of_one_kind_are_told_as_one),
    cmocka_unit_test (what_helps_makes_it_snug_or_surer),
    cmocka_unit_test (near_even_the_safer_count_is_offered),
    cmocka_unit_test (a_column_is_told_by_the_colour_most_of_its_beads_have),
    cmocka_unit_test (a_swatch_makes_the_pitch_surer),
    cmocka_unit_test (the_chance_is_told_with_and_without_a_swatch),
    cmocka_unit_test (what_would_help_most_is_told_in_order),
    cmocka_unit_test (what_can_no_longer_be_done_is_not_advised),
  };
  return cmocka_run_group_tests_name ("fit-line-words", tests, NULL, NULL);
}
