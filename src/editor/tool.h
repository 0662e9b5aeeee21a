/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tool is one interaction: what happens between pressing and letting go. One file each.
 *
 * The hand (hand.h) opens a step of undo before begin() and closes it after end(), so a tool only
 * sets beads and answers how to go on. A tool that shows a shape while it is dragged starts again
 * from hold->before at every update. */
#pragma once

#include "band-layout.h"
#include "project/session.h"

typedef enum {
  BW_TOOL_GOES_ON,
  BW_TOOL_COMMITS, /* done before letting go: what has been done is kept */
  BW_TOOL_REVERTS, /* everything since begin() is taken back */
} BwToolReply;

/* What a tool may look at while the hand holds it. Points and long rows as in band-layout.h: they
 * go on through the repeats of the band, so that a tool never sees the join. */
typedef struct {
  BwSession *session;
  BwProject *project;
  BwBandLayout layout;        /* for its lattice; the view in it is that of begin() */
  BwBandPoint from, last, at; /* where it began, where it was at the call before, where it is */
  const BwDrawing *before;    /* the drawing as it was at begin() */
  guint8 colour;              /* the colour in hand at begin() */
} BwToolHold;

typedef struct {
  BwToolKind kind;
  const char *step; /* untranslated label of the undo step; NULL when the project is not touched */
  const char *cursor; /* CSS name of the pointer */
  gboolean spans;     /* wants two places: a keyboard sets the first, walks, and sets the second */
  BwToolReply (*begin) (BwToolHold *hold);
  BwToolReply (*update) (BwToolHold *hold);
  BwToolReply (*end) (BwToolHold *hold);
} BwTool;

extern const BwTool bw_tool_bead;
extern const BwTool bw_tool_pick;
extern const BwTool bw_tool_line;
extern const BwTool bw_tool_rectangle;
extern const BwTool bw_tool_flood;

/* The tool of a kind. Never NULL. */
const BwTool *bw_tool_get (BwToolKind kind);

/* The brick under a point, long row and column; a point above or below the band counts as on its
 * edge. */
BwBeadAt bw_tool_brick (const BwToolHold *hold, BwBandPoint point);

/* Sets the bead that a long row and column stand for; outside the band nothing happens. The second
 * sets it in a drawing of the tool's own, the third shows such a drawing in place of the project's.
 */
void bw_tool_set_bead (BwToolHold *hold, int long_row, int column);
void bw_tool_draw_bead (const BwToolHold *hold, BwDrawing *drawing, int long_row, int column);
void bw_tool_show (BwToolHold *hold, const BwDrawing *drawing);
