/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings without an installed schema: defaults, and values that last as long as the program. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/kit/settings.h"

#include <math.h>

static void
without_a_schema_the_defaults_hold (void **state)
{
  BwSettings *settings = bw_settings_get ();
  assert_false (bw_settings_are_kept (settings));
  assert_int_equal (bw_settings_get_unit (settings), BW_UNIT_MM);
  assert_true (bw_settings_get_flag (settings, "autosave"));
  assert_false (bw_settings_get_flag (settings, "show-letters"));
  assert_int_equal (bw_settings_get_count (settings, "window-width"), 1280);
  assert_int_equal (bw_settings_get_count (settings, "window-height"), 860);
  assert_true (fabs (bw_settings_get_number (settings, "stage-share") - 0.68) < 1e-12);
}

static void
count_notification (BwSettings *settings, GParamSpec *spec, gpointer data)
{
  (*(int *)data)++;
}

static void
a_change_is_told_once_and_no_change_is_not (void **state)
{
  BwSettings *settings = bw_settings_get ();
  int told = 0;
  gulong id = g_signal_connect (settings, "notify::units", G_CALLBACK (count_notification), &told);
  g_object_set (settings, "units", "inch", NULL);
  assert_int_equal (bw_settings_get_unit (settings), BW_UNIT_INCH);
  g_object_set (settings, "units", "inch", NULL);
  assert_int_equal (told, 1);
  g_object_set (settings, "units", "mm", NULL);
  assert_int_equal (told, 2);
  g_signal_handler_disconnect (settings, id);
}

static void
menu_actions_show_and_set_the_values (void **state)
{
  BwSettings *settings = bw_settings_get ();
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();
  bw_settings_add_actions (settings, G_ACTION_MAP (group));
  g_action_group_activate_action (G_ACTION_GROUP (group), "units", g_variant_new_string ("inch"));
  assert_int_equal (bw_settings_get_unit (settings), BW_UNIT_INCH);
  g_object_set (settings, "units", "mm", NULL);
  g_autoptr (GVariant) units = g_action_group_get_action_state (G_ACTION_GROUP (group), "units");
  assert_string_equal (g_variant_get_string (units, NULL), "mm");
  g_action_group_activate_action (G_ACTION_GROUP (group), "lamp-light", NULL);
  assert_true (bw_settings_get_flag (settings, "lamp-light"));
  g_action_group_activate_action (G_ACTION_GROUP (group), "lamp-light", NULL);
  assert_false (bw_settings_get_flag (settings, "lamp-light"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (without_a_schema_the_defaults_hold),
    cmocka_unit_test (a_change_is_told_once_and_no_change_is_not),
    cmocka_unit_test (menu_actions_show_and_set_the_values),
  };
  return cmocka_run_group_tests_name ("settings", tests, NULL, NULL);
}
