/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window round the stages: what it tells, what it opens, its menu, its tips and its keys. */
#include "drags.h"
#include "maker.h"

#include "app/bench/bench-page.h"
#include "app/draw/draw-stage.h"
#include "app/hang/hang-stage.h"
#include "app/make/make-stage.h"
#include "app/measure/measure-stage.h"
#include "app/shelf/shelf-page.h"
#include "app/fit/fit-line.h"
#include "app/measure/bench-sheet.h"
#include "app/ask/notice.h"
#include "app/kit/settings.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

typedef struct {
  Maker maker;
  char *path;
} Bench;

static char *
save_titled (const char *title, const char *name)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", title);
  return maker_save (project, name);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->path = save_titled ("Sea holly", "holly.bandwright");
  maker_start (&bench->maker, bench->path);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench->path);
  g_free (bench);
  return 0;
}

/* --- What is told ------------------------------------------------------------------------------
 */

static gboolean
has_notice (gpointer window)
{
  GtkWidget *bar = desk_find_type (GTK_WIDGET (window), GTK_TYPE_INFO_BAR);
  return gtk_info_bar_get_revealed (GTK_INFO_BAR (bar));
}

static double
top_of (GtkWidget *widget, GtkWidget *window)
{
  graphene_rect_t bounds;
  assert_true (gtk_widget_compute_bounds (widget, window, &bounds));
  return (double)bounds.origin.y;
}

static void
what_is_told_moves_nothing_on_the_page (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = GTK_WIDGET (maker->window);
  maker_stage (maker, "measure");
  GtkWidget *page = maker_find (maker, BW_TYPE_BENCH_SHEET),
            *stone = maker_find (maker, BW_TYPE_STONE_VIEW);
  double page_before = top_of (page, window), stone_before = top_of (stone, window);
  desk_key ("c", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  desk_until (has_notice, window);
  desk_settle ();
  desk_keep ("frame-notice");
  assert_true (top_of (page, window) == page_before);
  assert_true (top_of (stone, window) == stone_before);
  GtkWidget *notice = maker_find (maker, BW_TYPE_NOTICE);
  assert_true (gtk_widget_get_width (notice) > 0 && gtk_widget_get_height (notice) > 0);
}

/* --- What is dropped ---------------------------------------------------------------------------
 */

static void
drop_on (GtkWidget *target, const char *path)
{
  drags_file (path, target, gtk_widget_get_width (target) / 2.0,
              gtk_widget_get_height (target) / 2.0);
}

static GtkWindow *
window_titled (const char *title)
{
  for (GList *item = gtk_application_get_windows (maker_application ()); item; item = item->next)
    if (BW_IS_WINDOW (item->data)
        && g_str_equal (bw_project_get_title (bw_window_get_project (item->data)), title))
      return item->data;
  return NULL;
}

static gboolean
is_opened (gpointer title)
{
  return window_titled (title) != NULL;
}

static void
expect_opened (const char *title)
{
  desk_until (is_opened, (gpointer)title);
  gtk_window_close (window_titled (title));
  desk_settle ();
}

static void
a_project_dropped_anywhere_opens (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *wrack = save_titled ("Bladder wrack", "wrack.bandwright");
  maker_stage (maker, "draw");
  drop_on (maker_find (maker, BW_TYPE_STONE_VIEW), wrack);
  expect_opened ("Bladder wrack");
  drop_on (maker_find (maker, BW_TYPE_BAND_CANVAS), wrack);
  expect_opened ("Bladder wrack");
  /* As it was opened it would make way: that is for the shelf's own tests. */
  bw_project_set_title (maker_project (maker), "Title", "Sea holly in June");
  desk_key ("Home", GDK_ALT_MASK);
  drop_on (maker_find (maker, BW_TYPE_SHELF_PAGE), wrack);
  expect_opened ("Bladder wrack");
  bw_project_undo (maker_project (maker));
  assert_string_equal (bw_project_get_title (maker_project (maker)), "Sea holly");
  assert_false (has_notice (maker->window));
}

static void
a_picture_dropped_beside_the_band_is_told_where_it_belongs (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = maker_path ("cliff.png");
  assert_true (g_file_set_contents (path, "no picture", -1, NULL));
  maker_stage (maker, "make");
  drop_on (maker_find (maker, BW_TYPE_STONE_VIEW), path);
  desk_until (has_notice, maker->window);
  assert_non_null (
      desk_look_for_prefix (GTK_WIDGET (maker->window), "A picture is laid on the band"));
}

/* --- The menu ----------------------------------------------------------------------------------
 */

static gboolean
is_main_menu (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_MENU_BUTTON (widget) && gtk_menu_button_get_primary (GTK_MENU_BUTTON (widget));
}

static void
open_menu (Maker *maker, const char *item)
{
  desk_click (desk_look_for (GTK_WIDGET (maker->window), is_main_menu, NULL));
  maker_click_words (GTK_WIDGET (maker->window), item);
}

static void
keys_live_on_after_escape_from_a_menu_in_the_menu (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  maker_stage (maker, "draw");
  open_menu (maker, "Export");
  desk_find_label (GTK_WIDGET (maker->window), "Model…");
  desk_key ("Escape", 0);
  desk_key ("Escape", 0);
  assert_null (desk_look_for_label (GTK_WIDGET (maker->window), "Model…"));
  maker_stage (maker, "hang");
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (maker->window));
  assert_non_null (focus);
  assert_true (gtk_widget_get_mapped (focus));
}

static void
what_was_opened_last_is_in_the_menu_by_name (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *wrack = save_titled ("Bladder wrack", "wrack.bandwright");
  g_autoptr (GFile) file = g_file_new_for_path (wrack);
  bw_window_open (maker->window, file);
  expect_opened ("Bladder wrack");
  open_menu (maker, "Open Recent");
  desk_keep ("frame-recent");
  desk_find_label (GTK_WIDGET (maker->window), "holly");
  maker_click_words (GTK_WIDGET (maker->window), "wrack");
  expect_opened ("Bladder wrack");

  /* The menu that is open does not know yet that the file is gone. */
  open_menu (maker, "Open Recent");
  assert_int_equal (g_unlink (wrack), 0);
  maker_click_words (GTK_WIDGET (maker->window), "wrack");
  desk_until (has_notice, maker->window);
  desk_find_label (GTK_WIDGET (maker->window),
                   "“wrack.bandwright” could not be opened: there is no such file.");
  open_menu (maker, "Open Recent");
  assert_null (desk_look_for_label (GTK_WIDGET (maker->window), "wrack"));
  desk_key ("Escape", 0);
  desk_key ("Escape", 0);
}

/* A warning would end this program. */
static void
the_shortcuts_window_opens_without_a_complaint (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  desk_key ("F1", GDK_CONTROL_MASK);
  GtkWindow *shortcuts = maker_dialog (maker);
  assert_true (GTK_IS_SHORTCUTS_WINDOW (shortcuts));
  desk_keep ("frame-shortcuts");
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

/* --- Tips --------------------------------------------------------------------------------------
 */

static gboolean
has_tip (GtkWidget *widget, gconstpointer tip)
{
  return GTK_IS_BUTTON (widget) && g_strcmp0 (gtk_widget_get_tooltip_text (widget), tip) == 0;
}

static void
undo_and_redo_tell_their_keys (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = GTK_WIDGET (maker->window);
  assert_non_null (desk_look_for (window, has_tip, "Undo (Ctrl+Z)"));
  assert_non_null (desk_look_for (window, has_tip, "Redo (Shift+Ctrl+Z)"));
  maker_stage (maker, "measure");
  maker_fill (maker, "/band/rows", "110");
  assert_non_null (desk_look_for (window, has_tip, "Undo: Rows (Ctrl+Z)"));
  desk_key ("z", GDK_CONTROL_MASK);
  assert_non_null (desk_look_for (window, has_tip, "Redo: Rows (Shift+Ctrl+Z)"));
}

static gboolean
parts_a_number (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LABEL (widget) && gtk_label_get_wrap (GTK_LABEL (widget))
         && g_regex_match_simple ("[0-9] (mm|cm³|g|%|m|h|min)([^[:alnum:]]|$)",
                                  gtk_label_get_text (GTK_LABEL (widget)), 0, 0);
}

static void
no_line_parts_a_number_from_its_unit (void **state)
{
  static const char *const stages[] = { "measure", "draw", "hang", "make" };
  Maker *maker = &((Bench *)*state)->maker;
  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++) {
    maker_stage (maker, stages[i]);
    GtkWidget *label = desk_look_for (GTK_WIDGET (maker->window), parts_a_number, NULL);
    if (label)
      fail_msg ("“%s” may be parted", gtk_label_get_text (GTK_LABEL (label)));
  }
}

/* --- Another theme -----------------------------------------------------------------------------
 */

/* Lines of a widget that two pictures of the screen show otherwise. */
static int
lines_that_differ (GtkWidget *widget, cairo_surface_t *a, cairo_surface_t *b)
{
  int left, top, stride = cairo_image_surface_get_stride (a), n = 0;
  const guchar *p = cairo_image_surface_get_data (a), *q = cairo_image_surface_get_data (b);
  desk_point (widget, 0, 0, &left, &top);
  gsize width = (gsize)gtk_widget_get_width (widget) * 4;
  for (int y = top; y < top + gtk_widget_get_height (widget); y++)
    n += memcmp (p + y * stride + left * 4, q + y * stride + left * 4, width) != 0;
  return n;
}

static void
draw_all_anew (GtkWidget *widget)
{
  gtk_widget_queue_draw (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    draw_all_anew (child);
}

/* Whatever is drawn anew is as it is: nothing kept a colour of the theme before. The stone is no
 * part of it: it has daylight or lamplight in every theme. */
static void
expect_nothing_old (Maker *maker, GtkWidget *page, GtkWidget *fit)
{
  desk_settle ();
  cairo_surface_t *is = desk_picture ();
  draw_all_anew (GTK_WIDGET (maker->window));
  desk_settle ();
  cairo_surface_t *ought = desk_picture ();
  int n = lines_that_differ (page, is, ought) + lines_that_differ (fit, is, ought);
  cairo_surface_destroy (is);
  cairo_surface_destroy (ought);
  assert_int_equal (n, 0);
}

static void
count_one (int *n)
{
  ++*n;
}

/* Each time the toolkit is told it reads its theme, and styles every widget anew. */
static void
the_theme_is_read_anew_when_it_is_another (void **state)
{
  int told = 0;
  gulong counting = g_signal_connect_swapped (gtk_settings_get_default (),
                                              "notify::gtk-application-prefer-dark-theme",
                                              G_CALLBACK (count_one), &told);
  g_object_set (bw_settings_get (), "appearance", "light", NULL);
  g_object_set (bw_settings_get (), "appearance", "system", NULL);
  assert_int_equal (told, 0);
  g_object_set (bw_settings_get (), "appearance", "dark", NULL);
  assert_int_equal (told, 1);
  g_object_set (bw_settings_get (), "appearance", "system", NULL);
  assert_int_equal (told, 2);
  g_signal_handler_disconnect (gtk_settings_get_default (), counting);
}

static void
nothing_keeps_a_colour_of_the_theme_before (void **state)
{
  static const char *const looks[] = { "dark", "light", "system" };
  Maker *maker = &((Bench *)*state)->maker;
  maker_stage (maker, "measure");
  bw_session_set_colour_by_fit (maker_session (maker), TRUE);
  GtkWidget *page
      = gtk_widget_get_ancestor (maker_find (maker, BW_TYPE_BENCH_SHEET), GTK_TYPE_VIEWPORT);
  GtkWidget *fit = maker_find (maker, BW_TYPE_FIT_LINE);
  gtk_window_set_focus_visible (GTK_WINDOW (maker->window), FALSE);
  cairo_surface_t *before = desk_picture ();
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++) {
    g_object_set (bw_settings_get (), "appearance", looks[i], NULL);
    expect_nothing_old (maker, page, fit);
    if (i == 0) {
      cairo_surface_t *dark = desk_picture ();
      assert_int_equal (lines_that_differ (fit, before, dark), gtk_widget_get_height (fit));
      cairo_surface_destroy (dark);
    }
  }
  cairo_surface_destroy (before);
  g_object_set (gtk_settings_get_default (), "gtk-theme-name", "HighContrast", NULL);
  expect_nothing_old (maker, page, fit);
  g_object_set (gtk_settings_get_default (), "gtk-theme-name", "Default", NULL);
  expect_nothing_old (maker, page, fit);
}

static gboolean
is_stage (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_TOGGLE_BUTTON (widget) && desk_look_for_label (widget, words)
         && gtk_widget_has_css_class (gtk_widget_get_parent (widget), "stages");
}

static double
light (guint32 colour)
{
  return 0.30 * (colour >> 16 & 255) + 0.59 * (colour >> 8 & 255) + 0.11 * (colour & 255);
}

/* Not by another grey alone. */
static void
in_high_contrast_the_stage_one_is_at_cannot_be_missed (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  maker_stage (maker, "draw");
  g_object_set (gtk_settings_get_default (), "gtk-theme-name", "HighContrast", NULL);
  desk_rest ();
  desk_keep ("frame-contrast");
  GtkWidget *here = desk_look_for (GTK_WIDGET (maker->window), is_stage, "Draw");
  GtkWidget *there = desk_look_for (GTK_WIDGET (maker->window), is_stage, "Hang");
  double difference = light (desk_pixel (there, 8, 8)) - light (desk_pixel (here, 8, 8));
  g_object_set (gtk_settings_get_default (), "gtk-theme-name", "Default", NULL);
  desk_rest ();
  assert_true (difference > 80);
}

/* --- What is there when ------------------------------------------------------------------------
 */

/* Shown or not. */
static gboolean
has_below (GtkWidget *widget, GType type)
{
  gboolean has = g_type_is_a (G_OBJECT_TYPE (widget), type);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child && !has;
       child = gtk_widget_get_next_sibling (child))
    has = has_below (child, type);
  return has;
}

static void
a_stage_that_is_not_shown_comes_after_the_first_picture (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  const GType later[]
      = { BW_TYPE_DRAW_STAGE, BW_TYPE_HANG_STAGE, BW_TYPE_MAKE_STAGE, BW_TYPE_BENCH_PAGE };
  g_autoptr (BwProject) project = bw_project_new ();
  GtkWidget *window = GTK_WIDGET (
      bw_window_new (gtk_window_get_application (GTK_WINDOW (maker->window)), project));
  assert_true (has_below (window, BW_TYPE_MEASURE_STAGE));
  for (gsize i = 0; i < G_N_ELEMENTS (later); i++)
    assert_false (has_below (window, later[i]));
  bw_window_show_stage (BW_WINDOW (window), "hang");
  assert_true (has_below (window, BW_TYPE_HANG_STAGE));
  gtk_window_present (GTK_WINDOW (window));
  desk_settle ();
  for (gsize i = 0; i < G_N_ELEMENTS (later); i++)
    assert_true (has_below (window, later[i]));
  gtk_window_destroy (GTK_WINDOW (window));
  desk_settle ();
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_stage_that_is_not_shown_comes_after_the_first_picture),
    IN_WINDOW (the_theme_is_read_anew_when_it_is_another),
    IN_WINDOW (what_is_told_moves_nothing_on_the_page),
    IN_WINDOW (a_project_dropped_anywhere_opens),
    IN_WINDOW (a_picture_dropped_beside_the_band_is_told_where_it_belongs),
    IN_WINDOW (keys_live_on_after_escape_from_a_menu_in_the_menu),
    IN_WINDOW (what_was_opened_last_is_in_the_menu_by_name),
    IN_WINDOW (the_shortcuts_window_opens_without_a_complaint),
    IN_WINDOW (undo_and_redo_tell_their_keys),
    IN_WINDOW (no_line_parts_a_number_from_its_unit),
    IN_WINDOW (nothing_keeps_a_colour_of_the_theme_before),
    IN_WINDOW (in_high_contrast_the_stage_one_is_at_cannot_be_missed),
  };
  return maker_run (tests);
}
