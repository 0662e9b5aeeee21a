/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking hold of the bail and pulling at it, over many bands and places. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/bail/bail-place.h"
#include "core/band/column.h"
#include "core/base/lattice.h"
#include "editor/bail/bail-cloth.h"
#include "editor/bail/bail-grip.h"
#include "editor/bail/bail-look.h"
#include "project/project.h"

#include "near.h"

/* A sound design with a bail of any style somewhere on a band. */
static BwDesign
random_design (BwProject *project, GRand *rand)
{
  BwDesign design = *bw_project_get_design (project);
  for (;;) {
    design.band.rows = 2 * g_rand_int_range (rand, 20, 60);
    design.band.columns = 2 * g_rand_int_range (rand, 3, 7);
    design.band.bottom_mm = 8;
    design.bail
        = (BwBail){ .style = (BwBailStyle)g_rand_int_range (rand, BW_BAIL_FLAP, BW_BAIL_OVER + 1),
                    .columns = 2 * g_rand_int_range (rand, 1, 4),
                    .rows = g_rand_int_range (rand, 8, 40),
                    .base_beads = g_rand_int_range (rand, 1, 10) / 2.0,
                    .at_deg = g_rand_double_range (rand, -360, 720),
                    .cord_mm = 3,
                    .clearance_mm = 2 };
    if (bw_design_validate (&design, NULL, NULL))
      return design;
  }
}

static BwRing
ring_of (const BwDesign *design)
{
  BwStone stone;
  BwRing ring;
  assert_true (bw_stone_init (&stone, &design->stone, NULL));
  bw_mid_ring_init (&ring, design, &stone);
  return ring;
}

static BwBailBase
base_of (const BwDesign *design)
{
  BwRing ring = ring_of (design);
  BwBailBase base;
  bw_bail_base_init (&base, design, &ring);
  return base;
}

static BwBailBox
box_of (const BwDesign *design)
{
  BwBailBase base = base_of (design);
  return bw_bail_box (&base);
}

static void
pull (BwDesign *design, const BwDesign *from, BwBailGrip grip, double along, double up)
{
  BwRing ring = ring_of (from);
  bw_bail_pull (design, from, &ring, grip, along, up);
}

static gboolean
step (BwDesign *design, BwBailKnob knob, int by)
{
  BwRing ring = ring_of (design);
  return bw_bail_step (design, &ring, knob, by);
}

static BwBandLayout
layout_of (const BwDesign *design, GRand *rand)
{
  return (BwBandLayout){ .columns = design->band.columns,
                         .rows = design->band.rows,
                         .pitch_mm = design->gauge.pitch_mm,
                         .column_mm = design->gauge.column_mm,
                         .x = 30,
                         .width = 700,
                         .height = 260,
                         .zoom = g_rand_double_range (rand, 0.4, 3),
                         .roll = g_rand_double_range (rand, -20, 80),
                         .rise = design->band.columns / 2.0 };
}

static BwBailGrip
grip_under (const BwBandLayout *layout, BwBailBox box, double u, double v)
{
  return bw_bail_grip_at (layout, box, bw_band_layout_x (layout, u), bw_band_layout_y (layout, v),
                          6);
}

static void
each_edge_and_the_body_answer_in_every_image (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9101);
  for (int k = 0; k < 1000; k++) {
    BwDesign design = random_design (project, rand);
    BwBandLayout layout = layout_of (&design, rand);
    BwBailBox box = box_of (&design);
    double around = bw_band_layout_around (&layout);
    double turn = around * g_rand_int_range (rand, -2, 3);
    double u = (box.left + box.right) / 2 + turn, v = (box.bottom + box.top) / 2;
    assert_int_equal (grip_under (&layout, box, u, v), BW_BAIL_GRIP_BODY);
    assert_int_equal (grip_under (&layout, box, box.left + turn, v), BW_BAIL_GRIP_LEFT);
    assert_int_equal (grip_under (&layout, box, box.right + turn, v), BW_BAIL_GRIP_RIGHT);
    assert_int_equal (grip_under (&layout, box, u, box.top), BW_BAIL_GRIP_TOP);
    assert_int_equal (grip_under (&layout, box, u, box.bottom), BW_BAIL_GRIP_BOTTOM);
    double far = 6.5 / bw_band_layout_pitch_px (&layout);
    if (box.right - box.left + 2 * far < around) {
      assert_int_equal (grip_under (&layout, box, box.left + turn - far, v), BW_BAIL_GRIP_NONE);
      assert_int_equal (grip_under (&layout, box, box.right + turn + far, v), BW_BAIL_GRIP_NONE);
    }
  }
}

static gboolean
same_bail (const BwBail *a, const BwBail *b)
{
  return a->columns == b->columns && a->rows == b->rows && a->base_beads == b->base_beads
         && a->at_deg == b->at_deg && a->style == b->style;
}

static void
a_pull_of_nothing_changes_nothing (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9102);
  for (int k = 0; k < 500; k++) {
    BwDesign from = random_design (project, rand), design;
    for (BwBailGrip grip = BW_BAIL_GRIP_NONE; grip <= BW_BAIL_GRIP_TOP; grip++) {
      pull (&design, &from, grip, 0.1, -0.1);
      assert_true (same_bail (&design.bail, &from.bail));
    }
  }
}

static void
whatever_is_pulled_can_be_woven (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9103);
  for (int k = 0; k < 2000; k++) {
    BwDesign from = random_design (project, rand), design;
    BwFault fault;
    BwBailGrip grip = (BwBailGrip)g_rand_int_range (rand, 1, 6);
    pull (&design, &from, grip, g_rand_double_range (rand, -90, 90),
          g_rand_double_range (rand, -12, 12));
    if (!bw_design_validate (&design, NULL, &fault))
      fail_msg ("fault %d at key %d", fault.kind, fault.key);
    gboolean moved = design.bail.at_deg != from.bail.at_deg;
    gboolean sized = design.bail.columns != from.bail.columns
                     || design.bail.base_beads != from.bail.base_beads;
    assert_false (grip == BW_BAIL_GRIP_BODY ? sized : moved);
    if (design.bail.base_beads != from.bail.base_beads && !bw_bail_is_strip (&design.bail))
      assert_int_equal ((int)(2 * design.bail.base_beads + design.bail.rows + 1) % 2, 0);
  }
}

static void
a_bail_follows_the_hand_to_the_nearest_place (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9104);
  for (int k = 0; k < 1000; k++) {
    BwDesign from = random_design (project, rand), design;
    double around = from.band.rows / 2.0, along = g_rand_double_range (rand, -1.5, 1.5) * around;
    BwRing ring = ring_of (&from);
    bw_bail_stand (&from, &ring, bw_bail_row (&from, &ring, from.bail.at_deg));
    pull (&design, &from, BW_BAIL_GRIP_BODY, along, 3);
    BwBailBox before = box_of (&from), after = box_of (&design);
    double off = remainder (after.left - before.left - along, around);
    assert_true (fabs (off) <= 0.5 * bw_bail_row_step (&from.bail) / 2 + 1e-6);
    assert_near (after.right - after.left, before.right - before.left, 1e-6);
    /* Pulled back by what it went, it is where it was. */
    BwDesign back;
    pull (&back, &design, BW_BAIL_GRIP_BODY, -(along + off), 0);
    assert_true (back.bail.at_deg == from.bail.at_deg);
  }
}

static void
an_edge_pulled_moves_the_other_as_far_the_other_way (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9105);
  for (int k = 0; k < 500; k++) {
    BwDesign from = random_design (project, rand), design;
    pull (&design, &from, BW_BAIL_GRIP_TOP, 0, 1);
    BwBailBox before = box_of (&from), after = box_of (&design);
    if (from.bail.style == BW_BAIL_OVER) {
      assert_near (after.top, from.band.columns, 0);
      assert_int_equal (design.bail.columns, from.bail.columns + 2);
      continue;
    }
    assert_near (after.top + after.bottom, from.band.columns, 1.01);
    if (from.bail.style == BW_BAIL_UPRIGHT || from.bail.columns + 2 > from.band.columns - 2)
      continue;
    assert_int_equal (design.bail.columns, from.bail.columns + 2);
    assert_near (after.top - before.top, 1, 1e-12);
    pull (&design, &from, BW_BAIL_GRIP_BOTTOM, 0, -1);
    assert_int_equal (design.bail.columns, from.bail.columns + 2);
  }
}

static void
steps_there_and_back_again_end_where_they_began (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9106);
  for (int k = 0; k < 500; k++) {
    BwDesign from = random_design (project, rand);
    BwBailKnob knob = (BwBailKnob)g_rand_int_range (rand, 0, 3);
    step (&from, BW_BAIL_BASE, 0);
    BwRing ring = ring_of (&from);
    bw_bail_stand (&from, &ring, bw_bail_row (&from, &ring, from.bail.at_deg));
    BwDesign design = from;
    int steps = 0;
    for (int i = 0; i < 4; i++)
      steps += step (&design, knob, 1);
    for (int i = 0; i < steps; i++)
      assert_true (step (&design, knob, -1));
    assert_true (same_bail (&design.bail, &from.bail));
    assert_true (bw_design_validate (&design, NULL, NULL));
  }
}

/* A band in which no two beads near each other are alike. */
static BwDrawing *
motley (int columns, int rows)
{
  BwDrawing *drawing = bw_drawing_new (columns, rows, 0);
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      bw_drawing_set (drawing, row, column, (guint8)((row * 31 + column * 7) % 199));
    }
  return drawing;
}

static int
wrapped (int row, int period)
{
  int at = (row - 1) % period;
  return 1 + (at < 0 ? at + period : at);
}

/* The first and the last row have the colours of the edge itself, the next ones those below it. */
static void
a_loop_over_the_tip_mirrors_the_band_at_its_edge (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9117);
  for (int k = 0; k < 200; k++) {
    BwDesign design = random_design (project, rand);
    design.bail.style = BW_BAIL_OVER;
    design.bail.rows = 2 * design.bail.rows;
    BwBailBase base = base_of (&design);
    g_autoptr (BwDrawing) band = motley (design.band.columns, design.band.rows);
    g_autoptr (BwDrawing) beneath = bw_bail_beneath (&design, &base, band);
    for (int row = 1; row <= design.bail.rows; row += 1) {
      int up = MIN (row, design.bail.rows + 1 - row), foot = row > design.bail.rows / 2;
      int band_column = design.band.columns - (up - 1) % design.band.columns;
      int column = bw_lattice_column (row, 0);
      double aside = (column - (design.bail.columns + 1) / 2.0) * design.gauge.column_mm;
      double at = base.foot_row[foot] + (foot ? 2 : -2) * aside / design.gauge.pitch_mm;
      gboolean found = FALSE;
      for (int near = (int)floor (at) - 1; near <= (int)ceil (at) + 1; near++)
        found |= bw_lattice_has (near, band_column)
                 && bw_drawing_get (band, wrapped (near, design.band.rows), band_column)
                        == bw_drawing_get (beneath, row, column);
      assert_true (found);
    }
  }
}

static void
a_flap_as_the_band_beneath_goes_on_with_its_rows (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9107);
  for (int k = 0; k < 300; k++) {
    BwDesign design = random_design (project, rand);
    BwBailBase base = base_of (&design);
    g_autoptr (BwDrawing) band = motley (design.band.columns, design.band.rows);
    g_autoptr (BwDrawing) beneath = bw_bail_beneath (&design, &base, band);
    assert_int_equal (bw_drawing_columns (beneath), design.bail.columns);
    assert_int_equal (bw_drawing_rows (beneath), design.bail.rows);
    if (bw_bail_is_strip (&design.bail))
      continue;
    for (int row = 1; row <= design.bail.rows; row++)
      for (int j = 0; j < design.bail.columns / 2; j++) {
        int column = bw_lattice_column (row, j);
        int at = wrapped ((int)base.first_row + row, design.band.rows);
        assert_int_equal (bw_drawing_get (beneath, row, column),
                          bw_drawing_get (band, at, base.margin + column));
      }
  }
}

/* A few beads of either drawing, set at random; told as the project tells them. */
static GArray *
set_at_random (BwDrawing *band, BwDrawing *bail, GRand *rand)
{
  GArray *beads = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  for (int i = 0; i < 6; i++) {
    gboolean in_bail = g_rand_boolean (rand);
    BwDrawing *drawing = in_bail ? bail : band;
    int row = g_rand_int_range (rand, 1, bw_drawing_rows (drawing) + 1);
    int column
        = bw_lattice_column (row, g_rand_int_range (rand, 0, bw_drawing_columns (drawing) / 2));
    BwBeadOf bead = { in_bail, row, column };
    bw_drawing_set (drawing, row, column, (guint8)g_rand_int_range (rand, 5, 9));
    g_array_append_val (beads, bead);
  }
  return beads;
}

static void
a_cloth_that_follows_is_the_one_made_anew (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (4409);
  for (int k = 0; k < 300; k++) {
    BwDesign design = random_design (project, rand);
    BwBailBase base = base_of (&design);
    g_autoptr (BwDrawing) band = motley (design.band.columns, design.band.rows);
    g_autoptr (BwDrawing) bail = motley (design.bail.columns, design.bail.rows);
    g_autoptr (BwDrawing) cloth = bw_bail_cloth (&design, &base, band, bail);
    g_autoptr (BwDrawing) before = bw_drawing_copy (cloth);
    g_autoptr (GArray) beads = set_at_random (band, bail, rand);
    g_autoptr (GArray) laid = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
    bw_bail_cloth_follow (cloth, &design, &base, band, bail, beads, laid);
    g_autoptr (BwDrawing) anew = bw_bail_cloth (&design, &base, band, bail);
    guint differ = 0;
    for (int row = 1; row <= bw_drawing_rows (anew); row++) {
      assert_memory_equal (bw_drawing_row (cloth, row), bw_drawing_row (anew, row),
                           (gsize)bw_drawing_columns (anew) / 2);
      for (int j = 0; j < bw_drawing_columns (anew) / 2; j++) {
        int column = bw_lattice_column (row, j);
        differ += bw_drawing_get (cloth, row, column) != bw_drawing_get (before, row, column);
      }
    }
    assert_int_equal (laid->len, differ);
  }
}

static void
the_cloth_holds_the_bail_between_the_bands_rows (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9108);
  for (int k = 0; k < 300; k++) {
    BwDesign design = random_design (project, rand);
    BwBailBase base = base_of (&design);
    g_autoptr (BwDrawing) band = motley (design.band.columns, design.band.rows);
    g_autoptr (BwDrawing) bail = motley (design.bail.columns, design.bail.rows);
    g_autoptr (BwDrawing) cloth = bw_bail_cloth (&design, &base, band, bail);
    int lead = bw_bail_lead (&design.bail), rows = design.bail.rows;
    assert_int_equal (bw_drawing_rows (cloth), rows + 2 * lead);
    for (int row = 1; row <= rows; row++)
      assert_memory_equal (bw_drawing_row (cloth, lead + row), bw_drawing_row (bail, row),
                           (gsize)design.bail.columns / 2);
    if (lead == 0)
      continue;
    int before = 2 - lead % 2, after = bw_lattice_has (lead + rows + 1, 1) ? 1 : 2;
    assert_int_equal (bw_drawing_get (cloth, lead, before - 1),
                      bw_drawing_get (band, wrapped ((int)base.first_row, design.band.rows),
                                      base.margin + before - 1));
    assert_int_equal (
        bw_drawing_get (cloth, lead + rows + 1, after),
        bw_drawing_get (band, wrapped ((int)base.last_row, design.band.rows), base.margin + after));
  }
}

static void
the_stone_turns_no_further_than_shows_the_bail (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwSession) session = bw_session_new (project);
  g_autoptr (GRand) rand = g_rand_new_with_seed (9109);
  for (int k = 0; k < 100; k++) {
    BwDesign design = random_design (project, rand);
    assert_true (bw_project_set_design (project, "Bail", &design, NULL));
    double at = design.bail.at_deg, before = bw_session_get_camera (session).turn_deg;
    gboolean rests = k % 5 == 0;
    bw_session_set_at_rest (session, rests);
    double then = bw_session_get_camera (session).turn_deg;
    bw_bail_look_at (session);
    double turn = bw_session_get_camera (session).turn_deg;
    bw_session_set_at_rest (session, FALSE);
    if (rests) {
      assert_true (turn == then);
      assert_true (bw_session_get_camera (session).turn_deg == before);
    } else if (fabs (remainder (at - before, 360)) <= BW_BAIL_IN_SIGHT_DEG) {
      assert_true (turn == before);
    } else {
      assert_near (fabs (remainder (at - turn, 360)), BW_BAIL_IN_SIGHT_DEG, 1e-9);
    }
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_edge_and_the_body_answer_in_every_image),
    cmocka_unit_test (a_pull_of_nothing_changes_nothing),
    cmocka_unit_test (whatever_is_pulled_can_be_woven),
    cmocka_unit_test (a_bail_follows_the_hand_to_the_nearest_place),
    cmocka_unit_test (an_edge_pulled_moves_the_other_as_far_the_other_way),
    cmocka_unit_test (steps_there_and_back_again_end_where_they_began),
    cmocka_unit_test (a_loop_over_the_tip_mirrors_the_band_at_its_edge),
    cmocka_unit_test (a_flap_as_the_band_beneath_goes_on_with_its_rows),
    cmocka_unit_test (the_cloth_holds_the_bail_between_the_bands_rows),
    cmocka_unit_test (a_cloth_that_follows_is_the_one_made_anew),
    cmocka_unit_test (the_stone_turns_no_further_than_shows_the_bail),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
