/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones that can be: what was measured comes back, the body is closed and convex, and what should
 * not change does not. What cannot be is in test-stone-faults.c. */
#include "stones.h"

#include "core/stone/girths.h"

#include <string.h>

#define N_RANDOM 600

/* Cell of quartz: a = 4.9133, c = 5.4053 Å (Handbook of Mineralogy, J. W. Anthony, R. A. Bideaux,
 * K. W. Bladh, M. C. Nichols, vol. II, 1995). A rhombohedron face rises (c/a)/cos 30° for every mm
 * to the axis. */
#define QUARTZ_RISE (5.4053 / 4.9133 / cos (G_PI / 6))

static void
the_outline_that_was_measured_comes_back (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    for (int i = 0; i < stone.faces; i++) {
      BwVec2 n = bw_stone_normal (stone.faces, i);
      assert_near (stone.corner[i].x, drawn.corner[i].x, 1e-9);
      assert_near (stone.corner[i].y, drawn.corner[i].y, 1e-9);
      assert_near (stone.h_mm[i], bw_vec2_dot (n, drawn.corner[i]), 1e-9);
    }
    assert_near (stone.taper_per_mm, drawn.taper_per_mm, 1e-9);
    assert_near (stone.closing_error_mm, 0, 1e-9);
    assert_false (stone.closing_error_large);
  }
}

static void
the_body_is_closed_with_v_minus_e_plus_f_of_two (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    int n = stone.faces, edges = bw_stone_edges (&stone, NULL, 0);
    gboolean flat = stone.base == BW_BASE_FLAT;
    assert_int_equal (stone.n_vertices, flat ? 2 * n + 1 : 2 * n + 2);
    assert_int_equal (stone.n_polygons, flat ? 2 * n + 1 : 3 * n);
    assert_int_equal (stone.n_vertices - edges + stone.n_polygons, 2);
  }
}

/* Every directed edge of a polygon is run the other way by exactly one other polygon. */
static void
each_edge_is_shared_by_two_polygons_that_agree (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);
  for (int k = 0; k < 100; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    static guint8 run[BW_STONE_MAX_VERTICES][BW_STONE_MAX_VERTICES];
    memset (run, 0, sizeof run);
    for (int f = 0; f < stone.n_polygons; f++) {
      int v[BW_FACES_MAX], size = bw_stone_polygon (&stone, f, v, NULL, NULL);
      for (int i = 0; i < size; i++)
        run[v[i]][v[(i + 1) % size]]++;
    }
    for (int a = 0; a < stone.n_vertices; a++)
      for (int b = 0; b < stone.n_vertices; b++) {
        assert_in_range (run[a][b], 0, 1);
        assert_int_equal (run[a][b], run[b][a]);
      }
  }
}

static void
every_vertex_lies_inside_every_plane_and_on_its_own (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (14);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStone stone = solved (&drawn.measures);
    for (int f = 0; f < stone.n_polygons; f++) {
      BwVec3 normal;
      double distance;
      bw_stone_plane (&stone, f, &normal, &distance);
      assert_near (bw_vec3_length (normal), 1, 1e-13);
      for (int v = 0; v < stone.n_vertices; v++)
        assert_true (bw_vec3_dot (normal, stone.vertex[v]) <= distance + 1e-9);
      int own[BW_FACES_MAX], size = bw_stone_polygon (&stone, f, own, NULL, NULL);
      for (int i = 0; i < size; i++)
        assert_near (bw_vec3_dot (normal, stone.vertex[own[i]]), distance, 1e-9);
    }
  }
}

static void
polygons_are_named_in_their_order (void **state)
{
  BwStoneMeasures measures = bench_stone ();
  BwStone stone = solved (&measures);
  for (int f = 0; f < stone.n_polygons; f++) {
    BwFaceKind kind;
    int index, v[BW_FACES_MAX];
    bw_stone_polygon (&stone, f, v, &kind, &index);
    assert_int_equal (kind, f < 6 ? BW_FACE_PRISM : f < 12 ? BW_FACE_POINT : BW_FACE_BASE);
    assert_int_equal (index, f % 6);
    BwVec3 normal;
    double distance;
    bw_stone_plane (&stone, f, &normal, &distance);
    if (kind != BW_FACE_BASE)
      assert_near (atan2 (normal.y, normal.x), remainder (2 * G_PI * index / 6, 2 * G_PI), 1e-12);
    else
      assert_near (normal.z, -1, 1e-14);
  }
}

static void
edges_are_listed_once_and_no_more_than_asked_for (void **state)
{
  BwStoneMeasures measures = bench_stone ();
  BwStone stone = solved (&measures);
  int edges[32][2] = { { 0 } };
  edges[10][0] = -7;
  assert_int_equal (bw_stone_edges (&stone, edges, 10), 24);
  assert_int_equal (edges[10][0], -7);
  assert_int_equal (bw_stone_edges (&stone, edges, 32), 24);
  for (int i = 0; i < 24; i++)
    for (int j = 0; j < i; j++)
      assert_false (edges[i][0] == edges[j][0] && edges[i][1] == edges[j][1]);
}

/* A prism of regular section A with a pyramid of height H on it: V = A (h + H/3), and twice a
 * pyramid at two points. A frustum when it tapers: A h (1 + s + s²)/3. */
static void
volumes_follow_the_closed_forms (void **state)
{
  for (int n = BW_FACES_MIN; n <= BW_FACES_MAX; n++) {
    double girth = 60, area = girth * girth / (4 * n * tan (G_PI / n)), g2 = 48;
    BwStoneMeasures m = { .faces = n,
                          .measured = BW_MEASURED_GIRTH,
                          .values_mm = { girth },
                          .length_mm = 50,
                          .has_shoulder = TRUE,
                          .shoulder_mm = 40,
                          .apex_offset_mm = { 2, -1 },
                          .density_g_cm3 = 2.65 };
    assert_near (solved (&m).volume_mm3, area * (40 + 10.0 / 3), 1e-13);
    assert_near (solved (&m).mass_g, 2.65e-3 * area * (40 + 10.0 / 3), 1e-13);
    m.has_second = TRUE;
    m.second_girth_mm = g2;
    m.second_at_mm = 40;
    double s = g2 / girth;
    assert_near (solved (&m).volume_mm3, area * (40 * (1 + s + s * s) / 3 + 10 * s * s / 3), 1e-13);
    m.has_second = FALSE;
    m.base = BW_BASE_POINT;
    m.at_mm = 20;
    assert_near (solved (&m).volume_mm3, area * (30 + 20.0 / 3), 1e-13);
  }
}

/* Centre of a straight prism with a pyramid on it: (A h h/2 + A H/3 (h + H/4))/V; the tip pulls the
 * pyramid's centre a quarter of its own offset aside. */
static void
the_centre_follows_the_closed_form (void **state)
{
  BwStoneMeasures m = { .faces = 5,
                        .measured = BW_MEASURED_GIRTH,
                        .values_mm = { 60 },
                        .length_mm = 50,
                        .has_shoulder = TRUE,
                        .shoulder_mm = 40,
                        .apex_offset_mm = { 2, -1 },
                        .density_g_cm3 = 2.65 };
  BwStone stone = solved (&m);
  double prism = 40, point = 10.0 / 3, all = prism + point;
  assert_near (stone.centroid.z, (prism * 20 + point * 42.5) / all, 1e-13);
  assert_near (stone.centroid.x, point / all * 2 / 4, 1e-13);
  assert_near (stone.centroid.y, -point / all * 1 / 4, 1e-13);
}

/* Six equal rhombohedron faces on a prism of inradius 5 and length 20, worked out from the cell by
 * closed form: apex 26.351640, V = 1915.406868 mm³, centre 11.109275; 5.075828 g at 2.65 g/cm³. */
static void
a_quartz_point_is_as_worked_out_from_its_cell (void **state)
{
  BwStoneMeasures m = { .faces = 6,
                        .measured = BW_MEASURED_ACROSS_FLATS,
                        .values_mm = { 10, 10, 10 },
                        .at_mm = 5,
                        .length_mm = 20 + 5 * QUARTZ_RISE,
                        .has_shoulder = TRUE,
                        .shoulder_mm = 20,
                        .density_g_cm3 = 2.65 };
  BwStone stone = solved (&m);
  assert_near (stone.length_mm, 26.351640, 1e-6 / 26);
  assert_near (stone.volume_mm3, 1915.406868, 1e-9);
  assert_near (stone.centroid.z, 11.109275, 1e-7);
  assert_near (stone.mass_g, 5.075828, 1e-6 / 5);
}

/* The same with a point at either end and a prism 20 long: V = 2098.762929 mm³. */
static void
a_doubly_terminated_quartz_is_as_worked_out_from_its_cell (void **state)
{
  double rise = 5 * QUARTZ_RISE;
  BwStoneMeasures m = { .faces = 6,
                        .measured = BW_MEASURED_ACROSS_FLATS,
                        .values_mm = { 10, 10, 10 },
                        .at_mm = 15,
                        .length_mm = 20 + 2 * rise,
                        .has_shoulder = TRUE,
                        .shoulder_mm = 20 + rise,
                        .base = BW_BASE_POINT,
                        .density_g_cm3 = 2.65 };
  BwStone stone = solved (&m);
  assert_near (stone.base_shoulder_mm, rise, 1e-12);
  assert_near (stone.volume_mm3, 2098.762929, 1e-9);
  assert_near (stone.centroid.z, m.length_mm / 2, 1e-12);
}

static double
angle_at_shoulder (const BwStone *stone, int i)
{
  BwVec3 prism, point;
  double d;
  bw_stone_plane (stone, i, &prism, &d);
  bw_stone_plane (stone, stone->faces + i, &point, &d);
  return bw_degrees (acos (bw_vec3_dot (prism, point)));
}

/* Quartz, prism to rhombohedron 38°13′: the prism–pyramid edge of 141°47′ in Kenngott's article
 * "Quarz", Handwörterbuch der Mineralogie, Geologie und Paläontologie, vol. 3. */
static void
a_natural_angle_is_the_angle_between_the_faces (void **state)
{
  BwStoneMeasures m = bench_stone ();
  m.measured = BW_MEASURED_GIRTH;
  m.values_mm[0] = 84;
  m.has_second = m.has_shoulder = FALSE;
  m.apex_offset_mm[0] = m.apex_offset_mm[1] = 0;
  m.has_natural_angle = TRUE;
  m.natural_angle_deg = 38 + 13 / 60.0;
  BwStone stone = solved (&m);
  for (int i = 0; i < 6; i++)
    assert_near (angle_at_shoulder (&stone, i), 38 + 13 / 60.0, 1e-12);
}

static void
a_natural_angle_puts_the_shoulder_where_a_tapered_section_fits (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (15);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    drawn.measures.base = BW_BASE_FLAT;
    BwStone by_shoulder = solved (&drawn.measures);
    double mean = 0;
    for (int i = 0; i < by_shoulder.faces; i++)
      mean += by_shoulder.h_mm[i] / by_shoulder.faces;
    mean *= bw_stone_prism_scale (&by_shoulder, by_shoulder.shoulder_mm);
    drawn.measures.has_natural_angle = TRUE;
    drawn.measures.natural_angle_deg
        = bw_degrees (atan (mean / (by_shoulder.length_mm - by_shoulder.shoulder_mm)));
    drawn.measures.has_shoulder = FALSE;
    /* Rounding may lift the shoulder off a height measured on it. */
    drawn.measures.second_at_mm = MIN (drawn.measures.second_at_mm, by_shoulder.shoulder_mm - 1e-6);
    BwStone by_angle = solved (&drawn.measures);
    assert_near (by_angle.shoulder_mm, by_shoulder.shoulder_mm, 1e-6);
  }
}

static void
a_shoulder_wins_over_the_natural_angle (void **state)
{
  BwStoneMeasures m = bench_stone ();
  BwStone alone = solved (&m);
  m.has_natural_angle = TRUE;
  m.natural_angle_deg = 60;
  BwStone both = solved (&m);
  assert_memory_equal (&alone, &both, sizeof alone);
}

static void
scale_measures (BwStoneMeasures *m, double f)
{
  for (int i = 0; i < BW_FACES_MAX; i++)
    m->values_mm[i] *= f;
  double *lengths[] = { &m->at_mm,
                        &m->second_girth_mm,
                        &m->second_at_mm,
                        &m->length_mm,
                        &m->shoulder_mm,
                        &m->base_shoulder_mm,
                        &m->apex_offset_mm[0],
                        &m->apex_offset_mm[1],
                        &m->base_apex_offset_mm[0],
                        &m->base_apex_offset_mm[1] };
  for (gsize i = 0; i < G_N_ELEMENTS (lengths); i++)
    *lengths[i] *= f;
}

static void
a_stone_f_times_as_large_holds_f_cubed_as_much (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (16);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    double f = g_rand_double_range (rand, 0.2, 5);
    BwStone small = solved (&drawn.measures);
    scale_measures (&drawn.measures, f);
    BwStone large = solved (&drawn.measures);
    assert_near (large.volume_mm3, f * f * f * small.volume_mm3, 1e-10);
    assert_near (large.mass_g, f * f * f * small.mass_g, 1e-10);
    assert_near (large.girth_mm, f * small.girth_mm, 1e-10);
    assert_near (large.centroid.x, f * small.centroid.x, 1e-10);
    assert_near (large.centroid.z, f * small.centroid.z, 1e-10);
  }
}

static BwVec2
turned (BwVec2 v, double angle)
{
  return bw_vec2 (v.x * cos (angle) - v.y * sin (angle), v.x * sin (angle) + v.y * cos (angle));
}

/* Beginning to count the faces one later turns the axes by a face, and nothing else. */
static void
where_the_counting_begins_turns_nothing_else (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone (&drawn, rand);
    BwStoneMeasures m = drawn.measures;
    int n = m.faces, values = bw_stone_value_count (m.measured, n);
    double angle = 2 * G_PI / n;
    for (int i = 0; i < values; i++)
      m.values_mm[i] = drawn.measures.values_mm[(i + 1) % values];
    BwVec2 apex = turned (bw_vec2 (m.apex_offset_mm[0], m.apex_offset_mm[1]), -angle);
    BwVec2 base = turned (bw_vec2 (m.base_apex_offset_mm[0], m.base_apex_offset_mm[1]), -angle);
    m.apex_offset_mm[0] = apex.x, m.apex_offset_mm[1] = apex.y;
    m.base_apex_offset_mm[0] = base.x, m.base_apex_offset_mm[1] = base.y;
    BwStone before = solved (&drawn.measures), after = solved (&m);
    BwVec2 centre = turned (bw_vec2 (after.centroid.x, after.centroid.y), angle);
    assert_near (after.volume_mm3, before.volume_mm3, 1e-11);
    assert_near (after.girth_mm, before.girth_mm, 1e-11);
    assert_near (centre.x, before.centroid.x, 1e-10);
    assert_near (centre.y, before.centroid.y, 1e-10);
    assert_near (after.centroid.z, before.centroid.z, 1e-11);
    for (int i = 0; i < n; i++)
      assert_near (after.h_mm[i], before.h_mm[(i + 1) % n], 1e-10);
  }
}

static void
the_sections_centroid_is_on_the_axis (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (18);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn;
    draw_stone_of (&drawn, rand, g_rand_int_range (rand, 3, 65), BW_MEASURED_FACE_WIDTHS);
    BwStone stone = solved (&drawn.measures);
    double area = 0;
    BwVec2 moment = { 0, 0 };
    for (int i = 0; i < stone.faces; i++) {
      BwVec2 a = stone.corner[i], b = stone.corner[(i + 1) % stone.faces];
      area += bw_vec2_cross (a, b) / 2;
      moment = bw_vec2_add (moment, bw_vec2_scale (bw_vec2_add (a, b), bw_vec2_cross (a, b) / 6));
    }
    assert_near (bw_vec2_length (moment) / area, 0, 1e-10);
  }
}

/* Three widths of 10, 10 and 11 miss by 1 mm along the third edge. The correction takes 2/3 of that
 * off the third and gives half as much to each of the others: all three come out as 31/3. */
static void
widths_that_do_not_close_are_corrected_by_least_squares (void **state)
{
  BwStoneMeasures m = { .faces = 3,
                        .measured = BW_MEASURED_FACE_WIDTHS,
                        .values_mm = { 10, 10, 11 },
                        .length_mm = 50,
                        .has_shoulder = TRUE,
                        .shoulder_mm = 40,
                        .density_g_cm3 = 2.65 };
  BwStone stone = solved (&m);
  assert_near (stone.closing_error_mm, 1, 1e-13);
  assert_near (stone.girth_mm, 31, 1e-13);
  for (int i = 0; i < 3; i++)
    assert_near (stone.h_mm[i], 31.0 / 3 / (2 * sqrt (3)), 1e-13);
}

/* The correction is the smallest there is: it is at right angles to every change of the widths that
 * keeps the outline closed, so no other set of closing widths is nearer to the measured ones. */
static void
no_closing_widths_are_nearer_to_the_measured_ones (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (19);
  for (int k = 0; k < N_RANDOM; k++) {
    DrawnStone drawn, other;
    int n = g_rand_int_range (rand, 3, 65);
    draw_stone_of (&drawn, rand, n, BW_MEASURED_FACE_WIDTHS);
    draw_stone_of (&other, rand, n, BW_MEASURED_FACE_WIDTHS);
    for (int i = 0; i < n; i++)
      drawn.measures.values_mm[i] *= g_rand_double_range (rand, 0.97, 1.03);
    BwStone stone = solved (&drawn.measures);
    BwVec2 sum = { 0, 0 };
    double along = 0;
    for (int i = 0; i < n; i++) {
      BwVec2 edge = bw_vec2_sub (stone.corner[i], stone.corner[(i + n - 1) % n]);
      double change = drawn.measures.values_mm[i] - bw_vec2_length (edge);
      along += change * other.measures.values_mm[i];
      BwVec2 normal = bw_stone_normal (n, i);
      sum = bw_vec2_add (sum, bw_vec2_scale (normal, drawn.measures.values_mm[i]));
    }
    assert_near (along, 0, 1e-9);
    assert_near (stone.closing_error_mm, bw_vec2_length (sum), 1e-9);
  }
}

static void
a_closing_error_above_two_per_cent_asks_for_a_new_measurement (void **state)
{
  BwStoneMeasures m = { .faces = 4,
                        .measured = BW_MEASURED_FACE_WIDTHS,
                        .values_mm = { 10, 10, 10, 10 },
                        .length_mm = 50,
                        .has_shoulder = TRUE,
                        .shoulder_mm = 40,
                        .density_g_cm3 = 2.65 };
  m.values_mm[0] = 10.8;
  assert_false (solved (&m).closing_error_large);
  m.values_mm[0] = 10.85;
  assert_true (solved (&m).closing_error_large);
}

static void
each_way_of_measuring_wants_its_own_number_of_values (void **state)
{
  assert_int_equal (bw_stone_value_count (BW_MEASURED_ACROSS_FLATS, 6), 3);
  assert_int_equal (bw_stone_value_count (BW_MEASURED_ACROSS_FLATS, 7), 0);
  assert_int_equal (bw_stone_value_count (BW_MEASURED_FACE_WIDTHS, 7), 7);
  assert_int_equal (bw_stone_value_count (BW_MEASURED_GIRTH, 7), 1);
}

static void
all_ways_of_measuring_a_regular_stone_agree (void **state)
{
  for (int n = 4; n <= BW_FACES_MAX; n += 2) {
    double h = 9, width = 2 * h * tan (G_PI / n);
    BwStoneMeasures m = { .faces = n,
                          .measured = BW_MEASURED_ACROSS_FLATS,
                          .length_mm = 50,
                          .has_shoulder = TRUE,
                          .shoulder_mm = 40,
                          .density_g_cm3 = 2.65 };
    for (int i = 0; i < n; i++)
      m.values_mm[i] = 2 * h;
    BwStone flats = solved (&m);
    m.measured = BW_MEASURED_FACE_WIDTHS;
    for (int i = 0; i < n; i++)
      m.values_mm[i] = width;
    BwStone widths = solved (&m);
    m.measured = BW_MEASURED_GIRTH;
    m.values_mm[0] = n * width;
    BwStone girth = solved (&m);
    assert_near (flats.volume_mm3, girth.volume_mm3, 1e-11);
    assert_near (widths.volume_mm3, girth.volume_mm3, 1e-11);
    assert_near (flats.girth_mm, n * width, 1e-11);
  }
}

static void
measuring_and_solving_agree_on_what_is_sound (void **state)
{
  BwStoneMeasures m = bench_stone ();
  assert_true (bw_stone_measures_validate (&m, NULL));
  m.values_mm[1] = 60;
  assert_false (bw_stone_measures_validate (&m, NULL));
}

/* --- Two girths of one stone --------------------------------------------------------------------
 */

/* An error of a girth, drawn within three standard errors. */
static double
error_mm (GRand *rand, double sd_mm)
{
  return g_rand_double_range (rand, -2.1, 2.1) * sd_mm;
}

/* Random stones with a second girth, as many as are asked for. */
static BwStone
draw_with_second (DrawnStone *drawn, GRand *rand)
{
  do
    draw_stone (drawn, rand);
  while (!drawn->measures.has_second);
  drawn->measures.girth_sd_mm = g_rand_double_range (rand, 0.1, 0.8);
  return solved (&drawn->measures);
}

static void
girths_of_one_stone_are_never_said_to_disagree (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (331);
  for (int i = 0; i < 2000; i++) {
    DrawnStone drawn;
    BwGirths girths;
    BwStone stone = draw_with_second (&drawn, rand);
    drawn.measures.second_girth_mm += error_mm (rand, drawn.measures.girth_sd_mm);
    assert_false (bw_girths_disagree (&girths, &stone, &drawn.measures));
  }
}

/* Misread by what the steepest crystal and three errors of both leave, and a little more. */
static void
girths_that_no_stone_has_are_always_said_to_disagree (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (332);
  for (int i = 0; i < 2000; i++) {
    DrawnStone drawn;
    BwGirths girths;
    BwStone stone = draw_with_second (&drawn, rand);
    BwStoneMeasures *m = &drawn.measures;
    double rise = fabs (m->second_at_mm - m->at_mm);
    double off = 0.4 * stone.girth_mm * rise / m->length_mm + 3 * hypot (1, 1) * m->girth_sd_mm;
    off *= g_rand_double_range (rand, 1.01, 3);
    m->second_girth_mm = stone.girth_mm + (g_rand_boolean (rand) ? off : -off);
    assert_true (bw_girths_disagree (&girths, &stone, m));
    assert_near (fabs (girths.second_mm - girths.first_mm), off, 1e-9);
    m->has_second = FALSE;
    assert_false (bw_girths_disagree (&girths, &stone, m));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_outline_that_was_measured_comes_back),
    cmocka_unit_test (the_body_is_closed_with_v_minus_e_plus_f_of_two),
    cmocka_unit_test (each_edge_is_shared_by_two_polygons_that_agree),
    cmocka_unit_test (every_vertex_lies_inside_every_plane_and_on_its_own),
    cmocka_unit_test (polygons_are_named_in_their_order),
    cmocka_unit_test (edges_are_listed_once_and_no_more_than_asked_for),
    cmocka_unit_test (volumes_follow_the_closed_forms),
    cmocka_unit_test (the_centre_follows_the_closed_form),
    cmocka_unit_test (a_quartz_point_is_as_worked_out_from_its_cell),
    cmocka_unit_test (a_doubly_terminated_quartz_is_as_worked_out_from_its_cell),
    cmocka_unit_test (a_natural_angle_is_the_angle_between_the_faces),
    cmocka_unit_test (a_natural_angle_puts_the_shoulder_where_a_tapered_section_fits),
    cmocka_unit_test (a_shoulder_wins_over_the_natural_angle),
    cmocka_unit_test (a_stone_f_times_as_large_holds_f_cubed_as_much),
    cmocka_unit_test (where_the_counting_begins_turns_nothing_else),
    cmocka_unit_test (the_sections_centroid_is_on_the_axis),
    cmocka_unit_test (widths_that_do_not_close_are_corrected_by_least_squares),
    cmocka_unit_test (no_closing_widths_are_nearer_to_the_measured_ones),
    cmocka_unit_test (a_closing_error_above_two_per_cent_asks_for_a_new_measurement),
    cmocka_unit_test (each_way_of_measuring_wants_its_own_number_of_values),
    cmocka_unit_test (all_ways_of_measuring_a_regular_stone_agree),
    cmocka_unit_test (girths_of_one_stone_are_never_said_to_disagree),
    cmocka_unit_test (girths_that_no_stone_has_are_always_said_to_disagree),
    cmocka_unit_test (measuring_and_solving_agree_on_what_is_sound),
  };
  return cmocka_run_group_tests_name ("stone", tests, NULL, NULL);
}
