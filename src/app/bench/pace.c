/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The middle of the last rows, not their mean: a bead that rolled away must not put off the finish
 * for the rest of the band. */
#include "config.h"

#include "app/bench/pace.h"

#include <stdlib.h>
#include <string.h>

void
bw_pace_begin (BwPace *pace, gint64 now_us)
{
  pace->since_us = now_us;
}

static void
remember (BwPace *pace, double seconds)
{
  if (pace->n == BW_PACE_MOST) {
    memmove (pace->seconds, pace->seconds + 1, (BW_PACE_MOST - 1) * sizeof *pace->seconds);
    pace->n--;
  }
  pace->seconds[pace->n++] = seconds;
}

void
bw_pace_done (BwPace *pace, gint64 now_us, int rows)
{
  double took = (double)(now_us - pace->since_us) / G_USEC_PER_SEC / MAX (rows, 1);
  if (pace->since_us > 0 && took >= BW_PACE_LEAST_S && took <= BW_PACE_BREAK_S)
    remember (pace, took);
  pace->since_us = now_us;
}

static int
shorter (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

double
bw_pace_row_seconds (const BwPace *pace, double rows_per_hour)
{
  double sorted[BW_PACE_MOST];
  if (pace->n < BW_PACE_TELLS && pace->known_s > 0)
    return pace->known_s;
  if (pace->n < BW_PACE_TELLS)
    return rows_per_hour > 0 ? 3600 / rows_per_hour : 0;
  memcpy (sorted, pace->seconds, sizeof sorted);
  qsort (sorted, (gsize)pace->n, sizeof *sorted, shorter);
  return (sorted[(pace->n - 1) / 2] + sorted[pace->n / 2]) / 2;
}
