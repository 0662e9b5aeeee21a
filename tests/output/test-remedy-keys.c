/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a remedy says must be written into the file gives, written there, what was promised. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "../fewer.h"
#include "core/stone/section.h"
#include "output/report/remedy-also.h"
#include "output/report/report.h"
#include "project/project.h"

#include "sample.h"
#include "written.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static void
assert_is_promised (BwProject *project, JsonObject *remedy)
{
  const BwFit *fit = bw_project_fit (project);
  double least = json_object_get_double_member (remedy, "gap_min_mm");
  double greatest = json_object_get_double_member (remedy, "gap_max_mm");
  assert_string_equal (bw_verdict_word (fit->verdict),
                       json_object_get_string_member (remedy, "verdict"));
  assert_true (fabs (fit->gap_min_mm - least) <= 1e-9);
  assert_true (fabs (fit->gap_max_mm - greatest) <= 1e-9);
}

/* Writes the remedy into the file and fits that. */
static void
take (const char *file, JsonObject *remedy)
{
  g_autoptr (JsonObject) object = parse (file);
  JsonArray *also = json_object_get_array_member (remedy, "also");
  write_at (object, json_object_get_string_member (remedy, "key"),
            json_object_get_member (remedy, "value"));
  write_all (object, also);
  g_autofree char *written = print (object);
  g_autoptr (BwProject) project = load (written);
  assert_is_promised (project, remedy);
}

/* Takes every remedy the file is offered; counts them by kind. */
static void
take_all (const char *file, int rows, GHashTable *taken)
{
  g_autoptr (BwProject) project = load (file);
  g_autofree char *answer = bw_report_fit (project, rows, TRUE, NULL);
  g_autoptr (JsonObject) object = parse (answer);
  JsonArray *remedies = json_object_get_array_member (object, "remedies");
  for (guint i = 0; i < json_array_get_length (remedies); i++) {
    JsonObject *remedy = json_array_get_object_element (remedies, i);
    take (file, remedy);
    const char *kind = json_object_get_string_member (remedy, "kind");
    int n = GPOINTER_TO_INT (g_hash_table_lookup (taken, kind));
    g_hash_table_insert (taken, g_strdup (kind), GINT_TO_POINTER (n + 1));
  }
}

/* A random piece on a stone that widens or narrows more than the samples do. */
static BwProject *
random_piece (GRand *rand, gboolean measured_over)
{
  int columns = 2 * g_rand_int_range (rand, 4, 8);
  g_autoptr (Sample) sample
      = sample_new (rand, columns, 0, g_rand_boolean (rand) ? SAMPLE_NO_BAIL : SAMPLE_UPRIGHT);
  g_autofree char *json = sample_json (sample);
  BwProject *project = load (json);
  BwDesign design = *bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  design.stone.has_second = TRUE;
  design.stone.second_at_mm = design.stone.at_mm + 15;
  design.stone.second_girth_mm = stone->girth_mm * g_rand_double_range (rand, 0.95, 1.05);
  design.bed.has_girth_over = measured_over;
  if (measured_over) {
    BwStone tapered;
    BwSection section;
    assert_true (bw_stone_init (&tapered, &design.stone, NULL));
    bw_section_init (&section, &tapered, bw_band_span_mid (bw_design_span (&design)));
    design.bed.girth_over_mm = section.girth_mm + g_rand_double_range (rand, 0, 5);
    design.bed.top_extra_mm = 0;
  }
  if (!bw_project_set_design (project, "", &design, NULL))
    g_clear_object (&project);
  return project;
}

/* Leaves out what follows from the rest, where it does. */
static char *
without_what_follows (BwProject *project)
{
  g_autofree char *data = bw_project_to_data (project, NULL);
  g_autoptr (JsonObject) object = parse (data);
  JsonObject *band = json_object_get_object_member (object, "band");
  json_object_remove_member (band, "cells");
  json_object_remove_member (band, "rows");
  json_object_remove_member (band, "bottom_mm");
  return print (object);
}

/* Random pieces to take remedies of; the benchmark asks for thousands. */
static int pieces = few (40);

static void
every_remedy_written_into_the_file_is_what_was_promised (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5150);
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  static const char *const kinds[] = { "rows", "bed", "layers", "grade", "move", "bead" };
  for (int k = 0; k < pieces;) {
    g_autoptr (BwProject) project = random_piece (rand, k % 2);
    if (!project)
      continue;
    if (k % 4 >= 2) { /* a strip measured on the way */
      BwCheck check = { .rows = 40, .length_mm = 20.8 * bw_project_get_design (project)->pitch.mm };
      assert_true (bw_project_set_progress (project, "", 40, &check, 1, NULL));
    }
    g_autofree char *whole = bw_project_to_data (project, NULL);
    g_autofree char *short_file = without_what_follows (project);
    take_all (whole, 0, taken);
    take_all (whole, bw_project_get_design (project)->band.rows + 2, taken);
    take_all (short_file, 0, taken);
    k++;
  }
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++) {
    int n = GPOINTER_TO_INT (g_hash_table_lookup (taken, kinds[i]));
    if (n < few (10))
      fail_msg ("only %d remedies of kind %s were taken", n, kinds[i]);
  }
}

static JsonObject *
remedy_of_kind (JsonObject *answer, const char *kind)
{
  JsonArray *remedies = json_object_get_array_member (answer, "remedies");
  for (guint i = 0; i < json_array_get_length (remedies); i++) {
    JsonObject *remedy = json_array_get_object_element (remedies, i);
    if (g_str_equal (json_object_get_string_member (remedy, "kind"), kind))
      return remedy;
  }
  fail_msg ("no remedy of kind %s", kind);
  return NULL;
}

/* The value of what else is to be written, NULL when it is not in the list. */
static JsonNode *
also_at (JsonObject *remedy, const char *pointer)
{
  JsonArray *also = json_object_get_array_member (remedy, "also");
  for (guint i = 0; i < json_array_get_length (also); i++) {
    JsonObject *pair = json_array_get_object_element (also, i);
    if (g_str_equal (json_object_get_string_member (pair, "key"), pointer))
      return json_object_get_member (pair, "value");
  }
  return NULL;
}

#define HEXAGON                                                                                    \
  "{\"format\": \"bandwright-project\", \"version\": 1, \"stone\": {\"faces\": 6, "                \
  "\"measured\": \"girth\", \"values_mm\": [82], \"at_mm\": 10, \"second_girth_mm\": 86, "         \
  "\"second_at_mm\": 32, \"length_mm\": 60, \"shoulder_mm\": 45}, \"bead\": "                      \
  "{\"diameter_mm\": 1.6, \"length_mm\": 1.3, \"hole_mm\": 0.8}, \"bed\": {%s}, "                  \
  "\"band\": {\"columns\": 14}}"

static void
a_girth_over_the_bed_that_must_go_is_told (void **state)
{
  g_autofree char *file = g_strdup_printf (HEXAGON, "\"girth_over_mm\": 87");
  g_autoptr (BwProject) project = load (file);
  g_autofree char *text = bw_report_fit (project, 0, TRUE, NULL);
  g_autoptr (JsonObject) answer = parse (text);
  JsonNode *gone = also_at (remedy_of_kind (answer, "bed"), "/bed/girth_over_mm");
  assert_non_null (gone);
  assert_true (JSON_NODE_HOLDS_NULL (gone));
  assert_null (also_at (remedy_of_kind (answer, "rows"), "/bed/girth_over_mm"));
}

/* A stone thin at its base: the grade takes away more bed than one layer has. */
static void
layers_and_grade_are_offered_and_written_together (void **state)
{
  g_autofree char *file = g_strdup_printf (HEXAGON, "\"layers\": 1");
  g_autoptr (BwProject) project = load (file);
  g_autofree char *text = bw_report_fit (project, 0, TRUE, NULL);
  g_autofree char *words = bw_report_fit (project, 0, FALSE, NULL);
  g_autoptr (JsonObject) answer = parse (text);
  JsonObject *grade = remedy_of_kind (answer, "grade");
  assert_string_equal (json_object_get_string_member (grade, "verdict"), "snug");
  assert_int_equal (json_node_get_int (also_at (grade, "/bed/layers")), 2);
  assert_true (json_object_get_double_member (grade, "value") < -0.5);
  assert_non_null (strstr (words,
                           "wind 2 layers of cord, make the bed 0.53 mm thicker at the lower "
                           "edge than at the upper"));
}

/* A joint remedy says what goes with it; one knob says itself alone. */
static void
what_goes_with_a_remedy_is_said (void **state)
{
  BwDesign now;
  bw_design_defaults (&now);
  now.band = (BwBand){ .columns = 14, .rows = 114, .bottom_mm = 10 };
  now.bed.layers = 1;
  BwRemedy remedy = { .kind = BW_REMEDY_MOVE, .joint = TRUE, .design = now };
  remedy.design.bed.layers = 2;
  remedy.design.bed.top_extra_mm = -0.35;
  remedy.design.band.rows = 116;
  g_autofree char *joint = bw_remedy_with_also (g_strdup ("Move"), &remedy, &now, BW_UNIT_MM);
  assert_non_null (strstr (joint, "Move; with it 2 layers of cord, the bed 0.35"));
  assert_non_null (strstr (joint, "thicker at the lower edge, 116 rows"));
  remedy.joint = FALSE;
  g_autofree char *alone = bw_remedy_with_also (g_strdup ("Move"), &remedy, &now, BW_UNIT_MM);
  assert_string_equal (alone, "Move");
}

int
main (int argc, char **argv)
{
  if (argc > 1)
    pieces = atoi (argv[1]);
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_remedy_written_into_the_file_is_what_was_promised),
    cmocka_unit_test (a_girth_over_the_bed_that_must_go_is_told),
    cmocka_unit_test (layers_and_grade_are_offered_and_written_together),
    cmocka_unit_test (what_goes_with_a_remedy_is_said),
  };
  return cmocka_run_group_tests_name ("remedy-keys", tests, NULL, NULL);
}
