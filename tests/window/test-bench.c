/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole band woven beside the bench helper, by keys alone but for the numbers typed. */
#include "maker.h"

#include "app/bench/bench-page.h"
#include "app/bench/bench-needle.h"
#include "app/bench/bench-paper.h"
#include "app/bench/bench-steps.h"
#include "core/band/join.h"
#include "core/base/lattice.h"

#include <math.h>
#include <string.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef struct {
  Maker maker;
  char *path;
} Bench;

/* A slender stone, so that a whole band is soon woven. */
static void
make_slender (BwProject *project)
{
  BwDesign design = *bw_project_get_design (project);
  BwStone stone;
  for (int i = 0; i < BW_FACES_MAX; i++)
    design.stone.values_mm[i] *= 0.45;
  assert_true (bw_design_validate (&design, &stone, NULL));
  design.band.rows = 2 * bw_fit_recommended (&design, &stone);
  assert_true (bw_project_set_design (project, "Slender", &design, NULL));
}

/* Two colours in a repeat of six rows that no other length divides by chance. */
static void
make_striped (BwProject *project)
{
  BwTray tray = *bw_project_get_tray (project);
  tray.n_colours = 2;
  tray.colour[1] = tray.colour[0];
  tray.colour[1].id = 'x';
  tray.colour[1].srgb = 0xd9a441;
  g_strlcpy (tray.colour[1].name, "Lamp glass", sizeof tray.colour[1].name);
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
  const BwDesign *design = bw_project_get_design (project);
  for (int row = 1; row <= design->band.rows; row++)
    for (int j = 0; j < design->band.columns / 2; j++)
      if ((row + j) % 6 == 0 && row % 4 > 1)
        assert_true (
            bw_project_set_bead (project, "Stripe", FALSE, row, bw_lattice_column (row, j), 1));
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  make_slender (project);
  make_striped (project);
  bw_project_set_title (project, "Title", "Sea holly");
  bench->path = maker_save (project, "holly.bandwright");
  maker_start (&bench->maker, bench->path);
  desk_key ("F11", 0);
  desk_rest ();
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench->path);
  g_free (bench);
  return 0;
}

static BwProject *
project_of (Bench *bench)
{
  return maker_project (&bench->maker);
}

static int
rows_done (Bench *bench)
{
  return bw_project_get_rows_done (project_of (bench));
}

static int
rows_of (Bench *bench)
{
  return maker_design (&bench->maker)->band.rows;
}

static char *
document (Bench *bench)
{
  return bw_project_to_data (project_of (bench), NULL);
}

static GtkWidget *
page_of (Bench *bench)
{
  return maker_find (&bench->maker, BW_TYPE_BENCH_PAGE);
}

/* Any of the keys that move on, one after the other. */
static void
weave_to (Bench *bench, int row)
{
  static const char *const keys[] = { "space", "Right", "Next" };
  for (int i = 0; rows_done (bench) < row; i++) {
    int before = rows_done (bench);
    desk_key (keys[i % 3], 0);
    assert_int_equal (rows_done (bench), before == 0 ? 2 : before + 1);
    assert_int_equal (bw_session_get_woven (maker_session (&bench->maker)), rows_done (bench));
  }
}

/* The strip's length when beads follow each other by pitch_mm. */
static double
length_at (Bench *bench, double pitch_mm)
{
  return round ((rows_done (bench) + 1) / 2.0 * pitch_mm * 100) / 100;
}

/* Opens the dialog on a length. */
static void
type_length (Bench *bench, double length_mm)
{
  char text[32];
  g_snprintf (text, sizeof text, "%.2f", length_mm);
  desk_key ("m", 0);
  desk_rest ();
  desk_type (text);
  desk_key ("Return", 0);
  maker_dialog (&bench->maker);
}

/* The n-th drop-down of the dialog that is mapped, reached with Tab, is moved down by `steps`. */
static void
choose (GtkWindow *dialog, GtkDropDown *drop_down, int steps)
{
  for (int i = 0; i < 12; i++) {
    GtkWidget *focus = gtk_window_get_focus (dialog);
    if (focus && gtk_widget_is_ancestor (focus, GTK_WIDGET (drop_down)))
      break;
    desk_key ("Tab", 0);
  }
  desk_key ("space", 0);
  desk_rest ();
  for (int i = 0; i < steps; i++)
    desk_key ("Down", 0);
  desk_key ("Return", 0);
  desk_rest ();
  assert_int_equal (gtk_drop_down_get_selected (drop_down), steps);
}

static gboolean
is_refit (GtkWidget *widget, gconstpointer data)
{
  if (!GTK_IS_DROP_DOWN (widget))
    return FALSE;
  GListModel *model = gtk_drop_down_get_model (GTK_DROP_DOWN (widget));
  return g_list_model_get_n_items (model) == BW_N_REFITS
         && g_str_has_prefix (gtk_string_list_get_string (GTK_STRING_LIST (model), 0), "go on");
}

/* Takes the first choice, with the drawing fitted so, from the keyboard. */
static void
take (Bench *bench, BwRefit how)
{
  GtkWindow *dialog = maker_dialog (&bench->maker);
  GtkWidget *refit = desk_look_for (GTK_WIDGET (dialog), is_refit, NULL);
  if (how != BW_REFIT_REPEAT) {
    assert_non_null (refit);
    choose (dialog, GTK_DROP_DOWN (refit), (int)how);
  }
  desk_keep ("bench-check");
  desk_key ("t", GDK_ALT_MASK);
  maker_no_dialog (&bench->maker);
  desk_rest ();
}

/* What the core says of such a length: the design as it would be believed, and its forecast. */
static int
recommended_with (Bench *bench, double length_mm)
{
  BwDesign after;
  assert_true (bw_bench_try_note (project_of (bench), length_mm, &after, NULL));
  return 2 * bw_fit_recommended (&after, bw_project_stone (project_of (bench)));
}

/* One strip check at the row in hand: rows and drawing come out exactly as the core has them, and
 * it is one step. */
static void
check_strip (Bench *bench, double pitch_mm, BwRefit how)
{
  BwProject *project = project_of (bench);
  double length = length_at (bench, pitch_mm);
  int rows = recommended_with (bench, length), done = rows_done (bench);
  g_autoptr (BwDrawing) fitted = bw_refit (bw_project_get_drawing (project), rows, done, how);
  g_autofree char *before = document (bench);
  type_length (bench, length);
  take (bench, how);
  assert_int_equal (rows_of (bench), rows);
  assert_true (bw_drawing_equal (bw_project_get_drawing (project), fitted));
  assert_int_equal (rows_done (bench), done);
  g_autofree char *after = document (bench);
  desk_key ("z", GDK_CONTROL_MASK);
  g_autofree char *undone = document (bench);
  assert_string_equal (undone, before);
  desk_key ("z", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  g_autofree char *redone = document (bench);
  assert_string_equal (redone, after);
}

static gboolean
has_words (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
         && strstr (gtk_label_get_text (GTK_LABEL (widget)), words);
}

static void
expect_words (Bench *bench, const char *words)
{
  if (!desk_look_for (page_of (bench), has_words, words))
    fail_msg ("not told at the bench: %s", words);
}

/* What each step of the join says; the last words are those of the anchors, which may be several
 * passes. */
static const char *
join_words (int step)
{
  static const char *const words[] = { "Take the stopper bead off now.", "Zip: bend the strip",
                                       "Return: turn and pass back", "Anchor: to hold the join" };
  return words[MIN (step, 4) - 1];
}

/* From the last row of the band on, through every step of the join. */
static void
join_the_ends (Bench *bench)
{
  int steps = bw_bench_join_steps (project_of (bench));
  assert_true (steps >= 4);
  for (int step = 1; step <= steps; step++) {
    g_autofree char *title = g_strdup_printf ("Join, %d of %d: ", step, steps);
    assert_non_null (desk_look_for_prefix (page_of (bench), title));
    expect_words (bench, join_words (step));
    desk_key ("space", 0);
    desk_settle ();
    assert_int_equal (bw_project_get_join_done (project_of (bench)), step);
  }
}

static void
a_band_is_woven_with_two_strip_checks (void **state)
{
  Bench *bench = *state;
  int n, planned = rows_of (bench);
  double pitch = maker_design (&bench->maker)->gauge.pitch_mm * 1.08;
  assert_non_null (desk_look_for_prefix (page_of (bench), "Pick-up, rows 1 and 2 of "));
  weave_to (bench, 20);
  desk_keep ("bench-row");
  check_strip (bench, pitch, BW_REFIT_REPEAT);
  assert_true (rows_of (bench) < planned);
  weave_to (bench, 30);
  check_strip (bench, pitch, BW_REFIT_REPEAT);
  const BwCheck *checks = bw_project_get_checks (project_of (bench), &n);
  assert_int_equal (n, 2);
  assert_int_equal (checks[0].rows, 20);
  assert_int_equal (checks[1].rows, 30);
  assert_true (fabs (maker_design (&bench->maker)->pitch.mm - pitch) < 0.03 * pitch);
  weave_to (bench, rows_of (bench));
  join_the_ends (bench);
  desk_key ("space", 0);
  assert_int_equal (rows_done (bench), rows_of (bench));
  assert_non_null (desk_look_for_prefix (page_of (bench), "All "));
  desk_keep ("bench-end");
  for (int step = bw_project_get_join_done (project_of (bench)); step > 0; step--) {
    desk_key ("Left", 0);
    assert_int_equal (bw_project_get_join_done (project_of (bench)), step - 1);
  }
  for (int row = rows_of (bench); row > 0; row = row == 2 ? 0 : row - 1) {
    assert_int_equal (rows_done (bench), row);
    desk_key ("Left", 0);
  }
  assert_int_equal (rows_done (bench), 0);
}

/* A tighter hand wants more rows, a looser one fewer; each choice fits the drawing its own way. */
static void
the_drawing_is_fitted_as_the_maker_chooses (void **state)
{
  Bench *bench = *state;
  double pitch = maker_design (&bench->maker)->gauge.pitch_mm;
  weave_to (bench, 12);
  for (BwRefit how = BW_REFIT_REPEAT; how < BW_N_REFITS; how++) {
    int planned = rows_of (bench);
    check_strip (bench, pitch * 0.88, how);
    assert_true (rows_of (bench) > planned);
    desk_key ("z", GDK_CONTROL_MASK);
    check_strip (bench, pitch * 1.15, how);
    assert_true (rows_of (bench) < planned);
    desk_key ("z", GDK_CONTROL_MASK);
    assert_int_equal (rows_of (bench), planned);
  }
}

/* Ten times what was meant: nobody's beads lie so far apart, and no Enter too many takes it. */
static void
a_strip_length_that_cannot_be_is_asked_about (void **state)
{
  Bench *bench = *state;
  weave_to (bench, 10);
  int rows = rows_of (bench);
  double length = round (10 * length_at (bench, maker_design (&bench->maker)->pitch.mm)) / 10;
  g_autofree char *before = document (bench);
  type_length (bench, 10 * length);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (&bench->maker));
  assert_non_null (desk_look_for_prefix (dialog, "That is hard to believe: with 10 rows on "));
  assert_null (gtk_window_get_default_widget (GTK_WINDOW (dialog)));
  desk_keep ("bench-check-doubt");
  desk_key ("Return", 0);
  maker_no_dialog (&bench->maker);
  g_autofree char *after = document (bench);
  assert_string_equal (after, before);
  type_length (bench, 10 * length);
  dialog = GTK_WIDGET (maker_dialog (&bench->maker));
  GtkWidget *meant = desk_look_for_prefix (dialog, "I Meant ");
  assert_non_null (meant);
  desk_click (meant);
  desk_rest ();
  dialog = GTK_WIDGET (maker_dialog (&bench->maker));
  assert_non_null (desk_look_for_prefix (dialog, "After row 10 the strip measures "));
  take (bench, BW_REFIT_REPEAT);
  assert_true (abs (rows_of (bench) - rows) <= 4);
}

static gboolean
is_broken_join (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LABEL (widget)
         && g_str_has_suffix (gtk_label_get_text (GTK_LABEL (widget)), "it breaks at the join.");
}

/* The stripes repeat every twelve rows; what is chosen says whether they go on across the join. */
static void
a_pattern_that_would_break_at_the_join_is_told_before_it_is_taken (void **state)
{
  Bench *bench = *state;
  weave_to (bench, 12);
  double pitch = maker_design (&bench->maker)->gauge.pitch_mm;
  int broken = 0, whole = 0;
  for (double factor = 0.88; factor < 1.2; factor += 0.04) {
    double length = length_at (bench, pitch * factor);
    int rows = recommended_with (bench, length);
    g_autoptr (BwDrawing) fitted = bw_refit (bw_project_get_drawing (project_of (bench)), rows,
                                             rows_done (bench), BW_REFIT_REPEAT);
    int repeat = bw_join_repeat (fitted);
    /* Where the rows stay as they are nothing is taken. */
    gboolean breaks = rows != rows_of (bench) && repeat > 0 && rows % repeat != 0;
    type_length (bench, length);
    GtkWidget *dialog = GTK_WIDGET (maker_dialog (&bench->maker));
    desk_rest ();
    assert_int_equal (desk_look_for (dialog, is_broken_join, NULL) != NULL, breaks);
    broken += breaks;
    whole += !breaks;
    desk_key ("Escape", 0);
    maker_no_dialog (&bench->maker);
  }
  assert_true (broken > 0 && whole > 0);
}

static gboolean
tells_of_picking_out (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LABEL (widget)
         && strstr (gtk_label_get_text (GTK_LABEL (widget)), "woven rows are picked out");
}

/* Beads that lie fifty times too far apart go round in fewer rows than are woven. */
static void
fewer_rows_than_are_woven_are_told_as_such (void **state)
{
  Bench *bench = *state;
  weave_to (bench, 20);
  type_length (bench, 800);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (&bench->maker));
  assert_non_null (desk_look_for (dialog, tells_of_picking_out, NULL));
  desk_key ("Escape", 0);
  maker_no_dialog (&bench->maker);
}

static gboolean
is_canvas (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_BAND_CANVAS (widget);
}

static gboolean
is_rows (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_SCROLLED_WINDOW (widget)
         && gtk_widget_get_ancestor (widget, BW_TYPE_BENCH_PAGE) != NULL;
}

/* As wide and as high as a small screen, and row after row: the band lies wholly in view, or there
 * is none. */
static void
the_band_is_shown_whole_or_not_at_all (void **state)
{
  static const int heights[] = { 600, 700, 850 };
  Bench *bench = *state;
  gboolean shown = FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (heights); i++) {
    gtk_window_set_default_size (GTK_WINDOW (bench->maker.window), 900, heights[i]);
    desk_settle ();
    for (int row = 0; row < 4; row++) {
      GtkWidget *rows = desk_look_for (page_of (bench), is_rows, NULL);
      GtkWidget *band = desk_look_for (page_of (bench), is_canvas, NULL);
      graphene_rect_t place;
      assert_non_null (rows);
      if (band) {
        shown = TRUE;
        assert_true (gtk_widget_compute_bounds (band, rows, &place));
        assert_true (place.origin.y >= -1);
        assert_true (place.origin.y + place.size.height <= (float)gtk_widget_get_height (rows) + 1);
      }
      desk_key ("space", 0);
      desk_settle ();
    }
  }
  assert_true (shown);
}

static BwBenchNeedle *
needle_of (Bench *bench)
{
  return BW_BENCH_NEEDLE (maker_find (&bench->maker, BW_TYPE_BENCH_NEEDLE));
}

/* What is drawn is the row in hand, on the side that the needle comes from. */
static void
expect_on_the_needle (Bench *bench, gboolean in_bail, int row)
{
  gboolean upward;
  g_autoptr (GArray) beads = bw_needle_beads (project_of (bench), in_bail, row, &upward);
  const GArray *drawn = bw_bench_needle_get_beads (needle_of (bench));
  const BwNeedleLayout *layout = bw_bench_needle_get_layout (needle_of (bench));
  assert_int_equal (drawn->len, beads->len);
  assert_memory_equal (drawn->data, beads->data, beads->len * sizeof (BwNeedleBead));
  assert_int_equal (layout->upward, upward);
  assert_int_equal (layout->places->len, beads->len);
  assert_true (layout->width <= gtk_widget_get_width (GTK_WIDGET (needle_of (bench))));
}

static void
the_row_in_hand_is_on_the_needle (void **state)
{
  Bench *bench = *state;
  expect_on_the_needle (bench, FALSE, 1);
  for (int row = 2; row < 12; row++) {
    desk_key ("space", 0);
    desk_settle ();
    expect_on_the_needle (bench, FALSE, row + 1);
  }
}

/* The longest notes are at the third row and where the strip is tried on. */
static void
the_band_does_not_give_way_to_long_notes (void **state)
{
  Bench *bench = *state;
  int due = bw_project_forecast (project_of (bench))->try_on_row;
  const int rows[] = { 2, due };
  gtk_window_set_default_size (GTK_WINDOW (bench->maker.window), 900, 600);
  desk_settle ();
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    assert_true (bw_project_set_progress (project_of (bench), "", rows[i], NULL, 0, NULL));
    desk_rest ();
    GtkWidget *page = page_of (bench);
    assert_non_null (desk_look_for_prefix (page, i == 0 ? "Row 3 turns back" : "Try on: "));
    GtkWidget *band = desk_look_for (page, is_canvas, NULL);
    GtkWidget *needle = GTK_WIDGET (needle_of (bench));
    assert_non_null (band);
    assert_true (gtk_widget_get_height (band) >= 120);
    assert_true (gtk_widget_get_height (needle) > 60);
    desk_keep (i == 0 ? "bench-long-note" : "bench-longest-note");
  }
}

static void
give_bail (BwProject *project)
{
  BwDesign design = *bw_project_get_design (project);
  design.bail = (BwBail){ .style = BW_BAIL_FLAP,
                          .columns = 4,
                          .rows = 9,
                          .base_beads = 2,
                          .at_deg = 180,
                          .cord_mm = 0.5,
                          .clearance_mm = 0.1 };
  g_autoptr (GError) error = NULL;
  if (!bw_project_set_design (project, "Bail", &design, &error))
    fail_msg ("%s", error->message);
}

/* After the last row the bail is woven row by row, and back again. */
static void
the_bail_is_woven_after_the_band (void **state)
{
  Bench *bench = *state;
  BwProject *project = project_of (bench);
  give_bail (project);
  int rows = rows_of (bench), bail = maker_design (&bench->maker)->bail.rows;
  assert_true (bw_project_set_progress (project, "", rows, NULL, 0, NULL));
  desk_rest ();
  join_the_ends (bench);
  assert_non_null (desk_look_for_prefix (page_of (bench), "Bail, row 1 of "));
  for (int row = 1; row <= bail; row++) {
    expect_on_the_needle (bench, TRUE, row);
    assert_int_equal (bw_project_get_bail_rows_done (project), row - 1);
    if (row == 2)
      desk_keep ("bench-bail");
    desk_key ("space", 0);
    desk_settle ();
  }
  assert_non_null (desk_look_for_prefix (page_of (bench), "All "));
  desk_key ("space", 0);
  assert_int_equal (bw_project_get_bail_rows_done (project), bail);
  g_autofree char *data = document (bench);
  g_autoptr (BwProject) again = bw_project_load_data (data, strlen (data), NULL);
  assert_int_equal (bw_project_get_bail_rows_done (again), bail);
  for (int row = bail; row > 0; row--) {
    assert_int_equal (bw_project_get_bail_rows_done (project), row);
    desk_key ("Left", 0);
  }
  expect_words (bench, "Bail, row 1 of ");
  for (int step = bw_bench_join_steps (project); step > 0; step--) {
    desk_key ("Left", 0);
    desk_settle ();
    expect_words (bench, join_words (step));
  }
  desk_key ("Left", 0);
  assert_int_equal (rows_done (bench), rows - 1);
}

static gboolean
is_of_type (GtkWidget *widget, gconstpointer type)
{
  return g_type_is_a (G_OBJECT_TYPE (widget), *(const GType *)type);
}

static gboolean
shows (Bench *bench, GType type)
{
  return desk_look_for (page_of (bench), is_of_type, &type) != NULL;
}

/* Where a pass of the join is in hand it is drawn as on the work sheet; before that, the band is.
 */
static void
the_join_is_a_step_with_its_own_drawing (void **state)
{
  Bench *bench = *state;
  BwProject *project = project_of (bench);
  give_bail (project);
  assert_true (bw_project_set_progress (project, "", rows_of (bench), NULL, 0, NULL));
  desk_settle ();
  for (int step = 1; step <= bw_bench_join_steps (project); step++) {
    g_autofree char *picture = g_strdup_printf ("bench-join-%d", step);
    assert_int_equal (shows (bench, BW_TYPE_BENCH_PAPER), step > 1);
    assert_false (shows (bench, BW_TYPE_BENCH_NEEDLE));
    desk_keep (picture);
    desk_key ("space", 0);
    desk_settle ();
  }
  assert_true (shows (bench, BW_TYPE_BENCH_NEEDLE));
}

/* What is seen of the bail's chart. */
typedef struct {
  int height; /* of the paper, which notes leave more or less of */
  int framed; /* pixels of the frame */
  double at;  /* their middle, from the left of the screen */
  int dark;   /* pixels of beads that are not veiled */
} Chart;

/* Dark beads and a red frame on white paper. */
static Chart
look_at_chart (Bench *bench)
{
  GtkWidget *paper = maker_find (&bench->maker, BW_TYPE_BENCH_PAPER);
  cairo_surface_t *screen = desk_picture ();
  const unsigned char *data = cairo_image_surface_get_data (screen);
  int stride = cairo_image_surface_get_stride (screen), x0, y0, x1, y1;
  Chart seen = { .height = gtk_widget_get_height (paper) };
  desk_point (paper, 0, 0, &x0, &y0);
  desk_point (paper, gtk_widget_get_width (paper) - 1, gtk_widget_get_height (paper) - 1, &x1, &y1);
  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++) {
      const unsigned char *pixel = data + y * stride + 4 * x;
      gboolean framed = pixel[2] > 140 && pixel[1] < 90 && pixel[0] < 90;
      seen.framed += framed;
      seen.at += framed ? x : 0;
      seen.dark += !framed && pixel[0] < 120 && pixel[1] < 120 && pixel[2] < 120;
    }
  seen.at /= MAX (seen.framed, 1);
  cairo_surface_destroy (screen);
  return seen;
}

/* Beside the picture, or where there is no room for words, in its tip. */
static void
expect_legend (Bench *bench, GType picture, const char *words)
{
  GtkWidget *shown = desk_look_for (page_of (bench), is_of_type, &picture);
  assert_non_null (shown);
  const char *tip = gtk_widget_get_tooltip_text (gtk_widget_get_parent (shown));
  if (!tip || !g_str_has_prefix (tip, words))
    expect_words (bench, words);
}

static void
reach_the_bail (Bench *bench)
{
  BwProject *project = project_of (bench);
  give_bail (project);
  assert_true (bw_project_set_progress (project, "", rows_of (bench), NULL, 0, NULL));
  assert_true (
      bw_project_set_join_done (project, "", bw_bench_join_steps (project_of (bench)), NULL));
  desk_settle ();
}

/* At the bail its own chart is drawn: a row more is pale, and the frame has moved on. */
static void
the_bail_is_drawn_with_the_row_in_hand_framed (void **state)
{
  Bench *bench = *state;
  reach_the_bail (bench);
  int rows = maker_design (&bench->maker)->bail.rows;
  Chart before = { 0 };
  int compared = 0;
  for (int row = 1; row <= rows; row++) {
    g_autofree char *left = row < rows
                                ? g_strdup_printf ("%d rows of the bail to go.", rows - row + 1)
                                : g_strdup ("1 row of the bail to go.");
    assert_false (shows (bench, BW_TYPE_BAND_CANVAS));
    desk_keep (row < 2 ? "bench-bail-first" : "bench-bail-chart");
    expect_words (bench, left);
    expect_legend (bench, BW_TYPE_BENCH_PAPER, "Pale beads are woven, framed ones are the row");
    Chart now = look_at_chart (bench);
    assert_true (now.framed > 100);
    if (row > 1 && now.height == before.height) {
      assert_true (now.at > before.at + 3 && now.dark < before.dark);
      compared++;
    }
    before = now;
    desk_key ("space", 0);
    desk_settle ();
  }
  assert_true (compared > rows / 2);
  assert_true (shows (bench, BW_TYPE_BAND_CANVAS));
}

/* The words, or where there is no room for them the tip, say which rows are which. */
static void
pale_and_faint_rows_are_told (void **state)
{
  Bench *bench = *state;
  const char *told = "Pale beads are woven. Towards the sides the same rows";
  weave_to (bench, 10);
  expect_words (bench, told);
  gtk_window_set_default_size (GTK_WINDOW (bench->maker.window), 900, 600);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 144 * 1024, NULL);
  desk_settle ();
  gtk_settings_reset_property (gtk_settings_get_default (), "gtk-xft-dpi");
  GtkWidget *band = desk_look_for (page_of (bench), is_canvas, NULL);
  assert_null (desk_look_for (page_of (bench), has_words, told));
  if (band)
    expect_legend (bench, BW_TYPE_BAND_CANVAS, told);
}

/* The colour in the middle of a bead of the tenth row, on Draw. */
static guint32
colour_on_draw (Bench *bench, int done)
{
  double x, y;
  assert_true (bw_project_set_progress (project_of (bench), "", done, NULL, 0, NULL));
  desk_settle ();
  BwBandCanvas *canvas = BW_BAND_CANVAS (maker_find (&bench->maker, BW_TYPE_BAND_CANVAS));
  bw_band_canvas_roll_to (canvas, 5);
  desk_settle ();
  assert_true (bw_band_canvas_bead_point (canvas, 10, 1, &x, &y));
  return desk_pixel (GTK_WIDGET (canvas), x + 3, y + 3);
}

/* From the tenth row to the last the veil is the same. */
static void
rows_that_are_woven_stay_veiled_once_all_are (void **state)
{
  Bench *bench = *state;
  desk_key ("2", GDK_CONTROL_MASK);
  desk_settle ();
  guint32 bare = colour_on_draw (bench, 0), veiled = colour_on_draw (bench, 12);
  assert_int_not_equal (bare, veiled);
  assert_int_equal (colour_on_draw (bench, rows_of (bench)), veiled);
}

/* Left from the pop-up, reached with Tab, or after Back was pressed with the mouse. */
static void
neither_space_nor_return_takes_a_row_back (void **state)
{
  Bench *bench = *state;
  weave_to (bench, 10);
  GtkWidget *back = desk_look_for_prefix (page_of (bench), "Back");
  assert_non_null (back);
  GtkWidget *button = gtk_widget_get_ancestor (back, GTK_TYPE_BUTTON);
  assert_non_null (button);
  desk_click (button);
  assert_int_equal (rows_done (bench), 9);
  desk_key ("Return", 0);
  assert_true (rows_done (bench) >= 9);
  desk_key ("space", 0);
  int rows = rows_done (bench);
  for (int i = 0; i < 8; i++) {
    GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (bench->maker.window));
    assert_ptr_not_equal (focus, button);
    desk_key ("Tab", 0);
  }
  gtk_widget_grab_focus (page_of (bench));
  desk_key ("m", 0);
  desk_rest ();
  desk_key ("Escape", 0);
  desk_rest ();
  desk_key ("Escape", 0);
  desk_rest ();
  assert_null (desk_look_for_prefix (GTK_WIDGET (bench->maker.window), "Next row: Space"));
  desk_key ("space", 0);
  desk_settle ();
  assert_true (rows_done (bench) >= rows);
}

/* Saved between two steps of the join, the piece is taken up again at the second of them. */
static void
a_join_half_done_is_in_the_file (void **state)
{
  Bench *bench = *state;
  assert_true (bw_project_set_progress (project_of (bench), "", rows_of (bench), NULL, 0, NULL));
  desk_settle ();
  desk_key ("space", 0);
  desk_key ("space", 0);
  g_autofree char *data = document (bench);
  g_autoptr (BwProject) again = bw_project_load_data (data, strlen (data), NULL);
  assert_int_equal (bw_bench_step (again).join, 3);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (bw_bench_step (project_of (bench)).join, 2);
}

/* On a small screen with large words what there is to do is scrolled to, line by whole line. */
static void
long_words_of_the_join_are_scrolled_by_the_arrow_keys (void **state)
{
  Bench *bench = *state;
  assert_true (bw_project_set_progress (project_of (bench), "", rows_of (bench), NULL, 0, NULL));
  gtk_window_set_default_size (GTK_WINDOW (bench->maker.window), 900, 600);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  desk_settle ();
  GtkWidget *note = desk_look_for (page_of (bench), has_words, "Take the stopper bead off now.");
  assert_non_null (note);
  GtkWidget *noted = gtk_widget_get_ancestor (note, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *at = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (noted));
  double before = gtk_adjustment_get_value (at);
  desk_keep ("bench-join-large");
  assert_true (gtk_adjustment_get_upper (at) > gtk_adjustment_get_page_size (at));
  desk_key ("Down", 0);
  assert_true (gtk_adjustment_get_value (at) > before);
  desk_key ("Up", 0);
  assert_true (gtk_adjustment_get_value (at) <= before);
  assert_int_equal (bw_project_get_join_done (project_of (bench)), 0);
  gtk_settings_reset_property (gtk_settings_get_default (), "gtk-xft-dpi");
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_band_is_woven_with_two_strip_checks),
    IN_WINDOW (the_drawing_is_fitted_as_the_maker_chooses),
    IN_WINDOW (a_strip_length_that_cannot_be_is_asked_about),
    IN_WINDOW (a_pattern_that_would_break_at_the_join_is_told_before_it_is_taken),
    IN_WINDOW (fewer_rows_than_are_woven_are_told_as_such),
    IN_WINDOW (the_band_is_shown_whole_or_not_at_all),
    IN_WINDOW (the_row_in_hand_is_on_the_needle),
    IN_WINDOW (the_band_does_not_give_way_to_long_notes),
    IN_WINDOW (the_bail_is_woven_after_the_band),
    IN_WINDOW (the_join_is_a_step_with_its_own_drawing),
    IN_WINDOW (a_join_half_done_is_in_the_file),
    IN_WINDOW (neither_space_nor_return_takes_a_row_back),
    IN_WINDOW (the_bail_is_drawn_with_the_row_in_hand_framed),
    IN_WINDOW (pale_and_faint_rows_are_told),
    IN_WINDOW (rows_that_are_woven_stay_veiled_once_all_are),
    IN_WINDOW (long_words_of_the_join_are_scrolled_by_the_arrow_keys),
  };
  return maker_run (tests);
}
