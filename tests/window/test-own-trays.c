/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trays of the maker's own, in the workshop's window. */
#include "own-things.h"

#include "app/colours/finish-card.h"
#include "app/trays/tray-dialog.h"
#include "core/pattern/tint.h"
#include "project/book/book-trays.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* n trays of three colours. */
static gboolean
fill (BwBook *book, gpointer data, GError **error)
{
  static const char *const names[] = { "Slack water", "Ebb", "Flood" };
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  for (int i = 0; i < GPOINTER_TO_INT (data); i++) {
    memset (kept, 0, sizeof *kept);
    if (i < 3)
      g_strlcpy (kept->name, names[i], sizeof kept->name);
    else
      g_snprintf (kept->name, sizeof kept->name, "Tray %05d", i);
    kept->tray.n_colours = 3;
    for (int c = 0; c < 3; c++) {
      BwColour *colour = &kept->tray.colour[c];
      *colour = (BwColour){ .id = (gunichar)('a' + c), .srgb = (guint32)(0x203040 * (c + 1) + i) };
      g_snprintf (colour->name, sizeof colour->name, "%s %d", i == 1 ? "Foam" : "Weed", c);
    }
    if (!bw_book_change_tray (book, NULL, kept, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
has_tray (gpointer name)
{
  g_autoptr (BwBook) book = read_book ();
  return bw_book_find_tray (book, name) >= 0;
}

static gboolean
lacks_tray (gpointer name)
{
  return !has_tray (name);
}

static void
an_empty_page_says_how_it_is_filled (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "No tray of your own is kept yet");
  desk_keep ("own-trays-empty");
  close_workshop (maker, window);
}

static void
a_designs_tray_is_kept_under_its_name (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "No tray of your own is kept yet");
  maker_click_words (window, "Keep This Design’s Tray…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_TRAY_DIALOG);
  desk_keep ("own-trays-dialog");
  write_in (dialog, "name", " ");
  wait_for (dialog, "Give the tray a name.");
  assert_false (gtk_widget_get_sensitive (button_of (dialog, "Save")));
  write_in (dialog, "name", "Lantern");
  desk_key ("Return", 0);
  desk_until (has_tray, "Lantern");
  wait_for (window, "4 colours · Slate tide");
  desk_keep ("own-trays-one");
  g_autoptr (BwBook) book = read_book ();
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 0, kept);
  const BwTray *tray = bw_project_get_tray (maker_project (maker));
  assert_int_equal (kept->tray.n_colours, tray->n_colours);
  assert_int_equal (kept->tray.colour[3].srgb, tray->colour[3].srgb);
  close_workshop (maker, window);
}

/* By their places, and one step takes it back. */
static void
a_tray_is_used_in_the_design_as_one_step (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  guint steps = bw_project_count_steps (project);
  fill_book (fill, GINT_TO_POINTER (3));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  desk_click (desk_find_label (window, "Flood"));
  desk_settle ();
  maker_click_words (window, "Use in This Design");
  wait_for (window, "“Flood” is laid out in “Kelp lantern”");
  assert_int_equal (bw_project_count_steps (project), steps + 1);
  assert_int_equal (bw_project_get_tray (project)->n_colours, 3);
  assert_int_equal (bw_project_get_tray (project)->colour[0].srgb, 0x203042);
  bw_project_undo (project);
  assert_int_equal (bw_project_get_tray (project)->n_colours, 4);
  close_workshop (maker, window);
}

static void
search_finds_by_a_trays_and_a_colours_name (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, GINT_TO_POINTER (3));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  write_in (window, "search", "foam");
  Shown gone = { window, "Slack water" };
  while (is_shown (&gone))
    desk_rest ();
  assert_non_null (desk_look_for_label (window, "Ebb"));
  write_in (window, "search", "nothing like it");
  wait_for (window, "Nothing here has these letters.");
  assert_false (gtk_widget_is_sensitive (button_of (window, "Edit…")));
  close_workshop (maker, window);
}

static void
a_tray_is_renamed_and_none_takes_anothers_name (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, GINT_TO_POINTER (3));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  desk_click (desk_find_label (window, "Ebb"));
  desk_settle ();
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_TRAY_DIALOG);
  write_in (dialog, "name", "Flood");
  wait_for (dialog, "Another tray is called “Flood”");
  assert_false (gtk_widget_get_sensitive (button_of (dialog, "Save")));
  write_in (dialog, "name", "Neap");
  desk_click (button_of (dialog, "Save"));
  desk_until (has_tray, "Neap");
  assert_true (lacks_tray ("Ebb"));
  wait_for (window, "Neap");
  close_workshop (maker, window);
}

static void
a_colour_is_taken_out_and_another_added (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, GINT_TO_POINTER (1));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_TRAY_DIALOG);
  maker_click_words (dialog, "Add a Colour");
  desk_settle ();
  for (int i = 0; i < 3; i++) {
    GtkWidget *row = desk_find_type (dialog, GTK_TYPE_LIST_BOX_ROW);
    desk_click (gtk_widget_get_last_child (gtk_list_box_row_get_child (GTK_LIST_BOX_ROW (row))));
    desk_settle ();
  }
  desk_keep ("own-trays-edit");
  desk_click (button_of (dialog, "Save"));
  wait_for (window, "1 colour");
  g_autoptr (BwBook) book = read_book ();
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 0, kept);
  assert_int_equal (kept->tray.n_colours, 1);
  assert_int_equal (kept->tray.colour[0].srgb, bw_tint_srgb (BW_TINT_HAIR, FALSE));
  close_workshop (maker, window);
}

/* The card of the workbench, where each finish is seen woven. */
static void
a_finish_is_chosen_from_the_card (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, GINT_TO_POINTER (1));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_TRAY_DIALOG);
  GtkWidget *card = desk_find_type (dialog, BW_TYPE_FINISH_CARD);
  desk_click (card);
  desk_settle ();
  maker_click_words (card, "galvanised");
  desk_settle ();
  desk_keep ("own-trays-finish");
  desk_click (button_of (dialog, "Save"));
  desk_until (is_gone, dialog);
  g_autoptr (BwBook) book = read_book ();
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 0, kept);
  assert_int_equal (kept->tray.colour[0].finish, BW_FINISH_GALVANISED);
  close_workshop (maker, window);
}

/* Two that are added can be told apart. */
static void
a_second_colour_added_is_another (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, GINT_TO_POINTER (1));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_TRAY_DIALOG);
  maker_click_words (dialog, "Add a Colour");
  desk_settle ();
  maker_click_words (dialog, "Add a Colour");
  desk_settle ();
  desk_click (button_of (dialog, "Save"));
  desk_until (is_gone, dialog);
  g_autoptr (BwBook) book = read_book ();
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 0, kept);
  int n = kept->tray.n_colours;
  assert_int_not_equal (kept->tray.colour[n - 1].srgb, kept->tray.colour[n - 2].srgb);
  close_workshop (maker, window);
}

static void
a_tray_is_removed_once_the_question_is_answered (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, GINT_TO_POINTER (3));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  desk_click (desk_find_label (window, "Ebb"));
  desk_settle ();
  maker_click_words (window, "Remove…");
  GtkWidget *question = wait_for_window (GTK_TYPE_MESSAGE_DIALOG);
  desk_click (button_of (question, "Cancel"));
  desk_settle ();
  assert_true (has_tray ("Ebb"));
  maker_click_words (window, "Remove…");
  question = wait_for_window (GTK_TYPE_MESSAGE_DIALOG);
  desk_keep ("own-trays-remove");
  desk_click (button_of (question, "Remove"));
  desk_until (lacks_tray, "Ebb");
  assert_true (has_tray ("Flood"));
  close_workshop (maker, window);
}

static void
a_palette_comes_in_and_a_tray_goes_out (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *in = maker_path ("harbour.gpl"), *out = maker_path ("out.css");
  assert_true (
      g_file_set_contents (in, "GIMP Palette\n#\n1 2 3\tDeep\n250 251 252\tSalt\n", -1, NULL));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "No tray of your own");
  maker_click_words (window, "Read In a Palette…");
  maker_answer_path (maker, in);
  GtkWidget *dialog = wait_for_window (BW_TYPE_TRAY_DIALOG);
  desk_click (button_of (dialog, "Save"));
  desk_until (has_tray, "harbour");
  wait_for (window, "2 colours · Deep · Salt");
  maker_click_words (window, "Read In a Palette…"); /* again: there is one already */
  maker_answer_path (maker, in);
  wait_for (window, "This tray is kept already: “harbour”.");
  maker_click_words (window, "Export as");
  desk_settle ();
  maker_click_words (window, "CSS Colours…");
  maker_answer_path (maker, out);
  wait_for (window, "was written");
  g_autofree char *text = maker_read (out);
  assert_non_null (strstr (text, "--salt: #fafbfc;"));
  close_workshop (maker, window);
}

static gboolean
repaint (BwBook *book, gpointer data, GError **error)
{
  g_autofree BwKeptTray *seen = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 0, seen);
  g_autofree BwKeptTray *now = g_memdup2 (seen, sizeof *seen);
  now->tray.colour[0].srgb = 0x123456;
  return bw_book_change_tray (book, seen, now, error);
}

static void
a_tray_changed_by_another_program_is_not_written_over (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, GINT_TO_POINTER (1));
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Slack water");
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_TRAY_DIALOG);
  fill_book (repaint, NULL);
  write_in (dialog, "name", "Mine");
  desk_click (button_of (dialog, "Save"));
  wait_for (dialog, "changed by another program meanwhile");
  desk_keep ("own-trays-meanwhile");
  desk_key ("Escape", 0);
  desk_settle ();
  assert_true (has_tray ("Slack water"));
  assert_true (lacks_tray ("Mine"));
  close_workshop (maker, window);
}

static void
add_tray (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"name\": \"Tray %05d\", \"tray\": [{\"id\": \"a\", \"srgb\": "
                          "\"#%06x\"}, {\"id\": \"b\", \"name\": \"Shade %d\"}]}",
                          i, i * 1000, i);
}

static void
ten_thousand_trays_are_shown_and_searched (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  write_many ("trays", BW_BOOK_TRAYS_MAX, add_tray);
  GtkWidget *window = open_workshop (maker, "trays");
  wait_for (window, "Tray 00000");
  desk_keep ("own-trays-many");
  assert_in_range (count_rows (window), 1, 500);
  write_in (window, "search", "09999");
  wait_for (window, "Tray 09999");
  close_workshop (maker, window);
}

/* --- A photograph of beads ---------------------------------------------------------------------
 */

static const guint32 photographed[] = { 0xa23b2a, 0x1b2a41, 0xe9c46a };

static guint32
colour_at (int x, int y)
{
  int dx = x % 60 - 30, dy = y % 60 - 30;
  gboolean bead = x >= 60 && y >= 60 && x < 420 && y < 240 && dx * dx + dy * dy < 500;
  return bead ? photographed[(x / 60 + y / 60) % 3] : 0xb8bcc0;
}

/* Round beads of three colours on a grey ground. Owned. */
static char *
take_photograph (void)
{
  char *path = maker_path ("beads.png");
  g_autoptr (GdkPixbuf) photo = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 480, 300);
  for (int y = 0; y < 300; y++)
    for (int x = 0; x < 480; x++) {
      guint8 *pixel = gdk_pixbuf_get_pixels (photo) + y * gdk_pixbuf_get_rowstride (photo) + 3 * x;
      for (int c = 0; c < 3; c++)
        pixel[c] = (guint8)(colour_at (x, y) >> (16 - 8 * c));
    }
  assert_true (gdk_pixbuf_save (photo, path, "png", NULL, NULL));
  return path;
}

static GtkWidget *
open_photograph (Maker *maker, GtkWidget *window, const char *path)
{
  wait_for (window, "No tray of your own");
  maker_click_words (window, "From a Photograph…");
  maker_answer_path (maker, path);
  return wait_for_window (BW_TYPE_TRAY_DIALOG);
}

static void
the_colours_of_a_photograph_are_kept_as_a_tray (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = take_photograph ();
  GtkWidget *window = open_workshop (maker, "trays");
  GtkWidget *dialog = open_photograph (maker, window, path);
  wait_for (dialog, "3 colours are found. The ground, ");
  desk_keep ("own-trays-photo");
  desk_click (button_of (dialog, "Save"));
  desk_until (has_tray, "beads");
  wait_for (window, "3 colours");
  g_autoptr (BwBook) book = read_book ();
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  bw_book_get_tray (book, 0, kept);
  assert_int_equal (kept->tray.n_colours, 3);
  for (int i = 0; i < 3; i++) {
    gboolean found = FALSE;
    for (int c = 0; c < 3; c++)
      found = found || kept->tray.colour[c].srgb == photographed[i];
    assert_true (found);
  }
  close_workshop (maker, window);
}

static void
the_ground_is_marked_by_a_click_or_kept (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = take_photograph ();
  GtkWidget *window = open_workshop (maker, "trays");
  GtkWidget *dialog = open_photograph (maker, window, path);
  wait_for (dialog, "3 colours are found.");
  GtkWidget *sight = desk_look_for (dialog, has_name, "sight");
  /* The photograph's middle lies between four beads; a bead lies to the left above it. */
  double width = gtk_widget_get_width (sight), height = gtk_widget_get_height (sight);
  double by = MIN (width / 480, height / 300);
  desk_click_at (sight, width / 2 - 30 * by, height / 2 + 30 * by, 1);
  desk_settle ();
  GtkDropDown *ground = GTK_DROP_DOWN (desk_look_for (dialog, has_name, "ground"));
  assert_int_equal (gtk_drop_down_get_selected (ground), 1);
  wait_for (dialog, "% of the photograph, is left out.");
  desk_keep ("own-trays-marked");
  gtk_drop_down_set_selected (ground, 2);
  wait_for (dialog, "4 colours are found.");
  desk_click (desk_look_for (dialog, has_name, "suggest"));
  write_in (dialog, "count", "24");
  desk_key ("Tab", 0);
  wait_for (dialog, "There are no more than these.");
  desk_key ("Escape", 0);
  desk_settle ();
  close_workshop (maker, window);
}

static void
what_is_no_photograph_is_told_in_one_sentence (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = maker_path ("torn.png");
  assert_true (g_file_set_contents (path, "\x89PNG\r\n\x1a\n, and no more", -1, NULL));
  GtkWidget *window = open_workshop (maker, "trays");
  GtkWidget *dialog = open_photograph (maker, window, path);
  wait_for (dialog, "“torn.png” is broken");
  assert_false (gtk_widget_get_sensitive (button_of (dialog, "Save")));
  desk_key ("Escape", 0);
  desk_settle ();
  close_workshop (maker, window);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_book, tear_down_book)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (an_empty_page_says_how_it_is_filled),
    IN_WINDOW (a_designs_tray_is_kept_under_its_name),
    IN_WINDOW (a_tray_is_used_in_the_design_as_one_step),
    IN_WINDOW (search_finds_by_a_trays_and_a_colours_name),
    IN_WINDOW (a_tray_is_renamed_and_none_takes_anothers_name),
    IN_WINDOW (a_colour_is_taken_out_and_another_added),
    IN_WINDOW (a_finish_is_chosen_from_the_card),
    IN_WINDOW (a_second_colour_added_is_another),
    IN_WINDOW (a_tray_is_removed_once_the_question_is_answered),
    IN_WINDOW (a_palette_comes_in_and_a_tray_goes_out),
    IN_WINDOW (a_tray_changed_by_another_program_is_not_written_over),
    IN_WINDOW (the_colours_of_a_photograph_are_kept_as_a_tray),
    IN_WINDOW (the_ground_is_marked_by_a_click_or_kept),
    IN_WINDOW (what_is_no_photograph_is_told_in_one_sentence),
    IN_WINDOW (ten_thousand_trays_are_shown_and_searched),
  };
  return maker_run (tests);
}
