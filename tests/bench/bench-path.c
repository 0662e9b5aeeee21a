/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time of the thread's path against the number of beads, up to 10⁶: it must grow as the beads do.
 * Fails when a bead of the largest band costs more than three times one of the smallest. */
#include "core/path/path.h"
#include <stdio.h>

static BwDesign
a_band (int columns, int rows)
{
  BwDesign d;
  bw_design_defaults (&d);
  d.bead = (BwBead){ "", 1.6, 1.3, 0.8, 2.5 };
  d.gauge = (BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 };
  d.band.columns = columns;
  d.band.rows = rows;
  d.bail.style = BW_BAIL_NONE;
  return d;
}

/* Nanoseconds a bead, the least of three runs. */
static double
time_a_bead (int columns, int rows, guint64 *visits)
{
  BwDesign design = a_band (columns, rows);
  gint64 least = G_MAXINT64;
  for (int run = 0; run < 3; run++) {
    BwPath path;
    gint64 start = g_get_monotonic_time ();
    bw_path_init (&path, &design, NULL);
    least = MIN (least, g_get_monotonic_time () - start);
    *visits = path.visits->len;
    bw_path_clear (&path);
  }
  return 1e3 * (double)least / (columns / 2 * rows);
}

int
main (void)
{
  static const int rows[] = { 200, 2000, 20000 };
  double first = 0, last = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    guint64 visits;
    last = time_a_bead (100, rows[i], &visits);
    first = i == 0 ? last : first;
    printf ("%7d beads %8" G_GUINT64_FORMAT " visits %7.2f ms %6.1f ns a bead\n", 50 * rows[i],
            visits, last * 50 * rows[i] / 1e6, last);
  }
  return last <= 3 * first ? 0 : 1;
}
