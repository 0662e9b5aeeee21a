/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How large a shape is while it is pulled, in the words of the bench: beads, rows, columns. */
#include "config.h"

#include "core/base/lattice.h"
#include "editor/tool/shape.h"
#include "editor/tool/tool.h"

#include <glib/gi18n-lib.h>

static void
count_bead (int long_row, int column, gpointer beads)
{
  ++*(int *)beads;
}

static char *
beads_in_words (int beads)
{
  return g_strdup_printf (ngettext ("%d bead", "%d beads", (gulong)beads), beads);
}

char *
bw_tool_line_words (const BwToolHold *hold)
{
  int beads = 0;
  bw_stroke_line (bw_tool_brick (hold, hold->from), bw_tool_straight_end (hold), count_bead,
                  &beads);
  return beads_in_words (beads);
}

char *
bw_tool_box_words (BwShapeBox box, gboolean frame)
{
  int rows = box.last_row - box.first_row + 1, columns = box.last_column - box.first_column + 1;
  int beads = 0;
  if (frame)
    bw_shape_frame (box, count_bead, &beads);
  else
    bw_shape_fill (box, count_bead, &beads);
  g_autofree char *in_beads = beads_in_words (beads);
  g_autofree char *in_rows = g_strdup_printf (ngettext ("%d row", "%d rows", (gulong)rows), rows);
  g_autofree char *in_columns
      = g_strdup_printf (ngettext ("%d column", "%d columns", (gulong)columns), columns);
  /* Translators: how large a block of beads is: "12 rows × 5 columns, 30 beads". */
  return g_strdup_printf (_ ("%s × %s, %s"), in_rows, in_columns, in_beads);
}

static BwShapeBox
box_of (const BwToolHold *hold)
{
  return bw_shape_box (bw_tool_brick (hold, hold->from), bw_tool_square_end (hold),
                       bw_band_layout_around (&hold->layout));
}

char *
bw_tool_block_words (const BwToolHold *hold)
{
  return bw_tool_box_words (box_of (hold), FALSE);
}

char *
bw_tool_frame_words (const BwToolHold *hold)
{
  return bw_tool_box_words (box_of (hold), TRUE);
}

char *
bw_tool_move_words (const BwToolHold *hold)
{
  BwBeadAt from = bw_tool_brick (hold, hold->from), to = bw_tool_straight_end (hold);
  /* Translators: how far beads have been moved; the numbers have a sign. */
  return g_strdup_printf (_ ("Rows %+d, columns %+d"), to.row - from.row, to.column - from.column);
}
