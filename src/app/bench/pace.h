/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a row takes these hands, from the rows just woven. */
#pragma once

#include <glib.h>

#define BW_PACE_MOST 12           /* rows remembered */
#define BW_PACE_BREAK_S (15 * 60) /* a longer row was a pause and tells nothing */
#define BW_PACE_LEAST_S 5         /* nobody weaves a row in less: that was leafing through */

typedef struct {
  double seconds[BW_PACE_MOST]; /* the oldest first */
  int n;
  gint64 since_us; /* when the row in hand was begun; 0: not known */
  double known_s;  /* a row by what earlier sittings told; 0: nothing is known */
} BwPace;

/* The maker sits down, or goes back a row: what passed until now belongs to no row. Times are those
 * of g_get_monotonic_time(). */
void bw_pace_begin (BwPace *pace, gint64 now_us);
/* A row is done: `rows` of them at once (the pick-up makes two). */
void bw_pace_done (BwPace *pace, gint64 now_us, int rows);
#define BW_PACE_TELLS 3 /* rows after which this sitting tells anything, and is worth remembering  \
                         */
/* Seconds for a row: the middle one of those remembered, once they tell anything; else what earlier
 * sittings told; else what rows_per_hour says; 0 when nothing is known. */
double bw_pace_row_seconds (const BwPace *pace, double rows_per_hour);
