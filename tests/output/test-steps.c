/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawings of the steps read back from cairo's SVG: the thread drawn is the path computed, bead
 * by bead, and the holes that are full are crossed out. */
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
drawn (BwProject *project, const BwStep *step, const BwStepState *state)
{
  GString *svg = g_string_new (NULL);
  cairo_surface_t *surface
      = cairo_svg_surface_create_for_stream (append, svg, WIDTH + 40, HEIGHT + 40);
  cairo_t *cr = cairo_create (surface);
  double height = bw_step_draw (cr, project, step, state, WIDTH, HEIGHT);
  assert_true (height > 0 && height <= HEIGHT);
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

/* The needle in one bead, as its arrow head tells. */
typedef struct {
  double x, y; /* the bead's middle */
  gboolean up;
} Pass;

static GArray *
passes_of (const char *svg)
{
  g_autoptr (GPtrArray) heads = paths_of (svg, is_head);
  GArray *passes = g_array_new (FALSE, FALSE, sizeof (Pass));
  for (guint i = 0; i < heads->len; i++) {
    const BwVec2 *point = (const BwVec2 *)(gconstpointer)((GArray *)heads->pdata[i])->data;
    /* The tip lies a size beyond the middle, the other two 0.8 sizes before it. */
    double size = (point[0].y - point[1].y) / 1.8;
    Pass pass = { point[0].x, point[0].y - size, size < 0 };
    g_array_append_val (passes, pass);
  }
  return passes;
}

typedef struct {
  const BwDesign *design;
  const BwVisit *visit;
  const Pass *pass; /* one a visit */
  guint n;
  double tall, unit; /* of a column; of half a pitch */
  gboolean closed;
} Drawing;

static double
column_on_band (const Drawing *drawing, guint i)
{
  int aside = drawing->design->band.columns - drawing->design->bail.columns;
  return drawing->visit[i].column + (drawing->visit[i].in_bail ? aside / 2.0 : 0);
}

/* A bead passed again in one step has its threads side by side, 0.35 half pitches apart. */
static int
times_before (const Drawing *drawing, guint i)
{
  int n = 0;
  for (guint k = 0; k < i; k++)
    n += drawing->visit[k].row == drawing->visit[i].row
         && drawing->visit[k].column == drawing->visit[i].column
         && drawing->visit[k].in_bail == drawing->visit[i].in_bail;
  return n;
}

/* How high a column is drawn, from the two passes farthest apart. */
static void
find_scale (Drawing *drawing)
{
  double most = 0.1;
  for (guint i = 1; i < drawing->n; i++) {
    double columns = column_on_band (drawing, i) - column_on_band (drawing, 0);
    if (fabs (columns) <= most)
      continue;
    most = fabs (columns);
    drawing->tall = (drawing->pass[0].y - drawing->pass[i].y) / columns;
  }
  assert_true (drawing->tall > 2);
  drawing->unit
      = drawing->tall / 2 * drawing->design->gauge.pitch_mm / drawing->design->gauge.column_mm;
}

/* Where visit i lies against the first of its own lattice, and in height against the first. */
static void
assert_place (const Drawing *drawing, guint i)
{
  const BwVisit *visit = &drawing->visit[i];
  const Pass *pass = &drawing->pass[i];
  double columns = column_on_band (drawing, i) - column_on_band (drawing, 0);
  assert_true (fabs (drawing->pass[0].y - pass->y - columns * drawing->tall) < NEAR);
  assert_int_equal (pass->up, visit->direction == 1);
  guint k = 0;
  while (drawing->visit[k].in_bail != visit->in_bail)
    k++;
  double aside = 0.35 * (times_before (drawing, i) - times_before (drawing, k));
  double rows = (pass->x - drawing->pass[k].x) / drawing->unit - aside;
  double wrong = rows - (visit->row - drawing->visit[k].row);
  if (drawing->closed && !visit->in_bail)
    wrong = remainder (wrong, drawing->design->band.rows);
  assert_true (fabs (wrong) * drawing->unit < NEAR);
}

static void
add_point (GArray *line, double x, double y)
{
  BwVec2 point = bw_vec2 (x, y);
  guint n = line->len;
  const BwVec2 *last = n > 0 ? &g_array_index (line, BwVec2, n - 1) : NULL;
  /* Straight on: cairo keeps the far end alone. */
  if (n > 1 && fabs (last->x - x) < NEAR && fabs (last[-1].x - x) < NEAR
      && (last->y - last[-1].y) * (y - last->y) > 0)
    g_array_set_size (line, n - 1);
  g_array_append_val (line, point);
}

/* In at one edge of every bead and out at the other, with a stub at the end and, but on the very
 * first, at the beginning. */
static GArray *
line_through (const Drawing *drawing, gboolean begins)
{
  GArray *line = g_array_new (FALSE, FALSE, sizeof (BwVec2));
  double half = drawing->tall / 2;
  for (guint i = 0; i < drawing->n; i++) {
    const Pass *pass = &drawing->pass[i];
    double way = pass->up ? -1 : 1;
    if (i == 0 && !begins)
      add_point (line, pass->x, pass->y - way * (half + 6));
    add_point (line, pass->x, pass->y - way * half);
    add_point (line, pass->x, pass->y + way * half);
    if (i + 1 == drawing->n)
      add_point (line, pass->x, pass->y + way * (half + 6));
  }
  return line;
}

static void
assert_same_line (const GArray *drawn_line, const GArray *line)
{
  assert_int_equal (drawn_line->len, line->len);
  for (guint i = 0; i < line->len; i++) {
    BwVec2 a = g_array_index (drawn_line, BwVec2, i), b = g_array_index (line, BwVec2, i);
    assert_true (hypot (a.x - b.x, a.y - b.y) < NEAR);
  }
}

/* The first n visits of a step. */
static void
assert_step_is_the_path (BwProject *project, const BwStep *step, const BwStepState *state, guint n)
{
  g_autoptr (GString) svg = drawn (project, step, state);
  g_autoptr (GArray) passes = passes_of (svg->str);
  g_autoptr (GPtrArray) lines = paths_of (svg->str, is_thread);
  Drawing drawing
      = { .design = bw_project_get_design (project),
          .visit = &g_array_index (bw_project_path (project)->visits, BwVisit, step->first),
          .pass = (const Pass *)(gconstpointer)passes->data,
          .n = n,
          .closed = state->closed || step->kind == BW_STEP_ZIP };
  assert_int_equal (passes->len, n);
  find_scale (&drawing);
  for (guint i = 0; i < n; i++)
    assert_place (&drawing, i);
  g_autoptr (GArray) line = line_through (&drawing, step->first == 0);
  /* The stopper's tail is a line of its own. */
  assert_int_equal (lines->len, 1);
  assert_same_line (lines->pdata[0], line);
}

static void
the_thread_drawn_is_the_path_computed (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (81);
  for (int i = 0; i < 24; i++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 3, 13), i % 6 == 5 ? 113 : 0, i % 4);
    sample->working_mm = i % 3 == 0 ? "900" : NULL;
    g_autoptr (BwProject) project = project_of (sample);
    g_autoptr (GArray) steps = bw_steps_new (bw_project_path (project));
    BwStepState before;
    guint counted = 0;
    bw_step_state_init (&before, project);
    assert_true (steps->len > 4);
    for (guint k = 0; k < steps->len; k++) {
      const BwStep *step = &g_array_index (steps, BwStep, k);
      bw_step_state_take (&before, project, counted, step->first);
      counted = step->first;
      assert_step_is_the_path (project, step, &before, step->n);
    }
    bw_step_state_clear (&before);
  }
}

/* Across more columns than can be drawn, the beginning is the path's. */
static void
a_pass_across_a_wide_band_is_drawn_from_its_beginning (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (82);
  g_autoptr (Sample) sample = sample_new (rand, 40, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  g_autoptr (GArray) steps = bw_steps_new (bw_project_path (project));
  BwStepState before;
  guint counted = 0;
  bw_step_state_init (&before, project);
  for (guint k = 0; k < 3; k++) {
    BwStep step = g_array_index (steps, BwStep, k);
    bw_step_state_take (&before, project, counted, step.first);
    counted = step.first;
    assert_int_equal (step.n, 40);
    assert_step_is_the_path (project, &step, &before, 16);
  }
  bw_step_state_clear (&before);
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
  g_autoptr (GArray) steps = bw_steps_new (bw_project_path (project));
  BwStepState before;
  guint counted = 0;
  int n = 0;
  bw_step_state_init (&before, project);
  for (guint k = 0; k < steps->len; k++) {
    const BwStep *step = &g_array_index (steps, BwStep, k);
    bw_step_state_take (&before, project, counted, step->first);
    counted = step->first;
    g_autoptr (GString) svg = drawn (project, step, &before);
    g_autoptr (GPtrArray) paths = paths_of (svg->str, is_cross);
    n += (int)paths->len;
  }
  bw_step_state_clear (&before);
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
    cmocka_unit_test (a_pass_across_a_wide_band_is_drawn_from_its_beginning),
    cmocka_unit_test (full_holes_are_crossed_out_and_no_others),
  };
  return cmocka_run_group_tests_name ("steps", tests, NULL, NULL);
}
