/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measurements a new project makes up are known as such until the maker types their own. */
#include "fixture.h"

static BwDesign
design_of (BwProject *project)
{
  return *bw_project_get_design (project);
}

static void
put (BwProject *project, const BwDesign *design)
{
  g_autoptr (GError) error = NULL;

  if (!bw_project_set_design (project, "Measure", design, &error))
    fail_msg ("%s", error->message);
}

static void
put_value (BwProject *project, int i, double mm)
{
  BwDesign design = design_of (project);

  design.stone.values_mm[i] = mm;
  put (project, &design);
}

static void
assert_examples (BwProject *project, const char *which)
{
  static const char *const pointers[]
      = { "/stone/values_mm/0", "/stone/values_mm/1", "/stone/values_mm/2",
          "/stone/at_mm",       "/stone/length_mm",   "/stone/shoulder_mm" };

  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++)
    if (bw_project_is_example (project, pointers[i]) != (which[i] == 'x'))
      fail_msg ("%s: %s was expected", pointers[i], which);
}

static void
every_measurement_of_a_new_stone_is_an_example (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();

  assert_examples (project, "xxxxxx");
  assert_true (bw_project_stone_is_example (project));
  assert_false (bw_project_is_example (project, "/stone/values_mm/3"));
  assert_false (bw_project_is_example (project, "/stone/values_mm/99"));
  assert_false (bw_project_is_example (project, "/stone/values_mm/"));
  assert_false (bw_project_is_example (project, "/stone/faces"));
  assert_false (bw_project_is_example (project, "/band/columns"));
}

static void
what_is_typed_is_the_makers_own_and_the_rest_stays (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = design_of (project);

  put_value (project, 1, 21);
  assert_examples (project, "x.xxxx");
  design = design_of (project);
  design.stone.length_mm = 60;
  design.stone.shoulder_mm = 40;
  design.stone.at_mm = 17;
  put (project, &design);
  assert_examples (project, "x.x...");
  design = design_of (project);
  design.bed.layers = 2;
  design.band.bottom_mm += 1;
  put (project, &design);
  assert_examples (project, "x.x...");
}

/* A single made-up width is enough for a wrong girth. */
static void
the_stone_is_an_example_until_the_last_of_its_widths_is_typed (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();

  put_value (project, 0, 22);
  put_value (project, 2, 22);
  assert_true (bw_project_stone_is_example (project));
  put_value (project, 1, 22);
  assert_false (bw_project_stone_is_example (project));
  assert_examples (project, "...xxx");
}

static void
undo_brings_the_mark_back_with_the_number (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();

  put_value (project, 0, 22);
  bw_project_undo (project);
  assert_examples (project, "xxxxxx");
  bw_project_redo (project);
  assert_examples (project, ".xxxxx");
}

static void
the_same_number_typed_is_confirmed_as_a_step_of_its_own (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwExamples examples = bw_project_get_examples (project);

  bw_examples_own (&examples, "/stone/values_mm/0");
  bw_examples_own (&examples, "/stone/length_mm");
  bw_examples_own (&examples, "/stone/faces");
  bw_project_set_examples (project, "Confirm", &examples);
  assert_examples (project, ".xxx.x");
  assert_string_equal (bw_project_undo_label (project), "Confirm");
  bw_project_set_examples (project, "Again", &examples);
  assert_string_equal (bw_project_undo_label (project), "Confirm");
  bw_examples_own (&examples, "/stone/at_mm");
  bw_examples_own (&examples, "/stone/shoulder_mm");
  bw_project_set_examples (project, "More", &examples);
  assert_examples (project, ".xx...");
}

static void
what_is_read_off_made_up_numbers_is_made_up (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = design_of (project);

  put_value (project, 0, 22);
  design = design_of (project);
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 75;
  put (project, &design);
  assert_examples (project, "x..xxx");
  put_value (project, 0, 76);
  assert_false (bw_project_stone_is_example (project));
  design = design_of (project);
  design.stone.measured = BW_MEASURED_FACE_WIDTHS;
  design.stone.faces = 64;
  for (int i = 0; i < 64; i++)
    design.stone.values_mm[i] = 76.0 / 64;
  put (project, &design);
  assert_examples (project, "...xxx");
  assert_false (bw_project_stone_is_example (project));
}

static void
sixty_four_faces_have_sixty_four_marks (void **state)
{
  BwStoneMeasures stone = { .faces = 64, .measured = BW_MEASURED_FACE_WIDTHS };
  BwExamples examples = bw_examples_all (&stone);

  for (int i = 0; i < 64; i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);

    assert_true (bw_examples_has (&examples, pointer));
    bw_examples_own (&examples, pointer);
    assert_false (bw_examples_has (&examples, pointer));
  }
  assert_true (examples.values == 0);
}

static void
note_design (BwProject *project, guint what, gpointer data)
{
  *(guint *)data |= what;
}

static void
a_mark_that_goes_is_told_and_derives_nothing_anew (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwExamples none = { 0 };
  const BwFit *fit = bw_project_fit (project);
  guint told = 0;

  g_signal_connect (project, "changed", G_CALLBACK (note_design), &told);
  bw_project_set_examples (project, "Mine", &none);
  assert_int_equal (told, BW_CHANGED_DESIGN);
  assert_ptr_equal (bw_project_fit (project), fit);
}

static void
a_saved_project_and_a_loaded_one_have_no_examples (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "examples.bandwright", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = bw_project_to_data (project, NULL);
  g_autoptr (BwProject) loaded = bw_project_load_data (text, strlen (text), &error);
  guint told = 0;

  assert_non_null (loaded);
  assert_false (bw_project_stone_is_example (loaded));
  assert_examples (loaded, "......");
  put_value (project, 0, 22);
  g_signal_connect (project, "changed", G_CALLBACK (note_design), &told);
  assert_true (bw_project_save (project, file, &error));
  assert_int_equal (told, BW_CHANGED_DESIGN);
  assert_examples (project, "......");
  bw_project_undo (project);
  assert_false (bw_project_stone_is_example (project));
  g_file_delete (file, NULL, NULL);
}

static void
examples_are_the_same_after_they_were_text (void **state)
{
  for (int faces = BW_FACES_MIN; faces <= BW_FACES_MAX; faces++) {
    BwStoneMeasures stone
        = { .faces = faces, .measured = BW_MEASURED_FACE_WIDTHS, .has_shoulder = faces % 3 != 0 };
    BwExamples all = bw_examples_all (&stone), some = all;

    some.values &= 0xa5a5a5a5a5a5a5a5;
    some.at = faces % 2 != 0;
    for (const BwExamples *given = &all; given; given = given == &all ? &some : NULL) {
      g_autofree char *text = bw_examples_to_text (given);
      BwExamples back = bw_examples_from_text (text, &stone);

      assert_true (bw_examples_equal (given, &back));
    }
  }
}

static void
a_text_makes_nothing_up_that_is_no_measurement_of_the_stone (void **state)
{
  const BwStoneMeasures stone = { .faces = 5, .measured = BW_MEASURED_FACE_WIDTHS };
  const BwExamples none = { 0 };
  BwExamples got;

  assert_null (bw_examples_to_text (&none));
  got = bw_examples_from_text (NULL, &stone);
  assert_true (bw_examples_equal (&got, &none));
  got = bw_examples_from_text (
      "/stone/values_mm/5  /stone/shoulder_mm /stone /stone/values_mm/-1 x", &stone);
  assert_true (bw_examples_equal (&got, &none));
  got = bw_examples_from_text ("/stone/values_mm/4 /stone/values_mm/64", &stone);
  assert_true (got.values == 16 && !got.at && !got.length);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_measurement_of_a_new_stone_is_an_example),
    cmocka_unit_test (what_is_typed_is_the_makers_own_and_the_rest_stays),
    cmocka_unit_test (the_stone_is_an_example_until_the_last_of_its_widths_is_typed),
    cmocka_unit_test (undo_brings_the_mark_back_with_the_number),
    cmocka_unit_test (the_same_number_typed_is_confirmed_as_a_step_of_its_own),
    cmocka_unit_test (what_is_read_off_made_up_numbers_is_made_up),
    cmocka_unit_test (sixty_four_faces_have_sixty_four_marks),
    cmocka_unit_test (a_mark_that_goes_is_told_and_derives_nothing_anew),
    cmocka_unit_test (a_saved_project_and_a_loaded_one_have_no_examples),
    cmocka_unit_test (examples_are_the_same_after_they_were_text),
    cmocka_unit_test (a_text_makes_nothing_up_that_is_no_measurement_of_the_stone),
  };

  return cmocka_run_group_tests_name ("examples", tests, NULL, NULL);
}
