/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The menu of demos calls each by its title. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/keep/demos.h"
#include "app/window/menus.h"

static void
a_demo_is_listed_by_its_title (void **state)
{
  g_setenv ("BANDWRIGHT_DATA_DIR", g_getenv ("BW_TEST_DATA"), TRUE);
  g_autoptr (GPtrArray) demos = bw_demos_find ();
  g_autoptr (GMenu) menu = g_menu_new ();
  bw_demo_menu_fill (menu);
  assert_true (demos->len >= 3);
  assert_int_equal (g_menu_model_get_n_items (G_MENU_MODEL (menu)), demos->len);
  for (guint i = 0; i < demos->len; i++) {
    g_autoptr (BwProject) project = bw_demo_load (g_ptr_array_index (demos, i), NULL);
    g_autofree char *label = NULL;
    assert_non_null (project);
    assert_true (
        g_menu_model_get_item_attribute (G_MENU_MODEL (menu), (int)i, "label", "s", &label));
    assert_string_equal (label, bw_project_get_title (project));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_demo_is_listed_by_its_title),
  };
  return cmocka_run_group_tests_name ("menus", tests, NULL, NULL);
}
