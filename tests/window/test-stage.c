/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stage the stone stands on: its ground, its shadow, what lies over the picture, and what never
 * stays on it. Run once as OpenGL draws it and once as it is drawn without. */
#include "maker.h"

#include "app/kit/settings.h"
#include "core/pattern/colour.h"
#include "core/pattern/tint.h"
#include "preview/scene/camera.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

typedef struct {
  Maker maker;
  GtkWidget *view, *window;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *path = maker_save (project, "stage.bandwright");
  maker_start (&bench->maker, path);
  maker_stage (&bench->maker, "draw");
  bench->view = maker_find (&bench->maker, BW_TYPE_STONE_VIEW);
  bench->window = GTK_WIDGET (bench->maker.window);
  bw_stone_view_set_patience (BW_STONE_VIEW (bench->view), 1e9);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_object_set (bw_settings_get (), "appearance", "system", "lamp-light", FALSE, NULL);
  maker_stop (&bench->maker);
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

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (the_picture_is_whole_and_fine_again_after_themes_and_stages),
    IN_WINDOW (a_theme_shows_the_picture_of_now_and_no_older_one),
    IN_WINDOW (the_cord_is_whole_where_the_piece_hangs_and_nowhere_else),
  };
  return maker_run (tests);
}
