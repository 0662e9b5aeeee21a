/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's workshop: what the book keeps, seen and mended in its window. */
#include "kelp.h"

#include "app/keep/workbook.h"
#include "app/hands/hands-mend.h"
#include "app/hands/hands-plot.h"
#include "app/workshop/workshop-window.h"
#include "project/book/book-file.h"

#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

/* --- The book ----------------------------------------------------------------------------------
 */

/* n pieces of 39 rows, the k-th k / 1000 of a pitch wider than the one before. */
static gboolean
fill (BwBook *book, gpointer data, GError **error)
{
  for (int k = 0; k < GPOINTER_TO_INT (data); k++) {
    g_auto (BwWoven) piece = { .diameter_mm = 1.6 };
    BwCheck check = { 39, 20 * 1.6 * (1.01 + 0.001 * (k % 20)) };
    g_snprintf (piece.id, sizeof piece.id, "piece-%d", k);
    g_snprintf (piece.date, sizeof piece.date, "2026-%02d-%02d", 1 + k % 12, 1 + k / 12 % 28);
    g_strlcpy (piece.bead, "11/0 cylinder", sizeof piece.bead);
    piece.checks = g_array_new (FALSE, FALSE, sizeof (BwCheck));
    g_array_append_val (piece.checks, check);
    if (!bw_book_put_piece (book, &piece, error))
      return FALSE;
  }
  return TRUE;
}

static void
write_book (int pieces)
{
  g_autofree char *path = bw_book_usual_path ();
  g_autoptr (GError) error = NULL;
  if (!bw_book_change (path, fill, GINT_TO_POINTER (pieces), &error))
    fail_msg ("%s", error->message);
}

static BwBook *
read_book (void)
{
  g_autofree char *path = bw_book_usual_path ();
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_load (path, &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

static int
set_up_book (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_unlink (path);
  return set_up (state);
}

static int
tear_down_book (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_chmod (path, 0600);
  g_unlink (path);
  return tear_down (state);
}

/* --- The window --------------------------------------------------------------------------------
 */

static GtkWidget *
open_workshop (Maker *maker)
{
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "workshop",
                                  g_variant_new_string ("hands"));
  GtkWidget *window = GTK_WIDGET (maker_dialog (maker));
  assert_true (BW_IS_WORKSHOP_WINDOW (window));
  return window;
}

typedef struct {
  GtkWidget *window;
  const char *words;
} Shown;

static gboolean
begins (gpointer data)
{
  const Shown *shown = data;
  return desk_look_for_prefix (shown->window, shown->words) != NULL;
}

static gboolean
holds (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words);
}

static gboolean
is_told (gpointer data)
{
  const Shown *shown = data;
  return desk_look_for (shown->window, holds, shown->words) != NULL;
}

static void
wait_for (GtkWidget *window, const char *words)
{
  Shown shown = { window, words };
  desk_until (begins, &shown);
  desk_settle ();
}

static void
wait_to_be_told (GtkWidget *window, const char *words)
{
  Shown shown = { window, words };
  desk_until (is_told, &shown);
}

static void
close_workshop (Maker *maker)
{
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

/* --- Hands -------------------------------------------------------------------------------------
 */

static void
an_empty_book_says_how_it_is_filled (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker);
  wait_for (window, "Nothing is written in the book yet");
  close_workshop (maker);
}

/* The book's own closed form, from the same file. */
static void
what_the_next_piece_starts_from_is_told (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  write_book (6);
  GtkWidget *window = open_workshop (maker);
  wait_for (window, "Your next piece starts from");
  desk_keep ("workshop-hands");
  g_autoptr (BwBook) book = read_book ();
  g_auto (BwBookHands) hands = { 0 };
  int pieces;
  bw_book_hands_init (&hands, book);
  BwGaugeHands own = bw_book_hands_of (&hands, "11/0 cylinder", 1.6, &pieces);
  g_autofree char *mm = bw_length_format (own.pitch_mm, BW_UNIT_MM, 3);
  g_autofree char *sd = bw_length_format (own.pitch_sd_mm, BW_UNIT_MM, 3);
  g_autofree char *words = g_strdup_printf ("Your next piece starts from %s ± %s", mm, sd);
  g_auto (GStrv) parts = g_strsplit (words, " mm", -1);
  g_autofree char *kept = g_strjoinv ("\u00a0mm", parts);
  assert_non_null (desk_look_for_prefix (window, kept));
  assert_non_null (desk_look_for (window, holds, "It rests on 6 pieces of this bead."));
  close_workshop (maker);
}

static gboolean
is_left_out (gpointer at)
{
  g_autoptr (BwBook) book = read_book ();
  return bw_book_get_piece (book, GPOINTER_TO_UINT (at))->left_out;
}

static gboolean
counts (gpointer at)
{
  return !is_left_out (at);
}

/* The newest lies on top and is the one chosen. */
static void
an_entry_is_left_out_and_counted_again (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  write_book (3);
  GtkWidget *window = open_workshop (maker);
  wait_for (window, "Your next piece starts from");
  maker_click_words (window, "Leave It Out");
  desk_until (is_left_out, GUINT_TO_POINTER (2));
  wait_to_be_told (window, "It rests on 2 pieces");
  desk_keep ("workshop-left-out");
  maker_click_words (window, "Count It Again");
  desk_until (counts, GUINT_TO_POINTER (2));
  wait_to_be_told (window, "It rests on 3 pieces");
  close_workshop (maker);
}

static GtkWidget *
entry_holding (GtkWidget *root, const char *text)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child)) {
    if (GTK_IS_ENTRY (child) && g_str_equal (gtk_editable_get_text (GTK_EDITABLE (child)), text))
      return child;
    GtkWidget *inner = entry_holding (child, text);
    if (inner)
      return inner;
  }
  return NULL;
}

static void
write_over (GtkWidget *window, const char *text, const char *by)
{
  GtkWidget *entry = entry_holding (window, text);
  assert_non_null (entry);
  maker_reveal (entry);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (by);
}

static gboolean
is_mended (gpointer data)
{
  g_autoptr (BwBook) book = read_book ();
  const BwWoven *piece = bw_book_get_piece (book, 0);
  return fabs (g_array_index (piece->checks, BwCheck, 0).length_mm - 32.5) < 1e-9;
}

static gboolean
is_mend (GtkWindow *window)
{
  return BW_IS_HANDS_MEND (window);
}

static GtkWidget *
open_mend (GtkWidget *workshop)
{
  maker_click_words (workshop, "Mend…");
  desk_settle ();
  g_autoptr (GList) all = gtk_window_list_toplevels ();
  for (GList *item = all; item; item = item->next)
    if (is_mend (item->data))
      return item->data;
  fail_msg ("no entry to mend");
  return NULL;
}

/* 9 mm from bead to bead is a slip of the decimal point, and said at once. */
static void
an_entry_is_mended_and_none_that_cannot_be (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  write_book (1);
  GtkWidget *window = open_workshop (maker);
  wait_for (window, "Your next piece starts from");
  GtkWidget *mend = open_mend (window);
  write_over (mend, "32.32 mm", "180");
  desk_settle ();
  desk_keep ("workshop-mend");
  assert_non_null (desk_look_for (mend, holds, "9.00\u00a0mm from bead to bead"));
  GtkWidget *save = gtk_widget_get_ancestor (desk_find_label (mend, "Save"), GTK_TYPE_BUTTON);
  assert_false (gtk_widget_get_sensitive (save));
  write_over (mend, "180", "32.5");
  assert_true (gtk_widget_get_sensitive (save));
  desk_click (save);
  desk_until (is_mended, NULL);
  wait_to_be_told (window, "2026-01-01 · 1.625");
  close_workshop (maker);
}

/* A piece with both readings and nothing of the pitch. */
static gboolean
put_gives (BwBook *book, gpointer data, GError **error)
{
  BwWoven piece = { .id = "given",
                    .date = "2026-10-01",
                    .bead = "11/0 cylinder",
                    .diameter_mm = 1.6,
                    .has_stretch = TRUE,
                    .thread_mm = 0.15,
                    .stretch = { 48.8, 49.6, BW_STRIP_BY_CALLIPER },
                    .has_squeeze = TRUE,
                    .cord_width_mm = 1,
                    .squeeze = { 70, 78, 76, BW_STRIP_BY_CALLIPER } };
  return bw_book_put_piece (book, &piece, error);
}

static gboolean
only_squeeze_is_left (gpointer data)
{
  g_autoptr (BwBook) book = read_book ();
  const BwWoven *piece = bw_book_get_piece (book, 0);
  return !piece->has_stretch && piece->has_squeeze && fabs (piece->squeeze.pulled_mm - 76.5) < 1e-9;
}

/* What thread and bed give is told, mended, and taken out by emptying its lengths; the told numbers
 * are the book's own, from the same file. */
static void
what_thread_and_bed_give_is_shown_mended_and_taken_out (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = bw_book_usual_path ();
  assert_true (bw_book_change (path, put_gives, NULL, NULL));
  GtkWidget *window = open_workshop (maker);
  wait_to_be_told (window, "1.2\u00a0% ± 0.3\u00a0% (1 piece)");
  wait_to_be_told (window, "19.6\u00a0%");
  assert_non_null (desk_look_for (window, holds, "pulled length, squeeze of the bed"));
  desk_settle ();
  desk_keep ("workshop-gives");
  GtkWidget *mend = open_mend (window);
  desk_keep ("workshop-gives-mend");
  write_over (mend, "49.6 mm", "70");
  GtkWidget *save = gtk_widget_get_ancestor (desk_find_label (mend, "Save"), GTK_TYPE_BUTTON);
  assert_false (gtk_widget_get_sensitive (save));
  write_over (mend, "70", " ");
  desk_key ("BackSpace", 0);
  write_over (mend, "48.8 mm", " ");
  desk_key ("BackSpace", 0);
  write_over (mend, "76 mm", "76.5");
  desk_keep ("workshop-gives-mended");
  assert_true (gtk_widget_get_sensitive (save));
  desk_click (save);
  desk_until (only_squeeze_is_left, NULL);
  wait_to_be_told (window, "2026-10-01 · squeeze of the bed"); /* and the dialog is gone */
  close_workshop (maker);
}

/* What another program wrote meanwhile stays; what is not there any more is not mended. */
static gboolean
empty_book (BwBook *book, gpointer data, GError **error)
{
  g_auto (BwWoven) piece = bw_woven_copy (bw_book_get_piece (book, 0));
  g_strlcpy (piece.id, "another", sizeof piece.id);
  g_strlcpy (piece.date, "2025-01-01", sizeof piece.date);
  return bw_book_mend_piece (book, 0, bw_book_get_piece (book, 0), &piece, error);
}

static void
an_entry_changed_by_another_program_is_not_written_over (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = bw_book_usual_path ();
  write_book (1);
  GtkWidget *window = open_workshop (maker);
  wait_for (window, "Your next piece starts from");
  assert_true (bw_book_change (path, empty_book, NULL, NULL));
  maker_click_words (window, "Leave It Out");
  wait_to_be_told (window, "changed by another program meanwhile");
  desk_keep ("workshop-meanwhile");
  g_autoptr (BwBook) book = read_book ();
  assert_string_equal (bw_book_get_piece (book, 0)->id, "another");
  assert_false (bw_book_get_piece (book, 0)->left_out);
  assert_non_null (desk_look_for (window, holds, "2025-01-01 ·"));
  close_workshop (maker);
}

static gboolean
has_nine (gpointer data)
{
  g_autoptr (BwBook) book = read_book ();
  return bw_book_n_pieces (book) == 9;
}

static void
a_book_is_exported_and_read_in_again (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *usual = bw_book_usual_path (), *path = maker_path ("other.json");
  write_book (9);
  GtkWidget *window = open_workshop (maker);
  wait_for (window, "Your next piece starts from");
  maker_click_words (window, "Export…");
  maker_answer_path (maker, path);
  wait_to_be_told (window, "was written");
  g_unlink (usual);
  write_book (2);
  maker_click_words (window, "Read In…");
  maker_answer_path (maker, path);
  desk_until (has_nine, NULL);
  wait_to_be_told (window, "It rests on 9 pieces");
  wait_to_be_told (window, "7 entries were new. 2 were there already.");
  maker_click_words (window, "Read In…");
  maker_answer_path (maker, path);
  wait_to_be_told (window, "0 entries were new. 9 were there already.");
  close_workshop (maker);
}

static void
a_book_that_cannot_be_read_is_told_and_left_alone (void **state)
{
  static const char *const bad[][2]
      = { { "{\"format\": \"bandwright-book\", \"version\": 7}", "newer Bandwright" },
          { "{\"format\": \"bandwright-book\", \"vers", "bandwright-book.json" },
          { "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": [{\"diameter_mm\": 1.6, "
            "\"date\": \"2026-11-29\", \"checks\": [{\"rows\": 39, \"length_mm\": 180}]}]}",
            "9.00\u00a0mm from bead to bead" } };
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = bw_book_usual_path ();
  write_book (1);
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    assert_true (g_file_set_contents (path, bad[i][0], -1, NULL));
    GtkWidget *window = open_workshop (maker);
    wait_to_be_told (window, bad[i][1]);
    if (i == 0)
      desk_keep ("workshop-newer");
    g_autofree char *after = maker_read (path);
    assert_string_equal (after, bad[i][0]);
    close_workshop (maker);
  }
}

static void
ten_thousand_pieces_are_shown (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  write_book (10000);
  GtkWidget *window = open_workshop (maker);
  wait_to_be_told (window, "It rests on 10000 pieces");
  desk_settle ();
  desk_keep ("workshop-many");
  assert_non_null (desk_look_for (window, holds, "learnt from your own."));
  close_workshop (maker);
}

/* --- Finished ----------------------------------------------------------------------------------
 */

static gboolean
has_name (GtkWidget *widget, gconstpointer name)
{
  return g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), name) == 0;
}

static void
write_in (GtkWidget *dialog, const char *name, const char *text)
{
  GtkWidget *field = desk_look_for (dialog, has_name, name);
  assert_non_null (field);
  desk_click (field);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
}

static gboolean
one_is_finished (gpointer data)
{
  g_autoptr (BwBook) book = read_book ();
  return bw_book_n_pieces (book) == 1 && bw_book_get_piece (book, 0)->has_end;
}

/* Marked in its window, saved, and there among the finished ones; undo takes the mark back. */
static void
a_piece_is_marked_as_finished_and_goes_into_the_book (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  int planned = maker_design (maker)->band.rows;
  g_autofree char *csv = maker_path ("finished.csv");
  maker_stage (maker, "make");
  maker_click_words (GTK_WIDGET (maker->window), "Mark as Finished…");
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  GtkWidget *use
      = gtk_widget_get_ancestor (desk_find_label (dialog, "It Is Finished"), GTK_TYPE_BUTTON);
  desk_settle ();
  write_in (dialog, "rows", "101");
  assert_false (gtk_widget_get_sensitive (use));
  assert_non_null (desk_look_for (dialog, holds, "even number of rows"));
  write_in (dialog, "rows", "12");
  assert_false (gtk_widget_get_sensitive (use));
  assert_non_null (desk_look_for (dialog, holds, "to come round this stone with 12 rows"));
  write_in (dialog, "rows", "102");
  write_in (dialog, "hours", "6.5");
  write_in (dialog, "picture", "kelp.jpg");
  write_in (dialog, "price", "95");
  desk_keep ("workshop-done-dialog");
  desk_click (use);
  maker_no_dialog (maker);
  assert_int_equal (bw_project_get_done (project)->rows, 102);
  assert_int_equal (bw_project_get_done (project)->planned, planned);
  assert_true (bw_project_get_done (project)->told > 0.2);
  wait_for (GTK_WIDGET (maker->window), "Woven with 102 rows; 100 were planned.");
  assert_non_null (desk_look_for (GTK_WIDGET (maker->window), holds, "Finished with 102 rows"));
  assert_null (desk_look_for (GTK_WIDGET (maker->window), holds, "turn out right"));
  desk_keep ("finished-window");
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (one_is_finished, NULL);
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "workshop",
                                  g_variant_new_string ("finished"));
  GtkWidget *window = GTK_WIDGET (maker_dialog (maker));
  wait_for (window, "1 piece is finished. Of 1 whose planned rows are known 0 came out right");
  assert_non_null (desk_look_for (window, holds, "Kelp lantern · 102 rows instead of 100"));
  desk_keep ("workshop-finished");
  assert_true (gtk_widget_get_width (window) <= 900);
  maker_click_words (window, "Export as CSV…");
  maker_answer_path (maker, csv);
  wait_to_be_told (window, "was written");
  g_autofree char *text = maker_read (csv);
  assert_non_null (strstr (text, ",Kelp lantern,11/0 cylinder,102,100,"));
  assert_non_null (strstr (text, ",6.5,,95,EUR,kept,kelp.jpg\r\n"));
  close_workshop (maker);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (bw_project_get_done (project)->rows, 0);
  wait_to_be_told (GTK_WIDGET (maker->window), "turn out right");
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_book, tear_down_book)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (an_empty_book_says_how_it_is_filled),
    IN_WINDOW (what_the_next_piece_starts_from_is_told),
    IN_WINDOW (an_entry_is_left_out_and_counted_again),
    IN_WINDOW (an_entry_is_mended_and_none_that_cannot_be),
    IN_WINDOW (what_thread_and_bed_give_is_shown_mended_and_taken_out),
    IN_WINDOW (an_entry_changed_by_another_program_is_not_written_over),
    IN_WINDOW (a_book_is_exported_and_read_in_again),
    IN_WINDOW (a_book_that_cannot_be_read_is_told_and_left_alone),
    IN_WINDOW (ten_thousand_pieces_are_shown),
    IN_WINDOW (a_piece_is_marked_as_finished_and_goes_into_the_book),
  };
  return maker_run (tests);
}
