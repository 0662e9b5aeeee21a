/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How pages are set: a column of text, tables and drawings that runs from page to page. Private to
 * the sheets of this room. */
#pragma once

#include "core/pattern/tint.h"
#include "output/page/sheet.h"
#include "output/report/table.h"
#include <pango/pangocairo.h>

/* The type of everything printed: fonts that the package depends on, the second for signs that the
 * first has not. */
#define BW_FACE "Lato,DejaVu Sans,Sans"

#define BW_SHEET_MARGIN 42.0 /* left and right, points; less on small paper in large print */
#define BW_SHEET_HEAD 44.0   /* above the text, with the ribbon of the band */
#define BW_SHEET_FOOT 46.0   /* below it, with the running line */

/* What a stretch of a page is, for who listens to it: the structure types of PDF (ISO 32000-1,
 * 14.8.4) that the sheets have. */
typedef enum { BW_TAG_TEXT, BW_TAG_TITLE, BW_TAG_HEADING, BW_TAG_TABLE, BW_TAG_FIGURE } BwTag;

struct _BwSheet {
  BwPaper paper;
  double scale;  /* how much larger than it is laid out everything is printed, 1 at true size */
  double margin; /* left and right, points of the layout */
  char *title, *kind, *date, *stamp;
  gboolean bare;         /* without a running line */
  cairo_surface_t *head; /* drawn at the head of each page but the first; NULL: nothing */
  GPtrArray *pages;      /* of GArray of stretches */
  GArray *parts;         /* of int: pages with which a part of the work begins */
};

/* The user data of a recorded stretch is the page it lies on. */
extern const cairo_user_data_key_t bw_sheet_page_key;

/* kind: what this sheet is, as its running line says. at_size: whatever the maker wants, nothing is
 * made larger. */
BwSheet *bw_sheet_alloc (BwProject *project, BwPaper paper, const char *kind, gboolean at_size);

/* Opens a new page. */
void bw_sheet_open_page (BwSheet *sheet);
/* The last page opened begins a part: the one before it may end wherever it does. */
void bw_sheet_begin_part (BwSheet *sheet);
/* A context for another stretch at the end of a page, in the units in which pages are laid out.
 * Owned. */
cairo_t *bw_sheet_open_stretch (BwSheet *sheet, int page, BwTag tag);
/* Whether stretch `first` of a page is all that is seen of it and what follows. */
gboolean bw_sheet_ends_with (const BwSheet *sheet, int page, guint first);
/* Takes the stretches from `first` on off a page; no context for one of them may be left. */
void bw_sheet_drop_from (BwSheet *sheet, int page, guint first);

/* The last page opened shows what `page` shows, but for its first `skip` stretches: drawn once,
 * kept in a file once. */
void bw_sheet_share_page (BwSheet *sheet, int page, guint skip);

/* Text with every control character a space. Owned. */
char *bw_sheet_one_line (const char *text);

typedef enum {
  BW_TYPE_TEXT,
  BW_TYPE_BOLD,
  BW_TYPE_BENCH, /* read from an arm's length away */
  BW_TYPE_BENCH_BOLD,
  BW_TYPE_SMALL,
  BW_TYPE_TINY,
  BW_TYPE_TINY_BOLD,
  BW_TYPE_HEADING,
  BW_TYPE_TITLE,
  BW_N_TYPES
} BwType;

/* A layout whose unit is the point and that measures and places its signs alike wherever it is
 * drawn. Owned. */
PangoLayout *bw_type_plain (cairo_t *cr);
/* A layout in this type whose unit is the point; width 0: as wide as it is. Owned. */
PangoLayout *bw_type_layout (cairo_t *cr, BwType type, const char *text, double width);
/* Has each sign in the layout's text that fonts are without (☐ ▸) drawn; adds to attributes. */
void bw_signs_mark (PangoLayout *layout, PangoAttrList *attributes, double em);
/* Words that run from right to left begin at the left edge too, as all else on these pages does. */
void bw_type_keep_left (PangoLayout *layout);
/* One line at (x, y), y its top; align 0 left, 0.5 middle, 1 right of x. Returns its width. */
double bw_type_draw (cairo_t *cr, BwType type, const char *text, double x, double y, double align);
double bw_type_height (BwType type);
/* The colour it is printed in. */
BwTint bw_type_ink (BwType type);

/* A heading and its page, counted from 0. */
typedef struct {
  char *heading; /* owned */
  guint page;
} BwFlowEntry;

typedef struct {
  BwSheet *sheet;                  /* being set */
  cairo_t *cr;                     /* of the present stretch of the present page */
  BwTag tag;                       /* what it is */
  BwUnit unit;                     /* of lengths */
  BwTray tray;                     /* in the colours in which beads are printed */
  double left, width, top, bottom; /* of the text, points */
  double y;                        /* where the next thing goes */
  int n_drawings;                  /* of steps so far: they are numbered */
  GArray *contents;                /* of BwFlowEntry, the headings so far; owned */
  int contents_page;               /* where they are listed, */
  int contents_columns;            /* and in how many columns */
  double contents_y;
  int last_heading; /* its stretch of this page; -1: none but at the top */
} BwFlow;

void bw_flow_init (BwFlow *flow, BwSheet *sheet, BwProject *project);
/* Closes the last page; the sheet goes to the caller. */
BwSheet *bw_flow_finish (BwFlow *flow);

void bw_flow_new_page (BwFlow *flow);
/* The same, where a part of the work begins; a page on which nothing is yet will do. */
void bw_flow_part (BwFlow *flow);
/* What comes next on this page is this. */
void bw_flow_tag (BwFlow *flow, BwTag tag);
/* A new page unless this height is left. */
void bw_flow_room (BwFlow *flow, double height);
double bw_flow_left_over (const BwFlow *flow);
void bw_flow_space (BwFlow *flow, double height);

/* A heading that stays with at least `keep` points of what follows. */
void bw_flow_heading (BwFlow *flow, const char *text, double keep);
/* How much of a page it takes, with the room before it. */
double bw_flow_heading_height (const BwFlow *flow, const char *text);
/* A paragraph; one that must be cut leaves two lines on either side. */
void bw_flow_text (BwFlow *flow, BwType type, const char *text);
/* A paragraph that is not cut. */
void bw_flow_whole (BwFlow *flow, BwType type, const char *text);
/* A paragraph with a mark hung to the left of it, which may be "". */
void bw_flow_item (BwFlow *flow, const char *mark, const char *text, double indent);

/* Draws in the first cell of a table's row, `height` high, at (x, y). */
typedef void (*BwFlowCell) (cairo_t *cr, double x, double y, double height, int row, gpointer data);
/* A table with its first row as heading, which is repeated on each page; the widest column of text
 * gives way and wraps. cell may be NULL. */
void bw_flow_table (BwFlow *flow, const BwTable *table, BwFlowCell cell, gpointer data);

/* A table of names and what they are, without a heading, the names in bold. */
void bw_flow_facts (BwFlow *flow, const BwTable *table);

/* Draws a figure into a box at (0, 0). */
typedef void (*BwFlowFigure) (cairo_t *cr, double width, double height, gpointer data);
void bw_flow_figure (BwFlow *flow, double height, BwFlowFigure draw, gpointer data);
