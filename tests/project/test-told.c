/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a piece hangs, and where on the stone something lies, as a maker would say it. */
#include "fixture.h"

#include "project/hang-words.h"
#include "project/place-words.h"

#include <math.h>
#include <stdlib.h>

/* The one number in the words. */
static int
number_in (const char *words)
{
  const char *digits = strpbrk (words, "0123456789");
  return digits ? atoi (digits) : 0;
}

static void
angles_count_from_what_is_nearer (void **state)
{
  for (double tilt = 0; tilt <= 90; tilt += 0.25) {
    g_autofree char *down = bw_hang_words (BW_UP_BASE, tilt), *up = bw_hang_words (BW_UP_TIP, tilt);
    double from = MIN (tilt, 90 - tilt);
    assert_int_equal (number_in (down), lround (from));
    assert_int_equal (number_in (up), lround (from));
    assert_true (from < 0.5 || fabs (tilt - 45) < 1 || !!strstr (down, "level") == (tilt > 45));
    assert_true (from < 0.5 || fabs (tilt - 45) < 1 || !!strstr (down, "upright") == (tilt < 45));
    if (lround (90 - tilt) > 0)
      assert_string_not_equal (down, up);
  }
}

static void
a_piece_a_little_off_level_is_nearly_level (void **state)
{
  g_autofree char *low = bw_hang_words (BW_UP_BASE, 84), *high = bw_hang_words (BW_UP_TIP, 84);
  g_autofree char *aslant = bw_hang_words (BW_UP_BASE, 60), *level = bw_hang_words (BW_UP_LEVEL, 3);
  g_autofree char *straight = bw_hang_words (BW_UP_TIP, 0.2),
                  *said = bw_hang_sentence (BW_UP_BASE, 84);
  assert_string_equal (low, "nearly level, tip 6° low");
  assert_string_equal (high, "nearly level, tip 6° high");
  assert_string_equal (aslant, "aslant, tip 30° below level");
  assert_string_equal (level, "level");
  assert_string_equal (straight, "upright, tip up");
  assert_string_equal (said, "Hangs nearly level, tip 6° low.");
}

/* A stone of equal faces: their middles lie at whole shares of the turn, the first at 0°. */
static void
a_place_is_told_by_its_face (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  for (int i = 0; i < 3; i++)
    design.stone.values_mm[i] = 22;
  assert_true (bw_project_set_design (project, "Equal faces", &design, NULL));
  for (int i = -6; i < 12; i++) {
    int face = (i + 6) % 6 + 1, next = face % 6 + 1;
    g_autofree char *middle = g_strdup_printf ("middle of face %d", face);
    g_autofree char *edge = g_strdup_printf ("edge of faces %d and %d", face, next);
    g_autofree char *plain = g_strdup_printf ("face %d", face);
    g_autofree char *at_middle = bw_place_words (project, 60 * i);
    g_autofree char *at_edge = bw_place_words (project, 60 * i + 30);
    g_autofree char *between = bw_place_words (project, 60 * i + 15);
    assert_string_equal (at_middle, middle);
    assert_string_equal (at_edge, edge);
    assert_string_equal (between, plain);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (angles_count_from_what_is_nearer),
    cmocka_unit_test (a_piece_a_little_off_level_is_nearly_level),
    cmocka_unit_test (a_place_is_told_by_its_face),
  };
  return cmocka_run_group_tests_name ("told", tests, NULL, NULL);
}
