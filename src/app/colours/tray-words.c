/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pair of 200 colours by four kinds of sight is 80,000 differences; the lightness alone rules
 * most of them out. */
#include "config.h"

#include "app/kit/tray-row.h"
#include "app/colours/tray-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* The weight of lightness in CIEDE2000 never exceeds 1.75, and the other terms are never negative
 * together. */
static gboolean
looks_alike (BwLab a, BwLab b)
{
  return fabs (a.L - b.L) < 1.75 * BW_COLOUR_HARDLY
         && bw_colour_difference (a, b) < BW_COLOUR_HARDLY;
}

static int
by_sight (gconstpointer x, gconstpointer y)
{
  const BwAlike *a = x, *b = y;
  gboolean all_a = (a->sights & (1 << BW_SIGHT_FULL)) != 0;
  gboolean all_b = (b->sights & (1 << BW_SIGHT_FULL)) != 0;
  if (all_a != all_b)
    return all_a ? -1 : 1;
  return a->a != b->a ? a->a - b->a : a->b - b->b;
}

GArray *
bw_tray_alike (const BwTray *tray)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (BwAlike));
  g_autofree BwLab *seen = g_new (BwLab, (gsize)tray->n_colours * BW_N_SIGHTS);
  for (int i = 0; i < tray->n_colours; i++)
    for (BwSight sight = 0; sight < BW_N_SIGHTS; sight++)
      seen[i * BW_N_SIGHTS + (int)sight] = bw_colour_lab_seen (tray->colour[i].srgb, sight);
  for (int a = 0; a < tray->n_colours; a++)
    for (int b = a + 1; b < tray->n_colours; b++) {
      BwAlike alike = { a, b, 0 };
      if (tray->colour[a].finish != tray->colour[b].finish)
        continue;
      for (int sight = 0; sight < BW_N_SIGHTS; sight++)
        if (looks_alike (seen[a * BW_N_SIGHTS + sight], seen[b * BW_N_SIGHTS + sight]))
          alike.sights |= 1u << sight;
      if (alike.sights)
        g_array_append_val (found, alike);
    }
  g_array_sort (found, by_sight);
  return found;
}

/* The sights by which a pair is alike, in words. Owned. */
static char *
sights_in_words (guint sights)
{
  static const char *const names[BW_N_SIGHTS]
      = { NULL, N_ ("weak in red"), N_ ("weak in green"), N_ ("weak in blue") };
  g_autoptr (GString) words = g_string_new (NULL);
  for (int sight = BW_SIGHT_PROTAN; sight < BW_N_SIGHTS; sight++)
    if (sights & (1u << sight))
      g_string_append_printf (words, "%s%s", words->len ? ", " : "", _ (names[sight]));
  return g_strdup (words->str);
}

static char *
alike_in_words (const BwTray *tray, const BwAlike *alike)
{
  g_autofree char *a = bw_colour_words (&tray->colour[alike->a]);
  g_autofree char *b = bw_colour_words (&tray->colour[alike->b]);
  g_autofree char *sights = sights_in_words (alike->sights);
  if (alike->sights & (1 << BW_SIGHT_FULL))
    return g_strdup_printf (_ ("“%s” and “%s” can hardly be told apart."), a, b);
  /* TRANSLATORS: the last is a list such as "weak in red, weak in green". */
  return g_strdup_printf (_ ("“%s” and “%s” look alike to eyes %s; their letters tell them apart."),
                          a, b, sights);
}

char *
bw_tray_words_alike (const BwTray *tray, int most)
{
  g_autoptr (GArray) found = bw_tray_alike (tray);
  g_autoptr (GString) words = g_string_new (NULL);
  int n = MIN (most, (int)found->len), rest = (int)found->len - n;
  if (found->len == 0)
    return NULL;
  for (int i = 0; i < n; i++) {
    g_autofree char *sentence = alike_in_words (tray, &g_array_index (found, BwAlike, i));
    g_string_append_printf (words, "%s%s", i ? "\n" : "", sentence);
  }
  if (rest > 0) {
    g_string_append_c (words, '\n');
    g_string_append_printf (
        words, ngettext ("And %d more pair.", "And %d more pairs.", (unsigned long)rest), rest);
  }
  return g_strdup (words->str);
}
