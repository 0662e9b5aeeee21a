/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving, closing, opening, and what is left after a crash: nothing a maker has done may be lost,
 * and nothing may be asked without need. */
#include "maker.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

#define STROKE 11 /* beads that draw_stroke() draws, in colour 1 */

typedef struct {
  Maker maker;
  char *path;
  char *before; /* the file as it was opened */
} Bench;

static char *
save_kelp (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "Kelp lantern");
  return maker_save (project, "kelp.bandwright");
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->path = save_kelp ();
  bench->before = maker_read (bench->path);
  maker_start (&bench->maker, bench->path);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench->path);
  g_free (bench->before);
  g_free (bench);
  return 0;
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

/* --- Opening -----------------------------------------------------------------------------------
 */

static void
ask_open (Maker *maker, const char *path)
{
  desk_key ("o", GDK_CONTROL_MASK);
  maker_dialog (maker);
  desk_key ("l", GDK_CONTROL_MASK);
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

static void
answer (Maker *maker, const char *words)
{
  maker_start (maker, NULL);
  GtkWidget *question = GTK_WIDGET (maker_dialog (maker));
  desk_keep ("file-recovery");
  desk_find_label (question, "Take back unsaved work?");
  assert_non_null (desk_look_for_prefix (question, "Bandwright ended before this was saved."));
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
  answer (&maker, "Take Back");
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

static const struct {
  const char *name;
  int (*work) (gconstpointer data);
} starts[] = {
  { "--crash", crash },
  { "--ask-later", ask_later },
  { "--discard", discard },
  { "--take-back", take_back },
};

static void
expect_crash (void)
{
  int status = maker_run_again ("--crash");
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
  expect_crash ();
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
  expect_crash ();
  expect_start ("--discard");
  expect_file (path, before);
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
    cmocka_unit_test (a_new_project_is_saved_under_a_name_once_asked),
    IN_WINDOW (a_broken_file_is_told_in_one_sentence_and_changes_nothing),
    cmocka_unit_test (an_untouched_window_takes_the_file_that_is_opened),
    IN_WINDOW (the_stage_is_as_wide_at_every_start),
    cmocka_unit_test (work_that_a_crash_cut_off_is_offered_until_it_is_taken_back),
    cmocka_unit_test (a_safety_copy_nobody_wants_goes_away),
  };
  for (gsize i = 0; argc > 1 && i < G_N_ELEMENTS (starts); i++)
    if (g_str_equal (argv[1], starts[i].name))
      return maker_work (starts[i].work, NULL);
  return maker_run (tests);
}
