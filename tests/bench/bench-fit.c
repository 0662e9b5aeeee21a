/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time of what runs on every edit: the stone, the whole fit with its forecast and remedies, the
 * join of a large drawing; and of the fit's chords against a general bracketing root finder on the
 * same curves (GNU Scientific Library 2.7, Brent–Dekker). Fails when one is too slow for a drag. */
#include "core/band/fit.h"
#include "core/band/forecast.h"
#include "core/band/join.h"
#include "core/base/lattice.h"
#include "core/band/remedy.h"
#include "core/band/ring.h"
#include "gsl-chord.h"
#include "samples.h"
#include <stdio.h>

typedef struct {
  BwDesign design;
  BwStone stone;
  BwDrawing *drawing;
  double sum; /* of every answer, so that none is left out */
} Bench;

typedef void (*Work) (Bench *bench);

/* Milliseconds of one call: the least of several batches, which other programs disturb least. */
static double
time_of (Work work, Bench *bench, int calls)
{
  gint64 least = G_MAXINT64;
  for (int batch = 0; batch < 7; batch++) {
    gint64 begin = g_get_monotonic_time ();
    for (int k = 0; k < calls; k++)
      work (bench);
    least = MIN (least, g_get_monotonic_time () - begin);
  }
  return (double)least / 1e3 / calls;
}

static void
solve_stone (Bench *bench)
{
  if (!bw_stone_init (&bench->stone, &bench->design.stone, NULL))
    g_error ("the sample stone cannot be solved");
  bench->sum += bench->stone.mass_g;
}

static void
fit_alone (Bench *bench)
{
  BwFit fit;
  bw_fit_init (&fit, &bench->design, &bench->stone, bench->design.band.rows);
  bench->sum += fit.gap_max_mm;
}

static void
forecast_alone (Bench *bench)
{
  BwForecast forecast;
  bw_forecast_init (&forecast, &bench->design, &bench->stone);
  bench->sum += forecast.p_total;
}

static void
remedies_alone (Bench *bench)
{
  int n_sizes;
  const BwBead *sizes = bw_bead_sizes (&n_sizes);
  g_autoptr (GArray) remedies = bw_remedies (&bench->design, &bench->stone, sizes, n_sizes);
  bench->sum += remedies->len;
}

static void
fit_whole (Bench *bench)
{
  fit_alone (bench);
  forecast_alone (bench);
  remedies_alone (bench);
}

static void
join_large (Bench *bench)
{
  bench->sum += bw_join_repeat (bench->drawing);
}

/* The chords of the fit: each column relaxed and squeezed, from both starts. */
typedef double (*Chord) (const BwSection *section, double rho, int n, double start);

static double
chord_here (const BwSection *section, double rho, int n, double start)
{
  BwRing ring;
  bw_ring_init (&ring, section, rho);
  return bw_ring_chord (&ring, n, start);
}

static double
chord_general (const BwSection *section, double rho, int n, double start)
{
  return gsl_chord (section, rho, n, start, 1e-9);
}

static double
sum_chords (const Bench *bench, Chord chord)
{
  const BwDesign *design = &bench->design;
  BwBedding bedding;
  double sum = 0;
  int n = design->band.rows / 2;
  if (!bw_bedding_init (&bedding, &design->bed, &bench->stone, bw_design_span (design), NULL))
    g_error ("the sample bed cannot be solved");
  for (int c = 1; c <= design->band.columns; c++) {
    double z = design->band.bottom_mm + (c - 0.5) * design->gauge.column_mm;
    double bead = design->bead.diameter_mm / 2;
    double rho[]
        = { bw_bedding_thickness (&bedding, z) + bead, bw_bedding_squeezed (&bedding, z) + bead };
    BwSection section;
    bw_section_init (&section, &bench->stone, z);
    for (int i = 0; i < 2; i++)
      sum += chord (&section, rho[i], n, 40) + chord (&section, rho[i], n, 40.8);
  }
  return sum;
}

static void
chords_here (Bench *bench)
{
  bench->sum += sum_chords (bench, chord_here);
}

static void
chords_general (Bench *bench)
{
  bench->sum += sum_chords (bench, chord_general);
}

/* The worst drawing for a search: the same almost to the end. */
static BwDrawing *
large_drawing (void)
{
  BwDrawing *drawing = bw_drawing_new (60, 2000, 0);
  for (int row = 2; row <= 2000; row += 2)
    bw_drawing_set (drawing, row, bw_lattice_column (row, 29), 1);
  bw_drawing_set (drawing, 1999, bw_lattice_column (1999, 29), 2);
  return drawing;
}

/* Prints a time beside its limit; returns whether it is too long. */
static int
report (const char *what, double ms, double limit_ms)
{
  printf ("%-46s %9.4f ms", what, ms);
  if (limit_ms > 0)
    printf ("   at most %g ms", limit_ms);
  printf ("\n");
  return limit_ms > 0 && ms > limit_ms;
}

int
main (void)
{
  Bench bench = { .design = sample_design (), .drawing = large_drawing () };
  sample_solve (&bench.design, &bench.stone);
  int slow = report ("stone", time_of (solve_stone, &bench, 200), 0.2);
  report ("fit, 14 columns of 57 beads", time_of (fit_alone, &bench, 20), 0);
  report ("forecast", time_of (forecast_alone, &bench, 10), 0);
  report ("remedies", time_of (remedies_alone, &bench, 5), 0);
  slow += report ("fit with forecast and remedies", time_of (fit_whole, &bench, 5), 5);
  slow += report ("repeat of 60 columns, 2000 rows", time_of (join_large, &bench, 5), 3);
  double here = time_of (chords_here, &bench, 10), general = time_of (chords_general, &bench, 1);
  report ("the fit's 56 chords", here, 0);
  report ("the same by a general root finder", general, 0);
  printf ("%.0f times as fast; at least 20 wanted (sum %g)\n", general / here, bench.sum);
  bw_drawing_free (bench.drawing);
  return slow > 0 || general < 20 * here;
}
