/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chart: the band as it is worn. The stone's axis runs up the page, rows run from left to right
 * in the order woven, beads are drawn as beads; a row's number stands where the needle enters it,
 * with the arrow of the words. */
#pragma once

#include "project/project.h"
#include <cairo.h>

/* A piece of the chart. The first `again` rows are those of the piece before, drawn pale and
 * without letters, to lay the pieces side by side; `again_columns` likewise, from below. */
typedef struct {
  int first_row, last_row;
  int first_column, last_column;
  int again_rows, again_columns;
} BwChartPart;

typedef struct {
  BwProject *project; /* borrowed */
  double pitch;       /* from bead to bead along the rows, in units of the page */
  double column;      /* from column to column */
  gboolean in_bail;   /* the bail's own chart: no faces */
  const BwTray *tray; /* its colours in print; borrowed, NULL: the project's */
} BwChart;

/* How large a part is with its numbers and faces. */
void bw_chart_part_size (const BwChart *chart, const BwChartPart *part, double *width,
                         double *height);
/* Where the middle of a row lies, from the part's left edge. */
double bw_chart_row_x (const BwChart *chart, const BwChartPart *part, int row);
/* The top left corner of a bead's place, which is `pitch` wide and `column` high. */
void bw_chart_bead_at (const BwChart *chart, const BwChartPart *part, int row, int column,
                       double *x, double *y);
/* Draws it with its top left corner at (0, 0). */
void bw_chart_draw (const BwChart *chart, const BwChartPart *part, cairo_t *cr);

/* A face's stretch of the ribbon under the rows: it lies under what is between the middles of two
 * places along the rows, counted in rows from 1 and not whole. */
typedef struct {
  int face; /* from 0 */
  double from_row, to_row;
} BwChartFace;
/* The stretches between two rows, from left to right within a turn. An array, owned. */
GArray *bw_chart_faces (BwProject *project, double first_row, double last_row);

/* The whole chart as one SVG image (1.1), owned. Every bead of the band is one <use class="bead">
 * with data-row, data-column and data-letter; below lie the faces as a ribbon of
 * <rect class="face">, the stone as it is worn in <g class="stone">, and the colours in use as
 * strung beads, each a <use class="key">. */
char *bw_chart_svg (BwProject *project);

/* The chart in a file by its name's end, .svg, .png or .pdf (one page as large as the chart); a
 * long PNG or PDF is broken into lines. All hold ribbon, stone and strung colours. Whole or
 * not at all; errors of G_IO_ERROR with the path before them. */
gboolean bw_chart_write (BwProject *project, const char *path, GError **error);
/* Whether bw_chart_write() knows this name's end. */
gboolean bw_chart_knows (const char *path);
