/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Once round the piece: evenly, for ever, and in a file that others can read. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/fine/weaving.h"
#include <math.h>
#include <string.h>
#include <webp/demux.h>

enum { SIDE = 64, FRAMES = 5 };

static const BwStill first = { .camera = { 250, 12, 1 },
                               .layers = BW_LAYER_STONE | BW_LAYER_BAND | BW_LAYER_BED,
                               .width = SIDE,
                               .height = SIDE };

static void
each_frame_follows_the_one_before_as_the_first_follows_the_last (void **state)
{
  for (int n = BW_TURNTABLE_LEAST; n <= BW_TURNTABLE_MOST; n++)
    for (int i = 0; i < n; i++) {
      double here = bw_turntable_turn (-33, i, n), next = bw_turntable_turn (-33, (i + 1) % n, n);
      double step = fmod (next - here + 720, 360);
      assert_true (here >= 0 && here < 360);
      assert_true (fabs (step - 360.0 / n) < 1e-9);
    }
}

static cairo_status_t
read_bytes (void *data, unsigned char *to, unsigned int length)
{
  GBytes **rest = data;
  gsize size;
  const guint8 *from = g_bytes_get_data (*rest, &size);
  if (length > size)
    return CAIRO_STATUS_READ_ERROR;
  memcpy (to, from, length);
  GBytes *less = g_bytes_new_from_bytes (*rest, length, size - length);
  g_bytes_unref (*rest);
  *rest = less;
  return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *
decoded (GBytes *png)
{
  g_autoptr (GBytes) rest = g_bytes_ref (png);
  cairo_surface_t *surface = cairo_image_surface_create_from_png_stream (read_bytes, &rest);
  assert_int_equal (cairo_surface_status (surface), CAIRO_STATUS_SUCCESS);
  return surface;
}

/* Mean difference of all parts of all points, 0..255. */
static double
apart (const guint8 *a, const guint8 *b)
{
  double sum = 0;
  for (int i = 0; i < 4 * SIDE * SIDE; i++)
    sum += abs (a[i] - b[i]);
  return sum / (4 * SIDE * SIDE);
}

static BwScene *
scene_new (void)
{
  g_autoptr (BwProject) project = piece_new (1);
  return bw_scene_new (project, FALSE);
}

static void
one_step_past_the_last_picture_is_the_first (void **state)
{
  g_autoptr (BwScene) scene = scene_new ();
  g_autoptr (GPtrArray) frames
      = bw_turntable_pngs (scene, &first, FRAMES, NULL, NULL, NULL, NULL, NULL);
  assert_int_equal (frames->len, FRAMES);
  BwStill past = first;
  past.camera.turn_deg
      = bw_turntable_turn (first.camera.turn_deg, FRAMES - 1, FRAMES) + 360.0 / FRAMES;
  cairo_surface_t *again = bw_still_new (scene, &past, NULL);
  cairo_surface_flush (again);
  for (guint i = 0; i < FRAMES; i++) {
    cairo_surface_t *frame = decoded (g_ptr_array_index (frames, i));
    double off = apart (cairo_image_surface_get_data (frame), cairo_image_surface_get_data (again));
    if (i == 0)
      assert_true (off < 0.05);
    else
      assert_true (off > 0.5);
    cairo_surface_destroy (frame);
  }
  cairo_surface_destroy (again);
}

static void
a_fine_turntable_is_made_of_fine_pictures (void **state)
{
  g_autoptr (BwScene) scene = scene_new ();
  BwFineOptions options = { .looks = 4 };
  g_autoptr (GPtrArray) fine
      = bw_turntable_pngs (scene, &first, 2, &options, NULL, NULL, NULL, NULL);
  cairo_surface_t *frame = decoded (g_ptr_array_index (fine, 0));
  cairo_surface_t *same = bw_fine_new (scene, &first, &options, NULL, NULL, NULL, NULL);
  cairo_surface_flush (same);
  assert_true (apart (cairo_image_surface_get_data (frame), cairo_image_surface_get_data (same))
               < 1e-9);
  cairo_surface_destroy (frame);
  cairo_surface_destroy (same);
}

static void
count_tellings (double done, cairo_surface_t *so_far, gpointer n)
{
  assert_true (done > 0 && done <= 1);
  ++*(int *)n;
}

/* Red and blue change places between cairo's words and the decoder's bytes, and colours are weighed
 * with their alpha again. */
static void
as_cairo_has_it (guint8 *points)
{
  for (int i = 0; i < SIDE * SIDE; i++) {
    guint8 *p = points + 4 * i, red = p[0];
    p[0] = (guint8)(p[2] * p[3] / 255);
    p[1] = (guint8)(p[1] * p[3] / 255);
    p[2] = (guint8)(red * p[3] / 255);
  }
}

static void
the_animated_picture_goes_round_for_ever (void **state)
{
  g_autoptr (BwScene) scene = scene_new ();
  int told = 0;
  g_autoptr (GBytes) webp
      = bw_turntable_webp (scene, &first, FRAMES, NULL, NULL, count_tellings, &told, NULL);
  WebPData data = { g_bytes_get_data (webp, NULL), g_bytes_get_size (webp) };
  WebPAnimDecoder *decoder = WebPAnimDecoderNew (&data, NULL);
  WebPAnimInfo info;
  assert_true (WebPAnimDecoderGetInfo (decoder, &info));
  assert_int_equal (info.loop_count, 0);
  assert_int_equal (info.frame_count, FRAMES);
  assert_int_equal (info.canvas_width, SIDE);
  assert_int_equal (info.canvas_height, SIDE);
  assert_int_equal (told, FRAMES);
  int time = 0, n = 0;
  for (guint8 *points; WebPAnimDecoderHasMoreFrames (decoder); n++) {
    int before = time;
    assert_true (WebPAnimDecoderGetNext (decoder, &points, &time));
    assert_int_equal (time - before, 1200);
    BwStill still = first;
    still.camera.turn_deg = bw_turntable_turn (first.camera.turn_deg, n, FRAMES);
    cairo_surface_t *drawn = bw_still_new (scene, &still, NULL);
    cairo_surface_flush (drawn);
    as_cairo_has_it (points);
    assert_true (apart (points, cairo_image_surface_get_data (drawn)) < 4);
    cairo_surface_destroy (drawn);
  }
  assert_int_equal (n, FRAMES);
  WebPAnimDecoderDelete (decoder);
}

static void
stop_it (double done, cairo_surface_t *so_far, gpointer stop)
{
  g_cancellable_cancel (stop);
}

static void
a_stopped_turntable_is_none (void **state)
{
  g_autoptr (BwScene) scene = scene_new ();
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  assert_null (bw_turntable_webp (scene, &first, FRAMES, NULL, stop, stop_it, stop, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
  assert_null (bw_turntable_pngs (scene, &first, FRAMES, NULL, stop, NULL, NULL, NULL));
}

static void
numbered_pictures_keep_the_name_they_were_given (void **state)
{
  g_autofree char *plain = bw_turntable_name ("/tmp/a piece.png", 0);
  g_autofree char *bare = bw_turntable_name ("piece", 359);
  assert_string_equal (plain, "/tmp/a piece-001.png");
  assert_string_equal (bare, "piece-360.png");
}

/* --- Being woven -------------------------------------------------------------------------------
 */

static BwWeaving
weaving_of (BwProject *project, gboolean follows)
{
  BwWeaving weaving;
  bw_weaving_init (&weaving, project, FRAMES, follows, 40);
  return weaving;
}

static void
the_weaving_begins_with_nothing_and_ends_with_the_piece (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE),
                      finished = bw_scene_new (project, FALSE);
  BwWeaving weaving = weaving_of (project, FALSE);
  assert_int_equal (weaving.visits[0], 0);
  assert_int_equal (weaving.visits[FRAMES - 1], bw_project_path (project)->visits->len);
  g_autoptr (GPtrArray) pngs
      = bw_weaving_pngs (scene, &first, &weaving, NULL, NULL, NULL, NULL, NULL);
  assert_int_equal (pngs->len, FRAMES);
  BwStill last = first, bare = first;
  last.camera.turn_deg = bare.camera.turn_deg = 40;
  last.layers |= BW_LAYER_THREAD;
  bare.layers = BW_LAYER_STONE | BW_LAYER_BED;
  cairo_surface_t *whole = bw_still_new (finished, &last, NULL);
  cairo_surface_t *none = bw_still_new (finished, &bare, NULL);
  cairo_surface_t *begun = decoded (g_ptr_array_index (pngs, 0));
  cairo_surface_t *ended = decoded (g_ptr_array_index (pngs, FRAMES - 1));
  cairo_surface_flush (whole);
  cairo_surface_flush (none);
  assert_true (apart (cairo_image_surface_get_data (ended), cairo_image_surface_get_data (whole))
               < 2);
  assert_true (apart (cairo_image_surface_get_data (begun), cairo_image_surface_get_data (none))
               < 2);
  assert_true (apart (cairo_image_surface_get_data (begun), cairo_image_surface_get_data (ended))
               > 4);
  cairo_surface_destroy (whole);
  cairo_surface_destroy (none);
  cairo_surface_destroy (begun);
  cairo_surface_destroy (ended);
}

static void
the_eye_follows_the_needle_or_stays (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  BwWeaving stays = weaving_of (project, FALSE), follows = weaving_of (project, TRUE);
  for (int i = 0; i < FRAMES; i++)
    assert_true (fabs (stays.turn_deg[i] - 40) < 1e-12);
  assert_true (fabs (follows.turn_deg[1] - follows.turn_deg[2]) > 5);
}

static void
stop_after_two (double done, cairo_surface_t *so_far, gpointer stop)
{
  if (done > 1.5 / FRAMES)
    g_cancellable_cancel (stop);
}

static void
a_weaving_that_is_stopped_brings_nothing (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  BwWeaving weaving = weaving_of (project, TRUE);
  assert_null (bw_weaving_pngs (scene, &first, &weaving, NULL, stop, stop_after_two, stop, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}

int
main (void)
{
  const struct CMUnitTest tests[]
      = { cmocka_unit_test (each_frame_follows_the_one_before_as_the_first_follows_the_last),
          cmocka_unit_test (one_step_past_the_last_picture_is_the_first),
#if BW_EMBREE
          cmocka_unit_test (a_fine_turntable_is_made_of_fine_pictures),
#endif
          cmocka_unit_test (the_animated_picture_goes_round_for_ever),
          cmocka_unit_test (a_stopped_turntable_is_none),
          cmocka_unit_test (numbered_pictures_keep_the_name_they_were_given),
          cmocka_unit_test (the_weaving_begins_with_nothing_and_ends_with_the_piece),
          cmocka_unit_test (the_eye_follows_the_needle_or_stays),
          cmocka_unit_test (a_weaving_that_is_stopped_brings_nothing),
        };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
