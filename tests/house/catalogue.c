/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "catalogue.h"
#include <string.h>

static void
entry_free (CatalogueEntry *entry)
{
  g_free (entry->original);
  g_free (entry->plural);
  g_ptr_array_unref (entry->translations);
  g_free (entry);
}

static CatalogueEntry *
entry_new (void)
{
  CatalogueEntry *entry = g_new0 (CatalogueEntry, 1);
  entry->translations = g_ptr_array_new_with_free_func (g_free);
  return entry;
}

/* What stands in the quotation marks of a line. */
static char *
quoted (const char *line)
{
  const char *from = strchr (line, '"'), *to = strrchr (line, '"');
  g_autofree char *raw = from && to > from ? g_strndup (from + 1, (gsize)(to - from - 1)) : NULL;
  return raw ? g_strcompress (raw) : NULL;
}

static void
append_to (char **text, char *more)
{
  char *whole = g_strconcat (*text ? *text : "", more, NULL);
  g_free (*text);
  g_free (more);
  *text = whole;
}

/* Takes one line into the entry; *open is the text that further lines go on with. */
static void
take_line (CatalogueEntry *entry, const char *line, char ***open)
{
  if (g_str_has_prefix (line, "#,")) {
    entry->is_format = strstr (line, " c-format") != NULL;
    entry->is_fuzzy = strstr (line, "fuzzy") != NULL;
    return;
  }
  if (*line == '#')
    return;
  if (g_str_has_prefix (line, "msgid_plural"))
    *open = &entry->plural;
  else if (g_str_has_prefix (line, "msgid"))
    *open = &entry->original;
  else if (g_str_has_prefix (line, "msgstr")) {
    g_ptr_array_add (entry->translations, NULL);
    *open = (char **)&entry->translations->pdata[entry->translations->len - 1];
  } else if (*line != '"')
    *open = NULL; /* a context */
  if (*open)
    append_to (*open, quoted (line));
}

GPtrArray *
catalogue_read (const char *text)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func ((GDestroyNotify)entry_free);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  CatalogueEntry *entry = entry_new ();
  char **open = NULL;
  for (char **line = lines; *line; line++) {
    if (**line) {
      take_line (entry, *line, &open);
      continue;
    }
    g_ptr_array_add (entries, entry);
    entry = entry_new ();
    open = NULL;
  }
  g_ptr_array_add (entries, entry);
  return entries;
}

GPtrArray *
catalogue_load (const char *file)
{
  g_autofree char *path = g_build_filename (g_getenv ("BW_SOURCE_ROOT"), file, NULL);
  g_autofree char *text = NULL;
  if (!g_file_get_contents (path, &text, NULL, NULL))
    fail_msg ("%s cannot be read", file);
  return catalogue_read (text);
}
