/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a bail stands: azimuth and row answer each other, places are those the needle can sew. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "samples.h"

#include "core/bail/bail-place.h"
#include "core/base/lattice.h"
#include "core/path/path.h"
#include <math.h>

/* A random band, closed, with a bail that can be. */
static BwDesign
bailed (GRand *rand)
{
  BwStone stone;
  BwDesign design = sample_random_design (rand, &stone);
  BwBail *bail = &design.bail;
  design.band.columns = MAX (4, design.band.columns);
  design.band.rows += design.band.rows % 2;
  design.band.seam_deg = sample_between (rand, 0, 360);
  bail->style = (BwBailStyle)g_rand_int_range (rand, BW_BAIL_FLAP, BW_BAIL_OVER + 1);
  bail->columns = 2 * g_rand_int_range (rand, 1, design.band.columns / 2);
  bail->base_beads = g_rand_int_range (rand, 1, 9) / 2.0;
  bail->base_beads = MIN (bail->base_beads, design.band.rows / 4.0);
  bail->base_beads = floor (2 * bail->base_beads) / 2;
  bail->rows = g_rand_int_range (rand, 12, 40);
  bail->at_deg = sample_between (rand, -400, 400);
  return design;
}

static double
difference (double a, double b, double period)
{
  return fabs (remainder (a - b, period));
}

static void
azimuth_and_row_answer_each_other (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (811);
  for (int k = 0; k < 1000; k++) {
    BwDesign design = bailed (rand);
    BwRing ring;
    sample_mid_ring (&ring, &design);
    int period = design.band.rows;
    double row = bw_bail_row (&design, &ring, design.bail.at_deg);
    assert_true (row >= 1 && row < 1 + period);
    double azimuth = bw_bail_azimuth (&design, &ring, row);
    assert_true (azimuth >= 0 && azimuth < 360);
    assert_near (difference (azimuth, design.bail.at_deg, 360), 0, 1e-6);
    double wanted = sample_between (rand, -period, 2 * period);
    double found = bw_bail_row (&design, &ring, bw_bail_azimuth (&design, &ring, wanted));
    assert_near (difference (found, wanted, period), 0, 1e-6);
  }
}

static void
the_join_is_the_first_row_exactly (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (812);
  for (int k = 0; k < 200; k++) {
    BwDesign design = bailed (rand);
    BwRing ring;
    sample_mid_ring (&ring, &design);
    assert_near (bw_bail_row (&design, &ring, design.band.seam_deg), 1, 1e-12);
    assert_near (bw_bail_row (&design, &ring, design.band.seam_deg - 360), 1, 1e-9);
    assert_true (bw_bail_azimuth (&design, &ring, 1) == design.band.seam_deg);
    assert_true (bw_bail_azimuth (&design, &ring, 1 + design.band.rows) == design.band.seam_deg);
  }
}

static void
a_bail_stands_at_the_nearest_place_and_stays_there (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (813);
  for (int k = 0; k < 1000; k++) {
    BwDesign design = bailed (rand);
    BwRing ring;
    sample_mid_ring (&ring, &design);
    double wanted = sample_between (rand, 1, 1 + design.band.rows);
    double place = bw_bail_nearest_row (&design, wanted);
    int step = bw_bail_row_step (&design.bail);
    assert_true (fabs (place - wanted) <= step / 2.0 + 1e-9);
    assert_near (bw_bail_nearest_row (&design, place + 0.4 * step), place, 1e-12);
    assert_near (bw_bail_nearest_row (&design, place + step), place + step, 1e-12);
    bw_bail_stand (&design, &ring, wanted);
    double stands = bw_bail_row (&design, &ring, design.bail.at_deg);
    assert_near (difference (bw_bail_nearest_row (&design, stands), place, design.band.rows), 0,
                 1e-9);
    double once = design.bail.at_deg;
    bw_bail_stand (&design, &ring, stands);
    assert_true (design.bail.at_deg == once);
  }
}

static void
a_flap_stands_on_beads_that_meet_its_columns (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (814);
  for (int k = 0; k < 1000; k++) {
    BwDesign design = bailed (rand);
    BwBailBase base;
    design.bail.style = k % 2 ? BW_BAIL_FLAP : BW_BAIL_RING;
    sample_bail_base (&base, &design);
    int first = (int)base.first_row, last = (int)base.last_row;
    assert_true (first == base.first_row && last == base.last_row);
    /* Row 0 of the flap lies in its odd columns, row rows + 1 where the lattice wants it. */
    assert_true (bw_lattice_has (first, base.margin + 1));
    assert_int_equal (bw_lattice_has (design.bail.rows + 1, 1),
                      bw_lattice_has (last, base.margin + 1));
    assert_true (base.bottom == base.margin);
    assert_true (design.band.columns - base.top == base.margin);
    assert_true (last - first - 2 * design.bail.base_beads >= 0
                 && last - first - 2 * design.bail.base_beads <= 1);
  }
}

static void
the_feet_of_an_upright_strip_lie_on_the_band (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (815);
  for (int k = 0; k < 1000; k++) {
    BwDesign design = bailed (rand);
    BwBailBase base;
    design.bail.style = BW_BAIL_UPRIGHT;
    design.bail.base_beads = g_rand_int_range (rand, 1, design.band.columns + 1);
    sample_bail_base (&base, &design);
    assert_true (base.column[0] >= 1 && base.column[0] <= base.column[1]);
    assert_true (base.column[1] <= design.band.columns);
    assert_true (base.bottom == base.column[0] - 1 && base.top == base.column[1]);
    assert_int_equal (base.sense[0], -1);
    assert_int_equal (base.sense[1], -1);
    double across = (base.last_row - base.first_row) / 2 * design.gauge.pitch_mm;
    assert_near (across, design.bail.columns * design.gauge.column_mm, 1e-9);
    if ((int)design.bail.base_beads % 2)
      assert_int_equal (base.column[1] - base.column[0], (int)design.bail.base_beads);
  }
}

static void
the_feet_of_a_loop_over_the_tip_lie_on_the_upper_edge (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (817);
  int across = 0;
  for (int k = 0; k < 1000; k++) {
    BwDesign design = bailed (rand);
    BwBailBase base;
    BwRing ring;
    double at[2], half = design.band.rows / 4.0;
    sample_mid_ring (&ring, &design);
    design.bail.style = BW_BAIL_OVER;
    design.bail.base_beads = g_rand_int_range (rand, 1, design.band.rows) / 2.0;
    bw_bail_base_init (&base, &design, &ring);
    double apart = fmin (design.bail.base_beads, half);
    double middle = bw_bail_row (&design, &ring, design.bail.at_deg);
    assert_near (base.foot_row[1] - base.foot_row[0], 2 * apart, 1e-9);
    assert_near ((base.foot_row[0] + base.foot_row[1]) / 2, middle, 1e-9);
    assert_true (base.first_row == base.foot_row[0] && base.last_row == base.foot_row[1]);
    assert_int_equal (base.column[0], design.band.columns);
    assert_int_equal (base.column[1], design.band.columns);
    assert_true (base.top == design.band.columns && base.bottom == base.top - 1);
    assert_int_equal (base.sense[0], -1);
    assert_int_equal (base.sense[1], 1);
    assert_int_equal (bw_bail_azimuths (at, &design, &ring), 2);
    for (int foot = 0; foot < 2; foot++)
      assert_near (difference (bw_bail_row (&design, &ring, at[foot]), base.foot_row[foot],
                               design.band.rows),
                   0, 1e-6);
    across += apart == half;
  }
  assert_true (across > 100 && across < 900);
}

static void
a_bail_of_another_kind_stands_under_its_own_azimuth (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (818);
  for (int k = 0; k < 100; k++) {
    BwDesign design = bailed (rand);
    BwRing ring;
    double at[2];
    sample_mid_ring (&ring, &design);
    design.bail.style = BW_BAIL_NONE;
    assert_int_equal (bw_bail_azimuths (at, &design, &ring), 0);
    design.bail.style = (BwBailStyle)g_rand_int_range (rand, BW_BAIL_FLAP, BW_BAIL_RING + 1);
    assert_int_equal (bw_bail_azimuths (at, &design, &ring), 1);
    assert_true (at[0] == design.bail.at_deg);
  }
}

static int
wrapped (double row, int period)
{
  int whole = (int)lround (row - 1) % period;
  return 1 + (whole < 0 ? whole + period : whole);
}

/* How many visits the sewing makes to beads of one band row under the flap. */
static int
count_sewn (const BwDesign *design, const BwBailBase *base)
{
  BwPath path;
  int row = wrapped (base->last_row, design->band.rows), n = 0;
  sample_path (&path, design);
  for (guint i = 0; i < path.visits->len; i++) {
    const BwVisit *visit = &g_array_index (path.visits, BwVisit, i);
    n += visit->part == BW_PART_ATTACHMENT && !visit->in_bail && visit->row == row
         && visit->column > base->margin && visit->column <= base->margin + design->bail.columns;
  }
  bw_path_clear (&path);
  return n;
}

static void
the_needle_sews_the_flap_where_it_is_said_to_stand (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (816);
  for (int k = 0; k < 100; k++) {
    BwDesign design = bailed (rand);
    BwRing ring;
    sample_mid_ring (&ring, &design);
    BwBailBase base;
    design.bail.style = BW_BAIL_FLAP;
    bw_bail_stand (&design, &ring, sample_between (rand, 1, 1 + design.band.rows));
    sample_bail_base (&base, &design);
    assert_true (count_sewn (&design, &base) >= design.bail.columns / 2);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (azimuth_and_row_answer_each_other),
    cmocka_unit_test (the_join_is_the_first_row_exactly),
    cmocka_unit_test (a_bail_stands_at_the_nearest_place_and_stays_there),
    cmocka_unit_test (a_flap_stands_on_beads_that_meet_its_columns),
    cmocka_unit_test (the_feet_of_an_upright_strip_lie_on_the_band),
    cmocka_unit_test (the_feet_of_a_loop_over_the_tip_lie_on_the_upper_edge),
    cmocka_unit_test (a_bail_of_another_kind_stands_under_its_own_azimuth),
    cmocka_unit_test (the_needle_sews_the_flap_where_it_is_said_to_stand),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
