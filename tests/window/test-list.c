/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list leaves the real window with the numbers of the beads that were drawn; and the foot of
 * the window tells the truth and mends it by a click. */
#include "maker.h"

#include "app/fit/fit-line.h"
#include "app/fit/remedy-list.h"
#include "app/make/make-cards.h"
#include "core/band/fit.h"
#include "output/report/fit-sentence.h"
#include "output/report/report.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define BORDER 8 /* px of a popover beside what it holds */

/* The bead records of a list: letter and count in one piece, summed by letter. */
static guint64
listed (const char *csv, const char *letter)
{
  g_auto (GStrv) lines = g_strsplit (csv, "\r\n", -1);
  g_autofree char *begin = g_strconcat ("bead,", letter, ",", NULL);
  for (char **line = lines; *line; line++) {
    g_auto (GStrv) fields = g_strsplit (*line, ",", -1);
    if (g_str_has_prefix (*line, begin) && g_strv_length (fields) > 3)
      return g_ascii_strtoull (fields[3], NULL, 10);
  }
  return 0;
}

/* Counts the drawing itself, not the materials the list is made from. */
static void
assert_list_equals_the_beads (Maker *maker, const char *csv)
{
  const BwTray *tray = bw_project_get_tray (maker_project (maker));
  guint64 counts[256] = { 0 };
  bw_drawing_count (bw_project_get_drawing (maker_project (maker)), counts);
  const BwDrawing *bail = bw_project_get_bail_drawing (maker_project (maker));
  if (bail)
    bw_drawing_count (bail, counts);
  for (int i = 0; i < tray->n_colours; i++) {
    char letter[7] = { 0 };
    g_unichar_to_utf8 (tray->colour[i].id, letter);
    assert_int_equal (listed (csv, letter), counts[i]);
  }
}

static gboolean
is_written (gpointer path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static char *
export_list (Maker *maker, const char *name)
{
  g_autofree char *path = maker_path (name);
  desk_key ("e", GDK_CONTROL_MASK);
  maker_answer_path (maker, path);
  desk_until (is_written, path);
  maker_no_dialog (maker);
  return maker_read (path);
}

static char *
demo (const char *name)
{
  return g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", name, NULL);
}

static void
the_exported_list_holds_exactly_the_beads_drawn (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ("split-tide.bandwright");
  maker_start (&maker, path);
  g_autofree char *before = export_list (&maker, "before.csv");
  assert_list_equals_the_beads (&maker, before);
  assert_true (listed (before, "e") > 0);
  maker_stage (&maker, "draw");
  maker_take_colour (&maker, 4);
  maker_drag_beads (&maker, 31, 2, 41, 2);
  assert_int_equal (maker_bead (&maker, 35, 2), 4);
  g_autofree char *after = export_list (&maker, "after.csv");
  assert_list_equals_the_beads (&maker, after);
  assert_int_equal (listed (after, "e"), listed (before, "e") + 6);
  maker_stop (&maker);
}

static gboolean
has_id (GtkWidget *widget, gconstpointer id)
{
  return g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), id) == 0;
}

static gboolean
has_focus_within (gpointer entry)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (gtk_widget_get_root (entry)));
  return focus && (focus == entry || gtk_widget_is_ancestor (focus, entry));
}

static void
write_into (Maker *maker, const char *id, const char *text)
{
  GtkWidget *entry = desk_look_for (GTK_WIDGET (maker->window), has_id, id);
  assert_non_null (entry);
  maker_reveal (entry);
  desk_settle ();
  desk_click (entry);
  desk_until (has_focus_within, entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
  desk_key ("Return", 0);
}

/* What lies on the clipboard. Owned. */
static char *
copied (Maker *maker)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (maker->window));
  g_auto (GValue) value = G_VALUE_INIT;
  g_value_init (&value, G_TYPE_STRING);
  assert_true (
      gdk_content_provider_get_value (gdk_clipboard_get_content (clipboard), &value, NULL));
  return g_value_dup_string (&value);
}

/* Number and stock are typed into the tray; list, clipboard and file take the stock off and name
 * the number, and say nothing of money. */
static void
a_shop_is_ordered_from_with_what_is_in_hand_taken_off (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ("split-tide.bandwright");
  maker_start (&maker, path);
  BwDesign design = *maker_design (&maker);
  design.supply.has_prices = TRUE;
  assert_true (bw_project_set_design (maker_project (&maker), "Prices", &design, NULL));
  maker_stage (&maker, "draw");
  maker_take_colour (&maker, 0);
  write_into (&maker, "article", "t-104");
  write_into (&maker, "in_hand", "1.5");
  desk_settle ();
  assert_string_equal (bw_project_get_tray (maker_project (&maker))->colour[0].article, "t-104");
  maker_stage (&maker, "make");
  GtkWidget *list = maker_find (&maker, BW_TYPE_LIST_CARD);
  assert_non_null (desk_look_for_label (list, "Dusk\nArticle no. t-104"));
  assert_non_null (desk_look_for_label (list, "1.50"));
  assert_non_null (desk_look_for_label (list, "0.73"));
  assert_null (desk_look_for_label (list, "One piece"));
  desk_keep ("order-list");
  maker_click_words (list, "Copy");
  desk_settle ();
  g_autofree char *text = copied (&maker), *csv = export_list (&maker, "order.csv");
  assert_non_null (strstr (text, "t-104"));
  assert_non_null (strstr (text, "0.73"));
  assert_null (strstr (text, design.supply.currency));
  assert_non_null (strstr (csv, "t-104"));
  assert_non_null (strstr (csv, "0.73"));
  maker_stop (&maker);
}

static gboolean
is_snug (gpointer maker)
{
  return bw_project_fit (maker_project (maker))->verdict == BW_VERDICT_SNUG;
}

static gboolean
offers_the_rows (gpointer foot)
{
  return desk_look_for_label (foot, "Weave 114 rows (4 more)") != NULL;
}

static void
too_few_rows_will_not_close_and_one_click_mends_it (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ("split-tide.bandwright");
  maker_start (&maker, path);
  maker_stage (&maker, "measure");
  maker_fill (&maker, "/band/rows", "110");
  assert_int_equal (maker_design (&maker)->band.rows, 110);
  GtkWidget *foot = maker_find (&maker, BW_TYPE_FIT_LINE);
  assert_non_null (desk_look_for_label (foot, "Will not close"));
  desk_until (offers_the_rows, foot);
  desk_settle ();
  maker_click_words (foot, "Weave 114 rows (4 more)");
  desk_until (is_snug, &maker);
  assert_int_equal (maker_design (&maker)->band.rows, 114);
  assert_non_null (desk_look_for_label (foot, "Snug on paper"));
  desk_key ("z", GDK_CONTROL_MASK);
  desk_settle ();
  assert_int_equal (maker_design (&maker)->band.rows, 110);
  desk_key ("z", GDK_CONTROL_MASK);
  desk_settle ();
  assert_int_equal (maker_design (&maker)->band.rows, 114);
  maker_stop (&maker);
}

/* A label with these words, whatever holds its numbers and units together. */
static gboolean
is_label_of (GtkWidget *widget, gconstpointer words)
{
  if (!GTK_IS_LABEL (widget))
    return FALSE;
  g_auto (GStrv) parts = g_strsplit (gtk_label_get_text (GTK_LABEL (widget)), "\u00a0", -1);
  g_autofree char *text = g_strjoinv (" ", parts);
  return g_str_equal (text, words);
}

/* Verdict, sentence and odds on the screen are those of the project as it is now. */
static void
assert_line_in_step (Maker *maker, GtkWidget *foot)
{
  BwProject *project = maker_project (maker);
  BwFitTold told = bw_fit_told (project);
  g_autofree char *sentence = bw_fit_words_sentence (
      &told, bw_project_fit (project), maker_design (maker)->limits.slack_mm, BW_UNIT_MM);
  g_autofree char *odds = bw_fit_words_odds (&told);
  GtkWidget *head = desk_look_for_label (foot, bw_fit_words_head (&told));
  assert_non_null (head);
  assert_non_null (desk_look_for (foot, is_label_of, sentence));
  assert_non_null (desk_look_for (foot, is_label_of, odds));
  assert_int_equal (gtk_widget_has_css_class (head, "snug"), told.sign == BW_SIGN_SNUG);
}

/* A number step by step, with no pause in between: verdict and odds go with it. */
static void
the_line_keeps_in_step_with_a_number_on_its_way (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ("twin-scud.bandwright");
  maker_start (&maker, path);
  maker_stage (&maker, "measure");
  GtkWidget *foot = maker_find (&maker, BW_TYPE_FIT_LINE);
  const int rows = maker_design (&maker)->band.rows;
  GtkWidget *entry = maker_entry (&maker, "/band/rows");
  gboolean green = FALSE, other = FALSE;
  maker_reveal (entry);
  desk_click (entry);
  for (int i = 0; i < 8; i++) {
    desk_key (i < 4 ? "Up" : "Down", 0);
    desk_settle ();
    assert_true (i % 8 == 7 || maker_design (&maker)->band.rows != rows);
    assert_line_in_step (&maker, foot);
    green = green || bw_fit_told (maker_project (&maker)).sign == BW_SIGN_SNUG;
    other = other || bw_fit_told (maker_project (&maker)).sign != BW_SIGN_SNUG;
  }
  assert_true (green && other);
  maker_stop (&maker);
}

static gboolean
offers_to_play_safe (gpointer foot)
{
  return desk_look_for_label (foot, "Play safe: weave 116 rows") != NULL;
}

static gboolean
shows_what_helps (gpointer foot)
{
  GtkWidget *list = desk_look_for_label (foot, "What else was tried");
  return list && gtk_widget_get_mapped (list);
}

/* What opens over the window does not run off it at the right. */
static void
assert_inside (GtkWindow *window, GtkWidget *foot)
{
  int left, right, edge, y;
  GtkWidget *list = desk_find_type (foot, BW_TYPE_REMEDY_LIST);
  desk_point (GTK_WIDGET (window), gtk_widget_get_width (GTK_WIDGET (window)), 0, &edge, &y);
  desk_point (list, 0, 0, &left, &y);
  desk_point (list, gtk_widget_get_width (list), 0, &right, &y);
  assert_true (left > 0);
  if (right + BORDER > edge)
    fail_msg ("what helps ends at %d, the window at %d", right, edge);
}

/* Near even nothing green is shown, what helps comes first, and what does not is folded. */
static void
near_even_the_foot_says_so_and_folds_what_does_not_help (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ("split-tide.bandwright");
  maker_start (&maker, path);
  GtkWidget *foot = maker_find (&maker, BW_TYPE_FIT_LINE);
  assert_line_in_step (&maker, foot);
  gtk_window_set_default_size (GTK_WINDOW (maker.window), 900, 600);
  desk_until (offers_to_play_safe, foot);
  desk_settle ();
  maker_click_words (foot, "What helps");
  desk_until (shows_what_helps, foot);
  desk_settle ();
  desk_keep ("fit-what-helps");
  assert_inside (GTK_WINDOW (maker.window), foot);
  assert_non_null (desk_look_for_label (foot, "Measure a swatch…"));
  assert_non_null (desk_look_for_label (foot, "Weave 116 rows (2 more)"));
  assert_null (desk_look_for_label (foot, "Weave 112 rows (2 fewer)"));
  maker_click_words (foot, "What else was tried");
  desk_settle ();
  desk_keep ("fit-what-was-tried");
  assert_non_null (desk_look_for_label (foot, "Weave 112 rows (2 fewer)"));
  maker_click_words (foot, "Measure a swatch…");
  GtkWindow *dialog = maker_dialog (&maker);
  assert_string_equal (gtk_window_get_title (dialog), "Swatch");
  desk_key ("Escape", 0);
  maker_no_dialog (&maker);
  maker_click_words (foot, "Play safe: weave 116 rows");
  desk_settle ();
  assert_int_equal (maker_design (&maker)->band.rows, 116);
  maker_stop (&maker);
}

static void
a_length_in_inches_is_taken_and_a_wrong_one_is_marked_and_changes_nothing (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ("split-tide.bandwright");
  maker_start (&maker, path);
  maker_stage (&maker, "measure");
  maker_fill (&maker, "/stone/length_mm", "2 1/4\"");
  assert_float_equal (maker_design (&maker)->stone.length_mm, 57.15, 1e-9);
  maker_fill (&maker, "/stone/length_mm", "-3");
  assert_float_equal (maker_design (&maker)->stone.length_mm, 57.15, 1e-9);
  assert_string_equal (maker_entry_text (&maker, "/stone/length_mm"), "-3");
  GtkWidget *entry = maker_entry (&maker, "/stone/length_mm");
  gboolean marked = gtk_widget_has_css_class (entry, "error");
  for (GtkWidget *up = entry; up && !marked; up = gtk_widget_get_parent (up))
    marked = gtk_widget_has_css_class (up, "error");
  assert_true (marked);
  desk_keep ("measure-wrong");
  maker_stop (&maker);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_exported_list_holds_exactly_the_beads_drawn),
    cmocka_unit_test (a_shop_is_ordered_from_with_what_is_in_hand_taken_off),
    cmocka_unit_test (too_few_rows_will_not_close_and_one_click_mends_it),
    cmocka_unit_test (the_line_keeps_in_step_with_a_number_on_its_way),
    cmocka_unit_test (near_even_the_foot_says_so_and_folds_what_does_not_help),
    cmocka_unit_test (a_length_in_inches_is_taken_and_a_wrong_one_is_marked_and_changes_nothing),
  };
  return maker_run (tests);
}
