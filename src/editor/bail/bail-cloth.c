/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A flap is woven into the beads of one band row as if that were the row before its first, so band
 * and flap share a lattice and rows can be counted straight on. */
#include "config.h"

#include "editor/bail/bail-cloth.h"

#include "core/base/lattice.h"
#include <math.h>

int
bw_bail_lead (const BwBail *bail)
{
  return bw_bail_is_strip (bail) ? 0 : BW_BAIL_LEAD;
}

/* A bead of the band, the row counted on through the join. In the empty slot of a strip of odd rows
 * the row before it answers. */
static guint8
band_cell (const BwDrawing *band, int row, int column)
{
  int rows = bw_drawing_rows (band), period = 2 * bw_lattice_beads_around (rows);
  int at = MIN (bw_lattice_wrap (row, period), rows);
  if (!bw_lattice_has (at, column))
    at += at > 1 ? -1 : 1;
  return bw_drawing_get (band, MIN (at, rows), column);
}

/* laid: as in bw_bail_cloth_follow (), may be NULL. */
static void
lay_bead (BwDrawing *cloth, int row, int column, guint8 colour, GArray *laid)
{
  BwBeadOf bead = { FALSE, row, column };
  if (bw_drawing_get (cloth, row, column) == colour)
    return;
  bw_drawing_set (cloth, row, column, colour);
  if (laid)
    g_array_append_val (laid, bead);
}

static void
lay_band (BwDrawing *cloth, const BwDrawing *band, const BwBailBase *base, int first_row, int row,
          GArray *laid)
{
  for (int j = 0; j < bw_drawing_columns (cloth) / 2; j++) {
    int column = bw_lattice_column (row, j);
    lay_bead (cloth, row, column, band_cell (band, first_row, base->margin + column), laid);
  }
}

static void
lay_lead (BwDrawing *cloth, int lead, const BwBailBase *base, const BwDrawing *band, GArray *laid)
{
  int rows = bw_drawing_rows (cloth) - 2 * lead;
  for (int i = 1; i <= lead; i++) {
    lay_band (cloth, band, base, (int)base->first_row - lead + i, i, laid);
    lay_band (cloth, band, base, (int)base->last_row + i - 1, lead + rows + i, laid);
  }
}

BwDrawing *
bw_bail_cloth (const BwDesign *design, const BwBailBase *base, const BwDrawing *band,
               const BwDrawing *bail)
{
  int lead = bw_bail_lead (&design->bail), rows = bw_drawing_rows (bail);
  int columns = bw_drawing_columns (bail);
  BwDrawing *cloth = bw_drawing_new (columns, rows + 2 * lead, 0);
  lay_lead (cloth, lead, base, band, NULL);
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      bw_drawing_set (cloth, lead + row, column, bw_drawing_get (bail, row, column));
    }
  return cloth;
}

void
bw_bail_cloth_follow (BwDrawing *cloth, const BwDesign *design, const BwBailBase *base,
                      const BwDrawing *band, const BwDrawing *bail, const GArray *beads,
                      GArray *laid)
{
  int lead = bw_bail_lead (&design->bail), columns = bw_drawing_columns (bail);
  gboolean beside = FALSE;
  for (guint i = 0; i < beads->len; i++) {
    const BwBeadOf *bead = &g_array_index (beads, BwBeadOf, i);
    if (!bead->in_bail)
      beside |= bead->column > base->margin && bead->column <= base->margin + columns;
    else if (bead->row <= bw_drawing_rows (bail) && bead->column <= columns)
      lay_bead (cloth, lead + bead->row, bead->column,
                bw_drawing_get (bail, bead->row, bead->column), laid);
  }
  if (beside)
    lay_lead (cloth, lead, base, band, laid);
}

/* Rows climb from the lower foot to the upper, columns run against the band's rows. */
static guint8
cell_beneath_upright (const BwDesign *design, const BwBailBase *base, const BwDrawing *band,
                      int row, int column)
{
  double share = row / (design->bail.rows + 1.0);
  double aside = (column - (design->bail.columns + 1) / 2.0) * design->gauge.column_mm;
  double middle = (base->first_row + base->last_row) / 2;
  int band_column = (int)lround (base->column[0] + share * (base->column[1] - base->column[0]));
  int band_row
      = bw_lattice_nearest (middle - 2 * aside / design->gauge.pitch_mm, (band_column + 1) % 2);
  return band_cell (band, band_row, band_column);
}

/* Either half takes the colours of the edge that its foot stands on, up from there: what is worn
 * looks as if the band went on over the tip. */
static guint8
cell_before_over (const BwDesign *design, const BwBailBase *base, const BwDrawing *band, int row,
                  int column)
{
  int foot = 2 * row > design->bail.rows + 1, up = foot ? design->bail.rows + 1 - row : row;
  double aside = (column - (design->bail.columns + 1) / 2.0) * design->gauge.column_mm;
  double rows = base->sense[foot] * 2 * aside / design->gauge.pitch_mm;
  int band_column = design->band.columns - (up - 1) % design->band.columns;
  return band_cell (band, bw_lattice_nearest (base->foot_row[foot] + rows, (band_column + 1) % 2),
                    band_column);
}

static guint8
cell_under (const BwDesign *design, const BwBailBase *base, const BwDrawing *band, int row,
            int column)
{
  switch (design->bail.style) {
  case BW_BAIL_UPRIGHT:
    return cell_beneath_upright (design, base, band, row, column);
  case BW_BAIL_OVER:
    return cell_before_over (design, base, band, row, column);
  default:
    return band_cell (band, (int)base->first_row + row, base->margin + column);
  }
}

BwDrawing *
bw_bail_beneath (const BwDesign *design, const BwBailBase *base, const BwDrawing *band)
{
  const BwBail *bail = &design->bail;
  BwDrawing *drawing = bw_drawing_new (bail->columns, bail->rows, 0);
  for (int row = 1; row <= bail->rows; row++)
    for (int j = 0; j < bail->columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      bw_drawing_set (drawing, row, column, cell_under (design, base, band, row, column));
    }
  return drawing;
}
