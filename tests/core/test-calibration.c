/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether what the hands tell comes true is itself told truly. */
#include "stones.h"

#include "core/workshop/calibration.h"

#define KINDS 3

static double
gauss (GRand *rand, double sd)
{
  double a = g_rand_double_range (rand, 1e-12, 1), b = g_rand_double (rand);
  return sd * sqrt (-2 * log (a)) * cos (2 * G_PI * b);
}

/* A book by the model: each piece read with an error, and finished on a ring of its own, which n
 * beads just close at a pitch a little below the woven one. */
static void
write_book (GRand *rand, BwHandsSpread spread, BwHandsPiece *pieces, BwHandsEnd *ends, int n)
{
  double h = gauss (rand, spread.hands), kind[KINDS];
  for (int k = 0; k < KINDS; k++)
    kind[k] = h + gauss (rand, spread.kind);
  for (int i = 0; i < n; i++) {
    int k = g_rand_int_range (rand, 0, KINDS);
    double y = kind[k] + gauss (rand, spread.piece), girth = g_rand_double_range (rand, 60, 100);
    double real = girth + gauss (rand, 0.4);
    int beads = (int)ceil (real / (1.6 * exp (y)));
    pieces[i] = (BwHandsPiece){ .kind = k };
    bw_hands_add (&pieces[i], (BwHandsReading){ y + gauss (rand, 0.008), 0.008 });
    ends[i] = (BwHandsEnd){ beads, girth / beads, 0.4, 1.6 };
  }
}

static BwCalibration
calibration_of (BwHandsSpread truth, BwHandsSpread told, int books, int pieces)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (61);
  g_autofree BwHandsPiece *piece = g_new (BwHandsPiece, pieces);
  g_autofree BwHandsEnd *end = g_new (BwHandsEnd, pieces);
  BwCalibration all = { 0 };
  for (int b = 0; b < books; b++) {
    BwCalibration one;
    write_book (rand, truth, piece, end, pieces);
    bw_calibration_init (&one, told, piece, end, pieces, KINDS);
    all.pieces += one.pieces;
    all.finished += one.finished;
    all.within_one += one.within_one / books;
    all.within_two += one.within_two / books;
    all.right_told += one.right_told / books;
    all.right_came += one.right_came / books;
    for (int i = 0; i < 10; i++) {
      all.chance[i] += one.chance[i] * one.told[i];
      all.came[i] += one.came[i] * one.told[i];
      all.told[i] += one.told[i];
    }
  }
  return all;
}

/* 200 books of 25 pieces: 4,800 foretold; three standard errors of the shares are 0.02. */
static void
true_odds_are_found_true (void **state)
{
  BwHandsSpread usual = bw_hands_usual_spread ();
  BwCalibration found = calibration_of (usual, usual, 200, 25);
  assert_int_equal (found.pieces, 200 * 24);
  assert_int_equal (found.finished, 200 * 24);
  assert_near (found.within_one, 0.683, 0.02);
  assert_near (found.within_two, 0.954, 0.012);
  assert_near (found.right_came, found.right_told, 0.022);
  for (int i = 0; i < 10; i++)
    if (found.told[i] >= 1500)
      assert_near (found.came[i] / found.told[i], found.chance[i] / found.told[i], 0.04);
}

/* Whoever weaves twice as unevenly as is believed is found out. */
static void
odds_that_promise_too_much_are_found_out (void **state)
{
  BwHandsSpread usual = bw_hands_usual_spread (), uneven = usual;
  uneven.piece *= 3;
  BwCalibration found = calibration_of (uneven, usual, 60, 25);
  assert_true (found.within_one < 0.55);
  assert_true (found.right_came < found.right_told - 0.05);
}

/* Nothing can be foretold of the first piece, nor of one that says nothing. */
static void
a_first_piece_is_not_foretold (void **state)
{
  BwHandsPiece pieces[3] = { { 0 }, { 0 }, { 0 } };
  BwCalibration found;
  bw_calibration_init (&found, bw_hands_usual_spread (), pieces, NULL, 3, 1);
  assert_int_equal (found.pieces, 0);
  bw_hands_add (&pieces[1], (BwHandsReading){ 0.01, 0.01 });
  bw_calibration_init (&found, bw_hands_usual_spread (), pieces, NULL, 3, 1);
  assert_int_equal (found.pieces, 0);
  bw_hands_add (&pieces[2], (BwHandsReading){ 0.02, 0.01 });
  bw_calibration_init (&found, bw_hands_usual_spread (), pieces, NULL, 3, 1);
  assert_int_equal (found.pieces, 1);
  assert_int_equal (found.finished, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (true_odds_are_found_true),
    cmocka_unit_test (odds_that_promise_too_much_are_found_out),
    cmocka_unit_test (a_first_piece_is_not_foretold),
  };
  return cmocka_run_group_tests_name ("calibration", tests, NULL, NULL);
}
