/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/band/would-help.h"

#include "core/band/forecast.h"
#include "core/base/normal.h"

#include <math.h>
#include <stdlib.h>

#define REACH 5.0 /* standard errors; beyond lies less than one in a million */
#define STEPS 240 /* of the integral, over twice the reach */
#define EDGES_MAX 400

/* The girths at which one count after another just closes, as errors of the one believed. */
typedef struct {
  int n;
  double at_mm[EDGES_MAX];
} Edges;

const char *
bw_help_word (BwHelpKind kind)
{
  static const char *const words[] = {
    [BW_HELP_SWATCH] = "swatch",
    [BW_HELP_SWATCH_CALLIPER] = "swatch",
    [BW_HELP_STRIP] = "strip",
    [BW_HELP_FLATS] = "flats",
    [BW_HELP_GIRTH_AGAIN] = "girth-again",
    [BW_HELP_GIRTH_OVER] = "girth-over",
    [BW_HELP_STRETCH] = "stretch",
    [BW_HELP_SQUEEZE] = "squeeze",
  };
  return words[kind];
}

/* All edges within reach, and one beyond it on either side. FALSE where there are too many for any
 * count to stand out. */
static gboolean
edges_init (Edges *edges, const BwDesign *design, const BwStone *stone, double sigma_mm)
{
  double reach = REACH * sigma_mm;
  int n = bw_fit_recommended (design, stone);
  double room = EDGES_MAX / 2 * design->pitch.mm;
  edges->n = 0;
  if (reach > room / 2)
    return FALSE;
  while (n > 3 && (bw_fit_closing_scale (design, stone, n) - 1) * stone->girth_mm > -reach)
    n--;
  do {
    if (edges->n == EDGES_MAX)
      return FALSE;
    edges->at_mm[edges->n++] = (bw_fit_closing_scale (design, stone, n++) - 1) * stone->girth_mm;
  } while (edges->at_mm[edges->n - 1] < reach);
  return TRUE;
}

/* The chance of the likeliest count when the girth is believed so much larger, give or take. */
static double
likeliest (const Edges *edges, double mean_mm, double sd_mm)
{
  double best = 0, before = 0;
  for (int i = 0; i < edges->n; i++) {
    double closes = bw_normal_below ((edges->at_mm[i] - mean_mm) / sd_mm);
    best = MAX (best, closes - before);
    before = closes;
  }
  return best;
}

/* The mean over what a measurement may say. */
static double
expected (const Edges *edges, double sigma_mm, double after_mm)
{
  double moves = sqrt (MAX (sigma_mm * sigma_mm - after_mm * after_mm, 0)), sum = 0, weight = 0;
  for (int i = 0; i <= STEPS; i++) {
    double z = REACH * (2.0 * i / STEPS - 1), density = exp (-0.5 * z * z);
    sum += density * likeliest (edges, z * moves, after_mm);
    weight += density;
  }
  return sum / weight;
}

typedef struct {
  BwHelps *helps;
  const BwDesign *design;
  const BwStone *stone;
  Edges edges;
  int beads_around;
  double sigma_mm;
} Search;

/* changed: as the design would be known to. */
static void
offer (Search *search, BwHelpKind kind, int rows, const BwDesign *changed)
{
  double after = bw_forecast_sigma_of (changed, search->stone, search->beads_around);
  if (after >= search->sigma_mm || search->helps->n == BW_HELPS_MAX)
    return;
  double chance = expected (&search->edges, search->sigma_mm, after);
  if (chance >= search->helps->now + BW_HELP_LEAST)
    search->helps->help[search->helps->n++] = (BwHelp){ kind, rows, chance };
}

static double
strip_precision (int rows, double error_mm)
{
  double pitches = (rows + 1) / 2.0 / error_mm;
  return pitches * pitches;
}

/* A reading of so many rows, in the place of the swatch there is or beside it. */
static void
offer_strip (Search *search, BwHelpKind kind, int rows, double error_mm)
{
  BwDesign changed = *search->design;
  const BwSwatch *swatch = &changed.gauge.swatch;
  double sd = changed.pitch.sd_mm;
  double precision = 1 / (sd * sd) + strip_precision (rows, error_mm);
  if (kind != BW_HELP_STRIP && changed.gauge.has_swatch)
    precision -= strip_precision (swatch->rows, bw_strip_error_mm (swatch->tool));
  if (!(sd > 0) || !(precision * sd * sd > 1))
    return;
  changed.pitch.sd_mm = 1 / sqrt (precision);
  offer (search, kind, rows, &changed);
}

static void
find_swatches (Search *search)
{
  double ruler = bw_strip_error_mm (BW_STRIP_BY_RULER);
  double calliper = bw_strip_error_mm (BW_STRIP_BY_CALLIPER);
  offer_strip (search, BW_HELP_SWATCH, BW_HELP_SWATCH_ROWS, ruler);
  offer_strip (search, BW_HELP_SWATCH_CALLIPER, BW_HELP_SWATCH_ROWS, calliper);
  offer_strip (search, BW_HELP_SWATCH_CALLIPER, BW_HELP_LONG_SWATCH_ROWS, calliper);
}

/* Half way round is soon enough to mend the plan, and says nearly as much as all of it. */
static void
find_strip (Search *search)
{
  int half = search->beads_around & ~1;
  if (half >= 2)
    offer_strip (search, BW_HELP_STRIP, half, bw_strip_error_mm (BW_STRIP_BY_RULER));
}

static void
find_girths (Search *search)
{
  BwDesign flats = *search->design, again = flats, over = flats;
  flats.stone.measured = BW_MEASURED_ACROSS_FLATS;
  again.stone.girth_sd_mm /= G_SQRT2;
  over.bed.has_girth_over = TRUE;
  if (search->design->stone.measured == BW_MEASURED_GIRTH && !search->design->bed.has_girth_over) {
    if (flats.stone.faces % 2 == 0)
      offer (search, BW_HELP_FLATS, 0, &flats);
    offer (search, BW_HELP_GIRTH_AGAIN, 0, &again);
  }
  if (!search->design->bed.has_girth_over && search->design->bed.layers > 0)
    offer (search, BW_HELP_GIRTH_OVER, 0, &over);
}

/* A swatch once more, pulled; the one there is, or the long one. */
static void
find_stretch (Search *search)
{
  BwDesign changed = *search->design;
  const BwGauge *gauge = &changed.gauge;
  int rows = gauge->has_swatch ? gauge->swatch.rows : BW_HELP_LONG_SWATCH_ROWS;
  double length = (rows + 1) / 2.0 * changed.pitch.mm;
  BwStretchReading reading = { length, length, BW_STRIP_BY_CALLIPER };
  BwGive now = { changed.thread.stretch, bw_forecast_stretch_sd (&changed) };
  if (changed.thread.has_pulled || !(now.sd > 0))
    return;
  changed.thread.stretch_sd = bw_give_weigh (now, bw_stretch_said (&reading)).sd;
  offer (search, BW_HELP_STRETCH, rows, &changed);
}

/* The girth over the bed, slack and under a pulled strip. */
static void
find_squeeze (Search *search)
{
  BwDesign changed = *search->design;
  BwBedding bedding;
  BwBandSpan span = bw_design_span (&changed);
  BwGive now = { changed.bed.squeeze, bw_forecast_squeeze_sd (&changed) };
  if (changed.bed.has_pulled || !(now.sd > 0)
      || !bw_bedding_init (&bedding, &changed.bed, search->stone, span, NULL))
    return;
  double girth = search->stone->girth_mm;
  double thick = 2 * G_PI * bw_bedding_thickness (&bedding, bw_band_span_mid (span));
  BwSqueezeReading reading = { girth, girth + thick, girth + thick, BW_STRIP_BY_CALLIPER };
  if (!bw_squeeze_reading_validate (&reading, NULL))
    return;
  changed.bed.squeeze_sd = bw_give_weigh (now, bw_squeeze_said (&reading)).sd;
  offer (search, BW_HELP_SQUEEZE, 0, &changed);
}

static int
compare (gconstpointer a, gconstpointer b)
{
  const BwHelp *one = a, *other = b;
  return (one->chance < other->chance) - (one->chance > other->chance);
}

void
bw_helps_init (BwHelps *helps, const BwDesign *design, const BwStone *stone)
{
  Search search = { .helps = helps, .design = design, .stone = stone };
  *helps = (BwHelps){ 0 };
  search.beads_around = bw_fit_recommended (design, stone);
  search.sigma_mm = bw_forecast_sigma_mm (design, stone);
  if (design->tried.is_told || !(search.sigma_mm > 0)
      || !edges_init (&search.edges, design, stone, search.sigma_mm))
    return;
  helps->now = likeliest (&search.edges, 0, search.sigma_mm);
  find_swatches (&search);
  find_strip (&search);
  find_girths (&search);
  find_stretch (&search);
  find_squeeze (&search);
  qsort (helps->help, (gsize)helps->n, sizeof *helps->help, compare);
}

void
bw_helps_drop_past (BwHelps *helps, int rows_done)
{
  int kept = 0;
  for (int i = 0; i < helps->n; i++)
    if (helps->help[i].kind != BW_HELP_STRIP || helps->help[i].rows > rows_done)
      helps->help[kept++] = helps->help[i];
  helps->n = kept;
}
