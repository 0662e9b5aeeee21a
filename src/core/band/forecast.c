/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the row count is. Girth and pitch are known with an error; carried round the ring both
 * act as one error σ of the girth, so that a count n closes with probability Φ((λ_n − 1) g1/σ). */
#include "core/band/forecast.h"

#include "core/base/lattice.h"
#include "core/base/normal.h"

#define LISTED 0.01  /* least chance that is worth a line, and a try-on */
#define SURELY_Z 7.0 /* Φ(7) is 1 but for 1.3e-12 */

typedef struct {
  const BwDesign *design;
  const BwStone *stone;
  double girth_mm; /* as believed */
  double sigma_mm;
} Outlook;

/* The standard score of "n closes"; −∞ when it never does. */
static double
score (const Outlook *outlook, int n)
{
  double lambda = n < 3 ? 0 : bw_fit_closing_scale (outlook->design, outlook->stone, n);
  if (lambda <= 0)
    return -INFINITY;
  if (outlook->sigma_mm <= 0)
    return lambda >= 1 ? (double)INFINITY : (double)-INFINITY;
  return (lambda - 1) * outlook->girth_mm / outlook->sigma_mm;
}

/* The probability that n beads close: that the smallest count that does is n or fewer. */
static double
closes_by (const Outlook *outlook, int n)
{
  return bw_normal_below (score (outlook, n));
}

/* One bead more moves the score by about p/σ, and a chance is at most 0.4 of that. */
static gboolean
no_count_stands_out (const Outlook *outlook)
{
  return 0.4 * outlook->design->pitch.mm < 0.7 * LISTED * outlook->sigma_mm;
}

/* The greatest count that, with all smaller ones, is too unlikely to be listed. */
static int
last_unlikely (const Outlook *outlook, int n)
{
  while (n > 2 && closes_by (outlook, n) >= LISTED)
    n--;
  return n;
}

static void
add_chance (BwForecast *forecast, int n, double p)
{
  if (p < LISTED || forecast->n_chances == BW_FORECAST_MAX)
    return;
  if (forecast->try_on_row == 0)
    forecast->try_on_row = 2 * n - 2;
  forecast->chance[forecast->n_chances++] = (BwChance){ n, p };
}

/* Lists the counts upward until what is left is too unlikely. Returns the last one looked at, and
 * its distribution function. */
static int
list_chances (BwForecast *forecast, const Outlook *outlook, double *reached)
{
  int n = last_unlikely (outlook, forecast->recommended);
  double before = closes_by (outlook, n);
  forecast->p_total = before;
  while (before <= 1 - LISTED) {
    double now = closes_by (outlook, ++n);
    add_chance (forecast, n, now - before);
    forecast->p_total += now - before;
    before = now;
  }
  *reached = before;
  return n;
}

/* The distribution function so far above n that nothing is left beyond. Every stone closes with
 * enough beads; where that would take more than a band can have, that is all there is to say. */
static double
far_above (const Outlook *outlook, int n)
{
  double more = 1 + (SURELY_Z + 1) * outlook->sigma_mm / outlook->design->pitch.mm;
  for (; n + more < BW_ROWS_MAX; more *= 2) {
    double z = score (outlook, n + (int)more);
    if (z >= SURELY_Z)
      return bw_normal_below (z);
  }
  return 1;
}

/* Where no single count reaches a chance worth a try-on: the first one by which they do together.
 */
static int
first_worth_trying (const Outlook *outlook, int recommended)
{
  int lo = 2, hi = recommended;
  while (hi - lo > 1) {
    int middle = (lo + hi) / 2;
    if (closes_by (outlook, middle) >= LISTED)
      hi = middle;
    else
      lo = middle;
  }
  return hi;
}

static double
thickness_at_middle (const BwDesign *design, const BwStone *stone)
{
  BwBedding bedding;
  BwBandSpan span = bw_design_span (design);
  if (!bw_bedding_init (&bedding, &design->bed, stone, span, NULL))
    return 0;
  return bw_bedding_thickness (&bedding, bw_band_span_mid (span));
}

double
bw_forecast_squeeze_sd (const BwDesign *design)
{
  double sd = design->bed.squeeze_sd;
  return sd > 0 ? sd : BW_KNOWN_SQUEEZE_SHARE * design->bed.squeeze;
}

double
bw_forecast_stretch_sd (const BwDesign *design)
{
  double sd = design->thread.stretch_sd;
  return sd > 0 ? sd : BW_KNOWN_STRETCH_SHARE * design->thread.stretch;
}

double
bw_forecast_pull_sd_mm (const BwDesign *design, const BwStone *stone, int beads_around)
{
  return hypot (2 * G_PI * thickness_at_middle (design, stone) * bw_forecast_squeeze_sd (design),
                beads_around * design->pitch.mm * bw_forecast_stretch_sd (design));
}

static double
less_mm2 (double times_mm, BwGive usual, double sd)
{
  return sd > 0 ? times_mm * times_mm * (usual.sd * usual.sd - sd * sd) : 0;
}

/* By how much less the square of the error is than what a girth told by calliper has room for,
 * where squeeze and stretch were learnt. */
static double
learnt_mm2 (const BwDesign *design, const BwStone *stone, int n, double girth_sd_mm)
{
  if (!(design->bed.squeeze_sd > 0) && !(design->thread.stretch_sd > 0))
    return 0;
  double squeeze = less_mm2 (2 * G_PI * thickness_at_middle (design, stone), bw_squeeze_usual (),
                             design->bed.squeeze_sd);
  double stretch = less_mm2 (n * design->pitch.mm, bw_stretch_usual (), design->thread.stretch_sd);
  return CLAMP (squeeze + stretch, 0, (1 - BW_OWN_GIRTH_SHARE) * girth_sd_mm * girth_sd_mm);
}

/* Of how thick a bed came out that nobody measured. */
static double
bed_sd_mm (const BwDesign *design)
{
  gboolean is_wound = !design->bed.has_girth_over && design->bed.layers > 0;
  return is_wound ? 2 * G_PI * (1 - design->bed.squeeze) * BW_KNOWN_BED_MM : 0;
}

/* The error of the way round: a strip of paper knows nothing of bed and pull, a calliper's girth
 * has room for them. */
static double
round_sd_mm (const BwDesign *design, const BwStone *stone, int n, double girth_sd_mm)
{
  if (design->stone.measured != BW_MEASURED_GIRTH && !design->bed.has_girth_over)
    return sqrt (girth_sd_mm * girth_sd_mm - learnt_mm2 (design, stone, n, girth_sd_mm));
  return hypot (girth_sd_mm, hypot (bed_sd_mm (design), bw_forecast_pull_sd_mm (design, stone, n)));
}

static double
sigma_with (const BwDesign *design, const BwStone *stone, int n, double sd_mm, double girth_sd_mm)
{
  return hypot (round_sd_mm (design, stone, n, girth_sd_mm), n * sd_mm);
}

double
bw_forecast_sigma_of (const BwDesign *design, const BwStone *stone, int beads_around)
{
  return sigma_with (design, stone, beads_around, design->pitch.sd_mm, design->stone.girth_sd_mm);
}

static Outlook
outlook_for (const BwDesign *design, const BwStone *stone, int n, double sd_mm, double girth_sd_mm)
{
  double sigma_mm = sigma_with (design, stone, n, sd_mm, girth_sd_mm);
  if (design->tried.is_told)
    sigma_mm = MIN (sigma_mm, design->tried.sd_mm);
  return (Outlook){ design, stone, stone->girth_mm + design->tried.longer_mm, sigma_mm };
}

/* As the maker knows it by now. */
static Outlook
outlook_now (const BwDesign *design, const BwStone *stone, int n)
{
  return outlook_for (design, stone, n, design->pitch.sd_mm, design->stone.girth_sd_mm);
}

/* After a try-on the count it tells. */
static int
count_to_weave (const BwDesign *design, const BwStone *stone)
{
  return design->tried.is_told ? design->tried.beads_around : bw_fit_recommended (design, stone);
}

double
bw_forecast_sigma_mm (const BwDesign *design, const BwStone *stone)
{
  return outlook_now (design, stone, bw_fit_recommended (design, stone)).sigma_mm;
}

void
bw_forecast_init (BwForecast *forecast, const BwDesign *design, const BwStone *stone)
{
  *forecast = (BwForecast){ .recommended = count_to_weave (design, stone) };
  int n = forecast->recommended;
  double reached = 0;
  Outlook outlook = outlook_now (design, stone, n);
  forecast->sigma_mm = outlook.sigma_mm;
  forecast->closes_probability = closes_by (&outlook, bw_lattice_beads_around (design->band.rows));
  if (!no_count_stands_out (&outlook))
    n = list_chances (forecast, &outlook, &reached);
  forecast->p_total += far_above (&outlook, n) - reached;
  if (forecast->try_on_row == 0)
    forecast->try_on_row = 2 * first_worth_trying (&outlook, forecast->recommended) - 2;
}

BwCountChance
bw_forecast_count (const BwDesign *design, const BwStone *stone, int beads_around)
{
  Outlook outlook = outlook_now (design, stone, count_to_weave (design, stone));
  double closes = closes_by (&outlook, beads_around);
  return (BwCountChance){ closes - closes_by (&outlook, beads_around - 1), closes,
                          outlook.sigma_mm };
}

double
bw_forecast_chance_with (const BwDesign *design, const BwStone *stone, double sd_mm,
                         double girth_sd_mm)
{
  int n = bw_fit_recommended (design, stone);
  Outlook outlook = outlook_for (design, stone, n, sd_mm, girth_sd_mm);
  return closes_by (&outlook, n) - closes_by (&outlook, n - 1);
}
