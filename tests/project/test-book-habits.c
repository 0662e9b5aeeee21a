/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Habits in the maker's book, and projects that start with them. */
#include "config.h"

#include "project/book/book-file.h"
#include "project/book/book-habits.h"
#include "project/fault/fault-error.h"
#include "project/project.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define HEAD "{\"format\": \"bandwright-book\", \"version\": 1"

static BwBook *
book_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_from_data (text, strlen (text), &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

static BwHabits
random_habits (GRand *rand)
{
  BwHabits habits = { 0 };
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++) {
    habits.has[habit] = g_rand_boolean (rand);
    habits.value[habit] = habits.has[habit] ? g_rand_double_range (rand, 0.2, 3) : 0;
  }
  return habits;
}

static void
assert_same (const BwHabits *a, const BwHabits *b)
{
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++) {
    assert_int_equal (a->has[habit], b->has[habit]);
    if (a->has[habit])
      assert_true (a->value[habit] == b->value[habit]);
  }
}

static void
habits_come_back_as_they_were_put_in (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);
  g_autoptr (BwBook) book = book_of (HEAD ", \"habits\": {\"tea\": \"black\"}}");
  BwHabits before = { 0 };
  for (int round = 0; round < 50; round++) {
    BwHabits habits = random_habits (rand), found;
    assert_true (bw_book_change_habits (book, &before, &habits, NULL));
    g_autofree char *text = bw_book_to_data (book, NULL);
    assert_non_null (strstr (text, "\"tea\": \"black\""));
    g_autoptr (BwBook) again = book_of (text);
    bw_book_get_habits (again, &found);
    assert_same (&found, &habits);
    before = habits;
  }
}

static void
what_cannot_be_a_habit_is_named (void **state)
{
  static const char *const bad[][2] = { { "[]", "/habits: " },
                                        { "{\"needle_mm\": \"thin\"}", "/habits/needle_mm: " },
                                        { "{\"needle_mm\": 0}", "/habits/needle_mm: " },
                                        { "{\"tail_mm\": -1}", "/habits/tail_mm: " },
                                        { "{\"spare\": 11}", "/habits/spare: " } };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autofree char *text = g_strdup_printf (HEAD ", \"habits\": %s}", bad[i][0]);
    g_autoptr (GError) error = NULL;
    assert_null (bw_book_from_data (text, strlen (text), &error));
    if (!g_str_has_prefix (error->message, bad[i][1]))
      fail_msg ("%s: %s", bad[i][0], error->message);
  }
}

static void
habits_changed_meanwhile_are_not_written_over (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GError) error = NULL;
  BwHabits none = { 0 }, one = { 0 }, found;
  one.has[BW_HABIT_TAIL] = TRUE;
  one.value[BW_HABIT_TAIL] = 120;
  assert_true (bw_book_change_habits (book, &none, &one, NULL));
  assert_false (bw_book_change_habits (book, &none, &none, &error));
  assert_string_equal (error->message, "the habits were changed by another program meanwhile");
  bw_book_get_habits (book, &found);
  assert_same (&found, &one);
  one.value[BW_HABIT_TAIL] = -3;
  assert_false (bw_book_change_habits (book, &found, &one, NULL));
}

static void
another_books_habits_fill_what_one_has_none_of (void **state)
{
  g_autoptr (BwBook) own = book_of (HEAD ", \"habits\": {\"tail_mm\": 120}}");
  g_autoptr (BwBook) other = book_of (HEAD ", \"habits\": {\"tail_mm\": 80, \"spare\": 0.2}}");
  BwHabits habits;
  assert_true (bw_book_take_in (own, other, NULL));
  bw_book_get_habits (own, &habits);
  assert_true (habits.value[BW_HABIT_TAIL] == 120);
  assert_true (habits.has[BW_HABIT_SPARE] && habits.value[BW_HABIT_SPARE] == 0.2);
}

/* One that cannot be in the project is passed over, and the others hold. */
static void
a_new_project_starts_with_them (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwHabits habits = { 0 };
  double usual = bw_project_get_design (project)->thread.needle_mm;
  habits.has[BW_HABIT_TAIL] = habits.has[BW_HABIT_SPARE] = habits.has[BW_HABIT_OVERHANG] = TRUE;
  habits.has[BW_HABIT_NEEDLE] = TRUE;
  habits.value[BW_HABIT_TAIL] = 120;
  habits.value[BW_HABIT_SPARE] = 0.25;
  habits.value[BW_HABIT_OVERHANG] = 0.5;
  habits.value[BW_HABIT_NEEDLE] = 900;
  bw_project_begin_with_habits (project, &habits);
  const BwDesign *design = bw_project_get_design (project);
  assert_true (design->thread.tail_mm == 120);
  assert_true (design->supply.spare == 0.25);
  assert_true (design->bed.overhang_mm == 0.5);
  assert_true (design->thread.needle_mm == usual);
  assert_false (bw_project_can_undo (project));
  assert_int_equal (design->band.rows, bw_drawing_rows (bw_project_get_drawing (project)));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (habits_come_back_as_they_were_put_in),
    cmocka_unit_test (what_cannot_be_a_habit_is_named),
    cmocka_unit_test (habits_changed_meanwhile_are_not_written_over),
    cmocka_unit_test (another_books_habits_fill_what_one_has_none_of),
    cmocka_unit_test (a_new_project_starts_with_them),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
