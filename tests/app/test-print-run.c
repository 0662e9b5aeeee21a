/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which paper holds a page at true size. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/make/print-run.h"
#include "app/kit/settings.h"

static void
each_paper_takes_the_layout_of_its_name (void **state)
{
  BwPaper paper;
  assert_true (bw_print_paper_for (595.3, 841.9, &paper));
  assert_true (bw_paper_equal (paper, BW_PAPER_A4));
  assert_true (bw_print_paper_for (612, 792, &paper));
  assert_true (bw_paper_equal (paper, BW_PAPER_LETTER));
}

static void
a_larger_paper_is_used (void **state)
{
  BwPaper paper;
  assert_true (bw_print_paper_for (841.9, 1190.6, &paper));
  assert_true (bw_paper_equal (paper, (BwPaper){ 841.9, 1190.6, 0 }));
  assert_true (bw_print_paper_for (612, 1008, &paper));
  assert_true (bw_paper_equal (paper, BW_PAPER_A4));
}

static void
a_paper_lying_across_gets_its_own_pages_and_a_small_one_none (void **state)
{
  BwPaper paper;
  assert_true (bw_print_paper_for (419.5, 595.3, &paper));
  assert_true (bw_paper_equal (paper, BW_PAPER_A5));
  assert_false (bw_print_paper_for (400, 595.3, &paper));
  assert_true (bw_print_paper_for (841.9, 595.3, &paper));
  assert_true (bw_paper_equal (paper, (BwPaper){ 841.9, 595.3 }));
  assert_false (bw_print_paper_for (0, 0, &paper));
}

static void
the_preferred_paper_goes_before_the_usual_one (void **state)
{
  g_object_set (bw_settings_get (), "paper", "letter", NULL);
  assert_true (bw_paper_equal (bw_print_paper (), BW_PAPER_LETTER));
  g_object_set (bw_settings_get (), "paper", "a4", NULL);
  assert_true (bw_paper_equal (bw_print_paper (), BW_PAPER_A4));
  g_object_set (bw_settings_get (), "paper", "usual", NULL);
}

static void
what_is_wished_for_goes_with_every_paper (void **state)
{
  static const struct {
    const char *name;
    guint wish;
  } cases[] = { { "print-large", BW_PRINT_LARGE },
                { "print-sparing", BW_PRINT_SPARING },
                { "print-costs", BW_PRINT_COSTS } };
  const double sizes[][2] = { { 595.3, 841.9 }, { 841.9, 1190.6 }, { 419.5, 595.3 } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    BwPaper paper;
    g_object_set (bw_settings_get (), cases[i].name, TRUE, NULL);
    assert_int_equal (bw_print_paper ().wishes, cases[i].wish);
    for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++) {
      assert_true (bw_print_paper_for (sizes[k][0], sizes[k][1], &paper));
      assert_int_equal (paper.wishes, cases[i].wish);
    }
    g_object_set (bw_settings_get (), cases[i].name, FALSE, NULL);
  }
}

static void
whoever_measures_in_inches_gets_pages_in_inches (void **state)
{
  BwPaper paper;
  assert_int_equal (bw_paper_unit (bw_print_paper ()), BW_UNIT_MM);
  g_object_set (bw_settings_get (), "units", "inch", NULL);
  assert_int_equal (bw_paper_unit (bw_print_paper ()), BW_UNIT_INCH);
  assert_true (bw_print_paper_for (841.9, 1190.6, &paper));
  assert_int_equal (bw_paper_unit (paper), BW_UNIT_INCH);
  g_object_set (bw_settings_get (), "units", "mm", NULL);
}

static void
a_size_of_ones_own_is_read_from_the_settings (void **state)
{
  const double mm = BW_POINTS_PER_MM;
  g_object_set (bw_settings_get (), "paper", "216x356", NULL);
  assert_true (bw_paper_equal (bw_print_paper (), (BwPaper){ 216 * mm, 356 * mm, 0 }));
  g_object_set (bw_settings_get (), "paper", "216x35", NULL);
  assert_true (bw_paper_equal (bw_print_paper (), BW_PAPER_A4)
               || bw_paper_equal (bw_print_paper (), BW_PAPER_LETTER));
  g_object_set (bw_settings_get (), "paper", "usual", NULL);
}

/* What is set by another version, or by hand, asks for nothing else than parts to leave out. */
static void
parts_that_are_left_out_are_wished_for_and_nothing_beside (void **state)
{
  g_object_set (bw_settings_get (), "print-left-out", (int)BW_PRINT_WITHOUT (BW_SHEET_CHART), NULL);
  assert_int_equal (bw_print_paper ().wishes, BW_PRINT_WITHOUT (BW_SHEET_CHART));
  g_object_set (bw_settings_get (), "print-left-out", G_MAXINT, NULL);
  guint all = 0;
  for (int part = 0; part < BW_N_SHEET_PARTS; part++)
    all |= BW_PRINT_WITHOUT (part);
  assert_int_equal (bw_print_paper ().wishes, all);
  g_object_set (bw_settings_get (), "print-left-out", 0, NULL);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_paper_takes_the_layout_of_its_name),
    cmocka_unit_test (a_larger_paper_is_used),
    cmocka_unit_test (what_is_wished_for_goes_with_every_paper),
    cmocka_unit_test (a_paper_lying_across_gets_its_own_pages_and_a_small_one_none),
    cmocka_unit_test (the_preferred_paper_goes_before_the_usual_one),
    cmocka_unit_test (whoever_measures_in_inches_gets_pages_in_inches),
    cmocka_unit_test (a_size_of_ones_own_is_read_from_the_settings),
    cmocka_unit_test (parts_that_are_left_out_are_wished_for_and_nothing_beside),
  };
  return cmocka_run_group_tests_name ("print-run", tests, NULL, NULL);
}
