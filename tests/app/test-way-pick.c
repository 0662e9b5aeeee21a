/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which ways are shown of those found: the best that differ, in order. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/ways/way-pick.h"

/* Alike in all but what is given. */
static BwWay
way_of (const char *bead, int columns, BwBailStyle style, double chance)
{
  BwWay way = { .worth = { .chance = chance, .hours = 3 }, .hangs = TRUE, .tilt_deg = 90 };
  g_strlcpy (way.design.bead.name, bead, sizeof way.design.bead.name);
  way.design.band.columns = columns;
  way.design.bail.style = style;
  return way;
}

/* The places picked, as text. */
static char *
picked (const BwWay *ways, guint n, const BwWayFilter *filter, guint most)
{
  const double weights[BW_N_MATTERS] = { 1, 1, 1, 1, 1 };
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (BwWay));
  GString *places = g_string_new (NULL);
  g_array_append_vals (all, ways, n);
  g_autoptr (GArray) at = bw_way_pick (all, filter, weights, most);
  for (guint i = 0; i < at->len; i++)
    g_string_append_printf (places, "%u ", g_array_index (at, guint, i));
  return g_string_free (places, FALSE);
}

static void
ways_that_differ_come_before_more_of_the_same (void **state)
{
  const BwWay ways[]
      = { way_of ("8/0", 6, BW_BAIL_FLAP, 0.60),  way_of ("8/0", 6, BW_BAIL_FLAP, 0.59),
          way_of ("8/0", 6, BW_BAIL_FLAP, 0.58),  way_of ("8/0", 8, BW_BAIL_FLAP, 0.50),
          way_of ("10/0", 6, BW_BAIL_FLAP, 0.45), way_of ("8/0", 6, BW_BAIL_RING, 0.40) };
  g_autofree char *four = picked (ways, G_N_ELEMENTS (ways), &(BwWayFilter){ 0 }, 4);
  g_autofree char *five = picked (ways, G_N_ELEMENTS (ways), &(BwWayFilter){ 0 }, 5);
  g_autofree char *all = picked (ways, G_N_ELEMENTS (ways), &(BwWayFilter){ 0 }, 12);
  assert_string_equal (four, "0 3 4 5 ");
  assert_string_equal (five, "0 1 3 4 5 ");
  assert_string_equal (all, "0 1 2 3 4 5 ");
}

static void
what_is_filtered_out_takes_no_place (void **state)
{
  const BwWay ways[] = { way_of ("8/0", 6, BW_BAIL_FLAP, 0.6), way_of ("8/0", 8, BW_BAIL_FLAP, 0.5),
                         way_of ("8/0", 8, BW_BAIL_FLAP, 0.7) };
  g_autofree char *wide = picked (ways, G_N_ELEMENTS (ways), &(BwWayFilter){ .columns = 8 }, 12);
  g_autofree char *none = picked (ways, G_N_ELEMENTS (ways), &(BwWayFilter){ .bead = "6/0" }, 12);
  g_autofree char *likely
      = picked (ways, G_N_ELEMENTS (ways), &(BwWayFilter){ .chance = 0.55 }, 12);
  assert_string_equal (wide, "2 1 ");
  assert_string_equal (none, "");
  assert_string_equal (likely, "2 0 ");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (ways_that_differ_come_before_more_of_the_same),
    cmocka_unit_test (what_is_filtered_out_takes_no_place),
  };
  return cmocka_run_group_tests_name ("way-pick", tests, NULL, NULL);
}
