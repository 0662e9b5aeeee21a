/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone in the hand: what is seen, turned, pointed at. Run once as OpenGL draws it and once
 * with GDK_DEBUG=gl-disable, where the drawn projection takes its place.
 *
 * Where a bead ought to be on screen is worked out here from its place on the stone and the camera
 * alone; the code that finds the bead under the pointer has no part in that. */
#include "maker.h"
#include "preview/scene/camera.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#define LOUD 4 /* tray index of a colour that no stone, bed or bead has */

typedef struct {
  Maker maker;
  GtkWidget *view;
} Bench;

/* A bead that can be seen: where it is and where its middle falls in the view. */
typedef struct {
  int row, column;
  double x, y;
  double facing; /* cosine between its outward normal and the way to the eye */
} Seen;

static BwProject *
loud_project (void)
{
  BwProject *project = bw_project_new ();
  BwTray tray = *bw_project_get_tray (project);
  assert_int_equal (tray.n_colours, LOUD);
  tray.colour[tray.n_colours++] = (BwColour){ 'm', "Loud", 0xff00ff, BW_FINISH_MATTE };
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
  return project;
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = loud_project ();
  g_autofree char *path = maker_save (project, "loud.bandwright");
  maker_start (&bench->maker, path);
  maker_stage (&bench->maker, "draw");
  bench->view = maker_find (&bench->maker, BW_TYPE_STONE_VIEW);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench);
  return 0;
}

/* --- What ought to be seen ---------------------------------------------------------------------
 */

static double
facing_of (const BwEye *eye, BwPlace place)
{
  BwVec3 to_eye = bw_vec3_sub (
      bw_vec3 ((double)eye->eye[0], (double)eye->eye[1], (double)eye->eye[2]), place.at);
  return (place.normal.x * to_eye.x + place.normal.y * to_eye.y) / bw_vec3_length (to_eye);
}

static BwEye
eye_of (Bench *bench)
{
  BwEye eye;
  g_autoptr (BwScene) scene = bw_scene_new (maker_project (&bench->maker), FALSE);
  /* The buttons at the foot are kept clear of. */
  scene->free_below = bw_stone_view_get_scene (BW_STONE_VIEW (bench->view))->free_below;
  bw_eye_init (&eye, bw_session_get_camera (maker_session (&bench->maker)), scene,
               gtk_widget_get_width (bench->view), gtk_widget_get_height (bench->view));
  return eye;
}

static Seen
see (Bench *bench, const BwEye *eye, const BwPlaces *places, int row, int column)
{
  Seen seen = { .row = row, .column = column };
  BwPlace place = bw_places_get (places, row, column);
  const float at[3] = { (float)place.at.x, (float)place.at.y, (float)place.at.z };
  assert_true (bw_eye_project (eye, at, gtk_widget_get_width (bench->view),
                               gtk_widget_get_height (bench->view), &seen.x, &seen.y));
  seen.facing = facing_of (eye, place);
  return seen;
}

/* Every bead that looks the eye in the face. Beads lie side by side, so up to 60° no neighbour
 * hides the middle of one (the way to it passes the next at 2 r cos 60° = r). */
static GArray *
beads_in_front (Bench *bench, double least_facing)
{
  BwEye eye = eye_of (bench);
  const BwDesign *design = maker_design (&bench->maker);
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Seen));
  BwPlaces places;
  bw_places_init_true (&places, design, bw_project_stone (maker_project (&bench->maker)),
                       bw_project_fit (maker_project (&bench->maker)));
  for (int row = 1; row <= design->band.rows; row++)
    for (int column = 1 + row % 2; column <= design->band.columns; column += 2) {
      Seen seen = see (bench, &eye, &places, row, column);
      if (seen.facing >= least_facing)
        g_array_append_val (found, seen);
    }
  bw_places_clear (&places);
  return found;
}

/* The bead that faces the eye most, near the middle of the band. */
static Seen
front_bead (Bench *bench)
{
  g_autoptr (GArray) all = beads_in_front (bench, 0.5);
  int middle = maker_design (&bench->maker)->band.columns / 2;
  Seen best = { 0 };
  for (guint i = 0; i < all->len; i++) {
    Seen seen = g_array_index (all, Seen, i);
    if (seen.column == middle && seen.facing > best.facing)
      best = seen;
  }
  assert_true (best.facing > 0.75);
  return best;
}

/* Where a bead is now. */
static Seen
find_bead (Bench *bench, int row, int column)
{
  BwEye eye = eye_of (bench);
  BwPlaces places;
  bw_places_init_true (&places, maker_design (&bench->maker),
                       bw_project_stone (maker_project (&bench->maker)),
                       bw_project_fit (maker_project (&bench->maker)));
  Seen seen = see (bench, &eye, &places, row, column);
  bw_places_clear (&places);
  return seen;
}

static void
expect_lit (Bench *bench, int row, int column)
{
  gboolean in_bail;
  int lit_row, lit_column;
  bw_session_get_hover (maker_session (&bench->maker), &in_bail, &lit_row, &lit_column);
  if (in_bail || lit_row != row || lit_column != column)
    fail_msg ("row %d, column %d is lit instead of row %d, column %d", lit_row, lit_column, row,
              column);
}

/* Away from both views, until the picture is as fine as it gets: pixels are compared. */
static void
rest_pointer (Bench *bench)
{
  GtkWidget *window = GTK_WIDGET (bench->maker.window);
  desk_move (window, 20, gtk_widget_get_height (window) - 8.0);
  desk_rest ();
}

static guint32
pixel_at (Bench *bench, const Seen *seen)
{
  return desk_pixel (bench->view, seen->x, seen->y);
}

static gboolean
is_loud (guint32 colour)
{
  int red = colour >> 16 & 0xff, green = colour >> 8 & 0xff, blue = colour & 0xff;
  return red > 2 * green && blue > 2 * green && red > 60;
}

/* How many pixels of the view differ from an earlier picture. */
static int
count_changes (Bench *bench, cairo_surface_t *before)
{
  cairo_surface_t *now = desk_picture ();
  int x0, y0, changed = 0;
  int width = gtk_widget_get_width (bench->view), height = gtk_widget_get_height (bench->view);
  int stride = cairo_image_surface_get_stride (now);
  const guchar *was = cairo_image_surface_get_data (before),
               *is = cairo_image_surface_get_data (now);
  desk_point (bench->view, 0, 0, &x0, &y0);
  /* A ring of focus at the edge is not the picture. */
  for (int y = y0 + 8; y < y0 + height - 8; y++)
    for (int x = x0 + 8; x < x0 + width - 8; x++)
      changed += memcmp (was + y * stride + 4 * x, is + y * stride + 4 * x, 4) != 0;
  cairo_surface_destroy (now);
  return changed;
}

/* --- The tests ---------------------------------------------------------------------------------
 */

static void
the_stone_is_drawn_by_what_the_display_has (void **state)
{
  Bench *bench = *state;
  const char *debug = g_getenv ("GDK_DEBUG");
  gboolean without = debug && strstr (debug, "gl-disable");
  assert_string_equal (bw_stone_view_get_driver (BW_STONE_VIEW (bench->view)),
                       without ? "drawn" : "gl");
  desk_keep (without ? "view-drawn" : "view-gl");
}

static void
a_drag_turns_the_stone_with_the_hand (void **state)
{
  Bench *bench = *state;
  Seen held = front_bead (bench);
  rest_pointer (bench);
  cairo_surface_t *before = desk_picture ();
  desk_drag (bench->view, held.x, held.y, held.x + 30, held.y, 5, 1);
  Seen moved = find_bead (bench, held.row, held.column);
  assert_true (fabs (moved.x - held.x - 30) < 4);
  assert_true (fabs (moved.y - held.y) < 4);
  rest_pointer (bench);
  assert_true (count_changes (bench, before) > 2000);
  cairo_surface_destroy (before);

  desk_drag (bench->view, held.x, held.y, held.x - 160, held.y - 12, 5, 1);
  Seen other = front_bead (bench);
  assert_int_not_equal (other.row, held.row);
  desk_move (bench->view, other.x, other.y);
  expect_lit (bench, other.row, other.column);
  assert_false (bw_project_get_modified (maker_project (&bench->maker)));
}

static void
the_bead_pointed_at_in_the_view_is_the_one_that_lies_there (void **state)
{
  Bench *bench = *state;
  const int drags[][2] = { { 0, 0 }, { 90, -35 }, { -170, 24 } };
  for (gsize i = 0; i < G_N_ELEMENTS (drags); i++) {
    if (drags[i][0])
      desk_drag (bench->view, 200, 60, 200 + drags[i][0], 60 + drags[i][1], 3, 1);
    g_autoptr (GArray) beads = beads_in_front (bench, 0.75);
    assert_true (beads->len > 20);
    for (guint k = 0; k < beads->len; k += beads->len / 9) {
      const Seen *seen = &g_array_index (beads, Seen, k);
      desk_move (bench->view, seen->x, seen->y);
      expect_lit (bench, seen->row, seen->column);
    }
  }
  desk_move (bench->view, 4, 4);
  expect_lit (bench, 0, 0);
}

static void
a_bead_lit_in_one_view_lights_in_the_other (void **state)
{
  Bench *bench = *state;
  GtkWidget *canvas = maker_find (&bench->maker, BW_TYPE_BAND_CANVAS);
  Seen seen = front_bead (bench);
  double x, y;
  maker_bead_point (&bench->maker, seen.row, seen.column, &x, &y);
  rest_pointer (bench);
  /* The edge of the bead, where a mark round it shows. */
  cairo_surface_t *dark = desk_picture ();
  desk_move (canvas, x, y);
  desk_rest ();
  expect_lit (bench, seen.row, seen.column);
  assert_in_range (count_changes (bench, dark), 4, 4000);
  desk_keep ("view-lit");
  cairo_surface_destroy (dark);

  rest_pointer (bench);
  expect_lit (bench, 0, 0);
  guint32 plain[81], lit[81];
  for (int i = 0; i < 81; i++)
    plain[i] = desk_pixel (canvas, x - 8 + 2 * (i % 9), y - 8 + 2 * (i / 9));
  desk_move (bench->view, seen.x, seen.y);
  desk_rest ();
  int changed = 0;
  for (int i = 0; i < 81; i++) {
    lit[i] = desk_pixel (canvas, x - 8 + 2 * (i % 9), y - 8 + 2 * (i / 9));
    changed += lit[i] != plain[i];
  }
  assert_true (changed >= 4);
  g_autofree char *words = g_strdup_printf ("Row %d, column %d, ", seen.row, seen.column);
  assert_true (g_str_has_prefix (gtk_label_get_text (GTK_LABEL (desk_look_for_prefix (
                                     GTK_WIDGET (bench->maker.window), "Row "))),
                                 words));
}

static void
a_bead_painted_on_the_band_shows_its_colour_on_the_stone (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  Seen seen = front_bead (bench);
  Seen beside = find_bead (bench, seen.row, seen.column + 2);
  rest_pointer (bench);
  guint32 before = pixel_at (bench, &seen), other = pixel_at (bench, &beside);
  assert_false (is_loud (before));
  maker_take_colour (maker, LOUD);
  maker_click_bead (maker, seen.row, seen.column);
  assert_int_equal (maker_bead (maker, seen.row, seen.column), LOUD);
  rest_pointer (bench);
  desk_keep ("view-painted");
  assert_true (is_loud (pixel_at (bench, &seen)));
  assert_int_equal (pixel_at (bench, &beside), other);
  desk_key ("z", GDK_CONTROL_MASK);
  rest_pointer (bench);
  assert_int_equal (pixel_at (bench, &seen), before);
}

static void
arrow_keys_turn_and_turn_back (void **state)
{
  Bench *bench = *state;
  BwSession *session = maker_session (&bench->maker);
  desk_click_at (bench->view, 20, 20, 1);
  BwCamera start = bw_session_get_camera (session);
  rest_pointer (bench);
  cairo_surface_t *before = desk_picture ();
  for (int i = 0; i < 3; i++)
    desk_key ("Left", 0);
  desk_key ("Up", 0);
  BwCamera turned = bw_session_get_camera (session);
  assert_true (fabs (turned.turn_deg - start.turn_deg - 15) < 1e-9);
  assert_true (fabs (turned.tip_deg - start.tip_deg + 5) < 1e-9);
  rest_pointer (bench);
  assert_true (count_changes (bench, before) > 2000);
  for (int i = 0; i < 3; i++)
    desk_key ("Right", 0);
  desk_key ("Down", 0);
  rest_pointer (bench);
  /* Drawn anew it may differ by a hair of rounding, no more. */
  assert_true (count_changes (bench, before) < 100);
  cairo_surface_destroy (before);
  desk_key ("Left", GDK_SHIFT_MASK);
  assert_true (fabs (bw_session_get_camera (session).turn_deg - start.turn_deg - 1) < 1e-9);
}

static void
the_wheel_comes_nearer_to_the_band (void **state)
{
  Bench *bench = *state;
  BwSession *session = maker_session (&bench->maker);
  double zoom = bw_session_get_camera (session).zoom;
  Seen seen = front_bead (bench);
  Seen low = find_bead (bench, seen.row, seen.column - 4);
  double before = hypot (low.x - seen.x, low.y - seen.y);
  desk_scroll (bench->view, seen.x, seen.y, 5);
  assert_true (fabs (bw_session_get_camera (session).zoom / zoom - pow (1.12, 5)) < 1e-9);
  Seen near = front_bead (bench);
  low = find_bead (bench, near.row, near.column - 4);
  assert_true (fabs (hypot (low.x - near.x, low.y - near.y) / before - pow (1.12, 5)) < 0.02);
  desk_move (bench->view, near.x, near.y);
  expect_lit (bench, near.row, near.column);
  desk_keep ("view-near");
  desk_scroll (bench->view, near.x, near.y, -5);
  assert_true (fabs (bw_session_get_camera (session).zoom / zoom - 1) < 1e-9);
}

/* --- Menus -------------------------------------------------------------------------------------
 */

static gboolean
has_tip (GtkWidget *widget, gconstpointer tip)
{
  return g_strcmp0 (gtk_widget_get_tooltip_text (widget), tip) == 0;
}

typedef struct {
  GtkWidget *button;
  const char *words;
} Opened;

static gboolean
shows_item (gpointer data)
{
  const Opened *opened = data;
  return desk_look_for_label (opened->button, opened->words) != NULL;
}

/* Opens the menu of the button with this tooltip, until it shows the item, and gives that. */
static GtkWidget *
open_menu (Bench *bench, const char *tip, const char *words)
{
  Opened opened = { desk_look_for (GTK_WIDGET (bench->maker.window), has_tip, tip), words };
  assert_non_null (opened.button);
  assert_null (desk_look_for_label (opened.button, words));
  desk_click (opened.button);
  desk_until (shows_item, &opened);
  desk_settle ();
  return desk_find_label (opened.button, words);
}

/* Made when they are first opened, and there again the second time. */
static void
menus_on_buttons_open_and_do_what_they_say (void **state)
{
  Bench *bench = *state;
  BwSession *session = maker_session (&bench->maker);
  for (int i = 0; i < 2; i++) {
    desk_click (open_menu (bench, "What of the piece is shown", "Band"));
    assert_int_equal ((bw_session_get_layers (session) & BW_LAYER_BAND) != 0, i);
    desk_key ("Escape", 0);
    open_menu (bench, "Main menu", "New Stone");
    desk_key ("Escape", 0);
  }
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (the_stone_is_drawn_by_what_the_display_has),
    IN_WINDOW (a_drag_turns_the_stone_with_the_hand),
    IN_WINDOW (the_bead_pointed_at_in_the_view_is_the_one_that_lies_there),
    IN_WINDOW (a_bead_lit_in_one_view_lights_in_the_other),
    IN_WINDOW (a_bead_painted_on_the_band_shows_its_colour_on_the_stone),
    IN_WINDOW (arrow_keys_turn_and_turn_back),
    IN_WINDOW (the_wheel_comes_nearer_to_the_band),
    IN_WINDOW (menus_on_buttons_open_and_do_what_they_say),
  };
  return maker_run (tests);
}
