/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What follows from the document: never stale, never computed again without need, and the warnings
 * drawn from it. */
#include "core/base/lattice.h"
#include "edits.h"

#include <math.h>

static void
assert_arrays (const GArray *a, const GArray *b, gsize size)
{
  assert_int_equal (a->len, b->len);
  if (a->len > 0)
    assert_memory_equal (a->data, b->data, a->len * size);
}

static void
assert_places_equal (const BwPlaces *a, const BwPlaces *b)
{
  assert_int_equal (a->rows, b->rows);
  assert_int_equal (a->columns, b->columns);
  for (int row = 1; row <= a->rows; row++)
    for (int j = 0; j < a->columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      BwVec3 x = bw_places_get (a, row, column).at, y = bw_places_get (b, row, column).at;
      assert_true (bw_vec3_length (bw_vec3_sub (x, y)) < 1e-9);
    }
}

/* A cached project against one that was just read and has computed nothing yet. */
static void
assert_same_derived (BwProject *a, BwProject *b)
{
  const BwFit *fit = bw_project_fit (a), *fresh = bw_project_fit (b);

  assert_true (fabs (bw_project_stone (a)->volume_mm3 - bw_project_stone (b)->volume_mm3) < 1e-6);
  assert_int_equal (fit->verdict, fresh->verdict);
  assert_int_equal (fit->rows, fresh->rows);
  assert_true (fabs (fit->gap_max_mm - fresh->gap_max_mm) < 1e-9);
  assert_int_equal (bw_project_forecast (a)->recommended, bw_project_forecast (b)->recommended);
  assert_true (fabs (bw_project_forecast (a)->sigma_mm - bw_project_forecast (b)->sigma_mm) < 1e-9);
  assert_int_equal (bw_project_join (a)->repeat_rows, bw_project_join (b)->repeat_rows);
  assert_arrays (bw_project_join (a)->broken, bw_project_join (b)->broken, sizeof (BwBeadAt));
  assert_places_equal (bw_project_places (a), bw_project_places (b));
  assert_places_equal (bw_project_true_places (a), bw_project_true_places (b));
  assert_true (fabs (bw_project_splay (a)->max_deg - bw_project_splay (b)->max_deg) < 1e-9);
  assert_true (fabs (bw_project_hang (a)->mass_g - bw_project_hang (b)->mass_g) < 1e-9);
  assert_int_equal (bw_project_hang (a)->has_bail, bw_project_hang (b)->has_bail);
  assert_int_equal (bw_project_path (a)->visits->len, bw_project_path (b)->visits->len);
  assert_true (fabs (bw_project_path (a)->length_mm - bw_project_path (b)->length_mm) < 1e-6);
  assert_int_equal (bw_project_materials (a)->total_with_spare,
                    bw_project_materials (b)->total_with_spare);
  for (int i = 0; i < bw_project_get_tray (a)->n_colours; i++)
    assert_int_equal (bw_project_materials (a)->need[i].count,
                      bw_project_materials (b)->need[i].count);
  assert_int_equal (bw_project_materials (a)->has_cost, bw_project_materials (b)->has_cost);
  assert_true (fabs (bw_project_materials (a)->cost.total - bw_project_materials (b)->cost.total)
               < 1e-6);
}

static void
nothing_derived_is_ever_stale (void **state)
{
  for (guint32 seed = 1; seed <= 6; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    g_autoptr (BwProject) project = corpus_project ("sound.bandwright");

    for (int i = 0; i < 30; i++) {
      g_autoptr (BwProject) fresh = NULL;
      g_autofree char *text = NULL;

      random_edit (project, rand);
      if (g_rand_int_range (rand, 0, 4) == 0)
        bw_project_undo (project);
      text = bw_project_to_data (project, NULL);
      fresh = bw_project_load_data (text, strlen (text), NULL);
      assert_non_null (fresh);
      assert_same_derived (project, fresh);
    }
  }
}

static void
a_painted_bead_drops_only_what_colours_feed (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autoptr (GArray) visits = g_array_ref (bw_project_path (project)->visits);
  g_autoptr (GArray) remedies = g_array_ref ((GArray *)bw_project_remedies (project));
  const GArray *courses = bw_project_places (project)->courses;
  guint64 count = bw_project_materials (project)->need[2].count;

  assert_true (bw_project_set_bead (project, "Bead", FALSE, 1, 2, 2));
  assert_ptr_equal (bw_project_path (project)->visits, visits);
  assert_ptr_equal (bw_project_remedies (project), remedies);
  assert_ptr_equal (bw_project_places (project)->courses, courses);
  assert_int_equal (bw_project_materials (project)->need[2].count, count + 1);
}

static void
a_price_drops_neither_thread_nor_remedies (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autoptr (GArray) visits = g_array_ref (bw_project_path (project)->visits);
  g_autoptr (GArray) remedies = g_array_ref ((GArray *)bw_project_remedies (project));
  double total = bw_project_materials (project)->cost.total;
  BwDesign design = *bw_project_get_design (project);

  design.supply.hour *= 2;
  assert_true (bw_project_set_design (project, "Hour", &design, NULL));
  assert_ptr_equal (bw_project_path (project)->visits, visits);
  assert_ptr_equal (bw_project_remedies (project), remedies);
  assert_true (bw_project_materials (project)->cost.total > total);
}

static void
a_moved_band_drops_the_fit (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autoptr (GArray) visits = g_array_ref (bw_project_path (project)->visits);
  double gap = bw_project_fit (project)->gap_max_mm;
  BwDesign design = *bw_project_get_design (project);

  design.band.bottom_mm += 3;
  design.bed.has_girth_over = FALSE;
  assert_true (bw_project_set_design (project, "Move", &design, NULL));
  assert_true (fabs (bw_project_fit (project)->gap_max_mm - gap) > 0.01);
  assert_int_equal (bw_project_path (project)->visits->len, visits->len);
}

static gboolean
says (BwProject *project, guint topics, const char *words)
{
  g_auto (GStrv) warnings = bw_project_warnings_about (project, topics, BW_UNIT_MM);

  for (char **warning = warnings; *warning; warning++)
    if (strstr (*warning, words))
      return TRUE;
  return FALSE;
}

/* A project that fits, with a measured gauge and no other cause of doubt. */
static BwProject *
quiet_project (void)
{
  BwProject *project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);

  design.gauge.has_swatch = TRUE;
  design.gauge.swatch = (BwSwatch){ 10, 24, 13, 20 };
  design.bed.layers = 2;
  assert_true (bw_project_set_design (project, "Swatch", &design, NULL));
  design = *bw_project_get_design (project);
  design.band.rows = 2 * bw_fit_recommended (&design, bw_project_stone (project));
  assert_true (bw_project_set_design (project, "Rows", &design, NULL));
  return project;
}

static void
a_piece_without_doubt_is_not_warned_of (void **state)
{
  g_autoptr (BwProject) project = quiet_project ();
  g_auto (GStrv) warnings = bw_project_warnings (project, BW_UNIT_MM);

  if (warnings[0])
    fail_msg ("%s", warnings[0]);
}

static void
each_doubt_about_the_stone_and_the_fit_is_told (void **state)
{
  g_autoptr (BwProject) project = quiet_project ();
  BwDesign quiet = *bw_project_get_design (project), design = quiet;
  const BwCheck check = { .rows = 40, .length_mm = 45 };

  design.stone.measured = BW_MEASURED_FACE_WIDTHS;
  for (int i = 0; i < 6; i++)
    design.stone.values_mm[i] = i < 2 ? 14 : 12;
  assert_true (bw_project_set_design (project, "Widths", &design, NULL));
  assert_true (says (project, BW_TOPIC_STONE, "do not meet"));
  assert_false (says (project, BW_TOPIC_ALL & ~BW_TOPIC_STONE, "face widths"));
  bw_project_undo (project);
  set_rows (project, "Odd", quiet.band.rows - 1);
  assert_true (says (project, BW_TOPIC_FIT, "odd number"));
  set_rows (project, "Few", quiet.band.rows - 6);
  assert_true (says (project, BW_TOPIC_FIT, "will not close"));
  set_rows (project, "Many", quiet.band.rows + 6);
  assert_true (says (project, BW_TOPIC_FIT, "loose"));
  assert_false (says (project, BW_TOPIC_FIT, "will not close"));
  assert_true (bw_project_set_design (project, "Back", &quiet, NULL));
  design = quiet;
  design.gauge.has_swatch = FALSE;
  assert_true (bw_project_set_design (project, "No swatch", &design, NULL));
  assert_true (says (project, BW_TOPIC_FIT, "swatch"));
  assert_true (bw_project_set_progress (project, "Check", 40, &check, 1, NULL));
  assert_true (says (project, BW_TOPIC_FIT, "Is one of them a slip?"));
  assert_true (bw_project_set_progress (project, "Done", 500, NULL, 0, NULL));
  assert_true (says (project, BW_TOPIC_FIT, "500 rows are marked as done"));
  design = quiet;
  design.bed.layers = 0;
  design.stone.faces = 3;
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 70;
  assert_true (bw_project_set_design (project, "Sharp", &design, NULL));
  assert_true (says (project, BW_TOPIC_FIT, "Thread will show"));
  design = quiet;
  design.band.bottom_mm = 30;
  assert_true (bw_project_set_design (project, "High", &design, NULL));
  assert_true (says (project, BW_TOPIC_FIT, "over a shoulder"));
}

static void
a_repeat_that_breaks_at_the_join_is_told (void **state)
{
  g_autoptr (BwProject) project = quiet_project ();
  g_autoptr (BwDrawing) drawing = NULL;

  set_rows (project, "Rows", 86);
  drawing = bw_drawing_copy (bw_project_get_drawing (project));
  for (int row = 1; row <= 86; row++)
    for (int column = 1 + row % 2; column <= 12; column += 2)
      bw_drawing_set (drawing, row, column, row % 4 < 2);
  assert_true (bw_project_set_drawing (project, "Repeat", FALSE, drawing, NULL));
  assert_true (says (project, BW_TOPIC_FIT, "repeats every 4 rows, which does not go into 86"));
  assert_true (says (project, BW_TOPIC_FIT, "With 84 rows"));
  set_rows (project, "Rows", 88);
  assert_false (says (project, BW_TOPIC_FIT, "repeats"));
}

static void
each_doubt_about_the_bail_is_told (void **state)
{
  g_autoptr (BwProject) project = quiet_project ();
  BwDesign design = *bw_project_get_design (project);

  design.bail.style = BW_BAIL_FLAP;
  design.bail.rows = 3;
  design.bail.base_beads = 1;
  assert_true (bw_project_set_design (project, "Low", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "Nothing passes through the bail"));
  assert_true (says (project, BW_TOPIC_HANG, "lets the cord of"));
  design.bail.rows = 19;
  design.bail.base_beads = 3;
  design.bail.cord_mm = 5;
  assert_true (bw_project_set_design (project, "Thick cord", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "not the 5 mm wanted"));
  design.bail.cord_mm = 1;
  design.bail.rows = 24;
  assert_true (bw_project_set_design (project, "Parity", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "take 23 or 25 rows"));
  design.bail.rows = 23;
  design.band.bottom_mm = 2;
  assert_true (bw_project_set_design (project, "Off balance", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "cannot hold the stone level"));
  design.bail.style = BW_BAIL_RING;
  design.band.bottom_mm = 18;
  assert_true (bw_project_set_design (project, "Ring", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "Not quite level or upright: "));
  design.stone.has_second = TRUE;
  design.stone.second_girth_mm = 60;
  design.stone.second_at_mm = 26;
  design.limits.friction = 0.05;
  assert_true (bw_project_set_design (project, "Taper", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "slip towards the tip"));
}

static void
each_doubt_about_a_loop_over_the_tip_is_told (void **state)
{
  g_autoptr (BwProject) project = quiet_project ();
  BwDesign design = *bw_project_get_design (project);

  bw_bail_reach_over (&design, bw_project_stone (project));
  assert_true (bw_project_set_design (project, "Over", &design, NULL));
  assert_false (says (project, BW_TOPIC_HANG, "Nothing passes"));
  assert_false (says (project, BW_TOPIC_HANG, "it will gape"));
  assert_false (says (project, BW_TOPIC_HANG, "in the loop’s way"));
  design.bail.base_beads = floor (design.band.rows / 2.0) / 4;
  design.bail.base_beads = floor (2 * design.bail.base_beads) / 2;
  assert_true (bw_project_set_design (project, "Aside", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "it will gape"));
  design.bail.base_beads = design.band.rows / 4.0;
  design.bail.rows = 25;
  design.band.bottom_mm = 2;
  assert_true (bw_project_set_design (project, "Short", &design, NULL));
  assert_true (says (project, BW_TOPIC_HANG, "in the loop’s way"));
  assert_true (says (project, BW_TOPIC_HANG, "lets the cord of"));
}

static void
each_doubt_about_thread_and_colours_is_told (void **state)
{
  g_autoptr (BwProject) project = quiet_project ();
  BwDesign design = *bw_project_get_design (project);
  BwTray tray = *bw_project_get_tray (project);

  design.thread.diameter_mm = 0.3;
  design.thread.needle_mm = 0.6;
  assert_true (bw_project_set_design (project, "Thick", &design, NULL));
  assert_true (says (project, BW_TOPIC_THREAD, "Forcing a needle breaks glass"));
  design.thread.working_mm = 120;
  assert_true (bw_project_set_design (project, "Short", &design, NULL));
  assert_true (says (project, BW_TOPIC_THREAD, "One pass alone"));
  tray.colour[1].srgb = tray.colour[0].srgb + 1;
  tray.colour[1].finish = tray.colour[0].finish;
  assert_true (bw_project_set_tray (project, "Alike", &tray, NULL));
  assert_false (says (project, BW_TOPIC_MATERIALS, "almost alike"));
  assert_true (bw_project_set_bead (project, "Bead", FALSE, 1, 2, 1));
  g_autofree char *named = g_strdup_printf ("“%s” and “%s” look almost alike", tray.colour[0].name,
                                            tray.colour[1].name);
  assert_true (says (project, BW_TOPIC_MATERIALS, named));
  /* Where a colour has no name, the letter is that of the pages: without I, L and O. */
  tray.colour[0].id = 'o';
  tray.colour[0].srgb = 0x2b4a78;
  tray.colour[1].srgb = 0x2b4a79;
  *tray.colour[0].name = '\0';
  assert_true (bw_project_set_tray (project, "Unnamed", &tray, NULL));
  char letter[BW_TRAY_LETTER];
  bw_tray_print_letter (&tray, 0, letter);
  assert_string_not_equal (letter, "o");
  g_autofree char *unnamed
      = g_strdup_printf ("“%s, #2b4a78” and “%s” look almost alike", letter, tray.colour[1].name);
  assert_true (says (project, BW_TOPIC_MATERIALS, unnamed));
}

static void
lengths_are_told_in_the_unit_asked_for (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.band.rows -= 6;
  assert_true (bw_project_set_design (project, "Rows", &design, NULL));
  g_auto (GStrv) mm = bw_project_warnings_about (project, BW_TOPIC_FIT, BW_UNIT_MM);
  g_auto (GStrv) inch = bw_project_warnings_about (project, BW_TOPIC_FIT, BW_UNIT_INCH);
  const BwFit *fit = bw_project_fit (project);
  g_autofree char *short_mm = g_strdup_printf ("short by %.2f mm", fit->gap_max_mm);
  g_autofree char *short_inch = g_strdup_printf ("short by %.3f in", fit->gap_max_mm / 25.4);
  assert_int_equal (fit->verdict, BW_VERDICT_WILL_NOT_CLOSE);
  assert_non_null (strstr (mm[0], short_mm));
  assert_non_null (strstr (inch[0], short_inch));
  for (char **warning = inch; *warning; warning++)
    assert_null (strstr (*warning, " mm"));
}

static void
the_topics_together_are_all_warnings (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_auto (GStrv) all = bw_project_warnings (project, BW_UNIT_MM);
  guint n = 0;

  for (guint topic = 1; topic < BW_TOPIC_ALL; topic <<= 1) {
    g_auto (GStrv) some = bw_project_warnings_about (project, topic, BW_UNIT_MM);

    for (guint i = 0; some[i]; i++)
      assert_string_equal (some[i], all[n++]);
  }
  assert_int_equal (n, g_strv_length (all));
  assert_true (n > 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nothing_derived_is_ever_stale),
    cmocka_unit_test (a_painted_bead_drops_only_what_colours_feed),
    cmocka_unit_test (a_price_drops_neither_thread_nor_remedies),
    cmocka_unit_test (a_moved_band_drops_the_fit),
    cmocka_unit_test (a_piece_without_doubt_is_not_warned_of),
    cmocka_unit_test (each_doubt_about_the_stone_and_the_fit_is_told),
    cmocka_unit_test (a_repeat_that_breaks_at_the_join_is_told),
    cmocka_unit_test (each_doubt_about_the_bail_is_told),
    cmocka_unit_test (each_doubt_about_a_loop_over_the_tip_is_told),
    cmocka_unit_test (each_doubt_about_thread_and_colours_is_told),
    cmocka_unit_test (lengths_are_told_in_the_unit_asked_for),
    cmocka_unit_test (the_topics_together_are_all_warnings),
  };

  return cmocka_run_group_tests_name ("derived", tests, NULL, NULL);
}
