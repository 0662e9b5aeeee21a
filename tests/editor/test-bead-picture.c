/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead's picture keeps its colour, tells its finish, and fills its brick and no more. */
#include "editor/cloth/bead-picture.h"
#include "editor/cloth/bead-sprites.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>

#define WIDTH 50
#define HEIGHT 41

static const guint32 colours[] = { 0x1b2a41, 0xe9c46a, 0xb23a48, 0x2a9d8f, 0xf4f1ea, 0x111111 };

static void
paint (guint32 *pixels, guint32 srgb, BwFinish finish)
{
  BwBeadFrame frame = { 1, 1, WIDTH - 2, HEIGHT - 2, 0.97, 0.96, FALSE };
  bw_bead_picture_paint (pixels, WIDTH, HEIGHT, &frame, srgb, finish);
}

/* Mean of a channel (0 blue, 1 green, 2 red) over the inside of the brick. */
static double
mean (const guint32 *pixels, int channel)
{
  double sum = 0;
  for (int y = 3; y < HEIGHT - 3; y++)
    for (int x = 3; x < WIDTH - 3; x++)
      sum += pixels[y * WIDTH + x] >> (8 * channel) & 0xff;
  return sum / ((WIDTH - 6) * (HEIGHT - 6));
}

static void
a_bead_keeps_the_hue_of_its_colour (void **state)
{
  guint32 pixels[WIDTH * HEIGHT];
  for (gsize c = 0; c < G_N_ELEMENTS (colours); c++)
    for (BwFinish finish = 0; finish < BW_N_FINISHES; finish++) {
      paint (pixels, colours[c], finish);
      for (int channel = 0; channel < 3; channel++) {
        double wanted = colours[c] >> (8 * channel) & 0xff;
        assert_true (fabs (mean (pixels, channel) - wanted) < 64);
      }
    }
}

static double
difference (const guint32 *a, const guint32 *b)
{
  double sum = 0;
  for (int i = 0; i < WIDTH * HEIGHT; i++)
    for (int channel = 0; channel < 3; channel++)
      sum += abs ((int)(a[i] >> (8 * channel) & 0xff) - (int)(b[i] >> (8 * channel) & 0xff));
  return sum / (3.0 * WIDTH * HEIGHT);
}

static void
every_finish_looks_unlike_every_other (void **state)
{
  guint32 a[WIDTH * HEIGHT], b[WIDTH * HEIGHT];
  for (gsize c = 0; c < G_N_ELEMENTS (colours); c++)
    for (BwFinish one = 0; one < BW_N_FINISHES; one++)
      for (BwFinish other = 0; other < one; other++) {
        paint (a, colours[c], one);
        paint (b, colours[c], other);
        assert_true (difference (a, b) > 2.5);
      }
}

/* How far red and blue part from one another over a grey bead, one way and the other. */
static void
hues_of (BwFinish finish, int *redder, int *bluer)
{
  guint32 pixels[WIDTH * HEIGHT];
  paint (pixels, 0x808080, finish);
  *redder = *bluer = 0;
  for (int i = 0; i < WIDTH * HEIGHT; i++) {
    int apart = (int)(pixels[i] >> 16 & 0xff) - (int)(pixels[i] & 0xff);
    *redder = MAX (*redder, apart);
    *bluer = MAX (*bluer, -apart);
  }
}

static void
a_rainbow_bead_shows_more_than_one_hue (void **state)
{
  int redder, bluer;
  hues_of (BW_FINISH_OPAQUE, &redder, &bluer);
  assert_int_equal (redder + bluer, 0);
  hues_of (BW_FINISH_RAINBOW, &redder, &bluer);
  assert_true (redder > 8 && bluer > 8);
}

static int
brightest (const guint32 *pixels)
{
  int best = 0;
  for (int i = 0; i < WIDTH * HEIGHT; i++)
    best = MAX (best, (int)(pixels[i] >> 8 & 0xff));
  return best;
}

static void
a_matte_bead_has_no_highlight_where_a_clear_one_has (void **state)
{
  guint32 matte[WIDTH * HEIGHT], clear[WIDTH * HEIGHT];
  paint (matte, 0x1b2a41, BW_FINISH_MATTE);
  paint (clear, 0x1b2a41, BW_FINISH_CLEAR);
  assert_true (brightest (matte) < 90);
  assert_true (brightest (clear) > 180);
}

static void
a_bead_is_rounded_darker_at_its_sides (void **state)
{
  guint32 pixels[WIDTH * HEIGHT];
  paint (pixels, 0xb23a48, BW_FINISH_OPAQUE);
  guint32 middle = pixels[HEIGHT / 2 * WIDTH + WIDTH / 2] >> 16 & 0xff;
  guint32 side = pixels[HEIGHT / 2 * WIDTH + WIDTH - 4] >> 16 & 0xff;
  assert_true (side + 30 < middle);
}

static void
outside_its_brick_a_picture_is_transparent (void **state)
{
  guint32 pixels[WIDTH * HEIGHT];
  paint (pixels, 0xb23a48, BW_FINISH_LUSTRE);
  for (int x = 0; x < WIDTH; x++)
    assert_int_equal (pixels[x], 0);
  for (int y = 0; y < HEIGHT; y++)
    assert_int_equal (pixels[y * WIDTH + WIDTH - 1], 0);
  assert_int_equal (pixels[WIDTH + 1] >> 24, 255);
}

static void
a_brick_off_the_grid_covers_part_of_its_border_pixels (void **state)
{
  guint32 pixels[8 * 8];
  BwBeadFrame frame = { 1.25, 1, 5, 5, 1, 1, FALSE };
  bw_bead_picture_paint (pixels, 8, 8, &frame, 0xffffff, BW_FINISH_OPAQUE);
  assert_int_equal (pixels[3 * 8] >> 24, 0);
  assert_int_equal (pixels[3 * 8 + 1] >> 24, 191);
  assert_int_equal (pixels[3 * 8 + 3] >> 24, 255);
  assert_int_equal (pixels[3 * 8 + 6] >> 24, 64);
}

static void
a_tiny_bead_is_a_plain_rectangle_of_its_colour (void **state)
{
  guint32 pixels[4 * 4];
  BwBeadFrame frame = { 0, 0, 4, 4, 1, 1, FALSE };
  bw_bead_picture_paint (pixels, 4, 4, &frame, 0x2a9d8f, BW_FINISH_METAL);
  for (int i = 0; i < 16; i++)
    assert_int_equal (pixels[i], 0xff2a9d8f);
}

/* WCAG 2.1 asks 4.5 : 1 of ordinary text; the better of black and white always has 4.58 at least
 * (the contrast ratio of either with a luminance of √(1.05·0.05) − 0.05 is √21). */
static void
a_letter_takes_the_tone_with_the_better_contrast (void **state)
{
  assert_false (bw_bead_letter_is_black (0x000000));
  assert_true (bw_bead_letter_is_black (0xffffff));
  assert_false (bw_bead_letter_is_black (0x757575));
  assert_true (bw_bead_letter_is_black (0x777777));
}

static BwTray
two_colours (void)
{
  BwTray tray = { .n_colours = 2 };
  tray.colour[0] = (BwColour){ 'a', "Night water", 0x1b2a41, BW_FINISH_MATTE };
  tray.colour[1] = (BwColour){ 'b', "Lamp glass", 0xe9c46a, BW_FINISH_CLEAR };
  return tray;
}

static void
a_sprite_is_painted_once_and_placed_to_a_quarter_pixel (void **state)
{
  BwTray tray = two_colours ();
  BwBeadSize size = { 12.3, 9.7, 0.97, 0.96, FALSE };
  g_autoptr (BwBeadSprites) sprites = bw_bead_sprites_new (&size, &tray, NULL);
  int left, top, left_again, top_again;
  BwBeadSprite one = bw_bead_sprites_get (sprites, 1, 100.26, 40.49, &left, &top);
  BwBeadSprite two = bw_bead_sprites_get (sprites, 1, 7.24, -3.5, &left_again, &top_again);

  assert_ptr_equal (one.pixels, two.pixels);
  assert_int_equal (left, 100);
  assert_int_equal (top, 40);
  assert_int_equal (left_again, 7);
  assert_int_equal (top_again, -4);
  one = bw_bead_sprites_get (sprites, 0, 99.95, 0, &left, &top);
  assert_int_equal (left, 100);
  assert_ptr_not_equal (one.pixels, two.pixels);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_bead_keeps_the_hue_of_its_colour),
    cmocka_unit_test (every_finish_looks_unlike_every_other),
    cmocka_unit_test (a_rainbow_bead_shows_more_than_one_hue),
    cmocka_unit_test (a_matte_bead_has_no_highlight_where_a_clear_one_has),
    cmocka_unit_test (a_bead_is_rounded_darker_at_its_sides),
    cmocka_unit_test (outside_its_brick_a_picture_is_transparent),
    cmocka_unit_test (a_brick_off_the_grid_covers_part_of_its_border_pixels),
    cmocka_unit_test (a_tiny_bead_is_a_plain_rectangle_of_its_colour),
    cmocka_unit_test (a_letter_takes_the_tone_with_the_better_contrast),
    cmocka_unit_test (a_sprite_is_painted_once_and_placed_to_a_quarter_pixel),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
