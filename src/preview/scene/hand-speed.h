/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How quickly a hand moves at the moment it lets go. */
#pragma once

#include <glib.h>

#define BW_HAND_NOTES 128 /* what a quick mouse tells while it is looked at */

/* The places it was seen at last; all 0: none yet. */
typedef struct {
  struct {
    guint32 ms;
    double x, y;
  } note[BW_HAND_NOTES];
  int n; /* noted so far */
} BwHandSpeed;

/* Notes a place at a time of the events' own clock. */
void bw_hand_speed_note (BwHandSpeed *self, guint32 ms, double x, double y);

/* Its speed when it lets go at this time, in the places' unit a second. FALSE where it has come to
 * rest before, or was seen too seldom to tell. */
gboolean bw_hand_speed_at (const BwHandSpeed *self, guint32 ms, double *x, double *y);
