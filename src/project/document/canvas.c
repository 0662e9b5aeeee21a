/* SPDX-License-Identifier: GPL-3.0-or-later */
/* When the stone is measured anew the row count changes, and the drawing must follow without losing
 * a bead the maker set. Here lies what "follow" means. */
#include "config.h"

#include "project/document/canvas.h"
#include "core/band/join.h"
#include "core/base/lattice.h"

guint8
bw_canvas_ground (const BwDrawing *drawing)
{
  return drawing ? bw_drawing_ground (drawing) : 0;
}

void
bw_canvas_set (BwDocument *document, GArray *log, BwCanvas canvas, int row, int bead, guint8 colour)
{
  BwDrawing *drawing = document->drawing[canvas];
  int column = bw_lattice_column (row, bead);
  BwChange change = { .place = bw_place_of (canvas, row, bead),
                      .before = bw_drawing_get (drawing, row, column),
                      .after = colour };

  if (change.before == colour)
    return;
  bw_drawing_set (drawing, row, column, colour);
  bw_touched_add (&document->touched, change.place);
  g_array_append_val (log, change);
}

/* Makes room for hidden cells that a change touches. */
static void
show (BwDrawing *drawing, int columns, int rows)
{
  int had_columns = bw_drawing_columns (drawing), had_rows = bw_drawing_rows (drawing);

  if (columns > had_columns || rows > had_rows)
    bw_drawing_resize (drawing, MAX (columns, had_columns), MAX (rows, had_rows),
                       bw_canvas_ground (drawing));
}

static void
apply_one (BwDocument *document, guint32 place, guint8 colour)
{
  BwDrawing *drawing = document->drawing[bw_place_canvas (place)];
  int row = bw_place_row (place), column = bw_place_column (place);

  show (drawing, (column + 1) / 2 * 2, row);
  bw_drawing_set (drawing, row, column, colour);
  bw_touched_add (&document->touched, place);
}

void
bw_canvas_apply (BwDocument *document, const GArray *changes, guint from, gboolean forward)
{
  const BwChange *change = (const BwChange *)changes->data;

  if (forward)
    for (guint i = from; i < changes->len; i++)
      apply_one (document, change[i].place, change[i].after);
  else
    for (guint i = changes->len; i-- > from;)
      apply_one (document, change[i].place, change[i].before);
}

static gboolean
is_shown (const BwDesign *design, BwCanvas canvas)
{
  return canvas == BW_CANVAS_BAND || design->bail.style != BW_BAIL_NONE;
}

static void
fill_row (BwDocument *document, GArray *log, BwCanvas canvas, int row, int repeat, guint8 ground,
          int from_column)
{
  BwDrawing *drawing = document->drawing[canvas];

  for (int bead = 0; bead < bw_drawing_columns (drawing) / 2; bead++) {
    int column = bw_lattice_column (row, bead);

    if (column < from_column)
      continue;
    bw_canvas_set (document, log, canvas, row, bead,
                   repeat ? bw_drawing_get (drawing, row - repeat, column) : ground);
  }
}

/* A hidden cell may be older than the present tray. */
static void
mend_row (BwDocument *document, GArray *log, BwCanvas canvas, int row, guint8 ground)
{
  BwDrawing *drawing = document->drawing[canvas];
  int n_colours = document->head.tray->tray.n_colours;

  for (int bead = 0; bead < bw_drawing_columns (drawing) / 2; bead++)
    if (bw_drawing_get (drawing, row, bw_lattice_column (row, bead)) >= n_colours)
      bw_canvas_set (document, log, canvas, row, bead, ground);
}

static void
follow_size (BwDocument *document, GArray *log, BwCanvas canvas, BwSeen *seen, int columns,
             int rows)
{
  BwDrawing *drawing = document->drawing[canvas];
  guint8 ground = bw_canvas_ground (seen->rows ? drawing : document->drawing[BW_CANVAS_BAND]);
  int back = MIN (rows, seen->rows), repeat = 0;

  if (back > 0) {
    bw_drawing_resize (drawing, columns, back, ground);
    for (int row = 1; row <= back; row++) {
      mend_row (document, log, canvas, row, ground);
      fill_row (document, log, canvas, row, 0, ground, seen->columns + 1);
    }
    repeat = rows > back ? bw_join_repeat (drawing) : 0;
  }
  bw_drawing_resize (drawing, columns, rows, ground);
  for (int row = back + 1; row <= rows; row++)
    fill_row (document, log, canvas, row, repeat, ground, 0);
  seen->columns = MAX (seen->columns, columns);
  seen->rows = MAX (seen->rows, rows);
  bw_touched_all (&document->touched);
}

static gboolean
has_size (const BwDrawing *drawing, int columns, int rows)
{
  return bw_drawing_columns (drawing) == columns && bw_drawing_rows (drawing) == rows;
}

void
bw_canvas_follow (BwDocument *document, GArray *log, BwFrame *frame)
{
  for (BwCanvas c = 0; c < BW_N_CANVASES; c++) {
    BwSeen *seen = &frame->seen[c];
    int columns, rows;

    if (!is_shown (&frame->design, c))
      continue;
    bw_document_canvas_size (&frame->design, c, &columns, &rows);
    if (!document->drawing[c])
      document->drawing[c] = bw_drawing_new (columns, rows, 0);
    if (!has_size (document->drawing[c], columns, rows) || seen->rows < rows
        || seen->columns < columns)
      follow_size (document, log, c, seen, columns, rows);
  }
}

void
bw_canvas_restore_size (BwDocument *document, const BwFrame *frame)
{
  for (BwCanvas c = 0; c < BW_N_CANVASES; c++) {
    BwDrawing *drawing = document->drawing[c];
    int columns, rows;

    if (!drawing || !is_shown (&frame->design, c))
      continue;
    bw_document_canvas_size (&frame->design, c, &columns, &rows);
    if (has_size (drawing, columns, rows))
      continue;
    bw_drawing_resize (drawing, columns, rows, bw_canvas_ground (drawing));
    bw_touched_all (&document->touched);
  }
}

static void
recolour (BwDocument *document, GArray *log, BwCanvas canvas, const guint8 map[256])
{
  BwDrawing *drawing = document->drawing[canvas];
  BwSeen seen = document->head.frame->seen[canvas];
  int columns = bw_drawing_columns (drawing), rows = bw_drawing_rows (drawing);

  show (drawing, seen.columns, seen.rows);
  for (int row = 1; row <= bw_drawing_rows (drawing); row++) {
    const guint8 *cells = bw_drawing_row (drawing, row);

    for (int bead = 0; bead < bw_drawing_columns (drawing) / 2; bead++)
      bw_canvas_set (document, log, canvas, row, bead, map[cells[bead]]);
  }
  if (!has_size (drawing, columns, rows))
    bw_drawing_resize (drawing, columns, rows, 0);
}

void
bw_canvas_recolour (BwDocument *document, GArray *log, const guint8 map[256])
{
  for (BwCanvas c = 0; c < BW_N_CANVASES; c++)
    if (document->drawing[c])
      recolour (document, log, c, map);
}
