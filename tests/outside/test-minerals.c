/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Angles between the faces of real crystals, as published by those who measured them with a
 * goniometer or the cell with X-rays, against the stone that the core solves.
 *
 * Angles are between normals; old books print the inner angle of the edge, 180° less. By the
 * geometry of the hexagonal axes a pyramid face {10-11} leans off the basal plane by ρ with tan ρ =
 * (c/a)/cos 30°, a face {10-12} with half of that tangent. */
#include "stones.h"

#include <string.h>

#define MINUTES(degrees, minutes) ((degrees) + (minutes) / 60.0)

/* Half a minute, the last figure of the published angles. */
#define HALF_A_MINUTE (0.5 / 60)

/* A stone of N equal faces whose point has this natural angle. */
static BwStone
pointed (int faces, double natural_angle_deg)
{
  BwStoneMeasures m = { .faces = faces,
                        .measured = BW_MEASURED_GIRTH,
                        .values_mm = { 60 },
                        .length_mm = 90,
                        .has_natural_angle = TRUE,
                        .natural_angle_deg = natural_angle_deg,
                        .density_g_cm3 = 2.65 };
  return solved (&m);
}

static double
between (const BwStone *stone, int f, int g)
{
  BwVec3 a, b;
  double d;
  bw_stone_plane (stone, f, &a, &d);
  bw_stone_plane (stone, g, &b, &d);
  return bw_degrees (acos (bw_vec3_dot (a, b)));
}

/* Lean of a pyramid face off the basal plane; part is 1 for {10-11}, 0.5 for {10-12}. */
static double
lean_deg (double a, double c, double part)
{
  return bw_degrees (atan (part * (c / a) / cos (G_PI / 6)));
}

static void
assert_angle (double found, double published, double within)
{
  if (fabs (found - published) > within)
    fail_msg ("%.4f degrees, published %.4f", found, published);
}

/* Quartz, from one measured angle to the others. Kenngott, art. "Quarz", Handwörterbuch der
 * Mineralogie, Geologie und Paläontologie, vol. 3: prism to pyramid 141°47′ inside, so 38°13′;
 * pyramid edge 133°44′ inside, so 46°16′ (the latter also R. Brauns, Das Mineralreich, p. 262). */
static void
quartz_with_38_13_has_pyramid_edges_of_46_16 (void **state)
{
  BwStone stone = pointed (6, MINUTES (38, 13));
  for (int i = 0; i < 6; i++) {
    assert_angle (between (&stone, i, (i + 1) % 6), 60, 1e-9);
    assert_angle (between (&stone, i, 6 + i), 180 - MINUTES (141, 47), 1e-9);
    assert_angle (between (&stone, 6 + i, 6 + (i + 1) % 6), 180 - MINUTES (133, 44), HALF_A_MINUTE);
  }
}

/* The rhombohedron alone: every other face. R. Brauns, Das Mineralreich, p. 262: 94°15′ inside, so
 * 85°45′; the scan's minutes are partly illegible, and E. S. Dana has 85°46′ (from memory): within
 * a minute of both. */
static void
quartz_rhombohedron_faces_meet_at_85_45 (void **state)
{
  BwStone three = pointed (3, MINUTES (38, 13)), six = pointed (6, MINUTES (38, 13));
  assert_angle (between (&three, 3, 4), MINUTES (85, 45), 1 / 60.0);
  assert_angle (between (&three, 3, 4), MINUTES (85, 46), 1 / 60.0);
  assert_angle (between (&six, 6, 8), between (&three, 3, 4), 1e-9);
}

/* Cell of quartz a = 4.9133, c = 5.4053 Å: Handbook of Mineralogy (J. W. Anthony, R. A. Bideaux, K.
 * W. Bladh, M. C. Nichols), vol. II, 1995. */
static void
the_goniometer_and_the_cell_of_quartz_agree (void **state)
{
  double r = lean_deg (4.9133, 5.4053, 1);
  assert_angle (r, 51.790, 0.0005);
  assert_angle (90 - r, MINUTES (38, 13), HALF_A_MINUTE);
  BwStone stone = pointed (6, 90 - r);
  assert_angle (between (&stone, 6, 7), MINUTES (46, 16), HALF_A_MINUTE);
  assert_angle (between (&stone, 6, 8), MINUTES (85, 46), HALF_A_MINUTE);
}

/* A stone measured without any angle, its tip as high as the cell says: 1.270328 times the
 * inradius. */
static void
a_quartz_tip_as_high_as_the_cell_says_has_the_published_angle (void **state)
{
  BwStoneMeasures m = { .faces = 6,
                        .measured = BW_MEASURED_ACROSS_FLATS,
                        .values_mm = { 20, 20, 20 },
                        .length_mm = 40 + 10 * 1.270328,
                        .has_shoulder = TRUE,
                        .shoulder_mm = 40,
                        .density_g_cm3 = 2.65 };
  BwStone stone = solved (&m);
  assert_angle (between (&stone, 0, 6), MINUTES (38, 13), HALF_A_MINUTE);
}

/* Density from the cell: three formula units SiO₂ of 60.0843 g/mol in a² c sin 60°, Avogadro's
 * number exact since 2019 (SI). Published: 2.650 for pure rock crystal (A. H. Church, Precious
 * Stones). */
static void
quartz_weighs_what_its_cell_holds (void **state)
{
  double volume = 4.9133 * 4.9133 * 5.4053 * sin (G_PI / 3) * 1e-24;
  double density = 3 * 60.0843 / 6.02214076e23 / volume;
  BwDesign defaults;
  bw_design_defaults (&defaults);
  assert_angle (density, 2.6487, 0.0005);
  assert_angle (defaults.stone.density_g_cm3, density, 0.002);
}

/* Beryl a = 9.2129, c = 9.1980 Å (RRUFF project, R050121). The common pyramid of the old books is
 * {10-12} of this cell, c∧p 29°57′ (E. S. Dana, from memory): 60°03′ from the prism, within two
 * minutes of the cell's. */
static void
beryl_pyramids_lean_as_the_cell_says (void **state)
{
  double p = lean_deg (9.2129, 9.1980, 0.5);
  assert_angle (p, 29.94, 0.02);
  assert_angle (p, MINUTES (29, 57), 2 / 60.0);
  BwStone stone = pointed (6, 90 - p);
  for (int i = 0; i < 6; i++)
    assert_angle (between (&stone, i, 6 + i), MINUTES (60, 3), 2 / 60.0);
  /* Neighbouring faces: cos x = cos² ρ + sin² ρ cos 60°. */
  double s = sin (bw_radians (p)), c = cos (bw_radians (p));
  assert_angle (between (&stone, 6, 7), bw_degrees (acos (c * c + s * s / 2)), 1e-9);
}

/* Tourmaline: elbaite a = 15.80–15.93, c = 7.09–7.13 Å (Handbook of Mineralogy, elbaite). Its
 * rhombohedron r{10-11} ends three of the prism's faces; r∧r′ 46°52′ (E. S. Dana, from memory) lies
 * between what the two ends of the range give. */
static void
tourmaline_rhombohedra_lie_within_the_published_cells (void **state)
{
  double flattest = lean_deg (15.93, 7.09, 1), steepest = lean_deg (15.80, 7.13, 1);
  BwStone low = pointed (3, 90 - flattest), high = pointed (3, 90 - steepest);
  assert_true (between (&low, 3, 4) < MINUTES (46, 52) && MINUTES (46, 52) < between (&high, 3, 4));
  assert_angle (between (&low, 3, 4), between (&low, 4, 5), 1e-9);
  assert_angle ((between (&low, 3, 4) + between (&high, 3, 4)) / 2, 46.94, 0.1);
}

/* Fluorapatite a = 9.394, c = 6.897 Å (American Mineralogist Crystal Structure Database 0001934),
 * against the axis of the old goniometers, c = 0.7346 (E. S. Dana, from memory): within two
 * minutes. */
static void
apatite_pyramids_lean_as_the_old_axis_says (void **state)
{
  double x = lean_deg (9.394, 6.897, 1);
  BwStone stone = pointed (6, 90 - lean_deg (1, 0.7346, 1));
  for (int i = 0; i < 6; i++)
    assert_angle (between (&stone, i, 6 + i), 90 - x, 2 / 60.0);
}

/* N. Steno, De solido intra solidum naturaliter contento dissertationis prodromus, Florence 1669;
 * J.-B. L. Romé de l'Isle, Cristallographie, Paris 1783: faces grow at their own pace, so sizes
 * differ, and the angles do not. */
static void
angles_stay_when_the_faces_grow_unequally (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2021);
  for (int k = 0; k < 500; k++) {
    DrawnStone drawn;
    int faces = g_rand_int_range (rand, 3, 65);
    draw_stone_of (&drawn, rand, faces, BW_MEASURED_FACE_WIDTHS);
    drawn.measures.has_second = FALSE;
    memset (drawn.measures.apex_offset_mm, 0, sizeof drawn.measures.apex_offset_mm);
    memset (drawn.measures.base_apex_offset_mm, 0, sizeof drawn.measures.base_apex_offset_mm);
    BwStone stone = solved (&drawn.measures);
    for (int i = 0; i < faces; i++)
      assert_angle (between (&stone, i, (i + 1) % faces), 360.0 / faces, 1e-6);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (quartz_with_38_13_has_pyramid_edges_of_46_16),
    cmocka_unit_test (quartz_rhombohedron_faces_meet_at_85_45),
    cmocka_unit_test (the_goniometer_and_the_cell_of_quartz_agree),
    cmocka_unit_test (a_quartz_tip_as_high_as_the_cell_says_has_the_published_angle),
    cmocka_unit_test (quartz_weighs_what_its_cell_holds),
    cmocka_unit_test (beryl_pyramids_lean_as_the_cell_says),
    cmocka_unit_test (tourmaline_rhombohedra_lie_within_the_published_cells),
    cmocka_unit_test (apatite_pyramids_lean_as_the_old_axis_says),
    cmocka_unit_test (angles_stay_when_the_faces_grow_unequally),
  };
  return cmocka_run_group_tests_name ("minerals", tests, NULL, NULL);
}
