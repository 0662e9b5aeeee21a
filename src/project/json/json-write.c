/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One way to write each number and each text, so that what the program writes can be compared byte
 * by byte and read back without loss. */
#include "project/json/json-write.h"

#include <float.h>
#include <math.h>
#include <string.h>

#define DIGITS_SURE 15 /* so many survive any double; only the least doubles have fewer */
#define DIGITS_MAX 17

static const char *
past_digits (const char *p, const char *end)
{
  while (p < end && g_ascii_isdigit (*p))
    p++;
  return p;
}

static gboolean
stands (const char *p, const char *end, char a, char b)
{
  return p < end && (*p == a || *p == b);
}

const char *
bw_json_scan_number (const char *from, const char *end)
{
  const char *p = stands (from, end, '-', '-') ? from + 1 : from;
  const char *to = stands (p, end, '0', '0') ? p + 1 : past_digits (p, end);
  if (to > p && stands (to, end, '.', '.')) {
    p = to + 1;
    to = past_digits (p, end);
  }
  if (to > p && stands (to, end, 'e', 'E')) {
    p = stands (to + 1, end, '+', '-') ? to + 2 : to + 1;
    to = past_digits (p, end);
  }
  return to > p ? to : NULL;
}

void
bw_json_append_rounded (GString *text, double number, int digits)
{
  char written[G_ASCII_DTOSTR_BUF_SIZE], format[8];
  g_snprintf (format, sizeof format, "%%.%dg", digits);
  g_string_append (text, g_ascii_formatd (written, sizeof written, format, number));
}

static gboolean
reads_back (const char *written, double number)
{
  double back = g_ascii_strtod (written, NULL);
  return memcmp (&back, &number, sizeof back) == 0;
}

void
bw_json_append_number (GString *text, double number)
{
  gsize before = text->len;
  int digits = fabs (number) < DBL_MIN ? 1 : DIGITS_SURE;
  bw_json_append_rounded (text, number, digits);
  while (digits < DIGITS_MAX && !reads_back (text->str + before, number)) {
    g_string_truncate (text, before);
    bw_json_append_rounded (text, number, ++digits);
  }
}

static void
append_character (GString *text, gunichar c)
{
  if (c == '"' || c == '\\')
    g_string_append_printf (text, "\\%c", (char)c);
  else if (c == '\n')
    g_string_append (text, "\\n");
  else if (c == '\t')
    g_string_append (text, "\\t");
  else if (g_unichar_iscntrl (c))
    g_string_append_printf (text, "\\u%04x", c);
  else
    g_string_append_unichar (text, c);
}

void
bw_json_append_text (GString *text, const char *string)
{
  g_string_append_c (text, '"');
  for (const char *p = string; *p; p = g_utf8_next_char (p))
    append_character (text, g_utf8_get_char (p));
  g_string_append_c (text, '"');
}
