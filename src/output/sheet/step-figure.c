/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band round the needle is drawn as in the chart, the join closed once it is zipped; the bail
 * lies beside it, laid flat. The thread goes through each hole from the edge where the needle
 * enters to the other. */
#include "config.h"

#include "output/sheet/step-figure.h"

#include "core/pattern/tint.h"
#include "core/base/lattice.h"
#include "output/page/page.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define AROUND 2     /* rows shown beyond those visited */
#define BAIL_GAP 3.0 /* between band and bail, half pitches */
#define LEFT 14.0    /* for the numbers of the columns, points */
#define LOWER 22.0   /* for those of the rows */
#define NAMES 7.0    /* for what is band and what is bail */
#define UNIT 8.5     /* the largest half pitch, points */
#define STUB 6.0     /* of thread before the first bead and after the last */
#define BESIDE 2     /* columns shown beyond those visited on a wide band */
#define ALL_COLUMNS 24
#define CUT_COLUMNS 16

void
bw_step_state_init (BwStepState *state, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  gsize band = (gsize)design->band.rows * (gsize)design->band.columns / 2;
  gsize bail = (gsize)bw_bail_bead_count (&design->bail);
  *state = (BwStepState){ .band = g_new0 (guint16, band),
                          .bail = bail ? g_new0 (guint16, bail) : NULL };
}

void
bw_step_state_clear (BwStepState *state)
{
  g_free (state->band);
  g_free (state->bail);
}

void
bw_step_state_take (BwStepState *state, BwProject *project, guint from, guint to)
{
  const BwDesign *design = bw_project_get_design (project);
  const GArray *visits = bw_project_path (project)->visits;
  for (guint i = from; i < to; i++) {
    const BwVisit *visit = &g_array_index (visits, BwVisit, i);
    int columns = visit->in_bail ? design->bail.columns : design->band.columns;
    guint16 *passes = visit->in_bail ? state->bail : state->band;
    int *rows = visit->in_bail ? &state->bail_rows : &state->band_rows;
    passes[(visit->row - 1) * columns / 2 + bw_lattice_index (visit->column)]++;
    *rows = MAX (*rows, visit->row);
    state->closed |= visit->part == BW_PART_ZIP;
  }
}

/* What is shown: rows as steps from a row of reference, so that the join can lie in the middle. */
typedef struct {
  const BwDesign *design;
  const BwVisit *visit;
  guint n;
  const BwStepState *state;
  int band_rows, bail_rows; /* woven when the step is done */
  gboolean closed, begins;  /* zipped; the very first step */
  int reference, rows;      /* rows of the whole band */
  int low, high;            /* band rows shown, from the reference; low > high: no band */
  int low_column, high_column;
  int bail_low, bail_high;     /* rows; low > high: no bail */
  double unit, column, x0, y0; /* half a pitch, a column; where the lowest row and column lie */
} View;

static int
from_reference (const View *view, int row)
{
  int far = row - view->reference;
  if (view->closed && far > view->rows / 2)
    far -= view->rows;
  if (view->closed && far < -view->rows / 2)
    far += view->rows;
  return far;
}

static void
take_visit (View *view, const BwVisit *visit)
{
  if (visit->in_bail) {
    view->bail_low = MIN (view->bail_low, visit->row);
    view->bail_high = MAX (view->bail_high, visit->row);
    view->bail_rows = MAX (view->bail_rows, visit->row);
    return;
  }
  int far = from_reference (view, visit->row);
  view->low = MIN (view->low, far);
  view->high = MAX (view->high, far);
  view->low_column = MIN (view->low_column, visit->column);
  view->high_column = MAX (view->high_column, visit->column);
  view->band_rows = MAX (view->band_rows, visit->row);
}

/* The bail lies beside the columns it grows from; an upright strip beside the middle, a loop over
 * the tip beside the upper edge. */
static double
bail_shift (const View *view)
{
  int beyond = view->design->band.columns - view->design->bail.columns;
  return view->design->bail.style == BW_BAIL_OVER ? beyond : beyond / 2.0;
}

/* On a band all of whose columns can be shown they are; beside a bail those near it do. */
static void
widen (View *view)
{
  int columns = view->design->band.columns;
  int shift = (int)bail_shift (view);
  gboolean all = columns <= ALL_COLUMNS && view->bail_low > view->bail_high;
  if (view->bail_low <= view->bail_high) {
    view->low_column = MIN (view->low_column, shift + 1);
    view->high_column = MAX (view->high_column, shift + view->design->bail.columns);
  }
  view->bail_low = MAX (1, view->bail_low - 1);
  if (view->low > view->high)
    return;
  view->low_column = all ? 1 : MAX (1, view->low_column - BESIDE);
  view->high_column = all ? columns : MIN (columns, view->high_column + BESIDE);
  view->low -= AROUND;
  view->high += AROUND;
  if (view->closed)
    return;
  view->low = MAX (view->low, 1 - view->reference);
  view->high = MIN (view->high, view->band_rows - view->reference);
}

/* Of a pass across a band too wide to draw the beginning is drawn: it goes on alike. */
static void
cut (View *view)
{
  if (view->high_column - view->low_column < ALL_COLUMNS)
    return;
  if (view->visit[0].column > (view->low_column + view->high_column) / 2)
    view->low_column = view->high_column - CUT_COLUMNS + 1;
  else
    view->high_column = view->low_column + CUT_COLUMNS - 1;
  guint n = 1;
  while (n < view->n && view->visit[n].column >= view->low_column
         && view->visit[n].column <= view->high_column)
    n++;
  view->n = n;
}

static void
view_init (View *view, BwProject *project, const BwStep *step, const BwStepState *state)
{
  const GArray *visits = bw_project_path (project)->visits;
  *view = (View){ .design = bw_project_get_design (project),
                  .n = step->n,
                  .state = state,
                  .visit = &g_array_index (visits, BwVisit, step->first),
                  .band_rows = state->band_rows,
                  .bail_rows = state->bail_rows,
                  .closed = state->closed || step->kind == BW_STEP_ZIP,
                  .begins = step->first == 0 };
  view->rows = view->design->band.rows;
  view->low = view->bail_low = view->low_column = G_MAXINT;
  view->high = view->bail_high = view->high_column = G_MININT;
  view->reference = 1;
  for (guint i = 0; i < view->n; i++)
    if (!view->visit[i].in_bail) {
      view->reference = view->visit[i].row;
      break;
    }
  for (guint i = 0; i < view->n; i++)
    take_visit (view, &view->visit[i]);
  widen (view);
  cut (view);
}

static int
row_of (const View *view, int far)
{
  int row = view->reference + far;
  if (view->closed)
    row = (row - 1 + 2 * view->rows) % view->rows + 1;
  return row >= 1 && row <= view->band_rows ? row : 0;
}

static double
band_units (const View *view)
{
  return view->low > view->high ? 0 : view->high - view->low + 2;
}

static double
bail_units (const View *view)
{
  if (view->bail_low > view->bail_high)
    return 0;
  return view->bail_high - view->bail_low + 2 + (band_units (view) > 0 ? BAIL_GAP : 0);
}

static gboolean
shows_both (const View *view)
{
  return band_units (view) > 0 && bail_units (view) > 0;
}

static double
row_x (const View *view, gboolean in_bail, int row)
{
  if (!in_bail)
    return view->x0 + (from_reference (view, row) - view->low) * view->unit;
  double before = band_units (view) > 0 ? band_units (view) + BAIL_GAP : 0;
  return view->x0 + (before + row - view->bail_low) * view->unit;
}

static double
column_y (const View *view, gboolean in_bail, int column)
{
  double shift = in_bail ? bail_shift (view) : 0;
  return view->y0 - (column + shift - view->low_column + 1) * view->column;
}

static const BwVisit *
visit_of (const View *view, gboolean in_bail, int row, int column)
{
  for (guint i = 0; i < view->n; i++) {
    const BwVisit *visit = &view->visit[i];
    if (visit->in_bail == in_bail && visit->row == row && visit->column == column)
      return visit;
  }
  return NULL;
}

static void
cross_out (cairo_t *cr, double x, double y, double width, double height)
{
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_set_line_width (cr, 0.8);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + width, y + height);
  cairo_move_to (cr, x + width, y);
  cairo_line_to (cr, x, y + height);
  cairo_stroke (cr);
}

static void
draw_bead (cairo_t *cr, const View *view, gboolean in_bail, int row, int column)
{
  const BwVisit *visit = visit_of (view, in_bail, row, column);
  int columns = in_bail ? view->design->bail.columns : view->design->band.columns;
  const guint16 *passes = in_bail ? view->state->bail : view->state->band;
  int before = passes[(row - 1) * columns / 2 + bw_lattice_index (column)];
  double x = row_x (view, in_bail, row) + 0.4, y = column_y (view, in_bail, column) + 0.4;
  double width = 2 * view->unit - 0.8, height = view->column - 0.8;
  BwTint fill = !visit ? BW_TINT_SHEET : visit->is_new ? BW_TINT_SHADE : BW_TINT_WASH;
  if (!visit && before == 0)
    return;
  cairo_rectangle (cr, x, y, width, height);
  cairo_set_source_rgb (cr, BW_TINT_RGB (fill, FALSE));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_TINT_RGB (visit ? BW_TINT_INK : BW_TINT_HAIR, FALSE));
  cairo_set_line_width (cr, visit ? 0.7 : 0.4);
  cairo_stroke (cr);
  if (before > 0 && bw_path_is_full (view->design, before))
    cross_out (cr, x, y, width, height);
}

static void
draw_beads (cairo_t *cr, const View *view)
{
  for (int far = view->low; far <= view->high; far++)
    for (int column = view->low_column; column <= view->high_column; column++) {
      int row = row_of (view, far);
      if (row > 0 && bw_lattice_has (row, column))
        draw_bead (cr, view, FALSE, row, column);
    }
  for (int row = view->bail_low; row <= view->bail_high; row++)
    for (int column = 1; column <= view->design->bail.columns; column++)
      if (bw_lattice_has (row, column))
        draw_bead (cr, view, TRUE, row, column);
}

static void
row_label (cairo_t *cr, const View *view, double x, int row)
{
  g_autofree char *number = g_strdup_printf ("%d", row);
  cairo_save (cr);
  cairo_translate (cr, x + view->unit, view->y0 + 5.5);
  double scale = MIN (1, view->unit / 5.5);
  cairo_scale (cr, scale, scale);
  bw_type_draw (cr, BW_TYPE_TINY, number, 0, row % 2 ? 0 : 6.5, 0.5);
  cairo_restore (cr);
}

/* Columns of the band, or of the bail where it is drawn alone. */
static void
draw_column_labels (cairo_t *cr, const View *view)
{
  double scale = MIN (1, view->column / 8);
  int shift = band_units (view) > 0 ? 0 : (int)bail_shift (view);
  for (int column = view->low_column; column <= view->high_column; column++) {
    g_autofree char *number = g_strdup_printf ("%d", column - shift);
    cairo_save (cr);
    cairo_translate (cr, view->x0 - 3, column_y (view, FALSE, column) + view->column / 2);
    cairo_scale (cr, scale, scale);
    bw_type_draw (cr, BW_TYPE_TINY, number, 0, -3.6, 1);
    cairo_restore (cr);
  }
}

static void
draw_labels (cairo_t *cr, const View *view)
{
  draw_column_labels (cr, view);
  for (int far = view->low; far <= view->high; far++)
    if (row_of (view, far) > 0)
      row_label (cr, view, row_x (view, FALSE, row_of (view, far)), row_of (view, far));
  for (int row = view->bail_low; row <= view->bail_high; row++)
    row_label (cr, view, row_x (view, TRUE, row), row);
  if (!shows_both (view))
    return;
  double y = view->y0 + LOWER - 3, band = band_units (view), all = band + bail_units (view);
  bw_type_draw (cr, BW_TYPE_TINY_BOLD, _ ("band"), view->x0 + band / 2 * view->unit, y, 0.5);
  bw_type_draw (cr, BW_TYPE_TINY_BOLD, _ ("bail"),
                view->x0 + (band + BAIL_GAP + all) / 2 * view->unit, y, 0.5);
}

/* Where the thread enters and leaves a bead; a bead passed more than once has its threads side by
 * side. */
static void
ends_of (const View *view, guint i, BwVec2 *in, BwVec2 *out)
{
  const BwVisit *visit = &view->visit[i];
  int earlier = 0;
  for (guint k = 0; k < i; k++)
    earlier += view->visit[k].row == visit->row && view->visit[k].column == visit->column
               && view->visit[k].in_bail == visit->in_bail;
  double x = row_x (view, visit->in_bail, visit->row) + view->unit * (1 + 0.35 * earlier);
  double low = column_y (view, visit->in_bail, visit->column) + view->column;
  *in = bw_vec2 (x, visit->direction ? low : low - view->column);
  *out = bw_vec2 (x, visit->direction ? low - view->column : low);
}

/* Beyond an end of a bead, out of it or into it. */
static BwVec2
beyond (BwVec2 end, BwVec2 other)
{
  return bw_vec2 (end.x, end.y + (end.y > other.y ? STUB : -STUB));
}

static void
draw_thread (cairo_t *cr, const View *view)
{
  BwVec2 in, out, stub;
  ends_of (view, 0, &in, &out);
  stub = beyond (in, out);
  if (!view->begins)
    cairo_move_to (cr, stub.x, stub.y);
  for (guint i = 0; i < view->n; i++) {
    ends_of (view, i, &in, &out);
    cairo_line_to (cr, in.x, in.y);
    cairo_line_to (cr, out.x, out.y);
  }
  stub = beyond (out, in);
  cairo_line_to (cr, stub.x, stub.y);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgb (cr, BW_ON_PAPER (RUST));
  cairo_set_line_width (cr, 1.1);
  cairo_stroke (cr);
}

/* The tail of the very beginning, with the stopper bead on it. */
static void
draw_stopper (cairo_t *cr, BwVec2 from)
{
  BwVec2 at = bw_vec2 (from.x + 22, from.y + 6);
  cairo_move_to (cr, from.x, from.y);
  cairo_curve_to (cr, from.x, from.y + 6, at.x - 12, at.y, at.x + 14, at.y);
  cairo_set_line_width (cr, 1.1);
  cairo_stroke (cr);
  cairo_arc (cr, at.x, at.y, 3.6, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_set_line_width (cr, 1.4);
  cairo_stroke (cr);
}

/* A small head in every bead tells the way, a dot where the thread comes from. */
static void
draw_heads (cairo_t *cr, const View *view)
{
  BwVec2 in, out;
  double size = MIN (2.8, 0.3 * view->column);
  cairo_set_source_rgb (cr, BW_ON_PAPER (RUST));
  for (guint i = 0; i < view->n; i++) {
    ends_of (view, i, &in, &out);
    double way = out.y > in.y ? 1 : -1, y = (in.y + out.y) / 2 + way * size;
    cairo_move_to (cr, in.x, y);
    cairo_line_to (cr, in.x - size, y - way * 1.8 * size);
    cairo_line_to (cr, in.x + size, y - way * 1.8 * size);
    cairo_close_path (cr);
    cairo_fill (cr);
  }
  ends_of (view, 0, &in, &out);
  if (view->begins) {
    draw_stopper (cr, in);
    return;
  }
  in = beyond (in, out);
  cairo_arc (cr, in.x, in.y, 2.4, 0, 2 * G_PI);
  cairo_fill (cr);
}

double
bw_step_draw (cairo_t *cr, BwProject *project, const BwStep *step, const BwStepState *state,
              double width, double height)
{
  View view;
  view_init (&view, project, step, state);
  double units = band_units (&view) + bail_units (&view);
  double columns = view.high_column - view.low_column + 1, above = STUB + 3;
  double ratio = CLAMP (view.design->gauge.column_mm / view.design->gauge.pitch_mm, 0.6, 1.4);
  view.unit = MIN (UNIT, MIN ((width - LEFT - 2) / units,
                              (height - LOWER - NAMES - above) / (columns * 2 * ratio)));
  view.column = 2 * ratio * view.unit;
  view.x0 = LEFT;
  view.y0 = columns * view.column + above;
  draw_beads (cr, &view);
  draw_labels (cr, &view);
  draw_thread (cr, &view);
  draw_heads (cr, &view);
  cairo_new_path (cr);
  return view.y0 + LOWER + (shows_both (&view) ? NAMES : 0);
}
