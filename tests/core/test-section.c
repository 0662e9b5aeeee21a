/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sections: what a paper strip round the stone would read at every height. */
#include "stones.h"

#include "core/stone/section.h"

#define N_RANDOM 400

static BwSection
at (const BwStone *stone, double z)
{
  BwSection section;
  bw_section_init (&section, stone, z);
  return section;
}

static double
round_the_corners (const BwSection *section)
{
  double sum = 0;
  for (int i = 0; i < section->edges; i++)
    sum += bw_section_face_width_mm (section, i);
  return sum;
}

static void
the_girth_at_the_measuring_height_is_the_measured_one (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone_of (&drawn, rand, g_rand_int_range (rand, 3, 65), BW_MEASURED_GIRTH);
    BwStone stone = solved (&drawn.measures);
    BwSection section = at (&stone, stone.at_mm);
    assert_near (section.girth_mm, drawn.measures.values_mm[0], 1e-12);
    assert_near (round_the_corners (&section), drawn.measures.values_mm[0], 1e-12);
  }
}

static void
the_second_girth_is_found_at_its_height (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (32);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    if (drawn.measures.has_second)
      assert_near (at (&stone, drawn.measures.second_at_mm).girth_mm,
                   drawn.measures.second_girth_mm, 1e-11);
  }
}

static void
face_widths_are_the_measured_ones (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (33);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone_of (&drawn, rand, g_rand_int_range (rand, 3, 65), BW_MEASURED_FACE_WIDTHS);
    BwStone stone = solved (&drawn.measures);
    BwSection section = at (&stone, stone.at_mm);
    for (int i = 0; i < stone.faces; i++)
      assert_near (bw_section_face_width_mm (&section, i), drawn.measures.values_mm[i], 1e-9);
  }
}

static void
the_girth_told_is_the_way_round_the_corners (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (34);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    for (int j = 0; j <= 20; j++) {
      BwSection section = at (&stone, stone.length_mm * j / 20);
      assert_near (section.girth_mm, round_the_corners (&section), 1e-10);
    }
  }
}

/* Girth has no jump, the shoulders included, and between them it rises as its slope says. */
static void
the_girth_is_continuous_and_has_the_slope_it_tells (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (35);
  const double dz = 1e-6;
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    double heights[] = { stone.base_shoulder_mm, stone.shoulder_mm,
                         g_rand_double_range (rand, dz, stone.length_mm - dz) };
    for (gsize j = 0; j < G_N_ELEMENTS (heights); j++) {
      BwSection below = at (&stone, heights[j] - dz), here = at (&stone, heights[j]),
                above = at (&stone, heights[j] + dz);
      double steepest = 2 * stone.girth_mm / MIN (stone.length_mm - stone.shoulder_mm, 1);
      assert_near (below.girth_mm, here.girth_mm, steepest * dz);
      assert_near (above.girth_mm, here.girth_mm, steepest * dz);
      if (j == 2)
        assert_near ((above.girth_mm - below.girth_mm) / (2 * dz), here.slope, 1e-6);
    }
    BwSection shoulder = at (&stone, stone.shoulder_mm);
    assert_near (shoulder.slope, stone.girth_mm * stone.taper_per_mm, 1e-12);
    shoulder = at (&stone, stone.base_shoulder_mm);
    assert_near (shoulder.slope, stone.girth_mm * stone.taper_per_mm, 1e-12);
  }
}

/* Cutting the solid's own planes at height z gives the same corners. */
static void
corners_lie_on_the_planes_of_the_stone (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (36);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    double z = g_rand_double_range (rand, 0, stone.length_mm);
    BwSection section = at (&stone, z);
    int first = z > stone.shoulder_mm        ? stone.faces
                : z < stone.base_shoulder_mm ? 2 * stone.faces
                                             : 0;
    for (int i = 0; i < stone.faces; i++) {
      BwVec3 normal;
      double distance;
      bw_stone_plane (&stone, first + i, &normal, &distance);
      BwVec2 a = section.corner[i], b = section.corner[(i + stone.faces - 1) % stone.faces];
      assert_near (normal.x * a.x + normal.y * a.y + normal.z * z, distance, 1e-9);
      assert_near (normal.x * b.x + normal.y * b.y + normal.z * z, distance, 1e-9);
    }
  }
}

/* The volume is the integral of the sections' areas; on each part the area is a square of a linear
 * function, which Simpson's rule sums exactly. So is the first moment, a cubic. */
static void
sections_add_up_to_the_volume_and_its_centre (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (37);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    const double cuts[] = { 0, stone.base_shoulder_mm, stone.shoulder_mm, stone.length_mm };
    double volume = 0;
    BwVec3 moment = { 0, 0, 0 };
    for (int part = 0; part < 3; part++)
      for (int j = 0; j < 3; j++) {
        double z = cuts[part] + (cuts[part + 1] - cuts[part]) * j / 2;
        BwSection section = at (&stone, z);
        double slab
            = bw_section_area_mm2 (&section) * (cuts[part + 1] - cuts[part]) * (j == 1 ? 4 : 1) / 6;
        BwVec2 middle = bw_section_centroid (&section);
        volume += slab;
        moment = bw_vec3_add (moment, bw_vec3_scale (bw_vec3 (middle.x, middle.y, z), slab));
      }
    assert_near (volume, stone.volume_mm3, 1e-11);
    assert_near (moment.x / volume, stone.centroid.x, 1e-10);
    assert_near (moment.y / volume, stone.centroid.y, 1e-10);
    assert_near (moment.z / volume, stone.centroid.z, 1e-10);
  }
}

static void
at_a_tip_the_section_is_the_tip (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (38);
  for (int k = 0; k < 50; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    BwSection tip = at (&stone, stone.length_mm);
    assert_near (tip.girth_mm, 0, 0);
    for (int i = 0; i < stone.faces; i++) {
      assert_near (tip.corner[i].x, stone.apex.x, 1e-12);
      assert_near (tip.corner[i].y, stone.apex.y, 1e-12);
    }
    BwVec2 middle = bw_section_centroid (&tip);
    assert_near (middle.x, stone.apex.x, 1e-12);
    BwSection base = at (&stone, 0);
    if (stone.base == BW_BASE_POINT)
      assert_near (base.girth_mm, 0, 0);
    else
      assert_true (base.girth_mm > 0);
  }
}

static void
a_height_beyond_the_stone_is_brought_back_to_it (void **state)
{
  BwStoneMeasures m = bench_stone ();
  BwStone stone = solved (&m);
  BwSection low = at (&stone, -5), base = at (&stone, 0), high = at (&stone, 500);
  assert_near (low.girth_mm, base.girth_mm, 0);
  assert_near (low.z_mm, 0, 0);
  assert_near (high.z_mm, stone.length_mm, 0);
}

static void
scaling_a_section_scales_lengths_once_and_area_twice (void **state)
{
  BwStoneMeasures m = bench_stone ();
  BwStone stone = solved (&m);
  BwSection section = at (&stone, 45), twice;
  bw_section_scale (&twice, &section, 2);
  assert_near (twice.z_mm, 45, 0);
  assert_near (twice.girth_mm, 2 * section.girth_mm, 1e-15);
  assert_near (twice.slope, 2 * section.slope, 1e-15);
  assert_near (round_the_corners (&twice), twice.girth_mm, 1e-13);
  assert_near (bw_section_area_mm2 (&twice), 4 * bw_section_area_mm2 (&section), 1e-13);
}

/* At every height, at a tip where no edge has a length as well. */
static void
edges_tell_their_direction_and_their_face (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  for (int k = 0; k < 60; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    for (int j = 0; j <= 20; j++) {
      BwSection section = at (&stone, stone.length_mm * j / 20), half;
      bw_section_scale (&half, &section, 0.5);
      assert_int_equal (section.edges, stone.faces);
      for (int i = 0, next; i < section.edges; i++) {
        next = (i + 1) % section.edges;
        BwVec2 n = section.normal[i];
        BwVec2 edge = bw_vec2_sub (section.corner[next], section.corner[i]);
        assert_int_equal (section.face[i], i);
        assert_near (bw_vec2_length (n), 1, 1e-15);
        assert_near (bw_vec2_dot (edge, section.normal[next]), 0, 1e-12 * stone.girth_mm);
        assert_near (
            atan2 (bw_vec2_cross (n, section.normal[next]), bw_vec2_dot (n, section.normal[next])),
            section.turn[i], 1e-14);
        assert_near (half.turn[i], section.turn[i], 0);
        assert_near (half.normal[i].x - n.x, 0, 0);
        assert_near (half.normal[i].y - n.y, 0, 0);
        assert_int_equal (half.face[i], i);
      }
    }
  }
}

/* Regular hexagon of inradius 5: perimeter 34.641016, area 86.602540. */
static void
a_regular_hexagon_has_its_closed_form (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.values_mm[0] = m.values_mm[1] = m.values_mm[2] = 10;
  m.has_second = FALSE;
  BwStone stone = solved (&m);
  BwSection section = at (&stone, 20);
  assert_near (section.girth_mm, 34.641016, 1e-8);
  assert_near (section.girth_mm, 20 * sqrt (3), 1e-14);
  assert_near (bw_section_area_mm2 (&section), 86.602540, 1e-8);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_girth_at_the_measuring_height_is_the_measured_one),
    cmocka_unit_test (the_second_girth_is_found_at_its_height),
    cmocka_unit_test (face_widths_are_the_measured_ones),
    cmocka_unit_test (the_girth_told_is_the_way_round_the_corners),
    cmocka_unit_test (the_girth_is_continuous_and_has_the_slope_it_tells),
    cmocka_unit_test (corners_lie_on_the_planes_of_the_stone),
    cmocka_unit_test (sections_add_up_to_the_volume_and_its_centre),
    cmocka_unit_test (at_a_tip_the_section_is_the_tip),
    cmocka_unit_test (a_height_beyond_the_stone_is_brought_back_to_it),
    cmocka_unit_test (scaling_a_section_scales_lengths_once_and_area_twice),
    cmocka_unit_test (edges_tell_their_direction_and_their_face),
    cmocka_unit_test (a_regular_hexagon_has_its_closed_form),
  };
  return cmocka_run_group_tests_name ("section", tests, NULL, NULL);
}
