/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kinds of bead of the maker's own: kept in the workshop's window and used in a design. */
#include "own-things.h"

#include "app/measure/measure-cards.h"
#include "project/book/book-beads.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* n kinds, each a hundredth of a millimetre thicker than the one before. */
static gboolean
fill (BwBook *book, gpointer data, GError **error)
{
  for (int i = 0; i < GPOINTER_TO_INT (data); i++) {
    BwBeadKind kind = { .bead = { "", 1.6, 1.3, 0.8, 2.5 } };
    kind.bead.diameter_mm += 0.01 * i;
    g_snprintf (kind.bead.name, sizeof kind.bead.name, "Kind %d", i);
    g_snprintf (kind.article, sizeof kind.article, "TW-%04d", i);
    if (!bw_book_change_bead (book, NULL, &kind, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
has_bead (gpointer name)
{
  g_autoptr (BwBook) book = read_book ();
  return bw_book_find_bead (book, name) >= 0;
}

static gboolean
lacks_bead (gpointer name)
{
  return !has_bead (name);
}

static BwBeadKind
bead_of (const char *name)
{
  g_autoptr (BwBook) book = read_book ();
  BwBeadKind kind;
  int at = bw_book_find_bead (book, name);
  assert_true (at >= 0);
  bw_book_get_bead (book, (guint)at, &kind);
  return kind;
}

static GtkWidget *
open_beads (Maker *maker, int n)
{
  if (n > 0)
    fill_book (fill, GINT_TO_POINTER (n));
  GtkWidget *window = open_workshop (maker, "beads");
  wait_for (window, n > 0 ? "Kind 0" : "No bead of your own is written down yet");
  return window;
}

static GtkWidget *
open_dialog (GtkWidget *window, const char *button)
{
  maker_click_words (window, button);
  return wait_for_window (BW_TYPE_THING_DIALOG);
}

static void
type_sizes (GtkWidget *dialog)
{
  write_beside (dialog, "Name", "Harbour fair");
  write_beside (dialog, "Diameter", "1,62");
  write_beside (dialog, "Length along the hole", "0.052 in");
  write_beside (dialog, "Hole", "0.8 mm");
}

static void
a_bead_is_typed_in_and_each_slip_is_one_sentence (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_beads (maker, 0);
  desk_keep ("own-beads-empty");
  GtkWidget *dialog = open_dialog (window, "New Bead…");
  assert_false (can_save (dialog));
  type_sizes (dialog);
  assert_true (can_save (dialog));
  write_beside (dialog, "Hole", "1.7");
  assert_false (can_save (dialog));
  write_beside (dialog, "Hole", "nan");
  wait_for (dialog, "nan");
  assert_false (can_save (dialog));
  write_beside (dialog, "Hole", "0.8");
  write_beside (dialog, "A hundred weigh", "52");
  wait_for (dialog, "a hundred beads of this size weigh from");
  assert_false (can_save (dialog));
  write_beside (dialog, "A hundred weigh", "0.55 g");
  write_beside (dialog, "Price", "3,20");
  wait_for (dialog, "the grams are missing");
  write_beside (dialog, "The price is for", "5");
  write_beside (dialog, "Currency", "EUR");
  desk_click (desk_find_label (dialog, "matte"));
  desk_settle ();
  desk_keep ("own-beads-dialog");
  assert_true (can_save (dialog));
  desk_click (button_of (dialog, "Save"));
  desk_until (is_gone, dialog);
  wait_for (window, "1.62\u00a0mm thick, 1.32\u00a0mm long");
  desk_keep ("own-beads-one");
  BwBeadKind kind = bead_of ("Harbour fair");
  assert_near (kind.bead.diameter_mm, 1.62);
  assert_near (kind.bead.length_mm, 0.052 * 25.4);
  assert_near (kind.per_100_g, 0.55);
  assert_int_equal (kind.finishes, 1u << BW_FINISH_MATTE);
  close_workshop (maker, window);
}

static void
a_large_bead_is_asked_about_and_taken (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_beads (maker, 0);
  GtkWidget *dialog = open_dialog (window, "New Bead…");
  type_sizes (dialog);
  write_beside (dialog, "Diameter", "9");
  wait_for (dialog, "is the decimal point where it should be?");
  assert_true (can_save (dialog));
  write_beside (dialog, "Diameter", "90");
  wait_for (dialog, "is not between");
  assert_false (can_save (dialog));
  desk_key ("Escape", 0);
  desk_until (is_gone, dialog);
  assert_true (lacks_bead ("Harbour fair"));
  close_workshop (maker, window);
}

static gboolean
is_offered (gpointer data)
{
  GListModel *names = gtk_drop_down_get_model (data);
  for (guint i = 0; i < g_list_model_get_n_items (names); i++) {
    g_autoptr (GtkStringObject) item = g_list_model_get_item (names, i);
    if (g_str_equal (gtk_string_object_get_string (item), "Kind 1"))
      return TRUE;
  }
  return FALSE;
}

static gboolean
price_it (BwBook *book, gpointer data, GError **error)
{
  BwBeadKind before, after;
  bw_book_get_bead (book, 1, &before);
  after = before;
  after.price = 4.5;
  after.pack_g = 7;
  after.per_100_g = 0.6;
  return bw_book_change_bead (book, &before, &after, error);
}

/* Sizes, weight and price go into the design, and one step takes all of it back. */
static void
an_own_bead_is_chosen_in_the_design (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwDesign before = *maker_design (maker);
  guint steps = bw_project_count_steps (maker_project (maker));
  fill_book (fill, GINT_TO_POINTER (3));
  fill_book (price_it, NULL);
  GtkWidget *window = open_workshop (maker, "beads");
  wait_for (window, "Kind 1");
  close_workshop (maker, window);
  maker_stage (maker, "measure");
  maker_unfold (GTK_WIDGET (maker->window), label_holds, "The bead");
  GtkWidget *card = maker_find (maker, BW_TYPE_BEAD_CARD);
  GtkDropDown *sizes = GTK_DROP_DOWN (desk_find_type (card, GTK_TYPE_DROP_DOWN));
  desk_until (is_offered, sizes);
  GListModel *names = gtk_drop_down_get_model (sizes);
  for (guint i = 0; i < g_list_model_get_n_items (names); i++) {
    g_autoptr (GtkStringObject) item = g_list_model_get_item (names, i);
    if (g_str_equal (gtk_string_object_get_string (item), "Kind 1"))
      gtk_drop_down_set_selected (sizes, i);
  }
  desk_settle ();
  const BwDesign *design = maker_design (maker);
  assert_string_equal (design->bead.name, "Kind 1");
  assert_near (design->bead.diameter_mm, 1.61);
  assert_near (100 * bw_bead_mass_g (&design->bead), 0.6);
  assert_near (design->supply.pack, 4.5);
  assert_near (design->supply.pack_g, 7);
  assert_int_equal (bw_project_count_steps (maker_project (maker)), steps + 1);
  bw_project_undo (maker_project (maker));
  assert_near (maker_design (maker)->supply.pack_g, before.supply.pack_g);
  assert_string_equal (maker_design (maker)->bead.name, before.bead.name);
}

static void
a_name_that_is_anothers_is_told_and_what_is_typed_stays (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_beads (maker, 3);
  desk_click (desk_find_label (window, "Kind 1"));
  desk_settle ();
  GtkWidget *dialog = open_dialog (window, "Edit…");
  write_beside (dialog, "Name", "Kind 2");
  desk_click (button_of (dialog, "Save"));
  wait_for (dialog, "Not saved: “Kind 2” is the name of another one.");
  desk_keep ("own-beads-twice");
  write_beside (dialog, "Name", "Kind 7");
  desk_click (button_of (dialog, "Save"));
  desk_until (is_gone, dialog);
  assert_true (has_bead ("Kind 7") && has_bead ("Kind 2") && lacks_bead ("Kind 1"));
  close_workshop (maker, window);
}

static void
a_bead_is_removed_and_put_back (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_beads (maker, 3);
  desk_click (desk_find_label (window, "Kind 1"));
  desk_settle ();
  maker_click_words (window, "Remove");
  desk_until (lacks_bead, "Kind 1");
  wait_for (window, "Put Back “Kind 1”");
  desk_keep ("own-beads-removed");
  maker_click_words (window, "Put Back “Kind 1”");
  desk_until (has_bead, "Kind 1");
  assert_string_equal (bead_of ("Kind 1").article, "TW-0001");
  wait_for (window, "Kind 1");
  close_workshop (maker, window);
}

static void
beads_go_out_and_come_in_again (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *json = maker_path ("beads.json"), *csv = maker_path ("beads.csv");
  g_autofree char *usual = bw_book_usual_path ();
  GtkWidget *window = open_beads (maker, 3);
  maker_click_words (window, "Export as CSV…");
  maker_answer_path (maker, csv);
  wait_for (window, "was written");
  g_autofree char *text = maker_read (csv);
  assert_non_null (strstr (text, "Kind 2,1.62,1.3,0.8,"));
  maker_click_words (window, "Export These…");
  maker_answer_path (maker, json);
  wait_for (window, "beads.json");
  g_unlink (usual);
  fill_book (fill, GINT_TO_POINTER (1));
  maker_click_words (window, "Read In…");
  maker_answer_path (maker, json);
  desk_until (has_bead, "Kind 2");
  g_autoptr (BwBook) book = read_book ();
  assert_int_equal (bw_book_n_beads (book), 3);
  close_workshop (maker, window);
}

/* Nobody can write the book: its lock is a folder. */
static void
shut_book (gboolean shut)
{
  g_autofree char *path = bw_book_usual_path (), *lock = g_strconcat (path, ".lock", NULL);
  if (shut) {
    g_unlink (lock);
    if (g_mkdir (lock, 0700) != 0)
      g_error ("%s cannot be made", lock);
  } else {
    g_rmdir (lock);
  }
}

static gboolean
renote (BwBook *book, gpointer data, GError **error)
{
  BwBeadKind before, after;
  bw_book_get_bead (book, 0, &before);
  after = before;
  g_strlcpy (after.note, "told by another program", sizeof after.note);
  return bw_book_change_bead (book, &before, &after, error);
}

static void
a_change_by_another_program_and_a_disk_that_takes_nothing_lose_nothing (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_beads (maker, 1);
  GtkWidget *dialog = open_dialog (window, "Edit…");
  fill_book (renote, NULL);
  write_beside (dialog, "Lot", "2026-11");
  desk_click (button_of (dialog, "Save"));
  wait_for (dialog, "changed by another program meanwhile");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (control_of (dialog, "Lot"))),
                       "2026-11");
  desk_key ("Escape", 0);
  desk_until (is_gone, dialog);
  assert_string_equal (bead_of ("Kind 0").note, "told by another program");
  wait_for (window, "told by another program");
  dialog = open_dialog (window, "Edit…");
  write_beside (dialog, "Lot", "2026-11");
  shut_book (TRUE);
  desk_click (button_of (dialog, "Save"));
  wait_for (dialog, "Not saved: ");
  desk_keep ("own-beads-shut");
  shut_book (FALSE);
  desk_click (button_of (dialog, "Save"));
  desk_until (is_gone, dialog);
  assert_string_equal (bead_of ("Kind 0").lot, "2026-11");
  close_workshop (maker, window);
}

static void
a_book_that_cannot_be_read_is_told_and_left_alone (void **state)
{
  static const char newer[] = "{\"format\": \"bandwright-book\", \"version\": 7}";
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = bw_book_usual_path ();
  GtkWidget *window = open_beads (maker, 1);
  close_workshop (maker, window);
  assert_true (g_file_set_contents (path, newer, -1, NULL));
  window = open_workshop (maker, "beads");
  wait_for (window, "newer Bandwright");
  GtkWidget *dialog = open_dialog (window, "New Bead…");
  type_sizes (dialog);
  desk_click (button_of (dialog, "Save"));
  wait_for (dialog, "Not saved: ");
  desk_key ("Escape", 0);
  desk_until (is_gone, dialog);
  g_autofree char *after = maker_read (path);
  assert_string_equal (after, newer);
  close_workshop (maker, window);
}

static void
ten_thousand_kinds_are_shown_and_searched (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autoptr (GString) text
      = g_string_new ("{\"format\": \"bandwright-book\", \"version\": 1, \"beads\": [");
  for (int i = 0; i < BW_BEAD_KINDS_MAX; i++)
    g_string_append_printf (text,
                            "%s{\"name\": \"Kind %05d\", \"diameter_mm\": %d.%02d, \"length_mm\": "
                            "1.3, \"hole_mm\": 0.8, \"article\": \"A%d\"}",
                            i ? "," : "", i, 1 + i % 3, i % 100, 20000 - i);
  g_string_append (text, "]}");
  g_autofree char *path = bw_book_usual_path ();
  assert_true (g_file_set_contents (path, text->str, -1, NULL));
  GtkWidget *window = open_workshop (maker, "beads");
  wait_for (window, "Kind 00000");
  desk_keep ("own-beads-many");
  write_in (window, "search", "a10009");
  wait_for (window, "Kind 09991");
  close_workshop (maker, window);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_book, tear_down_book)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_bead_is_typed_in_and_each_slip_is_one_sentence),
    IN_WINDOW (a_large_bead_is_asked_about_and_taken),
    IN_WINDOW (an_own_bead_is_chosen_in_the_design),
    IN_WINDOW (a_name_that_is_anothers_is_told_and_what_is_typed_stays),
    IN_WINDOW (a_bead_is_removed_and_put_back),
    IN_WINDOW (beads_go_out_and_come_in_again),
    IN_WINDOW (a_change_by_another_program_and_a_disk_that_takes_nothing_lose_nothing),
    IN_WINDOW (a_book_that_cannot_be_read_is_told_and_left_alone),
    IN_WINDOW (ten_thousand_kinds_are_shown_and_searched),
  };
  return maker_run (tests);
}
