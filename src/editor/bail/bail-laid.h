/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail laid flat with its lead of band rows: how it lies in the view, and the keyboard's bead.
 */
#pragma once

#include "editor/cloth/unrolled.h"

typedef struct {
  BwBandView *view;
  BwDrawing *cloth; /* bail and lead; NULL without a bail, or when it must be made anew */
  gboolean is_new;  /* it was made anew since the last frame */
  GArray *set;      /* of BwBeadOf: else its beads that were set since */
  guint64 seen;     /* of the project's beads, see bw_project_touched() */
  guint64 laid;     /* beads laid so far: what a test counts */
  int lead;
  BwBeadAt cursor; /* the keyboard's bead, row of the bail */
  gboolean cursor_shown;
} BwBailLaid;

/* The bail's drawing, NULL without a bail; borrowed. */
const BwDrawing *bw_bail_laid_drawing (const BwBailLaid *laid);

void bw_bail_laid_init (BwBailLaid *laid, BwBandView *view);
void bw_bail_laid_clear (BwBailLaid *laid);

/* Makes the cloth anew from the project. */
void bw_bail_laid_take (BwBailLaid *laid);
/* The same when nothing but beads was set: by the beads that were. */
void bw_bail_laid_follow (BwBailLaid *laid);
/* The whole strip in the middle; where it is too long for the view, the cursor's part of it. */
void bw_bail_laid_place (BwBailLaid *laid);
/* How high it is at a width; pixels. */
int bw_bail_laid_height (const BwBailLaid *laid, int width);

gboolean bw_bail_laid_has (BwBailLaid *laid, int row, int column);
/* The bead of the bail pointed at, in any view; FALSE for none. */
gboolean bw_bail_laid_hovered (BwBailLaid *laid, BwBeadAt *bead);
void bw_bail_laid_set_cursor (BwBailLaid *laid, BwBeadAt bead, gboolean shown);
/* Tells the bead pointed at, or a note; a screen reader hears the cursor's bead. */
void bw_bail_laid_tell (BwBailLaid *laid, const char *note);

/* Why a press there lays nothing. */
const char *bw_bail_laid_missed (BwBailLaid *laid, double x, double y);

/* The bead of the bail under a point of the widget; FALSE for none. And the middle of a bead. */
gboolean bw_bail_laid_bead_at (BwBailLaid *laid, double x, double y, int *row, int *column);
gboolean bw_bail_laid_bead_point (BwBailLaid *laid, int row, int column, double *x, double *y);
