/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones that wait for their design, in the workshop's window and on the shelf. */
#include "own-book.h"

#include "app/keep/workbook.h"
#include "app/stones/stone-dialog.h"
#include "app/ways/ways-window.h"
#include "project/book/book-stones.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <math.h>
#include <cmocka.h>

static gboolean
fill (BwBook *book, gpointer data, GError **error)
{
  static const char *const names[] = { "Smoky point", "Milk tooth" };
  for (int i = 0; i < 2; i++) {
    BwKeptStone stone = { .date = "2026-11-29", .mineral = "quartz" };
    g_strlcpy (stone.name, names[i], sizeof stone.name);
    stone.measures = (BwStoneMeasures){ .faces = 6,
                                        .measured = BW_MEASURED_GIRTH,
                                        .values_mm = { 60 + 12 * i },
                                        .at_mm = 12,
                                        .length_mm = 48 + 8 * i,
                                        .has_shoulder = TRUE,
                                        .shoulder_mm = 33,
                                        .girth_sd_mm = 0.4,
                                        .density_g_cm3 = 2.65 };
    if (!bw_book_change_stone (book, NULL, &stone, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
get (const char *name, BwKeptStone *stone)
{
  g_autoptr (BwBook) book = read_book ();
  int at = bw_book_find_stone (book, name);
  if (at >= 0)
    bw_book_get_stone (book, (guint)at, stone);
  return at >= 0;
}

static gboolean
has_stone (gpointer name)
{
  BwKeptStone stone;
  return get (name, &stone);
}

static gboolean
lacks_stone (gpointer name)
{
  return !has_stone (name);
}

static gboolean
is_in_design (gpointer name)
{
  BwKeptStone stone;
  return get (name, &stone) && stone.state == BW_STONE_IN_DESIGN;
}

static void
a_measured_stone_is_kept (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "No stone waits here yet");
  desk_keep ("own-stones-empty");
  maker_click_words (window, "Keep This Design’s Stone…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_STONE_DIALOG);
  write_in (dialog, "name", "Lantern stone");
  write_in (dialog, "picture", "lantern.jpg");
  write_in (dialog, "date", "29 Nov");
  wait_for (dialog, "A day is written like 2026-11-29.");
  write_in (dialog, "date", "2026-11-29");
  desk_keep ("own-stones-dialog");
  desk_click (button_of (dialog, "Save"));
  desk_until (has_stone, "Lantern stone");
  wait_for (window, "lantern.jpg");
  desk_keep ("own-stones-one");
  BwKeptStone kept;
  assert_true (get ("Lantern stone", &kept));
  assert_true (kept.measures.length_mm == bw_project_get_design (project)->stone.length_mm);
  assert_int_equal (kept.state, BW_STONE_WAITING);
  close_workshop (maker, window);
}

static void
a_stone_that_is_kept_already_is_shown (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "No stone waits here yet");
  maker_click_words (window, "Keep This Design’s Stone…");
  desk_click (button_of (wait_for_window (BW_TYPE_STONE_DIALOG), "Save"));
  desk_until (has_stone, "Kelp lantern");
  wait_for (window, "Begin a Design");
  maker_click_words (window, "Keep This Design’s Stone…");
  wait_for (window, "This stone is kept already: “Kelp lantern”.");
  close_workshop (maker, window);
}

static gboolean
is_cloudy (gpointer data)
{
  BwKeptStone stone;
  return get ("Kelp lantern", &stone) && stone.look.veils == 0.5;
}

/* What it looks like is kept with it; looked at anew, it is the kept stone that is asked about. */
static void
the_look_of_a_stone_is_kept_with_it (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwDesign design = *maker_design (maker);
  design.look.veils = 0.25;
  assert_true (bw_project_set_design (maker_project (maker), "Look", &design, NULL));
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "No stone waits here yet");
  maker_click_words (window, "Keep This Design’s Stone…");
  desk_click (button_of (wait_for_window (BW_TYPE_STONE_DIALOG), "Save"));
  desk_until (has_stone, "Kelp lantern");
  BwKeptStone kept;
  assert_true (get ("Kelp lantern", &kept));
  assert_true (kept.look.veils == 0.25);
  design.look.veils = 0.5;
  assert_true (bw_project_set_design (maker_project (maker), "Look", &design, NULL));
  wait_for (window, "Begin a Design");
  maker_click_words (window, "Keep This Design’s Stone…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_STONE_DIALOG);
  assert_string_equal (gtk_window_get_title (GTK_WINDOW (dialog)), "Edit a Stone");
  desk_click (button_of (dialog, "Save"));
  desk_until (is_cloudy, NULL);
  close_workshop (maker, window);
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

static gboolean
is_mended (gpointer data)
{
  BwKeptStone stone;
  return get ("Smoky point", &stone) && stone.measures.length_mm == 47.5;
}

static void
measures_are_mended_and_none_that_cannot_be (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, NULL);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Smoky point");
  desk_click (desk_find_label (window, "Smoky point"));
  desk_settle ();
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_STONE_DIALOG);
  GtkWidget *length = entry_holding (dialog, "48 mm");
  assert_non_null (length);
  maker_reveal (length);
  gtk_editable_set_text (GTK_EDITABLE (length), "20");
  desk_settle ();
  assert_false (gtk_widget_get_sensitive (button_of (dialog, "Save")));
  desk_keep ("own-stones-fault");
  gtk_editable_set_text (GTK_EDITABLE (length), "47.5");
  desk_settle ();
  desk_click (button_of (dialog, "Save"));
  desk_until (is_mended, NULL);
  wait_for (window, "47.5");
  close_workshop (maker, window);
}

static gboolean
is_called (GtkWidget *widget, gconstpointer name)
{
  GtkWidget *label = gtk_widget_get_prev_sibling (widget);
  return label && GTK_IS_LABEL (label) && !GTK_IS_LABEL (widget)
         && g_str_equal (gtk_label_get_text (GTK_LABEL (label)), name);
}

static GtkWidget *
control_of (GtkWidget *dialog, const char *name)
{
  GtkWidget *control = desk_look_for (dialog, is_called, name);
  if (!control)
    fail_msg ("nothing is called %s", name);
  maker_reveal (control);
  return control;
}

/* Turns a choice to another place. */
static void
turn_to (GtkWidget *dialog, const char *name, guint choice)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (control_of (dialog, name)), choice);
  desk_settle ();
}

static void
type_over (GtkWidget *dialog, const char *name, const char *text)
{
  desk_click (control_of (dialog, name));
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
  desk_settle ();
}

static gboolean
is_known_by_its_faces (gpointer data)
{
  BwKeptStone stone;
  return get ("Smoky point", &stone) && stone.measures.measured == BW_MEASURED_FACE_WIDTHS;
}

/* A stone that was kept by a girth is measured face by face, tapers, and has a point below. */
static void
every_measure_of_a_kept_stone_can_be_mended (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, NULL);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Smoky point");
  desk_click (desk_find_label (window, "Smoky point"));
  desk_settle ();
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_STONE_DIALOG);
  type_over (dialog, "Girth by paper strip", "60.6");
  turn_to (dialog, "Measured", BW_MEASURED_FACE_WIDTHS);
  assert_string_equal (
      gtk_editable_get_text (GTK_EDITABLE (control_of (dialog, "Width of face 6"))), "10.1 mm");
  type_over (dialog, "Width of face 6", "10.2");
  turn_to (dialog, "Measured", BW_MEASURED_ACROSS_FLATS);
  turn_to (dialog, "Measured", BW_MEASURED_FACE_WIDTHS);
  type_over (dialog, "Width of face 1", "ten");
  turn_to (dialog, "Lower end", 1); /* of what is no stone nothing else is asked */
  assert_int_equal (gtk_drop_down_get_selected (GTK_DROP_DOWN (control_of (dialog, "Lower end"))),
                    0);
  type_over (dialog, "Width of face 1", "10.1");
  turn_to (dialog, "Lower end", 1);
  turn_to (dialog, "How it tapers", 1);
  type_over (dialog, "Lower shoulder height", "6");
  type_over (dialog, "Second girth", "58");
  desk_keep ("own-stones-measures");
  desk_click (button_of (dialog, "Save"));
  desk_until (is_known_by_its_faces, NULL);
  BwKeptStone stone;
  assert_true (get ("Smoky point", &stone));
  assert_true (fabs (stone.measures.values_mm[0] - 10.1) < 1e-9);
  assert_int_equal (stone.measures.base, BW_BASE_POINT);
  assert_true (stone.measures.has_second);
  assert_true (fabs (stone.measures.second_girth_mm - 58) < 1e-9);
  assert_true (fabs (stone.measures.base_shoulder_mm - 6) < 1e-9);
  desk_settle ();
  close_workshop (maker, window);
}

static gboolean
tells_why (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LABEL (widget)
         && g_str_has_prefix (gtk_label_get_text (GTK_LABEL (widget)), "An odd number of faces");
}

/* The choice goes back, and says why, until something else is chosen. */
static void
flats_of_an_odd_number_of_faces_are_refused_with_a_reason (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  fill_book (fill, NULL);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Smoky point");
  desk_click (desk_find_label (window, "Smoky point"));
  desk_settle ();
  maker_click_words (window, "Edit…");
  GtkWidget *dialog = wait_for_window (BW_TYPE_STONE_DIALOG);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (control_of (dialog, "Faces round the stone")), 5);
  desk_settle ();
  assert_null (desk_look_for (dialog, tells_why, NULL));
  turn_to (dialog, "Measured", BW_MEASURED_ACROSS_FLATS);
  assert_int_not_equal (
      gtk_drop_down_get_selected (GTK_DROP_DOWN (control_of (dialog, "Measured"))),
      BW_MEASURED_ACROSS_FLATS);
  assert_non_null (desk_look_for (dialog, tells_why, NULL));
  desk_keep ("own-stones-odd");
  turn_to (dialog, "Measured", BW_MEASURED_FACE_WIDTHS);
  assert_null (desk_look_for (dialog, tells_why, NULL));
  desk_key ("Escape", 0);
  desk_settle ();
  close_workshop (maker, window);
}

static gboolean
second_window (gpointer data)
{
  GtkWindow **found = data;
  for (GList *item = gtk_application_get_windows (maker_application ()); item; item = item->next)
    if (BW_IS_WINDOW (item->data) && item->data != (gpointer)found[0]
        && gtk_widget_get_mapped (item->data))
      found[1] = item->data;
  return found[1] != NULL;
}

/* The piece at work stays in its window; the new one is measured already, and not yet anybody's. */
static void
a_design_begins_on_a_stone_that_waits (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWindow *windows[2] = { GTK_WINDOW (maker->window), NULL };
  fill_book (fill, NULL);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Milk tooth");
  desk_keep ("own-stones-two");
  desk_click (desk_find_label (window, "Smoky point"));
  desk_settle ();
  maker_click_words (window, "Begin a Design");
  desk_until (second_window, windows);
  desk_until (is_in_design, "Smoky point");
  desk_settle ();
  BwProject *project = bw_window_get_project (BW_WINDOW (windows[1]));
  assert_true (bw_project_get_design (project)->stone.length_mm == 48);
  assert_string_equal (bw_project_get_mineral (project), "quartz");
  assert_false (bw_project_stone_is_example (project));
  assert_string_equal (bw_project_get_title (maker_project (maker)), "Kelp lantern");
  desk_keep ("own-stones-begun");
  gtk_window_close (windows[1]);
  desk_settle ();
  gtk_window_close (GTK_WINDOW (window));
  maker_no_dialog (maker);
}

static void
ways_are_asked_for_a_stone (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWindow *windows[2] = { GTK_WINDOW (maker->window), NULL };
  fill_book (fill, NULL);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Milk tooth");
  maker_click_words (window, "Ways to Set It…");
  desk_until (second_window, windows);
  GtkWidget *ways = wait_for_window (BW_TYPE_WAYS_WINDOW);
  gtk_window_close (GTK_WINDOW (ways));
  desk_settle ();
  gtk_window_close (windows[1]);
  desk_settle ();
  gtk_window_close (GTK_WINDOW (window));
  maker_no_dialog (maker);
}

static void
a_stone_goes_out_is_removed_and_comes_back (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = maker_path ("milk.json");
  fill_book (fill, NULL);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Milk tooth");
  desk_click (desk_find_label (window, "Milk tooth"));
  desk_settle ();
  desk_click (desk_look_for_label (desk_look_for (window, has_name, "deeds"), "Export…"));
  maker_answer_path (maker, path);
  wait_for (window, "was written");
  maker_click_words (window, "Remove…");
  GtkWidget *question = wait_for_window (GTK_TYPE_MESSAGE_DIALOG);
  desk_click (button_of (question, "Remove"));
  desk_until (lacks_stone, "Milk tooth");
  assert_true (has_stone ("Smoky point"));
  maker_click_words (window, "Read In…");
  maker_answer_path (maker, path);
  desk_until (has_stone, "Milk tooth");
  close_workshop (maker, window);
}

static int
set_up_new (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_unlink (path);
  return maker_set_up (state);
}

static void
an_invented_stone_is_not_kept (void **state)
{
  Maker *maker = *state;
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "No stone waits here yet");
  maker_click_words (window, "Keep This Design’s Stone…");
  wait_for (window, "still the invented one");
  close_workshop (maker, window);
}

static int
set_up_shelf (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_unlink (path);
  fill_book (fill, NULL);
  Maker *maker = g_new0 (Maker, 1);
  maker_start_at_shelf (maker);
  *state = maker;
  return 0;
}

static int
tear_down_shelf (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_unlink (path);
  return maker_tear_down (state);
}

static gboolean
can_choose (gpointer window)
{
  return desk_look_for_label (window, "On a Stone That Waits") != NULL;
}

static void
the_shelf_offers_stones_that_wait (void **state)
{
  Maker *maker = *state;
  GtkWidget *window = GTK_WIDGET (maker->window);
  bw_workbook_read (bw_workbook_get ());
  desk_until (can_choose, window);
  desk_settle ();
  maker_click_words (window, "On a Stone That Waits");
  desk_settle ();
  desk_keep ("own-stones-shelf");
  maker_click_words (window, "Smoky point");
  desk_until (is_in_design, "Smoky point");
  desk_settle ();
  assert_true (bw_project_get_design (maker_project (maker))->stone.length_mm == 48);
  assert_int_equal (desk_count_mapped (), 1);
}

static void
add_stone (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"name\": \"Stone %05d\", \"stone\": {\"faces\": 6, \"measured\": "
                          "\"girth\", \"values_mm\": [%d], \"at_mm\": 12, \"length_mm\": 52, "
                          "\"shoulder_mm\": 37}}",
                          i, 55 + i % 30);
}

static void
ten_thousand_stones_are_shown_and_searched (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  write_many ("stones", BW_BOOK_STONES_MAX, add_stone);
  GtkWidget *window = open_workshop (maker, "stones");
  wait_for (window, "Stone 00000");
  desk_keep ("own-stones-many");
  assert_in_range (count_rows (window), 1, 500);
  write_in (window, "search", "09999");
  wait_for (window, "Stone 09999");
  close_workshop (maker, window);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_book, tear_down_book)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_measured_stone_is_kept),
    IN_WINDOW (a_stone_that_is_kept_already_is_shown),
    IN_WINDOW (the_look_of_a_stone_is_kept_with_it),
    IN_WINDOW (measures_are_mended_and_none_that_cannot_be),
    IN_WINDOW (every_measure_of_a_kept_stone_can_be_mended),
    IN_WINDOW (flats_of_an_odd_number_of_faces_are_refused_with_a_reason),
    IN_WINDOW (a_design_begins_on_a_stone_that_waits),
    IN_WINDOW (ways_are_asked_for_a_stone),
    IN_WINDOW (a_stone_goes_out_is_removed_and_comes_back),
    IN_WINDOW (ten_thousand_stones_are_shown_and_searched),
    cmocka_unit_test_setup_teardown (an_invented_stone_is_not_kept, set_up_new, tear_down_shelf),
    cmocka_unit_test_setup_teardown (the_shelf_offers_stones_that_wait, set_up_shelf,
                                     tear_down_shelf),
  };
  return maker_run (tests);
}
