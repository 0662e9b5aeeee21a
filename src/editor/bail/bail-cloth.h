/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail's weaving beside the band's: what of the band it goes on from, and which beads of the
 * band lie beneath it. Pure. */
#pragma once

#include "core/bail/bail-place.h"
#include "core/pattern/drawing.h"
#include "project/session.h"

/* Rows of the band shown before a flap's first row, and as many after its last; even. */
#define BW_BAIL_LEAD 6

/* 0 for a strip of its own, whose beads lie across the band's. */
int bw_bail_lead (const BwBail *bail);

/* The bail's drawing with its lead of band rows before and after it, as one piece of weaving: the
 * lattice runs on from the one into the other. Row r of the bail is row lead + r. Owned. */
BwDrawing *bw_bail_cloth (const BwDesign *design, const BwBailBase *base, const BwDrawing *band,
                          const BwDrawing *bail);

/* Brings such a cloth up to date when these beads (BwBeadOf) alone were set since: one of the bail
 * is one bead of it, one of the band in the bail's columns has the lead looked at. The beads of the
 * cloth that are set are appended to laid (BwBeadOf, in_bail FALSE). */
void bw_bail_cloth_follow (BwDrawing *cloth, const BwDesign *design, const BwBailBase *base,
                           const BwDrawing *band, const BwDrawing *bail, const GArray *beads,
                           GArray *laid);

/* A drawing of the bail's size in which every bead has the colour of the band beneath: a flap's
 * rows go on where the band's leave off, an upright strip's beads take those they stand over, and
 * on a loop over the tip the columns of the band are mirrored at the edge. Owned. */
BwDrawing *bw_bail_beneath (const BwDesign *design, const BwBailBase *base, const BwDrawing *band);
