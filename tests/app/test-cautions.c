/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Minerals and cautions. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/caution-words.h"
#include "app/minerals.h"
#include "output/cautions.h"

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

static void
a_poisonous_mineral_is_told_first (void **state)
{
  static const char *const poison[]
      = { "cinnabar", "Galena", "realgar", "torbernite", "chalcanthite" };
  for (gsize i = 0; i < G_N_ELEMENTS (poison); i++) {
    g_auto (GStrv) words = bw_caution_words (poison[i]);
    assert_non_null (strstr (words[0], "poisonous"));
  }
}

static void
soft_and_soluble_minerals_are_told (void **state)
{
  g_auto (GStrv) selenite = bw_caution_words ("selenite");
  g_auto (GStrv) halite = bw_caution_words ("halite");
  g_auto (GStrv) quartz = bw_caution_words ("quartz");
  assert_true (tells (selenite, "soak"));
  assert_true (tells (selenite, "stone is soft"));
  assert_true (tells (halite, "dissolves"));
  assert_false (tells (quartz, "stone is soft"));
  assert_false (tells (quartz, "soak"));
}

static void
every_piece_is_told_of_flame_needle_dust_and_children (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_auto (GStrv) words = bw_cautions_new (project);
  assert_true (tells (words, "flame"));
  assert_true (tells (words, "needle"));
  assert_true (tells (words, "dust"));
  assert_true (tells (words, "children"));
  assert_true (tells (words, "strangle"));
  assert_non_null (strstr (bw_cautions_deference (), "rules where you live"));
}

static void
an_unheard_of_stone_has_no_words_of_its_own (void **state)
{
  static const char *const minerals[] = { "unheard-of stone", "", NULL };
  for (gsize i = 0; i < G_N_ELEMENTS (minerals); i++) {
    g_auto (GStrv) words = bw_caution_words (minerals[i]);
    assert_null (words[0]);
  }
}

static void
a_metal_ring_is_told_to_be_looked_over_for_wear (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  g_auto (GStrv) before = bw_cautions_new (project);
  assert_false (tells (before, "metal ring"));
  design.bail.style = BW_BAIL_RING;
  assert_true (bw_project_set_design (project, "Ring", &design, NULL));
  g_auto (GStrv) after = bw_cautions_new (project);
  assert_true (tells (after, "metal ring"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (densities_are_those_published),
    cmocka_unit_test (a_mineral_is_found_whatever_its_case),
    cmocka_unit_test (a_poisonous_mineral_is_told_first),
    cmocka_unit_test (soft_and_soluble_minerals_are_told),
    cmocka_unit_test (every_piece_is_told_of_flame_needle_dust_and_children),
    cmocka_unit_test (an_unheard_of_stone_has_no_words_of_its_own),
    cmocka_unit_test (a_metal_ring_is_told_to_be_looked_over_for_wear),
  };
  return cmocka_run_group_tests_name ("cautions", tests, NULL, NULL);
}
