/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a file's own bytes tell before anything is decoded. */
#include "picture/kind.h"
#include "picture/png-data.h"
#include "picture/whole.h"
#include "png.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static BwPictureKind
kind_of (const char *text)
{
  return bw_picture_kind ((const guint8 *)text, strlen (text));
}

static void
a_file_is_what_its_first_bytes_say (void **state)
{
  assert_int_equal (kind_of ("\x89PNG\r\n\x1a\n…"), BW_PICTURE_KIND_PNG);
  assert_int_equal (kind_of ("\xff\xd8\xff\xe0"), BW_PICTURE_KIND_JPEG);
  assert_int_equal (kind_of ("<svg xmlns='…'/>"), BW_PICTURE_KIND_SVG);
  assert_int_equal (kind_of ("\xef\xbb\xbf\n <?xml version='1.0'?><!-- a sign --><x:svg>"),
                    BW_PICTURE_KIND_SVG);
}

static void
what_only_resembles_a_picture_is_none (void **state)
{
  static const char *const other[] = { "",
                                       "a,b,c\n",
                                       "GIF89a",
                                       "\x89PNG",
                                       "\xff\xd8",
                                       "svg",
                                       "<",
                                       "<svgs>",
                                       "<html><body>svg</body></html>",
                                       "text <svg>",
                                       "\x1f\x8b\x08 packed <svg >",
                                       "<sv",
                                       "<svg" };
  for (gsize i = 0; i < G_N_ELEMENTS (other); i++)
    if (kind_of (other[i]) != BW_PICTURE_KIND_OTHER)
      fail_msg ("“%s” is taken for a picture", other[i]);
  assert_int_equal (bw_picture_kind (NULL, 0), BW_PICTURE_KIND_OTHER);
}

static void
a_png_tells_its_size (void **state)
{
  g_autoptr (GByteArray) png = png_new (&(PngSpec){ 60000, 70000, 8, 2, 0, 100, 0 });
  guint32 width = 0, height = 0;
  assert_true (bw_picture_png_size (png->data, png->len, &width, &height));
  assert_int_equal (width, 60000);
  assert_int_equal (height, 70000);
  assert_false (bw_picture_png_size (png->data, 23, &width, &height));
}

/* The counts are by hand from the standard: a filter byte before each row of each pass. */
static const struct {
  PngSpec spec;
  gsize bytes;
} counted[] = {
  { { 64, 32, 8, 2, 0, 0, 0 }, 32 * (1 + 64 * 3) },
  { { 64, 32, 8, 6, 0, 0, 0 }, 32 * (1 + 64 * 4) },
  { { 10, 3, 1, 0, 0, 0, 0 }, 3 * (1 + 2) },
  { { 10, 3, 4, 3, 0, 0, 0 }, 3 * (1 + 5) },
  { { 5, 2, 16, 4, 0, 0, 0 }, 2 * (1 + 20) },
  /* Interlaced 8 × 8, one byte a point: passes of 1, 1, 1 × 2, 2 × 2, 2 × 4, 4 × 4, 4 × 8 points.
   */
  { { 8, 8, 8, 0, 1, 0, 0 }, 2 + 2 + 3 + 6 + 10 + 20 + 36 },
  /* One point has the first pass alone. */
  { { 1, 1, 8, 0, 1, 0, 0 }, 2 },
  /* Larger than any block it is unpacked in. */
  { { 1000, 700, 8, 2, 0, 0, 0 }, 700 * 3001 },
};

static void
a_png_with_data_for_all_its_points_is_whole (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (counted); i++) {
    PngSpec spec = counted[i].spec;
    spec.data = counted[i].bytes;
    g_autoptr (GByteArray) png = png_new (&spec);
    if (!bw_picture_png_has_all_data (png->data, png->len))
      fail_msg ("picture %d is taken for broken", (int)i);
  }
}

/* All its chunks are there, each with its right check sum. */
static void
a_png_one_byte_short_is_broken (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (counted); i++) {
    PngSpec spec = counted[i].spec;
    spec.data = counted[i].bytes - 1;
    g_autoptr (GByteArray) png = png_new (&spec);
    assert_true (bw_picture_is_whole (png->data, png->len));
    if (bw_picture_png_has_all_data (png->data, png->len))
      fail_msg ("picture %d is taken for whole", (int)i);
  }
}

static void
packed_data_cut_short_are_broken (void **state)
{
  g_autoptr (GByteArray) png = png_new (&(PngSpec){ 64, 32, 8, 2, 0, 32 * 193, 9 });
  assert_true (bw_picture_is_whole (png->data, png->len));
  assert_false (bw_picture_png_has_all_data (png->data, png->len));
}

/* Whatever bytes are wrong, looking at them ends and stays within them. */
static void
spoiled_bytes_are_looked_at_without_harm (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  guint32 width, height;
  for (int i = 0; i < 3000; i++) {
    g_autoptr (GByteArray) png = png_new (&(PngSpec){ 20, 20, 8, 2, (guint8)(i % 2), 20 * 61, 0 });
    gsize length = (gsize)g_rand_int_range (rand, 0, (gint32)png->len + 1);
    g_autofree guint8 *data = g_memdup2 (png->data, length);
    for (int k = 0; length && k < 3; k++)
      data[g_rand_int_range (rand, 0, (gint32)length)] = (guint8)(g_rand_int (rand) & 0xff);
    gboolean sized = bw_picture_png_size (data, length, &width, &height);
    assert_true (!sized || length >= 24);
    bw_picture_is_whole (data, length);
    if (bw_picture_png_has_all_data (data, length))
      assert_true (sized);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_file_is_what_its_first_bytes_say),
    cmocka_unit_test (what_only_resembles_a_picture_is_none),
    cmocka_unit_test (a_png_tells_its_size),
    cmocka_unit_test (a_png_with_data_for_all_its_points_is_whole),
    cmocka_unit_test (a_png_one_byte_short_is_broken),
    cmocka_unit_test (packed_data_cut_short_are_broken),
    cmocka_unit_test (spoiled_bytes_are_looked_at_without_harm),
  };
  return cmocka_run_group_tests_name ("kind", tests, NULL, NULL);
}
