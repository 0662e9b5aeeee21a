/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stash: written down, taken off what is to be bought, and taken from by a finished piece. */
#include "own-things.h"

#include "app/ways/way-card.h"
#include "project/book/book-beads.h"
#include "project/book/book-stash.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* So many grams of the first colour of the design, and a thread. */
static gboolean
fill (BwBook *book, gpointer data, GError **error)
{
  Maker *maker = data;
  const BwColour *colour = &bw_project_get_tray (maker_project (maker))->colour[0];
  BwStashItem beads = { .what = BW_STASH_BEADS, .finish = colour->finish, .amount = 50 };
  BwStashItem thread = { .what = BW_STASH_THREAD, .name = "Smoke", .amount = 1000 };
  g_strlcpy (beads.name, colour->name, sizeof beads.name);
  g_strlcpy (beads.bead, maker_design (maker)->bead.name, sizeof beads.bead);
  return bw_book_change_stash (book, NULL, &beads, error)
         && bw_book_change_stash (book, NULL, &thread, error);
}

static BwStashItem
item_at (guint i)
{
  g_autoptr (BwBook) book = read_book ();
  BwStashItem item = { .amount = -1 };
  if (i < bw_book_n_stash (book))
    bw_book_get_stash (book, i, &item);
  return item;
}

static gboolean
has_one (gpointer data)
{
  g_autoptr (BwBook) book = read_book ();
  return bw_book_n_stash (book) == 1;
}

static void
an_entry_is_typed_in (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "stash");
  wait_for (window, "Nothing is in the stash yet");
  maker_click_words (window, "New Entry…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_THING_DIALOG);
  write_beside (dialog, "Name", "Night water");
  write_beside (dialog, "Grams", "-1");
  assert_false (can_save (dialog));
  write_beside (dialog, "Grams", "12,5");
  desk_keep ("own-stash-dialog");
  assert_true (can_save (dialog));
  desk_click (button_of (dialog, "Save"));
  desk_until (is_gone, dialog);
  desk_until (has_one, NULL);
  assert_near (item_at (0).amount, 12.5);
  assert_string_equal (item_at (0).bead, maker_design (maker)->bead.name);
  wait_for (window, "12.50\u00a0g");
  close_workshop (maker, window);
}

static gboolean
fill_kinds (BwBook *book, gpointer data, GError **error)
{
  for (int i = 0; i < 20; i++) {
    BwBeadKind kind = { .bead = { "", 1.6 + 0.01 * i, 1.3, 0.8, 2.5 } };
    g_snprintf (kind.bead.name, sizeof kind.bead.name, "Kind %d", i);
    if (!bw_book_change_bead (book, NULL, &kind, error))
      return FALSE;
  }
  return TRUE;
}

static GtkWidget *
begin_an_entry (GtkWidget *window)
{
  wait_for (window, "Nothing is in the stash yet");
  maker_click_words (window, "New Entry…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_THING_DIALOG);
  write_beside (dialog, "Name", "Night water");
  return dialog;
}

static void
save_the_entry (GtkWidget *dialog)
{
  desk_click (button_of (dialog, "Save"));
  desk_until (is_gone, dialog);
  desk_until (has_one, NULL);
}

/* The search waits for a moment after the last letter. */
static gboolean
is_one_row (gpointer list)
{
  return count_rows (list) == 1;
}

/* Where there are many sizes, who knows the one begins to type it, in whatever case. */
static void
a_bead_is_found_by_typing (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill_kinds, NULL);
  GtkWidget *window = open_workshop (maker, "stash");
  GtkWidget *dialog = begin_an_entry (window);
  GtkWidget *list = control_of (dialog, "Bead");
  desk_click (list);
  desk_settle ();
  desk_type ("kind 13");
  desk_until (is_one_row, list);
  desk_keep ("own-stash-bead");
  desk_key ("Return", 0);
  desk_settle ();
  save_the_entry (dialog);
  assert_string_equal (item_at (0).bead, "Kind 13");
  close_workshop (maker, window);
}

/* What nothing is called leaves the list open, and Escape what was chosen. */
static void
a_bead_that_is_not_there_changes_nothing (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill_kinds, NULL);
  GtkWidget *window = open_workshop (maker, "stash");
  GtkWidget *dialog = begin_an_entry (window);
  GtkWidget *list = control_of (dialog, "Bead");
  desk_click (list);
  desk_settle ();
  desk_type ("sort 13");
  desk_key ("Return", 0);
  desk_rest ();
  assert_non_null (desk_find_type (list, GTK_TYPE_SEARCH_ENTRY));
  desk_key ("Escape", 0);
  desk_key ("Escape", 0);
  desk_settle ();
  save_the_entry (dialog);
  assert_string_equal (item_at (0).bead, maker_design (maker)->bead.name);
  close_workshop (maker, window);
}

static gboolean
has_taken (gpointer data)
{
  g_autoptr (BwBook) book = read_book ();
  return bw_book_n_takings (book) == 1;
}

static gboolean
has_taken_nothing (gpointer data)
{
  return !has_taken (data);
}

/* The list says what is there; the piece takes what is in it once, and it is put back. */
static void
a_finished_piece_takes_its_share_and_it_is_put_back (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, maker);
  GtkWidget *window = open_workshop (maker, "stash");
  wait_for (window, "50.00\u00a0g");
  write_in (window, "search", "smo");
  wait_for (window, "1.00\u00a0m · thread");
  close_workshop (maker, window);
  maker_stage (maker, "make");
  wait_for (GTK_WIDGET (maker->window), "in the stash, g");
  wait_for (GTK_WIDGET (maker->window), "1.00\u00a0m in the stash, buy ");
  desk_keep ("own-stash-list");
  maker_click_words (GTK_WIDGET (maker->window), "Mark as Finished…");
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  desk_settle ();
  maker_click_words (dialog, "It Is Finished");
  GtkWidget *question = wait_for_window (GTK_TYPE_MESSAGE_DIALOG);
  assert_non_null (desk_look_for (question, label_holds, "Smoke"));
  desk_keep ("own-stash-take");
  maker_click_words (question, "Take It");
  desk_until (has_taken, NULL);
  assert_true (item_at (0).amount < 50);
  assert_near (item_at (1).amount, 0);
  window = open_workshop (maker, "stash");
  wait_for (window, "took");
  desk_keep ("own-stash-taken");
  maker_click_words (window, "Put It Back");
  desk_until (has_taken_nothing, NULL);
  assert_near (item_at (0).amount, 50);
  assert_near (item_at (1).amount, 1000);
  close_workshop (maker, window);
}

static gboolean
fill_tray (BwBook *book, gpointer data, GError **error)
{
  Maker *maker = data;
  const BwTray *tray = bw_project_get_tray (maker_project (maker));
  for (int i = 0; i < tray->n_colours; i++) {
    BwStashItem beads = { .what = BW_STASH_BEADS, .finish = tray->colour[i].finish, .amount = 500 };
    g_strlcpy (beads.name, tray->colour[i].name, sizeof beads.name);
    g_strlcpy (beads.bead, maker_design (maker)->bead.name, sizeof beads.bead);
    if (!bw_book_change_stash (book, NULL, &beads, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
is_searched (gpointer window)
{
  return desk_look_for (window, has_name, "progress") == NULL;
}

static gboolean
tells_of_stash (gpointer window)
{
  return desk_look_for (window, label_holds, "of beads from the stash") != NULL;
}

static GtkFlowBoxChild *
card_at (GtkWidget *window, int i)
{
  GtkFlowBox *cards = GTK_FLOW_BOX (desk_look_for (window, has_name, "cards"));
  return gtk_flow_box_get_child_at_index (cards, i);
}

static gboolean
has_other_bead (GtkWidget *window, const char *bead)
{
  GtkFlowBoxChild *card;
  for (int i = 0; (card = card_at (window, i)); i++)
    if (!g_str_equal (bw_way_card_get_way (BW_WAY_CARD (card))->design.bead.name, bead))
      return TRUE;
  return FALSE;
}

static void
ways_can_be_had_from_the_stash_alone (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *bead = g_strdup (maker_design (maker)->bead.name);
  fill_book (fill_tray, maker);
  GtkWidget *window = open_workshop (maker, "stash");
  wait_for (window, "500.00\u00a0g");
  close_workshop (maker, window);
  gtk_widget_activate_action (GTK_WIDGET (maker->window), "win.ways", NULL);
  window = GTK_WIDGET (maker_dialog (maker));
  desk_until (is_searched, window);
  assert_true (has_other_bead (window, bead));
  maker_click_words (window, "Only from the Stash");
  desk_settle ();
  assert_non_null (card_at (window, 0));
  assert_false (has_other_bead (window, bead));
  desk_until (tells_of_stash, window);
  desk_keep ("own-stash-ways");
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

static void
add_thing (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"what\": \"beads\", \"name\": \"Shade %05d\", \"bead\": \"11/0 "
                          "cylinder\", \"srgb\": \"#%06x\", \"grams\": %d}",
                          i, i * 1000, i % 40);
}

static void
ten_thousand_things_are_shown_and_searched (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  write_many ("stash", BW_STASH_MAX, add_thing);
  GtkWidget *window = open_workshop (maker, "stash");
  wait_for (window, "Shade 00000");
  desk_keep ("own-stash-many");
  assert_in_range (count_rows (window), 1, 500);
  write_in (window, "search", "09999");
  wait_for (window, "Shade 09999");
  close_workshop (maker, window);
}

/* What came into the book while another page was in front is there once this one is. */
static void
a_page_is_up_to_date_when_it_is_turned_to (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "stash");
  wait_for (window, "Nothing is in the stash yet");
  desk_keep ("own-stash-empty");
  maker_click_words (window, "Habits");
  desk_settle ();
  write_many ("stash", 3, add_thing);
  bw_workbook_read (bw_workbook_get ());
  desk_rest ();
  maker_click_words (window, "Stash");
  wait_for (window, "Shade 00002");
  assert_int_equal (count_rows (window), 3);
  close_workshop (maker, window);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_book, tear_down_book)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (an_entry_is_typed_in),
    IN_WINDOW (a_bead_is_found_by_typing),
    IN_WINDOW (a_bead_that_is_not_there_changes_nothing),
    IN_WINDOW (a_finished_piece_takes_its_share_and_it_is_put_back),
    IN_WINDOW (ways_can_be_had_from_the_stash_alone),
    IN_WINDOW (ten_thousand_things_are_shown_and_searched),
    IN_WINDOW (a_page_is_up_to_date_when_it_is_turned_to),
  };
  return maker_run (tests);
}
