/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output/report/csv.h"
#include "output/report/table.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static void
columns_line_up_whatever_letters_they_hold (void **state)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "lrl");
  bw_table_add (&table, g_strdup ("Größe"), g_strdup ("7"), g_strdup ("x"));
  bw_table_add (&table, g_strdup ("a"), g_strdup ("1234"), g_strdup (""));
  bw_table_add (&table, g_strdup ("珠"), g_strdup ("±1"), g_strdup ("last"));
  bw_table_write (&table, text, 1);
  assert_string_equal (text->str, " Größe     7  x\n"
                                  " a      1234\n"
                                  " 珠       ±1  last\n");
}

static void
a_column_can_be_taken_out (void **state)
{
  for (guint column = 0; column < 3; column++) {
    static const char *const left[] = { "2  c\n5  f\n", "a  c\nd  f\n", "a  2\nd  5\n" };
    g_autoptr (GString) text = g_string_new (NULL);
    g_auto (BwTable) table = { 0 };
    bw_table_init (&table, "lrl");
    bw_table_add (&table, g_strdup ("a"), g_strdup ("2"), g_strdup ("c"));
    bw_table_add (&table, g_strdup ("d"), g_strdup ("5"), g_strdup ("f"));
    bw_table_drop (&table, column);
    bw_table_write (&table, text, 0);
    assert_string_equal (text->str, left[column]);
  }
}

static void
assert_record (const char *field, const char *written)
{
  g_autoptr (GString) text = g_string_new (NULL);
  const char *fields[] = { field, NULL, "end" };
  g_autofree char *wanted = g_strdup_printf ("%s,,end\r\n", written);
  bw_csv_record (text, fields, 3);
  assert_string_equal (text->str, wanted);
}

static void
csv_quotes_what_rfc_4180_section_2_wants_quoted (void **state)
{
  assert_record ("plain", "plain");
  assert_record ("a,b", "\"a,b\"");
  assert_record ("say \"sea\"", "\"say \"\"sea\"\"\"");
  assert_record ("two\r\nlines", "\"two\r\nlines\"");
  assert_record (" blank", "\" blank\"");
  assert_record ("", "");
}

static void
csv_disarms_what_a_spreadsheet_would_evaluate (void **state)
{
  assert_record ("=SUM(A1:A9)", "'=SUM(A1:A9)");
  assert_record ("+1", "'+1");
  assert_record ("-1,5", "\"'-1,5\"");
  assert_record ("@x", "'@x");
  assert_record ("  =1+1", "\"'  =1+1\"");
  assert_record ("a;=1+1", "\"a;=1+1\"");
  assert_record ("\ttab", "'\ttab");
  assert_record ("\nline", "\"'\nline\"");
  assert_record ("＝1", "'＝1");
  assert_record ("1=2", "1=2");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (columns_line_up_whatever_letters_they_hold),
    cmocka_unit_test (a_column_can_be_taken_out),
    cmocka_unit_test (csv_quotes_what_rfc_4180_section_2_wants_quoted),
    cmocka_unit_test (csv_disarms_what_a_spreadsheet_would_evaluate),
  };
  return cmocka_run_group_tests_name ("table", tests, NULL, NULL);
}
