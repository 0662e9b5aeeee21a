/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture kept between frames: always what a picture drawn from nothing would be, for less. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/gl/gl-picture.h"
#include "preview/gl/offscreen-context.h"
#include "preview/gl/gl-program.h"
#include <epoxy/gl.h>
#include <string.h>

enum { WIDTH = 200, HEIGHT = 170, BYTES = WIDTH * HEIGHT * 4 };

/* A context, and a framebuffer such as a toolkit would hand out. */
static BwOffscreen *gl;
static GLuint framebuffer, colour;

static int
open_gl (void **state)
{
  gl = bw_offscreen_new (FALSE, NULL);
  if (!gl)
    return -1;
  glGenFramebuffers (1, &framebuffer);
  glBindFramebuffer (GL_FRAMEBUFFER, framebuffer);
  glGenRenderbuffers (1, &colour);
  glBindRenderbuffer (GL_RENDERBUFFER, colour);
  glRenderbufferStorage (GL_RENDERBUFFER, GL_RGBA8, WIDTH, HEIGHT);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, colour);
  return 0;
}

static int
close_gl (void **state)
{
  glDeleteFramebuffers (1, &framebuffer);
  glDeleteRenderbuffers (1, &colour);
  bw_offscreen_free (gl);
  return 0;
}

typedef struct {
  BwProject *project;
  BwScene *scene;
  BwRenderer *renderer;
  BwGlPicture *picture;
  BwGlShot shot;
  BwGlPace pace;
  gboolean best; /* the last picture cannot be bettered */
} Easel;

static Easel
easel_up (int piece)
{
  Easel easel = { .project = piece_new (piece) };
  easel.scene = bw_scene_new (easel.project, FALSE);
  easel.renderer = bw_renderer_new (NULL);
  easel.picture = bw_gl_picture_new ();
  /* What is drawn must not depend on how busy the machine is. */
  bw_gl_picture_set_patience (easel.picture, 1e9);
  assert_non_null (easel.renderer);
  bw_renderer_set_scene (easel.renderer, easel.scene);
  easel.shot = (BwGlShot){ { 30, 15, 1.6 }, BW_LAYER_ALL, BW_LIGHT_DAY, -1, WIDTH, HEIGHT, 1 };
  easel.pace = BW_GL_STILL;
  return easel;
}

static void
easel_down (Easel *easel)
{
  bw_gl_picture_free (easel->picture);
  bw_renderer_free (easel->renderer);
  bw_scene_free (easel->scene);
  g_object_unref (easel->project);
}

static guint8 *
shown (Easel *easel)
{
  guint8 *pixels = g_malloc (BYTES);
  glBindFramebuffer (GL_FRAMEBUFFER, framebuffer);
  glClearColor (1, 0, 1, 1);
  glClear (GL_COLOR_BUFFER_BIT);
  easel->best = bw_gl_picture_draw (easel->picture, easel->renderer, easel->scene, &easel->shot,
                                    easel->pace);
  GLint bound = 0;
  glGetIntegerv (GL_FRAMEBUFFER_BINDING, &bound);
  assert_int_equal (bound, framebuffer);
  glReadPixels (0, 0, WIDTH, HEIGHT, GL_RGBA, GL_UNSIGNED_BYTE, pixels);
  return pixels;
}

static void
equals_one_drawn_from_nothing (Easel *easel, double most)
{
  g_autofree guint8 *kept = shown (easel);
  assert_true (bw_gl_picture_last_share (easel->picture) < most);
  bw_renderer_set_scene (easel->renderer, easel->scene);
  bw_gl_picture_spoil (easel->picture);
  g_autofree guint8 *anew = shown (easel);
  assert_true (bw_gl_picture_last_share (easel->picture) == 1);
  assert_memory_equal (kept, anew, BYTES);
}

static void
take_changed (Easel *easel, const GArray *changed)
{
  const int *bead = (const int *)changed->data;
  bw_renderer_update_beads (easel->renderer, easel->scene, bead, (int)changed->len);
  bw_gl_picture_spoil_beads (easel->picture, bead, (int)changed->len);
}

/* The first bead and one of the last row: nothing between them is handed over. */
static void
two_far_beads_upload_two (void **state)
{
  Easel easel = easel_up (0);
  g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
  int last = bw_project_get_design (easel.project)->band.rows;
  g_free (shown (&easel));
  for (guint8 i = 0; i < 3; i++) {
    bw_project_set_bead (easel.project, "", FALSE, 1, 2, i);
    bw_project_set_bead (easel.project, "", FALSE, last, last % 2 ? 2 : 1, i);
  }
  bw_scene_recolour (easel.scene, easel.project, FALSE, changed);
  assert_in_range (changed->len, 1, 2);
  guint64 uploaded = bw_renderer_uploaded (easel.renderer);
  take_changed (&easel, changed);
  assert_true (bw_renderer_uploaded (easel.renderer) - uploaded <= changed->len);
  equals_one_drawn_from_nothing (&easel, 0.9);
  easel_down (&easel);
}

static void
painted_beads_cost_their_own_pixels (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  Easel easel = easel_up (0);
  easel.pace = BW_GL_AT_REST;
  g_free (shown (&easel));
  g_free (shown (&easel));
  for (int i = 0; i < 30; i++) {
    g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
    int row = g_rand_int_range (rand, 1, 90), column = g_rand_int_range (rand, 1, 11);
    bw_project_set_bead (easel.project, "", FALSE, row, column,
                         (guint8)g_rand_int_range (rand, 0, BW_N_FINISHES));
    guint64 uploaded = bw_renderer_uploaded (easel.renderer);
    bw_scene_recolour (easel.scene, easel.project, FALSE, changed);
    take_changed (&easel, changed);
    assert_true (bw_renderer_uploaded (easel.renderer) - uploaded <= changed->len);
    equals_one_drawn_from_nothing (&easel, 0.03);
  }
  easel_down (&easel);
}

static void
a_moving_pointer_costs_two_beads (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  Easel easel = easel_up (1);
  g_free (shown (&easel));
  for (int i = 0; i < 30; i++) {
    easel.shot.hover = g_rand_int_range (rand, -1, (int)easel.scene->beads->len);
    g_autofree guint8 *kept = shown (&easel);
    bw_gl_picture_spoil (easel.picture);
    g_autofree guint8 *anew = shown (&easel);
    assert_memory_equal (kept, anew, BYTES);
  }
  /* From a bead to its neighbour: one small part. */
  easel.shot.hover = 100;
  g_free (shown (&easel));
  easel.shot.hover = 101;
  equals_one_drawn_from_nothing (&easel, 0.05);
  easel_down (&easel);
}

static void
nothing_new_costs_nothing (void **state)
{
  Easel easel = easel_up (2);
  g_autofree guint8 *first = shown (&easel);
  g_autofree guint8 *second = shown (&easel);
  assert_true (bw_gl_picture_last_share (easel.picture) == 0);
  assert_memory_equal (first, second, BYTES);
  easel_down (&easel);
}

static void
another_eye_light_layer_or_many_beads_cost_a_whole_picture (void **state)
{
  Easel easel = easel_up (3);
  g_free (shown (&easel));
  easel.shot.camera.turn_deg += 1;
  g_free (shown (&easel));
  assert_true (bw_gl_picture_last_share (easel.picture) == 1);
  easel.shot.light = BW_LIGHT_LAMP;
  g_free (shown (&easel));
  assert_true (bw_gl_picture_last_share (easel.picture) == 1);
  easel.shot.layers = BW_LAYER_BAND;
  g_free (shown (&easel));
  assert_true (bw_gl_picture_last_share (easel.picture) == 1);
  int many[300];
  for (int i = 0; i < 300; i++)
    many[i] = i;
  bw_gl_picture_spoil_beads (easel.picture, many, 300);
  g_free (shown (&easel));
  assert_true (bw_gl_picture_last_share (easel.picture) == 1);
  easel_down (&easel);
}

static void
at_rest_the_picture_is_fine_whatever_came_before (void **state)
{
  Easel easel = easel_up (0);
  easel.pace = BW_GL_AT_REST;
  g_autofree guint8 *first = shown (&easel);
  for (int i = 1; i <= 5; i++) {
    easel.shot.camera.turn_deg = 30 + 3 * (i % 5);
    glBindFramebuffer (GL_FRAMEBUFFER, framebuffer);
    bw_gl_picture_draw (easel.picture, easel.renderer, easel.scene, &easel.shot, BW_GL_MOVING);
  }
  assert_true (easel.shot.camera.turn_deg == 30);
  bw_gl_picture_spoil (easel.picture);
  g_autofree guint8 *last = shown (&easel);
  assert_memory_equal (first, last, BYTES);
  easel_down (&easel);
}

/* Differences between neighbouring pixels, summed: jagged edges have more of them. */
static double
roughness (const guint8 *pixels)
{
  double sum = 0;
  for (int i = 0; i + 4 < BYTES; i++)
    sum += abs (pixels[i] - pixels[i + 4]) * abs (pixels[i] - pixels[i + 4]);
  return sum;
}

static void
rest_makes_the_picture_smoother (void **state)
{
  Easel easel = easel_up (0);
  easel.pace = BW_GL_STILL;
  g_autofree guint8 *still = shown (&easel);
  gboolean smooth_already = easel.best;
  easel.pace = BW_GL_AT_REST;
  g_autofree guint8 *rest = shown (&easel);
  assert_true (easel.best);
  g_autofree guint8 *again = shown (&easel);
  if (smooth_already)
    assert_memory_equal (rest, still, BYTES);
  else
    assert_true (roughness (rest) < 0.95 * roughness (still));
  assert_true (bw_gl_picture_last_share (easel.picture) == 0);
  assert_memory_equal (rest, again, BYTES);
  easel_down (&easel);
}

/* One slow frame is no verdict: the machine may have been busy. */
static void
a_picture_that_was_slow_is_timed_again (void **state)
{
  Easel easel = easel_up (0);
  bw_gl_picture_set_patience (easel.picture, 0);
  g_free (shown (&easel));
  gboolean software = bw_gl_is_software ();
  assert_int_equal (easel.best, !software);
  easel.pace = BW_GL_AT_REST;
  g_free (shown (&easel));
  bw_gl_picture_set_patience (easel.picture, 1e9);
  g_free (shown (&easel));
  assert_true (easel.best);
  easel_down (&easel);
}

static void
a_picture_that_stays_slow_is_left_as_it_is (void **state)
{
  Easel easel = easel_up (0);
  bw_gl_picture_set_patience (easel.picture, 0);
  int draws = 0;
  do {
    g_free (shown (&easel));
    easel.pace = BW_GL_AT_REST;
  } while (!easel.best && ++draws < 20);
  assert_in_range (draws, 0, 5);
  g_free (shown (&easel));
  assert_true (easel.best);
  assert_true (bw_gl_picture_last_share (easel.picture) == 0);
  easel_down (&easel);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (painted_beads_cost_their_own_pixels),
    cmocka_unit_test (two_far_beads_upload_two),
    cmocka_unit_test (a_moving_pointer_costs_two_beads),
    cmocka_unit_test (nothing_new_costs_nothing),
    cmocka_unit_test (another_eye_light_layer_or_many_beads_cost_a_whole_picture),
    cmocka_unit_test (a_picture_that_was_slow_is_timed_again),
    cmocka_unit_test (a_picture_that_stays_slow_is_left_as_it_is),
    cmocka_unit_test (rest_makes_the_picture_smoother),
    cmocka_unit_test (at_rest_the_picture_is_fine_whatever_came_before),
  };
  return cmocka_run_group_tests_name ("gl-picture", tests, open_gl, close_gl);
}
