/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ways that are told are the ways that one gets: what is to be changed, written into the file,
 * gives what was promised. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "../fewer.h"
#include "output/report/fit-told.h"
#include "output/report/report-ways.h"
#include "output/report/report.h"
#include "sample.h"
#include "written.h"

#include <math.h>
#include <string.h>

#define LIMIT 6

static char *
sample_of (guint seed, SampleBail bail)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (Sample) sample = sample_new (rand, 8, 0, bail);
  sample->prices = TRUE;
  sample->taper = TRUE;
  return sample_json (sample);
}

static void
assert_near (double a, double b)
{
  if (!(fabs (a - b) <= 1e-9 * fmax (1, fabs (b))))
    fail_msg ("%.17g is not %.17g", a, b);
}

static void
assert_as_promised (BwProject *project, JsonObject *way)
{
  const BwMaterials *needs = bw_project_materials (project);
  const BwHang *hang = bw_project_hang (project);
  assert_string_equal (json_object_get_string_member (way, "verdict"), "snug");
  assert_int_equal (bw_project_fit (project)->verdict, BW_VERDICT_SNUG);
  assert_int_equal (json_object_get_int_member (way, "beads_to_buy"), needs->total_with_spare);
  assert_near (json_object_get_double_member (way, "chance"), bw_fit_told (project).right);
  assert_near (json_object_get_double_member (way, "closes_probability"),
               bw_project_forecast (project)->closes_probability);
  assert_near (json_object_get_double_member (way, "cost"), needs->cost.total);
  assert_near (json_object_get_double_member (way, "hours"), needs->hours);
  if (hang->has_bail)
    assert_near (json_object_get_double_member (way, "tilt_deg"), hang->tilt_deg);
  else
    assert_true (json_object_get_null_member (way, "tilt_deg"));
}

/* The answer, owned. */
static char *
assert_ways_hold (const char *text, const BwBookHands *hands)
{
  g_autoptr (BwProject) project = load (text);
  char *answer = bw_report_ways (project, hands, NULL, LIMIT, 0, TRUE);
  g_autoptr (JsonObject) told = parse (answer);
  JsonArray *ways = json_object_get_array_member (told, "ways");
  assert_in_range (json_array_get_length (ways), 3, LIMIT);
  for (guint i = 0; i < json_array_get_length (ways); i++) {
    JsonObject *way = json_array_get_object_element (ways, i);
    g_autoptr (JsonObject) file = parse (text);
    write_all (file, json_object_get_array_member (way, "changes"));
    g_autofree char *written = print (file);
    g_autoptr (BwProject) got = load (written);
    assert_as_promised (got, way);
  }
  return answer;
}

static void
what_is_to_be_changed_gives_what_is_promised (void **state)
{
  static const SampleBail bails[] = { SAMPLE_UPRIGHT, SAMPLE_NO_BAIL };
  for (int i = 0; i < few (G_N_ELEMENTS (bails)); i++) {
    g_autofree char *text = sample_of (3 + i, bails[i]);
    g_autofree char *answer = assert_ways_hold (text, NULL);
  }
}

/* A strip that is woven, measured and was read round the stone: what it taught goes with the ways
 * of its own bead and width, and with no others. */
static void
what_the_strip_taught_is_in_the_chances_told (void **state)
{
  static const char progress[]
      = "{\"rows_done\": 80, \"checks\": [{\"rows\": 60, \"length_mm\": 49.0}],"
        " \"tried\": {\"rows\": 80, \"short_mm\": 16.3, \"how\": \"slack\","
        " \"tool\": \"calliper\"}}";
  g_autofree char *text = sample_of (3, SAMPLE_FLAP);
  g_autoptr (JsonObject) file = parse (text);
  g_autoptr (JsonNode) node = json_from_string (progress, NULL);
  json_object_set_member (file, "progress", g_steal_pointer (&node));
  g_autofree char *written = print (file);
  g_autofree char *answer = assert_ways_hold (written, NULL);
}

/* Beads of another kind begin from the hands, and the hands are among what is to be written. */
static void
known_hands_go_with_another_bead (void **state)
{
  static const char book_text[]
      = "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": [{\"bead\": \"8/0 "
        "cylinder\","
        " \"diameter_mm\": 3.0, \"date\": \"2026-11-29\", \"checks\": [{\"rows\": 99, "
        "\"length_mm\": 153}]}]}";
  g_autoptr (BwBook) book = bw_book_from_data (book_text, strlen (book_text), NULL);
  g_auto (BwBookHands) hands = { 0 };
  g_autofree char *text = sample_of (3, SAMPLE_FLAP);
  assert_non_null (book);
  bw_book_hands_init (&hands, book);
  g_autofree char *answer = assert_ways_hold (text, &hands);
  assert_non_null (strstr (answer, "\"/gauge/hands/pitch_mm\""));
}

static void
the_same_question_has_the_same_answer (void **state)
{
  g_autofree char *text = sample_of (5, SAMPLE_FLAP);
  g_autoptr (BwProject) project = load (text);
  g_autofree char *one = bw_report_ways (project, NULL, NULL, LIMIT, 2, TRUE);
  g_autofree char *other = bw_report_ways (project, NULL, NULL, LIMIT, 2, TRUE);
  assert_string_equal (one, other);
}

static void
each_way_is_a_line_of_the_text (void **state)
{
  g_autofree char *text = sample_of (5, SAMPLE_FLAP);
  g_autoptr (BwProject) project = load (text);
  g_autofree char *told = bw_report_ways (project, NULL, NULL, LIMIT, 0, FALSE);
  g_auto (GStrv) lines = g_strsplit (told, "\n", -1);
  int beads = 0;
  for (char **line = lines; *line; line++)
    beads += strstr (*line, "/0 ") != NULL;
  assert_in_range (beads, 3, LIMIT);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_to_be_changed_gives_what_is_promised),
    cmocka_unit_test (what_the_strip_taught_is_in_the_chances_told),
    cmocka_unit_test (known_hands_go_with_another_bead),
    cmocka_unit_test (the_same_question_has_the_same_answer),
    cmocka_unit_test (each_way_is_a_line_of_the_text),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
