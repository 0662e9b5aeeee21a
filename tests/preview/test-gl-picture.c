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
#include "preview/scene/camera.h"
#include "preview/scene/scene-bead.h"
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

/* A matte bead of one hue or the other, so that which bead a pixel belongs to can be told. */
static void
dye (BwScene *scene, int i, gboolean green)
{
  BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
  bw_bead_paint (bead, green ? 0x3fe73f : 0xe73f3f, BW_FINISH_MATTE);
}

typedef struct {
  int outline; /* pixels that show a bead where the pointer would find one, and none elsewhere */
  int bead;    /* that show no other one than that */
} Right;

static Right
pixels_right (Easel *easel, const guint8 *pixels)
{
  BwEye eye;
  Right right = { 0, 0 };
  bw_eye_init (&eye, easel->shot.camera, easel->scene, WIDTH, HEIGHT);
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++) {
      const guint8 *pixel = pixels + 4 * ((HEIGHT - 1 - y) * WIDTH + x);
      int bead
          = bw_eye_pick (&eye, easel->scene, easel->shot.layers, x + 0.5, y + 0.5, WIDTH, HEIGHT);
      gboolean green = bead % 3 == 0, shown = pixel[3] > 127;
      right.outline += (bead >= 0) == shown;
      right.bead += bead < 0 || !shown || (pixel[1] > pixel[0]) == green;
    }
  return right;
}

/* Plainly drawn beads against the slow ray of the pointer; not down the holes, which that finds
 * filled. The picture is small, and many of its pixels lie on an outline. */
static void
a_moving_picture_has_true_outlines (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  int outline = 0, bead = 0;
  for (int which = 0; which < N_PIECES; which++) {
    Easel easel = easel_up (which);
    easel.shot.camera = piece_camera (rand);
    easel.shot.camera.tip_deg *= 0.4;
    easel.shot.camera.zoom = 2.5;
    easel.shot.layers = BW_LAYER_BAND | BW_LAYER_BAIL;
    easel.pace = BW_GL_MOVING;
    for (int i = 0; i < (int)easel.scene->beads->len; i++)
      dye (easel.scene, i, i % 3 == 0);
    bw_renderer_set_scene (easel.renderer, easel.scene);
    g_autofree guint8 *pixels = shown (&easel);
    Right right = pixels_right (&easel, pixels);
    outline += right.outline;
    bead += right.bead;
    easel_down (&easel);
  }
  assert_true (outline >= 0.995 * WIDTH * HEIGHT * N_PIECES);
  assert_true (bead >= 0.975 * WIDTH * HEIGHT * N_PIECES);
}

/* The stone is drawn small beside the picture, and kept there. */
static void
a_moving_stone_is_that_of_its_own_eye (void **state)
{
  Easel turned = easel_up (1), straight = easel_up (1);
  turned.pace = straight.pace = BW_GL_MOVING;
  turned.shot.camera.turn_deg -= 40;
  g_free (shown (&turned));
  turned.shot.camera = straight.shot.camera;
  g_autofree guint8 *after = shown (&turned), *at_once = shown (&straight);
  assert_memory_equal (after, at_once, BYTES);
  easel_down (&turned);
  easel_down (&straight);
}

/* Near and as dots; the bail and the far side of the band are there too. */
static void
beads_in_no_order_make_the_same_picture (void **state)
{
  for (int which = 0; which < 2 * N_PIECES; which++) {
    Easel easel = easel_up (which % N_PIECES);
    easel.shot.camera
        = (BwCamera){ 40 * which, 35 - 20 * (which % 4), which < N_PIECES ? 2.5 : 0.3 };
    g_autofree guint8 *sorted = shown (&easel);
    bw_renderer_lie_loose (easel.renderer, TRUE);
    bw_gl_picture_spoil (easel.picture);
    g_autofree guint8 *loose = shown (&easel);
    double off = 0;
    for (int i = 0; i < BYTES; i++)
      off += abs (sorted[i] - loose[i]);
    assert_true (off / BYTES < (which < N_PIECES ? 4 : 0.5));
    guint64 uploaded = bw_renderer_uploaded (easel.renderer);
    easel.shot.camera.turn_deg += 20;
    g_free (shown (&easel));
    assert_int_equal (bw_renderer_uploaded (easel.renderer), uploaded);
    easel_down (&easel);
  }
}

static double
mean_light (const guint8 *pixels, int channel)
{
  double sum = 0;
  for (int i = channel; i < BYTES; i += 4)
    sum += pixels[i];
  return sum / (WIDTH * HEIGHT);
}

/* When the hand lets go the piece shall not change its colour. */
static void
a_moving_picture_is_lit_like_the_fine_one (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    Easel easel = easel_up (which);
    easel.shot.light = which % 2 ? BW_LIGHT_LAMP : BW_LIGHT_DAY;
    easel.shot.layers = which % 3 ? BW_LAYER_BAND | BW_LAYER_BAIL : BW_LAYER_ALL;
    easel.pace = BW_GL_MOVING;
    g_autofree guint8 *moving = shown (&easel);
    easel.pace = BW_GL_STILL;
    g_autofree guint8 *still = shown (&easel);
    for (int channel = 0; channel < 4; channel++)
      assert_true (fabs (mean_light (moving, channel) - mean_light (still, channel))
                   < 0.07 * mean_light (still, channel) + 0.5);
    easel_down (&easel);
  }
}

static BwGlRefined
refine (Easel *easel, BwGlPace pace)
{
  return bw_gl_picture_refine (easel->picture, easel->renderer, easel->scene, pace);
}

/* Strips until the better picture is whole; how many there were before the last. */
static int
refine_wholly (Easel *easel, BwGlPace pace)
{
  int strips = 0;
  BwGlRefined refined;
  while ((refined = refine (easel, pace)) == BW_GL_REFINED_STRIP)
    strips++;
  assert_int_equal (refined, BW_GL_REFINED_PICTURE);
  return strips;
}

/* What is shown now, without a stroke drawn, is what a new picture at that pace would be. */
static void
equals_a_new_one (Easel *easel, BwGlPace pace)
{
  g_autofree guint8 *now = shown (easel);
  assert_true (bw_gl_picture_last_share (easel->picture) == 0);
  BwGlPicture *kept = easel->picture;
  easel->picture = bw_gl_picture_new ();
  BwGlPace before = easel->pace;
  easel->pace = pace;
  g_autofree guint8 *anew = shown (easel);
  bw_gl_picture_free (easel->picture);
  easel->picture = kept;
  easel->pace = before;
  assert_memory_equal (now, anew, BYTES);
}

static void
a_better_picture_comes_in_strips_and_is_shown_whole (void **state)
{
  if (!bw_gl_is_software ())
    return;
  Easel easel = easel_up (0);
  easel.pace = BW_GL_MOVING;
  g_autofree guint8 *plain = shown (&easel);
  assert_false (easel.best);
  assert_int_equal (refine (&easel, BW_GL_MOVING), BW_GL_REFINED_NOTHING);
  assert_int_equal (refine (&easel, BW_GL_STILL), BW_GL_REFINED_STRIP);
  g_autofree guint8 *meanwhile = shown (&easel);
  assert_memory_equal (plain, meanwhile, BYTES);
  assert_true (refine_wholly (&easel, BW_GL_STILL) >= 1);
  assert_false (bw_gl_picture_is_plain (easel.picture));
  equals_a_new_one (&easel, BW_GL_STILL);
  assert_int_equal (refine (&easel, BW_GL_STILL), BW_GL_REFINED_NOTHING);
  assert_true (refine_wholly (&easel, BW_GL_AT_REST) >= 1);
  equals_a_new_one (&easel, BW_GL_AT_REST);
  g_free (shown (&easel));
  assert_true (easel.best);
  assert_int_equal (refine (&easel, BW_GL_AT_REST), BW_GL_REFINED_NOTHING);
  easel_down (&easel);
}

static void
paint_one (Easel *easel, int row)
{
  const int column = row % 2 ? 2 : 1;
  g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
  bw_project_set_bead (easel->project, "", FALSE, row, column,
                       (guint8)((row / 4 + column / 2 + 1) % BW_N_FINISHES));
  bw_scene_recolour (easel->scene, easel->project, FALSE, changed);
  take_changed (easel, changed);
}

/* Rows painted here and there while strips go on: none of a stale picture may stay. */
static void
what_changes_meanwhile_gives_up_what_was_begun (void **state)
{
  if (!bw_gl_is_software ())
    return;
  Easel easel = easel_up (0);
  easel.pace = BW_GL_MOVING;
  g_free (shown (&easel));
  for (int row = 1; row <= 30; row++) {
    BwGlPace pace = bw_gl_picture_is_plain (easel.picture) ? BW_GL_STILL : BW_GL_AT_REST;
    refine (&easel, pace);
    refine (&easel, pace);
    paint_one (&easel, row);
    assert_int_equal (refine (&easel, pace), BW_GL_REFINED_NOTHING);
    g_free (shown (&easel));
    assert_true (bw_gl_picture_last_share (easel.picture) < 0.05);
    if (row % 7 == 0)
      easel.shot.hover = row;
    g_free (shown (&easel));
  }
  if (bw_gl_picture_is_plain (easel.picture))
    refine_wholly (&easel, BW_GL_STILL);
  g_free (shown (&easel));
  /* Where strips are drawn so fast that they are high the picture is whole by now. */
  while (refine (&easel, BW_GL_AT_REST) == BW_GL_REFINED_STRIP)
    ;
  equals_a_new_one (&easel, BW_GL_AT_REST);
  easel.shot.camera.turn_deg += 5;
  g_free (shown (&easel));
  assert_true (bw_gl_picture_is_plain (easel.picture));
  refine (&easel, BW_GL_STILL);
  easel.shot.camera.turn_deg += 5;
  g_free (shown (&easel));
  refine_wholly (&easel, BW_GL_STILL);
  equals_a_new_one (&easel, BW_GL_STILL);
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
    cmocka_unit_test (rest_makes_the_picture_smoother),
    cmocka_unit_test (a_moving_picture_has_true_outlines),
    cmocka_unit_test (a_moving_picture_is_lit_like_the_fine_one),
    cmocka_unit_test (a_moving_stone_is_that_of_its_own_eye),
    cmocka_unit_test (beads_in_no_order_make_the_same_picture),
    cmocka_unit_test (a_better_picture_comes_in_strips_and_is_shown_whole),
    cmocka_unit_test (what_changes_meanwhile_gives_up_what_was_begun),
    cmocka_unit_test (at_rest_the_picture_is_fine_whatever_came_before),
  };
  return cmocka_run_group_tests_name ("gl-picture", tests, open_gl, close_gl);
}
