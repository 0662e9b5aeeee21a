/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Minerals and cautions. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "output/sheet/minerals.h"
#include "output/sheet/cautions.h"

#include <math.h>
#include <string.h>

static gboolean
tells (char **words, const char *part)
{
  for (char **line = words; *line; line++)
    if (strstr (*line, part))
      return TRUE;
  return FALSE;
}

/* Quartz 2.65 and calcite 2.71: Handbook of Mineralogy (Anthony, Bideaux, Bladh & Nichols).
 * Fluorite 3.175–3.184 and topaz 3.49–3.57: ranges in general circulation. */
static void
densities_are_those_published (void **state)
{
  assert_true (fabs (bw_mineral_find ("quartz")->density_g_cm3 - 2.65) < 0.005);
  assert_true (fabs (bw_mineral_find ("calcite")->density_g_cm3 - 2.71) < 0.005);
  double fluorite = bw_mineral_find ("fluorite")->density_g_cm3;
  double topaz = bw_mineral_find ("topaz")->density_g_cm3;
  assert_true (fluorite >= 3.175 && fluorite <= 3.184);
  assert_true (topaz >= 3.49 && topaz <= 3.57);
}

static void
a_mineral_is_found_whatever_its_case (void **state)
{
  assert_ptr_equal (bw_mineral_find (" Quartz "), bw_mineral_find ("quartz"));
  assert_non_null (bw_mineral_find ("FLUORITE"));
  assert_null (bw_mineral_find ("glass"));
  assert_null (bw_mineral_find (""));
  assert_null (bw_mineral_find (NULL));
}

/* Calcite 3, fluorite 4, apatite 5, quartz 7, topaz 8: Mohs' own scale. */
static void
hardness_is_that_of_mohs_scale (void **state)
{
  static const struct {
    const char *name;
    double mohs;
  } scale[]
      = { { "calcite", 3 }, { "fluorite", 4 }, { "apatite", 5 }, { "quartz", 7 }, { "topaz", 8 } };
  for (gsize i = 0; i < G_N_ELEMENTS (scale); i++) {
    const BwMineral *mineral = bw_mineral_find (scale[i].name);
    assert_true (fabs (mineral->mohs[0] - scale[i].mohs) < 1e-12);
    assert_int_equal (bw_mineral_is_soft (mineral), scale[i].mohs < 6);
  }
}

static void
every_mineral_has_words_and_every_wearable_one_its_hardness (void **state)
{
  int n;
  const BwMineral *mineral = bw_minerals (&n);
  for (int i = 0; i < n; i++) {
    g_auto (GStrv) grave = bw_mineral_cautions_grave (mineral[i].name);
    g_auto (GStrv) words = bw_mineral_cautions (mineral[i].name);
    if (mineral[i].density_g_cm3 > 0)
      assert_true (tells (words, "Mohs hardness"));
    else
      assert_true (tells (grave, "poisonous"));
    assert_false (tells (words, "Know your mineral"));
    assert_true (mineral[i].mohs[0] <= mineral[i].mohs[1] || mineral[i].mohs[1] < 0.1);
  }
}

static BwProject *
piece_of (const char *mineral)
{
  BwProject *project = bw_project_new ();
  bw_project_set_mineral (project, "Mineral", mineral);
  return project;
}

static void
a_poisonous_mineral_is_told_first (void **state)
{
  static const char *const poison[]
      = { "cinnabar", "Galena", "realgar", "torbernite", "chalcanthite" };
  for (gsize i = 0; i < G_N_ELEMENTS (poison); i++) {
    int n_grave;
    g_autoptr (BwProject) project = piece_of (poison[i]);
    g_auto (GStrv) words = bw_cautions_new (project, &n_grave);
    assert_true (n_grave >= 1);
    assert_non_null (strstr (words[0], "poisonous"));
  }
}

static void
soft_and_soluble_minerals_are_told (void **state)
{
  g_auto (GStrv) selenite = bw_mineral_cautions ("selenite");
  g_auto (GStrv) halite = bw_mineral_cautions_grave ("halite");
  g_auto (GStrv) quartz = bw_mineral_cautions ("quartz");
  g_auto (GStrv) beryl = bw_mineral_cautions ("beryl");
  assert_true (tells (selenite, "soak"));
  assert_true (tells (selenite, "stone is soft (Mohs hardness 1.5 to 2)"));
  assert_true (tells (halite, "dissolves"));
  assert_true (tells (quartz, "stone is hard (Mohs hardness 7)"));
  assert_false (tells (quartz, "soak"));
  assert_true (tells (beryl, "Mohs hardness 7.5 to 8"));
}

static void
every_piece_is_told_of_flame_needle_dust_and_children (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_auto (GStrv) words = bw_cautions_new (project, NULL);
  assert_true (tells (words, "flame"));
  assert_true (tells (words, "needle"));
  assert_true (tells (words, "dust"));
  assert_true (tells (words, "children"));
  assert_true (tells (words, "strangle"));
  assert_non_null (strstr (bw_cautions_deference (), "rules where you live"));
}

static void
an_unheard_of_stone_is_told_what_holds_for_any (void **state)
{
  static const char *const minerals[] = { "unheard-of stone", "", NULL };
  for (gsize i = 0; i < G_N_ELEMENTS (minerals); i++) {
    g_auto (GStrv) grave = bw_mineral_cautions_grave (minerals[i]);
    g_auto (GStrv) words = bw_mineral_cautions (minerals[i]);
    assert_null (grave[0]);
    assert_non_null (strstr (words[0], "Know your mineral"));
    assert_null (words[1]);
  }
}

static void
the_mineral_of_the_piece_is_among_its_cautions (void **state)
{
  int n_grave;
  g_autoptr (BwProject) calcite = piece_of ("Calcite");
  g_autoptr (BwProject) unknown = piece_of ("moon cheese");
  g_auto (GStrv) words = bw_cautions_new (calcite, &n_grave);
  g_auto (GStrv) general = bw_cautions_new (unknown, NULL);
  assert_int_equal (n_grave, 0);
  assert_true (tells (words, "splits along flat planes"));
  assert_true (tells (words, "Mohs hardness 3"));
  assert_false (tells (words, "Know your mineral"));
  assert_true (tells (general, "Know your mineral"));
}

static void
metal_on_the_skin_is_told_where_there_is_some (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.supply.closing = BW_CLOSING_CLASP;
  assert_true (bw_project_set_design (project, "Clasp", &design, NULL));
  g_auto (GStrv) bare = bw_cautions_new (project, NULL);
  assert_false (tells (bare, "nickel"));
  design.bail.style = BW_BAIL_FLAP;
  assert_true (bw_project_set_design (project, "Flap", &design, NULL));
  g_auto (GStrv) words = bw_cautions_new (project, NULL);
  assert_true (tells (words, "nickel"));
}

static void
a_metal_ring_is_told_to_be_looked_over_for_wear (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  g_auto (GStrv) before = bw_cautions_new (project, NULL);
  assert_false (tells (before, "metal ring"));
  design.bail.style = BW_BAIL_RING;
  assert_true (bw_project_set_design (project, "Ring", &design, NULL));
  g_auto (GStrv) after = bw_cautions_new (project, NULL);
  assert_true (tells (after, "metal ring"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (densities_are_those_published),
    cmocka_unit_test (a_mineral_is_found_whatever_its_case),
    cmocka_unit_test (hardness_is_that_of_mohs_scale),
    cmocka_unit_test (every_mineral_has_words_and_every_wearable_one_its_hardness),
    cmocka_unit_test (a_poisonous_mineral_is_told_first),
    cmocka_unit_test (soft_and_soluble_minerals_are_told),
    cmocka_unit_test (every_piece_is_told_of_flame_needle_dust_and_children),
    cmocka_unit_test (an_unheard_of_stone_is_told_what_holds_for_any),
    cmocka_unit_test (the_mineral_of_the_piece_is_among_its_cautions),
    cmocka_unit_test (metal_on_the_skin_is_told_where_there_is_some),
    cmocka_unit_test (a_metal_ring_is_told_to_be_looked_over_for_wear),
  };
  return cmocka_run_group_tests_name ("cautions", tests, NULL, NULL);
}
