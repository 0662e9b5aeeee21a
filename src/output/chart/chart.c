/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One drawing for paper and picture. Everything is measured in pitches and columns, so that it
 * comes out alike at every size. */
#include "config.h"

#include "output/chart/chart.h"

#include "core/pattern/tint.h"
#include "core/base/lattice.h"
#include "output/chart/mark.h"
#include "output/page/page.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define NUMBERS 1.15 /* room above and below for row numbers, in pitches */
#define SIDE 1.5     /* room to the left for column numbers */
#define GAP 0.03     /* between a bead and its place, in columns */
#define FACES 1.0    /* room for the ribbon of faces */
#define LEAST_LETTER 4.0
#define DIGIT 0.6 /* width of one, in heights of a line of numbers */

static double
rows_x (const BwChart *chart, const BwChartPart *part, double row)
{
  return (SIDE + (row - part->first_row) / 2) * chart->pitch;
}

static double
column_y (const BwChart *chart, const BwChartPart *part, int column)
{
  return NUMBERS * chart->pitch + (part->last_column - column) * chart->column;
}

void
bw_chart_part_size (const BwChart *chart, const BwChartPart *part, double *width, double *height)
{
  *width = rows_x (chart, part, part->last_row) + 1.1 * chart->pitch;
  *height = column_y (chart, part, part->first_column) + chart->column
            + (NUMBERS + (chart->in_bail ? 0 : FACES)) * chart->pitch;
}

double
bw_chart_row_x (const BwChart *chart, const BwChartPart *part, int row)
{
  return rows_x (chart, part, row) + chart->pitch / 2;
}

void
bw_chart_bead_at (const BwChart *chart, const BwChartPart *part, int row, int column, double *x,
                  double *y)
{
  *x = rows_x (chart, part, row);
  *y = column_y (chart, part, column);
}

static const BwDrawing *
drawing_of (const BwChart *chart)
{
  return chart->in_bail ? bw_project_get_bail_drawing (chart->project)
                        : bw_project_get_drawing (chart->project);
}

static gboolean
is_again (const BwChartPart *part, int row, int column)
{
  return row < part->first_row + part->again_rows
         || column < part->first_column + part->again_columns;
}

/* A bead of the piece before: enough to lay the pieces together, nothing to weave. */
static void
draw_pale (const BwChart *chart, cairo_t *cr, guint32 srgb, double x, double y)
{
  cairo_rectangle (cr, x + 0.3, y + 0.3, chart->pitch - 0.6, chart->column - 0.6);
  cairo_set_source_rgba (cr, (srgb >> 16 & 255) / 255.0, (srgb >> 8 & 255) / 255.0,
                         (srgb & 255) / 255.0, 0.25);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (cr, 0.3);
  cairo_stroke (cr);
}

static void
draw_bead (const BwChart *chart, const BwChartPart *part, cairo_t *cr, BwMarkPen *pen, int row,
           int column)
{
  int colour = bw_drawing_get (drawing_of (chart), row, column);
  double x = rows_x (chart, part, row), y = column_y (chart, part, column);
  double gap = GAP * chart->column;
  if (is_again (part, row, column)) {
    draw_pale (chart, cr, pen->tray->colour[colour].srgb, x, y);
    return;
  }
  bw_mark_draw (cr, pen->tray, colour, x + gap, y + gap, pen->width, pen->height);
  if (MIN (pen->width, pen->height) >= LEAST_LETTER)
    bw_mark_pen_draw (pen, cr, colour, x + gap, y + gap);
}

/* Type that keeps its proportion to the beads. */
static void
draw_label (const BwChart *chart, cairo_t *cr, BwType type, const char *text, double x, double y,
            double align)
{
  double scale = chart->pitch / 13.0 * (type == BW_TYPE_SMALL ? 0.9 : 1);
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, scale, scale);
  bw_type_draw (cr, type, text, 0, 0, align);
  cairo_restore (cr);
}

static gboolean
runs_up (const BwChart *chart, int row)
{
  if (!chart->in_bail || bw_bail_is_strip (&bw_project_get_design (chart->project)->bail))
    return bw_lattice_direction (row) > 0;
  const GArray *visits = bw_project_path (chart->project)->visits;
  for (guint i = 0; i < visits->len; i++) {
    const BwVisit *visit = &g_array_index (visits, BwVisit, i);
    if (visit->in_bail && visit->is_new)
      return (visit->direction == 1) == (row % 2 == visit->row % 2);
  }
  return row % 2 == 0;
}

/* The number stands at the edge where the needle enters, the arrow shows where it goes. */
static void
draw_row_number (const BwChart *chart, const BwChartPart *part, cairo_t *cr, int row)
{
  gboolean up = runs_up (chart, row);
  double x = rows_x (chart, part, row) + chart->pitch / 2;
  double low = column_y (chart, part, part->first_column) + chart->column;
  double line = 6.6 * chart->pitch / 13.0;
  g_autofree char *number = g_strdup_printf ("%d", row);
  if (chart->pitch < 5)
    return;
  /* Where numbers would run into one another every fifth row has one. */
  if (row % 5 != 0 && DIGIT * (double)strlen (number) * line > chart->pitch)
    *number = '\0';
  BwType type = row % 10 == 0 ? BW_TYPE_TINY_BOLD : BW_TYPE_TINY;
  double y = up ? low + 1 : NUMBERS * chart->pitch - 2 * line - 1;
  draw_label (chart, cr, type, up ? "↑" : number, x, y, 0.5);
  draw_label (chart, cr, type, up ? number : "↓", x, y + line, 0.5);
}

/* A fine line through every tenth row helps to keep one's place. */
static void
draw_tens (const BwChart *chart, const BwChartPart *part, cairo_t *cr)
{
  double low = column_y (chart, part, part->first_column) + chart->column;
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (cr, 0.5);
  cairo_set_dash (cr, (double[]){ 1, 1.5 }, 2, 0);
  for (int row = part->first_row; row <= part->last_row; row++)
    if (row % 10 == 0) {
      double x = rows_x (chart, part, row) + chart->pitch / 2;
      cairo_move_to (cr, x, NUMBERS * chart->pitch - 2);
      cairo_line_to (cr, x, low);
    }
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_column_numbers (const BwChart *chart, const BwChartPart *part, cairo_t *cr)
{
  for (int column = part->first_column; column <= part->last_column; column++) {
    g_autofree char *number = g_strdup_printf ("%d", column);
    double y = column_y (chart, part, column) + chart->column / 2;
    if (chart->pitch >= 5)
      draw_label (chart, cr, BW_TYPE_TINY, number, (SIDE - 0.25) * chart->pitch,
                  y - 3.4 * chart->pitch / 13.0, 1);
  }
}

/* One face's stretch of the ribbon, from and to in the page's units. */
static void
draw_face (const BwChart *chart, cairo_t *cr, int face, double from, double to, double y)
{
  double height = 0.75 * chart->pitch;
  g_autofree char *name = g_strdup_printf (_ ("face %d"), face + 1);
  g_autofree char *short_name = g_strdup_printf ("%d", face + 1);
  cairo_rectangle (cr, from, y, to - from, height);
  cairo_set_source_rgb (cr, BW_TINT_RGB (face % 2 ? BW_TINT_SHADE : BW_TINT_WASH, FALSE));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (cr, 0.3);
  cairo_stroke (cr);
  if (to - from > 12)
    draw_label (chart, cr, BW_TYPE_TINY, to - from > 34 ? name : short_name, (from + to) / 2,
                y + 0.12 * chart->pitch, 0.5);
}

GArray *
bw_chart_faces (BwProject *project, double first_row, double last_row)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  int n = bw_lattice_beads_around (design->band.rows), faces = stone->faces;
  double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
  GArray *found = g_array_new (FALSE, FALSE, sizeof (BwChartFace));
  bw_places_faces (design, stone, MAX (1, design->band.columns / 2), n, middle, corner);
  for (int face = 0; face < faces; face++) {
    double from = corner[(face + faces - 1) % faces], to = corner[face];
    double width = fmod (to - from + 2 * n, n);
    for (int turn = -1; turn <= 1; turn++) {
      double start = 1 + 2 * (from + turn * n), end = start + 2 * width;
      BwChartFace part = { face, MAX (start, first_row), MIN (end, last_row) };
      if (part.to_row > part.from_row)
        g_array_append_val (found, part);
    }
  }
  return found;
}

static void
draw_faces (const BwChart *chart, const BwChartPart *part, cairo_t *cr)
{
  double y = column_y (chart, part, part->first_column) + chart->column + NUMBERS * chart->pitch;
  g_autoptr (GArray) faces
      = bw_chart_faces (chart->project, part->first_row - 1, part->last_row + 1);
  for (guint i = 0; i < faces->len; i++) {
    const BwChartFace *face = &g_array_index (faces, BwChartFace, i);
    double half = chart->pitch / 2;
    draw_face (chart, cr, face->face, rows_x (chart, part, face->from_row) + half,
               rows_x (chart, part, face->to_row) + half, y);
  }
}

void
bw_chart_draw (const BwChart *chart, const BwChartPart *part, cairo_t *cr)
{
  g_auto (BwMarkPen) pen = { 0 };
  double gap = GAP * chart->column;
  const BwTray *tray = chart->tray ? chart->tray : bw_project_get_tray (chart->project);
  bw_mark_pen_init (&pen, tray, chart->pitch - 2 * gap, chart->column - 2 * gap);
  draw_tens (chart, part, cr);
  for (int row = part->first_row; row <= part->last_row; row++) {
    for (int column = part->first_column; column <= part->last_column; column++)
      if (bw_lattice_has (row, column))
        draw_bead (chart, part, cr, &pen, row, column);
    draw_row_number (chart, part, cr, row);
  }
  draw_column_numbers (chart, part, cr);
  if (!chart->in_bail)
    draw_faces (chart, part, cr);
}
