/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours out of a photograph: those that were put into it come back, and its ground does not. */
#include "core/pattern/photo-tray.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define SIDE 400
#define BEADS 12      /* across and down */
#define NOISE 4.0     /* of a camera: sd in steps of 255 */
#define AS_PUT_IN 1.0 /* CIEDE2000: well below what the eye tells apart in beads */

static const guint32 known[]
    = { 0x1b2a41, 0xe9c46a, 0xa23b2a, 0x3f7a63, 0xf2f0ea, 0x7a4fa0, 0x2f9fd0, 0xe07fb0 };

/* Sums of twelve are normal enough. */
static double
normal (GRand *rand)
{
  double sum = -6;
  for (int i = 0; i < 12; i++)
    sum += g_rand_double (rand);
  return sum;
}

static guint8
noisy (guint32 part, GRand *rand)
{
  double value = (part & 255) + NOISE * normal (rand);
  return (guint8)lround (CLAMP (value, 0, 255));
}

typedef struct {
  guint8 *pixels;
  BwPicture picture;
} Photo;

/* Round beads of n colours in turn on a ground. */
static Photo
photo_of (int n, guint32 ground, GRand *rand)
{
  Photo photo = { g_malloc (3 * SIDE * SIDE), { 0 } };
  photo.picture = (BwPicture){ photo.pixels, SIDE, SIDE, 3, 3 * SIDE };
  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++) {
      int cell = SIDE / BEADS, column = x / cell, row = y / cell;
      double dx = x % cell - cell / 2.0, dy = y % cell - cell / 2.0;
      gboolean bead = column > 0 && row > 0 && column < BEADS - 1 && row < BEADS - 1
                      && dx * dx + dy * dy < cell * cell / 7.0;
      guint32 srgb = bead ? known[(column + 3 * row) % n] : ground;
      for (int c = 0; c < 3; c++)
        photo.pixels[3 * (y * SIDE + x) + c] = noisy (srgb >> (16 - 8 * c), rand);
    }
  return photo;
}

static BwPhotoTray
find (const BwPicture *picture, BwPhotoWish wish)
{
  BwPhotoTray tray;
  assert_true (bw_photo_tray_find (&tray, picture, &wish, NULL, NULL));
  return tray;
}

static double
away (const BwPhotoTray *tray, guint32 srgb)
{
  double least = INFINITY;
  for (int i = 0; i < tray->n; i++)
    least = MIN (least, bw_colour_difference (bw_colour_lab (srgb), bw_colour_lab (tray->srgb[i])));
  return least;
}

static void
assert_found (const BwPhotoTray *tray, int n)
{
  assert_int_equal (tray->n, n);
  for (int i = 0; i < n; i++)
    if (away (tray, known[i]) > AS_PUT_IN)
      fail_msg ("#%06x is %g away", known[i], away (tray, known[i]));
}

static void
known_colours_come_back_and_the_ground_does_not (void **state)
{
  static const guint32 grounds[] = { 0x8a8f94, 0xb8a888, 0x000000 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  for (gsize g = 0; g < G_N_ELEMENTS (grounds); g++)
    for (int n = 1; n <= (int)G_N_ELEMENTS (known); n++) {
      Photo photo = photo_of (n, grounds[g], rand);
      BwPhotoTray tray = find (&photo.picture, (BwPhotoWish){ .k = n });
      if (!tray.has_ground || tray.ground_share <= 0.5)
        fail_msg ("#%06x, %d colours: %d, %g", grounds[g], n, tray.has_ground, tray.ground_share);
      assert_found (&tray, n);
      assert_true (bw_photo_tray_is_ground (&tray, grounds[g]));
      for (int i = 0; i < n; i++)
        assert_false (bw_photo_tray_is_ground (&tray, known[i]));
      g_free (photo.pixels);
    }
}

static void
so_many_colours_are_suggested_as_there_are (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  for (int n = 1; n <= (int)G_N_ELEMENTS (known); n++) {
    Photo photo = photo_of (n, 0x8a8f94, rand);
    BwPhotoTray tray = find (&photo.picture, (BwPhotoWish){ .k = 0 });
    assert_found (&tray, n);
    g_free (photo.pixels);
  }
}

static void
the_ground_is_what_is_marked_or_stays (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  Photo photo = photo_of (3, 0x8a8f94, rand);
  BwPhotoTray all = find (&photo.picture, (BwPhotoWish){ 4, BW_PHOTO_GROUND_NONE, 0, 0 });
  assert_false (all.has_ground);
  assert_int_equal (all.n, 4);
  assert_true (away (&all, 0x8a8f94) < AS_PUT_IN);
  assert_found (&(BwPhotoTray){ .n = 3, .srgb = { all.srgb[1], all.srgb[2], all.srgb[3] } }, 3);
  /* The middle of the bead in the fifth cell of the fifth row. */
  BwPhotoTray marked
      = find (&photo.picture, (BwPhotoWish){ 3, BW_PHOTO_GROUND_MARKED, 4.5 / BEADS, 4.5 / BEADS });
  assert_true (marked.has_ground);
  assert_true (away (&marked, 0x8a8f94) < AS_PUT_IN);
  assert_true (away (&marked, known[(4 + 3 * 4) % 3]) > 5);
  g_free (photo.pixels);
}

static void
the_same_photograph_gives_the_same_colours (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (10);
  Photo photo = photo_of (8, 0x8a8f94, rand);
  BwPhotoTray one = find (&photo.picture, (BwPhotoWish){ .k = 11 });
  BwPhotoTray two = find (&photo.picture, (BwPhotoWish){ .k = 11 });
  assert_memory_equal (one.srgb, two.srgb, sizeof one.srgb);
  for (int i = 1; i < one.n; i++)
    assert_true (one.share[i] <= one.share[i - 1]);
  g_free (photo.pixels);
}

static void
no_more_colours_come_than_there_are (void **state)
{
  guint8 pixels[4 * 3 * 3];
  BwPicture picture = { pixels, 4, 3, 3, 12 };
  for (int i = 0; i < 12; i++) {
    guint32 srgb = known[i % 2];
    for (int c = 0; c < 3; c++)
      pixels[3 * i + c] = (guint8)(srgb >> (16 - 8 * c));
  }
  BwPhotoTray tray = find (&picture, (BwPhotoWish){ 24, BW_PHOTO_GROUND_NONE, 0, 0 });
  assert_int_equal (tray.n, 2);
  assert_true (away (&tray, known[0]) < 1e-6 && away (&tray, known[1]) < 1e-6);
}

static void
a_photograph_of_one_colour_is_that_colour (void **state)
{
  guint8 row[3 * 30000];
  for (int i = 0; i < 30000; i++)
    memcpy (&row[3 * i], (guint8[]){ 10, 200, 90 }, 3);
  /* As large as no disk holds one: every row is the same. */
  BwPicture sizes[] = { { row, 30000, 30000, 3, 0 }, { row, 1, 1, 3, 3 }, { row, 1, 900, 3, 0 } };
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (BwPhotoGround ground = 0; ground <= BW_PHOTO_GROUND_NONE; ground++)
      for (int k = 0; k <= 24; k += 12) {
        BwPhotoTray tray = find (&sizes[i], (BwPhotoWish){ k, ground, 1, 1 });
        assert_int_equal (tray.n, 1);
        assert_int_equal (tray.srgb[0], 0x0ac85a);
        assert_false (tray.has_ground);
      }
}

static void
what_is_transparent_is_not_there (void **state)
{
  guint8 pixels[4 * 16];
  BwPicture picture = { pixels, 4, 4, 4, 16 };
  for (int i = 0; i < 16; i++)
    memcpy (&pixels[4 * i], (guint8[]){ 200, 10, 10, i < 8 ? 255 : 0 }, 4);
  for (int i = 8; i < 16; i++)
    pixels[4 * i] = 0;
  BwPhotoTray tray = find (&picture, (BwPhotoWish){ .k = 0 });
  assert_int_equal (tray.n, 1);
  assert_int_equal (tray.srgb[0], 0xc80a0a);
  for (int i = 0; i < 16; i++)
    pixels[4 * i + 3] = 0;
  for (int k = 0; k < 3; k++) {
    tray = find (&picture, (BwPhotoWish){ .k = k });
    assert_int_equal (tray.n, 0);
    assert_false (tray.has_ground);
  }
}

static void
a_border_of_every_colour_is_no_ground (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  g_autofree guint8 *pixels = g_malloc (3 * 64 * 64);
  BwPicture picture = { pixels, 64, 64, 3, 3 * 64 };
  for (int i = 0; i < 3 * 64 * 64; i++)
    pixels[i] = (guint8)g_rand_int_range (rand, 0, 256);
  BwPhotoTray tray = find (&picture, (BwPhotoWish){ .k = 3 });
  assert_false (tray.has_ground);
  assert_int_equal (tray.n, 3);
}

/* White paper round the edge alone, and two colours that fill the rest, one of them most of it. */
static void
the_ground_is_what_lies_along_the_border (void **state)
{
  g_autofree guint8 *pixels = g_malloc (3 * SIDE * SIDE);
  const BwPicture picture = { pixels, SIDE, SIDE, 3, 3 * SIDE };
  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++) {
      int edge = SIDE / 8;
      gboolean paper = x < edge || y < edge || x >= SIDE - edge || y >= SIDE - edge;
      guint32 srgb = paper ? 0xf4f2ee : y < SIDE * 2 / 3 ? 0x9a2a2a : 0x24407a;
      for (int c = 0; c < 3; c++)
        pixels[3 * (y * SIDE + x) + c] = (guint8)(srgb >> (16 - 8 * c));
    }
  BwPhotoTray tray = find (&picture, (BwPhotoWish){ .k = 2 });
  assert_true (tray.has_ground);
  assert_true (tray.ground.L > 90);
  assert_int_equal (tray.n, 2);
  assert_true (away (&tray, 0x9a2a2a) < 1);
  assert_true (away (&tray, 0x24407a) < 1);
}

static gboolean
only_so_often (double share, gpointer left)
{
  assert_true (share >= 0 && share <= 1);
  return --*(int *)left > 0;
}

static void
it_stops_when_told_to (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  Photo photo = photo_of (5, 0x8a8f94, rand);
  for (int k = 0; k < 24; k += 6) {
    BwPhotoWish wish = { .k = k };
    BwPhotoTray tray;
    int left = 3;
    assert_false (bw_photo_tray_find (&tray, &photo.picture, &wish, only_so_often, &left));
    assert_int_equal (left, 0);
  }
  g_free (photo.pixels);
}

/* Each centre is the mean of the colours nearest to it, and the cost is what it says. */
static void
centres_are_the_means_of_what_is_near_to_them (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);
  for (int round = 0; round < 20; round++) {
    guint n = (guint)g_rand_int_range (rand, 30, 500);
    int k = g_rand_int_range (rand, 1, BW_KMEANS_MAX + 1);
    g_autofree BwLab *labs = g_new (BwLab, n);
    BwKMeans means, more;
    for (guint i = 0; i < n; i++)
      labs[i] = bw_colour_lab (g_rand_int (rand) & 0xffffff);
    assert_true (bw_kmeans_find (&means, labs, n, k, NULL, NULL));
    assert_int_equal (means.k, k);
    BwLab sum[BW_KMEANS_MAX] = { { 0 } };
    guint count[BW_KMEANS_MAX] = { 0 };
    double cost = 0;
    for (guint i = 0; i < n; i++) {
      double least = INFINITY;
      int group = 0;
      for (int c = 0; c < k; c++) {
        BwLab m = means.centre[c];
        double d = (m.L - labs[i].L) * (m.L - labs[i].L) + (m.a - labs[i].a) * (m.a - labs[i].a)
                   + (m.b - labs[i].b) * (m.b - labs[i].b);
        if (d < least) {
          least = d;
          group = c;
        }
      }
      cost += least / n;
      sum[group].L += labs[i].L;
      sum[group].a += labs[i].a;
      sum[group].b += labs[i].b;
      count[group]++;
    }
    assert_true (fabs (cost - means.cost) < 1e-9 * cost);
    for (int c = 0; c < k; c++) {
      assert_int_equal (count[c], means.count[c]);
      assert_true (fabs (sum[c].L / count[c] - means.centre[c].L) < 0.5);
    }
    if (k < BW_KMEANS_MAX) {
      assert_true (bw_kmeans_find (&more, labs, n, k + 1, NULL, NULL));
      assert_true (more.cost < 1.02 * means.cost);
    }
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (known_colours_come_back_and_the_ground_does_not),
    cmocka_unit_test (so_many_colours_are_suggested_as_there_are),
    cmocka_unit_test (the_ground_is_what_is_marked_or_stays),
    cmocka_unit_test (the_same_photograph_gives_the_same_colours),
    cmocka_unit_test (no_more_colours_come_than_there_are),
    cmocka_unit_test (a_photograph_of_one_colour_is_that_colour),
    cmocka_unit_test (what_is_transparent_is_not_there),
    cmocka_unit_test (a_border_of_every_colour_is_no_ground),
    cmocka_unit_test (the_ground_is_what_lies_along_the_border),
    cmocka_unit_test (it_stops_when_told_to),
    cmocka_unit_test (centres_are_the_means_of_what_is_near_to_them),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
