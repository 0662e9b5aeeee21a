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

/* A strip that cannot be closed has no bail yet. */
static int
bail_rows (BwProject *project)
{
  const BwPath *path = bw_project_path (project);
  return path->part[BW_PART_BAIL].visits > 0 ? bw_project_get_design (project)->bail.rows : 0;
}

/* The passes of the join, in their order. Owned. */
static GArray *
join_passes (BwProject *project)
{
  GArray *passes = bw_steps_new (bw_project_path (project));
  for (guint i = passes->len; i-- > 0;) {
    BwStepKind kind = g_array_index (passes, BwStep, i).kind;
    if (kind < BW_STEP_ZIP || kind > BW_STEP_ANCHORS)
      g_array_remove_index (passes, i);
  }
  return passes;
}

int
bw_bench_join_steps (BwProject *project)
{
  g_autoptr (GArray) passes = join_passes (project);
  return passes->len > 0 ? (int)passes->len + 1 : 0;
}

gboolean
bw_bench_join_pass (BwProject *project, int step, BwStep *pass)
{
  g_autoptr (GArray) passes = join_passes (project);
  if (step < 2 || (guint)step - 2 >= passes->len)
    return FALSE;
  *pass = g_array_index (passes, BwStep, step - 2);
  return TRUE;
}

/* Rows of the bail that the step beginning with this one makes. */
static int
bail_rows_at_once (BwProject *project, int row)
{
  const BwBail *bail = &bw_project_get_design (project)->bail;
  return bw_bail_is_strip (bail) && row == 1 ? MIN (bail->rows, 2) : 1;
}

static BwBenchStep
step_at (BwProject *project, int band_done, int join_done, int bail_done)
{
  int rows = bw_project_get_design (project)->band.rows;
  if (band_done < rows)
    return (BwBenchStep){ .row = band_done < 2 ? 1 : band_done + 1 };
  if (bail_done == 0 && join_done < bw_bench_join_steps (project))
    return (BwBenchStep){ .join = join_done + 1 };
  if (bail_done < bail_rows (project))
    return (BwBenchStep){ .in_bail = TRUE, .row = bail_done + 1 };
  return (BwBenchStep){ .is_end = TRUE, .row = rows + 1 };
}

BwBenchStep
bw_bench_step (BwProject *project)
{
  return step_at (project, bw_project_get_rows_done (project), bw_project_get_join_done (project),
                  bw_project_get_bail_rows_done (project));
}

BwBenchStep
bw_bench_step_after (BwProject *project, BwBenchStep step)
{
  int rows = bw_project_get_design (project)->band.rows;
  if (step.is_end)
    return step;
  if (step.join > 0)
    return step_at (project, rows, step.join, 0);
  if (!step.in_bail)
    return step_at (project, MIN (step.row == 1 ? 2 : step.row, rows), 0, 0);
  return step_at (project, rows, G_MAXINT, step.row - 1 + bail_rows_at_once (project, step.row));
}

int
bw_bench_advance (BwProject *project)
{
  int done = bw_project_get_rows_done (project);
  int rows = bw_project_get_design (project)->band.rows, next = MIN (done < 2 ? 2 : done + 1, rows);
  BwBenchStep step = bw_bench_step (project);
  if (step.is_end)
    return 0;
  if (step.join > 0)
    return bw_project_set_join_done (project, _ ("Step of the join done"), step.join, NULL);
  if (!step.in_bail)
    return move (project, _ ("Row done"), next) ? next - done : 0;
  int more = bail_rows_at_once (project, step.row);
  return bw_project_set_bail_rows_done (project, _ ("Row done"), step.row - 1 + more, NULL) ? more
                                                                                            : 0;
}

/* Whoever has begun the bail has joined the band, though a file may not say so. */
static gboolean
back_on_bail (BwProject *project, int done)
{
  int before = done <= bail_rows_at_once (project, 1) ? 0 : done - 1;
  bw_project_begin (project, _ ("Row undone"));
  gboolean taken = bw_project_set_join_done (project, "", bw_bench_join_steps (project), NULL)
                   && bw_project_set_bail_rows_done (project, "", before, NULL);
  bw_project_commit (project);
  return taken;
}

/* A path of fewer passes than it had has fewer steps. */
static gboolean
back_on_join (BwProject *project, int done)
{
  int before = MIN (done, bw_bench_join_steps (project)) - 1;
  return bw_project_set_join_done (project, _ ("Step of the join undone"), MAX (before, 0), NULL);
}

gboolean
bw_bench_back (BwProject *project)
{
  int done = bw_project_get_rows_done (project);
  int on_bail = bw_project_get_bail_rows_done (project);
  int on_join = bw_project_get_join_done (project);
  if (on_bail > 0)
    return back_on_bail (project, on_bail);
  if (on_join > 0)
    return back_on_join (project, on_join);
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
  design->tried
      = bw_tried_belief (design, bw_project_stone (project), bw_project_get_tried (project));
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

/* Rows are picked out, and what was read of the strip is told of what is left of it. */
static gboolean
pick_out (BwProject *project, int rows, GError **error)
{
  const BwDesign *design = bw_project_get_design (project);
  BwTried tried = *bw_project_get_tried (project);
  if (tried.rows > rows)
    tried = bw_tried_carry (&tried, design, design, bw_project_stone (project), rows);
  return move (project, "", rows) && bw_project_set_tried (project, "", &tried, error);
}

static gboolean
keep_reading (BwProject *project, const BwReading *reading, GError **error)
{
  BwTried tried = { .rows = bw_project_get_rows_done (project), .reading = *reading };
  return bw_project_set_tried (project, "", &tried, error);
}

static gboolean
set_rows (BwProject *project, int rows, BwRefit how, GError **error)
{
  BwDesign design = *bw_project_get_design (project);
  int done = bw_project_get_rows_done (project);
  g_autoptr (BwDrawing) drawing
      = bw_refit (bw_project_get_drawing (project), rows, MIN (done, rows), how);
  design.band.rows = rows;
  return (done <= rows || pick_out (project, rows, error))
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
  gboolean done = (!change->reading || keep_reading (project, change->reading, error))
                  && (change->length_mm <= 0 || bw_bench_note (project, change->length_mm, error))
                  && (change->bed_mm <= 0 || set_bed (project, change->bed_mm, error))
                  && (rows == bw_project_get_design (project)->band.rows
                      || set_rows (project, rows, change->how, error));
  if (done)
    bw_project_commit (project);
  else
    bw_project_revert (project);
  return done;
}
