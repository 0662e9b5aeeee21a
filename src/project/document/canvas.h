/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawings as part of the document: setting cells with a log of changes, and following the size
 * that the design asks for. Private to this room. */
#pragma once

#include "project/document/patch.h"

/* The colour most beads shown have; the lowest index of equals; 0 when there is no drawing. */
guint8 bw_canvas_ground (const BwDrawing *drawing);

/* Sets a cell that is shown and logs it when that changes anything. */
void bw_canvas_set (BwDocument *document, GArray *log, BwCanvas canvas, int row, int bead,
                    guint8 colour);

/* Applies the changes from index `from` on to shown and hidden cells alike, forwards or back. */
void bw_canvas_apply (BwDocument *document, const GArray *changes, guint from, gboolean forward);

/* Brings both drawings to the size of frame's design and fills what was never seen: rows by the
 * drawing's own repeat when it has one, everything else with its ground. Hidden cells come back
 * first. frame->seen grows along. */
void bw_canvas_follow (BwDocument *document, GArray *log, BwFrame *frame);

/* Sizes alone, as a step of history left them. */
void bw_canvas_restore_size (BwDocument *document, const BwFrame *frame);

/* Gives every cell, hidden ones included, the colour map[cell]. */
void bw_canvas_recolour (BwDocument *document, GArray *log, const guint8 map[256]);
