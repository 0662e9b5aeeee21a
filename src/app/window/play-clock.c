/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/window/play-clock.h"

#include <math.h>
#include <string.h>

#define BEADS_PER_S 3.0
#define ROWS_PER_S 0.5
#define BRISK_ROWS_PER_S 2.0
#define WHOLE_S 20.0

gboolean
bw_play_speed_parse (const char *word, BwPlaySpeed *speed)
{
  static const char *const words[] = { [BW_PLAY_BEADS] = "beads",
                                       [BW_PLAY_ROWS] = "rows",
                                       [BW_PLAY_BRISK] = "brisk",
                                       [BW_PLAY_WHOLE] = "whole" };
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (word, words[i]) == 0) {
      *speed = (BwPlaySpeed)i;
      return TRUE;
    }
  return FALSE;
}

double
bw_play_per_second (BwPlaySpeed speed, int columns, int visits)
{
  switch (speed) {
  case BW_PLAY_ROWS:
    return ROWS_PER_S * columns;
  case BW_PLAY_BRISK:
    return BRISK_ROWS_PER_S * columns;
  case BW_PLAY_WHOLE:
    return MAX (visits, 1) / WHOLE_S;
  case BW_PLAY_BEADS:
  default:
    return BEADS_PER_S;
  }
}

int
bw_play_run_at (BwPlayRun run, double seconds, int all)
{
  double made = run.from + floor (run.per_second * MAX (seconds, 0));
  return (int)CLAMP (made, run.from, MAX (all, run.from));
}
