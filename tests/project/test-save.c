/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving and loading on a disk: that a save which fails costs nothing, and that what cannot be
 * loaded is refused before it takes the machine's memory. */
#include "edits.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

/* A folder of its own for each test of saving. */
typedef struct {
  char *folder, *path;
  GFile *file;
} Place;

static Place
place_new (void)
{
  Place place = { .folder = g_dir_make_tmp ("bandwright-XXXXXX", NULL) };

  assert_non_null (place.folder);
  place.path = g_build_filename (place.folder, "piece.bandwright", NULL);
  place.file = g_file_new_for_path (place.path);
  return place;
}

static void
place_clear (Place *place)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name;

  g_chmod (place->folder, 0700);
  while ((name = g_dir_read_name (dir))) {
    g_autofree char *path = g_build_filename (place->folder, name, NULL);

    assert_int_equal (g_unlink (path), 0);
  }
  assert_int_equal (g_rmdir (place->folder), 0);
  g_free (place->folder);
  g_free (place->path);
  g_object_unref (place->file);
}

static int
files_in (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;

  while (g_dir_read_name (dir))
    n++;
  return n;
}

static void
assert_file_holds (const char *path, const char *text)
{
  g_autofree char *found = NULL;

  assert_true (g_file_get_contents (path, &found, NULL, NULL));
  assert_string_equal (found, text);
}

static void
what_is_saved_is_loaded_and_counts_as_unmodified (void **state)
{
  g_autoptr (BwProject) project = bw_project_new (), loaded = NULL;
  g_autofree char *text = NULL;
  Place place = place_new ();

  bw_project_set_title (project, "Title", "Neap");
  text = bw_project_to_data (project, NULL);
  assert_true (bw_project_save (project, place.file, NULL));
  assert_false (bw_project_get_modified (project));
  assert_true (g_file_equal (bw_project_get_file (project), place.file));
  assert_int_equal (files_in (place.folder), 1);
  assert_file_holds (place.path, text);
  loaded = bw_project_load (place.file, NULL);
  assert_non_null (loaded);
  assert_false (bw_project_get_modified (loaded));
  assert_true (g_file_equal (bw_project_get_file (loaded), place.file));
  assert_text (loaded, text);
  place_clear (&place);
}

static void
permissions_and_links_outlive_a_save (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  g_autofree char *real = g_build_filename (place.folder, "real", NULL);
  g_autofree char *middle = g_build_filename (place.folder, "middle", NULL);
  mode_t mask = umask (022);
  struct stat status;

  assert_true (g_file_set_contents (real, "old", -1, NULL));
  assert_int_equal (chmod (real, 0664), 0);
  assert_int_equal (symlink ("real", middle), 0);
  assert_int_equal (symlink (middle, place.path), 0);
  assert_true (bw_project_save (project, place.file, NULL));
  assert_true (g_file_test (place.path, G_FILE_TEST_IS_SYMLINK));
  assert_true (g_file_test (middle, G_FILE_TEST_IS_SYMLINK));
  assert_int_equal (lstat (real, &status), 0);
  assert_true (S_ISREG (status.st_mode));
  assert_int_equal (status.st_mode & 07777, 0664);
  assert_int_equal (g_unlink (real), 0);
  assert_true (bw_project_save (project, place.file, NULL));
  assert_int_equal (lstat (real, &status), 0);
  assert_int_equal (status.st_mode & 07777, 0644);
  umask (mask);
  place_clear (&place);
}

/* The administrator may write anywhere, so the test lays that right down for a moment. */
static gboolean
save_as_nobody (BwProject *project, GFile *file, GError **error)
{
  gboolean root = geteuid () == 0, saved;

  if (root)
    assert_int_equal (seteuid (65534), 0);
  saved = bw_project_save (project, file, error);
  if (root)
    assert_int_equal (seteuid (0), 0);
  return saved;
}

static void
saving_into_a_folder_that_is_read_only_leaves_the_old_file (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  Place place = place_new ();

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  assert_int_equal (g_chmod (place.path, 0666), 0);
  assert_int_equal (g_chmod (place.folder, 0555), 0);
  bw_project_set_title (project, "Title", "Neap");
  assert_false (save_as_nobody (project, place.file, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED));
  assert_true (bw_project_get_modified (project));
  assert_null (bw_project_get_file (project));
  assert_file_holds (place.path, "old");
  place_clear (&place);
}

static void
a_file_that_is_read_only_is_not_replaced (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  Place place = place_new ();

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  assert_int_equal (g_chmod (place.path, 0444), 0);
  assert_int_equal (g_chmod (place.folder, 0777), 0);
  assert_false (save_as_nobody (project, place.file, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED));
  assert_file_holds (place.path, "old");
  place_clear (&place);
}

static void
a_disk_that_is_full_leaves_the_old_file_and_no_rubbish (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  Place place = place_new ();
  struct rlimit old, small;

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  signal (SIGXFSZ, SIG_IGN);
  assert_int_equal (getrlimit (RLIMIT_FSIZE, &old), 0);
  small = (struct rlimit){ .rlim_cur = 512, .rlim_max = old.rlim_max };
  assert_int_equal (setrlimit (RLIMIT_FSIZE, &small), 0);
  assert_false (bw_project_save (project, place.file, &error));
  assert_int_equal (setrlimit (RLIMIT_FSIZE, &old), 0);
  assert_int_equal (error->domain, G_IO_ERROR);
  assert_file_holds (place.path, "old");
  assert_int_equal (files_in (place.folder), 1);
  place_clear (&place);
}

static void
a_save_that_cannot_be_is_an_error_of_its_kind (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  g_autofree char *nowhere = g_build_filename (place.folder, "no", "such", "folder", NULL);
  g_autoptr (GFile) folder = g_file_new_for_path (place.folder);
  g_autoptr (GFile) missing = g_file_new_for_path (nowhere);
  g_autoptr (GError) directory = NULL, not_found = NULL, endless = NULL;

  assert_false (bw_project_save (project, folder, &directory));
  assert_true (g_error_matches (directory, G_IO_ERROR, G_IO_ERROR_IS_DIRECTORY));
  assert_false (bw_project_save (project, missing, &not_found));
  assert_true (g_error_matches (not_found, G_IO_ERROR, G_IO_ERROR_NOT_FOUND));
  assert_int_equal (symlink (place.path, place.path), 0);
  assert_false (bw_project_save (project, place.file, &endless));
  assert_int_equal (endless->domain, G_IO_ERROR);
  assert_true (g_file_test (place.path, G_FILE_TEST_IS_SYMLINK));
  place_clear (&place);
}

static void
a_load_that_cannot_be_is_an_error_of_its_kind (void **state)
{
  Place place = place_new ();
  g_autoptr (GFile) folder = g_file_new_for_path (place.folder);
  g_autoptr (GFile) zeros = g_file_new_for_path ("/dev/zero");
  g_autoptr (GError) missing = NULL, directory = NULL, endless = NULL;

  assert_null (bw_project_load (place.file, &missing));
  assert_true (g_error_matches (missing, G_IO_ERROR, G_IO_ERROR_NOT_FOUND));
  assert_null (bw_project_load (folder, &directory));
  assert_true (g_error_matches (directory, G_IO_ERROR, G_IO_ERROR_IS_DIRECTORY));
  assert_null (bw_project_load (zeros, &endless));
  assert_true (g_error_matches (endless, BW_FAULT, BW_FAULT_SYNTAX));
  place_clear (&place);
}

/* Two gigabytes that take no room on the disk. */
static void
a_file_of_two_gigabytes_of_nothing_is_refused_early (void **state)
{
  Place place = place_new ();
  g_autoptr (GError) error = NULL;
  int fd = g_open (place.path, O_CREAT | O_WRONLY, 0600);

  assert_true (fd >= 0);
  assert_int_equal (ftruncate (fd, (off_t)2 << 30), 0);
  close (fd);
  assert_null (bw_project_load (place.file, &error));
  assert_true (g_error_matches (error, BW_FAULT, BW_FAULT_SYNTAX));
  assert_non_null (strstr (error->message, "64 MiB"));
  place_clear (&place);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_saved_is_loaded_and_counts_as_unmodified),
    cmocka_unit_test (permissions_and_links_outlive_a_save),
    cmocka_unit_test (saving_into_a_folder_that_is_read_only_leaves_the_old_file),
    cmocka_unit_test (a_file_that_is_read_only_is_not_replaced),
    cmocka_unit_test (a_disk_that_is_full_leaves_the_old_file_and_no_rubbish),
    cmocka_unit_test (a_save_that_cannot_be_is_an_error_of_its_kind),
    cmocka_unit_test (a_load_that_cannot_be_is_an_error_of_its_kind),
    cmocka_unit_test (a_file_of_two_gigabytes_of_nothing_is_refused_early),
  };

  return cmocka_run_group_tests_name ("save", tests, NULL, NULL);
}
