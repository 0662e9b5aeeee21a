/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a folded group says of itself. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/form/measures.h"
#include "app/measure/matter-words.h"

static void
expect (BwProject *project, BwMatter matter, BwUnit unit, const char *words)
{
  g_autofree char *found = bw_matter_words (matter, project, unit);
  assert_string_equal (found, words);
}

static void
put (BwProject *project, const BwDesign *design)
{
  assert_true (bw_project_set_design (project, "Put", design, NULL));
}

static void
beads_are_told_with_their_columns_and_swatch (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  expect (project, BW_MATTER_BEAD, BW_UNIT_MM, "11/0 cylinder, 1.6 mm, 12 columns · no swatch yet");
  design.gauge.has_swatch = TRUE;
  design.gauge.swatch
      = (BwSwatch){ .columns = 10, .width_mm = 13.1, .rows = 24, .length_mm = 19.75 };
  put (project, &design);
  expect (project, BW_MATTER_BEAD, BW_UNIT_MM,
          "11/0 cylinder, 1.6 mm, 12 columns · swatch 1.58 mm");
  design = *bw_project_get_design (project);
  bw_bead_set_name (&design.bead, "");
  put (project, &design);
  expect (project, BW_MATTER_BEAD, BW_UNIT_MM, "beads of 1.6 mm, 12 columns · swatch 1.58 mm");
}

static void
a_bed_is_told_as_wound_as_measured_or_as_none (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.bed.layers = 0;
  put (project, &design);
  expect (project, BW_MATTER_BED, BW_UNIT_MM, "none");
  design.bed.layers = 2;
  put (project, &design);
  g_autofree char *wound = bw_matter_words (BW_MATTER_BED, project, BW_UNIT_MM);
  assert_true (g_str_has_prefix (wound, "2 layers of 0.35 mm cord · cut "));
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = bw_project_stone (project)->girth_mm + 3;
  put (project, &design);
  g_autofree char *over = bw_matter_words (BW_MATTER_BED, project, BW_UNIT_MM);
  assert_true (g_str_has_prefix (over, "girth over it "));
}

static void
stone_thread_and_piece_say_what_there_is (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  g_autofree char *rows
      = g_strdup_printf ("%d rows · Join: middle of face 4 (180°)", design.band.rows);
  g_autofree char *stone = bw_matter_words (BW_MATTER_STONE, project, BW_UNIT_MM);
  assert_true (g_str_has_prefix (stone, "quartz · "));
  expect (project, BW_MATTER_PIECE, BW_UNIT_MM, rows);
  bw_project_set_title (project, "Name", "Ebb");
  g_autofree char *named = g_strconcat ("Ebb · ", rows, NULL);
  expect (project, BW_MATTER_PIECE, BW_UNIT_MM, named);
  expect (project, BW_MATTER_THREAD, BW_UNIT_INCH,
          "0.0059 in thread · 0.0142 in needle · lengths up to 78.7 in");
}

static void
what_was_learnt_of_bed_and_thread_is_told (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.bed.has_hands = design.thread.has_hands = TRUE;
  design.bed.hands = (BwGive){ 0.17, 0.03 };
  design.thread.hands = (BwGive){ 0.012, 0.002 };
  assert_true (bw_project_set_design (project, "Learnt", &design, NULL));
  g_autofree char *bed = bw_matter_words (BW_MATTER_BED, project, BW_UNIT_MM);
  assert_true (g_str_has_suffix (bed, " · gives 17.0 % ± 3.0 %"));
  expect (project, BW_MATTER_THREAD, BW_UNIT_MM,
          "0.15 mm thread · 0.36 mm needle · stretches by 1.2 % ± 0.2 %");
}

static void
a_value_is_called_by_the_faces_it_lies_between (void **state)
{
  BwStoneMeasures stone = { .faces = 6, .measured = BW_MEASURED_ACROSS_FLATS };
  g_autofree char *across = bw_value_title (&stone, 1);
  stone.measured = BW_MEASURED_FACE_WIDTHS;
  g_autofree char *width = bw_value_title (&stone, 1);
  assert_string_equal (across, "Across faces 2 and 5");
  assert_string_equal (width, "Width of face 2");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (beads_are_told_with_their_columns_and_swatch),
    cmocka_unit_test (a_bed_is_told_as_wound_as_measured_or_as_none),
    cmocka_unit_test (stone_thread_and_piece_say_what_there_is),
    cmocka_unit_test (what_was_learnt_of_bed_and_thread_is_told),
    cmocka_unit_test (a_value_is_called_by_the_faces_it_lies_between),
  };
  return cmocka_run_group_tests_name ("matter-words", tests, NULL, NULL);
}
