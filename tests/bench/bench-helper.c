/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long after a key the next row is on screen, with the band and the stone beside it, on a small
 * band and on the largest there can be. */
#include "../window/maker.h"
#include "../window/pauses.h"

#include "app/bench/bench-page.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define STEPS 15

typedef struct {
  Maker maker;
  int frames;
} Bench;

static void
painted (Bench *bench)
{
  bench->frames++;
}

static int
ascending (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static char *
save_band (int columns, int rows)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  BwStone stone;
  design.band.columns = columns;
  design.stone.length_mm += columns * design.gauge.column_mm;
  design.stone.shoulder_mm += columns * design.gauge.column_mm;
  design.band.bottom_mm = 8;
  if (!bw_design_validate (&design, &stone, NULL))
    g_error ("the stone is unsound");
  double larger = rows / 2.0 / bw_fit_recommended (&design, &stone);
  for (int i = 0; i < BW_FACES_MAX; i++)
    design.stone.values_mm[i] *= larger;
  design.band.rows = rows;
  g_autoptr (GError) error = NULL;
  if (!bw_project_set_design (project, "Band", &design, &error)
      || !bw_project_set_progress (project, "Rows", rows / 2, NULL, 0, &error))
    g_error ("%s", error->message);
  return maker_save (project, "band.bandwright");
}

static int
done (Bench *bench)
{
  return bw_project_get_rows_done (maker_project (&bench->maker));
}

/* From the key to the end of the frame that shows the row. *work: what the program itself worked
 * for it, which tells more than the clock where other programs work too. */
static double
step (Bench *bench, double *work)
{
  int before = done (bench), frames;
  clock_t worked = clock ();
  gint64 begin = g_get_monotonic_time ();
  desk_strike ("space", 0);
  while (done (bench) == before)
    g_main_context_iteration (NULL, TRUE);
  for (frames = bench->frames; bench->frames == frames;)
    g_main_context_iteration (NULL, TRUE);
  *work = 1000.0 * (double)(clock () - worked) / CLOCKS_PER_SEC;
  return (double)(g_get_monotonic_time () - begin) / 1000;
}

static gboolean
passed (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
let_pass (guint milliseconds)
{
  gboolean over = FALSE;
  g_timeout_add (milliseconds, passed, &over);
  while (!over)
    g_main_context_iteration (NULL, TRUE);
}

static void
measure (int columns, int rows)
{
  Bench bench = { .frames = 0 };
  double took[STEPS], work[STEPS];
  g_autofree char *path = save_band (columns, rows);
  maker_start (&bench.maker, path);
  gint64 begin = g_get_monotonic_time ();
  desk_key ("F11", 0);
  double opening = (double)(g_get_monotonic_time () - begin) / 1000;
  let_pass (1500);
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (bench.maker.window));
  g_signal_connect_swapped (clock, "after-paint", G_CALLBACK (painted), &bench);
  for (int i = 0; i < STEPS; i++) {
    took[i] = step (&bench, &work[i]);
    let_pass (500);
  }
  g_signal_handlers_disconnect_by_data (clock, &bench);
  qsort (took, STEPS, sizeof *took, ascending);
  qsort (work, STEPS, sizeof *work, ascending);
  printf ("%2d columns, %4d rows: the helper opens in %.0f ms, a key is shown in %.1f ms (median; "
          "slowest %.1f; work %.1f)\n",
          columns, rows, opening, took[STEPS / 2], took[STEPS - 1], work[STEPS / 2]);
  fflush (stdout);
  maker_stop (&bench.maker);
}

static int
measure_all (gconstpointer data)
{
  pauses_follow_time ();
  measure (12, 104);
  measure (60, 104);
  measure (60, 2000);
  return 0;
}

int
main (void)
{
  return maker_work (measure_all, NULL);
}
