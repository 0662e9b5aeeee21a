/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone view in a real window, moved with a real pointer. Run once for each way of drawing:
 * what the view must do does not depend on it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "../window/desk.h"
#include "../window/pauses.h"
#include "core/pattern/colour.h"
#include "pieces.h"
#include "preview/scene/camera.h"
#include "preview/view/stone-view.h"
#include "preview/view/view-marks.h"
#include "preview/scene/played.h"

enum { SIZE = 460 };

typedef struct {
  BwProject *project;
  BwSession *session;
  BwStoneView *view;
  GtkWidget *box;
  GtkWindow *window;
} Table;

static void
no_handler (gpointer data)
{
  *(gboolean *)data = TRUE;
}

static gboolean
has_size (gpointer data)
{
  return gtk_widget_get_width (GTK_WIDGET (data)) >= SIZE;
}

static Table
table_laid (int piece)
{
  Table table = { .project = piece_new (piece) };
  table.session = bw_session_new (table.project);
  table.window = GTK_WINDOW (gtk_window_new ());
  table.box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  table.view = BW_STONE_VIEW (bw_stone_view_new (table.session));
  gtk_widget_set_size_request (GTK_WIDGET (table.view), SIZE, SIZE);
  gtk_box_append (GTK_BOX (table.box), GTK_WIDGET (table.view));
  gtk_window_set_child (table.window, table.box);
  bw_session_set_camera (table.session, (BwCamera){ 0, 0, 2.5 });
  gtk_window_present (table.window);
  desk_until (has_size, table.view);
  desk_settle ();
  return table;
}

static void
table_cleared (Table *table)
{
  gboolean gone = FALSE;
  g_object_weak_ref (G_OBJECT (table->view), (GWeakNotify)(void (*) (void))no_handler, &gone);
  gtk_window_destroy (table->window);
  desk_settle ();
  assert_true (gone);
  g_object_unref (table->session);
  g_object_unref (table->project);
}

/* The place of a bead in the widget. */
static void
place_of (Table *table, gboolean in_bail, int row, int column, double *x, double *y)
{
  g_autoptr (BwScene) scene = bw_scene_new (bw_session_get_project (table->session), FALSE);
  BwEye eye;
  int width = gtk_widget_get_width (GTK_WIDGET (table->view));
  int height = gtk_widget_get_height (GTK_WIDGET (table->view));
  int index = bw_scene_bead_index (scene, in_bail, row, column);
  assert_true (index >= 0);
  bw_eye_init (&eye, bw_session_get_camera (table->session), scene, width, height);
  assert_true (bw_eye_project (&eye, g_array_index (scene->beads, BwSceneBead, index).at, width,
                               height, x, y));
}

/* The bead in the middle of the view. */
static void
middle_bead (Table *table, int *row, int *column)
{
  gboolean in_bail;
  int found = -1;
  for (int dy = -40; dy <= 40 && found < 0; dy += 7)
    found = bw_stone_view_pick (table->view, gtk_widget_get_width (GTK_WIDGET (table->view)) / 2.0,
                                gtk_widget_get_height (GTK_WIDGET (table->view)) / 2.0 + dy,
                                &in_bail, row, column);
  assert_true (found >= 0);
  assert_false (in_bail);
}

static void
the_piece_is_drawn_the_expected_way (void **state)
{
  Table table = table_laid (0);
  int row, column;
  double x, y;
  assert_string_equal (bw_stone_view_get_driver (table.view), g_getenv ("BW_EXPECTED_DRIVER"));
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  assert_int_not_equal (desk_pixel (GTK_WIDGET (table.view), x, y),
                        desk_pixel (GTK_WIDGET (table.view), 3, 3));
  desk_keep ("stone-view");
  table_cleared (&table);
}

static void
a_drag_moves_the_bead_under_the_pointer_with_it (void **state)
{
  Table table = table_laid (1);
  int row, column;
  double x0, y0, x1, y1;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x0, &y0);
  desk_drag (GTK_WIDGET (table.view), x0, y0, x0 + 60, y0 + 20, 12, 1);
  desk_settle ();
  place_of (&table, FALSE, row, column, &x1, &y1);
  assert_true (fabs (x1 - (x0 + 60)) < 15);
  assert_true (y1 > y0 + 5);
  /* The near side went right, so the eye went the other way. */
  assert_true (bw_session_get_camera (table.session).turn_deg > 180);
  assert_true (bw_session_get_camera (table.session).tip_deg > 0);
  table_cleared (&table);
}

static void
a_click_paints_nothing_and_turns_nothing (void **state)
{
  Table table = table_laid (0);
  desk_click (GTK_WIDGET (table.view));
  desk_settle ();
  assert_true (bw_session_get_camera (table.session).turn_deg == 0);
  g_autoptr (BwProject) untouched = piece_new (0);
  assert_true (bw_drawing_equal (bw_project_get_drawing (table.project),
                                 bw_project_get_drawing (untouched)));
  assert_true (gtk_widget_has_focus (GTK_WIDGET (table.view)));
  table_cleared (&table);
}

static void
the_wheel_comes_nearer_and_goes_back (void **state)
{
  Table table = table_laid (0);
  desk_scroll (GTK_WIDGET (table.view), SIZE / 2.0, SIZE / 2.0, 2);
  desk_settle ();
  double near = bw_session_get_camera (table.session).zoom;
  assert_true (near > 2.6);
  desk_scroll (GTK_WIDGET (table.view), SIZE / 2.0, SIZE / 2.0, -4);
  desk_settle ();
  assert_true (bw_session_get_camera (table.session).zoom < near);
  table_cleared (&table);
}

static void
keys_turn_tip_zoom_and_go_home (void **state)
{
  Table table = table_laid (1);
  gtk_widget_grab_focus (GTK_WIDGET (table.view));
  desk_settle ();
  desk_key ("Right", 0);
  desk_key ("Down", 0);
  desk_key ("Down", GDK_SHIFT_MASK);
  desk_key ("plus", 0);
  desk_settle ();
  BwCamera camera = bw_session_get_camera (table.session);
  assert_true (fabs (camera.turn_deg - 355) < 1e-9);
  assert_true (fabs (camera.tip_deg - 6) < 1e-9);
  assert_true (fabs (camera.zoom - 3) < 1e-9);
  desk_key ("minus", 0);
  desk_key ("Left", 0);
  desk_settle ();
  camera = bw_session_get_camera (table.session);
  assert_true (fabs (camera.zoom - 2.5) < 1e-9);
  assert_true (fabs (camera.turn_deg) < 1e-9 || fabs (camera.turn_deg - 360) < 1e-9);
  desk_key ("Home", 0);
  desk_settle ();
  camera = bw_session_get_camera (table.session);
  /* The bail of this piece is at 75°: the front lies opposite. */
  assert_true (fabs (camera.turn_deg - 255) < 1e-9);
  assert_true (camera.tip_deg == 8 && camera.zoom == 1);
  table_cleared (&table);
}

static void
pointing_at_a_bead_lights_it_for_the_whole_session (void **state)
{
  Table table = table_laid (0);
  gboolean in_bail;
  int row, column, r, c;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  desk_move (GTK_WIDGET (table.view), x, y);
  desk_settle ();
  bw_session_get_hover (table.session, &in_bail, &r, &c);
  assert_int_equal (r, row);
  assert_int_equal (c, column);
  desk_move (GTK_WIDGET (table.view), 4, 4);
  desk_settle ();
  bw_session_get_hover (table.session, &in_bail, &r, &c);
  assert_int_equal (r, 0);
  table_cleared (&table);
}

/* Lightest luminance near a point. */
static double
lightest (Table *table, double x, double y)
{
  double most = 0;
  for (int dy = -14; dy <= 14; dy++)
    for (int dx = -14; dx <= 14; dx++)
      most
          = MAX (most, bw_colour_luminance (desk_pixel (GTK_WIDGET (table->view), x + dx, y + dy)));
  return most;
}

static void
a_bead_lit_elsewhere_shows_here (void **state)
{
  Table table = table_laid (0);
  int row, column;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  bw_session_set_layers (table.session, BW_LAYER_ALL & ~(guint)BW_LAYER_THREAD);
  for (int r = row - 6; r <= row + 6; r++)
    for (int c = column - 6; c <= column + 6; c++)
      bw_project_set_bead (table.project, "", FALSE, r, c, BW_FINISH_MATTE);
  desk_settle ();
  double before = lightest (&table, x, y);
  bw_session_set_hover (table.session, FALSE, row, column);
  desk_settle ();
  assert_true (before < 0.5);
  assert_true (lightest (&table, x, y) > 0.8);
  table_cleared (&table);
}

static double
hue_at (Table *table, double x, double y)
{
  BwLab lab = bw_colour_lab (desk_pixel (GTK_WIDGET (table->view), x, y));
  return bw_degrees (atan2 (lab.b, lab.a));
}

static void
a_painted_bead_shows_in_the_next_picture (void **state)
{
  Table table = table_laid (0);
  int row, column;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  bw_project_set_bead (table.project, "", FALSE, row, column, BW_FINISH_CLEAR);
  desk_settle ();
  double gold = hue_at (&table, x, y);
  assert_true (bw_project_set_bead (table.project, "", FALSE, row, column, BW_FINISH_FROSTED));
  desk_settle ();
  double green = hue_at (&table, x, y);
  assert_true (gold > 40 && gold < 110);
  assert_true (green > 130 || green < -150);
  table_cleared (&table);
}

static void
note_frame (GdkFrameClock *clock, gpointer data)
{
  (*(int *)data)++;
}

static gboolean
has_frames (gpointer data)
{
  return *(int *)data >= 1;
}

/* The piece has been turned and a better picture of it is being drawn, strip by strip. */
static void
a_bead_painted_meanwhile_shows_in_the_next_frame (void **state)
{
  Table table = table_laid (0);
  int row, column, frames = 0;
  double x, y;
  bw_session_set_camera (table.session, (BwCamera){ 3, 0, 2.5 });
  desk_settle ();
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  guint32 before = desk_pixel (GTK_WIDGET (table.view), x, y);
  pauses_end ();
  for (int i = 0; i < 3; i++)
    g_main_context_iteration (NULL, FALSE);
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (table.view));
  int old = bw_drawing_get (bw_project_get_drawing (table.project), row, column);
  bw_project_set_bead (table.project, "Paint", FALSE, row, column,
                       (guint8)((old + 1) % BW_N_FINISHES));
  gulong handler = g_signal_connect (clock, "after-paint", G_CALLBACK (note_frame), &frames);
  desk_until (has_frames, &frames);
  g_signal_handler_disconnect (clock, handler);
  assert_int_not_equal (desk_pixel (GTK_WIDGET (table.view), x, y), before);
  table_cleared (&table);
}

/* The first bead and one of the last row, in one step and back: of all the scene's beads these two
 * are looked at, and handed over or painted with what touches them. */
static void
two_far_beads_touch_two (void **state)
{
  Table table = table_laid (1);
  int last = bw_project_get_design (table.project)->band.rows;
  const BwBeadColour far[] = { { 1, 2, 2 }, { last, last % 2 ? 2 : 1, 2 } };
  const BwScene *scene = bw_stone_view_get_scene (table.view);
  guint64 looked = scene->looked, uploaded = bw_stone_view_uploaded (table.view);
  assert_true (looked >= scene->beads->len);
  bw_project_set_beads (table.project, "Far", FALSE, far, 2);
  desk_settle ();
  assert_ptr_equal (bw_stone_view_get_scene (table.view), scene);
  assert_int_equal (scene->looked - looked, 2);
  bw_project_undo (table.project);
  desk_settle ();
  assert_int_equal (bw_stone_view_get_scene (table.view)->looked - looked, 4);
  /* A painter paints again what lies over and under each. */
  assert_true (bw_stone_view_uploaded (table.view) - uploaded
               <= (g_str_equal (bw_stone_view_get_driver (table.view), "drawn") ? 100 : 4));
  table_cleared (&table);
}

static void
a_price_and_a_title_build_no_scene (void **state)
{
  Table table = table_laid (1);
  BwDesign design = *bw_project_get_design (table.project);
  const BwScene *scene = bw_stone_view_get_scene (table.view);
  guint64 looked = scene->looked, uploaded = bw_stone_view_uploaded (table.view);
  float keeps = scene->stone_keeps[2];
  design.supply.has_prices = TRUE;
  design.supply.hour += 1;
  assert_true (bw_project_set_design (table.project, "Hour", &design, NULL));
  bw_project_set_title (table.project, "Title", "Another");
  desk_settle ();
  assert_ptr_equal (bw_stone_view_get_scene (table.view), scene);
  assert_int_equal (scene->looked, looked);
  assert_int_equal (bw_stone_view_uploaded (table.view), uploaded);
  bw_project_set_mineral (table.project, "Mineral", "amethyst");
  desk_settle ();
  assert_true (bw_stone_view_get_scene (table.view)->stone_keeps[2] != keeps
               || bw_stone_view_uploaded (table.view) != uploaded
               || g_str_equal (bw_stone_view_get_driver (table.view), "drawn"));
  table_cleared (&table);
}

static void
a_change_of_design_is_a_new_scene (void **state)
{
  Table table = table_laid (3);
  gboolean in_bail;
  int row, column, highest = 0;
  g_autoptr (GError) error = NULL;
  BwDesign design = *bw_project_get_design (table.project);
  design.band.columns += 2;
  assert_true (bw_project_set_design (table.project, "", &design, &error));
  desk_settle ();
  for (int y = 0; y < SIZE; y += 3)
    if (bw_stone_view_pick (table.view, SIZE / 2.0, y, &in_bail, &row, &column) >= 0)
      highest = MAX (highest, column);
  assert_true (highest > 10);
  table_cleared (&table);
}

/* While it is dragged the scene stays and lacks a thread; let go it is whole again. */
static void
a_dragged_bail_moves_alone_until_it_is_let_go (void **state)
{
  Table table = table_laid (0);
  const BwScene *before = bw_stone_view_get_scene (table.view);
  int visits = before->n_visits;
  bw_project_begin (table.project, "Bail");
  for (int i = 0; i < 4; i++) {
    BwDesign design = *bw_project_get_design (table.project);
    design.bail.at_deg += 7;
    assert_true (bw_project_set_design (table.project, "", &design, NULL));
    desk_settle ();
    const BwScene *dragged = bw_stone_view_get_scene (table.view);
    assert_ptr_equal (dragged, before);
    assert_true (dragged->lacks_thread && dragged->n_visits < visits);
  }
  bw_project_commit (table.project);
  desk_settle ();
  const BwScene *after = bw_stone_view_get_scene (table.view);
  assert_false (after->lacks_thread);
  g_autoptr (BwScene) anew = bw_scene_new (table.project, FALSE);
  assert_int_equal (after->n_visits, anew->n_visits);
  assert_memory_equal (after->beads->data, anew->beads->data,
                       anew->beads->len * sizeof (BwSceneBead));
  table_cleared (&table);
}

static void
another_project_takes_the_place_of_the_first (void **state)
{
  Table table = table_laid (0);
  g_autoptr (BwProject) other = piece_new (4);
  bw_session_set_project (table.session, other);
  bw_session_set_camera (table.session, (BwCamera){ 0, 0, 2.5 });
  desk_settle ();
  int row, column;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  assert_true (fabs (x - SIZE / 2.0) < 40);
  /* The first one may change as it likes. */
  bw_project_set_bead (table.project, "", FALSE, 3, 2, 1);
  desk_settle ();
  table_cleared (&table);
}

/* The most by which one channel of two colours differs. */
static int
steps_apart (guint32 a, guint32 b)
{
  int most = 0;
  for (int shift = 0; shift < 24; shift += 8)
    most = MAX (most, abs ((int)(a >> shift & 0xff) - (int)(b >> shift & 0xff)));
  return most;
}

/* Drawn at another size and averaged, a picture may be out by a step. */
static void
taken_out_of_the_window_and_put_back_it_draws_again (void **state)
{
  Table table = table_laid (0);
  int row, column;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  guint32 first = desk_pixel (GTK_WIDGET (table.view), x, y);
  for (int i = 0; i < 3; i++) {
    g_object_ref (table.view);
    gtk_box_remove (GTK_BOX (table.box), GTK_WIDGET (table.view));
    desk_settle ();
    gtk_box_append (GTK_BOX (table.box), GTK_WIDGET (table.view));
    g_object_unref (table.view);
    desk_until (has_size, table.view);
    desk_settle ();
  }
  assert_in_range (steps_apart (desk_pixel (GTK_WIDGET (table.view), x, y), first), 0, 2);
  table_cleared (&table);
}

/* Out of the window the view has no OpenGL; what comes back begins anew, and is whole. */
static void
a_context_that_goes_while_the_piece_is_dragged_is_had_anew (void **state)
{
  Table table = table_laid (0);
  GtkWidget *view = GTK_WIDGET (table.view);
  desk_move (view, SIZE / 2.0, SIZE / 2.0);
  desk_press (1);
  desk_move (view, SIZE / 2.0 + 30, SIZE / 2.0);
  desk_move (view, SIZE / 2.0 + 60, SIZE / 2.0);
  double dragged = bw_session_get_camera (table.session).turn_deg;
  assert_true (dragged > 180);
  g_object_ref (view);
  gtk_box_remove (GTK_BOX (table.box), view);
  desk_settle ();
  gtk_box_append (GTK_BOX (table.box), view);
  g_object_unref (view);
  desk_until (has_size, view);
  desk_release (1);
  desk_settle ();
  /* Still where it was, its picture that of a view which never lost anything, and it turns on. */
  assert_true (fabs (bw_session_get_camera (table.session).turn_deg - dragged) < 1e-9);
  int row, column;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  assert_true (steps_apart (desk_pixel (view, x, y), desk_pixel (view, 3, 3)) > 12);
  desk_drag (view, SIZE / 2.0, SIZE / 2.0, SIZE / 2.0 - 50, SIZE / 2.0, 6, 1);
  assert_true (fabs (bw_session_get_camera (table.session).turn_deg - dragged) > 5);
  table_cleared (&table);
}

static void
hiding_layers_light_and_fit_change_the_picture (void **state)
{
  Table table = table_laid (0);
  int row, column;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  guint32 day = desk_pixel (GTK_WIDGET (table.view), x, y);
  bw_session_set_light (table.session, BW_LIGHT_LAMP);
  desk_settle ();
  assert_int_not_equal (desk_pixel (GTK_WIDGET (table.view), x, y), day);
  bw_session_set_light (table.session, BW_LIGHT_DAY);
  bw_session_set_colour_by_fit (table.session, TRUE);
  desk_settle ();
  assert_int_not_equal (desk_pixel (GTK_WIDGET (table.view), x, y), day);
  bw_session_set_colour_by_fit (table.session, FALSE);
  desk_settle ();
  assert_int_equal (desk_pixel (GTK_WIDGET (table.view), x, y), day);
  bw_session_set_layers (table.session, BW_LAYER_STONE);
  desk_settle ();
  assert_int_not_equal (desk_pixel (GTK_WIDGET (table.view), x, y), day);
  gboolean in_bail;
  assert_int_equal (bw_stone_view_pick (table.view, x, y, &in_bail, &row, &column), -1);
  table_cleared (&table);
}

static gboolean
is_described (gpointer data)
{
  g_autofree char *wrong = gtk_test_accessible_check_property (
      GTK_ACCESSIBLE (data), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
      "Seen from 120° round, 30° above, enlarged 2.0 times.");
  return wrong == NULL;
}

static void
ears_are_told_what_it_is_and_how_it_is_seen (void **state)
{
  Table table = table_laid (0);
  GtkAccessible *accessible = GTK_ACCESSIBLE (table.view);
  assert_int_equal (gtk_accessible_get_accessible_role (accessible), GTK_ACCESSIBLE_ROLE_IMG);
  assert_true (gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL));
  bw_session_set_camera (table.session, (BwCamera){ 120, 30, 2 });
  desk_until (is_described, table.view);
  table_cleared (&table);
}

static void
the_focus_is_seen (void **state)
{
  Table table = table_laid (0);
  GtkWidget *button = gtk_button_new_with_label ("x");
  gtk_box_append (GTK_BOX (table.box), button);
  gtk_widget_grab_focus (button);
  desk_settle ();
  guint32 without = desk_pixel (GTK_WIDGET (table.view), SIZE / 2.0, 3);
  desk_key ("Tab", GDK_SHIFT_MASK);
  desk_settle ();
  assert_true (gtk_widget_has_focus (GTK_WIDGET (table.view)));
  assert_int_not_equal (desk_pixel (GTK_WIDGET (table.view), SIZE / 2.0, 3), without);
  table_cleared (&table);
}

/* --- The camera by itself ----------------------------------------------------------------------
 */

static void let_animate (gboolean animate);

static gpointer
controller_of (Table *table, GType type)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (GTK_WIDGET (table->view));
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GObject) controller = g_list_model_get_item (all, i);
    if (G_TYPE_CHECK_INSTANCE_TYPE (controller, type))
      return controller;
  }
  fail_msg ("no %s", g_type_name (type));
  return NULL;
}

static void
flick (Table *table, double by)
{
  desk_flick (GTK_WIDGET (table->view), SIZE / 2.0, SIZE / 2.0, SIZE / 2.0 + by, SIZE / 2.0);
  desk_settle ();
}

static gboolean
is_turning (gpointer view)
{
  return bw_stone_view_is_turning (view);
}

static gboolean
has_stopped (gpointer view)
{
  return !bw_stone_view_is_turning (view);
}

static void throw (Table * table)
{
  desk_flick (GTK_WIDGET (table->view), SIZE / 2.0, SIZE / 2.0, SIZE / 2.0 + 60, SIZE / 2.0);
  desk_until (is_turning, table->view);
}

static void
let_go_while_it_turns_it_runs_on_and_stops (void **state)
{
  Table table = table_laid (1);
  let_animate (TRUE);
  throw (&table);
  double at = bw_session_get_camera (table.session).turn_deg;
  desk_until (has_stopped, table.view);
  /* The near side went right: the eye goes on to the left of it. */
  assert_true (remainder (bw_session_get_camera (table.session).turn_deg - at, 360) < 0);
  BwCamera there = bw_session_get_camera (table.session);
  assert_true (desk_rest ());
  BwCamera later = bw_session_get_camera (table.session);
  assert_true (there.turn_deg == later.turn_deg && there.tip_deg == later.tip_deg);
  let_animate (FALSE);
  flick (&table, 60);
  assert_false (bw_stone_view_is_turning (table.view));
  table_cleared (&table);
}

/* As the view hears it, so that no time goes by. */
static void
tell_key (Table *table, guint key)
{
  gboolean taken;
  g_signal_emit_by_name (controller_of (table, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-pressed", key,
                         0, 0, &taken);
}

static void
a_press_and_a_key_stop_it_where_it_is (void **state)
{
  Table table = table_laid (1);
  let_animate (TRUE);
  throw (&table);
  desk_press (1);
  desk_until (has_stopped, table.view);
  double turn = bw_session_get_camera (table.session).turn_deg;
  desk_release (1);
  assert_true (desk_rest ());
  assert_true (bw_session_get_camera (table.session).turn_deg == turn);
  throw (&table);
  /* No key of the view's: it stops all the same, and at once, for it would stop by itself soon. */
  tell_key (&table, GDK_KEY_Escape);
  assert_false (bw_stone_view_is_turning (table.view));
  turn = bw_session_get_camera (table.session).turn_deg;
  assert_true (desk_rest ());
  assert_true (bw_session_get_camera (table.session).turn_deg == turn);
  throw (&table);
  bw_session_set_camera (table.session, (BwCamera){ 77, 0, 2.5 });
  desk_until (has_stopped, table.view);
  assert_true (bw_session_get_camera (table.session).turn_deg == 77);
  let_animate (FALSE);
  table_cleared (&table);
}

static gboolean
looks_at_face_3 (gpointer session)
{
  return fabs (bw_session_get_camera (session).turn_deg - 120) < 1e-3;
}

/* Piece 0 is regular, with face 1 at azimuth 0. */
static void
a_double_click_looks_straight_at_the_face (void **state)
{
  Table table = table_laid (0);
  for (int animate = 0; animate < 2; animate++) {
    let_animate (animate);
    bw_session_set_camera (table.session, (BwCamera){ 104, 14, 1.3 });
    desk_settle ();
    desk_double_click_at (GTK_WIDGET (table.view), SIZE / 2.0, SIZE / 2.0);
    desk_until (looks_at_face_3, table.session);
    desk_until (has_stopped, table.view);
    BwCamera camera = bw_session_get_camera (table.session);
    assert_true (fabs (camera.turn_deg - 120) < 1e-4 && fabs (camera.tip_deg) < 1e-4);
    assert_true (camera.zoom == 1.3);
    assert_true (desk_rest ());
  }
  /* Beside the piece there is nothing to look at. */
  let_animate (FALSE);
  bw_session_set_camera (table.session, (BwCamera){ 104, 14, 0.7 });
  desk_settle ();
  desk_double_click_at (GTK_WIDGET (table.view), 4, 4);
  desk_settle ();
  assert_true (bw_session_get_camera (table.session).turn_deg == 104);
  table_cleared (&table);
}

typedef struct {
  int begun, ended;
} Strokes;

static void
count_begin (gpointer data, const BwViewBead *bead)
{
  ((Strokes *)data)->begun++;
}

static void
count_go_on (gpointer data, const BwViewBead *bead, gboolean straight)
{
}

static void
count_end (gpointer data, gboolean keep)
{
  ((Strokes *)data)->ended++;
}

/* A painting hand neither throws the piece nor faces it. */
static void
painting_turns_nothing_however_quick (void **state)
{
  static const BwStoneBrush brush = { count_begin, count_go_on, count_end };
  Table table = table_laid (1);
  Strokes strokes = { 0, 0 };
  bw_stone_view_set_brush (table.view, &brush, &strokes);
  let_animate (TRUE);
  BwCamera before = bw_session_get_camera (table.session);
  desk_hold (GDK_CONTROL_MASK);
  flick (&table, 40);
  desk_double_click_at (GTK_WIDGET (table.view), SIZE / 2.0, SIZE / 2.0);
  desk_let_go (GDK_CONTROL_MASK);
  desk_settle ();
  BwCamera after = bw_session_get_camera (table.session);
  assert_true (strokes.begun >= 2 && strokes.begun == strokes.ended);
  assert_false (bw_stone_view_is_turning (table.view));
  assert_true (before.turn_deg == after.turn_deg && before.tip_deg == after.tip_deg);
  let_animate (FALSE);
  table_cleared (&table);
}

/* No X server of a test has fingers: the gestures are told what they would find. */
static void
two_fingers_turn_and_come_nearer (void **state)
{
  Table table = table_laid (1);
  GtkGesture *pinch = controller_of (&table, GTK_TYPE_GESTURE_ZOOM);
  GtkGesture *twist = controller_of (&table, GTK_TYPE_GESTURE_ROTATE);
  assert_true (gtk_gesture_is_grouped_with (pinch, twist));
  bw_session_set_camera (table.session, (BwCamera){ 40, 60, 2 });
  g_signal_emit_by_name (pinch, "begin", NULL);
  g_signal_emit_by_name (twist, "begin", NULL);
  g_signal_emit_by_name (pinch, "scale-changed", 1.5);
  g_signal_emit_by_name (twist, "angle-changed", 1.0, G_PI / 6);
  g_signal_emit_by_name (pinch, "scale-changed", 2.0);
  BwCamera camera = bw_session_get_camera (table.session);
  assert_true (fabs (camera.turn_deg - 70) < 1e-9 && camera.tip_deg == 60);
  assert_true (fabs (camera.zoom - 4) < 1e-9);
  bw_session_set_camera (table.session, (BwCamera){ 40, -60, 2 });
  g_signal_emit_by_name (twist, "begin", NULL);
  g_signal_emit_by_name (twist, "angle-changed", 1.0, G_PI / 6);
  assert_true (fabs (bw_session_get_camera (table.session).turn_deg - 10) < 1e-9);
  table_cleared (&table);
}

/* --- Being woven -------------------------------------------------------------------------------
 */

static int
born_before (const BwScene *scene, int visits)
{
  int n = 0;
  for (guint i = 0; i < scene->beads->len; i++)
    n += scene->born[i] < visits;
  return n;
}

/* Each step shows what is woven by then, and costs no bead that is not. */
static void
beads_come_with_the_needle_and_hidden_ones_cost_nothing (void **state)
{
  Table table = table_laid (0);
  int row, column, found, all = (int)bw_project_path (table.project)->visits->len;
  gboolean in_bail;
  double x, y;
  middle_bead (&table, &row, &column);
  place_of (&table, FALSE, row, column, &x, &y);
  guint32 finished = desk_pixel (GTK_WIDGET (table.view), x, y);
  const BwScene *scene = bw_stone_view_get_scene (table.view);
  int bead = bw_scene_bead_index (scene, FALSE, row, column);
  g_autoptr (BwScene) played = bw_scene_new (table.project, FALSE);
  bw_scene_play (played, 0);
  int born = played->born[bead];
  const int steps[] = { 0, 1, all / 3, born };
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++) {
    guint64 before = bw_stone_view_uploaded (table.view);
    bw_session_set_played (table.session, steps[i]);
    desk_settle ();
    assert_ptr_equal (bw_stone_view_get_scene (table.view), scene);
    assert_true (bw_stone_view_uploaded (table.view) - before
                 <= (guint64)born_before (scene, steps[i]));
  }
  found = bw_stone_view_pick (table.view, x, y, &in_bail, &row, &column);
  assert_int_not_equal (found, bead);
  assert_int_not_equal (desk_pixel (GTK_WIDGET (table.view), x, y), finished);
  bw_session_set_hover (table.session, FALSE, row, column);
  bw_session_set_played (table.session, born + 1);
  bw_session_set_hover (table.session, FALSE, 0, 0);
  desk_settle ();
  assert_int_equal (bw_stone_view_pick (table.view, x, y, &in_bail, &row, &column), bead);
  desk_keep ("view-played");
  bw_session_set_played (table.session, -1);
  desk_settle ();
  assert_int_equal (desk_pixel (GTK_WIDGET (table.view), x, y), finished);
  table_cleared (&table);
}

/* --- Hanging -----------------------------------------------------------------------------------
 */

static void
let_animate (gboolean animate)
{
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", animate, NULL);
}

static gboolean
is_at_rest (gpointer view)
{
  return !bw_stone_view_is_swinging (view);
}

/* Neither where it was let go nor at rest. */
static gboolean
is_under_way (gpointer view)
{
  const BwScene *scene = bw_stone_view_get_scene (view);
  double lean = scene->stance.pose.lean;
  return lean > 0.1 && lean != scene->rest.stance.pose.lean;
}

static void
expect_exact_rest (Table *table)
{
  const BwScene *scene = bw_stone_view_get_scene (table->view);
  const BwHang *hang = bw_project_hang (table->project);
  BwVec3 axis = bw_pose_turn (scene->stance.pose, bw_vec3 (0, 0, 1));
  double from_up = bw_degrees (atan2 (hypot (axis.x, axis.y), axis.z));
  double told = hang->up == BW_UP_BASE ? 180 - hang->tilt_deg : hang->tilt_deg;
  assert_true (scene->stance.pose.lean == scene->rest.stance.pose.lean);
  assert_true (scene->stance.pose.turn == scene->rest.stance.pose.turn);
  assert_true (fabs (from_up - told) < 1e-6);
}

static void
without_animations_it_is_at_rest_at_once (void **state)
{
  for (int piece = 0; piece < 3; piece++) {
    Table table = table_laid (piece);
    let_animate (FALSE);
    bw_session_set_at_rest (table.session, TRUE);
    assert_false (bw_stone_view_is_swinging (table.view));
    expect_exact_rest (&table);
    desk_settle ();
    desk_keep ("view-at-rest");
    let_animate (TRUE);
    table_cleared (&table);
  }
}

static void
let_go_it_swings_to_exact_rest_and_then_nothing_moves (void **state)
{
  Table table = table_laid (0);
  BwCamera own = bw_session_get_camera (table.session);
  bw_session_set_at_rest (table.session, TRUE);
  assert_true (bw_stone_view_is_swinging (table.view));
  assert_true (bw_stone_view_get_scene (table.view)->stance.pose.lean == 0);
  desk_until (is_under_way, table.view);
  desk_until (is_at_rest, table.view);
  expect_exact_rest (&table);
  /* Finer pictures may follow for a moment; then there is silence. */
  assert_true (desk_rest ());
  bw_session_set_at_rest (table.session, FALSE);
  BwCamera back = bw_stone_view_get_camera (table.view);
  assert_true (back.turn_deg == own.turn_deg && back.tip_deg == own.tip_deg
               && back.zoom == own.zoom);
  assert_true (bw_stone_view_get_scene (table.view)->stance.pose.lean == 0);
  table_cleared (&table);
}

static void
a_hand_on_the_swinging_piece_stops_it (void **state)
{
  Table table = table_laid (1);
  bw_session_set_at_rest (table.session, TRUE);
  desk_until (is_under_way, table.view);
  assert_true (bw_stone_view_is_swinging (table.view));
  double turn = bw_session_get_camera (table.session).turn_deg;
  desk_drag (GTK_WIDGET (table.view), SIZE / 2.0, SIZE / 2.0, SIZE / 2.0 + 50, SIZE / 2.0, 6, 1);
  assert_false (bw_stone_view_is_swinging (table.view));
  expect_exact_rest (&table);
  assert_true (bw_session_get_camera (table.session).turn_deg != turn);
  table_cleared (&table);
}

/* A piece that hangs elsewhere after a change swings over from where it was. */
static void
a_change_of_the_band_s_height_sets_it_swinging (void **state)
{
  Table table = table_laid (1);
  let_animate (FALSE);
  bw_session_set_at_rest (table.session, TRUE);
  let_animate (TRUE);
  double before = bw_stone_view_get_scene (table.view)->stance.pose.lean;
  BwCamera camera = bw_session_get_camera (table.session);
  BwDesign design = *bw_project_get_design (table.project);
  design.band.bottom_mm += 4;
  assert_true (bw_project_set_design (table.project, "Higher", &design, NULL));
  const BwScene *scene = bw_stone_view_get_scene (table.view);
  assert_true (fabs (scene->rest.stance.pose.lean - before) > 0.02);
  assert_true (fabs (scene->stance.pose.lean - before) < 1e-9);
  assert_true (bw_stone_view_is_swinging (table.view));
  desk_until (is_at_rest, table.view);
  expect_exact_rest (&table);
  bw_project_undo (table.project);
  assert_true (bw_stone_view_get_scene (table.view)->stance.pose.lean != before);
  desk_until (is_at_rest, table.view);
  assert_true (bw_stone_view_get_scene (table.view)->stance.pose.lean == before);
  BwCamera after = bw_session_get_camera (table.session);
  assert_true (after.turn_deg == camera.turn_deg && after.tip_deg == camera.tip_deg
               && after.zoom == camera.zoom);
  table_cleared (&table);
}

/* At twice the size the words under the piece need more of the foot of the picture. */
static void
the_piece_keeps_clear_of_large_words_under_it (void **state)
{
  Table table = table_laid (1);
  int dpi;
  g_object_get (gtk_settings_get_default (), "gtk-xft-dpi", &dpi, NULL);
  let_animate (FALSE);
  bw_session_set_at_rest (table.session, TRUE);
  desk_settle ();
  assert_true (bw_stone_view_get_scene (table.view)->free_below == 0);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 2 * MAX (dpi, 96 * 1024), NULL);
  desk_settle ();
  assert_true (bw_stone_view_get_scene (table.view)->free_below > 0.02f);
  bw_session_set_layers (table.session, BW_LAYER_ALL & ~(guint)BW_LAYER_BALANCE);
  assert_true (bw_stone_view_get_scene (table.view)->free_below == 0);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", dpi, NULL);
  let_animate (TRUE);
  table_cleared (&table);
}

static int
open_desk (void **state)
{
  desk_open ();
  return 0;
}

static int
close_desk (void **state)
{
  desk_close ();
  return 0;
}

/* The marks of a piece at rest, as a widget draws them whose text runs so. */
static cairo_surface_t *
marks_in (GtkTextDirection direction, const BwScene *scene)
{
  GtkWidget *label = g_object_ref_sink (gtk_label_new (NULL));
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIZE, SIZE);
  cairo_t *cr = cairo_create (surface);
  gtk_widget_set_direction (label, direction);
  bw_view_marks_draw (label, snapshot, scene, bw_session_camera_at_rest, SIZE, SIZE);
  g_autoptr (GskRenderNode) node = gtk_snapshot_to_node (snapshot);
  gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  g_object_unref (label);
  return surface;
}

/* The mark says how the piece hangs; where text runs from right to left it says it too. */
static void
the_words_of_a_mark_lie_on_it_whichever_way_text_runs (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  BwProject *project = piece_random (rand, BW_BAIL_FLAP);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  bw_scene_stand_at_rest (scene);
  cairo_surface_t *left = marks_in (GTK_TEXT_DIR_LTR, scene);
  cairo_surface_t *right = marks_in (GTK_TEXT_DIR_RTL, scene);
  assert_memory_equal (cairo_image_surface_get_data (left), cairo_image_surface_get_data (right),
                       (gsize)cairo_image_surface_get_stride (left) * SIZE);
  cairo_surface_destroy (left);
  cairo_surface_destroy (right);
  g_object_unref (project);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_piece_is_drawn_the_expected_way),
    cmocka_unit_test (a_drag_moves_the_bead_under_the_pointer_with_it),
    cmocka_unit_test (a_click_paints_nothing_and_turns_nothing),
    cmocka_unit_test (the_wheel_comes_nearer_and_goes_back),
    cmocka_unit_test (keys_turn_tip_zoom_and_go_home),
    cmocka_unit_test (pointing_at_a_bead_lights_it_for_the_whole_session),
    cmocka_unit_test (a_bead_lit_elsewhere_shows_here),
    cmocka_unit_test (a_painted_bead_shows_in_the_next_picture),
    cmocka_unit_test (a_bead_painted_meanwhile_shows_in_the_next_frame),
    cmocka_unit_test (two_far_beads_touch_two),
    cmocka_unit_test (a_price_and_a_title_build_no_scene),
    cmocka_unit_test (a_change_of_design_is_a_new_scene),
    cmocka_unit_test (a_dragged_bail_moves_alone_until_it_is_let_go),
    cmocka_unit_test (another_project_takes_the_place_of_the_first),
    cmocka_unit_test (taken_out_of_the_window_and_put_back_it_draws_again),
    cmocka_unit_test (a_context_that_goes_while_the_piece_is_dragged_is_had_anew),
    cmocka_unit_test (hiding_layers_light_and_fit_change_the_picture),
    cmocka_unit_test (ears_are_told_what_it_is_and_how_it_is_seen),
    cmocka_unit_test (the_focus_is_seen),
    cmocka_unit_test (let_go_while_it_turns_it_runs_on_and_stops),
    cmocka_unit_test (a_press_and_a_key_stop_it_where_it_is),
    cmocka_unit_test (a_double_click_looks_straight_at_the_face),
    cmocka_unit_test (painting_turns_nothing_however_quick),
    cmocka_unit_test (two_fingers_turn_and_come_nearer),
    cmocka_unit_test (beads_come_with_the_needle_and_hidden_ones_cost_nothing),
    cmocka_unit_test (without_animations_it_is_at_rest_at_once),
    cmocka_unit_test (let_go_it_swings_to_exact_rest_and_then_nothing_moves),
    cmocka_unit_test (a_hand_on_the_swinging_piece_stops_it),
    cmocka_unit_test (a_change_of_the_band_s_height_sets_it_swinging),
    cmocka_unit_test (the_piece_keeps_clear_of_large_words_under_it),
    cmocka_unit_test (the_words_of_a_mark_lie_on_it_whichever_way_text_runs),
  };
  return desk_end (cmocka_run_group_tests_name ("stone-view", tests, open_desk, close_desk));
}
