/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thread's path from the first pick-up to the last weaving-in, as the needle goes: how often
 * each hole is passed, how much thread that takes, and where a fresh length begins.
 *
 * A strip whose row count is odd has beads raised in the same columns at both ends and cannot be
 * zipped; one of two rows would send the needle straight back through the bead it left. For these
 * the path ends with the last row: the zip, its return, the anchors and the bail that stands on the
 * closed ring come when the strip can be closed, and thread is not counted for them before. */
#include "core/path/path.h"

#include "core/base/lattice.h"
#include "core/path/path-bail.h"
#include "core/path/path-lengths.h"
#include "core/path/path-route.h"

#define ANCHOR_VISITS 8

const char *
bw_part_word (BwPart part)
{
  static const char *const words[BW_N_PARTS] = { "pick-up",    "rows",       "zip",
                                                 "return",     "anchors",    "bail",
                                                 "attachment", "weaving-in", "tails" };
  return words[part];
}

static gboolean
can_be_zipped (int rows)
{
  return rows % 2 == 0 && rows >= 4;
}

/* A pass of the band that ends at row `to`; to − from + 1 rows at once. */
static void
begin_pass (BwNeedle *needle, BwPart part, int from, int to, double mm)
{
  bw_needle_reserve (needle, mm, from, to);
  needle->path->part[part].length_mm += mm;
}

static void
weave_rows (BwNeedle *needle)
{
  const BwBand *band = &needle->design->band;
  double mm = bw_path_pass_mm (needle->design, band->columns);
  int strung = MIN (band->rows, 2);
  int beads = strung == 2 ? band->columns : band->columns / 2;
  begin_pass (needle, BW_PART_PICK_UP, 1, strung, bw_path_pass_mm (needle->design, beads));
  bw_needle_string_rows (needle, BW_PART_PICK_UP, FALSE, strung);
  for (int row = 3; row <= band->rows; row++) {
    begin_pass (needle, BW_PART_ROWS, row, row, mm);
    bw_needle_weave_row (needle, BW_PART_ROWS, FALSE, row, TRUE);
  }
}

/* The zip is the row after the last, and finds its beads in row 1. */
static void
zip (BwNeedle *needle)
{
  int row = needle->design->band.rows + 1;
  begin_pass (needle, BW_PART_ZIP, row, row,
              bw_path_pass_mm (needle->design, needle->design->band.columns));
  needle->zipped = TRUE;
  bw_needle_weave_row (needle, BW_PART_ZIP, FALSE, row, FALSE);
}

/* Eight beads with two turns lock the thread. Of all such ways the best ends where the bail begins;
 * next best is there and back to the edge, from where the weaving-in has free choice. Across two
 * columns none has as few as two turns. */
static void
anchor (BwNeedle *needle, const BwStitch *bail_entry)
{
  BwStitch edge = { FALSE, 0, needle->design->band.columns, 1 };
  BwRouteWish wishes[] = { { ANCHOR_VISITS, ANCHOR_VISITS, 2, bail_entry },
                           { ANCHOR_VISITS, ANCHOR_VISITS, 2, &edge },
                           { ANCHOR_VISITS, ANCHOR_VISITS, -1, &edge } };
  BwRoute route = { 0 };
  for (gsize i = bail_entry ? 0 : 1; i < G_N_ELEMENTS (wishes); i++)
    if (bw_route_search (&route, needle, needle->at, &wishes[i]))
      break;
  bw_needle_follow (needle, BW_PART_ANCHORS, route.stitch, route.n);
}

/* The return runs as the row after the zip; it and the anchors are one pass. */
static void
go_back_and_anchor (BwNeedle *needle, const BwStitch *bail_entry)
{
  const BwDesign *design = needle->design;
  int row = design->band.rows + 2;
  double back = bw_path_pass_mm (design, design->band.columns);
  double anchors = ANCHOR_VISITS * bw_path_step_mm (design) + 2 * design->gauge.pitch_mm;
  bw_needle_reserve (needle, back + anchors, row, row);
  needle->path->part[BW_PART_RETURN].length_mm += back;
  needle->path->part[BW_PART_ANCHORS].length_mm += anchors;
  bw_needle_weave_row (needle, BW_PART_RETURN, FALSE, row, FALSE);
  anchor (needle, bail_entry);
}

static void
close_ring (BwNeedle *needle, const BwBailBase *base)
{
  zip (needle);
  if (needle->design->bail.style == BW_BAIL_NONE) {
    go_back_and_anchor (needle, NULL);
    return;
  }
  bw_needle_stand_bail (needle, base);
  BwStitch entry = bw_bail_path_entry (needle);
  go_back_and_anchor (needle, &entry);
  bw_bail_path_weave (needle);
}

static void
list_full_holes (BwPath *path, const guint16 *forced, gsize n, int per_row, gboolean in_bail)
{
  for (gsize i = 0; i < n; i++) {
    if (forced[i] == 0)
      continue;
    int row = (int)(i / (gsize)per_row) + 1, j = (int)(i % (gsize)per_row);
    BwFullHole hole = { in_bail, row, bw_lattice_column (row, j), forced[i] };
    g_array_append_val (path->full_holes, hole);
  }
}

static void
sum_up (BwPath *path, gsize band_beads, gsize bail_beads)
{
  for (gsize i = 0; i < band_beads; i++)
    path->passes_max = MAX (path->passes_max, path->band_passes[i]);
  for (gsize i = 0; i < bail_beads; i++)
    path->passes_max = MAX (path->passes_max, path->bail_passes[i]);
  for (int part = 0; part < BW_N_PARTS; part++)
    path->length_mm += path->part[part].length_mm;
}

void
bw_path_init (BwPath *path, const BwDesign *design, const BwBailBase *base)
{
  gsize band_beads = (gsize)design->band.rows * (gsize)(design->band.columns / 2);
  gsize bail_beads = (gsize)bw_bail_bead_count (&design->bail);
  *path = (BwPath){ .visits = g_array_sized_new (FALSE, FALSE, sizeof (BwVisit),
                                                 (guint)(2 * band_beads + 256)),
                    .lengths = g_array_new (FALSE, FALSE, sizeof (BwThreadLength)),
                    .full_holes = g_array_new (FALSE, FALSE, sizeof (BwFullHole)),
                    .band_passes = g_new0 (guint16, band_beads),
                    .bail_passes = bail_beads ? g_new0 (guint16, bail_beads) : NULL };
  g_autofree guint16 *band_forced = g_new0 (guint16, band_beads);
  g_autofree guint16 *bail_forced = g_new0 (guint16, bail_beads);
  BwNeedle needle
      = { .design = design, .path = path, .band_forced = band_forced, .bail_forced = bail_forced };
  bw_needle_begin (&needle);
  weave_rows (&needle);
  if (can_be_zipped (design->band.rows))
    close_ring (&needle, base);
  bw_needle_finish (&needle);
  list_full_holes (path, band_forced, band_beads, design->band.columns / 2, FALSE);
  list_full_holes (path, bail_forced, bail_beads, design->bail.columns / 2, TRUE);
  sum_up (path, band_beads, bail_beads);
}

void
bw_path_clear (BwPath *path)
{
  g_clear_pointer (&path->visits, g_array_unref);
  g_clear_pointer (&path->lengths, g_array_unref);
  g_clear_pointer (&path->full_holes, g_array_unref);
  g_clear_pointer (&path->band_passes, g_free);
  g_clear_pointer (&path->bail_passes, g_free);
}
