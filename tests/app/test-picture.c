/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures as makers bring them, whole, broken and enormous, and the work that turns them into
 * beads. */
#include "../picture/pretence.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

#include "app/draw/picture-file.h"
#include "app/draw/picture-job.h"
#include "core/base/lattice.h"

/* A file in a temporary folder of its own. Owned; delete it after use. */
static GFile *
file_of (const char *name, const void *data, gsize length)
{
  g_autofree char *folder = g_dir_make_tmp ("picture-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  assert_true (g_file_set_contents (path, data, (gssize)length, NULL));
  return g_file_new_for_path (path);
}

static void
remove_file (GFile *file)
{
  g_autoptr (GFile) folder = g_file_get_parent (file);
  g_file_delete (file, NULL, NULL);
  g_file_delete (folder, NULL, NULL);
}

/* Left half red, right half blue. */
static GdkPixbuf *
two_halves (int width, int height)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  guint8 *pixels = gdk_pixbuf_get_pixels (pixbuf);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      guint8 *p = pixels + y * gdk_pixbuf_get_rowstride (pixbuf) + 3 * x;
      p[0] = x < width / 2 ? 200 : 10;
      p[1] = 20;
      p[2] = x < width / 2 ? 10 : 200;
    }
  return pixbuf;
}

static void
encode (const char *type, char **data, gsize *length)
{
  g_autoptr (GdkPixbuf) pixbuf = two_halves (64, 32);
  assert_true (gdk_pixbuf_save_to_buffer (pixbuf, data, length, type, NULL, NULL));
}

static void
png_and_jpeg_are_read_with_their_colours (void **state)
{
  static const char *const types[] = { "png", "jpeg" };
  for (int i = 0; i < 2; i++) {
    g_autofree char *data = NULL;
    gsize length;
    g_autoptr (GError) error = NULL;
    encode (types[i], &data, &length);
    g_autoptr (GFile) file = file_of ("halves", data, length);
    g_autoptr (GdkPixbuf) read = bw_picture_read (file, NULL, &error);
    remove_file (file);
    if (!read)
      fail_msg ("%s: %s", types[i], error->message);
    BwPicture picture = bw_picture_of (read);
    assert_int_equal (picture.width, 64);
    assert_int_equal (picture.height, 32);
    assert_in_range (picture.pixels[0], 190, 210);
    const guint8 *last = picture.pixels + 31 * picture.stride + (gsize)(63 * picture.channels);
    assert_in_range (last[2], 190, 210);
  }
}

static void
a_drawing_is_drawn_finely (void **state)
{
  static const char svg[] = "<svg xmlns='http://www.w3.org/2000/svg' width='20' height='10'>"
                            "<rect width='20' height='10' fill='#336699'/></svg>";
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = file_of ("sign.svg", svg, strlen (svg));
  g_autoptr (GdkPixbuf) read = bw_picture_read (file, NULL, &error);
  remove_file (file);
  if (!read)
    fail_msg ("%s", error->message);
  assert_int_equal (gdk_pixbuf_get_width (read), 2000);
  assert_int_equal (gdk_pixbuf_get_height (read), 1000);
  assert_memory_equal (gdk_pixbuf_read_pixels (read), "\x33\x66\x99", 3);
}

static void
expect_refused (const char *name, const void *data, gsize length, const char *words)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = file_of (name, data, length);
  GdkPixbuf *read = bw_picture_read (file, NULL, &error);
  remove_file (file);
  assert_null (read);
  assert_non_null (error);
  if (!strstr (error->message, name) || !strstr (error->message, words))
    fail_msg ("%s", error->message);
}

static void
what_is_no_picture_is_said_to_be_none (void **state)
{
  static const char gif[] = "GIF89a\1\0\1\0\200\0\0\0\0\0\377\377\377,\0\0\0\0\1\0\1\0\0\2\2D\1\0;";
  expect_refused ("list.png", "a,b,c\n1,2,3\n", 12, "no PNG, JPEG or SVG");
  expect_refused ("empty.jpg", "", 0, "no PNG, JPEG or SVG");
  expect_refused ("dot.gif", gif, sizeof gif - 1, "no PNG, JPEG or SVG");
}

static void
a_file_cut_short_is_refused_by_name (void **state)
{
  g_autofree char *data = NULL;
  gsize length;
  encode ("png", &data, &length);
  for (gsize cut = 40; cut < length; cut += 7)
    expect_refused ("cut.png", data, cut, "broken");
  g_clear_pointer (&data, g_free);
  encode ("jpeg", &data, &length);
  for (gsize cut = 40; cut < length; cut += 7)
    expect_refused ("cut.jpg", data, cut, "broken");
}

/* A header that promises 30,000 × 30,000 points, and hardly a byte behind it. */
static void
an_enormous_picture_is_refused_before_it_is_decoded (void **state)
{
  g_autofree char *data = NULL;
  gsize length;
  encode ("png", &data, &length);
  static const guint8 size[] = { 0, 0, 0x75, 0x30, 0, 0, 0x75, 0x30 };
  memcpy (data + 16, size, sizeof size);
  /* The header's own check sum, CRC-32 by ISO 3309, so that only the size is at fault. */
  guint32 crc = 0xffffffffu;
  for (int i = 12; i < 29; i++) {
    crc ^= (guint8)data[i];
    for (int k = 0; k < 8; k++)
      crc = crc & 1 ? crc >> 1 ^ 0xedb88320u : crc >> 1;
  }
  crc = GUINT32_TO_BE (~crc);
  memcpy (data + 29, &crc, 4);
  expect_refused ("sky.png", data, length, "30000 × 30000 points");
}

/* Which drawings end a library changes with the library. */
static void
a_drawing_that_ends_its_decoder_is_refused_by_name (void **state)
{
  static const char svg[] = "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>";
  Pretence pretence = pretend ("#!/bin/sh\nkill -ABRT $$\n");
  expect_refused ("sign.svg", svg, strlen (svg), "more time or memory than a picture may have");
  end_pretence (&pretence);
}

/* A pipe nobody writes to would be read for ever. */
static void
a_pipe_is_no_picture (void **state)
{
  g_autofree char *folder = g_dir_make_tmp ("picture-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "pipe.png", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  assert_int_equal (mkfifo (path, 0600), 0);
  assert_null (bw_picture_read (file, NULL, &error));
  remove_file (file);
  assert_non_null (strstr (error->message, "“pipe.png” is no PNG, JPEG or SVG"));
}

static void
a_program_without_its_decoder_says_so (void **state)
{
  g_autofree char *folder = g_strdup (g_getenv ("BANDWRIGHT_LIBEXEC_DIR"));
  g_autofree char *data = NULL;
  gsize length;
  encode ("png", &data, &length);
  g_setenv ("BANDWRIGHT_LIBEXEC_DIR", "/nowhere", TRUE);
  expect_refused ("halves.png", data, length, "reads pictures could not be started");
  g_setenv ("BANDWRIGHT_LIBEXEC_DIR", folder, TRUE);
}

static void
a_file_that_is_not_there_is_named (void **state)
{
  g_autoptr (GFile) file = g_file_new_for_path ("/nowhere/at-all.png");
  g_autoptr (GError) error = NULL;
  assert_null (bw_picture_read (file, NULL, &error));
  assert_non_null (strstr (error->message, "at-all.png"));
}

static const BwBandGrid grid = { 14, 114, 1.6, 1.3 };

static BwPictureJob *
job_of (GdkPixbuf *pixbuf, int n_new)
{
  BwPicture picture = bw_picture_of (pixbuf);
  BwPlacement placement = bw_placement_cover (&picture, &grid, 28);
  BwTray tray;
  bw_tray_init (&tray);
  BwPictureJob *job
      = bw_picture_job_new (pixbuf, &placement, &grid, &tray, bw_drawing_new (14, 114, 0));
  job->n_new = n_new;
  return job;
}

static void
new_colours_are_added_and_used (void **state)
{
  g_autoptr (GdkPixbuf) pixbuf = two_halves (640, 320);
  g_autoptr (BwPictureJob) job = job_of (pixbuf, 2);
  g_autoptr (GError) error = NULL;
  assert_true (bw_picture_job_run (job, NULL, &error));
  assert_int_equal (job->tray.n_colours, 3);
  assert_int_not_equal (job->tray.colour[1].id, job->tray.colour[2].id);
  int left = bw_drawing_get (job->drawing, 51, 4), right = bw_drawing_get (job->drawing, 63, 4);
  assert_true (left > 0 && right > 0 && left != right);
  /* A bead that the edge between the halves cuts draws them a little towards each other. */
  assert_true (
      bw_colour_difference (bw_colour_lab (job->tray.colour[left].srgb), bw_colour_lab (0xc8140a))
      < 6);
  assert_true (
      bw_colour_difference (bw_colour_lab (job->tray.colour[right].srgb), bw_colour_lab (0x0a14c8))
      < 6);
  assert_int_equal (bw_drawing_get (job->drawing, 1, 4), 0);
  assert_int_equal (bw_drawing_get (job->base, 51, 4), 0);
}

static void
a_full_tray_takes_no_new_colours_and_says_so (void **state)
{
  g_autoptr (GdkPixbuf) pixbuf = two_halves (64, 32);
  g_autoptr (BwPictureJob) job = job_of (pixbuf, 2);
  g_autoptr (GError) error = NULL;
  while (job->tray.n_colours < BW_TRAY_MAX) {
    gunichar letter = bw_tray_free_letter (&job->tray);
    job->tray.colour[job->tray.n_colours++] = (BwColour){ .id = letter, .srgb = 0x808080 };
  }
  assert_false (bw_picture_job_run (job, NULL, &error));
  assert_non_null (strstr (error->message, "200"));
  job->n_new = 0;
  assert_true (bw_picture_job_run (job, NULL, NULL));
}

static void
stopped_work_ends_with_no_result (void **state)
{
  g_autoptr (GdkPixbuf) pixbuf = two_halves (64, 32);
  g_autoptr (BwPictureJob) job = job_of (pixbuf, 2);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  g_cancellable_cancel (cancellable);
  assert_false (bw_picture_job_run (job, cancellable, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (png_and_jpeg_are_read_with_their_colours),
    cmocka_unit_test (a_drawing_is_drawn_finely),
    cmocka_unit_test (what_is_no_picture_is_said_to_be_none),
    cmocka_unit_test (a_file_cut_short_is_refused_by_name),
    cmocka_unit_test (an_enormous_picture_is_refused_before_it_is_decoded),
    cmocka_unit_test (a_drawing_that_ends_its_decoder_is_refused_by_name),
    cmocka_unit_test (a_pipe_is_no_picture),
    cmocka_unit_test (a_program_without_its_decoder_says_so),
    cmocka_unit_test (a_file_that_is_not_there_is_named),
    cmocka_unit_test (new_colours_are_added_and_used),
    cmocka_unit_test (a_full_tray_takes_no_new_colours_and_says_so),
    cmocka_unit_test (stopped_work_ends_with_no_result),
  };
  return cmocka_run_group_tests_name ("picture", tests, NULL, NULL);
}
