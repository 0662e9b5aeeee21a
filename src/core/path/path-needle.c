/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The needle itself: which bead it is in, which ones it can reach from there, and what each visit
 * leaves behind. Everything the path lists goes through bw_needle_pick_up() and bw_needle_pass(),
 * so that visits, passes and full holes cannot disagree. */
#include "core/path/path-needle.h"

#include "core/base/lattice.h"

guint16 *
bw_needle_hole (const BwNeedle *needle, const BwStitch *stitch)
{
  const BwDesign *design = needle->design;
  guint16 *passes = stitch->in_bail ? needle->path->bail_passes : needle->path->band_passes;
  int columns = stitch->in_bail ? design->bail.columns : design->band.columns;
  int rows = stitch->in_bail ? design->bail.rows : design->band.rows;
  if (!passes || stitch->row < 1 || stitch->row > rows || stitch->column < 1
      || stitch->column > columns || !bw_lattice_has (stitch->row, stitch->column))
    return NULL;
  return &passes[(gsize)(stitch->row - 1) * (gsize)(columns / 2)
                 + (gsize)bw_lattice_index (stitch->column)];
}

void
bw_needle_stand_bail (BwNeedle *needle, const BwBailBase *base)
{
  needle->feet = (BwFeet){ .margin = base->margin,
                           .row = { (int)lround (base->first_row), (int)lround (base->last_row) },
                           .column = { base->column[0], base->column[1] },
                           .foot_row = { base->foot_row[0], base->foot_row[1] },
                           .sense = { base->sense[0], base->sense[1] } };
}

/* Below its first row a flap goes on as the band's beads that carry it; above its last one, once it
 * is sewn on, as those it is sewn to. */
static void
leave_flap (const BwNeedle *needle, BwStitch *stitch)
{
  const BwBail *bail = &needle->design->bail;
  if (bw_bail_is_strip (bail) || stitch->column < 1 || stitch->column > bail->columns)
    return;
  int beyond = stitch->row - bail->rows - 1;
  if (stitch->row >= 1 && (beyond < 0 || !needle->hung))
    return;
  stitch->row = stitch->row < 1 ? needle->feet.row[0] + stitch->row : needle->feet.row[1] + beyond;
  stitch->column += needle->feet.margin;
  stitch->in_bail = FALSE;
}

gboolean
bw_needle_resolve (const BwNeedle *needle, BwStitch *stitch)
{
  if (stitch->in_bail)
    leave_flap (needle, stitch);
  if (!stitch->in_bail && needle->zipped)
    stitch->row = bw_lattice_wrap (stitch->row, needle->design->band.rows);
  const guint16 *hole = bw_needle_hole (needle, stitch);
  return hole && *hole > 0;
}

/* The bead of a foot's band column nearest to a place of the strip's end, shifted by so many rows.
 */
static BwStitch
beneath (const BwNeedle *needle, int foot, double column, int shift)
{
  const BwDesign *design = needle->design;
  double aside = (column - (design->bail.columns + 1) / 2.0) * design->gauge.column_mm;
  double rows = needle->feet.sense[foot] * 2 * aside / design->gauge.pitch_mm + shift;
  int band_column = needle->feet.column[foot];
  BwStitch under = { FALSE, 0, band_column, 1 };
  under.row = bw_lattice_nearest (needle->feet.foot_row[foot] + rows, (band_column + 1) % 2);
  return under;
}

BwStitch
bw_needle_under (const BwNeedle *needle, int foot, int column)
{
  BwStitch under = beneath (needle, foot, column, 0);
  bw_needle_resolve (needle, &under);
  return under;
}

void
bw_needle_at_edge (const BwNeedle *needle, BwStitch bead[2], int foot, double column, int onward)
{
  bead[0] = bead[1] = beneath (needle, foot, column, -onward);
  bead[0].way = -1;
  bead[1].row += 2 * onward;
  for (int i = 0; i < 2; i++)
    bw_needle_resolve (needle, &bead[i]);
}

static int
offer (const BwNeedle *needle, BwStitch stitch, BwStitch *next, int n)
{
  if (!bw_needle_resolve (needle, &stitch))
    return n;
  next[n] = stitch;
  return n + 1;
}

/* The end rows of a strip lie on the band: from there the needle can dip into the bead beneath,
 * either way; from over the edge it comes from above. */
static int
offer_foot (const BwNeedle *needle, const BwStitch *from, BwStitch *next, int n)
{
  const BwBail *bail = &needle->design->bail;
  if (!from->in_bail || !bw_bail_is_strip (bail) || (from->row != 1 && from->row != bail->rows))
    return n;
  BwStitch under = bw_needle_under (needle, from->row == 1 ? 0 : 1, from->column + from->way);
  for (under.way = bail->style == BW_BAIL_OVER ? -1 : 1; under.way >= -1; under.way -= 2)
    n = offer (needle, under, next, n);
  return n;
}

/* At the edge, where no bead lies beside it yet: round the edge and back through a bead of the
 * neighbouring column. */
static int
offer_round_the_edge (const BwNeedle *needle, const BwStitch *from, BwStitch *next)
{
  int n = 0;
  for (int step = -1; step <= 1; step += 2) {
    BwStitch back = { from->in_bail, from->row + step, from->column - from->way, -from->way };
    n = offer (needle, back, next, n);
  }
  return n;
}

int
bw_needle_next (const BwNeedle *needle, const BwStitch *from, BwStitch next[6])
{
  int n = 0, row = from->row, column = from->column, way = from->way;
  gboolean in_bail = from->in_bail;
  for (int step = -1; step <= 1; step += 2)
    n = offer (needle, (BwStitch){ in_bail, row + step, column + way, way }, next, n);
  for (int step = -2; step <= 2; step += 4)
    n = offer (needle, (BwStitch){ in_bail, row + step, column, -way }, next, n);
  n = offer_foot (needle, from, next, n);
  return n > 0 ? n : offer_round_the_edge (needle, from, next);
}

static void
visit (BwNeedle *needle, BwPart part, BwStitch stitch, guint16 *hole, gboolean is_new)
{
  BwVisit entry = { .row = (guint)stitch.row & 0x7fff,
                    .column = (guint)stitch.column & 0xff,
                    .part = (guint)part & 0xf,
                    .in_bail = stitch.in_bail != FALSE,
                    .is_new = is_new != FALSE,
                    .direction = stitch.way > 0,
                    .pass = (guint)needle->pass & 0x1ffff,
                    .length = (guint)needle->length & 0x1ffff };
  if (needle->path->visits->len == 0)
    needle->first = stitch;
  g_array_append_val (needle->path->visits, entry);
  needle->path->part[part].visits++;
  needle->at = stitch;
  if (*hole < G_MAXUINT16)
    (*hole)++;
}

void
bw_needle_pick_up (BwNeedle *needle, BwPart part, BwStitch stitch)
{
  visit (needle, part, stitch, bw_needle_hole (needle, &stitch), TRUE);
}

/* A full bead is passed all the same, because the weave leaves no choice, and remembered. */
void
bw_needle_pass (BwNeedle *needle, BwPart part, BwStitch stitch)
{
  if (!bw_needle_resolve (needle, &stitch))
    return;
  guint16 *hole = bw_needle_hole (needle, &stitch);
  guint16 *forced = stitch.in_bail ? needle->bail_forced + (hole - needle->path->bail_passes)
                                   : needle->band_forced + (hole - needle->path->band_passes);
  if (bw_path_is_full (needle->design, *hole))
    *forced = *hole;
  visit (needle, part, stitch, hole, FALSE);
}

void
bw_needle_follow (BwNeedle *needle, BwPart part, const BwStitch *stitch, int n)
{
  for (int i = 0; i < n; i++)
    bw_needle_pass (needle, part, stitch[i]);
}

static int
columns_of (const BwNeedle *needle, gboolean in_bail)
{
  return in_bail ? needle->design->bail.columns : needle->design->band.columns;
}

void
bw_needle_weave_row (BwNeedle *needle, BwPart part, gboolean in_bail, int row, gboolean is_new)
{
  int columns = columns_of (needle, in_bail), way = row % 2 ? -1 : 1;
  for (int i = 1; i <= columns; i++) {
    int column = way > 0 ? i : columns + 1 - i;
    gboolean own = bw_lattice_has (row, column);
    BwStitch stitch = { in_bail, own ? row : row - 1, column, way };
    if (own && is_new)
      bw_needle_pick_up (needle, part, stitch);
    else
      bw_needle_pass (needle, part, stitch);
  }
}

void
bw_needle_string_rows (BwNeedle *needle, BwPart part, gboolean in_bail, int rows)
{
  int columns = columns_of (needle, in_bail);
  for (int column = 1; column <= columns; column++) {
    int row = column % 2 ? 2 : 1;
    if (row <= rows)
      bw_needle_pick_up (needle, part, (BwStitch){ in_bail, row, column, 1 });
  }
}
