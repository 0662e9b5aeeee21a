/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gauge as a belief: a bead's diameter is only a first guess at the pitch of a maker's hands,
 * and every measured strip sharpens it. Readings weigh by their precision, as the normal posterior
 * of a normal prior has it. */

#include "core/base/fault.h"
#include "core/design/gauge.h"

#include <math.h>

#define PRIOR_SHARE 0.02 /* common practice, no source */
#define HANDS_LEAST 1e-4 /* nobody's hands are surer; it keeps the sums finite */
#define HANDS_MOST 0.2   /* a belief less sure than this tells nothing */

const char *const bw_strip_tool_words[] = { "ruler", "calliper", NULL };

double
bw_strip_error_mm (BwStripTool tool)
{
  return tool == BW_STRIP_BY_CALLIPER ? 0.1 : 0.3; /* common practice, no source */
}

/* Length of a strip of r rows in pitches: half a pitch a row and half a bead at each end. */
static double
strip_pitches (int rows)
{
  return (rows + 1) / 2.0;
}

double
bw_swatch_column_mm (const BwSwatch *swatch)
{
  return swatch->width_mm / swatch->columns;
}

double
bw_swatch_pitch_mm (const BwSwatch *swatch)
{
  return swatch->length_mm / strip_pitches (swatch->rows);
}

typedef struct {
  double precision;
  double weighted; /* Σ precision × mean */
} Belief;

static void
take_reading (Belief *belief, int rows, double length_mm, double error_mm)
{
  double variance = error_mm * error_mm;
  double m = strip_pitches (rows);
  belief->precision += m * m / variance;
  belief->weighted += m * length_mm / variance;
}

BwPitch
bw_gauge_pitch (const BwGauge *gauge, const BwCheck *checks, int n_checks)
{
  BwGaugeHands prior = gauge->hands;
  if (!gauge->has_hands)
    prior = (BwGaugeHands){ gauge->pitch_mm, PRIOR_SHARE * gauge->pitch_mm };
  double precision = 1 / (prior.pitch_sd_mm * prior.pitch_sd_mm);
  Belief belief = { precision, precision * prior.pitch_mm };
  if (gauge->has_swatch)
    take_reading (&belief, gauge->swatch.rows, gauge->swatch.length_mm,
                  bw_strip_error_mm (gauge->swatch.tool));
  for (int i = 0; i < n_checks; i++)
    take_reading (&belief, checks[i].rows, checks[i].length_mm,
                  bw_strip_error_mm (BW_STRIP_BY_RULER));
  return (BwPitch){ belief.weighted / belief.precision, 1 / sqrt (belief.precision) };
}

static gboolean
validate_swatch (const BwSwatch *swatch, BwFault *fault)
{
  if (!bw_check_range (swatch->columns, BW_COLUMNS_MIN, BW_COLUMNS_MAX, BW_AT_SWATCH_COLUMNS, fault)
      || !bw_check_range (swatch->width_mm, BW_LENGTH_MIN_MM, BW_STRIP_MAX_MM, BW_AT_SWATCH_WIDTH,
                          fault)
      || !bw_check_range (swatch->rows, 2, BW_ROWS_MAX, BW_AT_SWATCH_ROWS, fault)
      || !bw_check_range (swatch->length_mm, BW_LENGTH_MIN_MM, BW_STRIP_MAX_MM, BW_AT_SWATCH_LENGTH,
                          fault))
    return FALSE;
  if (swatch->columns % 2 == 0)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_ODD_COLUMNS, BW_AT_SWATCH_COLUMNS, swatch->columns, 0, 0);
}

static gboolean
validate_hands (const BwGaugeHands *hands, BwFault *fault)
{
  return bw_check_range (hands->pitch_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, BW_AT_HANDS_PITCH,
                         fault)
         && bw_check_range (hands->pitch_sd_mm, HANDS_LEAST * hands->pitch_mm,
                            HANDS_MOST * hands->pitch_mm, BW_AT_HANDS_PITCH_SD, fault);
}

gboolean
bw_gauge_validate (const BwGauge *gauge, BwFault *fault)
{
  if (gauge->has_hands && !validate_hands (&gauge->hands, fault))
    return FALSE;
  if (gauge->has_swatch && !validate_swatch (&gauge->swatch, fault))
    return FALSE;
  return bw_check_range (gauge->column_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, BW_AT_GAUGE_COLUMN,
                         fault)
         && bw_check_range (gauge->pitch_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, BW_AT_GAUGE_PITCH,
                            fault);
}
