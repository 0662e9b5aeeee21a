/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Draw stage as it is laid out: how large the band is, what folds away, how near it is, and
 * what the right button offers. */
#include "maker.h"

#include "app/draw/side-panel.h"
#include "app/draw/tool-strip.h"
#include "app/draw/zoom-box.h"
#include "app/kit/fold-handle.h"
#include "app/kit/named-icon.h"
#include "app/kit/settings.h"
#include "app/window/stone-panel.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* As the program opens, whole band not asked for. */
static int
set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  maker_start (maker, NULL);
  desk_key ("2", GDK_CONTROL_MASK);
  *state = maker;
  return 0;
}

static int
tear_down (void **state)
{
  g_object_set (bw_settings_get (), "tray-folded", FALSE, "stone-folded", FALSE, NULL);
  maker_stop (*state);
  g_free (*state);
  return 0;
}

static BwBandCanvas *
canvas_of (Maker *maker)
{
  return BW_BAND_CANVAS (maker_find (maker, BW_TYPE_BAND_CANVAS));
}

static int
canvas_width (Maker *maker)
{
  return gtk_widget_get_width (GTK_WIDGET (canvas_of (maker)));
}

static void
resize (Maker *maker, int width, int height)
{
  GtkWidget *paned
      = gtk_widget_get_ancestor (maker_find (maker, BW_TYPE_STONE_PANEL), GTK_TYPE_PANED);
  gtk_window_set_default_size (GTK_WINDOW (maker->window), width, height);
  desk_settle ();
  gtk_paned_set_position (GTK_PANED (paned),
                          (int)(gtk_widget_get_width (paned)
                                * bw_settings_get_number (bw_settings_get (), "stage-share")));
  desk_settle ();
}

/* --- Room --------------------------------------------------------------------------------------
 */

static void
the_canvas_gets_its_share_of_the_window (void **state)
{
  Maker *maker = *state;
  resize (maker, 1366, 768);
  desk_keep ("mat-1366");
  assert_true (canvas_width (maker) >= 0.45 * 1366);
  resize (maker, 900, 600);
  desk_keep ("mat-900");
  assert_true (gtk_widget_get_width (GTK_WIDGET (maker->window)) <= 900);
  assert_true (canvas_width (maker) >= 300);
}

static void
the_band_opens_at_six_tenths_of_the_canvas (void **state)
{
  Maker *maker = *state;
  static const int sizes[][2] = { { 1366, 768 }, { 1600, 1000 } };
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++) {
    resize (maker, sizes[i][0], sizes[i][1]);
    const BwBandLayout *layout = bw_band_canvas_get_layout (canvas_of (maker));
    double band = layout->columns * bw_band_layout_column_px (layout);
    assert_true (fabs (band - 0.6 * layout->height) < 1);
    assert_true (fabs (bw_band_layout_y (layout, layout->columns / 2.0) - layout->height / 2) < 1);
  }
}

/* Above the band and below it the stone is seen, not the mat: neither point of the screen has the
 * colour beyond the stone's tip. */
static void
the_stone_is_seen_above_and_below_the_band (void **state)
{
  Maker *maker = *state;
  BwBandCanvas *canvas = canvas_of (maker);
  resize (maker, 1366, 768);
  const BwBandLayout *layout = bw_band_canvas_get_layout (canvas);
  const BwBandFaces *faces = bw_band_canvas_get_faces (canvas);
  double x = layout->x + layout->width / 2;
  double above = bw_band_layout_y (layout, layout->columns + 3),
         below = bw_band_layout_y (layout, -1);
  assert_true (faces->foot < -1 && faces->shoulder > layout->columns + 3);
  assert_true (above > 0 && below < layout->height);
  guint32 high = desk_pixel (GTK_WIDGET (canvas), x, above);
  guint32 low = desk_pixel (GTK_WIDGET (canvas), x, below);
  bw_band_canvas_set_zoom (canvas, BW_ZOOM_MIN);
  desk_settle ();
  desk_keep ("mat-far");
  double mat = bw_band_layout_y (layout, faces->foot) + 40;
  assert_true (mat < layout->height);
  guint32 ground = desk_pixel (GTK_WIDGET (canvas), x, mat);
  assert_int_not_equal (high, ground);
  assert_int_not_equal (low, ground);
}

static gboolean
is_without_name (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_NAMED_ICON (widget)
         && !gtk_widget_get_child_visible (gtk_widget_get_last_child (widget));
}

/* One row: every tool at the same height; all of them named where there is room for it, and where
 * there is not the one in hand is. */
static void
the_tools_stand_in_one_named_row_under_the_band (void **state)
{
  Maker *maker = *state;
  resize (maker, 1366, 768);
  GtkWidget *strip = maker_find (maker, BW_TYPE_TOOL_STRIP);
  graphene_rect_t band, tools;
  assert_true (gtk_widget_compute_bounds (GTK_WIDGET (canvas_of (maker)),
                                          GTK_WIDGET (maker->window), &band));
  assert_true (gtk_widget_compute_bounds (strip, GTK_WIDGET (maker->window), &tools));
  assert_true (tools.origin.y >= band.origin.y + band.size.height);
  for (GtkWidget *child = gtk_widget_get_first_child (strip); child;
       child = gtk_widget_get_next_sibling (child)) {
    graphene_rect_t place;
    assert_true (gtk_widget_compute_bounds (child, strip, &place));
    assert_true (place.origin.y >= 0 && place.origin.y < 12);
  }
  assert_null (desk_look_for (strip, is_without_name, NULL));
  resize (maker, 900, 600);
  assert_non_null (desk_look_for (strip, is_without_name, NULL));
  assert_non_null (desk_look_for_label (strip, "Bead"));
  desk_key ("5", 0);
  assert_non_null (desk_look_for_label (strip, "Flood"));
}

/* --- Folding -----------------------------------------------------------------------------------
 */

static gboolean
is_handle_of (GtkWidget *widget, gconstpointer words)
{
  const char *tip = gtk_widget_get_tooltip_text (widget);
  return BW_IS_FOLD_HANDLE (widget) && tip && g_str_has_prefix (tip, words);
}

static void
press_handle (Maker *maker, const char *words)
{
  GtkWidget *handle = desk_look_for (GTK_WIDGET (maker->window), is_handle_of, words);
  if (!handle)
    fail_msg ("no handle says “%s”", words);
  desk_click (handle);
  desk_settle ();
}

static void
the_tray_folds_to_swatches_by_key_and_by_handle (void **state)
{
  Maker *maker = *state;
  int open = canvas_width (maker);
  desk_key ("F8", 0);
  desk_settle ();
  desk_keep ("mat-tray-folded");
  assert_true (canvas_width (maker) > open + 120);
  assert_null (desk_look_for_label (GTK_WIDGET (maker->window), "Motif"));
  /* A swatch still takes its colour in hand. */
  maker_take_colour (maker, 2);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 2);
  press_handle (maker, "Bring the tray back");
  assert_int_equal (canvas_width (maker), open);
  press_handle (maker, "Fold the tray away");
  assert_true (canvas_width (maker) > open + 120);
  /* Whoever asks for a page has it unfolded. */
  desk_key ("Page_Down", GDK_CONTROL_MASK);
  desk_settle ();
  assert_int_equal (canvas_width (maker), open);
  assert_non_null (desk_look_for_label (GTK_WIDGET (maker->window), "Motif"));
}

static gboolean
is_stone_view (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_STONE_VIEW (widget) && gtk_widget_get_mapped (widget);
}

static void
the_stone_folds_away_by_key_and_by_handle (void **state)
{
  Maker *maker = *state;
  GtkWidget *window = GTK_WIDGET (maker->window);
  int open = canvas_width (maker);
  desk_key ("F9", 0);
  desk_settle ();
  desk_keep ("mat-stone-folded");
  assert_null (desk_look_for (window, is_stone_view, NULL));
  assert_true (canvas_width (maker) > open + 150);
  press_handle (maker, "Bring the stone back");
  assert_non_null (desk_look_for (window, is_stone_view, NULL));
  assert_int_equal (canvas_width (maker), open);
  press_handle (maker, "Fold the stone away");
  assert_null (desk_look_for (window, is_stone_view, NULL));
  desk_key ("F9", 0);
  desk_settle ();
  assert_non_null (desk_look_for (window, is_stone_view, NULL));
}

/* --- How near ----------------------------------------------------------------------------------
 */

static void
the_zoom_is_a_number_and_a_slider (void **state)
{
  Maker *maker = *state;
  BwBandCanvas *canvas = canvas_of (maker);
  GtkWidget *box = maker_find (maker, BW_TYPE_ZOOM_BOX);
  GtkWidget *number = desk_find_type (box, GTK_TYPE_ENTRY);
  GtkWidget *slider = desk_find_type (box, GTK_TYPE_SCALE);
  desk_click (number);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("6,5");
  desk_key ("Return", 0);
  assert_true (fabs (bw_band_canvas_get_zoom (canvas) - 6.5 / 4) < 1e-9);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (number)), "6.5×");
  assert_true (fabs (gtk_range_get_value (GTK_RANGE (slider)) - log2 (6.5)) < 1e-6);
  /* What is no number gives way to the one there is. */
  desk_click (number);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("near");
  desk_key ("Return", 0);
  assert_true (fabs (bw_band_canvas_get_zoom (canvas) - 6.5 / 4) < 1e-9);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (number)), "6.5×");
  gtk_widget_grab_focus (slider);
  desk_key ("Right", 0);
  assert_true (bw_band_canvas_get_zoom (canvas) > 6.5 / 4);
  g_autofree char *told = g_strdup_printf ("%.1f×", 4 * bw_band_canvas_get_zoom (canvas));
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (number)), told);
  double before = bw_band_canvas_get_zoom (canvas);
  desk_drag (slider, 2, gtk_widget_get_height (slider) / 2.0, gtk_widget_get_width (slider) - 2,
             gtk_widget_get_height (slider) / 2.0, 4, 1);
  assert_true (bw_band_canvas_get_zoom (canvas) > before);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (the_canvas_gets_its_share_of_the_window),
    IN_WINDOW (the_band_opens_at_six_tenths_of_the_canvas),
    IN_WINDOW (the_stone_is_seen_above_and_below_the_band),
    IN_WINDOW (the_tools_stand_in_one_named_row_under_the_band),
    IN_WINDOW (the_tray_folds_to_swatches_by_key_and_by_handle),
    IN_WINDOW (the_stone_folds_away_by_key_and_by_handle),
    IN_WINDOW (the_zoom_is_a_number_and_a_slider),
  };
  return maker_run (tests);
}
