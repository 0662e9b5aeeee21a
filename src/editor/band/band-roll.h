/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the canvas stands on the band: fitted to it, rolled to a place, or moving by itself, gently
 * to a place asked for and onward under a stroke that is held against the view's edge. */
#pragma once

#include "editor/cloth/band-view.h"
#include "editor/tool/hand.h"

typedef enum {
  BW_FIT_NOT,
  BW_FIT_TO_DRAW, /* beads large enough to be drawn on: what a band opens with */
  BW_FIT_WHOLE,
} BwBandFit;

typedef struct {
  BwBandView *view;
  BwHand *hand;     /* whose strokes push */
  BwBandFit fitted; /* how the view follows band and window until the maker zooms or rolls */

  guint glide;                 /* tick callback that rolls to a place, 0 when at rest */
  double glide_from, glide_to; /* roll */
  gint64 glide_start;          /* frame time */

  gboolean within;       /* the stroke has been clear of both ends of the view */
  guint push;            /* tick callback while a stroke is held at an end, 0 otherwise */
  double push_x, push_y; /* where it is held */
  gint64 push_last;      /* frame time of the step before */
} BwBandRoll;

void bw_band_roll_init (BwBandRoll *roll, BwBandView *view, BwHand *hand);

/* Fits again when the view is fitted, else keeps it on the band. */
void bw_band_roll_follow (BwBandRoll *roll);
void bw_band_roll_fit (BwBandRoll *roll, BwBandFit how);

/* What shows is another part of the band: draw it, tell the view, and keep the numbers small. */
void bw_band_roll_shown_anew (BwBandRoll *roll);
/* The same when it was moved by hand: it is no longer fitted, nor on its way anywhere. */
void bw_band_roll_moved (BwBandRoll *roll);
/* Scrolls as little as it takes to show a bead. */
void bw_band_roll_reveal (BwBandRoll *roll, BwBeadAt bead);

/* Rolls there, gently where animations are on. */
void bw_band_roll_glide_to (BwBandRoll *roll, double to);
/* Where it is rolling to, or stands. */
double bw_band_roll_goal (const BwBandRoll *roll);

/* A stroke begins at x. One that begins at an end of the view is no wish to roll on. */
void bw_band_roll_hold (BwBandRoll *roll, double x);
/* It is held at (x, y): at the ends of the view and beyond its edges the band rolls on under it. */
void bw_band_roll_push (BwBandRoll *roll, double x, double y);

/* Stands still. */
void bw_band_roll_stop (BwBandRoll *roll);
