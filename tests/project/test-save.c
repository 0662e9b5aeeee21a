/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving and loading on a disk: that a save which fails costs nothing, and that what cannot be
 * loaded is refused before it takes the machine's memory. */
#include "edits.h"

#include "project/file/save-beside.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <sys/xattr.h>
#include <unistd.h>

/* A disk that does what disks seldom do: each call fails with the errno given here, unless that is
 * 0, or ends the program at once with DIE. They stand before the C library's. */
#define DIE (-1)
static struct {
  int write, fsync, fchmod, fchown, rename, link, fsetxattr;
} bad;

static int
failing (int number)
{
  if (number == DIE)
    kill (getpid (), SIGKILL);
  errno = number;
  return -1;
}

ssize_t
write (int fd, const void *data, size_t n)
{
  return bad.write ? failing (bad.write) : syscall (SYS_write, fd, data, n);
}

int
fsync (int fd)
{
  return bad.fsync ? failing (bad.fsync) : (int)syscall (SYS_fsync, fd);
}

int
fchmod (int fd, mode_t mode)
{
  return bad.fchmod ? failing (bad.fchmod) : (int)syscall (SYS_fchmod, fd, mode);
}

int
fchown (int fd, uid_t owner, gid_t group)
{
  return bad.fchown ? failing (bad.fchown) : (int)syscall (SYS_fchown, fd, owner, group);
}

int
rename (const char *from, const char *to)
{
  return bad.rename ? failing (bad.rename)
                    : (int)syscall (SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0);
}

int
link (const char *from, const char *to)
{
  return bad.link ? failing (bad.link) : (int)syscall (SYS_linkat, AT_FDCWD, from, AT_FDCWD, to, 0);
}

int
fsetxattr (int fd, const char *name, const void *value, size_t size, int flags)
{
  return bad.fsetxattr ? failing (bad.fsetxattr)
                       : (int)syscall (SYS_fsetxattr, fd, name, value, size, flags);
}

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
  assert_true (g_error_matches (endless, G_IO_ERROR, G_IO_ERROR_NOT_REGULAR_FILE));
  place_clear (&place);
}

/* Who opens a pipe waits for somebody at its other end. */
static void
a_pipe_is_refused_at_once (void **state)
{
  Place place = place_new ();
  g_autoptr (GError) error = NULL;

  assert_int_equal (mkfifo (place.path, 0600), 0);
  alarm (20);
  assert_null (bw_project_load (place.file, &error));
  alarm (0);
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NOT_REGULAR_FILE));
  assert_string_equal (error->message, "this is no ordinary file");
  place_clear (&place);
}

static void
a_load_that_is_stopped_gives_nothing (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  Place place = place_new ();
  int per_mille = -1;

  assert_true (bw_project_save (project, place.file, NULL));
  g_object_unref (bw_project_load_stoppable (place.file, stop, &per_mille, NULL));
  assert_int_equal (per_mille, 1000);
  g_cancellable_cancel (stop);
  assert_null (bw_project_load_stoppable (place.file, stop, NULL, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
  place_clear (&place);
}

/* --- Another program at the same file ----------------------------------------------------------
 */

/* Another program, which knows nothing of this one. */
static void
written_by_another (const char *path, const char *text)
{
  g_autofree char *command = NULL, *quoted = g_shell_quote (text), *name = g_shell_quote (path);
  int status;

  command = g_strdup_printf ("printf %%s %s > %s", quoted, name);
  status = system (command);
  assert_int_equal (status, 0);
}

static void
what_another_program_wrote_is_not_written_over_unasked (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  Place place = place_new ();

  assert_true (bw_project_save (project, place.file, NULL));
  assert_int_equal (bw_project_look_at_file (project), BW_FILE_SAME);
  written_by_another (place.path, "theirs");
  assert_int_equal (bw_project_look_at_file (project), BW_FILE_CHANGED);
  bw_project_set_title (project, "Title", "Neap");
  assert_false (bw_project_save (project, place.file, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG));
  assert_true (bw_project_get_modified (project));
  assert_file_holds (place.path, "theirs");
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_OVER, NULL, NULL));
  assert_false (bw_project_get_modified (project));
  assert_true (bw_project_save (project, place.file, NULL));
  place_clear (&place);
}

static void
a_change_of_the_same_length_is_seen_too (void **state)
{
  g_autoptr (BwProject) project = bw_project_new (), loaded = NULL;
  Place place = place_new ();
  g_autofree char *text = NULL;

  assert_true (bw_project_save (project, place.file, NULL));
  loaded = bw_project_load (place.file, NULL);
  text = bw_project_to_data (project, NULL);
  *strstr (text, "quartz") = 'Q';
  written_by_another (place.path, text);
  assert_false (bw_project_save (loaded, place.file, NULL));
  assert_file_holds (place.path, text);
  place_clear (&place);
}

/* A sync program lays down the same file again; a clean-up takes it away. Neither loses anything.
 */
static void
a_file_that_was_only_touched_or_taken_away_is_saved_without_a_word (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const struct timespec times[2] = { { .tv_sec = 1000000 }, { .tv_sec = 1000000 } };
  g_autofree char *text = NULL;
  Place place = place_new ();

  assert_true (bw_project_save (project, place.file, NULL));
  assert_int_equal (utimensat (AT_FDCWD, place.path, times, 0), 0);
  assert_int_equal (bw_project_look_at_file (project), BW_FILE_SAME);
  text = bw_project_to_data (project, NULL);
  assert_int_equal (g_unlink (place.path), 0);
  assert_int_equal (bw_project_look_at_file (project), BW_FILE_GONE);
  written_by_another (place.path, text);
  assert_true (bw_project_save (project, place.file, NULL));
  assert_int_equal (g_unlink (place.path), 0);
  assert_true (bw_project_save (project, place.file, NULL));
  assert_file_holds (place.path, text);
  place_clear (&place);
}

static void
a_stamp_outlives_being_written_down (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *line = NULL, *short_line = NULL, *again = NULL;
  Place place = place_new ();
  BwStamp stamp;

  assert_true (bw_project_save (project, place.file, NULL));
  line = bw_stamp_to_text (bw_project_get_stamp (project));
  assert_true (bw_stamp_from_text (line, &stamp));
  again = bw_stamp_to_text (&stamp);
  assert_string_equal (again, line);
  assert_true (bw_stamp_same_file (&stamp, bw_project_get_stamp (project)));
  assert_int_equal (bw_stamp_look (&stamp, place.path), BW_FILE_SAME);
  written_by_another (place.path, "theirs");
  assert_int_equal (bw_stamp_look (&stamp, place.path), BW_FILE_CHANGED);
  short_line = g_strndup (line, strlen (line) - 1);
  assert_false (bw_stamp_from_text (short_line, &stamp));
  assert_false (stamp.known);
  assert_false (bw_stamp_from_text (NULL, &stamp));
  place_clear (&place);
}

/* --- The backup --------------------------------------------------------------------------------
 */

static void
a_backup_is_what_was_there_before_the_save (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  g_autofree char *backup = bw_save_backup_path (place.path);
  g_autofree char *named = g_strconcat (place.path, "~", NULL);
  g_autofree char *text = NULL;
  guint lost = 99;

  assert_string_equal (backup, named);
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_BACKUP, &lost, NULL));
  assert_int_equal (lost, 0);
  assert_int_equal (files_in (place.folder), 1);
  text = bw_project_to_data (project, NULL);
  bw_project_set_title (project, "Title", "Neap");
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_BACKUP, &lost, NULL));
  assert_int_equal (lost, 0);
  assert_file_holds (backup, text);
  assert_int_equal (files_in (place.folder), 2);
  bad.link = EPERM; /* a disk without second names */
  g_free (g_steal_pointer (&text));
  text = bw_project_to_data (project, NULL);
  bw_project_set_title (project, "Title", "Spring");
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_BACKUP, &lost, NULL));
  bad.link = 0;
  assert_file_holds (backup, text);
  assert_int_equal (files_in (place.folder), 2);
  place_clear (&place);
}

static void
a_save_that_fails_leaves_the_backup_as_it_was (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  g_autofree char *backup = bw_save_backup_path (place.path);

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  assert_true (g_file_set_contents (backup, "older", -1, NULL));
  bad.fsync = EIO;
  assert_false (bw_project_save_how (project, place.file, BW_SAVE_BACKUP, NULL, NULL));
  bad.fsync = 0;
  assert_file_holds (place.path, "old");
  assert_file_holds (backup, "older");
  assert_int_equal (files_in (place.folder), 2);
  place_clear (&place);
}

static void
a_backup_that_cannot_be_is_told_and_the_save_goes_on (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  g_autofree char *backup = bw_save_backup_path (place.path), *words = NULL;
  guint lost = 0;

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  assert_int_equal (g_mkdir (backup, 0700), 0);
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_BACKUP, &lost, NULL));
  assert_int_equal (lost, BW_LOST_BACKUP);
  words = bw_save_lost_words (lost);
  assert_non_null (strstr (words, "no backup copy"));
  assert_null (bw_save_lost_words (0));
  assert_int_equal (files_in (place.folder), 2);
  assert_int_equal (g_rmdir (backup), 0);
  place_clear (&place);
}

/* --- What a file is besides its bytes ----------------------------------------------------------
 */

/* An access list of version 2: owner rw, user 65534 r, group r, mask r, others nothing. */
static const guint8 access_list[]
    = { 2, 0,   0,   0,   1,   0,   6,  0, 255, 255, 255, 255, 2,   0,  4,
        0, 254, 255, 0,   0,   4,   0,  4, 0,   255, 255, 255, 255, 16, 0,
        4, 0,   255, 255, 255, 255, 32, 0, 0,   0,   255, 255, 255, 255 };

static void
owner_permissions_and_attributes_outlive_a_save (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  gboolean root = geteuid () == 0;
  char value[64] = { 0 };
  struct stat status;
  guint lost = 99;

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  if (root)
    assert_int_equal (chown (place.path, 65534, 65534), 0);
  assert_int_equal (
      setxattr (place.path, "system.posix_acl_access", access_list, sizeof access_list, 0), 0);
  assert_int_equal (setxattr (place.path, "user.note", "for Ada", 7, 0), 0);
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_PLAIN, &lost, NULL));
  assert_int_equal (lost, 0);
  assert_int_equal (getxattr (place.path, "user.note", value, sizeof value), 7);
  assert_string_equal (value, "for Ada");
  assert_int_equal (getxattr (place.path, "system.posix_acl_access", value, sizeof value),
                    sizeof access_list);
  assert_memory_equal (value, access_list, sizeof access_list);
  assert_int_equal (stat (place.path, &status), 0);
  assert_int_equal (status.st_uid, root ? 65534 : geteuid ());
  assert_int_equal (status.st_mode & 07777, 0640);
  place_clear (&place);
}

static void
what_could_not_be_kept_is_told_and_is_no_failure (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  g_autofree char *other = g_build_filename (place.folder, "other", NULL), *text = NULL;
  struct stat status;
  guint lost = 0;

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  assert_int_equal (g_chmod (place.path, 0664), 0);
  assert_int_equal (link (place.path, other), 0);
  bad.fchmod = EPERM;
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_PLAIN, &lost, NULL));
  bad.fchmod = 0;
  assert_int_equal (lost, BW_LOST_LINKS | BW_LOST_PERMISSIONS);
  assert_false (bw_project_get_modified (project));
  text = bw_project_to_data (project, NULL);
  assert_file_holds (place.path, text);
  assert_file_holds (other, "old");
  assert_int_equal (setxattr (place.path, "user.note", "for Ada", 7, 0), 0);
  assert_int_equal (g_chmod (place.path, 0600), 0);
  bad.fsetxattr = ENOSPC;
  bad.fchmod = EPERM; /* refused, and as it was all the same */
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_PLAIN, &lost, NULL));
  bad.fsetxattr = bad.fchmod = 0;
  assert_int_equal (lost, BW_LOST_ATTRIBUTES);
  assert_int_equal (stat (place.path, &status), 0);
  assert_int_equal (status.st_mode & 07777, 0600);
  place_clear (&place);
}

/* Only an administrator can make a file of a foreign group to try it on. */
static void
a_group_that_cannot_be_kept_leaves_its_rights_to_nobody (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();
  struct stat status;
  guint lost = 0;

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  if (geteuid () == 0)
    assert_int_equal (chown (place.path, 65534, 65534), 0);
  assert_int_equal (g_chmod (place.path, 0664), 0);
  bad.fchown = EPERM;
  assert_true (bw_project_save_how (project, place.file, BW_SAVE_PLAIN, &lost, NULL));
  bad.fchown = 0;
  assert_int_equal (lost, geteuid () == 0 ? BW_LOST_OWNER : 0);
  assert_int_equal (stat (place.path, &status), 0);
  assert_int_equal (status.st_mode & 07777, geteuid () == 0 ? 0644 : 0664);
  place_clear (&place);
}

/* --- Names and disks ---------------------------------------------------------------------------
 */

static void
names_as_long_as_a_disk_takes_are_saved_with_their_backup (void **state)
{
  for (gsize bytes = 249; bytes <= 255; bytes++) {
    g_autoptr (BwProject) project = bw_project_new ();
    Place place = place_new ();
    g_autofree char *stem = g_strnfill (bytes - strlen (".bandwright"), 'n');
    g_autofree char *name = g_strconcat (stem, ".bandwright", NULL);
    g_autofree char *path = g_build_filename (place.folder, name, NULL);
    g_autoptr (GFile) file = g_file_new_for_path (path);
    guint lost = 0;

    assert_true (bw_project_save (project, file, NULL));
    assert_true (bw_project_save_how (project, file, BW_SAVE_BACKUP, &lost, NULL));
    assert_int_equal (lost, 0);
    assert_int_equal (files_in (place.folder), 2);
    place_clear (&place);
  }
}

static void
a_backups_name_is_cut_between_two_characters (void **state)
{
  g_autofree char *stem = g_strnfill (253, 'n');
  g_autofree char *name = g_strconcat ("/tmp/", stem, "é", NULL);
  g_autofree char *backup = bw_save_backup_path (name);
  g_autofree char *wanted = g_strconcat ("/tmp/", stem, "~", NULL);

  assert_string_equal (backup, wanted);
}

static void
each_way_a_disk_refuses_has_a_sentence (void **state)
{
  static const struct {
    int *call, number;
    const char *words;
  } ways[] = {
    { &bad.write, ENOSPC, "the disk is full" },
    { &bad.write, EDQUOT, "your share of the disk (the quota) is used up" },
    { &bad.write, EIO, "the disk reports a fault and may be failing: save in another place" },
    { &bad.fsync, EIO, "the disk reports a fault and may be failing: save in another place" },
    { &bad.fsync, EDQUOT, "your share of the disk (the quota) is used up" },
    { &bad.rename, EBUSY, "another program keeps it busy: try again in a moment" },
    { &bad.rename, ENAMETOOLONG, "the name is too long: choose a shorter one" },
    { &bad.rename, EROFS, "you are not allowed to write here" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++) {
    g_autoptr (BwProject) project = bw_project_new ();
    g_autoptr (GError) error = NULL;
    Place place = place_new ();

    assert_true (g_file_set_contents (place.path, "old", -1, NULL));
    *ways[i].call = ways[i].number;
    assert_false (bw_project_save (project, place.file, &error));
    *ways[i].call = 0;
    assert_int_equal (error->domain, G_IO_ERROR);
    assert_string_equal (error->message, ways[i].words);
    assert_file_holds (place.path, "old");
    assert_int_equal (files_in (place.folder), 1);
    place_clear (&place);
  }
}

static void
a_name_too_long_for_the_disk_is_told (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_strnfill (256, 'n');
  Place place = place_new ();
  g_autofree char *path = g_build_filename (place.folder, name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  assert_false (bw_project_save (project, file, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_FILENAME_TOO_LONG));
  assert_string_equal (error->message, "the name is too long: choose a shorter one");
  assert_int_equal (files_in (place.folder), 0);
  place_clear (&place);
}

/* --- Killed in the middle ----------------------------------------------------------------------
 */

static void
die_while_saving (BwProject *project, GFile *file, int *call)
{
  pid_t child = fork ();
  int status;

  assert_true (child >= 0);
  if (child == 0) {
    *call = DIE;
    bw_project_save_how (project, file, BW_SAVE_BACKUP, NULL, NULL);
    _exit (0);
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFSIGNALED (status));
}

static void
what_a_killed_save_left_goes_with_the_next (void **state)
{
  int *const calls[] = { &bad.write, &bad.fsync, &bad.rename };
  g_autoptr (BwProject) project = bw_project_new ();
  Place place = place_new ();

  assert_true (g_file_set_contents (place.path, "old", -1, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (calls); i++)
    die_while_saving (project, place.file, calls[i]);
  assert_file_holds (place.path, "old");
  assert_true (files_in (place.folder) > 1);
  assert_true (bw_project_save (project, place.file, NULL));
  assert_int_equal (files_in (place.folder), 1);
  place_clear (&place);
}

static void
only_what_is_ours_and_has_no_writer_is_swept (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_auto (BwBeside) living = BW_BESIDE_NONE;
  Place place = place_new ();
  g_autofree char *foreign = g_build_filename (place.folder, ".bandwright-save-notes", NULL);
  g_autofree char *orphan = g_build_filename (place.folder, BW_BESIDE_PREFIX "abcd1234", NULL);
  g_autofree char *folder = g_build_filename (place.folder, BW_BESIDE_PREFIX "folder12", NULL);

  assert_true (g_file_set_contents (foreign, "mine", -1, NULL));
  assert_true (g_file_set_contents (orphan, "left", -1, NULL));
  assert_int_equal (g_mkdir (folder, 0700), 0);
  assert_true (bw_beside_open (&living, place.folder, TRUE, NULL));
  assert_true (bw_project_save (project, place.file, NULL));
  assert_true (g_file_test (living.path, G_FILE_TEST_EXISTS));
  assert_true (g_file_test (foreign, G_FILE_TEST_EXISTS));
  assert_true (g_file_test (folder, G_FILE_TEST_IS_DIR));
  assert_false (g_file_test (orphan, G_FILE_TEST_EXISTS));
  assert_int_equal (g_rmdir (folder), 0);
  bw_beside_clear (&living);
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
    cmocka_unit_test (a_pipe_is_refused_at_once),
    cmocka_unit_test (a_load_that_is_stopped_gives_nothing),
    cmocka_unit_test (what_another_program_wrote_is_not_written_over_unasked),
    cmocka_unit_test (a_change_of_the_same_length_is_seen_too),
    cmocka_unit_test (a_file_that_was_only_touched_or_taken_away_is_saved_without_a_word),
    cmocka_unit_test (a_stamp_outlives_being_written_down),
    cmocka_unit_test (a_backup_is_what_was_there_before_the_save),
    cmocka_unit_test (a_save_that_fails_leaves_the_backup_as_it_was),
    cmocka_unit_test (a_backup_that_cannot_be_is_told_and_the_save_goes_on),
    cmocka_unit_test (owner_permissions_and_attributes_outlive_a_save),
    cmocka_unit_test (what_could_not_be_kept_is_told_and_is_no_failure),
    cmocka_unit_test (a_group_that_cannot_be_kept_leaves_its_rights_to_nobody),
    cmocka_unit_test (names_as_long_as_a_disk_takes_are_saved_with_their_backup),
    cmocka_unit_test (a_backups_name_is_cut_between_two_characters),
    cmocka_unit_test (each_way_a_disk_refuses_has_a_sentence),
    cmocka_unit_test (a_name_too_long_for_the_disk_is_told),
    cmocka_unit_test (what_a_killed_save_left_goes_with_the_next),
    cmocka_unit_test (only_what_is_ours_and_has_no_writer_is_swept),
  };

  return cmocka_run_group_tests_name ("save", tests, NULL, NULL);
}
