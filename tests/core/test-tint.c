/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's own colours stand out from what they lie on: text by 4.5 to 1, marks by 3 to 1
 * (W3C, Web Content Accessibility Guidelines 2.1, success criteria 1.4.3 and 1.4.11). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/pattern/colour.h"
#include "core/pattern/tint.h"

typedef struct {
  BwTint over, ground;
} Pair;

static const Pair text[] = {
  { BW_TINT_INK, BW_TINT_PAPER },     { BW_TINT_INK, BW_TINT_CARD },
  { BW_TINT_INK, BW_TINT_CHROME },    { BW_TINT_INK, BW_TINT_BUTTON },
  { BW_TINT_INK, BW_TINT_FELT },      { BW_TINT_INK, BW_TINT_STAGE_HIGH },
  { BW_TINT_INK, BW_TINT_STAGE_LOW }, { BW_TINT_NOTE, BW_TINT_PAPER },
  { BW_TINT_NOTE, BW_TINT_CARD },     { BW_TINT_NOTE, BW_TINT_CHROME },
  { BW_TINT_NOTE, BW_TINT_FELT },     { BW_TINT_TIDE, BW_TINT_PAPER },
  { BW_TINT_TIDE, BW_TINT_CARD },     { BW_TINT_TIDE, BW_TINT_CHROME },
  { BW_TINT_ON_TIDE, BW_TINT_TIDE },  { BW_TINT_ON_BRASS, BW_TINT_BRASS },
  { BW_TINT_MOSS, BW_TINT_PAPER },    { BW_TINT_MOSS, BW_TINT_CARD },
  { BW_TINT_MOSS, BW_TINT_CHROME },   { BW_TINT_AMBER, BW_TINT_PAPER },
  { BW_TINT_AMBER, BW_TINT_CARD },    { BW_TINT_AMBER, BW_TINT_CHROME },
  { BW_TINT_RUST, BW_TINT_PAPER },    { BW_TINT_RUST, BW_TINT_CARD },
  { BW_TINT_RUST, BW_TINT_CHROME },   { BW_TINT_CARD, BW_TINT_RUST },
  { BW_TINT_PAPER, BW_TINT_INK },
};

/* Selected tool, focus, selection and blanks against what surrounds them. */
static const Pair marks[] = {
  { BW_TINT_TIDE, BW_TINT_BUTTON },     { BW_TINT_TIDE, BW_TINT_FELT },
  { BW_TINT_TIDE, BW_TINT_STAGE_HIGH }, { BW_TINT_TIDE, BW_TINT_STAGE_LOW },
  { BW_TINT_BRASS, BW_TINT_PAPER },     { BW_TINT_BRASS, BW_TINT_CARD },
  { BW_TINT_BRASS, BW_TINT_CHROME },    { BW_TINT_BRASS, BW_TINT_BUTTON },
};

static void
stands_out (const Pair *pairs, gsize n, double least)
{
  for (gsize i = 0; i < n; i++)
    for (int dark = 0; dark < 2; dark++) {
      double ratio = bw_colour_contrast (bw_tint_srgb (pairs[i].over, dark),
                                         bw_tint_srgb (pairs[i].ground, dark));
      if (ratio < least)
        fail_msg ("%s on %s has a contrast of %.2f %s", bw_tint_name (pairs[i].over),
                  bw_tint_name (pairs[i].ground), ratio, dark ? "in the dark" : "by day");
    }
}

static void
text_stands_out_from_every_ground_it_lies_on (void **state)
{
  stands_out (text, G_N_ELEMENTS (text), 4.5);
}

static void
marks_stand_out_from_every_ground_they_lie_on (void **state)
{
  stands_out (marks, G_N_ELEMENTS (marks), 3);
}

/* A style sheet that names a tint which is not there paints nothing and says nothing. */
static void
the_style_sheet_names_no_tint_that_is_not_defined (void **state)
{
  g_autofree char *path = g_build_filename (g_getenv ("BW_TEST_DATA"), "style/face.css", NULL);
  g_autofree char *sheet = NULL;
  g_autoptr (GRegex) regex = g_regex_new ("@bw_([a-z_]+)", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  int named = 0;
  assert_true (g_file_get_contents (path, &sheet, NULL, NULL));
  for (g_regex_match (regex, sheet, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *name = g_match_info_fetch (match, 1);
    gboolean known = FALSE;
    for (int i = 0; i < BW_N_TINTS; i++)
      known = known || g_str_equal (name, bw_tint_name (i));
    if (!known)
      fail_msg ("face.css names bw_%s, which is no tint", name);
    named++;
  }
  assert_true (named > 60);
}

static void
no_colour_is_written_into_a_style_sheet (void **state)
{
  static const char *const sheets[] = { "style/face.css", "style/style.css" };
  g_autoptr (GRegex) regex = g_regex_new ("#[0-9a-fA-F]{3,8}\\b|rgba?\\(", 0, 0, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (sheets); i++) {
    g_autofree char *path = g_build_filename (g_getenv ("BW_TEST_DATA"), sheets[i], NULL);
    g_autofree char *sheet = NULL;
    assert_true (g_file_get_contents (path, &sheet, NULL, NULL));
    assert_false (g_regex_match (regex, sheet, 0, NULL));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (text_stands_out_from_every_ground_it_lies_on),
    cmocka_unit_test (marks_stand_out_from_every_ground_they_lie_on),
    cmocka_unit_test (the_style_sheet_names_no_tint_that_is_not_defined),
    cmocka_unit_test (no_colour_is_written_into_a_style_sheet),
  };
  return cmocka_run_group_tests_name ("tint", tests, NULL, NULL);
}
