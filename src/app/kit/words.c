/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/words.h"
#include "project/document/units.h"

#include <string.h>

#define NO_BREAK_SPACE "\u00a0"

/* Whether a share ends the line or the words here, "78 %" or "78 %.", and nothing else follows. */
static gboolean
is_last_share (const char *at)
{
  gsize digits = strspn (at, "0123456789.,");
  const char *end = at + digits;
  if (digits == 0 || !g_str_has_prefix (end, NO_BREAK_SPACE "%"))
    return FALSE;
  end += strlen (NO_BREAK_SPACE "%");
  end += *end == '.';
  return *end == '\0' || *end == '\n';
}

/* A share alone on the last line reads as if it belonged to nothing. */
char *
bw_words_kept (const char *words)
{
  g_autofree char *units = bw_units_kept (words);
  GString *kept = g_string_new (NULL);
  for (const char *c = units; *c; c++)
    if (*c == ' ' && is_last_share (c + 1))
      g_string_append (kept, NO_BREAK_SPACE);
    else
      g_string_append_c (kept, *c);
  return g_string_free (kept, FALSE);
}

void
bw_label_set_words (GtkLabel *label, const char *words)
{
  g_autofree char *kept = bw_words_kept (words ? words : "");
  gtk_label_set_text (label, kept);
}
