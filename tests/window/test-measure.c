/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as a maker puts them in: typed, stepped, in either unit, from a swatch, and wrong. */
#include "maker.h"

#include "app/fit/fit-line.h"
#include "app/form/field-entry.h"
#include "app/measure/section-sketch.h"
#include "output/report/report.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define LENGTH "/stone/length_mm"
#define PITCH "/gauge/pitch_mm"
#define FLATS "/stone/values_mm/0"

static int
set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  g_autofree char *path
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (maker, path);
  maker_stage (maker, "measure");
  *state = maker;
  return 0;
}

static int
tear_down (void **state)
{
  maker_stop (*state);
  g_free (*state);
  return 0;
}

static double
length_of (Maker *maker)
{
  return maker_design (maker)->stone.length_mm;
}

static void
expect_mm (double is, double should_be)
{
  if (fabs (is - should_be) > 1e-9)
    fail_msg ("%g mm, not %g mm", is, should_be);
}

static guint
steps_of (Maker *maker)
{
  return bw_project_get_position (maker_project (maker));
}

/* --- One change, one step ----------------------------------------------------------------------
 */

static void
a_typed_dimension_is_one_step_of_undo (void **state)
{
  Maker *maker = *state;
  double before = length_of (maker);
  guint steps = steps_of (maker);
  maker_fill (maker, LENGTH, "61.5");
  expect_mm (length_of (maker), 61.5);
  assert_int_equal (steps_of (maker), steps + 1);
  assert_string_equal (maker_entry_text (maker, LENGTH), "61.5 mm");
  desk_key ("z", GDK_CONTROL_MASK);
  expect_mm (length_of (maker), before);
  assert_int_equal (steps_of (maker), steps);
  assert_string_equal (maker_entry_text (maker, LENGTH), "58 mm");
}

static void
a_run_of_steps_by_key_is_one_step_of_undo (void **state)
{
  Maker *maker = *state;
  double before = length_of (maker);
  guint steps = steps_of (maker);
  GtkWidget *entry = maker_entry (maker, LENGTH);
  maker_reveal (entry);
  desk_click (entry);
  desk_key ("Up", 0);
  double step = length_of (maker) - before;
  assert_true (step > 0);
  desk_key ("Up", 0);
  desk_key ("Page_Up", 0);
  expect_mm (length_of (maker), before + 12 * step);
  desk_key ("Down", 0);
  expect_mm (length_of (maker), before + 11 * step);
  desk_key ("Tab", 0);
  assert_int_equal (steps_of (maker), steps + 1);
  desk_key ("z", GDK_CONTROL_MASK);
  expect_mm (length_of (maker), before);
}

/* --- Inches ------------------------------------------------------------------------------------
 */

static void
inches_are_typed_as_fractions_and_shown_as_chosen (void **state)
{
  Maker *maker = *state;
  maker_fill (maker, "/stone/at_mm", "3/8\"");
  expect_mm (maker_design (maker)->stone.at_mm, 9.525);
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "units",
                                  g_variant_new_string ("inch"));
  desk_settle ();
  assert_string_equal (maker_entry_text (maker, "/stone/at_mm"), "0.375 in");
  maker_fill (maker, "/stone/at_mm", "1/2");
  expect_mm (maker_design (maker)->stone.at_mm, 12.7);
  maker_fill (maker, "/stone/at_mm", "12 mm");
  expect_mm (maker_design (maker)->stone.at_mm, 12);
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "units",
                                  g_variant_new_string ("mm"));
  desk_settle ();
  assert_string_equal (maker_entry_text (maker, "/stone/at_mm"), "12 mm");
}

/* --- A swatch ----------------------------------------------------------------------------------
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
  desk_click_at (field, 12, gtk_widget_get_height (field) / 2.0, 1);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
}

static GtkWidget *
open_swatch (Maker *maker, const char *words)
{
  maker_click_words (GTK_WIDGET (maker->window), words);
  return GTK_WIDGET (maker_dialog (maker));
}

/* w = width ÷ columns, p = 2 × length ÷ (rows + 1), the strip measured edge to edge. */
static void
a_swatch_sets_the_gauge_and_can_be_forgotten (void **state)
{
  Maker *maker = *state;
  const BwGauge before = maker_design (maker)->gauge;
  guint steps = steps_of (maker);
  assert_false (before.has_swatch);
  GtkWidget *dialog = open_swatch (maker, "Measure a Swatch…");
  write_in (dialog, "columns", "10");
  write_in (dialog, "width", "13.4 mm");
  write_in (dialog, "rows", "25");
  write_in (dialog, "length", "21.06");
  desk_keep ("measure-swatch");
  maker_click_words (dialog, "Use It");
  maker_no_dialog (maker);
  const BwGauge *gauge = &maker_design (maker)->gauge;
  assert_true (gauge->has_swatch);
  expect_mm (gauge->column_mm, 1.34);
  expect_mm (gauge->pitch_mm, 1.62);
  assert_int_equal (steps_of (maker), steps + 1);

  dialog = open_swatch (maker, "Swatch…");
  maker_click_words (dialog, "Forget This Swatch");
  maker_no_dialog (maker);
  assert_false (maker_design (maker)->gauge.has_swatch);
  desk_key ("z", GDK_CONTROL_MASK);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (steps_of (maker), steps);
  expect_mm (maker_design (maker)->gauge.pitch_mm, before.pitch_mm);
}

/* --- Wrong -------------------------------------------------------------------------------------
 */

static gboolean
is_marked (GtkWidget *widget)
{
  for (; widget; widget = gtk_widget_get_parent (widget))
    if (gtk_widget_has_css_class (widget, "error"))
      return TRUE;
  return FALSE;
}

static char *
words_of_fit (Maker *maker)
{
  GtkWidget *foot = maker_find (maker, BW_TYPE_FIT_LINE);
  GtkWidget *detail = desk_look_for_prefix (foot, "114 rows, 57 around");
  assert_non_null (detail);
  assert_non_null (desk_look_for_label (foot, "Snug"));
  return g_strdup (gtk_label_get_text (GTK_LABEL (detail)));
}

static void
a_wrong_value_is_marked_and_the_fit_keeps_to_the_last_good_one (void **state)
{
  Maker *maker = *state;
  guint steps = steps_of (maker);
  g_autofree char *before = words_of_fit (maker);
  const double flats = maker_design (maker)->stone.values_mm[0];
  static const char *const wrong[] = { "0", "24.6.1", "a bit", "-24" };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    maker_fill (maker, FLATS, wrong[i]);
    assert_true (is_marked (maker_entry (maker, FLATS)));
    assert_string_equal (maker_entry_text (maker, FLATS), wrong[i]);
    g_autofree char *now = words_of_fit (maker);
    assert_string_equal (now, before);
    expect_mm (maker_design (maker)->stone.values_mm[0], flats);
  }
  assert_int_equal (steps_of (maker), steps);
  maker_fill (maker, FLATS, "24.7");
  assert_false (is_marked (maker_entry (maker, FLATS)));
  expect_mm (maker_design (maker)->stone.values_mm[0], 24.7);
}

static void
expect_pitch (Maker *maker, const char *typed, double should_be)
{
  maker_fill (maker, PITCH, typed);
  assert_false (is_marked (maker_entry (maker, PITCH)));
  expect_mm (maker_design (maker)->gauge.pitch_mm, should_be);
}

/* Far below what any pitch can be: it is not the field's own reader that knows. */
static void
a_pitch_that_no_bead_has_stays_with_its_reason (void **state)
{
  Maker *maker = *state;
  guint steps = steps_of (maker);
  const double pitch = maker_design (maker)->gauge.pitch_mm;
  maker_fill (maker, PITCH, "0.004");
  GtkWidget *entry = maker_entry (maker, PITCH);
  assert_true (is_marked (entry));
  assert_string_equal (maker_entry_text (maker, PITCH), "0.004");
  GtkWidget *field = gtk_widget_get_ancestor (entry, BW_TYPE_FIELD_ENTRY);
  desk_keep ("measure-pitch");
  assert_non_null (desk_look_for_prefix (field, "At 0.004\u00a0mm from bead to bead "));
  expect_mm (maker_design (maker)->gauge.pitch_mm, pitch);
  assert_int_equal (steps_of (maker), steps);
  desk_key ("Tab", 0);
  assert_string_equal (maker_entry_text (maker, PITCH), "0.004");
  expect_pitch (maker, "1,62", 1.62);
  expect_pitch (maker, "1/16\"", 1.5875);
}

static void
six_faces_are_as_they_were_after_five (void **state)
{
  Maker *maker = *state;
  g_autofree char *flats = g_strdup (maker_entry_text (maker, FLATS));
  maker_fill (maker, FLATS, "24.9");
  maker_fill (maker, "/stone/faces", "5");
  assert_int_equal (maker_design (maker)->stone.measured, BW_MEASURED_FACE_WIDTHS);
  maker_fill (maker, "/stone/faces", "6");
  assert_int_equal (maker_design (maker)->stone.measured, BW_MEASURED_ACROSS_FLATS);
  assert_string_equal (maker_entry_text (maker, FLATS), "24.9 mm");
  for (int i = 0; i < 3; i++)
    desk_key ("z", GDK_CONTROL_MASK);
  assert_string_equal (maker_entry_text (maker, FLATS), flats);
}

/* --- Away with it ------------------------------------------------------------------------------
 */

static void
pasted (GObject *clipboard, GAsyncResult *result, gpointer text)
{
  *(char **)text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
}

static gboolean
is_pasted (gpointer text)
{
  return *(char **)text != NULL;
}

/* The line of a list that has this name in it. */
static const char *
line_with (char **lines, const char *name)
{
  for (; *lines; lines++)
    if (strstr (*lines, name))
      return *lines;
  fail_msg ("no line has “%s”", name);
  return NULL;
}

/* The name, then the counts of the beads in one piece and to buy, however the line is laid out. */
static void
expect_counts (const char *line, const char *name, const char *count, const char *to_buy)
{
  g_autofree char *pattern = g_strdup_printf ("%s\\s+%s\\s+%s\\b", name, count, to_buy);
  if (!g_regex_match_simple (pattern, line, 0, 0))
    fail_msg ("“%s” does not tell %s and %s", line, count, to_buy);
}

static void
the_copied_list_tells_what_the_exported_one_does (void **state)
{
  Maker *maker = *state;
  const BwTray *tray = bw_project_get_tray (maker_project (maker));
  g_autofree char *csv = bw_materials_csv (maker_project (maker), 0);
  g_autofree char *text = NULL;
  g_auto (GStrv) records = g_strsplit (csv, "\r\n", -1);
  desk_key ("c", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (maker->window)), NULL,
                                 pasted, &text);
  desk_until (is_pasted, &text);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  for (int i = 0; i < tray->n_colours; i++) {
    const char *name = tray->colour[i].name;
    g_auto (GStrv) fields = g_strsplit (line_with (records, name), ",", -1);
    assert_true (g_strv_length (fields) > 4);
    expect_counts (line_with (lines, name), name, fields[3], fields[4]);
  }
}

static double
left_of (Maker *maker, const char *pointer)
{
  graphene_rect_t bounds;
  assert_true (gtk_widget_compute_bounds (maker_entry (maker, pointer), GTK_WIDGET (maker->window),
                                          &bounds));
  return (double)bounds.origin.x;
}

static void
a_card_that_grows_leaves_every_card_in_its_column (void **state)
{
  static const char *const pointers[] = { "/band/columns", "/stone/at_mm", LENGTH };
  Maker *maker = *state;
  double before[G_N_ELEMENTS (pointers)];
  GtkWidget *axis = desk_find_label (GTK_WIDGET (maker->window), "Tip off the axis");
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++)
    before[i] = left_of (maker, pointers[i]);
  maker_reveal (axis);
  desk_click (axis);
  desk_settle ();
  assert_true (gtk_widget_get_mapped (maker_entry (maker, "/stone/apex_offset_mm/0")));
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++)
    expect_mm (left_of (maker, pointers[i]), before[i]);
}

static void
cards_are_where_they_were_when_a_page_is_come_back_to (void **state)
{
  static const char *const pointers[] = { "/band/columns", "/stone/at_mm", LENGTH, PITCH };
  Maker *maker = *state;
  double before[G_N_ELEMENTS (pointers)];
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++)
    before[i] = left_of (maker, pointers[i]);
  maker_click_words (GTK_WIDGET (maker->window), "Tip off the axis");
  maker_fill (maker, "/stone/faces", "12");
  maker_stage (maker, "make");
  maker_stage (maker, "measure");
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++)
    expect_mm (left_of (maker, pointers[i]), before[i]);
}

/* Fills places with where the section's numbers and marks stand; gives how many. */
static int
find_numbers (BwSketch *sketch, const BwDesign *design, GdkRectangle *places)
{
  int n = 0;
  for (int i = 0; i < bw_stone_value_count (design->stone.measured, design->stone.faces); i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    n += bw_sketch_find (sketch, pointer, &places[n]);
  }
  n += bw_sketch_find (sketch, "/band/seam_deg", &places[n]);
  n += bw_sketch_find (sketch, "/bail/at_deg", &places[n]);
  return n;
}

/* Wherever the join is, at its default as well, and the bail beside it. */
static void
no_number_of_the_section_stands_on_another (void **state)
{
  Maker *maker = *state;
  BwSketch *sketch = BW_SKETCH (maker_find (maker, BW_TYPE_SECTION_SKETCH));
  for (int turn = 0; turn < 24; turn++) {
    BwDesign design = *maker_design (maker);
    GdkRectangle places[BW_FACES_MAX + 2];
    design.band.seam_deg = 15 * turn;
    assert_true (bw_project_set_design (maker_project (maker), "Join", &design, NULL));
    desk_settle ();
    int n = find_numbers (sketch, &design, places);
    assert_true (n >= 2);
    for (int i = 0; i < n; i++)
      for (int k = 0; k < i; k++)
        if (gdk_rectangle_intersect (&places[i], &places[k], NULL))
          fail_msg ("join at %g°: two texts at %d, %d", design.band.seam_deg, places[i].x,
                    places[i].y);
  }
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_typed_dimension_is_one_step_of_undo),
    IN_WINDOW (a_run_of_steps_by_key_is_one_step_of_undo),
    IN_WINDOW (inches_are_typed_as_fractions_and_shown_as_chosen),
    IN_WINDOW (a_card_that_grows_leaves_every_card_in_its_column),
    IN_WINDOW (cards_are_where_they_were_when_a_page_is_come_back_to),
    IN_WINDOW (a_swatch_sets_the_gauge_and_can_be_forgotten),
    IN_WINDOW (a_wrong_value_is_marked_and_the_fit_keeps_to_the_last_good_one),
    IN_WINDOW (six_faces_are_as_they_were_after_five),
    IN_WINDOW (a_pitch_that_no_bead_has_stays_with_its_reason),
    IN_WINDOW (the_copied_list_tells_what_the_exported_one_does),
    IN_WINDOW (no_number_of_the_section_stands_on_another),
  };
  return maker_run (tests);
}
