/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thread's path, replayed bead by bead on a lattice of its own: a needle that does what the
 * path says must be able to, and must leave a closed band behind. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <string.h>
#include "samples.h"

/* A regular hexagon, so that sixths of the ring are sixths of a turn. */
static BwDesign
a_design (int columns, int rows)
{
  BwDesign d = { 0 };
  d.stone = (BwStoneMeasures){ .faces = 6,
                               .measured = BW_MEASURED_GIRTH,
                               .values_mm = { 80 },
                               .at_mm = 150,
                               .length_mm = 400,
                               .has_shoulder = TRUE,
                               .shoulder_mm = 380,
                               .girth_sd_mm = 0.4,
                               .density_g_cm3 = 2.65 };
  d.bead = (BwBead){ "", 1.6, 1.3, 0.8, 2.5 };
  d.gauge = (BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 };
  d.pitch = (BwPitch){ 1.6, 0.03 };
  d.bed = (BwBed){
    .cord_thickness_mm = 0.35, .cord_width_mm = 1, .layers = 1, .squeeze = 0.15, .overhang_mm = 1
  };
  d.band = (BwBand){ columns, rows, 20, 180 };
  d.bail = (BwBail){ BW_BAIL_NONE, 2, 23, 3, 180, 3, 2 };
  d.thread = (BwThread){ 0.15, 0.36, 2000, 90, 0.01 };
  d.limits = (BwFitLimits){ 0.8, 0.2 };
  return d;
}

static BwDesign
with_bail (BwDesign d, BwBailStyle style, int columns, int rows, double base)
{
  d.bail.style = style;
  d.bail.columns = columns;
  d.bail.rows = rows;
  d.bail.base_beads = base;
  return d;
}

/* A random design that can be woven; about half of them have a bail somewhere round the ring. */
static BwDesign
a_random_design (GRand *dice)
{
  int columns = 2 * g_rand_int_range (dice, 1, 16), rows = g_rand_int_range (dice, 1, 90);
  BwDesign d = a_design (columns, rows);
  d.gauge.column_mm = g_rand_double_range (dice, 0.9, 2.5);
  d.gauge.pitch_mm = g_rand_double_range (dice, 1.2, 3);
  d.thread.working_mm = g_rand_double_range (dice, 300, 3000);
  if (columns >= 4 && g_rand_boolean (dice)) {
    int m = 2 * g_rand_int_range (dice, 1, columns / 2), q = g_rand_int_range (dice, 1, 40);
    d = with_bail (d, (BwBailStyle)g_rand_int_range (dice, BW_BAIL_FLAP, BW_BAIL_OVER + 1), m, q,
                   0.5 * g_rand_int_range (dice, 1, MIN (q + 1, 13)));
    d.bail.at_deg = 60 * g_rand_int_range (dice, 0, 6);
  }
  return d;
}

static gboolean
is_closed (const BwDesign *d)
{
  return d->band.rows % 2 == 0 && d->band.rows >= 4;
}

static gboolean
has_bail (const BwDesign *d)
{
  return is_closed (d) && d->bail.style != BW_BAIL_NONE;
}

static gboolean
is_flap (const BwDesign *d)
{
  return d->bail.style == BW_BAIL_FLAP || d->bail.style == BW_BAIL_RING;
}

/* The replay. */

typedef struct {
  const BwDesign *d;
  const BwPath *path;
  int *band, *bail; /* passes of each bead, rows × columns + 1, 0 = not there */
  gboolean zipped;
  gboolean has_near, has_far;
  int near, far; /* band rows at the flap's foot and at its far end, as they turn out */
} Replay;

static int *
cell (Replay *r, const BwVisit *v)
{
  int columns = v->in_bail ? r->d->bail.columns : r->d->band.columns;
  int rows = v->in_bail ? r->d->bail.rows : r->d->band.rows;
  assert_in_range (v->row, 1, rows);
  assert_in_range (v->column, 1, columns);
  assert_true ((v->row + v->column) % 2 == 1);
  return (v->in_bail ? r->bail : r->band) + v->row * (columns + 1) + v->column;
}

static int
way (const BwVisit *v)
{
  return v->direction ? 1 : -1;
}

/* The thread leaves an end of a bead: it goes on into one of the two beads that face this end, or
 * turns round into one of the two that lie beside the bead. */
static gboolean
shares_an_end (int row_a, int column_a, int way_a, int row_b, int column_b, int way_b)
{
  if (way_a == way_b)
    return column_b == column_a + way_a && ABS (row_a - row_b) == 1;
  return column_a == column_b && ABS (row_a - row_b) == 2;
}

/* b's row as near to a's as whole turns of the ring bring it: beads of a tiny ring may be near both
 * ways. */
static gboolean
near_on_band (const Replay *r, const BwVisit *a, int row_a, const BwVisit *b, int row_b, int shift)
{
  for (int turn = -2; turn <= 2; turn++)
    if ((turn == 0 || r->zipped)
        && shares_an_end (row_a, a->column + (a->in_bail ? shift : 0), way (a),
                          row_b + turn * r->d->band.rows, b->column + (b->in_bail ? shift : 0),
                          way (b)))
      return TRUE;
  return FALSE;
}

/* The flap's row 0 lies on the band's near row, its row q + 1 on the far row. */
static gboolean
near_on_flap (const Replay *r, const BwVisit *a, const BwVisit *b)
{
  int shift = (r->d->band.columns - r->d->bail.columns) / 2;
  int near_a = a->in_bail ? r->near + a->row : a->row;
  int near_b = b->in_bail ? r->near + b->row : b->row;
  int far_a = a->in_bail ? r->far + a->row - r->d->bail.rows - 1 : a->row;
  int far_b = b->in_bail ? r->far + b->row - r->d->bail.rows - 1 : b->row;
  return (r->has_near && near_on_band (r, a, near_a, b, near_b, shift))
         || (r->has_far && near_on_band (r, a, far_a, b, far_b, shift));
}

/* Sewing an upright strip: from the end of a bead of an end row to a band bead under that end, in
 * the column of the foot; within reach of one bead. */
static gboolean
near_under_strip (const Replay *r, const BwVisit *strip, const BwVisit *band, int end)
{
  const BwDesign *d = r->d;
  double half = d->bail.base_beads / 2, middle = (d->band.columns + 1) / 2.0;
  gboolean lower = fabs (band->column - (middle - half)) <= 0.5 + 1e-9 || band->column == 1;
  gboolean upper
      = fabs (band->column - (middle + half)) <= 0.5 + 1e-9 || band->column == d->band.columns;
  double turn = d->band.rows * d->gauge.pitch_mm / 2;
  double along = (strip->column + end * 0.5 - (d->bail.columns + 1) / 2.0) * d->gauge.column_mm;
  double centre = (d->bail.at_deg - d->band.seam_deg) / 360 * turn;
  double off = remainder ((band->row - 1) * d->gauge.pitch_mm / 2 - centre + along, turn);
  gboolean end_row = (strip->row <= 2 && lower) || (strip->row >= d->bail.rows - 1 && upper);
  return end_row && fabs (off) <= d->gauge.pitch_mm / 2 + d->gauge.column_mm / 2 + 1e-6;
}

/* Sewing a loop over the tip: between the end of a bead of an end row and the open upper end of an
 * edge bead about it. At its first foot its columns run against the band's rows. */
static gboolean
near_at_edge (const Replay *r, const BwVisit *strip, const BwVisit *band, int end, int band_way)
{
  const BwDesign *d = r->d;
  double turn = d->band.rows * d->gauge.pitch_mm / 2;
  double half = fmin (d->bail.base_beads, d->band.rows / 4.0) * d->gauge.pitch_mm / 2;
  double along = (strip->column + end * 0.5 - (d->bail.columns + 1) / 2.0) * d->gauge.column_mm;
  double centre = (d->bail.at_deg - d->band.seam_deg) / 360 * turn;
  double at = (band->row - 1) * d->gauge.pitch_mm / 2 - centre;
  double reach = d->gauge.pitch_mm + d->gauge.column_mm / 2 + 1e-6;
  gboolean first = strip->row <= 2 && fabs (remainder (at + half + along, turn)) <= reach;
  gboolean second
      = strip->row >= d->bail.rows - 1 && fabs (remainder (at - half - along, turn)) <= reach;
  return (first || second) && band->column == d->band.columns && band_way > 0;
}

/* Where no bead lies beside it yet, the thread goes round the edge and back through a bead of the
 * neighbouring column, or the same way in. Only an end that is woven in does so. */
static gboolean
goes_round_the_edge (const Replay *r, const BwVisit *a, const BwVisit *b)
{
  int columns = a->in_bail ? r->d->bail.columns : r->d->band.columns;
  int edge = way (a) > 0 ? columns : 1;
  return b->part == BW_PART_WEAVING_IN && a->in_bail == b->in_bail && way (a) == -way (b)
         && (a->column == edge || b->column == edge) && ABS (a->column - b->column) == 1
         && ABS (a->row - b->row) == 1;
}

static gboolean
can_follow (const Replay *r, const BwVisit *a, const BwVisit *b)
{
  if (!a->in_bail && !b->in_bail)
    return near_on_band (r, a, a->row, b, b->row, 0);
  if (a->in_bail && b->in_bail)
    return shares_an_end (a->row, a->column, way (a), b->row, b->column, way (b))
           || (!is_flap (r->d) && r->d->bail.rows == 1 && b->column == a->column + 2);
  if (is_flap (r->d))
    return near_on_flap (r, a, b);
  /* Out of the strip it goes down, and comes up to enter it. */
  if (r->d->bail.style == BW_BAIL_OVER)
    return a->in_bail ? near_at_edge (r, a, b, way (a), -way (b))
                      : near_at_edge (r, b, a, -way (b), way (a));
  return a->in_bail ? near_under_strip (r, a, b, way (a)) : near_under_strip (r, b, a, -way (b));
}

static gboolean
same_bead (const BwVisit *a, const BwVisit *b)
{
  return a->in_bail == b->in_bail && a->row == b->row && a->column == b->column;
}

static const BwVisit *
visit_at (const BwPath *path, guint i)
{
  return &g_array_index (path->visits, BwVisit, i);
}

/* Where the flap meets the band shows in the first rows that use both. */
static void
learn_feet (Replay *r)
{
  gboolean in_flap = FALSE;
  for (guint i = 0; is_flap (r->d) && i < r->path->visits->len; i++) {
    const BwVisit *v = visit_at (r->path, i);
    in_flap = in_flap || v->in_bail;
    if (v->in_bail || !in_flap)
      continue;
    if (v->part == BW_PART_BAIL && !r->has_near) {
      r->near = v->row;
      r->has_near = TRUE;
    } else if (v->part == BW_PART_ATTACHMENT && !r->has_far) {
      r->far = v->row;
      r->has_far = TRUE;
    }
  }
}

static void
check_step (Replay *r, const BwVisit *a, const BwVisit *b, guint i)
{
  gboolean strung = b->is_new && r->d->band.rows == 1 && b->column == a->column + 2;
  if (same_bead (a, b))
    fail_msg ("visit %u goes straight back through row %d column %d", i, b->row, b->column);
  if (!strung && !can_follow (r, a, b) && !goes_round_the_edge (r, a, b))
    fail_msg ("visit %u (%s): from %s row %d column %d way %d to %s row %d column %d way %d", i,
              bw_part_word (b->part), a->in_bail ? "bail" : "band", a->row, a->column, way (a),
              b->in_bail ? "bail" : "band", b->row, b->column, way (b));
}

static void
check_bead (Replay *r, const BwVisit *v)
{
  int *passes = cell (r, v);
  if (v->is_new)
    assert_int_equal (*passes, 0);
  else
    assert_true (*passes > 0);
  ++*passes;
}

/* A bead picked up in a row is held at once: the next bead the needle enters was there before. */
static void
check_held (const Replay *r, guint i)
{
  const BwVisit *v = visit_at (r->path, i);
  gboolean strung = v->part == BW_PART_PICK_UP || (v->in_bail && v->row <= 2 && !is_flap (r->d));
  if (!v->is_new || strung)
    return;
  assert_true (i + 1 < r->path->visits->len);
  assert_false (visit_at (r->path, i + 1)->is_new);
}

/* The bead before visit i in the same thread; for the tail of the beginning, woven in last, the
 * first bead seen from its other end. */
static gboolean
before (const BwPath *path, guint i, BwVisit *a)
{
  const BwVisit *v = visit_at (path, i);
  if (i == 0)
    return FALSE;
  *a = *visit_at (path, i - 1);
  gboolean tail = v->length == 0 && v->part == BW_PART_WEAVING_IN && v->pass != a->pass
                  && v->pass == visit_at (path, path->visits->len - 1)->pass;
  if (tail) {
    *a = *visit_at (path, 0);
    a->direction = !a->direction;
    return TRUE;
  }
  return v->length == a->length;
}

static void
replay_visit (Replay *r, guint i)
{
  const BwVisit *v = visit_at (r->path, i);
  BwVisit a;
  r->zipped = r->zipped || v->part == BW_PART_ZIP;
  if (before (r->path, i, &a))
    check_step (r, &a, v, i);
  check_bead (r, v);
  check_held (r, i);
}

/* A fresh thread takes over in the very bead, and the same way, where the last one left the work;
 * only the bail may be begun elsewhere with a thread of its own. */
static void
check_takes_over (const BwPath *path)
{
  const BwVisit *left = NULL;
  for (guint i = 0; i < path->visits->len; i++) {
    const BwVisit *v = visit_at (path, i);
    if (v->part == BW_PART_WEAVING_IN)
      continue;
    if (left && left->length != v->length && !(v->part == BW_PART_BAIL && !left->in_bail)) {
      const BwVisit *out = visit_at (path, i - 1);
      assert_int_equal (out->part, BW_PART_WEAVING_IN);
      assert_true (same_bead (out, left));
      assert_int_equal (out->direction, left->direction);
    }
    left = v;
  }
}

static void
check_passes (Replay *r, gboolean in_bail, const guint16 *passes)
{
  int columns = in_bail ? r->d->bail.columns : r->d->band.columns;
  int rows = in_bail ? r->d->bail.rows : r->d->band.rows;
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < columns / 2; j++) {
      BwVisit v = { .in_bail = in_bail != 0,
                    .row = (guint)row & 0x7fff,
                    .column = (guint)(2 * j + (row % 2 ? 2 : 1)) & 0xff };
      assert_int_equal (*cell (r, &v), passes[(row - 1) * columns / 2 + j]);
      assert_true (passes[(row - 1) * columns / 2 + j] <= r->path->passes_max);
      assert_true (*cell (r, &v) > 0);
    }
}

static void
check_feet (const Replay *r)
{
  const BwDesign *d = r->d;
  int base = (int)lround (2 * d->bail.base_beads), rows = d->band.rows;
  double centre = 1 + (d->bail.at_deg - d->band.seam_deg) / 360 * rows;
  int between = r->far - r->near - base;
  gboolean parity = (base + d->bail.rows + 1) % 2 != 0;
  assert_true (r->has_near && r->has_far);
  assert_true (fabs (remainder (r->near - (centre - base / 2.0), rows)) <= 1 + 1e-6);
  assert_int_equal (((between % rows) + rows) % rows, parity);
}

static void
replay (const BwDesign *d, const BwPath *path)
{
  g_autofree int *band = g_new0 (int, (d->band.rows + 1) * (d->band.columns + 1));
  g_autofree int *bail = g_new0 (int, (d->bail.rows + 1) * (d->bail.columns + 1));
  Replay r = { .d = d, .path = path, .band = band, .bail = bail };
  learn_feet (&r);
  for (guint i = 0; i < path->visits->len; i++)
    replay_visit (&r, i);
  check_takes_over (path);
  check_passes (&r, FALSE, path->band_passes);
  if (has_bail (d))
    check_passes (&r, TRUE, path->bail_passes);
  if (has_bail (d) && is_flap (d))
    check_feet (&r);
  assert_int_equal (r.zipped, is_closed (d));
}

static void
every_random_path_is_a_legal_weave_of_every_bead (void **state)
{
  GRand *dice = g_rand_new_with_seed (11);
  for (int i = 0; i < 1500; i++) {
    BwDesign d = a_random_design (dice);
    BwPath path;
    sample_path (&path, &d);
    replay (&d, &path);
    bw_path_clear (&path);
  }
  g_rand_free (dice);
}

/* The replay itself must be able to say no. */
static void
the_replay_sees_a_needle_that_jumps (void **state)
{
  BwDesign d = a_design (6, 12);
  Replay r = { .d = &d };
  BwVisit a = { .row = 3, .column = 4, .direction = 1 };
  BwVisit beside = { .row = 4, .column = 5, .direction = 1 };
  BwVisit turn = { .row = 1, .column = 4, .direction = 0 };
  BwVisit far = { .row = 6, .column = 5, .direction = 1 };
  BwVisit behind = { .row = 4, .column = 3, .direction = 1 };
  BwVisit first = { .row = 1, .column = 6, .direction = 0 };
  BwVisit last = { .row = 11, .column = 6, .direction = 1 };
  assert_true (can_follow (&r, &a, &beside));
  assert_true (can_follow (&r, &a, &turn));
  assert_false (can_follow (&r, &a, &far));
  assert_false (can_follow (&r, &a, &behind));
  assert_false (can_follow (&r, &last, &first));
  r.zipped = TRUE;
  assert_true (can_follow (&r, &last, &first));
}

/* Each pair of neighbours in the zip has one bead of the first and one of the last row, and no
 * raised bead is left out: that is what closes the ring. */
static void
the_zip_joins_every_raised_bead_of_both_ends (void **state)
{
  for (int columns = 2; columns <= 30; columns += 2)
    for (int rows = 4; rows <= 40; rows += 2) {
      BwDesign d = a_design (columns, rows);
      BwPath path;
      gboolean seen[2][32] = { 0 };
      int n = 0;
      sample_path (&path, &d);
      for (guint i = 0; i < path.visits->len; i++) {
        const BwVisit *v = visit_at (&path, i);
        if (v->part != BW_PART_ZIP)
          continue;
        assert_int_equal (v->row, n % 2 ? rows : 1);
        seen[n % 2][v->column] = TRUE;
        n++;
      }
      for (int column = 1; column <= columns; column++)
        assert_true (seen[column % 2][column]);
      assert_int_equal (n, columns);
      bw_path_clear (&path);
    }
}

static void
check_visits (const BwDesign *d, const BwPath *path)
{
  guint64 W = (guint64)d->band.columns, R = (guint64)d->band.rows, m = (guint64)d->bail.columns,
          q = (guint64)d->bail.rows, n = 0;
  const BwPartSum *part = path->part;
  gboolean closed = is_closed (d), bail = has_bail (d);
  assert_int_equal (part[BW_PART_PICK_UP].visits, R > 1 ? W : W / 2);
  assert_int_equal (part[BW_PART_ROWS].visits, R > 2 ? (R - 2) * W : 0);
  assert_int_equal (part[BW_PART_ZIP].visits, closed ? W : 0);
  assert_int_equal (part[BW_PART_RETURN].visits, closed ? W : 0);
  assert_int_equal (part[BW_PART_ANCHORS].visits, closed ? 8 : 0);
  assert_int_equal (part[BW_PART_TAILS].visits, 0);
  if (closed)
    assert_true (part[BW_PART_WEAVING_IN].visits <= 32 * path->lengths->len);
  if (closed && path->lengths->len == 1)
    assert_int_equal (part[BW_PART_WEAVING_IN].visits, 32);
  if (bail && is_flap (d)) {
    assert_in_range (part[BW_PART_BAIL].visits - q * m, 0, 32);
    assert_int_equal (part[BW_PART_ATTACHMENT].visits, 2 * m);
  } else if (bail) {
    assert_in_range (part[BW_PART_BAIL].visits - (q > 1 ? (q - 1) * m : m / 2), 0, 32);
    assert_int_equal (part[BW_PART_ATTACHMENT].visits,
                      d->bail.style == BW_BAIL_OVER ? 6 * m : 4 * m);
  } else
    assert_int_equal (part[BW_PART_BAIL].visits + part[BW_PART_ATTACHMENT].visits, 0);
  for (int i = 0; i < BW_N_PARTS; i++)
    n += part[i].visits;
  assert_int_equal (n, path->visits->len);
}

static void
every_part_has_the_visits_its_weave_needs (void **state)
{
  GRand *dice = g_rand_new_with_seed (12);
  for (int i = 0; i < 1500; i++) {
    BwDesign d = a_random_design (dice);
    BwPath path;
    sample_path (&path, &d);
    check_visits (&d, &path);
    bw_path_clear (&path);
  }
  g_rand_free (dice);
}

static void
assert_close (double a, double b)
{
  if (!(fabs (a - b) <= 1e-9 * MAX (1, fabs (b))))
    fail_msg ("%.12g is not %.12g", a, b);
}

/* Whether the pass of this visit only leads to the bail. */
static gboolean
is_walk (const BwPath *path, guint i)
{
  int pass = visit_at (path, i)->pass;
  if (visit_at (path, i)->part != BW_PART_BAIL)
    return FALSE;
  for (; i < path->visits->len && visit_at (path, i)->pass == pass; i++)
    if (visit_at (path, i)->in_bail)
      return FALSE;
  return TRUE;
}

/* Counted anew from the visits: so much for each bead, a pitch for the turn of each pass (or for
 * the turns there are, on a walk), two more for the anchors; and for each length of thread two
 * tails and two ends woven in. */
static double
length_from_visits (const BwDesign *d, const BwPath *path)
{
  double jog = MAX (0, d->gauge.pitch_mm / 2 - (d->bead.hole_mm - d->thread.diameter_mm));
  double step = sqrt (d->gauge.column_mm * d->gauge.column_mm + jog * jog);
  double sum = is_closed (d) ? 2 * d->gauge.pitch_mm : 0;
  int pass = 0;
  for (guint i = 0; i < path->visits->len; i++) {
    const BwVisit *v = visit_at (path, i);
    if (v->part == BW_PART_WEAVING_IN)
      continue;
    gboolean turn
        = is_walk (path, i) ? v->direction != visit_at (path, i - 1)->direction : v->pass != pass;
    sum += step + (turn ? d->gauge.pitch_mm : 0);
    pass = v->pass;
  }
  return sum + path->lengths->len * (2 * d->thread.tail_mm + 2 * (16 * step + d->gauge.pitch_mm));
}

static void
the_parts_the_lengths_and_the_visits_give_the_same_thread (void **state)
{
  GRand *dice = g_rand_new_with_seed (13);
  for (int i = 0; i < 1000; i++) {
    BwDesign d = a_random_design (dice);
    BwPath path;
    double parts = 0, lengths = 0;
    sample_path (&path, &d);
    for (int part = 0; part < BW_N_PARTS; part++)
      parts += path.part[part].length_mm;
    for (guint k = 0; k < path.lengths->len; k++)
      lengths += g_array_index (path.lengths, BwThreadLength, k).length_mm;
    assert_close (parts, path.length_mm);
    assert_close (lengths, path.length_mm);
    assert_close (path.length_mm, length_from_visits (&d, &path));
    bw_path_clear (&path);
  }
  g_rand_free (dice);
}

/* The formula of the header worked by hand: 14 columns of 1.3 mm, a pitch of 1.6 mm, hole 0.8 mm,
 * thread 0.15 mm: the jog is 0.8 − 0.65 = 0.15 mm. */
static void
a_pass_is_as_long_as_its_beads_and_a_turn (void **state)
{
  BwDesign d = a_design (14, 114);
  assert_close (bw_path_pass_mm (&d, 14), 14 * sqrt (1.3 * 1.3 + 0.15 * 0.15) + 1.6);
  d.bead.hole_mm = 1.2;
  assert_close (bw_path_pass_mm (&d, 14), 14 * 1.3 + 1.6);
}

static void
check_lengths (const BwDesign *d, const BwPath *path)
{
  int row = 0;
  for (guint k = 0; k < path->lengths->len; k++) {
    const BwThreadLength *length = &g_array_index (path->lengths, BwThreadLength, k);
    assert_int_equal (length->from_row, row + 1);
    assert_true (length->to_row >= length->from_row);
    row = length->to_row;
    if (!path->pass_too_long)
      assert_true (length->length_mm <= d->thread.working_mm + 1e-9);
  }
  int last = is_closed (d) ? d->band.rows + 2 : d->band.rows;
  if (has_bail (d))
    last += is_flap (d) ? d->bail.rows + 2 : MAX (d->bail.rows - 1, 1) + 4;
  assert_int_equal (row, last);
}

static void
the_lengths_share_out_every_row_and_stay_within_the_working_length (void **state)
{
  GRand *dice = g_rand_new_with_seed (14);
  int several = 0;
  for (int i = 0; i < 1000; i++) {
    BwDesign d = a_random_design (dice);
    BwPath path;
    sample_path (&path, &d);
    check_lengths (&d, &path);
    several += path.lengths->len > 1;
    bw_path_clear (&path);
  }
  assert_true (several > 100);
  g_rand_free (dice);
}

/* Greedy: the first row of the next length did not fit on the one before. */
static void
no_length_is_changed_before_it_must_be (void **state)
{
  BwDesign d = a_design (20, 200);
  double pass = bw_path_pass_mm (&d, 20);
  BwPath path;
  sample_path (&path, &d);
  assert_true (path.lengths->len > 3);
  for (guint k = 0; k + 2 < path.lengths->len; k++) {
    double mm = g_array_index (path.lengths, BwThreadLength, k).length_mm;
    assert_true (mm <= d.thread.working_mm && mm + pass > d.thread.working_mm);
  }
  bw_path_clear (&path);
}

static void
a_pass_longer_than_a_working_length_gets_one_of_its_own (void **state)
{
  BwDesign d = a_design (60, 12);
  BwPath path;
  d.thread.working_mm = 250;
  sample_path (&path, &d);
  assert_true (path.pass_too_long);
  assert_int_equal (path.lengths->len, 1 + 10 + 2);
  replay (&d, &path);
  bw_path_clear (&path);
}

static void
a_pass_is_never_split_between_two_threads (void **state)
{
  GRand *dice = g_rand_new_with_seed (15);
  for (int i = 0; i < 500; i++) {
    BwDesign d = a_random_design (dice);
    BwPath path;
    int pass = 0;
    sample_path (&path, &d);
    for (guint k = 0; k < path.visits->len; k++) {
      const BwVisit *v = visit_at (&path, k);
      assert_true (v->pass == pass || v->pass > pass);
      if (k > 0 && v->pass == pass)
        assert_int_equal (v->length, visit_at (&path, k - 1)->length);
      pass = v->pass;
    }
    bw_path_clear (&path);
  }
  g_rand_free (dice);
}

/* Odd rows raise beads in the same columns at both ends: there is nothing to zip, and a bail that
 * stands on the closed ring must wait too. */
static void
an_odd_strip_ends_with_its_last_row (void **state)
{
  for (int rows = 1; rows <= 21; rows += 2) {
    BwDesign d = with_bail (a_design (10, rows), BW_BAIL_FLAP, 4, 13, 3);
    BwPath path;
    sample_path (&path, &d);
    assert_int_equal (path.part[BW_PART_ZIP].visits, 0);
    assert_int_equal (path.part[BW_PART_RETURN].visits, 0);
    assert_int_equal (path.part[BW_PART_ANCHORS].visits, 0);
    assert_int_equal (path.part[BW_PART_BAIL].visits, 0);
    assert_close (path.part[BW_PART_ZIP].length_mm + path.part[BW_PART_BAIL].length_mm, 0);
    assert_int_equal (g_array_index (path.lengths, BwThreadLength, 0).to_row, rows);
    replay (&d, &path);
    bw_path_clear (&path);
  }
}

static void
one_strung_row_offers_nothing_to_weave_into (void **state)
{
  BwDesign d = a_design (8, 1);
  BwPath path;
  sample_path (&path, &d);
  assert_int_equal (path.visits->len, 4);
  assert_int_equal (path.part[BW_PART_WEAVING_IN].visits, 0);
  assert_close (path.length_mm, bw_path_pass_mm (&d, 4) + 180 + 2 * bw_path_pass_mm (&d, 16));
  bw_path_clear (&path);
}

/* The usual flap over the join: the anchors end where it begins, and no bead is passed only to get
 * there. */
static void
a_flap_over_the_join_begins_where_the_anchors_end (void **state)
{
  BwDesign d = with_bail (a_design (14, 114), BW_BAIL_FLAP, 6, 23, 3);
  BwPath path;
  sample_path (&path, &d);
  assert_int_equal (path.part[BW_PART_BAIL].visits, 23 * 6);
  assert_int_equal (path.part[BW_PART_ATTACHMENT].visits, 12);
  assert_int_equal (path.part[BW_PART_WEAVING_IN].visits, 32 * path.lengths->len);
  bw_path_clear (&path);
}

/* Half the ring away it costs less thread to begin a fresh length than to walk. */
static void
a_bail_far_from_the_join_begins_with_a_fresh_thread (void **state)
{
  BwDesign d = with_bail (a_design (14, 200), BW_BAIL_UPRIGHT, 6, 24, 5);
  BwPath near, far;
  d.thread.working_mm = 20000;
  sample_path (&near, &d);
  d.bail.at_deg = 0;
  sample_path (&far, &d);
  assert_int_equal (near.lengths->len, 1);
  assert_int_equal (far.lengths->len, 2);
  assert_int_equal (g_array_index (far.lengths, BwThreadLength, 1).from_row, 203);
  replay (&d, &far);
  bw_path_clear (&near);
  bw_path_clear (&far);
}

/* Room of a working length: without two tails and two weavings-in. */
static double
room (const BwDesign *d)
{
  return d->thread.working_mm - 2 * d->thread.tail_mm - 2 * bw_path_pass_mm (d, 16);
}

/* How many lengths the visits of a part run over. */
static int
lengths_of_part (const BwPath *path, BwPart part)
{
  int n = 0, last = -1;
  for (guint k = 0; k < path->visits->len; k++) {
    const BwVisit *v = visit_at (path, k);
    if (v->part != part || v->length == last)
      continue;
    last = v->length;
    n++;
  }
  return n;
}

/* The thread of all passes of the bail and its sewing; of the sewing of one end. */
static double
bail_mm (const BwDesign *d)
{
  int passes = is_flap (d) ? d->bail.rows + 2 : MAX (d->bail.rows - 1, 1) + 4;
  return passes * bw_path_pass_mm (d, d->bail.columns);
}

static void
neither_a_bail_nor_its_sewing_is_parted_where_a_length_can_hold_it (void **state)
{
  GRand *dice = g_rand_new_with_seed (16);
  int changed_before = 0, too_long = 0;
  for (int i = 0; i < 1500; i++) {
    BwDesign d = a_random_design (dice);
    BwPath path;
    if (!has_bail (&d))
      continue;
    sample_path (&path, &d);
    if (bail_mm (&d) <= room (&d)) {
      const BwVisit *last = NULL;
      assert_int_equal (lengths_of_part (&path, BW_PART_BAIL), 1);
      for (guint k = 0; k < path.visits->len; k++) {
        const BwVisit *v = visit_at (&path, k);
        if (v->part != BW_PART_BAIL && v->part != BW_PART_ATTACHMENT)
          continue;
        assert_true (!last || v->length == last->length);
        last = v;
      }
      changed_before += path.lengths->len > 1;
    } else if (is_flap (&d) && 2 * bw_path_pass_mm (&d, d.bail.columns) <= room (&d)) {
      assert_int_equal (lengths_of_part (&path, BW_PART_ATTACHMENT), 1);
      too_long++;
    }
    bw_path_clear (&path);
  }
  assert_true (changed_before > 50 && too_long > 5);
  g_rand_free (dice);
}

/* After the third row nothing lies beside the last bead of the row. Every working length is tried,
 * so that one of them ends just there. */
static void
an_end_is_woven_in_wherever_a_thread_is_changed (void **state)
{
  int changed_there = 0;
  for (double working = 700; working < 1500; working += 2) {
    BwDesign d = with_bail (a_design (14, 114), BW_BAIL_UPRIGHT, 10, 124, 5);
    BwPath path;
    d.thread.working_mm = working;
    sample_path (&path, &d);
    assert_int_equal (path.part[BW_PART_WEAVING_IN].visits, 32 * path.lengths->len);
    for (guint i = 1; i < path.visits->len; i++) {
      const BwVisit *a = visit_at (&path, i - 1), *b = visit_at (&path, i);
      changed_there += a->in_bail && a->row == 2 && a->column == 1 && a->part == BW_PART_BAIL
                       && b->part == BW_PART_WEAVING_IN;
    }
    replay (&d, &path);
    bw_path_clear (&path);
  }
  assert_true (changed_there > 0);
  for (int rows = 2; rows <= 3; rows++) {
    BwDesign strip = a_design (14, rows);
    BwPath path;
    sample_path (&path, &strip);
    assert_int_equal (path.part[BW_PART_WEAVING_IN].visits, 32);
    bw_path_clear (&path);
  }
}

static void
the_anchors_turn_twice (void **state)
{
  for (int columns = 4; columns <= 40; columns += 2) {
    BwDesign d = a_design (columns, 60);
    BwPath path;
    int turns = 0;
    sample_path (&path, &d);
    for (guint i = 1; i < path.visits->len; i++) {
      const BwVisit *v = visit_at (&path, i);
      if (v->part == BW_PART_ANCHORS)
        turns += v->direction != visit_at (&path, i - 1)->direction;
    }
    assert_int_equal (turns, 2);
    assert_close (path.part[BW_PART_ANCHORS].length_mm, bw_path_pass_mm (&d, 8) + d.gauge.pitch_mm);
    bw_path_clear (&path);
  }
}

/* R. L. Graham, B. D. Lubachevsky, K. J. Nurmela, P. R. J. Östergård, "Dense packings of congruent
 * circles in a circle", Discrete Mathematics 181 (1998) 139–154: the radius of the smallest circle
 * round k unit circles. With a needle as thick as the thread, the hole at which the rule lets k
 * strands through is never more than 7.2 % wider than that, and from four strands on at most 2.5 %
 * narrower (three 4 %, two 16 %), which thread gives by being squeezed. */
static void
the_rule_for_a_full_hole_agrees_with_published_packings (void **state)
{
  static const double radius[] = { 2,
                                   2.1547005384,
                                   2.4142135624,
                                   2.7013016167,
                                   3,
                                   3,
                                   3.3047648710,
                                   3.6131259298,
                                   3.8130256314,
                                   3.9238044002,
                                   4.0296019301,
                                   4.2360679775,
                                   4.3284285549,
                                   4.5213569647,
                                   4.6154255949,
                                   4.7920337483,
                                   4.8637033052,
                                   4.8637033052,
                                   5.1223207370 };
  BwDesign d = a_design (10, 20);
  d.thread.diameter_mm = d.thread.needle_mm = 0.1;
  for (int k = 2; k <= 20; k++) {
    double tight = radius[k - 2] * 0.1;
    d.bead.hole_mm = tight * 1.072;
    assert_false (bw_path_is_full (&d, k - 1));
    d.bead.hole_mm = tight * (k == 2 ? 0.84 : k == 3 ? 0.96 : 0.975);
    assert_true (bw_path_is_full (&d, k - 1));
  }
}

static void
nothing_is_full_with_a_fine_thread (void **state)
{
  BwDesign d = with_bail (a_design (14, 114), BW_BAIL_FLAP, 6, 23, 3);
  BwPath path;
  sample_path (&path, &d);
  assert_int_equal (path.full_holes->len, 0);
  assert_in_range (path.passes_max, 3, 8);
  bw_path_clear (&path);
}

/* Rows make two passes, the return three: where a fourth does not go, the anchors and the
 * weaving-in find their way round the three of the return, and nothing is forced. */
static void
weaving_in_finds_its_way_round_full_holes (void **state)
{
  for (int columns = 4; columns <= 20; columns += 2) {
    BwDesign d = a_design (columns, 80);
    BwPath path;
    d.thread.diameter_mm = 0.35;
    assert_false (bw_path_is_full (&d, 2));
    assert_true (bw_path_is_full (&d, 3));
    sample_path (&path, &d);
    assert_int_equal (path.full_holes->len, 0);
    assert_int_equal (path.passes_max, 3);
    replay (&d, &path);
    bw_path_clear (&path);
  }
}

/* Where a third pass does not go, the return must still pass rows 1 and 2. */
static void
a_full_bead_that_must_be_passed_is_named (void **state)
{
  BwDesign d = a_design (10, 80);
  BwPath path;
  gboolean named[3][11] = { 0 };
  d.thread.diameter_mm = 0.4;
  assert_false (bw_path_is_full (&d, 1));
  assert_true (bw_path_is_full (&d, 2));
  sample_path (&path, &d);
  for (guint i = 0; i < path.full_holes->len; i++) {
    const BwFullHole *hole = &g_array_index (path.full_holes, BwFullHole, i);
    assert_false (hole->in_bail);
    assert_true (bw_path_is_full (&d, hole->passes));
    assert_true (path.band_passes[(hole->row - 1) * 5 + (hole->column - 1) / 2] > hole->passes);
    if (hole->row <= 2)
      named[hole->row][hole->column] = TRUE;
  }
  for (int column = 1; column <= 10; column++)
    assert_true (named[column % 2 ? 2 : 1][column]);
  bw_path_clear (&path);
}

static void
every_bead_is_named_when_the_second_pass_already_fills_it (void **state)
{
  BwDesign d = a_design (6, 30);
  d.thread.diameter_mm = 0.6;
  BwPath path;
  sample_path (&path, &d);
  assert_true (bw_path_is_full (&d, 1));
  assert_int_equal (path.full_holes->len, 6 * 30 / 2);
  bw_path_clear (&path);
}

/* Twice the rows is twice the visits of the rows and nothing else. */
static void
the_path_grows_as_the_beads_do (void **state)
{
  BwDesign d = a_design (12, 1000);
  d.thread.working_mm = 1e6;
  BwPath one, two;
  sample_path (&one, &d);
  d.band.rows = 2000;
  sample_path (&two, &d);
  assert_int_equal (two.visits->len - one.visits->len, 12 * 1000);
  assert_close (two.length_mm - one.length_mm, 1000 * bw_path_pass_mm (&d, 12));
  bw_path_clear (&one);
  bw_path_clear (&two);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_random_path_is_a_legal_weave_of_every_bead),
    cmocka_unit_test (the_replay_sees_a_needle_that_jumps),
    cmocka_unit_test (the_zip_joins_every_raised_bead_of_both_ends),
    cmocka_unit_test (every_part_has_the_visits_its_weave_needs),
    cmocka_unit_test (the_parts_the_lengths_and_the_visits_give_the_same_thread),
    cmocka_unit_test (a_pass_is_as_long_as_its_beads_and_a_turn),
    cmocka_unit_test (the_lengths_share_out_every_row_and_stay_within_the_working_length),
    cmocka_unit_test (no_length_is_changed_before_it_must_be),
    cmocka_unit_test (a_pass_longer_than_a_working_length_gets_one_of_its_own),
    cmocka_unit_test (a_pass_is_never_split_between_two_threads),
    cmocka_unit_test (an_odd_strip_ends_with_its_last_row),
    cmocka_unit_test (one_strung_row_offers_nothing_to_weave_into),
    cmocka_unit_test (a_flap_over_the_join_begins_where_the_anchors_end),
    cmocka_unit_test (a_bail_far_from_the_join_begins_with_a_fresh_thread),
    cmocka_unit_test (neither_a_bail_nor_its_sewing_is_parted_where_a_length_can_hold_it),
    cmocka_unit_test (an_end_is_woven_in_wherever_a_thread_is_changed),
    cmocka_unit_test (the_anchors_turn_twice),
    cmocka_unit_test (the_rule_for_a_full_hole_agrees_with_published_packings),
    cmocka_unit_test (nothing_is_full_with_a_fine_thread),
    cmocka_unit_test (weaving_in_finds_its_way_round_full_holes),
    cmocka_unit_test (a_full_bead_that_must_be_passed_is_named),
    cmocka_unit_test (every_bead_is_named_when_the_second_pass_already_fills_it),
    cmocka_unit_test (the_path_grows_as_the_beads_do),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
