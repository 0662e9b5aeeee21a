/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A colour may be called anything, "=SUM(A1)" and a name with commas, quotes or a line's end among
 * them; a list that opens in a spreadsheet must bring all of them through unharmed and unharming.
 */
#include "output/report/csv.h"

#include <string.h>

/* Some spreadsheets pass over blanks before they look for a formula. */
static gboolean
reads_as_formula (const char *field)
{
  while (*field == ' ')
    field++;
  switch (g_utf8_get_char (field)) {
  case '=':
  case '+':
  case '-':
  case '@':
  case '\t':
  case '\r':
  case '\n':
  case 0xff1d: /* full-width = */
  case 0xff0b: /* full-width + */
  case 0xff0d: /* full-width - */
  case 0xff20: /* full-width @ */
    return TRUE;
  default:
    return FALSE;
  }
}

/* RFC 4180 asks for quotes round comma, quote and line's end; where the decimal sign is a comma,
 * spreadsheets part at semicolons as well. */
static gboolean
wants_quotes (const char *field)
{
  gsize length = strlen (field);
  return strpbrk (field, ",;\"\r\n")
         || (length > 0 && (field[0] == ' ' || field[length - 1] == ' '));
}

static void
append_field (GString *text, const char *field)
{
  const char *quote = wants_quotes (field) ? "\"" : "";
  g_string_append (text, quote);
  if (reads_as_formula (field))
    g_string_append_c (text, '\'');
  for (const char *c = field; *c; c++) {
    if (*c == '"')
      g_string_append_c (text, '"');
    g_string_append_c (text, *c);
  }
  g_string_append (text, quote);
}

void
bw_csv_record (GString *text, const char *const *fields, int n_fields)
{
  for (int i = 0; i < n_fields; i++) {
    if (i > 0)
      g_string_append_c (text, ',');
    if (fields[i])
      append_field (text, fields[i]);
  }
  g_string_append (text, "\r\n");
}

char *
bw_csv_number (double value, gboolean known)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  return g_strdup (known ? g_ascii_formatd (text, sizeof text, "%.10g", value) : "");
}
