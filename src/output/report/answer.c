/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reports are read by programs: this writer exists so that no key order, digit or comma of theirs
 * hangs on a locale or on how a library likes to print numbers. */
#include "output/report/answer.h"

#include "project/json/json-write.h"

#include <math.h>

/* Members of the two outermost levels get a line of their own; what lies deeper stays on one line,
 * which keeps a table of columns readable as a table. */
#define LEVELS_ON_LINES 2

/* A result of −0 is a zero to every reader. */
static void
append_number (GString *text, double value)
{
  bw_json_append_number (text, value + 0.0);
}

static void
break_line (BwAnswer *json)
{
  if (json->closers->len > LEVELS_ON_LINES)
    return;
  g_string_append_printf (json->text, "\n%*s", (int)json->closers->len * 2, "");
}

/* Everything before a value: the comma, the line, the key. */
static void
begin_value (BwAnswer *json, const char *key)
{
  if (!json->empty)
    g_string_append (json->text, json->closers->len > LEVELS_ON_LINES ? ", " : ",");
  break_line (json);
  json->empty = FALSE;
  if (!key)
    return;
  bw_json_append_text (json->text, key);
  g_string_append (json->text, ": ");
}

static void
open_container (BwAnswer *json, const char *brackets)
{
  g_string_append_c (json->text, brackets[0]);
  g_string_append_c (json->closers, brackets[1]);
  json->empty = TRUE;
}

void
bw_answer_init (BwAnswer *json)
{
  json->text = g_string_new (NULL);
  json->closers = g_string_new (NULL);
  open_container (json, "{}");
}

void
bw_answer_open_object (BwAnswer *json, const char *key)
{
  begin_value (json, key);
  open_container (json, "{}");
}

void
bw_answer_open_array (BwAnswer *json, const char *key)
{
  begin_value (json, key);
  open_container (json, "[]");
}

void
bw_answer_close (BwAnswer *json)
{
  char closer = json->closers->str[json->closers->len - 1];
  gboolean on_lines = !json->empty && json->closers->len <= LEVELS_ON_LINES;
  g_string_truncate (json->closers, json->closers->len - 1);
  if (on_lines)
    break_line (json);
  g_string_append_c (json->text, closer);
  json->empty = FALSE;
}

char *
bw_answer_finish (BwAnswer *json)
{
  while (json->closers->len > 0)
    bw_answer_close (json);
  g_string_free (json->closers, TRUE);
  g_string_append_c (json->text, '\n');
  return g_string_free (json->text, FALSE);
}

void
bw_answer_number (BwAnswer *json, const char *key, double value)
{
  if (!isfinite (value)) {
    bw_answer_null (json, key);
    return;
  }
  begin_value (json, key);
  append_number (json->text, value);
}

void
bw_answer_number_if (BwAnswer *json, gboolean there, const char *key, double value)
{
  if (there)
    bw_answer_number (json, key, value);
  else
    bw_answer_null (json, key);
}

void
bw_answer_count (BwAnswer *json, const char *key, guint64 value)
{
  begin_value (json, key);
  g_string_append_printf (json->text, "%" G_GUINT64_FORMAT, value);
}

void
bw_answer_boolean (BwAnswer *json, const char *key, gboolean value)
{
  begin_value (json, key);
  g_string_append (json->text, value ? "true" : "false");
}

void
bw_answer_null (BwAnswer *json, const char *key)
{
  begin_value (json, key);
  g_string_append (json->text, "null");
}

void
bw_answer_string (BwAnswer *json, const char *key, const char *value)
{
  if (!value) {
    bw_answer_null (json, key);
    return;
  }
  begin_value (json, key);
  bw_json_append_text (json->text, value);
}

void
bw_answer_numbers (BwAnswer *json, const char *key, const double *values, int n_values)
{
  begin_value (json, key);
  g_string_append_c (json->text, '[');
  for (int i = 0; i < n_values; i++) {
    g_string_append (json->text, i > 0 ? ", " : "");
    append_number (json->text, values[i]);
  }
  g_string_append_c (json->text, ']');
}
