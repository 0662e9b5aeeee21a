/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables on paper: thin rules between rows, the heading again on each page, and room taken from the
 * widest column when the paper is too narrow. */
#include "output/page/page.h"

#include "core/base/tolerance.h"
#include "core/pattern/tint.h"

#include <string.h>

#define GAP 12.0
#define LEAST_GAP 6.0 /* on a paper where that saves a line or a word from being broken */
#define MOST_COLUMNS 16
#define LEAST_TEXT 26.0 /* width of a column of text, however narrow the paper */

typedef struct {
  BwFlow *flow;
  const BwTable *table;
  gboolean facts; /* its first column is bold, and no row a heading */
  int n_columns;
  double gap, width[MOST_COLUMNS];
  BwFlowCell cell;
  gpointer data;
} Grid;

static PangoLayout *
cell_layout (const Grid *grid, int row, int column, double width)
{
  const char *const *fields = g_ptr_array_index (grid->table->rows, row);
  g_autofree char *text = bw_sheet_one_line (fields[column]);
  gboolean bold = grid->facts ? column == 0 : row == 0;
  return bw_type_layout (grid->flow->cr, bold ? BW_TYPE_BOLD : BW_TYPE_TEXT, text, width);
}

static double
layout_width (PangoLayout *layout)
{
  int width;
  pango_layout_get_size (layout, &width, NULL);
  return pango_units_to_double (width) + 0.5;
}

static double
cell_width (const Grid *grid, int row, int column)
{
  g_autoptr (PangoLayout) layout = cell_layout (grid, row, column, 0);
  return layout_width (layout);
}

/* As narrow as a cell can be set without a break inside a word. */
static double
longest_word (const Grid *grid, int row, int column)
{
  g_autoptr (PangoLayout) layout = cell_layout (grid, row, column, 0);
  const char *text = pango_layout_get_text (layout);
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  /* Blanks alone keep room for a drawing. */
  double most = text[strspn (text, " ")] ? 0 : layout_width (layout);
  for (char **word = words; *word; word++)
    if (**word) {
      pango_layout_set_text (layout, *word, -1);
      most = MAX (most, layout_width (layout));
    }
  return most;
}

/* What a column can be set in: its words whole, and its numbers, which stand to the right, on one
 * line each. */
static double
least_width (const Grid *grid, int column)
{
  gboolean numbers = grid->table->align[column] == 'r';
  double least = 0;
  for (int row = 0; row < (int)grid->table->rows->len; row++)
    least = MAX (least, numbers && row > 0 ? cell_width (grid, row, column)
                                           : longest_word (grid, row, column));
  return least;
}

/* How much is taken from the columns when none is wider than `cap`, unless its least width is. */
static double
taken_by (const Grid *grid, const double *least, double cap)
{
  double taken = 0;
  for (int c = 0; c < grid->n_columns; c++)
    taken += MAX (0, grid->width[c] - MAX (least[c], cap));
  return taken;
}

#define HALVINGS 24

/* Takes so much from the columns, from the widest first; returns what is still over. */
static double
take_room (Grid *grid, double over, const double *least)
{
  double low = 0, high = grid->flow->width + over;
  for (int i = 0; i < HALVINGS; i++) {
    double cap = (low + high) / 2;
    *(taken_by (grid, least, cap) > over ? &low : &high) = cap;
  }
  over -= taken_by (grid, least, low);
  for (int c = 0; c < grid->n_columns; c++)
    grid->width[c] = MIN (grid->width[c], MAX (least[c], low));
  return over;
}

/* As narrow as a column can be when only its heading wraps. */
static double
body_width (const Grid *grid, int column)
{
  double most = longest_word (grid, 0, column);
  for (int row = 1; row < (int)grid->table->rows->len; row++)
    most = MAX (most, cell_width (grid, row, column));
  return most;
}

/* Headings wrap first, then columns move closer, then texts wrap; only where that is not enough are
 * words broken, and numbers never. */
static void
make_fit (Grid *grid, double over)
{
  double least[MOST_COLUMNS] = { 0 };
  for (int c = 0; c < grid->n_columns && !grid->facts; c++)
    least[c] = body_width (grid, c);
  if (!grid->facts)
    over = take_room (grid, over, least);
  if (over > BW_ROUNDING_MM && grid->n_columns > 1) {
    double saved = MIN (over, (GAP - LEAST_GAP) * (grid->n_columns - 1));
    grid->gap -= saved / (grid->n_columns - 1);
    over -= saved;
  }
  for (int c = 0; c < grid->n_columns; c++)
    least[c] = least_width (grid, c);
  over = take_room (grid, over, least);
  for (int c = 0; c < grid->n_columns; c++)
    if (grid->table->align[c] != 'r')
      least[c] = MIN (least[c], LEAST_TEXT);
  if (over > BW_ROUNDING_MM)
    take_room (grid, over, least);
}

static void
measure (Grid *grid)
{
  grid->gap = GAP;
  double over = -GAP - grid->flow->width;
  for (int c = 0; c < grid->n_columns; c++) {
    for (guint r = 0; r < grid->table->rows->len; r++)
      grid->width[c] = MAX (grid->width[c], cell_width (grid, (int)r, c));
    over += grid->width[c] + GAP;
  }
  if (over > 0)
    make_fit (grid, over);
}

static double
row_height (const Grid *grid, int row)
{
  double most = 0;
  for (int c = 0; c < grid->n_columns; c++) {
    g_autoptr (PangoLayout) layout = cell_layout (grid, row, c, grid->width[c]);
    int height;
    pango_layout_get_size (layout, NULL, &height);
    most = MAX (most, pango_units_to_double (height));
  }
  return most + 4;
}

static void
draw_row (const Grid *grid, int row, double height)
{
  BwFlow *flow = grid->flow;
  double x = flow->left;
  for (int c = 0; c < grid->n_columns; c++) {
    g_autoptr (PangoLayout) layout = cell_layout (grid, row, c, grid->width[c]);
    gboolean right = grid->table->align[c] == 'r';
    pango_layout_set_auto_dir (layout, FALSE);
    pango_layout_set_alignment (layout, right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
    cairo_set_source_rgb (flow->cr, BW_ON_PAPER (PRINT));
    cairo_move_to (flow->cr, x, flow->y + 2);
    pango_cairo_show_layout (flow->cr, layout);
    if (c == 0 && row > 0 && grid->cell)
      grid->cell (flow->cr, x, flow->y, height, row, grid->data);
    x += grid->width[c] + grid->gap;
  }
  flow->y += height;
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (flow->cr, row == 0 && !grid->facts ? 0.6 : 0.25);
  cairo_move_to (flow->cr, flow->left, flow->y);
  cairo_line_to (flow->cr, x - grid->gap, flow->y);
  cairo_stroke (flow->cr);
}

/* What a row wants of the page: two rows at least stay together at either end of a table. */
static double
room_for (const Grid *grid, int row, gboolean first)
{
  int last = (int)grid->table->rows->len - 1;
  double room = row_height (grid, row);
  if ((first && row < last) || row == last - 1)
    room += row_height (grid, row + 1);
  if (first && row == last - 2)
    room += row_height (grid, last);
  return room;
}

void
bw_flow_table (BwFlow *flow, const BwTable *table, BwFlowCell cell, gpointer data)
{
  Grid grid = { .flow = flow, .table = table, .cell = cell, .data = data };
  grid.n_columns = (int)MIN (strlen (table->align), MOST_COLUMNS);
  if (table->rows->len == 0)
    return;
  measure (&grid);
  double head = row_height (&grid, 0);
  bw_flow_tag (flow, BW_TAG_TABLE);
  for (int row = 1; row < (int)table->rows->len; row++) {
    gboolean first = row == 1;
    double room = (first ? head : 0) + room_for (&grid, row, first);
    if (room > bw_flow_left_over (flow) && flow->y > flow->top) {
      bw_flow_new_page (flow);
      first = TRUE;
    }
    if (first)
      draw_row (&grid, 0, head);
    draw_row (&grid, row, row_height (&grid, row));
  }
  flow->y += 4;
  bw_flow_tag (flow, BW_TAG_TEXT);
}

void
bw_flow_facts (BwFlow *flow, const BwTable *table)
{
  Grid grid = { .flow = flow, .table = table, .facts = TRUE, .n_columns = 2 };
  measure (&grid);
  bw_flow_tag (flow, BW_TAG_TABLE);
  for (int row = 0; row < (int)table->rows->len; row++) {
    double height = row_height (&grid, row);
    /* The last is never alone on a page. */
    gboolean two = row + 2 == (int)table->rows->len;
    bw_flow_room (flow, height + (two ? row_height (&grid, row + 1) : 0));
    draw_row (&grid, row, height);
  }
  flow->y += 4;
  bw_flow_tag (flow, BW_TAG_TEXT);
}
