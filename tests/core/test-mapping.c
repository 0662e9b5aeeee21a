/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures on the band by what must come out: a flat picture is flat, every pixel weighs its area,
 * the join and the half-drop are where they are, and the beads' mean is the picture's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>

#include "core/base/lattice.h"
#include "core/pattern/mapping.h"

#define UNTOUCHED 99

typedef struct {
  BwPicture picture;
  guint8 *pixels;
} Painted;

static void
painted_clear (Painted *painted)
{
  g_free (painted->pixels);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Painted, painted_clear)

/* A picture whose colour at a pixel is told by a rule. */
static Painted
paint (int width, int height, int channels, guint32 (*rule) (int x, int y, gpointer data),
       gpointer data)
{
  Painted painted = { { NULL, width, height, channels, (gsize)(width * channels) }, NULL };
  painted.pixels = g_new0 (guint8, (gsize)(width * height * channels));
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      guint8 *p = painted.pixels + (y * width + x) * channels;
      guint32 colour = rule (x, y, data);
      p[0] = (guint8)(colour >> 16);
      p[1] = (guint8)(colour >> 8);
      p[2] = (guint8)colour;
      if (channels == 4)
        p[3] = (guint8)(colour >> 24);
    }
  painted.picture.pixels = painted.pixels;
  return painted;
}

static guint32
flat (int x, int y, gpointer data)
{
  return 0xff3a7f5cu;
}

static guint32
noise (int x, int y, gpointer data)
{
  return 0xff000000u | (guint32)g_rand_int_range (data, 0, 1 << 24);
}

static const BwBandGrid usual = { 14, 114, 1.6, 1.3 };

static BwFootprints
sampled (const BwPicture *picture, const BwPlacement *placement, const BwBandGrid *grid)
{
  BwFootprints footprints;
  assert_true (bw_mapping_sample (&footprints, picture, placement, grid, NULL, NULL));
  return footprints;
}

static gsize
bead_index (const BwBandGrid *grid, int row, int column)
{
  return (gsize)((row - 1) * grid->columns / 2 + bw_lattice_index (column));
}

static void
a_flat_picture_is_flat_at_every_scale_and_turn (void **state)
{
  g_auto (Painted) painted = paint (37, 21, 3, flat, NULL);
  BwLinear wanted = bw_colour_linear (0x3a7f5c);
  GRand *dice = g_rand_new_with_seed (1);
  for (int i = 0; i < 60; i++) {
    BwPlacement placement
        = { g_rand_double_range (dice, -80, 80), g_rand_double_range (dice, 0, 14),
            exp (g_rand_double_range (dice, 0, 6)), g_rand_double_range (dice, -400, 400) };
    BwFootprints found = sampled (&painted.picture, &placement, &usual);
    for (int bead = 0; bead < usual.rows * usual.columns / 2; bead++) {
      assert_true (found.share[bead] >= 0 && found.share[bead] <= 1 + 1e-6f);
      if (found.share[bead] > 0) {
        assert_true (fabs (found.mean[bead].r - wanted.r) < 1e-6);
        assert_true (fabs (found.mean[bead].g - wanted.g) < 1e-6);
        assert_true (fabs (found.mean[bead].b - wanted.b) < 1e-6);
      }
    }
    bw_footprints_clear (&found);
  }
  g_rand_free (dice);
}

/* The picture's own area, in beads, is what the shares add up to, however it lies. */
static void
the_shares_add_up_to_the_pictures_area (void **state)
{
  g_auto (Painted) painted = paint (300, 200, 3, flat, NULL);
  GRand *dice = g_rand_new_with_seed (2);
  for (int i = 0; i < 40; i++) {
    BwPlacement placement
        = { g_rand_double_range (dice, -60, 60), 7, g_rand_double_range (dice, 6, 12),
            g_rand_double_range (dice, 0, 360) };
    BwFootprints found = sampled (&painted.picture, &placement, &usual);
    double sum = 0, area = placement.width_mm * placement.width_mm * 2 / 3;
    for (int bead = 0; bead < usual.rows * usual.columns / 2; bead++)
      sum += (double)found.share[bead];
    assert_true (fabs (sum * usual.pitch_mm * usual.column_mm / area - 1) < 0.01);
    bw_footprints_clear (&found);
  }
  g_rand_free (dice);
}

static void
the_beads_mean_is_the_pictures_mean (void **state)
{
  GRand *dice = g_rand_new_with_seed (3);
  g_auto (Painted) painted = paint (400, 260, 3, noise, dice);
  BwPlacement placement = { 11, 7, 16, 30 };
  BwFootprints found = sampled (&painted.picture, &placement, &usual);
  double beads = 0, weight = 0, pixels = 0;
  for (int bead = 0; bead < usual.rows * usual.columns / 2; bead++) {
    beads += (double)found.share[bead] * found.mean[bead].g;
    weight += (double)found.share[bead];
  }
  for (int i = 0; i < 400 * 260; i++)
    pixels += bw_colour_decode (painted.pixels[3 * i + 1] / 255.0);
  assert_true (fabs (beads / weight - pixels / (400 * 260)) < 0.005);
  bw_footprints_clear (&found);
  g_rand_free (dice);
}

/* Left half dark, right half light: bead by bead, by where the bead's middle lies. */
static guint32
halves (int x, int y, gpointer data)
{
  return x < 100 ? 0xff101010u : 0xfff0f0f0u;
}

static void
a_boundary_falls_where_the_half_drop_has_it (void **state)
{
  static const BwChoice choice = { 2, { 0x101010, 0xf0f0f0 }, { 4, 5 } };
  g_auto (Painted) painted = paint (200, 100, 3, halves, NULL);
  /* The boundary stands upright a quarter pitch right of row 1: through no bead's middle. */
  BwPlacement placement = { 0.25, 7, 60, 0 };
  BwFootprints found = sampled (&painted.picture, &placement, &usual);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (14, 114, UNTOUCHED);
  assert_true (bw_mapping_match (&found, &choice, FALSE, drawing, NULL, NULL));
  for (int column = 1; column <= 14; column++) {
    int left = column % 2 ? 114 : 1, right = column % 2 ? 2 : 3;
    assert_int_equal (bw_drawing_get (drawing, left, column), 4);
    assert_int_equal (bw_drawing_get (drawing, right, column), 5);
  }
  bw_footprints_clear (&found);
}

static void
a_picture_runs_on_across_the_join (void **state)
{
  GRand *dice = g_rand_new_with_seed (5);
  g_auto (Painted) painted = paint (64, 48, 3, noise, dice);
  BwPlacement at_join = { 0, 7, 20, 12 }, away = { 20, 7, 20, 12 };
  BwFootprints a = sampled (&painted.picture, &at_join, &usual);
  BwFootprints b = sampled (&painted.picture, &away, &usual);
  for (int row = 1; row <= 114; row++) {
    int there = (row - 1 + 40) % 114 + 1;
    for (int j = 0; j < 7; j++) {
      gsize from = (gsize)((row - 1) * 7 + j), to = (gsize)((there - 1) * 7 + j);
      assert_true (fabsf (a.share[from] - b.share[to]) < 2e-3f);
      if (a.share[from] > 0.5f)
        assert_true (fabs (a.mean[from].r - b.mean[to].r) < 0.02);
    }
  }
  bw_footprints_clear (&a);
  bw_footprints_clear (&b);
  g_rand_free (dice);
}

static guint32
see_through (int x, int y, gpointer data)
{
  return x < 50 ? 0x00ff0000u : 0xff0000ffu;
}

static void
what_is_transparent_leaves_its_beads_alone (void **state)
{
  static const BwChoice choice = { 2, { 0xff0000, 0x0000ff }, { 1, 2 } };
  g_auto (Painted) painted = paint (100, 100, 4, see_through, NULL);
  BwPlacement placement = { 20, 7, 18.2, 0 };
  BwFootprints found = sampled (&painted.picture, &placement, &usual);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (14, 114, UNTOUCHED);
  guint64 counts[256] = { 0 };
  assert_true (bw_mapping_match (&found, &choice, TRUE, drawing, NULL, NULL));
  bw_drawing_count (drawing, counts);
  assert_int_equal (counts[1], 0);
  assert_in_range (counts[2], 70, 90); /* 9.1 × 18.2 mm of 1.6 × 1.3 */
  assert_int_equal (counts[UNTOUCHED], 114 * 7 - counts[2]);
  bw_footprints_clear (&found);
}

static void
each_bead_gets_the_colour_that_looks_nearest (void **state)
{
  GRand *dice = g_rand_new_with_seed (6);
  g_auto (Painted) painted = paint (90, 60, 3, noise, dice);
  BwChoice choice = { .n = 9 };
  for (int i = 0; i < choice.n; i++) {
    choice.srgb[i] = (guint32)g_rand_int_range (dice, 0, 1 << 24);
    choice.index[i] = (guint8)(20 + i);
  }
  BwPlacement placement = { 20, 7, 30, 45 };
  BwFootprints found = sampled (&painted.picture, &placement, &usual);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (14, 114, UNTOUCHED);
  assert_true (bw_mapping_match (&found, &choice, FALSE, drawing, NULL, NULL));
  for (int row = 1; row <= 114; row++)
    for (int j = 0; j < 7; j++) {
      int column = bw_lattice_column (row, j), shown = bw_drawing_get (drawing, row, column);
      gsize bead = bead_index (&usual, row, column);
      if (found.share[bead] < (float)BW_FOOTPRINT_LEAST) {
        assert_int_equal (shown, UNTOUCHED);
        continue;
      }
      BwLab lab = bw_colour_lab_from_linear (found.mean[bead]);
      double own = bw_colour_difference (lab, bw_colour_lab (choice.srgb[shown - 20]));
      for (int i = 0; i < choice.n; i++)
        assert_true (own <= bw_colour_difference (lab, bw_colour_lab (choice.srgb[i])) + 1e-12);
    }
  bw_footprints_clear (&found);
  g_rand_free (dice);
}

static guint32
grey (int x, int y, gpointer data)
{
  guint32 v = *(guint8 *)data;
  return 0xff000000u | v << 16 | v << 8 | v;
}

/* Black and white beads together give back as much light as the grey they stand for. */
static void
dithering_keeps_the_light (void **state)
{
  static const BwChoice choice = { 2, { 0x000000, 0xffffff }, { 0, 1 } };
  for (int v = 40; v <= 240; v += 20) {
    guint8 level = (guint8)v;
    g_auto (Painted) painted = paint (30, 4, 3, grey, &level);
    BwPlacement placement = { 20, 30, 1000, 0 };
    BwBandGrid grid = { 60, 400, 1.6, 1.3 };
    BwFootprints found = sampled (&painted.picture, &placement, &grid);
    g_autoptr (BwDrawing) drawing = bw_drawing_new (60, 400, 0);
    guint64 counts[256] = { 0 };
    assert_true (bw_mapping_match (&found, &choice, TRUE, drawing, NULL, NULL));
    bw_drawing_count (drawing, counts);
    assert_true (fabs ((double)counts[1] / 12000 - bw_colour_decode (v / 255.0)) < 0.02);
    bw_footprints_clear (&found);
  }
}

/* A third of the light: no column is left out and none is filled, as a rule made for a square grid
 * would do on a half-drop. */
static void
dithering_scatters_over_the_half_drop (void **state)
{
  static const BwChoice choice = { 2, { 0x000000, 0xffffff }, { 0, 1 } };
  guint8 level = 156;
  g_auto (Painted) painted = paint (8, 8, 3, grey, &level);
  BwPlacement placement = { 0, 10, 1000, 0 };
  BwBandGrid grid = { 20, 200, 1.6, 1.3 };
  BwFootprints found = sampled (&painted.picture, &placement, &grid);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (20, 200, 0);
  assert_true (bw_mapping_match (&found, &choice, TRUE, drawing, NULL, NULL));
  for (int column = 1; column <= 20; column++) {
    int white = 0;
    for (int row = 1; row <= 200; row++)
      if (bw_lattice_has (row, column))
        white += bw_drawing_get (drawing, row, column);
    assert_in_range (white, 15, 60);
  }
  bw_footprints_clear (&found);
}

static guint32
four_flags (int x, int y, gpointer data)
{
  static const guint32 flags[] = { 0xff1b2a41u, 0xffe9c46au, 0xff8a1c1cu, 0xffe8e8e8u };
  return flags[(x / 50) % 4];
}

static void
the_proposed_tray_of_four_flat_colours_is_those_four (void **state)
{
  g_auto (Painted) painted = paint (200, 40, 3, four_flags, NULL);
  BwBandGrid grid = { 14, 160, 1.6, 1.3 };
  /* A flag is a whole number of beads wide and the edges fall between the beads of one row parity;
   * where they cut a bead of the other, that bead is a mixture. */
  BwPlacement placement = { 20.25, 7, 128, 0 };
  BwFootprints found = sampled (&painted.picture, &placement, &grid);
  guint32 colours[BW_TRAY_MAX];
  assert_int_equal (bw_mapping_propose (&found, 4, colours), 4);
  for (int i = 0; i < 4; i++) {
    double least = INFINITY;
    for (int x = 0; x < 200; x += 50)
      least
          = MIN (least, bw_colour_difference (bw_colour_lab (colours[i]),
                                              bw_colour_lab (four_flags (x, 0, NULL) & 0xffffff)));
    assert_true (least < 4);
  }
  bw_footprints_clear (&found);
}

static void
one_flat_colour_is_proposed_once_and_exactly (void **state)
{
  g_auto (Painted) painted = paint (20, 20, 3, flat, NULL);
  BwPlacement placement = { 0, 7, 400, 0 };
  BwFootprints found = sampled (&painted.picture, &placement, &usual);
  guint32 colours[BW_TRAY_MAX];
  assert_int_equal (bw_mapping_propose (&found, 6, colours), 1);
  assert_int_equal (colours[0], 0x3a7f5c);
  bw_footprints_clear (&found);
}

/* More colours never serve worse, and the answer is always the same. */
static double
badness (const BwFootprints *found, const guint32 *colours, int n)
{
  double sum = 0;
  for (int bead = 0; bead < usual.rows * usual.columns / 2; bead++) {
    double least = INFINITY;
    for (int i = 0; i < n; i++) {
      BwLab a = bw_colour_lab_from_linear (found->mean[bead]), b = bw_colour_lab (colours[i]);
      double d = (a.L - b.L) * (a.L - b.L) + (a.a - b.a) * (a.a - b.a) + (a.b - b.b) * (a.b - b.b);
      least = MIN (least, d);
    }
    sum += least;
  }
  return sum;
}

static void
more_proposed_colours_serve_better_and_always_the_same (void **state)
{
  GRand *dice = g_rand_new_with_seed (8);
  g_auto (Painted) painted = paint (100, 20, 3, noise, dice);
  BwPlacement placement = { 0, 7, 400, 0 };
  BwFootprints found = sampled (&painted.picture, &placement, &usual);
  double last = INFINITY;
  for (int k = 1; k <= 32; k *= 2) {
    guint32 colours[BW_TRAY_MAX], again[BW_TRAY_MAX];
    int n = bw_mapping_propose (&found, k, colours);
    assert_int_equal (n, k);
    assert_int_equal (bw_mapping_propose (&found, k, again), k);
    assert_memory_equal (colours, again, sizeof *colours * (gsize)n);
    double now = badness (&found, colours, n);
    assert_true (now < last);
    last = now;
  }
  bw_footprints_clear (&found);
  g_rand_free (dice);
}

static gboolean
stop_half_way (double share, gpointer data)
{
  int *asked = data;
  ++*asked;
  return share < 0.5;
}

static void
stopping_is_heeded_at_once (void **state)
{
  g_auto (Painted) painted = paint (20, 20, 3, flat, NULL);
  static const BwChoice choice = { 1, { 0 }, { 0 } };
  BwPlacement placement = { 0, 7, 400, 0 };
  BwFootprints found;
  int asked = 0;
  assert_false (
      bw_mapping_sample (&found, &painted.picture, &placement, &usual, stop_half_way, &asked));
  assert_int_equal (asked, 58);
  assert_null (found.mean);
  found = sampled (&painted.picture, &placement, &usual);
  g_autoptr (BwDrawing) drawing = bw_drawing_new (14, 114, UNTOUCHED);
  asked = 0;
  assert_false (bw_mapping_match (&found, &choice, FALSE, drawing, stop_half_way, &asked));
  assert_int_equal (asked, 58);
  bw_footprints_clear (&found);
}

static void
the_covering_placement_leaves_no_bead_of_its_middle_bare (void **state)
{
  g_auto (Painted) painted = paint (120, 80, 3, flat, NULL);
  BwPlacement placement = bw_placement_cover (&painted.picture, &usual, 33);
  BwFootprints found = sampled (&painted.picture, &placement, &usual);
  for (int column = 1; column <= 14; column++)
    assert_true (found.share[bead_index (&usual, column % 2 ? 68 : 67, column)] > 0.999f);
  bw_footprints_clear (&found);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_flat_picture_is_flat_at_every_scale_and_turn),
    cmocka_unit_test (the_shares_add_up_to_the_pictures_area),
    cmocka_unit_test (the_beads_mean_is_the_pictures_mean),
    cmocka_unit_test (a_boundary_falls_where_the_half_drop_has_it),
    cmocka_unit_test (a_picture_runs_on_across_the_join),
    cmocka_unit_test (what_is_transparent_leaves_its_beads_alone),
    cmocka_unit_test (each_bead_gets_the_colour_that_looks_nearest),
    cmocka_unit_test (dithering_keeps_the_light),
    cmocka_unit_test (dithering_scatters_over_the_half_drop),
    cmocka_unit_test (the_proposed_tray_of_four_flat_colours_is_those_four),
    cmocka_unit_test (one_flat_colour_is_proposed_once_and_exactly),
    cmocka_unit_test (more_proposed_colours_serve_better_and_always_the_same),
    cmocka_unit_test (stopping_is_heeded_at_once),
    cmocka_unit_test (the_covering_placement_leaves_no_bead_of_its_middle_bare),
  };
  return cmocka_run_group_tests_name ("mapping", tests, NULL, NULL);
}
