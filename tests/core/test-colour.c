/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours against published values. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>
#include "core/pattern/colour.h"

/* G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes,
 * Supplementary Test Data, and Mathematical Observations", Color Research & Application 30(1),
 * 2005, table 1: 34 pairs, ΔE00 to four decimals. */
static void
the_difference_is_that_of_the_34_published_pairs (void **state)
{
  static const struct {
    BwLab a, b;
    double difference;
  } pairs[] = {
    { { 50, 2.6772, -79.7751 }, { 50, 0, -82.7485 }, 2.0425 },
    { { 50, 3.1571, -77.2803 }, { 50, 0, -82.7485 }, 2.8615 },
    { { 50, 2.8361, -74.0200 }, { 50, 0, -82.7485 }, 3.4412 },
    { { 50, -1.3802, -84.2814 }, { 50, 0, -82.7485 }, 1.0000 },
    { { 50, -1.1848, -84.8006 }, { 50, 0, -82.7485 }, 1.0000 },
    { { 50, -0.9009, -85.5211 }, { 50, 0, -82.7485 }, 1.0000 },
    { { 50, 0, 0 }, { 50, -1, 2 }, 2.3669 },
    { { 50, -1, 2 }, { 50, 0, 0 }, 2.3669 },
    { { 50, 2.4900, -0.0010 }, { 50, -2.4900, 0.0009 }, 7.1792 },
    { { 50, 2.4900, -0.0010 }, { 50, -2.4900, 0.0010 }, 7.1792 },
    { { 50, 2.4900, -0.0010 }, { 50, -2.4900, 0.0011 }, 7.2195 },
    { { 50, 2.4900, -0.0010 }, { 50, -2.4900, 0.0012 }, 7.2195 },
    { { 50, -0.0010, 2.4900 }, { 50, 0.0009, -2.4900 }, 4.8045 },
    { { 50, -0.0010, 2.4900 }, { 50, 0.0010, -2.4900 }, 4.8045 },
    { { 50, -0.0010, 2.4900 }, { 50, 0.0011, -2.4900 }, 4.7461 },
    { { 50, 2.5, 0 }, { 50, 0, -2.5 }, 4.3065 },
    { { 50, 2.5, 0 }, { 73, 25, -18 }, 27.1492 },
    { { 50, 2.5, 0 }, { 61, -5, 29 }, 22.8977 },
    { { 50, 2.5, 0 }, { 56, -27, -3 }, 31.9030 },
    { { 50, 2.5, 0 }, { 58, 24, 15 }, 19.4535 },
    { { 50, 2.5, 0 }, { 50, 3.1736, 0.5854 }, 1.0000 },
    { { 50, 2.5, 0 }, { 50, 3.2972, 0 }, 1.0000 },
    { { 50, 2.5, 0 }, { 50, 1.8634, 0.5757 }, 1.0000 },
    { { 50, 2.5, 0 }, { 50, 3.2592, 0.3350 }, 1.0000 },
    { { 60.2574, -34.0099, 36.2677 }, { 60.4626, -34.1751, 39.4387 }, 1.2644 },
    { { 63.0109, -31.0961, -5.8663 }, { 62.8187, -29.7946, -4.0864 }, 1.2630 },
    { { 61.2901, 3.7196, -5.3901 }, { 61.4292, 2.2480, -4.9620 }, 1.8731 },
    { { 35.0831, -44.1164, 3.7933 }, { 35.0232, -40.0716, 1.5901 }, 1.8645 },
    { { 22.7233, 20.0904, -46.6940 }, { 23.0331, 14.9730, -42.5619 }, 2.0373 },
    { { 36.4612, 47.8580, 18.3852 }, { 36.2715, 50.5065, 21.2231 }, 1.4146 },
    { { 90.8027, -2.0831, 1.4410 }, { 91.1528, -1.6435, 0.0447 }, 1.4441 },
    { { 90.9257, -0.5406, -0.9208 }, { 88.6381, -0.8985, -0.7239 }, 1.5381 },
    { { 6.7747, -0.2908, -2.4247 }, { 5.8714, -0.0985, -2.2286 }, 0.6377 },
    { { 2.0776, 0.0795, -1.1350 }, { 0.9033, -0.0636, -0.5514 }, 0.9082 },
  };
  assert_int_equal (G_N_ELEMENTS (pairs), 34);
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++) {
    double d = bw_colour_difference (pairs[i].a, pairs[i].b);
    if (fabs (d - pairs[i].difference) > 0.5e-4 + 1e-9)
      fail_msg ("pair %d: %.5f, published %.4f", (int)i + 1, d, pairs[i].difference);
  }
}

static void
the_difference_does_not_depend_on_the_order (void **state)
{
  GRand *dice = g_rand_new_with_seed (7);
  for (int i = 0; i < 2000; i++) {
    BwLab a = bw_colour_lab ((guint32)g_rand_int_range (dice, 0, 1 << 24));
    BwLab b = bw_colour_lab ((guint32)g_rand_int_range (dice, 0, 1 << 24));
    assert_true (fabs (bw_colour_difference (a, b) - bw_colour_difference (b, a)) < 1e-9);
    assert_true (bw_colour_difference (a, a) == 0);
  }
  g_rand_free (dice);
}

/* CIE 1976 L*a*b* of sRGB colours with the white of the primaries, computed from the definitions of
 * IEC 61966-2-1:1999; the constants in circulation differ by up to 0.03. */
static void
lab_of_well_known_colours_is_right (void **state)
{
  static const struct {
    guint32 srgb;
    BwLab lab;
  } known[] = {
    { 0xff0000, { 53.2371, 80.0901, 67.2033 } },   { 0x00ff00, { 87.7355, -86.1816, 83.1866 } },
    { 0x0000ff, { 32.3009, 79.1953, -107.8555 } }, { 0x808080, { 53.5850, 0, 0 } },
    { 0xc08040, { 58.9894, 18.6423, 43.9377 } },   { 0x336699, { 42.0092, -0.1459, -32.8451 } },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (known); i++) {
    BwLab lab = bw_colour_lab (known[i].srgb);
    assert_true (fabs (lab.L - known[i].lab.L) < 0.03);
    assert_true (fabs (lab.a - known[i].lab.a) < 0.03);
    assert_true (fabs (lab.b - known[i].lab.b) < 0.03);
  }
}

static void
greys_have_no_tint (void **state)
{
  for (guint32 v = 0; v < 256; v++) {
    BwLab lab = bw_colour_lab (v << 16 | v << 8 | v);
    assert_true (fabs (lab.a) < 1e-9 && fabs (lab.b) < 1e-9);
  }
}

static void
every_srgb_value_survives_the_way_to_linear_light_and_back (void **state)
{
  for (guint32 v = 0; v < 256; v++) {
    guint32 srgb = v << 16 | (255 - v) << 8 | (v ^ 85);
    assert_int_equal (bw_colour_srgb (bw_colour_linear (srgb)), srgb);
  }
}

static void
lab_and_linear_light_are_each_others_inverse (void **state)
{
  GRand *dice = g_rand_new_with_seed (9);
  for (int i = 0; i < 2000; i++) {
    BwLinear light = { g_rand_double (dice), g_rand_double (dice), g_rand_double (dice) };
    BwLinear back = bw_colour_linear_from_lab (bw_colour_lab_from_linear (light));
    assert_true (fabs (back.r - light.r) < 1e-9 && fabs (back.g - light.g) < 1e-9
                 && fabs (back.b - light.b) < 1e-9);
  }
  g_rand_free (dice);
}

/* A screen's rounding moves a colour by half a step a channel. */
static void
what_is_perceived_is_what_is_shown_of_it (void **state)
{
  GRand *dice = g_rand_new_with_seed (10);
  for (int i = 0; i < 2000; i++) {
    guint32 srgb = (guint32)g_rand_int_range (dice, 0, 1 << 24);
    for (BwSight sight = 0; sight < BW_N_SIGHTS; sight++)
      assert_int_equal (
          bw_colour_srgb (bw_colour_linear_from_lab (bw_colour_lab_seen (srgb, sight))),
          bw_colour_seen (srgb, sight));
  }
  g_rand_free (dice);
}

/* Machado, Oliveira & Fernandes, IEEE TVCG 15(6), 2009, severity 1, applied in linear light. */
static void
colours_are_seen_as_published_for_colour_vision_deficiency (void **state)
{
  static const struct {
    guint32 srgb;
    BwSight sight;
    guint32 seen;
  } known[] = {
    { 0xff0000, BW_SIGHT_PROTAN, 0x6d5f00 }, { 0x00ff00, BW_SIGHT_PROTAN, 0xffe500 },
    { 0xc08040, BW_SIGHT_PROTAN, 0x948539 }, { 0xff0000, BW_SIGHT_DEUTAN, 0xa39000 },
    { 0x00ff00, BW_SIGHT_DEUTAN, 0xefd63a }, { 0xc08040, BW_SIGHT_DEUTAN, 0xa39441 },
    { 0xff0000, BW_SIGHT_TRITAN, 0xff000f }, { 0x00ff00, BW_SIGHT_TRITAN, 0x00f7d9 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (known); i++)
    assert_int_equal (bw_colour_seen (known[i].srgb, known[i].sight), known[i].seen);
  assert_int_equal (bw_colour_seen (0x123456, BW_SIGHT_FULL), 0x123456);
}

/* W3C, Web Content Accessibility Guidelines 2.2, "contrast ratio". */
static void
contrast_against_white_is_that_of_the_guidelines (void **state)
{
  assert_true (fabs (bw_colour_contrast (0xffffff, 0x000000) - 21) < 1e-9);
  assert_true (fabs (bw_colour_contrast (0xffffff, 0x767676) - 4.5422) < 1e-3);
  assert_true (fabs (bw_colour_contrast (0xff0000, 0xffffff) - 3.9985) < 1e-3);
  assert_true (fabs (bw_colour_contrast (0x0000ff, 0xffffff) - 8.5925) < 1e-3);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_difference_is_that_of_the_34_published_pairs),
    cmocka_unit_test (the_difference_does_not_depend_on_the_order),
    cmocka_unit_test (lab_of_well_known_colours_is_right),
    cmocka_unit_test (greys_have_no_tint),
    cmocka_unit_test (every_srgb_value_survives_the_way_to_linear_light_and_back),
    cmocka_unit_test (lab_and_linear_light_are_each_others_inverse),
    cmocka_unit_test (what_is_perceived_is_what_is_shown_of_it),
    cmocka_unit_test (colours_are_seen_as_published_for_colour_vision_deficiency),
    cmocka_unit_test (contrast_against_white_is_that_of_the_guidelines),
  };
  return cmocka_run_group_tests_name ("colour", tests, NULL, NULL);
}
