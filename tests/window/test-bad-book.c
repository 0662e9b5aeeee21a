/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book that cannot be written or read, met in the workshop's window: one sentence each time, the
 * book as it was, and what was typed still there. */
#include "own-things.h"

#include "app/hands/hands-mend.h"
#include "app/keep/workbook.h"
#include "app/stones/stone-dialog.h"
#include "app/trays/tray-dialog.h"
#include "project/book/book-beads.h"
#include "project/book/book-habits.h"
#include "project/book/book-stash.h"
#include "project/book/book-stones.h"
#include "project/book/book-trays.h"

#include <errno.h>
#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <sys/syscall.h>
#include <unistd.h>
#include <cmocka.h>

/* A disk on which everything but the book can be put in its place: with this errno, unless it is 0.
 * It stands before the C library's. */
static int book_fails;

int
rename (const char *from, const char *to)
{
  if (book_fails && g_str_has_suffix (to, "bandwright-book.json")) {
    errno = book_fails;
    return -1;
  }
  return (int)syscall (SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0);
}

#define FULL "the disk is full"
#define READ_ONLY "you are not allowed to write here"

static char *
book_text (void)
{
  g_autofree char *path = bw_book_usual_path ();
  return maker_read (path);
}

/* One of everything. */
static gboolean
fill (BwBook *book, gpointer data, GError **error)
{
  g_autofree BwKeptTray *tray = g_new0 (BwKeptTray, 1);
  BwKeptStone stone = { .name = "Smoky point", .date = "2026-11-29", .mineral = "quartz" };
  BwBeadKind bead = { .bead = { "Harbour", 1.6, 1.3, 0.8, 2.5 } };
  BwStashItem thread = { .what = BW_STASH_THREAD, .name = "Smoke", .amount = 45000 };
  BwHabits none = { 0 }, habits = { 0 };
  g_auto (BwWoven) piece = { .diameter_mm = 1.6, .date = "2026-11-29", .bead = "Harbour" };
  BwCheck check = { 39, 32.32 };
  bw_tray_init (&tray->tray);
  g_strlcpy (tray->name, "Flood", sizeof tray->name);
  stone.measures = (BwStoneMeasures){ .faces = 6,
                                      .measured = BW_MEASURED_GIRTH,
                                      .values_mm = { 60 },
                                      .at_mm = 12,
                                      .length_mm = 48,
                                      .has_shoulder = TRUE,
                                      .shoulder_mm = 33,
                                      .girth_sd_mm = 0.4,
                                      .density_g_cm3 = 2.65 };
  habits.has[BW_HABIT_TAIL] = TRUE;
  habits.value[BW_HABIT_TAIL] = 100;
  piece.checks = g_array_new (FALSE, FALSE, sizeof (BwCheck));
  g_array_append_val (piece.checks, check);
  return bw_book_change_tray (book, NULL, tray, error)
         && bw_book_change_stone (book, NULL, &stone, error)
         && bw_book_change_bead (book, NULL, &bead, error)
         && bw_book_change_stash (book, NULL, &thread, error)
         && bw_book_change_habits (book, &none, &habits, error)
         && bw_book_put_piece (book, &piece, error);
}

static int
set_up_full (void **state)
{
  book_fails = 0;
  set_up_book (state);
  fill_book (fill, NULL);
  return 0;
}

static int
tear_down_full (void **state)
{
  book_fails = 0;
  return tear_down_book (state);
}

/* --- What is kept from a dialog ----------------------------------------------------------------
 */

/* A page, its thing, the dialog it is mended in, and what to write where. */
typedef struct {
  const char *page, *thing;
  GType (*dialog) (void);
  const char *edit;                 /* the button */
  void (*type) (GtkWidget *dialog); /* a change that the book must have in the end */
  const char *typed;                /* what then stands in the book */
} Case;

static void
type_name (GtkWidget *dialog)
{
  write_in (dialog, "name", "Neap 77");
}

static void
type_thing (GtkWidget *dialog)
{
  write_beside (dialog, "Name", "Neap 77");
}

static void
type_thread (GtkWidget *dialog)
{
  write_in (dialog, "thread", "Neap 77");
}

static const Case cases[] = {
  { "trays", "Flood", bw_tray_dialog_get_type, "Edit…", type_name, "\"Neap 77\"" },
  { "stones", "Smoky point", bw_stone_dialog_get_type, "Edit…", type_name, "\"Neap 77\"" },
  { "beads", "Harbour", bw_thing_dialog_get_type, "Edit…", type_thing, "\"Neap 77\"" },
  { "stash", "Smoke", bw_thing_dialog_get_type, "Edit…", type_thing, "\"Neap 77\"" },
  { "hands", "Your next piece starts from", bw_hands_mend_get_type, "Mend…", type_thread,
    "\"Neap 77\"" },
};

static GtkWidget *
open_case (GtkWidget *window, const Case *one)
{
  wait_for (window, one->thing);
  maker_click_words (window, one->edit);
  GtkWidget *dialog = wait_for_window (one->dialog ());
  one->type (dialog);
  desk_settle ();
  return dialog;
}

static gboolean
is_in_book (gpointer words)
{
  g_autofree char *text = book_text ();
  return strstr (text, words) != NULL;
}

/* Told in the dialog, which stays as it was typed; tried again when the disk has room, it is kept.
 */
static void
assert_survives (Maker *maker, const Case *one, int fails, const char *why)
{
  g_autofree char *sentence = g_strdup_printf ("Not saved: %s", why), *before = book_text ();
  GtkWidget *window = open_workshop (maker, one->page);
  GtkWidget *dialog = open_case (window, one);
  book_fails = fails;
  desk_click (button_of (dialog, "Save"));
  wait_for (dialog, sentence);
  g_autofree char *kept = g_strconcat ("bad-book-", one->page, NULL), *after = book_text ();
  desk_keep (kept);
  assert_string_equal (after, before);
  book_fails = 0;
  assert_true (can_save (dialog));
  desk_key ("Return", 0); /* where the hands were */
  desk_until (is_gone, dialog);
  assert_true (is_in_book ((gpointer)one->typed));
  desk_settle ();
  close_workshop (maker, window);
}

static void
what_is_typed_outlives_a_full_disk (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = bw_book_usual_path ();
    g_unlink (path);
    fill_book (fill, NULL);
    assert_survives (&((Bench *)*state)->maker, &cases[i], ENOSPC, FULL);
  }
}

static void
what_is_typed_outlives_a_read_only_book (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = bw_book_usual_path ();
    g_unlink (path);
    fill_book (fill, NULL);
    assert_survives (&((Bench *)*state)->maker, &cases[i], EROFS, READ_ONLY);
  }
}

/* Another program has removed what is being mended, and put in something else. */
static void
what_is_typed_outlives_another_programs_change (void **state)
{
  static const char other[] = "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": []}\n";
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = bw_book_usual_path ();
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_unlink (path);
    fill_book (fill, NULL);
    GtkWidget *window = open_workshop (maker, cases[i].page);
    GtkWidget *dialog = open_case (window, &cases[i]);
    assert_true (g_file_set_contents (path, other, -1, NULL));
    desk_click (button_of (dialog, "Save"));
    wait_for (dialog, "changed by another program meanwhile");
    g_autofree char *after = book_text ();
    assert_string_equal (after, other);
    desk_key ("Escape", 0);
    desk_until (is_gone, dialog);
    close_workshop (maker, window);
  }
}

/* A dialog that is open when the book goes bad does not write over it. */
static void
what_is_typed_outlives_a_book_that_went_bad (void **state)
{
  static const char newer[] = "{\"format\": \"bandwright-book\", \"version\": 2}\n";
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = bw_book_usual_path ();
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_unlink (path);
    fill_book (fill, NULL);
    GtkWidget *window = open_workshop (maker, cases[i].page);
    GtkWidget *dialog = open_case (window, &cases[i]);
    assert_true (g_file_set_contents (path, newer, -1, NULL));
    desk_click (button_of (dialog, "Save"));
    wait_for (dialog, "Not saved: this book was written by a newer Bandwright");
    g_autofree char *after = book_text ();
    assert_string_equal (after, newer);
    desk_key ("Escape", 0);
    desk_until (is_gone, dialog);
    close_workshop (maker, window);
  }
}

/* --- Habits ------------------------------------------------------------------------------------
 */

static gboolean
is_entry_of (GtkWidget *widget, gconstpointer habit)
{
  return GTK_IS_ENTRY (widget) && g_object_get_data (G_OBJECT (widget), "habit") == habit
         && GTK_IS_GRID (gtk_widget_get_parent (widget));
}

static GtkWidget *
type_habit (GtkWidget *window, BwHabit habit, const char *text)
{
  GtkWidget *entry = desk_look_for (window, is_entry_of, GINT_TO_POINTER (habit));
  maker_reveal (entry);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
  desk_key ("Return", 0);
  return entry;
}

static void
a_habit_that_is_typed_outlives_a_full_disk (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *before = book_text ();
  GtkWidget *window = open_workshop (maker, "habits");
  wait_for (window, "New projects start with");
  book_fails = ENOSPC;
  GtkWidget *entry = type_habit (window, BW_HABIT_TAIL, "123");
  wait_for (window, "Not saved: " FULL);
  desk_rest ();
  desk_keep ("bad-book-habits");
  g_autofree char *after = book_text ();
  assert_string_equal (after, before);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "123");
  book_fails = 0;
  desk_key ("Return", 0);
  desk_until (is_in_book, "\"tail_mm\": 123");
  close_workshop (maker, window);
}

static gboolean
lessen_spare (BwBook *book, gpointer data, GError **error)
{
  BwHabits before, now;
  bw_book_get_habits (book, &before);
  now = before;
  now.has[BW_HABIT_SPARE] = TRUE;
  now.value[BW_HABIT_SPARE] = 0.05;
  return bw_book_change_habits (book, &before, &now, error);
}

/* Another habit that another program wrote meanwhile is no reason to refuse this one; this one is.
 */
static void
habits_of_two_programs_come_together (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "habits");
  wait_for (window, "New projects start with");
  fill_book (lessen_spare, NULL);
  type_habit (window, BW_HABIT_TAIL, "123");
  desk_until (is_in_book, "\"tail_mm\": 123");
  assert_true (is_in_book ("\"spare\": 0.05"));
  desk_settle ();
  close_workshop (maker, window);
}

/* --- What is removed, and what is read in ------------------------------------------------------
 */

static void
what_cannot_be_removed_stays_and_the_reason_is_told (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *before = book_text ();
  GtkWidget *window = open_workshop (maker, "stash");
  wait_for (window, "Smoke");
  book_fails = ENOSPC;
  maker_click_words (window, "Remove");
  wait_for (window, "Your book is as it was: " FULL);
  desk_rest (); /* and it is there still when all is done */
  wait_for (window, FULL);
  desk_keep ("bad-book-remove");
  assert_non_null (desk_look_for_label (window, "Smoke"));
  assert_null (desk_look_for_prefix (window, "Put Back"));
  g_autofree char *after = book_text ();
  assert_string_equal (after, before);
  close_workshop (maker, window);
}

static void
a_bad_book_that_is_read_in_changes_nothing (void **state)
{
  static const char *const bad[][2]
      = { { "{\"format\": \"bandwright-book\", \"version\": 2}", "newer Bandwright" },
          { "{\"format\": \"bandwright-book\", \"vers", "other.json" },
          { "", "the file is empty" } };
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *before = book_text (), *path = maker_path ("other.json");
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Smoky point");
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    assert_true (g_file_set_contents (path, bad[i][0], -1, NULL));
    maker_click_words (window, "Read In…");
    maker_answer_path (maker, path);
    wait_for (window, bad[i][1]);
    g_autofree char *after = book_text ();
    assert_string_equal (after, before);
  }
  close_workshop (maker, window);
}

/* --- A book that cannot be read ----------------------------------------------------------------
 */

/* No page says that there is nothing in a book that nobody has read. */
static void
a_book_that_cannot_be_read_is_not_called_empty (void **state)
{
  static const char *const pages[][2]
      = { { "hands", "Nothing is written" },  { "finished", "No piece is marked" },
          { "stones", "No stone waits" },     { "trays", "No tray of your own" },
          { "beads", "No bead of your own" }, { "stash", "Nothing is in" } };
  Maker *maker = &((Bench *)*state)->maker;
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++) {
    GtkWidget *window = open_workshop (maker, pages[i][0]);
    wait_for (window, "cannot be read: /version: this book was written by a newer Bandwright");
    if (i == 2)
      desk_keep ("bad-book-newer");
    assert_null (desk_look_for (window, label_holds, pages[i][1]));
    close_workshop (maker, window);
  }
}

static int
set_up_newer (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  assert_int_equal (g_mkdir_with_parents (folder, 0700), 0);
  assert_true (
      g_file_set_contents (path, "{\"format\": \"bandwright-book\", \"version\": 2}", -1, NULL));
  return set_up (state);
}

/* --- A project's own save ----------------------------------------------------------------------
 */

/* The project is saved whatever becomes of the book, which is told; the next save notes it. */
static void
a_save_outlives_a_book_that_cannot_be_written (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwCheck check = { 39, 20 * 1.6 * 1.02 };
  BwProject *project = maker_project (maker);
  g_autofree char *before = book_text ();
  assert_true (bw_project_set_progress (project, "Strip", 40, &check, 1, NULL));
  book_fails = EROFS;
  desk_key ("s", GDK_CONTROL_MASK);
  wait_for (GTK_WIDGET (maker->window), "was not kept up: " READ_ONLY);
  desk_keep ("bad-book-save");
  assert_false (bw_project_get_modified (project));
  g_autofree char *after = book_text ();
  assert_string_equal (after, before);
  book_fails = 0;
  bw_project_set_title (project, "Title", "Kelp lantern again");
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (is_in_book, "Kelp lantern again");
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_full, tear_down_full)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (a_book_that_cannot_be_read_is_not_called_empty, set_up_newer,
                                     tear_down_full),
    IN_WINDOW (what_is_typed_outlives_a_full_disk),
    IN_WINDOW (what_is_typed_outlives_a_read_only_book),
    IN_WINDOW (what_is_typed_outlives_another_programs_change),
    IN_WINDOW (what_is_typed_outlives_a_book_that_went_bad),
    IN_WINDOW (a_habit_that_is_typed_outlives_a_full_disk),
    IN_WINDOW (habits_of_two_programs_come_together),
    IN_WINDOW (what_cannot_be_removed_stays_and_the_reason_is_told),
    IN_WINDOW (a_bad_book_that_is_read_in_changes_nothing),
    IN_WINDOW (a_save_outlives_a_book_that_cannot_be_written),
  };
  return maker_run (tests);
}
