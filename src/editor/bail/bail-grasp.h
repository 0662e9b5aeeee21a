/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hand on the bail outlined on the band: what it is over, what it pulls, what keys step. A pull
 * is one step of undo, and so is a run of keys. */
#pragma once

#include "editor/bail/bail-grip.h"
#include "editor/cloth/band-view.h"

typedef struct {
  BwBandView *view;
  BwBailGrip over; /* under the pointer */
  /* One pull: its step of undo is open. */
  BwBailGrip held;
  BwDesign from;
  BwBandPoint took; /* where it was taken */
  double drag_x, drag_y;
  guint push; /* tick callback while it is held beyond the view, 0 otherwise */
  double push_x, push_y;
  gint64 push_last;
  /* Rolling by hand. */
  gboolean rolling;
  double rolled_px;

  gboolean stepping; /* a run of keys has its step of undo open */
  BwBailKnob knob;   /* which they turn */
  guint rest;        /* ends the run, 0 when none is open */
} BwBailGrasp;

/* Adds the controllers to the view's widget, a BwUnrolled; both must live as long as it. */
void bw_bail_grasp_init (BwBailGrasp *grasp, BwBandView *view);

/* Ends what is under way: keeps it, or takes it back. */
void bw_bail_grasp_settle (BwBailGrasp *grasp);
void bw_bail_grasp_revert (BwBailGrasp *grasp);
gboolean bw_bail_grasp_is_busy (const BwBailGrasp *grasp);

/* What can be done at a point of the widget, NULL for nothing; x < 0: by keys. */
const char *bw_bail_grasp_tip (BwBailGrasp *grasp, double x, double y);
