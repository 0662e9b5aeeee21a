/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Draw stage as it is laid out: how large the band is, what folds away, how near it is, and
 * what the right button offers. */
#include "drags.h"
#include "maker.h"

#include "app/draw/side-panel.h"
#include "app/draw/tool-strip.h"
#include "app/draw/zoom-box.h"
#include "app/kit/fold-handle.h"
#include "app/kit/named-icon.h"
#include "app/kit/settings.h"
#include "app/window/stone-panel.h"

#include <glib/gstdio.h>
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
  maker_stop (*state);
  g_object_set (bw_settings_get (), "tray-folded", FALSE, "stone-folded", FALSE, "window-width",
                1280, "window-height", 860, NULL);
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
  assert_true (canvas_width (maker) > open + 100);
  assert_null (desk_look_for_label (GTK_WIDGET (maker->window), "Motif"));
  /* A swatch still takes its colour in hand. */
  maker_take_colour (maker, 2);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 2);
  press_handle (maker, "Bring the tray back");
  assert_int_equal (canvas_width (maker), open);
  press_handle (maker, "Fold the tray away");
  assert_true (canvas_width (maker) > open + 100);
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

/* --- Menus -------------------------------------------------------------------------------------
 */

static GtkWidget *
window_of (Maker *maker)
{
  return GTK_WIDGET (maker->window);
}

/* The whole band, so that every bead can be pointed at. */
static void
see_all (Maker *maker)
{
  desk_key ("0", GDK_CONTROL_MASK);
  maker_take_colour (maker, 1);
}

static void
open_menu_of_bead (Maker *maker, int row, int column)
{
  double x, y;
  maker_bead_point (maker, row, column, &x, &y);
  desk_click_at (GTK_WIDGET (canvas_of (maker)), x, y, 3);
  desk_settle ();
}

static void
choose (Maker *maker, const char *words)
{
  maker_click_words (window_of (maker), words);
  desk_settle ();
}

static gboolean
is_offered (Maker *maker, const char *words)
{
  GtkWidget *label = desk_look_for_label (window_of (maker), words);
  assert_non_null (label);
  return gtk_widget_is_sensitive (label);
}

static int
selected (Maker *maker)
{
  const BwRegion *region = bw_session_get_selection (maker_session (maker));
  return region ? bw_region_count (region) : 0;
}

static void
the_menu_of_a_bead_does_what_it_says (void **state)
{
  Maker *maker = *state;
  see_all (maker);
  maker_drag_beads (maker, 21, 4, 31, 4);
  open_menu_of_bead (maker, 25, 4);
  desk_keep ("mat-menu");
  assert_false (is_offered (maker, "Copy"));
  assert_true (is_offered (maker, "Paste"));
  assert_false (is_offered (maker, "Unlock All Columns"));
  choose (maker, "Select All “Straw light”");
  assert_int_equal (selected (maker), 6);
  open_menu_of_bead (maker, 25, 4);
  assert_true (is_offered (maker, "Copy"));
  choose (maker, "Cut");
  assert_int_equal (maker_count (maker, 1), 0);
  assert_string_equal (bw_project_undo_label (maker_project (maker)), "Cut");
}

/* By the keyboard it opens at the keyboard's bead. */
static void
the_menu_opens_by_a_key_at_the_keyboards_bead (void **state)
{
  Maker *maker = *state;
  see_all (maker);
  maker_click_bead (maker, 21, 4);
  desk_key ("a", 0);
  /* The first arrow shows the bead that was pressed last. */
  desk_key ("Right", 0);
  desk_key ("F10", GDK_SHIFT_MASK);
  desk_settle ();
  choose (maker, "Pick Up “Straw light”");
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 1);
}

static void
press_row (Maker *maker, int index)
{
  GtkWidget *list = desk_find_type (maker_find (maker, BW_TYPE_SIDE_PANEL), GTK_TYPE_LIST_BOX);
  GtkWidget *row = GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), index));
  desk_click_at (row, 20, gtk_widget_get_height (row) / 2.0, 3);
  desk_settle ();
}

static void
the_menu_of_a_colour_does_what_it_says (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  see_all (maker);
  maker_drag_beads (maker, 21, 4, 31, 4);
  press_row (maker, 0);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 0);
  desk_keep ("mat-tray-menu");
  assert_false (is_offered (maker, "Move Up"));
  choose (maker, "Move Down");
  assert_string_equal (bw_project_get_tray (project)->colour[0].name, "Straw light");
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 1);
  press_row (maker, 0);
  choose (maker, "Select Its Beads");
  assert_int_equal (selected (maker), 6);
  press_row (maker, 2);
  choose (maker, "Remove…");
  desk_settle ();
  choose (maker, "Remove");
  assert_int_equal (bw_project_get_tray (project)->n_colours, 3);
}

static void
the_menu_of_a_step_goes_there_and_before_it (void **state)
{
  Maker *maker = *state;
  see_all (maker);
  for (int i = 0; i < 3; i++)
    maker_click_bead (maker, 11 + 2 * i, 6);
  desk_key ("h", GDK_CONTROL_MASK);
  desk_settle ();
  GtkWidget *step = desk_look_for_prefix (window_of (maker), "2  ");
  assert_non_null (step);
  desk_click_at (step, 10, gtk_widget_get_height (step) / 2.0, 3);
  desk_settle ();
  desk_keep ("mat-steps-menu");
  choose (maker, "Go to Just before It");
  assert_int_equal (bw_project_get_position (maker_project (maker)), 1);
  assert_int_equal (maker_count (maker, 1), 1);
  desk_key ("Escape", 0);
}

/* --- The tray's order --------------------------------------------------------------------------
 */

static void
drag_row (Maker *maker, int from, int to, double at)
{
  GtkWidget *list = desk_find_type (maker_find (maker, BW_TYPE_SIDE_PANEL), GTK_TYPE_LIST_BOX);
  GtkWidget *row = GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), from));
  GtkWidget *goal = GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), to));
  double half = gtk_widget_get_height (row) / 2.0, end = at * gtk_widget_get_height (goal);
  GtkDragSource *source = drags_pick_up (row, 20, half);
  desk_move (goal, 30, end - 1);
  desk_move (goal, 30, end);
  desk_settle ();
  desk_keep ("mat-tray-drag");
  drags_let_go (source);
}

typedef struct {
  BwProject *project;
  int index;
  const char *name;
} Order;

static gboolean
lies_there (gpointer data)
{
  const Order *order = data;
  return g_str_equal (bw_project_get_tray (order->project)->colour[order->index].name, order->name);
}

static void
the_tray_is_put_in_order_by_dragging (void **state)
{
  Maker *maker = *state;
  Order order = { maker_project (maker), 2, "Slate tide" };
  see_all (maker);
  maker_click_bead (maker, 11, 6);
  drag_row (maker, 0, 2, 0.8);
  desk_until (lies_there, &order);
  assert_string_equal (bw_project_get_tray (order.project)->colour[0].name, "Straw light");
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 2);
  /* The beads keep their colours. */
  assert_int_equal (maker_bead (maker, 11, 6), 0);
  order = (Order){ maker_project (maker), 0, "Slate tide" };
  drag_row (maker, 2, 0, 0.2);
  desk_until (lies_there, &order);
  assert_int_equal (bw_project_count_steps (maker_project (maker)), 3);
}

/* --- Locked columns ----------------------------------------------------------------------------
 */

static void
nothing_is_drawn_in_a_locked_column (void **state)
{
  Maker *maker = *state;
  GtkWidget *canvas = GTK_WIDGET (canvas_of (maker));
  see_all (maker);
  double x, y;
  maker_bead_point (maker, 21, 4, &x, &y);
  guint32 before = desk_pixel (canvas, x + 3, y);
  /* Its number, beside the band. */
  desk_click_at (canvas, 10, y, 1);
  assert_true (bw_session_is_locked (maker_session (maker), 4));
  assert_non_null (desk_look_for_prefix (window_of (maker), "Column 4 is locked: nothing changes"));
  desk_move (canvas, 10, 10);
  assert_int_not_equal (desk_pixel (canvas, x + 3, y), before);
  desk_keep ("mat-locked");
  maker_click_bead (maker, 21, 4);
  assert_int_equal (maker_count (maker, 1), 0);
  assert_non_null (desk_look_for_prefix (window_of (maker), "Column 4 is locked: a click on its"));
  desk_key ("3", 0);
  maker_drag_beads (maker, 21, 4, 26, 7);
  assert_int_equal (maker_count (maker, 1), 9);
  assert_int_equal (maker_bead (maker, 21, 4), 0);
  /* Everything but the locked column is rubbed out, and a motif spares it too. */
  desk_key ("z", GDK_CONTROL_MASK);
  open_menu_of_bead (maker, 21, 4);
  assert_false (is_offered (maker, "Rub Out (column 4 is locked)"));
  choose (maker, "Unlock Column 4");
  assert_false (bw_session_is_locked (maker_session (maker), 4));
  maker_click_bead (maker, 21, 4);
  assert_int_equal (maker_bead (maker, 21, 4), 1);
}

static void
a_motif_spares_a_locked_column (void **state)
{
  Maker *maker = *state;
  see_all (maker);
  open_menu_of_bead (maker, 21, 6);
  choose (maker, "Lock Column 6");
  desk_key ("Page_Down", GDK_CONTROL_MASK);
  desk_settle ();
  assert_true (bw_project_has_trial (maker_project (maker)));
  for (int row = 1; row <= maker_design (maker)->band.rows; row += 2)
    assert_int_equal (maker_bead (maker, row, 6), 0);
  assert_true (maker_count (maker, 1) > 0);
}

/* --- Motifs of one's own -----------------------------------------------------------------------
 */

static gboolean
has_piece (gpointer maker)
{
  return bw_band_canvas_has_piece (canvas_of (maker));
}

static gboolean
takes_to_band (GtkWidget *widget, gconstpointer words)
{
  const char *tip = gtk_widget_get_tooltip_text (widget);
  return tip && g_str_has_prefix (tip, words);
}

/* In another window, on another project: the file alone carries it there. */
static void
a_selection_is_kept_as_a_motif_and_used_again (void **state)
{
  Maker *maker = *state;
  see_all (maker);
  desk_key ("3", 0);
  maker_drag_beads (maker, 21, 4, 26, 7);
  open_menu_of_bead (maker, 21, 4);
  choose (maker, "Select All “Straw light”");
  open_menu_of_bead (maker, 21, 4);
  choose (maker, "Save as Motif…");
  maker_dialog (maker);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("Little wave");
  desk_key ("Return", 0);
  maker_no_dialog (maker);
  g_autofree char *path = g_build_filename (g_get_user_data_dir (), "bandwright", "motifs",
                                            "Little wave.beads", NULL);
  assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  maker_stop (maker);
  maker_start (maker, NULL);
  desk_key ("2", GDK_CONTROL_MASK);
  desk_key ("0", GDK_CONTROL_MASK);
  assert_int_equal (maker_count (maker, 1), 0);
  choose (maker, "Motif");
  GtkWidget *own
      = desk_look_for (window_of (maker), takes_to_band, "Take “Little wave” to the band");
  assert_non_null (own);
  maker_reveal (own);
  desk_keep ("mat-own");
  desk_click (own);
  desk_until (has_piece, maker);
  desk_key ("Return", 0);
  assert_int_equal (maker_count (maker, 1), 12);
  assert_string_equal (bw_project_undo_label (maker_project (maker)), "Paste");
}

static void
a_damaged_motif_is_named (void **state)
{
  Maker *maker = *state;
  g_autofree char *folder = g_build_filename (g_get_user_data_dir (), "bandwright", "motifs", NULL);
  g_autofree char *path = g_build_filename (folder, "Torn.beads", NULL);
  g_mkdir_with_parents (folder, 0700);
  assert_true (g_file_set_contents (path, "motif-of-beads 1\ncolour a 12345\n", -1, NULL));
  choose (maker, "Motif");
  GtkWidget *told = desk_look_for_label (
      window_of (maker), "“Torn.beads” in the folder of your motifs cannot be read.");
  assert_non_null (told);
  assert_int_equal (g_remove (path), 0);
}

/* --- What is woven -----------------------------------------------------------------------------
 */

static void
what_is_woven_is_veiled_and_asked_about_once (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  GtkWidget *canvas = GTK_WIDGET (canvas_of (maker));
  see_all (maker);
  double x, y;
  maker_bead_point (maker, 11, 6, &x, &y);
  guint32 before = desk_pixel (canvas, x + 3, y);
  assert_true (bw_project_set_progress (project, "Rows", 20, NULL, 0, NULL));
  desk_settle ();
  assert_int_not_equal (desk_pixel (canvas, x + 3, y), before);
  desk_keep ("mat-woven");
  /* What is not woven yet is nobody's question. */
  maker_click_bead (maker, 31, 6);
  assert_null (desk_dialog (GTK_WINDOW (maker->window)));
  maker_click_bead (maker, 11, 6);
  GtkWindow *question = maker_dialog (maker);
  assert_non_null (desk_look_for_label (GTK_WIDGET (question),
                                        "Row 11 is woven already. Change it in the drawing?"));
  assert_non_null (desk_look_for_label (GTK_WIDGET (question),
                                        "The beads on the thread stay as they are. Once you change "
                                        "it, it is not asked again for this piece."));
  desk_keep ("mat-question");
  maker_click_words (GTK_WIDGET (question), "Leave It as It Was");
  maker_no_dialog (maker);
  assert_int_equal (maker_bead (maker, 11, 6), 0);
  assert_int_equal (maker_bead (maker, 31, 6), 1);
  maker_click_bead (maker, 11, 6);
  question = maker_dialog (maker);
  maker_click_words (GTK_WIDGET (question), "Change It");
  maker_no_dialog (maker);
  assert_int_equal (maker_bead (maker, 11, 6), 1);
  maker_click_bead (maker, 13, 6);
  assert_null (desk_dialog (GTK_WINDOW (maker->window)));
  assert_int_equal (maker_bead (maker, 13, 6), 1);
}

static void
a_band_that_would_end_before_the_last_woven_row_is_asked_about (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  int rows = maker_design (maker)->band.rows;
  assert_true (bw_project_set_progress (project, "Rows", 10, NULL, 0, NULL));
  maker_fill (maker, "/band/rows", "8");
  GtkWindow *question = maker_dialog (maker);
  assert_non_null (desk_look_for_label (GTK_WIDGET (question),
                                        "10 rows are woven already. End the band after row 8?"));
  maker_click_words (GTK_WIDGET (question), "Leave It as It Was");
  maker_no_dialog (maker);
  assert_int_equal (maker_design (maker)->band.rows, rows);
  maker_fill (maker, "/band/rows", "8");
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Change It");
  maker_no_dialog (maker);
  assert_int_equal (maker_design (maker)->band.rows, 8);
}

/* --- The other way round -----------------------------------------------------------------------
 */

static double
left_of (Maker *maker, GtkWidget *widget)
{
  graphene_rect_t place;
  assert_true (gtk_widget_compute_bounds (widget, window_of (maker), &place));
  return (double)place.origin.x;
}

static void
the_mat_is_mirrored_where_words_run_from_the_right (void **state)
{
  Maker maker = { 0 };
  gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  maker_start (&maker, NULL);
  desk_key ("2", GDK_CONTROL_MASK);
  desk_settle ();
  desk_keep ("mat-mirrored");
  GtkWidget *strip = maker_find (&maker, BW_TYPE_TOOL_STRIP),
            *side = maker_find (&maker, BW_TYPE_SIDE_PANEL);
  assert_true (left_of (&maker, side) > left_of (&maker, GTK_WIDGET (canvas_of (&maker))));
  assert_true (left_of (&maker, desk_find_label (strip, "Bead"))
               > left_of (&maker, desk_find_label (strip, "Line")));
  int open = canvas_width (&maker);
  press_handle (&maker, "Fold the tray away");
  assert_true (canvas_width (&maker) > open + 100);
  g_object_set (bw_settings_get (), "tray-folded", FALSE, NULL);
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
  maker_stop (&maker);
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
    IN_WINDOW (the_menu_of_a_bead_does_what_it_says),
    IN_WINDOW (the_menu_opens_by_a_key_at_the_keyboards_bead),
    IN_WINDOW (the_menu_of_a_colour_does_what_it_says),
    IN_WINDOW (the_menu_of_a_step_goes_there_and_before_it),
    IN_WINDOW (the_tray_is_put_in_order_by_dragging),
    IN_WINDOW (nothing_is_drawn_in_a_locked_column),
    IN_WINDOW (a_motif_spares_a_locked_column),
    IN_WINDOW (a_selection_is_kept_as_a_motif_and_used_again),
    IN_WINDOW (a_damaged_motif_is_named),
    IN_WINDOW (what_is_woven_is_veiled_and_asked_about_once),
    IN_WINDOW (a_band_that_would_end_before_the_last_woven_row_is_asked_about),
    cmocka_unit_test (the_mat_is_mirrored_where_words_run_from_the_right),
  };
  return maker_run (tests);
}
