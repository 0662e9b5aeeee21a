/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything is laid out in half pitches first and fitted into the box at the end, so that no size
 * is reckoned twice. */
#include "output/sheet/step-layout.h"

#include "core/base/lattice.h"
#include "output/words/words-visits.h"

#include <math.h>

#define AROUND 2     /* rows shown beyond those visited */
#define BAIL_GAP 3.0 /* between band and a bail laid beside it, half pitches */
#define LEFT 14.0    /* for the numbers of the columns, points */
#define LOWER 22.0   /* for those of the rows */
#define NAMES 7.0    /* for what is band and what is bail */
#define UNIT 8.5     /* the largest half pitch, points */
#define STUB 6.0     /* of thread before the first bead and after the last */
#define BESIDE 2     /* columns shown beyond those visited on a wide band */
#define ALL_COLUMNS 24
#define CUT_COLUMNS 16
#define END_ROWS 3  /* of a strip shown at either end where its middle is left out */
#define CUT_GAP 1.6 /* half pitches left out between them */

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
  const BwPath *path;
  const BwBailBase *base; /* NULL: no bail stands yet */
  const BwVisit *visit;
  guint n;
  BwVisit from; /* the bead the thread comes out of, where it does */
  BwStepBegin begin;
  const BwStepState *state;
  int band_rows, bail_rows; /* woven when the step is done */
  gboolean closed, over;    /* zipped; the bail is seen from above, on the band */
  gboolean both;            /* from one foot of it to the other */
  int reference, rows;      /* rows of the whole band */
  int low, high;            /* band rows shown, from the reference; low > high: no band */
  int low_column, high_column;
  int bail_low, bail_high; /* rows; low > high: no bail */
  int gap_low, gap_high;   /* rows of the bail that are left out; low > high: none */
  double tall, apart;      /* a column; what is put in between the feet of a strip */
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

static int
row_of (const View *view, int far)
{
  int row = view->reference + far;
  if (view->closed)
    row = bw_lattice_wrap (row, view->rows);
  return row >= 1 && row <= view->band_rows ? row : 0;
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

static gboolean
shows_bail (const View *view)
{
  return view->bail_low <= view->bail_high;
}

static gboolean
shows_band (const View *view)
{
  return view->low <= view->high;
}

/* The bail lies beside the columns it grows from, a loop over the tip beside the upper edge. */
static double
bail_shift (const View *view)
{
  int beyond = view->design->band.columns - view->design->bail.columns;
  return view->design->bail.style == BW_BAIL_OVER ? beyond : beyond / 2.0;
}

/* The band row under the middle of a strip, from the reference. */
static double
middle_of_strip (const View *view)
{
  double middle = (view->base->first_row + view->base->last_row) / 2 - view->reference;
  return middle - view->rows * round (middle / view->rows);
}

/* The band under a strip and a little more, from foot to foot as far as the strip has come. */
static void
widen_under_strip (View *view)
{
  if (!view->both)
    view->bail_high = MAX (view->bail_high, MIN (view->bail_rows, END_ROWS));
  view->bail_low = 1;
  double half = view->design->bail.columns * view->tall / 2, middle = middle_of_strip (view);
  view->low = MIN (view->low, (int)floor (middle - half) - AROUND);
  view->high = MAX (view->high, (int)ceil (middle + half) + AROUND);
  view->low_column = MIN (view->low_column, view->base->column[0]);
  view->high_column = MAX (view->high_column, view->base->column[view->both ? 1 : 0]);
}

/* The middle of a long strip is left out, if the needle does not come there now. */
static void
leave_out_middle (View *view)
{
  view->gap_low = END_ROWS + 1;
  view->gap_high = view->design->bail.rows - END_ROWS;
  for (guint i = 0; i < view->n; i++)
    if (view->visit[i].in_bail && view->visit[i].row >= view->gap_low
        && view->visit[i].row <= view->gap_high)
      view->gap_high = view->gap_low - 1;
}

/* A strip that is shown from end to end is too long to lie between its feet, for it arches. They
 * are drawn apart. */
static void
spread_feet (View *view)
{
  if (!view->both)
    return;
  leave_out_middle (view);
  int left_out = MAX (0, view->gap_high - view->gap_low + 1);
  double between = (view->base->column[1] - view->base->column[0] - 1) * view->tall;
  double wanted = view->design->bail.rows - left_out + 1 + (left_out > 0 ? 1 + CUT_GAP : 0);
  view->apart = MAX (0, wanted - between);
}

/* A short ring is seen once: what lies around a step at one side may lie around it at the other. */
static void
go_round_once (View *view)
{
  while (view->low < 0 && from_reference (view, row_of (view, view->low)) != view->low)
    view->low++;
  while (view->high > 0 && from_reference (view, row_of (view, view->high)) != view->high)
    view->high--;
}

/* On a band all of whose columns can be shown they are; beside a bail those near it do. */
static void
widen (View *view)
{
  int columns = view->design->band.columns, shift = (int)bail_shift (view);
  gboolean all = columns <= ALL_COLUMNS && !shows_bail (view);
  if (view->over) {
    widen_under_strip (view);
    spread_feet (view);
  } else if (shows_bail (view)) {
    view->low_column = MIN (view->low_column, shift + 1);
    view->high_column = MAX (view->high_column, shift + view->design->bail.columns);
  }
  view->bail_low = MAX (1, view->bail_low - 1);
  if (!shows_band (view))
    return;
  view->low_column = all ? 1 : MAX (1, view->low_column - BESIDE);
  view->high_column = all ? columns : MIN (columns, view->high_column + BESIDE);
  if (!view->over) {
    view->low -= AROUND;
    view->high += AROUND;
  }
  if (view->closed) {
    go_round_once (view);
    return;
  }
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
take_visits (View *view)
{
  view->low = view->bail_low = view->low_column = G_MAXINT;
  view->high = view->bail_high = view->high_column = G_MININT;
  view->reference = view->begin == BW_BEGIN_BEAD && !view->from.in_bail ? view->from.row : 0;
  for (guint i = 0; i < view->n && view->reference == 0; i++)
    view->reference = view->visit[i].in_bail ? 0 : view->visit[i].row;
  view->reference = MAX (1, view->reference);
  if (view->begin == BW_BEGIN_BEAD)
    take_visit (view, &view->from);
  for (guint i = 0; i < view->n; i++)
    take_visit (view, &view->visit[i]);
}

static void
view_init (View *view, BwProject *project, const BwStep *step, const BwStepState *state)
{
  const BwPath *path = bw_project_path (project);
  const BwDesign *design = bw_project_get_design (project);
  *view = (View){ .design = design,
                  .path = path,
                  .n = step->n,
                  .state = state,
                  .visit = &g_array_index (path->visits, BwVisit, step->first),
                  .band_rows = state->band_rows,
                  .bail_rows = state->bail_rows,
                  .closed = state->closed || step->kind == BW_STEP_ZIP,
                  .rows = design->band.rows,
                  .gap_low = 1 };
  view->begin = bw_step_begin (path, step, &view->from);
  view->tall = 2 * CLAMP (design->gauge.column_mm / design->gauge.pitch_mm, 0.6, 1.4);
  if (path->part[BW_PART_BAIL].visits > 0)
    view->base = bw_project_bail_base (project);
  take_visits (view);
  view->over = shows_bail (view) && design->bail.style == BW_BAIL_UPRIGHT;
  view->both = view->over && view->bail_high == design->bail.rows;
  widen (view);
  cut (view);
}

/* The top left corner and the size of a bead of the band. */
static BwStepBead
band_bead (const View *view, int row, int column)
{
  gboolean beyond = view->both && 2 * column > view->base->column[0] + view->base->column[1];
  return (BwStepBead){ .row = row,
                       .column = column,
                       .x = from_reference (view, row) - view->low,
                       .y
                       = -(column - view->low_column + 1) * view->tall - (beyond ? view->apart : 0),
                       .width = 2,
                       .height = view->tall };
}

/* Beside the band, its columns in line with those it grows from. */
static BwStepBead
laid_bead (const View *view, int row, int column)
{
  double before = shows_band (view) ? view->high - view->low + 2 + BAIL_GAP : 0;
  double shift = shows_band (view) ? bail_shift (view) + 1 - view->low_column : 0;
  return (BwStepBead){ .in_bail = TRUE,
                       .row = row,
                       .column = column,
                       .x = before + row - view->bail_low,
                       .y = -(column + shift) * view->tall,
                       .width = 2,
                       .height = view->tall };
}

/* On the band, its holes lying round the stone: row after row from the foot it begins with, and
 * back from the other where that is shown. */
static BwStepBead
standing_bead (const View *view, int row, int column)
{
  const BwBail *bail = &view->design->bail;
  int rows = bail->rows;
  double aside = (column - (bail->columns + 1) / 2.0) * view->tall * view->base->sense[0];
  double x = middle_of_strip (view) - view->low + 1 + aside;
  BwStepBead feet[2]
      = { band_bead (view, 1, view->base->column[0]), band_bead (view, 1, view->base->column[1]) };
  gboolean from_above = view->both && 2 * row > rows + 1;
  double y = from_above ? feet[1].y + view->tall + (rows + 1 - row) : feet[0].y - row;
  return (BwStepBead){ .in_bail = TRUE,
                       .row = row,
                       .column = column,
                       .x = x - view->tall / 2,
                       .y = y - 1,
                       .width = view->tall,
                       .height = 2 };
}

static BwStepBead
bead_at (const View *view, gboolean in_bail, int row, int column)
{
  if (!in_bail)
    return band_bead (view, row, column);
  return view->over ? standing_bead (view, row, column) : laid_bead (view, row, column);
}

static gboolean
is_bead (const BwVisit *visit, const BwStepBead *bead)
{
  return !visit->in_bail == !bead->in_bail && visit->row == bead->row
         && visit->column == bead->column;
}

static BwStepRole
role_of (const View *view, const BwStepBead *bead)
{
  for (guint i = 0; i < view->n; i++)
    if (is_bead (&view->visit[i], bead))
      return view->visit[i].is_new ? BW_BEAD_NEW : BW_BEAD_PASSED;
  return view->begin == BW_BEGIN_BEAD && is_bead (&view->from, bead) ? BW_BEAD_LEFT : BW_BEAD_THERE;
}

static void
add_bead (BwStepLayout *layout, const View *view, gboolean in_bail, int row, int column)
{
  const guint16 *passes = in_bail ? view->state->bail : view->state->band;
  int columns = in_bail ? view->design->bail.columns : view->design->band.columns;
  int before = passes[(row - 1) * columns / 2 + bw_lattice_index (column)];
  BwStepBead bead = bead_at (view, in_bail, row, column);
  bead.role = role_of (view, &bead);
  bead.full = before > 0 && bw_path_is_full (view->design, before);
  if (before > 0 || bead.role > BW_BEAD_LEFT)
    g_array_append_val (layout->beads, bead);
}

static void
add_beads (BwStepLayout *layout, const View *view)
{
  for (int far = view->low; far <= view->high; far++)
    for (int column = view->low_column; column <= view->high_column; column++) {
      int row = row_of (view, far);
      if (row > 0 && bw_lattice_has (row, column))
        add_bead (layout, view, FALSE, row, column);
    }
  for (int row = view->bail_low; row <= view->bail_high; row++)
    for (int column = 1; column <= view->design->bail.columns; column++)
      if (bw_lattice_has (row, column) && (row < view->gap_low || row > view->gap_high))
        add_bead (layout, view, TRUE, row, column);
}

/* In at one end of the hole and out at the other. A bead passed more than once in a step has its
 * threads side by side. */
static BwStepPass
pass_through (const View *view, const BwVisit *visit, int earlier)
{
  BwStepBead bead = bead_at (view, visit->in_bail, visit->row, visit->column);
  double aside = 0.35 * earlier;
  BwVec2 low, high;
  if (view->over && visit->in_bail) {
    gboolean right = view->base->sense[0] > 0; /* lies its higher column */
    low = bw_vec2 (right ? bead.x : bead.x + bead.width, bead.y + 1 + aside);
    high = bw_vec2 (right ? bead.x + bead.width : bead.x, low.y);
  } else {
    low = bw_vec2 (bead.x + 1 + aside, bead.y + bead.height);
    high = bw_vec2 (low.x, bead.y);
  }
  return visit->direction ? (BwStepPass){ low, high, 0, earlier }
                          : (BwStepPass){ high, low, 0, earlier };
}

static int
count_earlier (const BwVisit *visits, guint i)
{
  int earlier = 0;
  for (guint k = 0; k < i; k++)
    earlier += visits[k].row == visits[i].row && visits[k].column == visits[i].column
               && visits[k].in_bail == visits[i].in_bail;
  return earlier;
}

static void
add_passes (BwStepLayout *layout, const View *view)
{
  BwStretch stretch = { view->visit, view->n };
  int link = bw_stretch_is_chain (stretch) ? 1 : 0;
  for (guint i = 0; i < view->n; i++) {
    BwStepPass pass = pass_through (view, &view->visit[i], count_earlier (view->visit, i));
    if (link > 0 && !view->visit[i].is_new)
      pass.link = link++;
    g_array_append_val (layout->passes, pass);
  }
}

/* The thread that holds the end of a strip that was sewn before. */
static void
add_sewn (BwStepLayout *layout, const View *view)
{
  if (!view->both)
    return;
  const GArray *visits = view->path->visits;
  BwStretch stretch;
  for (guint i = 0; &g_array_index (visits, BwVisit, i) < view->visit; i += stretch.n) {
    stretch = bw_stretch_at (visits, i);
    if (stretch.visit->part != BW_PART_ATTACHMENT)
      continue;
    GArray *line = g_array_new (FALSE, FALSE, sizeof (BwVec2));
    for (guint k = 0; k < stretch.n; k++) {
      BwStepPass pass = pass_through (view, &stretch.visit[k], 0);
      g_array_append_val (line, pass.in);
      g_array_append_val (line, pass.out);
    }
    g_array_append_val (layout->sewn, line);
  }
}

/* The box round the beads of the band or of the bail; FALSE when there are none. */
static gboolean
extent_of (const BwStepLayout *layout, gboolean in_bail, BwVec2 *least, BwVec2 *most)
{
  *least = bw_vec2 (INFINITY, INFINITY);
  *most = bw_vec2 (-INFINITY, -INFINITY);
  for (guint i = 0; i < layout->beads->len; i++) {
    const BwStepBead *bead = &g_array_index (layout->beads, BwStepBead, i);
    if (!bead->in_bail != !in_bail)
      continue;
    *least = bw_vec2 (MIN (least->x, bead->x), MIN (least->y, bead->y));
    *most = bw_vec2 (MAX (most->x, bead->x + bead->width), MAX (most->y, bead->y + bead->height));
  }
  return least->x < most->x;
}

/* From half pitches to points of the box. */
typedef struct {
  double unit;
  BwVec2 from, to; /* the top left corner of all beads, before and after */
} Scale;

static BwVec2
scaled (const Scale *scale, BwVec2 at)
{
  return bw_vec2_add (scale->to, bw_vec2_scale (bw_vec2_sub (at, scale->from), scale->unit));
}

static void
scale_points (const Scale *scale, GArray *points)
{
  for (guint i = 0; i < points->len; i++) {
    BwVec2 *at = &g_array_index (points, BwVec2, i);
    *at = scaled (scale, *at);
  }
}

static void
scale_all (BwStepLayout *layout, const Scale *scale)
{
  for (guint i = 0; i < layout->beads->len; i++) {
    BwStepBead *bead = &g_array_index (layout->beads, BwStepBead, i);
    BwVec2 corner = scaled (scale, bw_vec2 (bead->x, bead->y));
    bead->x = corner.x;
    bead->y = corner.y;
    bead->width *= scale->unit;
    bead->height *= scale->unit;
  }
  for (guint i = 0; i < layout->passes->len; i++) {
    BwStepPass *pass = &g_array_index (layout->passes, BwStepPass, i);
    pass->in = scaled (scale, pass->in);
    pass->out = scaled (scale, pass->out);
  }
  for (guint i = 0; i < layout->sewn->len; i++)
    scale_points (scale, g_array_index (layout->sewn, GArray *, i));
}

/* The largest scale at which everything has room. */
static Scale
fit (BwStepLayout *layout, const View *view, double width, double height)
{
  BwVec2 least[2], most[2];
  gboolean band = extent_of (layout, FALSE, &least[0], &most[0]);
  gboolean bail = extent_of (layout, TRUE, &least[1], &most[1]);
  if (!band || !bail)
    least[band ? 1 : 0] = least[band ? 0 : 1], most[band ? 1 : 0] = most[band ? 0 : 1];
  BwVec2 from = { MIN (least[0].x, least[1].x), MIN (least[0].y, least[1].y) };
  BwVec2 to = { MAX (most[0].x, most[1].x), MAX (most[0].y, most[1].y) };
  double right = bail ? LEFT + (view->over ? LEFT / 2 : 0) : 2;
  double above = STUB + 3 + (view->over ? LOWER / 2 : 0);
  double below = LOWER + (band && bail ? NAMES : 0);
  double unit = MIN (UNIT, MIN ((width - LEFT - right) / (to.x - from.x),
                                (height - above - below) / (to.y - from.y)));
  layout->unit = unit;
  layout->width = LEFT + (to.x - from.x) * unit + right;
  layout->height = above + (to.y - from.y) * unit + below;
  return (Scale){ unit, from, { LEFT, above } };
}

/* Beyond an end of a hole, out of it or into it. */
static BwVec2
beyond (BwVec2 end, BwVec2 other)
{
  BwVec2 way = bw_vec2_sub (end, other);
  return bw_vec2_add (end, bw_vec2_scale (way, STUB / bw_vec2_length (way)));
}

/* From the middle of the bead it comes out of, round into the first, and so on to the last. */
static void
lead_thread (BwStepLayout *layout, const View *view, const Scale *scale)
{
  const BwStepPass *pass = &g_array_index (layout->passes, BwStepPass, 0);
  guint n = layout->passes->len;
  if (view->begin == BW_BEGIN_BEAD) {
    BwStepPass from = pass_through (view, &view->from, 0);
    BwVec2 in = scaled (scale, from.in), out = scaled (scale, from.out);
    BwVec2 middle = bw_vec2_scale (bw_vec2_add (in, out), 0.5);
    g_array_append_val (layout->thread, middle);
    g_array_append_val (layout->thread, out);
  } else if (view->begin == BW_BEGIN_TAIL) {
    BwVec2 end = beyond (pass[0].in, pass[0].out);
    g_array_append_val (layout->thread, end);
  }
  for (guint i = 0; i < n; i++) {
    g_array_append_val (layout->thread, pass[i].in);
    g_array_append_val (layout->thread, pass[i].out);
  }
  BwVec2 end = beyond (pass[n - 1].out, pass[n - 1].in);
  g_array_append_val (layout->thread, end);
}

static void
add_label (BwStepLayout *layout, char *text, BwVec2 at, double align, double room, gboolean in_bail,
           gboolean is_row)
{
  BwStepLabel label = { text, at.x, at.y, align, room, in_bail, is_row };
  g_array_append_val (layout->labels, label);
}

/* What a row of the band is called: once it is closed by the letters of the words, "L−1". */
static char *
name_of_row (const View *view, const BwRowNames *names, int row)
{
  if (!view->closed)
    return g_strdup_printf ("%d", row);
  g_autofree char *name = bw_row_name (names, row);
  g_auto (GStrv) parts = g_strsplit (name, " ", -1);
  return g_strjoinv ("", parts);
}

/* Under the beads, every other one lower. */
static void
label_below (BwStepLayout *layout, char *text, double x, double bottom, int row, gboolean in_bail)
{
  BwVec2 at = bw_vec2 (x + layout->unit, bottom + 5.5 + (row % 2 ? 0 : 6.5));
  add_label (layout, text, at, 0.5, 2 * layout->unit - 1, in_bail, TRUE);
}

static void
label_band (BwStepLayout *layout, const View *view, const Scale *scale, const BwRowNames *names,
            double bottom)
{
  for (int column = view->low_column; column <= view->high_column; column++) {
    BwStepBead bead = band_bead (view, 1, column);
    BwVec2 at = scaled (scale, bw_vec2 (scale->from.x, bead.y + bead.height / 2));
    add_label (layout, g_strdup_printf ("%d", column), bw_vec2 (LEFT - 3, at.y), 1,
               view->tall * layout->unit, FALSE, FALSE);
  }
  for (int far = view->low; far <= view->high; far++) {
    int row = row_of (view, far);
    if (row == 0)
      continue;
    BwVec2 at = scaled (scale, bw_vec2 (far - view->low, 0));
    label_below (layout, name_of_row (view, names, row), at.x, bottom, row, FALSE);
  }
}

/* A bail counts its own columns and rows, at its own side. */
static void
label_laid_bail (BwStepLayout *layout, const View *view, const Scale *scale, double bottom)
{
  for (int column = 1; column <= view->design->bail.columns; column++) {
    BwStepBead bead = laid_bead (view, 1, column);
    BwVec2 at = scaled (scale, bw_vec2 (0, bead.y + bead.height / 2));
    add_label (layout, g_strdup_printf ("%d", column), bw_vec2 (layout->width - LEFT + 3, at.y), 0,
               view->tall * layout->unit, TRUE, FALSE);
  }
  for (int row = view->bail_low; row <= view->bail_high; row++) {
    BwVec2 at = scaled (scale, bw_vec2 (laid_bead (view, row, 1).x, 0));
    label_below (layout, g_strdup_printf ("%d", row), at.x, bottom, row, TRUE);
  }
}

static void
label_standing_bail (BwStepLayout *layout, const View *view, const Scale *scale)
{
  double right = layout->width - LEFT * 1.5;
  for (int column = 1; column <= view->design->bail.columns; column++) {
    BwStepBead bead = standing_bead (view, 1, column);
    BwVec2 at = scaled (scale, bw_vec2 (bead.x + bead.width / 2, 0));
    add_label (layout, g_strdup_printf ("%d", column), bw_vec2 (at.x, scale->to.y - 7), 0.5,
               view->tall * layout->unit, TRUE, FALSE);
  }
  for (int row = view->bail_low; row <= view->bail_high; row++) {
    BwVec2 at = scaled (scale, bw_vec2 (0, standing_bead (view, row, 1).y + 1));
    if (row < view->gap_low || row > view->gap_high)
      add_label (layout, g_strdup_printf ("%d", row),
                 bw_vec2 (right + 3 + (row % 2 ? 0 : LEFT * 0.7), at.y), 0, LEFT * 0.7, TRUE, TRUE);
  }
}

static void
label_all (BwStepLayout *layout, const View *view, const Scale *scale, const BwRowNames *names)
{
  gboolean band = shows_band (view), bail = shows_bail (view);
  double bottom = layout->height - LOWER - (band && bail ? NAMES : 0);
  if (band)
    label_band (layout, view, scale, names, bottom);
  if (bail && view->over)
    label_standing_bail (layout, view, scale);
  else if (bail)
    label_laid_bail (layout, view, scale, bottom);
}

/* Which part of the drawing is band and which is bail. */
static void
place_names (BwStepLayout *layout, const View *view)
{
  BwVec2 least[2], most[2];
  if (!shows_band (view) || !shows_bail (view))
    return;
  for (int part = 0; part < 2; part++)
    extent_of (layout, part, &least[part], &most[part]);
  double y = layout->height - NAMES - 3;
  layout->band_name = bw_vec2 ((least[0].x + most[0].x) / 2, y);
  layout->bail_name = view->over ? bw_vec2 ((least[1].x + most[1].x) / 2, 0)
                                 : bw_vec2 ((least[1].x + most[1].x) / 2, y);
}

static void
place_cut (BwStepLayout *layout, const View *view, const Scale *scale)
{
  if (!view->both || (view->apart <= 0 && view->gap_low > view->gap_high))
    return;
  BwStepBead low = band_bead (view, 1, view->base->column[0]);
  BwStepBead high = band_bead (view, 1, view->base->column[1]);
  double middle = (low.y + high.y + view->tall) / 2;
  layout->is_cut = TRUE;
  for (int side = 0; side < 2; side++)
    layout->cut_y[side] = scaled (scale, bw_vec2 (0, middle + (side - 0.5) * CUT_GAP / 2)).y;
}

static void
clear_label (gpointer label)
{
  g_free (((BwStepLabel *)label)->text);
}

static void
clear_line (gpointer line)
{
  g_array_unref (*(GArray **)line);
}

void
bw_step_layout_init (BwStepLayout *layout, BwProject *project, const BwStep *step,
                     const BwStepState *state, double width, double height)
{
  View view;
  BwRowNames names = bw_row_names (project);
  if (step->kind < BW_STEP_BAIL)
    names.foot = 0;
  view_init (&view, project, step, state);
  *layout = (BwStepLayout){ .beads = g_array_new (FALSE, FALSE, sizeof (BwStepBead)),
                            .thread = g_array_new (FALSE, FALSE, sizeof (BwVec2)),
                            .passes = g_array_new (FALSE, FALSE, sizeof (BwStepPass)),
                            .sewn = g_array_new (FALSE, FALSE, sizeof (GArray *)),
                            .labels = g_array_new (FALSE, FALSE, sizeof (BwStepLabel)),
                            .begin = view.begin,
                            .in_part = view.n < step->n };
  g_array_set_clear_func (layout->labels, clear_label);
  g_array_set_clear_func (layout->sewn, clear_line);
  add_beads (layout, &view);
  add_passes (layout, &view);
  add_sewn (layout, &view);
  Scale scale = fit (layout, &view, width, height);
  scale_all (layout, &scale);
  lead_thread (layout, &view, &scale);
  label_all (layout, &view, &scale, &names);
  place_names (layout, &view);
  place_cut (layout, &view, &scale);
}

void
bw_step_layout_clear (BwStepLayout *layout)
{
  g_array_unref (layout->beads);
  g_array_unref (layout->thread);
  g_array_unref (layout->passes);
  g_array_unref (layout->sewn);
  g_array_unref (layout->labels);
}
