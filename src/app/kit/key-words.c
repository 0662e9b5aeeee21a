/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A key is told as the application has it, so that tip and key cannot fall apart. */
#include "config.h"

#include "app/kit/key-words.h"

#include <glib/gi18n-lib.h>

static char *
key_of (const char *detailed_action)
{
  GApplication *application = g_application_get_default ();
  GdkModifierType modifiers;
  guint key;
  if (!GTK_IS_APPLICATION (application))
    return NULL;
  g_auto (GStrv) accels
      = gtk_application_get_accels_for_action (GTK_APPLICATION (application), detailed_action);
  if (!*accels || !gtk_accelerator_parse (*accels, &key, &modifiers))
    return NULL;
  return gtk_accelerator_get_label (key, modifiers);
}

char *
bw_key_words (const char *words, const char *detailed_action)
{
  g_autofree char *key = key_of (detailed_action);
  /* Translators: what a button does, and the key that does the same. */
  return key ? g_strdup_printf (_ ("%s (%s)"), words, key) : g_strdup (words);
}
