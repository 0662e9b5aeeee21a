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

#include <string.h>

typedef struct {
  BwTint over, ground;
} Pair;

static const Pair text[] = {
  { BW_TINT_INK, BW_TINT_PAPER },
  { BW_TINT_INK, BW_TINT_CARD },
  { BW_TINT_INK, BW_TINT_CHROME },
  { BW_TINT_INK, BW_TINT_BUTTON },
  { BW_TINT_INK, BW_TINT_FELT },
  { BW_TINT_INK, BW_TINT_STAGE_HIGH },
  { BW_TINT_INK, BW_TINT_STAGE_LOW },
  { BW_TINT_NOTE, BW_TINT_PAPER },
  { BW_TINT_NOTE, BW_TINT_CARD },
  { BW_TINT_NOTE, BW_TINT_CHROME },
  { BW_TINT_NOTE, BW_TINT_FELT },
  { BW_TINT_TIDE, BW_TINT_PAPER },
  { BW_TINT_TIDE, BW_TINT_CARD },
  { BW_TINT_TIDE, BW_TINT_CHROME },
  { BW_TINT_ON_TIDE, BW_TINT_TIDE },
  { BW_TINT_ON_BRASS, BW_TINT_BRASS },
  { BW_TINT_MOSS, BW_TINT_PAPER },
  { BW_TINT_MOSS, BW_TINT_CARD },
  { BW_TINT_MOSS, BW_TINT_CHROME },
  { BW_TINT_AMBER, BW_TINT_PAPER },
  { BW_TINT_AMBER, BW_TINT_CARD },
  { BW_TINT_AMBER, BW_TINT_CHROME },
  { BW_TINT_RUST, BW_TINT_PAPER },
  { BW_TINT_RUST, BW_TINT_CARD },
  { BW_TINT_RUST, BW_TINT_CHROME },
  { BW_TINT_CARD, BW_TINT_RUST },
  { BW_TINT_PAPER, BW_TINT_INK },
  { BW_TINT_NOTE, BW_TINT_BUTTON },
  { BW_TINT_BRASS, BW_TINT_CARD },
  { BW_TINT_CARD, BW_TINT_INK },
  /* On printed pages. */
  { BW_TINT_PRINT, BW_TINT_SHEET },
  { BW_TINT_PRINT, BW_TINT_SHADE },
  { BW_TINT_PRINT, BW_TINT_WASH },
};

/* Printed pages are the same in every theme. */
static const Pair printed[] = {
  { BW_TINT_INK, BW_TINT_SHEET },  { BW_TINT_INK, BW_TINT_SHADE }, { BW_TINT_INK, BW_TINT_WASH },
  { BW_TINT_NOTE, BW_TINT_SHEET }, { BW_TINT_NOTE, BW_TINT_WASH }, { BW_TINT_TIDE, BW_TINT_SHEET },
  { BW_TINT_RUST, BW_TINT_SHEET },
};

/* Lines of help and selected tool, focus, selection and blanks against what surrounds them. */
static const Pair marks[] = {
  { BW_TINT_TIDE, BW_TINT_BUTTON },     { BW_TINT_TIDE, BW_TINT_FELT },
  { BW_TINT_TIDE, BW_TINT_STAGE_HIGH }, { BW_TINT_TIDE, BW_TINT_STAGE_LOW },
  { BW_TINT_BRASS, BW_TINT_PAPER },     { BW_TINT_BRASS, BW_TINT_CARD },
  { BW_TINT_BRASS, BW_TINT_CHROME },    { BW_TINT_BRASS, BW_TINT_BUTTON },
  { BW_TINT_TIDE, BW_TINT_PAPER },      { BW_TINT_TIDE, BW_TINT_CARD },
  { BW_TINT_TIDE, BW_TINT_CHROME },     { BW_TINT_HAIR, BW_TINT_CARD },
  { BW_TINT_GLEAM, BW_TINT_SHADOW },
};

static void
pair_stands_out (Pair pair, gboolean dark, double least)
{
  double ratio
      = bw_colour_contrast (bw_tint_srgb (pair.over, dark), bw_tint_srgb (pair.ground, dark));
  if (ratio < least)
    fail_msg ("%s on %s has a contrast of %.2f %s", bw_tint_name (pair.over),
              bw_tint_name (pair.ground), ratio, dark ? "in the dark" : "by day");
}

static void
stands_out (const Pair *pairs, gsize n, double least)
{
  for (gsize i = 0; i < n; i++)
    for (int dark = 0; dark < 2; dark++)
      pair_stands_out (pairs[i], dark, least);
}

static void
text_stands_out_from_every_ground_it_lies_on (void **state)
{
  stands_out (text, G_N_ELEMENTS (text), 4.5);
}

static void
print_stands_out_from_its_paper (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (printed); i++)
    pair_stands_out (printed[i], FALSE, 4.5);
}

/* The stone's stage is dark under the lamp, whatever the theme: what is drawn on it then takes the
 * colours of the dark theme. */
static void
marks_stand_out_under_the_lamp (void **state)
{
  static const BwTint lamp[] = { BW_TINT_LAMP_HIGH, BW_TINT_LAMP_LOW };
  for (int theme = 0; theme < 2; theme++)
    for (gsize i = 0; i < G_N_ELEMENTS (lamp); i++) {
      guint32 ground = bw_tint_srgb (lamp[i], theme);
      assert_true (bw_colour_contrast (bw_tint_srgb (BW_TINT_TIDE, TRUE), ground) >= 3);
      assert_true (bw_colour_contrast (bw_tint_srgb (BW_TINT_INK, TRUE), ground) >= 4.5);
    }
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

static char *
read_sheet (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("BW_TEST_DATA"), "style", name, NULL);
  char *sheet = NULL;
  assert_true (g_file_get_contents (path, &sheet, NULL, NULL));
  return sheet;
}

/* The tint that a rule sets a property to; BW_N_TINTS when to none. */
static BwTint
tint_of (const char *rule, const char *property)
{
  g_autofree char *pattern = g_strdup_printf ("[^-]%s: @bw_([a-z_]+);", property);
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  BwTint tint = BW_N_TINTS;
  if (!g_regex_match (regex, rule, 0, &match))
    return tint;
  g_autofree char *name = g_match_info_fetch (match, 1);
  for (int i = 0; i < BW_N_TINTS; i++)
    if (g_str_equal (name, bw_tint_name (i)))
      tint = (BwTint)i;
  return tint;
}

/* What cannot be pressed may be pale. */
static void
text_of_every_rule_stands_out_from_the_ground_it_sets (void **state)
{
  g_autofree char *sheet = read_sheet ("face.css");
  g_auto (GStrv) rules = g_strsplit (sheet, "}", -1);
  int pairs = 0;
  for (char **rule = rules; *rule; rule++) {
    BwTint over = tint_of (*rule, "color"), ground = tint_of (*rule, "background-color");
    if (over == BW_N_TINTS || ground == BW_N_TINTS || strstr (*rule, ":disabled"))
      continue;
    for (int dark = 0; dark < 2; dark++)
      pair_stands_out ((Pair){ over, ground }, dark, 4.5);
    pairs++;
  }
  assert_true (pairs > 8);
}

/* All sizes a sheet sets, each once; of their own: of the bench helper and of captions. */
static GPtrArray *
sizes_in (const char *sheet, gboolean of_their_own)
{
  g_autoptr (GRegex) regex = g_regex_new ("([^{}]*)\\{[^}]*font-size: ([^;]+);", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  GPtrArray *sizes = g_ptr_array_new_with_free_func (g_free);
  for (g_regex_match (regex, sheet, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *whom = g_match_info_fetch (match, 1);
    char *size = g_match_info_fetch (match, 2);
    if (!(strstr (whom, ".bench-") || strstr (whom, ".dimension")) == !of_their_own
        && !g_ptr_array_find_with_equal_func (sizes, size, g_str_equal, NULL))
      g_ptr_array_add (sizes, size);
    else
      g_free (size);
  }
  return sizes;
}

static void
type_has_three_steps_and_one_place (void **state)
{
  static const char *const others[] = { "face.css", "style.css" };
  g_autofree char *type = read_sheet ("type.css");
  g_autoptr (GPtrArray) steps = sizes_in (type, FALSE);
  assert_int_equal (steps->len, 3);
  /* The body is as large as the desktop has it. */
  assert_true (g_ptr_array_find_with_equal_func (steps, "1em", g_str_equal, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (others); i++) {
    g_autofree char *sheet = read_sheet (others[i]);
    assert_null (strstr (sheet, "font-size"));
    assert_null (strstr (sheet, "font-weight"));
  }
}

/* A note is softer by its colour: faded text says nothing of how well it can be read. */
static void
nothing_is_soft_by_opacity (void **state)
{
  static const char *const sheets[] = { "face.css", "style.css", "type.css" };
  g_autoptr (GRegex) faded = g_regex_new ("opacity: (0|\\.)", 0, 0, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (sheets); i++) {
    g_autofree char *sheet = read_sheet (sheets[i]);
    assert_false (g_regex_match (faded, sheet, 0, NULL));
  }
}

static void
no_colour_is_written_into_a_style_sheet (void **state)
{
  static const char *const sheets[] = { "style/face.css", "style/style.css", "style/type.css" };
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
    cmocka_unit_test (marks_stand_out_under_the_lamp),
    cmocka_unit_test (print_stands_out_from_its_paper),
    cmocka_unit_test (text_of_every_rule_stands_out_from_the_ground_it_sets),
    cmocka_unit_test (type_has_three_steps_and_one_place),
    cmocka_unit_test (nothing_is_soft_by_opacity),
    cmocka_unit_test (the_style_sheet_names_no_tint_that_is_not_defined),
    cmocka_unit_test (no_colour_is_written_into_a_style_sheet),
  };
  return cmocka_run_group_tests_name ("tint", tests, NULL, NULL);
}
