/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How quickly a piece is woven on the screen. Closed form, so that it does not depend on how often
 * frames come. */
#pragma once

#include <glib.h>

typedef enum {
  BW_PLAY_BEADS, /* slow enough to see where the needle goes at each bead */
  BW_PLAY_ROWS,  /* a row in two seconds */
  BW_PLAY_BRISK, /* two rows a second */
  BW_PLAY_WHOLE, /* the whole piece in 20 seconds */
} BwPlaySpeed;

/* "beads", "rows", "brisk", "whole"; FALSE when it is none of them. */
gboolean bw_play_speed_parse (const char *word, BwPlaySpeed *speed);

/* Visits of the needle in a second, > 0, for a band of so many columns and a path of so many
 * visits. A row's pass has as many visits as the band has columns. */
double bw_play_per_second (BwPlaySpeed speed, int columns, int visits);

/* A run that began at this visit. */
typedef struct {
  int from;
  double per_second;
} BwPlayRun;

/* How many of all the visits are made so many seconds later: from `from` to `all`. */
int bw_play_run_at (BwPlayRun run, double seconds, int all);
