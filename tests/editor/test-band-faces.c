/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The faces under the band lie where the beads say they lie. */
#include "core/base/lattice.h"
#include "editor/cloth/band-view.h"
#include "project/project.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>
#include <cmocka.h>

#include "near.h"

/* An invented, irregular, tapered stone with a bail. */
static BwProject *
irregular_project (void)
{
  static const double widths[] = { 16, 11, 15, 13, 12, 14.5 };
  BwProject *project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;

  design.stone.faces = 6;
  design.stone.measured = BW_MEASURED_FACE_WIDTHS;
  memcpy (design.stone.values_mm, widths, sizeof widths);
  design.stone.has_second = TRUE;
  design.stone.second_girth_mm = 72;
  design.stone.second_at_mm = design.stone.at_mm + 16;
  design.bail = (BwBail){ BW_BAIL_FLAP, 6, 23, 3, 180, 3, 2 };
  assert_true (bw_project_set_design (project, "Stone", &design, &error));
  return project;
}

static void
take_faces (BwBandFaces *faces, BwProject *project)
{
  bw_band_faces_init (faces, bw_project_get_design (project), bw_project_stone (project),
                      bw_project_bail_base (project));
}

static void
each_face_lies_between_its_edges (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  BwBandFaces faces;
  take_faces (&faces, project);
  assert_int_equal (faces.faces, 6);
  for (int column = 1; column <= faces.columns; column++) {
    double sum = 0;
    for (int f = 0; f < faces.faces; f++) {
      const BwBandFace *face = bw_band_faces_get (&faces, column, f);
      const BwBandFace *next = bw_band_faces_get (&faces, column, (f + 1) % faces.faces);
      assert_true (face->left < face->middle && face->middle < face->right);
      assert_near (remainder (face->right - next->left, faces.around), 0, 1e-9);
      sum += face->right - face->left;
    }
    assert_near (sum, faces.around, 1e-9);
  }
  bw_band_faces_clear (&faces);
}

static void
a_face_s_edge_never_jumps_from_column_to_column (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  BwBandFaces faces;
  take_faces (&faces, project);
  for (int column = 2; column <= faces.columns; column++)
    for (int f = 0; f < faces.faces; f++) {
      const BwBandFace *here = bw_band_faces_get (&faces, column, f);
      const BwBandFace *below = bw_band_faces_get (&faces, column - 1, f);
      assert_true (fabs (here->middle - below->middle) < 1);
      assert_true (fabs (here->left - below->left) < 1);
      assert_true (fabs (here->right - below->right) < 1);
    }
  bw_band_faces_clear (&faces);
}

/* Every bead that sits on a face lies between the marks of that face in its column. */
static void
a_bead_on_a_face_lies_between_that_face_s_marks (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  const BwPlaces *places = bw_project_places (project);
  BwBandFaces faces;
  int on_faces = 0;
  take_faces (&faces, project);
  for (int row = 1; row <= places->rows; row++)
    for (int column = 1; column <= places->columns; column++) {
      if (!bw_lattice_has (row, column) || bw_places_get (places, row, column).face < 0)
        continue;
      int f = bw_places_get (places, row, column).face;
      const BwBandFace *face = bw_band_faces_get (&faces, column, f);
      double u = bw_lattice_pitches (row);
      u -= faces.around * floor ((u - face->left) / faces.around);
      assert_true (u < face->right);
      on_faces++;
    }
  assert_true (on_faces > 100);
  bw_band_faces_clear (&faces);
}

static void
the_bail_at_the_seam_lies_over_the_join (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  const BwDesign *design = bw_project_get_design (project);
  BwBandFaces faces;
  assert_near (design->bail.at_deg, design->band.seam_deg, 1e-12);
  take_faces (&faces, project);
  assert_true (faces.has_bail);
  double middle = (faces.bail_left + faces.bail_right) / 2;
  assert_true (fabs (remainder (middle, faces.around)) <= 0.5);
  assert_near (remainder (faces.bail_left, 0.5), 0, 1e-9);
  assert_near (faces.bail_right - faces.bail_left, 3, 1e-9);
  assert_near (faces.bail_top - faces.bail_bottom, 6, 1e-9);
  assert_near (faces.bail_top + faces.bail_bottom, faces.columns, 1e-9);
  bw_band_faces_clear (&faces);
}

static void
the_bail_goes_round_with_its_azimuth (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  BwDesign design = *bw_project_get_design (project);
  double before = 0, turned = 0, around = 0;
  for (int step = 0; step <= 24; step++) {
    BwBandFaces faces;
    design.bail.at_deg = fmod (design.band.seam_deg + step * 15, 360);
    assert_true (bw_project_set_design (project, "Bail", &design, NULL));
    take_faces (&faces, project);
    double middle = (faces.bail_left + faces.bail_right) / 2;
    double ahead = remainder (middle - before, faces.around);
    assert_true (step == 0 || ahead > 0);
    turned += step == 0 ? 0 : ahead;
    before = middle;
    around = faces.around;
    bw_band_faces_clear (&faces);
  }
  assert_near (turned, around, 1e-9);
}

static void
turning_by_faces_visits_each_once_a_turn (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  BwBandFaces faces;
  take_faces (&faces, project);
  double start = bw_band_faces_next (&faces, 3, 0, 1), u = start;
  for (int f = 0; f < faces.faces; f++) {
    double next = bw_band_faces_next (&faces, 3, u, 1);
    assert_true (next > u);
    assert_near (bw_band_faces_next (&faces, 3, next, -1), u, 1e-9);
    u = next;
  }
  assert_near (u - start, faces.around, 1e-9);
  bw_band_faces_clear (&faces);
}

/* Columns above the band's lower edge, as many as the millimetres are. */
static void
the_stone_reaches_beyond_the_band_to_scale (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  const BwStone *stone = bw_project_stone (project);
  const BwDesign *design = bw_project_get_design (project);
  double bottom = design->band.bottom_mm, column = design->gauge.column_mm;
  BwBandFaces faces;
  take_faces (&faces, project);
  assert_near (faces.foot * column, -bottom, 1e-9);
  assert_near (faces.heel, faces.foot, 1e-9);
  assert_near (faces.shoulder * column, stone->shoulder_mm - bottom, 1e-9);
  assert_near (faces.tip * column, stone->length_mm - bottom, 1e-9);
  bw_band_faces_clear (&faces);
}

/* What a view keeps of the faces holds until it is told that it does not. */
static void
faces_are_solved_anew_once_they_are_spoilt (void **state)
{
  g_autoptr (BwProject) project = irregular_project ();
  BwBandView view = { .project = project };
  double tip = bw_band_view_faces (&view)->tip;
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;
  design.stone.length_mm += 9;
  assert_true (bw_project_set_design (project, "Longer", &design, &error));
  bw_band_view_spoil_faces (&view);
  assert_true (bw_band_view_faces (&view)->tip > tip + 3);
  bw_band_faces_clear (&view.faces);
}

static void
a_point_beyond_any_edge_is_not_in_the_view (void **state)
{
  BwBandView view = { .layout = { .x = 30, .y = 20, .width = 300, .height = 200 } };
  static const double outside[][2] = { { 29, 100 }, { 331, 100 }, { 100, 19 }, { 100, 221 } };
  assert_true (bw_band_view_has (&view, 30, 20));
  assert_true (bw_band_view_has (&view, 329, 219));
  for (gsize i = 0; i < G_N_ELEMENTS (outside); i++)
    assert_false (bw_band_view_has (&view, outside[i][0], outside[i][1]));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_stone_reaches_beyond_the_band_to_scale),
    cmocka_unit_test (each_face_lies_between_its_edges),
    cmocka_unit_test (a_face_s_edge_never_jumps_from_column_to_column),
    cmocka_unit_test (a_bead_on_a_face_lies_between_that_face_s_marks),
    cmocka_unit_test (the_bail_at_the_seam_lies_over_the_join),
    cmocka_unit_test (the_bail_goes_round_with_its_azimuth),
    cmocka_unit_test (turning_by_faces_visits_each_once_a_turn),
    cmocka_unit_test (faces_are_solved_anew_once_they_are_spoilt),
    cmocka_unit_test (a_point_beyond_any_edge_is_not_in_the_view),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
