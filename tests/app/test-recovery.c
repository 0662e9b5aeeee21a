/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Safety copies: kept while there is unsaved work, gone when it is saved, found when their program
 * is gone, and never taken from a living one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/keep/recovery-folder.h"
#include "app/keep/recovery.h"
#include "app/kit/settings.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static int
count_copies (void)
{
  g_autofree char *folder = bw_recovery_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  for (const char *name; dir && (name = g_dir_read_name (dir));)
    n += g_str_has_suffix (name, ".bandwright");
  return n;
}

static int
sweep (void **state)
{
  g_autofree char *folder = bw_recovery_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_unlink (path);
  }
  return 0;
}

static BwProject *
changed_project (void)
{
  BwProject *project = bw_project_new ();
  bw_project_set_title (project, "Title", "Harbour Night");
  return project;
}

static void
unsaved_work_is_copied_and_saved_work_is_not (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project);
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 0);
  bw_project_set_title (project, "Title", "Harbour Night");
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 1);
  bw_project_set_modified (project, FALSE);
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 0);
  bw_project_set_title (project, "Title", "Harbour Morning");
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 1);
  bw_recovery_end (recovery);
  assert_int_equal (count_copies (), 0);
}

static void
a_living_programs_copy_is_not_offered (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project);
  bw_recovery_keep (recovery);
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (count_copies (), 1);
  assert_int_equal (found->len, 0);
  bw_recovery_end (recovery);
}

/* A child that ends without a word, as in a crash. */
static void
crash_with_unsaved_work (const char *path)
{
  pid_t child = fork ();
  assert_true (child >= 0);
  if (child == 0) {
    BwProject *project = changed_project ();
    g_autoptr (GFile) file = g_file_new_for_path (path);
    bw_project_set_file (project, file);
    bw_recovery_keep (bw_recovery_new (project));
    _exit (0);
  }
  int status;
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status));
}

static void
work_left_by_a_crash_is_found_whole (void **state)
{
  g_autoptr (GError) error = NULL;
  crash_with_unsaved_work ("/tmp/harbour-night.bandwright");
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (found->len, 1);
  const BwLeftover *leftover = g_ptr_array_index (found, 0);
  assert_string_equal (leftover->title, "Harbour Night");
  g_autoptr (BwProject) project = bw_leftover_load (leftover, &error);
  assert_null (error);
  assert_string_equal (bw_project_get_title (project), "Harbour Night");
  assert_true (bw_project_get_modified (project));
  g_autofree char *path = g_file_get_path (bw_project_get_file (project));
  assert_string_equal (path, "/tmp/harbour-night.bandwright");
  bw_leftover_discard (leftover);
  assert_int_equal (count_copies (), 0);
}

static void
a_copy_that_is_broken_is_told_and_kept (void **state)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = bw_recovery_folder ();
  g_autofree char *path = g_build_filename (folder, "broken.bandwright", NULL);
  g_mkdir_with_parents (folder, 0700);
  assert_true (g_file_set_contents (path, "{\"format\":", -1, NULL));
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (found->len, 1);
  assert_null (bw_leftover_load (g_ptr_array_index (found, 0), &error));
  assert_non_null (error);
  assert_int_equal (count_copies (), 1);
}

static void
a_maker_who_wants_no_copies_has_none (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project);
  g_object_set (bw_settings_get (), "autosave", FALSE, NULL);
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 0);
  g_object_set (bw_settings_get (), "autosave", TRUE, NULL);
  bw_recovery_end (recovery);
}

static void
note_failure (BwRecovery *recovery, const char *sentence, gpointer data)
{
  assert_non_null (strstr (sentence, "safety copy"));
  (*(int *)data)++;
}

/* A file where the folder should be: nothing can be written there, by root neither. */
static void
a_copy_that_cannot_be_kept_is_told_once (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project);
  g_autofree char *folder = bw_recovery_folder ();
  int told = 0;
  sweep (NULL);
  g_rmdir (folder);
  assert_true (g_file_set_contents (folder, "", 0, NULL));
  g_signal_connect (recovery, "failed", G_CALLBACK (note_failure), &told);
  bw_recovery_keep (recovery);
  bw_project_set_title (project, "Title", "Harbour Noon");
  bw_recovery_keep (recovery);
  assert_int_equal (told, 1);
  g_unlink (folder);
  bw_recovery_end (recovery);
}

#define COPY_TEST(f) cmocka_unit_test_setup_teardown (f, sweep, sweep)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    COPY_TEST (unsaved_work_is_copied_and_saved_work_is_not),
    COPY_TEST (a_living_programs_copy_is_not_offered),
    COPY_TEST (work_left_by_a_crash_is_found_whole),
    COPY_TEST (a_copy_that_is_broken_is_told_and_kept),
    COPY_TEST (a_maker_who_wants_no_copies_has_none),
    COPY_TEST (a_copy_that_cannot_be_kept_is_told_once),
  };
  return cmocka_run_group_tests_name ("recovery", tests, NULL, NULL);
}
