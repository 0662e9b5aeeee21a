/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is printed: laid-out pages that can be drawn on any cairo context, so that the printer, the
 * PDF file and a picture show the same. Everything is in points (1/72 inch) from the top left
 * corner of the paper, at true size. */
#pragma once

#include "project/document/length.h"
#include "project/project.h"
#include <cairo.h>

#define BW_POINTS_PER_MM (72 / 25.4)

/* What the maker wants of a print beside the usual. */
typedef enum {
  BW_PRINT_LARGE = 1 << 0,   /* everything but what is at true size half as large again, on small
                                paper as much larger as goes */
  BW_PRINT_SPARING = 1 << 1, /* white beads, told apart by letter and mark alone */
  BW_PRINT_COSTS = 1 << 2,   /* prices and wages too */
  BW_PRINT_INCHES = 1 << 3,  /* lengths in inches, and what is cut off a spool in feet */
} BwPrintWish;

/* Parts of the work sheet that can be left out, by a wish each. Its cover and the cautions stay. */
typedef enum {
  BW_SHEET_LISTS,  /* what is needed, and the lengths of thread */
  BW_SHEET_STONE,  /* stone, bed and fit, and other stones of the kind */
  BW_SHEET_SWATCH, /* a swatch to weave first, and the row ruler */
  BW_SHEET_CHART,
  BW_SHEET_WORDS, /* row by row, with the drawings */
  BW_SHEET_CRAFT, /* tools and thread, common practice */
  BW_SHEET_ORDER, /* what a shop is to send */
  BW_N_SHEET_PARTS
} BwSheetPart;

#define BW_PRINT_WITHOUT(part) (1u << (8 + (guint)(part)))

/* The paper, and how it is printed on. */
typedef struct {
  double width, height; /* as it is fed, points */
  guint wishes;         /* flags of BwPrintWish and BW_PRINT_WITHOUT () */
} BwPaper;

/* A4: 210 × 297 mm, A5: 148 × 210 mm (ISO 216); Letter: 8½ × 11 inches. */
#define BW_PAPER_A4 ((BwPaper){ 210 * BW_POINTS_PER_MM, 297 * BW_POINTS_PER_MM, 0 })
#define BW_PAPER_A5 ((BwPaper){ 148 * BW_POINTS_PER_MM, 210 * BW_POINTS_PER_MM, 0 })
#define BW_PAPER_LETTER ((BwPaper){ 612, 792, 0 })

/* What a page of a size that is given can be laid out on, each way, millimetres. */
#define BW_PAPER_LEAST_MM 180
#define BW_PAPER_MOST_MM 1200

/* "a4", "a5", "letter", or width and height in millimetres within the bounds above, such as
 * "216x356". */
gboolean bw_paper_from_word (const char *word, BwPaper *paper);
/* What lengths are told in on such a paper. */
BwUnit bw_paper_unit (BwPaper paper);
/* The same size to a tenth of a point. */
gboolean bw_paper_equal (BwPaper a, BwPaper b);

typedef struct _BwSheet BwSheet;

/* The work sheet: all that a maker needs who was not there when the piece was designed. hanging and
 * join are pictures of the finished piece on a clear ground, as it hangs and where it was joined;
 * each may be NULL, and is left alone afterwards. */
BwSheet *bw_sheet_new (BwProject *project, BwPaper paper, cairo_surface_t *hanging,
                       cairo_surface_t *join);

/* The paper strip: wrapped round the stone it checks the measurements before a bead is threaded. */
BwSheet *bw_strip_new (BwProject *project, BwPaper paper);

/* The kit sheet of a class: one shopping list for `makers` pieces (1..BW_KIT_MAX), then one page
 * for each maker. picture may be NULL. */
#define BW_KIT_MAX 1000
BwSheet *bw_kit_new (BwProject *project, BwPaper paper, int makers, cairo_surface_t *picture);

/* What a shop is to send, without the rest of the work sheet. */
BwSheet *bw_order_sheet_new (BwProject *project, BwPaper paper);
/* The chart with its colours, without the rest of the work sheet. */
BwSheet *bw_chart_sheet_new (BwProject *project, BwPaper paper);

void bw_sheet_free (BwSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwSheet, bw_sheet_free)

BwPaper bw_sheet_get_paper (const BwSheet *sheet);
int bw_sheet_n_pages (const BwSheet *sheet);

/* Page 0 ≤ page < n_pages with its running head and its number, one unit of cr being a point. */
void bw_sheet_draw_page (const BwSheet *sheet, cairo_t *cr, int page);

/* All pages as one PDF file, written whole or not at all: a file already there stays when this one
 * cannot be written. Errors are of G_IO_ERROR, with the path before the sentence. The same project
 * gives the same bytes when SOURCE_DATE_EPOCH is set. */
gboolean bw_sheet_write_pdf (const BwSheet *sheet, const char *path, GError **error);
