/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/help/help-files.h"

/* The folder of a language below one of those that BANDWRIGHT_HELP_DIRS names, or the system's. */
static char *
find_in (const char *language, const char *name)
{
  const char *named = g_getenv ("BANDWRIGHT_HELP_DIRS");
  if (!named || !*named)
    return g_build_filename (BW_HELP_DIR, language, GETTEXT_PACKAGE, name, NULL);
  g_auto (GStrv) folders = g_strsplit (named, ":", -1);
  for (char **folder = folders; *folder; folder++) {
    g_autofree char *path = g_build_filename (*folder, language, name, NULL);
    if (g_file_test (path, G_FILE_TEST_IS_REGULAR))
      return g_steal_pointer (&path);
  }
  return NULL;
}

char *
bw_help_find (const char *name)
{
  const char *const *languages = g_get_language_names (); /* ends with C, the pages as written */
  for (; *languages; languages++) {
    g_autofree char *path = find_in (*languages, name);
    if (path && g_file_test (path, G_FILE_TEST_IS_REGULAR))
      return g_steal_pointer (&path);
  }
  return NULL;
}
