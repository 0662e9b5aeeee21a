/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The help as it is read, and the pages that come with the program: nothing in them leads nowhere,
 * and every language has them whole. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "app/help/help-text.h"

static BwHelpText *
parsed (const char *page)
{
  g_autoptr (GError) error = NULL;
  BwHelpText *text = bw_help_text_parse (page, -1, &error);
  if (!text)
    fail_msg ("%s", error->message);
  return text;
}

static const BwHelpBlock *
block_of (const BwHelpText *text, guint i, BwHelpKind kind)
{
  assert_true (i < text->blocks->len);
  const BwHelpBlock *block = g_ptr_array_index (text->blocks, i);
  assert_int_equal (block->kind, kind);
  return block;
}

static void
a_page_is_read_from_top_to_bottom (void **state)
{
  g_autoptr (BwHelpText) text = parsed (
      "<page id=\"a\"><info><link type=\"guide\" xref=\"index\"/><link type=\"seealso\" "
      "xref=\"b\"/>"
      "<desc>Not shown</desc></info><title>A &amp; B</title>"
      "<p>One\n   <em>two</em> <link xref=\"c\">three</link>.</p>"
      "<media type=\"image\" src=\"x.png\"><p>Seen</p></media>"
      "<steps><item><p>First</p></item><item><p>Second</p></item></steps>"
      "<section id=\"s\"><title>Part</title><list><item><p>Dot</p></item></list>"
      "<terms><item><title>Word</title><p>Meaning</p></item></terms>"
      "<note><p>Sharp</p></note></section>"
      "<table><tr><td><p>Save</p></td><td><p><keyseq><key>Ctrl</key><key>S</key></keyseq> "
      "<key>F1</key></p></td></tr></table></page>");
  assert_string_equal (text->title, "A &amp; B");
  assert_string_equal (block_of (text, 0, BW_HELP_TITLE)->markup, "A &amp; B");
  assert_string_equal (block_of (text, 1, BW_HELP_PARAGRAPH)->markup,
                       "One <i>two</i> <a href=\"c\">three</a>.");
  assert_string_equal (block_of (text, 2, BW_HELP_IMAGE)->file, "x.png");
  assert_string_equal (block_of (text, 2, BW_HELP_IMAGE)->markup, "Seen");
  assert_int_equal (block_of (text, 3, BW_HELP_STEP)->number, 1);
  assert_int_equal (block_of (text, 4, BW_HELP_STEP)->number, 2);
  assert_string_equal (block_of (text, 5, BW_HELP_HEADING)->markup, "Part");
  assert_string_equal (block_of (text, 6, BW_HELP_BULLET)->markup, "Dot");
  assert_string_equal (block_of (text, 7, BW_HELP_TERM)->markup, "Word");
  assert_string_equal (block_of (text, 8, BW_HELP_MEANING)->markup, "Meaning");
  assert_string_equal (block_of (text, 9, BW_HELP_NOTE)->markup, "Sharp");
  assert_string_equal (block_of (text, 10, BW_HELP_ROW)->markup, "Save");
  assert_string_equal (block_of (text, 10, BW_HELP_ROW)->keys,
                       "<tt><b>Ctrl</b></tt> + <tt><b>S</b></tt> <tt><b>F1</b></tt>");
  assert_int_equal (text->blocks->len, 11);
  assert_int_equal (text->others->len, 1);
  assert_string_equal (g_ptr_array_index (text->others, 0), "b");
}

static void
what_is_no_page_is_said_to_be_none (void **state)
{
  static const char *const pages[] = { "", "words", "<page><p>open", "<page></p></page>" };
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++) {
    g_autoptr (GError) error = NULL;
    assert_null (bw_help_text_parse (pages[i], -1, &error));
    assert_non_null (error);
  }
}

/* --- the pages that are shipped --------------------------------------------------------------- */

/* build/data/help and data/help, as the program finds them. */
static char *
folder_of (const char *language)
{
  g_auto (GStrv) folders = g_strsplit (g_getenv ("BANDWRIGHT_HELP_DIRS"), ":", -1);
  return g_build_filename (folders[g_str_equal (language, "C") ? 1 : 0], language, NULL);
}

static BwHelpText *
page_of (const char *language, const char *name)
{
  g_autofree char *folder = folder_of (language), *file = g_strconcat (name, ".page", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *page = NULL;
  if (!g_file_get_contents (path, &page, NULL, NULL))
    fail_msg ("there is no page %s in %s", name, language);
  return parsed (page);
}

typedef void (*PageCheck) (const char *name, gpointer data);

static int
each_page (PageCheck check, gpointer data)
{
  g_autofree char *folder = folder_of ("C");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  assert_non_null (dir);
  for (const char *file; (file = g_dir_read_name (dir));) {
    if (!g_str_has_suffix (file, ".page"))
      continue;
    g_autofree char *name = g_strndup (file, strlen (file) - strlen (".page"));
    check (name, data);
    n++;
  }
  return n;
}

/* Every "href" of the markup, as one text: "a b c". */
static char *
links_of (const char *markup)
{
  g_autoptr (GRegex) regex = g_regex_new ("href=\"([^\"]*)\"", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  GString *links = g_string_new (NULL);
  for (g_regex_match (regex, markup, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *link = g_match_info_fetch (match, 1);
    g_string_append_printf (links, "%s%s", links->len ? " " : "", link);
  }
  return g_string_free (links, FALSE);
}

static void
check_links (const char *name, gpointer data)
{
  g_autoptr (BwHelpText) text = page_of ("C", name);
  g_autofree char *folder = folder_of ("C");
  assert_non_null (text->title);
  for (guint i = 0; i < text->blocks->len; i++) {
    const BwHelpBlock *block = g_ptr_array_index (text->blocks, i);
    g_autofree char *links = links_of (block->markup);
    g_auto (GStrv) pages = g_strsplit (links, " ", -1);
    for (char **page = pages; *page && **page; page++)
      bw_help_text_free (page_of ("C", *page));
    if (!block->file)
      continue;
    g_autofree char *picture = g_build_filename (folder, block->file, NULL);
    if (!g_file_test (picture, G_FILE_TEST_IS_REGULAR))
      fail_msg ("%s shows %s, which is not there", name, block->file);
  }
  for (guint i = 0; i < text->others->len; i++)
    bw_help_text_free (page_of ("C", g_ptr_array_index (text->others, i)));
}

static void
every_link_and_picture_of_the_help_is_there (void **state)
{
  assert_true (each_page (check_links, NULL) >= 9);
}

static void
check_listed (const char *name, gpointer data)
{
  g_autofree char *link = g_strdup_printf ("href=\"%s\"", name);
  if (!g_str_equal (name, "index") && !strstr (data, link))
    fail_msg ("%s is not among the contents", name);
}

static void
every_page_is_among_the_contents (void **state)
{
  g_autoptr (BwHelpText) index = page_of ("C", "index");
  g_autoptr (GString) all = g_string_new (NULL);
  for (guint i = 0; i < index->blocks->len; i++)
    g_string_append (all, ((BwHelpBlock *)g_ptr_array_index (index->blocks, i))->markup);
  each_page (check_listed, all->str);
}

static int
count_of (const char *text, const char *part)
{
  int n = 0;
  for (const char *c = text ? strstr (text, part) : NULL; c; c = strstr (c + 1, part))
    n++;
  return n;
}

/* Block for block: the same kind, the same links and pictures, as many keys, and other words. */
static void
check_german (const char *name, gpointer data)
{
  g_autoptr (BwHelpText) english = page_of ("C", name);
  g_autoptr (BwHelpText) german = page_of ("de", name);
  assert_int_equal (english->blocks->len, german->blocks->len);
  for (guint i = 0; i < english->blocks->len; i++) {
    const BwHelpBlock *a = g_ptr_array_index (english->blocks, i);
    const BwHelpBlock *b = block_of (german, i, a->kind);
    g_autofree char *here = links_of (a->markup), *there = links_of (b->markup);
    assert_string_equal (here, there);
    if (a->file)
      assert_string_equal (a->file, b->file);
    assert_int_equal (count_of (a->markup, "<tt>"), count_of (b->markup, "<tt>"));
    assert_int_equal (count_of (a->keys, "<tt>"), count_of (b->keys, "<tt>"));
    if (g_str_equal (a->markup, b->markup) && !g_str_equal (a->markup, "Bandwright"))
      fail_msg ("%s is not translated: %s", name, a->markup);
  }
}

static void
the_help_is_whole_in_german (void **state)
{
  each_page (check_german, NULL);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_page_is_read_from_top_to_bottom),
    cmocka_unit_test (what_is_no_page_is_said_to_be_none),
    cmocka_unit_test (every_link_and_picture_of_the_help_is_there),
    cmocka_unit_test (every_page_is_among_the_contents),
    cmocka_unit_test (the_help_is_whole_in_german),
  };
  return cmocka_run_group_tests_name ("help-text", tests, NULL, NULL);
}
