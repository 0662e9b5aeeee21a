/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawn picture kept between paintings: always what one painted from nothing would be, and a
 * bead that changed costs its neighbourhood alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/picture/drawn.h"
#include <string.h>

enum { WIDTH = 310, HEIGHT = 270, MOST_SCALE = 2 };

/* Where a clip cuts an edge, cairo may round otherwise: by so many steps of a channel, and by more
 * at hardly a pixel of the whole picture. A bead that was left as it was is dozens of pixels. */
#define ROUNDING 8
#define HARDLY_ANY 6

typedef struct {
  BwScene *scene;
  BwDrawn *drawn;
  BwCamera camera;
  guint layers;
  int hover, scale;
} Easel;

static Easel
easel_up (BwProject *project, BwCamera camera)
{
  Easel easel = { bw_scene_new (project, FALSE), bw_drawn_new (), camera, BW_LAYER_ALL, -1, 1 };
  return easel;
}

static void
easel_down (Easel *easel)
{
  bw_drawn_free (easel->drawn);
  bw_scene_free (easel->scene);
}

static cairo_surface_t *
painted (const Easel *easel, BwDrawn *drawn)
{
  cairo_surface_t *paper = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH * easel->scale,
                                                       HEIGHT * easel->scale);
  cairo_surface_set_device_scale (paper, easel->scale, easel->scale);
  cairo_t *cr = cairo_create (paper);
  bw_drawn_paint (drawn, cr, easel->scene, easel->camera, easel->layers, BW_LIGHT_DAY, easel->hover,
                  WIDTH, HEIGHT, easel->scale);
  cairo_destroy (cr);
  cairo_surface_flush (paper);
  return paper;
}

/* How many values of two pictures differ by more than so many steps. */
static int
n_apart (cairo_surface_t *a, cairo_surface_t *b, int steps)
{
  const guint8 *one = cairo_image_surface_get_data (a), *two = cairo_image_surface_get_data (b);
  int bytes = cairo_image_surface_get_stride (a) * cairo_image_surface_get_height (a), n = 0;
  for (int i = 0; i < bytes; i++)
    n += abs (one[i] - two[i]) > steps;
  return n;
}

static void
equals_one_painted_from_nothing (Easel *easel)
{
  g_autoptr (BwDrawn) anew = bw_drawn_new ();
  cairo_surface_t *kept = painted (easel, easel->drawn), *fresh = painted (easel, anew);
  assert_true (n_apart (kept, fresh, ROUNDING) <= HARDLY_ANY);
  cairo_surface_destroy (kept);
  cairo_surface_destroy (fresh);
}

/* Gives a bead another colour in the scene, as the scene itself does, and says so. */
static void
change_bead (Easel *easel, int index)
{
  BwSceneBead *bead = &g_array_index (easel->scene->beads, BwSceneBead, index);
  bead->srgb[0] = 255 - bead->srgb[0];
  bead->srgb[2] = 255 - bead->srgb[2];
  bw_drawn_spoil_beads (easel->drawn, &index, 1);
}

static void
beads_that_change_leave_the_picture_of_one_painted_from_nothing (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20);
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    Easel easel = easel_up (project, piece_camera (rand));
    easel.scale = 1 + piece % MOST_SCALE;
    equals_one_painted_from_nothing (&easel);
    for (int round = 0; round < 6; round++) {
      for (int i = 0; i < 1 + 2 * (round % 3); i++)
        change_bead (&easel, g_rand_int_range (rand, 0, (int)easel.scene->beads->len));
      equals_one_painted_from_nothing (&easel);
    }
    easel_down (&easel);
  }
}

static void
one_bead_of_thousands_costs_its_neighbours (void **state)
{
  g_autoptr (BwProject) project = piece_of_size (10000);
  Easel easel = easel_up (project, (BwCamera){ 20, 10, 1 });
  cairo_surface_destroy (painted (&easel, easel.drawn));
  guint64 whole = bw_drawn_beads_painted (easel.drawn);
  assert_true (whole > 5000);
  for (int index = 0; index < (int)easel.scene->beads->len; index += 997) {
    guint64 before = bw_drawn_beads_painted (easel.drawn);
    change_bead (&easel, index);
    cairo_surface_destroy (painted (&easel, easel.drawn));
    /* Those at the edge lie over and under many that are seen end on. */
    assert_true (bw_drawn_beads_painted (easel.drawn) - before < 300);
  }
  equals_one_painted_from_nothing (&easel);
  easel_down (&easel);
}

static void
nothing_that_changed_paints_no_bead (void **state)
{
  g_autoptr (BwProject) project = piece_new (1);
  Easel easel = easel_up (project, (BwCamera){ 20, 10, 1 });
  cairo_surface_t *first = painted (&easel, easel.drawn);
  guint64 before = bw_drawn_beads_painted (easel.drawn);
  cairo_surface_t *second = painted (&easel, easel.drawn);
  assert_int_equal (bw_drawn_beads_painted (easel.drawn), before);
  assert_int_equal (n_apart (first, second, 0), 0);
  cairo_surface_destroy (first);
  cairo_surface_destroy (second);
  easel_down (&easel);
}

static void
the_ring_round_a_bead_comes_and_goes_without_painting_one (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  Easel easel = easel_up (project, (BwCamera){ 20, 10, 1.5f });
  cairo_surface_t *bare = painted (&easel, easel.drawn);
  guint64 before = bw_drawn_beads_painted (easel.drawn);
  int seen = 0;
  for (easel.hover = 0; easel.hover < (int)easel.scene->beads->len; easel.hover += 37) {
    cairo_surface_t *ringed = painted (&easel, easel.drawn);
    seen += n_apart (bare, ringed, 50) > 0;
    cairo_surface_destroy (ringed);
  }
  assert_true (seen > 5);
  easel.hover = -1;
  cairo_surface_t *again = painted (&easel, easel.drawn);
  assert_int_equal (n_apart (bare, again, 0), 0);
  assert_int_equal (bw_drawn_beads_painted (easel.drawn), before);
  cairo_surface_destroy (bare);
  cairo_surface_destroy (again);
  easel_down (&easel);
}

static void
another_eye_layer_or_ground_paints_all_anew (void **state)
{
  g_autoptr (BwProject) project = piece_new (2);
  Easel easel = easel_up (project, (BwCamera){ 20, 10, 1 });
  equals_one_painted_from_nothing (&easel);
  change_bead (&easel, 3);
  easel.camera.turn_deg += 5;
  equals_one_painted_from_nothing (&easel);
  easel.camera.tip_deg += 5;
  equals_one_painted_from_nothing (&easel);
  easel.camera.zoom *= 2;
  equals_one_painted_from_nothing (&easel);
  easel.layers &= ~(guint)BW_LAYER_STONE;
  equals_one_painted_from_nothing (&easel);
  easel.scene->on_dark = !easel.scene->on_dark;
  equals_one_painted_from_nothing (&easel);
  easel.scene->free_below = 0.2f;
  equals_one_painted_from_nothing (&easel);
  easel.scale = 2;
  equals_one_painted_from_nothing (&easel);
  easel_down (&easel);
}

static void
most_beads_at_once_are_the_whole_picture (void **state)
{
  g_autoptr (BwProject) project = piece_new (3);
  Easel easel = easel_up (project, (BwCamera){ 80, -10, 1 });
  equals_one_painted_from_nothing (&easel);
  for (int i = 0; i < (int)easel.scene->beads->len; i++)
    change_bead (&easel, i);
  equals_one_painted_from_nothing (&easel);
  easel_down (&easel);
}

static void
another_stance_is_painted_once_it_is_told (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  Easel easel = easel_up (project, (BwCamera){ 20, 10, 1 });
  equals_one_painted_from_nothing (&easel);
  bw_scene_stand_at_rest (easel.scene);
  bw_drawn_spoil (easel.drawn);
  equals_one_painted_from_nothing (&easel);
  easel_down (&easel);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (beads_that_change_leave_the_picture_of_one_painted_from_nothing),
    cmocka_unit_test (one_bead_of_thousands_costs_its_neighbours),
    cmocka_unit_test (nothing_that_changed_paints_no_bead),
    cmocka_unit_test (the_ring_round_a_bead_comes_and_goes_without_painting_one),
    cmocka_unit_test (another_eye_layer_or_ground_paints_all_anew),
    cmocka_unit_test (most_beads_at_once_are_the_whole_picture),
    cmocka_unit_test (another_stance_is_painted_once_it_is_told),
  };
  cmocka_set_message_output (CM_OUTPUT_TAP);
  return cmocka_run_group_tests (tests, NULL, NULL);
}
