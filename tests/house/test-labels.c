/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing has one name: words that were given up for better ones stand in no interface file and
 * in no sentence that is translated. The sources are read, not a catalogue: a catalogue follows
 * them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>

/* A whole label, whatever its mnemonic. */
static const char *const labels[] = {
  "Mind",
  "Together",
  "together",
  "in one",
  "in one piece",
  "How much",
  "Glide",
  "Section",
  "Point given by",
  "Join at",
  "Staying on",
  "What would help",
  "At the bench",
  "See…",
  "Take Away",
  "Lay It",
  "Height",
  "Round",
  "Throw",
  "Trays",
  "Letters",
  "As Usual Here",
  "As the System",
  "Take Back",
  "What goes out",
  "Take what is typed",
  "up to and with",
  "Greatest splay",
  "Swap",

  "Closing error",
  "Pitch",
  "Full-Window Helper",
  "Girth sure to ±",
  "Beads the loop spans",
  "Grade: extra at the top edge",
};

/* A turn of words anywhere in a text. */
static const char *const turns[] = {
  "Reckon the cost",
  "Pitch p",
  "Column width w",
  "p = %s",
  "w = %s",
  "no measurement: weave a swatch",
  "plumb line",
  "off the vertical",
  "from the vertical",
  "askew",
  "By what is known now",
  " shall ",
  "Prove the",
  "proves the",
  "red-weak",
  "green-weak",
  "blue-weak",
  "closing error",
  "chord mm",
  "would help",
  "Letters on Beads",
  "Letters on beads",
  "Spindrift",
};

/* A label as it is read: without its mnemonic. */
static char *
without_mnemonic (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "_", -1);
  return g_strjoinv ("", parts);
}

static void
look_at (const char *file, const char *raw)
{
  g_autofree char *text = without_mnemonic (raw);
  for (gsize i = 0; i < G_N_ELEMENTS (labels); i++)
    if (g_str_equal (text, labels[i]))
      fail_msg ("%s: the label “%s” was given up", file, labels[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (turns); i++)
    if (strstr (text, turns[i]))
      fail_msg ("%s: “%s” was given up, and stands in “%s”", file, turns[i], text);
}

/* Hands the words of every place to look_at (): the first group of the pattern. */
static int
look_through (const char *file, const char *text, const char *pattern)
{
  g_autoptr (GRegex) regex = g_regex_new (pattern, G_REGEX_DOTALL, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  int n = 0;
  assert_non_null (regex);
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL), n++) {
    g_autofree char *words = g_match_info_fetch (match, 1);
    g_autoptr (GRegex) seam = g_regex_new ("\"\\s*\"", 0, 0, NULL);
    g_autofree char *whole = g_regex_replace_literal (seam, words, -1, 0, "", 0, NULL);
    look_at (file, whole);
  }
  return n;
}

static int
look_through_file (const char *root, const char *file)
{
  g_autofree char *path = g_build_filename (root, file, NULL), *text = NULL;
  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  if (g_str_has_suffix (file, ".ui"))
    return look_through (file, text, "translatable=\"yes\"[^>]*>([^<]*)<");
  if (!g_str_has_suffix (file, ".c"))
    return look_through (file, text, ">([^<]+)<");
  return look_through (file, text, "\\bN?_ \\(\\s*\"((?:[^\"\\\\]|\\\\.|\"\\s*\")*)\"\\s*\\)")
         + look_through (file, text, "GETTEXT_PACKAGE,\\s*\"((?:[^\"\\\\]|\\\\.|\"\\s*\")*)\"");
}

static void
words_given_up_stand_nowhere (void **state)
{
  const char *root = g_getenv ("BW_SOURCE_ROOT");
  g_autofree char *path = g_build_filename (root, "po/POTFILES", NULL), *list = NULL;
  int seen = 0;
  assert_true (g_file_get_contents (path, &list, NULL, NULL));
  g_auto (GStrv) files = g_strsplit (list, "\n", -1);
  for (char **file = files; *file; file++)
    if (**file && **file != '#')
      seen += look_through_file (root, *file);
  assert_true (seen > 1000);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (words_given_up_stand_nowhere),
  };
  return cmocka_run_group_tests_name ("labels", tests, NULL, NULL);
}
