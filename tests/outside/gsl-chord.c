/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bounds of both searches are Schur's: the curve bends nowhere more than a circle of radius ρ,
 * so an arc over a chord s is at least s and at most 2ρ asin(s/2ρ). */
#include "gsl-chord.h"

#include <glib.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>

typedef struct {
  const BwSection *section;
  double rho, length;
  int n;
  double start, within;
  BwVec2 from; /* the bead whose neighbour is sought */
  double s;
} Problem;

static BwVec2
normal_at (double angle)
{
  return bw_vec2 (cos (angle), sin (angle));
}

/* The curve by arc length, straight runs and arcs in turn. */
static BwVec2
curve (const Problem *problem, double u)
{
  const BwSection *section = problem->section;
  double turn = 2 * G_PI / section->edges, arc = problem->rho * turn;
  u = fmod (u, problem->length);
  if (u < 0)
    u += problem->length;
  for (int i = 0; i < section->edges; i++) {
    BwVec2 a = section->corner[(i + section->edges - 1) % section->edges], b = section->corner[i];
    double width = bw_vec2_length (bw_vec2_sub (b, a));
    BwVec2 normal = normal_at (turn * i);
    if (u <= width) {
      BwVec2 foot = bw_vec2_add (a, bw_vec2_scale (bw_vec2_sub (b, a), u / width));
      return bw_vec2_add (foot, bw_vec2_scale (normal, problem->rho));
    }
    u -= width;
    if (u <= arc || i + 1 == section->edges)
      return bw_vec2_add (b, bw_vec2_scale (normal_at (turn * i + u / problem->rho), problem->rho));
    u -= arc;
  }
  g_assert_not_reached ();
}

static double
find_root (double (*f) (double, void *), Problem *problem, double lo, double hi)
{
  gsl_root_fsolver *solver = gsl_root_fsolver_alloc (gsl_root_fsolver_brent);
  gsl_function function = { f, problem };
  gsl_root_fsolver_set (solver, &function, lo, hi);
  for (int k = 0; k < 200; k++) {
    gsl_root_fsolver_iterate (solver);
    lo = gsl_root_fsolver_x_lower (solver);
    hi = gsl_root_fsolver_x_upper (solver);
    if (gsl_root_test_interval (lo, hi, problem->within * problem->s * 0.1, 0) == GSL_SUCCESS)
      break;
  }
  double root = gsl_root_fsolver_root (solver);
  gsl_root_fsolver_free (solver);
  return root;
}

static double
beyond_chord (double u, void *data)
{
  const Problem *problem = data;
  return bw_vec2_length (bw_vec2_sub (curve (problem, u), problem->from)) - problem->s;
}

static double
longest_arc (const Problem *problem)
{
  return 2 * problem->rho * asin (MIN (problem->s / (2 * problem->rho), 1));
}

static double
beyond_turn (double s, void *data)
{
  Problem *problem = data;
  double u = problem->start, margin = 1e-6 * s;
  problem->s = s;
  for (int k = 0; k < problem->n; k++) {
    problem->from = curve (problem, u);
    u = find_root (beyond_chord, problem, u + s - margin, u + longest_arc (problem) + margin);
  }
  return u - problem->start - problem->length;
}

double
gsl_chord (const BwSection *section, double rho, int n, double start, double within)
{
  Problem problem = { .section = section, .rho = rho, .n = n, .start = start, .within = within };
  problem.length = section->girth_mm + 2 * G_PI * rho;
  double arc = problem.length / n;
  double lo = 2 * rho * sin (MIN (arc / (2 * rho), G_PI / 2)), hi = arc;
  problem.s = lo;
  return find_root (beyond_turn, &problem, lo * (1 - 1e-9), MIN (hi, 2 * rho));
}
