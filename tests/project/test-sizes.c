/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"

#include "project/file/sizes.h"
#include <glib/gstdio.h>
#include <math.h>

/* What a list of sizes with this text gives; NULL for no file at all. */
static GArray *
load (const char *text, char **warning)
{
  g_autofree char *folder = g_dir_make_tmp ("bandwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "bead-sizes.json", NULL);
  GArray *sizes;

  if (text)
    assert_true (g_file_set_contents (path, text, -1, NULL));
  sizes = bw_sizes_load_from (path, warning);
  if (text)
    assert_int_equal (g_unlink (path), 0);
  assert_int_equal (g_rmdir (folder), 0);
  return sizes;
}

static const BwBead *
find (const GArray *sizes, const char *name)
{
  for (guint i = 0; i < sizes->len; i++)
    if (g_str_equal (g_array_index (sizes, BwBead, i).name, name))
      return &g_array_index (sizes, BwBead, i);
  return NULL;
}

static int
built_in (void)
{
  int n;

  bw_bead_sizes (&n);
  return n;
}

static void
without_a_file_the_built_in_sizes_serve (void **state)
{
  char *warning = (char *)"unset";
  g_autoptr (GArray) sizes = load (NULL, &warning);

  assert_null (warning);
  assert_int_equal (sizes->len, built_in ());
  assert_non_null (find (sizes, "11/0 cylinder"));
}

static void
the_users_sizes_add_to_the_table_and_replace_a_same_name (void **state)
{
  g_autofree char *warning = NULL;
  g_autoptr (GArray) sizes = load (
      "[{\"name\":\"11/0 cylinder\",\"diameter_mm\":1.65,\"length_mm\":1.32,\"hole_mm\":0.82},"
      " {\"name\":\"bugle stub\",\"diameter_mm\":2,\"length_mm\":3.5,\"hole_mm\":0.9,"
      "\"glass_g_cm3\":2.6,\"bag\":\"left\"}]",
      &warning);

  assert_null (warning);
  assert_int_equal (sizes->len, built_in () + 1);
  assert_true (fabs (find (sizes, "11/0 cylinder")->diameter_mm - 1.65) < 1e-12);
  assert_true (fabs (find (sizes, "11/0 cylinder")->glass_g_cm3 - 2.5) < 1e-12);
  assert_true (fabs (find (sizes, "bugle stub")->length_mm - 3.5) < 1e-12);
}

static void
a_broken_list_is_named_and_the_built_in_sizes_serve (void **state)
{
  static const struct {
    const char *text, *said;
  } cases[] = {
    { "", "empty" },
    { "{}", "a list is needed" },
    { "[1]", "/0: " },
    { "[{\"diameter_mm\":1.6,\"length_mm\":1.3,\"hole_mm\":0.8}]", "/0/name: " },
    { "[{\"name\":\"x\",\"diameter_mm\":1.6,\"length_mm\":1.3}]", "/0/hole_mm: " },
    { "[{\"name\":\"x\",\"diameter_mm\":1.6,\"length_mm\":1.3,\"hole_mm\":1.8}]", "/0/hole_mm: " },
    { "[{\"name\":\"y\",\"diameter_mm\":1.6,\"length_mm\":1.3,\"hole_mm\":0.8},"
      "{\"name\":\"x\",\"diameter_mm\":-1,\"length_mm\":1.3,\"hole_mm\":0.8}]",
      "/1/diameter_mm: " },
    { "[{\"name\":\"x\",\"diameter_mm\":\"1.6\",\"length_mm\":1.3,\"hole_mm\":0.8}]",
      "/0/diameter_mm: " },
    { "[] []", "something follows" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *warning = NULL;
    g_autoptr (GArray) sizes = load (cases[i].text, &warning), quiet = load (cases[i].text, NULL);

    assert_non_null (warning);
    assert_non_null (strstr (warning, "bead-sizes.json"));
    if (!strstr (warning, cases[i].said))
      fail_msg ("“%s” does not say “%s”", warning, cases[i].said);
    assert_int_equal (sizes->len, built_in ());
    assert_int_equal (quiet->len, built_in ());
  }
}

static void
the_process_reads_its_list_once_and_hands_out_copies (void **state)
{
  g_autofree char *folder = g_dir_make_tmp ("bandwright-XXXXXX", NULL);
  g_autofree char *own = g_build_filename (folder, "bandwright", NULL);
  g_autofree char *path = g_build_filename (own, "bead-sizes.json", NULL);
  g_autofree char *warning = NULL, *again = NULL;
  g_autoptr (GArray) first = NULL, second = NULL;

  g_setenv ("XDG_DATA_HOME", folder, TRUE);
  assert_int_equal (g_mkdir (own, 0700), 0);
  assert_true (g_file_set_contents (
      path, "[{\"name\":\"mine\",\"diameter_mm\":2,\"length_mm\":2,\"hole_mm\":1}]", -1, NULL));
  first = bw_sizes_load (&warning);
  assert_null (warning);
  assert_non_null (find (first, "mine"));
  assert_int_equal (g_unlink (path), 0);
  g_array_set_size (first, 0);
  second = bw_sizes_load (&again);
  assert_null (again);
  assert_non_null (find (second, "mine"));
  assert_int_equal (g_rmdir (own), 0);
  assert_int_equal (g_rmdir (folder), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (without_a_file_the_built_in_sizes_serve),
    cmocka_unit_test (the_users_sizes_add_to_the_table_and_replace_a_same_name),
    cmocka_unit_test (a_broken_list_is_named_and_the_built_in_sizes_serve),
    cmocka_unit_test (the_process_reads_its_list_once_and_hands_out_copies),
  };

  return cmocka_run_group_tests_name ("sizes", tests, NULL, NULL);
}
