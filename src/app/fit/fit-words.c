/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A verdict is only as good as the sentence it is told in: which column, by how much, and what
 * helps, in bench words. */
#include "config.h"

#include "app/fit/fit-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

const char *
bw_fit_words_verdict (BwVerdict verdict)
{
  switch (verdict) {
  case BW_VERDICT_SNUG:
    return _ ("Snug");
  case BW_VERDICT_WILL_NOT_CLOSE:
    return _ ("Will not close");
  case BW_VERDICT_LOOSE:
    return _ ("Loose");
  case BW_VERDICT_ODD_ROWS:
  default:
    return _ ("Odd rows");
  }
}

/* A gap as the maker feels it: what is left over lies slack, what is missing is pulled. */
static char *
gap_words (double gap_mm, BwUnit unit)
{
  g_autofree char *length = bw_length_format (fabs (gap_mm), unit, 2);
  if (gap_mm < 0)
    return g_strdup_printf (_ ("%s slack"), length);
  return g_strdup_printf (_ ("%s pulled"), length);
}

char *
bw_fit_words_gaps (double least_mm, double greatest_mm, BwUnit unit)
{
  g_autofree char *least = gap_words (least_mm, unit);
  g_autofree char *greatest = gap_words (greatest_mm, unit);
  if (g_str_equal (least, greatest))
    return g_steal_pointer (&least);
  return g_strdup_printf (_ ("%s to %s"), least, greatest);
}

/* The column furthest beyond what pulling gives, or (loose) furthest below the slack allowed. */
static const BwFitColumn *
worst_column (const BwFit *fit, gboolean loose)
{
  const BwFitColumn *worst = &fit->column[0];
  for (int i = 1; i < fit->n_columns; i++) {
    const BwFitColumn *column = &fit->column[i];
    if (loose ? column->gap_mm < worst->gap_mm
              : column->gap_mm - column->pull_mm > worst->gap_mm - worst->pull_mm)
      worst = column;
  }
  return worst;
}

static char *
short_words (const BwFit *fit, BwUnit unit)
{
  const BwFitColumn *worst = worst_column (fit, FALSE);
  g_autofree char *by = bw_length_format (worst->gap_mm - worst->pull_mm, unit, 2);
  return g_strdup_printf (_ ("column %d is %s too short even when pulled"), worst->column, by);
}

static char *
loose_words (const BwFit *fit, double slack_mm, BwUnit unit)
{
  const BwFitColumn *worst = worst_column (fit, TRUE);
  g_autofree char *by = bw_length_format (-worst->gap_mm, unit, 2);
  g_autofree char *slack = bw_length_format (slack_mm, unit, 2);
  return g_strdup_printf (_ ("column %d is %s too long, %s is allowed"), worst->column, by, slack);
}

char *
bw_fit_words_detail (const BwFit *fit, double slack_mm, BwUnit unit)
{
  if (fit->partial) {
    g_autofree char *open = bw_length_format (fit->gap_max_mm, unit, 1);
    return g_strdup_printf (_ ("not half round the stone yet, %s still open"), open);
  }
  switch (fit->verdict) {
  case BW_VERDICT_WILL_NOT_CLOSE:
    return short_words (fit, unit);
  case BW_VERDICT_LOOSE:
    return loose_words (fit, slack_mm, unit);
  case BW_VERDICT_ODD_ROWS:
    return g_strdup_printf (_ ("the ends cannot interlock; the numbers are for %d rows"),
                            2 * fit->beads_around);
  case BW_VERDICT_SNUG:
  default:
    return bw_fit_words_gaps (fit->gap_min_mm, fit->gap_max_mm, unit);
  }
}

char *
bw_fit_words_recommended (int recommended, int beads_around, double closes)
{
  if (recommended == beads_around)
    return g_strdup_printf (_ ("%d rows recommended · %.0f %% chance that they close"),
                            2 * recommended, 100 * closes);
  return g_strdup_printf (_ ("%d rows recommended · %.0f %% chance that %d close"), 2 * recommended,
                          100 * closes, 2 * beads_around);
}

static char *
rows_words (const BwRemedy *remedy, const BwDesign *now)
{
  int rows = remedy->design.band.rows, more = rows - now->band.rows;
  if (more > 0)
    return g_strdup_printf (_ ("Weave %d rows (%d more)"), rows, more);
  return g_strdup_printf (_ ("Weave %d rows (%d fewer)"), rows, -more);
}

static char *
bed_words (double change_mm, BwUnit unit)
{
  g_autofree char *by = bw_length_format (fabs (change_mm), unit, 2);
  if (change_mm < 0)
    return g_strdup_printf (_ ("Make the bed %s thinner"), by);
  return g_strdup_printf (_ ("Make the bed %s thicker"), by);
}

static char *
grade_alone_words (const BwRemedy *remedy, BwUnit unit)
{
  g_autofree char *extra = bw_length_format (fabs (remedy->value), unit, 2);
  int rows = remedy->design.band.rows;
  if (remedy->value < 0)
    return g_strdup_printf (_ ("Make the bed %s thicker at the lower edge, weave %d rows"), extra,
                            rows);
  if (remedy->value > 0)
    return g_strdup_printf (_ ("Make the bed %s thicker at the top edge, weave %d rows"), extra,
                            rows);
  return g_strdup_printf (_ ("Lay the bed without a grade, weave %d rows"), rows);
}

/* Layers and grade together, where the grade alone would take away more bed than there is. */
static char *
grade_words (const BwRemedy *remedy, const BwDesign *now, BwUnit unit)
{
  g_autofree char *alone = grade_alone_words (remedy, unit);
  int layers = remedy->design.bed.layers;
  if (layers == now->bed.layers)
    return g_steal_pointer (&alone);
  /* Translators: the second is "Grade the bed … thicker at the lower edge, weave … rows". */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Wind %d layer of cord. %s",
                                       "Wind %d layers of cord. %s", (gulong)layers),
                          layers, alone);
}

static char *
move_words (double bottom_mm, double now_mm, BwUnit unit)
{
  g_autofree char *to = bw_length_format (bottom_mm, unit, 2);
  if (bottom_mm > now_mm)
    return g_strdup_printf (_ ("Move the band up to %s"), to);
  return g_strdup_printf (_ ("Move the band down to %s"), to);
}

char *
bw_remedy_words_do (const BwRemedy *remedy, const BwDesign *now, BwUnit unit)
{
  const BwDesign *then = &remedy->design;
  switch (remedy->kind) {
  case BW_REMEDY_ROWS:
    return rows_words (remedy, now);
  case BW_REMEDY_BED:
    return bed_words (remedy->value, unit);
  case BW_REMEDY_LAYERS:
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Wind %d layer of cord",
                                         "Wind %d layers of cord", (gulong)then->bed.layers),
                            then->bed.layers);
  case BW_REMEDY_GRADE:
    return grade_words (remedy, now, unit);
  case BW_REMEDY_MOVE:
    return move_words (then->band.bottom_mm, now->band.bottom_mm, unit);
  case BW_REMEDY_BEAD:
  default:
    return g_strdup_printf (_ ("Use %s beads: %d columns, %d rows"), then->bead.name,
                            then->band.columns, then->band.rows);
  }
}

char *
bw_remedy_words_gives (const BwRemedy *remedy, BwUnit unit)
{
  g_autofree char *gaps = bw_fit_words_gaps (remedy->gap_min_mm, remedy->gap_max_mm, unit);
  g_autofree char *gives = g_strdup_printf ("%s, %s", bw_fit_words_verdict (remedy->verdict), gaps);
  if (!remedy->voids_girth_over)
    return g_steal_pointer (&gives);
  return g_strdup_printf (_ ("%s; the girth measured over the bed no longer holds"), gives);
}

double
bw_fit_scale (double gap_mm, double pull_mm, double slack_mm)
{
  /* Half of the way out is reached this far beyond a limit. */
  const double half_mm = 1.5;
  g_return_val_if_fail (pull_mm + slack_mm > 0, 0.5);
  if (gap_mm < -slack_mm)
    return (gap_mm + slack_mm) / (half_mm - gap_mm - slack_mm);
  if (gap_mm > pull_mm)
    return 1 + (gap_mm - pull_mm) / (half_mm + gap_mm - pull_mm);
  return (gap_mm + slack_mm) / (pull_mm + slack_mm);
}
