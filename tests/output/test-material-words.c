/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Needle, necklace and findings in words. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "project/book/stash.h"
#include "project/book/book.h"
#include "output/report/order.h"
#include "output/report/report.h"
#include "sample.h"

static void
assert_words (char *words, const char *wanted)
{
  assert_string_equal (words, wanted);
  g_free (words);
}

static void
a_needle_is_told_by_its_size (void **state)
{
  int n;
  const BwNeedleSize *sizes = bw_needle_sizes (&n);
  BwMaterials materials = { .needle_most_mm = 0.37, .needle = &sizes[2] };
  assert_words (bw_needle_words (&materials, BW_UNIT_MM), "size 12 (0.36 mm) or finer");
  materials = (BwMaterials){ .needle_most_mm = 0.2 };
  assert_words (bw_needle_words (&materials, BW_UNIT_MM),
                "finer than size 15: only 0.2 mm go through the fullest bead");
  materials = (BwMaterials){ 0 };
  assert_words (bw_needle_words (&materials, BW_UNIT_MM),
                "none goes: the thread alone fills the fullest bead");
}

static void
a_necklace_is_told_with_its_closing (void **state)
{
  BwSupply supply = { .neck_mm = 457.2, .closing_mm = 150 };
  assert_words (bw_necklace_words (&supply, BW_UNIT_MM),
                "457 mm, closed with knots that take 150 mm more");
  supply.closing = BW_CLOSING_CLASP;
  supply.closing_mm = 25.4;
  assert_words (bw_necklace_words (&supply, BW_UNIT_INCH),
                "18 in, closed with a clasp whose ends take 1 in more");
}

static void
findings_tell_what_goes_through_the_loop (void **state)
{
  BwDesign design = { .bail = { .style = BW_BAIL_FLAP, .cord_mm = 3 } };
  BwMaterials materials = { .fitting_most_mm = 5.04 };
  assert_null (bw_ring_words (&materials, BW_UNIT_MM));
  assert_null (bw_clasp_words (&materials, &design, BW_UNIT_MM));
  materials.rings = materials.clasps = 2;
  materials.ring = (BwHangRing){ 1.2, 8.5, 2.34 };
  assert_words (bw_ring_words (&materials, BW_UNIT_MM),
                "2, closed: soldered, or with no gap the thread could slip through; wire thinner "
                "than 5 mm; at least 8.5 mm inside, of 1.2 mm wire; a cord of up to 2.3 mm passes "
                "it");
  assert_words (bw_clasp_words (&materials, &design, BW_UNIT_MM),
                "2, with two ends for a cord of 3 mm; up to 5 mm goes through the bail");
  materials.fitting_most_mm = -0.3;
  assert_words (bw_ring_words (&materials, BW_UNIT_MM),
                "2, closed; but nothing goes through the loop yet");
  assert_words (bw_clasp_words (&materials, &design, BW_UNIT_MM),
                "2, with two ends for a cord of 3 mm");
}

static void
hours_are_told_in_hours_and_minutes (void **state)
{
  assert_words (bw_hours_words (0), "0 h 00 min");
  assert_words (bw_hours_words (5.1666), "5 h 10 min");
  assert_words (bw_hours_words (1.9999), "2 h 00 min");
}

/* The list to read names what a ring bail closed with a clasp needs, and what it all costs. */
static void
the_list_names_ring_clasp_needle_and_time (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (60);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_RING);
  sample->prices = TRUE;
  g_autofree char *json = sample_json (sample);
  g_autoptr (BwProject) project = bw_project_load_data (json, strlen (json), NULL);
  BwDesign design = *bw_project_get_design (project);
  design.supply.closing = BW_CLOSING_CLASP;
  design.supply.findings = 2.5;
  assert_true (bw_project_set_design (project, "Clasp", &design, NULL));
  g_autofree char *list = bw_materials_text (project, 0, BW_UNIT_MM);
  static const char *const words[]
      = { "Metal ring", "Clasp", "Necklace", "Needle", "Ring and clasp", "Time at the beads" };
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    assert_non_null (strstr (list, words[i]));
}

/* A tenth of a gram is a finding on an ear, and nobody weighs a boulder in grams. */
static void
a_piece_is_weighed_as_finely_as_a_maker_does (void **state)
{
  static const struct {
    double grams;
    const char *words;
  } cases[] = { { 0.34, "0.3 g" }, { 6.76, "6.8 g" },    { 9.94, "9.9 g" },     { 9.96, "10 g" },
                { 72.4, "72 g" },  { 9999.4, "9999 g" }, { 134383, "134.4 kg" } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *words = bw_text_mass (cases[i].grams);
    assert_string_equal (words, cases[i].words);
  }
}

/* A stash of so much thread and bed cord, in mm; the next one takes its place. */
static void
own_stash (double thread_mm, double cord_mm)
{
  g_autofree char *data = g_strdup_printf (
      "{\"format\":\"bandwright-book\",\"version\":1,\"stash\":["
      "{\"what\":\"thread\",\"name\":\"black\",\"width_mm\":0.15,\"length_mm\":%.0f},"
      "{\"what\":\"bed-cord\",\"name\":\"brown\",\"width_mm\":1,\"length_mm\":%.0f}]}",
      thread_mm, cord_mm);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwBook) book = bw_book_from_data (data, strlen (data), &error);
  if (!book)
    fail_msg ("%s", error->message);
  g_autoptr (BwStash) stash = bw_stash_new (book);
  bw_stash_set_own (stash);
}

static void
assert_mm (double found, double expected)
{
  assert_true (fabs (found - expected) < 1e-6);
}

/* What the pieces take of the thread in the stash is not there for further rows; and every list
 * says of cord, thread and reserve what is to be bought. */
static void
what_is_owned_is_taken_off_thread_cord_and_reserve (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (61);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
  g_autofree char *json = sample_json (sample);
  g_autoptr (BwProject) project = bw_project_load_data (json, strlen (json), NULL);
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  bw_order_init (order, project, 0);
  double takes = order->thing[BW_STASH_THREAD].wanted, more = order->further.wanted;
  assert_true (more > 0);
  assert_mm (order->further.order, more);
  assert_false (order->further.in_stash);
  /* none, less than the piece takes, and then some of the reserve, and more than all */
  const double there[] = { 0, takes - 300, takes + more / 2, takes + more + 500 };
  for (gsize i = 0; i < G_N_ELEMENTS (there); i++) {
    own_stash (there[i], 1e6);
    bw_order_init (order, project, 0);
    assert_mm (order->thing[BW_STASH_THREAD].order, MAX (takes - round (there[i]), 0));
    assert_mm (order->further.in_hand, MAX (round (there[i]) - takes, 0));
    assert_mm (order->further.order, MAX (more - order->further.in_hand, 0));
    g_autofree char *list = bw_order_text (project, BW_UNIT_MM);
    const char *reserve = strstr (list, "Thread in reserve"), *cord = strstr (list, "Waxed cord");
    g_autofree char *buy = bw_cut_words (order->further.order, BW_UNIT_MM);
    g_autofree char *told = g_strdup_printf ("in the stash, buy %s", buy);
    assert_true (cord && reserve);
    g_autofree char *line = g_strndup (reserve, strcspn (reserve, "\n"));
    g_autofree char *cord_line = g_strndup (cord, strcspn (cord, "\n"));
    assert_int_equal (strstr (line, told) != NULL, order->further.order > 0);
    assert_true (g_str_has_suffix (cord_line, "1000.00 m in the stash"));
    g_autofree char *csv = bw_materials_csv (project, 0);
    const char *record = strstr (csv, "thread in reserve");
    assert_non_null (record);
    g_autofree char *fields = g_strndup (record, strcspn (record, "\r"));
    g_autofree char *last
        = g_strdup_printf (",%g", ceil (MAX (order->further.order / 10 - 1e-9, 0)) / 100);
    if (!g_str_has_suffix (fields, last))
      fail_msg ("%s does not end in %s", fields, last);
  }
  bw_stash_set_own (NULL);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_owned_is_taken_off_thread_cord_and_reserve),
    cmocka_unit_test (a_piece_is_weighed_as_finely_as_a_maker_does),
    cmocka_unit_test (a_needle_is_told_by_its_size),
    cmocka_unit_test (a_necklace_is_told_with_its_closing),
    cmocka_unit_test (findings_tell_what_goes_through_the_loop),
    cmocka_unit_test (hours_are_told_in_hours_and_minutes),
    cmocka_unit_test (the_list_names_ring_clasp_needle_and_time),
  };
  return cmocka_run_group_tests_name ("material words", tests, NULL, NULL);
}
