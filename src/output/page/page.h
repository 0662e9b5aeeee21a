/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How pages are set: a column of text, tables and drawings that runs from page to page. Private to
 * the sheets of this room. */
#pragma once

#include "output/page/sheet.h"
#include "output/report/table.h"
#include <pango/pangocairo.h>

#define BW_SHEET_MARGIN 42.0 /* left and right, points */
#define BW_SHEET_HEAD 36.0   /* above the text */
#define BW_SHEET_FOOT 46.0   /* below it, with the running line */

struct _BwSheet {
  BwPaper paper;
  char *title, *kind, *date, *stamp;
  GPtrArray *pages; /* of cairo_surface_t */
};

/* kind: what this sheet is, as its running line says. */
BwSheet *bw_sheet_alloc (BwProject *project, BwPaper paper, const char *kind);

/* Text with every control character a space. Owned. */
char *bw_sheet_one_line (const char *text);

typedef enum {
  BW_TYPE_TEXT,
  BW_TYPE_BOLD,
  BW_TYPE_SMALL,
  BW_TYPE_TINY,
  BW_TYPE_TINY_BOLD,
  BW_TYPE_HEADING,
  BW_TYPE_TITLE,
  BW_N_TYPES
} BwType;

/* A layout in this type whose unit is the point; width 0: as wide as it is. Owned. */
PangoLayout *bw_type_layout (cairo_t *cr, BwType type, const char *text, double width);
/* One line at (x, y), y its top; align 0 left, 0.5 middle, 1 right of x. Returns its width. */
double bw_type_draw (cairo_t *cr, BwType type, const char *text, double x, double y, double align);
double bw_type_height (BwType type);

/* A heading and its page, counted from 0. */
typedef struct {
  char *heading; /* owned */
  guint page;
} BwFlowEntry;

typedef struct {
  BwSheet *sheet;                  /* being set */
  cairo_t *cr;                     /* of the present page */
  double left, width, top, bottom; /* of the text, points */
  double y;                        /* where the next thing goes */
  int n_drawings;                  /* of steps so far: they are numbered */
  GArray *contents;                /* of BwFlowEntry, the headings so far; owned */
  int contents_page;               /* where they are listed */
  double contents_y;
} BwFlow;

void bw_flow_init (BwFlow *flow, BwSheet *sheet);
/* Closes the last page; the sheet goes to the caller. */
BwSheet *bw_flow_finish (BwFlow *flow);

void bw_flow_new_page (BwFlow *flow);
/* A new page unless this height is left. */
void bw_flow_room (BwFlow *flow, double height);
double bw_flow_left_over (const BwFlow *flow);
void bw_flow_space (BwFlow *flow, double height);

/* A heading that stays with at least `keep` points of what follows. */
void bw_flow_heading (BwFlow *flow, const char *text, double keep);
/* A paragraph; one that must be cut leaves two lines on either side. */
void bw_flow_text (BwFlow *flow, BwType type, const char *text);
/* A paragraph with a mark hung to the left of it, which may be "". */
void bw_flow_item (BwFlow *flow, const char *mark, const char *text, double indent);

/* Draws in the first cell of a table's row, `height` high, at (x, y). */
typedef void (*BwFlowCell) (cairo_t *cr, double x, double y, double height, int row, gpointer data);
/* A table with its first row as heading, which is repeated on each page; the widest column of text
 * gives way and wraps. cell may be NULL. */
void bw_flow_table (BwFlow *flow, const BwTable *table, BwFlowCell cell, gpointer data);

/* Draws a figure into a box at (0, 0). */
typedef void (*BwFlowFigure) (cairo_t *cr, double width, double height, gpointer data);
void bw_flow_figure (BwFlow *flow, double height, BwFlowFigure draw, gpointer data);
