/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker prefers, set by hand in one window, holds at once and in the next project. */
#include "kelp.h"

#include "app/kit/settings.h"
#include "app/window/preferences.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static GtkWidget *
open_preferences (Maker *maker)
{
  desk_key ("comma", GDK_CONTROL_MASK);
  GtkWindow *window = maker_dialog (maker);
  assert_true (BW_IS_PREFERENCES (window));
  desk_settle ();
  return GTK_WIDGET (window);
}

static BwProject *
next_project (void)
{
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "new", NULL);
  desk_settle ();
  GList *item = gtk_application_get_windows (maker_application ());
  for (; item; item = item->next)
    if (BW_IS_WINDOW (item->data) && !bw_project_get_file (bw_window_get_project (item->data)))
      return bw_window_get_project (item->data);
  fail_msg ("no new project");
  return NULL;
}

static void
put_back (void)
{
  g_object_set (bw_settings_get (), "start-bead", "", "start-needle-mm", 0.0, "start-tail-mm", 0.0,
                "start-cord-mm", 0.0, "units", "mm", "autosave", TRUE, NULL);
}

/* From before there were habits; each gives way to one. */
static void
what_was_preferred_earlier_still_holds (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  open_preferences (maker);
  desk_keep ("preferences");
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  g_object_set (bw_settings_get (), "start-tail-mm", 120.0, "start-needle-mm", 0.4, "start-cord-mm",
                0.5, NULL);
  BwProject *project = next_project ();
  const BwDesign *design = bw_project_get_design (project);
  assert_true (design->thread.tail_mm == 120);
  assert_true (design->thread.needle_mm == 0.4);
  assert_true (design->bed.cord_thickness_mm == 0.5);
  assert_int_equal (design->band.rows, 2 * bw_fit_recommended (design, bw_project_stone (project)));
  assert_false (bw_project_get_modified (project));
  assert_false (bw_project_can_undo (project));
  put_back ();
}

/* It does not go through the bead's hole. */
static void
a_needle_that_cannot_be_is_left_out (void **state)
{
  g_object_set (bw_settings_get (), "start-needle-mm", 5.0, "start-tail-mm", 77.0, NULL);
  const BwDesign *design = bw_project_get_design (next_project ());
  assert_true (design->thread.needle_mm == 0.36);
  assert_true (design->thread.tail_mm == 77);
  put_back ();
}

static void
switches_hold_at_once (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_preferences (maker);
  assert_true (bw_settings_get_flag (bw_settings_get (), "autosave"));
  maker_click_words (window, "Keep a safety copy of unsaved work");
  assert_false (bw_settings_get_flag (bw_settings_get (), "autosave"));
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  put_back ();
}

static gboolean
is_closed (gpointer maker)
{
  return ((Maker *)maker)->window == NULL;
}

/* The window goes, and the preferences with it, though the key was theirs. */
static void
the_program_is_quit_from_here_too (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  bw_project_set_modified (maker_project (maker), FALSE);
  open_preferences (maker);
  desk_key ("q", GDK_CONTROL_MASK);
  desk_until (is_closed, maker);
  desk_settle ();
  assert_int_equal (desk_count_mapped (), 0);
}

static void
it_opens_once (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  open_preferences (maker);
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "preferences", NULL);
  desk_settle ();
  assert_int_equal (desk_count_mapped (), 2);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (what_was_preferred_earlier_still_holds),
    IN_WINDOW (a_needle_that_cannot_be_is_left_out),
    IN_WINDOW (switches_hold_at_once),
    IN_WINDOW (it_opens_once),
    IN_WINDOW (the_program_is_quit_from_here_too),
  };
  return maker_run (tests);
}
