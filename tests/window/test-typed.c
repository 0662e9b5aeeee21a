/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a maker has typed and neither Enter nor Tab has followed: it is on screen, so it is taken to
 * be in the file. */
#include "kelp.h"

#include "output/report/report.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define LENGTH "/stone/length_mm"
#define ROWS "/band/rows"

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

/* Neither Enter nor Tab follows. */
static void
type_over (GtkWidget *entry, const char *text)
{
  maker_reveal (entry);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
}

static void
type_into (Maker *maker, const char *pointer, const char *text)
{
  maker_stage (maker, "measure");
  type_over (maker_entry (maker, pointer), text);
}

static gboolean
has_id (GtkWidget *widget, gconstpointer id)
{
  return GTK_IS_ENTRY (widget)
         && g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), id) == 0;
}

static void
type_text (Maker *maker, const char *id, const char *text)
{
  maker_unfold (GTK_WIDGET (maker->window), has_id, id);
  GtkWidget *entry = desk_look_for (GTK_WIDGET (maker->window), has_id, id);
  assert_non_null (entry);
  type_over (entry, text);
}

static BwProject *
saved_project (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  BwProject *project = bw_project_load (file, NULL);
  assert_non_null (project);
  return project;
}

static void
expect_saved_length (const char *path, double mm)
{
  g_autoptr (BwProject) project = saved_project (path);
  assert_float_equal (bw_project_get_design (project)->stone.length_mm, mm, 1e-9);
}

static void
expect_told_that (Maker *maker, const char *name)
{
  g_autofree char *beginning = g_strdup_printf ("What is typed under “%s” cannot stand.", name);
  desk_until (has_notice, maker);
  if (!g_str_has_prefix (notice_of (maker), beginning))
    fail_msg ("it is told: %s", notice_of (maker));
}

static void
a_save_takes_what_is_typed_first (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  type_into (maker, LENGTH, "90");
  desk_key ("s", GDK_CONTROL_MASK);
  assert_string_equal (maker_entry_text (maker, LENGTH), "90 mm");
  expect_saved_length (bench->path, 90);
  assert_false (bw_project_get_modified (maker_project (maker)));

  type_text (maker, "title", "Neap");
  desk_key ("s", GDK_CONTROL_MASK);
  g_autoptr (BwProject) project = saved_project (bench->path);
  assert_string_equal (bw_project_get_title (project), "Neap");
}

static void
a_new_colours_name_is_saved_while_it_is_typed (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_stage (maker, "draw");
  maker_take_colour (maker, 1);
  type_text (maker, "name", "Foam");
  desk_key ("s", GDK_CONTROL_MASK);
  g_autoptr (BwProject) project = saved_project (bench->path);
  assert_string_equal (bw_project_get_tray (project)->colour[1].name, "Foam");
}

static void
closing_asks_about_what_is_typed (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  type_into (maker, LENGTH, "91");
  desk_key ("w", GDK_CONTROL_MASK);
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Save");
  desk_until (is_closed, maker);
  expect_saved_length (bench->path, 91);
}

static void
quitting_asks_about_what_is_typed (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  type_into (maker, LENGTH, "91");
  desk_key ("q", GDK_CONTROL_MASK);
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Discard");
  desk_until (is_closed, maker);
  expect_file (bench->path, bench->before);
}

static void
expect_abc_to_stay (Bench *bench)
{
  Maker *maker = &bench->maker;
  expect_told_that (maker, "Length, base to tip");
  assert_string_equal (maker_entry_text (maker, LENGTH), "abc");
  /* It is no number, and the design is what the file says. */
  assert_false (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (maker->window)), "•"));
  expect_file (bench->path, bench->before);
}

static void
what_cannot_stand_is_told_and_neither_saved_nor_closed_over (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  type_into (maker, LENGTH, "abc");
  desk_key ("s", GDK_CONTROL_MASK);
  expect_abc_to_stay (bench);

  desk_key ("w", GDK_CONTROL_MASK);
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Save");
  maker_no_dialog (maker);
  assert_non_null (maker->window);
  expect_abc_to_stay (bench);

  desk_key ("w", GDK_CONTROL_MASK);
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Discard");
  desk_until (is_closed, maker);
  expect_file (bench->path, bench->before);
}

/* A measure that waits for another one is work. */
static void
a_number_that_waits_is_not_saved (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  type_into (maker, LENGTH, "20");
  desk_key ("Return", 0);
  assert_non_null (bw_draft_waits (bw_window_get_draft (maker->window)));
  assert_true (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (maker->window)), "•"));
  desk_key ("Escape", 0);
  assert_false (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (maker->window)), "•"));
}

static void
nothing_is_printed_or_exported_over_what_cannot_stand (void **state)
{
  static const struct {
    const char *key;
    GdkModifierType modifiers;
  } commands[] = {
    { "p", GDK_CONTROL_MASK },
    { "e", GDK_CONTROL_MASK },
    { "p", GDK_CONTROL_MASK | GDK_SHIFT_MASK },
    { "c", GDK_CONTROL_MASK | GDK_SHIFT_MASK },
    { "s", GDK_CONTROL_MASK | GDK_SHIFT_MASK },
  };
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    type_into (maker, LENGTH, "abc");
    desk_key (commands[i].key, commands[i].modifiers);
    desk_settle ();
    assert_int_equal (desk_count_mapped (), 1);
    expect_abc_to_stay (bench);
    desk_key ("Escape", 0);
    assert_string_not_equal (maker_entry_text (maker, LENGTH), "abc");
    assert_false (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (maker->window)), "•"));
    bw_window_tell (maker->window, GTK_MESSAGE_INFO, "Before");
  }
}

static void
text_copied (GObject *clipboard, GAsyncResult *result, gpointer text)
{
  *(char **)text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
}

static gboolean
is_copied (gpointer text)
{
  return *(char **)text != NULL;
}

static void
the_list_is_copied_with_what_is_typed (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *text = NULL;
  int rows = maker_design (maker)->band.rows + 20;
  g_autofree char *typed = g_strdup_printf ("%d", rows);
  g_autofree char *before = bw_order_text (maker_project (maker), BW_UNIT_MM);
  type_into (maker, ROWS, typed);
  desk_key ("c", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (maker->window)), NULL,
                                 text_copied, &text);
  desk_until (is_copied, &text);
  assert_int_equal (maker_design (maker)->band.rows, rows);
  g_autofree char *now = bw_order_text (maker_project (maker), BW_UNIT_MM);
  assert_string_equal (text, now);
  assert_string_not_equal (text, before);
}

static void
another_stage_and_the_bench_are_come_to_with_what_is_typed (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  type_into (maker, LENGTH, "90");
  desk_key ("2", GDK_CONTROL_MASK);
  assert_float_equal (maker_design (maker)->stone.length_mm, 90, 1e-9);
  type_into (maker, LENGTH, "91");
  desk_key ("F11", 0);
  assert_float_equal (maker_design (maker)->stone.length_mm, 91, 1e-9);
}

static void
a_currency_too_long_is_not_saved_over (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  BwDesign design = *maker_design (maker);
  design.supply.has_prices = TRUE;
  assert_true (bw_project_set_design (maker_project (maker), "Prices", &design, NULL));
  maker_stage (maker, "make");
  type_text (maker, "currency", "");
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (maker->window)), "€€€€€€");
  desk_key ("v", GDK_CONTROL_MASK);
  desk_settle ();
  desk_key ("s", GDK_CONTROL_MASK);
  expect_told_that (maker, "Currency");
  expect_file (bench->path, bench->before);
  type_text (maker, "currency", "EUR");
  desk_key ("s", GDK_CONTROL_MASK);
  g_autoptr (BwProject) project = saved_project (bench->path);
  assert_string_equal (bw_project_get_design (project)->supply.currency, "EUR");
}

static void
a_saved_piece_without_a_title_goes_by_its_files_name (void **state)
{
  Maker maker = { 0 };
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "");
  g_autofree char *path = maker_save (project, "no title.bandwright");
  maker_start (&maker, path);
  assert_string_equal (gtk_window_get_title (GTK_WINDOW (maker.window)), "no title — Bandwright");
  desk_find_label (GTK_WIDGET (maker.window), "no title");
  maker_stop (&maker);
}

/* Emptied, as the undoing of one's typing in the field empties it: the number that stands is there
 * again, and nothing is said to be wrong. */
static void
a_field_left_empty_holds_what_it_had (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  static const char *const keys[] = { "Return", "Tab" };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++) {
    type_into (maker, "/stone/length_mm", "900");
    desk_key ("Return", 0);
    desk_settle ();
    desk_key ("a", GDK_CONTROL_MASK);
    desk_key ("Delete", 0);
    desk_key (keys[i], 0);
    desk_settle ();
    GtkWidget *entry = maker_entry (maker, "/stone/length_mm");
    g_autofree char *stands = g_strdup_printf ("%g mm", maker_design (maker)->stone.length_mm);
    assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), stands);
    assert_false (gtk_widget_has_css_class (entry, "error"));
  }
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_save_takes_what_is_typed_first),
    IN_WINDOW (a_new_colours_name_is_saved_while_it_is_typed),
    IN_WINDOW (closing_asks_about_what_is_typed),
    IN_WINDOW (quitting_asks_about_what_is_typed),
    IN_WINDOW (what_cannot_stand_is_told_and_neither_saved_nor_closed_over),
    IN_WINDOW (a_number_that_waits_is_not_saved),
    IN_WINDOW (a_field_left_empty_holds_what_it_had),
    IN_WINDOW (nothing_is_printed_or_exported_over_what_cannot_stand),
    IN_WINDOW (the_list_is_copied_with_what_is_typed),
    IN_WINDOW (another_stage_and_the_bench_are_come_to_with_what_is_typed),
    IN_WINDOW (a_currency_too_long_is_not_saved_over),
    cmocka_unit_test (a_saved_piece_without_a_title_goes_by_its_files_name),
  };
  return maker_run (tests);
}
