/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A verdict is only as good as the sentence it is told in: which column, by how much, and what to
 * do, in bench words. */
#include "config.h"

#include "output/report/fit-sentence.h"

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

/* Gaps as the maker feels them: what is left over lies slack, what is missing is pulled. */
static char *
slack_words (double most_mm, double least_mm, BwUnit unit)
{
  g_autofree char *most = bw_length_format (most_mm, unit, 2);
  g_autofree char *least = bw_length_format (least_mm, unit, 2);
  if (g_str_equal (most, least))
    return g_strdup_printf (_ ("%s slack"), most);
  return least_mm > 0 ? g_strdup_printf (_ ("%s to %s slack"), least, most)
                      : g_strdup_printf (_ ("up to %s slack"), most);
}

static char *
pulled_words (double least_mm, double most_mm, BwUnit unit)
{
  g_autofree char *most = bw_length_format (most_mm, unit, 2);
  g_autofree char *least = bw_length_format (least_mm, unit, 2);
  if (g_str_equal (most, least))
    return g_strdup_printf (_ ("%s pulled"), most);
  return least_mm > 0 ? g_strdup_printf (_ ("%s to %s pulled"), least, most)
                      : g_strdup_printf (_ ("up to %s pulled"), most);
}

/* As it is shown: what rounds to nothing is nothing. */
static double
rounded (double mm)
{
  return round (mm * 100) / 100;
}

char *
bw_fit_words_gaps (double least_mm, double greatest_mm, BwUnit unit)
{
  double least = rounded (least_mm), greatest = rounded (greatest_mm);
  if (least == 0 && greatest == 0)
    return g_strdup (_ ("nothing to pull and no slack"));
  if (greatest <= 0)
    return slack_words (-least, -greatest, unit);
  if (least >= 0)
    return pulled_words (least, greatest, unit);
  g_autofree char *slack = slack_words (-least, -least, unit);
  g_autofree char *pulled = pulled_words (greatest, greatest, unit);
  return g_strdup_printf (_ ("%s to %s"), slack, pulled);
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
  return g_strdup_printf (_ ("Even when pulled, the ends stay %s apart in column %d."), by,
                          worst->column);
}

static char *
loose_words (const BwFit *fit, double slack_mm, BwUnit unit)
{
  const BwFitColumn *worst = worst_column (fit, TRUE);
  g_autofree char *by = bw_length_format (-worst->gap_mm, unit, 2);
  g_autofree char *slack = bw_length_format (slack_mm, unit, 2);
  return g_strdup_printf (_ ("Column %d lies %s slack; up to %s still grips."), worst->column, by,
                          slack);
}

/* What the measurements say of these rows. */
static char *
detail_words (const BwFit *fit, double slack_mm, BwUnit unit)
{
  if (fit->partial) {
    g_autofree char *open = bw_length_format (fit->gap_max_mm, unit, 1);
    return g_strdup_printf (_ ("Not half round the stone yet, %s still open."), open);
  }
  switch (fit->verdict) {
  case BW_VERDICT_WILL_NOT_CLOSE:
    return short_words (fit, unit);
  case BW_VERDICT_LOOSE:
    return loose_words (fit, slack_mm, unit);
  case BW_VERDICT_ODD_ROWS:
    return g_strdup_printf (_ ("The ends of %d rows cannot interlock."), fit->rows);
  case BW_VERDICT_SNUG:
  default: {
    g_autofree char *gaps = bw_fit_words_gaps (fit->gap_min_mm, fit->gap_max_mm, unit);
    return g_strdup_printf (_ ("%d rows close with %s."), fit->rows, gaps);
  }
  }
}

char *
bw_fit_words_woven (int rows)
{
  return g_strdup_printf (_ ("All %d rows are woven: how the ends meet decides."), rows);
}

/* The same once the row is woven at which the strip is first tried on. */
static char *
counts_words_now (int first, int last)
{
  if (first == last)
    return g_strdup_printf (_ ("Weave %d: try on now."), first);
  if (last == first + 2)
    return g_strdup_printf (_ ("Weave %d or %d: try on now, then decide."), first, last);
  return g_strdup_printf (_ ("Weave from %d to %d: try on now, then decide."), first, last);
}

/* Which counts to weave, and where the strip is tried on. */
static char *
counts_words (const BwFitTold *told)
{
  int first = told->first_rows, last = told->last_rows, row = told->try_on_row;
  if (bw_fit_told_is_woven (told))
    return bw_fit_words_woven (told->rows);
  if (first == 0)
    return g_strdup (_ ("No count stands out: weave a swatch first."));
  if (told->rows_done >= row)
    return counts_words_now (first, last);
  if (first == last)
    return g_strdup_printf (_ ("Weave %d: try on at row %d."), first, row);
  if (last == first + 2)
    return g_strdup_printf (_ ("Weave %d or %d: try on at row %d, then decide."), first, last, row);
  return g_strdup_printf (_ ("Weave from %d to %d: try on at row %d, then decide."), first, last,
                          row);
}

const char *
bw_fit_words_head (const BwFitTold *told)
{
  if (told->sign != BW_SIGN_NEAR_EVEN)
    return bw_fit_words_verdict (told->verdict);
  if (told->verdict == BW_VERDICT_WILL_NOT_CLOSE)
    return _ ("Short on paper");
  if (told->verdict == BW_VERDICT_LOOSE)
    return _ ("Long on paper");
  return told->example ? _ ("Snug on the example") : _ ("Snug on paper");
}

char *
bw_fit_words_sentence (const BwFitTold *told, const BwFit *fit, double slack_mm, BwUnit unit)
{
  if (told->example && told->verdict == BW_VERDICT_SNUG)
    return g_strdup (_ ("Type your own stone’s measurements: then this speaks of your stone."));
  g_autofree char *counts = counts_words (told);
  if (told->sign == BW_SIGN_NEAR_EVEN)
    return g_steal_pointer (&counts);
  g_autofree char *detail = detail_words (fit, slack_mm, unit);
  /* Translators: what the measurements say, then what to weave. */
  return g_strdup_printf (_ ("%s %s"), detail, counts);
}

char *
bw_fit_words_odds (const BwFitTold *told)
{
  int other = told->first_rows + told->last_rows - told->likely_rows;
  if (told->first_rows == 0)
    return g_strdup (_ ("Each count is right with less than 1 %."));
  if (told->first_rows == told->last_rows)
    return g_strdup_printf (_ ("%d rows turn out right with %.0f %%."), told->likely_rows,
                            100 * told->likely);
  if (told->second > 0)
    return g_strdup_printf (_ ("%d rows turn out right with %.0f %%, %d with %.0f %%."),
                            told->likely_rows, 100 * told->likely, other, 100 * told->second);
  return g_strdup_printf (
      _ ("One of %d to %d rows turns out right with %.0f %%, %d alone with %.0f %%."),
      told->first_rows, told->last_rows, 100 * told->run, told->likely_rows, 100 * told->likely);
}

char *
bw_fit_words_chances (const BwFitTold *told)
{
  /* Rounded so that the parts make up the whole. */
  double closes = round (100 * told->closes), right = MIN (round (100 * told->right), closes);
  return g_strdup_printf (
      _ ("%d rows close with %.0f %%: just right with %.0f %%, longer than need be with %.0f %%."),
      told->rows, closes, right, closes - right);
}
