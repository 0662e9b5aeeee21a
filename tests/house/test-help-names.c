/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the help calls by name is called so by the program, in every word and in German too: a maker
 * looks for it. Mnemonics are left out, and a name may begin with a capital where a sentence does.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "catalogue.h"
#include <gio/gio.h>
#include <string.h>

/* As it is compared; owned. */
static char *
plain_name (const char *words)
{
  g_auto (GStrv) parts = g_strsplit (words, "_", -1);
  g_autofree char *bare = g_strjoinv ("", parts);
  const char *rest = *bare ? g_utf8_next_char (bare) : bare;
  g_autofree char *first = g_utf8_strdown (bare, rest - bare);
  return g_strconcat (first, rest, NULL);
}

/* What is marked as a name in a text of the help, in order, as the text has it; owned. */
static GPtrArray *
names_in (const char *text)
{
  g_autoptr (GRegex) regex = g_regex_new ("<gui>([^<]*)</gui>", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    g_ptr_array_add (names, g_match_info_fetch (match, 1));
  return names;
}

/* --- What the program says ---------------------------------------------------------------------
 */

static char *
contents_of (const char *path)
{
  char *text = NULL;
  if (!g_file_get_contents (path, &text, NULL, NULL))
    fail_msg ("%s cannot be read", path);
  return text;
}

static void
add_words_of_interface (GHashTable *said, const char *text)
{
  g_autoptr (GRegex) regex = g_regex_new ("translatable=\"yes\"[^>]*>([^<]*)<", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *words = g_match_info_fetch (match, 1);
    g_hash_table_add (said, plain_name (words));
  }
}

/* Pieces in quotation marks, one after the other, as one text. */
static char *
joined (const char *pieces)
{
  g_autoptr (GRegex) regex = g_regex_new ("\"((?:[^\"\\\\]|\\\\.)*)\"", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autoptr (GString) whole = g_string_new (NULL);
  for (g_regex_match (regex, pieces, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *piece = g_match_info_fetch (match, 1);
    g_string_append (whole, piece);
  }
  return g_strcompress (whole->str);
}

static void
add_words_of_source (GHashTable *said, const char *text)
{
  g_autoptr (GRegex) regex
      = g_regex_new ("\\b(?:_|N_|C_|NC_) \\(((?:\\s*\"(?:[^\"\\\\]|\\\\.)*\",?)+)", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *pieces = g_match_info_fetch (match, 1);
    const char *after = strstr (pieces, "\","); /* a context stands before it */
    g_autofree char *words = joined (after ? after + 1 : pieces);
    g_hash_table_add (said, plain_name (words));
  }
}

static void
add_words_below (GHashTable *said, const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  assert_non_null (dir);
  for (const char *name; (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL), *text = NULL;
    if (g_file_test (path, G_FILE_TEST_IS_DIR)) {
      add_words_below (said, path);
      continue;
    }
    gboolean is_source = g_str_has_suffix (name, ".c");
    if (!is_source && !g_str_has_suffix (name, ".ui"))
      continue;
    text = contents_of (path);
    if (is_source)
      add_words_of_source (said, text);
    else
      add_words_of_interface (said, text);
  }
}

static GHashTable *
words_of_program (void)
{
  static const char *const folders[] = { "ui", "src" };
  GHashTable *said = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++) {
    g_autofree char *folder = g_build_filename (g_getenv ("BW_SOURCE_ROOT"), folders[i], NULL);
    add_words_below (said, folder);
  }
  return said;
}

/* --- What the help says ------------------------------------------------------------------------
 */

static int
check_page (GHashTable *said, const char *folder, const char *file)
{
  g_autofree char *path = g_build_filename (folder, file, NULL), *text = contents_of (path);
  g_autoptr (GPtrArray) names = names_in (text);
  for (guint i = 0; i < names->len; i++) {
    g_autofree char *name = plain_name (names->pdata[i]);
    if (!g_hash_table_contains (said, name))
      fail_msg ("%s speaks of “%s”, which the program does not have", file,
                (char *)names->pdata[i]);
  }
  return (int)names->len;
}

static void
what_the_help_names_is_in_the_program (void **state)
{
  g_autoptr (GHashTable) said = words_of_program ();
  g_autofree char *folder = g_build_filename (g_getenv ("BW_SOURCE_ROOT"), "data/help/C", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  assert_non_null (dir);
  assert_true (g_hash_table_size (said) > 1000);
  for (const char *file; (file = g_dir_read_name (dir));)
    if (g_str_has_suffix (file, ".page"))
      n += check_page (said, folder, file);
  assert_true (n > 30);
}

static gboolean
is_called (const GPtrArray *program, const char *name, const char *german)
{
  g_autofree char *one = plain_name (name), *other = plain_name (german);
  for (guint i = 0; i < program->len; i++) {
    const CatalogueEntry *entry = program->pdata[i];
    if (!entry->original || entry->translations->len != 1)
      continue;
    g_autofree char *original = plain_name (entry->original);
    g_autofree char *translation = plain_name (entry->translations->pdata[0]);
    if (g_str_equal (original, one) && g_str_equal (translation, other))
      return TRUE;
  }
  return FALSE;
}

static int
check_entry (const GPtrArray *program, const CatalogueEntry *entry)
{
  g_autoptr (GPtrArray) names = names_in (entry->original);
  g_autoptr (GPtrArray) german = names_in (entry->translations->pdata[0]);
  if (names->len != german->len)
    fail_msg ("not as many names in German: %s", entry->original);
  for (guint i = 0; i < names->len; i++)
    if (!is_called (program, names->pdata[i], german->pdata[i]))
      fail_msg ("the help calls “%s” “%s”, the program does not", (char *)names->pdata[i],
                (char *)german->pdata[i]);
  return (int)names->len;
}

static void
what_it_names_in_german_is_called_so_by_the_program (void **state)
{
  g_autoptr (GPtrArray) program = catalogue_load ("po/de.po");
  g_autoptr (GPtrArray) help = catalogue_load ("data/help/de/de.po");
  int n = 0;
  for (guint i = 0; i < help->len; i++) {
    const CatalogueEntry *entry = help->pdata[i];
    if (entry->original)
      n += check_entry (program, entry);
  }
  assert_true (n > 30);
}

static void
names_are_found_however_they_are_written (void **state)
{
  g_autoptr (GHashTable) said = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  add_words_of_source (said,
                       "f (_ (\"Lay \"\n   \"_On\"), C_ (\"of a lid\", \"Shut\"), N_ (\"x\"))");
  add_words_of_interface (said, "<a translatable=\"yes\" context=\"b\">Le_ave It</a>");
  const char *const expected[] = { "lay On", "shut", "x", "leave It" };
  for (gsize i = 0; i < G_N_ELEMENTS (expected); i++)
    if (!g_hash_table_contains (said, expected[i]))
      fail_msg ("%s is not found", expected[i]);
  assert_int_equal (g_hash_table_size (said), G_N_ELEMENTS (expected));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_the_help_names_is_in_the_program),
    cmocka_unit_test (what_it_names_in_german_is_called_so_by_the_program),
    cmocka_unit_test (names_are_found_however_they_are_written),
  };
  return cmocka_run_group_tests_name ("help-names", tests, NULL, NULL);
}
