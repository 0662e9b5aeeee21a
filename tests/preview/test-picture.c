/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the pictures show, with OpenGL off-screen and without. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/pattern/colour.h"
#include "project/fault/fault-error.h"
#include "pieces.h"
#include "preview/scene/camera.h"
#include "preview/gl/offscreen-context.h"
#include "preview/picture/finish-pictures.h"
#include "preview/picture/offscreen.h"
#include "preview/picture/projection.h"
#include "preview/picture/still.h"
#include "preview/scene/scene-bead.h"
#include <string.h>

enum { SIZE = 240 };

/* One context for all tests: opening one takes longer than most of them. */
static BwOffscreen *gl;

static int
open_gl (void **state)
{
  g_autoptr (GError) error = NULL;
  gl = bw_offscreen_new (FALSE, &error);
  if (!gl)
    print_error ("%s\n", error->message);
  return gl ? 0 : -1;
}

static int
close_gl (void **state)
{
  bw_offscreen_free (gl);
  return 0;
}

static cairo_surface_t *
picture_on (BwOffscreen *offscreen, const BwScene *scene, BwCamera camera, guint layers,
            BwLight light, int hover)
{
  g_autoptr (GError) error = NULL;
  bw_offscreen_set_scene (offscreen, scene);
  cairo_surface_t *surface
      = bw_offscreen_picture (offscreen, scene, camera, layers, light, hover, SIZE, SIZE, &error);
  assert_non_null (surface);
  return surface;
}

static cairo_surface_t *
picture (const BwScene *scene, BwCamera camera, guint layers)
{
  return picture_on (gl, scene, camera, layers, BW_LIGHT_DAY, -1);
}

static cairo_surface_t *
drawing (const BwScene *scene, BwCamera camera, guint layers, int hover)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIZE, SIZE);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, scene, camera, layers, BW_LIGHT_DAY, hover, SIZE, SIZE);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static guint32
pixel (cairo_surface_t *surface, int x, int y)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  guint32 value;
  memcpy (&value, data + y * cairo_image_surface_get_stride (surface) + 4 * x, 4);
  return value;
}

static int
channel (guint32 pixel_value, int shift)
{
  return (int)(pixel_value >> shift & 255);
}

/* Mean difference of all channels, 0..255. */
static double
difference (cairo_surface_t *a, cairo_surface_t *b)
{
  double sum = 0;
  for (int y = 0; y < SIZE; y++)
    for (int x = 0; x < SIZE; x++)
      for (int shift = 0; shift < 32; shift += 8)
        sum += abs (channel (pixel (a, x, y), shift) - channel (pixel (b, x, y), shift));
  return sum / (4.0 * SIZE * SIZE);
}

static int
covered (cairo_surface_t *surface)
{
  int n = 0;
  for (int y = 0; y < SIZE; y++)
    for (int x = 0; x < SIZE; x++)
      n += channel (pixel (surface, x, y), 24) > 127;
  return n;
}

/* The camera before which bead i stands, and where its middle falls. */
static BwCamera
before (const BwScene *scene, int i, double zoom, double *x, double *y)
{
  const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
  BwCamera camera = { bw_degrees (atan2 ((double)bead->out[1], (double)bead->out[0])), 0, zoom };
  BwEye eye;
  bw_eye_init (&eye, camera, scene, SIZE, SIZE);
  assert_true (bw_eye_project (&eye, bead->at, SIZE, SIZE, x, y));
  return camera;
}

/* Mean colour round a point, in Lab. */
static BwLab
seen_at (cairo_surface_t *surface, double x, double y, int reach)
{
  BwLinear sum = { 0, 0, 0 };
  int n = 0;
  for (int dy = -reach; dy <= reach; dy++)
    for (int dx = -reach; dx <= reach; dx++) {
      guint32 value = pixel (surface, (int)x + dx, (int)y + dy);
      BwLinear light = bw_colour_linear (value & 0xffffff);
      sum = (BwLinear){ sum.r + light.r, sum.g + light.g, sum.b + light.b };
      n++;
    }
  return bw_colour_lab_from_linear ((BwLinear){ sum.r / n, sum.g / n, sum.b / n });
}

static double
hue_apart (BwLab a, BwLab b)
{
  double turn = fabs (bw_degrees (atan2 (a.b, a.a) - atan2 (b.b, b.a)));
  return turn > 180 ? 360 - turn : turn;
}

static void
set_look (BwScene *scene, int i, guint32 srgb, BwFinish finish)
{
  bw_bead_paint (&g_array_index (scene->beads, BwSceneBead, i), srgb, finish);
}

static void
a_bead_shows_its_own_hue_in_every_finish_and_after_a_change (void **state)
{
  const guint32 colours[] = { 0xc03028, 0x2858c0, 0x2a9040, 0xd0a020 };
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  int i = scene->n_band / 2 + 2;
  double x, y;
  BwCamera camera = before (scene, i, 6, &x, &y);
  cairo_surface_destroy (picture (scene, camera, BW_LAYER_ALL));
  for (int finish = 0; finish < BW_N_FINISHES; finish++)
    for (gsize c = 0; c < G_N_ELEMENTS (colours); c++) {
      set_look (scene, i, colours[c], (BwFinish)finish);
      bw_offscreen_update_beads (gl, scene, &i, 1);
      g_autoptr (GError) error = NULL;
      cairo_surface_t *shown = bw_offscreen_picture (gl, scene, camera, BW_LAYER_ALL, BW_LIGHT_DAY,
                                                     -1, SIZE, SIZE, &error);
      assert_non_null (shown);
      BwLab lab = seen_at (shown, x, y, 6);
      if (hue_apart (lab, bw_colour_lab (colours[c])) > 35 || hypot (lab.a, lab.b) < 8)
        fail_msg ("%s #%06x looks like L %.0f a %.0f b %.0f", bw_finish_word ((BwFinish)finish),
                  colours[c], lab.L, lab.a, lab.b);
      cairo_surface_destroy (shown);
    }
}

static void
finishes_of_one_colour_look_different (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  cairo_surface_t *shown[BW_N_FINISHES];
  double x, y;
  BwCamera camera = before (scene, scene->n_band / 2, 6, &x, &y);
  for (int finish = 0; finish < BW_N_FINISHES; finish++) {
    for (int i = 0; i < scene->n_band; i++)
      set_look (scene, i, 0x3a7a9a, (BwFinish)finish);
    shown[finish] = picture (scene, camera, BW_LAYER_ALL);
  }
  for (int a = 0; a < BW_N_FINISHES; a++)
    for (int b = 0; b < a; b++)
      if (difference (shown[a], shown[b]) < 4)
        fail_msg ("%s and %s differ by %.1f alone", bw_finish_word ((BwFinish)a),
                  bw_finish_word ((BwFinish)b), difference (shown[a], shown[b]));
  for (int finish = 0; finish < BW_N_FINISHES; finish++)
    cairo_surface_destroy (shown[finish]);
}

/* A close bead in this finish, with a thread of this radius. */
static cairo_surface_t *
threaded (BwScene *scene, BwFinish finish, float radius, guint layers)
{
  double x, y;
  BwCamera camera = before (scene, scene->n_band / 2, 8, &x, &y);
  for (int i = 0; i < scene->n_band; i++)
    set_look (scene, i, 0xe0ecf4, finish);
  scene->thread_radius = radius;
  return picture (scene, camera, layers);
}

static void
the_thread_is_seen_through_clear_glass_alone (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  for (int finish = 0; finish < BW_N_FINISHES; finish++) {
    cairo_surface_t *empty = threaded (scene, (BwFinish)finish, 0, BW_LAYER_BAND);
    cairo_surface_t *strung = threaded (scene, (BwFinish)finish, 0.12f, BW_LAYER_BAND);
    double changed = difference (empty, strung);
    if (finish == BW_FINISH_CLEAR)
      assert_true (changed > 0.3);
    else if (finish != BW_FINISH_FROSTED)
      assert_true (changed <= 0);
    cairo_surface_destroy (empty);
    cairo_surface_destroy (strung);
  }
}

static void
the_thread_between_beads_has_about_their_colour (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  BwTray tray = *bw_project_get_tray (project);
  for (int i = 0; i < tray.n_colours; i++)
    tray.colour[i].srgb = 0x204080;
  assert_true (bw_project_set_tray (project, "Blue", &tray, NULL));
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  assert_true (scene->thread_colour[2] > 1.5f * scene->thread_colour[0]);
  cairo_surface_t *strung
      = threaded (scene, BW_FINISH_OPAQUE, 0.12f, BW_LAYER_BAND | BW_LAYER_THREAD);
  cairo_surface_t *without = threaded (scene, BW_FINISH_OPAQUE, 0.12f, BW_LAYER_BAND);
  assert_true (difference (strung, without) > 0.1);
  cairo_surface_destroy (strung);
  cairo_surface_destroy (without);
}

static gpointer
make_card (gpointer card)
{
  return GINT_TO_POINTER (bw_finish_pictures (0x3a7a9a, SIZE, card));
}

static void
the_swatch_card_shows_each_finish_otherwise (void **state)
{
  cairo_surface_t *card[BW_N_FINISHES];
  GThread *thread = g_thread_new ("card", make_card, card);
  assert_true (GPOINTER_TO_INT (g_thread_join (thread)));
  for (int a = 0; a < BW_N_FINISHES; a++) {
    /* The patch fills its picture. */
    assert_int_equal (channel (pixel (card[a], 0, 0), 24), 255);
    assert_int_equal (channel (pixel (card[a], SIZE - 1, SIZE - 1), 24), 255);
    for (int b = 0; b < a; b++)
      if (difference (card[a], card[b]) < 3)
        fail_msg ("%s and %s differ by %.1f alone", bw_finish_word ((BwFinish)a),
                  bw_finish_word ((BwFinish)b), difference (card[a], card[b]));
  }
  for (int finish = 0; finish < BW_N_FINISHES; finish++)
    cairo_surface_destroy (card[finish]);
}

static void
an_uploaded_colour_gives_the_picture_of_a_new_scene (void **state)
{
  g_autoptr (BwProject) project = piece_new (1);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GError) error = NULL;
  BwCamera camera = { 40, 15, 1.5 };
  cairo_surface_t *first = picture (scene, camera, BW_LAYER_ALL);
  for (int row = 1; row <= 200; row++)
    for (int column = 1; column <= 10; column++)
      bw_project_set_bead (project, "", FALSE, row, column, (guint8)((row + column) % 3));
  g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
  bw_scene_recolour (scene, project, FALSE, changed);
  assert_true (changed->len > 0);
  bw_offscreen_update_beads (gl, scene, (const int *)changed->data, (int)changed->len);
  cairo_surface_t *updated = bw_offscreen_picture (gl, scene, camera, BW_LAYER_ALL, BW_LIGHT_DAY,
                                                   -1, SIZE, SIZE, &error);
  g_autoptr (BwScene) anew = bw_scene_new (project, FALSE);
  cairo_surface_t *other = picture (anew, camera, BW_LAYER_ALL);
  assert_true (difference (first, updated) > 1);
  assert_true (difference (updated, other) == 0);
  cairo_surface_destroy (first);
  cairo_surface_destroy (updated);
  cairo_surface_destroy (other);
}

static void
turning_tipping_and_coming_nearer_change_the_picture (void **state)
{
  g_autoptr (BwProject) project = piece_new (2);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  const BwCamera other[] = { { 35, 10, 1 }, { 30, 20, 1 }, { 30, 10, 1.3 } };
  cairo_surface_t *one = picture (scene, (BwCamera){ 30, 10, 1 }, BW_LAYER_ALL);
  cairo_surface_t *again = picture (scene, (BwCamera){ 30, 10, 1 }, BW_LAYER_ALL);
  assert_true (difference (one, again) == 0);
  for (gsize i = 0; i < G_N_ELEMENTS (other); i++) {
    cairo_surface_t *two = picture (scene, other[i], BW_LAYER_ALL);
    assert_true (difference (one, two) > 1);
    cairo_surface_destroy (two);
  }
  cairo_surface_destroy (one);
  cairo_surface_destroy (again);
}

/* Cairo's pixels are premultiplied: no channel may pass the alpha. */
static void
check_premultiplied (cairo_surface_t *surface)
{
  for (int y = 0; y < SIZE; y++)
    for (int x = 0; x < SIZE; x++) {
      guint32 value = pixel (surface, x, y);
      for (int shift = 0; shift < 24; shift += 8)
        assert_in_range (channel (value, shift), 0, channel (value, 24));
    }
}

static void
round_the_piece_the_picture_is_transparent (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    g_autoptr (BwProject) project = piece_new (which);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    cairo_surface_t *shown = picture (scene, (BwCamera){ 20, 10, 1 }, BW_LAYER_ALL);
    for (int i = 0; i < SIZE; i++) {
      assert_int_equal (pixel (shown, i, 0), 0);
      assert_int_equal (pixel (shown, 0, i), 0);
    }
    assert_true (covered (shown) > SIZE * SIZE / 20);
    check_premultiplied (shown);
    cairo_surface_destroy (shown);
  }
}

static void
each_layer_can_be_seen_alone_and_none_is_nothing (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  for (guint layer = BW_LAYER_STONE; layer <= BW_LAYER_THREAD; layer <<= 1) {
    cairo_surface_t *shown = picture (scene, (BwCamera){ 150, 20, 2 }, layer);
    cairo_surface_t *painted = drawing (scene, (BwCamera){ 150, 20, 2 }, layer, -1);
    assert_true (covered (shown) > 200);
    assert_true (covered (painted) > 200);
    cairo_surface_destroy (shown);
    cairo_surface_destroy (painted);
  }
  cairo_surface_t *nothing = picture (scene, (BwCamera){ 150, 20, 2 }, 0);
  assert_int_equal (covered (nothing), 0);
  cairo_surface_destroy (nothing);
}

static void
lamp_light_is_warmer_than_daylight (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  for (int i = 0; i < scene->n_band; i++)
    set_look (scene, i, 0xd0d0d0, BW_FINISH_MATTE);
  double x, y;
  BwCamera camera = before (scene, scene->n_band / 2, 3, &x, &y);
  cairo_surface_t *day = picture (scene, camera, BW_LAYER_ALL);
  cairo_surface_t *lamp = picture_on (gl, scene, camera, BW_LAYER_ALL, BW_LIGHT_LAMP, -1);
  BwLab by_day = seen_at (day, x, y, 5), by_lamp = seen_at (lamp, x, y, 5);
  assert_true (fabs (by_day.b) < 8);
  assert_true (by_lamp.b > by_day.b + 12);
  cairo_surface_destroy (day);
  cairo_surface_destroy (lamp);
}

/* Lightest and darkest luminance round the bead's outline. */
static void
extremes (cairo_surface_t *surface, double x, double y, double *low, double *high)
{
  *low = 1;
  *high = 0;
  for (int dy = -24; dy <= 24; dy++)
    for (int dx = -24; dx <= 24; dx++) {
      double light = bw_colour_luminance (pixel (surface, (int)x + dx, (int)y + dy) & 0xffffff);
      *low = MIN (*low, light);
      *high = MAX (*high, light);
    }
}

static void
a_bead_pointed_at_has_a_light_and_a_dark_rim_on_any_ground (void **state)
{
  const guint32 grounds[] = { 0xf4f4f4, 0x101010, 0x808080 };
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  int i = scene->n_band / 2 + 2;
  double x, y;
  BwCamera camera = before (scene, i, 6, &x, &y);
  for (gsize g = 0; g < G_N_ELEMENTS (grounds); g++) {
    for (int k = 0; k < scene->n_band; k++)
      set_look (scene, k, grounds[g], BW_FINISH_MATTE);
    cairo_surface_t *plain = picture (scene, camera, BW_LAYER_ALL);
    cairo_surface_t *lit = picture_on (gl, scene, camera, BW_LAYER_ALL, BW_LIGHT_DAY, i);
    cairo_surface_t *painted = drawing (scene, camera, BW_LAYER_ALL, i);
    double low, high;
    extremes (lit, x, y, &low, &high);
    assert_true (low < 0.05 && high > 0.8);
    extremes (painted, x, y, &low, &high);
    assert_true (low < 0.05 && high > 0.8);
    assert_true (difference (plain, lit) > 0.3);
    cairo_surface_destroy (plain);
    cairo_surface_destroy (lit);
    cairo_surface_destroy (painted);
  }
}

static void
the_picture_shows_beads_where_the_pointer_finds_them (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  guint layers = BW_LAYER_BAND | BW_LAYER_BAIL | BW_LAYER_STONE;
  int found = 0;
  for (int round = 0; round < 90; round++) {
    g_autoptr (BwProject) project = piece_new (round % N_PIECES);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    BwCamera camera = piece_camera (rand);
    BwEye eye;
    camera.zoom = 3;
    /* Not down a hole: the pointer finds the bead, the eye sees through it. */
    camera.tip_deg *= 0.4;
    bw_eye_init (&eye, camera, scene, SIZE, SIZE);
    int x = g_rand_int_range (rand, SIZE / 3, 2 * SIZE / 3);
    int y = g_rand_int_range (rand, SIZE / 3, 2 * SIZE / 3);
    int bead = bw_eye_pick (&eye, scene, layers, x + 0.5, y + 0.5, SIZE, SIZE);
    gboolean inside = bead >= 0;
    /* Not at a rim, where a pixel is part of two beads. */
    for (int k = 0; k < 8 && inside; k++)
      inside = bw_eye_pick (&eye, scene, layers, x + 0.5 + 1.5 * cos (k * G_PI / 4),
                            y + 0.5 + 1.5 * sin (k * G_PI / 4), SIZE, SIZE)
               == bead;
    if (!inside)
      continue;
    for (int i = 0; i < (int)scene->beads->len; i++)
      set_look (scene, i, i == bead ? 0x40ff40 : 0xff40ff, BW_FINISH_MATTE);
    cairo_surface_t *shown = picture (scene, camera, layers);
    guint32 value = pixel (shown, x, y);
    assert_true (channel (value, 8) > channel (value, 16)
                 && channel (value, 8) > channel (value, 0));
    cairo_surface_destroy (shown);
    found++;
  }
  assert_true (found >= 12);
}

/* A bead is left out when the stone surely hides it; then it must not be missed. */
static void
beads_left_out_are_not_missed (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);
  for (int which = 0; which < N_PIECES; which++) {
    g_autoptr (BwProject) project = piece_new (which);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    BwCamera camera = piece_camera (rand);
    camera.zoom = 1;
    BwEye eye;
    bw_eye_init (&eye, camera, scene, SIZE, SIZE);
    for (int i = 0; i < (int)scene->beads->len; i++)
      set_look (scene, i, 0x40ff40, BW_FINISH_MATTE);
    cairo_surface_t *shown
        = picture (scene, camera, BW_LAYER_STONE | BW_LAYER_BAND | BW_LAYER_BAIL);
    for (int y = 1; y < SIZE - 1; y += 2)
      for (int x = 1; x < SIZE - 1; x += 2) {
        gboolean bead = TRUE;
        for (int k = 0; k < 5 && bead; k++)
          bead = bw_eye_pick (&eye, scene, BW_LAYER_STONE | BW_LAYER_BAND | BW_LAYER_BAIL,
                              x + 0.5 + (k == 1) - (k == 2), y + 0.5 + (k == 3) - (k == 4), SIZE,
                              SIZE)
                 >= 0;
        guint32 value = pixel (shown, x, y);
        if (bead)
          assert_true (channel (value, 8) > channel (value, 16) + 5);
      }
    cairo_surface_destroy (shown);
  }
}

static void
opengl_es_shows_what_opengl_shows (void **state)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = piece_new (4);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwCamera camera = { 200, 20, 1.2 };
  cairo_surface_t *desktop = picture (scene, camera, BW_LAYER_ALL);
  bw_offscreen_free (gl);
  gl = bw_offscreen_new (TRUE, &error);
  assert_non_null (gl);
  cairo_surface_t *embedded = picture (scene, camera, BW_LAYER_ALL);
  bw_offscreen_free (gl);
  gl = bw_offscreen_new (FALSE, &error);
  assert_non_null (gl);
  assert_true (difference (desktop, embedded) < 0.5);
  cairo_surface_destroy (desktop);
  cairo_surface_destroy (embedded);
}

static void
the_drawn_projection_has_the_outline_of_the_picture (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    g_autoptr (BwProject) project = piece_new (which);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    BwCamera camera = { 40 + 50 * which, 15 * which - 30, 1 };
    cairo_surface_t *shown = picture (scene, camera, BW_LAYER_BAND | BW_LAYER_BED | BW_LAYER_BAIL);
    cairo_surface_t *painted
        = drawing (scene, camera, BW_LAYER_BAND | BW_LAYER_BED | BW_LAYER_BAIL, -1);
    int both = 0, either = 0;
    for (int y = 0; y < SIZE; y++)
      for (int x = 0; x < SIZE; x++) {
        gboolean a = channel (pixel (shown, x, y), 24) > 127;
        gboolean b = channel (pixel (painted, x, y), 24) > 127;
        both += a && b;
        either += a || b;
      }
    assert_true (both > 0.95 * either);
    check_premultiplied (painted);
    cairo_surface_destroy (shown);
    cairo_surface_destroy (painted);
  }
}

static void
one_call_makes_a_picture_from_any_thread (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GError) error = NULL;
  gboolean used_gl = FALSE;
  cairo_surface_t *one = bw_offscreen_render (scene, (BwCamera){ 30, 10, 1 }, BW_LAYER_ALL,
                                              BW_LIGHT_DAY, SIZE, SIZE, &used_gl, &error);
  assert_non_null (one);
  assert_true (used_gl);
  /* This thread's own context is still current and undisturbed. */
  cairo_surface_t *two = picture (scene, (BwCamera){ 30, 10, 1 }, BW_LAYER_ALL);
  assert_true (difference (one, two) == 0);
  cairo_surface_destroy (one);
  cairo_surface_destroy (two);
}

static void
a_size_out_of_range_is_refused (void **state)
{
  const int sizes[][2] = { { 15, 100 }, { 100, 8193 }, { -1, 100 }, { 100, 0 } };
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++) {
    g_autoptr (GError) error = NULL;
    assert_null (bw_offscreen_render (scene, (BwCamera){ 0, 0, 1 }, BW_LAYER_ALL, BW_LIGHT_DAY,
                                      sizes[i][0], sizes[i][1], NULL, &error));
    assert_true (g_error_matches (error, BW_FAULT, BW_FAULT_RANGE));
  }
}

/* The same piece on each ground: what hides the ground is the same, its edges are not. */
static void
a_picture_on_a_dark_ground_is_lit_for_it (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  bw_project_set_mineral (project, "Mineral", "amethyst");
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = { { 30, 10, 1 }, BW_LAYER_ALL, BW_LIGHT_DAY, BW_GROUND_DARK, SIZE, SIZE };
  cairo_surface_t *dark = bw_still_new (scene, &still, NULL);
  assert_true (scene->on_dark);
  still.ground = BW_GROUND_CLEAR;
  cairo_surface_t *clear = bw_still_new (scene, &still, NULL);
  assert_false (scene->on_dark);
  assert_true (difference (dark, clear) > 0);
  cairo_surface_destroy (dark);
  cairo_surface_destroy (clear);
}

/* The mean of what a stone of this mineral looks like on a ground, in a square about a point that
 * is so far up the stone. No beads, no cord. */
static BwLab
stone_seen (const char *mineral, BwGround ground, double up)
{
  g_autoptr (BwProject) project = piece_new (0);
  bw_project_set_mineral (project, "Mineral", mineral);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = { { 30, 4, 1 }, BW_LAYER_STONE, BW_LIGHT_DAY, ground, SIZE, SIZE };
  cairo_surface_t *shown = bw_still_new (scene, &still, NULL);
  float high = 0, at[3] = { 0, 0, 0 };
  for (guint i = 0; i < scene->stone->len; i++)
    high = MAX (high, g_array_index (scene->stone, BwSceneVertex, i).at[2]);
  BwEye eye;
  double x, y;
  at[2] = (float)up * high;
  bw_eye_init (&eye, still.camera, scene, SIZE, SIZE);
  assert_true (bw_eye_project (&eye, at, SIZE, SIZE, &x, &y));
  BwLab lab = seen_at (shown, x, y, 9);
  cairo_surface_destroy (shown);
  return lab;
}

static double
chroma (BwLab lab)
{
  return hypot (lab.a, lab.b);
}

/* Paper seen through amethyst is violet, through citrine yellow, and hardly coloured through
 * quartz. */
static void
paper_shows_through_a_stone_in_the_stones_own_colour (void **state)
{
  BwLab amethyst = stone_seen ("amethyst", BW_GROUND_PAPER, 0.35);
  BwLab citrine = stone_seen ("citrine", BW_GROUND_PAPER, 0.35);
  BwLab quartz = stone_seen ("quartz", BW_GROUND_PAPER, 0.35);
  assert_true (amethyst.a > 8 && amethyst.b < -8);
  assert_true (citrine.b > 20);
  assert_true (chroma (quartz) < 8);
  assert_true (quartz.L > amethyst.L + 5);
}

/* Clear stone on paper is neither whiter than the paper nor a hole in the picture. */
static void
clear_stone_does_not_burn_out_on_paper (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = { { 30, 4, 1 }, BW_LAYER_STONE, BW_LIGHT_DAY, BW_GROUND_PAPER, SIZE, SIZE };
  scene->stone_keeps[0] = scene->stone_keeps[1] = scene->stone_keeps[2] = 1;
  cairo_surface_t *shown = bw_still_new (scene, &still, NULL);
  int burnt = 0;
  for (int y = 0; y < SIZE; y++)
    for (int x = 0; x < SIZE; x++) {
      guint32 rgb = pixel (shown, x, y);
      burnt += (rgb & 0xff) > 248 && (rgb >> 8 & 0xff) > 248 && (rgb >> 16 & 0xff) > 248;
    }
  assert_true (burnt < SIZE * SIZE / 200);
  cairo_surface_destroy (shown);
}

static void
an_amethyst_is_deeper_towards_its_tip_and_smoky_quartz_is_even (void **state)
{
  double ratio[2];
  static const char *const names[] = { "amethyst", "smoky quartz" };
  for (int i = 0; i < 2; i++) {
    BwLab low = stone_seen (names[i], BW_GROUND_PAPER, 0.15);
    BwLab high = stone_seen (names[i], BW_GROUND_PAPER, 0.55);
    ratio[i] = high.L / low.L;
  }
  assert_true (ratio[0] < 0.93 * ratio[1]);
}

/* What is milky hides what lies behind it; what is black shows nothing but its shine. */
static void
rose_quartz_is_milky_and_obsidian_black (void **state)
{
  BwLab on_paper = stone_seen ("rose quartz", BW_GROUND_PAPER, 0.3);
  BwLab on_dark = stone_seen ("rose quartz", BW_GROUND_DARK, 0.3);
  BwLab clear = stone_seen ("quartz", BW_GROUND_PAPER, 0.3);
  BwLab clear_on_dark = stone_seen ("quartz", BW_GROUND_DARK, 0.3);
  assert_true (fabs (on_paper.L - on_dark.L) < 0.5 * fabs (clear.L - clear_on_dark.L));
  assert_true (on_paper.a > 4);
  assert_true (stone_seen ("obsidian", BW_GROUND_PAPER, 0.3).L < 0.6 * clear.L);
  assert_true (chroma (stone_seen ("obsidian", BW_GROUND_PAPER, 0.3)) < 8);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_bead_shows_its_own_hue_in_every_finish_and_after_a_change),
    cmocka_unit_test (finishes_of_one_colour_look_different),
    cmocka_unit_test (the_thread_is_seen_through_clear_glass_alone),
    cmocka_unit_test (the_thread_between_beads_has_about_their_colour),
    cmocka_unit_test (the_swatch_card_shows_each_finish_otherwise),
    cmocka_unit_test (an_uploaded_colour_gives_the_picture_of_a_new_scene),
    cmocka_unit_test (turning_tipping_and_coming_nearer_change_the_picture),
    cmocka_unit_test (round_the_piece_the_picture_is_transparent),
    cmocka_unit_test (each_layer_can_be_seen_alone_and_none_is_nothing),
    cmocka_unit_test (lamp_light_is_warmer_than_daylight),
    cmocka_unit_test (a_bead_pointed_at_has_a_light_and_a_dark_rim_on_any_ground),
    cmocka_unit_test (the_picture_shows_beads_where_the_pointer_finds_them),
    cmocka_unit_test (beads_left_out_are_not_missed),
    cmocka_unit_test (opengl_es_shows_what_opengl_shows),
    cmocka_unit_test (the_drawn_projection_has_the_outline_of_the_picture),
    cmocka_unit_test (one_call_makes_a_picture_from_any_thread),
    cmocka_unit_test (a_size_out_of_range_is_refused),
    cmocka_unit_test (a_picture_on_a_dark_ground_is_lit_for_it),
    cmocka_unit_test (paper_shows_through_a_stone_in_the_stones_own_colour),
    cmocka_unit_test (clear_stone_does_not_burn_out_on_paper),
    cmocka_unit_test (an_amethyst_is_deeper_towards_its_tip_and_smoky_quartz_is_even),
    cmocka_unit_test (rose_quartz_is_milky_and_obsidian_black),
  };
  return cmocka_run_group_tests_name ("picture", tests, open_gl, close_gl);
}
