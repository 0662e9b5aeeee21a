/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail's own beads laid flat, between the beads of the band it grows off and those it is sewn
 * to: drawn on with the colour in hand. A stroke is one step of undo.
 *
 * Mouse: the left button lays beads, the right one picks a colour up. Keys: arrows walk, Space
 * lays, Shift+Space or P picks up, letters take a colour, Delete lays the colour most beads have,
 * Escape takes a stroke back. */
#pragma once

#include "editor/cloth/unrolled.h"

#define BW_TYPE_BAIL_STRIP (bw_bail_strip_get_type ())
G_DECLARE_FINAL_TYPE (BwBailStrip, bw_bail_strip, BW, BAIL_STRIP, BwUnrolled)

/* "status" tells the bead under the pointer or the cursor. */
GtkWidget *bw_bail_strip_new (BwSession *session);

/* The middle of a bead of the bail in widget pixels; FALSE when there is none. */
gboolean bw_bail_strip_bead_point (BwBailStrip *self, int row, int column, double *x, double *y);

/* How many beads were laid or compared so far: what a test counts. */
guint64 bw_bail_strip_looked (BwBailStrip *self);

/* Every bead gets the colour in hand, or that of the band beneath it; one step each. */
void bw_bail_strip_fill (BwBailStrip *self);
void bw_bail_strip_follow_band (BwBailStrip *self);
