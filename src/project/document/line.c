/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A text of a megabyte made the sheet run for minutes, and one with escape sequences spoke to the
 * terminal; a title needs neither. */
#include "config.h"

#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
is_visible (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type != G_UNICODE_CONTROL && type != G_UNICODE_LINE_SEPARATOR
         && type != G_UNICODE_PARAGRAPH_SEPARATOR;
}

gboolean
bw_line_check (const char *text, const char *pointer, GError **error)
{
  for (const char *p = text; *p; p = g_utf8_next_char (p))
    if (!is_visible (g_utf8_get_char (p))) {
      bw_fault_set (error, BW_FAULT_RANGE, pointer,
                    _ ("the control character U+%04X was found; a text here is one line of visible "
                       "characters."),
                    g_utf8_get_char (p));
      return FALSE;
    }
  return TRUE;
}

/* At most so many characters of valid text, with spaces for what is not visible. Owned. */
static char *
made_visible (const char *valid, glong most)
{
  GString *line = g_string_new (NULL);

  for (const char *p = valid; *p && most > 0; p = g_utf8_next_char (p), most--)
    g_string_append_unichar (line, is_visible (g_utf8_get_char (p)) ? g_utf8_get_char (p) : ' ');
  return g_string_free (line, FALSE);
}

char *
bw_line_tell (const char *text)
{
  return made_visible (text, G_MAXLONG);
}

char *
bw_line_make (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text ? text : "", -1);

  return made_visible (valid, BW_LINE_MAX);
}

void
bw_copy_text (char *to, gsize bytes, const char *text)
{
  const char *end;

  g_strlcpy (to, text, bytes);
  if (!g_utf8_validate (to, -1, &end))
    to[end - to] = '\0';
}
