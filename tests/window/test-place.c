/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The place at the bench: shown on band and stone, kept through closing and a crash, read aloud;
 * and what a try-on does to it. */
#include "maker.h"

#include "app/bench/bench-check.h"
#include "app/bench/bench-page.h"
#include "app/bench/bench-steps.h"
#include "app/kit/settings.h"
#include "core/base/lattice.h"
#include "output/report/fit-told.h"
#include "preview/scene/scene.h"
#include "preview/view/stone-view.h"
#include "preview/scene/scene-bead.h"

#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

#define PLACE 9 /* rows woven before the lid is closed */

typedef struct {
  Maker maker;
  char *path;
} Bench;

static char *
save_holly (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "Sea holly");
  return maker_save (project, "holly.bandwright");
}

static void
open_helper (Maker *maker)
{
  desk_key ("F11", 0);
  desk_rest ();
  maker_find (maker, BW_TYPE_BENCH_PAGE);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->path = save_holly ();
  maker_start (&bench->maker, bench->path);
  open_helper (&bench->maker);
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

static int
rows_done (Maker *maker)
{
  return bw_project_get_rows_done (maker_project (maker));
}

static void
weave_to (Maker *maker, int row)
{
  while (rows_done (maker) < row)
    desk_key ("space", 0);
}

static gboolean
shows (Maker *maker, const char *beginning)
{
  GtkWidget *page = maker_find (maker, BW_TYPE_BENCH_PAGE);
  return desk_look_for_prefix (page, beginning) != NULL;
}

/* The band is seen from edge to edge, with the row in hand in its middle. */
static void
expect_whole_band (Maker *maker)
{
  GtkWidget *canvas = maker_find (maker, BW_TYPE_BAND_CANVAS);
  int row = rows_done (maker) + 1, columns = maker_design (maker)->band.columns;
  double x, low, high;
  maker_bead_point (maker, row, bw_lattice_column (row, 0), &x, &low);
  maker_bead_point (maker, row, bw_lattice_column (row, columns / 2 - 1), &x, &high);
  assert_true (high > 0 && low > high && low < gtk_widget_get_height (canvas));
  assert_true (fabs (x - gtk_widget_get_width (canvas) / 2.0) < 60);
}

static void
expect_place (Maker *maker)
{
  assert_int_equal (rows_done (maker), PLACE);
  assert_int_equal (bw_session_get_woven (maker_session (maker)), PLACE);
  assert_true (shows (maker, "Row 10 of "));
  expect_whole_band (maker);
}

static gboolean
is_closed (gpointer data)
{
  return ((Maker *)data)->window == NULL;
}

static void
the_place_survives_closing (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  weave_to (maker, PLACE);
  expect_place (maker);
  desk_key ("Escape", 0);
  desk_rest ();
  assert_int_equal (bw_session_get_woven (maker_session (maker)), 0);
  desk_key ("s", GDK_CONTROL_MASK);
  desk_key ("q", GDK_CONTROL_MASK);
  desk_until (is_closed, maker);
  maker_start (maker, bench->path);
  open_helper (maker);
  expect_place (maker);
}

/* A page turner is not to be found dead because the stone was turned. */
static void
the_next_row_is_a_key_away_whatever_was_clicked (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *stone = maker_find (maker, BW_TYPE_STONE_VIEW);
  double turn = bw_session_get_camera (maker_session (maker)).turn_deg;
  desk_click (stone);
  gtk_widget_grab_focus (stone);
  desk_key ("Right", 0);
  assert_int_equal (rows_done (maker), 0);
  assert_true (fabs (bw_session_get_camera (maker_session (maker)).turn_deg - turn) > 1);
  desk_key ("Next", 0);
  assert_int_equal (rows_done (maker), 2);
  desk_key ("space", 0);
  assert_int_equal (rows_done (maker), 3);
  desk_key ("Prior", 0);
  assert_int_equal (rows_done (maker), 2);
  desk_key ("Escape", 0);
  desk_rest ();
  desk_key ("Next", 0);
  assert_int_equal (rows_done (maker), 2);
}

/* --- What is woven recedes ---------------------------------------------------------------------
 */

static guint32
colour_of (Maker *maker, int row, int column)
{
  double x, y;
  maker_bead_point (maker, row, column, &x, &y);
  return desk_pixel (maker_find (maker, BW_TYPE_BAND_CANVAS), x, y);
}

static int
apart (guint32 a, guint32 b)
{
  int most = 0;
  for (int shift = 0; shift <= 16; shift += 8)
    most = MAX (most, abs ((int)(a >> shift & 0xff) - (int)(b >> shift & 0xff)));
  return most;
}

/* A bead is told by its own colour before and after: faces of the stone shade the band. */
static void
woven_rows_are_veiled_on_the_band (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  weave_to (maker, 6);
  guint32 seventh = colour_of (maker, 7, 6), fifteenth = colour_of (maker, 15, 6);
  assert_true (apart (colour_of (maker, 5, 6), seventh) > 60);
  weave_to (maker, 7);
  assert_true (apart (colour_of (maker, 7, 6), seventh) > 60);
  assert_true (apart (colour_of (maker, 15, 6), fifteenth) < 20);
  desk_key ("Left", 0);
  assert_true (apart (colour_of (maker, 7, 6), seventh) < 20);
}

static double
brightness (const BwSceneBead *bead)
{
  float light[3];
  bw_bead_light (bead, light);
  return (double)(light[0] + light[1] + light[2]);
}

static void
woven_rows_are_dark_in_the_scene (void **state)
{
  Bench *bench = *state;
  BwProject *project = maker_project (&bench->maker);
  BwScene *plain = bw_scene_new (project, FALSE), *dimmed = bw_scene_new (project, FALSE);
  dimmed->woven = PLACE;
  bw_scene_recolour (dimmed, project, FALSE, NULL);
  for (guint i = 0; i < plain->beads->len; i++) {
    const BwSceneBead *a = &g_array_index (plain->beads, BwSceneBead, i);
    const BwSceneBead *b = &g_array_index (dimmed->beads, BwSceneBead, i);
    BwBeadOf of = bw_scene_bead_of (plain, (int)i);
    if (!of.in_bail && of.row <= PLACE)
      assert_true (brightness (b) < 0.8 * brightness (a));
    else
      assert_memory_equal (a->srgb, b->srgb, sizeof a->srgb);
  }
  bw_scene_free (plain);
  bw_scene_free (dimmed);
}

/* The mean of all channels of what a widget shows on the screen. */
static double
mean_of (GtkWidget *widget)
{
  int x0, y0, width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  cairo_surface_t *surface = desk_picture ();
  const guchar *pixels = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  double sum = 0;
  desk_point (widget, 0, 0, &x0, &y0);
  for (int y = y0; y < y0 + height; y++)
    for (int x = x0; x < x0 + width; x++)
      sum += pixels[y * stride + 4 * x] + pixels[y * stride + 4 * x + 1]
             + pixels[y * stride + 4 * x + 2];
  cairo_surface_destroy (surface);
  return sum / (3.0 * width * height);
}

/* The same view of the stone with ever more rows woven. */
static void
woven_rows_are_dark_on_the_stone (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *stone = maker_find (maker, BW_TYPE_STONE_VIEW);
  int rows = maker_design (maker)->band.rows;
  double before = INFINITY;
  for (int woven = 0; woven <= rows; woven += rows / 2) {
    bw_session_set_woven (maker_session (maker), woven);
    desk_rest ();
    double now = mean_of (stone);
    assert_true (now < before - 0.2);
    before = now;
  }
  bw_session_set_woven (maker_session (maker), rows_done (maker));
}

/* --- How long a row takes ----------------------------------------------------------------------
 */

static void
the_hands_are_remembered_and_leafing_through_is_not (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_object_set (bw_settings_get (), "bead-seconds", 0.0, NULL);
  weave_to (maker, 6);
  double bead = bw_settings_get_number (bw_settings_get (), "bead-seconds");
  assert_float_equal (bead, 0, 0);
  g_object_set (bw_settings_get (), "bead-seconds", 20.0, NULL);
  bw_project_set_modified (maker_project (maker), FALSE);
  desk_key ("q", GDK_CONTROL_MASK);
  desk_until (is_closed, maker);
  maker_start (maker, bench->path);
  open_helper (maker);
  g_autofree char *words = g_strdup_printf ("%d rows to go. A row takes about 2\302\240min: ",
                                            maker_design (maker)->band.rows);
  assert_int_equal (maker_design (maker)->band.columns, 12);
  assert_true (shows (maker, words));
  g_object_set (bw_settings_get (), "bead-seconds", 0.0, NULL);
}

/* --- The try-on --------------------------------------------------------------------------------
 */

static void
choose (GtkWidget *check, const char *id, guint choice)
{
  GObject *drop = gtk_widget_get_template_child (check, BW_TYPE_BENCH_CHECK, id);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), choice);
}

static void
tell_try_on (Maker *maker, const char *amount, gboolean over, gboolean by_calliper, gboolean pulled)
{
  desk_key ("m", 0);
  desk_rest ();
  GtkWidget *check = maker_find (maker, BW_TYPE_BENCH_CHECK);
  GtkWidget *spin = desk_find_type (check, GTK_TYPE_SPIN_BUTTON);
  choose (check, "sense", over);
  choose (check, "unit", by_calliper);
  choose (check, "how", pulled);
  gtk_widget_grab_focus (spin);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (amount);
  maker_click_words (check, "What to Do…");
}

/* The choice of rows, the dialog's first drop-down. */
static GtkDropDown *
choice_of (GtkWindow *dialog)
{
  return GTK_DROP_DOWN (desk_find_type (GTK_WIDGET (dialog), GTK_TYPE_DROP_DOWN));
}

static gboolean
tells (GtkWidget *widget, const char *words)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words);
}

/* A strip so short is far from what was foretold, and that is told before what to do. */
static void
expect_told_after_the_doubt (GtkWidget *dialog, const char *words)
{
  GtkWidget *label = desk_look_for_prefix (dialog, "Look at both again first: ");
  assert_non_null (label);
  if (!tells (label, words))
    fail_msg ("“%s” does not tell “%s”", gtk_label_get_text (GTK_LABEL (label)), words);
}

static void
a_try_on_says_what_to_do_and_does_it_in_one_step (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  BwTryOn try_on;
  BwReading reading = bw_reading_beads (maker_design (maker), 3, BW_TRIED_SLACK);
  weave_to (maker, 20);
  g_autofree char *before = bw_project_to_data (project, NULL);
  assert_true (bw_bench_try_on (project, &reading, &try_on, NULL));
  assert_true (try_on.change == 6 || try_on.change == 4);
  tell_try_on (maker, "3", FALSE, FALSE, FALSE);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  g_autofree char *words
      = g_strdup_printf ("Weave %d more rows, %d in all.", try_on.change, try_on.rows);
  expect_told_after_the_doubt (dialog, words);
  desk_rest ();
  desk_keep ("bench-try-on");
  desk_key ("t", GDK_ALT_MASK);
  maker_no_dialog (maker);
  assert_int_equal (maker_design (maker)->band.rows, try_on.rows);
  assert_int_equal (rows_done (maker), 20);
  desk_key ("z", GDK_CONTROL_MASK);
  g_autofree char *after = bw_project_to_data (project, NULL);
  assert_string_equal (after, before);
}

/* Used once, a reading is known from then on, to the fit line as to the file, and until the rows it
 * speaks for are picked out. */
static void
a_try_on_is_kept_and_told_everywhere_until_its_rows_are_picked_out (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  int planned = maker_design (maker)->band.rows, woven = planned - 6;
  assert_true (bw_project_set_progress (project, "", woven, NULL, 0, NULL));
  desk_rest ();
  const BwFit *fit = bw_project_fit (project);
  g_autofree char *millimetres
      = g_strdup_printf ("%.1f", fit->gap_max_mm + 5.4 * maker_design (maker)->pitch.mm);
  tell_try_on (maker, millimetres, FALSE, TRUE, FALSE);
  GtkWindow *dialog = maker_dialog (maker);
  int rows = 0;
  GtkWidget *words = desk_look_for_prefix (GTK_WIDGET (dialog), "Look at both again first");
  if (!words)
    words = desk_look_for_prefix (GTK_WIDGET (dialog), "Weave ");
  assert_non_null (words);
  const char *more = strstr (gtk_label_get_text (GTK_LABEL (words)), "Weave ");
  assert_non_null (more);
  assert_int_equal (sscanf (more, "Weave %*d more rows, %d in all", &rows), 1);
  assert_int_not_equal (rows, planned);
  desk_key ("t", GDK_ALT_MASK);
  maker_no_dialog (maker);
  assert_int_equal (bw_project_get_tried (project)->rows, woven);
  assert_int_equal (maker_design (maker)->band.rows, rows);
  assert_int_equal (2 * bw_project_forecast (project)->recommended, rows);
  assert_int_equal (bw_fit_told (project).likely_rows, rows);
  g_autofree char *data = bw_project_to_data (project, NULL);
  g_autoptr (BwProject) again = bw_project_load_data (data, strlen (data), NULL);
  assert_int_equal (2 * bw_project_forecast (again)->recommended, rows);
  desk_key ("Escape", 0);
  desk_rest ();
  g_autofree char *told = g_strdup_printf ("Tried on at row %d: ", woven);
  assert_non_null (desk_look_for_prefix (GTK_WIDGET (maker->window), told));
  open_helper (maker);
  desk_key ("space", 0);
  desk_key ("Left", 0);
  assert_int_equal (bw_project_get_tried (project)->rows, woven);
  desk_key ("Left", 0);
  assert_int_equal (bw_project_get_tried (project)->rows, 0);
  assert_int_not_equal (2 * bw_project_forecast (project)->recommended, rows);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (bw_project_get_tried (project)->rows, woven);
}

static void
a_reading_goes_with_its_bead_and_moves_with_the_bed (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  const BwTried tried = { 60, { 3, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER } };
  assert_true (bw_project_set_progress (project, "", 60, NULL, 0, NULL));
  assert_true (bw_project_set_tried (project, "", &tried, NULL));
  BwDesign design = *maker_design (maker);
  double longer = design.tried.longer_mm;
  design.bed.cord_thickness_mm += 0.1;
  assert_true (bw_project_set_design (project, "Bed", &design, NULL));
  assert_true (bw_project_get_tried (project)->reading.short_mm > 3.4);
  assert_true (fabs (maker_design (maker)->tried.longer_mm - longer) < 0.05);
  design = *maker_design (maker);
  design.bead.diameter_mm += 0.1;
  assert_true (bw_project_set_design (project, "Bead", &design, NULL));
  assert_int_equal (bw_project_get_tried (project)->rows, 0);
  assert_false (maker_design (maker)->tried.is_told);
}

static void
more_bed_is_a_choice_where_the_strip_is_too_long (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  BwTryOn try_on;
  BwReading reading = bw_reading_beads (maker_design (maker), -1, BW_TRIED_SLACK);
  weave_to (maker, 20);
  BwDesign thicker = *maker_design (maker);
  assert_true (bw_bench_try_on (project, &reading, &try_on, NULL));
  assert_int_equal (try_on.change, -2);
  assert_true (try_on.stay_bed_mm > 0);
  assert_true (bw_try_on_thicken (&thicker, bw_project_stone (project), try_on.stay_bed_mm, NULL));
  tell_try_on (maker, "1", TRUE, FALSE, FALSE);
  GtkWindow *dialog = maker_dialog (maker);
  expect_told_after_the_doubt (GTK_WIDGET (dialog), "Pick out 2 rows, to 18 in all.");
  gtk_drop_down_set_selected (choice_of (dialog), 1);
  desk_rest ();
  desk_keep ("bench-try-on-over");
  desk_key ("t", GDK_ALT_MASK);
  maker_no_dialog (maker);
  assert_int_equal (maker_design (maker)->band.rows, 20);
  assert_true (fabs (maker_design (maker)->bed.cord_thickness_mm - thicker.bed.cord_thickness_mm)
               < 1e-9);
  assert_string_equal (bw_project_undo_label (project), "Try-on");
}

static void
an_absurd_count_is_told_beside_the_field (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  weave_to (maker, 10);
  g_autofree char *before = bw_project_to_data (maker_project (maker), NULL);
  tell_try_on (maker, "200", TRUE, FALSE, FALSE);
  desk_rest ();
  assert_null (desk_dialog (GTK_WINDOW (maker->window)));
  GtkWidget *check = maker_find (maker, BW_TYPE_BENCH_CHECK);
  desk_find_label (check, "A strip of 10 rows cannot lie over itself by 200.0 beads: count again.");
  desk_keep ("bench-absurd");
  g_autofree char *after = bw_project_to_data (maker_project (maker), NULL);
  assert_string_equal (after, before);
  desk_key ("Escape", 0);
  desk_rest ();
  assert_true (gtk_widget_get_mapped (maker_find (maker, BW_TYPE_BENCH_PAGE)));
}

/* The same strip, pulled and slack: what pulling gives is added to the slack one alone. */
static void
pull_is_added_to_a_slack_reading_alone (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  BwTryOn slack, pulled;
  weave_to (maker, 20);
  const BwDesign *design = maker_design (maker);
  /* Where two counts are as likely right, but for half of the pull of so short a strip. */
  double between = 2.5 * design->pitch.mm - design->limits.slack_mm / 2;
  g_autofree char *amount = g_strdup_printf ("%.1f", between);
  BwReading reading = { g_ascii_strtod (amount, NULL), BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER };
  assert_true (bw_bench_try_on (project, &reading, &slack, NULL));
  reading.how = BW_TRIED_PULLED;
  assert_true (bw_bench_try_on (project, &reading, &pulled, NULL));
  assert_true (pulled.pulled_mm + pulled.change / 2.0 * maker_design (maker)->pitch.mm
               > slack.pulled_mm + slack.change / 2.0 * maker_design (maker)->pitch.mm + 0.01);
  assert_int_not_equal (pulled.change, slack.change);
  for (int how = 0; how < 2; how++) {
    tell_try_on (maker, amount, FALSE, TRUE, how == 1);
    GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
    const BwTryOn *try_on = how ? &pulled : &slack;
    g_autofree char *words
        = g_strdup_printf ("Weave %d more rows, %d in all.", try_on->change, try_on->rows);
    expect_told_after_the_doubt (dialog, words);
    desk_key ("Escape", 0);
    maker_no_dialog (maker);
  }
}

static void
ends_that_meet_are_zipped_up (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  weave_to (maker, 20);
  desk_key ("m", 0);
  desk_rest ();
  GtkWidget *check = maker_find (maker, BW_TYPE_BENCH_CHECK);
  choose (check, "sense", 2);
  maker_click_words (check, "What to Do…");
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  expect_told_after_the_doubt (dialog, "It fits: stop at 20 rows and zip it up.");
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  assert_int_equal (rows_done (maker), 20);
}

static void
a_try_on_of_which_nothing_was_entered_is_not_answered (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  weave_to (maker, 20);
  desk_key ("m", 0);
  desk_rest ();
  GtkWidget *check = maker_find (maker, BW_TYPE_BENCH_CHECK);
  GtkWidget *answer = desk_find_label (check, "What to Do…");
  assert_false (gtk_widget_is_sensitive (answer));
  gtk_widget_grab_focus (desk_find_type (check, GTK_TYPE_SPIN_BUTTON));
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("2");
  assert_true (gtk_widget_is_sensitive (answer));
  desk_key ("BackSpace", 0);
  desk_type ("0");
  assert_false (gtk_widget_is_sensitive (answer));
  desk_key ("Escape", 0);
  desk_rest ();
}

/* From the first try-on the page asks for the pull at every second row, to the last. */
static void
the_pull_is_asked_for_at_every_second_row (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  int rows = maker_design (maker)->band.rows, due = bw_project_forecast (project)->try_on_row;
  assert_true (due + 4 <= rows);
  assert_true (bw_project_set_progress (project, "", due, NULL, 0, NULL));
  desk_rest ();
  assert_true (shows (maker, "Try on: "));
  for (int row = due + 1; row <= rows; row++) {
    weave_to (maker, row);
    desk_rest ();
    assert_int_equal (shows (maker, "Pull the ends together again: "), (row - due) % 2 == 0);
    if (row == due + 2)
      desk_keep ("bench-pull-again");
  }
}

/* --- Reading aloud -----------------------------------------------------------------------------
 */

/* A speech service first in PATH that writes down what it is told; gives the file's path. Without:
 * a PATH where there is none. */
static char *
give_voice (gboolean there, char **path)
{
  g_autofree char *folder = maker_path ("speech"), *command = NULL;
  char *heard = maker_path ("heard");
  *path = g_strdup (g_getenv ("PATH"));
  g_mkdir_with_parents (folder, 0755);
  g_remove (heard);
  command = g_build_filename (folder, "spd-say", NULL);
  g_remove (command);
  if (there) {
    g_autofree char *script = g_strdup_printf ("#!/bin/sh\necho \"$@\" >> '%s'\n", heard);
    assert_true (g_file_set_contents (command, script, -1, NULL));
    assert_int_equal (g_chmod (command, 0755), 0);
  }
  g_autofree char *first = there ? g_strconcat (folder, ":", *path, NULL) : g_strdup (folder);
  g_setenv ("PATH", first, TRUE);
  return heard;
}

typedef struct {
  const char *path, *last_line;
  char *text;
} Heard;

static gboolean
is_heard (gpointer data)
{
  Heard *heard = data;
  g_clear_pointer (&heard->text, g_free);
  if (!g_file_get_contents (heard->path, &heard->text, NULL, NULL))
    return FALSE;
  g_strchomp (heard->text);
  const char *line = strrchr (heard->text, '\n');
  return g_str_has_prefix (line ? line + 1 : heard->text, heard->last_line);
}

static void
expect_heard (const char *path, const char *last_line)
{
  Heard heard = { path, last_line, NULL };
  desk_until (is_heard, &heard);
  g_free (heard.text);
}

static void
a_row_is_read_aloud_until_the_next_or_the_end (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = save_holly (), *path = NULL;
  g_autofree char *heard = give_voice (TRUE, &path);
  maker_start (&maker, project);
  open_helper (&maker);
  maker_click_words (maker_find (&maker, BW_TYPE_BENCH_PAGE), "Read Aloud");
  expect_heard (heard, "-- Pick-up, rows 1 and 2 of ");
  desk_key ("space", 0);
  expect_heard (heard, "-- Row 3 of ");
  desk_key ("space", 0);
  expect_heard (heard, "-- Row 4 of ");
  g_autofree char *all = maker_read (heard);
  assert_non_null (strstr (all, "\n--cancel\n-- Row 3 of "));
  assert_non_null (strstr (all, "\n--cancel\n-- Row 4 of "));
  desk_key ("Escape", 0);
  desk_rest ();
  expect_heard (heard, "--cancel");
  open_helper (&maker);
  desk_key ("space", 0);
  expect_heard (heard, "-- Row 5 of ");
  maker_stop (&maker);
  expect_heard (heard, "--cancel");
  g_setenv ("PATH", path, TRUE);
}

static void
without_a_speech_service_there_is_no_button (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = save_holly (), *path = NULL;
  g_autofree char *heard = give_voice (FALSE, &path);
  maker_start (&maker, project);
  open_helper (&maker);
  assert_null (desk_look_for_label (maker_find (&maker, BW_TYPE_BENCH_PAGE), "Read Aloud"));
  weave_to (&maker, 3);
  assert_false (g_file_test (heard, G_FILE_TEST_EXISTS));
  maker_stop (&maker);
  g_setenv ("PATH", path, TRUE);
}

/* --- After a crash -----------------------------------------------------------------------------
 * Each start is a program of its own, on a display of its own, in the same folders. */

/* The last row is followed by a safety copy within a moment; then the lid falls. */
static int
crash (gconstpointer data)
{
  Maker maker = { 0 };
  g_autofree char *path = save_holly ();
  maker_start (&maker, path);
  open_helper (&maker);
  weave_to (&maker, PLACE);
  desk_rest ();
  kill (getpid (), SIGKILL);
  return 1;
}

static int
take_back (gconstpointer data)
{
  Maker maker = { 0 };
  maker_start (&maker, NULL);
  maker_click_words (GTK_WIDGET (maker_dialog (&maker)), "Recover");
  maker_no_dialog (&maker);
  open_helper (&maker);
  expect_place (&maker);
  desk_keep ("bench-after-crash");
  desk_key ("space", 0);
  assert_int_equal (rows_done (&maker), PLACE + 1);
  maker_stop (&maker);
  return 0;
}

static void
the_place_survives_a_crash (void **state)
{
  g_autofree char *path = save_holly ();
  g_autofree char *before = maker_read (path);
  int status = maker_run_again ("--crash");
  assert_true (WIFSIGNALED (status));
  assert_int_equal (WTERMSIG (status), SIGKILL);
  g_autofree char *kept = maker_read (path);
  assert_string_equal (kept, before);
  status = maker_run_again ("--take-back");
  assert_true (WIFEXITED (status));
  assert_int_equal (WEXITSTATUS (status), 0);
}

int
main (int argc, char **argv)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (the_place_survives_closing),
    IN_WINDOW (the_next_row_is_a_key_away_whatever_was_clicked),
    IN_WINDOW (woven_rows_are_veiled_on_the_band),
    IN_WINDOW (woven_rows_are_dark_in_the_scene),
    IN_WINDOW (woven_rows_are_dark_on_the_stone),
    IN_WINDOW (the_hands_are_remembered_and_leafing_through_is_not),
    IN_WINDOW (the_pull_is_asked_for_at_every_second_row),
    IN_WINDOW (a_try_on_says_what_to_do_and_does_it_in_one_step),
    IN_WINDOW (a_try_on_is_kept_and_told_everywhere_until_its_rows_are_picked_out),
    IN_WINDOW (a_reading_goes_with_its_bead_and_moves_with_the_bed),
    IN_WINDOW (pull_is_added_to_a_slack_reading_alone),
    IN_WINDOW (more_bed_is_a_choice_where_the_strip_is_too_long),
    IN_WINDOW (an_absurd_count_is_told_beside_the_field),
    IN_WINDOW (ends_that_meet_are_zipped_up),
    IN_WINDOW (a_try_on_of_which_nothing_was_entered_is_not_answered),
    cmocka_unit_test (a_row_is_read_aloud_until_the_next_or_the_end),
    cmocka_unit_test (without_a_speech_service_there_is_no_button),
    cmocka_unit_test (the_place_survives_a_crash),
  };
  if (argc > 1)
    return maker_work (g_str_equal (argv[1], "--crash") ? crash : take_back, NULL);
  return maker_run (tests);
}
