/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of files as they are shown and as they are offered. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/ask/file-dialog.h"
#include "output/report/report.h"
#include "project/file/file-name.h"
#include "project/piece-name.h"

#include <string.h>

static void
expect_shown (const char *path, const char *words)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *shown = bw_file_shown (file);
  assert_string_equal (shown, words);
}

static void
a_name_is_shown_without_its_folder_and_always_as_text (void **state)
{
  expect_shown ("/tmp/Sea holly.bandwright", "Sea holly.bandwright");
  expect_shown ("/tmp/Seeigel Äöü.bandwright", "Seeigel Äöü.bandwright");
  expect_shown ("/tmp/kelp \xff\xfe.bandwright", "kelp \xef\xbf\xbd\xef\xbf\xbd.bandwright");
  expect_shown ("/tmp/two\nlines.bandwright", "two lines.bandwright");
}

static void
a_long_name_keeps_its_beginning_and_its_ending (void **state)
{
  g_autofree char *stem = g_strnfill (240, 'n');
  g_autofree char *path = g_strconcat ("/tmp/", stem, ".bandwright", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *shown = bw_file_shown (file);
  assert_int_equal (g_utf8_strlen (shown, -1), 60);
  assert_true (g_str_has_prefix (shown, "nnnnnnnn"));
  assert_true (g_str_has_suffix (shown, ".bandwright"));
  assert_non_null (strstr (shown, "…"));
}

static void
words_are_shortened_by_characters_and_not_by_bytes (void **state)
{
  g_autofree char *whole = bw_words_shortened ("ÄÖÜäöü", 6);
  g_autofree char *cut = bw_words_shortened ("ÄÖÜäöüß", 6);
  assert_string_equal (whole, "ÄÖÜäöü");
  assert_string_equal (cut, "ÄÖÜ…üß");
}

/* The longest title there can be, in letters of two bytes, is more than a disk takes. */
static void
a_name_made_of_a_title_can_be_saved (void **state)
{
  g_autoptr (GString) title = g_string_new (NULL);
  for (int i = 0; i < 200; i++)
    g_string_append (title, "ö");
  g_autofree char *name = bw_file_name_for (title->str, BW_FILES_PROJECT);
  g_autofree char *short_name = bw_file_name_for ("Sea holly", BW_FILES_PROJECT);
  assert_true (strlen (name) <= 255 && strlen (name) >= 253);
  assert_true (g_utf8_validate (name, -1, NULL));
  assert_true (g_str_has_suffix (name, "ö.bandwright"));
  assert_string_equal (short_name, "Sea holly.bandwright");
}

/* On paper, on the screen and on the shelf alike. */
static void
a_piece_without_a_title_goes_by_the_name_it_was_saved_under (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GFile) file = g_file_new_for_path ("/nowhere/Six Flats.bandwright");
  bw_project_set_title (project, "Title", "");
  g_autofree char *never_saved = bw_piece_name (project);
  bw_project_set_file (project, file);
  g_autofree char *saved = bw_piece_name (project);
  g_autofree char *told = bw_report_stone (project, FALSE);
  bw_project_set_title (project, "Title", "Sea holly");
  g_autofree char *titled = bw_piece_name (project);
  assert_string_equal (never_saved, "Untitled");
  assert_string_equal (saved, "Six Flats");
  assert_true (g_str_has_prefix (told, "Six Flats: "));
  assert_string_equal (titled, "Sea holly");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_name_is_shown_without_its_folder_and_always_as_text),
    cmocka_unit_test (a_long_name_keeps_its_beginning_and_its_ending),
    cmocka_unit_test (words_are_shortened_by_characters_and_not_by_bytes),
    cmocka_unit_test (a_name_made_of_a_title_can_be_saved),
    cmocka_unit_test (a_piece_without_a_title_goes_by_the_name_it_was_saved_under),
  };
  return cmocka_run_group_tests_name ("file-name", tests, NULL, NULL);
}
