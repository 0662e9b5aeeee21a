/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as a maker puts them in: typed, stepped, in either unit, from a swatch, and wrong. */
#include "maker.h"

#include "app/fit/fit-line.h"
#include "app/kit/term-note.h"
#include "app/form/field-entry.h"
#include "app/measure/bench-sheet.h"
#include "app/measure/fold-card.h"
#include "app/measure/measure-cards.h"
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
  gtk_settings_reset_property (gtk_settings_get_default (), "gtk-xft-dpi");
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
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

/* What stood in a field before the program showed a number there is nobody's. */
static void
where_nothing_was_changed_undo_changes_nothing (void **state)
{
  static const char *const fields[] = { "/stone/faces", LENGTH, "/band/columns" };
  Maker *maker = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++) {
    GtkWidget *entry = maker_entry (maker, fields[i]);
    g_autofree char *before = g_strdup (maker_entry_text (maker, fields[i]));
    maker_reveal (entry);
    desk_click (entry);
    desk_key ("z", GDK_CONTROL_MASK);
    assert_string_equal (maker_entry_text (maker, fields[i]), before);
    assert_int_equal (steps_of (maker), 0);
  }
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
  maker_click_words (dialog, "a ruler");
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
  GtkWidget *sentence = desk_look_for_prefix (foot, "Weave from 112 to 116: ");
  GtkWidget *odds = desk_look_for_prefix (foot, "One of 112 to 116 rows ");
  assert_true (sentence && odds);
  assert_non_null (desk_look_for_label (foot, "Snug on paper"));
  return g_strconcat (gtk_label_get_text (GTK_LABEL (sentence)),
                      gtk_label_get_text (GTK_LABEL (odds)), NULL);
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

/* How wide the text in an entry is, and the room it has. */
static void
text_and_room (GtkWidget *entry, int *text, int *room)
{
  GtkWidget *inner = desk_find_type (entry, GTK_TYPE_TEXT);
  const char *words = gtk_editable_get_text (GTK_EDITABLE (inner));
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (inner, words);
  pango_layout_get_pixel_size (layout, text, NULL);
  *room = gtk_widget_get_width (inner);
}

/* Fifteen sixteenths of an inch, in millimetres, have three decimals; a word that is no number may
 * be cut. */
static void
a_long_number_is_shown_whole (void **state)
{
  Maker *maker = *state;
  int text, room, usual;
  text_and_room (maker_entry (maker, FLATS), &text, &usual);
  maker_fill (maker, FLATS, "15/16\"");
  assert_string_equal (maker_entry_text (maker, FLATS), "23.813 mm");
  desk_settle ();
  text_and_room (maker_entry (maker, FLATS), &text, &room);
  desk_keep ("measure-long");
  assert_true (text <= room);
  maker_fill (maker, FLATS, "a number that nobody has ever measured on any stone");
  desk_settle ();
  text_and_room (maker_entry (maker, FLATS), &text, &room);
  assert_true (room < 2 * usual);
  maker_fill (maker, FLATS, "24");
  desk_settle ();
  text_and_room (maker_entry (maker, FLATS), &text, &room);
  assert_int_equal (room, usual);
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

/* Finish and colour, then grams that are taken, and the packs at the end, however the line is laid
 * out. */
static void
expect_order (const char *line, char **field)
{
  g_autofree char *pattern = g_strdup_printf ("^%s\\s+%s\\s+%s\\s+%s\\s.*\\s%s$", field[2],
                                              field[10], field[11], field[12], field[7]);
  if (!g_regex_match_simple (pattern, line, 0, 0))
    fail_msg ("“%s” does not tell %s g and %s packs", line, field[12], field[7]);
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
    assert_true (g_strv_length (fields) > 12);
    expect_order (line_with (lines, name), fields);
  }
}

/* --- The sheet ----------------------------------------------------------------------------------
 */

static GtkWidget *
sheet_of (Maker *maker)
{
  return maker_find (maker, BW_TYPE_BENCH_SHEET);
}

static const char *
pointer_with_focus (Maker *maker)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (maker->window));
  GtkWidget *field = focus ? gtk_widget_get_ancestor (focus, BW_TYPE_FIELD_ENTRY) : NULL;
  return field ? bw_field_entry_get_pointer (BW_FIELD_ENTRY (field)) : "";
}

static void
expect_all_selected (Maker *maker, const char *pointer)
{
  GtkEditable *entry = GTK_EDITABLE (maker_entry (maker, pointer));
  int start = -1, end = -1;
  assert_string_equal (pointer_with_focus (maker), pointer);
  gtk_editable_get_selection_bounds (entry, &start, &end);
  assert_int_equal (start, 0);
  assert_int_equal (end, g_utf8_strlen (gtk_editable_get_text (entry), -1));
}

/* A click means: another number. A second one means a place in it. */
static void
a_click_into_a_dimension_selects_all_of_it (void **state)
{
  Maker *maker = *state;
  GtkWidget *entry = maker_entry (maker, FLATS);
  desk_click (entry);
  expect_all_selected (maker, FLATS);
  desk_type ("26.5");
  desk_key ("Return", 0);
  expect_mm (maker_design (maker)->stone.values_mm[0], 26.5);
  desk_click_at (entry, 6, gtk_widget_get_height (entry) / 2.0, 1);
  assert_false (gtk_editable_get_selection_bounds (GTK_EDITABLE (entry), NULL, NULL));
}

static void
tab_goes_round_the_stone_and_then_up_along_it (void **state)
{
  static const char *const order[]
      = { FLATS,  "/stone/values_mm/1", "/stone/values_mm/2", "/band/seam_deg", "/bail/at_deg",
          LENGTH, "/stone/shoulder_mm" };
  Maker *maker = *state;
  desk_click (maker_entry (maker, order[0]));
  for (gsize i = 1; i < G_N_ELEMENTS (order); i++) {
    desk_key ("Tab", 0);
    expect_all_selected (maker, order[i]);
  }
  desk_key ("Tab", GDK_SHIFT_MASK);
  expect_all_selected (maker, LENGTH);
  desk_type ("60");
  desk_key ("Tab", 0);
  expect_mm (length_of (maker), 60);
}

static void
escape_gives_the_number_back_and_then_leaves_it (void **state)
{
  Maker *maker = *state;
  desk_click (maker_entry (maker, LENGTH));
  desk_type ("99");
  desk_key ("Escape", 0);
  assert_string_equal (maker_entry_text (maker, LENGTH), "58 mm");
  assert_string_equal (pointer_with_focus (maker), LENGTH);
  desk_key ("Escape", 0);
  assert_ptr_equal (gtk_root_get_focus (GTK_ROOT (maker->window)), sheet_of (maker));
  desk_key ("Tab", 0);
  expect_all_selected (maker, "/stone/shoulder_mm");
}

static gboolean
is_label_with (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words);
}

static GtkWidget *
field_of (Maker *maker, const char *pointer)
{
  return gtk_widget_get_ancestor (maker_entry (maker, pointer), BW_TYPE_FIELD_ENTRY);
}

static void
a_fault_is_told_where_the_dimension_stands (void **state)
{
  Maker *maker = *state;
  maker_fill (maker, "/stone/shoulder_mm", "70");
  GtkWidget *field = field_of (maker, "/stone/shoulder_mm");
  desk_keep ("measure-fault");
  assert_true (is_marked (maker_entry (maker, "/stone/shoulder_mm")));
  assert_non_null (desk_look_for (field, is_label_with, "70"));
  /* It does not lie over the next number that is tried. */
  desk_type ("8");
  desk_rest ();
  assert_null (desk_look_for (field, is_label_with, "70"));
  desk_type ("0");
  desk_key ("Return", 0);
  assert_non_null (desk_look_for (field, is_label_with, "80"));
  desk_key ("Escape", 0);
  assert_null (desk_look_for (field, is_label_with, "80"));
  assert_false (is_marked (maker_entry (maker, "/stone/shoulder_mm")));
}

static void
empty (Maker *maker, const char *pointer)
{
  desk_click (maker_entry (maker, pointer));
  desk_key ("BackSpace", 0);
  desk_key ("Return", 0);
}

static void
what_is_not_measured_is_an_open_blank_to_type_into (void **state)
{
  static const char girth[] = "/stone/second_girth_mm";
  Maker *maker = *state;
  empty (maker, girth);
  assert_false (maker_design (maker)->stone.has_second);
  assert_string_equal (maker_entry_text (maker, girth), "");
  assert_true (gtk_widget_has_css_class (maker_entry (maker, girth), "blank"));
  desk_keep ("measure-blank");
  maker_fill (maker, girth, "81.5");
  assert_true (maker_design (maker)->stone.has_second);
  expect_mm (maker_design (maker)->stone.second_girth_mm, 81.5);
  assert_false (gtk_widget_has_css_class (maker_entry (maker, girth), "blank"));
  assert_true (maker_design (maker)->stone.second_at_mm > 0);
}

/* Fills places with where the entries that lie on the sheet stand; gives how many. */
static int
find_places (GtkWidget *sheet, GdkRectangle *places)
{
  int n = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (sheet); child;
       child = gtk_widget_get_next_sibling (child)) {
    graphene_rect_t b;
    if (!BW_IS_FIELD_ENTRY (child) || !gtk_widget_get_mapped (child))
      continue;
    assert_true (n < 64 && gtk_widget_compute_bounds (child, sheet, &b));
    places[n++]
        = (GdkRectangle){ (int)b.origin.x, (int)b.origin.y, (int)b.size.width, (int)b.size.height };
  }
  return n;
}

static void
expect_on_paper (GtkWidget *sheet, const char *what)
{
  for (GtkWidget *child = gtk_widget_get_first_child (sheet); child;
       child = gtk_widget_get_next_sibling (child)) {
    graphene_rect_t b;
    if (!gtk_widget_get_mapped (child))
      continue;
    assert_true (gtk_widget_compute_bounds (child, sheet, &b));
    if (b.origin.x < 0 || b.origin.y < 0
        || b.origin.x + b.size.width > (float)gtk_widget_get_width (sheet)
        || b.origin.y + b.size.height > (float)gtk_widget_get_height (sheet))
      fail_msg ("%s: a %s at %g, %g is off the sheet", what, G_OBJECT_TYPE_NAME (child),
                (double)b.origin.x, (double)b.origin.y);
  }
}

static void
expect_tidy (GtkWidget *sheet, const char *what)
{
  GdkRectangle places[64];
  int n = find_places (sheet, places);
  assert_true (n >= 6);
  expect_on_paper (sheet, what);
  for (int i = 0; i < n; i++)
    for (int k = 0; k < i; k++)
      if (gdk_rectangle_intersect (&places[i], &places[k], NULL))
        fail_msg ("%s: two dimensions at %d, %d", what, places[i].x, places[i].y);
}

/* Wherever the join is, at its default as well, and the bail beside it. */
static void
no_dimension_stands_on_another (void **state)
{
  Maker *maker = *state;
  GtkWidget *sheet = sheet_of (maker);
  for (int turn = 0; turn < 24; turn++) {
    BwDesign design = *maker_design (maker);
    g_autofree char *what = g_strdup_printf ("join at %d°", 15 * turn);
    design.band.seam_deg = 15 * turn;
    assert_true (bw_project_set_design (maker_project (maker), "Join", &design, NULL));
    desk_settle ();
    expect_tidy (sheet, what);
  }
}

static void
the_sheet_is_tidy_at_twice_the_text_and_from_right_to_left (void **state)
{
  Maker *maker = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 2 * dpi, NULL);
  desk_settle ();
  desk_keep ("measure-twice");
  expect_tidy (sheet_of (maker), "twice the text");
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  desk_settle ();
  desk_keep ("measure-rtl");
  expect_tidy (sheet_of (maker), "from right to left");
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
  desk_settle ();
}

/* --- The page -----------------------------------------------------------------------------------
 */

static double
top_of (Maker *maker, GtkWidget *widget)
{
  graphene_rect_t bounds;
  assert_true (gtk_widget_compute_bounds (widget, GTK_WIDGET (maker->window), &bounds));
  return (double)bounds.origin.y;
}

static void
choose_way (Maker *maker, const char *way)
{
  desk_click (desk_find_type (sheet_of (maker), GTK_TYPE_DROP_DOWN));
  GtkWidget *list
      = desk_find_type (desk_find_type (sheet_of (maker), GTK_TYPE_DROP_DOWN), GTK_TYPE_POPOVER);
  desk_click (desk_find_label (list, way));
  desk_settle ();
}

/* Whoever has the pointer on a group, or on the number of faces, finds it there after a change. */
static void
the_page_keeps_still_whatever_is_measured (void **state)
{
  static const char *const faces[] = { "12", "3", "8", "5", "6" };
  Maker *maker = *state;
  GtkWidget *group = maker_find (maker, BW_TYPE_FOLD_CARD);
  double before = top_of (maker, group), head = top_of (maker, maker_entry (maker, "/stone/faces"));
  for (gsize i = 0; i < G_N_ELEMENTS (faces); i++) {
    maker_fill (maker, "/stone/faces", faces[i]);
    expect_mm (top_of (maker, group), before);
    expect_mm (top_of (maker, maker_entry (maker, "/stone/faces")), head);
    expect_tidy (sheet_of (maker), faces[i]);
    desk_keep (faces[i]);
  }
  choose_way (maker, "girth");
  expect_mm (top_of (maker, group), before);
  empty (maker, "/stone/second_girth_mm");
  expect_mm (top_of (maker, group), before);
}

static void
a_group_says_its_content_in_a_line_and_unfolds_below_it (void **state)
{
  Maker *maker = *state;
  GtkWidget *window = GTK_WIDGET (maker->window);
  assert_non_null (desk_look_for (window, is_label_with, "11/0 cylinder, 1.6\u00a0mm, 14 columns"));
  GtkWidget *title = desk_find_label (window, "Bead and hands");
  double top = top_of (maker, title), sheet = top_of (maker, sheet_of (maker));
  assert_null (desk_look_for_label (window, "The bead"));
  desk_click (title);
  desk_settle ();
  desk_keep ("measure-unfolded");
  assert_non_null (desk_look_for_label (window, "The bead"));
  expect_mm (top_of (maker, title), top);
  expect_mm (top_of (maker, sheet_of (maker)), sheet);
  desk_key ("space", 0);
  assert_null (desk_look_for_label (window, "The bead"));
}

static gboolean
is_in_sight (gpointer widget)
{
  GtkWidget *page = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t box;
  return gtk_widget_get_mapped (widget) && gtk_widget_compute_bounds (widget, page, &box)
         && box.origin.y >= 0
         && box.origin.y + box.size.height <= (float)gtk_widget_get_height (page);
}

static void
a_group_at_the_foot_of_the_page_opens_into_sight (void **state)
{
  Maker *maker = *state;
  GtkWidget *window = GTK_WIDGET (maker->window);
  GtkWidget *head = desk_find_label (window, "Join and piece");
  desk_click (head);
  desk_until (is_in_sight, desk_find_label (window, "Title"));
  assert_true (is_in_sight (head));
}

static void
widths_that_the_sheet_cannot_hold_are_listed_under_the_stone (void **state)
{
  Maker *maker = *state;
  choose_way (maker, "each face");
  maker_fill (maker, "/stone/faces", "20");
  maker_click_words (GTK_WIDGET (maker->window), "Stone");
  maker_fill (maker, "/stone/values_mm/19", "4.4");
  expect_mm (maker_design (maker)->stone.values_mm[19], 4.4);
  expect_tidy (sheet_of (maker), "20 faces");
}

static gboolean
is_misfit_note (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_TERM_NOTE (widget) && gtk_widget_is_ancestor (widget, (GtkWidget *)data);
}

static void
the_word_misfit_is_explained_where_it_is_written (void **state)
{
  Maker *maker = *state;
  GtkWidget *sheet = sheet_of (maker);
  assert_null (desk_look_for (sheet, is_misfit_note, sheet));
  choose_way (maker, "each face");
  assert_non_null (desk_look_for (sheet, is_misfit_note, sheet));
  desk_keep ("measure-misfit");
}

/* The marks stand at the corners, which lie on the left half of the sheet; one is found by looking
 * for what the pointer is told there. */
static gboolean
finds_a_warning (GtkWidget *sheet)
{
  int width = gtk_widget_get_width (sheet) / 2, height = gtk_widget_get_height (sheet);
  for (int y = 12; y < height - 60; y += 12)
    for (int x = 12; x < width; x += 12) {
      desk_move (sheet, x, y);
      const char *tip = gtk_widget_get_tooltip_text (sheet);
      if (tip && g_str_has_prefix (tip, "Thread will show at a corner"))
        return TRUE;
    }
  return FALSE;
}

static void
a_mark_that_warns_says_of_what (void **state)
{
  Maker *maker = *state;
  choose_way (maker, "girth");
  maker_fill (maker, "/stone/faces", "4");
  BwDesign design = *maker_design (maker);
  design.bed.layers = 0;
  design.bed.has_girth_over = FALSE;
  assert_true (bw_project_set_design (maker_project (maker), "No bed", &design, NULL));
  g_autofree char *words = bw_project_splay_words (maker_project (maker), BW_UNIT_MM);
  assert_non_null (words);
  desk_settle ();
  desk_keep ("measure-splay");
  assert_true (finds_a_warning (sheet_of (maker)));
}

static void
what_the_stone_looks_like_is_typed_scattered_and_undone (void **state)
{
  Maker *maker = *state;
  guint steps = steps_of (maker);
  maker_fill (maker, "/stone/look/needles", "40");
  assert_true (fabs (maker_design (maker)->look.needles - 0.4) < 1e-9);
  assert_true (g_str_has_prefix (maker_entry_text (maker, "/stone/look/needles"), "40"));
  assert_int_equal (steps_of (maker), steps + 1);
  BwNature before = *bw_project_nature (maker_project (maker));
  maker_click_words (maker_find (maker, BW_TYPE_LOOK_CARD), "Scatter Again");
  assert_int_equal (maker_design (maker)->look.seed, 1);
  assert_memory_not_equal (&before, bw_project_nature (maker_project (maker)), sizeof before);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_memory_equal (&before, bw_project_nature (maker_project (maker)), sizeof before);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_true (bw_stone_look_is_quiet (&maker_design (maker)->look));
}

static void
every_way_of_measuring_comes_back_as_it_was_typed (void **state)
{
  Maker *maker = *state;
  maker_fill (maker, FLATS, "24.91");
  choose_way (maker, "each face");
  maker_fill (maker, "/stone/values_mm/3", "13.21");
  choose_way (maker, "girth");
  choose_way (maker, "across the flats");
  assert_string_equal (maker_entry_text (maker, FLATS), "24.91 mm");
  choose_way (maker, "each face");
  assert_string_equal (maker_entry_text (maker, "/stone/values_mm/3"), "13.21 mm");
}

/* --- A stone nobody has measured
 * ------------------------------------------------------------------ */

static int
set_up_new (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *path
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (maker, path);
  maker_stage (maker, "measure");
  bw_session_set_project (maker_session (maker), project);
  desk_settle ();
  *state = maker;
  return 0;
}

static gboolean
is_marked_example (Maker *maker, const char *pointer)
{
  return gtk_widget_has_css_class (maker_entry (maker, pointer), "example");
}

static int
count_notes (Maker *maker)
{
  GtkWidget *view = gtk_widget_get_parent (maker_find (maker, BW_TYPE_STONE_VIEW));
  return (desk_look_for_label (view, "Example stone – type your own") != NULL)
         + (desk_look_for (sheet_of (maker), is_label_with, "Example stone – type your own\n")
            != NULL);
}

static void
a_new_stone_is_an_example_until_its_widths_are_typed (void **state)
{
  Maker *maker = *state;
  assert_int_equal (count_notes (maker), 2);
  assert_true (is_marked_example (maker, FLATS) && is_marked_example (maker, LENGTH));
  assert_false (is_marked_example (maker, "/band/columns"));
  desk_keep ("measure-example");
  maker_fill (maker, FLATS, "22.5");
  assert_false (is_marked_example (maker, FLATS));
  maker_fill (maker, "/stone/values_mm/1", "23");
  assert_int_equal (count_notes (maker), 2);
  /* The number that stood there is the maker's own once Enter says so. */
  desk_click (maker_entry (maker, "/stone/values_mm/2"));
  desk_key ("Return", 0);
  assert_int_equal (count_notes (maker), 0);
  assert_true (is_marked_example (maker, LENGTH));
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (count_notes (maker), 2);
  assert_true (is_marked_example (maker, "/stone/values_mm/2"));
}

/* --- Hard to believe -----------------------------------------------------------------------------
 */

static GtkWidget *
offer_of (Maker *maker, const char *pointer)
{
  return desk_look_for (field_of (maker, pointer), is_label_with, "?");
}

static void
a_tenth_of_the_bead_is_taken_and_asked_about (void **state)
{
  Maker *maker = *state;
  maker_fill (maker, PITCH, "0.16");
  expect_mm (maker_design (maker)->gauge.pitch_mm, 0.16);
  GtkWidget *field = field_of (maker, PITCH);
  assert_non_null (desk_look_for (field, is_label_with, "tenth of the bead’s size"));
  assert_false (is_marked (maker_entry (maker, PITCH)));
  desk_keep ("measure-doubt");
  maker_reveal (offer_of (maker, PITCH));
  desk_click (offer_of (maker, PITCH));
  expect_mm (maker_design (maker)->gauge.pitch_mm, 1.6);
  assert_null (offer_of (maker, PITCH));
}

/* Tab comes to the number offered first, then to the next dimension. */
static void
a_dimension_is_asked_about_where_it_stands (void **state)
{
  Maker *maker = *state;
  maker_fill (maker, "/stone/faces", "56");
  assert_int_equal (maker_design (maker)->stone.faces, 56);
  assert_non_null (offer_of (maker, "/stone/faces"));
  desk_keep ("measure-faces");
  desk_key ("Tab", 0);
  desk_key ("space", 0);
  assert_int_equal (maker_design (maker)->stone.faces, 6);
  assert_null (offer_of (maker, "/stone/faces"));
  maker_fill (maker, LENGTH, "580");
  expect_mm (length_of (maker), 580);
  desk_key ("Tab", 0);
  desk_key ("Tab", 0);
  assert_string_equal (pointer_with_focus (maker), "/stone/shoulder_mm");
  desk_key ("Tab", GDK_SHIFT_MASK);
  desk_key ("space", 0);
  expect_mm (length_of (maker), 58);
}

/* A strip of r rows is (r + 1) / 2 pitches, 0.1 mm by calliper against 2 % believed beforehand:
 * 1/sd² = 1/(0.02 × 1.6)² + (13 / 0.1)², and with 60 rows 30.5 for 13. */
static void
a_calliper_is_taken_for_what_it_is_and_a_longer_swatch_advised (void **state)
{
  Maker *maker = *state;
  GtkWidget *dialog = open_swatch (maker, "Measure a Swatch…");
  write_in (dialog, "columns", "10");
  write_in (dialog, "width", "13.4");
  write_in (dialog, "rows", "25");
  write_in (dialog, "length", "21.06");
  maker_click_words (dialog, "a calliper");
  assert_non_null (desk_look_for (dialog, is_label_with, "± 0.007\u00a0mm"));
  assert_non_null (desk_look_for (dialog, is_label_with, "would make it sure to ± 0.003\u00a0mm"));
  write_in (dialog, "rows", "60");
  write_in (dialog, "length", "49.4");
  assert_null (desk_look_for (dialog, is_label_with, "sure to ±"));
  maker_click_words (dialog, "a ruler");
  assert_non_null (desk_look_for (dialog, is_label_with, "calliper it would be sure to ± 0.003"));
  maker_click_words (dialog, "a calliper");
  desk_keep ("measure-swatch-calliper");
  maker_click_words (dialog, "Use It");
  maker_no_dialog (maker);
  assert_int_equal (maker_design (maker)->gauge.swatch.tool, BW_STRIP_BY_CALLIPER);
  dialog = open_swatch (maker, "Swatch…");
  GtkWidget *calliper = desk_look_for (dialog, has_name, "calliper");
  assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (calliper)));
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

/* The group that tells it may be folded away. */
static void
assert_told (Maker *maker, const char *words)
{
  GtkWidget *window = GTK_WIDGET (maker->window);
  maker_unfold (window, is_label_with, "Squeeze and overhang");
  assert_non_null (desk_look_for (window, is_label_with, words));
}

/* A slipped decimal point is not taken by the Return that ends its typing. */
static void
a_swatch_that_is_hard_to_believe_is_not_taken_by_return (void **state)
{
  Maker *maker = *state;
  double before = maker_design (maker)->pitch.mm;
  GtkWidget *dialog = open_swatch (maker, "Measure a Swatch…");
  write_in (dialog, "columns", "10");
  write_in (dialog, "width", "13.4");
  write_in (dialog, "rows", "24");
  maker_click_words (dialog, "a calliper");
  write_in (dialog, "length", "200");
  desk_key ("Return", 0);
  desk_settle ();
  assert_non_null (desk_look_for (dialog, is_label_with, "ten times the bead"));
  assert_true (gtk_widget_get_mapped (dialog));
  expect_mm (maker_design (maker)->pitch.mm, before);
  write_in (dialog, "length", "20");
  desk_key ("Return", 0);
  maker_no_dialog (maker);
  assert_true (maker_design (maker)->gauge.has_swatch);
}

/* Pulled the swatch is 1.8 % longer, by calliper: 1/sd² = 1/0.003² + 1/(0.1 √(1 + 1.01²) / 49.4)²,
 * from 1 % and 1.8 %. */
static void
a_swatch_measured_pulled_tells_the_stretch_and_forgets_it (void **state)
{
  Maker *maker = *state;
  GtkWidget *dialog = open_swatch (maker, "Measure a Swatch…");
  write_in (dialog, "columns", "10");
  write_in (dialog, "width", "13.4");
  write_in (dialog, "rows", "60");
  write_in (dialog, "length", "49.4");
  maker_click_words (dialog, "a calliper");
  write_in (dialog, "pulled", "60");
  GtkWidget *use = gtk_widget_get_ancestor (desk_find_label (dialog, "Use It"), GTK_TYPE_BUTTON);
  assert_false (gtk_widget_get_sensitive (use));
  assert_non_null (desk_look_for (dialog, is_label_with, "is not between"));
  write_in (dialog, "pulled", "50.3");
  desk_keep ("measure-swatch-pulled");
  assert_non_null (desk_look_for (dialog, is_label_with, "longer by 1.4\u00a0%"));
  maker_click_words (dialog, "Use It");
  maker_no_dialog (maker);
  const BwThread *thread = &maker_design (maker)->thread;
  assert_true (thread->has_pulled);
  expect_mm (thread->pulled.slack_mm, 49.4);
  expect_mm (thread->pulled.pulled_mm, 50.3);
  assert_int_equal (thread->pulled.tool, BW_STRIP_BY_CALLIPER);
  assert_true (thread->stretch > 0.0138 && thread->stretch < 0.0145);
  assert_told (maker, "1.4\u00a0% ± 0.2\u00a0%, by what you measured");
  dialog = open_swatch (maker, "Swatch…");
  maker_click_words (dialog, "Forget This Swatch");
  maker_no_dialog (maker);
  assert_false (maker_design (maker)->thread.has_pulled);
  assert_true (maker_design (maker)->thread.stretch < 0.0101);
}

static void
open_bed (Maker *maker)
{
  GtkWidget *window = GTK_WIDGET (maker->window);
  maker_unfold (window, is_label_with, "Squeeze and overhang");
  if (!desk_look_for_label (window, "Measure the Squeeze…"))
    maker_click_words (window, "Squeeze and overhang");
}

static GtkWidget *
open_squeeze (Maker *maker)
{
  open_bed (maker);
  maker_click_words (GTK_WIDGET (maker->window), "Measure the Squeeze…");
  return GTK_WIDGET (maker_dialog (maker));
}

/* By calliper a bed that adds 8 mm and loses 2: q = 0.25, sd √(0.2² (1 + 0.85²) + 0.15² 0.4²)/8. */
static void
girths_over_the_bed_tell_the_squeeze_and_are_forgotten (void **state)
{
  Maker *maker = *state;
  GtkWidget *dialog = open_squeeze (maker);
  write_in (dialog, "bare", "64 mm");
  write_in (dialog, "slack", "72");
  maker_click_words (dialog, "a calliper");
  GtkWidget *use = gtk_widget_get_ancestor (desk_find_label (dialog, "Use It"), GTK_TYPE_BUTTON);
  assert_false (gtk_widget_get_sensitive (use));
  write_in (dialog, "pulled", "70");
  desk_keep ("measure-squeeze");
  assert_non_null (desk_look_for (dialog, is_label_with, "21.9\u00a0% ± 2.8"));
  maker_click_words (dialog, "Use It");
  maker_no_dialog (maker);
  const BwBed *bed = &maker_design (maker)->bed;
  assert_true (bed->has_pulled);
  expect_mm (bed->pulled.girth_mm, 64);
  expect_mm (bed->pulled.slack_mm, 72);
  expect_mm (bed->pulled.pulled_mm, 70);
  assert_true (bed->squeeze > 0.218 && bed->squeeze < 0.22);
  assert_told (maker, "21.9\u00a0% ± 2.8\u00a0%, by what you measured");
  desk_keep ("measure-squeeze-known");
  dialog = open_squeeze (maker);
  maker_click_words (dialog, "Forget These Girths");
  maker_no_dialog (maker);
  assert_false (maker_design (maker)->bed.has_pulled);
  assert_true (maker_design (maker)->bed.squeeze < 0.1501);
}

/* What is typed counts instead of what was learnt. */
static void
a_squeeze_that_is_typed_takes_the_place_of_the_girths (void **state)
{
  Maker *maker = *state;
  BwDesign design = *maker_design (maker);
  design.bed.has_pulled = TRUE;
  design.bed.pulled = (BwSqueezeReading){ 64, 72, 70, BW_STRIP_BY_CALLIPER };
  assert_true (bw_project_set_design (maker_project (maker), "Girths", &design, NULL));
  open_bed (maker);
  maker_fill (maker, "/bed/squeeze", "20 %");
  assert_false (maker_design (maker)->bed.has_pulled);
  assert_true (maker_design (maker)->bed.squeeze > 0.199
               && maker_design (maker)->bed.squeeze_sd <= 0);
}

static const char *
text_in (GtkWidget *dialog, const char *name)
{
  return gtk_editable_get_text (GTK_EDITABLE (desk_look_for (dialog, has_name, name)));
}

static void
a_swatch_begins_with_open_blanks (void **state)
{
  static const char *const names[] = { "columns", "width", "rows", "length" };
  Maker *maker = *state;
  GtkWidget *dialog = open_swatch (maker, "Measure a Swatch…");
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    assert_string_equal (text_in (dialog, names[i]), "");
  GtkWidget *use = gtk_widget_get_ancestor (desk_find_label (dialog, "Use It"), GTK_TYPE_BUTTON);
  desk_keep ("measure-swatch-empty");
  assert_false (gtk_widget_get_sensitive (use));
  assert_null (desk_look_for (dialog, is_label_with, "not a"));
  write_in (dialog, "columns", "10");
  write_in (dialog, "width", "1.34");
  write_in (dialog, "rows", "25");
  assert_false (gtk_widget_get_sensitive (use));
  write_in (dialog, "length", "21.06");
  assert_false (gtk_widget_get_sensitive (use));
  maker_click_words (dialog, "a ruler");
  assert_true (gtk_widget_get_sensitive (use));
  assert_non_null (desk_look_for (dialog, is_label_with, "tenth of the bead’s size"));
  write_in (dialog, "columns", "ten");
  assert_false (gtk_widget_get_sensitive (use));
  assert_true (is_marked (desk_look_for (dialog, has_name, "columns")));
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_typed_dimension_is_one_step_of_undo),
    IN_WINDOW (where_nothing_was_changed_undo_changes_nothing),
    IN_WINDOW (a_run_of_steps_by_key_is_one_step_of_undo),
    IN_WINDOW (inches_are_typed_as_fractions_and_shown_as_chosen),
    IN_WINDOW (a_swatch_sets_the_gauge_and_can_be_forgotten),
    IN_WINDOW (a_wrong_value_is_marked_and_the_fit_keeps_to_the_last_good_one),
    IN_WINDOW (a_long_number_is_shown_whole),
    IN_WINDOW (six_faces_are_as_they_were_after_five),
    IN_WINDOW (a_pitch_that_no_bead_has_stays_with_its_reason),
    IN_WINDOW (the_copied_list_tells_what_the_exported_one_does),
    cmocka_unit_test_setup_teardown (a_new_stone_is_an_example_until_its_widths_are_typed,
                                     set_up_new, tear_down),
    IN_WINDOW (a_tenth_of_the_bead_is_taken_and_asked_about),
    IN_WINDOW (a_dimension_is_asked_about_where_it_stands),
    IN_WINDOW (a_swatch_begins_with_open_blanks),
    IN_WINDOW (a_swatch_that_is_hard_to_believe_is_not_taken_by_return),
    IN_WINDOW (a_swatch_measured_pulled_tells_the_stretch_and_forgets_it),
    IN_WINDOW (girths_over_the_bed_tell_the_squeeze_and_are_forgotten),
    IN_WINDOW (a_squeeze_that_is_typed_takes_the_place_of_the_girths),
    IN_WINDOW (a_calliper_is_taken_for_what_it_is_and_a_longer_swatch_advised),
    IN_WINDOW (a_click_into_a_dimension_selects_all_of_it),
    IN_WINDOW (tab_goes_round_the_stone_and_then_up_along_it),
    IN_WINDOW (escape_gives_the_number_back_and_then_leaves_it),
    IN_WINDOW (a_fault_is_told_where_the_dimension_stands),
    IN_WINDOW (what_is_not_measured_is_an_open_blank_to_type_into),
    IN_WINDOW (no_dimension_stands_on_another),
    IN_WINDOW (the_sheet_is_tidy_at_twice_the_text_and_from_right_to_left),
    IN_WINDOW (the_page_keeps_still_whatever_is_measured),
    IN_WINDOW (a_group_says_its_content_in_a_line_and_unfolds_below_it),
    IN_WINDOW (a_group_at_the_foot_of_the_page_opens_into_sight),
    IN_WINDOW (widths_that_the_sheet_cannot_hold_are_listed_under_the_stone),
    IN_WINDOW (the_word_misfit_is_explained_where_it_is_written),
    IN_WINDOW (a_mark_that_warns_says_of_what),
    IN_WINDOW (what_the_stone_looks_like_is_typed_scattered_and_undone),
    IN_WINDOW (every_way_of_measuring_comes_back_as_it_was_typed),
  };
  return maker_run (tests);
}
