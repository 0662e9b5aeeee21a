/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Laying beads during one step: the live symmetry carries each bead on, nothing is laid in a locked
 * column, and all that came of one move of the pointer shows as one change. Costs what it changes, not what the band holds. */
#pragma once

#include "editor/tool/live.h"

typedef struct _BwPaint BwPaint;

/* The drawing as it is now is what restart() goes back to. Keeps references. */
BwPaint *bw_paint_new (BwSession *session);
void bw_paint_free (BwPaint *paint);

const BwDrawing *bw_paint_before (const BwPaint *paint); /* at new() */

/* Takes back all that was laid; the project sees it with the next show(). */
void bw_paint_restart (BwPaint *paint);
/* Off the band nothing happens. */
void bw_paint_lay (BwPaint *paint, int row, int column, guint8 colour);
/* Where the symmetry carries the bead to one that had not the colour over, that one stays. */
void bw_paint_lay_over (BwPaint *paint, int row, int column, guint8 over, guint8 colour);
void bw_paint_lay_region (BwPaint *paint, const BwRegion *region, guint8 colour);
/* Brings the project's drawing up to date; a step should be open. */
void bw_paint_show (BwPaint *paint);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPaint, bw_paint_free)
