/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail in the program's window: moved and coloured by pointer and by keys, saved, taken back.
 */
#include "maker.h"

#include "app/hang/hang-cards.h"
#include "core/bail/bail-place.h"
#include "editor/bail/bail-band.h"
#include "editor/bail/bail-strip.h"

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
  BwDesign design = *bw_project_get_design (project);
  design.bail.style = BW_BAIL_FLAP;
  bw_bail_stand (&design, bw_project_mid_ring (project), 1);
  assert_true (bw_project_set_design (project, "Bail", &design, NULL));
  bench->path = maker_save (project, "loop.bandwright");
  bench->before = maker_read (bench->path);
  maker_start (&bench->maker, bench->path);
  maker_stage (&bench->maker, "hang");
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

static BwBailBand *
band_of (Bench *bench)
{
  return BW_BAIL_BAND (maker_find (&bench->maker, BW_TYPE_BAIL_BAND));
}

static BwBailStrip *
strip_of (Bench *bench)
{
  return BW_BAIL_STRIP (maker_find (&bench->maker, BW_TYPE_BAIL_STRIP));
}

static const BwBail *
bail_of (Bench *bench)
{
  return &maker_design (&bench->maker)->bail;
}

/* The band row that the flap is woven into. */
static int
first_row (Bench *bench)
{
  return (int)bw_project_bail_base (maker_project (&bench->maker))->first_row;
}

/* So many rows on, round the ring. */
static void
expect_moved (Bench *bench, int was, int by)
{
  int now = first_row (bench), rows = maker_design (&bench->maker)->band.rows;
  if ((now - was - by) % rows != 0)
    fail_msg ("the bail stands at row %d of %d: from row %d it shall move by %d", now, rows, was,
              by);
}

static guint8
cell (Bench *bench, int row, int column)
{
  return bw_drawing_get (bw_project_get_bail_drawing (maker_project (&bench->maker)), row, column);
}

static void
expect_document (Bench *bench, const char *text)
{
  g_autofree char *now = bw_project_to_data (maker_project (&bench->maker), NULL);
  assert_string_equal (now, text);
}

/* The pointer takes the grip, goes there in a few moves, and lets go. */
static void
pull (Bench *bench, BwBailGrip grip, double pitches, double columns)
{
  BwBailBand *band = band_of (bench);
  const BwBandLayout *layout = bw_bail_band_get_layout (band);
  double x, y;
  assert_true (bw_bail_band_grip_point (band, grip, &x, &y));
  desk_drag (GTK_WIDGET (band), x, y, x + pitches * bw_band_layout_pitch_px (layout),
             y - columns * bw_band_layout_column_px (layout), 6, 1);
}

static void
click_bead (Bench *bench, int row, int column, int button)
{
  double x, y;
  GtkWidget *strip = GTK_WIDGET (strip_of (bench));
  maker_reveal (strip);
  assert_true (bw_bail_strip_bead_point (strip_of (bench), row, column, &x, &y));
  desk_click_at (strip, x, y, button);
}

static void
a_bail_dragged_is_one_step_and_the_file_says_where (void **state)
{
  Bench *bench = *state;
  int was = first_row (bench);
  double mass = bw_project_hang (maker_project (&bench->maker))->centroid.x;
  pull (bench, BW_BAIL_GRIP_BODY, 9.2, 0);
  expect_moved (bench, was, 18);
  desk_keep ("hang-dragged");
  double at_deg = bail_of (bench)->at_deg;
  assert_true (bw_project_hang (maker_project (&bench->maker))->centroid.x != mass);
  g_autofree char *moved = bw_project_to_data (maker_project (&bench->maker), NULL);
  desk_key ("z", GDK_CONTROL_MASK);
  expect_document (bench, bench->before);
  desk_key ("z", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  expect_document (bench, moved);
  desk_key ("s", GDK_CONTROL_MASK);
  g_autofree char *saved = maker_read (bench->path);
  g_autoptr (JsonNode) root = json_from_string (saved, NULL);
  JsonObject *bail = json_object_get_object_member (json_node_get_object (root), "bail");
  assert_true (json_object_get_double_member (bail, "at_deg") == at_deg);
}

static void
a_bail_is_dragged_across_the_join (void **state)
{
  Bench *bench = *state;
  int was = first_row (bench);
  pull (bench, BW_BAIL_GRIP_BODY, 6, 0);
  pull (bench, BW_BAIL_GRIP_BODY, -11, 0);
  expect_moved (bench, was, -10);
}

static void
escape_puts_the_bail_back (void **state)
{
  Bench *bench = *state;
  GtkWidget *band = GTK_WIDGET (band_of (bench));
  double x, y;
  assert_true (bw_bail_band_grip_point (band_of (bench), BW_BAIL_GRIP_BODY, &x, &y));
  desk_move (band, x, y);
  desk_press (1);
  desk_move (band, x + 60, y);
  desk_move (band, x + 120, y);
  assert_true (bail_of (bench)->at_deg != 180);
  desk_key ("Escape", 0);
  desk_move (band, x + 150, y);
  desk_release (1);
  expect_document (bench, bench->before);
  assert_false (bw_project_can_undo (maker_project (&bench->maker)));
}

static void
its_edges_change_its_width_and_its_base (void **state)
{
  Bench *bench = *state;
  int columns = bail_of (bench)->columns;
  double base = bail_of (bench)->base_beads;
  pull (bench, BW_BAIL_GRIP_TOP, 0, 1);
  assert_int_equal (bail_of (bench)->columns, columns + 2);
  pull (bench, BW_BAIL_GRIP_RIGHT, 1, 0);
  assert_true (bail_of (bench)->base_beads == base + 2);
  desk_key ("z", GDK_CONTROL_MASK);
  desk_key ("z", GDK_CONTROL_MASK);
  expect_document (bench, bench->before);
}

static guint64
needed (Bench *bench, int colour)
{
  return bw_project_materials (maker_project (&bench->maker))->need[colour].count;
}

/* Saves, and reads the file as any other program would: of the bail's cells three have become the
 * colour c, and every other byte of meaning is as it was. */
static void
expect_three_beads_saved (Bench *bench)
{
  desk_key ("s", GDK_CONTROL_MASK);
  g_autofree char *saved = maker_read (bench->path);
  g_autoptr (JsonNode) before = json_from_string (bench->before, NULL);
  g_autoptr (JsonNode) after = json_from_string (saved, NULL);
  JsonObject *bail = json_object_get_object_member (json_node_get_object (after), "bail");
  JsonArray *cells = json_object_get_array_member (bail, "cells");
  /* The j-th letter of a row is its j-th bead from below. */
  assert_string_equal (json_array_get_string_element (cells, 4), "caa");
  assert_string_equal (json_array_get_string_element (cells, 5), "aca");
  assert_string_equal (json_array_get_string_element (cells, 6), "aca");
  json_object_remove_member (bail, "cells");
  json_object_remove_member (json_object_get_object_member (json_node_get_object (before), "bail"),
                             "cells");
  assert_true (json_node_equal (before, after));
  g_autoptr (BwProject) again = bw_project_load_data (saved, strlen (saved), NULL);
  assert_non_null (again);
  assert_true (bw_drawing_equal (bw_project_get_bail_drawing (maker_project (&bench->maker)),
                                 bw_project_get_bail_drawing (again)));
}

static void
three_beads_coloured_are_saved_and_bought (void **state)
{
  Bench *bench = *state;
  guint64 ground = needed (bench, 0), other = needed (bench, 2);
  bw_session_set_colour (maker_session (&bench->maker), 2);
  click_bead (bench, 5, 2, 1);
  click_bead (bench, 6, 3, 1);
  click_bead (bench, 7, 4, 1);
  assert_int_equal (cell (bench, 6, 3), 2);
  desk_keep ("hang-coloured");
  assert_int_equal (needed (bench, 0), ground - 3);
  assert_int_equal (needed (bench, 2), other + 3);
  expect_three_beads_saved (bench);
  for (int i = 0; i < 3; i++)
    desk_key ("z", GDK_CONTROL_MASK);
  expect_document (bench, bench->before);
}

static void
the_right_button_picks_a_colour_up (void **state)
{
  Bench *bench = *state;
  bw_session_set_colour (maker_session (&bench->maker), 2);
  click_bead (bench, 5, 2, 3);
  assert_int_equal (bw_session_get_colour (maker_session (&bench->maker)), 0);
  expect_document (bench, bench->before);
}

static void
the_bail_is_moved_by_keys_alone (void **state)
{
  Bench *bench = *state;
  int was = first_row (bench), columns = bail_of (bench)->columns;
  gtk_widget_grab_focus (GTK_WIDGET (band_of (bench)));
  desk_key ("Right", 0);
  desk_key ("Right", 0);
  desk_key ("Right", GDK_SHIFT_MASK);
  expect_moved (bench, was, 14);
  desk_key ("Up", 0);
  assert_int_equal (bail_of (bench)->columns, columns + 2);
  desk_key ("Escape", 0);
  assert_int_equal (bail_of (bench)->columns, columns);
  assert_string_equal (bw_project_undo_label (maker_project (&bench->maker)), "Move the bail");
  desk_key ("Home", 0);
  expect_moved (bench, was, 0);
  desk_key ("z", GDK_CONTROL_MASK);
  expect_moved (bench, was, 14);
  desk_key ("z", GDK_CONTROL_MASK);
  expect_document (bench, bench->before);
}

static void
three_beads_are_coloured_by_keys_alone (void **state)
{
  Bench *bench = *state;
  guint64 other = needed (bench, 2);
  gtk_widget_grab_focus (GTK_WIDGET (strip_of (bench)));
  desk_key ("c", 0);
  desk_key ("Home", 0);
  desk_key ("Right", 0);
  desk_key ("Right", 0);
  desk_key ("space", 0);
  desk_key ("Up", 0);
  desk_key ("space", 0);
  desk_key ("Right", 0);
  desk_key ("Down", 0);
  desk_key ("Right", 0);
  desk_key ("Up", 0);
  desk_key ("Up", 0);
  desk_key ("Left", 0);
  desk_key ("space", 0);
  desk_keep ("hang-keys");
  assert_int_equal (needed (bench, 2), other + 3);
  expect_three_beads_saved (bench);
}

static void
the_band_s_pattern_runs_on_over_the_bail (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  BwBailBase base = *bw_project_bail_base (maker_project (maker));
  int row = (int)base.first_row + 3, period = maker_design (maker)->band.rows;
  row = 1 + (row - 1 + period) % period;
  assert_true (bw_project_set_bead (maker_project (maker), "Bead", FALSE, row, base.margin + 2, 3));
  maker_reveal (GTK_WIDGET (strip_of (bench)));
  maker_click_words (GTK_WIDGET (maker->window), "As the band beneath");
  assert_int_equal (cell (bench, 3, 2), 3);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (cell (bench, 3, 2), 0);
}

static void
expect_told (gpointer widget, const char *words)
{
  assert_string_equal (bw_unrolled_get_told (BW_UNROLLED (widget)), words);
}

static void
a_painted_bead_of_the_bail_is_the_only_one_looked_at (void **state)
{
  Bench *bench = *state;
  BwProject *project = maker_project (&bench->maker);
  const BwBailBase *base = bw_project_bail_base (project);
  maker_reveal (GTK_WIDGET (strip_of (bench)));
  guint64 looked = bw_bail_strip_looked (strip_of (bench));
  assert_true (looked > 0);
  assert_true (bw_project_set_bead (project, "Bead", TRUE, 3, 2, 2));
  desk_settle ();
  assert_int_equal (bw_bail_strip_looked (strip_of (bench)), looked + 2); /* laid, and compared */
  /* One of the band far from the bail is none of its beads. */
  int far = bw_lattice_has (1, base->margin + 1) ? base->margin + 1 : base->margin + 2;
  int row = 1 + ((int)base->first_row + 40) / 2 * 2 % maker_design (&bench->maker)->band.rows;
  assert_true (bw_project_set_bead (project, "Bead", FALSE, row, far, 2));
  desk_settle ();
  assert_int_equal (bw_bail_strip_looked (strip_of (bench)), looked + 2);
}

static void
escape_takes_a_stroke_on_the_strip_back (void **state)
{
  Bench *bench = *state;
  GtkWidget *strip = GTK_WIDGET (strip_of (bench));
  double x, y, next, none;
  maker_reveal (strip);
  assert_true (bw_bail_strip_bead_point (strip_of (bench), 1, 2, &x, &y));
  assert_true (bw_bail_strip_bead_point (strip_of (bench), 5, 2, &next, &none));
  g_autofree char *before = bw_project_to_data (maker_project (&bench->maker), NULL);
  bw_session_set_colour (maker_session (&bench->maker), 2);
  desk_move (strip, x, y);
  desk_press (1);
  desk_move (strip, next, none);
  g_autofree char *drawn = bw_project_to_data (maker_project (&bench->maker), NULL);
  assert_string_not_equal (drawn, before);
  desk_key ("Escape", 0);
  desk_release (1);
  expect_document (bench, before);
}

static void
a_press_on_the_band_s_beads_in_the_strip_says_whose_they_are (void **state)
{
  Bench *bench = *state;
  double x, y, next, none;
  GtkWidget *strip = GTK_WIDGET (strip_of (bench));
  guint steps = bw_project_count_steps (maker_project (&bench->maker));
  maker_reveal (strip);
  assert_true (bw_bail_strip_bead_point (strip_of (bench), 1, 2, &x, &y));
  assert_true (bw_bail_strip_bead_point (strip_of (bench), 3, 2, &next, &none));
  desk_click_at (strip, x - 1.5 * (next - x), y, 1);
  expect_told (strip, "These beads are the band’s: draw on them at the Draw stage.");
  desk_click_at (strip, x - 1.5 * (next - x), y, 3);
  expect_told (strip, "These beads are the band’s: draw on them at the Draw stage.");
  desk_click_at (strip, gtk_widget_get_width (strip) / 2.0, gtk_widget_get_height (strip) - 2, 1);
  expect_told (strip, "There is no bead of the bail here.");
  assert_int_equal (bw_project_count_steps (maker_project (&bench->maker)), steps);
}

static void
a_step_beyond_the_bail_s_bounds_says_why (void **state)
{
  Bench *bench = *state;
  gtk_widget_grab_focus (GTK_WIDGET (band_of (bench)));
  for (int i = 0; i < 8; i++)
    desk_key ("Down", 0);
  assert_int_equal (bail_of (bench)->columns, 2);
  expect_told (band_of (bench), "A bail cannot be narrower than two columns.");
  for (int i = 0; i < 8; i++)
    desk_key ("Up", 0);
  expect_told (band_of (bench), "The bail is as wide as this band lets it be.");
}

static GtkWidget *
style_button (GtkWidget *card, const char *name)
{
  return gtk_widget_get_ancestor (desk_find_label (card, name), GTK_TYPE_TOGGLE_BUTTON);
}

static void
a_style_is_chosen_by_its_picture (void **state)
{
  Bench *bench = *state;
  GtkWidget *card = maker_find (&bench->maker, BW_TYPE_BAIL_CARD);
  assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (style_button (card, "flap"))));
  maker_reveal (style_button (card, "ring through a flap"));
  desk_keep ("bail-styles");
  desk_click (style_button (card, "ring through a flap"));
  desk_settle ();
  assert_int_equal (bail_of (bench)->style, BW_BAIL_RING);
  desk_key ("Left", 0);
  desk_key ("space", 0);
  desk_settle ();
  assert_int_equal (bail_of (bench)->style, BW_BAIL_UPRIGHT);
  desk_key ("z", GDK_CONTROL_MASK);
  desk_key ("z", GDK_CONTROL_MASK);
  desk_settle ();
  assert_int_equal (bail_of (bench)->style, BW_BAIL_FLAP);
  assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (style_button (card, "flap"))));
}

/* The stone hangs upright by it, the file says so, and what suits no other style goes with it. */
static void
a_loop_over_the_tip_is_chosen_dragged_and_left_again (void **state)
{
  Bench *bench = *state;
  GtkWidget *card = maker_find (&bench->maker, BW_TYPE_BAIL_CARD);
  maker_reveal (style_button (card, "loop over the tip"));
  desk_click (style_button (card, "loop over the tip"));
  desk_settle ();
  BwProject *project = maker_project (&bench->maker);
  const BwHang *hang = bw_project_hang (project);
  assert_int_equal (bail_of (bench)->style, BW_BAIL_OVER);
  assert_true (hang->loop.largest_cord_mm >= bail_of (bench)->cord_mm);
  assert_true (hang->up == BW_UP_TIP && hang->tilt_deg < 5);
  desk_keep ("loop-over-the-tip");
  double across = bail_of (bench)->base_beads;
  pull (bench, BW_BAIL_GRIP_RIGHT, -4, 0);
  assert_true (bail_of (bench)->base_beads < across - 5);
  assert_true (bw_project_hang (project)->tilt_deg > 5);
  maker_reveal (style_button (card, "flap"));
  desk_click (style_button (card, "flap"));
  desk_settle ();
  assert_int_equal (bail_of (bench)->style, BW_BAIL_FLAP);
  assert_true (bail_of (bench)->base_beads == 3 && bail_of (bench)->rows == 23);
}

static void
a_bail_that_this_band_cannot_have_says_why (void **state)
{
  Bench *bench = *state;
  BwDesign design = *maker_design (&bench->maker);
  design.band.columns = 2;
  design.bail.style = BW_BAIL_NONE;
  assert_true (bw_project_set_design (maker_project (&bench->maker), "Narrow", &design, NULL));
  desk_settle ();
  GtkWidget *card = maker_find (&bench->maker, BW_TYPE_BAIL_CARD);
  GtkWidget *style = style_button (card, "flap");
  maker_reveal (style);
  gtk_widget_grab_focus (style);
  desk_key ("space", 0);
  desk_settle ();
  assert_int_equal (bail_of (bench)->style, BW_BAIL_NONE);
  assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (style_button (card, "none"))));
  assert_non_null (desk_look_for_prefix (card, "A band of 2 columns is too narrow"));
  design.band.columns = 8;
  assert_true (bw_project_set_design (maker_project (&bench->maker), "Wide", &design, NULL));
  desk_settle ();
  assert_null (desk_look_for_prefix (card, "A band of 2 columns is too narrow"));
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_bail_dragged_is_one_step_and_the_file_says_where),
    IN_WINDOW (a_bail_is_dragged_across_the_join),
    IN_WINDOW (escape_puts_the_bail_back),
    IN_WINDOW (its_edges_change_its_width_and_its_base),
    IN_WINDOW (three_beads_coloured_are_saved_and_bought),
    IN_WINDOW (the_right_button_picks_a_colour_up),
    IN_WINDOW (a_style_is_chosen_by_its_picture),
    IN_WINDOW (a_loop_over_the_tip_is_chosen_dragged_and_left_again),
    IN_WINDOW (the_bail_is_moved_by_keys_alone),
    IN_WINDOW (three_beads_are_coloured_by_keys_alone),
    IN_WINDOW (the_band_s_pattern_runs_on_over_the_bail),
    IN_WINDOW (a_painted_bead_of_the_bail_is_the_only_one_looked_at),
    IN_WINDOW (escape_takes_a_stroke_on_the_strip_back),
    IN_WINDOW (a_press_on_the_band_s_beads_in_the_strip_says_whose_they_are),
    IN_WINDOW (a_step_beyond_the_bail_s_bounds_says_why),
    IN_WINDOW (a_bail_that_this_band_cannot_have_says_why),
  };
  return maker_run (tests);
}
