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
 * stand side by side, as do app and tool. Inside a room the sub-rooms are named from left to right
 * as well, and a sub-room includes only those to its left; files that stand in the room itself are
 * to the right of all its sub-rooms. */
static const struct {
  const char *name;
  int rank;
  const char *sub_rooms;
} rooms[] = {
  { "core", 0, "base stone design pattern band bail path workshop" },
  { "project", 1, "fault json document file book" },
  { "output", 2, "report words page chart sheet" },
  { "preview", 2, "scene gl picture fine view" },
  { "editor", 2, "cloth tool band bail" },
  { "picture", 2, "" },
  { "app", 3,
    "kit ask help form keep fit measure colours draw hang bench make shelf things trays stones "
    "ways hands "
    "workshop window" },
  { "tool", 3, "" },
};

/* Where a file of src stands: its room, and its place in the row of sub-rooms. */
typedef struct {
  int room; /* index into rooms, -1: not a file of the house */
  int sub;  /* place of the sub-room; the count of sub-rooms for a file of the room itself */
} Place;

static Place
place_of (const char *relative)
{
  g_auto (GStrv) parts = g_strsplit (relative, "/", -1);
  guint n = g_strv_length (parts);
  Place place = { -1, -1 };
  for (gsize i = 0; n > 1 && i < G_N_ELEMENTS (rooms); i++)
    if (g_str_equal (rooms[i].name, parts[0])) {
      g_auto (GStrv) subs = g_strsplit (rooms[i].sub_rooms, " ", -1);
      place.room = (int)i;
      place.sub = (int)g_strv_length (subs);
      for (int k = 0; n > 2 && subs[k]; k++)
        if (g_str_equal (subs[k], parts[1]))
          place.sub = k;
      if (n > 3 || (n == 3 && place.sub == (int)g_strv_length (subs)))
        fail_msg ("src/%s stands in no room that is known", relative);
    }
  return place;
}

static char *
source_path (const char *relative)
{
  const char *root = g_getenv ("BW_SOURCE_ROOT");
  assert_non_null (root);
  return g_build_filename (root, relative, NULL);
}

/* room: the room's name; relative: the file's path below src. */
typedef void (*FileCheck) (const char *room, const char *relative, const char *text, gpointer data);

static int
each_file_below (const char *room, const char *relative, FileCheck check, gpointer data)
{
  g_autofree char *below = g_build_filename ("src", relative, NULL);
  g_autofree char *folder = source_path (below);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  assert_non_null (dir);
  for (const char *name; (name = g_dir_read_name (dir));) {
    g_autofree char *inner = g_build_filename (relative, name, NULL);
    g_autofree char *path = g_build_filename (folder, name, NULL);
    if (g_file_test (path, G_FILE_TEST_IS_DIR)) {
      n += each_file_below (room, inner, check, data);
      continue;
    }
    if (!g_str_has_suffix (name, ".c") && !g_str_has_suffix (name, ".h"))
      continue;
    g_autofree char *text = NULL;
    assert_true (g_file_get_contents (path, &text, NULL, NULL));
    check (room, inner, text, data);
    n++;
  }
  return n;
}

/* Calls check on every C file of a room; returns how many there were. */
static int
each_source (const char *room, FileCheck check, gpointer data)
{
  return each_file_below (room, room, check, data);
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
check_direction (const char *room, const char *relative, const char *text, gpointer data)
{
  Place from = place_of (relative);
  g_auto (GStrv) includes = includes_of (text);
  for (char **include = includes; *include; include++) {
    Place to = place_of (*include);
    if (to.room < 0)
      continue;
    if (to.room != from.room && rooms[to.room].rank >= rooms[from.room].rank)
      fail_msg ("%s includes %s, a room that is not to its left", relative, *include);
    if (to.room == from.room && to.sub > from.sub)
      fail_msg ("%s includes %s, a sub-room that is not to its left", relative, *include);
  }
}

/* A header of the house is named from src downwards, whoever includes it: then every arrow can be
 * read off the line, and the tests above see all of them. */
static void
check_whole_names (const char *room, const char *relative, const char *text, gpointer data)
{
  g_autofree char *folder = g_path_get_dirname (relative);
  g_auto (GStrv) includes = includes_of (text);
  for (char **include = includes; *include; include++) {
    g_autofree char *beside = g_build_filename ("src", folder, *include, NULL);
    g_autofree char *path = source_path (beside);
    if (g_file_test (path, G_FILE_TEST_EXISTS))
      fail_msg ("%s includes %s by a relative name", relative, *include);
  }
}

static void
headers_are_included_by_their_whole_names (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    each_source (rooms[i].name, check_whole_names, NULL);
}

static void
each_room_and_sub_room_includes_only_what_is_to_its_left (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    assert_true (each_source (rooms[i].name, check_direction, NULL) > 0);
}

static void
check_core (const char *room, const char *path, const char *text, gpointer data)
{
  static const char *const allowed[]
      = { "glib.h", "float.h", "math.h", "string.h", "stdlib.h", "limits.h", "stdint.h" };
  g_auto (GStrv) includes = includes_of (text);
  for (char **include = includes; *include; include++) {
    gboolean fine = g_str_has_prefix (*include, "cglm/") || g_str_equal (*include, "tints.def");
    for (gsize i = 0; i < G_N_ELEMENTS (allowed); i++)
      fine = fine || g_str_equal (*include, allowed[i]);
    /* No words either: config.h would bring the catalogue's name. */
    if (!fine && place_of (*include).room != place_of ("core/base/fault.h").room)
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

/* The stone view is a widget; what it shows is not. */
static void
check_no_toolkit_but_in_view (const char *room, const char *relative, const char *text,
                              gpointer data)
{
  if (!g_str_has_prefix (relative, "preview/view/"))
    check_no_toolkit (room, relative, text, data);
}

static void
the_preview_sees_the_toolkit_in_its_view_alone (void **state)
{
  assert_true (each_source ("preview", check_no_toolkit_but_in_view, NULL) > 20);
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
  g_autofree char *line = g_strdup_printf ("\nsrc/%s\n", path);
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

/* Colours of the face are named in data/style/tints.def. These files hold colours of another kind:
 * of stones, glass, metal and cord, of light, of beads to start with, of fit, and masks of bits. */
static const char *const own_colours[] = {
  "app/colours/tray-starts.c", "editor/cloth/bead-picture.c",    "editor/cloth/band-tiles.c",
  "preview/gl/gl-frame.c",     "preview/gl/renderer.c",          "preview/picture/model.c",
  "preview/picture/painter.c", "preview/picture/painter-tube.c", "preview/picture/projection.c",
  "preview/scene/scene-fit.c", "preview/scene/scene-stone.c",
};

static gboolean
has_own_colours (const char *path)
{
  for (gsize i = 0; i < G_N_ELEMENTS (own_colours); i++)
    if (g_str_equal (path, own_colours[i]))
      return TRUE;
  return FALSE;
}

/* A colour by its numbers: as 0xrrggbb or "#rrggbb", in a GdkRGBA, or given to cairo. */
static void
check_colours (const char *room, const char *path, const char *text, gpointer data)
{
  g_autoptr (GRegex) literal = g_regex_new (
      "\\b0x[0-9a-fA-F]{6}\\b|\"#[0-9a-fA-F]{3,8}\"|\"rgba?\\("
      "|GdkRGBA\\)\\s*\\{\\s*[0-9.]|GdkRGBA [a-z_]+ = \\{\\s*[0-9.]"
      "|(set_source_rgba?|add_color_stop_rgba?) \\([^;]*?,\\s*[0-9.]+f?,\\s*[0-9.]+f?,"
      "\\s*[0-9.]+f?",
      0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  if (!has_own_colours (path) && g_regex_match (literal, text, 0, &match)) {
    g_autofree char *found = g_match_info_fetch (match, 0);
    fail_msg ("%s has a colour of its own, %s: data/style/tints.def names them", path, found);
  }
}

static void
colours_are_named_in_one_place (void **state)
{
  static const char *const painting[] = { "output", "preview", "editor", "app" };
  for (gsize i = 0; i < G_N_ELEMENTS (painting); i++)
    assert_true (each_source (painting[i], check_colours, NULL) > 20);
}

/* What is written, whoever writes it, is written whole or not at all: one file knows how. A picture
 * in memory and a pipe are no files. */
static void
check_writes (const char *room, const char *path, const char *text, gpointer data)
{
  static const char *const ways[] = { "g_file_set_contents",
                                      "g_file_replace",
                                      "g_file_create",
                                      "g_file_append_to",
                                      "fopen (",
                                      "g_fopen (",
                                      "g_key_file_save_to_file",
                                      "cairo_surface_write_to_png (",
                                      "cairo_pdf_surface_create (",
                                      "cairo_svg_surface_create (" };
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    if (strstr (text, ways[i]) && !g_str_has_suffix (path, "project/file/save-whole.c"))
      fail_msg ("%s writes a file by %s: bw_save_whole() does that", path, ways[i]);
}

static void
files_are_written_in_one_way (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    each_source (rooms[i].name, check_writes, NULL);
}

/* A list that is given a box to search with, and no more, finds nothing: one file knows how. */
static void
check_searched (const char *room, const char *path, const char *text, gpointer data)
{
  if (g_regex_match_simple ("enable[-_]search", text, 0, 0)
      && !g_str_has_suffix (path, "app/kit/long-list.c"))
    fail_msg ("%s has a list searched: bw_long_list_fill() does that", path);
}

static void
lists_are_searched_in_one_way (void **state)
{
  g_autofree char *folder = source_path ("ui");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  assert_non_null (dir);
  for (const char *name; (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_autofree char *text = NULL;
    assert_true (g_file_get_contents (path, &text, NULL, NULL));
    check_searched ("app", path, text, NULL);
  }
  assert_true (each_source ("app", check_searched, NULL) > 20);
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

/* Where a window is on the desk, a test waits for a frame or a state: what is quick enough on one
 * machine is not on one that is busy. */
static void
no_test_of_a_window_waits_for_time (void **state)
{
  static const char *const folders[]
      = { "tests/window", "tests/editor", "tests/preview", "tests/picture" };
  g_autoptr (GRegex) naps = g_regex_new ("\\b(g_usleep|usleep|nanosleep|sleep) \\(", 0, 0, NULL);
  int n = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++) {
    g_autofree char *folder = source_path (folders[i]);
    g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
    assert_non_null (dir);
    for (const char *name; (name = g_dir_read_name (dir));) {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *text = NULL;
      if (!g_str_has_suffix (name, ".c"))
        continue;
      assert_true (g_file_get_contents (path, &text, NULL, NULL));
      if (g_regex_match (naps, text, 0, NULL))
        fail_msg ("%s/%s naps", folders[i], name);
      n++;
    }
  }
  assert_true (n > 40);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_room_and_sub_room_includes_only_what_is_to_its_left),
    cmocka_unit_test (headers_are_included_by_their_whole_names),
    cmocka_unit_test (the_core_sees_no_objects_no_toolkit_and_no_files),
    cmocka_unit_test (the_document_the_reports_and_the_tool_see_no_toolkit),
    cmocka_unit_test (the_preview_sees_the_toolkit_in_its_view_alone),
    cmocka_unit_test (only_the_preview_calls_opengl),
    cmocka_unit_test (every_source_says_its_licence),
    cmocka_unit_test (every_file_with_words_is_named_to_translators),
    cmocka_unit_test (colours_are_named_in_one_place),
    cmocka_unit_test (files_are_written_in_one_way),
    cmocka_unit_test (lists_are_searched_in_one_way),
    cmocka_unit_test (the_core_has_no_mutable_globals),
    cmocka_unit_test (no_test_of_a_window_waits_for_time),
  };
  return cmocka_run_group_tests_name ("house", tests, NULL, NULL);
}
