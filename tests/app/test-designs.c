/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of the designs opened last: the newest first, each once, for as long as nobody forgets
 * it, whatever stands in its file. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/keep/designs.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char *
list_path (void)
{
  return g_build_filename (g_get_user_data_dir (), "bandwright", "designs.txt", NULL);
}

static void
write_list (const char *text)
{
  g_autofree char *path = list_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  g_mkdir_with_parents (folder, 0700);
  assert_true (g_file_set_contents (path, text, -1, NULL));
}

/* An object of its own stands for another process. */
static BwDesigns *
another_process (void)
{
  return g_object_new (BW_TYPE_DESIGNS, NULL);
}

static int
empty (void **state)
{
  write_list ("");
  return 0;
}

static void
remember (BwDesigns *designs, const char *name)
{
  g_autofree char *path = g_strdup_printf ("/nowhere/%s.bandwright", name);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  bw_designs_remember (designs, file);
}

/* names: what is expected, apart by blanks, newest first. */
static void
assert_list (BwDesigns *designs, const char *names)
{
  g_autoptr (GPtrArray) files = bw_designs_list (designs);
  g_autoptr (GString) got = g_string_new (NULL);
  for (guint i = 0; i < files->len; i++) {
    g_autofree char *name = g_file_get_basename (g_ptr_array_index (files, i));
    g_string_append_printf (got, "%s%.*s", i ? " " : "", (int)strcspn (name, "."), name);
  }
  assert_string_equal (got->str, names);
}

static void
the_newest_stands_first_and_each_once (void **state)
{
  BwDesigns *designs = bw_designs_get ();
  remember (designs, "wrack");
  remember (designs, "kelp");
  remember (designs, "dulse");
  remember (designs, "wrack");
  assert_list (designs, "wrack dulse kelp");
}

static void
what_is_forgotten_is_gone_for_every_process (void **state)
{
  g_autoptr (BwDesigns) other = another_process ();
  g_autoptr (GFile) kelp = g_file_new_for_path ("/nowhere/kelp.bandwright");
  remember (bw_designs_get (), "wrack");
  remember (bw_designs_get (), "kelp");
  bw_designs_forget (other, kelp);
  assert_list (other, "wrack");
  assert_list (bw_designs_get (), "wrack");
}

static void
two_processes_add_to_one_list (void **state)
{
  g_autoptr (BwDesigns) other = another_process ();
  remember (bw_designs_get (), "wrack");
  remember (other, "kelp");
  remember (bw_designs_get (), "dulse");
  assert_list (other, "dulse kelp wrack");
}

static void
a_demo_opened_where_it_lies_is_no_design_of_the_makers (void **state)
{
  g_setenv ("BANDWRIGHT_DATA_DIR", "/nowhere", TRUE);
  remember (bw_designs_get (), "wrack");
  remember (bw_designs_get (), "demo/kelp");
  assert_list (bw_designs_get (), "wrack");
  g_unsetenv ("BANDWRIGHT_DATA_DIR");
}

static void
count (BwDesigns *designs, gpointer data)
{
  (*(int *)data)++;
}

static void
a_change_is_told_and_forgetting_what_is_unknown_is_none (void **state)
{
  int told = 0;
  g_autoptr (GFile) unknown = g_file_new_for_path ("/nowhere/laver.bandwright");
  BwDesigns *designs = bw_designs_get ();
  gulong id = g_signal_connect (designs, "changed", G_CALLBACK (count), &told);
  remember (designs, "wrack");
  assert_int_equal (told, 1);
  bw_designs_forget (designs, unknown);
  assert_int_equal (told, 1);
  g_signal_handler_disconnect (designs, id);
}

static void
the_oldest_makes_room (void **state)
{
  g_autoptr (GPtrArray) files = NULL;
  g_autofree char *first = NULL, *last = NULL;
  for (int i = 0; i <= BW_DESIGNS_MOST; i++) {
    g_autofree char *name = g_strdup_printf ("design-%d", i);
    remember (bw_designs_get (), name);
  }
  files = bw_designs_list (bw_designs_get ());
  assert_int_equal (files->len, BW_DESIGNS_MOST);
  first = g_file_get_basename (g_ptr_array_index (files, 0));
  last = g_file_get_basename (g_ptr_array_index (files, BW_DESIGNS_MOST - 1));
  assert_string_equal (first, "design-60.bandwright");
  assert_string_equal (last, "design-1.bandwright");
}

static void
a_list_may_hold_anything_and_designs_alone_are_taken (void **state)
{
  g_autoptr (GString) text
      = g_string_new ("file:///nowhere/wrack.bandwright\n\n \nfile:///etc/passwd\n"
                      "file:///nowhere/\xff.bandwright\n"
                      "file:///nowhere/wrack.bandwright\n");
  for (int i = 0; i < 5000; i++)
    g_string_append_c (text, 'x');
  g_string_append (text, ".bandwright\nfile:///nowhere/kelp.bandwright");
  write_list (text->str);
  assert_list (bw_designs_get (), "wrack kelp");
}

static void
a_list_of_gigabytes_or_no_regular_one_is_left_unread (void **state)
{
  g_autoptr (BwDesigns) other = another_process ();
  g_autofree char *path = list_path ();
  assert_int_equal (g_unlink (path), 0);
  assert_int_equal (mkfifo (path, 0600), 0);
  assert_list (other, "");
  assert_int_equal (g_unlink (path), 0);
  write_list ("file:///nowhere/kelp.bandwright\n");
  assert_int_equal (truncate (path, (off_t)4 << 30), 0);
  assert_list (other, "");
}

/* The folder's place is taken by a file: there is nowhere to keep a list. */
static void
where_none_can_be_kept_it_lasts_as_long_as_the_program (void **state)
{
  g_autofree char *path = list_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *away = g_strconcat (folder, "-away", NULL);
  g_autoptr (BwDesigns) designs = another_process ();
  assert_int_equal (g_rename (folder, away), 0);
  assert_true (g_file_set_contents (folder, "", -1, NULL));
  remember (designs, "wrack");
  remember (designs, "kelp");
  assert_list (designs, "kelp wrack");
  assert_int_equal (g_unlink (folder), 0);
  assert_int_equal (g_rename (away, folder), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup (the_newest_stands_first_and_each_once, empty),
    cmocka_unit_test_setup (what_is_forgotten_is_gone_for_every_process, empty),
    cmocka_unit_test_setup (two_processes_add_to_one_list, empty),
    cmocka_unit_test_setup (a_demo_opened_where_it_lies_is_no_design_of_the_makers, empty),
    cmocka_unit_test_setup (a_change_is_told_and_forgetting_what_is_unknown_is_none, empty),
    cmocka_unit_test_setup (the_oldest_makes_room, empty),
    cmocka_unit_test_setup (a_list_may_hold_anything_and_designs_alone_are_taken, empty),
    cmocka_unit_test_setup (a_list_of_gigabytes_or_no_regular_one_is_left_unread, empty),
    cmocka_unit_test_setup (where_none_can_be_kept_it_lasts_as_long_as_the_program, empty),
  };

  return cmocka_run_group_tests_name ("designs", tests, NULL, NULL);
}
