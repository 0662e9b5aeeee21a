/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every picture on a button is drawn on a bare machine: with the usual theme, with none at all, and
 * in both cases where nothing is installed that could draw an SVG. */
#include "config.h"
#include "desk.h"
#include "maker.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define UI "/io/github/bandwright/Bandwright/"
#define HOLDER "kept-icons.c" /* names some that the toolkit's own boxes show */
#define MISSING "no-icon-has-this-name"

static void
add_matches (GHashTable *names, const char *pattern, const char *text)
{
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  assert_non_null (regex);
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    g_hash_table_add (names, g_match_info_fetch (match, 1));
}

static void
add_names_of_sources (GHashTable *names, const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  assert_non_null (dir);
  for (const char *name; (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_autofree char *text = NULL;
    if (g_file_test (path, G_FILE_TEST_IS_DIR)) {
      add_names_of_sources (names, path);
    } else if (g_str_has_suffix (name, ".c") && !g_str_equal (name, HOLDER)) {
      assert_true (g_file_get_contents (path, &text, NULL, NULL));
      add_matches (names, "\"([^\"\\s]+-symbolic)\"", text);
      add_matches (names, "icon_name \\([^\";]*\"([^\"]+)\"", text);
    }
  }
}

static void
add_names_of_templates (GHashTable *names)
{
  g_auto (GStrv) children = g_resources_enumerate_children (UI, 0, NULL);
  int n = 0;
  for (char **child = children; *child; child++) {
    g_autofree char *path = g_strconcat (UI, *child, NULL);
    if (!g_str_has_suffix (path, ".ui"))
      continue;
    g_autoptr (GBytes) bytes = g_resources_lookup_data (path, 0, NULL);
    g_autofree char *text = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
    add_matches (names, "icon-name\"[^>]*>([^<]+)<", text);
    n++;
  }
  assert_true (n > 30);
}

/* All that the program names: in templates, in code, and itself. */
static GHashTable *
names_used (void)
{
  GHashTable *names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *sources = g_build_filename (g_getenv ("BW_SOURCE_ROOT"), "src", NULL);
  add_names_of_templates (names);
  add_names_of_sources (names, sources);
  g_hash_table_add (names, g_strdup (BW_APPLICATION_ID));
  assert_true (g_hash_table_contains (names, "bandwright-bead-symbolic"));
  assert_true (g_hash_table_contains (names, "bandwright-undo-symbolic"));
  assert_true (g_hash_table_contains (names, "bandwright-symmetry-symbolic"));
  assert_true (g_hash_table_size (names) > 20);
  return names;
}

/* What is painted where the icon stands: the bytes of an image of its own. Owned. */
static GBytes *
painted (const char *name, int size, int scale, GtkTextDirection direction)
{
  GtkIconTheme *theme = gtk_icon_theme_get_for_display (gdk_display_get_default ());
  g_autoptr (GtkIconPaintable) icon
      = gtk_icon_theme_lookup_icon (theme, name, NULL, size, scale, direction, 0);
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  gdk_paintable_snapshot (GDK_PAINTABLE (icon), GDK_SNAPSHOT (snapshot), size, size);
  g_autoptr (GskRenderNode) node = gtk_snapshot_to_node (snapshot);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, size, size);
  cairo_t *cr = cairo_create (surface);
  if (node)
    gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  GBytes *bytes = g_bytes_new (cairo_image_surface_get_data (surface),
                               (gsize)(cairo_image_surface_get_stride (surface) * size));
  cairo_surface_destroy (surface);
  return bytes;
}

static gboolean
is_blank (GBytes *bytes)
{
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);
  for (gsize i = 0; i < length; i++)
    if (data[i])
      return FALSE;
  return TRUE;
}

static void
expect_drawn (const char *name, int size, int scale, GtkTextDirection direction)
{
  g_autoptr (GBytes) missing = painted (MISSING, size, scale, direction);
  g_autoptr (GBytes) icon = painted (name, size, scale, direction);
  assert_false (is_blank (missing));
  if (is_blank (icon))
    fail_msg ("“%s” is drawn as nothing at %d × %d", name, size, scale);
  if (g_bytes_equal (icon, missing))
    fail_msg ("“%s” is a missing image at %d × %d", name, size, scale);
}

static void
expect_all_drawn (void)
{
  g_autoptr (GHashTable) names = names_used ();
  GHashTableIter iter;
  gpointer name;
  for (g_hash_table_iter_init (&iter, names); g_hash_table_iter_next (&iter, &name, NULL);)
    for (int scale = 1; scale <= 3; scale++) {
      expect_drawn (name, 16, scale, GTK_TEXT_DIR_LTR);
      expect_drawn (name, 16, scale, GTK_TEXT_DIR_RTL);
    }
  expect_drawn (BW_APPLICATION_ID, 128, 1, GTK_TEXT_DIR_LTR);
}

/* On a bare machine the system's picture library knows no SVG. */
static void
nothing_here_could_draw_an_svg (void **state)
{
  g_autoptr (GSList) formats = gdk_pixbuf_get_formats ();
  for (GSList *item = formats; item; item = item->next) {
    g_autofree char *name = gdk_pixbuf_format_get_name (item->data);
    assert_string_not_equal (name, "svg");
  }
}

static void
every_icon_is_drawn_with_the_usual_theme (void **state)
{
  expect_all_drawn ();
}

static void
every_icon_is_drawn_without_any_theme (void **state)
{
  static const char *const nowhere[] = { "/nowhere", NULL };
  GtkIconTheme *theme = gtk_icon_theme_get_for_display (gdk_display_get_default ());
  g_auto (GStrv) usual = gtk_icon_theme_get_search_path (theme);
  GtkSettings *settings = gtk_settings_get_default ();
  g_object_set (settings, "gtk-icon-theme-name", "no-such-theme", NULL);
  gtk_icon_theme_set_search_path (theme, nowhere);
  assert_false (gtk_icon_theme_has_icon (theme, "zoom-in-symbolic"));
  expect_all_drawn ();
  gtk_icon_theme_set_search_path (theme, (const char *const *)usual);
  gtk_settings_reset_property (settings, "gtk-icon-theme-name");
}

/* A theme may lack what another has, so the program brings all it shows. */
static void
every_icon_is_the_programs_own (void **state)
{
  g_autoptr (GHashTable) names = names_used ();
  GHashTableIter iter;
  gpointer name;
  for (g_hash_table_iter_init (&iter, names); g_hash_table_iter_next (&iter, &name, NULL);)
    if (!g_str_has_prefix (name, "bandwright-") && !g_str_equal (name, BW_APPLICATION_ID))
      fail_msg ("“%s” is left to whatever theme there is", (const char *)name);
}

/* Undo points against the direction words run in. */
static void
undo_and_redo_turn_round_where_words_run_from_the_right (void **state)
{
  g_autoptr (GBytes) undo = painted ("bandwright-undo-symbolic", 16, 1, GTK_TEXT_DIR_RTL);
  g_autoptr (GBytes) redo = painted ("bandwright-redo-symbolic", 16, 1, GTK_TEXT_DIR_LTR);
  g_autoptr (GBytes) left = painted ("bandwright-undo-symbolic", 16, 1, GTK_TEXT_DIR_LTR);
  assert_true (g_bytes_equal (undo, redo));
  assert_false (g_bytes_equal (undo, left));
}

/* Asked for as an image asks, in the direction and scale of the window. Owned. */
static GtkIconPaintable *
as_an_image_asks (const char *name, int size, GtkIconLookupFlags flags)
{
  g_autoptr (GIcon) icon = g_themed_icon_new (name);
  return gtk_icon_theme_lookup_by_gicon (
      gtk_icon_theme_get_for_display (gdk_display_get_default ()), icon, size, 1,
      gtk_widget_get_default_direction (), flags);
}

/* Far more than the toolkit remembers. */
static void
ask_for_many_others (void)
{
  for (int i = 0; i < 500; i++)
    g_object_unref (as_an_image_asks (MISSING, 32 + i % 2, 0)); /* twice the same counts once */
}

static void
expect_held (const char *name, GtkIconPaintable *icon)
{
  int size = gdk_paintable_get_intrinsic_width (GDK_PAINTABLE (icon));
  g_object_add_weak_pointer (G_OBJECT (icon), (gpointer *)&icon);
  g_object_unref (icon);
  ask_for_many_others ();
  if (!icon)
    fail_msg ("“%s” is freed at %d px, and may be while it is asked for", name, size);
  g_object_remove_weak_pointer (G_OBJECT (icon), (gpointer *)&icon);
}

static void
expect_kept (const char *name, int size, GtkIconLookupFlags flags)
{
  expect_held (name, as_an_image_asks (name, size, flags));
}

/* A window asks by the name alone, and to the toolkit that is another icon. */
static void
expect_mark_kept (int size)
{
  GtkIconTheme *theme = gtk_icon_theme_get_for_display (gdk_display_get_default ());
  expect_held (BW_APPLICATION_ID,
               gtk_icon_theme_lookup_icon (theme, BW_APPLICATION_ID, NULL, size, 1,
                                           gtk_widget_get_default_direction (), 0));
}

/* Every dialog that opens asks for the mark, and the icons on its buttons push it out of what the
 * toolkit remembers. */
static void
expect_all_kept (void)
{
  static const int sizes_px[] = { 12, 16, 24 }, mark_sizes_px[] = { 48, 128 };
  g_autoptr (GHashTable) names = names_used ();
  GHashTableIter iter;
  gpointer name;
  for (g_hash_table_iter_init (&iter, names); g_hash_table_iter_next (&iter, &name, NULL);)
    if (g_str_has_suffix (name, "-symbolic"))
      for (gsize i = 0; i < G_N_ELEMENTS (sizes_px); i++) {
        expect_kept (name, sizes_px[i], 0);
        expect_kept (name, sizes_px[i], GTK_ICON_LOOKUP_PRELOAD);
      }
  for (gsize i = 0; i < G_N_ELEMENTS (mark_sizes_px); i++)
    expect_mark_kept (mark_sizes_px[i]);
  expect_kept ("value-increase-symbolic", 16, 0);
  expect_kept ("value-increase-symbolic", 16, GTK_ICON_LOOKUP_PRELOAD);
}

/* What nobody holds is freed when a hundred others were asked for, by whichever thread that falls
 * to. */
static void
an_icon_is_never_freed_while_the_program_runs (void **state)
{
  desk_settle ();
  expect_all_kept ();
}

static void
nor_when_the_theme_is_another (void **state)
{
  GtkSettings *settings = gtk_settings_get_default ();
  g_object_set (settings, "gtk-icon-theme-name", "no-such-theme", NULL);
  desk_settle ();
  expect_all_kept ();
  gtk_settings_reset_property (settings, "gtk-icon-theme-name");
  desk_settle ();
  expect_all_kept ();
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, maker_set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nothing_here_could_draw_an_svg),
    IN_WINDOW (every_icon_is_drawn_with_the_usual_theme),
    IN_WINDOW (every_icon_is_drawn_without_any_theme),
    IN_WINDOW (every_icon_is_the_programs_own),
    IN_WINDOW (an_icon_is_never_freed_while_the_program_runs),
    IN_WINDOW (nor_when_the_theme_is_another),
    IN_WINDOW (undo_and_redo_turn_round_where_words_run_from_the_right),
  };
  /* Before the library is used: it looks for its loaders once. */
  g_setenv ("GDK_PIXBUF_MODULE_FILE", "/dev/null", TRUE);
  return maker_run (tests);
}
