/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ring: what must hold of equal chords round any section. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "core/band/ring.h"
#include "samples.h"

#define SECTIONS 200

static double
distance (BwVec2 a, BwVec2 b)
{
  return bw_vec2_length (bw_vec2_sub (a, b));
}

static double
chord_between (const BwRing *ring, double u, double v)
{
  return distance (bw_ring_point (ring, u).at, bw_ring_point (ring, v).at);
}

static void
random_ring (BwRing *ring, BwSection *section, GRand *rand)
{
  sample_random_section (section, rand);
  bw_ring_init (ring, section, sample_between (rand, 0.65, 3));
}

/* Steiner's formula: a parallel curve of a convex one is longer by 2πρ. */
static void
the_curve_is_the_girth_and_a_full_circle_of_rho_long (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    double expected = section.girth_mm + 2 * G_PI * ring.rho_mm, walked = 0;
    assert_near (ring.length_mm, expected, 1e-9);
    for (int i = 0; i < 20000; i++)
      walked += chord_between (&ring, i * expected / 20000, (i + 1) * expected / 20000);
    assert_near (walked, expected, 1e-4);
  }
}

static void
every_point_is_rho_from_its_foot_along_its_normal (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    BwRingPoint point = bw_ring_point (&ring, sample_between (rand, -500, 500));
    BwVec2 from_foot = bw_vec2_sub (point.at, point.foot);
    assert_near (bw_vec2_length (point.normal), 1, 1e-12);
    assert_near (bw_vec2_dot (from_foot, point.normal), ring.rho_mm, 1e-9);
    assert_near (bw_vec2_cross (from_foot, point.normal), 0, 1e-9);
    assert_true ((point.face >= 0) != (point.corner >= 0));
    if (point.corner >= 0) {
      assert_near (distance (point.foot, section.corner[point.corner]), 0, 1e-12);
      continue;
    }
    int i = point.face;
    BwVec2 a = section.corner[(i + section.edges - 1) % section.edges], b = section.corner[i];
    BwVec2 middle = bw_vec2_scale (bw_vec2_add (a, b), 0.5);
    BwVec2 along = bw_vec2_scale (bw_vec2_sub (b, a), 1 / distance (a, b));
    BwVec2 off = bw_vec2_sub (point.foot, middle);
    assert_near (bw_vec2_dot (off, along), point.along_mm, 1e-9);
    assert_near (bw_vec2_cross (off, along), 0, 1e-9);
  }
}

static void
n_chords_come_back_to_their_start_after_one_turn (void **state)
{
  static const int counts[] = { 3, 4, 5, 7, 12, 31, 57, 120, 400 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    for (gsize i = 0; i < G_N_ELEMENTS (counts); i++) {
      int n = counts[i];
      double start = sample_between (rand, -100, 100), u = start;
      double s = bw_ring_chord (&ring, n, start);
      /* Beyond 2ρ the walk may jump, and then no chord need close exactly. */
      if (s > 2 * ring.rho_mm)
        continue;
      for (int j = 0; j < n; j++)
        assert_true (bw_ring_advance (&ring, &u, s));
      assert_near (u, start + ring.length_mm, 1e-9);
    }
  }
}

static void
an_advance_ends_at_the_first_point_that_far_away (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);
  int beyond_two_rho = 0, none = 0;
  for (int k = 0; k < 5 * SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    double u = sample_between (rand, 0, ring.length_mm);
    double s = sample_between (rand, 0.1, 0.45 * ring.length_mm);
    double v = u;
    gboolean found = bw_ring_advance (&ring, &v, s);
    double end = found ? v : u + ring.length_mm;
    beyond_two_rho += s > 2 * ring.rho_mm;
    none += !found;
    if (!found)
      assert_near (v, u, 0);
    else
      assert_near (chord_between (&ring, u, v), s, 1e-9);
    for (int i = 0; i < 500; i++)
      assert_true (chord_between (&ring, u, u + (end - u) * i / 500) < s + 1e-9);
  }
  assert_true (beyond_two_rho > 100);
  assert_true (none > 100);
}

/* A knife edge of a stone: from one flat the far one is met only at the end, though the arc between
 * comes near the length and recedes again. */
static void
a_chord_longer_than_the_bulge_goes_past_it (void **state)
{
  static const double thin[] = { 20, 0.2, 20, 0.2 };
  BwSection section;
  BwRing ring;
  sample_section (&section, 4, thin);
  bw_ring_init (&ring, &section, 1);
  /* Face 1 (along +y) from x = 20 to x = −20; the end cap reaches to x = −21. */
  double begin = ring.start[1];
  double tip = distance (bw_vec2 (20, 1.2), bw_vec2 (-21, 0));
  double short_of_tip = begin, past_tip = begin;
  assert_true (bw_ring_advance (&ring, &short_of_tip, tip - 0.01));
  assert_true (short_of_tip < begin + 40 + 1.6);
  assert_false (bw_ring_advance (&ring, &past_tip, tip + 0.05));
}

/* Four beads round a square from the middle of a face sit on the middles of all four. */
static void
four_beads_round_a_square_sit_on_its_faces (void **state)
{
  static const double square[] = { 7, 7, 7, 7 };
  BwSection section;
  BwRing ring;
  sample_section (&section, 4, square);
  bw_ring_init (&ring, &section, 1.25);
  assert_near (bw_ring_chord (&ring, 4, ring.width[0] / 2), sqrt (2) * (7 + 1.25), 1e-12);
}

/* Round a circle of radius R the chord is 2R sin(π/n). A regular 64-gon lies between the circles
 * through the middles of its faces and through its corners, and its symmetry puts n beads at one
 * distance when n divides 64. */
static void
round_a_many_sided_stone_the_chord_is_that_of_a_circle (void **state)
{
  double regular[64];
  BwSection section;
  BwRing ring;
  for (int i = 0; i < 64; i++)
    regular[i] = 11;
  sample_section (&section, 64, regular);
  bw_ring_init (&ring, &section, 1.15);
  for (int n = 4; n <= 64; n *= 2) {
    double s = bw_ring_chord (&ring, n, 0.3), half = sin (G_PI / n);
    assert_true (s >= 2 * (11 + 1.15) * half - 1e-12);
    assert_true (s <= 2 * (11 / cos (G_PI / 64) + 1.15) * half + 1e-12);
  }
  double a = section.girth_mm / (2 * G_PI);
  assert_near (bw_ring_chord (&ring, 57, 0), 2 * (a + 1.15) * sin (G_PI / 57), 1e-3);
}

static void
round_a_vanishing_stone_the_chord_is_exactly_that_of_a_circle (void **state)
{
  static const double nothing[6];
  BwSection section;
  BwRing ring;
  sample_section (&section, 6, nothing);
  bw_ring_init (&ring, &section, 1.4);
  for (int n = 3; n < 50; n++)
    assert_near (bw_ring_chord (&ring, n, 0.7), 2 * 1.4 * sin (G_PI / n), 1e-12);
}

/* Schur's comparison theorem: the curve bends nowhere more than a circle of radius ρ, so its chord
 * is nowhere shorter than that circle's for the same arc; and no chord is longer than its arc.
 * M. P. do Carmo, Differential Geometry of Curves and Surfaces, Prentice-Hall 1976, §5.7. */
static void
the_chord_lies_between_its_arc_and_the_tightest_circle (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    for (int n = 4; n < 5000; n = n * 3 / 2) {
      double s = bw_ring_chord (&ring, n, 1), arc = ring.length_mm / n;
      assert_true (s < arc * (1 + 1e-12));
      if (arc <= G_PI * ring.rho_mm)
        assert_true (s >= 2 * ring.rho_mm * sin (arc / (2 * ring.rho_mm)) * (1 - 1e-12));
    }
    double many = 20000 * bw_ring_chord (&ring, 20000, 1);
    assert_near (many / ring.length_mm, 1, 1e-5);
  }
}

static void
more_beads_mean_a_shorter_chord (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    double start = sample_between (rand, 0, 60), last = INFINITY;
    int n = (int)ceil (ring.length_mm / (2 * ring.rho_mm));
    for (int i = 0; i < 40; i++) {
      double s = bw_ring_chord (&ring, n + i, start);
      assert_true (s < last);
      last = s;
    }
  }
}

static void
moving_a_section_changes_no_chord (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section, moved;
    BwRing ring, elsewhere;
    random_ring (&ring, &section, rand);
    moved = section;
    for (int i = 0; i < section.edges; i++)
      moved.corner[i] = bw_vec2_add (section.corner[i], bw_vec2 (3.7, -1.9));
    bw_ring_init (&elsewhere, &moved, ring.rho_mm);
    assert_near (bw_ring_chord (&ring, 40, 5), bw_ring_chord (&elsewhere, 40, 5), 1e-12);
  }
}

static void
scaling_a_section_scales_its_chords (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section, larger;
    BwRing ring, scaled;
    double factor = sample_between (rand, 0.1, 10);
    random_ring (&ring, &section, rand);
    bw_section_scale (&larger, &section, factor);
    bw_ring_init (&scaled, &larger, factor * ring.rho_mm);
    double s = bw_ring_chord (&ring, 45, 2);
    assert_near (bw_ring_chord (&scaled, 45, 2 * factor) / factor, s, 1e-11);
  }
}

static void
numbering_the_faces_from_another_one_changes_no_chord (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring, turned;
    random_ring (&ring, &section, rand);
    BwSection other = section;
    double angle = 2 * G_PI / section.edges;
    for (int i = 0; i < section.edges; i++) {
      BwVec2 c = section.corner[i];
      other.corner[(i + 1) % section.edges]
          = bw_vec2 (c.x * cos (angle) - c.y * sin (angle), c.x * sin (angle) + c.y * cos (angle));
    }
    bw_ring_init (&turned, &other, ring.rho_mm);
    double here = bw_ring_chord_mean (&ring, 38, bw_ring_ray (&ring, 1));
    double there = bw_ring_chord_mean (&turned, 38, bw_ring_ray (&turned, 1 + angle));
    assert_near (here, there, 1e-11);
  }
}

static void
a_ray_leaves_the_curve_at_its_own_azimuth (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (10);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    for (int i = 0; i < 50; i++) {
      double azimuth = sample_between (rand, -10, 10);
      BwVec2 at = bw_ring_point (&ring, bw_ring_ray (&ring, azimuth)).at;
      assert_near (remainder (atan2 (at.y, at.x) - azimuth, 2 * G_PI), 0, 1e-12);
    }
  }
}

/* A section round a circle about the axis, its edges in any directions. Every edge belongs to
 * another face than its own number says, the last one to none. */
static void
uneven_section (BwSection *section, GRand *rand)
{
  double weight[12], all = 0, azimuth = 0, h = sample_between (rand, 4, 25);
  int n = g_rand_int_range (rand, 3, 13);
  for (int i = 0; i < n; i++)
    all += weight[i] = sample_between (rand, 1, 3.5 - 6.0 / n);
  *section = (BwSection){ .edges = n };
  for (int i = 0; i < n; i++) {
    double turn = 2 * G_PI * weight[i] / all, middle = azimuth + turn / 2;
    section->normal[i] = bw_vec2 (cos (azimuth), sin (azimuth));
    section->turn[i] = turn;
    section->face[i] = i + 1 < n ? (i + 1) % (n - 1) : -1;
    section->corner[i] = bw_vec2_scale (bw_vec2 (cos (middle), sin (middle)), h / cos (turn / 2));
    section->girth_mm += 2 * h * tan (turn / 2);
    azimuth += turn;
  }
}

static void
a_ring_takes_directions_turns_and_faces_from_its_section (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    uneven_section (&section, rand);
    double rho = sample_between (rand, 0.65, 3), start = sample_between (rand, 0, 40), u = start;
    bw_ring_init (&ring, &section, rho);
    assert_near (ring.length_mm, section.girth_mm + 2 * G_PI * rho, 1e-11);
    for (int i = 0; i < section.edges; i++) {
      double edge = bw_section_face_width_mm (&section, i);
      double from = ring.start[i] + edge, to = from + rho * section.turn[i];
      BwRingPoint on = bw_ring_point (&ring, ring.start[i] + edge / 3);
      BwRingPoint about = bw_ring_point (&ring, (from + to) / 2);
      assert_near (bw_vec2_cross (on.normal, section.normal[i]), 0, 1e-12);
      assert_near (on.along_mm, -edge / 6, 1e-11);
      assert_int_equal (on.face, section.face[i]);
      assert_int_equal (on.corner, -1);
      assert_near (distance (about.at, section.corner[i]), rho, 1e-12);
      assert_int_equal (about.face, -1);
      assert_int_equal (about.corner, section.face[i]);
      assert_near (chord_between (&ring, from - 1e-9, from + 1e-9), 2e-9, 1e-12);
      assert_near (chord_between (&ring, to - 1e-9, to + 1e-9), 2e-9, 1e-12);
    }
    double s = bw_ring_chord (&ring, 40, start);
    if (s > 2 * rho)
      continue;
    for (int j = 0; j < 40; j++)
      assert_true (bw_ring_advance (&ring, &u, s));
    assert_near (u, start + ring.length_mm, 1e-9);
  }
}

/* Near a tip that leans far out the axis is no longer inside. */
static void
a_ray_starts_at_the_centroid_where_the_axis_is_outside (void **state)
{
  static const double small[] = { 1, 1.1, 1, 1.05, 1, 1.1 };
  BwSection section;
  BwRing ring;
  sample_section (&section, 6, small);
  for (int i = 0; i < 6; i++)
    section.corner[i] = bw_vec2_add (section.corner[i], bw_vec2 (5, 3));
  bw_ring_init (&ring, &section, 1.15);
  BwVec2 centroid = bw_section_centroid (&section);
  for (int i = 0; i < 20; i++) {
    BwVec2 off = bw_vec2_sub (bw_ring_point (&ring, bw_ring_ray (&ring, i)).at, centroid);
    assert_near (remainder (atan2 (off.y, off.x) - i, 2 * G_PI), 0, 1e-12);
  }
}

static void
whether_a_ring_closes_is_what_its_chord_says (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    int n = g_rand_int_range (rand, 10, 80);
    double mean = bw_ring_chord_mean (&ring, n, 4);
    for (int i = -12; i <= 12; i++) {
      double s = mean * (1 + i * 1e-3 + 1e-10);
      assert_int_equal (bw_ring_closes (&ring, n, 4, s), mean <= s);
    }
  }
}

static void
the_count_of_chords_is_the_fewest_that_go_round (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  for (int k = 0; k < SECTIONS; k++) {
    BwSection section;
    BwRing ring;
    random_ring (&ring, &section, rand);
    double start = sample_between (rand, -70, 70);
    double s = sample_between (rand, 0.5, MIN (2 * ring.rho_mm, ring.length_mm / 5));
    int n = bw_ring_count (&ring, start, s);
    assert_true (bw_ring_chord (&ring, n, start) <= s);
    assert_true (bw_ring_chord (&ring, n - 1, start) > s);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_curve_is_the_girth_and_a_full_circle_of_rho_long),
    cmocka_unit_test (every_point_is_rho_from_its_foot_along_its_normal),
    cmocka_unit_test (n_chords_come_back_to_their_start_after_one_turn),
    cmocka_unit_test (an_advance_ends_at_the_first_point_that_far_away),
    cmocka_unit_test (a_chord_longer_than_the_bulge_goes_past_it),
    cmocka_unit_test (four_beads_round_a_square_sit_on_its_faces),
    cmocka_unit_test (round_a_many_sided_stone_the_chord_is_that_of_a_circle),
    cmocka_unit_test (round_a_vanishing_stone_the_chord_is_exactly_that_of_a_circle),
    cmocka_unit_test (the_chord_lies_between_its_arc_and_the_tightest_circle),
    cmocka_unit_test (more_beads_mean_a_shorter_chord),
    cmocka_unit_test (moving_a_section_changes_no_chord),
    cmocka_unit_test (scaling_a_section_scales_its_chords),
    cmocka_unit_test (numbering_the_faces_from_another_one_changes_no_chord),
    cmocka_unit_test (a_ring_takes_directions_turns_and_faces_from_its_section),
    cmocka_unit_test (a_ray_leaves_the_curve_at_its_own_azimuth),
    cmocka_unit_test (a_ray_starts_at_the_centroid_where_the_axis_is_outside),
    cmocka_unit_test (whether_a_ring_closes_is_what_its_chord_says),
    cmocka_unit_test (the_count_of_chords_is_the_fewest_that_go_round),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
