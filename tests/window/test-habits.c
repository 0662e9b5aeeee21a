/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker is used to: mended in the workshop's window, and what new projects start with. */
#include "own-book.h"

#include "app/keep/workbook.h"
#include "app/kit/settings.h"
#include "project/book/book-habits.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static BwHabits
kept (void)
{
  g_autoptr (BwBook) book = read_book ();
  BwHabits habits;
  bw_book_get_habits (book, &habits);
  return habits;
}

static gboolean
tail_is_kept (gpointer data)
{
  BwHabits habits = kept ();
  return habits.has[BW_HABIT_TAIL] && habits.value[BW_HABIT_TAIL] == 123;
}

static gboolean
all_are_kept (gpointer data)
{
  BwHabits habits = kept ();
  return habits.has[BW_HABIT_NEEDLE] && habits.has[BW_HABIT_SPARE] && habits.has[BW_HABIT_OVERHANG];
}

static gboolean
none_is_kept (gpointer data)
{
  BwHabits habits = kept ();
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    if (habits.has[habit])
      return FALSE;
  return TRUE;
}

static gboolean
is_entry_of (GtkWidget *widget, gconstpointer habit)
{
  return GTK_IS_ENTRY (widget) && gtk_widget_get_parent (widget)
         && GTK_IS_GRID (gtk_widget_get_parent (widget))
         && g_object_get_data (G_OBJECT (widget), "habit") == habit;
}

static void
type_habit (GtkWidget *window, BwHabit habit, const char *text)
{
  GtkWidget *entry = desk_look_for (window, is_entry_of, GINT_TO_POINTER (habit));
  assert_non_null (entry);
  maker_reveal (entry);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
  desk_key ("Return", 0);
}

static void
a_habit_is_typed_and_what_is_none_is_told (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "habits");
  wait_for (window, "New projects start with what you are used to");
  type_habit (window, BW_HABIT_TAIL, "123");
  desk_until (tail_is_kept, NULL);
  type_habit (window, BW_HABIT_NEEDLE, "thin");
  wait_for (window, "thin");
  assert_false (kept ().has[BW_HABIT_NEEDLE]);
  desk_keep ("habits");
  close_workshop (maker, window);
}

static const char *
hint_of (GtkWidget *window, BwHabit habit)
{
  GtkWidget *entry = desk_look_for (window, is_entry_of, GINT_TO_POINTER (habit));
  return gtk_entry_get_placeholder_text (GTK_ENTRY (entry));
}

static void
hints_are_in_the_unit_that_is_chosen (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "habits");
  wait_for (window, "New projects start with what you are used to");
  assert_string_equal (hint_of (window, BW_HABIT_TAIL), "90 mm");
  g_object_set (bw_settings_get (), "units", "inch", NULL);
  assert_null (strstr (hint_of (window, BW_HABIT_TAIL), "mm"));
  g_object_set (bw_settings_get (), "units", "mm", NULL);
  close_workshop (maker, window);
}

static gboolean
second_window (gpointer data)
{
  GtkWindow **found = data;
  for (GList *item = gtk_application_get_windows (maker_application ()); item; item = item->next)
    if (BW_IS_WINDOW (item->data) && item->data != (gpointer)found[0]
        && gtk_widget_get_mapped (item->data))
      found[1] = item->data;
  return found[1] != NULL;
}

/* The design's own become habits, a new project has them and says so, and they are forgotten. */
static void
a_designs_settings_become_habits_of_new_projects (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWindow *windows[2] = { GTK_WINDOW (maker->window), NULL };
  BwDesign design = *maker_design (maker);
  design.thread.tail_mm = 144;
  design.supply.spare = 0.3;
  assert_true (bw_project_set_design (maker_project (maker), "Thread", &design, NULL));
  GtkWidget *window = open_workshop (maker, "habits");
  wait_for (window, "New projects start with what you are used to");
  desk_until (none_is_kept, NULL);
  maker_click_words (window, "Make This Design’s Settings My Habits");
  desk_until (all_are_kept, NULL);
  desk_rest ();
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "new", NULL);
  desk_until (second_window, windows);
  wait_for (GTK_WIDGET (windows[1]), "Begun with your habits: ");
  desk_keep ("habits-begun");
  const BwDesign *begun = bw_project_get_design (bw_window_get_project (BW_WINDOW (windows[1])));
  assert_true (begun->thread.tail_mm == 144);
  assert_true (begun->supply.spare == 0.3);
  gtk_window_close (windows[1]);
  desk_settle ();
  gtk_window_present (GTK_WINDOW (window));
  desk_settle ();
  maker_click_words (window, "Forget Them");
  desk_until (none_is_kept, NULL);
  close_workshop (maker, window);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_book, tear_down_book)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_habit_is_typed_and_what_is_none_is_told),
    IN_WINDOW (hints_are_in_the_unit_that_is_chosen),
    IN_WINDOW (a_designs_settings_become_habits_of_new_projects),
  };
  return maker_run (tests);
}
