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

static gboolean
shows (GtkWidget *widget, gconstpointer placeholder)
{
  return GTK_IS_ENTRY (widget)
         && g_strcmp0 (gtk_entry_get_placeholder_text (GTK_ENTRY (widget)), placeholder) == 0;
}

static void
type_into (GtkWidget *window, const char *placeholder, const char *text)
{
  GtkWidget *entry = desk_look_for (window, shows, placeholder);
  assert_non_null (entry);
  maker_reveal (entry);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
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

static void
new_projects_start_with_what_is_typed (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_preferences (maker);
  desk_keep ("preferences");
  type_into (window, "90 mm", "12 cm");
  type_into (window, "0.36 mm", "0.4");
  type_into (window, "0.35 mm", "0.5");
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
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

static void
what_is_no_length_changes_nothing_and_is_marked (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_preferences (maker);
  type_into (window, "90 mm", "-4");
  assert_true (gtk_widget_has_css_class (desk_look_for (window, shows, "90 mm"), "error"));
  assert_true (bw_settings_get_number (bw_settings_get (), "start-tail-mm") >= 0);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
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
lengths_are_shown_in_the_unit_that_is_chosen (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_preferences (maker);
  type_into (window, "0.36 mm", "0.508");
  assert_non_null (desk_look_for (window, shows, "90 mm"));
  g_object_set (bw_settings_get (), "units", "inch", NULL);
  desk_settle ();
  desk_keep ("preferences-inch");
  assert_null (desk_look_for (window, shows, "90 mm"));
  g_autofree char *usual = bw_length_format (0.36, BW_UNIT_INCH, 2);
  g_autofree char *typed = bw_length_format (0.508, BW_UNIT_INCH, 3);
  GtkWidget *needle = desk_look_for (window, shows, usual);
  assert_non_null (needle);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (needle)), typed);
  assert_true (bw_settings_get_number (bw_settings_get (), "start-needle-mm") == 0.508);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
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
    IN_WINDOW (new_projects_start_with_what_is_typed),
    IN_WINDOW (what_is_no_length_changes_nothing_and_is_marked),
    IN_WINDOW (a_needle_that_cannot_be_is_left_out),
    IN_WINDOW (lengths_are_shown_in_the_unit_that_is_chosen),
    IN_WINDOW (switches_hold_at_once),
    IN_WINDOW (it_opens_once),
  };
  return maker_run (tests);
}
