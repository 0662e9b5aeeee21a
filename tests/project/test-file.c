/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project file as text: what is read, what is refused and where, and what is written. */
#include "edits.h"

#include "project/json/json.h"
#include <math.h>

static BwProject *
load_text (const char *text, GError **error)
{
  return bw_project_load_data (text, strlen (text), error);
}

static void
every_malformed_file_of_the_corpus_is_one_fault_at_its_key (void **state)
{
  gsize length;
  g_autofree char *list = corpus_text ("refused.tsv", &length);
  g_auto (GStrv) lines = g_strsplit (list, "\n", -1);
  int n = 0;

  for (char **line = lines; *line; line++) {
    g_auto (GStrv) words = g_strsplit (*line, "\t", 2);
    g_autofree char *path = NULL, *text = NULL;
    g_autoptr (GError) error = NULL;
    BwProject *project;

    if (**line == '#' || g_strv_length (words) != 2)
      continue;
    path = g_build_filename ("refused", words[0], NULL);
    text = corpus_text (path, &length);
    project = bw_project_load_data (text, length, &error);
    if (project)
      fail_msg ("%s was taken", words[0]);
    assert_fault (error, -1, words[1]);
    n++;
  }
  assert_true (n > 100);
}

/* The node at a pointer of an object's tree and the key that leads to it. */
static JsonNode *
walk (JsonNode *node, char **keys)
{
  for (char **key = keys; *key; key++)
    if (JSON_NODE_HOLDS_ARRAY (node))
      node = json_array_get_element (json_node_get_array (node), (guint)atoi (*key));
    else
      node = json_object_get_member (json_node_get_object (node), *key);
  return node;
}

/* sound.bandwright with the value at pointer replaced, or left out when value is NULL. */
static char *
changed_text (const char *pointer, const char *value)
{
  gsize length;
  g_autofree char *text = corpus_text ("sound.bandwright", &length);
  g_autoptr (JsonNode) root = bw_json_parse (text, length, NULL);
  g_auto (GStrv) keys = g_strsplit (pointer + 1, "/", -1);
  g_autofree char *last = g_steal_pointer (&keys[g_strv_length (keys) - 1]);
  JsonNode *outer = walk (root, keys);

  assert_non_null (outer);
  if (JSON_NODE_HOLDS_ARRAY (outer)) {
    JsonArray *list = json_node_get_array (outer);
    guint index = (guint)atoi (last);

    if (index < json_array_get_length (list))
      json_array_remove_element (list, index);
    if (value) {
      JsonArray *replaced = json_array_new ();

      for (guint i = 0; i <= json_array_get_length (list); i++) {
        if (i == index)
          json_array_add_element (replaced, bw_json_parse (value, strlen (value), NULL));
        if (i < json_array_get_length (list))
          json_array_add_element (replaced, json_array_dup_element (list, i));
      }
      json_node_take_array (outer, replaced);
    }
  } else if (value) {
    json_object_set_member (json_node_get_object (outer), last,
                            bw_json_parse (value, strlen (value), NULL));
  } else {
    json_object_remove_member (json_node_get_object (outer), last);
  }
  return bw_json_print (root, NULL);
}

typedef struct {
  const char *pointer, *value; /* what is changed in a sound file; NULL: left out */
  int code;
  const char *fault; /* where the fault lies; NULL: there */
} Case;

static void
assert_cases_refused (const Case *cases, gsize n)
{
  for (gsize i = 0; i < n; i++) {
    g_autofree char *text = changed_text (cases[i].pointer, cases[i].value);
    g_autoptr (GError) error = NULL;
    BwProject *project = load_text (text, &error);

    if (project)
      fail_msg ("%s = %s was taken", cases[i].pointer, cases[i].value);
    assert_fault (error, cases[i].code, cases[i].fault ? cases[i].fault : cases[i].pointer);
  }
}

static void
a_value_of_another_kind_is_named (void **state)
{
  static const char *const texts[]
      = { "/title",          "/about/maker",  "/about/hours",  "/stone/mineral",
          "/stone/measured", "/stone/base",   "/bead/name",    "/bail/style",
          "/tray/1/id",      "/tray/1/name",  "/tray/1/srgb",  "/tray/1/finish",
          "/tray/0/article", "/band/cells/7", "/bail/cells/0", "/materials/prices/currency" };
  static const char *const numbers[] = { "/stone/faces",
                                         "/stone/density_g_cm3",
                                         "/stone/values_mm/2",
                                         "/stone/at_mm",
                                         "/stone/second_girth_mm",
                                         "/stone/second_at_mm",
                                         "/stone/length_mm",
                                         "/stone/shoulder_mm",
                                         "/stone/apex_offset_mm/1",
                                         "/stone/base_shoulder_mm",
                                         "/stone/base_apex_offset_mm/0",
                                         "/stone/girth_sd_mm",
                                         "/bead/diameter_mm",
                                         "/gauge/hands/pitch_mm",
                                         "/gauge/hands/pitch_sd_mm",
                                         "/gauge/swatch/columns",
                                         "/gauge/swatch/width_mm",
                                         "/bed/layers",
                                         "/bed/girth_over_mm",
                                         "/band/columns",
                                         "/band/rows",
                                         "/band/bottom_mm",
                                         "/bail/base_beads",
                                         "/thread/stretch",
                                         "/fit/slack_mm",
                                         "/materials/pieces",
                                         "/materials/prices/hour",
                                         "/progress/rows_done",
                                         "/progress/checks/1/rows",
                                         "/progress/checks/0/length_mm" };
  static const char *const lists[]
      = { "/stone/values_mm", "/stone/apex_offset_mm", "/tray",
          "/band/cells",      "/bail/cells",           "/progress/checks" };
  static const char *const objects[] = { "/stone",
                                         "/bead",
                                         "/gauge",
                                         "/gauge/swatch",
                                         "/gauge/hands",
                                         "/bed",
                                         "/band",
                                         "/tray/0",
                                         "/bail",
                                         "/thread",
                                         "/fit",
                                         "/materials",
                                         "/materials/prices",
                                         "/progress",
                                         "/progress/checks/0" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++) {
    const Case cases[] = { { texts[i], "7", BW_FAULT_TYPE, NULL },
                           { texts[i], "null", BW_FAULT_TYPE, NULL },
                           { texts[i], "[\"a\"]", BW_FAULT_TYPE, NULL } };
    assert_cases_refused (cases, G_N_ELEMENTS (cases));
  }
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++) {
    const Case cases[] = { { numbers[i], "\"7\"", BW_FAULT_TYPE, NULL },
                           { numbers[i], "true", BW_FAULT_TYPE, NULL },
                           { numbers[i], "{}", BW_FAULT_TYPE, NULL } };
    assert_cases_refused (cases, G_N_ELEMENTS (cases));
  }
  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++) {
    const Case cases[] = { { lists[i], "{}", BW_FAULT_TYPE, NULL },
                           { lists[i], "null", BW_FAULT_TYPE, NULL },
                           { lists[i], "3", BW_FAULT_TYPE, NULL } };
    assert_cases_refused (cases, G_N_ELEMENTS (cases));
  }
  for (gsize i = 0; i < G_N_ELEMENTS (objects); i++) {
    const Case cases[] = { { objects[i], "[]", BW_FAULT_TYPE, NULL },
                           { objects[i], "null", BW_FAULT_TYPE, NULL },
                           { objects[i], "\"\"", BW_FAULT_TYPE, NULL } };
    assert_cases_refused (cases, G_N_ELEMENTS (cases));
  }
}

static void
a_required_key_that_is_missing_is_named (void **state)
{
  static const char *const pointers[] = { "/format",
                                          "/version",
                                          "/stone",
                                          "/stone/faces",
                                          "/stone/measured",
                                          "/stone/values_mm",
                                          "/stone/at_mm",
                                          "/stone/length_mm",
                                          "/stone/shoulder_mm",
                                          "/stone/second_at_mm",
                                          "/bead",
                                          "/bead/diameter_mm",
                                          "/bead/length_mm",
                                          "/bead/hole_mm",
                                          "/band",
                                          "/band/columns",
                                          "/gauge/hands/pitch_mm",
                                          "/gauge/hands/pitch_sd_mm",
                                          "/gauge/swatch/columns",
                                          "/gauge/swatch/width_mm",
                                          "/gauge/swatch/rows",
                                          "/gauge/swatch/length_mm",
                                          "/progress/checks/0/rows",
                                          "/progress/checks/1/length_mm" };

  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++) {
    const Case missing = { pointers[i], NULL, BW_FAULT_MISSING, NULL };

    assert_cases_refused (&missing, 1);
  }
}

static void
every_key_that_is_not_required_may_be_left_out (void **state)
{
  static const char *const pointers[] = { "/title",
                                          "/about",
                                          "/about/maker",
                                          "/about/licence",
                                          "/about/version",
                                          "/about/skill",
                                          "/about/hours",
                                          "/tray/0/article",
                                          "/tray/0/in_hand_g",
                                          "/stone/mineral",
                                          "/stone/density_g_cm3",
                                          "/stone/second_girth_mm",
                                          "/stone/apex_offset_mm",
                                          "/stone/base",
                                          "/stone/base_shoulder_mm",
                                          "/stone/base_apex_offset_mm",
                                          "/stone/girth_sd_mm",
                                          "/bead/name",
                                          "/bead/glass_g_cm3",
                                          "/gauge",
                                          "/gauge/swatch",
                                          "/gauge/swatch/tool",
                                          "/gauge/hands",
                                          "/bed",
                                          "/bed/cord_thickness_mm",
                                          "/bed/layers",
                                          "/bed/girth_over_mm",
                                          "/bed/squeeze",
                                          "/band/bottom_mm",
                                          "/band/seam_deg",
                                          "/band/cells",
                                          "/bail",
                                          "/bail/style",
                                          "/bail/base_beads",
                                          "/bail/at_deg",
                                          "/bail/cells",
                                          "/thread",
                                          "/thread/needle_mm",
                                          "/fit",
                                          "/fit/friction",
                                          "/materials",
                                          "/materials/spare",
                                          "/materials/prices",
                                          "/materials/prices/currency",
                                          "/materials/prices/pack",
                                          "/progress",
                                          "/progress/rows_done",
                                          "/progress/checks",
                                          "/tray/0/name",
                                          "/tray/1/srgb",
                                          "/tray/1/finish",
                                          "/made_with" };

  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++) {
    g_autofree char *text = changed_text (pointers[i], NULL);
    g_autoptr (GError) error = NULL;
    g_autoptr (BwProject) project = load_text (text, &error);

    if (!project)
      fail_msg ("without %s: %s", pointers[i], error->message);
  }
}

static void
a_value_outside_its_range_is_named (void **state)
{
  static const Case cases[] = {
    { "/format", "\"bandwright\"", BW_FAULT_RANGE, NULL },
    { "/version", "2", BW_FAULT_VERSION, NULL },
    { "/version", "1.5", BW_FAULT_VERSION, NULL },
    { "/version", "0", BW_FAULT_RANGE, NULL },
    { "/version", "1e999", BW_FAULT_RANGE, NULL },
    { "/stone/faces", "2", BW_FAULT_RANGE, NULL },
    { "/stone/faces", "65", BW_FAULT_RANGE, NULL },
    { "/stone/faces", "6.5", BW_FAULT_RANGE, NULL },
    { "/stone/faces", "1e300", BW_FAULT_RANGE, NULL },
    { "/stone/faces", "8", BW_FAULT_RANGE, "/stone/values_mm" },
    { "/stone/measured", "\"calliper\"", BW_FAULT_RANGE, NULL },
    { "/stone/measured", "\"girth\"", BW_FAULT_RANGE, "/stone/values_mm" },
    { "/stone/values_mm", "[]", BW_FAULT_RANGE, NULL },
    { "/stone/values_mm/6", "9", BW_FAULT_RANGE, "/stone/values_mm" },
    { "/stone/values_mm/2", "-9.4", BW_FAULT_RANGE, NULL },
    { "/stone/values_mm/2", "0", BW_FAULT_RANGE, NULL },
    { "/stone/at_mm", "-1", -1, NULL },
    { "/stone/at_mm", "1e999", BW_FAULT_RANGE, NULL },
    { "/stone/at_mm", "-1.5E+400", BW_FAULT_RANGE, NULL },
    { "/stone/values_mm/1", "1e400", BW_FAULT_RANGE, NULL },
    { "/title", "\"a\\u001b[31mb\"", BW_FAULT_RANGE, NULL },
    { "/title", "\"two\\nlines\"", BW_FAULT_RANGE, NULL },
    { "/title", "\"\\u009b31m\"", BW_FAULT_RANGE, NULL },
    { "/title", "\"\\u2028\"", BW_FAULT_RANGE, NULL },
    { "/stone/mineral", "\"\\u0007\"", BW_FAULT_RANGE, NULL },
    { "/tray/0/name", "\"\\u0001\"", BW_FAULT_RANGE, NULL },
    { "/about/skill", "\"two\\nlines\"", BW_FAULT_RANGE, NULL },
    { "/about/version", "2", -1, NULL },
    { "/about", "[]", -1, NULL },
    { "/tray/0/article", "\"a\\u0001\"", BW_FAULT_RANGE, NULL },
    { "/tray/0/in_hand_g", "-0.1", BW_FAULT_RANGE, NULL },
    { "/tray/0/in_hand_g", "100001", BW_FAULT_RANGE, NULL },
    { "/tray/0/in_hand_g", "\"3\"", -1, NULL },
    { "/bead/name", "\"\\u007f\"", BW_FAULT_RANGE, NULL },
    { "/materials/prices/currency", "\"\\t\"", BW_FAULT_RANGE, NULL },
    { "/stone/length_mm", "1e7", BW_FAULT_RANGE, NULL },
    { "/stone/shoulder_mm", "50", -1, NULL },
    { "/stone/apex_offset_mm", "[0]", BW_FAULT_RANGE, NULL },
    { "/stone/base", "\"round\"", BW_FAULT_RANGE, NULL },
    { "/stone/density_g_cm3", "0", BW_FAULT_RANGE, NULL },
    { "/bead/hole_mm", "1.7", -1, NULL },
    { "/bead/diameter_mm", "-1.6", BW_FAULT_RANGE, NULL },
    { "/bead/name",
      "\"a name that is much longer than the label of any bag of beads that was ever sold\"",
      BW_FAULT_RANGE, NULL },
    { "/gauge/swatch/columns", "9", BW_FAULT_RANGE, NULL },
    { "/gauge/swatch/rows", "1", BW_FAULT_RANGE, NULL },
    { "/gauge/swatch/width_mm", "-3", BW_FAULT_RANGE, NULL },
    { "/id", "7", BW_FAULT_TYPE, NULL },
    { "/id", "\"a\\u0007\"", BW_FAULT_RANGE, NULL },
    { "/gauge/swatch/tool", "\"thumb\"", BW_FAULT_RANGE, NULL },
    { "/gauge/hands/pitch_mm", "0", BW_FAULT_RANGE, NULL },
    { "/gauge/hands/pitch_sd_mm", "0", BW_FAULT_RANGE, NULL },
    { "/gauge/hands/pitch_sd_mm", "0.4", BW_FAULT_RANGE, NULL },
    { "/bed/layers", "-1", BW_FAULT_RANGE, NULL },
    { "/bed/layers", "1.5", BW_FAULT_RANGE, NULL },
    { "/bed/squeeze", "1.5", BW_FAULT_RANGE, NULL },
    { "/bed/girth_over_mm", "20", -1, NULL },
    { "/band/columns", "7", BW_FAULT_RANGE, NULL },
    { "/band/columns", "202", BW_FAULT_RANGE, NULL },
    { "/band/columns", "100", -1, NULL },
    { "/band/rows", "0", BW_FAULT_RANGE, NULL },
    { "/band/rows", "20001", BW_FAULT_RANGE, NULL },
    { "/band/rows", "58", BW_FAULT_RANGE, "/band/cells" },
    { "/band/rows", "99999999999999999999", BW_FAULT_RANGE, NULL },
    { "/band/bottom_mm", "-1", BW_FAULT_RANGE, NULL },
    { "/band/bottom_mm", "40", -1, NULL },
    { "/band/cells", "[]", BW_FAULT_RANGE, NULL },
    { "/band/cells/3", "\"abc\"", BW_FAULT_RANGE, NULL },
    { "/band/cells/3", "\"abcab\"", BW_FAULT_RANGE, NULL },
    { "/band/cells/3", "\"abzb\"", BW_FAULT_RANGE, NULL },
    { "/band/cells/59", "\"ABCA\"", BW_FAULT_RANGE, NULL },
    { "/band/cells/60", "\"abca\"", BW_FAULT_RANGE, "/band/cells" },
    { "/tray", "[]", BW_FAULT_RANGE, NULL },
    { "/tray/1/id", "\"\"", BW_FAULT_RANGE, NULL },
    { "/tray/1/id", "\"bb\"", BW_FAULT_RANGE, NULL },
    { "/tray/1/id", "\" \"", BW_FAULT_RANGE, NULL },
    { "/tray/1/id", "\"a\"", BW_FAULT_RANGE, NULL },
    { "/tray/1/id", "\"k\"", BW_FAULT_RANGE, "/band/cells/0" },
    { "/tray/1/srgb", "\"e9c46a\"", BW_FAULT_RANGE, NULL },
    { "/tray/1/srgb", "\"#e9c46\"", BW_FAULT_RANGE, NULL },
    { "/tray/1/srgb", "\"#e9c46g\"", BW_FAULT_RANGE, NULL },
    { "/tray/1/srgb", "\"#e9c46a0\"", BW_FAULT_RANGE, NULL },
    { "/tray/1/finish", "\"shiny\"", BW_FAULT_RANGE, NULL },
    { "/bail/style", "\"loop\"", BW_FAULT_RANGE, NULL },
    { "/bail/columns", "8", -1, NULL },
    { "/bail/columns", "3", -1, NULL },
    { "/bail/rows", "2", -1, NULL },
    { "/bail/base_beads", "2.75", -1, NULL },
    { "/bail/cells/20", "\"a\"", BW_FAULT_RANGE, NULL },
    { "/bail/cells/0", "\"aé?\"", BW_FAULT_RANGE, NULL },
    { "/thread/needle_mm", "0.9", -1, NULL },
    { "/thread/stretch", "-0.1", BW_FAULT_RANGE, NULL },
    { "/fit/slack_mm", "-1", BW_FAULT_RANGE, NULL },
    { "/materials/pieces", "0", BW_FAULT_RANGE, NULL },
    { "/materials/pieces", "2.5", BW_FAULT_RANGE, NULL },
    { "/materials/pack_g", "0", BW_FAULT_RANGE, NULL },
    { "/materials/neck_mm", "0", BW_FAULT_RANGE, NULL },
    { "/materials/neck_mm", "10000", BW_FAULT_RANGE, NULL },
    { "/materials/closing", "\"glue\"", BW_FAULT_RANGE, NULL },
    { "/materials/closing_mm", "-1", BW_FAULT_RANGE, NULL },
    { "/materials/prices/pack", "-3.2", BW_FAULT_RANGE, NULL },
    { "/materials/prices/findings", "1e10", BW_FAULT_RANGE, NULL },
    { "/materials/prices/rows_per_hour", "0", BW_FAULT_RANGE, NULL },
    { "/materials/prices/pace_columns", "201", BW_FAULT_RANGE, NULL },
    { "/materials/prices/currency", "\"a currency of the realm\"", BW_FAULT_RANGE, NULL },
    { "/progress/rows_done", "-1", BW_FAULT_RANGE, NULL },
    { "/progress/checks/0/rows", "0", BW_FAULT_RANGE, NULL },
    { "/progress/checks/0/length_mm", "0", BW_FAULT_RANGE, NULL },
    { "/progress/checks/1/length_mm", "2040", BW_FAULT_RANGE, NULL },
  };

  assert_cases_refused (cases, G_N_ELEMENTS (cases));
}

static void
a_foreign_or_newer_file_is_told_apart_before_anything_else (void **state)
{
  g_autoptr (GError) foreign = NULL, newer = NULL;

  assert_null (load_text ("{\"version\":9,\"format\":\"a-shopping-list\"}", &foreign));
  assert_non_null (strstr (foreign->message, "not a Bandwright project"));
  assert_null (load_text ("{\"format\":\"bandwright-project\",\"version\":2,\"stone\":0}", &newer));
  assert_true (g_error_matches (newer, BW_FAULT, BW_FAULT_VERSION));
  assert_non_null (strstr (newer->message, "newer program"));
}

static void
an_odd_number_of_faces_cannot_be_measured_across_the_flats (void **state)
{
  gsize length;
  g_autofree char *least = corpus_text ("least.bandwright", &length);
  g_autoptr (GString) text = g_string_new (least);
  g_autoptr (GError) error = NULL;

  assert_int_equal (g_string_replace (text, "\"faces\":6,\"measured\":\"girth\"",
                                      "\"faces\":5,\"measured\":\"across-flats\"", 0),
                    1);
  assert_null (load_text (text->str, &error));
  assert_fault (error, BW_FAULT_GEOMETRY, "/stone/measured");
}

#define TRIED(rows, length, how, tool)                                                             \
  "{\"rows\":" rows ",\"short_mm\":" length ",\"how\":\"" how "\",\"tool\":\"" tool "\"}"

static void
a_try_on_is_read_strictly (void **state)
{
  static const Case cases[] = {
    { "/progress/tried", "3", BW_FAULT_TYPE, NULL },
    { "/progress/tried", "{}", BW_FAULT_MISSING, "/progress/tried/rows" },
    { "/progress/tried", "{\"rows\":20,\"short_mm\":1,\"how\":\"slack\"}", BW_FAULT_MISSING,
      "/progress/tried/tool" },
    { "/progress/tried", TRIED ("1", "1", "slack", "eye"), BW_FAULT_RANGE, "/progress/tried/rows" },
    { "/progress/tried", TRIED ("26", "1", "slack", "eye"), BW_FAULT_RANGE,
      "/progress/tried/rows" },
    { "/progress/tried", TRIED ("20.5", "1", "slack", "eye"), BW_FAULT_RANGE,
      "/progress/tried/rows" },
    { "/progress/tried", TRIED ("20", "1e9", "slack", "eye"), BW_FAULT_RANGE,
      "/progress/tried/short_mm" },
    { "/progress/tried", TRIED ("20", "-400", "slack", "eye"), BW_FAULT_RANGE,
      "/progress/tried/short_mm" },
    { "/progress/tried", TRIED ("20", "\"1\"", "slack", "eye"), BW_FAULT_TYPE,
      "/progress/tried/short_mm" },
    { "/progress/tried", TRIED ("20", "1", "loose", "eye"), BW_FAULT_RANGE, "/progress/tried/how" },
    { "/progress/tried", TRIED ("20", "1", "pulled", "ruler"), BW_FAULT_RANGE,
      "/progress/tried/tool" },
    { "/progress/join_done", "-1", BW_FAULT_RANGE, NULL },
    { "/progress/join_done", "\"2\"", BW_FAULT_TYPE, NULL },
    { "/progress/bail_rows_done", "-1", BW_FAULT_RANGE, NULL },
    { "/progress/bail_rows_done", "\"2\"", BW_FAULT_TYPE, NULL },
  };

  assert_cases_refused (cases, G_N_ELEMENTS (cases));
}

static void
a_try_on_comes_back_as_it_was_with_keys_not_known (void **state)
{
  g_autofree char *text
      = changed_text ("/progress/tried", "{\"rows\":22,\"short_mm\":-0.4,\"how\":\"pulled\","
                                         "\"tool\":\"calliper\",\"by\":\"lamp\"}");
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = load_text (text, &error);
  assert_non_null (project);
  const BwTried *tried = bw_project_get_tried (project);
  assert_int_equal (tried->rows, 22);
  assert_float_equal (tried->reading.short_mm, -0.4, 0);
  assert_int_equal (tried->reading.how, BW_TRIED_PULLED);
  assert_int_equal (tried->reading.tool, BW_TRIED_BY_CALLIPER);
  assert_true (bw_project_get_design (project)->tried.is_told);
  g_autofree char *written = bw_project_to_data (project, NULL);
  const char *kept = strstr (written, "\"tried\"");
  assert_non_null (kept);
  assert_non_null (strstr (kept, "\"by\""));
  assert_true (strstr (kept, "\"by\"") < strstr (kept, "\"checks\""));
  g_autoptr (BwProject) again = load_text (written, &error);
  g_autofree char *rewritten = bw_project_to_data (again, NULL);
  assert_string_equal (rewritten, written);
  assert_true (bw_project_set_tried (again, "Forget", &(BwTried){ 0 }, NULL));
  g_autofree char *forgotten = bw_project_to_data (again, NULL);
  assert_null (strstr (forgotten, "short_mm"));
  assert_false (bw_project_get_design (again)->tried.is_told);
}

/* sound.bandwright on a flat end, with this look. */
static char *
text_with_look (const char *look)
{
  g_autofree char *text = changed_text ("/stone/look", look);
  g_autoptr (JsonNode) root = bw_json_parse (text, strlen (text), NULL);
  JsonObject *stone = json_object_get_object_member (json_node_get_object (root), "stone");

  json_object_set_string_member (stone, "base", "flat");
  return bw_json_print (root, NULL);
}

static void
the_look_of_the_stone_comes_back_as_it_was (void **state)
{
  g_autofree char *text = text_with_look ("{ \"growth_lines\": 0.25, \"veils\": 0.5, "
                                          "\"needles\": 0.75, \"chips\": 1, \"seed\": 42, "
                                          "\"base\": \"broken\", \"sparkle\": [1] }");
  g_autoptr (BwProject) project = load_text (text, NULL);
  g_autofree char *saved = NULL;
  const BwStoneLook *look;

  assert_non_null (project);
  look = &bw_project_get_design (project)->look;
  assert_true (fabs (look->growth_lines - 0.25) < 1e-12 && fabs (look->veils - 0.5) < 1e-12
               && fabs (look->needles - 0.75) < 1e-12 && fabs (look->chips - 1) < 1e-12);
  assert_int_equal (look->base, BW_BASE_BROKEN);
  assert_int_equal (look->seed, 42);
  saved = bw_project_to_data (project, NULL);
  {
    g_autoptr (BwProject) again = load_text (saved, NULL);
    g_autoptr (JsonNode) root = bw_json_parse (saved, strlen (saved), NULL);
    JsonObject *stone = json_object_get_object_member (json_node_get_object (root), "stone");
    JsonObject *written = json_object_get_object_member (stone, "look");

    assert_memory_equal (look, &bw_project_get_design (again)->look, sizeof *look);
    assert_int_equal (json_object_get_size (written), 7);
    assert_true (json_object_has_member (written, "sparkle"));
  }
}

static void
a_quiet_look_is_left_out_of_the_file (void **state)
{
  static const struct {
    const char *look;
    gboolean written;
  } cases[] = { { NULL, FALSE },
                { "{}", FALSE },
                { "{ \"chips\": 0, \"base\": \"plain\" }", FALSE },
                { "{ \"seed\": 3 }", TRUE },
                { "{ \"chips\": 0.01 }", TRUE },
                { "{ \"later\": 1 }", TRUE } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *text = text_with_look (cases[i].look);
    g_autoptr (BwProject) project = load_text (text, NULL);
    g_autofree char *saved = NULL;

    assert_non_null (project);
    saved = bw_project_to_data (project, NULL);
    assert_int_equal (strstr (saved, "\"look\"") != NULL, cases[i].written);
  }
}

static void
a_look_is_read_strictly (void **state)
{
  static const struct {
    const char *look;
    int code;
    const char *fault;
  } cases[] = { { "[]", BW_FAULT_TYPE, "/stone/look" },
                { "{ \"veils\": \"many\" }", BW_FAULT_TYPE, "/stone/look/veils" },
                { "{ \"growth_lines\": 1.01 }", BW_FAULT_RANGE, "/stone/look/growth_lines" },
                { "{ \"veils\": -0.1 }", BW_FAULT_RANGE, "/stone/look/veils" },
                { "{ \"needles\": 2 }", BW_FAULT_RANGE, "/stone/look/needles" },
                { "{ \"chips\": 1e9 }", BW_FAULT_RANGE, "/stone/look/chips" },
                { "{ \"seed\": 10000 }", BW_FAULT_RANGE, "/stone/look/seed" },
                { "{ \"seed\": 0.5 }", BW_FAULT_RANGE, "/stone/look/seed" },
                { "{ \"base\": \"rough\" }", BW_FAULT_RANGE, "/stone/look/base" } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *text = text_with_look (cases[i].look);
    g_autoptr (GError) error = NULL;

    assert_null (load_text (text, &error));
    assert_fault (error, cases[i].code, cases[i].fault);
  }
}

static void
too_many_colours_or_checks_are_refused (void **state)
{
  g_autoptr (GString) tray
      = g_string_new ("[{\"id\":\"a\"},{\"id\":\"b\"},{\"id\":\"c\"},{\"id\":\"é\"}");
  g_autoptr (GString) checks = g_string_new ("[");
  Case cases[2];

  for (int i = 4; i <= BW_TRAY_MAX; i++)
    g_string_append (tray, ",{}");
  for (int i = 0; i <= BW_CHECKS_MAX; i++)
    g_string_append (checks, &",{\"rows\":9,\"length_mm\":8}"[i == 0]);
  g_string_append_c (tray, ']');
  g_string_append_c (checks, ']');
  cases[0] = (Case){ "/tray", tray->str, BW_FAULT_RANGE, NULL };
  cases[1] = (Case){ "/progress/checks", checks->str, BW_FAULT_RANGE, NULL };
  assert_cases_refused (cases, 2);
}

static void
the_least_file_takes_every_default (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("least.bandwright");
  const BwDesign *d = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  guint64 counts[256] = { 0 };
  int n_checks;

  assert_string_equal (bw_project_get_mineral (project), "quartz");
  assert_true (fabs (d->stone.density_g_cm3 - 2.65) < 1e-12);
  assert_false (d->stone.has_second);
  assert_int_equal (d->stone.base, BW_BASE_FLAT);
  assert_true (fabs (d->gauge.column_mm - 1.3) < 1e-12);
  assert_true (fabs (d->gauge.pitch_mm - 1.6) < 1e-12);
  assert_false (d->gauge.has_swatch);
  assert_int_equal (d->band.rows, 2 * bw_fit_recommended (d, stone));
  assert_int_equal (bw_project_fit (project)->verdict, BW_VERDICT_SNUG);
  assert_true (fabs (bw_band_span_mid (bw_design_span (d)) - stone->shoulder_mm / 2) < 1e-9);
  assert_true (fabs (d->band.seam_deg - 180) < 1e-12);
  assert_int_equal (d->bed.layers, 1);
  assert_int_equal (d->bail.style, BW_BAIL_NONE);
  assert_true (fabs (d->thread.working_mm - 2000) < 1e-12);
  assert_false (d->supply.has_prices);
  assert_int_equal (bw_project_get_rows_done (project), 0);
  bw_project_get_checks (project, &n_checks);
  assert_int_equal (n_checks, 0);
  assert_int_equal (bw_project_get_tray (project)->n_colours, 1);
  bw_drawing_count (bw_project_get_drawing (project), counts);
  assert_int_equal (counts[0], d->band.rows * 5);
}

static void
the_bail_sits_on_the_seam_unless_told_otherwise (void **state)
{
  g_autofree char *text = changed_text ("/bail/at_deg", NULL);
  g_autoptr (GString) turned = g_string_new (text);
  g_autoptr (BwProject) project = NULL;

  assert_int_equal (g_string_replace (turned, "\"seam_deg\": 180", "\"seam_deg\": 205", 0), 1);
  project = load_text (turned->str, NULL);
  assert_non_null (project);
  assert_true (fabs (bw_project_get_design (project)->bail.at_deg - 205) < 1e-12);
}

static void
a_bail_of_default_size_fits_a_band_of_default_rows (void **state)
{
  gsize length;
  g_autofree char *least = corpus_text ("least.bandwright", &length);
  g_autoptr (GString) text = g_string_new (g_strchomp (least));
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = NULL;

  g_string_truncate (text, text->len - 1);
  g_string_append (text, ",\"bail\":{\"style\":\"flap\"}}");
  project = load_text (text->str, &error);
  if (!project)
    fail_msg ("%s", error->message);
  assert_int_equal (bw_drawing_rows (bw_project_get_bail_drawing (project)), 23);
}

static void
a_loop_over_the_tip_goes_straight_across_unless_told_otherwise (void **state)
{
  gsize length;
  g_autofree char *least = corpus_text ("least.bandwright", &length), *again = NULL;
  g_autoptr (GString) text = g_string_new (g_strchomp (least));
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = NULL, copy = NULL;

  g_string_truncate (text, text->len - 1);
  g_string_append (text, ",\"bail\":{\"style\":\"over\",\"rows\":60}}");
  project = load_text (text->str, &error);
  if (!project)
    fail_msg ("%s", error->message);
  const BwDesign *design = bw_project_get_design (project);
  assert_int_equal (design->bail.style, BW_BAIL_OVER);
  assert_true (design->bail.base_beads == design->band.rows / 4.0);
  again = bw_project_to_data (project, NULL);
  assert_non_null (strstr (again, "\"style\": \"over\""));
  copy = load_text (again, &error);
  assert_non_null (copy);
  assert_memory_equal (&bw_project_get_design (copy)->bail, &design->bail, sizeof design->bail);
}

static void
prices_left_out_are_those_the_format_shows (void **state)
{
  g_autofree char *text = changed_text ("/materials/prices", "{}");
  g_autoptr (BwProject) project = load_text (text, NULL);
  const BwSupply *supply;

  assert_non_null (project);
  supply = &bw_project_get_design (project)->supply;
  assert_true (supply->has_prices);
  assert_string_equal (supply->currency, "EUR");
  assert_true (fabs (supply->rows_per_hour - 22) < 1e-12);
}

static void
a_bail_of_style_none_is_kept_as_it_was_found (void **state)
{
  g_autofree char *text = changed_text ("/bail/style", "\"none\"");
  g_autoptr (BwProject) project = load_text (text, NULL), fresh = bw_project_new ();
  g_autofree char *written = NULL, *plain = bw_project_to_data (fresh, NULL);

  assert_non_null (project);
  assert_null (bw_project_get_bail_drawing (project));
  written = bw_project_to_data (project, NULL);
  assert_non_null (strstr (written, "\"at_deg\": 120.5"));
  assert_non_null (strstr (plain, "\"bail\": {\n    \"style\": \"none\"\n  }"));
}

static void
writing_and_reading_again_changes_no_byte (void **state)
{
  static const char *const names[] = { "sound.bandwright", "least.bandwright" };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++) {
    g_autoptr (BwProject) project = corpus_project (names[i]), again = NULL;
    g_autofree char *first = NULL;
    gsize length;

    first = bw_project_to_data (project, &length);
    assert_int_equal (length, strlen (first));
    again = bw_project_load_data (first, length, NULL);
    assert_non_null (again);
    assert_text (again, first);
    assert_true (
        bw_drawing_equal (bw_project_get_drawing (project), bw_project_get_drawing (again)));
  }
}

static void
after_random_edits_a_file_still_reads_back_the_same (void **state)
{
  for (guint32 seed = 100; seed < 120; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    g_autoptr (BwProject) project = corpus_project ("sound.bandwright"), again = NULL;
    g_autofree char *text = NULL;
    g_autoptr (GError) error = NULL;

    for (int i = 0; i < 25; i++)
      random_edit (project, rand);
    text = bw_project_to_data (project, NULL);
    again = load_text (text, &error);
    if (!again)
      fail_msg ("seed %u: %s", seed, error->message);
    assert_text (again, text);
  }
}

/* Everything the file said, known or not, is there after a round trip, with its value. */
static void
assert_contains (JsonNode *whole, JsonNode *part, const char *pointer)
{
  if (!whole)
    fail_msg ("%s is gone", pointer);
  if (JSON_NODE_HOLDS_OBJECT (part)) {
    JsonObjectIter iter;
    const char *key;
    JsonNode *value;

    json_object_iter_init_ordered (&iter, json_node_get_object (part));
    while (json_object_iter_next_ordered (&iter, &key, &value)) {
      g_autofree char *inner = bw_json_pointer (pointer, key);

      assert_contains (json_object_get_member (json_node_get_object (whole), key), value, inner);
    }
  } else if (JSON_NODE_HOLDS_ARRAY (part)) {
    JsonArray *list = json_node_get_array (part), *other = json_node_get_array (whole);

    assert_int_equal (json_array_get_length (list), json_array_get_length (other));
    for (guint i = 0; i < json_array_get_length (list); i++)
      assert_contains (json_array_get_element (other, i), json_array_get_element (list, i),
                       pointer);
  } else {
    g_autofree char *a = bw_json_print (part, NULL), *b = bw_json_print (whole, NULL);

    if (!g_str_equal (a, b)
        && (!bw_json_is_number (part) || !bw_json_is_number (whole)
            || fabs (bw_json_get_number (part) - bw_json_get_number (whole)) > 0))
      fail_msg ("%s was %s and became %s", pointer, a, b);
  }
}

/* A text in a sound file, n characters each. */
static BwProject *
titled (const char *pointer, int n, GError **error)
{
  g_autoptr (GString) value = g_string_new ("\"");
  g_autofree char *text = NULL;

  for (int i = 0; i < n; i++)
    g_string_append (value, "é");
  g_string_append_c (value, '"');
  text = changed_text (pointer, value->str);
  return bw_project_load_data (text, strlen (text), error);
}

static void
texts_have_two_hundred_characters_and_no_more (void **state)
{
  static const char *const pointers[] = { "/title", "/stone/mineral", "/about/licence" };

  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (BwProject) fits = titled (pointers[i], 200, &error);
    const char *text;

    assert_non_null (fits);
    text = i == 0   ? bw_project_get_title (fits)
           : i == 1 ? bw_project_get_mineral (fits)
                    : bw_project_get_about (fits, BW_ABOUT_LICENCE);
    assert_int_equal (g_utf8_strlen (text, -1), 200);
    assert_null (titled (pointers[i], 201, &error));
    assert_fault (error, BW_FAULT_RANGE, pointers[i]);
    assert_string_equal (bw_fault_sentence (error),
                         "a text of 201 characters was found; at most 200 fit.");
  }
}

/* What the program is given to hold it must be able to read again. */
static void
a_title_that_is_set_is_made_one_line_that_fits (void **state)
{
  g_autoptr (BwProject) project = bw_project_new (), again = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *long_title = g_strnfill (1000, 'x'), *data = NULL;
  gsize length;

  bw_project_set_title (project, "", "a\x1b[31m\nb\xff");
  assert_string_equal (bw_project_get_title (project), "a [31m b\xef\xbf\xbd");
  bw_project_set_mineral (project, "", long_title);
  assert_int_equal (strlen (bw_project_get_mineral (project)), 200);
  data = bw_project_to_data (project, &length);
  again = bw_project_load_data (data, length, &error);
  assert_non_null (again);
  assert_string_equal (bw_project_get_title (again), bw_project_get_title (project));
}

static void
what_the_cover_tells_is_a_step_that_is_undone_and_comes_back_from_the_file (void **state)
{
  g_autoptr (BwProject) project = bw_project_new (), again = NULL;
  g_autofree char *data = NULL, *plain = NULL, *copied = NULL;
  gsize length;

  plain = bw_project_to_data (project, &length);
  assert_null (strstr (plain, "about"));
  bw_project_set_about (project, "Maker", BW_ABOUT_MAKER, "Tidewrack");
  bw_project_set_title (project, "Title", "Ebb");
  bw_project_set_mineral (project, "Mineral", "citrine");
  assert_string_equal (bw_project_get_about (project, BW_ABOUT_MAKER), "Tidewrack");
  assert_string_equal (bw_project_get_about (project, BW_ABOUT_SKILL), "");
  data = bw_project_to_data (project, &length);
  again = bw_project_load_data (data, length, NULL);
  assert_string_equal (bw_project_get_about (again, BW_ABOUT_MAKER), "Tidewrack");
  copied = bw_project_to_data (again, &length);
  assert_string_equal (copied, data);
  bw_project_go_to (project, 0);
  assert_string_equal (bw_project_get_about (project, BW_ABOUT_MAKER), "");
  bw_project_redo (project);
  assert_string_equal (bw_project_get_about (project, BW_ABOUT_MAKER), "Tidewrack");
  bw_project_set_about (project, "Maker", BW_ABOUT_MAKER, "Tidewrack");
  assert_int_equal (bw_project_get_position (project), 1);
}

/* No double and no 64 bits hold these; byte by byte they come back. */
static void
numbers_of_unknown_keys_come_back_as_they_were_written (void **state)
{
  static const char *const numbers[]
      = { "12345678901234567890", "1e400", "-1E-400", "1.500", "-0" };
  static const char *const places[]
      = { "/made_with/hand/1", "/stone/found_at", "/tray/0/bag", "/progress/checks/0/by" };

  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    for (gsize k = 0; k < G_N_ELEMENTS (places); k++) {
      g_autofree char *text = changed_text (places[k], numbers[i]), *written = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (BwProject) project = bw_project_load_data (text, strlen (text), &error);
      g_autoptr (JsonNode) root = NULL;
      g_auto (GStrv) keys = g_strsplit (places[k] + 1, "/", -1);
      gsize length;

      if (!project)
        fail_msg ("%s at %s: %s", numbers[i], places[k], error->message);
      written = bw_project_to_data (project, &length);
      root = bw_json_parse (written, length, NULL);
      assert_string_equal (bw_json_number_text (walk (root, keys)), numbers[i]);
      assert_non_null (strstr (written, numbers[i]));
    }
}

static void
unknown_keys_are_written_back_at_every_level (void **state)
{
  gsize length;
  g_autofree char *text = corpus_text ("sound.bandwright", &length), *written = NULL;
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autoptr (JsonNode) before = bw_json_parse (text, length, NULL), after = NULL;
  static const char *const unknown[] = { "/made_with/hand/2",
                                         "/stone/found_at",
                                         "/bead/shop_shelf",
                                         "/gauge/thread_tension",
                                         "/gauge/swatch/woven_on",
                                         "/gauge/hands/pieces",
                                         "/bed/wax",
                                         "/band/knot",
                                         "/tray/0/bag",
                                         "/bail/stitch",
                                         "/thread/colour",
                                         "/fit/by_feel",
                                         "/materials/stall",
                                         "/materials/prices/vat",
                                         "/progress/since",
                                         "/progress/checks/0/by" };

  written = bw_project_to_data (project, &length);
  after = bw_json_parse (written, length, NULL);
  assert_non_null (after);
  for (gsize i = 0; i < G_N_ELEMENTS (unknown); i++) {
    g_auto (GStrv) keys = g_strsplit (unknown[i] + 1, "/", -1);

    assert_non_null (walk (before, keys));
    assert_non_null (walk (after, keys));
  }
  assert_contains (after, before, "");
}

static void
the_locale_does_not_reach_the_file (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  g_autofree char *plain = bw_project_to_data (project, NULL);
  g_autoptr (BwProject) again = NULL;

  use_decimal_comma ();
  assert_text (project, plain);
  again = load_text (plain, NULL);
  assert_non_null (again);
  assert_text (again, plain);
  setlocale (LC_ALL, "C");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_malformed_file_of_the_corpus_is_one_fault_at_its_key),
    cmocka_unit_test (a_value_of_another_kind_is_named),
    cmocka_unit_test (a_required_key_that_is_missing_is_named),
    cmocka_unit_test (every_key_that_is_not_required_may_be_left_out),
    cmocka_unit_test (a_value_outside_its_range_is_named),
    cmocka_unit_test (a_foreign_or_newer_file_is_told_apart_before_anything_else),
    cmocka_unit_test (an_odd_number_of_faces_cannot_be_measured_across_the_flats),
    cmocka_unit_test (a_try_on_is_read_strictly),
    cmocka_unit_test (a_try_on_comes_back_as_it_was_with_keys_not_known),
    cmocka_unit_test (the_look_of_the_stone_comes_back_as_it_was),
    cmocka_unit_test (a_quiet_look_is_left_out_of_the_file),
    cmocka_unit_test (a_look_is_read_strictly),
    cmocka_unit_test (too_many_colours_or_checks_are_refused),
    cmocka_unit_test (the_least_file_takes_every_default),
    cmocka_unit_test (the_bail_sits_on_the_seam_unless_told_otherwise),
    cmocka_unit_test (a_loop_over_the_tip_goes_straight_across_unless_told_otherwise),
    cmocka_unit_test (a_bail_of_default_size_fits_a_band_of_default_rows),
    cmocka_unit_test (prices_left_out_are_those_the_format_shows),
    cmocka_unit_test (a_bail_of_style_none_is_kept_as_it_was_found),
    cmocka_unit_test (writing_and_reading_again_changes_no_byte),
    cmocka_unit_test (after_random_edits_a_file_still_reads_back_the_same),
    cmocka_unit_test (texts_have_two_hundred_characters_and_no_more),
    cmocka_unit_test (a_title_that_is_set_is_made_one_line_that_fits),
    cmocka_unit_test (what_the_cover_tells_is_a_step_that_is_undone_and_comes_back_from_the_file),
    cmocka_unit_test (numbers_of_unknown_keys_come_back_as_they_were_written),
    cmocka_unit_test (unknown_keys_are_written_back_at_every_level),
    cmocka_unit_test (the_locale_does_not_reach_the_file),
  };

  return cmocka_run_group_tests_name ("file", tests, NULL, NULL);
}
