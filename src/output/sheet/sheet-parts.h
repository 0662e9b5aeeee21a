/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections that printed sheets are made of. Private to the sheets. */
#pragma once

#include "output/page/page.h"
#include "project/project.h"

/* A picture with a clear ground, as large as the box at (0, 0) allows. */
void bw_sheet_draw_picture (cairo_t *cr, cairo_surface_t *picture, double width, double height);
/* The same, not in the middle: across 0 at the left of the box, 1 at its right. */
void bw_sheet_place_picture (cairo_t *cr, cairo_surface_t *picture, double width, double height,
                             double across);

/* How much paper may be off: printers feed it, and it takes up damp (common practice, no source).
 */
#define BW_PAPER_OFF_MM 0.5
/* A difference that a ruler shows, for which it is told what follows from it: a millimetre, or a
 * tenth of an inch. The words are owned. */
double bw_sheet_each_mm (BwUnit unit);
char *bw_sheet_each_words (BwUnit unit);

/* The title in full and the day. */
void bw_sheet_add_title (BwFlow *flow);
/* Room for a list of the headings to come with their pages, which is filled in when they are known:
 * call draw when the last is set. */
void bw_sheet_add_contents (BwFlow *flow);
void bw_sheet_draw_contents (BwFlow *flow);
/* The room that is kept, points. */
double bw_sheet_contents_height (const BwFlow *flow);

/* The band laid out across the page, and small at the head of every page but the first. */
void bw_sheet_add_ribbon (BwFlow *flow, BwProject *project);
void bw_sheet_set_head (BwFlow *flow, BwProject *project);

/* The sections of the work sheet; either picture may be NULL. */
void bw_sheet_add_piece (BwFlow *flow, BwProject *project, cairo_surface_t *hanging,
                         cairo_surface_t *join);
void bw_sheet_add_stone (BwFlow *flow, BwProject *project);
void bw_sheet_add_fit (BwFlow *flow, BwProject *project);
/* Where rows should end, at true size, and room for where they do. */
void bw_sheet_add_ruler (BwFlow *flow, BwProject *project);
/* Which rows other stones of the kind want; nothing where no count suits any. */
void bw_sheet_add_others (BwFlow *flow, BwProject *project);
void bw_sheet_add_materials (BwFlow *flow, BwProject *project, int pieces);
/* A swatch to weave first, at true size, and what is common practice with tools and thread. */
void bw_sheet_add_swatch (BwFlow *flow, BwProject *project);
void bw_sheet_add_craft (BwFlow *flow);
/* What a shop is to send, what is in hand taken off. */
void bw_sheet_add_order (BwFlow *flow, BwProject *project, int pieces);
/* The beads of one piece, to pack for one maker: a table of a few colours, else columns of small
 * type not higher than `room` where that can be. */
void bw_sheet_add_bag (BwFlow *flow, BwProject *project, double room);
void bw_sheet_add_bed (BwFlow *flow, BwProject *project);
void bw_sheet_add_chart (BwFlow *flow, BwProject *project);
/* The colours in use, each by its bead with the letter. */
void bw_sheet_add_key (BwFlow *flow, BwProject *project);
/* The words, with the drawings of each part of the work beside them. */
void bw_sheet_add_words (BwFlow *flow, BwProject *project);

/* The parts of the work that have drawings. */
typedef enum { BW_WORK_BAND, BW_WORK_JOIN, BW_WORK_BAIL, BW_WORK_ENDS } BwSheetWork;
/* The drawings of one part; nothing when there are none. */
void bw_sheet_add_steps (BwFlow *flow, BwProject *project, BwSheetWork work);
/* How the drawings are read. */
void bw_sheet_add_legend (BwFlow *flow);
/* The bail's loop from its end, with its cord, as the core bends it; nothing without a bail. */
void bw_sheet_add_loop (BwFlow *flow, BwProject *project);
void bw_sheet_add_thread (BwFlow *flow, BwProject *project);
void bw_sheet_add_cautions (BwFlow *flow, BwProject *project);
