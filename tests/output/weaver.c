/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weaver.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#define WOVEN_IN 16 /* beads an end is woven in through */

/* The work in hand. */
typedef struct {
  Weaver *weaver;
  char *band, *bail; /* a letter a place, 0 where no bead is */
  int band_rows, bail_rows;
  gboolean stopper, zipped, any;
  Pass at;          /* the bead left last */
  double cut, used; /* of the thread in the needle: as cut; on its way, ends apart */
  int foot;         /* the row F; 0 before it is told */
  int first_foot;   /* flap: the band row its first row is worked into */
  int last_foot;    /* flap: the band row it is sewn to; 0 before */
  double middle[2]; /* strip: the band rows under the middles of its feet; 0 before */
  GArray *strip;    /* of Pass: the beads a strip was strung with */
  GArray *hang;     /* of ToldBead: what the first row of the bail passes in turn */
  gboolean sewn;    /* the bail has been sewn at all */
  gboolean bail_begun, bail_done;
} Work;

static int
wrapped (int row, int rows)
{
  return ((row - 1) % rows + rows) % rows + 1;
}

gboolean
weaver_can_go (const Pass *from, const Pass *to, int period)
{
  int rows = to->row - from->row, along = to->column - from->column;
  if (period > 0 && rows > period / 2)
    rows -= period;
  if (period > 0 && rows < -period / 2)
    rows += period;
  if (from->up == to->up)
    return abs (rows) == 1 && along == (from->up ? 1 : -1);
  return abs (rows) == 2 && along == 0;
}

static int
columns_of (const Work *work, gboolean in_bail)
{
  const Sample *sample = work->weaver->sample;
  return in_bail ? sample->bail_columns : sample->columns;
}

static char *
place_of (Work *work, gboolean in_bail, int row, int column)
{
  int columns = columns_of (work, in_bail);
  int rows = in_bail ? work->weaver->sample->bail_rows : work->weaver->rows;
  assert_in_range (row, 1, rows);
  assert_in_range (column, 1, columns);
  assert_int_equal ((row + column) % 2, 1);
  return (in_bail ? work->bail : work->band) + (row - 1) * columns + column - 1;
}

static int
margin_of (const Work *work)
{
  return (work->weaver->sample->columns - work->weaver->sample->bail_columns) / 2;
}

static gboolean
is_over (const Work *work)
{
  return work->weaver->sample->bail == SAMPLE_OVER;
}

static gboolean
is_strip (const Work *work)
{
  return work->weaver->sample->bail == SAMPLE_UPRIGHT || is_over (work);
}

/* Beads a run of the sewing passes: over the tip each stitch takes two of the band. */
static int
run_beads (const Work *work)
{
  int columns = work->weaver->sample->bail_columns;
  return is_over (work) ? columns / 2 * 3 : columns;
}

/* With a bead of its first row a strip stands on its first foot, else on the other. */
static int
foot_of (const Pass *bead)
{
  return bead->row > 1;
}

/* Which way a strip's columns run along the band's rows: against them, but for the far foot of one
 * that goes over the tip. */
static int
sense_of (const Work *work, int foot)
{
  return is_over (work) && foot ? 1 : -1;
}

/* A bead of a flap as if the band's lattice went on into it, from its foot or, once it is being
 * sewn, back from its end. */
static Pass
on_band (const Work *work, Pass pass, gboolean from_end)
{
  if (!pass.in_bail)
    return pass;
  int rows = work->weaver->sample->bail_rows;
  pass.row = from_end ? work->last_foot - (rows + 1 - pass.row) : work->first_foot + pass.row;
  pass.column += margin_of (work);
  pass.in_bail = FALSE;
  return pass;
}

/* Rows of the band from the middle of a strip's foot to a place along its end. */
static double
aside_of (const Work *work, int foot, double column)
{
  const Hands *hands = &work->weaver->hands;
  double columns = column - (work->weaver->sample->bail_columns + 1) / 2.0;
  return sense_of (work, foot) * 2 * columns * hands->column / hands->pitch;
}

/* From a bead of the strip to one of the band beneath it: within two beads of one another. */
static gboolean
is_beneath (const Work *work, const Pass *strip, const Pass *band)
{
  int foot = foot_of (strip);
  if (work->middle[foot] <= 0)
    return TRUE;
  double row = remainder (band->row - work->middle[foot], work->weaver->rows);
  return fabs (row - aside_of (work, foot, strip->column)) <= 4;
}

static void
check_step (Work *work, const Pass *to)
{
  const Pass *from = &work->at;
  int period = work->zipped ? work->weaver->rows : 0;
  gboolean may;
  if (!work->any)
    may = TRUE;
  else if (from->in_bail == to->in_bail)
    may = weaver_can_go (from, to, to->in_bail ? 0 : period);
  else if (is_strip (work))
    may = from->in_bail ? is_beneath (work, from, to) : is_beneath (work, to, from);
  else {
    Pass a = on_band (work, *from, work->last_foot > 0),
         b = on_band (work, *to, work->last_foot > 0);
    may = weaver_can_go (&a, &b, period);
  }
  if (!may)
    fail_msg ("no thread goes from %s %d.%d %s to %s %d.%d %s", from->in_bail ? "bail" : "band",
              from->row, from->column, from->up ? "up" : "down", to->in_bail ? "bail" : "band",
              to->row, to->column, to->up ? "up" : "down");
}

static void
go_to (Work *work, Pass to)
{
  check_step (work, &to);
  work->at = to;
  work->any = TRUE;
  g_array_append_val (work->weaver->passes, to);
}

static void
pick_up (Work *work, Pass to, char letter)
{
  char *place = place_of (work, to.in_bail, to.row, to.column);
  assert_int_equal (*place, 0);
  go_to (work, to);
  *place = letter;
}

static void
pass (Work *work, Pass to)
{
  assert_true (*place_of (work, to.in_bail, to.row, to.column) != 0);
  go_to (work, to);
}

static double
pass_mm (const Hands *hands, int beads)
{
  return beads * hypot (hands->column, hands->jog) + hands->pitch;
}

static double
ends_mm (const Hands *hands)
{
  return hands->tail + pass_mm (hands, WOVEN_IN);
}

/* No thread is longer than it was cut. */
static void
use (Work *work, double mm)
{
  work->used += mm;
  double left = work->cut - 2 * ends_mm (&work->weaver->hands) - work->used;
  if (left < -0.01)
    fail_msg ("the thread is %.1f mm too short", -left);
}

static void
take_thread (Work *work, double cut)
{
  work->cut = cut;
  work->used = 0;
  work->weaver->threads++;
}

/* Which bead is meant, by the count that came out. */
static Pass
meant (const Work *work, const ToldBead *bead)
{
  int rows = work->weaver->rows;
  Pass pass = { bead->from == 'B', bead->row, bead->column, FALSE };
  if (bead->from == 'L')
    pass.row = rows + bead->row;
  if (bead->from == 'F') {
    assert_true (work->foot > 0);
    pass.row = wrapped (work->foot + bead->row, rows);
  }
  return pass;
}

/* Which way a bead is passed is seen from the one before: on, or back where both are in the same
 * column. A strip is passed the way that is told, the band beneath it upward; at the edge first
 * down and then up. */
static void
find_way (const Work *work, const Told *told, Pass *to)
{
  if (is_strip (work) && told->kind == TOLD_SEW) {
    to->up = to->in_bail ? told->up : !is_over (work) || !work->at.in_bail;
    return;
  }
  Pass from = on_band (work, work->at, work->last_foot > 0);
  Pass there = on_band (work, *to, work->last_foot > 0);
  to->up = there.column == from.column ? !from.up : there.column > from.column;
  if (told->kind == TOLD_SEW && to->in_bail)
    assert_int_equal (to->up, told->up);
}

static void
string_up (Work *work, const Told *told)
{
  int columns = columns_of (work, told->in_bail), used = 0;
  use (work, pass_mm (&work->weaver->hands, told->row == 2 ? columns : columns / 2));
  for (int column = 1; column <= columns; column++) {
    int row = column % 2 ? 2 : 1;
    if (row > told->row)
      continue;
    pick_up (work, (Pass){ told->in_bail, row, column, TRUE }, told->letters[used++]);
  }
  assert_int_equal (strlen (told->letters), used);
  *(told->in_bail ? &work->bail_rows : &work->band_rows) = told->row;
}

/* A bead of the row before, or of the band where the bail has none. */
static Pass
raised (Work *work, const Told *told, int column, guint *hung)
{
  if (told->row > 1 || !told->in_bail)
    return (Pass){ told->in_bail, told->row - 1, column, told->up };
  assert_true (work->hang && *hung < work->hang->len);
  Pass bead = meant (work, &g_array_index (work->hang, ToldBead, (*hung)++));
  bead.up = told->up;
  return bead;
}

static void
weave_row (Work *work, const Told *told)
{
  int columns = columns_of (work, told->in_bail), used = 0;
  guint hung = 0;
  use (work, pass_mm (&work->weaver->hands, columns));
  assert_int_equal (told->row, *(told->in_bail ? &work->bail_rows : &work->band_rows) + 1);
  if (told->in_bail && told->row == 1)
    work->first_foot = meant (work, &g_array_index (work->hang, ToldBead, 0)).row;
  for (int i = 1; i <= columns; i++) {
    int column = told->up ? i : columns + 1 - i;
    if ((told->row + column) % 2)
      pick_up (work, (Pass){ told->in_bail, told->row, column, told->up }, told->letters[used++]);
    else
      pass (work, raised (work, told, column, &hung));
  }
  assert_int_equal (strlen (told->letters), used);
  ++*(told->in_bail ? &work->bail_rows : &work->band_rows);
}

static void
pass_beads (Work *work, const Told *told)
{
  int turns = 0;
  gboolean up = work->at.up;
  for (guint i = 0; i < told->beads->len; i++) {
    Pass to = meant (work, &g_array_index (told->beads, ToldBead, i));
    find_way (work, told, &to);
    pass (work, to);
    turns += to.up != up;
    up = to.up;
  }
  const Hands *hands = &work->weaver->hands;
  switch (told->kind) {
  case TOLD_ANCHOR:
    use (work, pass_mm (hands, (int)told->beads->len) + hands->pitch);
    break;
  case TOLD_WALK:
    use (work, pass_mm (hands, (int)told->beads->len) + (turns - 1) * hands->pitch);
    break;
  default:
    use (work, pass_mm (hands,
                        told->kind == TOLD_SEW ? run_beads (work) : work->weaver->sample->columns));
  }
}

/* The raised beads of both ends, from one edge to the other, and the ring is one. */
static void
zip (Work *work, const Told *told)
{
  int columns = work->weaver->sample->columns;
  assert_false (work->stopper);
  assert_int_equal (told->beads->len, columns);
  for (int i = 0; i < columns; i++) {
    Pass to = meant (work, &g_array_index (told->beads, ToldBead, (guint)i));
    assert_int_equal (to.column, columns - i);
    assert_int_equal (to.row, to.column % 2 ? work->weaver->rows : 1);
  }
  work->zipped = TRUE;
  pass_beads (work, told);
  assert_false (told->up);
}

/* Before each bead of the strip the needle dips into the band a column behind it, or, at the edge,
 * into two neighbours about the middle between two columns. */
static double
middle_of_foot (const Work *work, const Told *told, int foot)
{
  guint stitch = is_over (work) ? 3 : 2, n = told->beads->len / stitch;
  double behind = (told->up ? -1 : 1) * (is_over (work) ? 0.5 : 1), sum = 0;
  double first = meant (work, &g_array_index (told->beads, ToldBead, 0)).row, row = first;
  for (guint i = 0; i < n * stitch; i += stitch) {
    Pass a = meant (work, &g_array_index (told->beads, ToldBead, i));
    Pass b = meant (work, &g_array_index (told->beads, ToldBead, i + stitch - 2));
    Pass strip = meant (work, &g_array_index (told->beads, ToldBead, i + stitch - 1));
    /* On from stitch to stitch, for a wide strip reaches farther than half round. */
    row += remainder (a.row - row, work->weaver->rows);
    double between = remainder (b.row - row, work->weaver->rows) / 2;
    sum += row + between - first - aside_of (work, foot, strip.column + behind);
  }
  return wrapped ((int)lround (first + sum / n), work->weaver->rows);
}

/* The first sewing of a flap tells where its last row comes to lie; that of a strip, where it
 * stands. */
static void
sew (Work *work, const Told *told)
{
  Pass first = meant (work, &g_array_index (told->beads, ToldBead, 0));
  if (!is_strip (work) && work->last_foot == 0)
    work->last_foot = first.row;
  if (is_strip (work)) {
    int foot = work->bail_rows > 2;
    if (work->middle[foot] <= 0)
      work->middle[foot] = middle_of_foot (work, told, foot);
  }
  pass_beads (work, told);
  work->sewn = TRUE;
}

static void
come_out (Work *work, const Told *told)
{
  work->at = meant (work, &g_array_index (told->beads, ToldBead, 0));
  work->at.up = told->up;
  assert_true (*place_of (work, work->at.in_bail, work->at.row, work->at.column) != 0);
}

/* As planned the way is told; else it is walked to where the thread should come out, in as many
 * beads as it takes. */
static void
walk (Work *work, const Told *told)
{
  gboolean planned = work->foot == 0 || work->weaver->rows == work->weaver->sample->rows;
  if (planned == (told->kind == TOLD_ELSE_WALK))
    return;
  if (planned) {
    pass_beads (work, told);
    return;
  }
  if (told->kind == TOLD_ELSE_WALK)
    come_out (work, told);
}

static void
change_thread (Work *work, const Told *told)
{
  take_thread (work, told->cut_mm);
  if (told->elsewhere)
    come_out (work, told);
}

/* A row beyond those that are woven, and what belongs to it, is left out. */
static gboolean
is_left_out (const Work *work, const GArray *told, guint i)
{
  while (i < told->len && g_array_index (told, Told, i).kind == TOLD_CHANGE)
    i++;
  const Told *next = i < told->len ? &g_array_index (told, Told, i) : NULL;
  return next && next->kind == TOLD_ROW && !next->in_bail && next->row > work->weaver->rows;
}

static void
look_for_thread (Work *work, const Told *told)
{
  double left = work->cut - ends_mm (&work->weaver->hands) - work->used;
  if (work->weaver->rows > work->weaver->sample->rows && left < told->mm)
    take_thread (work, told->cut_mm);
}

static void
check_bail_thread (Work *work, const Told *told)
{
  const Sample *sample = work->weaver->sample;
  const Hands *hands = &work->weaver->hands;
  int rows = is_strip (work) ? MAX (sample->bail_rows - 1, 1) : sample->bail_rows;
  double whole = rows * pass_mm (hands, sample->bail_columns)
                 + (is_strip (work) ? 4 : 2) * pass_mm (hands, run_beads (work));
  gboolean begun = work->bail_begun && work->sewn + work->bail_rows > 0;
  if (begun && whole <= hands->working - 2 * ends_mm (hands))
    fail_msg ("the thread is changed within the bail: cut %.0f mm", told->cut_mm);
}

static void
do_one (Work *work, const GArray *all, guint i)
{
  const Told *told = &g_array_index (all, Told, i);
  int rows = work->weaver->rows;
  if (is_left_out (work, all, i))
    return;
  work->bail_begun |= told->in_bail;
  switch (told->kind) {
  case TOLD_CUT:
    take_thread (work, told->cut_mm);
    work->stopper = TRUE;
    break;
  case TOLD_STRING:
    string_up (work, told);
    break;
  case TOLD_ROW:
    weave_row (work, told);
    break;
  case TOLD_CHANGE:
    check_bail_thread (work, told);
    change_thread (work, told);
    break;
  case TOLD_FURTHER:
    look_for_thread (work, told);
    break;
  case TOLD_MISSED:
    if (rows < told->row)
      take_thread (work, told->cut_mm);
    break;
  case TOLD_STOPPER:
    work->stopper = FALSE;
    break;
  case TOLD_ZIP:
    zip (work, told);
    break;
  case TOLD_FOOT:
    work->foot = GPOINTER_TO_INT (g_hash_table_lookup (told->foot, GINT_TO_POINTER (rows)));
    assert_in_range (work->foot, 1, rows);
    break;
  case TOLD_WALK:
  case TOLD_ELSE_WALK:
    walk (work, told);
    break;
  case TOLD_HANG:
    work->hang = told->beads;
    break;
  case TOLD_SEW:
    sew (work, told);
    break;
  case TOLD_RETURN:
  case TOLD_ANCHOR:
    pass_beads (work, told);
    if (told->kind == TOLD_RETURN)
      assert_true (told->up && work->at.up);
    break;
  case TOLD_END:
  case TOLD_TAIL:
    work->weaver->ends[told->kind == TOLD_END ? 0 : 2] = told->count;
    work->weaver->ends[told->kind == TOLD_END ? 1 : 3] = told->turns;
    break;
  }
}

static void
check_beads (const char *work, GPtrArray *cells, int columns)
{
  for (guint row = 1; row <= cells->len; row++)
    for (int column = 1; column <= columns; column++) {
      char bead = work[((int)row - 1) * columns + column - 1];
      char wanted = (row + (guint)column) % 2 ? sample_bead (cells, (int)row, column) : 0;
      if (bead != wanted)
        fail_msg ("row %u, column %d is %c and should be %c", row, column, bead ? bead : '-',
                  wanted ? wanted : '-');
    }
}

void
weaver_follow (Weaver *weaver, const GArray *told)
{
  const Sample *sample = weaver->sample;
  g_autofree char *band = g_malloc0 ((gsize)weaver->rows * (gsize)sample->columns);
  g_autofree char *bail = g_malloc0 ((gsize)sample->bail_rows * (gsize)sample->bail_columns + 1);
  Work work = { .weaver = weaver, .band = band, .bail = bail };
  weaver->passes = g_array_new (FALSE, FALSE, sizeof (Pass));
  weaver->threads = 0;
  for (guint i = 0; i < told->len; i++)
    do_one (&work, told, i);
  weaver->closed = work.zipped && !work.stopper;
  assert_int_equal (weaver->cells->len, weaver->rows);
  check_beads (band, weaver->cells, sample->columns);
  if (work.zipped)
    check_beads (bail, sample->bail_cells, sample->bail_columns);
}

void
weaver_clear (Weaver *weaver)
{
  g_clear_pointer (&weaver->passes, g_array_unref);
}
