/* SPDX-License-Identifier: GPL-3.0-or-later */
/* "What if I wove R rows?" is asked of a whole project, so that fit, join, remedies and warnings
 * all answer for the same piece. */
#include "output/report/what-if.h"

#include "project/fault/fault-words.h"
#include "core/base/lattice.h"

static void
carry_row_on (BwDrawing *drawing, int row, int repeat)
{
  int per_row = bw_drawing_columns (drawing) / 2;
  for (int j = 0; j < per_row; j++) {
    int column = bw_lattice_column (row, j);
    guint8 colour = repeat > 0 ? bw_drawing_get (drawing, row - repeat, column) : 0;
    bw_drawing_set (drawing, row, column, colour);
  }
}

static BwDrawing *
drawing_of_rows (const BwDrawing *from, int rows)
{
  int repeat = bw_join_repeat (from), own = bw_drawing_rows (from);
  BwDrawing *drawing = bw_drawing_copy (from);
  bw_drawing_resize (drawing, bw_drawing_columns (from), rows, 0);
  for (int row = own + 1; row <= rows; row++)
    carry_row_on (drawing, row, repeat);
  return drawing;
}

/* Progress beyond the last row would be a fault of the new project, not of the question. */
static gboolean
shorten_progress (BwProject *project, int rows, GError **error)
{
  int n_checks;
  const BwCheck *checks = bw_project_get_checks (project, &n_checks);
  int done = MIN (bw_project_get_rows_done (project), rows);
  g_autofree BwCheck *copy = g_memdup2 (checks, sizeof *checks * (gsize)n_checks);
  return bw_project_set_progress (project, "", done, copy, n_checks, error);
}

/* Of progress what a design leaves: lengths of the strip speak for its own bead alone. */
static gboolean
keep_progress (BwProject *project, const BwDesign *design, GError **error)
{
  if (bw_bead_same_size (&bw_project_get_design (project)->bead, &design->bead))
    return shorten_progress (project, design->band.rows, error);
  int done = MIN (bw_project_get_rows_done (project), design->band.rows);
  return bw_project_set_progress (project, "", done, NULL, 0, error);
}

static gboolean
set_rows (BwProject *project, int rows, GError **error)
{
  g_autoptr (BwDrawing) drawing = drawing_of_rows (bw_project_get_drawing (project), rows);
  BwDesign design = *bw_project_get_design (project);
  design.band.rows = rows;
  return shorten_progress (project, rows, error)
         && bw_project_set_design (project, "", &design, error)
         && bw_project_set_drawing (project, "", FALSE, drawing, error);
}

static BwProject *
copy_of (BwProject *project, GError **error)
{
  gsize length;
  g_autofree char *data = bw_project_to_data (project, &length);
  return bw_project_load_data (data, length, error);
}

BwProject *
bw_what_if_rows (BwProject *project, int rows, GError **error)
{
  if (rows == 0 || rows == bw_project_get_design (project)->band.rows)
    return g_object_ref (project);
  if (!bw_fault_check_range (rows, BW_ROWS_MIN, BW_ROWS_MAX, "/band/rows", error))
    return NULL;
  g_autoptr (BwProject) copy = copy_of (project, error);
  if (!copy || !set_rows (copy, rows, error))
    return NULL;
  return g_steal_pointer (&copy);
}

BwProject *
bw_what_if_design (BwProject *project, const BwDesign *design, GError **error)
{
  g_autoptr (BwProject) copy = copy_of (project, error);
  if (!copy || !keep_progress (copy, design, error)
      || !bw_project_set_design (copy, "", design, error))
    return NULL;
  return g_steal_pointer (&copy);
}
