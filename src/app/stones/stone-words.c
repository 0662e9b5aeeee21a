/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/stones/stone-words.h"

#include <glib/gi18n-lib.h>

const char *
bw_stone_state_words (BwStoneState state)
{
  static const char *const words[BW_N_STONE_STATES]
      = { N_ ("waiting"), N_ ("in a design"), N_ ("set") };
  return _ (words[state]);
}

static char *
size_words (const BwKeptStone *kept, BwUnit unit)
{
  BwStone stone;
  g_autofree char *length = bw_length_format (kept->measures.length_mm, unit, 1);
  if (!bw_stone_init (&stone, &kept->measures, NULL))
    return g_strdup (length);
  g_autofree char *girth = bw_length_format (stone.girth_mm, unit, 1);
  return g_strdup_printf (
      ngettext ("%d face, %s long, %s round", "%d faces, %s long, %s round", (gulong)stone.faces),
      stone.faces, length, girth);
}

char *
bw_stone_words (const BwKeptStone *kept, BwUnit unit)
{
  g_autofree char *size = size_words (kept, unit);
  GString *words = g_string_new (bw_stone_state_words (kept->state));
  const char *parts[] = { kept->mineral, size, kept->date, kept->picture };
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    if (*parts[i])
      g_string_append_printf (words, " · %s", parts[i]);
  return g_string_free (words, FALSE);
}
