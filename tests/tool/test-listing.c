/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture for a shop: square, as large as a shop wants it, the piece whole in it and the title
 * beneath. */
#include "sample.h"

#include <cairo.h>
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define SIDE 1600
#define EDGE 72 /* pixels that stay white all round */
#define TITLE_TOP 1344
#define BAND_TOP 1240

static char *folder;

/* A picture of one and the same piece under a title. */
static cairo_surface_t *
listing (const char *title)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (Sample) sample = sample_new (rand, 10, 0, SAMPLE_FLAP);
  g_autofree char *json = sample_json (sample),
                  *key = g_strdup_printf ("\"title\": \"%s\",", title);
  g_autoptr (GRegex) old = g_regex_new ("\"title\"\\s*:\\s*\"[^\"]*\",", 0, 0, NULL);
  g_autofree char *text = g_regex_replace_literal (old, json, -1, 0, key, 0, NULL);
  g_autofree char *project = g_build_filename (folder, "piece.bandwright", NULL);
  g_autofree char *picture = g_build_filename (folder, "piece.png", NULL);
  g_autoptr (GError) error = NULL;
  assert_non_null (strstr (text, key));
  assert_true (g_file_set_contents (project, text, -1, NULL));
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE);
  g_subprocess_launcher_unsetenv (launcher, "DISPLAY");
  g_subprocess_launcher_setenv (launcher, "ASAN_OPTIONS", "detect_leaks=0", TRUE);
  g_autoptr (GSubprocess) tool = g_subprocess_launcher_spawn (
      launcher, &error, g_getenv ("BW_TOOL"), "listing", project, "-o", picture, NULL);
  assert_non_null (tool);
  assert_true (g_subprocess_wait_check (tool, NULL, NULL));
  cairo_surface_t *surface = cairo_image_surface_create_from_png (picture);
  g_unlink (project);
  g_unlink (picture);
  assert_int_equal (cairo_image_surface_get_width (surface), SIDE);
  assert_int_equal (cairo_image_surface_get_height (surface), SIDE);
  return surface;
}

static guint32
pixel (cairo_surface_t *surface, int x, int y)
{
  const guchar *data = cairo_image_surface_get_data (surface);
  guint32 argb;
  memcpy (&argb, data + y * cairo_image_surface_get_stride (surface) + 4 * x, 4);
  return argb & 0xffffff;
}

/* How many dots of a box are not the paper's. */
static int
ink (cairo_surface_t *surface, int left, int top, int right, int bottom)
{
  int n = 0;
  guint32 ground = pixel (surface, 0, 0);
  for (int y = top; y < bottom; y++)
    for (int x = left; x < right; x++)
      n += pixel (surface, x, y) != ground;
  return n;
}

static void
the_piece_is_whole_in_the_frame_with_its_title_beneath (void **state)
{
  cairo_surface_t *surface = listing ("Ebb and Flow");
  assert_int_equal (ink (surface, 0, 0, SIDE, EDGE), 0);
  assert_int_equal (ink (surface, 0, SIDE - EDGE / 2, SIDE, SIDE), 0);
  assert_int_equal (ink (surface, 0, 0, EDGE, SIDE), 0);
  assert_int_equal (ink (surface, SIDE - EDGE, 0, SIDE, SIDE), 0);
  /* The piece fills a good part of the room it has, the band a line, the title another. */
  assert_true (ink (surface, 0, 0, SIDE, BAND_TOP) > SIDE * BAND_TOP / 10);
  assert_true (ink (surface, 0, BAND_TOP, SIDE, TITLE_TOP) > 10000);
  assert_true (ink (surface, 0, TITLE_TOP, SIDE, SIDE) > 4000);
  cairo_surface_destroy (surface);
}

static int
width_of_title (cairo_surface_t *surface)
{
  int first = SIDE, last = 0;
  for (int x = 0; x < SIDE; x++)
    if (ink (surface, x, TITLE_TOP, x + 1, SIDE) > 0) {
      first = MIN (first, x);
      last = x;
    }
  return last - first;
}

static int
height_of_title (cairo_surface_t *surface)
{
  int first = SIDE, last = 0;
  for (int y = TITLE_TOP; y < SIDE; y++)
    if (ink (surface, 0, y, SIDE, y + 1) > 0) {
      first = MIN (first, y);
      last = y;
    }
  return last - first;
}

/* A long one is set smaller before it is cut, and stays within the frame. */
static void
the_title_is_all_that_another_title_changes (void **state)
{
  cairo_surface_t *one = listing ("Ebb"), *other = listing ("Ebb and Flow");
  cairo_surface_t *longer = listing ("Ebb and Flow of the Seventh Night of Kelp");
  for (int y = 0; y < TITLE_TOP; y += 3)
    for (int x = 0; x < SIDE; x += 3)
      assert_int_equal (pixel (one, x, y), pixel (other, x, y));
  assert_true (width_of_title (one) < width_of_title (other));
  assert_true (width_of_title (other) < width_of_title (longer));
  assert_true (height_of_title (longer) < 0.9 * height_of_title (other));
  assert_int_equal (ink (longer, 0, TITLE_TOP, EDGE, SIDE), 0);
  assert_int_equal (ink (longer, SIDE - EDGE, TITLE_TOP, SIDE, SIDE), 0);
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
  cairo_surface_destroy (longer);
}

/* As on every sheet: the name of the file stands where there is no title. */
static void
a_piece_without_a_title_has_a_name_all_the_same (void **state)
{
  cairo_surface_t *surface = listing ("");
  assert_true (ink (surface, 0, TITLE_TOP, SIDE, SIDE) > 1000);
  cairo_surface_destroy (surface);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_piece_is_whole_in_the_frame_with_its_title_beneath),
    cmocka_unit_test (the_title_is_all_that_another_title_changes),
    cmocka_unit_test (a_piece_without_a_title_has_a_name_all_the_same),
  };
  folder = g_dir_make_tmp ("bandwright-listing-XXXXXX", NULL);
  int failed = cmocka_run_group_tests_name ("listing", tests, NULL, NULL);
  g_rmdir (folder);
  g_free (folder);
  return failed;
}
