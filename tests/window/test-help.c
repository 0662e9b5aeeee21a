/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help where the maker stands, and pages that name no key the program does not know. */
#include "maker.h"

#include "app/help/help-window.h"
#include "app/kit/term-note.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static BwHelpWindow *
help_window (void)
{
  for (GList *item = gtk_application_get_windows (maker_application ()); item; item = item->next)
    if (BW_IS_HELP_WINDOW (item->data))
      return item->data;
  return NULL;
}

static gboolean
help_is_drawn (gpointer data)
{
  return help_window () && gtk_widget_get_mapped (GTK_WIDGET (help_window ()))
         && gtk_window_is_active (GTK_WINDOW (help_window ()));
}

static gboolean
help_is_gone (gpointer data)
{
  return !help_window ();
}

static void
expect_page (const char *page)
{
  desk_until (help_is_drawn, NULL);
  desk_settle ();
  assert_string_equal (bw_help_window_get_page (help_window ()), page);
}

static void
close_help (void)
{
  desk_key ("Escape", 0);
  desk_until (help_is_gone, NULL);
  desk_settle ();
}

static void
f1_opens_the_page_of_the_stage (void **state)
{
  static const char *const pages[][2] = {
    { "measure", "measuring" }, { "draw", "drawing" }, { "hang", "hanging" }, { "make", "bench" }
  };
  Maker *maker = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++) {
    maker_stage (maker, pages[i][0]);
    desk_key ("F1", 0);
    expect_page (pages[i][1]);
    desk_keep (pages[i][1]);
    close_help ();
  }
  assert_int_equal (bw_project_count_steps (maker_project (maker)), 0);
}

static gboolean
is_help_button (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_BUTTON (widget)
         && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), "win.help") == 0;
}

static void
the_question_mark_of_every_stage_does_the_same (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "hang");
  desk_click (desk_look_for (GTK_WIDGET (maker->window), is_help_button, NULL));
  expect_page ("hanging");
  close_help ();
  desk_key ("F11", 0);
  desk_settle ();
  desk_key ("F1", 0);
  expect_page ("bench");
  close_help ();
}

/* By keys alone: the contents, a link of it, and back. */
static void
a_link_leads_to_its_page_and_back_again (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "measure");
  desk_key ("F1", 0);
  expect_page ("measuring");
  maker_click_words (GTK_WIDGET (help_window ()), "Contents");
  expect_page ("index");
  desk_keep ("help-contents");
  for (int i = 0; i < 8 && !GTK_IS_LABEL (gtk_window_get_focus (GTK_WINDOW (help_window ()))); i++)
    desk_key ("Tab", 0);
  desk_key ("Return", 0);
  expect_page ("ten-minutes");
  desk_key ("Left", GDK_ALT_MASK);
  expect_page ("index");
  desk_key ("Left", GDK_ALT_MASK);
  expect_page ("measuring");
  close_help ();
}

/* A page begins at its beginning, and keys move it whatever has the focus. */
static void
a_page_is_read_by_keys (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "measure");
  desk_key ("F1", 0);
  expect_page ("measuring");
  GtkWidget *sheet = desk_find_type (GTK_WIDGET (help_window ()), GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *place = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (sheet));
  assert_true (gtk_adjustment_get_value (place) == 0);
  desk_key ("End", 0);
  desk_rest ();
  assert_true (gtk_adjustment_get_value (place) > 100);
  desk_keep ("help-end");
  desk_key ("Home", 0);
  desk_rest ();
  assert_true (gtk_adjustment_get_value (place) == 0);
  close_help ();
}

static void
help_goes_with_the_last_window (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "measure");
  desk_key ("F1", 0);
  expect_page ("measuring");
  gtk_window_close (GTK_WINDOW (maker->window));
  desk_until (help_is_gone, NULL);
}

/* A page that is not installed is said not to be, in its place. */
static void
a_page_that_is_missing_says_so (void **state)
{
  bw_help_show (maker_application (), "nowhere");
  desk_until (help_is_drawn, NULL);
  desk_settle ();
  assert_non_null (desk_look_for_prefix (GTK_WIDGET (help_window ()),
                                         "The help page “nowhere” is not installed."));
  close_help ();
}

static void
a_word_of_the_trade_is_explained_where_it_stands (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "hang");
  GtkWidget *note = desk_find_type (GTK_WIDGET (maker->window), BW_TYPE_TERM_NOTE);
  maker_reveal (note);
  desk_click (note);
  desk_settle ();
  desk_keep ("term");
  assert_non_null (desk_look_for_label (note, "The loop the piece hangs by."));
  desk_key ("Escape", 0);
}

/* --- keys ------------------------------------------------------------------------------------- */

/* The shortcuts of the program: what the application has keys for, and what its window of shortcuts
 * lists of the keys that the canvas, the stone and the fields take themselves. */
static GHashTable *
shortcuts (void)
{
  GHashTable *known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *overlay
      = g_build_filename (g_getenv ("BW_SOURCE_ROOT"), "ui", "help-overlay.ui", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GRegex) regex = g_regex_new ("\"accelerator\">([^<]*)<", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  assert_true (g_file_get_contents (overlay, &text, NULL, NULL));
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *found = g_match_info_fetch (match, 1);
    g_auto (GStrv) less = g_strsplit (found, "&lt;", -1);
    g_autofree char *half = g_strjoinv ("<", less);
    g_auto (GStrv) greater = g_strsplit (half, "&gt;", -1);
    g_autofree char *all = g_strjoinv (">", greater);
    g_auto (GStrv) each = g_strsplit (all, " ", -1);
    for (char **key = each; *key; key++)
      g_hash_table_add (known, g_strdup (*key));
  }
  g_auto (GStrv) actions = gtk_application_list_action_descriptions (maker_application ());
  for (char **action = actions; *action; action++) {
    g_auto (GStrv) keys = gtk_application_get_accels_for_action (maker_application (), *action);
    for (char **key = keys; *key; key++)
      g_hash_table_add (known, g_strdup (*key));
  }
  return known;
}

static gboolean
is_known (GHashTable *known, const char *accelerator)
{
  GHashTableIter iter;
  gpointer key;
  guint wanted, value;
  GdkModifierType modifiers, held;
  if (!gtk_accelerator_parse (accelerator, &wanted, &modifiers) || !wanted)
    return FALSE;
  g_hash_table_iter_init (&iter, known);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (gtk_accelerator_parse (key, &value, &held) && held == modifiers
        && gdk_keyval_to_lower (value) == gdk_keyval_to_lower (wanted))
      return TRUE;
  return FALSE;
}

/* "<key>Ctrl</key><key>Z</key>" as the toolkit writes it. */
static char *
accelerator_of (const char *keys)
{
  static const char *const names[][2] = { { "Ctrl", "<Control>" },
                                          { "Shift", "<Shift>" },
                                          { "Alt", "<Alt>" },
                                          { "Space", "space" },
                                          { "Plus", "plus" },
                                          { "Minus", "minus" },
                                          { "←", "Left" },
                                          { "→", "Right" },
                                          { "Page Up", "Page_Up" },
                                          { "Page Down", "Page_Down" },
                                          { "↑", "Up" },
                                          { "↓", "Down" } };
  GString *accelerator = g_string_new (NULL);
  g_auto (GStrv) parts = g_regex_split_simple ("</?key>", keys, 0, 0);
  for (char **part = parts; *part; part++) {
    const char *name = *part;
    for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
      if (g_str_equal (*part, names[i][0]))
        name = names[i][1];
    g_string_append (accelerator, name);
  }
  return g_string_free (accelerator, FALSE);
}

static int
check_keys (GHashTable *known, const char *path)
{
  g_autofree char *page = NULL;
  g_autoptr (GRegex) regex = g_regex_new ("(?:<key>[^<]*</key>)+", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  int n = 0;
  assert_true (g_file_get_contents (path, &page, NULL, NULL));
  for (g_regex_match (regex, page, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL), n++) {
    g_autofree char *keys = g_match_info_fetch (match, 0);
    g_autofree char *accelerator = accelerator_of (keys);
    if (!is_known (known, accelerator))
      fail_msg ("%s names %s, which does nothing", path, accelerator);
  }
  return n;
}

static void
every_key_that_the_help_names_exists (void **state)
{
  g_autoptr (GHashTable) known = shortcuts ();
  g_autofree char *folder
      = g_build_filename (g_getenv ("BW_SOURCE_ROOT"), "data", "help", "C", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  assert_non_null (dir);
  assert_false (is_known (known, "<Control>F9"));
  for (const char *name; (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    if (g_str_has_suffix (name, ".page"))
      n += check_keys (known, path);
  }
  assert_true (n > 30);
}

static GtkWindow *
window_of_shortcuts (void)
{
  GListModel *windows = gtk_window_get_toplevels ();
  GtkWindow *found = NULL;
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++) {
    g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);
    if (GTK_IS_SHORTCUTS_WINDOW (window))
      found = window;
  }
  return found;
}

static gboolean
shortcuts_are_shown (gpointer data)
{
  GtkWindow *window = window_of_shortcuts ();
  gboolean shown = window && gtk_widget_get_mapped (GTK_WIDGET (window));
  return shown == (data != NULL);
}

static void
shortcuts_come_when_asked_for_and_again (void **state)
{
  assert_null (window_of_shortcuts ());
  for (int i = 0; i < 2; i++) {
    desk_key ("F1", GDK_CONTROL_MASK);
    desk_until (shortcuts_are_shown, *state);
    desk_settle ();
    gtk_window_close (window_of_shortcuts ());
    desk_until (shortcuts_are_shown, NULL);
    desk_settle ();
  }
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, maker_set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (shortcuts_come_when_asked_for_and_again),
    IN_WINDOW (f1_opens_the_page_of_the_stage),
    IN_WINDOW (the_question_mark_of_every_stage_does_the_same),
    IN_WINDOW (a_link_leads_to_its_page_and_back_again),
    IN_WINDOW (a_page_is_read_by_keys),
    IN_WINDOW (a_page_that_is_missing_says_so),
    IN_WINDOW (a_word_of_the_trade_is_explained_where_it_stands),
    IN_WINDOW (every_key_that_the_help_names_exists),
    IN_WINDOW (help_goes_with_the_last_window),
  };
  return maker_run (tests);
}
