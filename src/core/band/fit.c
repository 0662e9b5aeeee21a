/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the band closes and grips. A column closes when its chord on the squeezed bed is no
 * longer than the stretched pitch, which a single walk round the curve can tell; chords are solved
 * only where their value is asked for. */
#include "core/band/fit.h"

#include "core/band/column.h"
#include "core/base/lattice.h"
#include "core/base/tolerance.h"
#include <string.h>

const char *
bw_verdict_word (BwVerdict verdict)
{
  static const char *const words[] = {
    [BW_VERDICT_SNUG] = "snug",
    [BW_VERDICT_WILL_NOT_CLOSE] = "will-not-close",
    [BW_VERDICT_LOOSE] = "loose",
    [BW_VERDICT_ODD_ROWS] = "odd-rows",
  };
  return words[verdict];
}

/* The longest way round that n beads are not merely partial work for. */
static double
longest_whole (const BwLaid *laid, int n)
{
  return 2 * n * laid->design->pitch.mm;
}

/* Too few beads to speak of a ring: fewer than three, or less than half of the way round. */
static gboolean
is_partial (const BwLaid *laid, int n, const BwRing *relaxed)
{
  return n < 3 || relaxed->length_mm > longest_whole (laid, n);
}

static double
mean_chord (const BwLaid *laid, const BwRing *ring, int n)
{
  return bw_ring_chord_mean (ring, n, bw_laid_seam (laid, ring));
}

static gboolean
closes_within (const BwLaid *laid, const BwRing *ring, int n, double s)
{
  return bw_ring_closes (ring, n, bw_laid_seam (laid, ring), s);
}

static double
relaxed_gap (const BwLaid *laid, const BwRing *relaxed, int n)
{
  double p = laid->design->pitch.mm;
  if (is_partial (laid, n, relaxed))
    return relaxed->length_mm - n * p;
  return n * (mean_chord (laid, relaxed, n) - p);
}

static void
solve_partial (BwFitColumn *out, const BwLaid *laid, const BwRing *relaxed, int n)
{
  double p = laid->design->pitch.mm;
  out->has_chord = FALSE;
  out->chord_mm = 0;
  out->gap_mm = relaxed->length_mm - n * p;
  out->pull_mm = laid->design->thread.stretch * n * p;
  out->closes = n >= 3 && out->gap_mm <= out->pull_mm;
}

static void
solve_whole (BwFitColumn *out, const BwLaid *laid, const BwColumn *column, const BwRing *relaxed,
             int n)
{
  BwRing squeezed;
  double p = laid->design->pitch.mm;
  bw_column_squeezed (&squeezed, column, 1);
  double chord = mean_chord (laid, &squeezed, n);
  out->has_chord = TRUE;
  out->chord_mm = mean_chord (laid, relaxed, n);
  out->gap_mm = n * (out->chord_mm - p);
  out->pull_mm = n * (out->chord_mm - chord) + laid->design->thread.stretch * n * p;
  out->closes = chord <= laid->stretched_mm;
}

static void
solve_column (BwFitColumn *out, const BwLaid *laid, const BwColumn *column, int n)
{
  BwRing relaxed;
  bw_column_relaxed (&relaxed, column);
  if (is_partial (laid, n, &relaxed))
    solve_partial (out, laid, &relaxed, n);
  else
    solve_whole (out, laid, column, &relaxed, n);
  out->grips = out->gap_mm >= -laid->design->limits.slack_mm;
}

static BwVerdict
judge (int rows, gboolean closes, gboolean grips)
{
  if (rows % 2)
    return BW_VERDICT_ODD_ROWS;
  if (!closes)
    return BW_VERDICT_WILL_NOT_CLOSE;
  return grips ? BW_VERDICT_SNUG : BW_VERDICT_LOOSE;
}

static void
sum_up (BwFit *fit)
{
  gboolean closes = TRUE, grips = TRUE;
  fit->gap_min_mm = INFINITY;
  fit->gap_max_mm = -INFINITY;
  for (int i = 0; i < fit->n_columns; i++) {
    const BwFitColumn *column = &fit->column[i];
    closes = closes && column->closes;
    grips = grips && column->grips;
    fit->partial = fit->partial || !column->has_chord;
    fit->gap_min_mm = MIN (fit->gap_min_mm, column->gap_mm);
    fit->gap_max_mm = MAX (fit->gap_max_mm, column->gap_mm);
  }
  fit->verdict = judge (fit->rows, closes, grips);
}

void
bw_fit_init (BwFit *fit, const BwDesign *design, const BwStone *stone, int rows)
{
  BwLaid laid;
  BwColumn columns[2]; /* this one and the one before */
  memset (fit, 0, sizeof *fit);
  g_return_if_fail (bw_laid_init (&laid, design, stone));
  fit->rows = rows;
  fit->beads_around = bw_lattice_beads_around (rows);
  fit->n_columns = design->band.columns;
  for (int i = 0; i < fit->n_columns; i++) {
    BwColumn *column = &columns[i % 2];
    bw_column_init (column, &laid, i + 1);
    if (i > 0 && bw_column_equal (&columns[0], &columns[1]))
      fit->column[i] = fit->column[i - 1];
    else
      solve_column (&fit->column[i], &laid, column, fit->beads_around);
    fit->column[i].column = i + 1;
    fit->column[i].height_mm = bw_column_height_mm (design, i + 1);
    fit->column[i].girth_mm = column->section.girth_mm / laid.grown;
  }
  sum_up (fit);
}

/* A column's answer to a verdict. */
typedef struct {
  gboolean closes, grips;
  double gap_mm; /* only when asked for */
} Answer;

/* Whether gap ≥ −slack, by a walk with the chord at which the gap would be −slack. */
static gboolean
grips_by_walk (const BwLaid *laid, const BwRing *relaxed, int n)
{
  double s = laid->design->pitch.mm - laid->design->limits.slack_mm / n;
  if (is_partial (laid, n, relaxed))
    return relaxed_gap (laid, relaxed, n) >= -laid->design->limits.slack_mm;
  return s <= 0 || !closes_within (laid, relaxed, n, s);
}

static gboolean
closes_by_walk (const BwLaid *laid, const BwColumn *column, const BwRing *relaxed, int n)
{
  BwRing squeezed;
  BwFitColumn partial;
  if (is_partial (laid, n, relaxed)) {
    solve_partial (&partial, laid, relaxed, n);
    return partial.closes;
  }
  bw_column_squeezed (&squeezed, column, 1);
  return closes_within (laid, &squeezed, n, laid->stretched_mm);
}

static Answer
answer_of (const BwLaid *laid, const BwColumn *column, int n, gboolean with_gap)
{
  BwRing relaxed;
  Answer answer = { 0 };
  bw_column_relaxed (&relaxed, column);
  answer.closes = closes_by_walk (laid, column, &relaxed, n);
  if (with_gap) {
    answer.gap_mm = relaxed_gap (laid, &relaxed, n);
    answer.grips = answer.gap_mm >= -laid->design->limits.slack_mm;
  } else if (answer.closes) {
    answer.grips = grips_by_walk (laid, &relaxed, n);
  }
  return answer;
}

BwVerdict
bw_fit_verdict (const BwDesign *design, const BwStone *stone, int rows, double *gap_min_mm,
                double *gap_max_mm)
{
  BwLaid laid;
  BwColumn columns[2];
  Answer answer = { 0 };
  gboolean with_gap = gap_min_mm || gap_max_mm, closes = TRUE, grips = TRUE;
  double least = INFINITY, greatest = -INFINITY;
  g_return_val_if_fail (bw_laid_init (&laid, design, stone), BW_VERDICT_WILL_NOT_CLOSE);
  for (int k = 0; k < design->band.columns; k++) {
    BwColumn *column = &columns[k % 2];
    bw_column_init (column, &laid, bw_column_outside_in (design->band.columns, k));
    if (k == 0 || !bw_column_equal (&columns[0], &columns[1]))
      answer = answer_of (&laid, column, bw_lattice_beads_around (rows), with_gap);
    closes = closes && answer.closes;
    grips = grips && answer.grips;
    least = MIN (least, answer.gap_mm);
    greatest = MAX (greatest, answer.gap_mm);
    if (!closes && !with_gap)
      break;
  }
  if (gap_min_mm)
    *gap_min_mm = least;
  if (gap_max_mm)
    *gap_max_mm = greatest;
  return judge (rows, closes, grips);
}

gboolean
bw_fit_is_snug (const BwDesign *design, const BwStone *stone, int rows)
{
  BwLaid laid;
  BwColumn columns[2];
  g_return_val_if_fail (bw_laid_init (&laid, design, stone), FALSE);
  for (int k = 0; k < design->band.columns && rows % 2 == 0; k++) {
    BwColumn *column = &columns[k % 2];
    bw_column_init (column, &laid, bw_column_outside_in (design->band.columns, k));
    if (k > 0 && bw_column_equal (&columns[0], &columns[1]))
      continue;
    Answer answer = answer_of (&laid, column, rows / 2, FALSE);
    if (!answer.closes || !answer.grips)
      return FALSE;
  }
  return rows % 2 == 0;
}

static double
relaxed_length (const BwColumn *column)
{
  return column->section.girth_mm + 2 * G_PI * column->relaxed_mm;
}

/* The fewest beads from n up that make a ring round a column at all. */
static int
fewest_whole (const BwLaid *laid, const BwColumn *column, int n)
{
  n = MAX (n, (int)(relaxed_length (column) / longest_whole (laid, 1)));
  while (relaxed_length (column) > longest_whole (laid, n))
    n++;
  return n;
}

/* Counts from different starts differ by one at most while s ≤ 2ρ, so the mean of two starts needs
 * one less at the least. With longer chords they can differ by more; three less is where the search
 * begins then. */
static int
fewest_to_try (const BwLaid *laid, const BwRing *squeezed)
{
  double s = laid->stretched_mm;
  int count = bw_ring_count (squeezed, bw_laid_seam (laid, squeezed), s);
  return count - (s <= 2 * squeezed->rho_mm ? 1 : 3);
}

int
bw_fit_recommended (const BwDesign *design, const BwStone *stone)
{
  BwLaid laid;
  BwColumn columns[2];
  int n = 3;
  g_return_val_if_fail (bw_laid_init (&laid, design, stone), n);
  for (int k = 0; k < design->band.columns; k++) {
    BwRing ring;
    bw_column_init (&columns[k % 2], &laid, bw_column_outside_in (design->band.columns, k));
    if (k > 0 && bw_column_equal (&columns[0], &columns[1]))
      continue;
    n = fewest_whole (&laid, &columns[k % 2], n);
    bw_column_squeezed (&ring, &columns[k % 2], 1);
    if (closes_within (&laid, &ring, n, laid.stretched_mm))
      continue;
    n = MAX (n + 1, fewest_to_try (&laid, &ring));
    while (!closes_within (&laid, &ring, n, laid.stretched_mm))
      n++;
  }
  return n;
}

/* A scale at which n beads certainly close: there even the arcs are no longer than the chords. */
static double
surely_closes (const BwLaid *laid, const BwColumn *column, int n)
{
  double rest = n * laid->stretched_mm - 2 * G_PI * column->squeezed_mm;
  return MAX (rest / column->section.girth_mm, 0);
}

static double
chord_beyond (const BwLaid *laid, const BwColumn *column, int n, double lambda)
{
  BwRing ring;
  bw_column_squeezed (&ring, column, lambda);
  return mean_chord (laid, &ring, n) - laid->stretched_mm;
}

/* The scale at which one column just closes: secant steps from a guess, begun with the slope of a
 * smooth curve (girth/n) and kept above the scale that certainly closes. */
static double
column_closing_scale (const BwLaid *laid, const BwColumn *column, int n, double guess)
{
  double lo = surely_closes (laid, column, n), hi = INFINITY;
  double slope = column->section.girth_mm / n;
  double lambda = MAX (guess, lo), last = 0, last_beyond = 0;
  for (int k = 0; k < 100; k++) {
    double beyond = chord_beyond (laid, column, n, lambda);
    double secant = k > 0 ? (beyond - last_beyond) / (lambda - last) : slope;
    if (secant > 0.1 * slope && secant < 10 * slope)
      slope = secant;
    if (beyond > 0)
      hi = lambda;
    else
      lo = lambda;
    last = lambda;
    last_beyond = beyond;
    lambda -= beyond / slope;
    if (fabs (lambda - last) <= BW_SOLVED * last)
      return lambda;
    if (!(lambda >= lo && lambda <= hi))
      lambda = isfinite (hi) ? (lo + hi) / 2 : 2 * lo + 1;
  }
  return lambda;
}

/* A vanishing stone leaves a circle of radius ρ. */
static gboolean
never_closes (const BwLaid *laid, const BwColumn *column, int n)
{
  return n < 3 || 2 * column->squeezed_mm * sin (G_PI / n) > laid->stretched_mm;
}

static gboolean
closes_at (const BwLaid *laid, const BwColumn *column, int n, double lambda)
{
  BwRing ring;
  bw_column_squeezed (&ring, column, lambda);
  return closes_within (laid, &ring, n, laid->stretched_mm);
}

/* The scale up to which n beads are more than partial work; below 0 when they never are. */
static double
whole_up_to (const BwLaid *laid, const BwColumn *column, int n)
{
  return (longest_whole (laid, n) - 2 * G_PI * column->relaxed_mm) / column->section.girth_mm;
}

/* The column that will probably bind, 0 when one of them can never close. `whole` receives the
 * scale up to which all of them are more than partial work. */
static int
likely_binding (const BwLaid *laid, int n, double *whole)
{
  double least = INFINITY;
  int binding = 1;
  *whole = INFINITY;
  for (int c = 1; c <= laid->design->band.columns; c++) {
    BwColumn column;
    bw_column_init (&column, laid, c);
    *whole = MIN (*whole, whole_up_to (laid, &column, n));
    if (never_closes (laid, &column, n) || *whole <= 0)
      return 0;
    double scale = surely_closes (laid, &column, n);
    if (scale < least) {
      least = scale;
      binding = c;
    }
  }
  return binding;
}

double
bw_fit_closing_scale (const BwDesign *design, const BwStone *stone, int n)
{
  BwLaid laid;
  BwColumn binding, other;
  g_return_val_if_fail (bw_laid_init (&laid, design, stone), 0);
  double whole;
  int first = likely_binding (&laid, n, &whole);
  if (first == 0)
    return 0;
  bw_column_init (&binding, &laid, first);
  double lambda = column_closing_scale (&laid, &binding, n, 0);
  for (int c = 1; c <= design->band.columns; c++) {
    bw_column_init (&other, &laid, c);
    if (bw_column_equal (&binding, &other) || closes_at (&laid, &other, n, lambda))
      continue;
    binding = other;
    lambda = MIN (lambda, column_closing_scale (&laid, &binding, n, lambda));
  }
  return MIN (lambda, whole);
}
