/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names and numbers of drawings keep clear of one another and of the paper's edge, whatever the
 * stone: asked of the pen, for stones of every sort. */
#include "../fewer.h"
#include "output/sheet/sheet-parts.h"
#include "output/sheet/step-figure.h"
#include "output/sheet/strip.h"
#include "pen.h"
#include "sample.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define STONES few (500)
#define USUAL_ROWS 80
#define FEW_ROWS 40 /* of a ring: there names of rows are told from the join and from the bail */

/* What a line of letters has above and below its ink, of its height, on either side. */
#define AIR 0.2
#define HAIR 0.3 /* points that two boxes may share at their sides */

static void
append_numbers (GString *json, GRand *rand, int n, double about, double by)
{
  for (int i = 0; i < n; i++)
    g_string_append_printf (json, "%s%.1f", i > 0 ? ", " : "",
                            about * (1 + g_rand_double_range (rand, -by, by)));
}

/* A stone from a finger's end to a fist, of three to twenty faces, measured in each way there is.
 */
static void
append_stone (GString *json, GRand *rand, double across, double length)
{
  static const char *const ways[] = { "across-flats", "face-widths", "girth" };
  int way = g_rand_int_range (rand, 0, 3);
  int faces = way == 0 ? 2 * g_rand_int_range (rand, 2, 11) : g_rand_int_range (rand, 3, 21);
  double width = across * tan (G_PI / faces);
  g_string_append_printf (json,
                          "\"stone\": { \"mineral\": \"quartz\", \"faces\": %d, \"measured\": "
                          "\"%s\", \"values_mm\": [",
                          faces, ways[way]);
  if (way == 0)
    append_numbers (json, rand, faces / 2, across, 0.08);
  else if (way == 1)
    append_numbers (json, rand, faces, width, 0.12);
  else
    append_numbers (json, rand, 1, across * G_PI, 0);
  double shoulder = length * g_rand_double_range (rand, 0.55, 0.9);
  g_string_append_printf (json, "], \"at_mm\": %.1f, \"length_mm\": %.1f, \"shoulder_mm\": %.1f, ",
                          shoulder * g_rand_double_range (rand, 0.2, 0.8), length, shoulder);
  if (g_rand_boolean (rand))
    g_string_append_printf (json, "\"second_girth_mm\": %.1f, \"second_at_mm\": %.1f, ",
                            across * G_PI * g_rand_double_range (rand, 0.93, 1.05),
                            shoulder * g_rand_double_range (rand, 0.85, 1));
  if (g_rand_int_range (rand, 0, 4) == 0)
    g_string_append_printf (json, "\"base\": \"point\", \"base_shoulder_mm\": %.1f, ",
                            length * g_rand_double_range (rand, 0.05, 0.2));
  g_string_append_printf (json, "\"apex_offset_mm\": [%.1f, %.1f] },\n",
                          across * g_rand_double_range (rand, -0.1, 0.1),
                          across * g_rand_double_range (rand, -0.1, 0.1));
}

static void
append_rest (GString *json, GRand *rand, double length, int most_rows)
{
  static const char *const bails[] = { "none", "flap", "upright", "ring", "over" };
  int columns = 2 * g_rand_int_range (rand, 2, 9);
  double bottom = length * g_rand_double_range (rand, 0.05, 0.5);
  g_string_append_printf (json,
                          "\"bead\": { \"name\": \"11/0 cylinder\", \"diameter_mm\": 1.6, "
                          "\"length_mm\": 1.3, \"hole_mm\": 0.8 },\n\"band\": { \"columns\": %d, "
                          "\"rows\": %d, \"bottom_mm\": %.1f, \"seam_deg\": %d },\n",
                          columns, 2 * g_rand_int_range (rand, most_rows / 8, most_rows / 2),
                          bottom, g_rand_int_range (rand, 0, 360));
  g_string_append_printf (json,
                          "\"bed\": { \"layers\": %d, \"top_extra_mm\": %.2f },\n\"bail\": { "
                          "\"style\": \"%s\", \"columns\": 2, \"rows\": 17, \"base_beads\": 2, "
                          "\"cord_mm\": 2, \"at_deg\": %d }\n}\n",
                          g_rand_int_range (rand, 0, 3), g_rand_double_range (rand, -0.5, 0.8),
                          bails[g_rand_int_range (rand, 0, most_rows == USUAL_ROWS ? 4 : 5)],
                          g_rand_int_range (rand, 0, 360));
}

static BwProject *
random_project (GRand *rand, int most_rows)
{
  for (;;) {
    g_autoptr (GString) json = g_string_new ("{ \"format\": \"bandwright-project\", \"version\": 1,"
                                             "\n\"title\": \"Any Stone\",\n");
    double across = exp (g_rand_double_range (rand, log (6), log (70)));
    double length = across * g_rand_double_range (rand, 0.8, 5);
    append_stone (json, rand, across, length);
    append_rest (json, rand, length, most_rows);
    BwProject *project = bw_project_load_data (json->str, json->len, NULL);
    if (project)
      return project;
  }
}

static gboolean
overlap (const PenWords *a, const PenWords *b)
{
  double left = MAX (a->x, b->x), right = MIN (a->x + a->width, b->x + b->width);
  double top = MAX (a->y + AIR * a->height, b->y + AIR * b->height);
  double bottom = MIN (a->y + (1 - AIR) * a->height, b->y + (1 - AIR) * b->height);
  return a->page == b->page && right - left > HAIR && bottom - top > 0;
}

/* The first pair that is not apart, or words beyond the paper's margin; NULL: none. Owned. */
static char *
fault_of (double width, double height)
{
  for (guint i = 0; i < pen_n_words (); i++) {
    const PenWords *a = pen_word (i);
    if (a->x < BW_SHEET_MARGIN - 1 || a->x + a->width > width - BW_SHEET_MARGIN + 1 || a->y < 0
        || a->y + a->height > height)
      return g_strdup_printf ("“%s” stands outside, at %.1f, %.1f", a->text, a->x, a->y);
    for (guint k = 0; k < i; k++)
      if (overlap (a, pen_word (k)))
        return g_strdup_printf ("“%s” and “%s” overlap at %.1f, %.1f", pen_word (k)->text, a->text,
                                a->x, a->y);
  }
  return NULL;
}

typedef void (*Set) (BwProject *project, BwPaper paper);

static void
set_strip (BwProject *project, BwPaper paper)
{
  bw_sheet_free (bw_strip_new (project, paper));
}

static void
set_section (BwProject *project, BwPaper paper, void (*add) (BwFlow *, BwProject *))
{
  BwFlow flow;
  bw_flow_init (&flow, bw_sheet_alloc (project, paper, "Sketch", TRUE), project);
  add (&flow, project);
  bw_sheet_free (bw_flow_finish (&flow));
}

static void
set_sketches (BwProject *project, BwPaper paper)
{
  set_section (project, paper, bw_sheet_add_stone);
}

static void
set_bed (BwProject *project, BwPaper paper)
{
  set_section (project, paper, bw_sheet_add_bed);
}

static void
set_chart (BwProject *project, BwPaper paper)
{
  set_section (project, paper, bw_sheet_add_chart);
}

static int
count_written (const char *beginning)
{
  int n = 0;
  for (guint i = 0; i < pen_n_words (); i++)
    n += g_str_has_prefix (pen_word (i)->text, beginning) && strlen (pen_word (i)->text) < 24;
  return n;
}

/* Whether a line goes down through a word, from above its middle to below it. */
static gboolean
is_struck (const PenWords *word)
{
  double middle = word->y + word->height / 2;
  for (guint i = 0; i < pen_n_lines (); i++) {
    const PenLine *line = pen_line (i);
    if (line->page == word->page && MIN (line->y0, line->y1) < middle - 1
        && MAX (line->y0, line->y1) > middle + 1 && MIN (line->x0, line->x1) > word->x + 0.5
        && MAX (line->x0, line->x1) < word->x + word->width - 0.5)
      return TRUE;
  }
  return FALSE;
}

static void
assert_not_struck (const char *number)
{
  for (guint i = 0; i < pen_n_words (); i++)
    if (g_str_equal (pen_word (i)->text, number) && is_struck (pen_word (i)))
      fail_msg ("a line goes through “%s”", number);
}

/* Every fifth millimetre from just before the end on has its number, the one beside the join too.
 */
static void
assert_scale_is_named (BwProject *project)
{
  BwStripMarks marks;
  bw_strip_marks_init (&marks, project);
  for (int mm = 5 * (int)ceil ((marks.girth_mm - 2) / 5); mm < marks.girth_mm + 9; mm += 5) {
    g_autofree char *number = g_strdup_printf ("%d", mm);
    pen_find (number);
    if (mm >= marks.girth_mm)
      assert_not_struck (number);
  }
}

/* Nothing is kept apart by being left out: both ends of the strip are named, and its bail. */
static void
assert_strip_is_named (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  gboolean at_join = fabs (remainder (design->bail.at_deg - design->band.seam_deg, 360)) < 20;
  assert_true (count_written ("join") >= 2);
  if (unit == BW_UNIT_MM)
    assert_scale_is_named (project);
  if (design->bail.style != BW_BAIL_NONE && !at_join)
    pen_find ("bail");
}

/* No face that should have one goes without its name, and no distance without its number. */
static void
assert_sketch_is_named (BwProject *project, BwUnit unit)
{
  const BwStoneMeasures *stone = &bw_project_get_design (project)->stone;
  assert_int_equal (count_written ("face "),
                    (stone->faces + (stone->faces + 15) / 16 - 1) / ((stone->faces + 15) / 16));
  for (int i = 0;
       stone->measured == BW_MEASURED_ACROSS_FLATS && i < stone->faces / 2 && stone->faces <= 12;
       i++) {
    g_autofree char *number = unit == BW_UNIT_INCH
                                  ? g_strdup_printf ("%.3f", stone->values_mm[i] / 25.4)
                                  : g_strdup_printf ("%.1f", stone->values_mm[i]);
    pen_find (number);
  }
}

/* All stones on the two papers in turn. */
static void
assert_apart (Set set, void (*complete) (BwProject *project, BwUnit unit), guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  int faults = 0, written = 0;
  for (int i = 0; i < STONES; i++) {
    BwPaper paper = i % 2 ? BW_PAPER_LETTER : BW_PAPER_A4;
    paper.wishes = i % 4 > 1 ? BW_PRINT_INCHES : 0;
    g_autoptr (BwProject) project = random_project (rand, USUAL_ROWS);
    pen_begin ();
    set (project, paper);
    g_autofree char *fault = fault_of (paper.width, paper.height);
    if (fault && faults++ < 12)
      print_message ("stone %d: %s\n", i, fault);
    written += pen_n_words () > 0;
    if (complete)
      complete (project, bw_paper_unit (paper));
  }
  assert_true (written > STONES / 2);
  if (faults > 0)
    fail_msg ("%d of %d stones", faults, STONES);
}

static void
the_strip_keeps_every_name_number_and_line_apart (void **state)
{
  assert_apart (set_strip, assert_strip_is_named, 501);
}

static void
the_sketches_of_the_stone_keep_their_labels_apart (void **state)
{
  assert_apart (set_sketches, assert_sketch_is_named, 502);
}

static void
the_bed_keeps_its_labels_apart (void **state)
{
  assert_apart (set_bed, NULL, 503);
}

static void
the_chart_keeps_its_numbers_apart (void **state)
{
  assert_apart (set_chart, NULL, 504);
}

/* The boxes that a drawing of a step is fitted into, on wide paper and on narrow. */
static const struct {
  double width, height;
} boxes[] = { { 158, 210 }, { 158.7, 126 } };

/* What a box may be overstepped by: the room that is left round a drawing. */
#define ROUND 8.0

static char *
fault_in_step (const BwStepLayout *layout)
{
  for (guint i = 0; i < pen_n_words (); i++) {
    const PenWords *a = pen_word (i);
    if (a->x < -ROUND || a->x + a->width > layout->width + ROUND || a->y < -4
        || a->y + a->height > layout->height + ROUND)
      return g_strdup_printf ("“%s” stands outside, at %.1f, %.1f", a->text, a->x, a->y);
    for (guint k = 0; k < i; k++)
      if (overlap (a, pen_word (k)))
        return g_strdup_printf ("“%s” and “%s” overlap at %.1f, %.1f", pen_word (k)->text, a->text,
                                a->x, a->y);
  }
  return NULL;
}

/* Draws every step; how many are at fault. *told counts names from the bail's row. */
static int
look_at_steps (BwProject *project, int box, int *drawn, int *told)
{
  const BwPath *path = bw_project_path (project);
  g_autoptr (GArray) steps = bw_steps_new (path);
  BwStepState state;
  guint counted = 0;
  int faults = 0;
  bw_step_state_init (&state, project);
  for (guint i = 0; i < steps->len; i++, ++*drawn) {
    const BwStep *step = &g_array_index (steps, BwStep, i);
    cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
    cairo_t *cr = cairo_create (surface);
    BwStepLayout layout;
    bw_step_state_take (&state, project, counted, step->first);
    counted = step->first;
    bw_step_layout_init (&layout, project, step, &state, boxes[box].width, boxes[box].height);
    pen_begin ();
    bw_step_draw (cr, &layout);
    g_autofree char *fault = fault_in_step (&layout);
    if (fault && faults++ < 3)
      print_message ("step %u of kind %d, %d columns, %d rows: %s\n", i, (int)step->kind,
                     bw_project_get_design (project)->band.columns,
                     bw_project_get_design (project)->band.rows, fault);
    *told += pen_look_for ("F") != NULL;
    bw_step_layout_clear (&layout);
    cairo_destroy (cr);
    cairo_surface_destroy (surface);
  }
  bw_step_state_clear (&state);
  return faults;
}

static void
the_drawings_of_the_steps_keep_their_names_apart (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (505);
  int faults = 0, drawn = 0, told = 0;
  for (int i = 0; i < STONES; i++) {
    g_autoptr (BwProject) project = random_project (rand, i % 2 ? FEW_ROWS : USUAL_ROWS);
    faults += look_at_steps (project, i / 2 % 2, &drawn, &told);
  }
  assert_true (drawn > 5 * STONES && told > STONES);
  if (faults > 0)
    fail_msg ("%d of %d drawings", faults, drawn);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_strip_keeps_every_name_number_and_line_apart),
    cmocka_unit_test (the_sketches_of_the_stone_keep_their_labels_apart),
    cmocka_unit_test (the_bed_keeps_its_labels_apart),
    cmocka_unit_test (the_chart_keeps_its_numbers_apart),
    cmocka_unit_test (the_drawings_of_the_steps_keep_their_names_apart),
  };
  return cmocka_run_group_tests_name ("apart", tests, NULL, NULL);
}
