/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One place for the steps, so that the card, the full-window helper and the try-on cannot differ.
 */
#include "config.h"

#include "app/bench/bench-steps.h"
#include "project/fault/fault-words.h"
#include "core/design/gauge.h"

#include <glib/gi18n-lib.h>

int
bw_bench_row (BwProject *project)
{
  int done = bw_project_get_rows_done (project);
  return done < 2 ? 1 : done + 1;
}

/* Owned; room for one more. */
static BwCheck *
copy_checks (BwProject *project, int *n)
{
  const BwCheck *known = bw_project_get_checks (project, n);
  BwCheck *checks = g_new0 (BwCheck, *n + 1);
  for (int i = 0; i < *n; i++)
    checks[i] = known[i];
  return checks;
}

static gboolean
move (BwProject *project, const char *label, int done)
{
  int n;
  g_autofree BwCheck *checks = copy_checks (project, &n);
  return bw_project_set_progress (project, label, done, checks, n, NULL);
}

int
bw_bench_advance (BwProject *project)
{
  int done = bw_project_get_rows_done (project);
  int rows = bw_project_get_design (project)->band.rows, next = MIN (done < 2 ? 2 : done + 1, rows);
  if (next <= done || !move (project, _ ("Row done"), next))
    return 0;
  return next - done;
}

gboolean
bw_bench_back (BwProject *project)
{
  int done = bw_project_get_rows_done (project);
  return done > 0 && move (project, _ ("Row undone"), done <= 2 ? 0 : done - 1);
}

/* The checks with this one among them; NULL with *error before the pick-up. */
static BwCheck *
checks_with (BwProject *project, double length_mm, int *n, GError **error)
{
  int done = bw_project_get_rows_done (project), kept = 0;
  g_autofree BwCheck *checks = copy_checks (project, n);
  if (done < 2) {
    bw_fault_set (error, BW_FAULT_RANGE, "/progress/checks",
                  _ ("Count the woven rows first: a strip is measured at a row."));
    return NULL;
  }
  for (int i = 0; i < *n; i++)
    if (checks[i].rows != done)
      checks[kept++] = checks[i];
  checks[kept++] = (BwCheck){ .rows = done, .length_mm = length_mm };
  *n = kept;
  return g_steal_pointer (&checks);
}

gboolean
bw_bench_note (BwProject *project, double length_mm, GError **error)
{
  int n;
  g_autofree BwCheck *checks = checks_with (project, length_mm, &n, error);
  return checks
         && bw_project_set_progress (project, _ ("Strip measured"),
                                     bw_project_get_rows_done (project), checks, n, error);
}

gboolean
bw_bench_try_note (BwProject *project, double length_mm, BwDesign *design, GError **error)
{
  int n;
  g_autofree BwCheck *checks = checks_with (project, length_mm, &n, error);
  if (!checks
      || !bw_fault_check_range (length_mm, BW_LENGTH_MIN_MM, BW_STRIP_MAX_MM, "/progress/checks",
                                error))
    return FALSE;
  *design = *bw_project_get_design (project);
  design->pitch = bw_gauge_pitch (&design->gauge, checks, n);
  BwFault fault;
  return bw_design_validate (design, NULL, &fault) || bw_fault_tell (&fault, error);
}

gboolean
bw_bench_drop_note (BwProject *project)
{
  int n;
  g_autofree BwCheck *checks = copy_checks (project, &n);
  return n > 0
         && bw_project_set_progress (project, _ ("Strip length dropped"),
                                     bw_project_get_rows_done (project), checks, n - 1, NULL);
}

gboolean
bw_bench_try_on (BwProject *project, const BwReading *reading, BwTryOn *try_on, GError **error)
{
  const BwDesign *design = bw_project_get_design (project);
  int done = bw_project_get_rows_done (project);
  BwFault fault;
  if (!bw_reading_validate (reading, design, done, &fault))
    return bw_fault_tell (&fault, error);
  bw_try_on_init (try_on, design, bw_project_stone (project), done, reading);
  return TRUE;
}

static gboolean
set_bed (BwProject *project, double by_mm, GError **error)
{
  BwDesign design = *bw_project_get_design (project);
  BwFault fault;
  if (!bw_try_on_thicken (&design, bw_project_stone (project), by_mm, &fault))
    return bw_fault_tell (&fault, error);
  return bw_project_set_design (project, "", &design, error);
}

static gboolean
set_rows (BwProject *project, int rows, BwRefit how, GError **error)
{
  BwDesign design = *bw_project_get_design (project);
  int done = bw_project_get_rows_done (project);
  g_autoptr (BwDrawing) drawing
      = bw_refit (bw_project_get_drawing (project), rows, MIN (done, rows), how);
  design.band.rows = rows;
  return (done <= rows || move (project, "", rows))
         && bw_project_set_design (project, "", &design, error)
         && bw_project_set_drawing (project, "", FALSE, drawing, error);
}

gboolean
bw_bench_take (BwProject *project, const BwBenchChange *change, GError **error)
{
  int rows = change->rows;
  if (!bw_fault_check_range (rows, BW_ROWS_MIN, BW_ROWS_MAX, "/band/rows", error))
    return FALSE;
  bw_project_begin (project, change->length_mm > 0 ? _ ("Strip measured") : _ ("Try-on"));
  gboolean done = (change->length_mm <= 0 || bw_bench_note (project, change->length_mm, error))
                  && (change->bed_mm <= 0 || set_bed (project, change->bed_mm, error))
                  && (rows == bw_project_get_design (project)->band.rows
                      || set_rows (project, rows, change->how, error));
  if (done)
    bw_project_commit (project);
  else
    bw_project_revert (project);
  return done;
}
