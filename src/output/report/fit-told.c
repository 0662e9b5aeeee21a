/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output/report/fit-told.h"

static double
chance_of (const BwForecast *forecast, int beads_around)
{
  for (int i = 0; i < forecast->n_chances; i++)
    if (forecast->chance[i].beads_around == beads_around)
      return forecast->chance[i].p;
  return 0;
}

static int
likeliest (const BwForecast *forecast)
{
  int best = 0;
  for (int i = 1; i < forecast->n_chances; i++)
    if (forecast->chance[i].p > forecast->chance[best].p)
      best = i;
  return best;
}

/* From the likeliest count outwards, always to the likelier neighbour, until one of them is right
 * surely enough to be named. */
static void
find_run (BwFitTold *told, const BwForecast *forecast)
{
  const BwChance *chance = forecast->chance;
  int best = likeliest (forecast), first = best, last = best;
  if (forecast->n_chances == 0)
    return;
  told->run = told->likely = chance[best].p;
  while (told->run < BW_FIT_SURE && (first > 0 || last < forecast->n_chances - 1)) {
    double below = first > 0 ? chance[first - 1].p : -1;
    double above = last < forecast->n_chances - 1 ? chance[last + 1].p : -1;
    told->run += below > above ? chance[--first].p : chance[++last].p;
  }
  told->likely_rows = 2 * chance[best].beads_around;
  told->first_rows = 2 * chance[first].beads_around;
  told->last_rows = 2 * chance[last].beads_around;
  told->second = last == first + 1 ? told->run - told->likely : 0;
}

static void
find_safer (BwFitTold *told, const BwForecast *forecast)
{
  for (int i = 0; i < forecast->n_chances && told->safer < BW_FIT_SAFER; i++) {
    told->safer += forecast->chance[i].p;
    told->safer_rows = 2 * forecast->chance[i].beads_around;
  }
}

/* Whether the project's own rows are among those to try. */
static gboolean
is_likely (const BwFitTold *told)
{
  return told->rows >= told->first_rows && told->rows <= told->last_rows;
}

static BwFitSign
sign_for (const BwFitTold *told)
{
  if (told->verdict == BW_VERDICT_SNUG)
    return told->right >= BW_FIT_SURE && !told->example ? BW_SIGN_SNUG : BW_SIGN_NEAR_EVEN;
  if (told->verdict != BW_VERDICT_ODD_ROWS && is_likely (told))
    return BW_SIGN_NEAR_EVEN;
  return told->verdict == BW_VERDICT_LOOSE ? BW_SIGN_LOOSE : BW_SIGN_WILL_NOT_CLOSE;
}

void
bw_fit_told_init (BwFitTold *told, const BwFit *fit, const BwForecast *forecast, gboolean example)
{
  *told = (BwFitTold){
    .verdict = fit->verdict,
    .example = example,
    .rows = fit->rows,
    .right = fit->verdict == BW_VERDICT_ODD_ROWS ? 0 : chance_of (forecast, fit->beads_around),
    .closes = forecast->closes_probability,
    .try_on_row = forecast->try_on_row,
  };
  find_run (told, forecast);
  find_safer (told, forecast);
  told->sign = sign_for (told);
}

/* After a try-on the count it tells is the one to name, or page and bench would contradict each
 * other where two counts are nearly as likely. */
static void
follow_try_on (BwFitTold *told, const BwForecast *forecast, int beads_around)
{
  int rows = 2 * beads_around;
  told->first_rows = told->likely_rows > 0 ? MIN (told->first_rows, rows) : rows;
  told->last_rows = MAX (told->last_rows, rows);
  told->likely_rows = rows;
  told->likely = chance_of (forecast, beads_around);
  told->run = 0;
  for (int n = told->first_rows / 2; n <= told->last_rows / 2; n++)
    told->run += chance_of (forecast, n);
  told->second = told->last_rows == told->first_rows + 2 ? told->run - told->likely : 0;
  told->sign = sign_for (told);
}

gboolean
bw_fit_told_is_woven (const BwFitTold *told)
{
  return told->rows > 0 && told->rows_done >= told->rows;
}

BwFitTold
bw_fit_told (BwProject *project)
{
  const BwBelief *tried = &bw_project_get_design (project)->tried;
  BwFitTold told;
  bw_fit_told_init (&told, bw_project_fit (project), bw_project_forecast (project),
                    bw_project_stone_is_example (project));
  told.rows_done = bw_project_get_rows_done (project);
  if (tried->is_told)
    follow_try_on (&told, bw_project_forecast (project), tried->beads_around);
  return told;
}

/* Where it fits on paper already nothing but another count betters the odds; a try-on tells which.
 */
gboolean
bw_fit_told_helps (const BwFitTold *told, const BwRemedy *remedy)
{
  if (remedy->kind == BW_REMEDY_ROWS && remedy->design.band.rows == told->safer_rows)
    return TRUE;
  return told->verdict != BW_VERDICT_SNUG && remedy->verdict == BW_VERDICT_SNUG;
}

gboolean
bw_fit_told_is_likely (const BwFitTold *told, const BwRemedy *remedy)
{
  int rows = remedy->design.band.rows;
  return remedy->kind == BW_REMEDY_ROWS && rows >= told->first_rows && rows <= told->last_rows;
}
