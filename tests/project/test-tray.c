/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"

#include "core/pattern/colour.h"
#include "project/document/document.h"

#define MANY_COLOURS 40

static void
the_plain_tray_has_one_colour_of_letter_a (void **state)
{
  BwTray tray;

  bw_tray_init (&tray);
  assert_int_equal (tray.n_colours, 1);
  assert_int_equal (tray.colour[0].id, 'a');
  assert_true (bw_tray_validate (&tray, NULL));
}

static void
every_finish_is_known_by_its_word (void **state)
{
  static const char *const words[] = { "opaque", "matte", "clear",   "frosted",    "lined",
                                       "lustre", "metal", "rainbow", "galvanised", "silver-lined" };
  for (int i = 0; i < BW_N_FINISHES; i++)
    assert_string_equal (bw_finish_word ((BwFinish)i), words[i]);
}

static void
free_letters_fill_a_whole_tray_without_a_double (void **state)
{
  BwTray tray = { 0 };

  for (; tray.n_colours < BW_TRAY_MAX; tray.n_colours++)
    tray.colour[tray.n_colours].id = bw_tray_free_letter (&tray);
  assert_int_equal (tray.colour[0].id, 'a');
  assert_int_equal (tray.colour[25].id, 'z');
  assert_int_equal (tray.colour[26].id, 'A');
  assert_true (bw_tray_validate (&tray, NULL));
  assert_int_not_equal (bw_tray_free_letter (&tray), 0);
}

static void
letters_in_print_are_capitals_that_nobody_takes_for_numbers (void **state)
{
  BwTray tray = { 0 };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (; tray.n_colours < BW_TRAY_MAX; tray.n_colours++)
    tray.colour[tray.n_colours].id = bw_tray_free_letter (&tray);
  for (int i = 0; i < BW_TRAY_MAX; i++) {
    char letter[BW_TRAY_LETTER];

    bw_tray_print_letter (&tray, i, letter);
    assert_true (strlen (letter) == (i < 26 && !strchr ("ilo", (int)tray.colour[i].id) ? 1 : 2));
    assert_null (strpbrk (letter, "ILO0123456789"));
    assert_true (g_ascii_isupper (letter[0]));
    assert_true (g_hash_table_add (seen, g_strdup (letter)));
  }
}

static void
a_colour_keeps_its_own_letter_in_print (void **state)
{
  static const struct {
    gunichar id;
    const char *letter;
  } told[]
      = { { 'k', "K" }, { 'i', "A" }, { 'K', "B" }, { 0xe9, "C" }, { 'd', "D" }, { 'o', "E" } };
  BwTray tray = { .n_colours = G_N_ELEMENTS (told) };

  for (gsize i = 0; i < G_N_ELEMENTS (told); i++)
    tray.colour[i].id = told[i].id;
  for (gsize i = 0; i < G_N_ELEMENTS (told); i++) {
    char letter[BW_TRAY_LETTER];

    bw_tray_print_letter (&tray, (int)i, letter);
    assert_string_equal (letter, told[i].letter);
  }
}

static void
a_letter_is_found_where_it_is (void **state)
{
  BwTray tray = { .n_colours = 3, .colour = { { .id = 'k' }, { .id = 0xe9 }, { .id = 'a' } } };

  assert_int_equal (bw_tray_find (&tray, 'k'), 0);
  assert_int_equal (bw_tray_find (&tray, 0xe9), 1);
  assert_int_equal (bw_tray_find (&tray, 'b'), -1);
  assert_int_equal (bw_tray_free_letter (&tray), 'b');
}

static void
invisible_signs_are_no_letters (void **state)
{
  static const gunichar bad[]
      = { 0, ' ', '\t', '\n', 0xa0, 0x200b, 0x301, 0x903, 0xfeff, 0xd800, 0x110000 };

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    assert_false (bw_tray_is_letter (bad[i]));
  assert_true (bw_tray_is_letter ('"'));
  assert_true (bw_tray_is_letter (0x1f48e));
}

static void
a_letter_that_stands_twice_is_named (void **state)
{
  BwTray tray = { .n_colours = 3, .colour = { { .id = 'a' }, { .id = 'b' }, { .id = 'a' } } };
  g_autoptr (GError) error = NULL;

  assert_false (bw_tray_validate (&tray, &error));
  assert_fault (error, BW_FAULT_RANGE, "/tray/2/id");
}

/* From any colour on, one after the other can be told from all before it: more of them than a piece
 * takes. */
static void
new_colours_can_be_told_from_those_there (void **state)
{
  GRand *dice = g_rand_new_with_seed (5);
  for (int i = 0; i < 40; i++) {
    guint32 first = i == 0 ? 0x808080 : i == 1 ? 0 : i == 2 ? 0xffffff : g_rand_int (dice) >> 8;
    BwTray tray = { .n_colours = 1, .colour = { { .srgb = first } } };
    while (tray.n_colours < MANY_COLOURS) {
      guint32 like = tray.colour[g_rand_int_range (dice, 0, tray.n_colours)].srgb;
      guint32 srgb = bw_tray_free_colour (&tray, like);
      for (int k = 0; k < tray.n_colours; k++) {
        BwLab there = bw_colour_lab (tray.colour[k].srgb);
        assert_true (bw_colour_difference (bw_colour_lab (srgb), there) >= 10);
      }
      tray.colour[tray.n_colours++].srgb = srgb;
    }
  }
  g_rand_free (dice);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_plain_tray_has_one_colour_of_letter_a),
    cmocka_unit_test (every_finish_is_known_by_its_word),
    cmocka_unit_test (new_colours_can_be_told_from_those_there),
    cmocka_unit_test (free_letters_fill_a_whole_tray_without_a_double),
    cmocka_unit_test (letters_in_print_are_capitals_that_nobody_takes_for_numbers),
    cmocka_unit_test (a_colour_keeps_its_own_letter_in_print),
    cmocka_unit_test (a_letter_is_found_where_it_is),
    cmocka_unit_test (invisible_signs_are_no_letters),
    cmocka_unit_test (a_letter_that_stands_twice_is_named),
  };

  return cmocka_run_group_tests_name ("tray", tests, NULL, NULL);
}
