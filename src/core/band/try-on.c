/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone itself has spoken: what the strip lacks is read off it, and the forecast only weighs
 * the reading. */
#include "core/band/try-on.h"

#include "core/band/forecast.h"
#include "core/base/fault.h"
#include "core/base/limits.h"
#include "core/base/tolerance.h"

#include <math.h>

#define ROWS_LEAST 6        /* three beads around */
#define CONTRADICTS_SDS 3.0 /* from the forecast: three in a thousand by chance */

/* The column that decides, at one count of beads: the one that pulling leaves open the most. */
typedef struct {
  double gap_mm;  /* slack */
  double pull_mm; /* what pulling gives */
} Binding;

static Binding
binding_at (const BwDesign *design, const BwStone *stone, int rows)
{
  Binding binding = { -INFINITY, 0 };
  g_autofree BwFit *fit = g_new (BwFit, 1);
  bw_fit_init (fit, design, stone, rows);
  for (int i = 0; i < fit->n_columns; i++) {
    const BwFitColumn *column = &fit->column[i];
    if (column->gap_mm - column->pull_mm > binding.gap_mm - binding.pull_mm)
      binding = (Binding){ column->gap_mm, column->pull_mm };
  }
  return binding;
}

/* The strip as it is known after the reading: what is missing when it is pulled. */
typedef struct {
  const BwDesign *design;
  const BwStone *stone;
  int rows;
  double pull_mm;    /* of these rows */
  double missing_mm; /* of these rows, pulled */
  double sd_mm;
} Strip;

/* Normal and normal: what each says counts by the inverse square of its error. */
static void
weigh (Strip *strip, double foretold, double foretold_sd, double read, double read_sd)
{
  double of_read = foretold_sd * foretold_sd, of_foretold = read_sd * read_sd;
  double all = of_read + of_foretold;
  strip->missing_mm = (of_read * read + of_foretold * foretold) / all;
  strip->sd_mm = foretold_sd * read_sd / sqrt (all);
}

/* The only place where it matters how the strip was read. */
static double
missing_when_pulled (const BwReading *reading, double short_mm, double pull_mm)
{
  return reading->how == BW_TRIED_SLACK ? short_mm - pull_mm : short_mm;
}

static double
reading_sd_mm (const BwDesign *design, const BwReading *reading, double pull_mm)
{
  double tool = reading->tool == BW_TRIED_BY_EYE ? BW_TRIED_EYE_BEADS * design->pitch.mm
                                                 : BW_TRIED_CALLIPER_MM;
  return hypot (tool, BW_TRIED_HAND_SHARE * pull_mm);
}

/* Returns by how much the reading contradicts the forecast. */
static double
strip_init (Strip *strip, const BwDesign *design, const BwStone *stone, int rows,
            const BwReading *reading)
{
  double most = BW_ROWS_MAX / 2.0 * design->pitch.mm;
  Binding binding = binding_at (design, stone, rows);
  *strip = (Strip){ design, stone, rows, binding.pull_mm, 0, 0 };
  double read
      = missing_when_pulled (reading, CLAMP (reading->short_mm, -most, most), binding.pull_mm);
  double read_sd = reading_sd_mm (design, reading, binding.pull_mm);
  double foretold = binding.gap_mm - binding.pull_mm;
  double foretold_sd = bw_forecast_sigma_mm (design, stone), astray = read - foretold;
  if (fabs (astray) <= CONTRADICTS_SDS * hypot (read_sd, foretold_sd)) {
    weigh (strip, foretold, foretold_sd, read, read_sd);
    return 0;
  }
  strip->missing_mm = read;
  strip->sd_mm = read_sd;
  return astray;
}

/* What the strip lacks, slack, once it has n beads around. */
static double
slack_at (const Strip *strip, int n)
{
  return strip->missing_mm + strip->pull_mm + (strip->rows / 2.0 - n) * strip->design->pitch.mm;
}

/* What n beads still lack when they are pulled; rounding is nothing. */
static double
missing_at (const Strip *strip, int n)
{
  return slack_at (strip, n) - binding_at (strip->design, strip->stone, 2 * n).pull_mm;
}

/* The fewest beads with which pulling closes what is missing. */
static int
fewest (const Strip *strip)
{
  double round = strip->rows / 2.0 + strip->missing_mm / strip->design->pitch.mm;
  int n = (int)CLAMP (floor (round), ROWS_LEAST / 2, BW_ROWS_MAX / 2);
  while (n > ROWS_LEAST / 2 && missing_at (strip, n - 1) <= BW_ROUNDING_MM)
    n--;
  while (n < BW_ROWS_MAX / 2 && missing_at (strip, n) > BW_ROUNDING_MM)
    n++;
  return n;
}

/* Nobody picks out a strip that closes and grips. */
static gboolean
fits_as_it_is (const Strip *strip)
{
  int n = strip->rows / 2;
  return strip->rows % 2 == 0 && strip->rows >= ROWS_LEAST
         && slack_at (strip, n) >= -strip->design->limits.slack_mm
         && missing_at (strip, n) <= BW_ROUNDING_MM;
}

static double
thicker_mm (const BwDesign *design, double over_mm)
{
  return over_mm > design->limits.slack_mm ? over_mm / (2 * G_PI) : 0;
}

/* The chance that no more is missing than pulling gives. */
static double
closes_probability (const Strip *strip, int n)
{
  double missing = missing_at (strip, n);
  if (strip->sd_mm <= 0)
    return missing <= BW_ROUNDING_MM ? 1 : 0;
  return erfc (missing / strip->sd_mm / G_SQRT2) / 2;
}

BwReading
bw_reading_beads (const BwDesign *design, double short_beads, BwTriedHow how)
{
  return (BwReading){ short_beads * design->pitch.mm, how, BW_TRIED_BY_EYE };
}

void
bw_try_on_init (BwTryOn *try_on, const BwDesign *design, const BwStone *stone, int rows,
                const BwReading *reading)
{
  Strip strip;
  *try_on = (BwTryOn){ .rows = rows };
  g_return_if_fail (reading->how == BW_TRIED_SLACK || reading->how == BW_TRIED_PULLED);
  try_on->astray_mm = strip_init (&strip, design, stone, rows, reading);
  int n = fits_as_it_is (&strip) ? rows / 2 : fewest (&strip);
  double missing = slack_at (&strip, n);
  try_on->rows = 2 * n;
  try_on->change = 2 * n - rows;
  try_on->closes_probability = closes_probability (&strip, n);
  try_on->pulled_mm = missing;
  try_on->over_mm = -missing;
  try_on->bed_mm = thicker_mm (design, -missing);
  if (try_on->change < 0 && rows % 2 == 0)
    try_on->stay_bed_mm = thicker_mm (design, -slack_at (&strip, rows / 2));
}

double
bw_try_on_most_over (int rows)
{
  return MAX (rows - ROWS_LEAST, 0) / 2.0;
}

gboolean
bw_reading_validate (const BwReading *reading, const BwDesign *design, int rows, BwFault *fault)
{
  double over = -reading->short_mm / design->pitch.mm;
  if (rows < 2)
    return bw_fault_is (fault, BW_FAULTY_NO_STRIP, BW_AT_PROGRESS_ROWS_DONE, 0, 0, 0);
  return over <= bw_try_on_most_over (rows)
         || bw_fault_is (fault, BW_FAULTY_OVERLAP, BW_AT_PROGRESS_ROWS_DONE, rows, over, 0);
}

gboolean
bw_try_on_thicken (BwDesign *design, const BwStone *stone, double by_mm, BwFault *fault)
{
  BwDesign thicker = *design;
  BwBedding bedding;
  if (!bw_bedding_init (&bedding, &design->bed, stone, bw_design_span (design), fault))
    return FALSE;
  thicker.bed.has_girth_over = FALSE;
  thicker.bed.layers = MAX (thicker.bed.layers, 1);
  thicker.bed.cord_thickness_mm = (bedding.bottom_mm + by_mm) / thicker.bed.layers;
  if (!bw_design_validate (&thicker, NULL, fault))
    return FALSE;
  *design = thicker;
  return TRUE;
}
