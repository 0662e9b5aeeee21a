/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawings of the steps: what is laid out is the path computed, bead by bead, and what the pen
 * draws, read back from cairo's SVG, is what is laid out. */
#include "core/pattern/tint.h"
#include "output/sheet/step-figure.h"
#include "sample.h"

#include <cairo-svg.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define WIDTH 400.0
#define HEIGHT 600.0
#define NEAR 0.05 /* points; cairo counts in 1/256 */

static BwProject *
project_of (const Sample *sample)
{
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

static cairo_status_t
append (void *closure, const unsigned char *data, unsigned int length)
{
  g_string_append_len (closure, (const char *)data, (gssize)length);
  return CAIRO_STATUS_SUCCESS;
}

static GString *
drawn (const BwStepLayout *layout)
{
  GString *svg = g_string_new (NULL);
  cairo_surface_t *surface
      = cairo_svg_surface_create_for_stream (append, svg, WIDTH + 40, HEIGHT + 40);
  cairo_t *cr = cairo_create (surface);
  bw_step_draw (cr, layout);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return svg;
}

/* What d="…" of a path holds, all of it lines; an array of BwVec2. */
static GArray *
points_of (const char *path)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (BwVec2));
  const char *at = strstr (path, " d=\"");
  assert_non_null (at);
  at += 4;
  while (*at != '"') {
    char *end;
    if (g_ascii_isalpha (*at) || *at == ' ') {
      assert_true (strchr ("MLZ ", *at));
      at++;
      continue;
    }
    double x = g_ascii_strtod (at, &end);
    BwVec2 point = bw_vec2 (x, g_ascii_strtod (end, &end));
    at = end;
    g_array_append_val (points, point);
  }
  return points;
}

/* The element that begins here without its blanks. Owned. */
static char *
packed (const char *at)
{
  GString *text = g_string_new (NULL);
  for (; *at && *at != '>'; at++)
    if (*at != ' ')
      g_string_append_c (text, *at);
  return g_string_free (text, FALSE);
}

/* Whether a property has this value, written as an attribute or in a style. */
static gboolean
has (const char *element, const char *property, const char *value)
{
  g_autofree char *attribute = g_strdup_printf ("%s=\"%s\"", property, value);
  g_autofree char *style = g_strdup_printf ("%s:%s;", property, value);
  return strstr (element, attribute) || strstr (element, style);
}

#define THREAD BW_TINT_RUST
#define CROSS BW_TINT_INK

/* Whether this property is the tint, as printed in parts of a hundred. */
static gboolean
has_tint (const char *element, const char *property, BwTint tint)
{
  g_autofree char *pattern
      = g_strdup_printf ("%s[=:]\"?rgb\\(([\\d.]+)%%,([\\d.]+)%%,([\\d.]+)%%", property);
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  if (!g_regex_match (regex, element, 0, &match))
    return FALSE;
  for (int part = 0; part < 3; part++) {
    g_autofree char *found = g_match_info_fetch (match, part + 1);
    if (fabs (g_ascii_strtod (found, NULL) - 100 * bw_tint_part (tint, FALSE, part)) > 0.1)
      return FALSE;
  }
  return TRUE;
}

typedef gboolean (*IsWanted) (const char *element);

static gboolean
is_thread (const char *element)
{
  return has_tint (element, "stroke", THREAD) && has (element, "stroke-width", "1.1")
         && !strchr (strstr (element, "d=\""), 'C');
}

static gboolean
is_cross (const char *element)
{
  return has_tint (element, "stroke", CROSS) && has (element, "stroke-width", "0.8");
}

/* The arrow head in a bead: three lines; the dot is curves. */
static gboolean
is_head (const char *element)
{
  return has_tint (element, "fill", THREAD) && !strchr (strstr (element, "d=\""), 'C');
}

/* The paths that are wanted, each as an array of BwVec2, in the order drawn. */
static GPtrArray *
paths_of (const char *svg, IsWanted is_wanted)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  for (const char *at = strstr (svg, "<path"); at; at = strstr (at + 1, "<path")) {
    g_autofree char *element = packed (at);
    if (is_wanted (element))
      g_ptr_array_add (paths, points_of (at));
  }
  return paths;
}

/* The strokes of the break mark are as thin as nothing else of the thread's colour. */
static gboolean
is_break (const char *element)
{
  return has_tint (element, "stroke", THREAD) && has (element, "stroke-width", "0.8")
         && !strchr (strstr (element, "d=\""), 'C');
}

/* Every step of a piece, laid out with what has happened before it. */
typedef void (*Look) (BwProject *project, const BwStep *step, const BwStepLayout *layout,
                      gpointer data);

static void
look_at_steps (BwProject *project, guint most, Look look, gpointer data)
{
  g_autoptr (GArray) steps = bw_steps_new (bw_project_path (project));
  BwStepState before;
  guint counted = 0;
  bw_step_state_init (&before, project);
  for (guint k = 0; k < MIN (most, steps->len); k++) {
    const BwStep *step = &g_array_index (steps, BwStep, k);
    BwStepLayout layout;
    bw_step_state_take (&before, project, counted, step->first);
    counted = step->first;
    bw_step_layout_init (&layout, project, step, &before, WIDTH, HEIGHT);
    assert_true (layout.height > 0 && layout.height <= HEIGHT + NEAR);
    assert_true (layout.width <= WIDTH + NEAR);
    look (project, step, &layout, data);
    bw_step_layout_clear (&layout);
  }
  bw_step_state_clear (&before);
}

static const BwVisit *
visit_of (BwProject *project, guint i)
{
  return &g_array_index (bw_project_path (project)->visits, BwVisit, i);
}

static BwVec2
point_of (const GArray *points, guint i)
{
  return g_array_index (points, BwVec2, i);
}

static BwVec2
middle_of (BwVec2 a, BwVec2 b)
{
  return bw_vec2_scale (bw_vec2_add (a, b), 0.5);
}

/* The uppermost bead under a point. */
static const BwStepBead *
bead_under (const BwStepLayout *layout, BwVec2 at)
{
  for (guint i = layout->beads->len; i-- > 0;) {
    const BwStepBead *bead = &g_array_index (layout->beads, BwStepBead, i);
    if (at.x > bead->x && at.x < bead->x + bead->width && at.y > bead->y
        && at.y < bead->y + bead->height)
      return bead;
  }
  return NULL;
}

static void
assert_is_visit (const BwStepBead *bead, const BwVisit *visit)
{
  assert_non_null (bead);
  assert_int_equal (bead->in_bail, visit->in_bail);
  assert_int_equal (bead->row, visit->row);
  assert_int_equal (bead->column, visit->column);
}

static gboolean
lies_across (BwProject *project, const BwStepBead *bead)
{
  return bead->in_bail && bw_project_get_design (project)->bail.style == BW_BAIL_UPRIGHT;
}

/* The pass goes from edge to edge of its bead, and towards higher columns where the needle does. */
static void
assert_pass (BwProject *project, const BwStepLayout *layout, const BwStepPass *pass,
             const BwVisit *visit)
{
  const BwStepBead *bead = bead_under (layout, middle_of (pass->in, pass->out));
  assert_is_visit (bead, visit);
  assert_int_equal (bead->role, visit->is_new ? BW_BEAD_NEW : BW_BEAD_PASSED);
  gboolean across = lies_across (project, bead);
  double along = across ? pass->in.x - pass->out.x : pass->in.y - pass->out.y;
  assert_int_equal (along > 0, visit->direction);
  assert_true (fabs (fabs (along) - (across ? bead->width : bead->height)) < NEAR);
}

/* It begins in the bead left before, or outside, and goes in and out of each in turn. */
static void
assert_thread (BwProject *project, const BwStep *step, const BwStepLayout *layout)
{
  BwVisit from;
  guint before = 0;
  BwStepBegin begin = bw_step_begin (bw_project_path (project), step, &from);
  assert_int_equal (layout->begin, begin);
  if (begin == BW_BEGIN_BEAD) {
    assert_is_visit (bead_under (layout, point_of (layout->thread, 0)), &from);
    before = 2;
  } else if (begin == BW_BEGIN_TAIL) {
    before = 1;
  }
  assert_int_equal (layout->thread->len, before + 2 * layout->passes->len + 1);
  for (guint i = 0; i < layout->passes->len; i++) {
    const BwStepPass *pass = &g_array_index (layout->passes, BwStepPass, i);
    BwVec2 in = point_of (layout->thread, before + 2 * i);
    BwVec2 out = point_of (layout->thread, before + 2 * i + 1);
    assert_true (hypot (in.x - pass->in.x, in.y - pass->in.y) < NEAR);
    assert_true (hypot (out.x - pass->out.x, out.y - pass->out.y) < NEAR);
  }
}

/* cairo keeps the far end alone of what goes straight on. */
static GArray *
straightened (const GArray *points)
{
  GArray *line = g_array_new (FALSE, FALSE, sizeof (BwVec2));
  for (guint i = 0; i < points->len; i++) {
    BwVec2 at = point_of (points, i);
    if (line->len > 1) {
      BwVec2 a = point_of (line, line->len - 2), b = point_of (line, line->len - 1);
      BwVec2 first = bw_vec2_sub (b, a), next = bw_vec2_sub (at, b);
      if (fabs (bw_vec2_cross (first, next)) < NEAR && bw_vec2_dot (first, next) > 0)
        g_array_set_size (line, line->len - 1);
    }
    g_array_append_val (line, at);
  }
  return line;
}

/* The pen draws the thread laid out, a head in each bead, and no more. */
static void
assert_drawn (const BwStepLayout *layout)
{
  g_autoptr (GString) svg = drawn (layout);
  g_autoptr (GPtrArray) lines = paths_of (svg->str, is_thread);
  g_autoptr (GPtrArray) heads = paths_of (svg->str, is_head);
  g_autoptr (GArray) line = straightened (layout->thread);
  assert_int_equal (lines->len, 1);
  g_autoptr (GArray) found = straightened (lines->pdata[0]);
  assert_int_equal (heads->len, layout->passes->len);
  assert_int_equal (found->len, line->len);
  for (guint i = 0; i < line->len; i++) {
    BwVec2 a = point_of (found, i), b = point_of (line, i);
    assert_true (hypot (a.x - b.x, a.y - b.y) < NEAR);
  }
}

static void
look_whether_it_is_the_path (BwProject *project, const BwStep *step, const BwStepLayout *layout,
                             gpointer data)
{
  assert_int_equal (layout->passes->len, step->n);
  assert_false (layout->in_part);
  for (guint i = 0; i < step->n; i++)
    assert_pass (project, layout, &g_array_index (layout->passes, BwStepPass, i),
                 visit_of (project, step->first + i));
  assert_thread (project, step, layout);
  assert_drawn (layout);
  ++*(int *)data;
}

static BwProject *
some_project (GRand *rand, int i)
{
  g_autoptr (Sample) sample
      = sample_new (rand, 2 * g_rand_int_range (rand, 3, 13), i % 6 == 5 ? 113 : 0, i % 4);
  sample->working_mm = i % 3 == 0 ? "900" : NULL;
  return project_of (sample);
}

static void
the_thread_drawn_is_the_path_computed (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (81);
  int looked_at = 0;
  for (int i = 0; i < 24; i++) {
    g_autoptr (BwProject) project = some_project (rand, i);
    look_at_steps (project, G_MAXUINT, look_whether_it_is_the_path, &looked_at);
  }
  assert_true (looked_at > 24 * 5);
}

/* Rows are half a pitch apart and columns a column, wherever the band's beads lie; round the join a
 * row may be a whole turn off. Between the feet of a strip the columns may be drawn apart. */
static void
look_whether_the_lattice_is_true (BwProject *project, const BwStep *step,
                                  const BwStepLayout *layout, gpointer data)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwStepBead *first = &g_array_index (layout->beads, BwStepBead, 0);
  double tall = 2 * layout->unit * design->gauge.column_mm / design->gauge.pitch_mm;
  for (guint i = 1; i < layout->beads->len; i++) {
    const BwStepBead *bead = &g_array_index (layout->beads, BwStepBead, i);
    if (bead->in_bail != first->in_bail)
      continue;
    gboolean across = lies_across (project, bead);
    double columns = across ? (first->x - bead->x) / tall : (first->y - bead->y) / tall;
    double rows = (across ? first->y - bead->y : bead->x - first->x) / layout->unit;
    double off = remainder (rows - (bead->row - first->row), design->band.rows);
    assert_true (fabs ((across ? bead->height : bead->width) - 2 * layout->unit) < NEAR);
    assert_true (fabs ((across ? bead->width : bead->height) - tall) < NEAR);
    if (layout->is_cut)
      continue;
    assert_true (fabs (columns - (bead->column - first->column)) < NEAR);
    assert_true (fabs (off) < NEAR);
    ++*(int *)data;
  }
}

static void
beads_lie_as_they_are_woven (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (84);
  int looked_at = 0;
  for (int i = 0; i < 12; i++) {
    g_autoptr (BwProject) project = some_project (rand, i);
    look_at_steps (project, G_MAXUINT, look_whether_the_lattice_is_true, &looked_at);
  }
  assert_true (looked_at > 1000);
}

/* A label and the beads of its own lattice it stands beside. */
static void
assert_label (BwProject *project, const BwStepLayout *layout, const BwStepLabel *label)
{
  for (guint i = 0; i < layout->beads->len; i++) {
    const BwStepBead *bead = &g_array_index (layout->beads, BwStepBead, i);
    if (bead->in_bail != label->in_bail)
      continue;
    gboolean across = lies_across (project, bead);
    double x = bead->x + bead->width / 2, y = bead->y + bead->height / 2;
    gboolean beside = fabs (label->is_row == across ? y - label->y : x - label->x) < NEAR;
    g_autofree char *number = g_strdup_printf ("%d", label->is_row ? bead->row : bead->column);
    if (beside && g_ascii_isdigit (*label->text))
      assert_string_equal (label->text, number);
    else if (g_str_equal (label->text, number))
      assert_true (beside);
  }
}

static void
look_at_labels (BwProject *project, const BwStep *step, const BwStepLayout *layout, gpointer data)
{
  int *of_bail = data;
  for (guint i = 0; i < layout->labels->len; i++) {
    const BwStepLabel *label = &g_array_index (layout->labels, BwStepLabel, i);
    assert_label (project, layout, label);
    *of_bail += label->in_bail && !label->is_row;
  }
}

/* The bail's columns count on the bail, the band's on the band. */
static void
every_number_stands_beside_what_it_counts (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (85);
  int of_bail = 0;
  for (int i = 1; i < 12; i++) {
    g_autoptr (BwProject) project = some_project (rand, i);
    look_at_steps (project, G_MAXUINT, look_at_labels, &of_bail);
  }
  assert_true (of_bail > 50);
}

typedef struct {
  int sewings, both_ends;
} Strip;

static void
look_at_strip (BwProject *project, const BwStep *step, const BwStepLayout *layout, gpointer data)
{
  Strip *strip = data;
  int rows = bw_project_get_design (project)->bail.rows;
  gboolean low = FALSE, high = FALSE, band = FALSE;
  if (step->kind != BW_STEP_ATTACHMENT)
    return;
  strip->sewings++;
  for (guint i = 0; i < layout->beads->len; i++) {
    const BwStepBead *bead = &g_array_index (layout->beads, BwStepBead, i);
    band |= !bead->in_bail;
    low |= bead->in_bail && bead->row == 1;
    high |= bead->in_bail && bead->row == rows;
  }
  assert_true (band && low);
  strip->both_ends += low && high && layout->sewn->len >= 2;
}

/* The first end and the last: the drawing of the last shows both, and the thread that holds the
 * first. */
static void
a_strip_is_drawn_on_the_band_with_both_its_ends_sewn (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (86);
  for (int i = 0; i < 6; i++) {
    Strip strip = { 0 };
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 4, 10), 0, SAMPLE_UPRIGHT);
    g_autoptr (BwProject) project = project_of (sample);
    look_at_steps (project, G_MAXUINT, look_at_strip, &strip);
    assert_int_equal (strip.sewings, 4);
    assert_int_equal (strip.both_ends, 2);
  }
}

static void
look_at_beginning (BwProject *project, const BwStep *step, const BwStepLayout *layout,
                   gpointer data)
{
  g_autoptr (GString) svg = drawn (layout);
  g_autoptr (GPtrArray) marks = paths_of (svg->str, is_break);
  assert_int_equal (step->n, 40);
  assert_true (layout->in_part);
  assert_int_equal (layout->passes->len, 16);
  for (guint i = 0; i < layout->passes->len; i++)
    assert_pass (project, layout, &g_array_index (layout->passes, BwStepPass, i),
                 visit_of (project, step->first + i));
  assert_int_equal (marks->len, 1);
}

/* Across more columns than can be drawn, the beginning is the path's, and ends in a break. */
static void
a_pass_across_a_wide_band_is_drawn_from_its_beginning (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (82);
  g_autoptr (Sample) sample = sample_new (rand, 40, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  look_at_steps (project, 3, look_at_beginning, NULL);
}

static void
look_at_crosses (BwProject *project, const BwStep *step, const BwStepLayout *layout, gpointer data)
{
  g_autoptr (GString) svg = drawn (layout);
  g_autoptr (GPtrArray) paths = paths_of (svg->str, is_cross);
  *(int *)data += (int)paths->len;
}

/* The crosses of all drawings of a piece whose needle is so thick. */
static int
crosses (const char *needle_mm)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (83);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  g_autoptr (BwProject) project = project_of (sample);
  BwDesign design = *bw_project_get_design (project);
  design.thread.needle_mm = g_ascii_strtod (needle_mm, NULL);
  assert_true (bw_project_set_design (project, "", &design, NULL));
  int n = 0;
  look_at_steps (project, G_MAXUINT, look_at_crosses, &n);
  return n;
}

static void
full_holes_are_crossed_out_and_no_others (void **state)
{
  assert_int_equal (crosses ("0.3"), 0);
  assert_true (crosses ("0.64") > 10);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_thread_drawn_is_the_path_computed),
    cmocka_unit_test (beads_lie_as_they_are_woven),
    cmocka_unit_test (every_number_stands_beside_what_it_counts),
    cmocka_unit_test (a_strip_is_drawn_on_the_band_with_both_its_ends_sewn),
    cmocka_unit_test (a_pass_across_a_wide_band_is_drawn_from_its_beginning),
    cmocka_unit_test (full_holes_are_crossed_out_and_no_others),
  };
  return cmocka_run_group_tests_name ("steps", tests, NULL, NULL);
}
