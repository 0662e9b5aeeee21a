/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sign is never green beside odds that say otherwise, and the words name what the forecast has.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "output/report/fit-sentence.h"
#include "output/report/report.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static BwProject *
load (char *data)
{
  g_autofree char *owned = data;
  BwProject *project = bw_project_load_data (owned, strlen (owned), NULL);
  assert_non_null (project);
  return project;
}

/* A new project as a file knows it: no measurement is an example. */
static BwProject *
plain_project (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  return load (bw_project_to_data (project, NULL));
}

/* Another stone, other hands, more or fewer rows than fit; seldom an odd number. */
static BwProject *
random_project (GRand *rand)
{
  g_autoptr (BwProject) project = plain_project ();
  BwDesign design = *bw_project_get_design (project);
  for (int i = 0; i < 3; i++)
    design.stone.values_mm[i] = g_rand_double_range (rand, 14, 26);
  design.stone.girth_sd_mm = g_rand_double_range (rand, 0.05, 1);
  design.gauge.has_swatch = g_rand_int_range (rand, 0, 4) > 0;
  int rows = g_rand_int_range (rand, 10, 120);
  design.gauge.swatch = (BwSwatch){ 12, rows, 12 * 1.32, (rows + 1) / 2.0 * 1.6 };
  assert_true (bw_project_set_design (project, "Random", &design, NULL));
  design.band.rows = 2 * bw_project_forecast (project)->recommended
                     + 2 * g_rand_int_range (rand, -2, 3) - (g_rand_int_range (rand, 0, 12) == 0);
  assert_true (bw_project_set_design (project, "Rows", &design, NULL));
  return g_steal_pointer (&project);
}

static char *
sentence_of (BwProject *project, const BwFitTold *told)
{
  return bw_fit_words_sentence (told, bw_project_fit (project),
                                bw_project_get_design (project)->limits.slack_mm, BW_UNIT_MM);
}

/* The numbers before a sign, in their order. */
static GArray *
numbers_in (const char *text, const char *pattern)
{
  GArray *numbers = g_array_new (FALSE, FALSE, sizeof (int));
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *digits = g_match_info_fetch (match, 1);
    int number = atoi (digits);
    g_array_append_val (numbers, number);
  }
  return numbers;
}

static double
chance_of (const BwForecast *forecast, int rows)
{
  for (int i = 0; i < forecast->n_chances; i++)
    if (2 * forecast->chance[i].beads_around == rows)
      return forecast->chance[i].p;
  return 0;
}

static void
assert_no_green_beside_poor_odds (BwProject *project, const BwFitTold *told)
{
  const BwForecast *forecast = bw_project_forecast (project);
  g_autofree char *sentence = sentence_of (project, told);
  g_autofree char *odds = bw_fit_words_odds (told);
  g_autofree char *all = g_strconcat (sentence, " ", odds, NULL);
  g_autoptr (GArray) told_chances = numbers_in (all, "(\\d+) %");
  if (told->sign != BW_SIGN_SNUG)
    return;
  assert_int_equal (bw_project_fit (project)->verdict, BW_VERDICT_SNUG);
  assert_true (chance_of (forecast, told->rows) >= 0.6);
  assert_true (told_chances->len > 0);
  for (guint i = 0; i < told_chances->len; i++)
    assert_true (g_array_index (told_chances, int, i) >= 60);
  assert_null (strstr (bw_fit_words_head (told), "paper"));
}

/* Counts and try-on row of the sentence, counts and chances of the odds, by the forecast alone. */
static void
assert_names_the_forecast (BwProject *project, const BwFitTold *told)
{
  const BwForecast *forecast = bw_project_forecast (project);
  g_autofree char *sentence = sentence_of (project, told), *odds = bw_fit_words_odds (told);
  const char *weave = strstr (sentence, "Weave ");
  assert_non_null (weave);
  g_autoptr (GArray) named = numbers_in (weave, "(\\d+)");
  assert_true (named->len == 2 || named->len == 3);
  double together = 0;
  int first = g_array_index (named, int, 0), last = g_array_index (named, int, named->len - 2);
  for (int rows = first; rows <= last; rows += 2) {
    assert_true (chance_of (forecast, rows) >= 0.01);
    together += chance_of (forecast, rows);
  }
  assert_true (together >= 0.6 || forecast->n_chances == (last - first) / 2 + 1);
  assert_int_equal (g_array_index (named, int, named->len - 1), forecast->try_on_row);
  g_autoptr (GArray) pairs = numbers_in (odds, "(\\d+)");
  for (guint i = last == first + 2 ? 0 : pairs->len - 2; i + 1 < pairs->len; i += 2)
    assert_int_equal (lround (100 * chance_of (forecast, g_array_index (pairs, int, i))),
                      g_array_index (pairs, int, i + 1));
}

static void
no_green_stands_beside_odds_that_say_otherwise (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6060);
  int seen[4] = { 0 }, paper = 0;
  for (int i = 0; i < 300; i++) {
    g_autoptr (BwProject) project = random_project (rand);
    BwFitTold told = bw_fit_told (project);
    assert_no_green_beside_poor_odds (project, &told);
    assert_names_the_forecast (project, &told);
    seen[told.sign]++;
    paper += told.sign == BW_SIGN_NEAR_EVEN && told.verdict == BW_VERDICT_SNUG;
  }
  for (int sign = 0; sign < 4; sign++)
    assert_true (seen[sign] > 5);
  assert_true (paper > 5);
}

/* Rows whose chance is named are not told off in the same breath, and the others are. */
static void
rows_among_the_likely_ones_are_left_to_the_try_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6061);
  for (int i = 0; i < 200; i++) {
    g_autoptr (BwProject) project = random_project (rand);
    BwFitTold told = bw_fit_told (project);
    gboolean among = told.rows >= told.first_rows && told.rows <= told.last_rows;
    if (told.verdict == BW_VERDICT_ODD_ROWS)
      assert_int_equal (told.sign, BW_SIGN_WILL_NOT_CLOSE);
    else if (told.verdict != BW_VERDICT_SNUG)
      assert_int_equal (told.sign, among                              ? BW_SIGN_NEAR_EVEN
                                   : told.verdict == BW_VERDICT_LOOSE ? BW_SIGN_LOOSE
                                                                      : BW_SIGN_WILL_NOT_CLOSE);
  }
}

/* Asked of the forecast again, with those rows woven: its own chance to close. */
static void
the_safer_count_closes_four_times_in_five (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6062);
  for (int i = 0; i < 60; i++) {
    g_autoptr (BwProject) project = random_project (rand);
    BwFitTold told = bw_fit_told (project);
    BwDesign design = *bw_project_get_design (project);
    design.band.rows = told.safer_rows;
    assert_true (bw_project_set_design (project, "Safer", &design, NULL));
    double closes = bw_project_forecast (project)->closes_probability;
    assert_true (closes >= 0.8 && closes >= told.safer - 1e-9 && closes - told.safer < 0.03);
    design.band.rows -= 2;
    assert_true (bw_project_set_design (project, "Less safe", &design, NULL));
    assert_true (bw_project_forecast (project)->closes_probability < 0.83);
  }
}

/* A new project's stone is nobody's, however surely it fits. */
static void
an_example_gets_no_green (void **state)
{
  g_autoptr (BwProject) example = bw_project_new ();
  BwDesign design = *bw_project_get_design (example);
  design.gauge.has_swatch = TRUE;
  design.gauge.swatch = (BwSwatch){ 12, 200, 12 * 1.3, 201 / 2.0 * design.gauge.pitch_mm };
  design.stone.girth_sd_mm = 0.02;
  assert_true (bw_project_set_design (example, "Sure hands", &design, NULL));
  assert_true (bw_project_stone_is_example (example));
  g_autoptr (BwProject) own = load (bw_project_to_data (example, NULL));
  BwFitTold of_example = bw_fit_told (example), of_own = bw_fit_told (own);
  assert_int_equal (of_own.sign, BW_SIGN_SNUG);
  assert_int_equal (of_example.sign, BW_SIGN_NEAR_EVEN);
  g_autofree char *sentence = sentence_of (example, &of_example);
  assert_non_null (strstr (sentence, "your own stone"));
  assert_string_equal (bw_fit_words_head (&of_example), "Snug on the example");
}

static void
two_counts_near_even_are_one_sentence (void **state)
{
  BwFit fit = { .rows = 98, .beads_around = 49, .verdict = BW_VERDICT_SNUG };
  BwForecast forecast = { .recommended = 49,
                          .closes_probability = 0.7,
                          .try_on_row = 94,
                          .n_chances = 3,
                          .chance = { { 48, 0.1 }, { 49, 0.52 }, { 50, 0.31 } } };
  BwFitTold told;
  bw_fit_told_init (&told, &fit, &forecast, FALSE);
  g_autofree char *sentence = bw_fit_words_sentence (&told, &fit, 0.8, BW_UNIT_MM);
  g_autofree char *odds = bw_fit_words_odds (&told), *chances = bw_fit_words_chances (&told);
  assert_string_equal (bw_fit_words_head (&told), "Snug on paper");
  assert_string_equal (sentence, "Weave 98 or 100: try on at row 94, then decide.");
  assert_string_equal (odds, "98 rows turn out right with 52 %, 100 with 31 %.");
  assert_string_equal (
      chances, "98 rows close with 70 %: just right with 52 %, longer than need be with 18 %.");
  assert_int_equal (told.safer_rows, 100);
}

static void
where_no_count_stands_out_none_is_named (void **state)
{
  BwFit fit = { .rows = 98, .beads_around = 49, .verdict = BW_VERDICT_SNUG };
  BwForecast forecast = { .recommended = 49, .closes_probability = 0.5, .try_on_row = 20 };
  BwFitTold told;
  bw_fit_told_init (&told, &fit, &forecast, FALSE);
  g_autofree char *sentence = bw_fit_words_sentence (&told, &fit, 0.8, BW_UNIT_MM);
  g_autofree char *odds = bw_fit_words_odds (&told);
  assert_int_equal (told.sign, BW_SIGN_NEAR_EVEN);
  assert_string_equal (sentence, "No count stands out: weave a swatch first.");
  assert_string_equal (odds, "Each count is right with less than 1 %.");
}

/* The tool's report says the very sentence. */
static void
the_report_says_the_same_sentence (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6063);
  for (int i = 0; i < 10; i++) {
    g_autoptr (BwProject) project = random_project (rand);
    BwFitTold told = bw_fit_told (project);
    g_autofree char *sentence = sentence_of (project, &told), *odds = bw_fit_words_odds (&told);
    g_autofree char *text = bw_report_fit (project, 0, FALSE, NULL);
    g_autofree char *whole = g_strdup_printf ("%s. %s", bw_fit_words_head (&told), sentence);
    assert_non_null (strstr (text, whole));
    assert_non_null (strstr (text, odds));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_green_stands_beside_odds_that_say_otherwise),
    cmocka_unit_test (rows_among_the_likely_ones_are_left_to_the_try_on),
    cmocka_unit_test (the_safer_count_closes_four_times_in_five),
    cmocka_unit_test (an_example_gets_no_green),
    cmocka_unit_test (two_counts_near_even_are_one_sentence),
    cmocka_unit_test (where_no_count_stands_out_none_is_named),
    cmocka_unit_test (the_report_says_the_same_sentence),
  };
  return cmocka_run_group_tests_name ("fit-told", tests, NULL, NULL);
}
