/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones in the maker's book: kept as they were measured, and begun upon. */
#include "config.h"

#include "project/book/book-file.h"
#include "project/book/book-stones.h"
#include "project/fault/fault-error.h"
#include "project/project.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define HEAD "{\"format\": \"bandwright-book\", \"version\": 1"
#define STONE                                                                                      \
  "\"stone\": {\"mineral\": \"quartz\", \"faces\": 6, \"measured\": \"girth\", \"values_mm\": "    \
  "[80], \"at_mm\": 12, \"length_mm\": 58, \"shoulder_mm\": 41}"

static BwBook *
book_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_from_data (text, strlen (text), &error);
  if (!book)
    fail_msg ("%s", error->message);
  return book;
}

static void
change (BwBook *book, const BwKeptStone *before, const BwKeptStone *stone)
{
  g_autoptr (GError) error = NULL;
  if (!bw_book_change_stone (book, before, stone, &error))
    fail_msg ("%s", error->message);
}

/* Solvable, of every way of measuring. */
static BwKeptStone
random_stone (GRand *rand, int number)
{
  static const char *const minerals[] = { "", "quartz", "calcite ü" };
  BwKeptStone stone = { .state = (BwStoneState)g_rand_int_range (rand, 0, BW_N_STONE_STATES) };
  BwStoneMeasures *m = &stone.measures;
  g_snprintf (stone.name, sizeof stone.name, "Stone %d", number);
  if (g_rand_boolean (rand))
    g_strlcpy (stone.date, "2026-11-29", sizeof stone.date);
  if (g_rand_boolean (rand))
    g_snprintf (stone.picture, sizeof stone.picture, "photo-%d.jpg", number);
  g_strlcpy (stone.mineral, minerals[g_rand_int_range (rand, 0, 3)], sizeof stone.mineral);
  m->faces = 2 * g_rand_int_range (rand, 2, 6);
  m->measured = (BwMeasured)g_rand_int_range (rand, 0, 3);
  for (int i = 0; i < bw_stone_value_count (m->measured, m->faces); i++)
    m->values_mm[i] = m->measured == BW_MEASURED_GIRTH ? g_rand_double_range (rand, 50, 90) : 20;
  m->length_mm = g_rand_double_range (rand, 50, 70);
  m->has_shoulder = TRUE;
  m->shoulder_mm = g_rand_double_range (rand, 35, 45);
  m->at_mm = g_rand_double_range (rand, 5, 20);
  m->girth_sd_mm = 0.4;
  m->density_g_cm3 = 2.65;
  m->base = g_rand_boolean (rand) ? BW_BASE_POINT : BW_BASE_FLAT;
  m->has_base_shoulder = m->base == BW_BASE_POINT;
  m->base_shoulder_mm = m->has_base_shoulder ? 4 : 0;
  m->apex_offset_mm[0] = g_rand_double_range (rand, -1, 1);
  if (g_rand_boolean (rand))
    stone.look = (BwStoneLook){ .veils = g_rand_int_range (rand, 0, 5) / 4.0,
                                .chips = 0.25,
                                .base = m->has_base_shoulder ? BW_BASE_PLAIN : BW_BASE_BROKEN,
                                .seed = g_rand_int_range (rand, 0, 100) };
  return stone;
}

static void
stones_come_back_as_they_were_put_in (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  for (int round = 0; round < 20; round++) {
    g_autoptr (BwBook) book = bw_book_new ();
    BwKeptStone all[8];
    for (int i = 0; i < 8; i++) {
      all[i] = random_stone (rand, i);
      change (book, NULL, &all[i]);
    }
    g_autofree char *text = bw_book_to_data (book, NULL);
    g_autoptr (BwBook) again = book_of (text);
    g_autofree char *text_again = bw_book_to_data (again, NULL);
    assert_string_equal (text_again, text);
    for (guint i = 0; i < 8; i++) {
      BwKeptStone found;
      bw_book_get_stone (again, i, &found);
      assert_string_equal (found.name, all[i].name);
      assert_string_equal (found.date, all[i].date);
      assert_string_equal (found.picture, all[i].picture);
      assert_string_equal (found.mineral, all[i].mineral);
      assert_int_equal (found.state, all[i].state);
      assert_memory_equal (&found.measures.values_mm, &all[i].measures.values_mm,
                           sizeof found.measures.values_mm);
      assert_true (found.measures.length_mm == all[i].measures.length_mm);
      assert_true (found.measures.at_mm == all[i].measures.at_mm);
      assert_true (found.measures.shoulder_mm == all[i].measures.shoulder_mm);
      assert_true (found.measures.apex_offset_mm[0] == all[i].measures.apex_offset_mm[0]);
      assert_int_equal (found.measures.base, all[i].measures.base);
      assert_int_equal (found.measures.measured, all[i].measures.measured);
      assert_true (bw_stone_look_equal (&found.look, &all[i].look));
      /* And it is found as it is, so that it can be mended and taken out. */
      change (again, &all[i], &all[i]);
    }
    for (int i = 0; i < 8; i++)
      change (again, &all[i], NULL);
    assert_int_equal (bw_book_n_stones (again), 0);
  }
}

static void
what_is_not_known_stays_and_what_is_gone_goes (void **state)
{
  g_autoptr (BwBook) book = book_of (
      HEAD ", \"stones\": [{\"name\": \"Smoky\", \"place\": \"drawer 3\", \"picture\": \"s.jpg\", "
           "\"stone\": {\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [80], \"at_mm\": 12, "
           "\"second_girth_mm\": 79, \"second_at_mm\": 30, \"length_mm\": 58, \"shoulder_mm\": 41, "
           "\"glow\": true}}]}");
  BwKeptStone seen, mended;
  bw_book_get_stone (book, 0, &seen);
  assert_int_equal (seen.state, BW_STONE_WAITING);
  mended = seen;
  mended.measures.has_second = FALSE;
  *mended.picture = '\0';
  mended.state = BW_STONE_SET;
  change (book, &seen, &mended);
  g_autofree char *text = bw_book_to_data (book, NULL);
  assert_non_null (strstr (text, "\"place\": \"drawer 3\""));
  assert_non_null (strstr (text, "\"glow\": true"));
  assert_non_null (strstr (text, "\"state\": \"set\""));
  assert_null (strstr (text, "second_girth_mm"));
  assert_null (strstr (text, "s.jpg"));
}

/* What a stone looks like goes along, with what is not known of it; a quiet one says nothing. */
static void
the_look_of_a_stone_is_kept (void **state)
{
  g_autoptr (BwBook) book = book_of (
      HEAD
      ", \"stones\": [{\"name\": \"Smoky\", \"stone\": {\"faces\": 6, \"measured\": \"girth\", "
      "\"values_mm\": [80], \"at_mm\": 12, \"length_mm\": 58, \"shoulder_mm\": 41, "
      "\"look\": {\"veils\": 0.5, \"glow\": 3}}}, {\"name\": \"S\", " STONE "}]}");
  BwKeptStone seen, clearer, bare;
  bw_book_get_stone (book, 0, &seen);
  assert_true (seen.look.veils == 0.5);
  clearer = seen;
  clearer.look.veils = 0.25;
  change (book, &seen, &clearer);
  assert_false (bw_book_change_stone (book, &seen, &seen, NULL));
  g_autofree char *text = bw_book_to_data (book, NULL);
  assert_non_null (strstr (text, "\"veils\": 0.25"));
  assert_non_null (strstr (text, "\"glow\": 3"));
  change (book, &clearer, NULL);
  bw_book_get_stone (book, 0, &bare);
  assert_true (bw_stone_look_is_quiet (&bare.look));
  change (book, &bare, &bare);
  g_autofree char *quiet = bw_book_to_data (book, NULL);
  assert_null (strstr (quiet, "look"));
}

static void
a_stone_changed_meanwhile_is_not_written_over (void **state)
{
  g_autoptr (BwBook) book = bw_book_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (GError) error = NULL;
  BwKeptStone seen = random_stone (rand, 1), now = seen;
  now.measures.length_mm += 0.1;
  change (book, NULL, &seen);
  change (book, &seen, &now);
  assert_false (bw_book_change_stone (book, &seen, NULL, &error));
  assert_string_equal (error->message, "this stone was changed by another program meanwhile");
  assert_int_equal (bw_book_n_stones (book), 1);
}

static void
a_stone_that_cannot_be_is_named (void **state)
{
  static const char *const bad[][2] = {
    { "[{\"name\": \"S\"}]", "/stones/0/stone: " },
    { "[{" STONE "}]", "/stones/0/name: " },
    { "[{\"name\": \"S\", \"state\": \"lost\", " STONE "}]", "/stones/0/state: " },
    { "[{\"name\": \"S\", \"date\": \"yesterday\", " STONE "}]", "/stones/0/date: " },
    { "[{\"name\": \"S\", \"picture\": \"a\\u0007\", " STONE "}]", "/stones/0/picture: " },
    { "[{\"name\": \"S\", \"stone\": {\"faces\": 2}}]", "/stones/0/stone/faces: " },
    { "[{\"name\": \"S\", \"stone\": {\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [80], "
      "\"at_mm\": 12, \"length_mm\": 58}}]",
      "/stones/0/stone/shoulder_mm: " },
    { "[{\"name\": \"S\", \"stone\": {\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [-80], "
      "\"at_mm\": 12, \"length_mm\": 58, \"shoulder_mm\": 41}}]",
      "/stones/0/stone/values_mm/0: " },
    { "[{\"name\": \"S\", \"stone\": {\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [80], "
      "\"at_mm\": 12, \"length_mm\": 58, \"shoulder_mm\": 41, \"look\": {\"veils\": 2}}}]",
      "/stones/0/stone/look/veils: " },
    { "[{\"name\": \"S\", " STONE "}, {\"name\": \"S\", " STONE "}]", "/stones/1/name: " },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autofree char *text = g_strdup_printf (HEAD ", \"stones\": %s}", bad[i][0]);
    g_autoptr (GError) error = NULL;
    assert_null (bw_book_from_data (text, strlen (text), &error));
    if (!g_str_has_prefix (error->message, bad[i][1]))
      fail_msg ("%s: %s", bad[i][0], error->message);
  }
}

static void
a_stone_goes_out_alone_and_comes_in_elsewhere (void **state)
{
  g_autoptr (BwBook) book = bw_book_new (), other = bw_book_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);
  for (int i = 0; i < 3; i++) {
    BwKeptStone stone = random_stone (rand, i);
    change (book, NULL, &stone);
  }
  g_autoptr (BwBook) alone = bw_book_new ();
  bw_book_copy_stone (alone, book, 1);
  g_autofree char *text = bw_book_to_data (alone, NULL);
  g_autoptr (BwBook) read = book_of (text);
  assert_true (bw_book_take_in (other, read, NULL));
  assert_true (bw_book_take_in (other, read, NULL));
  assert_int_equal (bw_book_n_stones (other), 1);
  assert_string_equal (bw_book_stone_name (other, 0), "Stone 1");
}

/* Whatever has become of it here; another one of its name gets a number, once. */
static void
a_stone_that_is_read_in_again_is_recognised (void **state)
{
  g_autoptr (BwBook) book = bw_book_new (), other = bw_book_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  BwKeptStone stone = random_stone (rand, 0), mine = stone, longer = stone;
  mine.state = (BwStoneState)((stone.state + 1) % BW_N_STONE_STATES);
  g_strlcpy (mine.picture, "mine.jpg", sizeof mine.picture);
  longer.measures.length_mm += 1;
  change (book, NULL, &mine);
  change (other, NULL, &stone);
  assert_true (bw_book_take_in (book, other, NULL));
  assert_int_equal (bw_book_n_stones (book), 1);
  assert_int_equal (bw_book_find_same_stone (book, &stone), 0);
  assert_int_equal (bw_book_find_same_stone (book, &longer), -1);
  g_autoptr (BwBook) third = bw_book_new ();
  change (third, NULL, &longer);
  for (int twice = 0; twice < 2; twice++)
    assert_true (bw_book_take_in (book, third, NULL));
  assert_int_equal (bw_book_n_stones (book), 2);
  assert_int_equal (bw_book_find_same_stone (book, &longer), 1);
}

/* The look of the stone here after the other book's was read in. */
static BwStoneLook
look_learnt (const BwStoneLook *here, const BwStoneLook *there)
{
  g_autoptr (BwBook) book = bw_book_new (), other = bw_book_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  BwKeptStone mine = random_stone (rand, 0), theirs, now;
  mine.look = *here;
  g_strlcpy (mine.picture, "mine.jpg", sizeof mine.picture);
  theirs = mine;
  theirs.look = *there;
  g_strlcpy (theirs.picture, "theirs.jpg", sizeof theirs.picture);
  change (book, NULL, &mine);
  change (other, NULL, &theirs);
  assert_true (bw_book_take_in (book, other, NULL));
  assert_int_equal (bw_book_n_stones (book), 1);
  bw_book_get_stone (book, 0, &now);
  assert_string_equal (now.picture, "mine.jpg");
  assert_true (now.measures.length_mm == mine.measures.length_mm);
  return now.look;
}

static void
a_stone_that_is_there_learns_what_it_looks_like (void **state)
{
  const BwStoneLook none = { 0 }, veiled = { .veils = 0.5, .seed = 3 }, chipped = { .chips = 1 };
  BwStoneLook learnt = look_learnt (&none, &veiled), kept = look_learnt (&chipped, &veiled),
              still = look_learnt (&veiled, &none);
  assert_true (bw_stone_look_equal (&learnt, &veiled));
  assert_true (bw_stone_look_equal (&kept, &chipped));
  assert_true (bw_stone_look_equal (&still, &veiled));
}

static void
a_design_begins_on_a_kept_stone (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  for (int i = 0; i < 60; i++) {
    BwKeptStone stone = random_stone (rand, i);
    g_autoptr (BwProject) project = bw_project_new ();
    g_autoptr (GError) error = NULL;
    if (!bw_project_begin_on_stone (project, &stone.measures, &stone.look, "beryl", &error))
      fail_msg ("%s", error->message);
    const BwDesign *design = bw_project_get_design (project);
    assert_true (design->stone.length_mm == stone.measures.length_mm);
    assert_string_equal (bw_project_get_mineral (project), "beryl");
    assert_true (bw_stone_look_equal (&design->look, &stone.look));
    assert_false (bw_project_stone_is_example (project));
    assert_false (bw_project_get_modified (project));
    assert_int_equal (design->band.rows,
                      2 * bw_fit_recommended (design, bw_project_stone (project)));
    assert_int_equal (bw_drawing_rows (bw_project_get_drawing (project)), design->band.rows);
  }
}

static void
no_design_begins_where_no_band_has_room (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  BwKeptStone stone = random_stone (rand, 0);
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GError) error = NULL;
  double length = bw_project_get_design (project)->stone.length_mm;
  stone.measures.length_mm = -1;
  assert_false (bw_project_begin_on_stone (project, &stone.measures, &stone.look, "", &error));
  assert_true (g_error_matches (error, BW_FAULT, BW_FAULT_RANGE));
  assert_true (bw_project_get_design (project)->stone.length_mm == length);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (stones_come_back_as_they_were_put_in),
    cmocka_unit_test (what_is_not_known_stays_and_what_is_gone_goes),
    cmocka_unit_test (the_look_of_a_stone_is_kept),
    cmocka_unit_test (a_stone_changed_meanwhile_is_not_written_over),
    cmocka_unit_test (a_stone_that_cannot_be_is_named),
    cmocka_unit_test (a_stone_goes_out_alone_and_comes_in_elsewhere),
    cmocka_unit_test (a_stone_that_is_read_in_again_is_recognised),
    cmocka_unit_test (a_stone_that_is_there_learns_what_it_looks_like),
    cmocka_unit_test (a_design_begins_on_a_kept_stone),
    cmocka_unit_test (no_design_begins_where_no_band_has_room),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
