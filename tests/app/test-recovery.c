/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Safety copies: kept while there is unsaved work, gone when it is saved, found when their program
 * is gone, and never taken from a living one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/keep/recovery-folder.h"
#include "app/keep/recovery-row.h"
#include "app/keep/recovery.h"
#include "app/kit/settings.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

/* A disk without locks. Stands before the C library's. */
static gboolean no_locks;

int
flock (int fd, int operation)
{
  if (!no_locks)
    return (int)syscall (SYS_flock, fd, operation);
  errno = ENOLCK;
  return -1;
}

static int
count_in (const char *folder, const char *ending)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  for (const char *name; dir && (name = g_dir_read_name (dir));)
    n += g_str_has_suffix (name, ending);
  return n;
}

static int
count_copies (void)
{
  g_autofree char *folder = bw_recovery_folder ();
  return count_in (folder, ".bandwright");
}

static int
count_discarded (void)
{
  g_autofree char *folder = bw_recovery_discarded_folder ();
  return count_in (folder, ".bandwright");
}

static void
empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_unlink (path);
  }
}

static int
sweep (void **state)
{
  g_autofree char *folder = bw_recovery_folder ();
  g_autofree char *discarded = bw_recovery_discarded_folder ();
  no_locks = FALSE;
  empty (folder);
  empty (discarded);
  return 0;
}

static BwProject *
changed_project (void)
{
  BwProject *project = bw_project_new ();
  bw_project_set_title (project, "Title", "Harbour Night");
  return project;
}

static int
open_descriptors (void)
{
  g_autoptr (GDir) dir = g_dir_open ("/proc/self/fd", 0, NULL);
  int n = 0;
  while (g_dir_read_name (dir))
    n++;
  return n;
}

static void
unsaved_work_is_copied_and_saved_work_is_not (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  g_autofree char *folder = bw_recovery_folder ();
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 0);
  bw_project_set_title (project, "Title", "Harbour Night");
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 1);
  bw_project_set_modified (project, FALSE);
  bw_recovery_keep (recovery);
  assert_int_equal (count_in (folder, ""), 0);
  bw_project_set_title (project, "Title", "Harbour Morning");
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 1);
  bw_recovery_end (recovery);
  assert_int_equal (count_in (folder, ""), 0);
}

/* --- When ------------------------------------------------------------------------------------ */

static gboolean
tick (gpointer data)
{
  return G_SOURCE_CONTINUE;
}

/* Runs the main loop until there is a copy; how long that took, at most `most`, in ms. each is
 * called about every 50 ms. */
static int
wait_for_copy (int most, void (*each) (BwProject *project), BwProject *project)
{
  gint64 begin = g_get_monotonic_time ();
  guint beat = g_timeout_add (50, tick, NULL);
  while (count_copies () == 0 && g_get_monotonic_time () - begin < most * 1000) {
    g_main_context_iteration (NULL, TRUE);
    if (each)
      each (project);
  }
  g_source_remove (beat);
  return (int)((g_get_monotonic_time () - begin) / 1000);
}

/* Ten seconds are for those who never pause; twenty, as it once was, would be too late by far. */
static void
a_stroke_is_copied_by_itself_soon_after (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  bw_project_set_bead (project, "Bead", FALSE, 1, 2, 0);
  bw_project_set_title (project, "Title", "Harbour Night");
  assert_int_equal (count_copies (), 0);
  assert_in_range (wait_for_copy (9000, NULL, NULL), 1500, 8999);
  bw_recovery_end (recovery);
}

static void
retitle (BwProject *project)
{
  static int n;
  g_autofree char *title = g_strdup_printf ("Harbour %d", n++);
  bw_project_set_title (project, "Title", title);
}

/* A maker who does not pause for two seconds would otherwise never have one. */
static void
changes_without_a_pause_are_copied_all_the_same (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  retitle (project);
  assert_in_range (wait_for_copy (25000, retitle, project), 8000, 24999);
  bw_recovery_end (recovery);
}

static void
nothing_is_copied_once_the_work_is_saved (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  bw_project_set_title (project, "Title", "Harbour Noon");
  bw_project_set_modified (project, FALSE);
  bw_recovery_keep (recovery);
  assert_true (wait_for_copy (3000, NULL, NULL) >= 3000);
  bw_recovery_end (recovery);
}

static void
run_until (gint64 end)
{
  while (g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
}

/* The thread that writes it may be at it still when the maker saves, or closes. */
static void
a_copy_in_the_making_does_not_outlive_a_save (void **state)
{
  static const int moments_ms[] = { 498, 500, 502, 505, 510, 520 };
  for (gsize i = 0; i < 2 * G_N_ELEMENTS (moments_ms); i++) {
    g_autoptr (BwProject) project = changed_project ();
    g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
    gint64 now = g_get_monotonic_time ();
    assert_true (bw_project_set_progress (project, "Row", 10, NULL, 0, NULL));
    run_until (now + moments_ms[i / 2] * 1000);
    if (i % 2) {
      bw_project_set_modified (project, FALSE);
      bw_recovery_keep (recovery);
    } else {
      bw_recovery_end (recovery);
    }
    run_until (g_get_monotonic_time () + 100000);
    assert_int_equal (count_copies (), 0);
    bw_recovery_end (recovery);
  }
}

/* --- Found --------------------------------------------------------------------------------------
 */

static void
a_living_programs_copy_is_not_offered (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  bw_recovery_keep (recovery);
  int before = open_descriptors ();
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (count_copies (), 1);
  assert_int_equal (found->len, 0);
  assert_int_equal (open_descriptors (), before);
  bw_recovery_end (recovery);
}

/* A child that ends without a word, as in a crash. */
static void
crash_with (BwProject *project, const char *path)
{
  g_random_int (); /* else the next child would give its copy the same name */
  pid_t child = fork ();
  assert_true (child >= 0);
  if (child == 0) {
    g_autoptr (GFile) file = path ? g_file_new_for_path (path) : NULL;
    bw_project_set_file (project, file);
    bw_recovery_keep (bw_recovery_new (project, NULL));
    _exit (0);
  }
  int status;
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status));
}

static void
crash_with_unsaved_work (const char *path)
{
  g_autoptr (BwProject) project = changed_project ();
  crash_with (project, path);
}

static void
work_left_by_a_crash_is_found_whole (void **state)
{
  g_autoptr (GError) error = NULL;
  crash_with_unsaved_work ("/tmp/no such folder/harbour-night.bandwright");
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (found->len, 1);
  BwLeftover *leftover = g_ptr_array_index (found, 0);
  assert_string_equal (leftover->title, "Harbour Night");
  assert_int_equal (leftover->age, BW_LEFTOVER_ALONE);
  g_autoptr (BwProject) project = bw_leftover_load (leftover, &error);
  assert_null (error);
  assert_string_equal (bw_project_get_title (project), "Harbour Night");
  assert_true (bw_project_get_modified (project));
  g_autofree char *path = g_file_get_path (bw_project_get_file (project));
  assert_string_equal (path, "/tmp/no such folder/harbour-night.bandwright");
}

/* A stone that nobody has measured yet must not come back as one that promises a verdict. */
static void
made_up_measurements_are_made_up_after_a_crash_too (void **state)
{
  g_autoptr (BwProject) lost = bw_project_new ();
  BwDesign design = *bw_project_get_design (lost);
  design.stone.values_mm[0] += 1;
  design.stone.length_mm += 1;
  assert_true (bw_project_set_design (lost, "Measure", &design, NULL));
  crash_with (lost, NULL);
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (found->len, 1);
  g_autoptr (BwProject) back = bw_leftover_load (g_ptr_array_index (found, 0), NULL);
  BwExamples before = bw_project_get_examples (lost), after = bw_project_get_examples (back);
  assert_true (bw_project_is_example (back, "/stone/at_mm"));
  assert_false (bw_project_is_example (back, "/stone/length_mm"));
  assert_true (bw_examples_equal (&before, &after));
  assert_false (bw_project_can_undo (back));
}

/* Two programs that start after one crash must not both take it. */
static void
a_copy_that_is_offered_here_is_offered_nowhere_else (void **state)
{
  crash_with_unsaved_work (NULL);
  GPtrArray *found = bw_recovery_find ();
  assert_int_equal (found->len, 1);
  g_autoptr (GPtrArray) second = bw_recovery_find ();
  assert_int_equal (second->len, 0);
  g_ptr_array_unref (found);
  g_autoptr (GPtrArray) third = bw_recovery_find ();
  assert_int_equal (third->len, 1);
}

/* What the file was when the lost session opened it goes along, so that the next save can tell. */
static void
recovered_work_knows_whether_its_file_has_changed_since (void **state)
{
  g_autofree char *path = g_build_filename (g_get_user_state_dir (), "piece.bandwright", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (BwProject) project = changed_project ();
  g_mkdir_with_parents (g_get_user_state_dir (), 0700);
  assert_true (bw_project_save (project, file, NULL));
  bw_project_set_title (project, "Title", "Harbour Noon");
  crash_with (project, path);
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  BwLeftover *leftover = g_ptr_array_index (found, 0);
  assert_int_equal (leftover->age, BW_LEFTOVER_NEWER);
  g_autoptr (BwProject) recovered = bw_leftover_load (leftover, NULL);
  assert_int_equal (bw_project_look_at_file (recovered), BW_FILE_SAME);
  assert_true (g_file_set_contents (path, "theirs", -1, NULL));
  assert_int_equal (bw_project_look_at_file (recovered), BW_FILE_CHANGED);
  assert_false (bw_project_save (recovered, file, NULL));
  g_unlink (path);
}

static void
a_file_written_after_the_copy_is_told_to_be_newer (void **state)
{
  g_autofree char *path = g_build_filename (g_get_user_state_dir (), "piece.bandwright", NULL);
  const struct timespec later[2] = { { .tv_sec = 4000000000 }, { .tv_sec = 4000000000 } };
  g_mkdir_with_parents (g_get_user_state_dir (), 0700);
  assert_true (g_file_set_contents (path, "theirs", -1, NULL));
  crash_with_unsaved_work (path);
  assert_int_equal (utimensat (AT_FDCWD, path, later, 0), 0);
  crash_with_unsaved_work (NULL);
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (found->len, 2);
  guint ages = 0;
  for (guint i = 0; i < found->len; i++)
    ages |= 1u << ((BwLeftover *)g_ptr_array_index (found, i))->age;
  assert_int_equal (ages, 1u << BW_LEFTOVER_OLDER | 1u << BW_LEFTOVER_UNSAVED);
  g_unlink (path);
}

static char *
lay_down (const char *name, const char *text)
{
  g_autofree char *folder = bw_recovery_folder ();
  char *path = g_build_filename (folder, name, NULL);
  g_mkdir_with_parents (folder, 0700);
  assert_true (g_file_set_contents (path, text, -1, NULL));
  return path;
}

static void
a_copy_that_is_broken_is_told_and_kept (void **state)
{
  g_autofree char *path = lay_down ("broken.bandwright", "{\"format\":");
  g_autoptr (GPtrArray) all = bw_found_all ();
  assert_int_equal (all->len, 1);
  const BwFound *found = g_ptr_array_index (all, 0);
  assert_null (found->project);
  assert_null (found->picture);
  assert_non_null (found->fault);
  assert_int_equal (count_copies (), 1);
}

static void
what_is_told_of_a_copy_may_be_anything (void **state)
{
  g_autofree char *long_title = g_strnfill (1000000, 'x');
  g_autofree char *info = g_strdup_printf (
      "[copy]\ntitle=%s\nfile=no address\nstamp=1 2 3\ntime=9223372036854775807\n", long_title);
  g_autoptr (BwProject) project = changed_project ();
  g_autofree char *text = bw_project_to_data (project, NULL);
  g_autofree char *copy = lay_down ("hostile.bandwright", text);
  g_autofree char *beside = lay_down ("hostile.info", info);
  g_autoptr (GPtrArray) all = bw_found_all ();
  assert_int_equal (all->len, 1);
  const BwFound *found = g_ptr_array_index (all, 0);
  assert_true (g_utf8_strlen (found->leftover->title, -1) <= 80);
  assert_non_null (found->leftover->when);
  assert_null (found->leftover->file);
  assert_false (found->leftover->stamp.known);
  assert_non_null (found->project);
  assert_int_equal (cairo_surface_status (found->picture), CAIRO_STATUS_SUCCESS);
}

static void
leave_untitled (const char *info)
{
  g_autoptr (BwProject) project = changed_project ();
  bw_project_set_title (project, "Title", "");
  g_autofree char *text = bw_project_to_data (project, NULL);
  g_autofree char *copy = lay_down ("5f2c.bandwright", text);
  g_autofree char *beside = lay_down ("5f2c.info", info);
}

static void
expect_title (const char *title)
{
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (found->len, 1);
  assert_string_equal (((BwLeftover *)g_ptr_array_index (found, 0))->title, title);
}

static void
a_copy_without_a_title_goes_by_its_files_name_else_by_none (void **state)
{
  leave_untitled ("[copy]\ntitle=\n");
  expect_title ("Untitled");
  leave_untitled ("[copy]\ntitle=\nfile=file:///tmp/no%20such/neap.bandwright\n");
  expect_title ("neap");
}

/* The picture is drawn on whatever thread looks, with no display about; this program has none. */
static void
each_design_has_a_picture_of_its_own (void **state)
{
  crash_with_unsaved_work (NULL);
  g_autoptr (GPtrArray) all = bw_found_all ();
  const BwFound *found = g_ptr_array_index (all, 0);
  const guchar *pixels = cairo_image_surface_get_data (found->picture);
  int stride = cairo_image_surface_get_stride (found->picture), painted = 0;
  for (int y = 0; y < cairo_image_surface_get_height (found->picture); y++)
    for (int x = 0; x < cairo_image_surface_get_width (found->picture); x++)
      painted += pixels[y * stride + 4 * x + 3] > 128;
  assert_true (painted > 500);
}

/* --- Taken up and thrown away ------------------------------------------------------------------
 */

static void
recovered_work_keeps_its_only_copy_until_it_is_saved (void **state)
{
  g_autoptr (GError) error = NULL;
  g_object_set (bw_settings_get (), "autosave", FALSE, NULL); /* nothing else would be written */
  g_object_set (bw_settings_get (), "autosave", TRUE, NULL);
  crash_with_unsaved_work (NULL);
  g_object_set (bw_settings_get (), "autosave", FALSE, NULL);
  GPtrArray *found = bw_recovery_find ();
  BwLeftover *leftover = g_ptr_array_index (found, 0);
  g_autoptr (BwProject) project = bw_leftover_load (leftover, &error);
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, leftover);
  g_ptr_array_unref (found);
  assert_int_equal (count_copies (), 1);
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 1);
  g_autoptr (GPtrArray) again = bw_recovery_find (); /* it is a living program's now */
  assert_int_equal (again->len, 0);
  bw_project_set_modified (project, FALSE);
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 0);
  g_object_set (bw_settings_get (), "autosave", TRUE, NULL);
  bw_recovery_end (recovery);
}

static void
recovered_work_goes_on_in_the_same_copy (void **state)
{
  crash_with_unsaved_work (NULL);
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  BwLeftover *leftover = g_ptr_array_index (found, 0);
  g_autoptr (BwProject) project = bw_leftover_load (leftover, NULL);
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, leftover);
  bw_project_set_title (project, "Title", "Harbour Dawn");
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 1);
  g_autoptr (BwProject) copied = bw_leftover_load (leftover, NULL);
  assert_string_equal (bw_project_get_title (copied), "Harbour Dawn");
  bw_recovery_end (recovery);
}

static void
what_is_discarded_is_kept_for_thirty_days (void **state)
{
  g_autofree char *folder = bw_recovery_discarded_folder ();
  g_autofree char *old = g_build_filename (folder, "old.bandwright", NULL);
  g_autofree char *recent = g_build_filename (folder, "recent.bandwright", NULL);
  gint64 now = g_get_real_time () / G_USEC_PER_SEC;
  const struct timespec long_ago[2]
      = { { .tv_sec = now - 31 * 86400 }, { .tv_sec = now - 31 * 86400 } };
  const struct timespec lately[2]
      = { { .tv_sec = now - 29 * 86400 }, { .tv_sec = now - 29 * 86400 } };
  crash_with_unsaved_work (NULL);
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  BwLeftover *leftover = g_ptr_array_index (found, 0);
  assert_int_equal (utimensat (AT_FDCWD, leftover->path, long_ago, 0), 0);
  assert_true (bw_leftover_discard (leftover));
  assert_int_equal (count_copies (), 0);
  assert_int_equal (count_discarded (), 1);
  assert_true (g_file_set_contents (old, "{}", -1, NULL));
  assert_true (g_file_set_contents (recent, "{}", -1, NULL));
  assert_int_equal (utimensat (AT_FDCWD, old, long_ago, 0), 0);
  assert_int_equal (utimensat (AT_FDCWD, recent, lately, 0), 0);
  bw_recovery_sweep ();
  assert_int_equal (count_discarded (), 2);
  assert_false (g_file_test (old, G_FILE_TEST_EXISTS));
}

static void
a_copy_that_cannot_be_put_away_stays (void **state)
{
  g_autofree char *folder = bw_recovery_discarded_folder ();
  crash_with_unsaved_work (NULL);
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  empty (folder);
  g_rmdir (folder);
  assert_true (g_file_set_contents (folder, "", 0, NULL)); /* a file where the folder should be */
  assert_false (bw_leftover_discard (g_ptr_array_index (found, 0)));
  assert_int_equal (count_copies (), 1);
  g_unlink (folder);
}

static void
work_laid_aside_is_among_what_was_discarded (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  g_object_set (bw_settings_get (), "autosave", FALSE, NULL);
  assert_true (bw_recovery_lay_work_aside (recovery, NULL));
  bw_recovery_end (recovery);
  g_object_set (bw_settings_get (), "autosave", TRUE, NULL);
  assert_int_equal (count_copies (), 0);
  assert_int_equal (count_discarded (), 1);
}

static void
only_what_nobody_will_ask_for_is_swept (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  g_autofree char *folder = bw_recovery_folder ();
  g_autofree char *orphan = lay_down ("orphan.info", "[copy]\n");
  g_autofree char *temporary = lay_down ("copy.bandwright.AB12CD", "{");
  g_autofree char *fresh = lay_down ("copy.bandwright.EF34GH", "{");
  g_autofree char *killed = lay_down (".bandwright-save-abcd1234", "{");
  g_autofree char *foreign = lay_down ("notes.txt", "mine");
  const struct timespec long_ago[2] = { { .tv_sec = 1000000 }, { .tv_sec = 1000000 } };
  assert_int_equal (utimensat (AT_FDCWD, temporary, long_ago, 0), 0);
  bw_recovery_keep (recovery);
  bw_recovery_sweep ();
  assert_false (g_file_test (orphan, G_FILE_TEST_EXISTS));
  assert_false (g_file_test (temporary, G_FILE_TEST_EXISTS));
  assert_false (g_file_test (killed, G_FILE_TEST_EXISTS));
  assert_true (g_file_test (fresh, G_FILE_TEST_EXISTS));
  assert_true (g_file_test (foreign, G_FILE_TEST_EXISTS));
  assert_int_equal (count_in (folder, ".info"), 1);
  assert_int_equal (count_copies (), 1);
  bw_recovery_end (recovery);
}

/* --- Disks -------------------------------------------------------------------------------------
 */

static void
a_disk_without_locks_keeps_copies_and_offers_them (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  no_locks = TRUE;
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  bw_recovery_keep (recovery);
  assert_int_equal (count_copies (), 1);
  int before = open_descriptors ();
  g_autoptr (GPtrArray) found = bw_recovery_find ();
  assert_int_equal (found->len, 1);
  assert_int_equal (open_descriptors (), before);
  no_locks = FALSE;
  bw_recovery_end (recovery);
}

static void
a_maker_who_wants_no_copies_has_none (void **state)
{
  g_autoptr (BwProject) project = changed_project ();
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
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
  g_autoptr (BwRecovery) recovery = bw_recovery_new (project, NULL);
  g_autofree char *folder = bw_recovery_folder ();
  int told = 0, before;
  sweep (NULL);
  g_rmdir (folder);
  assert_true (g_file_set_contents (folder, "", 0, NULL));
  before = open_descriptors ();
  g_signal_connect (recovery, "failed", G_CALLBACK (note_failure), &told);
  bw_recovery_keep (recovery);
  bw_project_set_title (project, "Title", "Harbour Noon");
  bw_recovery_keep (recovery);
  assert_int_equal (told, 1);
  assert_int_equal (open_descriptors (), before);
  g_unlink (folder);
  bw_recovery_end (recovery);
}

#define COPY_TEST(f) cmocka_unit_test_setup_teardown (f, sweep, sweep)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    COPY_TEST (unsaved_work_is_copied_and_saved_work_is_not),
    COPY_TEST (a_stroke_is_copied_by_itself_soon_after),
    COPY_TEST (changes_without_a_pause_are_copied_all_the_same),
    COPY_TEST (nothing_is_copied_once_the_work_is_saved),
    COPY_TEST (a_copy_in_the_making_does_not_outlive_a_save),
    COPY_TEST (a_living_programs_copy_is_not_offered),
    COPY_TEST (work_left_by_a_crash_is_found_whole),
    COPY_TEST (made_up_measurements_are_made_up_after_a_crash_too),
    COPY_TEST (a_copy_that_is_offered_here_is_offered_nowhere_else),
    COPY_TEST (recovered_work_knows_whether_its_file_has_changed_since),
    COPY_TEST (a_file_written_after_the_copy_is_told_to_be_newer),
    COPY_TEST (a_copy_that_is_broken_is_told_and_kept),
    COPY_TEST (what_is_told_of_a_copy_may_be_anything),
    COPY_TEST (a_copy_without_a_title_goes_by_its_files_name_else_by_none),
    COPY_TEST (each_design_has_a_picture_of_its_own),
    COPY_TEST (recovered_work_keeps_its_only_copy_until_it_is_saved),
    COPY_TEST (recovered_work_goes_on_in_the_same_copy),
    COPY_TEST (what_is_discarded_is_kept_for_thirty_days),
    COPY_TEST (a_copy_that_cannot_be_put_away_stays),
    COPY_TEST (work_laid_aside_is_among_what_was_discarded),
    COPY_TEST (only_what_nobody_will_ask_for_is_swept),
    COPY_TEST (a_disk_without_locks_keeps_copies_and_offers_them),
    COPY_TEST (a_maker_who_wants_no_copies_has_none),
    COPY_TEST (a_copy_that_cannot_be_kept_is_told_once),
  };
  return cmocka_run_group_tests_name ("recovery", tests, NULL, NULL);
}
