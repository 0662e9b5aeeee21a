/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What goes into one maker's bag, to tick off while packing. A few colours make a table; a great
 * many are set in columns of small type, so that a maker's page stays one page. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/chart/mark.h"
#include "output/report/report-parts.h"
#include "output/report/shopping.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define GAP 10.0
#define LEAST_ROW 9.5 /* height of a colour in columns */
#define MOST_ROW 12.5
#define MOST_IN_TABLE 12
#define MOST_COLUMNS 6

typedef struct {
  const BwTray *tray;
  const BwMaterials *materials;
  int colour[BW_TRAY_MAX]; /* those in use */
  int n;
  int columns, rows;
  double row_height;
} Bag;

static void
bag_init (Bag *bag, const BwTray *tray, BwProject *project, BwMaterials *materials)
{
  *bag = (Bag){ .tray = tray, .materials = materials };
  bw_shopping_init (materials, project, 1);
  for (int i = 0; i < materials->n_colours; i++)
    if (materials->need[i].count > 0)
      bag->colour[bag->n++] = i;
}

static void
draw_swatch (cairo_t *cr, double x, double y, double height, int row, gpointer data)
{
  const Bag *bag = data;
  double tall = MIN (12, height - 2);
  bw_mark_draw_whole (cr, bag->tray, bag->colour[row - 1], x, y + (height - tall) / 2, tall * 1.3,
                      tall);
}

static void
add_table (BwFlow *flow, Bag *bag)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "llrrrl");
  bw_table_add (&table, g_strdup (""), g_strdup (_ ("Beads")), g_strdup (_ ("in the piece")),
                g_strdup (_ ("in the bag")), g_strdup (_ ("grams")), g_strdup (_ ("packed")));
  for (int i = 0; i < bag->n; i++) {
    const BwBeadNeed *need = &bag->materials->need[bag->colour[i]];
    /* The letter is in the picture of the bead; blanks keep its place. */
    bw_table_add (&table, g_strdup ("        "), g_strdup (bag->tray->colour[bag->colour[i]].name),
                  bw_text_count (need->count), bw_text_count (need->with_spare),
                  bw_text_number (need->grams, 2), g_strdup ("☐"));
  }
  bw_flow_table (flow, &table, draw_swatch, bag);
}

static void
draw_name (cairo_t *cr, const char *name, double x, double y, double width)
{
  g_autofree char *line = bw_sheet_one_line (name);
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, line, width);
  pango_layout_set_auto_dir (layout, FALSE);
  pango_layout_set_height (layout, -1);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
}

/* Bead, name, how many to pack, a box to tick. */
static void
draw_colour (cairo_t *cr, const Bag *bag, int i, double x, double y, double width)
{
  double tall = bag->row_height - 2, middle = y + (bag->row_height - 9.6) / 2;
  g_autofree char *count = bw_text_count (bag->materials->need[bag->colour[i]].with_spare);
  bw_mark_draw_whole (cr, bag->tray, bag->colour[i], x, y + 1, tall * 1.3, tall);
  double used = bw_type_draw (cr, BW_TYPE_SMALL, count, x + width - 11, middle, 1);
  double left = tall * 1.3 + 3;
  draw_name (cr, bag->tray->colour[bag->colour[i]].name, x + left, middle,
             width - left - used - 14);
  cairo_rectangle (cr, x + width - 7, y + bag->row_height / 2 - 3, 6, 6);
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (cr, 0.5);
  cairo_stroke (cr);
}

static void
draw_columns (cairo_t *cr, double width, double height, gpointer data)
{
  const Bag *bag = data;
  double step = (width + GAP) / bag->columns;
  for (int i = 0; i < bag->n; i++)
    draw_colour (cr, bag, i, i / bag->rows * step, i % bag->rows * bag->row_height, step - GAP);
}

/* As few columns as the room allows, then rows as high as it allows. */
static void
set_columns (Bag *bag, double room)
{
  for (bag->columns = 2; bag->columns <= MOST_COLUMNS; bag->columns++) {
    bag->rows = (bag->n + bag->columns - 1) / bag->columns;
    if (bag->rows * LEAST_ROW <= room || bag->columns == MOST_COLUMNS)
      break;
  }
  bag->row_height = CLAMP (room / bag->rows, LEAST_ROW, MOST_ROW);
}

void
bw_sheet_add_bag (BwFlow *flow, BwProject *project, double room)
{
  BwMaterials materials;
  Bag bag;
  double top = flow->y;
  bag_init (&bag, &flow->tray, project, &materials);
  bw_flow_heading (flow, _ ("In the bag"), 60);
  if (bag.n <= MOST_IN_TABLE) {
    add_table (flow, &bag);
    return;
  }
  bw_flow_text (flow, BW_TYPE_SMALL, _ ("Beads of each colour to pack, spare ones included."));
  set_columns (&bag, room - (flow->y - top));
  bw_flow_figure (flow, bag.rows * bag.row_height, draw_columns, &bag);
}
