/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stage the stone stands on: its ground, its shadow, what lies over the picture, and what never
 * stays on it. Run once as OpenGL draws it and once as it is drawn without. */
#include "maker.h"

#include "app/kit/settings.h"
#include "app/window/still-job.h"
#include "core/pattern/colour.h"
#include "core/pattern/tint.h"
#include "preview/scene/camera.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

typedef struct {
  Maker maker;
  GtkWidget *view, *window;
  int width, height; /* that windows are opened with */
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *path = maker_save (project, "stage.bandwright");
  bench->width = bw_settings_get_count (bw_settings_get (), "window-width");
  bench->height = bw_settings_get_count (bw_settings_get (), "window-height");
  maker_start (&bench->maker, path);
  maker_stage (&bench->maker, "draw");
  bench->view = maker_find (&bench->maker, BW_TYPE_STONE_VIEW);
  bench->window = GTK_WIDGET (bench->maker.window);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_object_set (bw_settings_get (), "appearance", "system", "lamp-light", FALSE, NULL);
  maker_stop (&bench->maker);
  g_object_set (bw_settings_get (), "window-width", bench->width, "window-height", bench->height,
                NULL);
  g_free (bench);
  return 0;
}

/* Away from the picture, until it is as fine as it gets. */
static void
rest (Bench *bench)
{
  desk_move (bench->window, 20, gtk_widget_get_height (bench->window) - 8.0);
  desk_rest ();
}

static const BwScene *
scene_of (Bench *bench)
{
  return bw_stone_view_get_scene (BW_STONE_VIEW (bench->view));
}

/* --- What never stays --------------------------------------------------------------------------
 */

/* The view's part of the screen. Owned. */
static guint32 *
picture_of (Bench *bench, int *n)
{
  cairo_surface_t *screen = desk_picture ();
  int x0, y0, width = gtk_widget_get_width (bench->view),
              height = gtk_widget_get_height (bench->view);
  int stride = cairo_image_surface_get_stride (screen);
  const guchar *data = cairo_image_surface_get_data (screen);
  guint32 *pixels = g_new (guint32, (gsize)width * (gsize)height);
  desk_point (bench->view, 0, 0, &x0, &y0);
  for (int y = 0; y < height; y++)
    memcpy (pixels + y * width, data + (y0 + y) * stride + 4 * x0, 4 * (gsize)width);
  cairo_surface_destroy (screen);
  *n = width * height;
  return pixels;
}

static int
differing (const guint32 *a, const guint32 *b, int n)
{
  int differ = 0;
  for (int i = 0; i < n; i++)
    for (int shift = 0; shift <= 16; shift += 8)
      if (abs ((int)(a[i] >> shift & 0xff) - (int)(b[i] >> shift & 0xff)) > 6) {
        differ++;
        break;
      }
  return differ;
}

static void
wear (const char *appearance)
{
  g_object_set (bw_settings_get (), "appearance", appearance, NULL);
}

typedef struct {
  GtkWidget *window;
  int width, height;
} Size;

/* But for the frame that a window of the toolkit's own draws round itself. */
static gboolean
has_size (gpointer data)
{
  const Size *size = data;
  return abs (gtk_widget_get_width (size->window) - size->width) <= 16
         && abs (gtk_widget_get_height (size->window) - size->height) <= 16;
}

static void
resize (Bench *bench, int width, int height)
{
  Size size = { bench->window, width, height };
  gtk_window_set_default_size (GTK_WINDOW (bench->window), width, height);
  desk_until (has_size, &size);
  rest (bench);
}

/* By way of other themes, sizes and stages; the picture must be the one that was. */
static void
go_round (Bench *bench)
{
  const char *const stages[] = { "measure", "make", "hang", "draw" };
  wear ("dark");
  rest (bench);
  wear ("light");
  rest (bench);
  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++) {
    maker_stage (&bench->maker, stages[i]);
    rest (bench);
  }
}

static void
the_picture_is_whole_and_fine_again_after_themes_and_stages (void **state)
{
  Bench *bench = *state;
  int n, m;
  wear ("light");
  rest (bench);
  g_autofree guint32 *before = picture_of (bench, &n);
  go_round (bench);
  g_autofree guint32 *after = picture_of (bench, &m);
  assert_int_equal (n, m);
  assert_true (differing (before, after, n) < n / 1000);
}

/* As fine as one that is drawn from nothing. */
static void
a_picture_of_another_size_is_as_fine_as_any (void **state)
{
  static const int sizes[][2] = { { 960, 640 }, { 1180, 760 } };
  Bench *bench = *state;
  BwSession *session = maker_session (&bench->maker);
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++) {
    int n, m;
    resize (bench, sizes[i][0], sizes[i][1]);
    g_autofree guint32 *shown = picture_of (bench, &n);
    bw_session_set_layers (session, 0);
    rest (bench);
    bw_session_set_layers (session, BW_LAYER_ALL);
    rest (bench);
    g_autofree guint32 *anew = picture_of (bench, &m);
    assert_int_equal (n, m);
    assert_true (differing (shown, anew, n) < n / 1000);
  }
}

/* Nothing else is asked of the view than to be shown again. */
static void
a_theme_shows_the_picture_of_now_and_no_older_one (void **state)
{
  Bench *bench = *state;
  int n, m;
  wear ("light");
  rest (bench);
  g_autofree guint32 *plain = picture_of (bench, &n);
  for (int i = 0; i < 4; i++) {
    bw_session_set_colour_by_fit (maker_session (&bench->maker), TRUE);
    rest (bench);
    bw_session_set_colour_by_fit (maker_session (&bench->maker), FALSE);
    rest (bench);
    wear (i % 2 ? "light" : "dark");
    rest (bench);
  }
  g_autofree guint32 *now = picture_of (bench, &m);
  desk_keep ("stage-now");
  assert_int_equal (n, m);
  assert_true (differing (plain, now, n) < n / 1000);
}

/* --- The cord ----------------------------------------------------------------------------------
 */

static void
the_cord_is_whole_where_the_piece_hangs_and_nowhere_else (void **state)
{
  Bench *bench = *state;
  BwDesign design = *maker_design (&bench->maker);
  design.bail.style = BW_BAIL_FLAP;
  assert_true (bw_project_set_design (maker_project (&bench->maker), "Bail", &design, NULL));
  const char *const stages[] = { "measure", "draw", "make" };
  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++) {
    maker_stage (&bench->maker, stages[i]);
    assert_int_equal (scene_of (bench)->cord.stations->len, 0);
  }
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  maker_stage (&bench->maker, "hang");
  const BwScene *scene = scene_of (bench);
  int width = gtk_widget_get_width (bench->view), height = gtk_widget_get_height (bench->view);
  int above = 0;
  BwEye eye;
  bw_eye_init (&eye, bw_session_get_camera (maker_session (&bench->maker)), scene, width, height);
  /* All of it that lies in the picture shows wholly. */
  for (guint i = 0; i < scene->cord.stations->len; i++) {
    const BwSceneStation *station = &g_array_index (scene->cord.stations, BwSceneStation, i);
    double x, y;
    assert_true (bw_eye_project (&eye, station->at, width, height, &x, &y));
    if (y < 0)
      above++;
    else
      assert_true (station->shown == 1);
  }
  assert_true (above > 2);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", TRUE, NULL);
}

/* --- Controls over the picture -----------------------------------------------------------------
 */

static gboolean
is_named (GtkWidget *widget, gconstpointer beginning)
{
  const char *tip = gtk_widget_get_tooltip_text (widget);
  return tip && g_str_has_prefix (tip, beginning);
}

static GtkWidget *
control (Bench *bench, const char *beginning)
{
  GtkWidget *found = desk_look_for (gtk_widget_get_parent (bench->view), is_named, beginning);
  if (!found)
    fail_msg ("no control over the picture is called “%s”", beginning);
  return found;
}

static BwCamera
camera_of (Bench *bench)
{
  return bw_session_get_camera (maker_session (&bench->maker));
}

static void
each_view_is_a_click_away (void **state)
{
  Bench *bench = *state;
  double seam = maker_design (&bench->maker)->band.seam_deg;
  desk_click (control (bench, "At the join"));
  assert_true (fabs (camera_of (bench).turn_deg - seam) < 1e-6);
  assert_true (camera_of (bench).tip_deg == 0);
  desk_click (control (bench, "From the front"));
  assert_true (fabs (fabs (camera_of (bench).turn_deg - seam) - 180) < 1e-6);
  double turn = camera_of (bench).turn_deg;
  desk_click (control (bench, "Face to face"));
  assert_true (fabs (remainder (camera_of (bench).turn_deg - turn - 60, 360)) < 1e-6);
  desk_click (control (bench, "From above"));
  assert_true (camera_of (bench).tip_deg == 90);
  desk_click (control (bench, "Nearer"));
  assert_true (fabs (camera_of (bench).zoom - 1.2) < 1e-6);
  desk_click (control (bench, "Nearer"));
  desk_click (control (bench, "Farther"));
  assert_true (fabs (camera_of (bench).zoom - 1.2) < 1e-3);
  desk_click (control (bench, "The whole piece"));
  assert_true (camera_of (bench).zoom == 1);
}

/* From the picture on, one Tab each, in the order in which they lie. */
static void
the_keyboard_reaches_every_control (void **state)
{
  static const char *const names[]
      = { "From the front", "At the join",     "From above", "Face to face",
          "Farther",        "The whole piece", "Nearer",     "What of",
          "Lamp light",     "Show Fit",        "Paint on" };
  Bench *bench = *state;
  gtk_widget_grab_focus (bench->view);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++) {
    desk_key ("Tab", 0);
    GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (bench->window));
    GtkWidget *wanted = control (bench, names[i]);
    if (!focus || (focus != wanted && !gtk_widget_is_ancestor (focus, wanted)))
      fail_msg ("Tab does not come to “%s”", names[i]);
  }
  desk_key ("Tab", GDK_SHIFT_MASK);
  desk_key ("space", 0);
  assert_true (bw_session_get_colour_by_fit (maker_session (&bench->maker)));
}

static graphene_rect_t
bounds_in (GtkWidget *widget, GtkWidget *other)
{
  graphene_rect_t bounds;
  assert_true (gtk_widget_compute_bounds (widget, other, &bounds));
  return bounds;
}

/* How far down in the view the piece reaches. */
static double
foot_of_piece (Bench *bench)
{
  const BwScene *scene = scene_of (bench);
  int width = gtk_widget_get_width (bench->view), height = gtk_widget_get_height (bench->view);
  double lowest = 0, x, y;
  BwEye eye;
  bw_eye_init (&eye, camera_of (bench), scene, width, height);
  for (guint i = 0; i < scene->stone->len; i++)
    if (bw_eye_project (&eye, g_array_index (scene->stone, BwSceneVertex, i).at, width, height, &x,
                        &y))
      lowest = MAX (lowest, y);
  return lowest;
}

static void
the_controls_keep_off_the_piece_in_a_small_window_too (void **state)
{
  static const char *const names[] = { "From the front", "Face to face", "Farther", "Nearer",
                                       "What of",        "Lamp light",   "Paint on" };
  static const char *const stages[] = { "measure", "draw", "hang", "make" };
  Bench *bench = *state;
  resize (bench, 900, 600);
  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++) {
    maker_stage (&bench->maker, stages[i]);
    rest (bench);
    double foot = foot_of_piece (bench);
    for (gsize k = 0; k < G_N_ELEMENTS (names); k++) {
      graphene_rect_t bounds = bounds_in (control (bench, names[k]), bench->view);
      assert_true ((double)bounds.origin.y >= foot - 1);
      assert_true (bounds.origin.x >= 0);
      assert_true ((double)(bounds.origin.x + bounds.size.width)
                   <= gtk_widget_get_width (bench->view));
      assert_true ((double)(bounds.origin.y + bounds.size.height)
                   <= gtk_widget_get_height (bench->view));
    }
    desk_keep (stages[i]);
  }
}

/* --- The ground --------------------------------------------------------------------------------
 */

static double
light_at (Bench *bench, double x, double y)
{
  return bw_colour_luminance (desk_pixel (bench->view, x, y));
}

static void
the_stage_is_darker_than_the_bars_by_day_and_dark_under_the_lamp (void **state)
{
  Bench *bench = *state;
  wear ("light");
  rest (bench);
  double chrome = bw_colour_luminance (bw_tint_srgb (BW_TINT_CHROME, FALSE));
  double high = light_at (bench, 6, 6),
         low = light_at (bench, 6, gtk_widget_get_height (bench->view) - 6);
  assert_true (high < chrome && low < high && low > 0.3);
  desk_click (control (bench, "Lamp light"));
  rest (bench);
  assert_true (light_at (bench, 6, 6) < 0.05);
  desk_click (control (bench, "Lamp light"));
  wear ("dark");
  rest (bench);
  assert_true (light_at (bench, 6, 6) < 0.05);
  desk_keep ("stage-dark");
}

/* Beside the foot of the stone, and on the same height at the edge of the picture. */
static void
the_piece_throws_a_shadow_where_it_stands (void **state)
{
  Bench *bench = *state;
  wear ("light");
  bw_session_set_layers (maker_session (&bench->maker), BW_LAYER_STONE);
  bw_session_set_camera (maker_session (&bench->maker), (BwCamera){ 0, 12, 1 });
  rest (bench);
  double width = gtk_widget_get_width (bench->view), foot = foot_of_piece (bench) - 12;
  double darkest = 1;
  for (double x = 4; x < width / 2; x += 2)
    darkest = MIN (darkest, light_at (bench, x, foot));
  assert_true (darkest < 0.8 * light_at (bench, 2, foot));
  bw_session_set_layers (maker_session (&bench->maker), 0);
  rest (bench);
  darkest = 1;
  for (double x = 4; x < width / 2; x += 2)
    darkest = MIN (darkest, light_at (bench, x, foot));
  assert_true (darkest > 0.95 * light_at (bench, 2, foot));
}

/* --- Painting on the stone ---------------------------------------------------------------------
 */

typedef struct {
  double x, y;
} Spot;

/* The middle of a bead in the view. */
static Spot
spot_of (Bench *bench, gboolean in_bail, int row, int column)
{
  const BwScene *scene = scene_of (bench);
  int width = gtk_widget_get_width (bench->view), height = gtk_widget_get_height (bench->view);
  int index = bw_scene_bead_index (scene, in_bail, row, column);
  Spot spot;
  BwEye eye;
  assert_true (index >= 0);
  bw_eye_init (&eye, camera_of (bench), scene, width, height);
  assert_true (bw_eye_project (&eye, g_array_index (scene->beads, BwSceneBead, index).at, width,
                               height, &spot.x, &spot.y));
  return spot;
}

/* Near and square to a row at the middle column, so that some rows lie side by side. */
static void
look_at_row (Bench *bench, int row)
{
  const BwScene *scene = scene_of (bench);
  int middle = 2 * (maker_design (&bench->maker)->band.columns / 4) + (row % 2 ? 0 : 1);
  const float *at
      = g_array_index (scene->beads, BwSceneBead, bw_scene_bead_index (scene, FALSE, row, middle))
            .at;
  double turn = bw_degrees (atan2 ((double)at[1], (double)at[0]));
  bw_session_set_camera (maker_session (&bench->maker), (BwCamera){ turn, 0, 2 });
  rest (bench);
}

static void
drag_on_stone (Bench *bench, int row0, int row1, int column)
{
  Spot from = spot_of (bench, FALSE, row0, column), to = spot_of (bench, FALSE, row1, column);
  desk_drag (bench->view, from.x, from.y, to.x, to.y, 12, 1);
}

static guint
steps_of (Bench *bench)
{
  return bw_project_count_steps (maker_project (&bench->maker));
}

/* Rows of one column, first to last, all of one colour. */
static void
expect_row_colours (Bench *bench, int first, int last, int column, guint8 colour)
{
  for (int row = first; row <= last; row += 2)
    assert_int_equal (maker_bead (&bench->maker, row, column), colour);
}

static void
with_alt_a_drag_paints_the_band_and_turns_nothing (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_take_colour (maker, 3);
  look_at_row (bench, 21);
  BwCamera camera = camera_of (bench);
  guint steps = steps_of (bench);
  Spot middle = spot_of (bench, FALSE, 21, 6);
  guint32 before = desk_pixel (bench->view, middle.x, middle.y);
  desk_hold (GDK_ALT_MASK);
  drag_on_stone (bench, 17, 25, 6);
  desk_let_go (GDK_ALT_MASK);
  expect_row_colours (bench, 17, 25, 6, 3);
  assert_in_range (maker_count (maker, 3), 5, 9);
  assert_int_equal (steps_of (bench), steps + 1);
  BwCamera now = camera_of (bench);
  assert_true (now.turn_deg == camera.turn_deg && now.tip_deg == camera.tip_deg);
  rest (bench);
  desk_keep ("stage-painted");
  guint32 after = desk_pixel (bench->view, middle.x, middle.y);
  /* Rosehip is red, the ground slate. */
  assert_true ((int)(after >> 16 & 255) > (int)(before >> 16 & 255) + 30);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (maker_count (maker, 3), 0);
}

static void
the_bead_under_the_brush_is_lit_in_both_views (void **state)
{
  Bench *bench = *state;
  gboolean in_bail;
  int row, column;
  maker_take_colour (&bench->maker, 3);
  look_at_row (bench, 21);
  Spot from = spot_of (bench, FALSE, 17, 6), to = spot_of (bench, FALSE, 23, 6);
  desk_hold (GDK_CONTROL_MASK);
  desk_move (bench->view, from.x, from.y);
  desk_press (1);
  desk_move (bench->view, to.x, to.y);
  bw_session_get_hover (maker_session (&bench->maker), &in_bail, &row, &column);
  assert_int_equal (row, 23);
  assert_int_equal (column, 6);
  assert_int_equal (maker_bead (&bench->maker, 23, 6), 3);
  desk_release (1);
  desk_let_go (GDK_CONTROL_MASK);
}

/* What was told on the band is not told of what is done on the stone. */
static void
the_status_line_goes_on_with_a_stroke_on_the_stone (void **state)
{
  Bench *bench = *state;
  GtkWidget *window = GTK_WIDGET (bench->maker.window);
  BwBandCanvas *canvas = BW_BAND_CANVAS (maker_find (&bench->maker, BW_TYPE_BAND_CANVAS));
  maker_take_colour (&bench->maker, 3);
  look_at_row (bench, 21);
  bw_band_canvas_say (canvas, "“Wave” is kept.");
  assert_non_null (desk_look_for_label (window, "“Wave” is kept."));
  desk_hold (GDK_CONTROL_MASK);
  drag_on_stone (bench, 17, 21, 6);
  desk_let_go (GDK_CONTROL_MASK);
  assert_null (desk_look_for_label (window, "“Wave” is kept."));
  assert_non_null (desk_look_for_prefix (window, "Row 21, column 6"));
}

static void
with_the_brush_a_drag_on_beads_paints_and_one_beside_them_turns (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  maker_take_colour (maker, 2);
  look_at_row (bench, 21);
  desk_click (control (bench, "Paint on"));
  BwCamera camera = camera_of (bench);
  drag_on_stone (bench, 19, 23, 6);
  expect_row_colours (bench, 19, 23, 6, 2);
  assert_true (camera_of (bench).turn_deg == camera.turn_deg);
  int painted = maker_count (maker, 2);
  desk_drag (bench->view, 40, 30, 90, 30, 5, 1);
  assert_true (camera_of (bench).turn_deg != camera.turn_deg);
  assert_int_equal (maker_count (maker, 2), painted);
  look_at_row (bench, 21);
  desk_click (control (bench, "Paint on"));
  drag_on_stone (bench, 25, 27, 6);
  assert_int_equal (maker_count (maker, 2), painted);
}

/* Rows count on over the join: the stroke must not run back round the whole band. */
static void
a_stroke_over_the_join_stays_short (void **state)
{
  Bench *bench = *state;
  int rows = maker_design (&bench->maker)->band.rows;
  maker_take_colour (&bench->maker, 3);
  look_at_row (bench, 1);
  desk_hold (GDK_CONTROL_MASK);
  drag_on_stone (bench, rows - 3, 5, 6);
  desk_let_go (GDK_CONTROL_MASK);
  assert_int_equal (maker_bead (&bench->maker, rows - 3, 6), 3);
  assert_int_equal (maker_bead (&bench->maker, 1, 6), 3);
  assert_int_equal (maker_bead (&bench->maker, 5, 6), 3);
  assert_in_range (maker_count (&bench->maker, 3), 5, 9);
}

static void
other_tools_do_on_the_stone_what_they_do_on_the_band (void **state)
{
  Bench *bench = *state;
  BwSession *session = maker_session (&bench->maker);
  maker_take_colour (&bench->maker, 2);
  look_at_row (bench, 21);
  desk_hold (GDK_ALT_MASK);
  bw_session_set_tool (session, BW_TOOL_BEAD);
  drag_on_stone (bench, 19, 23, 6);
  bw_session_set_tool (session, BW_TOOL_ERASE);
  drag_on_stone (bench, 21, 21, 6);
  assert_int_equal (maker_bead (&bench->maker, 21, 6), 0);
  assert_int_equal (maker_bead (&bench->maker, 19, 6), 2);
  bw_session_set_tool (session, BW_TOOL_PICK);
  bw_session_set_colour (session, 1);
  drag_on_stone (bench, 23, 23, 6);
  assert_int_equal (bw_session_get_colour (session), 2);
  bw_session_set_tool (session, BW_TOOL_FLOOD);
  bw_session_set_colour (session, 1);
  drag_on_stone (bench, 25, 25, 6);
  assert_true (maker_count (&bench->maker, 1) > 400);
  desk_let_go (GDK_ALT_MASK);
}

/* A bead of the bail with nothing before it. */
static Spot
spot_on_bail (Bench *bench, const BwDrawing *bail)
{
  for (int r = 1; r <= bw_drawing_rows (bail); r++)
    for (int c = 1 + r % 2; c <= bw_drawing_columns (bail); c += 2) {
      gboolean in_bail;
      int row, column;
      Spot spot = spot_of (bench, TRUE, r, c);
      bw_stone_view_pick (BW_STONE_VIEW (bench->view), spot.x, spot.y, &in_bail, &row, &column);
      if (in_bail && row == r && column == c)
        return spot;
    }
  fail_msg ("no bead of the bail is to be seen");
  return (Spot){ 0 };
}

static void
beads_of_the_bail_are_painted_too (void **state)
{
  Bench *bench = *state;
  BwProject *project = maker_project (&bench->maker);
  BwDesign design = *maker_design (&bench->maker);
  design.bail.style = BW_BAIL_FLAP;
  assert_true (bw_project_set_design (project, "Bail", &design, NULL));
  bw_session_set_camera (maker_session (&bench->maker), (BwCamera){ design.bail.at_deg, 30, 2 });
  maker_take_colour (&bench->maker, 3);
  rest (bench);
  Spot spot = spot_on_bail (bench, bw_project_get_bail_drawing (project));
  guint steps = steps_of (bench);
  desk_hold (GDK_ALT_MASK);
  desk_click_at (bench->view, spot.x, spot.y, 1);
  desk_let_go (GDK_ALT_MASK);
  const BwDrawing *bail = bw_project_get_bail_drawing (project);
  int painted = 0;
  for (int r = 1; r <= bw_drawing_rows (bail); r++)
    for (int c = 1 + r % 2; c <= bw_drawing_columns (bail); c += 2)
      painted += bw_drawing_get (bail, r, c) == 3;
  assert_int_equal (painted, 1);
  assert_int_equal (steps_of (bench), steps + 1);
}

/* --- Its menu, and pictures --------------------------------------------------------------------
 */

static gboolean
has_menu (gpointer data)
{
  return desk_look_for_label (gtk_widget_get_parent (((Bench *)data)->view), "Paint on the Stone")
         != NULL;
}

static void
a_right_click_on_the_stone_opens_its_menu (void **state)
{
  Bench *bench = *state;
  GtkWidget *panel = gtk_widget_get_parent (bench->view);
  desk_click_at (bench->view, 100, 100, 3);
  desk_until (has_menu, bench);
  desk_keep ("stage-menu");
  maker_click_words (panel, "Show Fit");
  assert_true (bw_session_get_colour_by_fit (maker_session (&bench->maker)));
  gtk_widget_grab_focus (bench->view);
  desk_key ("F10", GDK_SHIFT_MASK);
  desk_until (has_menu, bench);
  maker_click_words (panel, "Show Fit");
  assert_false (bw_session_get_colour_by_fit (maker_session (&bench->maker)));
}

typedef struct {
  GdkTexture *texture;
  gboolean done;
} Copied;

static void
copied (GObject *clipboard, GAsyncResult *result, gpointer data)
{
  Copied *copy = data;
  copy->texture = gdk_clipboard_read_texture_finish (GDK_CLIPBOARD (clipboard), result, NULL);
  copy->done = TRUE;
}

static gboolean
is_done (gpointer data)
{
  return ((Copied *)data)->done;
}

static gboolean
holds_picture (gpointer window)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (window));
  return gdk_content_formats_contain_mime_type (gdk_clipboard_get_formats (clipboard), "image/png");
}

static void
the_picture_is_copied_as_a_png (void **state)
{
  Bench *bench = *state;
  Copied copy = { 0 };
  gtk_widget_grab_focus (bench->view);
  desk_key ("c", GDK_CONTROL_MASK | GDK_ALT_MASK);
  desk_until (holds_picture, bench->window);
  gdk_clipboard_read_texture_async (gtk_widget_get_clipboard (bench->window), NULL, copied, &copy);
  desk_until (is_done, &copy);
  assert_non_null (copy.texture);
  assert_int_equal (gdk_texture_get_width (copy.texture), 1600);
  g_object_unref (copy.texture);
}

/* By key: all processors may be at work on the preview, and a click come to nothing. */
static void
press_save (GtkWidget *dialog)
{
  gtk_widget_grab_focus (
      gtk_widget_get_ancestor (desk_find_label (dialog, "Save…"), GTK_TYPE_BUTTON));
  desk_key ("space", 0);
}

static void
choose (GtkWidget *dialog, GType type, int which, guint item)
{
  GtkWidget *found = NULL;
  GtkWidget *grid = desk_find_type (dialog, GTK_TYPE_GRID);
  for (GtkWidget *child = gtk_widget_get_first_child (grid); child;
       child = gtk_widget_get_next_sibling (child))
    if (G_TYPE_CHECK_INSTANCE_TYPE (child, type) && which-- == 0)
      found = child;
  assert_non_null (found);
  if (GTK_IS_DROP_DOWN (found))
    gtk_drop_down_set_selected (GTK_DROP_DOWN (found), item);
  else
    gtk_spin_button_set_value (GTK_SPIN_BUTTON (found), item);
}

static gboolean
has_preview (gpointer dialog)
{
  GtkWidget *picture = desk_find_type (GTK_WIDGET (dialog), GTK_TYPE_PICTURE);
  return gtk_picture_get_paintable (GTK_PICTURE (picture)) != NULL;
}

/* The preview is of what is chosen: higher than wide, and dark. */
static gboolean
shows_what_is_chosen (gpointer dialog)
{
  GtkWidget *picture = desk_find_type (GTK_WIDGET (dialog), GTK_TYPE_PICTURE);
  GdkPaintable *shown = gtk_picture_get_paintable (GTK_PICTURE (picture));
  int width = gdk_paintable_get_intrinsic_width (shown);
  int height = gdk_paintable_get_intrinsic_height (shown);
  g_autofree guint32 *pixels = g_new (guint32, (gsize)width * (gsize)height);
  gdk_texture_download (GDK_TEXTURE (shown), (guchar *)pixels, 4 * (gsize)width);
  return 4 * width == 3 * height && bw_colour_luminance (pixels[0] & 0xffffff) < 0.06;
}

static gboolean
is_file (gpointer path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static gboolean
asks_where (gpointer data)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();
  for (GList *item = all; item; item = item->next)
    if (GTK_IS_FILE_CHOOSER (item->data) && gtk_widget_get_mapped (item->data))
      return TRUE;
  return FALSE;
}

static void
a_picture_is_saved_as_it_was_chosen (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("chosen.png");
  desk_key ("p", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  desk_until (has_preview, dialog);
  choose (dialog, GTK_TYPE_DROP_DOWN, 0, 1);
  choose (dialog, GTK_TYPE_DROP_DOWN, 1, 2);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 0, 300);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 1, 400);
  desk_until (shows_what_is_chosen, dialog);
  desk_settle ();
  desk_keep ("stage-save");
  press_save (dialog);
  desk_until (asks_where, maker);
  maker_answer_path (maker, path);
  desk_until (is_file, path);
  desk_settle ();
  cairo_surface_t *picture = cairo_image_surface_create_from_png (path);
  assert_int_equal (cairo_image_surface_get_width (picture), 300);
  assert_int_equal (cairo_image_surface_get_height (picture), 400);
  const guint32 *pixels = (const guint32 *)(void *)cairo_image_surface_get_data (picture);
  assert_true (bw_colour_luminance (pixels[0] & 0xffffff) < 0.06);
  assert_true (pixels[0] >> 24 == 255);
  cairo_surface_destroy (picture);
}

static gboolean
is_making (gpointer dialog)
{
  if (!desk_look_for_label (GTK_WIDGET (dialog), "Stop"))
    return FALSE;
  GtkWidget *bar = desk_find_type (GTK_WIDGET (dialog), GTK_TYPE_PROGRESS_BAR);
  return gtk_progress_bar_get_fraction (GTK_PROGRESS_BAR (bar)) > 0;
}

static gboolean
is_done_making (gpointer dialog)
{
  return !desk_look_for_label (GTK_WIDGET (dialog), "Stop");
}

static gboolean
has_come_nearer (gpointer bench)
{
  return camera_of (bench).zoom > 1.1;
}

/* The order: 2: the light, 3: how many pictures. */
static void
a_fine_picture_leaves_the_window_free_and_can_be_stopped (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("stopped.png");
  desk_key ("p", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  choose (dialog, GTK_TYPE_DROP_DOWN, 2, 1);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 0, 4000);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 1, 4000);
  desk_until (has_preview, dialog);
  desk_settle ();
  press_save (dialog);
  /* Where to is asked before anything is made, and the work begins with the answer. */
  desk_until (asks_where, maker);
  assert_null (desk_look_for_label (dialog, "Stop"));
  maker_answer_path (maker, path);
  desk_until (is_making, dialog);
  desk_keep ("stage-fine");
  /* The window behind goes on meanwhile. */
  assert_false (gtk_window_get_modal (GTK_WINDOW (dialog)));
  desk_click (control (bench, "Nearer"));
  desk_until (has_come_nearer, bench);
  maker_click_words (dialog, "Stop");
  desk_until (is_done_making, dialog);
  assert_true (gtk_window_get_modal (GTK_WINDOW (dialog)));
  assert_true (gtk_widget_get_sensitive (desk_find_type (dialog, GTK_TYPE_GRID)));
  assert_false (is_file (path));
  desk_key ("Escape", 0);
}

static gboolean
is_a_tall_preview (gpointer dialog)
{
  GtkWidget *shown = desk_find_type (GTK_WIDGET (dialog), GTK_TYPE_PICTURE);
  GdkPaintable *preview = gtk_picture_get_paintable (GTK_PICTURE (shown));
  return preview
         && gdk_paintable_get_intrinsic_height (preview)
                > 4 * gdk_paintable_get_intrinsic_width (preview);
}

/* Fields that move under the pointer are missed. */
static void
the_dialog_of_pictures_keeps_its_size_whatever_the_picture (void **state)
{
  Bench *bench = *state;
  desk_key ("p", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (&bench->maker));
  desk_until (has_preview, dialog);
  desk_settle ();
  int width = gtk_widget_get_width (dialog), height = gtk_widget_get_height (dialog);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 0, 200);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 1, 1600);
  desk_until (is_a_tall_preview, dialog);
  desk_settle ();
  desk_keep ("stage-tall-picture");
  assert_int_equal (gtk_widget_get_width (dialog), width);
  assert_int_equal (gtk_widget_get_height (dialog), height);
  desk_key ("Escape", 0);
}

static gboolean
tells_the_count (gpointer dialog)
{
  if (!desk_look_for_label (GTK_WIDGET (dialog), "Stop"))
    return FALSE;
  GtkWidget *bar = desk_find_type (GTK_WIDGET (dialog), GTK_TYPE_PROGRESS_BAR);
  const char *text = gtk_progress_bar_get_text (GTK_PROGRESS_BAR (bar));
  return g_strcmp0 (text, "2 of 36") == 0;
}

static void
of_a_row_of_pictures_it_is_told_which_is_made (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("row.png"), *first = maker_path ("row-001.png");
  desk_key ("p", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  desk_until (has_preview, dialog);
  choose (dialog, GTK_TYPE_DROP_DOWN, 3, BW_STILL_NUMBERED);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 0, 400);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 1, 400);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 2, 36);
  choose (dialog, GTK_TYPE_DROP_DOWN, 2, 1);
  desk_settle ();
  press_save (dialog);
  desk_until (asks_where, maker);
  maker_answer_path (maker, path);
  desk_until (tells_the_count, dialog);
  desk_keep ("stage-count");
  /* What is shown meanwhile is small, however large the pictures are. */
  GtkWidget *shown = desk_find_type (dialog, GTK_TYPE_PICTURE);
  GdkPaintable *so_far = gtk_picture_get_paintable (GTK_PICTURE (shown));
  assert_in_range (gdk_paintable_get_intrinsic_width (so_far), 100, 360);
  maker_click_words (dialog, "Stop");
  desk_until (is_done_making, dialog);
  assert_false (is_file (first));
  desk_key ("Escape", 0);
}

static void
a_turning_piece_is_saved_in_one_file (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("turning.webp"), *bytes = NULL;
  desk_key ("p", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  desk_until (has_preview, dialog);
  choose (dialog, GTK_TYPE_DROP_DOWN, 2, 0);
  choose (dialog, GTK_TYPE_DROP_DOWN, 3, BW_STILL_MOVING);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 0, 64);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 1, 64);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 2, 3);
  desk_settle ();
  press_save (dialog);
  desk_until (asks_where, maker);
  maker_answer_path (maker, path);
  desk_until (is_file, path);
  desk_settle ();
  assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  assert_memory_equal (bytes + 8, "WEBPVP8X", 8);
}

static void
a_piece_being_woven_is_saved_as_numbered_pictures (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("woven.png"), *last = maker_path ("woven-003.png");
  g_autofree char *first = maker_path ("woven-001.png"), *bytes = NULL, *others = NULL;
  gsize length = 0, other_length = 0;
  desk_key ("p", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  desk_until (has_preview, dialog);
  choose (dialog, GTK_TYPE_DROP_DOWN, 2, 0);
  choose (dialog, GTK_TYPE_DROP_DOWN, 3, BW_STILL_WOVEN);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 0, 64);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 1, 64);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 2, 3);
  desk_settle ();
  press_save (dialog);
  desk_until (asks_where, maker);
  maker_answer_path (maker, path);
  desk_until (is_file, last);
  assert_true (g_file_get_contents (first, &bytes, &length, NULL));
  assert_true (g_file_get_contents (last, &others, &other_length, NULL));
  /* What the view shows is as it was. */
  assert_int_equal (bw_session_get_played (maker_session (maker)), -1);
  assert_true (length != other_length || memcmp (bytes, others, length) != 0);
}

/* The name that was asked for may be free and the numbered ones not. */
static void
numbered_pictures_take_no_files_place (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  g_autofree char *path = maker_path ("round.png"), *second = maker_path ("round-002.png");
  g_autofree char *other = maker_path ("again.png"), *last = maker_path ("again-003.png");
  g_autofree char *kept = NULL;
  assert_true (g_file_set_contents (second, "mine", -1, NULL));
  desk_key ("p", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  desk_until (has_preview, dialog);
  choose (dialog, GTK_TYPE_DROP_DOWN, 3, BW_STILL_NUMBERED);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 0, 64);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 1, 64);
  choose (dialog, GTK_TYPE_SPIN_BUTTON, 2, 3);
  desk_settle ();
  press_save (dialog);
  desk_until (asks_where, maker);
  maker_answer_path (maker, path);
  desk_settle ();
  desk_until (asks_where, maker);
  maker_answer_path (maker, other);
  desk_until (is_file, last);
  assert_true (g_file_get_contents (second, &kept, NULL, NULL));
  assert_string_equal (kept, "mine");
}

static gboolean
is_gone (gpointer object)
{
  return *(gpointer *)object == NULL;
}

/* The preview is being made by a thread that nobody waits for. */
static void
a_window_may_go_while_a_picture_of_it_is_made (void **state)
{
  Maker *maker = *state;
  GtkWindow *dialog = NULL;
  g_action_group_activate_action (G_ACTION_GROUP (maker->window), "save-picture", NULL);
  g_set_weak_pointer (&dialog, maker_dialog (maker));
  desk_key ("Escape", 0);
  maker_stop (maker);
  desk_until (is_gone, &dialog);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (the_picture_is_whole_and_fine_again_after_themes_and_stages),
    IN_WINDOW (a_picture_of_another_size_is_as_fine_as_any),
    IN_WINDOW (a_theme_shows_the_picture_of_now_and_no_older_one),
    IN_WINDOW (the_cord_is_whole_where_the_piece_hangs_and_nowhere_else),
    IN_WINDOW (each_view_is_a_click_away),
    IN_WINDOW (the_keyboard_reaches_every_control),
    IN_WINDOW (the_controls_keep_off_the_piece_in_a_small_window_too),
    IN_WINDOW (the_stage_is_darker_than_the_bars_by_day_and_dark_under_the_lamp),
    IN_WINDOW (the_piece_throws_a_shadow_where_it_stands),
    IN_WINDOW (with_alt_a_drag_paints_the_band_and_turns_nothing),
    IN_WINDOW (the_bead_under_the_brush_is_lit_in_both_views),
    IN_WINDOW (the_status_line_goes_on_with_a_stroke_on_the_stone),
    IN_WINDOW (with_the_brush_a_drag_on_beads_paints_and_one_beside_them_turns),
    IN_WINDOW (a_stroke_over_the_join_stays_short),
    IN_WINDOW (other_tools_do_on_the_stone_what_they_do_on_the_band),
    IN_WINDOW (beads_of_the_bail_are_painted_too),
    IN_WINDOW (a_right_click_on_the_stone_opens_its_menu),
    IN_WINDOW (the_picture_is_copied_as_a_png),
    IN_WINDOW (a_picture_is_saved_as_it_was_chosen),
    IN_WINDOW (a_fine_picture_leaves_the_window_free_and_can_be_stopped),
    IN_WINDOW (the_dialog_of_pictures_keeps_its_size_whatever_the_picture),
    IN_WINDOW (of_a_row_of_pictures_it_is_told_which_is_made),
    IN_WINDOW (a_turning_piece_is_saved_in_one_file),
    IN_WINDOW (a_piece_being_woven_is_saved_as_numbered_pictures),
    IN_WINDOW (numbered_pictures_take_no_files_place),
    IN_WINDOW (a_window_may_go_while_a_picture_of_it_is_made),
  };
  return maker_run (tests);
}
