/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things stand on paper: the strip's marks, the chart's beads, numbers and arrows, the bed's
 * turns. Asked of the pen, not of the functions that place them. */
#include "core/base/lattice.h"
#include "core/design/bed.h"
#include "core/pattern/tint.h"
#include "output/chart/chart.h"
#include "output/page/sheet.h"
#include "output/sheet/strip.h"
#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "output/report/report.h"
#include "pen.h"
#include "project/document/units.h"
#include "sample.h"

#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#define MM BW_POINTS_PER_MM
#define HAIR 0.02 /* points: the drawing library keeps its own to 1/256 */

static BwProject *
project_of (const Sample *sample)
{
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

static BwProject *
some_project (guint32 seed, int rows, SampleBail bail, gboolean taper)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (Sample) sample = sample_new (rand, 12, rows, bail);
  sample->taper = taper;
  return project_of (sample);
}

static void
assert_near (double a, double b, double by)
{
  if (!(fabs (a - b) <= by))
    fail_msg ("%g is not within %g of %g", a, by, b);
}

/* --- The strip ---------------------------------------------------------------------------------
 */

/* A mark across the strip: bent on the measuring line. */
typedef struct {
  double upper, middle, lower; /* x */
  double line, height;         /* the measuring line's y; of the strip */
} Mark;

static GArray *
marks_drawn (void)
{
  GArray *marks = g_array_new (FALSE, FALSE, sizeof (Mark));
  for (guint i = 0; i + 1 < pen_n_lines (); i++) {
    const PenLine *a = pen_line (i), *b = pen_line (i + 1);
    double first = a->y1 - a->y0, second = b->y1 - b->y0;
    if (first < 5 || fabs (first - second) > HAIR || fabs (a->x1 - b->x0) > HAIR
        || fabs (a->y1 - b->y0) > HAIR)
      continue;
    Mark mark = { a->x0, a->x1, b->x1, a->y1, first + second };
    g_array_append_val (marks, mark);
  }
  return marks;
}

/* Where the strip begins: its measuring line is level, ends with the girth, and begins at its left.
 */
static double
beginning (const GArray *marks, double length_mm)
{
  double y = g_array_index (marks, Mark, 0).line;
  for (guint i = 0; i < pen_n_lines (); i++) {
    const PenLine *line = pen_line (i);
    if (fabs (line->y0 - y) < HAIR && fabs (line->y1 - y) < HAIR
        && fabs (line->x1 - line->x0 - length_mm * MM) < HAIR)
      return line->x0;
  }
  fail_msg ("no measuring line of %g mm is drawn", length_mm);
  return 0;
}

static gboolean
has_mark (const GArray *marks, double x)
{
  for (guint i = 0; i < marks->len; i++)
    if (fabs (g_array_index (marks, Mark, i).middle - x) < 0.5)
      return TRUE;
  return FALSE;
}

static void
the_marks_of_the_strip_stand_where_the_stone_has_its_edges (void **state)
{
  for (guint seed = 1; seed <= 12; seed++) {
    g_autoptr (BwProject) project = some_project (seed, 0, SAMPLE_FLAP, seed % 2);
    BwStripMarks at;
    bw_strip_marks_init (&at, project);
    if (at.girth_mm > 150)
      continue;
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_strip_new (project, BW_PAPER_A4);
    g_autoptr (GArray) marks = marks_drawn ();
    assert_true (marks->len >= (guint)at.faces);
    double left = beginning (marks, at.girth_mm);
    for (int i = 0; i < at.faces; i++)
      assert_true (has_mark (marks, left + at.corner_mm[i] * MM));
    assert_true (has_mark (marks, left));
    assert_true (has_mark (marks, left + at.girth_mm * MM));
    assert_near (g_array_index (marks, Mark, 0).height, at.width_mm * MM, HAIR);
  }
}

/* Tip up, the upper edge is as much longer than the line as the stone is thicker there. */
static void
the_strip_is_longer_at_the_edge_where_the_stone_is_thicker (void **state)
{
  g_autoptr (BwProject) project = some_project (7, 0, SAMPLE_NO_BAIL, TRUE);
  BwStripMarks at;
  bw_strip_marks_init (&at, project);
  assert_true (fabs (at.high_girth_mm - at.low_girth_mm) > 0.5);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_strip_new (project, BW_PAPER_A4);
  g_autoptr (GArray) marks = marks_drawn ();
  double left = beginning (marks, at.girth_mm);
  int n = 0;
  for (guint i = 0; i < marks->len; i++) {
    const Mark *mark = &g_array_index (marks, Mark, i);
    double along = mark->middle - left;
    /* Those round the bed are straight. */
    if (along < 50 || fabs (mark->upper - mark->lower) < 1e-9)
      continue;
    assert_near (mark->upper - left, along * at.high_girth_mm / at.girth_mm, 0.5);
    assert_near (mark->lower - left, along * at.low_girth_mm / at.girth_mm, 0.5);
    n++;
  }
  assert_true (n >= 3);
}

static void
the_strip_says_its_heights_and_girths_above_and_below_itself (void **state)
{
  g_autoptr (BwProject) project = some_project (7, 0, SAMPLE_NO_BAIL, TRUE);
  BwStripMarks at;
  bw_strip_marks_init (&at, project);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_strip_new (project, BW_PAPER_A4);
  g_autoptr (GArray) marks = marks_drawn ();
  const PenWords *upper = pen_find ("↑ tip · upper edge"), *lower = pen_find ("↓ base");
  double line = g_array_index (marks, Mark, 0).line;
  assert_true (upper->y + upper->height / 2 < line && lower->y + lower->height / 2 > line);
  g_autofree char *high = g_strdup_printf ("%.1f mm above the base · girth %.1f mm",
                                           at.bottom_mm + at.width_mm, at.high_girth_mm);
  g_autofree char *low = g_strdup_printf ("%.1f mm · girth %.1f mm · the line: %.1f mm",
                                          at.bottom_mm, at.low_girth_mm, at.girth_mm);
  g_autofree char *high_kept = bw_units_kept (high), *low_kept = bw_units_kept (low);
  assert_non_null (strstr (upper->text, high_kept));
  assert_non_null (strstr (lower->text, low_kept));
}

static void
every_face_is_named_between_its_own_edges (void **state)
{
  for (guint seed = 20; seed < 30; seed++) {
    g_autoptr (BwProject) project = some_project (seed, 0, SAMPLE_NO_BAIL, FALSE);
    BwStripMarks at;
    bw_strip_marks_init (&at, project);
    if (at.girth_mm > 150)
      continue;
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_strip_new (project, BW_PAPER_A4);
    g_autoptr (GArray) marks = marks_drawn ();
    double left = beginning (marks, at.girth_mm);
    for (int i = 0; i < at.faces; i++) {
      double from = at.corner_mm[i], to = at.corner_mm[(i + 1) % at.faces];
      g_autofree char *name = g_strdup_printf (to - from > 11 ? "face %d" : "%d", i + 1);
      if (to - from > 4)
        assert_non_null (pen_at (name, left + (from + to) / 2 * MM));
    }
  }
}

static void
the_bail_and_the_scale_are_marked_where_they_lie (void **state)
{
  g_autoptr (BwProject) project = some_project (7, 0, SAMPLE_FLAP, FALSE);
  BwDesign design = *bw_project_get_design (project);
  BwStripMarks at;
  design.bail.at_deg = design.band.seam_deg + 100;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_strip_marks_init (&at, project);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_strip_new (project, BW_PAPER_A4);
  g_autoptr (GArray) marks = marks_drawn ();
  double left = beginning (marks, at.girth_mm);
  assert_non_null (pen_at ("bail", left + at.bail_mm[0] * MM));
  int n = 0;
  for (int mm = (int)ceil (at.girth_mm) - 10; mm < at.girth_mm + 10; mm++) {
    g_autofree char *number = g_strdup_printf ("%d", mm);
    n += mm % 5 == 0 && pen_at (number, left + mm * MM) != NULL;
  }
  assert_true (n >= 3);
  assert_true (fabs (pen_find ("tab")->x - left - at.girth_mm * MM) < 12 * MM);
}

/* The dashed edges above and below it are longer by the tab. */
static gboolean
is_measuring_line (const PenLine *line)
{
  double length = line->x1 - line->x0;
  for (guint i = 0; i < pen_n_lines (); i++) {
    const PenLine *edge = pen_line (i);
    if (fabs (line->y0 - line->y1) < HAIR && length > 0 && fabs (edge->y0 - edge->y1) < HAIR
        && fabs (edge->x0 - line->x0) < HAIR
        && fabs (edge->x1 - edge->x0 - length - 12 * MM) < HAIR)
      return TRUE;
  }
  return FALSE;
}

/* Glued as it says, the pieces are as long as the stone is round. */
static void
a_long_strip_comes_in_pieces_that_add_up (void **state)
{
  g_autoptr (BwProject) project = some_project (7, 0, SAMPLE_NO_BAIL, FALSE);
  BwDesign design = *bw_project_get_design (project);
  BwStripMarks at;
  for (int i = 0; i < BW_FACES_MAX; i++)
    design.stone.values_mm[i] *= 3;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_strip_marks_init (&at, project);
  assert_in_range (at.girth_mm, 180, 700);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_strip_new (project, BW_PAPER_A4);
  double sum = 0;
  for (guint i = 0; i < pen_n_lines (); i++)
    if (is_measuring_line (pen_line (i)))
      sum += pen_line (i)->x1 - pen_line (i)->x0;
  gboolean wound = at.over_mm > at.girth_mm + 0.05;
  assert_near (sum, (at.girth_mm + (wound ? at.over_mm : 0)) * MM, 10 * HAIR);
  int n = 0;
  for (guint i = 0; i < pen_n_words (); i++)
    n += g_str_has_prefix (pen_word (i)->text, "piece ");
  assert_true (n >= 2);
  assert_non_null (pen_look_for ("piece 1 of "));
  assert_non_null (pen_look_for ("glue 2 here"));
  g_autofree char *beyond = g_strdup_printf ("glue %d here", n + 1);
  assert_null (pen_look_for (beyond));
}

/* --- The chart ---------------------------------------------------------------------------------
 */

#define PITCH 20.0
#define COLUMN 16.0

static void
draw_chart (BwChart *chart, BwChartPart *part)
{
  cairo_rectangle_t all = { 0, 0, 4000, 2000 };
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &all);
  cairo_t *cr = cairo_create (surface);
  pen_begin ();
  bw_chart_draw (chart, part, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* The y of a row's number and arrow. */
static void
look_at_row (const BwChart *chart, const BwChartPart *part, int row, gboolean up)
{
  double x = bw_chart_row_x (chart, part, row), width, height;
  g_autofree char *number = g_strdup_printf ("%d", row);
  const PenWords *arrow = pen_at (up ? "↑" : "↓", x), *told = NULL;
  bw_chart_part_size (chart, part, &width, &height);
  assert_non_null (arrow);
  assert_null (pen_at (up ? "↓" : "↑", x));
  for (guint i = 0; i < pen_n_words (); i++)
    if (g_str_equal (pen_word (i)->text, number) && fabs (pen_middle (pen_word (i)) - x) < 1
        && fabs (pen_word (i)->y - arrow->y) < PITCH)
      told = pen_word (i);
  assert_non_null (told);
  /* It stands where the needle enters, and the arrow is nearer the beads. */
  assert_true (up ? told->y > arrow->y && arrow->y > height / 2
                  : told->y < arrow->y && arrow->y < height / 2);
}

static void
a_rows_number_stands_where_the_needle_enters_and_its_arrow_shows_the_way (void **state)
{
  g_autoptr (BwProject) project = some_project (31, 0, SAMPLE_NO_BAIL, FALSE);
  BwChart chart = { project, PITCH, COLUMN, FALSE, NULL };
  BwChartPart part = { 1, 40, 1, 12, 0, 0 };
  draw_chart (&chart, &part);
  for (int row = 1; row <= 40; row++)
    look_at_row (&chart, &part, row, bw_lattice_direction (row) > 0);
}

/* The way the needle takes through the bail's new beads is the path's. */
static void
the_arrows_of_the_bail_are_those_of_the_thread (void **state)
{
  for (SampleBail bail = SAMPLE_FLAP; bail <= SAMPLE_RING; bail++) {
    g_autoptr (BwProject) project = some_project (32, 0, bail, FALSE);
    const GArray *visits = bw_project_path (project)->visits;
    const BwDrawing *drawing = bw_project_get_bail_drawing (project);
    int rows = bw_drawing_rows (drawing), n = 0;
    BwChart chart = { project, PITCH, COLUMN, TRUE, NULL };
    BwChartPart part = { 1, rows, 1, bw_drawing_columns (drawing), 0, 0 };
    draw_chart (&chart, &part);
    for (guint i = 0; i < visits->len; i++) {
      const BwVisit *visit = &g_array_index (visits, BwVisit, i);
      if (!visit->in_bail || !visit->is_new)
        continue;
      look_at_row (&chart, &part, visit->row, visit->direction == 1);
      n++;
    }
    assert_true (n > 0);
  }
}

/* Every letter in the middle of its bead: rows to the right, columns up the page. */
static void
the_beads_letters_stand_as_the_band_is_worn (void **state)
{
  g_autoptr (BwProject) project = some_project (33, 0, SAMPLE_NO_BAIL, FALSE);
  const BwDrawing *drawing = bw_project_get_drawing (project);
  const BwTray *tray = bw_project_get_tray (project);
  BwChart chart = { project, PITCH, COLUMN, FALSE, NULL };
  BwChartPart part = { 11, 30, 1, 12, 2, 0 };
  draw_chart (&chart, &part);
  double column_y[13];
  for (int column = 1; column <= 12; column++) {
    g_autofree char *number = g_strdup_printf ("%d", column);
    const PenWords *told = NULL;
    for (guint i = 0; i < pen_n_words () && !told; i++)
      if (g_str_equal (pen_word (i)->text, number)
          && fabs (pen_word (i)->x + pen_word (i)->width - 1.25 * PITCH) < 0.5)
        told = pen_word (i);
    assert_non_null (told);
    column_y[column] = told->y;
    if (column > 1)
      assert_near (column_y[column - 1] - column_y[column], COLUMN, 0.01);
  }
  int n = 0;
  for (int row = 11; row <= 30; row++)
    for (int column = 1; column <= 12; column++) {
      if (!bw_lattice_has (row, column))
        continue;
      char letter[BW_TRAY_LETTER];
      double x = bw_chart_row_x (&chart, &part, row);
      bw_tray_print_letter (tray, bw_drawing_get (drawing, row, column), letter);
      gboolean found = FALSE;
      for (guint i = 0; i < pen_n_words (); i++) {
        const PenWords *words = pen_word (i);
        found |= g_str_equal (words->text, letter) && fabs (pen_middle (words) - x) < 4
                 && fabs (words->y - column_y[column]) < COLUMN / 2;
      }
      /* The first two rows are those of the piece before: pale, no letter. */
      assert_int_equal (found, row > 12);
      n += found;
    }
  assert_int_equal (n, 18 * 6);
}

/* Where the ribbon names a face, the beads above lie on it. */
static void
the_ribbon_names_the_face_the_beads_come_to_lie_on (void **state)
{
  g_autoptr (BwProject) project = some_project (34, 0, SAMPLE_NO_BAIL, FALSE);
  int rows = bw_project_get_design (project)->band.rows, n = 0;
  BwChart chart = { project, PITCH, COLUMN, FALSE, NULL };
  BwChartPart part = { 1, rows, 1, 12, 0, 0 };
  draw_chart (&chart, &part);
  for (guint i = 0; i < pen_n_words (); i++) {
    const PenWords *words = pen_word (i);
    if (!g_str_has_prefix (words->text, "face "))
      continue;
    int face = atoi (words->text + 5) - 1, best = 0;
    for (int row = 1; row <= rows; row++)
      if (fabs (bw_chart_row_x (&chart, &part, row) - pen_middle (words))
          < fabs (bw_chart_row_x (&chart, &part, MAX (best, 1)) - pen_middle (words)))
        best = row;
    best = MAX (best, 1);
    int column = bw_lattice_has (best, 6) ? 6 : 7;
    BwPlace place = bw_places_get (bw_project_places (project), best, column);
    assert_true (place.face < 0 || place.face == face);
    n += place.face == face;
  }
  assert_true (n >= 3);
}

static void
the_svg_has_the_arrows_of_the_words (void **state)
{
  g_autoptr (BwProject) project = some_project (35, 20, SAMPLE_NO_BAIL, FALSE);
  g_autofree char *svg = bw_chart_svg (project);
  for (int row = 1; row <= 20; row++) {
    g_autofree char *group = g_strdup_printf ("<g id=\"row-%d\">", row);
    const char *from = strstr (svg, group), *to;
    assert_non_null (from);
    to = strstr (from, "</g>");
    const char *number = NULL, *arrow = NULL;
    double y_of[2] = { 0 }, bead_y = 0;
    g_autofree char *written = g_strdup_printf (">%d</text>", row);
    gboolean up = bw_lattice_direction (row) > 0;
    number = strstr (from, written);
    arrow = strstr (from, up ? ">↑</text>" : ">↓</text>");
    assert_true (number && number < to && arrow && arrow < to);
    const char *ends[2] = { number, arrow };
    for (int i = 0; i < 2; i++) {
      const char *y = g_strrstr_len (from, ends[i] - from, " y=\"");
      assert_non_null (y);
      y_of[i] = g_ascii_strtod (y + 4, NULL);
    }
    bead_y = g_ascii_strtod (strstr (from, " y=\"") + 4, NULL);
    assert_true (up ? y_of[0] > y_of[1] && y_of[1] > bead_y
                    : y_of[0] < y_of[1] && y_of[1] < bead_y);
  }
}

static void
the_key_leaves_out_colours_that_are_not_used (void **state)
{
  g_autoptr (BwProject) project = some_project (37, 20, SAMPLE_NO_BAIL, FALSE);
  BwTray tray = *bw_project_get_tray (project);
  int more = tray.n_colours++;
  tray.colour[more] = (BwColour){ 'Q', "Never strung", 0x336699, BW_FINISH_MATTE };
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
  g_autofree char *svg = bw_chart_svg (project);
  g_autofree char *entry = g_strdup_printf ("<use class=\"key\" xlink:href=\"#c%d\"", more);
  assert_null (strstr (svg, entry));
  assert_non_null (strstr (svg, "<use class=\"key\" "));
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  assert_null (pen_look_for ("Never strung"));
}

/* Broken into lines, it has every bead once, and each colour once more in the key. */
static void
a_long_picture_has_every_bead (void **state)
{
  g_autoptr (BwProject) project = some_project (38, 700, SAMPLE_NO_BAIL, FALSE);
  const BwTray *tray = bw_project_get_tray (project);
  guint64 counts[256] = { 0 }, told[256] = { 0 };
  g_autofree char *folder = g_dir_make_tmp ("bandwright-drawn-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "chart.png", NULL);
  pen_begin ();
  assert_true (bw_chart_write (project, path, NULL));
  g_remove (path);
  g_rmdir (folder);
  bw_drawing_count (bw_project_get_drawing (project), counts);
  for (guint i = 0; i < pen_n_words (); i++)
    for (int colour = 0; colour < tray->n_colours; colour++) {
      char letter[BW_TRAY_LETTER];
      bw_tray_print_letter (tray, colour, letter);
      told[colour] += g_str_equal (pen_word (i)->text, letter);
    }
  for (int colour = 0; colour < tray->n_colours; colour++)
    assert_int_equal (told[colour], counts[colour] + (counts[colour] > 0));
}

/* --- The bed -----------------------------------------------------------------------------------
 */

/* The y at which the line to a height's words is drawn. */
static double
line_of (const PenWords *words)
{
  return words->y + 5;
}

static BwProject *
project_with_bed (void)
{
  BwProject *project = some_project (36, 0, SAMPLE_NO_BAIL, FALSE);
  BwDesign design = *bw_project_get_design (project);
  design.bed = (BwBed){
    .cord_thickness_mm = 0.4, .cord_width_mm = 1, .layers = 2, .squeeze = 0.1, .overhang_mm = 0.7
  };
  assert_true (bw_project_set_design (project, "", &design, NULL));
  return project;
}

static void
the_beds_turns_are_drawn_and_told_at_their_heights (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  const BwDesign *design = bw_project_get_design (project);
  BwBandSpan span = bw_design_span (design);
  double mid = bw_band_span_mid (span), half = bw_bed_width_mm (&design->bed, span) / 2;
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  const struct {
    const char *what;
    double z;
  } heights[] = { { "first turn: ", mid - half },
                  { "last turn: ", mid + half },
                  { "band, lower edge: ", span.bottom_mm },
                  { "band, upper edge: ", span.bottom_mm + span.width_mm } };
  double scale
      = (line_of (pen_find ("band, lower edge: ")) - line_of (pen_find ("band, upper edge: ")))
        / span.width_mm;
  assert_true (scale > 1);
  for (gsize i = 0; i < G_N_ELEMENTS (heights); i++) {
    const PenWords *words = pen_find (heights[i].what);
    assert_near (g_ascii_strtod (words->text + strlen (heights[i].what), NULL), heights[i].z,
                 0.0501);
    assert_near (line_of (pen_find ("band, lower edge: ")) - line_of (words),
                 (heights[i].z - span.bottom_mm) * scale, 0.01);
  }
  assert_true (pen_find ("tip ↑")->y < pen_find ("base ↓")->y);
}

static void
the_words_wind_the_bed_where_it_lies (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  const BwDesign *design = bw_project_get_design (project);
  BwBandSpan span = bw_design_span (design);
  double mid = bw_band_span_mid (span), half = bw_bed_width_mm (&design->bed, span) / 2;
  g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
  g_autofree char *told = g_strdup_printf ("2 even layers, from %.1f mm to %.1f mm above the base",
                                           mid - half, mid + half);
  assert_non_null (strstr (words, told));
  g_autofree char *place = g_strdup_printf ("it reaches from %.1f mm to %.1f mm above the base",
                                            span.bottom_mm, span.bottom_mm + span.width_mm);
  assert_non_null (strstr (words, place));
}

/* Two layers and as much again as a cord at the upper edge: where the third one lies is told on the
 * sheet and in the words, and nothing speaks of an even bed. */
static void
a_graded_bed_is_told_layer_by_layer (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  BwDesign design = *bw_project_get_design (project);
  design.bed.top_extra_mm = design.bed.cord_thickness_mm;
  assert_true (bw_project_set_design (project, "Grade", &design, NULL));
  BwBandSpan span = bw_design_span (&design);
  double mid = bw_band_span_mid (span), half = bw_bed_width_mm (&design.bed, span) / 2;
  g_autofree char *third
      = g_strdup_printf ("layer 3, %.0f turns, from %.1f mm to %.1f mm above the base",
                         floor (half / design.bed.cord_width_mm + 0.5), mid, mid + half);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  g_autofree char *kept = pen_text (), *words = bw_words_flowing (project, BW_UNIT_MM);
  g_auto (GStrv) parts = g_strsplit (kept, "\u00a0", -1);
  g_autofree char *page = g_strjoinv (" ", parts);
  assert_non_null (strstr (words, third));
  assert_non_null (strstr (page, third));
  assert_null (strstr (words, "even layer"));
  assert_null (strstr (page, "even layer"));
  /* And drawn: where the third one begins stands at its height, as far as the notes leave room. */
  double low = line_of (pen_find ("band, lower edge: ")), high = line_of (pen_find ("last turn: "));
  double scale = (low - high) / (mid + half - span.bottom_mm);
  const PenWords *begins = pen_find ("layer 3 from: ");
  assert_near (g_ascii_strtod (begins->text + strlen ("layer 3 from: "), NULL), mid, 0.0501);
  assert_near (low - line_of (begins), (mid - span.bottom_mm) * scale, 0.02);
}

/* A grade that no turn can follow is told to be none, instead of a bed that is thicker at an edge
 * and has one even layer. */
static void
a_grade_of_less_than_half_a_cord_is_told_to_be_none (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  BwDesign design = *bw_project_get_design (project);
  design.bed.top_extra_mm = 0.3 * design.bed.cord_thickness_mm;
  assert_true (bw_project_set_design (project, "Grade", &design, NULL));
  g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
  assert_non_null (strstr (words, "no turn of a further layer is wound"));
  assert_null (strstr (words, "The bed is graded"));
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  assert_null (pen_look_for ("layer 3"));
}

static void
a_piece_without_a_bail_has_none_in_its_captions (void **state)
{
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 40, 40);
  for (int hangs = 0; hangs < 2; hangs++) {
    g_autoptr (BwProject) project = bw_project_new ();
    BwDesign design = *bw_project_get_design (project);
    if (hangs)
      design.bail = (BwBail){ .style = BW_BAIL_FLAP,
                              .columns = 4,
                              .rows = 23,
                              .base_beads = 3,
                              .at_deg = 180,
                              .cord_mm = 3,
                              .clearance_mm = 2 };
    assert_true (bw_project_set_design (project, "Bail", &design, NULL));
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, picture, picture);
    assert_int_equal (pen_look_for ("the join and the bail") != NULL, hangs);
    assert_non_null (pen_look_for (hangs ? "the join and the bail" : "the join"));
  }
  cairo_surface_destroy (picture);
}

/* --- The words ---------------------------------------------------------------------------------
 */

static void
assert_words (BwProject *project, const char *told)
{
  g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
  if (!strstr (words, told))
    fail_msg ("“%s” is not said", told);
}

/* The join is told by what lies under the bead the work begins with. */
static void
the_joins_place_is_told_by_the_face_beneath (void **state)
{
  g_autoptr (BwProject) project = some_project (39, 0, SAMPLE_NO_BAIL, FALSE);
  gboolean middle = FALSE, beside = FALSE, edge = FALSE;
  for (int tenth = 0; tenth < 3600 && !(middle && beside && edge); tenth++) {
    BwDesign design = *bw_project_get_design (project);
    design.band.seam_deg = tenth / 10.0;
    assert_true (bw_project_set_design (project, "", &design, NULL));
    BwPlace place = bw_places_get (bw_project_places (project), 1, 2);
    int faces = bw_project_stone (project)->faces;
    gboolean *seen = place.face < 0                   ? &edge
                     : fabs (place.along_mm) < 0.4999 ? &middle
                     : fabs (place.along_mm) > 0.5001 ? &beside
                                                      : NULL;
    if (!seen || *seen)
      continue;
    *seen = TRUE;
    g_autofree char *told
        = seen == &edge     ? g_strdup_printf ("over the edge between faces %d and %d",
                                               place.corner + 1, (place.corner + 1) % faces + 1)
          : seen == &middle ? g_strdup_printf ("over the middle of face %d", place.face + 1)
                            : g_strdup_printf ("over face %d, %.1f mm from its middle",
                                               place.face + 1, fabs (place.along_mm));
    assert_words (project, told);
  }
  assert_true (middle && beside && edge);
}

static void
the_likely_counts_are_told_with_their_rows_and_chances (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  const BwForecast *forecast = bw_project_forecast (project);
  int n = 0;
  for (int i = 0; i < forecast->n_chances; i++) {
    const BwChance *chance = &forecast->chance[i];
    g_autofree char *told = g_strdup_printf ("%d (row %d, %.0f %%)", chance->beads_around,
                                             2 * chance->beads_around, 100 * chance->p);
    if (chance->p < 0.05)
      continue;
    assert_words (project, told);
    n++;
  }
  assert_true (n > 0);
}

/* In their order, however far on in the work they come. */
static void
every_change_of_thread_tells_its_own_length (void **state)
{
  g_autoptr (BwProject) project = some_project (40, 0, SAMPLE_FLAP, FALSE);
  gboolean differ = FALSE;
  for (int working = 700; working < 1500; working += 130) {
    BwDesign design = *bw_project_get_design (project);
    design.thread.working_mm = working;
    assert_true (bw_project_set_design (project, "", &design, NULL));
    g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
    const GArray *lengths = bw_project_path (project)->lengths;
    const char *from = words;
    for (guint i = 1; i < lengths->len; i++) {
      g_autofree char *cut
          = bw_cut_words (g_array_index (lengths, BwThreadLength, i).length_mm, BW_UNIT_MM);
      g_autofree char *before
          = bw_cut_words (g_array_index (lengths, BwThreadLength, i - 1).length_mm, BW_UNIT_MM);
      g_autofree char *told = g_strdup_printf ("Cut %s of new thread", cut);
      from = strstr (from, "Cut ");
      assert_non_null (from);
      assert_true (g_str_has_prefix (from, told));
      differ |= !g_str_equal (cut, before);
      from++;
    }
  }
  assert_true (differ);
}

/* --- The try-on --------------------------------------------------------------------------------
 */

static void
sheet_and_kit_name_the_row_of_the_first_try_on (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  int row = bw_project_forecast (project)->try_on_row;
  g_autofree char *told = g_strdup_printf ("after row %d, then at every second row", row);
  for (int kit = 0; kit < 2; kit++) {
    pen_begin ();
    g_autoptr (BwSheet) sheet = kit ? bw_kit_new (project, BW_PAPER_A4, 1, NULL)
                                    : bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
    g_autofree char *text = pen_text ();
    assert_non_null (strstr (text, told));
  }
}

/* The numbers of the ruler stand where a strip of so many rows ends, at true size, and its table
 * tells the same in millimetres. */
static void
the_row_ruler_is_as_long_as_the_strip (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  for (int bead = 0; bead < 2; bead++) {
    const BwDesign *design = bw_project_get_design (project);
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
    const PenWords *edge = pen_find ("edge of the strip");
    int on_ruler = 0;
    for (int row = 20; row <= design->band.rows; row += 20) {
      double mm = (row + 1) * design->pitch.mm / 2;
      g_autofree char *number = g_strdup_printf ("%d", row);
      g_autofree char *length = g_strdup_printf ("%.1f", mm);
      const PenWords *there = pen_at (number, edge->x + mm * MM);
      assert_non_null (there);
      assert_near (pen_middle (there), edge->x + mm * MM, 0.3);
      assert_true (there->page == edge->page);
      pen_find (length);
      on_ruler++;
    }
    assert_true (on_ruler >= 4);
    BwDesign other = *design;
    other.gauge.pitch_mm = 1.5;
    other.gauge.has_swatch = FALSE;
    assert_true (bw_project_set_design (project, "", &other, NULL));
  }
}

/* Whether a flag with these words points at this row of the chart. */
static gboolean
is_flagged (const char *words, int row)
{
  g_autofree char *number = g_strdup_printf ("%d", row);
  for (guint i = 0; i < pen_n_words (); i++) {
    const PenWords *flag = pen_word (i);
    for (guint k = 0; g_str_equal (flag->text, words) && k < pen_n_words (); k++) {
      const PenWords *told = pen_word (k);
      double off = pen_middle (told) - (flag->x - 5),
             back = pen_middle (told) - flag->x - flag->width;
      if (told->page == flag->page && g_str_equal (told->text, number) && told->y > flag->y
          && (fabs (off) < 1 || fabs (back - 5) < 1))
        return TRUE;
    }
  }
  return FALSE;
}

static void
flags_stand_at_the_rows_of_the_try_on_and_of_new_thread (void **state)
{
  g_autoptr (BwProject) project = project_with_bed ();
  BwDesign design = *bw_project_get_design (project);
  design.thread.working_mm = 1200;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  const GArray *lengths = bw_project_path (project)->lengths;
  int n = 0;
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  assert_true (is_flagged ("try on", bw_project_forecast (project)->try_on_row));
  for (guint i = 1; i < lengths->len; i++) {
    int row = g_array_index (lengths, BwThreadLength, i).from_row;
    if (row > design.band.rows)
      continue;
    assert_true (is_flagged ("new thread", row));
    n++;
  }
  assert_true (n > 0);
}

/* A new thread begins in the row beside that of the try-on. */
static BwProject *
project_with_close_flags (void)
{
  BwProject *project = project_with_bed ();
  BwDesign design = *bw_project_get_design (project);
  for (design.thread.working_mm = 900; design.thread.working_mm < 3000;
       design.thread.working_mm += 5) {
    assert_true (bw_project_set_design (project, "", &design, NULL));
    const GArray *lengths = bw_project_path (project)->lengths;
    int try_on = bw_project_forecast (project)->try_on_row;
    for (guint i = 1; i < lengths->len; i++)
      if (abs (g_array_index (lengths, BwThreadLength, i).from_row - try_on) == 1)
        return project;
  }
  fail_msg ("no thread ends beside the try-on");
  return NULL;
}

static void
flags_side_by_side_are_told_apart (void **state)
{
  g_autoptr (BwProject) project = project_with_close_flags ();
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_chart_sheet_new (project, BW_PAPER_A4);
  const PenWords *try_on = pen_find ("try on");
  int n = 0;
  for (guint i = 0; i < pen_n_words (); i++) {
    const PenWords *thread = pen_word (i);
    if (!g_str_equal (thread->text, "new thread") || thread->page != try_on->page
        || fabs (thread->y - try_on->y) >= thread->height / 2)
      continue;
    double between
        = MAX (thread->x - try_on->x - try_on->width, try_on->x - thread->x - thread->width);
    if (between < 8)
      fail_msg ("%.1f points between the words of two flags", between);
    n++;
  }
  assert_true (n > 0);
}

/* Headings are of the face's deep blue; what is read is black, which no printer has to mix. */
static void
pages_are_set_in_the_named_colours (void **state)
{
  g_autoptr (BwProject) project = some_project (37, 20, SAMPLE_NO_BAIL, FALSE);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  int black = 0;
  assert_int_equal (pen_find ("Winding the bed")->srgb, bw_tint_srgb (BW_TINT_TIDE, FALSE));
  for (guint i = 0; i < pen_n_words (); i++)
    black += pen_word (i)->srgb == bw_tint_srgb (BW_TINT_PRINT, FALSE);
  assert_true (black > 100);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_marks_of_the_strip_stand_where_the_stone_has_its_edges),
    cmocka_unit_test (the_strip_is_longer_at_the_edge_where_the_stone_is_thicker),
    cmocka_unit_test (the_strip_says_its_heights_and_girths_above_and_below_itself),
    cmocka_unit_test (every_face_is_named_between_its_own_edges),
    cmocka_unit_test (the_bail_and_the_scale_are_marked_where_they_lie),
    cmocka_unit_test (a_long_strip_comes_in_pieces_that_add_up),
    cmocka_unit_test (a_rows_number_stands_where_the_needle_enters_and_its_arrow_shows_the_way),
    cmocka_unit_test (the_arrows_of_the_bail_are_those_of_the_thread),
    cmocka_unit_test (the_beads_letters_stand_as_the_band_is_worn),
    cmocka_unit_test (the_ribbon_names_the_face_the_beads_come_to_lie_on),
    cmocka_unit_test (the_svg_has_the_arrows_of_the_words),
    cmocka_unit_test (the_key_leaves_out_colours_that_are_not_used),
    cmocka_unit_test (pages_are_set_in_the_named_colours),
    cmocka_unit_test (a_long_picture_has_every_bead),
    cmocka_unit_test (the_joins_place_is_told_by_the_face_beneath),
    cmocka_unit_test (the_likely_counts_are_told_with_their_rows_and_chances),
    cmocka_unit_test (every_change_of_thread_tells_its_own_length),
    cmocka_unit_test (the_beds_turns_are_drawn_and_told_at_their_heights),
    cmocka_unit_test (the_words_wind_the_bed_where_it_lies),
    cmocka_unit_test (a_graded_bed_is_told_layer_by_layer),
    cmocka_unit_test (a_grade_of_less_than_half_a_cord_is_told_to_be_none),
    cmocka_unit_test (a_piece_without_a_bail_has_none_in_its_captions),
    cmocka_unit_test (sheet_and_kit_name_the_row_of_the_first_try_on),
    cmocka_unit_test (the_row_ruler_is_as_long_as_the_strip),
    cmocka_unit_test (flags_stand_at_the_rows_of_the_try_on_and_of_new_thread),
    cmocka_unit_test (flags_side_by_side_are_told_apart),
  };
  return cmocka_run_group_tests_name ("drawn", tests, NULL, NULL);
}
