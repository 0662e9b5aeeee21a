/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours against an independent colour engine (Little CMS 2): sRGB to CIELAB through its own
 * profile of IEC 61966-2-1 primaries and curve, and CIEDE2000 by its own formula. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <lcms2.h>
#include <math.h>

#include "core/pattern/colour.h"

static const cmsCIExyY d65 = { 0.3127, 0.3290, 1 };

/* The engine's linear sRGB to XYZ, not adapted to another white. */
static cmsHTRANSFORM
to_xyz (void)
{
  const cmsFloat64Number curve[] = { 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045 };
  const cmsCIExyYTRIPLE primaries = { { 0.64, 0.33, 1 }, { 0.30, 0.60, 1 }, { 0.15, 0.06, 1 } };
  cmsToneCurve *tone = cmsBuildParametricToneCurve (NULL, 4, curve);
  cmsToneCurve *tones[] = { tone, tone, tone };
  cmsHPROFILE rgb = cmsCreateRGBProfile (&d65, &primaries, tones), xyz = cmsCreateXYZProfile ();
  cmsSetAdaptationState (0);
  cmsHTRANSFORM transform
      = cmsCreateTransform (rgb, TYPE_RGB_DBL, xyz, TYPE_XYZ_DBL, INTENT_ABSOLUTE_COLORIMETRIC,
                            cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE);
  cmsFreeToneCurve (tone);
  cmsCloseProfile (rgb);
  cmsCloseProfile (xyz);
  assert_non_null (transform);
  return transform;
}

static cmsCIELab
engine_lab (cmsHTRANSFORM transform, guint32 srgb)
{
  const double rgb[]
      = { ((srgb >> 16) & 255) / 255.0, ((srgb >> 8) & 255) / 255.0, (srgb & 255) / 255.0 };
  cmsCIEXYZ xyz, white;
  cmsCIELab lab;
  cmsxyY2XYZ (&white, &d65);
  cmsDoTransform (transform, rgb, &xyz, 1);
  cmsXYZ2Lab (&white, &lab, &xyz);
  return lab;
}

/* The engine keeps its profile's matrix in sixteen fractional bits: 1.5e-5, a twentieth of a unit
 * of L at the very most (slope 903 near black). */
static void
lab_is_that_of_an_independent_engine (void **state)
{
  cmsHTRANSFORM transform = to_xyz ();
  g_autoptr (GRand) dice = g_rand_new_with_seed (21);
  for (int i = 0; i < 20000; i++) {
    guint32 srgb = (guint32)g_rand_int_range (dice, 0, 1 << 24);
    cmsCIELab there = engine_lab (transform, srgb);
    BwLab here = bw_colour_lab (srgb);
    if (fabs (here.L - there.L) > 0.05 || fabs (here.a - there.a) > 0.05
        || fabs (here.b - there.b) > 0.05)
      fail_msg ("#%06x: %.4f %.4f %.4f here, %.4f %.4f %.4f there", srgb, here.L, here.a, here.b,
                there.L, there.a, there.b);
  }
  cmsDeleteTransform (transform);
}

static void
the_difference_is_that_of_an_independent_engine (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (22);
  for (int i = 0; i < 50000; i++) {
    BwLab a = bw_colour_lab ((guint32)g_rand_int_range (dice, 0, 1 << 24));
    BwLab b = bw_colour_lab ((guint32)g_rand_int_range (dice, 0, 1 << 24));
    cmsCIELab ca = { a.L, a.a, a.b }, cb = { b.L, b.a, b.b };
    double here = bw_colour_difference (a, b), there = cmsCIE2000DeltaE (&ca, &cb, 1, 1, 1);
    if (fabs (here - there) > 1e-6)
      fail_msg ("(%.3f %.3f %.3f) (%.3f %.3f %.3f): %.9f here, %.9f there", a.L, a.a, a.b, b.L, b.a,
                b.b, here, there);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (lab_is_that_of_an_independent_engine),
    cmocka_unit_test (the_difference_is_that_of_an_independent_engine),
  };
  return cmocka_run_group_tests_name ("lcms", tests, NULL, NULL);
}
