/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"

#include "project/json/json.h"
#include <math.h>
#include <stdlib.h>

static JsonNode *
parse (const char *text, GError **error)
{
  return bw_json_parse (text, strlen (text), error);
}

static void
assert_refused (const char *text, gsize length, int code, const char *pointer)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = bw_json_parse (text, length, &error);

  assert_null (node);
  assert_fault (error, code, pointer);
}

static void
assert_prints (const char *text, const char *printed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = parse (text, &error);
  g_autofree char *out = NULL;
  gsize length = 0;

  if (!node)
    fail_msg ("%s: %s", text, error->message);
  out = bw_json_print (node, &length);
  assert_string_equal (out, printed);
  assert_int_equal (length, strlen (out));
}

/* RFC 8259, sections 2 to 7: what must be taken. */
static void
every_form_the_grammar_allows_is_taken (void **state)
{
  assert_prints ("null", "null\n");
  assert_prints ("\t\r\n true ", "true\n");
  assert_prints ("[ ]", "[]\n");
  assert_prints ("{\n}", "{}\n");
  assert_prints ("[0,-0,10,-7,1.5,0.25e2,1E3,1e+3,125e-3]",
                 "[0, -0, 10, -7, 1.5, 0.25e2, 1E3, 1e+3, 125e-3]\n");
  assert_prints ("\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e9\\uD83D\\udc8e/\"",
                 "\"\\\"\\\\/\\u0008\\u000c\\n\\u000d\\té💎/\"\n");
  assert_prints (
      "{\"\":{\"a\":[[1,2],[]],\"b\":\"\"}}",
      "{\n  \"\": {\n    \"a\": [\n      [1, 2],\n      []\n    ],\n    \"b\": \"\"\n  }\n}\n");
}

static void
lists_of_numbers_and_objects_in_lists_take_one_line (void **state)
{
  assert_prints ("{\"n\":[1,2.5],\"o\":[{\"a\":1,\"b\":null}],\"s\":[\"x\",\"y\"]}",
                 "{\n  \"n\": [1, 2.5],\n  \"o\": [\n    { \"a\": 1, \"b\": null }\n  ],\n"
                 "  \"s\": [\n    \"x\",\n    \"y\"\n  ]\n}\n");
}

/* Whole numbers no 64 bits hold, numbers no double holds, and more than one way to write one. */
static void
a_number_stays_as_it_is_written (void **state)
{
  static const char *const numbers[] = { "9223372036854775807",
                                         "-9223372036854775808",
                                         "12345678901234567890",
                                         "-123456789012345678901234567890",
                                         "1e400",
                                         "-1E+400",
                                         "1e-400",
                                         "1.50",
                                         "-0",
                                         "0.0e0",
                                         "0.1000000000000000055511151231257827" };

  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++) {
    g_autofree char *printed = g_strconcat (numbers[i], "\n", NULL);

    assert_prints (numbers[i], printed);
  }
}

/* The shortest digits of some doubles whose shortest form is known: 0.1 and 0.3 by their decimal
 * names, 5e-324 the least and 1.7976931348623157e308 the greatest (IEEE 754-2019, table 3.5). */
static void
doubles_are_written_in_the_fewest_digits (void **state)
{
  static const struct {
    double number;
    const char *text;
  } cases[] = { { 0.1, "0.1\n" },
                { 0.1 + 0.2, "0.30000000000000004\n" },
                { 5e-324, "5e-324\n" },
                { 1.7976931348623157e308, "1.7976931348623157e+308\n" } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (JsonNode) node = bw_json_number (cases[i].number);
    g_autofree char *text = bw_json_print (node, NULL);

    assert_string_equal (text, cases[i].text);
  }
}

static void
every_double_reads_back_as_itself (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8259);

  for (int i = 0; i < 20000; i++) {
    guint64 bits = (guint64)g_rand_int (rand) << 32 | g_rand_int (rand);
    double number, back;
    g_autoptr (JsonNode) node = NULL, again = NULL;
    g_autofree char *text = NULL;

    memcpy (&number, &bits, sizeof number);
    if (i % 2)
      number = g_rand_double_range (rand, -1000, 1000);
    if (!isfinite (number))
      continue;
    node = bw_json_number (number);
    text = bw_json_print (node, NULL);
    again = parse (text, NULL);
    assert_non_null (again);
    back = bw_json_get_number (again);
    assert_memory_equal (&back, &number, sizeof back);
  }
}

static void
a_whole_number_is_written_without_a_point (void **state)
{
  static const struct {
    double number;
    const char *text;
  } cases[]
      = { { 12, "12\n" }, { -3, "-3\n" }, { 0, "0\n" }, { -0.0, "-0\n" }, { 1e22, "1e+22\n" } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (JsonNode) node = bw_json_number (cases[i].number);
    g_autofree char *text = bw_json_print (node, NULL);

    assert_string_equal (text, cases[i].text);
  }
}

static void
the_order_of_keys_is_kept (void **state)
{
  assert_prints ("{\"z\":1,\"a\":2,\"m\":3}", "{\n  \"z\": 1,\n  \"a\": 2,\n  \"m\": 3\n}\n");
}

static void
nesting_is_taken_to_its_limit_and_refused_beyond (void **state)
{
  for (int more = 0; more < 2; more++) {
    int depth = BW_JSON_DEPTH_MAX + more;
    g_autoptr (GString) text = g_string_new (NULL);
    g_autoptr (GError) error = NULL;
    g_autoptr (JsonNode) node = NULL;

    for (int i = 0; i < depth; i++)
      g_string_append_c (text, '[');
    for (int i = 0; i < depth; i++)
      g_string_append_c (text, ']');
    node = parse (text->str, &error);
    assert_int_equal (node != NULL, more == 0);
    if (more)
      assert_string_equal (bw_fault_sentence (error),
                           "line 1, column 101: the values are nested too deep");
  }
}

static void
a_hundred_thousand_levels_are_one_fault (void **state)
{
  static const char *const openings[] = { "[", "{\"a\":", "[{\"a\":" };

  for (gsize i = 0; i < G_N_ELEMENTS (openings); i++) {
    g_autoptr (GString) text = g_string_new (NULL);
    g_autoptr (GError) error = NULL;

    for (int level = 0; level < 100000; level++)
      g_string_append (text, openings[i]);
    assert_null (parse (text->str, &error));
    assert_true (g_error_matches (error, BW_FAULT, BW_FAULT_SYNTAX));
    assert_non_null (strstr (error->message, "nested too deep"));
  }
}

static void
more_bytes_than_a_project_can_have_are_refused_unread (void **state)
{
  gsize length = (gsize)BW_JSON_BYTES_MAX + 1;
  g_autofree char *spaces = g_malloc (length);

  memset (spaces, ' ', length);
  assert_refused (spaces, length, BW_FAULT_SYNTAX, "");
  assert_refused (spaces, length - 1, BW_FAULT_SYNTAX, "");
}

static void
a_million_digits_are_kept (void **state)
{
  g_autoptr (GString) text = g_string_new ("[0.");

  for (int i = 0; i < 1000000; i++)
    g_string_append_c (text, '3');
  g_string_append_c (text, ']');
  {
    g_autofree char *printed = g_strconcat (text->str, "\n", NULL);

    assert_prints (text->str, printed);
  }
}

/* The greatest size this process ever had, in KiB. */
static gulong
peak_kib (void)
{
  g_autofree char *status = NULL;
  const char *line;

  assert_true (g_file_get_contents ("/proc/self/status", &status, NULL, NULL));
  line = strstr (status, "VmHWM:");
  assert_non_null (line);
  return strtoul (line + strlen ("VmHWM:"), NULL, 10);
}

/* Unbounded, the least of these takes 350 MiB: json-glib's objects are a hundred bytes for one of
 * the file's. */
static void
more_values_than_a_project_can_have_are_refused_before_memory_is_taken (void **state)
{
  static const char *const values[] = { "{},", "1,", "[],", "\"\"," };

  for (gsize i = 0; i < G_N_ELEMENTS (values); i++) {
    g_autoptr (GString) text = g_string_new ("[");
    gulong before;

    while (text->len < 8 * 1024 * 1024)
      g_string_append (text, values[i]);
    before = peak_kib ();
    assert_refused (text->str, text->len, BW_FAULT_SYNTAX, "/199999");
    assert_in_range (peak_kib () - before, 0, 150 * 1024);
  }
}

static void
values_are_taken_to_their_limit_and_refused_beyond (void **state)
{
  for (int more = 0; more <= 1; more++) {
    g_autoptr (GString) text = g_string_new ("[1");
    g_autoptr (GError) error = NULL;
    g_autoptr (JsonNode) node = NULL;

    for (int i = 2; i < BW_JSON_VALUES_MAX + more; i++)
      g_string_append (text, ",1");
    g_string_append_c (text, ']');
    node = parse (text->str, &error);
    assert_int_equal (node != NULL, more == 0);
    if (more)
      assert_non_null (strstr (error->message, "the file holds more values than any project has"));
  }
}

static void
an_object_has_no_more_keys_than_can_be_compared (void **state)
{
  for (int more = 0; more <= 1; more++) {
    g_autoptr (GString) text = g_string_new ("{\"a\":{\"k\":0");
    g_autoptr (GError) error = NULL;
    g_autoptr (JsonNode) node = NULL;

    for (int i = 1; i < BW_JSON_KEYS_MAX + more; i++)
      g_string_append_printf (text, ",\"%d\":0", i);
    g_string_append (text, "}}");
    node = parse (text->str, &error);
    assert_int_equal (node != NULL, more == 0);
    if (more)
      assert_fault (error, BW_FAULT_SYNTAX, "/a");
  }
}

/* Ten megabytes of key are a place nobody could be shown. */
static void
a_pointer_stops_at_the_last_place_short_enough_to_be_told (void **state)
{
  g_autofree char *key = g_strnfill (10000000, 'k'), *fits = g_strnfill (200, 'f');
  g_autofree char *deep = NULL, *whole = NULL, *told = NULL;
  g_autoptr (GError) error = NULL;

  deep = g_strdup_printf ("{\"a\":{\"%s\":[{\"%s\":{\"b\":}}]}}", fits, key);
  assert_null (parse (deep, &error));
  told = g_strdup_printf ("/a/%s/0", fits);
  assert_fault (error, BW_FAULT_SYNTAX, told);
  assert_true (strlen (error->message) < 1000);
  g_clear_error (&error);
  whole = g_strdup_printf ("{\"%s\":{\"%s\":{\"%s\":}}}", fits, fits, fits);
  assert_null (parse (whole, &error));
  g_clear_pointer (&told, g_free);
  told = g_strdup_printf ("/%s/%s", fits, fits);
  assert_fault (error, BW_FAULT_SYNTAX, told);
}

/* Title and names come back on a terminal; what it would obey must not reach it raw. */
static void
control_characters_are_written_as_escapes (void **state)
{
  assert_prints ("\"\\u001b[31m\\u007f\\u009b\u00e9\"", "\"\\u001b[31m\\u007f\\u009b\u00e9\"\n");
}

static void
a_fault_tells_line_and_column (void **state)
{
  g_autoptr (GError) error = NULL;

  assert_null (parse ("{\n  \"é\": 1,\n  \"ü\": }\n", &error));
  assert_string_equal (error->message, "/ü: line 3, column 8: a value is missing, or this is none");
}

/* However a whole file was cut short, what is missing is its end. */
static void
a_file_cut_short_is_told_to_break_off (void **state)
{
  const char *whole = "{\"a\": [1, \"b\", true], \"c\": {\"d\": -2.5}}";
  for (gsize n = 1; n < strlen (whole); n++) {
    g_autoptr (GError) error = NULL;
    g_autofree char *cut = g_strndup (whole, n);
    assert_null (parse (cut, &error));
    if (!strchr ("true", whole[n]) && !strchr ("-.", whole[n - 1])) /* not within a word */
      assert_true (g_str_has_suffix (error->message, ": the file breaks off here"));
  }
}

static void
pointers_escape_what_they_must (void **state)
{
  g_autofree char *plain = bw_json_pointer ("", "stone");
  g_autofree char *escaped = bw_json_pointer (plain, "a/b~c~1");

  assert_string_equal (plain, "/stone");
  assert_string_equal (escaped, "/stone/a~1b~0c~01");
}

static void
numbers_do_not_depend_on_the_locale (void **state)
{
  g_autoptr (JsonNode) node = NULL;

  use_decimal_comma ();
  node = parse ("[1.5, 2.25e-3]", NULL);
  assert_non_null (node);
  assert_prints ("[1.5, 2.25e-3]", "[1.5, 2.25e-3]\n");
  setlocale (LC_ALL, "C");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_form_the_grammar_allows_is_taken),
    cmocka_unit_test (lists_of_numbers_and_objects_in_lists_take_one_line),
    cmocka_unit_test (a_number_stays_as_it_is_written),
    cmocka_unit_test (doubles_are_written_in_the_fewest_digits),
    cmocka_unit_test (every_double_reads_back_as_itself),
    cmocka_unit_test (a_whole_number_is_written_without_a_point),
    cmocka_unit_test (the_order_of_keys_is_kept),
    cmocka_unit_test (nesting_is_taken_to_its_limit_and_refused_beyond),
    cmocka_unit_test (a_hundred_thousand_levels_are_one_fault),
    cmocka_unit_test (more_bytes_than_a_project_can_have_are_refused_unread),
    cmocka_unit_test (a_million_digits_are_kept),
    cmocka_unit_test (more_values_than_a_project_can_have_are_refused_before_memory_is_taken),
    cmocka_unit_test (values_are_taken_to_their_limit_and_refused_beyond),
    cmocka_unit_test (an_object_has_no_more_keys_than_can_be_compared),
    cmocka_unit_test (a_pointer_stops_at_the_last_place_short_enough_to_be_told),
    cmocka_unit_test (control_characters_are_written_as_escapes),
    cmocka_unit_test (a_fault_tells_line_and_column),
    cmocka_unit_test (a_file_cut_short_is_told_to_break_off),
    cmocka_unit_test (pointers_escape_what_they_must),
    cmocka_unit_test (numbers_do_not_depend_on_the_locale),
  };

  return cmocka_run_group_tests_name ("json", tests, NULL, NULL);
}
