/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece of beadwork off the band: beads and the holes between them, in a box of rows and columns.
 * It remembers which of its cells hold beads at all, so that it can only land where the half-drop
 * of the band agrees with its own. */
#pragma once

#include "core/pattern/region.h"
#include "project/document/tray.h"

typedef struct _BwClip BwClip;

void bw_clip_free (BwClip *clip);
BwClip *bw_clip_copy (const BwClip *clip);
gboolean bw_clip_equal (const BwClip *a, const BwClip *b);
int bw_clip_rows (const BwClip *clip);
int bw_clip_columns (const BwClip *clip);
int bw_clip_count (const BwClip *clip); /* beads */

/* The beads of a region, and where their box began. NULL when it is empty. */
BwClip *bw_clip_lift (const BwDrawing *drawing, const BwRegion *region, int *row, int *column);

/* Mirrored round the stone, mirrored up and down, turned by half a turn. Each done twice is
 * nothing. A box of an odd number of beads may come out half a bead on. */
void bw_clip_flip_round (BwClip *clip);
void bw_clip_flip_up (BwClip *clip);
void bw_clip_turn (BwClip *clip);

/* Gives each bead of colour i the colour map[i]. */
void bw_clip_map (BwClip *clip, const guint8 map[256]);

/* The row at which the box can land when it should land at (row, column): that row, or its partner
 * in the pair picked up side by side (1 and 2, 3 and 4, …). */
int bw_clip_land (const BwClip *clip, int row, int column);

/* Visits the beads as they lie with the box at (row, column), which must be a place to land. Rows
 * and columns may be off the band. */
typedef void (*BwClipVisit) (int long_row, int column, guint8 colour, gpointer data);
void bw_clip_each (const BwClip *clip, int row, int column, BwClipVisit visit, gpointer data);

/* As text for the clipboard: a header line, then one line a row in the order woven, lowest column
 * first, one letter of the tray a bead and a space for a hole. Owned. */
char *bw_clip_print (const BwClip *clip, const BwTray *tray);
/* NULL with a plain sentence (G_IO_ERROR_INVALID_DATA) when the text is no beads, or has a letter
 * that the tray has not. Spaces at the end of a line may be missing. */
BwClip *bw_clip_parse (const char *text, const BwTray *tray, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwClip, bw_clip_free)
