/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is going to be printed is seen first, page by page, at any size and as it is chosen to be;
 * from there it goes to a printer or into a file, and the window is never held up. */
#include "maker.h"

#include "app/make/make-cards.h"
#include "app/make/page-view.h"
#include "app/make/print-options.h"
#include "app/make/print-window.h"
#include "app/kit/settings.h"

#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define MANY 200

static char *
demo (void)
{
  return g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
}

/* --- Looking -----------------------------------------------------------------------------------
 */

static GtkWidget *
preview (Maker *maker)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);
    if (BW_IS_PRINT_WINDOW (window) && gtk_widget_get_mapped (window)
        && gtk_window_get_transient_for (GTK_WINDOW (window)) == GTK_WINDOW (maker->window))
      return window;
  }
  return NULL;
}

static gboolean
is_view (GtkWidget *widget, gconstpointer small)
{
  gboolean is_small = FALSE;
  if (!BW_IS_PAGE_VIEW (widget))
    return FALSE;
  g_object_get (widget, "small", &is_small, NULL);
  return is_small == (small != NULL);
}

static BwPageView *
pages (Maker *maker)
{
  return BW_PAGE_VIEW (desk_look_for (preview (maker), is_view, NULL));
}

static int
count (Maker *maker)
{
  return bw_page_set_n_pages (bw_page_view_get_pages (pages (maker)));
}

static gboolean
is_ready (gpointer maker)
{
  GtkWidget *window = preview (maker);
  BwPageSet *set = window ? bw_page_view_get_pages (pages (maker)) : NULL;
  return set && gtk_window_is_active (GTK_WINDOW (window)) && bw_page_view_is_drawn (pages (maker));
}

/* Other pages than these are there, and drawn. */
typedef struct {
  Maker *maker;
  BwPageSet *before;
} Before;

static gboolean
is_another (gpointer data)
{
  Before *before = data;
  return bw_page_view_get_pages (pages (before->maker)) != before->before
         && bw_page_view_is_drawn (pages (before->maker));
}

static Before
remember (Maker *maker)
{
  return (Before){ maker, bw_page_set_ref (bw_page_view_get_pages (pages (maker))) };
}

static void
wait_for_others (Before *before)
{
  desk_until (is_another, before);
  bw_page_set_unref (before->before);
  desk_settle ();
}

static void
open_preview (Maker *maker, const char *path)
{
  maker_start (maker, path);
  desk_key ("p", GDK_CONTROL_MASK);
  desk_until (is_ready, maker);
  desk_settle ();
}

static void
choose (Maker *maker, const char *words)
{
  Before before = remember (maker);
  maker_click_words (preview (maker), words);
  wait_for_others (&before);
}

static BwPaper
paper (Maker *maker)
{
  return bw_page_set_get_paper (bw_page_view_get_pages (pages (maker)));
}

static gboolean
is_info_bar (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_INFO_BAR (widget) && gtk_info_bar_get_revealed (GTK_INFO_BAR (widget));
}

static gboolean
has_notice (gpointer maker)
{
  return desk_look_for (preview (maker), is_info_bar, NULL) != NULL;
}

/* --- Reading -----------------------------------------------------------------------------------
 */

static void
the_pages_are_read_by_keys_alone (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  open_preview (&maker, path);
  int n = count (&maker);
  assert_true (n > 8);
  assert_int_equal (bw_page_view_get_page (pages (&maker)), 0);
  desk_keep ("preview");
  desk_key ("Next", GDK_CONTROL_MASK);
  assert_int_equal (bw_page_view_get_page (pages (&maker)), 1);
  desk_key ("End", 0);
  assert_int_equal (bw_page_view_get_page (pages (&maker)), n - 1);
  g_autofree char *where = g_strdup_printf ("page %d of %d", n, n);
  assert_non_null (desk_look_for_label (preview (&maker), where));
  desk_key ("Home", 0);
  assert_int_equal (bw_page_view_get_page (pages (&maker)), 0);
  /* Screen by screen nothing is passed over, and every page begins at the top once. */
  int keys = 0;
  while (bw_page_view_get_page (pages (&maker)) < n - 1 && keys++ < 4 * n)
    desk_key ("Next", 0);
  assert_true (keys >= n - 1 && keys < 4 * n);
  desk_until (is_ready, &maker);
  desk_key ("Prior", GDK_CONTROL_MASK);
  assert_int_equal (bw_page_view_get_page (pages (&maker)), n - 2);
  desk_key ("Escape", 0);
  desk_settle ();
  assert_null (preview (&maker));
  maker_stop (&maker);
}

static void
pages_grow_and_shrink_by_keys_and_wheel (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  open_preview (&maker, path);
  BwPageView *view = pages (&maker);
  double wide = bw_page_view_get_size (view);
  desk_key ("0", GDK_CONTROL_MASK);
  desk_settle ();
  double whole = bw_page_view_get_size (view);
  assert_true (whole < wide);
  desk_key ("0", GDK_CONTROL_MASK);
  desk_settle ();
  assert_float_equal (bw_page_view_get_size (view), wide, 1e-9);
  desk_key ("plus", GDK_CONTROL_MASK);
  desk_settle ();
  double larger = bw_page_view_get_size (view);
  assert_true (larger > wide * 1.01);
  desk_hold (GDK_CONTROL_MASK);
  desk_scroll (GTK_WIDGET (view), 200, 200, 2);
  desk_let_go (GDK_CONTROL_MASK);
  desk_settle ();
  assert_true (bw_page_view_get_size (view) > larger * 1.1);
  desk_until (is_ready, &maker);
  desk_keep ("preview-near");
  for (int i = 0; i < 16; i++)
    desk_key ("minus", GDK_CONTROL_MASK);
  desk_settle ();
  assert_float_equal (bw_page_view_get_size (view), 0.25, 1e-9);
  desk_until (is_ready, &maker);
  maker_stop (&maker);
}

static void
a_click_on_a_small_page_shows_it_large (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  open_preview (&maker, path);
  GtkWidget *list = desk_look_for (preview (&maker), is_view, "small");
  assert_non_null (list);
  desk_click_at (list, gtk_widget_get_width (list) / 2.0, 340, 1);
  desk_settle ();
  assert_int_equal (bw_page_view_get_page (pages (&maker)), 2);
  desk_until (is_ready, &maker);
  maker_stop (&maker);
}

static double
left_of (Maker *maker, GtkWidget *widget)
{
  graphene_rect_t place;
  assert_true (gtk_widget_compute_bounds (widget, preview (maker), &place));
  return (double)place.origin.x;
}

/* The window is mirrored, and paper is not. */
static void
where_words_run_from_the_right_the_choices_stand_there (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  open_preview (&maker, path);
  GtkWidget *list = desk_look_for (preview (&maker), is_view, "small");
  GtkWidget *options = desk_find_type (preview (&maker), BW_TYPE_PRINT_OPTIONS);
  double page = left_of (&maker, GTK_WIDGET (pages (&maker)));
  assert_true (page < left_of (&maker, list));
  assert_true (left_of (&maker, list) < left_of (&maker, options));
  assert_true (left_of (&maker, desk_find_label (preview (&maker), "Print…"))
               > left_of (&maker, desk_find_label (preview (&maker), "Save as PDF…")));
  desk_click_at (list, gtk_widget_get_width (list) / 2.0, 340, 1);
  desk_settle ();
  assert_int_equal (bw_page_view_get_page (pages (&maker)), 2);
  desk_keep ("preview-mirrored");
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
  maker_stop (&maker);
}

/* --- Choosing ----------------------------------------------------------------------------------
 */

static void
what_is_chosen_changes_the_pages_at_once (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  open_preview (&maker, path);
  int usual = count (&maker);
  choose (&maker, "Large print");
  assert_true (count (&maker) > usual);
  choose (&maker, "Large print");
  assert_int_equal (count (&maker), usual);
  choose (&maker, "Row by row, drawings");
  assert_true (count (&maker) < usual);
  choose (&maker, "Row by row, drawings");
  assert_int_equal (count (&maker), usual);
  choose (&maker, "Paper strip");
  assert_int_equal (count (&maker), 1);
  assert_null (desk_look_for_label (preview (&maker), "Large print"));
  assert_null (desk_look_for_label (preview (&maker), "Row by row, drawings"));
  choose (&maker, "Picture for a shop");
  assert_float_equal (paper (&maker).width, paper (&maker).height, 1e-9);
  assert_null (desk_look_for_label (preview (&maker), "A4"));
  desk_keep ("preview-listing");
  maker_stop (&maker);
}

/* The list of papers, by keys: so many below the one that is chosen. */
static void
choose_paper (Maker *maker, const char *chosen, const char *key, int times)
{
  GtkWidget *list
      = gtk_widget_get_ancestor (desk_find_label (preview (maker), chosen), GTK_TYPE_DROP_DOWN);
  gtk_widget_grab_focus (list);
  desk_key ("space", 0);
  desk_settle ();
  for (int i = 0; i < times; i++)
    desk_key (key, 0);
  desk_key ("Return", 0);
}

static void
a_paper_of_ones_own_is_laid_out_as_it_is_for_this_print (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  const double mm = BW_POINTS_PER_MM;
  open_preview (&maker, path);
  Before before = remember (&maker);
  choose_paper (&maker, "By Region", "Down", 2);
  wait_for_others (&before);
  assert_true (bw_paper_equal (paper (&maker), BW_PAPER_A5));
  desk_settle ();
  choose_paper (&maker, "A5", "End", 1);
  desk_settle ();
  GtkWidget *width = desk_find_type (preview (&maker), GTK_TYPE_SPIN_BUTTON);
  gtk_widget_grab_focus (width);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("300");
  before = remember (&maker);
  desk_key ("Return", 0);
  wait_for_others (&before);
  assert_true (fabs (paper (&maker).width - 300 * mm) < 0.2);
  desk_keep ("preview-own-paper");
  g_autofree char *preferred = NULL;
  g_object_get (bw_settings_get (), "paper", &preferred, NULL);
  assert_string_equal (preferred, "usual");
  maker_stop (&maker);
}

static void
the_pages_follow_the_project (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  open_preview (&maker, path);
  choose (&maker, "Kit sheet");
  assert_int_equal (count (&maker), 2);
  Before before = remember (&maker);
  GtkWidget *entry
      = desk_find_type (desk_find_type (preview (&maker), BW_TYPE_PRINT_OPTIONS), GTK_TYPE_ENTRY);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("4");
  desk_key ("Return", 0);
  wait_for_others (&before);
  assert_int_equal (maker_design (&maker)->supply.pieces, 4);
  assert_int_equal (count (&maker), 5);
  before = remember (&maker);
  bw_project_undo (maker_project (&maker));
  wait_for_others (&before);
  assert_int_equal (count (&maker), 2);
  maker_stop (&maker);
}

/* A label with these words, whatever holds its numbers and units together. */
static gboolean
is_label_of (GtkWidget *widget, gconstpointer words)
{
  if (!GTK_IS_LABEL (widget))
    return FALSE;
  g_auto (GStrv) parts = g_strsplit (gtk_label_get_text (GTK_LABEL (widget)), "\u00a0", -1);
  g_autofree char *text = g_strjoinv (" ", parts);
  return g_str_equal (text, words);
}

static void
tags_bear_a_price_by_cost_mark_up_and_rounding (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  open_preview (&maker, path);
  choose (&maker, "Hang tags");
  GtkWidget *card = desk_find_type (preview (&maker), BW_TYPE_PRICE_CARD);
  assert_non_null (desk_look_for_prefix (card, "What the piece costs is not worked out"));
  Before before = remember (&maker);
  maker_click_words (card, "Work out the Cost");
  wait_for_others (&before);
  assert_true (maker_design (&maker)->supply.has_prices);
  GtkWidget *entry = desk_find_type (card, GTK_TYPE_ENTRY);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("50");
  before = remember (&maker);
  desk_key ("Return", 0);
  wait_for_others (&before);
  assert_float_equal (maker_design (&maker)->supply.markup, 0.5, 1e-9);
  const BwMaterials *materials = bw_project_materials (maker_project (&maker));
  const BwSupply *supply = &maker_design (&maker)->supply;
  g_autofree char *words
      = g_strdup_printf ("One piece costs %.2f %s; asked for it: %.2f %s.", materials->cost.piece,
                         supply->currency, bw_asking_price (materials, supply), supply->currency);
  assert_non_null (desk_look_for (card, is_label_of, words));
  choose (&maker, "With the price");
  desk_keep ("preview-tags");
  choose (&maker, "With the price");
  maker_stop (&maker);
}

/* --- Many pages --------------------------------------------------------------------------------
 */

static BwPrintKind
kind (Maker *maker)
{
  return bw_print_options_get_kind (
      BW_PRINT_OPTIONS (desk_find_type (preview (maker), BW_TYPE_PRINT_OPTIONS)));
}

typedef struct {
  Maker *maker;
  BwPageSet *before; /* not owned */
  gboolean heard, meanwhile;
} Key;

static void
zoomed (BwPageView *view, GParamSpec *property, Key *key)
{
  key->heard = TRUE;
  key->meanwhile
      = kind (key->maker) == BW_PRINT_KIT && bw_page_view_get_pages (view) == key->before;
}

static gboolean
is_heard (gpointer key)
{
  return ((Key *)key)->heard;
}

/* What the program gives to a thread waits here until the gate is opened, so that however slow or
 * quick the machine is, a key comes meanwhile. GLib lets some ten tasks run at a time and one more
 * each tenth of a second. */
enum { WAITING = 80 };
typedef struct {
  GMutex lock;
  GCond moved;
  gboolean is_open;
  int left;
} Gate;

static void
wait_at_gate (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  Gate *gate = data;
  g_mutex_lock (&gate->lock);
  while (!gate->is_open)
    g_cond_wait (&gate->moved, &gate->lock);
  gate->left--;
  g_cond_broadcast (&gate->moved);
  g_mutex_unlock (&gate->lock);
}

static void
gate_close (Gate *gate)
{
  g_mutex_init (&gate->lock);
  g_cond_init (&gate->moved);
  for (gate->left = 0; gate->left < WAITING; gate->left++) {
    g_autoptr (GTask) task = g_task_new (NULL, NULL, NULL, NULL);
    g_task_set_task_data (task, gate, NULL);
    g_task_set_priority (task, G_PRIORITY_HIGH);
    g_task_run_in_thread (task, wait_at_gate);
  }
}

static void
gate_open (Gate *gate)
{
  g_mutex_lock (&gate->lock);
  gate->is_open = TRUE;
  g_cond_broadcast (&gate->moved);
  while (gate->left > 0)
    g_cond_wait (&gate->moved, &gate->lock);
  g_mutex_unlock (&gate->lock);
  g_cond_clear (&gate->moved);
  g_mutex_clear (&gate->lock);
}

/* While they are laid out the window hears the next key; and then the last page is there. */
static void
many_pages_hold_nothing_up (void **state)
{
  Maker maker = { 0 };
  Gate gate = { 0 };
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.supply.pieces = MANY;
  assert_true (bw_project_set_design (project, "Pieces", &design, NULL));
  g_autofree char *path = maker_save (project, "class.bandwright");
  open_preview (&maker, path);
  Before before = remember (&maker);
  Key key = { &maker, before.before, FALSE, FALSE };
  gulong handler = g_signal_connect (pages (&maker), "notify::zoom", G_CALLBACK (zoomed), &key);
  gate_close (&gate);
  desk_strike ("Down", 0);
  desk_strike ("Down", 0);
  desk_strike ("plus", GDK_CONTROL_MASK);
  desk_until (is_heard, &key);
  gate_open (&gate);
  g_signal_handler_disconnect (pages (&maker), handler);
  assert_true (key.meanwhile);
  wait_for_others (&before);
  assert_int_equal (count (&maker), MANY + 1);
  desk_key ("End", 0);
  assert_int_equal (bw_page_view_get_page (pages (&maker)), MANY);
  desk_until (is_ready, &maker);
  desk_keep ("preview-many");
  maker_stop (&maker);
}

/* --- Going out ---------------------------------------------------------------------------------
 */

static GtkWindow *
print_dialog (void)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWindow) window = g_list_model_get_item (all, i);
    if (g_str_equal (G_OBJECT_TYPE_NAME (window), "GtkPrintUnixDialog")
        && gtk_widget_get_mapped (GTK_WIDGET (window)))
      return window;
  }
  return NULL;
}

static gboolean
has_print_dialog (gpointer data)
{
  return print_dialog () && gtk_window_is_active (print_dialog ());
}

static gboolean
has_no_print_dialog (gpointer data)
{
  return !print_dialog ();
}

static void
a_print_dialog_that_is_cancelled_tells_nothing (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = demo ();
  open_preview (&maker, path);
  desk_key ("p", GDK_CONTROL_MASK);
  desk_until (has_print_dialog, NULL);
  desk_settle ();
  desk_key ("Escape", 0);
  desk_until (has_no_print_dialog, NULL);
  desk_settle ();
  assert_false (has_notice (&maker));
  maker_stop (&maker);
}

typedef struct {
  Maker *maker;
  const char *words;
} Notice;

static gboolean
is_told (gpointer data)
{
  Notice *notice = data;
  return has_notice (notice->maker)
         && desk_look_for_label (preview (notice->maker), notice->words) != NULL;
}

static void
expect_notice (Maker *maker, const char *words)
{
  Notice notice = { maker, words };
  desk_until (is_told, &notice);
}

static void
save_as (Maker *maker, const char *path)
{
  desk_key ("s", GDK_CONTROL_MASK);
  maker_answer_path (maker, path);
}

static void
the_pages_seen_are_the_pages_of_the_file (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = demo (), *path = maker_path ("tide.pdf"), *bytes = NULL;
  open_preview (&maker, project);
  save_as (&maker, path);
  expect_notice (&maker, "“tide.pdf” was written.");
  g_autofree char *counted = g_strdup_printf ("pdfinfo '%s'", path), *told = NULL;
  assert_true (g_spawn_command_line_sync (counted, &told, NULL, NULL, NULL));
  g_autofree char *line = g_strdup_printf ("Pages:           %d\n", count (&maker));
  assert_non_null (strstr (told, line));
  maker_stop (&maker);
}

/* --- Saving again ------------------------------------------------------------------------------
 */

/* Which file it is: one that takes its place is another. 0: there is none. */
static guint64
number_of (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInfo) info = g_file_query_info (file, "unix::inode", 0, NULL, NULL);
  return info ? g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_UNIX_INODE) : 0;
}

typedef struct {
  const char *path;
  guint64 before;
} Replaced;

static gboolean
is_replaced (gpointer data)
{
  const Replaced *replaced = data;
  guint64 now = number_of (replaced->path);
  return now != 0 && now != replaced->before;
}

static GtkWidget *
question_to_replace (void)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);
    if (gtk_widget_get_mapped (window) && desk_look_for_label (window, "Replace"))
      return window;
  }
  return NULL;
}

static gboolean
asks_to_replace (gpointer data)
{
  return question_to_replace () != NULL;
}

/* One file after the other, and the second once more over itself. */
static void
pages_are_saved_again_and_again (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = demo (), *first = maker_path ("ebb.pdf"),
                  *second = maker_path ("flow.pdf"), *third = maker_path ("slack.pdf");
  open_preview (&maker, project);
  choose (&maker, "Paper strip");
  save_as (&maker, first);
  expect_notice (&maker, "“ebb.pdf” was written.");
  save_as (&maker, second);
  expect_notice (&maker, "“flow.pdf” was written.");
  Replaced replaced = { second, number_of (second) };
  save_as (&maker, second);
  desk_until (asks_to_replace, NULL);
  desk_settle ();
  maker_click_words (question_to_replace (), "Replace");
  desk_until (is_replaced, &replaced);
  /* Chosen and saved in one breath: what is saved is what was chosen. */
  maker_click_words (preview (&maker), "Kit sheet");
  save_as (&maker, third);
  expect_notice (&maker, "“slack.pdf” was written.");
  g_autofree char *counted = g_strdup_printf ("pdfinfo '%s'", third), *told = NULL;
  assert_true (g_spawn_command_line_sync (counted, &told, NULL, NULL, NULL));
  assert_non_null (strstr (told, "Kit sheet"));
  maker_stop (&maker);
}

/* Nobody, whatever his rights, makes a file in the folder the system describes itself in. */
static void
a_folder_that_cannot_be_written_is_told_in_one_sentence (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = demo ();
  open_preview (&maker, project);
  g_autofree char *before = bw_project_to_data (maker_project (&maker), NULL);
  choose (&maker, "Paper strip");
  save_as (&maker, "/sys/strip.pdf");
  expect_notice (&maker, "“strip.pdf” could not be written: you are not allowed to write here.");
  desk_keep ("print-refused");
  g_autofree char *after = bw_project_to_data (maker_project (&maker), NULL);
  assert_string_equal (after, before);
  maker_stop (&maker);
}

static gboolean
asks_for_a_name (gpointer nothing)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);
    if (GTK_IS_FILE_CHOOSER (window) && gtk_widget_get_mapped (window))
      return TRUE;
  }
  return FALSE;
}

static gboolean
asks_for_nothing (gpointer nothing)
{
  return !asks_for_a_name (NULL);
}

/* Not again when the next pages are laid out. */
static void
a_name_is_asked_for_once (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = demo ();
  open_preview (&maker, project);
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (asks_for_a_name, NULL);
  desk_settle ();
  desk_key ("Escape", 0);
  desk_until (asks_for_nothing, NULL);
  choose (&maker, "Paper strip");
  assert_false (asks_for_a_name (NULL));
  maker_stop (&maker);
}

static void
the_picture_for_a_shop_is_saved_square (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = demo (), *png = maker_path ("shop.png");
  open_preview (&maker, project);
  choose (&maker, "Picture for a shop");
  save_as (&maker, png);
  expect_notice (&maker, "“shop.png” was written.");
  cairo_surface_t *surface = cairo_image_surface_create_from_png (png);
  assert_int_equal (cairo_image_surface_get_width (surface), 1600);
  assert_int_equal (cairo_image_surface_get_height (surface), 1600);
  cairo_surface_destroy (surface);
  maker_stop (&maker);
}

static void
the_chart_is_saved_as_a_drawing_of_its_own (void **state)
{
  Maker maker = { 0 };
  g_autofree char *project = demo (), *svg = maker_path ("chart.svg"), *bytes = NULL;
  open_preview (&maker, project);
  choose (&maker, "Chart");
  maker_click_words (preview (&maker), "As SVG…");
  maker_answer_path (&maker, svg);
  expect_notice (&maker, "“chart.svg” was written.");
  assert_true (g_file_get_contents (svg, &bytes, NULL, NULL));
  assert_non_null (strstr (bytes, "class=\"bead\""));
  maker_stop (&maker);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_pages_are_read_by_keys_alone),
    cmocka_unit_test (pages_grow_and_shrink_by_keys_and_wheel),
    cmocka_unit_test (a_click_on_a_small_page_shows_it_large),
    cmocka_unit_test (where_words_run_from_the_right_the_choices_stand_there),
    cmocka_unit_test (what_is_chosen_changes_the_pages_at_once),
    cmocka_unit_test (a_paper_of_ones_own_is_laid_out_as_it_is_for_this_print),
    cmocka_unit_test (the_pages_follow_the_project),
    cmocka_unit_test (tags_bear_a_price_by_cost_mark_up_and_rounding),
    cmocka_unit_test (many_pages_hold_nothing_up),
    cmocka_unit_test (a_print_dialog_that_is_cancelled_tells_nothing),
    cmocka_unit_test (the_pages_seen_are_the_pages_of_the_file),
    cmocka_unit_test (pages_are_saved_again_and_again),
    cmocka_unit_test (a_folder_that_cannot_be_written_is_told_in_one_sentence),
    cmocka_unit_test (a_name_is_asked_for_once),
    cmocka_unit_test (the_picture_for_a_shop_is_saved_square),
    cmocka_unit_test (the_chart_is_saved_as_a_drawing_of_its_own),
  };
  return maker_run (tests);
}
