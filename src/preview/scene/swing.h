/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The short swing of a piece that is let go and comes to rest: a damped pendulum, small-angle law.
 */
#pragma once

#include <glib.h>

#define BW_SWING_S                                                                                 \
  1.5 /* it lasts so long, seconds; what is left then (1/2000) is not to be seen                   \
       */

/* How it begins. */
typedef struct {
  double offset; /* from rest, radians */
  double speed;  /* radians a second */
} BwSwing;

/* Offset and speed so many seconds later; exactly 0 from BW_SWING_S on. */
BwSwing bw_swing_after (BwSwing start, double seconds);
/* Its energy, in units of the moment of inertia; it never grows. */
double bw_swing_energy (BwSwing now);
/* How much of the viewer's way from one place to another is done, 0..1; 1 before the swing ends. */
double bw_swing_glide (double seconds);
