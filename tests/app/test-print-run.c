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
each_kind_is_laid_out_for_its_paper (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  for (BwPrintKind kind = BW_PRINT_SHEET; kind <= BW_PRINT_KIT; kind++) {
    g_autoptr (BwSheet) sheet = bw_print_sheet_new (project, kind, BW_PAPER_LETTER);
    assert_true (bw_paper_equal (bw_sheet_get_paper (sheet), BW_PAPER_LETTER));
    assert_true (bw_sheet_n_pages (sheet) >= 1);
  }
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
    cmocka_unit_test (each_kind_is_laid_out_for_its_paper),
  };
  return cmocka_run_group_tests_name ("print-run", tests, NULL, NULL);
}
