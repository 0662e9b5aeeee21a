/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ring and fit, found another way. The bead-centre curve is drawn as a dense polyline: the farthest
 * corner of the section in each direction, moved out in that direction (the support function of a
 * sum of convex bodies: P. M. Gruber, Convex and Discrete Geometry, Springer 2007, §4). Beads are
 * walked round it stretch by stretch, and the chord that closes is found by halving. The program
 * instead walks straight pieces and arcs in closed form. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "core/band/fit.h"
#include "core/band/ring.h"
#include "core/stone/section.h"

#define POINTS 8000

typedef struct {
  BwVec2 at[POINTS + 1]; /* the last is the first again */
  double u[POINTS + 1];  /* length from the first */
} Line;

static void
draw (Line *line, const BwSection *section, double rho)
{
  line->u[0] = 0;
  for (int k = 0; k <= POINTS; k++) {
    double angle = 2 * G_PI * (k % POINTS) / POINTS + 1e-4;
    BwVec2 n = bw_vec2 (cos (angle), sin (angle)), far = section->corner[0];
    for (int i = 1; i < section->edges; i++)
      if (bw_vec2_dot (section->corner[i], n) > bw_vec2_dot (far, n))
        far = section->corner[i];
    line->at[k] = bw_vec2_add (far, bw_vec2_scale (n, rho));
    if (k > 0)
      line->u[k] = line->u[k - 1] + bw_vec2_length (bw_vec2_sub (line->at[k], line->at[k - 1]));
  }
}

/* A walker on the polyline: on stretch k (modulo POINTS), having gone u in all. */
typedef struct {
  int k;
  double u;
  BwVec2 at;
} Walker;

static Walker
stand_at (const Line *line, double u)
{
  double length = line->u[POINTS], rest = u - floor (u / length) * length;
  int low = 0, high = POINTS;
  while (high - low > 1) {
    int middle = (low + high) / 2;
    *(line->u[middle] <= rest ? &low : &high) = middle;
  }
  double share = (rest - line->u[low]) / (line->u[low + 1] - line->u[low]);
  BwVec2 step = bw_vec2_sub (line->at[low + 1], line->at[low]);
  return (Walker){ low, rest, bw_vec2_add (line->at[low], bw_vec2_scale (step, share)) };
}

/* On to the first later point at distance s; FALSE when a whole turn holds none. */
static gboolean
walk (const Line *line, Walker *walker, double s)
{
  BwVec2 from = walker->at;
  double here = walker->u;
  for (int tried = 0; tried <= POINTS; tried++) {
    BwVec2 end = line->at[walker->k % POINTS + 1], begin = walker->at;
    BwVec2 run = bw_vec2_sub (end, begin), off = bw_vec2_sub (begin, from);
    double stretch = bw_vec2_length (run);
    if (bw_vec2_length (bw_vec2_sub (end, from)) >= s) {
      double a = bw_vec2_dot (run, run), b = bw_vec2_dot (off, run);
      double c = bw_vec2_dot (off, off) - s * s;
      double share = (-b + sqrt (MAX (b * b - a * c, 0))) / a;
      walker->at = bw_vec2_add (begin, bw_vec2_scale (run, share));
      walker->u = here + share * stretch;
      return TRUE;
    }
    here += stretch;
    walker->at = end;
    walker->k++;
    if (walker->k % POINTS == 0)
      walker->at = line->at[0];
  }
  return FALSE;
}

static gboolean
goes_round (const Line *line, int n, double start, double s)
{
  Walker walker = stand_at (line, start);
  double goal = walker.u + line->u[POINTS];
  for (int i = 0; i < n; i++)
    if (!walk (line, &walker, s) || walker.u >= goal)
      return TRUE;
  return FALSE;
}

static double
chord_by_halving (const Line *line, int n, double start)
{
  double low = 0, high = line->u[POINTS] / n * (1 + 1e-9);
  for (int i = 0; i < 44; i++) {
    double middle = (low + high) / 2;
    *(goes_round (line, n, start, middle) ? &high : &low) = middle;
  }
  return (low + high) / 2;
}

static double
meet_ray (const Line *line, BwVec2 origin, double azimuth)
{
  BwVec2 ray = bw_vec2 (cos (azimuth), sin (azimuth));
  for (int k = 0; k < POINTS; k++) {
    BwVec2 a = bw_vec2_sub (line->at[k], origin), b = bw_vec2_sub (line->at[k + 1], origin);
    double before = bw_vec2_cross (ray, a), after = bw_vec2_cross (ray, b);
    if (before <= 0 && after > 0 && bw_vec2_dot (ray, bw_vec2_add (a, b)) > 0)
      return line->u[k] + (line->u[k + 1] - line->u[k]) * -before / (after - before);
  }
  fail_msg ("the ray misses the curve");
  return 0;
}

static double
mean_chord (const Line *line, int n, double seam_deg)
{
  double start = meet_ray (line, bw_vec2 (0, 0), bw_radians (seam_deg));
  return (chord_by_halving (line, n, start)
          + chord_by_halving (line, n, start + line->u[POINTS] / (2 * n)))
         / 2;
}

/* Random stones from three-sided to eight-sided, and lopsided six-sided ones. */
static void
random_design (BwDesign *d, BwStone *stone, GRand *dice)
{
  do {
    bw_design_defaults (d);
    gboolean flats = g_rand_boolean (dice);
    d->stone.faces = flats ? 6 : g_rand_int_range (dice, 3, 9);
    d->stone.measured = flats ? BW_MEASURED_ACROSS_FLATS : BW_MEASURED_GIRTH;
    d->stone.values_mm[0]
        = flats ? g_rand_double_range (dice, 9, 28) : g_rand_double_range (dice, 25, 90);
    for (int i = 1; i < 3; i++)
      d->stone.values_mm[i] = g_rand_double_range (dice, 9, 28);
    d->stone.at_mm = 5;
    d->stone.length_mm = 60;
    d->stone.has_shoulder = TRUE;
    d->stone.shoulder_mm = 40;
    d->bead = (BwBead){ "", 1.6, 1.3, 0.8, 2.5 };
    d->gauge = (BwGauge){ .column_mm = 1.3, .pitch_mm = g_rand_double_range (dice, 1.4, 1.8) };
    d->pitch = (BwPitch){ d->gauge.pitch_mm, 0.02 };
    d->bed.layers = g_rand_int_range (dice, 0, 3);
    d->bed.top_extra_mm = g_rand_double_range (dice, 0, 0.3);
    d->band
        = (BwBand){ 4, 80, g_rand_double_range (dice, 2, 30), g_rand_double_range (dice, 0, 360) };
    d->stone.has_second = TRUE;
    d->stone.second_at_mm = 35;
    BwStone plain;
    d->stone.second_girth_mm = 60;
    if (!bw_stone_init (&plain, &d->stone, NULL))
      continue;
    d->stone.second_girth_mm = plain.girth_mm * g_rand_double_range (dice, 0.85, 1.1);
  } while (!bw_design_validate (d, stone, NULL));
}

/* One column as a section and the two thicknesses under its bead centres. */
static void
lay_column (const BwDesign *d, const BwStone *stone, int c, BwSection *section, double *relaxed,
            double *squeezed)
{
  double z = d->band.bottom_mm + (c - 0.5) * d->gauge.column_mm;
  double share = (c - 0.5) / d->band.columns;
  double t = d->bed.layers * d->bed.cord_thickness_mm + share * d->bed.top_extra_mm;
  bw_section_init (section, stone, z);
  *relaxed = t + d->bead.diameter_mm / 2;
  *squeezed = t * (1 - d->bed.squeeze) + d->bead.diameter_mm / 2;
}

static void
assert_near (double a, double b, double by)
{
  if (!(fabs (a - b) <= by))
    fail_msg ("%.10g is not %.10g", a, b);
}

static void
lengths_and_chords_agree (void **state)
{
  GRand *dice = g_rand_new_with_seed (41);
  g_autofree Line *line = g_new (Line, 1);
  for (int i = 0; i < 60; i++) {
    BwDesign d;
    BwStone stone;
    BwSection section;
    BwRing ring;
    double relaxed, squeezed;
    random_design (&d, &stone, dice);
    lay_column (&d, &stone, 2, &section, &relaxed, &squeezed);
    draw (line, &section, relaxed);
    bw_ring_init (&ring, &section, relaxed);
    assert_near (ring.length_mm, line->u[POINTS], 1e-6 * ring.length_mm);
    int n = g_rand_int_range (dice, 8, 60);
    if (ring.length_mm / n > 2 * relaxed)
      continue;
    double mean = bw_ring_chord_mean (&ring, n, bw_ring_ray (&ring, bw_radians (d.band.seam_deg)));
    assert_near (mean, mean_chord (line, n, d.band.seam_deg), 2e-6);
  }
  g_rand_free (dice);
}

static void
points_of_the_ring_lie_on_the_polyline (void **state)
{
  GRand *dice = g_rand_new_with_seed (42);
  g_autofree Line *line = g_new (Line, 1);
  for (int i = 0; i < 40; i++) {
    BwDesign d;
    BwStone stone;
    BwSection section;
    BwRing ring;
    double relaxed, squeezed;
    random_design (&d, &stone, dice);
    lay_column (&d, &stone, 1, &section, &relaxed, &squeezed);
    draw (line, &section, relaxed);
    bw_ring_init (&ring, &section, relaxed);
    double own = bw_ring_ray (&ring, 1), drawn = meet_ray (line, bw_vec2 (0, 0), 1);
    for (int k = 0; k < 200; k++) {
      double u = g_rand_double_range (dice, -1, 2) * ring.length_mm;
      BwVec2 a = bw_ring_point (&ring, own + u).at, b = stand_at (line, drawn + u).at;
      assert_near (bw_vec2_length (bw_vec2_sub (a, b)), 0, 1e-4);
    }
  }
  g_rand_free (dice);
}

/* Gap, pull and whether a column closes, from the definition; a chord within a hair of the limit
 * decides nothing. */
static gboolean
check_column (const BwDesign *d, const BwStone *stone, const BwFitColumn *column, int n, Line *line)
{
  BwSection section;
  double relaxed, squeezed, p = d->pitch.mm, e = d->thread.stretch;
  lay_column (d, stone, column->column, &section, &relaxed, &squeezed);
  draw (line, &section, relaxed);
  double chord = mean_chord (line, n, d->band.seam_deg);
  draw (line, &section, squeezed);
  double pulled = mean_chord (line, n, d->band.seam_deg);
  assert_near (column->chord_mm, chord, 2e-6);
  assert_near (column->gap_mm, n * (chord - p), n * 2e-6);
  assert_near (column->pull_mm, n * (chord - pulled) + e * n * p, n * 4e-6);
  if (fabs (pulled - (1 + e) * p) > 1e-5)
    assert_int_equal (column->closes, pulled <= (1 + e) * p);
  if (fabs (column->gap_mm + d->limits.slack_mm) > 1e-3)
    assert_int_equal (column->grips, n * (chord - p) >= -d->limits.slack_mm);
  return column->closes;
}

/* At the recommended count every column closes; at one bead fewer some column does not. */
static void
the_recommended_count_is_the_least_that_closes (void **state)
{
  GRand *dice = g_rand_new_with_seed (43);
  g_autofree Line *line = g_new (Line, 1);
  for (int i = 0; i < 25; i++) {
    BwDesign d;
    BwStone stone;
    random_design (&d, &stone, dice);
    int n = bw_fit_recommended (&d, &stone), closing[2] = { 0 };
    for (int fewer = 0; fewer < 2; fewer++) {
      BwFit fit;
      bw_fit_init (&fit, &d, &stone, 2 * (n - fewer));
      for (int c = 0; c < fit.n_columns; c++)
        closing[fewer] += check_column (&d, &stone, &fit.column[c], n - fewer, line);
    }
    assert_int_equal (closing[0], 4);
    assert_true (closing[1] < 4);
  }
  g_rand_free (dice);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (lengths_and_chords_agree),
    cmocka_unit_test (points_of_the_ring_lie_on_the_polyline),
    cmocka_unit_test (the_recommended_count_is_the_least_that_closes),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
