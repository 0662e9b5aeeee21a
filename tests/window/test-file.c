/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving, closing, opening, and what is left after a crash: nothing a maker has done may be lost,
 * and nothing may be asked without need. */
#include "kelp.h"

#include "app/kit/settings.h"
#include "project/session.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

#define STROKE 11 /* beads that draw_stroke() draws, in colour 1 */

/* A session that counts who asks it not to end. They stand before the toolkit's. */
static int held_up;

guint
gtk_application_inhibit (GtkApplication *application, GtkWindow *window,
                         GtkApplicationInhibitFlags flags, const char *reason)
{
  assert_int_equal (flags, GTK_APPLICATION_INHIBIT_LOGOUT);
  assert_true (g_str_has_suffix (reason, "” is not saved."));
  return (guint)++held_up;
}

void
gtk_application_uninhibit (GtkApplication *application, guint cookie)
{
  assert_int_equal (cookie, held_up);
  held_up--;
}

/* A disk that does not give this file's bytes before it is told to. */
static ino_t slow_inode;
static GMutex slow_lock;
static GCond quick_again;

static void
be_slow_for (ino_t inode)
{
  g_mutex_lock (&slow_lock);
  slow_inode = inode;
  g_cond_broadcast (&quick_again);
  g_mutex_unlock (&slow_lock);
}

ssize_t
read (int fd, void *buffer, size_t n)
{
  struct stat status;
  g_mutex_lock (&slow_lock);
  while (slow_inode && fstat (fd, &status) == 0 && status.st_ino == slow_inode)
    g_cond_wait (&quick_again, &slow_lock);
  g_mutex_unlock (&slow_lock);
  return syscall (SYS_read, fd, buffer, n);
}

static void
draw_stroke (Maker *maker)
{
  maker_stage (maker, "draw");
  maker_take_colour (maker, 1);
  maker_drag_beads (maker, 21, 4, 41, 4);
  assert_int_equal (maker_count (maker, 1), STROKE);
}

static char *
document (Maker *maker)
{
  return bw_project_to_data (maker_project (maker), NULL);
}

static gboolean
is_closed (gpointer data)
{
  return ((Maker *)data)->window == NULL;
}

static gboolean
is_not_opening (gpointer data)
{
  return !bw_window_is_opening (((Maker *)data)->window);
}

static const char *
notice_of (Maker *maker)
{
  GtkWidget *bar = maker_find (maker, GTK_TYPE_INFO_BAR);
  return gtk_label_get_text (GTK_LABEL (desk_find_type (bar, GTK_TYPE_LABEL)));
}

static gboolean
has_notice (gpointer data)
{
  GtkWidget *bar = maker_find (data, GTK_TYPE_INFO_BAR);
  return gtk_info_bar_get_revealed (GTK_INFO_BAR (bar)) && *notice_of (data);
}

static void
expect_file (const char *path, const char *text)
{
  g_autofree char *now = maker_read (path);
  assert_string_equal (now, text);
}

static void
expect_own_file (Maker *maker, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  assert_non_null (bw_project_get_file (maker_project (maker)));
  assert_true (g_file_equal (bw_project_get_file (maker_project (maker)), file));
}

/* --- Saving and coming back --------------------------------------------------------------------
 */

static void
what_was_saved_comes_back_byte_for_byte (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  draw_stroke (maker);
  desk_key ("s", GDK_CONTROL_MASK);
  g_autofree char *saved = document (maker);
  expect_file (bench->path, saved);
  assert_string_not_equal (saved, bench->before);
  desk_key ("q", GDK_CONTROL_MASK);
  desk_until (is_closed, maker);

  maker_start (maker, bench->path);
  g_autofree char *again = document (maker);
  assert_string_equal (again, saved);
  assert_false (bw_project_get_modified (maker_project (maker)));
  desk_key ("s", GDK_CONTROL_MASK);
  expect_file (bench->path, saved);
}

static void
closing_what_is_saved_asks_nothing (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_stage (maker, "make");
  desk_key ("w", GDK_CONTROL_MASK);
  desk_until (is_closed, maker);
  expect_file (bench->path, bench->before);
}

static void
cancel_keeps_the_window_and_discard_leaves_the_file (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  draw_stroke (maker);
  g_autofree char *drawn = document (maker);
  desk_key ("w", GDK_CONTROL_MASK);
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Cancel");
  maker_no_dialog (maker);
  assert_non_null (maker->window);
  g_autofree char *kept = document (maker);
  assert_string_equal (kept, drawn);
  assert_true (bw_project_get_modified (maker_project (maker)));

  desk_key ("w", GDK_CONTROL_MASK);
  GtkWidget *question = GTK_WIDGET (maker_dialog (maker));
  desk_find_label (question, "Save “Kelp lantern” before closing?");
  desk_keep ("file-question");
  maker_click_words (question, "Discard");
  desk_until (is_closed, maker);
  expect_file (bench->path, bench->before);
}

static void
escape_answers_the_question_with_cancel (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  draw_stroke (maker);
  desk_key ("q", GDK_CONTROL_MASK);
  maker_dialog (maker);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  assert_int_equal (maker_count (maker, 1), STROKE);
}

static void
save_in_the_question_writes_and_closes (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  draw_stroke (maker);
  g_autofree char *drawn = document (maker);
  desk_key ("q", GDK_CONTROL_MASK);
  maker_dialog (maker);
  desk_key ("Return", 0);
  desk_until (is_closed, maker);
  expect_file (bench->path, drawn);
}

static void
save_as_goes_on_in_the_new_file (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *bare = maker_path ("second one");
  g_autofree char *path = maker_path ("second one.bandwright");
  draw_stroke (maker);
  g_autofree char *drawn = document (maker);
  desk_key ("s", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  maker_answer_path (maker, bare);
  maker_no_dialog (maker);
  expect_file (path, drawn);
  expect_file (bench->path, bench->before);
  expect_own_file (maker, path);
  assert_false (bw_project_get_modified (maker_project (maker)));
}

static gboolean
asks_to_replace (gpointer data)
{
  GtkWindow *dialog = desk_dialog (GTK_WINDOW (((Maker *)data)->window));
  return dialog
         && desk_look_for_label (GTK_WIDGET (dialog),
                                 "“third one.bandwright” is there already. Replace it?");
}

static void
answer_replacing (Maker *maker, const char *words)
{
  desk_until (asks_to_replace, maker);
  desk_settle ();
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), words);
}

/* The dialog itself asks only about “third one”, which is not there. */
static void
a_name_whose_ending_is_left_out_overwrites_nothing_unasked (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *bare = maker_path ("third one");
  g_autofree char *path = maker_path ("third one.bandwright");
  assert_true (g_file_set_contents (path, bench->before, -1, NULL));
  draw_stroke (maker);
  g_autofree char *drawn = document (maker);
  desk_key ("s", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  maker_answer_path (maker, bare);
  answer_replacing (maker, "Cancel");
  maker_dialog (maker);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  expect_file (path, bench->before);
  assert_true (bw_project_get_modified (maker_project (maker)));

  desk_key ("s", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  maker_answer_path (maker, bare);
  answer_replacing (maker, "Replace");
  maker_no_dialog (maker);
  expect_file (path, drawn);
  expect_own_file (maker, path);
}

/* Asked from outside, as a session that ends would: no dialog can be in the way of that. */
static void
quitting_with_dialogs_open_closes_them_with_their_window (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_stage (maker, "measure");
  maker_click_words (GTK_WIDGET (maker->window), "Measure a Swatch…");
  maker_dialog (maker);
  g_action_group_activate_action (G_ACTION_GROUP (maker->window), "save-as", NULL);
  desk_settle ();
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "quit", NULL);
  desk_until (is_closed, maker);
  maker_no_dialog (maker);
  expect_file (bench->path, bench->before);
}

/* Not where the program happened to be started. */
static void
the_first_save_offers_a_folder_of_the_makers (void **state)
{
  Maker maker = { 0 };
  maker_start (&maker, NULL);
  desk_key ("s", GDK_CONTROL_MASK);
  GtkWindow *dialog = maker_dialog (&maker);
  assert_true (GTK_IS_FILE_CHOOSER (dialog));
  const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
  gboolean there = documents && g_file_test (documents, G_FILE_TEST_IS_DIR);
  g_autoptr (GFile) offered = gtk_file_chooser_get_current_folder (GTK_FILE_CHOOSER (dialog));
  g_autoptr (GFile) expected = g_file_new_for_path (there ? documents : g_get_home_dir ());
  assert_non_null (offered);
  assert_true (g_file_equal (offered, expected));
  desk_key ("Escape", 0);
  maker_no_dialog (&maker);
  maker_stop (&maker);
}

static void
a_new_project_is_saved_under_a_name_once_asked (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = maker_path ("first one.bandwright");
  maker_start (&maker, NULL);
  draw_stroke (&maker);
  desk_key ("w", GDK_CONTROL_MASK);
  maker_dialog (&maker);
  desk_key ("Return", 0);
  maker_dialog (&maker);
  desk_key ("Escape", 0);
  maker_no_dialog (&maker);
  assert_non_null (maker.window);
  assert_true (bw_project_get_modified (maker_project (&maker)));

  g_autofree char *drawn = document (&maker);
  desk_key ("s", GDK_CONTROL_MASK);
  maker_answer_path (&maker, path);
  maker_no_dialog (&maker);
  assert_non_null (maker.window);
  expect_file (path, drawn);
  expect_own_file (&maker, path);
  maker_stop (&maker);
}

static void
logging_out_is_held_up_while_something_is_unsaved (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  assert_int_equal (held_up, 0);
  draw_stroke (maker);
  assert_int_equal (held_up, 1);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (held_up, 0);
  desk_key ("z", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  assert_int_equal (held_up, 1);
  desk_key ("s", GDK_CONTROL_MASK);
  assert_int_equal (held_up, 0);
  maker_click_bead (maker, 61, 4);
  assert_int_equal (held_up, 1);
  desk_key ("w", GDK_CONTROL_MASK);
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Discard");
  desk_until (is_closed, maker);
  assert_int_equal (held_up, 0);
}

/* --- Another program at the same file -----------------------------------------------------------
 */

/* Another program, which knows nothing of this one, puts its own words into the file. */
static void
written_by_another (const char *path, const char *text)
{
  g_autofree char *words = g_shell_quote (text), *name = g_shell_quote (path);
  g_autofree char *command = g_strdup_printf ("printf %%s %s > %s", words, name);
  int status = system (command);
  assert_int_equal (status, 0);
}

/* The kelp lantern as another maker would have it: twenty rows woven. */
static char *
theirs (const Bench *bench)
{
  g_auto (GStrv) parts = g_strsplit (bench->before, "\"rows_done\": 0", 2);
  assert_int_equal (g_strv_length (parts), 2);
  return g_strjoin ("\"rows_done\": 20", parts[0], parts[1], NULL);
}

static GtkWidget *
save_over_another (Maker *maker)
{
  desk_key ("s", GDK_CONTROL_MASK);
  GtkWidget *question = GTK_WIDGET (maker_dialog (maker));
  desk_find_label (question,
                   "Another program has changed “kelp.bandwright” since it was opened here.");
  return question;
}

static int
count_files (const char *below, const char *ending)
{
  g_autofree char *folder
      = g_build_filename (g_getenv ("XDG_STATE_HOME"), "bandwright", below, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  for (const char *name; dir && (name = g_dir_read_name (dir));)
    n += g_str_has_suffix (name, ending);
  return n;
}

static void
what_another_program_wrote_is_asked_about_with_what_differs (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *other = theirs (bench), *backup = g_strconcat (bench->path, "~", NULL);
  draw_stroke (maker);
  g_autofree char *drawn = document (maker);
  written_by_another (bench->path, other);
  GtkWidget *question = save_over_another (maker);
  desk_keep ("file-changed");
  desk_find_label (question, "Rows woven: 0 here, 20 in the file.\n"
                             "11 beads of the band have another colour in the file.");
  maker_click_words (question, "Cancel");
  maker_no_dialog (maker);
  expect_file (bench->path, other);
  assert_true (bw_project_get_modified (maker_project (maker)));

  maker_click_words (save_over_another (maker), "Overwrite");
  maker_no_dialog (maker);
  expect_file (bench->path, drawn);
  expect_file (backup, other);
  assert_false (bw_project_get_modified (maker_project (maker)));
  desk_key ("s", GDK_CONTROL_MASK);
  desk_settle ();
  maker_no_dialog (maker);
}

static void
reloading_shows_what_the_other_wrote_and_keeps_what_was_here (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *other = theirs (bench);
  int discarded = count_files ("discarded", ".bandwright");
  draw_stroke (maker);
  written_by_another (bench->path, other);
  maker_click_words (save_over_another (maker), "Reload");
  maker_no_dialog (maker);
  assert_int_equal (bw_project_get_rows_done (maker_project (maker)), 20);
  assert_int_equal (maker_count (maker, 1), 0);
  assert_false (bw_project_get_modified (maker_project (maker)));
  expect_file (bench->path, other);
  assert_int_equal (count_files ("discarded", ".bandwright"), discarded + 1);
  assert_true (g_str_has_prefix (notice_of (maker), "“kelp.bandwright” was reloaded."));
}

static void
saving_under_another_name_leaves_what_the_other_wrote (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *other = theirs (bench), *path = maker_path ("apart.bandwright");
  draw_stroke (maker);
  g_autofree char *drawn = document (maker);
  written_by_another (bench->path, other);
  maker_click_words (save_over_another (maker), "Save As…");
  maker_answer_path (maker, path);
  maker_no_dialog (maker);
  expect_file (path, drawn);
  expect_file (bench->path, other);
  expect_own_file (maker, path);
}

/* What is no project any more can be written over, or left; there is nothing to load. */
static void
a_file_that_another_program_broke_is_told_and_cannot_be_reloaded (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  draw_stroke (maker);
  written_by_another (bench->path, "{");
  GtkWidget *question = save_over_another (maker);
  assert_non_null (desk_look_for_prefix (question, "What is in the file now is no project"));
  assert_null (desk_look_for_label (question, "Reload"));
  maker_click_words (question, "Cancel");
  maker_no_dialog (maker);
}

static void
a_save_keeps_the_version_before_unless_that_is_not_wanted (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *backup = g_strconcat (bench->path, "~", NULL);
  g_unlink (backup);
  g_object_set (bw_settings_get (), "keep-backup", FALSE, NULL);
  draw_stroke (maker);
  desk_key ("s", GDK_CONTROL_MASK);
  assert_false (g_file_test (backup, G_FILE_TEST_EXISTS));
  g_autofree char *saved = maker_read (bench->path);
  g_object_set (bw_settings_get (), "keep-backup", TRUE, NULL);
  maker_click_bead (maker, 61, 4);
  desk_key ("s", GDK_CONTROL_MASK);
  expect_file (backup, saved);
}

static gboolean
asks_about_replacing (gpointer data)
{
  for (GList *item = gtk_application_get_windows (maker_application ()); item; item = item->next)
    if (desk_look_for_label (item->data, "Replace"))
      return TRUE;
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) top = g_list_model_get_item (all, i);
    if (desk_look_for_label (top, "Replace"))
      return TRUE;
  }
  return FALSE;
}

/* The toolkit's own question about a name that is there already. */
static void
answer_whether_to_replace (Maker *maker)
{
  desk_until (asks_about_replacing, maker);
  desk_settle ();
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) top = g_list_model_get_item (all, i);
    GtkWidget *button = desk_look_for_label (top, "Replace");
    if (button) {
      desk_click (button);
      return;
    }
  }
}

/* The same file under its other name must come to the same window, and no second window may save
 * over it. */
static void
one_file_is_in_one_window (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *other = maker_path ("other name.bandwright");
  g_autoptr (GFile) link_file = g_file_new_for_path (other);
  g_autoptr (BwProject) project = bw_project_new ();
  g_unlink (other);
  assert_int_equal (symlink (bench->path, other), 0);
  bw_window_open (maker->window, link_file);
  desk_until (is_not_opening, maker);
  desk_settle ();
  assert_int_equal (g_list_length (gtk_application_get_windows (maker_application ())), 1);

  bw_project_set_title (project, "Title", "Kelp lantern");
  BwWindow *second = bw_window_new (maker_application (), project);
  Maker beside = { 0 };
  g_set_weak_pointer (&beside.window, second);
  gtk_window_present (GTK_WINDOW (second));
  desk_settle ();
  g_action_group_activate_action (G_ACTION_GROUP (second), "save-as", NULL);
  maker_answer_path (&beside, other);
  answer_whether_to_replace (&beside);
  desk_until (has_notice, &beside);
  assert_true (
      g_str_has_prefix (notice_of (&beside), "“other name.bandwright” is open in another"));
  expect_file (bench->path, bench->before);
  bw_project_set_modified (project, FALSE);
  gtk_window_close (GTK_WINDOW (second));
  desk_until (is_closed, &beside);
}

/* --- Opening -----------------------------------------------------------------------------------
 */

static void
ask_open (Maker *maker, const char *path)
{
  desk_key ("o", GDK_CONTROL_MASK);
  maker_answer_path (maker, path);
}

static void
a_broken_file_is_told_in_one_sentence_and_changes_nothing (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("broken.bandwright");
  g_auto (GStrv) parts = g_strsplit (bench->before, "\"columns\": 12", 2);
  assert_int_equal (g_strv_length (parts), 2);
  g_autofree char *broken = g_strjoin ("\"columns\": 13", parts[0], parts[1], NULL);
  assert_true (g_file_set_contents (path, broken, -1, NULL));
  ask_open (maker, path);
  maker_no_dialog (maker);
  desk_until (has_notice, maker);
  desk_rest ();
  desk_keep ("file-broken");
  const char *notice = notice_of (maker);
  assert_true (g_str_has_prefix (notice, "“broken.bandwright” could not be opened: "));
  assert_true (g_str_has_suffix (notice, " (at /band/columns)"));
  assert_null (strchr (notice, '\n'));
  g_autofree char *kept = document (maker);
  assert_string_equal (kept, bench->before);
  expect_own_file (maker, bench->path);
  expect_file (path, broken);
}

/* Cut short by a full disk or a pulled stick, as files are. */
static void
a_damaged_file_is_told_with_the_way_to_its_backup (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("short.bandwright");
  assert_true (g_file_set_contents (path, bench->before, (gssize)strlen (bench->before) / 2, NULL));
  ask_open (maker, path);
  maker_no_dialog (maker);
  desk_until (has_notice, maker);
  const char *notice = notice_of (maker);
  assert_true (
      g_str_has_prefix (notice, "“short.bandwright” could not be opened: it is damaged ("));
  assert_true (g_str_has_suffix (notice, "). If a backup lies beside it, its name ends in ~."));
  assert_non_null (strstr (notice, ": the file breaks off here"));
}

/* The program's own pictures lie beside its projects. */
static void
a_picture_opened_as_a_project_is_told_to_be_one (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("kelp.png");
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 8, 8);
  assert_int_equal (cairo_surface_write_to_png (picture, path), CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (picture);
  ask_open (maker, path);
  maker_no_dialog (maker);
  desk_until (has_notice, maker);
  assert_string_equal (notice_of (maker),
                       "“kelp.png” could not be opened: it is a picture, not a project. Draw, "
                       "Picture lays it on the band.");
}

static void
an_untouched_window_takes_the_file_that_is_opened (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = save_kelp ();
  g_autofree char *text = maker_read (path);
  maker_start (&maker, NULL);
  ask_open (&maker, path);
  maker_no_dialog (&maker);
  g_autofree char *opened = document (&maker);
  assert_string_equal (opened, text);
  expect_own_file (&maker, path);
  assert_int_equal (g_list_length (gtk_application_get_windows (maker_application ())), 1);
  maker_stop (&maker);
}

/* Who opens a pipe waits for somebody at its other end: the window must not. */
static void
a_pipe_is_told_to_be_none_and_freezes_nothing (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("pipe.bandwright");
  g_autoptr (GFile) file = g_file_new_for_path (path);
  assert_int_equal (mkfifo (path, 0600), 0);
  bw_window_open (maker->window, file);
  desk_until (has_notice, maker);
  assert_string_equal (notice_of (maker),
                       "“pipe.bandwright” could not be opened: this is no ordinary file.");
  draw_stroke (maker);
  expect_own_file (maker, bench->path);
  g_unlink (path);
}

static GtkWidget *
stop_button (Maker *maker)
{
  return desk_look_for_label (GTK_WIDGET (maker->window), "Stop");
}

static gboolean
can_be_stopped (gpointer data)
{
  GtkWidget *button = stop_button (data);
  return button && gtk_widget_get_width (button) > 1;
}

static void
a_long_opening_is_told_and_can_be_stopped (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("long.bandwright");
  g_autoptr (GFile) file = g_file_new_for_path (path);
  struct stat status;
  assert_true (g_file_set_contents (path, bench->before, -1, NULL));
  assert_int_equal (stat (path, &status), 0);
  be_slow_for (status.st_ino);
  bw_window_open (maker->window, file);
  assert_true (bw_window_is_opening (maker->window));
  desk_until (can_be_stopped, maker);
  desk_settle ();
  desk_keep ("file-opening");
  desk_click (stop_button (maker));
  desk_until (is_not_opening, maker);
  assert_null (stop_button (maker));
  be_slow_for (0);
  expect_own_file (maker, bench->path);
  draw_stroke (maker);
  g_unlink (path);
}

/* A name of 250 characters without a blank, and one that is no text. */
static void
no_name_pushes_the_window_off_the_screen_or_is_shown_raw (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *stem = g_strnfill (238, 'W');
  g_autofree char *longest = g_strconcat (stem, ".bandwright", NULL);
  g_autofree char *path = maker_path (longest), *raw = maker_path ("kelp \xff\xfe.bandwright");
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFile) raw_file = g_file_new_for_path (raw);
  int width = gtk_widget_get_width (GTK_WIDGET (maker->window));
  written_by_another (path, "{");
  written_by_another (raw, "{");
  bw_window_open (maker->window, file);
  desk_until (has_notice, maker);
  desk_settle ();
  assert_int_equal (gtk_widget_get_width (GTK_WIDGET (maker->window)), width);
  assert_true (g_utf8_strlen (notice_of (maker), -1) < 250);
  gtk_label_set_text (
      GTK_LABEL (desk_find_type (maker_find (maker, GTK_TYPE_INFO_BAR), GTK_TYPE_LABEL)), "");
  bw_window_open (maker->window, raw_file);
  desk_until (has_notice, maker);
  assert_true (g_utf8_validate (notice_of (maker), -1, NULL));
  assert_true (
      g_str_has_prefix (notice_of (maker), "“kelp \xef\xbf\xbd\xef\xbf\xbd.bandwright” could"));
}

/* The toolkit's dialog listens to its folder, and files come and go there while it closes. */
static void
files_may_change_while_the_dialog_closes (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  for (int i = 0; i < 12; i++) {
    desk_key ("o", GDK_CONTROL_MASK);
    maker_dialog (maker);
    for (int k = 0; k < 20; k++) {
      g_autofree char *name = g_strdup_printf ("coming and going %d.bandwright", k);
      g_autofree char *path = maker_path (name);
      written_by_another (path, "{");
      if (k == 10)
        desk_strike ("Escape", 0);
      if (k % 2)
        g_unlink (path);
    }
    maker_no_dialog (maker);
  }
  expect_own_file (maker, bench->path);
}

static void
the_stage_is_as_wide_at_every_start (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  int width = gtk_paned_get_position (GTK_PANED (maker_find (maker, GTK_TYPE_PANED)));
  for (int i = 0; i < 3; i++) {
    desk_key ("w", GDK_CONTROL_MASK);
    desk_until (is_closed, maker);
    maker_start (maker, bench->path);
  }
  int now = gtk_paned_get_position (GTK_PANED (maker_find (maker, GTK_TYPE_PANED)));
  assert_in_range (now, width - 2, width + 2);
}

/* --- After a crash -----------------------------------------------------------------------------
 * Each start is a program of its own, on a display of its own, in the same folders. */

static int
count_copies (void)
{
  g_autofree char *folder
      = g_build_filename (g_getenv ("XDG_STATE_HOME"), "bandwright", "recovery", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  for (const char *name; dir && (name = g_dir_read_name (dir));)
    n += g_str_has_suffix (name, ".bandwright");
  return n;
}

static gboolean
has_copy (gpointer data)
{
  return count_copies () > 0;
}

/* Draws, waits for the safety copy that comes by itself, and dies without a word. */
static int
crash (gconstpointer data)
{
  Maker maker = { 0 };
  g_autofree char *path = save_kelp ();
  maker_start (&maker, path);
  draw_stroke (&maker);
  desk_until (has_copy, NULL);
  desk_settle ();
  kill (getpid (), SIGKILL);
  return 1;
}

/* Draws, and is ended from outside before any copy is due. */
static int
ended_by (int number)
{
  Maker maker = { 0 };
  g_autofree char *path = save_kelp ();
  maker_start (&maker, path);
  draw_stroke (&maker);
  if (count_copies () > 0)
    return 1;
  kill (getpid (), number);
  /* The signal comes to the main loop by another thread, whenever that has its turn; what the
   * program puts off for a while stays put off, so that no other copy can be taken for this one. */
  gint64 give_up = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  while (count_copies () == 0 && g_get_monotonic_time () < give_up)
    desk_settle ();
  if (count_copies () == 1)
    kill (getpid (), SIGKILL);
  return 1;
}

static int
terminated (gconstpointer data)
{
  return ended_by (SIGTERM);
}

static int
hung_up (gconstpointer data)
{
  return ended_by (SIGHUP);
}

static int
logged_out (gconstpointer data)
{
  Maker maker = { 0 };
  g_autofree char *path = save_kelp ();
  maker_start (&maker, path);
  draw_stroke (&maker);
  if (count_copies () > 0)
    return 1;
  g_signal_emit_by_name (maker_application (), "query-end");
  if (count_copies () == 1)
    kill (getpid (), SIGKILL);
  return 1;
}

static void
answer (Maker *maker, const char *words)
{
  maker_start (maker, NULL);
  GtkWidget *question = GTK_WIDGET (maker_dialog (maker));
  desk_keep ("file-recovery");
  assert_string_equal (gtk_window_get_title (GTK_WINDOW (question)), "Recover unsaved work?");
  assert_non_null (desk_look_for_prefix (question, "Bandwright ended before this was saved."));
  g_autofree char *path = maker_path ("kelp.bandwright");
  desk_find_label (question, "Kelp lantern");
  desk_find_label (question, path);
  desk_find_type (question, GTK_TYPE_PICTURE);
  GtkWidget *when = desk_look_for_prefix (question, "Copied ");
  assert_non_null (when);
  assert_true (
      g_str_has_suffix (gtk_label_get_text (GTK_LABEL (when)), "The copy is newer than the file."));
  maker_click_words (question, words);
  maker_no_dialog (maker);
}

static int
ask_later (gconstpointer data)
{
  Maker maker = { 0 };
  answer (&maker, "Ask Later");
  assert_int_equal (maker_count (&maker, 1), 0);
  maker_stop (&maker);
  return count_copies () == 1 ? 0 : 1;
}

static int
discard (gconstpointer data)
{
  Maker maker = { 0 };
  answer (&maker, "Discard");
  assert_int_equal (maker_count (&maker, 1), 0);
  maker_stop (&maker);
  return count_copies () == 0 ? 0 : 1;
}

static int
take_back (gconstpointer data)
{
  Maker maker = { 0 };
  g_autofree char *path = maker_path ("kelp.bandwright");
  answer (&maker, "Recover");
  assert_int_equal (maker_count (&maker, 1), STROKE);
  assert_true (bw_project_get_modified (maker_project (&maker)));
  expect_own_file (&maker, path);
  assert_int_equal (count_copies (), 1);
  desk_key ("s", GDK_CONTROL_MASK);
  g_autofree char *now = document (&maker);
  expect_file (path, now);
  assert_int_equal (count_copies (), 0);
  maker_stop (&maker);
  return 0;
}

/* The file that was crashed on is opened again, and only then is its work recovered: it takes the
 * place of what the window shows, and no second window could save over it. */
static int
recover_beside (gconstpointer data)
{
  Maker maker = { 0 };
  g_autofree char *path = maker_path ("kelp.bandwright");
  maker_start (&maker, path);
  maker_click_words (GTK_WIDGET (maker_dialog (&maker)), "Recover");
  maker_no_dialog (&maker);
  assert_int_equal (g_list_length (gtk_application_get_windows (maker_application ())), 1);
  assert_int_equal (maker_count (&maker, 1), STROKE);
  expect_own_file (&maker, path);
  desk_key ("s", GDK_CONTROL_MASK);
  g_autofree char *now = document (&maker);
  expect_file (path, now);
  assert_int_equal (count_copies (), 0);
  maker_stop (&maker);
  return 0;
}

/* Recovered, and gone again before anything was done to it. */
static int
recover_and_crash (gconstpointer data)
{
  Maker maker = { 0 };
  g_object_set (bw_settings_get (), "autosave", FALSE, NULL);
  maker_start (&maker, NULL);
  maker_click_words (GTK_WIDGET (maker_dialog (&maker)), "Recover");
  maker_no_dialog (&maker);
  assert_int_equal (maker_count (&maker, 1), STROKE);
  kill (getpid (), SIGKILL);
  return 1;
}

static const struct {
  const char *name;
  int (*work) (gconstpointer data);
} starts[] = {
  { "--crash", crash },
  { "--ask-later", ask_later },
  { "--discard", discard },
  { "--take-back", take_back },
  { "--terminated", terminated },
  { "--hung-up", hung_up },
  { "--logged-out", logged_out },
  { "--recover-beside", recover_beside },
  { "--recover-and-crash", recover_and_crash },
};

static void
expect_crash (const char *what)
{
  int status = maker_run_again (what);
  assert_true (WIFSIGNALED (status));
  assert_int_equal (WTERMSIG (status), SIGKILL);
  assert_int_equal (count_copies (), 1);
}

static void
expect_start (const char *what)
{
  int status = maker_run_again (what);
  assert_true (WIFEXITED (status));
  assert_int_equal (WEXITSTATUS (status), 0);
}

static void
work_that_a_crash_cut_off_is_offered_until_it_is_taken_back (void **state)
{
  g_autofree char *path = save_kelp ();
  g_autofree char *before = maker_read (path);
  expect_crash ("--crash");
  expect_file (path, before);
  expect_start ("--ask-later");
  expect_file (path, before);
  expect_start ("--take-back");
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (BwProject) project = bw_project_load (file, NULL);
  guint64 counts[256] = { 0 };
  assert_non_null (project);
  bw_drawing_count (bw_project_get_drawing (project), counts);
  assert_int_equal (counts[1], STROKE);
}

static void
a_safety_copy_nobody_wants_goes_away (void **state)
{
  g_autofree char *path = save_kelp ();
  g_autofree char *before = maker_read (path);
  expect_crash ("--crash");
  expect_start ("--discard");
  expect_file (path, before);
}

static void
work_is_copied_when_the_program_is_ended_from_outside (void **state)
{
  static const char *const ends[] = { "--terminated", "--hung-up", "--logged-out" };
  for (gsize i = 0; i < G_N_ELEMENTS (ends); i++) {
    expect_crash (ends[i]);
    expect_start ("--discard");
  }
}

static void
recovered_work_takes_the_place_of_what_its_window_shows (void **state)
{
  expect_crash ("--crash");
  expect_start ("--recover-beside");
}

/* With safety copies off no other would ever be written. */
static void
a_second_crash_right_after_recovering_loses_nothing (void **state)
{
  expect_crash ("--crash");
  expect_crash ("--recover-and-crash");
  expect_start ("--take-back");
}

int
main (int argc, char **argv)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (what_was_saved_comes_back_byte_for_byte),
    IN_WINDOW (closing_what_is_saved_asks_nothing),
    IN_WINDOW (cancel_keeps_the_window_and_discard_leaves_the_file),
    IN_WINDOW (escape_answers_the_question_with_cancel),
    IN_WINDOW (save_in_the_question_writes_and_closes),
    IN_WINDOW (save_as_goes_on_in_the_new_file),
    IN_WINDOW (a_name_whose_ending_is_left_out_overwrites_nothing_unasked),
    IN_WINDOW (quitting_with_dialogs_open_closes_them_with_their_window),
    cmocka_unit_test (the_first_save_offers_a_folder_of_the_makers),
    cmocka_unit_test (a_new_project_is_saved_under_a_name_once_asked),
    IN_WINDOW (logging_out_is_held_up_while_something_is_unsaved),
    IN_WINDOW (what_another_program_wrote_is_asked_about_with_what_differs),
    IN_WINDOW (reloading_shows_what_the_other_wrote_and_keeps_what_was_here),
    IN_WINDOW (saving_under_another_name_leaves_what_the_other_wrote),
    IN_WINDOW (a_file_that_another_program_broke_is_told_and_cannot_be_reloaded),
    IN_WINDOW (a_save_keeps_the_version_before_unless_that_is_not_wanted),
    IN_WINDOW (one_file_is_in_one_window),
    IN_WINDOW (a_pipe_is_told_to_be_none_and_freezes_nothing),
    IN_WINDOW (a_long_opening_is_told_and_can_be_stopped),
    IN_WINDOW (no_name_pushes_the_window_off_the_screen_or_is_shown_raw),
    IN_WINDOW (files_may_change_while_the_dialog_closes),
    IN_WINDOW (a_broken_file_is_told_in_one_sentence_and_changes_nothing),
    IN_WINDOW (a_damaged_file_is_told_with_the_way_to_its_backup),
    IN_WINDOW (a_picture_opened_as_a_project_is_told_to_be_one),
    cmocka_unit_test (an_untouched_window_takes_the_file_that_is_opened),
    IN_WINDOW (the_stage_is_as_wide_at_every_start),
    cmocka_unit_test (work_that_a_crash_cut_off_is_offered_until_it_is_taken_back),
    cmocka_unit_test (a_safety_copy_nobody_wants_goes_away),
    cmocka_unit_test (work_is_copied_when_the_program_is_ended_from_outside),
    cmocka_unit_test (recovered_work_takes_the_place_of_what_its_window_shows),
    cmocka_unit_test (a_second_crash_right_after_recovering_loses_nothing),
  };
  for (gsize i = 0; argc > 1 && i < G_N_ELEMENTS (starts); i++)
    if (g_str_equal (argv[1], starts[i].name))
      return maker_work (starts[i].work, NULL);
  return maker_run (tests);
}
