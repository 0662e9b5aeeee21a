/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wheel over numbers and lists that lie on a page that scrolls. */
#include "maker.h"

#include "app/draw/motif-panel.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* In a small window, so that every page scrolls. */
static int
set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  maker_start (maker, NULL);
  maker_stage (maker, "draw");
  gtk_window_set_default_size (GTK_WINDOW (maker->window), 900, 600);
  desk_settle ();
  *state = maker;
  return 0;
}

static GtkAdjustment *
place_of (GtkWidget *widget)
{
  GtkWidget *page = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  assert_non_null (page);
  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (page));
}

/* One turn, down unless the page ends here. */
static void
assert_wheel_scrolls_past (GtkWidget *widget)
{
  GtkAdjustment *place = place_of (widget);
  maker_reveal (widget);
  double before = gtk_adjustment_get_value (place);
  gboolean down
      = before + 1 < gtk_adjustment_get_upper (place) - gtk_adjustment_get_page_size (place);
  desk_scroll (widget, gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0,
               down ? -1 : 1);
  double after = gtk_adjustment_get_value (place);
  assert_true (down ? after > before : after < before);
}

static void
the_wheel_over_a_number_of_a_motif_scrolls_the_panel (void **state)
{
  Maker *maker = *state;
  maker_click_words (GTK_WIDGET (maker->window), "Motif");
  desk_settle ();
  GtkWidget *panel = maker_find (maker, BW_TYPE_MOTIF_PANEL);
  GtkWidget *number = desk_find_type (panel, GTK_TYPE_SPIN_BUTTON);
  double value = gtk_spin_button_get_value (GTK_SPIN_BUTTON (number));
  assert_wheel_scrolls_past (number);
  assert_true (gtk_spin_button_get_value (GTK_SPIN_BUTTON (number)) == value);
  gtk_widget_grab_focus (number);
  assert_wheel_scrolls_past (number);
  assert_true (gtk_spin_button_get_value (GTK_SPIN_BUTTON (number)) == value);
}

static void
the_wheel_over_a_list_scrolls_the_panel (void **state)
{
  Maker *maker = *state;
  maker_click_words (GTK_WIDGET (maker->window), "Motif");
  desk_settle ();
  GtkWidget *panel = maker_find (maker, BW_TYPE_MOTIF_PANEL);
  GtkWidget *list = desk_find_type (panel, GTK_TYPE_DROP_DOWN);
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (list));
  assert_wheel_scrolls_past (list);
  assert_int_equal (gtk_drop_down_get_selected (GTK_DROP_DOWN (list)), chosen);
}

static void
the_wheel_over_a_measurement_being_typed_scrolls_the_page (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "measure");
  GtkWidget *entry = maker_entry (maker, "/band/rows");
  int rows = maker_design (maker)->band.rows;
  maker_reveal (entry);
  desk_click (entry);
  assert_wheel_scrolls_past (entry);
  assert_int_equal (maker_design (maker)->band.rows, rows);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (the_wheel_over_a_number_of_a_motif_scrolls_the_panel),
    IN_WINDOW (the_wheel_over_a_list_scrolls_the_panel),
    IN_WINDOW (the_wheel_over_a_measurement_being_typed_scrolls_the_page),
  };
  return maker_run (tests);
}
