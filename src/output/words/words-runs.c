/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours by name, and beads of one colour counted together. */
#include "config.h"

#include "output/words/words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
name_is_shared (const BwTray *tray, int colour)
{
  for (int i = 0; i < tray->n_colours; i++)
    if (i != colour && strcmp (tray->colour[i].name, tray->colour[colour].name) == 0)
      return TRUE;
  return FALSE;
}

static char *
colour_label (const BwTray *tray, int colour)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (tray->colour[colour].id, letter);
  g_autofree char *name = g_strdup (tray->colour[colour].name);
  for (char *c = name; *c; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';
  g_strstrip (name);
  if (!*name)
    return g_strdup (letter);
  g_autofree char *whole
      = strchr (name, ',') ? g_strdup_printf (_ ("“%s”"), name) : g_strdup (name);
  return name_is_shared (tray, colour) ? g_strdup_printf ("%s (%s)", whole, letter)
                                       : g_strdup (whole);
}

char **
bw_words_labels (const BwTray *tray)
{
  char **labels = g_new0 (char *, tray->n_colours + 1);
  for (int i = 0; i < tray->n_colours; i++)
    labels[i] = colour_label (tray, i);
  return labels;
}

char *
bw_words_runs (const guint8 *colours, int n, char **labels)
{
  GString *text = g_string_new (NULL);
  for (int i = 0, run; i < n; i += run) {
    for (run = 1; i + run < n && colours[i + run] == colours[i];)
      run++;
    if (i > 0)
      g_string_append (text, ", ");
    /* Translators: how many beads of which colour, one after the other. */
    g_string_append_printf (text, _ ("%d %s"), run, labels[colours[i]]);
  }
  return g_string_free (text, FALSE);
}
