/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies beside the band, in the program's window: motifs, a picture, the tray, the steps. */
#include "../picture/costly.h"
#include "drags.h"
#include "maker.h"

#include "app/draw/history-popover.h"
#include "app/draw/colour-rows.h"
#include "app/draw/motif-panel.h"
#include "app/draw/picture-frame.h"
#include "app/colours/tray-panel.h"
#include "core/base/lattice.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static int
set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  maker_start (maker, NULL);
  maker_stage (maker, "draw");
  *state = maker;
  return 0;
}

/* A copy of a demo, so that it can be saved. */
static int
set_up_tide (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  g_autofree char *demo
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (demo);
  g_autoptr (BwProject) tide = bw_project_load (file, NULL);
  g_autofree char *path = maker_save (tide, "tide.bandwright");
  maker_start (maker, path);
  maker_stage (maker, "draw");
  *state = maker;
  return 0;
}

static GtkWidget *
window_of (Maker *maker)
{
  return GTK_WIDGET (maker->window);
}

static void
turn_to (Maker *maker, const char *page)
{
  maker_click_words (window_of (maker), page);
  desk_settle ();
}

static void
a_motif_is_shown_at_once_and_gone_when_left (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  g_autofree char *before = bw_project_to_data (project, NULL);
  turn_to (maker, "Motif");
  assert_true (bw_project_has_trial (project));
  assert_true (maker_count (maker, 0) < bw_drawing_rows (bw_project_get_drawing (project)) * 6);
  desk_keep ("motif");
  turn_to (maker, "Tray");
  assert_false (bw_project_has_trial (project));
  g_autofree char *after = bw_project_to_data (project, NULL);
  assert_string_equal (before, after);
  assert_int_equal (bw_project_count_steps (project), 0);
}

static void
a_motif_laid_is_one_step (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  g_autofree char *before = bw_project_to_data (project, NULL);
  turn_to (maker, "Motif");
  maker_click_words (window_of (maker), "Lay on the Band");
  desk_settle ();
  assert_false (bw_project_has_trial (project));
  assert_int_equal (bw_project_count_steps (project), 1);
  assert_string_equal (bw_project_undo_label (project), "Motif: Chevrons");
  desk_key ("z", GDK_CONTROL_MASK);
  g_autofree char *after = bw_project_to_data (project, NULL);
  assert_string_equal (before, after);
}

/* Bead by bead: two colours by turns over the whole band, and a third in the tray. */
static void
paint_the_band (BwProject *project)
{
  BwTray tray = *bw_project_get_tray (project);
  for (tray.n_colours = 1; tray.n_colours < 3; tray.n_colours++)
    tray.colour[tray.n_colours]
        = (BwColour){ .id = bw_tray_free_letter (&tray), .srgb = 0x800000u >> 8 * tray.n_colours };
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));
  for (int column = 1; column <= bw_drawing_columns (drawing); column++)
    for (int row = column % 2 ? 2 : 1; row <= bw_drawing_rows (drawing); row += 2)
      bw_drawing_set (drawing, row, column, column % 4 < 2);
  assert_true (bw_project_set_drawing (project, "Paint", FALSE, drawing, NULL));
}

/* Beads of `over` that differ from those of `under`, and that are of another colour than `in`. */
static int
count_others (const BwDrawing *over, const BwDrawing *under, guint8 in)
{
  int n = 0;
  for (int column = 1; column <= bw_drawing_columns (over); column++)
    for (int row = column % 2 ? 2 : 1; row <= bw_drawing_rows (over); row += 2) {
      guint8 colour = bw_drawing_get (over, row, column);
      n += colour != bw_drawing_get (under, row, column) && colour != in;
    }
  return n;
}

/* The figure alone is laid; the ground comes with a switch, and goes with it. */
static void
a_motif_is_laid_on_what_is_there (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  paint_the_band (project);
  bw_session_set_colour (maker_session (maker), 2);
  g_autoptr (BwDrawing) before = bw_drawing_copy (bw_project_get_drawing (project));
  turn_to (maker, "Motif");
  const BwDrawing *shown = bw_project_shown_drawing (project);
  assert_true (maker_count (maker, 2) > 20);
  assert_int_equal (count_others (shown, before, 2), 0);
  desk_keep ("motif-figure");
  maker_click_words (window_of (maker), "With its ground");
  desk_settle ();
  assert_true (count_others (bw_project_shown_drawing (project), before, 2) > 20);
  desk_keep ("motif-ground");
  maker_click_words (window_of (maker), "With its ground");
  maker_click_words (window_of (maker), "Lay on the Band");
  desk_settle ();
  assert_int_equal (count_others (bw_project_get_drawing (project), before, 2), 0);
  int n;
  assert_true (bw_project_get_motifs (project, &n)->motif.leaves_ground);
}

static gboolean
has_tip (GtkWidget *widget, gconstpointer tip)
{
  return g_strcmp0 (gtk_widget_get_tooltip_text (widget), tip) == 0;
}

static void
click_tip (Maker *maker, const char *tip)
{
  GtkWidget *button = desk_look_for (window_of (maker), has_tip, tip);
  assert_non_null (button);
  maker_reveal (button);
  desk_click (button);
  desk_settle ();
}

/* One more colour is one that is not in the motif yet, also after one was taken away. */
static void
one_more_colour_of_a_motif_is_another (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  paint_the_band (project);
  bw_session_set_colour (maker_session (maker), 1);
  turn_to (maker, "Motif");
  assert_int_equal (maker_count (maker, 2), 0);
  click_tip (maker, "One colour more");
  assert_true (maker_count (maker, 2) > 20);
  click_tip (maker, "One colour fewer");
  assert_int_equal (maker_count (maker, 2), 0);
  click_tip (maker, "One colour more");
  assert_true (maker_count (maker, 2) > 20);
}

/* From the tab on, by keys alone: another kind, and Enter on the button. */
static void
a_motif_is_chosen_and_laid_by_keys_alone (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  turn_to (maker, "Motif");
  GtkWidget *tab = gtk_widget_get_ancestor (desk_find_label (window_of (maker), "Picture"),
                                            GTK_TYPE_TOGGLE_BUTTON);
  gtk_widget_grab_focus (tab);
  desk_key ("Tab", 0);
  desk_key ("Home", 0);
  desk_settle ();
  desk_keep ("motif-keys");
  assert_string_equal (bw_project_undo_label (project), "Motif: Stripes round");
  desk_key ("Return", GDK_CONTROL_MASK);
  desk_settle ();
  assert_int_equal (bw_project_count_steps (project), 1);
  /* Stripes go round: every column is of one colour. */
  const BwDrawing *drawing = bw_project_get_drawing (project);
  for (int column = 1; column <= bw_drawing_columns (drawing); column++)
    for (int row = column % 2 ? 2 : 1; row + 2 <= bw_drawing_rows (drawing); row += 2)
      assert_int_equal (bw_drawing_get (drawing, row, column),
                        bw_drawing_get (drawing, row + 2, column));
}

static GtkWidget *
entry_of (Maker *maker, const char *name)
{
  return gtk_widget_get_next_sibling (desk_find_label (window_of (maker), name));
}

/* What was filled is filled: the next motif has the whole band before it. */
static void
laid_on_some_columns_the_next_motif_has_them_all_again (void **state)
{
  Maker *maker = *state;
  turn_to (maker, "Motif");
  GtkWidget *from = entry_of (maker, "From column");
  maker_reveal (from);
  gtk_widget_grab_focus (from);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("5");
  desk_key ("Tab", 0);
  desk_settle ();
  maker_click_words (window_of (maker), "Lay on the Band");
  desk_settle ();
  int n;
  const BwMade *made = bw_project_get_motifs (maker_project (maker), &n);
  assert_int_equal (made->motif.first_column, 5);
  assert_true (gtk_spin_button_get_value (GTK_SPIN_BUTTON (from)) == 1);
}

/* What a word needs is told while it is typed; too long a one is not shown at all, and cannot be
 * laid. */
static void
lettering_tells_what_it_needs_and_is_never_cut (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  turn_to (maker, "Motif");
  GtkWidget *tab = gtk_widget_get_ancestor (desk_find_label (window_of (maker), "Picture"),
                                            GTK_TYPE_TOGGLE_BUTTON);
  gtk_widget_grab_focus (tab);
  desk_key ("Tab", 0);
  desk_key ("End", 0);
  desk_settle ();
  desk_click (entry_of (maker, "Text"));
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("TIDE");
  desk_settle ();
  desk_keep ("lettering");
  assert_non_null (
      desk_look_for_label (window_of (maker), "Needs 40 of 100 rows. Letters 7 columns high."));
  desk_type (" TIDE TIDE");
  desk_settle ();
  desk_keep ("lettering-long");
  assert_null (desk_look_for_prefix (window_of (maker), "Needs "));
  assert_non_null (desk_look_for_prefix (window_of (maker), "This text needs "));
  assert_false (bw_project_has_trial (project));
  desk_key ("Return", GDK_CONTROL_MASK);
  desk_settle ();
  assert_int_equal (bw_project_count_steps (project), 0);
}

static void
a_ground_is_laid_with_the_word (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  turn_to (maker, "Motif");
  GtkWidget *tab = gtk_widget_get_ancestor (desk_find_label (window_of (maker), "Picture"),
                                            GTK_TYPE_TOGGLE_BUTTON);
  gtk_widget_grab_focus (tab);
  desk_key ("Tab", 0);
  desk_key ("End", 0);
  desk_settle ();
  g_autoptr (BwDrawing) bare = bw_drawing_copy (bw_project_shown_drawing (project));
  maker_click_words (window_of (maker), "A ground under it");
  desk_settle ();
  desk_keep ("lettering-ground");
  assert_false (bw_drawing_equal (bare, bw_project_shown_drawing (project)));
  maker_click_words (window_of (maker), "A ground under it");
  desk_settle ();
  assert_true (bw_drawing_equal (bare, bw_project_shown_drawing (project)));
}

static void
a_stroke_takes_a_motif_away_and_is_kept (void **state)
{
  Maker *maker = *state;
  turn_to (maker, "Tray");
  maker_take_colour (maker, 3);
  turn_to (maker, "Motif");
  maker_click_bead (maker, 11, 6);
  assert_false (bw_project_has_trial (maker_project (maker)));
  assert_int_equal (maker_count (maker, 3), 1);
  assert_int_equal (bw_project_count_steps (maker_project (maker)), 1);
}

static int
cells_that_differ (const BwDrawing *a, const BwDrawing *b)
{
  int n = 0;
  for (int row = 1; row <= bw_drawing_rows (a); row++)
    for (int column = 2 - (row - 1) % 2; column <= bw_drawing_columns (a); column += 2)
      n += bw_drawing_get (a, row, column) != bw_drawing_get (b, row, column);
  return n;
}

static gboolean
is_saved (gpointer project)
{
  return !bw_project_get_modified (project);
}

/* The keys that select all and turn it, pressed while a motif is shown, turn what the maker has:
 * done twice and saved, it is the drawing that was opened, and nothing of the motif. */
static void
what_is_turned_while_a_motif_is_shown_is_saved_without_it (void **state)
{
  Maker *maker = *state;
  g_autoptr (BwDrawing) opened = bw_drawing_copy (bw_project_get_drawing (maker_project (maker)));
  desk_key ("a", GDK_CONTROL_MASK);
  for (int i = 0; i < 2; i++) {
    turn_to (maker, "Motif");
    assert_true (bw_project_has_trial (maker_project (maker)));
    desk_key ("t", GDK_CONTROL_MASK);
    assert_false (bw_project_has_trial (maker_project (maker)));
    assert_int_equal (bw_project_count_steps (maker_project (maker)), i + 1);
    turn_to (maker, "Tray");
  }
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (is_saved, maker_project (maker));
  g_autoptr (BwProject) saved = bw_project_load (bw_project_get_file (maker_project (maker)), NULL);
  assert_int_equal (cells_that_differ (bw_project_get_drawing (saved), opened), 0);
}

/* Beside the band, where there is nothing to draw on. */
static void
a_press_beside_the_band_leaves_a_motif_shown (void **state)
{
  Maker *maker = *state;
  GtkWidget *canvas = maker_find (maker, BW_TYPE_BAND_CANVAS);
  turn_to (maker, "Motif");
  desk_click_at (canvas, gtk_widget_get_width (canvas) / 2.0, 20, 1);
  assert_true (bw_project_has_trial (maker_project (maker)));
}

/* Chevrons stand on a bead of every face, the same beads that the live symmetry takes for its
 * middles, however the faces fall on the rows. */
static void
one_on_each_face_is_mirrored_about_its_bead (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
  int rows = maker_design (maker)->band.rows;
  bw_places_faces (maker_design (maker), bw_project_stone (project), 6, rows / 2, middle, corner);
  turn_to (maker, "Motif");
  for (int face = 0; face < bw_project_stone (project)->faces; face++)
    for (int column = 1; column <= 12; column++)
      for (int k = 2 - column % 2; k <= 6; k += 2) {
        int at = 2 * (int)round (middle[face]) + 1;
        int right = (at + k - 1 + rows) % rows + 1, left = (at - k - 1 + rows) % rows + 1;
        assert_true (bw_lattice_has (right, column));
        assert_int_equal (maker_bead (maker, right, column), maker_bead (maker, left, column));
      }
}

/* A quarter white, the rest black. */
static char *
picture_file (void)
{
  char *path = maker_path ("quarter.png");
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 200, 100);
  gdk_pixbuf_fill (pixbuf, 0x000000ff);
  g_autoptr (GdkPixbuf) part = gdk_pixbuf_new_subpixbuf (pixbuf, 0, 0, 100, 50);
  gdk_pixbuf_fill (part, 0xffffffff);
  assert_true (gdk_pixbuf_save (pixbuf, path, "png", NULL, NULL));
  return path;
}

static gboolean
has_trial (gpointer project)
{
  return bw_project_has_trial (project);
}

typedef struct {
  BwProject *project;
  const BwDrawing *drawing;
} Was;

static gboolean
differs (gpointer data)
{
  Was *was = data;
  return !bw_drawing_equal (was->drawing, bw_project_shown_drawing (was->project));
}

/* Whether there is something of the picture to take hold of, anywhere. */
static gboolean
has_outline (GtkWidget *frame)
{
  for (int y = 0; y < gtk_widget_get_height (frame); y += 10)
    for (int x = 0; x < gtk_widget_get_width (frame); x += 10)
      if (gtk_widget_contains (frame, x, y))
        return TRUE;
  return FALSE;
}

static void
a_picture_is_opened_dragged_and_laid (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  g_autofree char *path = picture_file ();
  turn_to (maker, "Picture");
  maker_click_words (window_of (maker), "Open a Picture…");
  maker_answer_path (maker, path);
  desk_until (has_trial, project);
  desk_settle ();
  desk_keep ("picture");
  /* The picture lies in the middle of the band: the pointer takes it one bead along. */
  int middle = bw_drawing_rows (bw_project_get_drawing (project)) / 2;
  int row = middle + (middle % 2 ? 0 : 1);
  double x0, y0, x1, y1;
  maker_bead_point (maker, row, 6, &x0, &y0);
  maker_bead_point (maker, row + 8, 6, &x1, &y1);
  g_autoptr (BwDrawing) was = bw_drawing_copy (bw_project_shown_drawing (project));
  desk_drag (maker_find (maker, BW_TYPE_BAND_CANVAS), x0, y0, x1, y1, 6, 1);
  Was seen = { project, was };
  desk_until (differs, &seen);
  assert_true (bw_project_has_trial (project));
  GtkWidget *frame = maker_find (maker, BW_TYPE_PICTURE_FRAME);
  assert_true (has_outline (frame));
  maker_click_words (window_of (maker), "Leave It");
  desk_settle ();
  assert_false (bw_project_has_trial (project));
  assert_false (has_outline (frame));
  maker_click_words (window_of (maker), "Lay on the Band");
  desk_until (has_trial, project);
  assert_true (has_outline (frame));
  maker_click_words (window_of (maker), "Lay on the Band");
  desk_settle ();
  assert_false (has_outline (frame));
  assert_int_equal (bw_project_count_steps (project), 1);
  assert_string_equal (bw_project_undo_label (project), "Picture");
}

static void
a_picture_dropped_on_the_band_is_placed (void **state)
{
  Maker *maker = *state;
  GtkWidget *canvas = maker_find (maker, BW_TYPE_BAND_CANVAS);
  g_autofree char *path = picture_file ();
  double x, y;
  maker_bead_point (maker, 51, 6, &x, &y);
  drags_file (path, canvas, x, y);
  desk_until (has_trial, maker_project (maker));
  desk_keep ("dropped");
  assert_non_null (desk_look_for_prefix (window_of (maker), "quarter.png, 200 × 100"));
}

static gboolean
has_number (GtkWidget *widget, gconstpointer number)
{
  return GTK_IS_SPIN_BUTTON (widget)
         && gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (widget)) == *(const int *)number;
}

/* 50 beads of 1.6 mm round, 12 columns of 1.3 mm up: a picture twice as wide as high covers the
 * height with 31.2 mm, the ring with 80. */
static void
a_picture_goes_once_round_at_a_click (void **state)
{
  Maker *maker = *state;
  const int whole = 100, wide = 256;
  g_autofree char *path = picture_file ();
  g_autoptr (GFile) file = g_file_new_for_path (path);
  turn_to (maker, "Picture");
  bw_picture_panel_open (BW_PICTURE_PANEL (maker_find (maker, BW_TYPE_PICTURE_PANEL)), file);
  desk_until (has_trial, maker_project (maker));
  assert_int_equal (bw_drawing_rows (bw_project_get_drawing (maker_project (maker))), 100);
  assert_non_null (desk_look_for (window_of (maker), has_number, &whole));
  maker_click_words (window_of (maker), "Once Round");
  assert_non_null (desk_look_for (window_of (maker), has_number, &wide));
  maker_click_words (window_of (maker), "As High as the Band");
  assert_non_null (desk_look_for (window_of (maker), has_number, &whole));
}

static GtkWidget *
problem_of (Maker *maker)
{
  return desk_look_for_label (window_of (maker), "“words.png” is no PNG, JPEG or SVG picture.");
}

static gboolean
tells_problem (gpointer maker)
{
  return problem_of (maker) != NULL;
}

static void
what_is_no_picture_is_told_in_the_panel (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = maker_path ("words.png");
  g_autofree char *before = bw_project_to_data (maker_project (maker), NULL);
  assert_true (g_file_set_contents (path, "no picture", -1, NULL));
  turn_to (maker, "Picture");
  g_autoptr (GFile) file = g_file_new_for_path (path);
  bw_picture_panel_open (BW_PICTURE_PANEL (maker_find (maker, BW_TYPE_PICTURE_PANEL)), file);
  desk_until (tells_problem, maker);
  desk_keep ("no-picture");
  g_autofree char *after = bw_project_to_data (maker_project (maker), NULL);
  assert_string_equal (before, after);
}

static int
least (GtkWidget *widget, GtkOrientation orientation)
{
  int minimum;
  gtk_widget_measure (widget, orientation, -1, &minimum, NULL, NULL, NULL);
  return minimum;
}

/* Whether it is whole in what the list of settings shows without being scrolled. */
static gboolean
is_in_sight (GtkWidget *widget)
{
  GtkWidget *list = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t bounds;
  return gtk_widget_get_mapped (widget) && gtk_widget_compute_bounds (widget, list, &bounds)
         && bounds.origin.y >= 0
         && bounds.origin.y + bounds.size.height <= (float)gtk_widget_get_height (list);
}

static void
a_low_window_shows_more_than_one_setting_of_a_motif (void **state)
{
  Maker *maker = *state;
  gtk_window_set_default_size (GTK_WINDOW (maker->window), 900, 600);
  turn_to (maker, "Motif");
  desk_settle ();
  desk_keep ("motif-900");
  assert_true (gtk_widget_get_height (window_of (maker)) <= 600);
  assert_true (is_in_sight (desk_find_label (window_of (maker), "Chevrons")));
  assert_true (is_in_sight (desk_find_label (window_of (maker), "Thickness, columns")));
  assert_true (is_in_sight (desk_find_label (window_of (maker), "Slope")));
  assert_true (is_in_sight (gtk_widget_get_first_child (
      desk_find_type (GTK_WIDGET (maker_find (maker, BW_TYPE_MOTIF_PANEL)), BW_TYPE_COLOUR_ROWS))));
}

/* On a screen of 1024 × 768 with letters twice as large. */
static void
the_window_fits_a_small_screen_at_twice_the_text (void **state)
{
  Maker *maker = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  assert_true (least (window_of (maker), GTK_ORIENTATION_HORIZONTAL) <= 900);
  assert_true (least (window_of (maker), GTK_ORIENTATION_VERTICAL) <= 600);
  g_object_set (settings, "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  desk_settle ();
  int width = least (window_of (maker), GTK_ORIENTATION_HORIZONTAL);
  int height = least (window_of (maker), GTK_ORIENTATION_VERTICAL);
  desk_keep ("beside-twice");
  gtk_settings_reset_property (settings, "gtk-xft-dpi");
  desk_settle ();
  assert_true (width <= 1024);
  assert_true (height <= 768);
}

static void
a_colour_takes_in_another_ones_beads (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  maker_take_colour (maker, 2);
  maker_click_bead (maker, 11, 6);
  maker_take_colour (maker, 1);
  maker_click_bead (maker, 13, 6);
  int n = bw_project_get_tray (project)->n_colours;
  maker_click_words (window_of (maker), "Merge");
  desk_keep ("merge");
  /* The first of the others is offered: the ground becomes this colour. */
  GtkWidget *popover = gtk_widget_get_ancestor (
      desk_find_label (window_of (maker), "“Straw light” takes in every bead of"),
      GTK_TYPE_POPOVER);
  assert_non_null (popover);
  maker_click_words (popover, "Merge");
  desk_settle ();
  assert_int_equal (bw_project_get_tray (project)->n_colours, n - 1);
  assert_int_equal (bw_session_get_colour (maker_session (maker)), 0);
  assert_int_equal (maker_bead (maker, 13, 6), 0);
  assert_int_equal (maker_bead (maker, 15, 6), 0);
  assert_int_equal (maker_bead (maker, 11, 6), 1);
}

static void
undo_and_the_list_of_steps_leave_the_view_alone (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  BwBandCanvas *canvas = BW_BAND_CANVAS (maker_find (maker, BW_TYPE_BAND_CANVAS));
  maker_take_colour (maker, 1);
  for (int i = 0; i < 4; i++)
    maker_click_bead (maker, 11 + 2 * i, 6);
  bw_band_canvas_set_zoom (canvas, 2);
  desk_settle ();
  BwBandLayout seen = *bw_band_canvas_get_layout (canvas);
  BwCamera camera = bw_session_get_camera (maker_session (maker));
  desk_key ("h", GDK_CONTROL_MASK);
  desk_keep ("steps");
  GtkWidget *opened = desk_look_for_label (window_of (maker), "As it was opened");
  assert_non_null (opened);
  desk_click (opened);
  desk_settle ();
  assert_int_equal (bw_project_get_position (project), 0);
  assert_int_equal (maker_count (maker, 1), 0);
  desk_key ("Escape", 0);
  desk_settle ();
  desk_key ("z", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  desk_settle ();
  assert_int_equal (maker_count (maker, 1), 1);
  BwBandLayout now = *bw_band_canvas_get_layout (canvas);
  assert_memory_equal (&seen, &now, sizeof seen);
  BwCamera after = bw_session_get_camera (maker_session (maker));
  assert_memory_equal (&camera, &after, sizeof camera);
}

static gboolean
is_at_a_step (gpointer data)
{
  GtkWidget *row = gtk_window_get_focus (GTK_WINDOW (data));
  GtkWidget *label = row ? gtk_widget_get_first_child (row) : NULL;
  return GTK_IS_LABEL (label) && g_str_has_prefix (gtk_label_get_text (GTK_LABEL (label)), "28  ");
}

/* More steps than the list shows at once. */
static void
the_list_of_steps_opens_at_the_present_one (void **state)
{
  Maker *maker = *state;
  BwProject *project = maker_project (maker);
  BwBeadColour bead = { 11, 6, 0 };
  for (int i = 0; i < 30; i++) {
    bead.colour = !bead.colour;
    bw_project_set_beads (project, "Draw beads", FALSE, &bead, 1);
  }
  desk_key ("z", GDK_CONTROL_MASK);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (bw_project_get_position (project), 28);
  desk_key ("h", GDK_CONTROL_MASK);
  desk_until (is_at_a_step, maker->window);
  desk_key ("Up", 0);
  desk_key ("Return", 0);
  desk_settle ();
  assert_int_equal (bw_project_get_position (project), 27);
}

/* A drawing that takes minutes. */
static GFile *
slow_drawing (void)
{
  g_autofree char *path = maker_path ("slow.svg");
  g_autoptr (GString) svg = g_string_new ("<svg xmlns='http://www.w3.org/2000/svg' width='200' "
                                          "height='200'><filter id='f'>");
  for (int i = 0; i < 40; i++)
    g_string_append_printf (svg,
                            "<feTurbulence baseFrequency='0.9' numOctaves='400' "
                            "result='t%d'/><feGaussianBlur stdDeviation='90'/>",
                            i);
  g_string_append (svg, "</filter><rect width='200' height='200' filter='url(#f)'/></svg>");
  assert_true (g_file_set_contents (path, svg->str, -1, NULL));
  return g_file_new_for_path (path);
}

static gboolean
is_reading (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_PROGRESS_BAR (widget)
         && g_strcmp0 (gtk_progress_bar_get_text (GTK_PROGRESS_BAR (widget)), "Reading…") == 0;
}

static gboolean
tells_of_reading (gpointer maker)
{
  GtkWidget *stop = desk_look_for_label (window_of (maker), "Stop");
  return desk_look_for (window_of (maker), is_reading, NULL) && stop
         && gtk_widget_get_height (stop) > 1;
}

static gboolean
tells_of_no_reading (gpointer maker)
{
  return !desk_look_for (window_of (maker), is_reading, NULL);
}

static void
a_picture_that_takes_long_is_read_until_stopped (void **state)
{
  Maker *maker = *state;
  g_autoptr (GFile) file = slow_drawing ();
  turn_to (maker, "Picture");
  BwPicturePanel *panel = BW_PICTURE_PANEL (maker_find (maker, BW_TYPE_PICTURE_PANEL));
  bw_picture_panel_open (panel, file);
  desk_until (tells_of_reading, maker);
  desk_settle ();
  desk_keep ("reading");
  maker_click_words (window_of (maker), "Stop");
  desk_until (tells_of_no_reading, maker);
  assert_false (has_trial (maker_project (maker)));
  /* The panel takes the next one. */
  g_autofree char *path = picture_file ();
  g_autoptr (GFile) quick = g_file_new_for_path (path);
  bw_picture_panel_open (panel, quick);
  desk_until (has_trial, maker_project (maker));
}

static void
escape_stops_the_reading_of_a_picture (void **state)
{
  Maker *maker = *state;
  g_autoptr (GFile) file = slow_drawing ();
  turn_to (maker, "Picture");
  bw_picture_panel_open (BW_PICTURE_PANEL (maker_find (maker, BW_TYPE_PICTURE_PANEL)), file);
  desk_until (tells_of_reading, maker);
  gtk_widget_child_focus (maker_find (maker, BW_TYPE_PICTURE_PANEL), GTK_DIR_TAB_FORWARD);
  desk_key ("Escape", 0);
  desk_until (tells_of_no_reading, maker);
}

/* One library finds it broken, another ends at it. */
static gboolean
tells_of_the_drawing (gpointer maker)
{
  return desk_look_for_prefix (window_of (maker), "“flood.svg” ") != NULL;
}

/* Drawn within, it would end the program and all its windows. */
static void
a_picture_made_to_do_harm_leaves_the_window_standing (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = maker_path ("flood.svg"), *svg = costly_drawing ();
  g_autoptr (GFile) file = g_file_new_for_path (path);
  assert_true (g_file_set_contents (path, svg, -1, NULL));
  turn_to (maker, "Picture");
  bw_picture_panel_open (BW_PICTURE_PANEL (maker_find (maker, BW_TYPE_PICTURE_PANEL)), file);
  desk_until (tells_of_the_drawing, maker);
  desk_keep ("harm");
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_motif_is_shown_at_once_and_gone_when_left),
    IN_WINDOW (a_motif_laid_is_one_step),
    IN_WINDOW (a_motif_is_laid_on_what_is_there),
    IN_WINDOW (one_more_colour_of_a_motif_is_another),
    IN_WINDOW (laid_on_some_columns_the_next_motif_has_them_all_again),
    IN_WINDOW (a_motif_is_chosen_and_laid_by_keys_alone),
    IN_WINDOW (lettering_tells_what_it_needs_and_is_never_cut),
    IN_WINDOW (a_ground_is_laid_with_the_word),
    IN_WINDOW (a_stroke_takes_a_motif_away_and_is_kept),
    cmocka_unit_test_setup_teardown (what_is_turned_while_a_motif_is_shown_is_saved_without_it,
                                     set_up_tide, maker_tear_down),
    IN_WINDOW (a_press_beside_the_band_leaves_a_motif_shown),
    IN_WINDOW (one_on_each_face_is_mirrored_about_its_bead),
    IN_WINDOW (a_picture_dropped_on_the_band_is_placed),
    IN_WINDOW (a_picture_goes_once_round_at_a_click),
    IN_WINDOW (a_picture_is_opened_dragged_and_laid),
    IN_WINDOW (a_picture_that_takes_long_is_read_until_stopped),
    IN_WINDOW (escape_stops_the_reading_of_a_picture),
    IN_WINDOW (a_picture_made_to_do_harm_leaves_the_window_standing),
    IN_WINDOW (what_is_no_picture_is_told_in_the_panel),
    IN_WINDOW (the_window_fits_a_small_screen_at_twice_the_text),
    IN_WINDOW (a_colour_takes_in_another_ones_beads),
    IN_WINDOW (undo_and_the_list_of_steps_leave_the_view_alone),
    IN_WINDOW (a_low_window_shows_more_than_one_setting_of_a_motif),
    IN_WINDOW (the_list_of_steps_opens_at_the_present_one),
  };
  return maker_run (tests);
}
