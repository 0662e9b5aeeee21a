/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bead colours at hand. A colour is known by its letter: the letter stands in the file, on the
 * chart and in the words, so it must stay one visible sign that no other colour shares. */
#include "config.h"

#include "project/document/tray.h"

static const char *const finish_words[BW_N_FINISHES]
    = { "opaque", "matte", "clear", "frosted", "lined", "lustre", "metal" };

const char *
bw_finish_word (BwFinish finish)
{
  g_return_val_if_fail (finish < BW_N_FINISHES, finish_words[0]);
  return finish_words[finish];
}

void
bw_tray_init (BwTray *tray)
{
  *tray = (BwTray){ .n_colours = 1 };
  tray->colour[0] = (BwColour){ .id = 'a', .srgb = 0x1b2a41, .finish = BW_FINISH_MATTE };
}

int
bw_tray_find (const BwTray *tray, gunichar id)
{
  for (int i = 0; i < tray->n_colours; i++)
    if (tray->colour[i].id == id)
      return i;
  return -1;
}

gboolean
bw_tray_is_letter (gunichar id)
{
  return g_unichar_isgraph (id) && !g_unichar_ismark (id) && !g_unichar_iszerowidth (id);
}

/* After the plain alphabet come the accented Latin letters: unlike Greek or Cyrillic ones they
 * cannot be mistaken for a plain letter on a printed chart. */
gunichar
bw_tray_free_letter (const BwTray *tray)
{
  static const gunichar from[] = { 'a', 'A', 0xc0 }, to[] = { 'z', 'Z', 0x24f };

  for (gsize r = 0; r < G_N_ELEMENTS (from); r++)
    for (gunichar c = from[r]; c <= to[r]; c++)
      if (g_unichar_isalpha (c) && bw_tray_find (tray, c) < 0)
        return c;
  return 0;
}
