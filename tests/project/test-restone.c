/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How motifs were laid is remembered with the design, and the design goes on another stone. */
#include "fixture.h"

#include "core/bail/bail-loop.h"
#include "core/band/made-band.h"
#include "project/document/keys.h"
#include "project/snapshot.h"
#include "core/base/lattice.h"

#include <math.h>
#include <string.h>

static BwMade
a_motif (BwProject *project, BwMotifKind kind)
{
  const BwDesign *design = bw_project_get_design (project);
  BwMade made = { .middle = 2 };
  BwMadeBand band;
  bw_motif_init (&made.motif, kind, design->band.columns, design->band.rows);
  made.motif.colour[0] = 1;
  made.motif.colour[1] = 2;
  made.motif.repeats = design->stone.faces;
  /* There is no room on each face for more than a letter. */
  if (kind == BW_MOTIF_LETTERS)
    g_strlcpy (made.motif.text, "I", sizeof made.motif.text);
  made.motif.n_faces = design->stone.faces;
  bw_made_band_init (&band, design, bw_project_stone (project), 1, design->band.columns);
  bw_made_settle (&made, &band);
  return made;
}

static BwMade
lay (BwProject *project, BwMotifKind kind)
{
  BwMade made = a_motif (project, kind);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));
  bw_motif_draw (&made.motif, drawing);
  assert_true (bw_project_try (project, "Motif", NULL, drawing, NULL));
  bw_project_trial_is (project, &made);
  bw_project_keep_trial (project);
  return made;
}

static void
expect_motifs (BwProject *project, int n)
{
  int found;
  bw_project_get_motifs (project, &found);
  assert_int_equal (found, n);
}

/* --- Remembering -------------------------------------------------------------------------------
 */

static void
a_motif_is_remembered_when_it_is_kept_and_undone_with_it (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int n;
  BwMade made = lay (project, BW_MOTIF_CHEVRONS);
  assert_true (bw_made_equal (bw_project_get_motifs (project, &n), &made));
  expect_motifs (project, 1);
  bw_project_undo (project);
  expect_motifs (project, 0);
  bw_project_redo (project);
  expect_motifs (project, 1);
}

static void
a_motif_that_is_only_looked_at_is_not_remembered (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwMade made = a_motif (project, BW_MOTIF_CHEVRONS);
  assert_true (bw_project_try (project, "Motif", NULL, bw_project_get_drawing (project), NULL));
  bw_project_trial_is (project, &made);
  bw_project_drop_trial (project);
  expect_motifs (project, 0);
}

static void
a_file_gives_back_every_motif_byte_for_byte (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  for (BwMotifKind kind = BW_MOTIF_SCATTER; kind < BW_N_MOTIFS; kind++)
    lay (project, kind);
  gsize length, again;
  g_autofree char *data = bw_project_to_data (project, &length);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) loaded = bw_project_load_data (data, length, &error);
  if (!loaded)
    fail_msg ("%s", error->message);
  int n, m;
  const BwMade *made = bw_project_get_motifs (project, &n);
  const BwMade *found = bw_project_get_motifs (loaded, &m);
  assert_int_equal (n, 3);
  assert_int_equal (m, n);
  for (int i = 0; i < n; i++)
    assert_true (bw_made_equal (&found[i], &made[i]));
  g_autofree char *other = bw_project_to_data (loaded, &again);
  assert_string_equal (other, data);
}

static void
a_motif_laid_without_its_ground_says_so_in_the_file (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwMade made = a_motif (project, BW_MOTIF_CHEVRONS);
  g_autofree char *before = bw_project_to_data (project, NULL);
  assert_null (strstr (before, "\"ground\""));
  made.motif.leaves_ground = TRUE;
  bw_project_set_motifs (project, "Motif", &made, 1);
  gsize length;
  int n;
  g_autofree char *data = bw_project_to_data (project, &length);
  assert_non_null (strstr (data, "\"ground\": \"left\""));
  g_autoptr (BwProject) loaded = bw_project_load_data (data, length, NULL);
  assert_non_null (loaded);
  const BwMade *found = bw_project_get_motifs (loaded, &n);
  assert_int_equal (n, 1);
  assert_true (bw_made_equal (found, &made));
}

static void
a_project_without_motifs_says_nothing_of_them (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *data = bw_project_to_data (project, NULL);
  assert_null (strstr (data, "motifs"));
}

static void
a_snapshot_holds_the_motifs_too (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  lay (project, BW_MOTIF_WAVES);
  g_autoptr (BwSnapshot) snapshot = bw_snapshot_new (project);
  g_autofree char *data = bw_project_to_data (project, NULL);
  g_autofree char *copy = bw_snapshot_to_data (snapshot, NULL);
  assert_string_equal (copy, data);
}

static void
colours_of_motifs_follow_the_tray (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  int n;
  lay (project, BW_MOTIF_BARS);
  assert_true (bw_project_move_colour (project, "Move", 1, 3));
  const BwMade *made = bw_project_get_motifs (project, &n);
  assert_int_equal (made->motif.colour[0], 3);
  assert_int_equal (made->motif.colour[1], 1);
  assert_true (bw_project_remove_colour (project, "Remove", 3, 0, NULL));
  made = bw_project_get_motifs (project, &n);
  assert_int_equal (made->motif.colour[0], 0);
  assert_int_equal (bw_anew_by_hand (bw_project_get_drawing (project), made, n), 0);
  bw_project_undo (project);
  made = bw_project_get_motifs (project, &n);
  assert_int_equal (made->motif.colour[0], 3);
}

/* --- What a file may say -----------------------------------------------------------------------
 */

/* A sound project with these motifs in it. */
static BwProject *
load_with (const char *motifs, GError **error)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *data = bw_project_to_data (project, NULL);
  g_autofree char *with = g_strdup_printf ("{ \"motifs\": %s,%s", motifs, strchr (data, '{') + 1);
  return bw_project_load_data (with, strlen (with), error);
}

static void
the_least_a_motif_must_say_is_kind_colours_and_band (void **state)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = load_with (
      "[{\"kind\":\"bars\",\"colours\":[\"a\",\"b\"],\"columns\":12,\"rows\":98,\"mine\":7}]",
      &error);
  if (!project)
    fail_msg ("%s", error->message);
  expect_motifs (project, 1);
  g_autofree char *data = bw_project_to_data (project, NULL);
  assert_non_null (strstr (data, "\"mine\": 7"));
}

static void
every_fault_of_a_motif_names_its_place (void **state)
{
  static const struct {
    const char *motifs, *pointer;
  } wrong[] = {
    { "7", "/motifs" },
    { "[7]", "/motifs/0" },
    { "[{}]", "/motifs/0/kind" },
    { "[{\"kind\":\"plaid\"}]", "/motifs/0/kind" },
    { "[{\"kind\":\"bars\",\"columns\":12,\"rows\":98}]", "/motifs/0/colours" },
    { "[{\"kind\":\"bars\",\"colours\":[],\"columns\":12,\"rows\":98}]", "/motifs/0/colours" },
    { "[{\"kind\":\"bars\",\"colours\":[\"z\"],\"columns\":12,\"rows\":98}]",
      "/motifs/0/colours/0" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\",\"\"],\"columns\":12,\"rows\":98}]",
      "/motifs/0/colours/1" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":11,\"rows\":98}]", "/motifs/0/columns" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98000}]", "/motifs/0/rows" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"seed\":-1}]",
      "/motifs/0/seed" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"dither\":\"much\"}]",
      "/motifs/0/dither" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"ground\":\"some\"}]",
      "/motifs/0/ground" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"faces\":[[0,1]]}]",
      "/motifs/0/faces" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"faces\":[[0,1],[2,3],["
      "4]]}]",
      "/motifs/0/faces/2" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"faces\":[[0,1],[2,1],["
      "4,1]]}]",
      "/motifs/0" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"last_column\":13}]",
      "/motifs/0" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"size\":1e9}]",
      "/motifs/0" },
    { "[{\"kind\":\"letters\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"text\":\"\"}]",
      "/motifs/0" },
    { "[{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98,\"middle_face\":65}]",
      "/motifs/0/middle_face" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    g_autoptr (GError) error = NULL;
    assert_null (load_with (wrong[i].motifs, &error));
    g_autofree char *pointer = bw_fault_dup_pointer (error);
    assert_string_equal (pointer, wrong[i].pointer);
  }
}

static void
more_motifs_than_are_kept_are_refused (void **state)
{
  g_autoptr (GString) motifs = g_string_new ("[");
  for (int i = 0; i <= BW_MADE_MAX; i++)
    g_string_append_printf (motifs,
                            "%s{\"kind\":\"bars\",\"colours\":[\"a\"],\"columns\":12,\"rows\":98}",
                            i ? "," : "");
  g_string_append (motifs, "]");
  g_autoptr (GError) error = NULL;
  assert_null (load_with (motifs->str, &error));
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  assert_string_equal (pointer, "/motifs");
}

/* --- On another stone --------------------------------------------------------------------------
 */

static BwStoneMeasures
thinner (BwProject *project)
{
  BwStoneMeasures stone = bw_project_get_design (project)->stone;
  for (int i = 0; i < 3; i++)
    stone.values_mm[i] *= 0.8;
  return stone;
}

static void
on_its_own_stone_the_design_is_what_it_was (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  lay (project, BW_MOTIF_CHEVRONS);
  assert_true (bw_project_set_bead (project, "Bead", FALSE, 5, 6, 3));
  for (BwAnewWay way = 0; way < BW_ANEW_GROUND; way++) {
    g_autoptr (BwProject) other = bw_project_restone (
        project, &bw_project_get_design (project)->stone, NULL, way, NULL, NULL);
    assert_non_null (other);
    assert_true (
        bw_drawing_equal (bw_project_get_drawing (other), bw_project_get_drawing (project)));
    assert_int_equal (
        bw_design_difference (bw_project_get_design (other), bw_project_get_design (project)), 0);
  }
}

static void
another_stone_gets_its_own_rows_and_the_motif_its_own_faces (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwStoneMeasures stone = thinner (project);
  int n, left_out;
  stone.faces = 5;
  stone.measured = BW_MEASURED_FACE_WIDTHS;
  for (int i = 0; i < 5; i++)
    stone.values_mm[i] = 12;
  lay (project, BW_MOTIF_DIAMONDS);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) other
      = bw_project_restone (project, &stone, NULL, BW_ANEW_GROUND, &left_out, &error);
  if (!other)
    fail_msg ("%s", error->message);
  const BwDesign *design = bw_project_get_design (other);
  const BwMade *made = bw_project_get_motifs (other, &n);
  assert_int_equal (design->band.rows, 2 * bw_fit_recommended (design, bw_project_stone (other)));
  assert_int_not_equal (design->band.rows, bw_project_get_design (project)->band.rows);
  assert_int_equal (left_out, 0);
  assert_int_equal (n, 1);
  assert_int_equal (made->motif.n_faces, 5);
  assert_int_equal (made->rows, design->band.rows);
  assert_int_equal (bw_anew_by_hand (bw_project_get_drawing (other), made, n), 0);
  assert_int_equal (bw_project_get_tray (other)->n_colours,
                    bw_project_get_tray (project)->n_colours);
  /* 180° was the middle of the fourth of six faces: of five, two are as near. */
  assert_true (fabs (fmod (design->band.seam_deg, 72)) < 1e-9);
}

static void
what_belongs_to_the_piece_stays_behind (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  BwCheck check = { 40, 33.5 };
  BwStoneMeasures stone = thinner (project);
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = 77;
  design.thread.tail_mm = 123;
  assert_true (bw_project_set_design (project, "Bed", &design, NULL));
  assert_true (bw_project_set_progress (project, "Strip", 40, &check, 1, NULL));
  bw_project_set_title (project, "Title", "Kelp lantern");
  g_autoptr (BwProject) other
      = bw_project_restone (project, &stone, NULL, BW_ANEW_REPEAT, NULL, NULL);
  int n;
  bw_project_get_checks (other, &n);
  assert_int_equal (n, 0);
  assert_int_equal (bw_project_get_rows_done (other), 0);
  assert_string_equal (bw_project_get_title (other), "");
  assert_null (bw_project_get_file (other));
  assert_string_equal (bw_project_get_id (other), "");
  assert_false (bw_project_get_design (other)->bed.has_girth_over);
  assert_true (bw_project_get_design (other)->thread.tail_mm == 123);
  /* What the strip told of the hands goes along. */
  assert_true (fabs (bw_project_get_design (other)->gauge.pitch_mm
                     - bw_project_get_design (project)->pitch.mm)
               < 1e-12);
}

static void
a_stone_that_the_design_cannot_stand_on_is_an_error (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwStoneMeasures stone = bw_project_get_design (project)->stone;
  g_autoptr (GError) error = NULL;
  stone.values_mm[0] = -3;
  assert_null (bw_project_restone (project, &stone, NULL, BW_ANEW_REPEAT, NULL, &error));
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  assert_string_equal (pointer, "/stone/values_mm/0");
}

static void
what_is_still_made_up_is_marked (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwStoneMeasures stone = thinner (project);
  BwExamples examples = bw_examples_all (&stone);
  g_autoptr (BwProject) marked
      = bw_project_restone (project, &stone, &examples, BW_ANEW_REPEAT, NULL, NULL);
  g_autoptr (BwProject) plain
      = bw_project_restone (project, &stone, NULL, BW_ANEW_REPEAT, NULL, NULL);
  assert_true (bw_project_stone_is_example (marked));
  assert_false (bw_project_stone_is_example (plain));
}

static void
laying_anew_is_one_step (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  lay (project, BW_MOTIF_CHEVRONS);
  BwDesign design = *bw_project_get_design (project);
  design.stone = thinner (project);
  assert_true (bw_project_set_design (project, "Stone", &design, NULL));
  g_autofree char *before = bw_project_to_data (project, NULL);
  assert_true (bw_project_lay_anew (project, "Lay anew", BW_ANEW_GROUND, NULL, NULL));
  const BwDesign *now = bw_project_get_design (project);
  int n;
  const BwMade *made = bw_project_get_motifs (project, &n);
  assert_true (now->band.rows < design.band.rows);
  assert_int_equal (made->rows, now->band.rows);
  assert_int_equal (bw_anew_by_hand (bw_project_get_drawing (project), made, n), 0);
  assert_string_equal (bw_project_undo_label (project), "Lay anew");
  bw_project_undo (project);
  g_autofree char *after = bw_project_to_data (project, NULL);
  assert_string_equal (after, before);
}

static void
a_loop_over_the_tip_is_as_long_as_the_new_stone_makes_it (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  bw_bail_reach_over (&design, bw_project_stone (project));
  assert_true (bw_project_set_design (project, "Over", &design, NULL));
  BwStoneMeasures measures = design.stone;
  for (int i = 0; i < bw_stone_value_count (measures.measured, measures.faces); i++)
    measures.values_mm[i] *= 1.5;
  measures.length_mm *= 1.4;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) other
      = bw_project_restone (project, &measures, NULL, BW_ANEW_REPEAT, NULL, &error);
  assert_non_null (other);
  const BwDesign *there = bw_project_get_design (other);
  const BwLoop *loop = &bw_project_hang (other)->loop;
  assert_true (fabs (there->bail.base_beads - there->band.rows / 4.0) <= 0.5);
  assert_true (there->bail.rows > design.bail.rows);
  assert_int_equal (there->bail.rows, loop->rows_needed);
  assert_int_equal (bw_drawing_rows (bw_project_get_bail_drawing (other)), there->bail.rows);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_loop_over_the_tip_is_as_long_as_the_new_stone_makes_it),
    cmocka_unit_test (a_motif_is_remembered_when_it_is_kept_and_undone_with_it),
    cmocka_unit_test (a_motif_that_is_only_looked_at_is_not_remembered),
    cmocka_unit_test (a_file_gives_back_every_motif_byte_for_byte),
    cmocka_unit_test (a_motif_laid_without_its_ground_says_so_in_the_file),
    cmocka_unit_test (a_project_without_motifs_says_nothing_of_them),
    cmocka_unit_test (a_snapshot_holds_the_motifs_too),
    cmocka_unit_test (colours_of_motifs_follow_the_tray),
    cmocka_unit_test (the_least_a_motif_must_say_is_kind_colours_and_band),
    cmocka_unit_test (every_fault_of_a_motif_names_its_place),
    cmocka_unit_test (more_motifs_than_are_kept_are_refused),
    cmocka_unit_test (on_its_own_stone_the_design_is_what_it_was),
    cmocka_unit_test (another_stone_gets_its_own_rows_and_the_motif_its_own_faces),
    cmocka_unit_test (what_belongs_to_the_piece_stays_behind),
    cmocka_unit_test (a_stone_that_the_design_cannot_stand_on_is_an_error),
    cmocka_unit_test (what_is_still_made_up_is_marked),
    cmocka_unit_test (laying_anew_is_one_step),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
