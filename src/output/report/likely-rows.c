/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output/report/likely-rows.h"

#include "core/base/limits.h"
#include "core/base/tolerance.h"

#include <math.h>

BwLikelyRows
bw_likely_rows (BwProject *project)
{
  const BwForecast *forecast = bw_project_forecast (project);
  int rows = bw_project_get_design (project)->band.rows, even = rows + rows % 2;
  BwLikelyRows likely = { even - BW_ROWS_NEAR, even + BW_ROWS_NEAR };
  if (forecast->n_chances > 0) {
    likely.first = MIN (likely.first, 2 * forecast->chance[0].beads_around);
    likely.last = MAX (likely.last, 2 * forecast->chance[forecast->n_chances - 1].beads_around);
  }
  likely.first = MAX (likely.first, 4);
  likely.last = MIN (likely.last, BW_ROWS_MAX);
  return likely;
}

double
bw_thread_rest_mm (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const GArray *lengths = bw_project_path (project)->lengths;
  int rows = design->band.rows;
  guint i = lengths->len - 1;
  while (i > 0 && g_array_index (lengths, BwThreadLength, i).from_row > rows)
    i--;
  const BwThreadLength *length = &g_array_index (lengths, BwThreadLength, i);
  /* Rows 1 and 2 are one pass. */
  int passes = rows - MAX (length->from_row, 2) + 1;
  double weaving = bw_path_pass_mm (design, BW_WEAVING_VISITS);
  return length->length_mm - passes * bw_path_pass_mm (design, design->band.columns) - weaving
         - design->thread.tail_mm;
}

BwFurtherThread
bw_further_thread (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  BwFurtherThread thread = { .rows = bw_likely_rows (project).last - design->band.rows };
  if (thread.rows <= 0)
    return (BwFurtherThread){ 0 };
  double row = bw_path_pass_mm (design, design->band.columns);
  double ends = design->thread.tail_mm + bw_path_pass_mm (design, BW_WEAVING_VISITS);
  thread.left_mm = bw_thread_rest_mm (project) + thread.rows * row;
  thread.cut_mm = thread.left_mm + ends;
  return thread;
}

double
bw_further_thread_to_buy_mm (BwProject *project, int pieces)
{
  int n = pieces > 0 ? pieces : bw_project_get_design (project)->supply.pieces;
  double cut = bw_further_thread (project).cut_mm;
  return n * BW_CUT_MM * ceil (cut / BW_CUT_MM - BW_ROUNDING_WHOLE);
}
