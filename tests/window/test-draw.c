/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawing in the program's window, from the tray to the saved file. */
#include "app/colours/finish-card.h"
#include "app/colours/tray-panel.h"
#include "maker.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef struct {
  Maker maker;
  char *path;
  char *before; /* the file as it was opened */
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "Kelp lantern");
  bench->path = maker_save (project, "kelp.bandwright");
  bench->before = maker_read (bench->path);
  maker_start (&bench->maker, bench->path);
  maker_stage (&bench->maker, "draw");
  maker_take_colour (&bench->maker, 1);
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

static JsonNode *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  JsonNode *root = json_from_string (text, &error);
  if (!root)
    fail_msg ("the file is no JSON: %s", error->message);
  return root;
}

static JsonObject *
band_of (JsonNode *root)
{
  return json_object_get_object_member (json_node_get_object (root), "band");
}

static const char *
cells_of (JsonNode *root, int row)
{
  JsonArray *cells = json_object_get_array_member (band_of (root), "cells");
  return json_array_get_string_element (cells, (guint)row - 1);
}

/* Takes every bead that differs between two files off the list of those that should. */
static void
expect_changes (JsonNode *before, JsonNode *after, GHashTable *expected, char letter)
{
  guint rows = json_array_get_length (json_object_get_array_member (band_of (before), "cells"));
  for (int row = 1; row <= (int)rows; row++) {
    const char *was = cells_of (before, row), *is = cells_of (after, row);
    assert_int_equal (strlen (was), strlen (is));
    for (int j = 0; was[j]; j++) {
      if (was[j] == is[j])
        continue;
      assert_int_equal (is[j], letter);
      int column = row % 2 ? 2 * j + 2 : 2 * j + 1;
      if (!g_hash_table_remove (expected, GINT_TO_POINTER (row * 1000 + column)))
        fail_msg ("row %d, column %d has changed", row, column);
    }
  }
  assert_int_equal (g_hash_table_size (expected), 0);
}

/* Reads the file as any other program would: the beads of `column` in `rows` (0 ends) have become
 * letter, and every other byte of meaning is as it was. */
static void
expect_file (Bench *bench, const int *rows, int column, char letter)
{
  g_autofree char *now = maker_read (bench->path);
  g_autoptr (JsonNode) before = parse (bench->before);
  g_autoptr (JsonNode) after = parse (now);
  g_autoptr (GHashTable) expected = g_hash_table_new (NULL, NULL);
  for (int i = 0; rows[i]; i++)
    g_hash_table_add (expected, GINT_TO_POINTER (rows[i] * 1000 + column));
  expect_changes (before, after, expected, letter);
  json_object_remove_member (band_of (before), "cells");
  json_object_remove_member (band_of (after), "cells");
  assert_true (json_node_equal (before, after));
}

static void
a_hasty_stroke_is_saved_bead_for_bead (void **state)
{
  Bench *bench = *state;
  int rows[32] = { 0 };
  for (int i = 0; i < 21; i++)
    rows[i] = 21 + 2 * i;
  maker_drag_beads (&bench->maker, 21, 4, 61, 4);
  assert_true (bw_project_get_modified (maker_project (&bench->maker)));
  desk_keep ("draw-stroke");
  desk_key ("s", GDK_CONTROL_MASK);
  assert_false (bw_project_get_modified (maker_project (&bench->maker)));
  expect_file (bench, rows, 4, 'b');
}

/* It stays off the canvas's end, where a stroke that is held rolls on. */
static void
a_stroke_over_the_ghosts_runs_on_across_the_join (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  int last = maker_design (maker)->band.rows;
  const int rows[] = { 5, 3, 1, last - 1, 0 };
  double x1, y1, x3, y3, x5, y5;
  maker_bead_point (maker, 1, 2, &x1, &y1);
  maker_bead_point (maker, 3, 2, &x3, &y3);
  maker_bead_point (maker, 5, 2, &x5, &y5);
  desk_drag (maker_find (maker, BW_TYPE_BAND_CANVAS), x5, y5, x1 - (x3 - x1), y1, 1, 1);
  desk_keep ("draw-join");
  desk_key ("s", GDK_CONTROL_MASK);
  expect_file (bench, rows, 2, 'b');
}

static void
one_undo_takes_the_whole_stroke_back (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *drawn = NULL;
  maker_drag_beads (maker, 21, 4, 61, 4);
  drawn = bw_project_to_data (maker_project (maker), NULL);
  assert_int_equal (maker_count (maker, 1), 21);
  desk_key ("z", GDK_CONTROL_MASK);
  g_autofree char *undone = bw_project_to_data (maker_project (maker), NULL);
  assert_string_equal (undone, bench->before);
  assert_false (bw_project_get_modified (maker_project (maker)));
  assert_false (bw_project_can_undo (maker_project (maker)));
  desk_key ("z", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  g_autofree char *redone = bw_project_to_data (maker_project (maker), NULL);
  assert_string_equal (redone, drawn);
}

static void
escape_in_the_middle_of_a_stroke_leaves_nothing_of_it (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  GtkWidget *canvas = maker_find (maker, BW_TYPE_BAND_CANVAS);
  double x, y;
  maker_bead_point (maker, 21, 4, &x, &y);
  desk_move (canvas, x, y);
  desk_press (1);
  maker_bead_point (maker, 41, 4, &x, &y);
  desk_move (canvas, x, y);
  assert_int_equal (maker_count (maker, 1), 11);
  desk_key ("Escape", 0);
  assert_int_equal (maker_count (maker, 1), 0);
  maker_bead_point (maker, 61, 4, &x, &y);
  desk_move (canvas, x, y);
  desk_release (1);
  assert_int_equal (maker_count (maker, 1), 0);
  assert_false (bw_project_can_undo (maker_project (maker)));
  assert_false (bw_project_get_modified (maker_project (maker)));
}

static void
a_letter_takes_its_colour_in_hand (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_click_bead (maker, 11, 6);
  desk_key ("d", 0);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 3);
  maker_click_bead (maker, 13, 6);
  desk_key ("a", 0);
  maker_click_bead (maker, 11, 6);
  assert_int_equal (maker_bead (maker, 13, 6), 3);
  assert_int_equal (maker_bead (maker, 11, 6), 0);
  assert_int_equal (maker_count (maker, 3), 1);
}

/* Whether the row of the colour in hand lies wholly in the part of the list that is seen. */
static gboolean
is_in_sight (Maker *maker)
{
  GtkWidget *panel = maker_find (maker, BW_TYPE_TRAY_PANEL);
  GtkWidget *list = desk_find_type (panel, GTK_TYPE_LIST_BOX);
  GtkWidget *page = gtk_widget_get_ancestor (list, GTK_TYPE_SCROLLED_WINDOW);
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (list));
  graphene_rect_t place;
  assert_true (gtk_widget_compute_bounds (GTK_WIDGET (row), page, &place));
  return place.origin.y >= -0.5f
         && place.origin.y + place.size.height <= (float)gtk_widget_get_height (page) + 0.5f;
}

/* In a tray too long for its list. */
static void
a_colour_taken_by_its_letter_is_seen_in_the_list (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwTray tray = *bw_project_get_tray (maker_project (maker));
  while (tray.n_colours < 26) {
    tray.colour[tray.n_colours] = (BwColour){ .id = bw_tray_free_letter (&tray),
                                              .srgb = 0x0a0a0au * (guint32)tray.n_colours };
    tray.n_colours++;
  }
  assert_true (bw_project_set_tray (maker_project (maker), "Tray", &tray, NULL));
  maker_click_bead (maker, 11, 6);
  static const char *const letters[] = { "z", "a", "m" };
  for (gsize i = 0; i < G_N_ELEMENTS (letters); i++) {
    desk_key (letters[i], 0);
    desk_rest ();
    assert_int_equal (bw_session_get_colour (maker_session (maker)), *letters[i] - 'a');
    assert_true (is_in_sight (maker));
  }
  desk_keep ("tray-long");
}

static void
click_bead_with (Maker *maker, int row, int column, int button)
{
  double x, y;
  maker_bead_point (maker, row, column, &x, &y);
  desk_click_at (maker_find (maker, BW_TYPE_BAND_CANVAS), x, y, button);
}

static void
the_right_button_offers_the_colour_and_paints_nothing (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_click_bead (maker, 11, 6);
  click_bead_with (maker, 31, 6, 3);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 1);
  maker_click_words (GTK_WIDGET (maker->window), "Pick Up “Slate tide”");
  desk_settle ();
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 0);
  assert_int_equal (maker_count (maker, 1), 1);
}

static void
the_middle_button_picks_up_at_a_click_and_paints_nothing (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_click_bead (maker, 11, 6);
  click_bead_with (maker, 31, 6, 2);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 0);
  click_bead_with (maker, 11, 6, 2);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 1);
  assert_int_equal (maker_count (maker, 1), 1);
}

/* --- The swatch card ---------------------------------------------------------------------------
 */

/* The thread has made its pictures: a whole patch, where the bead at first has clear corners. */
static gboolean
is_woven (gpointer picture)
{
  GdkPaintable *shown = gtk_picture_get_paintable (picture);
  if (!GDK_IS_TEXTURE (shown))
    return FALSE;
  int side = gdk_texture_get_width (GDK_TEXTURE (shown));
  g_autofree guint32 *points = g_new (guint32, (gsize)side * (gsize)side);
  gdk_texture_download (GDK_TEXTURE (shown), (guchar *)points, (gsize)side * 4);
  return points[0] >> 24 == 255;
}

static GtkAdjustment *
page_of (GtkWidget *widget)
{
  GtkWidget *page = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (page));
}

static void
a_finish_is_chosen_from_a_card_of_all (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  GtkWidget *card = maker_find (maker, BW_TYPE_FINISH_CARD);
  BwFinish before = bw_project_get_tray (project)->colour[1].finish;
  maker_reveal (card);
  desk_click (card);
  desk_settle ();
  GtkWidget *grid = desk_find_type (card, GTK_TYPE_GRID);
  int n = 0;
  for (GtkWidget *choice = gtk_widget_get_first_child (grid); choice;
       choice = gtk_widget_get_next_sibling (choice), n++)
    assert_int_equal (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (choice)), n == (int)before);
  assert_int_equal (n, BW_N_FINISHES);
  desk_until (is_woven, desk_find_type (grid, GTK_TYPE_PICTURE));
  desk_keep ("finish-card");
  GtkWidget *chosen
      = gtk_widget_get_ancestor (desk_find_label (grid, "galvanised"), GTK_TYPE_TOGGLE_BUTTON);
  maker_reveal (chosen);
  double scrolled = gtk_adjustment_get_value (page_of (card));
  maker_click_words (grid, "galvanised");
  assert_int_equal (bw_project_get_tray (project)->colour[1].finish, BW_FINISH_GALVANISED);
  /* The page stays where it was scrolled to, but for what newer toolkits leave free round a focus.
   */
  desk_settle ();
  assert_true (fabs (gtk_adjustment_get_value (page_of (card)) - scrolled)
               < gtk_widget_get_height (chosen) / 4.0);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (bw_project_get_tray (project)->colour[1].finish, before);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_hasty_stroke_is_saved_bead_for_bead),
    IN_WINDOW (a_stroke_over_the_ghosts_runs_on_across_the_join),
    IN_WINDOW (one_undo_takes_the_whole_stroke_back),
    IN_WINDOW (escape_in_the_middle_of_a_stroke_leaves_nothing_of_it),
    IN_WINDOW (a_letter_takes_its_colour_in_hand),
    IN_WINDOW (a_colour_taken_by_its_letter_is_seen_in_the_list),
    IN_WINDOW (the_right_button_offers_the_colour_and_paints_nothing),
    IN_WINDOW (a_finish_is_chosen_from_a_card_of_all),
    IN_WINDOW (the_middle_button_picks_up_at_a_click_and_paints_nothing),
  };
  return maker_run (tests);
}
