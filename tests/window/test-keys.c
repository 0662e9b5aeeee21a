/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole program by the keyboard: no pointer is touched from the first window to the saved file.
 */
#include "maker.h"

#include <json-glib/json-glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static gboolean
has_two_windows (gpointer application)
{
  return g_list_length (gtk_application_get_windows (application)) == 2;
}

static gboolean
has_keyboard (gpointer window)
{
  return gtk_window_is_active (window);
}

/* A new project has a window of its own; the maker goes on in that one. */
static void
begin_a_project (Maker *maker)
{
  desk_key ("n", GDK_CONTROL_MASK);
  desk_until (has_two_windows, maker_application ());
  GtkWindow *window = gtk_application_get_windows (maker_application ())->data;
  assert_ptr_not_equal (window, maker->window);
  g_set_weak_pointer (&maker->window, BW_WINDOW (window));
  desk_until (has_keyboard, window);
  desk_settle ();
}

static void
keys (const char *name, int times)
{
  for (int i = 0; i < times; i++)
    desk_key (name, 0);
}

/* --- What ought to be in the file --------------------------------------------------------------
 */

typedef struct {
  int columns, rows;
  GPtrArray *cells; /* char *, a row each */
} Sheet;

static Sheet
plain_sheet (Maker *maker)
{
  const BwDesign *design = maker_design (maker);
  Sheet sheet
      = { design->band.columns, design->band.rows, g_ptr_array_new_with_free_func (g_free) };
  for (int row = 0; row < sheet.rows; row++)
    g_ptr_array_add (sheet.cells, g_strnfill ((gsize)sheet.columns / 2, 'a'));
  return sheet;
}

/* Odd rows fill even columns, even rows odd ones. */
static void
put (Sheet *sheet, int row, int column, char letter)
{
  assert_int_equal ((row + column) % 2, 1);
  ((char *)g_ptr_array_index (sheet->cells, row - 1))[(column - 1) / 2] = letter;
}

static void
expect_file (const Sheet *sheet, const char *path)
{
  g_autofree char *text = maker_read (path);
  g_autoptr (JsonNode) root = json_from_string (text, NULL);
  assert_non_null (root);
  JsonObject *band = json_object_get_object_member (json_node_get_object (root), "band");
  JsonArray *cells = json_object_get_array_member (band, "cells");
  assert_int_equal (json_array_get_length (cells), sheet->rows);
  for (int row = 1; row <= sheet->rows; row++) {
    const char *is = json_array_get_string_element (cells, (guint)row - 1);
    if (!g_str_equal (is, g_ptr_array_index (sheet->cells, row - 1)))
      fail_msg ("row %d is “%s”, not “%s”", row, is,
                (char *)g_ptr_array_index (sheet->cells, row - 1));
  }
}

/* --- The run -----------------------------------------------------------------------------------
 */

/* Two beads, then a line from the second on. */
static void
lay_beads_and_a_line (Sheet *sheet)
{
  keys ("b", 1);
  keys ("Home", 1);
  keys ("space", 1);
  put (sheet, 1, 2, 'b');
  keys ("Right", 2);
  keys ("space", 1);
  put (sheet, 5, 2, 'b');
  keys ("2", 1);
  keys ("c", 1);
  keys ("space", 1);
  keys ("Right", 3);
  keys ("Return", 1);
  for (int row = 5; row <= 11; row += 2)
    put (sheet, row, 2, 'c');
}

/* Rows 31 to 35, columns 2 to 4. */
static void
lay_a_block (Sheet *sheet)
{
  keys ("3", 1);
  keys ("d", 1);
  keys ("Right", 10);
  keys ("space", 1);
  keys ("Right", 2);
  keys ("Up", 2);
  keys ("Return", 1);
  for (int column = 2; column <= 4; column++)
    for (int row = 31 + column % 2; row <= 35; row += 2)
      put (sheet, row, column, 'd');
}

/* One bead, and its image beyond the middle of the face that the mirror stands on. */
static void
lay_a_mirrored_bead (Maker *maker, Sheet *sheet)
{
  desk_key ("m", GDK_CONTROL_MASK);
  keys ("Down", 1);
  keys ("Escape", 1);
  BwLiveSymmetry live = bw_session_get_symmetry (maker_session (maker));
  assert_int_equal (live.frieze.frieze, BW_FRIEZE_P1M1);
  assert_int_equal (live.frieze.repeat_rows, 0);
  keys ("1", 1);
  keys ("Home", 1);
  keys ("Right", 10);
  keys ("space", 1);
  put (sheet, 21, 4, 'd');
  int image = (2 * live.frieze.centre - 20 + 2 * sheet->rows) % sheet->rows + 1;
  assert_int_not_equal (image, 21);
  put (sheet, image, 4, 'd');
}

static gboolean
is_saved (gpointer project)
{
  return !bw_project_get_modified (project);
}

static void
a_project_is_begun_drawn_mirrored_and_saved_by_keys_alone (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = maker_path ("by-keys.bandwright");
  begin_a_project (maker);
  desk_key ("2", GDK_CONTROL_MASK);
  Sheet sheet = plain_sheet (maker);
  lay_beads_and_a_line (&sheet);
  lay_a_block (&sheet);
  lay_a_mirrored_bead (maker, &sheet);
  desk_keep ("keys-drawn");
  assert_int_equal (bw_project_count_steps (maker_project (maker)), 5);
  desk_key ("s", GDK_CONTROL_MASK);
  maker_answer_path (maker, path);
  desk_until (is_saved, maker_project (maker));
  expect_file (&sheet, path);
  g_ptr_array_unref (sheet.cells);
}

/* From the band to the pages beside it, a motif laid there, and back to the band. */
static void
what_lies_beside_the_band_is_reached_by_keys (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  desk_key ("2", GDK_CONTROL_MASK);
  assert_true (gtk_widget_has_focus (maker_find (maker, BW_TYPE_BAND_CANVAS)));
  desk_key ("Page_Down", GDK_CONTROL_MASK);
  assert_true (bw_project_has_trial (project));
  assert_false (gtk_widget_has_focus (maker_find (maker, BW_TYPE_BAND_CANVAS)));
  desk_key ("Return", GDK_CONTROL_MASK);
  assert_int_equal (bw_project_count_steps (project), 1);
  desk_key ("Page_Down", GDK_CONTROL_MASK);
  assert_non_null (desk_look_for_label (GTK_WIDGET (maker->window), "Open a Picture…"));
  desk_key ("Page_Up", GDK_CONTROL_MASK);
  desk_key ("F6", 0);
  assert_true (gtk_widget_has_focus (maker_find (maker, BW_TYPE_BAND_CANVAS)));
  desk_key ("Page_Up", GDK_CONTROL_MASK);
  assert_false (bw_project_has_trial (project));
  desk_key ("F6", 0);
  desk_key ("a", GDK_CONTROL_MASK);
  assert_non_null (bw_session_get_selection (maker_session (maker)));
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, maker_set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_project_is_begun_drawn_mirrored_and_saved_by_keys_alone),
    IN_WINDOW (what_lies_beside_the_band_is_reached_by_keys),
  };
  return maker_run (tests);
}
