/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail's part of the path: where it stands on the band, how the needle gets there, its rows and
 * how it is sewn down.
 *
 * A flap's columns go on from the band's. Its first row takes up band beads of one row as the row
 * before it, and its last row is sewn to band beads as far round the ring as its base is wide. A
 * strip of its own lies across: at its ends its beads have their holes round the stone, and each
 * end is whipped to the band beads beneath it, first the end it begins with, then the other. At the
 * upper edge the holes of the band stand open upward: there each stitch goes down through one bead
 * of the edge and up through its neighbour.
 *
 * Neither a bail nor its sewing is parted between two lengths where one can hold it: so small a
 * piece has no room for ends. A bail longer than any working length is worked like the band. */
#include "core/path/path-bail.h"

#include "core/path/path-lengths.h"
#include "core/path/path-route.h"

#include "core/base/lattice.h"

/* As a row of the flap ends at its edge before the next one begins, so must the needle before the
 * first. A strip is strung from column 1 on, a single row from column 2. */
BwStitch
bw_bail_path_entry (const BwNeedle *needle)
{
  if (bw_bail_is_strip (&needle->design->bail)) {
    BwStitch entry = bw_needle_under (needle, 0, needle->design->bail.rows > 1 ? 0 : 1);
    entry.way = needle->design->bail.style == BW_BAIL_OVER ? 1 : 0;
    return entry;
  }
  BwStitch entry = { TRUE, -1, needle->design->bail.columns, 1 };
  bw_needle_resolve (needle, &entry);
  return entry;
}

/* Rows of the lengths: the zip is R + 1, the return R + 2, and each pass of the bail one more. */
static void
begin_pass (BwNeedle *needle, BwPart part, int *row, int beads)
{
  double mm = bw_path_pass_mm (needle->design, beads);
  ++*row;
  bw_needle_reserve (needle, mm, *row, *row);
  needle->path->part[part].length_mm += mm;
}

static gboolean
is_there (const BwStitch *at, const BwStitch *target)
{
  return !at->in_bail && at->row == target->row && at->column == target->column
         && (target->way == 0 || target->way == at->way);
}

/* A walk has as many turns as it has. */
static double
walk_mm (const BwNeedle *needle, const BwRoute *route)
{
  int turns = 0, way = needle->at.way;
  for (int i = 0; i < route->n; i++) {
    turns += route->stitch[i].way != way;
    way = route->stitch[i].way;
  }
  return route->n * bw_path_step_mm (needle->design) + turns * needle->design->gauge.pitch_mm;
}

/* How many beads each row of the bail passes: the first two of a strip are strung in one. */
static int
row_passes (const BwBail *bail)
{
  return bw_bail_is_strip (bail) ? MAX (bail->rows - 1, 1) : bail->rows;
}

/* How many beads a run of the sewing passes: at the upper edge each stitch takes two of the band.
 */
static int
run_beads (const BwBail *bail)
{
  return bail->style == BW_BAIL_OVER ? bail->columns / 2 * 3 : bail->columns;
}

/* The thread for all of the bail with its sewing. */
static double
whole_mm (const BwDesign *design)
{
  const BwBail *bail = &design->bail;
  int runs = bw_bail_is_strip (bail) ? 4 : 2;
  return row_passes (bail) * bw_path_pass_mm (design, bail->columns)
         + runs * bw_path_pass_mm (design, run_beads (bail));
}

/* The way through the band to the bail counts with the bail's first row. Where it is long, or where
 * the bail would want a fresh length anyway, that length begins at the bail. */
static void
go_to_bail (BwNeedle *needle, BwStitch entry, int first_row)
{
  BwRouteWish wish = { 1, BW_ROUTE_MAX, -1, &entry };
  BwRoute route = { 0 };
  gboolean found
      = is_there (&needle->at, &entry) || bw_route_search (&route, needle, needle->at, &wish);
  double walk = walk_mm (needle, &route), whole = whole_mm (needle->design);
  double first = bw_path_pass_mm (needle->design, needle->design->bail.columns);
  double reserved = bw_needle_has_length_for (needle, whole) ? whole : first;
  if (!found || !bw_needle_has_room (needle, walk + reserved)) {
    entry.way = entry.way ? entry.way : 1;
    bw_needle_change (needle, entry);
  } else if (route.n > 0) {
    bw_needle_reserve (needle, walk, first_row, first_row);
    needle->path->part[BW_PART_BAIL].length_mm += walk;
    bw_needle_follow (needle, BW_PART_BAIL, route.stitch, route.n);
  }
}

/* Before a sewing of two runs. */
static void
keep_runs_together (BwNeedle *needle)
{
  double runs = 2 * bw_path_pass_mm (needle->design, run_beads (&needle->design->bail));
  if (!bw_needle_has_room (needle, runs) && bw_needle_has_length_for (needle, runs))
    bw_needle_change (needle, needle->at);
}

/* Back from the sewing: turn into the band bead beside the last one, then through the same beads.
 */
static void
sew_flap_back (BwNeedle *needle, int way)
{
  int columns = needle->design->bail.columns, row = needle->design->bail.rows + 1;
  int column = way > 0 ? 1 : columns;
  bw_needle_pass (needle, BW_PART_ATTACHMENT, (BwStitch){ TRUE, row + 1, column, way });
  for (int i = 1; i < columns; i++) {
    column += way;
    int through = bw_lattice_has (row, column) ? row : row - 1;
    bw_needle_pass (needle, BW_PART_ATTACHMENT, (BwStitch){ TRUE, through, column, way });
  }
}

static void
weave_flap (BwNeedle *needle, int row)
{
  const BwBail *bail = &needle->design->bail;
  for (int r = 1; r <= bail->rows; r++) {
    begin_pass (needle, BW_PART_BAIL, &row, bail->columns);
    bw_needle_weave_row (needle, BW_PART_BAIL, TRUE, r, TRUE);
  }
  needle->hung = TRUE;
  keep_runs_together (needle);
  begin_pass (needle, BW_PART_ATTACHMENT, &row, bail->columns);
  bw_needle_weave_row (needle, BW_PART_ATTACHMENT, TRUE, bail->rows + 1, FALSE);
  begin_pass (needle, BW_PART_ATTACHMENT, &row, bail->columns);
  sew_flap_back (needle, -needle->at.way);
}

/* Down to the band before a raised bead of the end row; at the edge up again through the next bead,
 * in the way of the run. */
static void
dip (BwNeedle *needle, int foot, int column, int way)
{
  BwStitch bead[2];
  if (needle->design->bail.style != BW_BAIL_OVER) {
    bw_needle_pass (needle, BW_PART_ATTACHMENT, bw_needle_under (needle, foot, column - way));
    return;
  }
  bw_needle_at_edge (needle, bead, foot, column - way / 2.0, way * needle->feet.sense[foot]);
  bw_needle_follow (needle, BW_PART_ATTACHMENT, bead, 2);
}

/* One run along an end of the strip: from raised bead to raised bead of the end row, each time by
 * way of the band. */
static void
whip_end (BwNeedle *needle, int end_row, int foot, int *row)
{
  int columns = needle->design->bail.columns, way = -needle->at.way;
  begin_pass (needle, BW_PART_ATTACHMENT, row, run_beads (&needle->design->bail));
  for (int i = 1; i <= columns; i++) {
    int column = way > 0 ? i : columns + 1 - i;
    if (!bw_lattice_has (end_row, column))
      continue;
    dip (needle, foot, column, way);
    bw_needle_pass (needle, BW_PART_ATTACHMENT, (BwStitch){ TRUE, end_row, column, way });
  }
}

static void
sew_end (BwNeedle *needle, int end_row, int foot, int *row)
{
  keep_runs_together (needle);
  for (int run = 0; run < 2; run++)
    whip_end (needle, end_row, foot, row);
}

static void
weave_strip (BwNeedle *needle, int row)
{
  const BwBail *bail = &needle->design->bail;
  int strung = MIN (bail->rows, 2);
  begin_pass (needle, BW_PART_BAIL, &row, strung == 2 ? bail->columns : bail->columns / 2);
  bw_needle_string_rows (needle, BW_PART_BAIL, TRUE, strung);
  sew_end (needle, 1, 0, &row);
  for (int r = 3; r <= bail->rows; r++) {
    begin_pass (needle, BW_PART_BAIL, &row, bail->columns);
    bw_needle_weave_row (needle, BW_PART_BAIL, TRUE, r, TRUE);
  }
  sew_end (needle, bail->rows, 1, &row);
}

void
bw_bail_path_weave (BwNeedle *needle)
{
  int row = needle->design->band.rows + 2;
  go_to_bail (needle, bw_bail_path_entry (needle), row + 1);
  if (bw_bail_is_strip (&needle->design->bail))
    weave_strip (needle, row);
  else
    weave_flap (needle, row);
}
