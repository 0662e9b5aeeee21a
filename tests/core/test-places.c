/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places: each bead of the closed band is where fit says it is, and of the true one where the strip
 * would lie. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "core/band/finished.h"
#include "core/band/fit.h"
#include "core/base/lattice.h"
#include "core/band/places.h"
#include "samples.h"

#define DESIGNS 40

static double
distance (BwPlace a, BwPlace b)
{
  return bw_vec3_length (bw_vec3_sub (a.at, b.at));
}

/* The next bead of the column, across the join from the last. */
static BwPlace
neighbour (const BwPlaces *places, int row, int column)
{
  int later = row + 2 <= places->rows ? row + 2 : row % 2 ? 1 : 2;
  return bw_places_get (places, later, column);
}

static double
azimuth (BwPlace place)
{
  return atan2 (place.at.y, place.at.x);
}

/* Counter-clockwise turn from a to b, 0..2π. */
static double
turn (double a, double b)
{
  double d = fmod (b - a, 2 * G_PI);
  return d < 0 ? d + 2 * G_PI : d;
}

static double
column_height (const BwDesign *design, int column)
{
  return design->band.bottom_mm + (column - 0.5) * design->gauge.column_mm;
}

static void
beads_of_a_closed_column_are_equally_far_apart_the_join_included (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (60);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwPlaces places;
    BwDesign design = sample_random_design (rand, &stone);
    bw_places_init_closed (&places, &design, &stone);
    for (int column = 1; column <= places.columns; column++) {
      int first = column % 2 ? 2 : 1;
      double s
          = distance (bw_places_get (&places, first, column), neighbour (&places, first, column));
      for (int row = first; row <= places.rows; row += 2) {
        BwPlace place = bw_places_get (&places, row, column);
        assert_near (place.at.z, column_height (&design, column), 1e-12);
        assert_near (distance (place, neighbour (&places, row, column)), s, 1e-8);
      }
    }
    bw_places_clear (&places);
  }
}

static void
even_columns_start_at_the_seam_and_odd_ones_half_a_step_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (61);
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwPlaces places;
    BwBedding bedding;
    BwDesign design = sample_random_design (rand, &stone);
    double seam = bw_radians (design.band.seam_deg);
    assert_true (bw_bedding_init (&bedding, &design.bed, &stone, bw_design_span (&design), NULL));
    bw_places_init_closed (&places, &design, &stone);
    for (int column = 1; column <= places.columns; column++) {
      BwPlace place = bw_places_get (&places, column % 2 ? 2 : 1, column);
      double z = column_height (&design, column);
      BwSection section;
      BwRing ring;
      bw_section_init (&section, &stone, z);
      bw_ring_init (&ring, &section,
                    bw_bedding_thickness (&bedding, z) + design.bead.diameter_mm / 2);
      double half = column % 2 ? ring.length_mm / design.band.rows : 0;
      BwRingPoint expected = bw_ring_point (&ring, bw_ring_ray (&ring, seam) + half);
      assert_near (place.at.x, expected.at.x, 1e-9);
      assert_near (place.at.y, expected.at.y, 1e-9);
      assert_int_equal (place.face, expected.face);
      assert_int_equal (place.corner, expected.corner);
      if (column % 2 == 0)
        assert_near (remainder (azimuth (place) - seam, 2 * G_PI), 0, 1e-9);
    }
    bw_places_clear (&places);
  }
}

static void
rows_go_counter_clockwise_once_round (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  for (int column = 1; column <= places.columns; column++) {
    double sum = 0;
    for (int row = column % 2 ? 2 : 1; row <= places.rows; row += 2) {
      double step = turn (azimuth (bw_places_get (&places, row, column)),
                          azimuth (neighbour (&places, row, column)));
      assert_true (step < 0.3);
      sum += step;
    }
    assert_near (sum, 2 * G_PI, 1e-9);
  }
  /* Beads of one row lie between those of the rows beside it. */
  for (int row = 1; row + 2 <= places.rows; row++)
    for (int column = 2; column < places.columns; column++) {
      if (!bw_lattice_has (row, column))
        continue;
      double here = azimuth (bw_places_get (&places, row, column));
      double up = azimuth (bw_places_get (&places, row + 1, column + 1));
      double next = azimuth (bw_places_get (&places, row + 2, column));
      assert_true (turn (here, up) < turn (here, next));
    }
  bw_places_clear (&places);
}

static void
the_foot_lies_on_the_face_or_corner_named (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  int on_corner = 0;
  for (int row = 1; row <= places.rows; row++)
    for (int j = 0; j < places.columns / 2; j++) {
      BwPlace place = bw_places_get (&places, row, bw_lattice_column (row, j));
      BwSection section;
      bw_section_init (&section, &stone, place.at.z);
      if (place.corner >= 0) {
        on_corner++;
        BwVec2 off = bw_vec2_sub (place.foot, section.corner[place.corner]);
        assert_near (bw_vec2_length (off), 0, 1e-9);
      } else {
        BwVec2 normal = bw_stone_normal (6, place.face);
        double scale = bw_stone_prism_scale (&stone, place.at.z);
        assert_near (bw_vec2_dot (place.foot, normal), stone.h_mm[place.face] * scale, 1e-9);
        assert_true (fabs (place.along_mm)
                     <= bw_section_face_width_mm (&section, place.face) / 2 + 1e-9);
      }
    }
  assert_true (on_corner > 20);
  bw_places_clear (&places);
}

static BwVec3
at_index (const BwPlaces *places, int i)
{
  int per_row = places->columns / 2, row = i / per_row + 1;
  return bw_places_get (places, row, bw_lattice_column (row, i % per_row)).at;
}

/* The farthest two points are apart across the axis: the greatest breadth by another way. */
static void
the_finished_breadth_is_how_far_the_farthest_two_things_are_apart (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (69);
  for (int k = 0; k < 6; k++) {
    BwStone stone;
    BwPlaces places;
    BwDesign design = sample_random_design (rand, &stone);
    double most = 0;
    bw_places_init_closed (&places, &design, &stone);
    int n = places.rows * places.columns / 2;
    for (int i = 0; i < n; i++) {
      BwVec3 a = at_index (&places, i);
      for (int j = 0; j < i; j++) {
        BwVec3 b = at_index (&places, j);
        most = fmax (most, hypot (a.x - b.x, a.y - b.y) + design.bead.diameter_mm);
      }
      for (int j = 0; j < stone.n_vertices; j++)
        most = fmax (most, hypot (a.x - stone.vertex[j].x, a.y - stone.vertex[j].y)
                               + design.bead.diameter_mm / 2);
    }
    for (int i = 0; i < stone.n_vertices; i++)
      for (int j = 0; j < i; j++)
        most = fmax (most, hypot (stone.vertex[i].x - stone.vertex[j].x,
                                  stone.vertex[i].y - stone.vertex[j].y));
    BwFinished size = bw_finished_size (&design, &stone, &places);
    assert_true (fabs (size.breadth_mm - most) <= 4e-5 * most);
    assert_true (fabs (size.length_mm - design.stone.length_mm) < 1e-12);
    bw_places_clear (&places);
  }
}

static void
splay_is_the_greatest_turn_between_neighbours (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (62);
  int over = 0;
  for (int k = 0; k < DESIGNS; k++) {
    BwStone stone;
    BwPlaces places;
    BwSplay splay;
    double greatest = 0;
    BwDesign design = sample_random_design (rand, &stone);
    bw_places_init_closed (&places, &design, &stone);
    bw_splay_init (&splay, &places, &design);
    for (int row = 1; row <= places.rows; row++)
      for (int j = 0; j < places.columns / 2; j++) {
        int column = bw_lattice_column (row, j);
        BwPlace a = bw_places_get (&places, row, column);
        BwPlace b = neighbour (&places, row, column);
        greatest = MAX (greatest, acos (CLAMP (bw_vec2_dot (a.normal, b.normal), -1, 1)));
      }
    assert_near (splay.max_deg, bw_degrees (greatest), 1e-6);
    BwPlace a = bw_places_get (&places, splay.row, splay.column);
    BwPlace b = neighbour (&places, splay.row, splay.column);
    assert_near (acos (bw_vec2_dot (a.normal, b.normal)), greatest, 1e-6);
    assert_int_equal (splay.n_corners_over > 0, splay.max_deg > BW_SPLAY_LIMIT_DEG);
    over += splay.n_corners_over > 0;
    bw_places_clear (&places);
  }
  assert_true (over > 0 && over < DESIGNS);
}

/* Two columns of beads round three corners: somewhere on the way of the seam the join lies over a
 * corner, and the greatest turn across it. */
static void
the_join_splays_like_any_other_place (void **state)
{
  int at_the_join = 0;
  BwDesign design = sample_design ();
  design.stone.faces = 3;
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 60;
  design.stone.has_second = FALSE;
  design.stone.apex_offset_mm[0] = design.stone.apex_offset_mm[1] = 0;
  design.band.columns = 2;
  for (design.band.seam_deg = 0; design.band.seam_deg < 120; design.band.seam_deg += 0.5) {
    design.band.rows = 78 + 2 * ((int)design.band.seam_deg % 7);
    BwStone stone;
    BwPlaces places;
    BwSplay splay;
    double greatest = 0;
    gboolean joined = FALSE;
    sample_solve (&design, &stone);
    bw_places_init_closed (&places, &design, &stone);
    bw_splay_init (&splay, &places, &design);
    for (int row = 1; row <= places.rows; row++) {
      int column = bw_lattice_column (row, 0);
      BwPlace a = bw_places_get (&places, row, column);
      BwPlace b = neighbour (&places, row, column);
      double turned = acos (CLAMP (bw_vec2_dot (a.normal, b.normal), -1, 1));
      if (turned > greatest + 1e-6) {
        greatest = turned;
        joined = row + 2 > places.rows && row % 2;
      }
    }
    assert_near (splay.max_deg, bw_degrees (greatest), 1e-6);
    at_the_join += joined;
    bw_places_clear (&places);
  }
  assert_true (at_the_join > 0);
}

/* A pentagon of girth 60 mm: across the place that 89 rows leave empty the normals turn by 72°, and
 * nowhere else by more than 49°. */
static void
a_place_that_odd_rows_leave_empty_does_not_splay (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwSplay splay;
  BwDesign design = sample_design ();
  design.stone.faces = 5;
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 60;
  design.stone.has_second = FALSE;
  design.stone.apex_offset_mm[0] = design.stone.apex_offset_mm[1] = 0;
  design.bed.cord_thickness_mm = 1.05;
  design.band.seam_deg = 110;
  design.band.rows = 89;
  sample_solve (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  bw_splay_init (&splay, &places, &design);
  assert_near (splay.max_deg, 49.1, 0.1);
  assert_int_equal (splay.n_corners_over, 0);
  bw_places_clear (&places);
}

/* A rounded stone has no corner to tell. */
static void
beads_over_no_face_splay_at_no_corner (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwSplay faced, rounded;
  BwDesign design = sample_design ();
  design.stone.faces = 3;
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 90;
  design.stone.has_second = FALSE;
  design.bed.layers = 0;
  sample_solve (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  bw_splay_init (&faced, &places, &design);
  assert_true (faced.n_corners_over > 0);
  for (guint i = 0; i < places.courses->len; i++)
    for (int k = 0; k < BW_FACES_MAX; k++)
      g_array_index (places.courses, BwCourse, i).ring.face[k] = -1;
  bw_splay_init (&rounded, &places, &design);
  assert_near (rounded.max_deg, faced.max_deg, 0);
  assert_int_equal (rounded.n_corners_over, 0);
  bw_places_clear (&places);
}

/* Three-sided stones turn by 120° at each corner: without a bed every one of them splays. */
static void
a_bed_of_the_cure_brings_splay_to_its_limit (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwSplay splay;
  BwDesign design = sample_design ();
  design.stone.faces = 3;
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 90;
  design.stone.has_second = FALSE;
  design.bed.layers = 0;
  sample_solve (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  bw_splay_init (&splay, &places, &design);
  assert_true (splay.max_deg > BW_SPLAY_LIMIT_DEG);
  assert_int_equal (splay.n_corners_over, 3);
  assert_true (splay.corner_over[0] && splay.corner_over[1] && splay.corner_over[2]);
  assert_near (splay.cure_mm, 1.6 / (2 * sin (bw_radians (32.5))) - 0.8, 1e-12);
  bw_places_clear (&places);
  design.bed.layers = 1;
  design.bed.cord_thickness_mm = splay.cure_mm;
  design.band.rows = 2 * bw_fit_recommended (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  bw_splay_init (&splay, &places, &design);
  assert_true (splay.max_deg < BW_SPLAY_LIMIT_DEG * 1.02);
  bw_places_clear (&places);
}

static void
unfinished_work_lies_on_its_bed_at_its_own_pitch_and_leaves_a_gap (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwDesign design = sample_design ();
  design.band.rows = 60;
  sample_solve (&design, &stone);
  sample_true_places (&places, &design, &stone);
  for (int column = 1; column <= places.columns; column++)
    for (int row = column % 2 ? 2 : 1; row + 2 <= places.rows; row += 2)
      assert_near (
          distance (bw_places_get (&places, row, column), bw_places_get (&places, row + 2, column)),
          1.6, 1e-9);
  assert_true (distance (bw_places_get (&places, 1, 2), bw_places_get (&places, 59, 2)) > 10);
  bw_places_clear (&places);
}

static void
a_long_band_stands_off_its_bed_until_its_pitch_closes (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwFit fit;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  design.band.rows = 2 * bw_fit_recommended (&design, &stone) + 4;
  bw_fit_init (&fit, &design, &stone, design.band.rows);
  assert_int_equal (fit.verdict, BW_VERDICT_LOOSE);
  sample_true_places (&places, &design, &stone);
  for (int column = 1; column <= places.columns; column++) {
    BwPlace place = bw_places_get (&places, column % 2 ? 2 : 1, column);
    BwVec2 at = bw_vec2 (place.at.x, place.at.y);
    double off = bw_vec2_length (bw_vec2_sub (at, place.foot)) - 0.35 - 0.8;
    assert_near (off, -fit.column[column - 1].gap_mm / (2 * G_PI), 0.02);
    for (int row = column % 2 ? 2 : 1; row <= places.rows; row += 2)
      assert_near (
          distance (bw_places_get (&places, row, column), neighbour (&places, row, column)), 1.6,
          5e-3);
  }
  bw_places_clear (&places);
}

static void
a_snug_band_lies_true_as_it_lies_closed (void **state)
{
  BwStone stone;
  BwPlaces closed, lain;
  BwDesign design = sample_design ();
  design.stone.has_second = FALSE;
  sample_solve (&design, &stone);
  design.band.rows = 2 * bw_fit_recommended (&design, &stone);
  double least;
  bw_fit_verdict (&design, &stone, design.band.rows, &least, NULL);
  assert_true (least > 0);
  bw_places_init_closed (&closed, &design, &stone);
  sample_true_places (&lain, &design, &stone);
  for (int row = 1; row <= closed.rows; row++)
    for (int j = 0; j < closed.columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      assert_near (
          distance (bw_places_get (&closed, row, column), bw_places_get (&lain, row, column)), 0,
          0);
    }
  bw_places_clear (&closed);
  bw_places_clear (&lain);
}

/* Where a face's middle lies among the beads is where the beads say it lies. */
static void
faces_and_corners_lie_among_the_beads_that_sit_on_them (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  int n = design.band.rows / 2;
  for (int column = 1; column <= places.columns; column++) {
    double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
    bw_places_faces (&design, &stone, column, n, middle, corner);
    for (int i = 0; i < 6; i++) {
      assert_true (middle[i] >= 0 && middle[i] < n && corner[i] >= 0 && corner[i] < n);
      double to_corner = fmod (corner[i] - middle[i] + n, n);
      double to_next = fmod (middle[(i + 1) % 6] - middle[i] + n, n);
      assert_true (to_corner > 0 && to_corner < to_next && to_next < n / 3.0);
    }
    for (int row = column % 2 ? 2 : 1; row <= places.rows; row += 2) {
      BwPlace place = bw_places_get (&places, row, column);
      if (place.face < 0)
        continue;
      double off = remainder (bw_lattice_pitches (row) - middle[place.face], n);
      assert_near (off, place.along_mm / 1.6, 0.5);
      if (fabs (place.along_mm) > 0.5)
        assert_true (off * place.along_mm > 0);
    }
  }
  bw_places_clear (&places);
}

static void
even_one_row_and_two_have_places (void **state)
{
  BwStone stone;
  BwDesign design = sample_design ();
  sample_solve (&design, &stone);
  for (design.band.rows = 1; design.band.rows < 8; design.band.rows++)
    for (int lay = 0; lay < 2; lay++) {
      BwPlaces places;
      BwSplay splay;
      if (lay == 0)
        bw_places_init_closed (&places, &design, &stone);
      else
        sample_true_places (&places, &design, &stone);
      for (int row = 1; row <= design.band.rows; row++)
        for (int j = 0; j < 7; j++) {
          BwPlace place = bw_places_get (&places, row, bw_lattice_column (row, j));
          assert_true (isfinite (place.at.x) && isfinite (place.at.y) && place.at.z > 0);
          assert_near (bw_vec2_length (place.normal), 1, 1e-9);
        }
      bw_splay_init (&splay, &places, &design);
      assert_true (splay.max_deg >= 0 && splay.max_deg <= 180);
      bw_places_clear (&places);
    }
}

/* What is kept of very many beads: on a prism two ways for all of them. */
static void
columns_that_are_laid_alike_share_their_way (void **state)
{
  BwStone stone;
  BwPlaces places;
  BwDesign design = sample_design ();
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 90;
  design.stone.has_second = FALSE;
  sample_solve (&design, &stone);
  bw_places_init_closed (&places, &design, &stone);
  assert_true (places.columns > 4);
  assert_int_equal (places.courses->len, 2);
  for (int row = 1; row <= places.rows; row++)
    for (int j = 0; j < places.columns / 2; j++) {
      BwPlace first = bw_places_get (&places, row, bw_lattice_column (row, 0));
      BwPlace place = bw_places_get (&places, row, bw_lattice_column (row, j));
      assert_near (place.at.x, first.at.x, 0);
      assert_near (place.at.y, first.at.y, 0);
      assert_near (place.at.z - first.at.z, 2 * j * design.gauge.column_mm, 1e-9);
    }
  bw_places_clear (&places);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (columns_that_are_laid_alike_share_their_way),
    cmocka_unit_test (beads_of_a_closed_column_are_equally_far_apart_the_join_included),
    cmocka_unit_test (even_columns_start_at_the_seam_and_odd_ones_half_a_step_on),
    cmocka_unit_test (rows_go_counter_clockwise_once_round),
    cmocka_unit_test (the_foot_lies_on_the_face_or_corner_named),
    cmocka_unit_test (the_finished_breadth_is_how_far_the_farthest_two_things_are_apart),
    cmocka_unit_test (splay_is_the_greatest_turn_between_neighbours),
    cmocka_unit_test (the_join_splays_like_any_other_place),
    cmocka_unit_test (a_place_that_odd_rows_leave_empty_does_not_splay),
    cmocka_unit_test (beads_over_no_face_splay_at_no_corner),
    cmocka_unit_test (a_bed_of_the_cure_brings_splay_to_its_limit),
    cmocka_unit_test (unfinished_work_lies_on_its_bed_at_its_own_pitch_and_leaves_a_gap),
    cmocka_unit_test (a_long_band_stands_off_its_bed_until_its_pitch_closes),
    cmocka_unit_test (a_snug_band_lies_true_as_it_lies_closed),
    cmocka_unit_test (faces_and_corners_lie_among_the_beads_that_sit_on_them),
    cmocka_unit_test (even_one_row_and_two_have_places),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
