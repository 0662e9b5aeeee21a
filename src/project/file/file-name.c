/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/file/file-name.h"

#include <string.h>

#define ENDING ".bandwright"
#define NAME_MOST 60 /* characters */

char *
bw_words_shortened (const char *words, int most)
{
  int length = (int)g_utf8_strlen (words, -1), end = most / 3, start = most - end - 1;
  if (length <= most)
    return g_strdup (words);
  g_autofree char *beginning = g_utf8_substring (words, 0, start);
  return g_strconcat (beginning, "…", g_utf8_offset_to_pointer (words, length - end), NULL);
}

/* A line feed in a name is no line feed in a sentence. */
char *
bw_file_shown (GFile *file)
{
  g_autofree char *raw = g_file_get_basename (file);
  g_autofree char *name = raw ? g_filename_display_name (raw) : g_file_get_parse_name (file);
  for (char *c = name; *c; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';
  return bw_words_shortened (name, NAME_MOST);
}

char *
bw_file_stem (GFile *file)
{
  char *name = bw_file_shown (file);
  if (g_str_has_suffix (name, ENDING) && !g_str_equal (name, ENDING))
    name[strlen (name) - strlen (ENDING)] = '\0';
  return name;
}
