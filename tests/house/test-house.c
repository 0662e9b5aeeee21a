/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules of the house, read off the sources: which room may include which, what the core may
 * see, and that every file says under which licence it stands. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <gio/gio.h>

/* The rooms from left to right. A room includes only rooms to its left; output, preview and editor
 * stand side by side, as do app and tool. */
static const struct {
  const char *name;
  int rank;
} rooms[] = {
  { "core", 0 },   { "project", 1 }, { "output", 2 }, { "preview", 2 },
  { "editor", 2 }, { "app", 3 },     { "tool", 3 },
};

static int
rank_of (const char *room)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    if (g_str_equal (rooms[i].name, room))
      return rooms[i].rank;
  return -1;
}

static char *
source_path (const char *relative)
{
  const char *root = g_getenv ("BW_SOURCE_ROOT");
  assert_non_null (root);
  return g_build_filename (root, relative, NULL);
}

typedef void (*FileCheck) (const char *room, const char *path, const char *text, gpointer data);

/* Calls check on every C file of a room; returns how many there were. */
static int
each_source (const char *room, FileCheck check, gpointer data)
{
  g_autofree char *relative = g_strconcat ("src/", room, NULL);
  g_autofree char *folder = source_path (relative);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  assert_non_null (dir);
  for (const char *name; (name = g_dir_read_name (dir));) {
    if (!g_str_has_suffix (name, ".c") && !g_str_has_suffix (name, ".h"))
      continue;
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_autofree char *text = NULL;
    assert_true (g_file_get_contents (path, &text, NULL, NULL));
    check (room, path, text, data);
    n++;
  }
  return n;
}

/* The includes of a file, each as it stands between its quotes or angles. */
static char **
includes_of (const char *text)
{
  g_autoptr (GRegex) regex
      = g_regex_new ("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"]", G_REGEX_MULTILINE, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *name = g_match_info_fetch (match, 1);
    g_strv_builder_add (builder, name);
  }
  return g_strv_builder_end (builder);
}

static void
check_direction (const char *room, const char *path, const char *text, gpointer data)
{
  g_auto (GStrv) includes = includes_of (text);
  for (char **include = includes; *include; include++) {
    g_autofree char *target = g_path_get_dirname (*include);
    int rank = rank_of (target);
    if (rank < 0 || g_str_equal (target, room))
      continue;
    if (rank >= rank_of (room))
      fail_msg ("%s includes %s, which is not to its left", path, *include);
  }
}

static void
each_room_includes_only_rooms_to_its_left (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    assert_true (each_source (rooms[i].name, check_direction, NULL) > 0);
}

static void
check_core (const char *room, const char *path, const char *text, gpointer data)
{
  static const char *const allowed[]
      = { "glib.h",   "glib/gi18n-lib.h", "config.h", "float.h", "math.h",
          "string.h", "stdlib.h",         "limits.h", "stdint.h" };
  g_auto (GStrv) includes = includes_of (text);
  for (char **include = includes; *include; include++) {
    gboolean fine = g_str_has_prefix (*include, "cglm/");
    for (gsize i = 0; i < G_N_ELEMENTS (allowed); i++)
      fine = fine || g_str_equal (*include, allowed[i]);
    g_autofree char *relative = g_strconcat ("src/core/", *include, NULL);
    g_autofree char *own = source_path (relative);
    if (!fine && !g_file_test (own, G_FILE_TEST_EXISTS))
      fail_msg ("%s includes %s: the core sees GLib's plain types alone", path, *include);
  }
}

static void
the_core_sees_no_objects_no_toolkit_and_no_files (void **state)
{
  assert_true (each_source ("core", check_core, NULL) > 20);
}

static void
check_no_toolkit (const char *room, const char *path, const char *text, gpointer data)
{
  g_auto (GStrv) includes = includes_of (text);
  for (char **include = includes; *include; include++)
    if (g_str_has_prefix (*include, "gtk/") || g_str_has_prefix (*include, "gdk/"))
      fail_msg ("%s includes %s: no toolkit in this room", path, *include);
}

static void
the_document_the_reports_and_the_tool_see_no_toolkit (void **state)
{
  static const char *const plain[] = { "project", "output", "tool" };
  for (gsize i = 0; i < G_N_ELEMENTS (plain); i++)
    each_source (plain[i], check_no_toolkit, NULL);
}

static void
check_gl (const char *room, const char *path, const char *text, gpointer data)
{
  int *files = data;
  gboolean calls = FALSE;
  g_auto (GStrv) includes = includes_of (text);
  for (char **include = includes; *include; include++)
    calls = calls || g_str_has_prefix (*include, "epoxy/");
  *files += calls;
}

static void
only_the_preview_calls_opengl (void **state)
{
  int elsewhere = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    if (!g_str_equal (rooms[i].name, "preview"))
      each_source (rooms[i].name, check_gl, &elsewhere);
  /* The application asks which driver there is before GTK starts, and nothing more. */
  assert_in_range (elsewhere, 0, 1);
}

static void
check_licence (const char *room, const char *path, const char *text, gpointer data)
{
  g_autofree char *head = g_strndup (text, 200);
  if (!strstr (head, "SPDX-License-Identifier: GPL-3.0-or-later"))
    fail_msg ("%s does not say its licence", path);
}

static void
every_source_says_its_licence (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    each_source (rooms[i].name, check_licence, NULL);
}

static void
check_named (const char *room, const char *path, const char *text, gpointer data)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *line = g_strdup_printf ("\nsrc/%s/%s\n", room, name);
  gboolean speaks
      = strstr (text, " _ (\"") || strstr (text, "(_ (\"") || strstr (text, "g_dngettext");
  if (speaks && !strstr (data, line))
    fail_msg ("%s holds words to translate and is not in po/POTFILES", path);
}

static void
every_file_with_words_is_named_to_translators (void **state)
{
  g_autofree char *path = source_path ("po/POTFILES");
  g_autofree char *names = NULL;
  assert_true (g_file_get_contents (path, &names, NULL, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    each_source (rooms[i].name, check_named, names);
}

/* Writable data in the core's objects, by the symbol table of the library itself. */
static void
the_core_has_no_mutable_globals (void **state)
{
  const char *library = g_getenv ("BW_CORE_LIBRARY");
  const char *argv[] = { "nm", "--defined-only", "--format=sysv", library, NULL };
  g_autoptr (GSubprocess) nm = g_subprocess_newv (
      argv, G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_SILENCE, NULL);
  g_autofree char *symbols = NULL;
  assert_non_null (library);
  assert_non_null (nm);
  assert_true (g_subprocess_communicate_utf8 (nm, NULL, NULL, &symbols, NULL, NULL));
  assert_non_null (strstr (symbols, "bw_stone_init "));
  g_auto (GStrv) lines = g_strsplit (symbols, "\n", -1);
  for (char **line = lines; *line; line++) {
    /* name|value|class|type|size|line|section */
    g_auto (GStrv) cells = g_strsplit (*line, "|", 7);
    if (g_strv_length (cells) < 7 || !strpbrk (cells[2], "bBdDC"))
      continue;
    /* Constant pointers are written once by the loader and are read-only from then on. Sanitizers
     * add bookkeeping of their own. */
    if (!strstr (cells[6], ".data.rel.ro") && !g_str_has_prefix (cells[0], "__"))
      fail_msg ("the core has a mutable global: %s", cells[0]);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_room_includes_only_rooms_to_its_left),
    cmocka_unit_test (the_core_sees_no_objects_no_toolkit_and_no_files),
    cmocka_unit_test (the_document_the_reports_and_the_tool_see_no_toolkit),
    cmocka_unit_test (only_the_preview_calls_opengl),
    cmocka_unit_test (every_source_says_its_licence),
    cmocka_unit_test (every_file_with_words_is_named_to_translators),
    cmocka_unit_test (the_core_has_no_mutable_globals),
  };
  return cmocka_run_group_tests_name ("house", tests, NULL, NULL);
}
