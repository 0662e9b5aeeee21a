/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output/report/answer.h"

#include <json-glib/json-glib.h>
#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static JsonNode *
parse (const char *text)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  assert_true (json_parser_load_from_data (parser, text, -1, NULL));
  return json_parser_steal_root (parser);
}

static double
random_double (GRand *rand)
{
  double mantissa = g_rand_double_range (rand, -10, 10);
  return ldexp (mantissa, g_rand_int_range (rand, -900, 900));
}

static void
every_number_reads_back_as_the_same_double (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  for (int i = 0; i < 3000; i++) {
    double value = i < 1000 ? g_rand_int_range (rand, -4000, 4000) / 100.0 : random_double (rand);
    BwAnswer json;
    bw_answer_init (&json);
    bw_answer_number (&json, "value", value);
    g_autofree char *text = bw_answer_finish (&json);
    double back = g_ascii_strtod (strchr (text, ':') + 2, NULL);
    assert_true (back >= value && back <= value);
  }
}

static void
a_number_is_written_in_the_fewest_digits (void **state)
{
  static const struct {
    double value;
    const char *digits;
  } cases[] = {
    { 0.1, "0.1" }, { 1.6, "1.6" }, { 57, "57" }, { -0.0, "0" }, { 1.0 / 3, "0.3333333333333333" }
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    BwAnswer json;
    bw_answer_init (&json);
    bw_answer_numbers (&json, "n", &cases[i].value, 1);
    g_autofree char *text = bw_answer_finish (&json);
    g_autofree char *wanted = g_strdup_printf ("{\n  \"n\": [%s]\n}\n", cases[i].digits);
    assert_string_equal (text, wanted);
  }
}

static void
what_is_not_a_number_is_null (void **state)
{
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_number (&json, "nan", (double)NAN);
  bw_answer_number (&json, "infinite", -(double)INFINITY);
  bw_answer_number_if (&json, FALSE, "absent", 4);
  g_autofree char *text = bw_answer_finish (&json);
  g_autoptr (JsonNode) root = parse (text);
  JsonObject *object = json_node_get_object (root);
  assert_int_equal (json_object_get_size (object), 3);
  assert_true (json_object_get_null_member (object, "nan"));
  assert_true (json_object_get_null_member (object, "infinite"));
  assert_true (json_object_get_null_member (object, "absent"));
}

static void
every_character_comes_back (void **state)
{
  GString *all = g_string_new (NULL);
  for (gunichar c = 1; c < 0x3000; c++)
    if (g_unichar_validate (c))
      g_string_append_unichar (all, c);
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_string (&json, "all", all->str);
  bw_answer_string (&json, "\"key\"", NULL);
  g_autofree char *text = bw_answer_finish (&json);
  g_autoptr (JsonNode) root = parse (text);
  JsonObject *object = json_node_get_object (root);
  assert_string_equal (json_object_get_string_member (object, "all"), all->str);
  assert_true (json_object_get_null_member (object, "\"key\""));
  g_string_free (all, TRUE);
}

static void
nesting_closes_what_it_opened (void **state)
{
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_open_array (&json, "list");
  for (int i = 0; i < 3; i++) {
    bw_answer_open_object (&json, NULL);
    bw_answer_count (&json, "i", (guint64)i);
    bw_answer_open_array (&json, "inner");
    bw_answer_boolean (&json, NULL, TRUE);
    bw_answer_null (&json, NULL);
    bw_answer_close (&json);
    bw_answer_close (&json);
  }
  bw_answer_open_array (&json, NULL);
  bw_answer_close (&json);
  bw_answer_close (&json);
  bw_answer_open_object (&json, "empty");
  g_autofree char *text = bw_answer_finish (&json);
  g_autoptr (JsonNode) root = parse (text);
  JsonArray *list = json_object_get_array_member (json_node_get_object (root), "list");
  assert_int_equal (json_array_get_length (list), 4);
  JsonObject *second = json_array_get_object_element (list, 1);
  assert_int_equal (json_object_get_int_member (second, "i"), 1);
  assert_int_equal (json_array_get_length (json_object_get_array_member (second, "inner")), 2);
}

static void
a_locale_with_a_decimal_comma_changes_nothing (void **state)
{
  /* A locale made for the test's purpose may not be installed; then the comma is out of reach of
   * every program and the C locale's answer must still be right. */
  setlocale (LC_NUMERIC, "de_DE.UTF-8");
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_number (&json, "half", 0.5);
  g_autofree char *text = bw_answer_finish (&json);
  setlocale (LC_NUMERIC, "C");
  assert_string_equal (text, "{\n  \"half\": 0.5\n}\n");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_number_reads_back_as_the_same_double),
    cmocka_unit_test (a_number_is_written_in_the_fewest_digits),
    cmocka_unit_test (what_is_not_a_number_is_null),
    cmocka_unit_test (every_character_comes_back),
    cmocka_unit_test (nesting_closes_what_it_opened),
    cmocka_unit_test (a_locale_with_a_decimal_comma_changes_nothing),
  };
  return cmocka_run_group_tests_name ("answer", tests, NULL, NULL);
}
