/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tool is one interaction: what happens between pressing and letting go. One file each.
 *
 * The hand (hand.h) opens a step of undo before begin() and closes it after end(), and shows what
 * was laid after each call, so a tool only lays beads and answers how to go on. A tool that shows a
 * shape while it is dragged restarts hold->paint at every update. Everything laid goes through
 * hold->paint, which honours the live symmetry. */
#pragma once

#include "editor/cloth/band-layout.h"
#include "editor/tool/paint.h"
#include "editor/tool/shape.h"
#include "project/session.h"

typedef enum {
  BW_TOOL_GOES_ON,
  BW_TOOL_COMMITS, /* done before letting go: what has been done is kept */
  BW_TOOL_REVERTS, /* everything since begin() is taken back */
} BwToolReply;

/* Keys held while a tool is at work. */
typedef enum {
  BW_HELD_SHIFT = 1 << 0,   /* keeps to what is straight or square */
  BW_HELD_CONTROL = 1 << 1, /* adds to a selection, copies what is moved */
} BwHeld;

/* What a tool may look at while the hand holds it. Points and long rows as in band-layout.h: they
 * go on through the repeats of the band, so that a tool never sees the join. */
typedef struct {
  BwSession *session;
  BwProject *project;
  BwBandLayout layout;        /* for its lattice; the view in it is that of begin() */
  BwBandPoint from, last, at; /* where it began, where it was at the call before, where it is */
  const BwDrawing *before;    /* the drawing as it was at begin() */
  guint8 colour;              /* the colour in hand at begin() */
  guint8 ground;              /* what an erased bead becomes */
  guint held;                 /* flags of BwHeld */
  BwPaint *paint;
  const BwRegion *selected; /* the selection as it was at begin(), NULL for none */
} BwToolHold;

typedef struct {
  BwToolKind kind;
  const char *step; /* untranslated label of the undo step; NULL when the project is not touched */
  const char *cursor; /* CSS name of the pointer */
  gboolean spans;     /* wants two places: a keyboard sets the first, walks, and sets the second */
  BwToolReply (*begin) (BwToolHold *hold);
  BwToolReply (*update) (BwToolHold *hold);
  BwToolReply (*end) (BwToolHold *hold);
  /* How large what is pulled is, for the status line; owned by the caller. NULL: not told. */
  char *(*words) (const BwToolHold *hold);
} BwTool;

extern const BwTool bw_tool_bead;
extern const BwTool bw_tool_pick;
extern const BwTool bw_tool_line;
extern const BwTool bw_tool_rectangle;
extern const BwTool bw_tool_flood;
extern const BwTool bw_tool_frame;
extern const BwTool bw_tool_swap;
extern const BwTool bw_tool_erase;
extern const BwTool bw_tool_select;
extern const BwTool bw_tool_select_colour;
extern const BwTool bw_tool_move;

/* The brick under a point, long row and column; a point above or below the band counts as on its
 * edge. */
BwBeadAt bw_tool_brick (const BwToolHold *hold, BwBandPoint point);

/* The brick the pointer is over now, straightened by Shift for lines, squared for rectangles. */
BwBeadAt bw_tool_straight_end (const BwToolHold *hold);
BwBeadAt bw_tool_square_end (const BwToolHold *hold);

/* Lays a shape, such as bw_shape_fill(), between where it was taken hold of and where the pointer
 * is, in place of the one laid before. */
BwToolReply bw_tool_pull_shape (BwToolHold *hold,
                                void (*shape) (BwShapeBox box, BwStrokeVisit visit, gpointer data));

/* Lays the bead that a long row and column stand for, in the colour in hand or another; outside the
 * band nothing happens. */
void bw_tool_set_bead (BwToolHold *hold, int long_row, int column);
void bw_tool_lay (BwToolHold *hold, int long_row, int column, guint8 colour);

/* Takes the colour of a bead as it is shown in hand; FALSE when the tray has it not, because it is
 * only tried. */
gboolean bw_tool_pick_up (BwSession *session, BwBeadAt bead);

/* Words for a line, a filled block, a frame and a move; of any box, filled or its frame alone. */
char *bw_tool_line_words (const BwToolHold *hold);
char *bw_tool_block_words (const BwToolHold *hold);
char *bw_tool_frame_words (const BwToolHold *hold);
char *bw_tool_move_words (const BwToolHold *hold);
char *bw_tool_box_words (BwShapeBox box, gboolean frame);

/* For tools that are done when they are let go. */
BwToolReply bw_tool_let_go (BwToolHold *hold);
/* For tools that act on the press alone. */
BwToolReply bw_tool_hold_still (BwToolHold *hold);
