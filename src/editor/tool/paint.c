/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads are laid in a drawing of the stroke's own; two lists tell which of them differ from how the
 * stroke began and which the project has not heard of yet. */
#include "editor/tool/paint.h"

#include "core/base/lattice.h"

#define ANY (-1)

struct _BwPaint {
  BwSession *session;
  BwProject *project;
  BwLive live;
  BwDrawing *before, *now;
  BwRegion *done; /* beads whose whole orbit has been laid in the colour they have now */
  GArray *laid;   /* of BwBeadAt: changed since new() or restart() */
  GArray *due;    /* of BwBeadAt: changed since show() */
};

BwPaint *
bw_paint_new (BwSession *session)
{
  BwPaint *paint = g_new0 (BwPaint, 1);
  paint->session = g_object_ref (session);
  paint->project = g_object_ref (bw_session_get_project (session));
  bw_live_init (&paint->live, session);
  paint->before = bw_drawing_copy (bw_project_get_drawing (paint->project));
  paint->now = bw_drawing_copy (paint->before);
  paint->done = bw_region_new (paint->live.columns, paint->live.rows);
  paint->laid = g_array_new (FALSE, FALSE, sizeof (BwBeadAt));
  paint->due = g_array_new (FALSE, FALSE, sizeof (BwBeadAt));
  return paint;
}

void
bw_paint_free (BwPaint *paint)
{
  g_array_unref (paint->due);
  g_array_unref (paint->laid);
  bw_region_free (paint->done);
  bw_drawing_free (paint->now);
  bw_drawing_free (paint->before);
  g_object_unref (paint->project);
  g_object_unref (paint->session);
  g_free (paint);
}

const BwDrawing *
bw_paint_before (const BwPaint *paint)
{
  return paint->before;
}

void
bw_paint_restart (BwPaint *paint)
{
  for (guint i = 0; i < paint->laid->len; i++) {
    BwBeadAt at = g_array_index (paint->laid, BwBeadAt, i);
    bw_drawing_set (paint->now, at.row, at.column,
                    bw_drawing_get (paint->before, at.row, at.column));
    bw_region_remove (paint->done, at.row, at.column);
  }
  g_array_append_vals (paint->due, paint->laid->data, paint->laid->len);
  g_array_set_size (paint->laid, 0);
}

typedef struct {
  BwPaint *paint;
  guint8 colour;
  int over; /* the colour that alone is laid over; or ANY */
} Lay;

static void
lay_one (int row, int column, gpointer data)
{
  Lay *lay = data;
  BwPaint *paint = lay->paint;
  BwBeadAt place = { row, column };

  if (bw_session_is_locked (paint->session, column))
    return;
  if (lay->over != ANY && bw_drawing_get (paint->before, row, column) != lay->over)
    return;
  if (!bw_region_has (paint->done, row, column)) {
    bw_region_add (paint->done, row, column);
    g_array_append_val (paint->laid, place);
  }
  if (bw_drawing_get (paint->now, row, column) == lay->colour)
    return;
  bw_drawing_set (paint->now, row, column, lay->colour);
  g_array_append_val (paint->due, place);
}

static void
lay_orbit (Lay *lay, int row, int column)
{
  BwPaint *paint = lay->paint;
  if (row < 1 || row > paint->live.rows || column < 1 || column > paint->live.columns
      || !bw_lattice_has (row, column))
    return;
  /* Beads of one orbit are always laid together: one that is done brings nothing new. */
  if (bw_region_has (paint->done, row, column)
      && bw_drawing_get (paint->now, row, column) == lay->colour)
    return;
  bw_live_each (&paint->live, row, column, lay_one, lay);
}

void
bw_paint_lay (BwPaint *paint, int row, int column, guint8 colour)
{
  Lay lay = { paint, colour, ANY };
  lay_orbit (&lay, row, column);
}

void
bw_paint_lay_over (BwPaint *paint, int row, int column, guint8 over, guint8 colour)
{
  Lay lay = { paint, colour, over };
  lay_orbit (&lay, row, column);
}

static void
lay_of_region (int row, int column, gpointer data)
{
  lay_orbit (data, row, column);
}

void
bw_paint_lay_region (BwPaint *paint, const BwRegion *region, guint8 colour)
{
  Lay lay = { paint, colour, ANY };
  bw_region_each (region, lay_of_region, &lay);
}

void
bw_paint_show (BwPaint *paint)
{
  g_autofree BwBeadColour *beads = g_new (BwBeadColour, paint->due->len + 1);
  gsize n = paint->due->len;

  if (n == 0)
    return;
  for (gsize i = 0; i < n; i++) {
    BwBeadAt at = g_array_index (paint->due, BwBeadAt, i);
    beads[i] = (BwBeadColour){ at.row, at.column, bw_drawing_get (paint->now, at.row, at.column) };
  }
  g_array_set_size (paint->due, 0);
  bw_project_set_beads (paint->project, "", FALSE, beads, n);
}
