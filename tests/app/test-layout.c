/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain arithmetic of the window: columns of cards, numbers that must not overlap, file names, the
 * sketches' projections. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/form/cards.h"
#include "app/ask/colour-dialog.h"
#include "app/ask/file-dialog.h"
#include "app/hang/hang-sketch.h"
#include "app/hang/hang-cards.h"
#include "app/form/band-outline.h"
#include "app/form/sketch.h"
#include "app/form/stone-outline.h"
#include "core/base/lattice.h"

#include <math.h>

static void
columns_follow_the_room (void **state)
{
  assert_int_equal (bw_cards_column_count (100, 300, 12, 3), 1);
  assert_int_equal (bw_cards_column_count (611, 300, 12, 3), 1);
  assert_int_equal (bw_cards_column_count (612, 300, 12, 3), 2);
  assert_int_equal (bw_cards_column_count (924, 300, 12, 3), 3);
  assert_int_equal (bw_cards_column_count (9000, 300, 12, 3), 3);
}

static void
spread_numbers_keep_their_distance_and_their_order (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (82);
  for (int turn = 0; turn < 500; turn++) {
    double before[6], after[6];
    int n = g_rand_int_range (rand, 1, 7);
    for (int i = 0; i < n; i++)
      before[i] = after[i] = g_rand_double_range (rand, 0, 200);
    bw_sketch_spread (after, n, 20, 0, 200);
    for (int i = 0; i < n; i++) {
      assert_true (after[i] > -1e-9 && after[i] < 200 + 1e-9);
      for (int j = 0; j < n; j++)
        if (before[i] < before[j])
          assert_true (after[j] - after[i] > 20 - 1e-9);
    }
  }
}

static void
numbers_far_apart_stay_where_they_are (void **state)
{
  double y[] = { 90, 10, 50 };
  bw_sketch_spread (y, 3, 20, 0, 100);
  assert_true (fabs (y[0] - 90) < 1e-12 && fabs (y[1] - 10) < 1e-12 && fabs (y[2] - 50) < 1e-12);
}

static void
a_title_becomes_a_harmless_file_name (void **state)
{
  static const char *const names[][2] = {
    { "Harbour Night", "Harbour Night.bandwright" },
    { "a/b\\c:d", "a-b-c-d.bandwright" },
    { "..hidden", "hidden.bandwright" },
    { "  ", "Untitled.bandwright" },
    { "Zwölf Türme", "Zwölf Türme.bandwright" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++) {
    g_autofree char *name = bw_file_name_for (names[i][0], BW_FILES_PROJECT);
    assert_string_equal (name, names[i][1]);
  }
  g_autofree char *none = bw_file_name_for (NULL, BW_FILES_CSV);
  assert_string_equal (none, "Untitled.csv");
}

static void
a_colour_survives_the_toolkits_floats (void **state)
{
  for (guint32 srgb = 0; srgb <= 0xffffff; srgb += 0x010f1d) {
    GdkRGBA rgba = bw_colour_to_rgba (srgb);
    assert_int_equal (bw_colour_from_rgba (&rgba), srgb);
  }
}

static void
what_points_to_the_right_is_drawn_there (void **state)
{
  for (int degrees = 0; degrees < 360; degrees += 15) {
    double azimuth = bw_radians (degrees);
    BwVec2 out = { 3 * cos (azimuth), 3 * sin (azimuth) };
    assert_true (fabs (bw_outline_x (out, degrees) - 3) < 1e-12);
    assert_true (fabs (bw_outline_x (out, degrees + 90)) < 1e-12);
  }
}

/* The axis as turned must lean from the vertical by just the tilt that the numbers tell, with the
 * tip on the side that they tell. */
static void
the_picture_at_rest_leans_as_the_numbers_say (void **state)
{
  static const BwBailStyle styles[] = { BW_BAIL_FLAP, BW_BAIL_RING, BW_BAIL_UPRIGHT };
  g_autoptr (GRand) rand = g_rand_new_with_seed (83);
  for (int i = 0; i < 300; i++) {
    BwBail bail = { .style = styles[i % 3], .at_deg = 0 };
    double out = g_rand_double_range (rand, 4, 20), rise = g_rand_double_range (rand, -30, 30);
    BwHang hang = { .has_bail = TRUE, .pivot = { out, 0, 20 }, .centroid = { 0, 0, 20 - rise } };
    hang.tilt_deg = bw_degrees (atan2 (out, fabs (rise)));
    hang.up = rise > 0 ? BW_UP_TIP : BW_UP_BASE;
    double turn = bw_hang_sketch_turn (&hang, &bail);
    double axis_up = cos (turn);
    assert_true ((axis_up > 0) == (hang.up == BW_UP_TIP));
    assert_true (fabs (bw_degrees (acos (fabs (axis_up))) - hang.tilt_deg) < 1e-6);
    /* The side of the bail is the upper one: it is where the cord is. */
    assert_true (sin (turn) > 0);
  }
}

/* How much of a picture of the band, 10 pixels a mm, is nearest to each of two colours. */
static void
count_colours (BwProject *project, double azimuth_deg, int *first, int *second)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 400, 600);
  cairo_t *cr = cairo_create (surface);
  cairo_translate (cr, 200, 600);
  cairo_scale (cr, 10, -10);
  bw_outline_band (cr, project, azimuth_deg, 0.05);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  *first = *second = 0;
  for (int y = 0; y < 600; y++)
    for (int x = 0; x < 400; x++) {
      const guint8 *row
          = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface);
      guint32 pixel = ((const guint32 *)(const void *)row)[x];
      if (pixel >> 24 == 255) {
        /* Slate has more blue than red, straw more red than blue. */
        *first += (pixel & 255) > ((pixel >> 16) & 255);
        *second += (pixel & 255) < ((pixel >> 16) & 255);
      }
    }
  cairo_surface_destroy (surface);
}

/* The beads under face 1 alone are straw: from one side they are seen, from the other they are not.
 */
static void
the_band_in_outline_wears_its_own_colours (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  const BwPlaces *places = bw_project_places (project);
  int slate, straw, slate_before, straw_before;
  count_colours (project, 0, &slate_before, &straw_before);
  assert_true (slate_before > 10000);
  assert_int_equal (straw_before, 0);
  for (int row = 1; row <= places->rows; row++)
    for (int column = 1; column <= places->columns; column++)
      if (bw_lattice_has (row, column) && bw_places_get (places, row, column).face == 0)
        assert_true (bw_project_set_bead (project, "Paint", FALSE, row, column, 1));
  /* What points to the right at 90° is a quarter turn on from face 1, which then looks at us. */
  count_colours (project, 90, &slate, &straw);
  assert_true (straw > slate / 2);
  count_colours (project, 270, &slate, &straw);
  assert_true (straw < slate / 50);
}

static void
count_one (cairo_surface_t *observed, cairo_surface_t *target, gpointer data)
{
  (*(int *)data)++;
}

/* Strokes are kept by the window until the next picture; a picture of very many takes less. It lies
 * where the beads would. */
static void
a_very_large_band_in_outline_is_one_picture (void **state)
{
  static const char text[]
      = "{\"format\":\"bandwright-project\",\"version\":1,\"stone\":{\"faces\":6,"
        "\"measured\":\"girth\",\"values_mm\":[315],\"at_mm\":66,\"length_mm\":200,"
        "\"shoulder_mm\":160},\"bead\":{\"diameter_mm\":1.6,\"length_mm\":1.3,"
        "\"hole_mm\":0.8},\"band\":{\"columns\":60,\"rows\":400}}";
  g_autoptr (BwProject) project = bw_project_load_data (text, sizeof text - 1, NULL);
  assert_non_null (project);
  BwBandSpan span = bw_design_span (bw_project_get_design (project));
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 300, 400);
  cairo_surface_t *observed = cairo_surface_create_observer (image, CAIRO_SURFACE_OBSERVER_NORMAL);
  int fills = 0, paints = 0, low = 400, high = 0;
  cairo_surface_observer_add_fill_callback (observed, count_one, &fills);
  cairo_surface_observer_add_paint_callback (observed, count_one, &paints);
  cairo_t *cr = cairo_create (observed);
  cairo_translate (cr, 150, 400);
  cairo_scale (cr, 2, -2);
  bw_outline_band (cr, project, 0, 0.4);
  cairo_destroy (cr);
  cairo_surface_flush (observed);
  assert_int_equal (fills, 0);
  assert_int_equal (paints, 1);
  for (int y = 0; y < 400; y++) {
    const guint8 *row
        = cairo_image_surface_get_data (image) + y * cairo_image_surface_get_stride (image);
    guint32 pixel = ((const guint32 *)(const void *)row)[150];
    low = pixel >> 24 > 127 ? MIN (low, y) : low;
    high = pixel >> 24 > 127 ? MAX (high, y + 1) : high;
  }
  assert_true (fabs (400 - 2 * span.bottom_mm - high) < 3);
  assert_true (fabs (400 - 2 * (span.bottom_mm + span.width_mm) - low) < 3);
  cairo_surface_destroy (observed);
  cairo_surface_destroy (image);
}

static void
rest_is_told_by_what_is_up (void **state)
{
  BwHang hang = { .has_bail = TRUE, .tilt_deg = 12, .up = BW_UP_TIP };
  g_autofree char *tip = bw_rest_words (&hang);
  hang.up = BW_UP_BASE;
  g_autofree char *base = bw_rest_words (&hang);
  hang.level = TRUE;
  g_autofree char *level = bw_rest_words (&hang);
  hang.has_bail = FALSE;
  g_autofree char *none = bw_rest_words (&hang);
  assert_string_equal (tip, "Hangs tip up, 12° from upright.");
  assert_non_null (strstr (base, "tip down"));
  assert_non_null (strstr (level, "level"));
  assert_non_null (strstr (none, "Without a bail"));
}

static void
a_band_that_may_slip_is_told_with_its_way (void **state)
{
  BwWedge wedge = { .alpha_deg = 14, .thin_end = BW_THIN_TIP, .slips = TRUE };
  g_autofree char *slips = bw_rest_words_wedge (&wedge);
  wedge.slips = FALSE;
  wedge.thin_end = BW_THIN_BASE;
  g_autofree char *holds = bw_rest_words_wedge (&wedge);
  assert_non_null (strstr (slips, "towards the tip: the band may slip"));
  assert_non_null (strstr (holds, "towards the base"));
  assert_non_null (strstr (holds, "estimate"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (columns_follow_the_room),
    cmocka_unit_test (spread_numbers_keep_their_distance_and_their_order),
    cmocka_unit_test (numbers_far_apart_stay_where_they_are),
    cmocka_unit_test (a_title_becomes_a_harmless_file_name),
    cmocka_unit_test (a_colour_survives_the_toolkits_floats),
    cmocka_unit_test (what_points_to_the_right_is_drawn_there),
    cmocka_unit_test (the_picture_at_rest_leans_as_the_numbers_say),
    cmocka_unit_test (the_band_in_outline_wears_its_own_colours),
    cmocka_unit_test (a_very_large_band_in_outline_is_one_picture),
    cmocka_unit_test (rest_is_told_by_what_is_up),
    cmocka_unit_test (a_band_that_may_slip_is_told_with_its_way),
  };
  return cmocka_run_group_tests_name ("layout", tests, NULL, NULL);
}
