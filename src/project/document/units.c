/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Done where words are set and not where they are written, so that translators write blanks. */
#include "config.h"

#include "project/document/units.h"

#include <string.h>

#define NO_BREAK_SPACE "\u00a0"

/* Whether a unit stands here, and nothing more of a word. */
static gboolean
is_unit (const char *at)
{
  static const char *const units[]
      = { "mm³", "mm", "cm³", "cm", "m", "g/cm³", "g", "kg", "%", "°", "h", "min", "s" };
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_str_has_prefix (at, units[i])
        && !g_unichar_isalnum (g_utf8_get_char (at + strlen (units[i]))))
      return TRUE;
  return FALSE;
}

/* "0.374 in" is a length; "112 in all" is none. */
static gboolean
is_inches (const char *words, const char *blank)
{
  const char *start = blank;
  while (start > words && (g_ascii_isdigit (start[-1]) || strchr (".,", start[-1])))
    start--;
  return g_str_has_prefix (blank, " in") && !g_ascii_isalnum (blank[3])
         && strcspn (start, ".,") < (gsize)(blank - start);
}

static gboolean
is_sign (const char *at)
{
  gunichar c = g_utf8_get_char (at);
  return c == '+' || c == 0x2212; /* the minus of print */
}

/* "L − 1" is one name: a blank on either side of a sign that stands between blanks. */
static gboolean
is_beside_sign (const char *words, const char *blank)
{
  if (blank[1] && is_sign (blank + 1) && *g_utf8_next_char (blank + 1) == ' ')
    return TRUE;
  const char *before = g_utf8_find_prev_char (words, blank);
  return before && before > words && is_sign (before) && before[-1] == ' ';
}

char *
bw_units_kept (const char *words)
{
  g_autoptr (GString) kept = g_string_sized_new (strlen (words) + 16);
  for (const char *c = words; *c; c++) {
    gboolean after_digit = c > words && g_ascii_isdigit (c[-1]);
    if (*c == ' '
        && (is_beside_sign (words, c)
            || (after_digit && (is_unit (c + 1) || is_inches (words, c)))))
      g_string_append (kept, NO_BREAK_SPACE);
    else
      g_string_append_c (kept, *c);
  }
  return g_string_free (g_steal_pointer (&kept), FALSE);
}
