/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The manual page against the program: every command, every option and every key it prints. */
#include "output/report/report.h"
#include "sample.h"

#include <gio/gio.h>
#include <json-glib/json-glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static char *
manual (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("BW_TEST_DATA"), "bandwright-tool.1", NULL);
  char *text = NULL;
  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return text;
}

static char *
help_of (const char *command)
{
  const char *argv[] = { g_getenv ("BW_TOOL"), "help", command, NULL };
  g_autoptr (GSubprocess) tool = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDOUT_PIPE, NULL);
  char *text = NULL;
  assert_non_null (tool);
  assert_true (g_subprocess_communicate_utf8 (tool, NULL, NULL, &text, NULL, NULL));
  return text;
}

static void
assert_told (const char *page, const char *format, const char *what)
{
  g_autofree char *wanted = g_strdup_printf ("%s%s", format, what);
  if (!strstr (page, wanted))
    fail_msg ("the manual does not tell \"%s\"", wanted);
}

/* What a pattern's only group matches in each line of a text. */
static char **
words_listed (const char *text, const char *pattern)
{
  g_autoptr (GRegex) regex = g_regex_new (pattern, G_REGEX_MULTILINE, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *word = g_match_info_fetch (match, 1);
    g_strv_builder_add (words, word);
  }
  return g_strv_builder_end (words);
}

static void
assert_options_told (const char *page, const char *help)
{
  g_auto (GStrv) options = words_listed (help, "^  --([a-z-]+)");
  assert_true (g_strv_length (options) > 0);
  for (char **option = options; *option; option++)
    assert_told (page, "-", *option);
}

static void
it_tells_every_command_and_option (void **state)
{
  g_autofree char *page = manual ();
  g_autofree char *help = help_of (NULL);
  g_auto (GStrv) commands = words_listed (help, "^  ([a-z][a-z-]*) ");
  assert_int_equal (g_strv_length (commands), 29);
  assert_options_told (page, help);
  for (char **command = commands; *command; command++) {
    g_autofree char *own = help_of (g_str_equal (*command, "help") ? NULL : *command);
    assert_told (page, ".It Cm ", *command);
    assert_options_told (page, own);
  }
}

static void assert_node_told (JsonNode *node, const char *page);

static void
assert_member_told (JsonObject *object, const char *key, JsonNode *node, gpointer page)
{
  assert_told (page, "", key);
  assert_node_told (node, page);
}

static void
assert_node_told (JsonNode *node, const char *page)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    json_object_foreach_member (json_node_get_object (node), assert_member_told, (char *)page);
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return;
  JsonArray *array = json_node_get_array (node);
  for (guint i = 0; i < json_array_get_length (array); i++)
    assert_node_told (json_array_get_element (array, i), page);
}

static void
it_tells_every_key_of_the_json (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  g_autoptr (Sample) sample = sample_new (rand, 10, 0, SAMPLE_FLAP);
  sample->prices = TRUE;
  g_autofree char *page = manual (), *json = sample_json (sample);
  g_autoptr (BwProject) project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  BwReading reading = { 2, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER };
  char *reports[] = { bw_report_fit (project, 0, TRUE, NULL),
                      bw_report_stone (project, TRUE),
                      bw_report_section (project, 20, TRUE, NULL),
                      bw_report_hang (project, TRUE),
                      bw_report_thread (project, TRUE, TRUE),
                      bw_report_materials (project, 0, BW_UNIT_MM, TRUE),
                      bw_report_try_on (project, 108, &reading, TRUE, NULL) };
  for (gsize i = 0; i < G_N_ELEMENTS (reports); i++) {
    g_autoptr (JsonParser) parser = json_parser_new ();
    assert_true (json_parser_load_from_data (parser, reports[i], -1, NULL));
    assert_node_told (json_parser_get_root (parser), page);
    g_free (reports[i]);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (it_tells_every_command_and_option),
    cmocka_unit_test (it_tells_every_key_of_the_json),
  };
  return cmocka_run_group_tests_name ("manual", tests, NULL, NULL);
}
