/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Make stage in a real window: prices that go from project to project, a necklace by the list
 * and by hand, and input that cannot stand. */
#include "maker.h"

#include "app/make/make-cards.h"
#include "app/make/price-book.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

/* What a program started now would remember: the book read anew from its file. */
static BwPriceBook *
book_after_a_restart (void)
{
  g_autofree char *path
      = g_build_filename (g_get_user_config_dir (), "bandwright", "prices.ini", NULL);
  return bw_price_book_new (path);
}

static GtkWidget *
supply_card (Maker *maker)
{
  return maker_find (maker, BW_TYPE_SUPPLY_CARD);
}

static void
ask_for_cost (Maker *maker)
{
  maker_click_words (supply_card (maker), "Work out the cost");
  desk_settle ();
}

/* The design of the window that is not the maker's first. */
static const BwDesign *
design_of_another (Maker *maker)
{
  for (GList *item = gtk_application_get_windows (maker_application ()); item; item = item->next)
    if (BW_IS_WINDOW (item->data) && item->data != (gpointer)maker->window)
      return bw_project_get_design (bw_window_get_project (item->data));
  return NULL;
}

static gboolean
has_another (gpointer maker)
{
  return design_of_another (maker) != NULL;
}

static void
prices_typed_once_are_those_of_the_next_project (void **state)
{
  Maker maker = { 0 };
  maker_start (&maker, NULL);
  maker_stage (&maker, "make");
  ask_for_cost (&maker);
  g_autoptr (BwPriceBook) none = book_after_a_restart ();
  assert_false (bw_price_book_has_prices (none));
  assert_non_null (desk_look_for_prefix (supply_card (&maker), "These are examples"));
  maker_fill (&maker, "/materials/prices/stone", "12.75");
  maker_fill (&maker, "/materials/prices/findings", "2.4");
  assert_float_equal (maker_design (&maker)->supply.stone, 12.75, 1e-12);
  desk_keep ("make-prices");
  g_autoptr (BwPriceBook) book = book_after_a_restart ();
  assert_true (bw_price_book_matches (book, &maker_design (&maker)->supply));
  desk_key ("n", GDK_CONTROL_MASK);
  desk_until (has_another, &maker);
  const BwSupply *next = &design_of_another (&maker)->supply;
  assert_true (next->has_prices);
  assert_float_equal (next->stone, 12.75, 1e-12);
  assert_float_equal (next->findings, 2.4, 1e-12);
  maker_stop (&maker);
}

/* A project from elsewhere, with prices of its own. */
static char *
foreign_project (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.supply.has_prices = TRUE;
  g_strlcpy (design.supply.currency, "USD", sizeof design.supply.currency);
  design.supply.stone = 40;
  assert_true (bw_project_set_design (project, "Prices", &design, NULL));
  return maker_save (project, "foreign.bandwright");
}

static void
opening_a_file_never_changes_what_is_remembered (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = foreign_project ();
  g_autoptr (BwPriceBook) before = book_after_a_restart ();
  assert_true (bw_price_book_has_prices (before));
  maker_start (&maker, path);
  maker_stage (&maker, "make");
  maker_fill (&maker, "/materials/prices/stone", "41");
  BwSupply foreign = maker_design (&maker)->supply;
  assert_float_equal (foreign.stone, 41, 1e-12);
  g_autoptr (BwPriceBook) after = book_after_a_restart ();
  assert_false (bw_price_book_matches (after, &foreign));
  assert_float_equal (foreign.hour, 16, 1e-12);
  maker_click_words (supply_card (&maker), "Use My Prices Here");
  assert_true (bw_price_book_matches (after, &maker_design (&maker)->supply));
  desk_key ("z", GDK_CONTROL_MASK);
  desk_settle ();
  assert_float_equal (maker_design (&maker)->supply.stone, 41, 1e-12);
  maker_stop (&maker);
}

static void
other_prices_are_remembered_when_asked (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = foreign_project ();
  maker_start (&maker, path);
  maker_stage (&maker, "make");
  maker_click_words (supply_card (&maker), "Remember These Prices");
  desk_settle ();
  g_autoptr (BwPriceBook) after = book_after_a_restart ();
  assert_true (bw_price_book_matches (after, &maker_design (&maker)->supply));
  assert_non_null (desk_look_for_label (
      supply_card (&maker), "These prices are remembered: new projects start with them."));
  maker_stop (&maker);
}

/* Each wrong value is marked, stays to be mended, and changes nothing. */
static void
a_wrong_number_is_marked_and_changes_nothing (void **state)
{
  static const struct {
    const char *pointer, *text, *reason;
  } wrong[] = {
    { "/materials/neck_mm", "0", "0\u00a0mm is not between 250\u00a0mm and 2000\u00a0mm." },
    { "/materials/neck_mm", "1000 cm",
      "10000\u00a0mm is not between 250\u00a0mm and 2000\u00a0mm." },
    { "/materials/pieces", "0", "0 is not between 1 and 10000." },
    { "/materials/pieces", "2.5", "“2.5” is not a whole number" },
    { "/materials/prices/hour", "-3", "-3 is not between 0 and 1000000000." },
    { "/materials/prices/pack", "2000000000", "2000000000 is not between 0 and 1000000000." },
  };
  Maker maker = { 0 };
  g_autofree char *data
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (&maker, data);
  maker_stage (&maker, "make");
  ask_for_cost (&maker);
  BwDesign before = *maker_design (&maker);
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    maker_fill (&maker, wrong[i].pointer, wrong[i].text);
    desk_settle ();
    assert_string_equal (maker_entry_text (&maker, wrong[i].pointer), wrong[i].text);
    if (!desk_look_for_label (GTK_WIDGET (maker.window), wrong[i].reason))
      fail_msg ("“%s” in %s is not told", wrong[i].text, wrong[i].pointer);
    assert_int_equal (maker_design (&maker)->supply.pieces, before.supply.pieces);
    assert_float_equal (maker_design (&maker)->supply.neck_mm, before.supply.neck_mm, 1e-12);
    assert_float_equal (maker_design (&maker)->supply.hour, before.supply.hour, 1e-12);
    assert_float_equal (maker_design (&maker)->supply.pack, before.supply.pack, 1e-12);
  }
  desk_keep ("make-wrong");
  maker_stop (&maker);
}

static void
a_necklace_typed_is_the_cord_on_the_list (void **state)
{
  Maker maker = { 0 };
  g_autofree char *data
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (&maker, data);
  maker_stage (&maker, "make");
  maker_fill (&maker, "/materials/neck_mm", "20 in");
  assert_float_equal (maker_design (&maker)->supply.neck_mm, 508, 1e-9);
  maker_fill (&maker, "/materials/closing_mm", "92");
  desk_settle ();
  GtkWidget *list = maker_find (&maker, BW_TYPE_LIST_CARD);
  assert_non_null (
      desk_look_for_label (list, "508\u00a0mm, closed with knots that take 92\u00a0mm more"));
  assert_non_null (desk_look_for_prefix (list, "0.60\u00a0m, "));
  desk_keep ("make-necklace");
  maker_stop (&maker);
}

static gboolean
is_picture (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_PICTURE (widget);
}

static gboolean
is_empty_picture (GtkWidget *widget, gconstpointer data)
{
  return is_picture (widget, data) && !gtk_picture_get_paintable (GTK_PICTURE (widget));
}

static gboolean
has_pages (gpointer maker)
{
  GtkWidget *card = maker_find (maker, BW_TYPE_PRINT_CARD);
  return desk_look_for (card, is_picture, NULL) && !desk_look_for (card, is_empty_picture, NULL);
}

typedef struct {
  Maker *maker;
  GdkPaintable *before;
} Page;

static gboolean
is_another_page (gpointer data)
{
  Page *page = data;
  GtkWidget *card = maker_find (page->maker, BW_TYPE_PRINT_CARD);
  GtkWidget *picture = desk_look_for (card, is_picture, NULL);
  return gtk_picture_get_paintable (GTK_PICTURE (picture)) != page->before;
}

/* The pages are there without being asked for, and follow the design. */
static void
the_pages_are_seen_before_they_are_printed (void **state)
{
  Maker maker = { 0 };
  g_autofree char *data
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (&maker, data);
  desk_key ("4", GDK_CONTROL_MASK);
  desk_until (has_pages, &maker);
  GtkWidget *card = maker_find (&maker, BW_TYPE_PRINT_CARD);
  GtkWidget *picture = desk_look_for (card, is_picture, NULL);
  assert_non_null (desk_look_for_label (card, "1 page"));
  Page page = { &maker, g_object_ref (gtk_picture_get_paintable (GTK_PICTURE (picture))) };
  desk_settle ();
  desk_keep ("make-pages");
  bw_project_set_title (maker_project (&maker), "Title", "Another title");
  desk_until (is_another_page, &page);
  g_object_unref (page.before);
  maker_click_words (card, "Hang tags");
  assert_non_null (desk_look_for_label (GTK_WIDGET (maker_dialog (&maker)), "With the price"));
  maker_stop (&maker);
}

/* Folded, each group says what is in it; a key opens it. */
static void
what_is_folded_says_its_content_in_a_line (void **state)
{
  Maker maker = { 0 };
  g_autofree char *data
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (&maker, data);
  desk_key ("4", GDK_CONTROL_MASK);
  desk_settle ();
  GtkWidget *window = GTK_WIDGET (maker.window);
  assert_non_null (desk_look_for_label (window, "943 beads of 5 colours, 5 packs"));
  assert_non_null (
      desk_look_for_label (window, "1 piece, 10\u00a0% to spare; the cost is not worked out"));
  assert_null (desk_look_for_label (window, "Thread"));
  BwDesign design = *maker_design (&maker);
  design.supply.spare = 0;
  assert_true (bw_project_set_design (maker_project (&maker), "Spare", &design, NULL));
  desk_settle ();
  assert_non_null (desk_look_for_label (window, "855 beads of 5 colours, 5 packs"));
  GtkWidget *title = desk_find_label (window, "What to buy");
  GtkWidget *head = gtk_widget_get_ancestor (title, GTK_TYPE_BUTTON);
  maker_reveal (head);
  gtk_widget_grab_focus (head);
  desk_key ("space", 0);
  desk_settle ();
  assert_non_null (desk_look_for_label (window, "Thread"));
  desk_key ("space", 0);
  desk_settle ();
  assert_null (desk_look_for_label (window, "Thread"));
  maker_stop (&maker);
}

static gboolean
is_entry (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_ENTRY (widget);
}

/* Typed, taken when the focus goes on, told in the folded line, and one step of undo. */
static void
what_the_cover_tells_is_typed_on_the_stage (void **state)
{
  Maker maker = { 0 };
  maker_start (&maker, NULL);
  maker_stage (&maker, "make");
  GtkWidget *entry = desk_look_for (maker_find (&maker, BW_TYPE_COVER_CARD), is_entry, NULL);
  maker_reveal (entry);
  desk_click (entry);
  desk_type ("tidewrack");
  desk_key ("Tab", 0);
  desk_settle ();
  BwProject *project = maker_project (&maker);
  assert_string_equal (bw_project_get_about (project, BW_ABOUT_MAKER), "tidewrack");
  assert_non_null (desk_look_for_label (GTK_WIDGET (maker.window), "tidewrack"));
  desk_keep ("make-cover");
  bw_project_undo (project);
  desk_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "");
  maker_stop (&maker);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_pages_are_seen_before_they_are_printed),
    cmocka_unit_test (what_is_folded_says_its_content_in_a_line),
    cmocka_unit_test (prices_typed_once_are_those_of_the_next_project),
    cmocka_unit_test (opening_a_file_never_changes_what_is_remembered),
    cmocka_unit_test (other_prices_are_remembered_when_asked),
    cmocka_unit_test (a_wrong_number_is_marked_and_changes_nothing),
    cmocka_unit_test (a_necklace_typed_is_the_cord_on_the_list),
    cmocka_unit_test (what_the_cover_tells_is_typed_on_the_stage),
  };
  return maker_run (tests);
}
