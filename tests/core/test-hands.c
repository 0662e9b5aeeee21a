/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A maker's hands: what pieces say of the next one, against sums over a brute grid. */
#include "stones.h"

#include "core/workshop/hands.h"

#include <math.h>

static BwHandsPiece
piece_of (int kind, double y, double sd)
{
  BwHandsPiece piece = { .kind = kind };
  bw_hands_add (&piece, (BwHandsReading){ y, sd });
  return piece;
}

static void
an_empty_book_believes_the_nominal_size_within_two_per_cent (void **state)
{
  BwHands hands;
  bw_hands_init (&hands, bw_hands_usual_spread (), NULL, 0, 1);
  assert_near (hands.next[0].mean, 0, 0);
  assert_near (hands.next[0].sd, 0.02, 1e-15);
  assert_near (hands.hands.sd, 0.013, 1e-15);
  BwHandsPitch pitch = bw_hands_pitch (hands.next[0], 1.6);
  assert_near (pitch.mm, 1.6, 1e-15);
  assert_near (pitch.sd_mm, 0.032, 1e-15);
  bw_hands_clear (&hands);
}

/* By hand: 24 rows are 12.5 pitches; 20.1 mm over 12.5 is 1.608 mm. */
static void
a_strip_tells_the_logarithm_of_its_pitch (void **state)
{
  BwHandsReading reading = bw_hands_strip (24, 20.1, 0.3, 1.6);
  assert_near (reading.y, log (1.608 / 1.6), 1e-14);
  assert_near (reading.sd, 0.3 / 20.1, 1e-15);
}

static void
a_finished_piece_tells_its_pitch_within_girth_and_half_a_step (void **state)
{
  BwHandsReading reading = bw_hands_finished (57, 1.61, 0.4, 1.6);
  assert_near (reading.y, log (1.61 * 57 / 56.5 / 1.6), 1e-14);
  assert_near (reading.sd, sqrt (0.16 + 1.61 * 1.61 / 12) / (57 * 1.61), 1e-14);
}

/* Pieces whose way round is whatever it is: of the fewest beads that close none tells the pitch,
 * but all together do. */
static void
counts_of_many_pieces_tell_the_pitch_that_was_woven (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  BwHandsPiece all = { .kind = 0 };
  enum { PIECES = 4000 };
  for (int k = 0; k < PIECES; k++) {
    double round_mm = g_rand_double_range (rand, 60, 110);
    int n = (int)ceil (round_mm / 1.63);
    bw_hands_add (&all, bw_hands_finished (n, round_mm / n, 0, 1.6));
  }
  assert_near (all.y, log (1.63 / 1.6), 4 / sqrt (all.weight));
}

static void
readings_of_one_piece_weigh_by_their_precision_in_any_order (void **state)
{
  BwHandsPiece a = { .kind = 0 }, b = { .kind = 0 };
  bw_hands_add (&a, (BwHandsReading){ 0.01, 0.02 });
  bw_hands_add (&a, (BwHandsReading){ 0.03, 0.01 });
  bw_hands_add (&b, (BwHandsReading){ 0.03, 0.01 });
  bw_hands_add (&b, (BwHandsReading){ 0.01, 0.02 });
  assert_near (a.y, (0.01 * 2500 + 0.03 * 10000) / 12500, 1e-15);
  assert_near (a.weight, 12500, 1e-9);
  assert_near (a.y, b.y, 1e-15);
  assert_near (a.weight, b.weight, 1e-9);
}

#define STEPS 81
#define REACH 6.0 /* spreads each way */

static double
density (double x, double mean, double sd)
{
  double z = (x - mean) / sd;
  return exp (-0.5 * z * z);
}

/* Mean and variance of h and of h + b_0 over a grid of h, b_0 and b_1, each l_j integrated by the
 * width of its normal. */
typedef struct {
  double mass, h, hh, u, uu;
} Moments;

static void
add_moment (Moments *m, double mass, double h, double u)
{
  m->mass += mass;
  m->h += mass * h;
  m->hh += mass * h * h;
  m->u += mass * u;
  m->uu += mass * u * u;
}

static Moments
brute (BwHandsSpread s, const BwHandsPiece *pieces, int n)
{
  Moments m = { 0 };
  for (int i = 0; i < STEPS; i++)
    for (int j = 0; j < STEPS; j++)
      for (int k = 0; k < STEPS; k++) {
        double h = s.hands * REACH * (2.0 * i / (STEPS - 1) - 1);
        double b[2] = { s.kind * REACH * (2.0 * j / (STEPS - 1) - 1),
                        s.kind * REACH * (2.0 * k / (STEPS - 1) - 1) };
        double mass
            = density (h, 0, s.hands) * density (b[0], 0, s.kind) * density (b[1], 0, s.kind);
        for (int p = 0; p < n; p++)
          mass *= density (pieces[p].y, h + b[pieces[p].kind],
                           sqrt (s.piece * s.piece + 1 / pieces[p].weight));
        add_moment (&m, mass, h, h + b[0]);
      }
  return m;
}

static void
the_closed_form_is_the_posterior_summed_over_a_grid (void **state)
{
  BwHandsSpread spread = bw_hands_usual_spread ();
  BwHandsPiece pieces[]
      = { piece_of (0, 0.021, 0.006), piece_of (0, 0.012, 0.015), piece_of (1, -0.004, 0.004),
          piece_of (1, 0.009, 0.01), piece_of (1, 0.002, 0.02) };
  Moments m = brute (spread, pieces, G_N_ELEMENTS (pieces));
  double h = m.h / m.mass, u = m.u / m.mass;
  BwHands hands;
  bw_hands_init (&hands, spread, pieces, G_N_ELEMENTS (pieces), 2);
  assert_near (hands.hands.mean, h, 1e-9);
  assert_near (hands.hands.sd, sqrt (m.hh / m.mass - h * h), 1e-7);
  assert_near (hands.next[0].mean, u, 1e-9);
  assert_near (hands.next[0].sd, sqrt (m.uu / m.mass - u * u + spread.piece * spread.piece), 1e-7);
  bw_hands_clear (&hands);
}

static void
a_kind_never_woven_learns_of_the_hands_alone (void **state)
{
  BwHandsSpread spread = bw_hands_usual_spread ();
  BwHandsPiece pieces[] = { piece_of (0, 0.03, 0.002), piece_of (0, 0.028, 0.002) };
  BwHands hands;
  bw_hands_init (&hands, spread, pieces, 2, 2);
  assert_near (hands.next[1].mean, hands.hands.mean, 1e-15);
  assert_near (hands.next[1].sd,
               sqrt (hands.hands.sd * hands.hands.sd + spread.kind * spread.kind
                     + spread.piece * spread.piece),
               1e-15);
  assert_true (hands.next[0].mean > hands.next[1].mean);
  assert_true (hands.next[0].sd < hands.next[1].sd);
  bw_hands_clear (&hands);
}

static void
a_piece_without_readings_says_nothing (void **state)
{
  BwHandsPiece pieces[] = { piece_of (0, 0.01, 0.01), { .kind = 1 } };
  BwHands with, without;
  bw_hands_init (&with, bw_hands_usual_spread (), pieces, 2, 2);
  bw_hands_init (&without, bw_hands_usual_spread (), pieces, 1, 2);
  for (int k = 0; k < 2; k++) {
    assert_near (with.next[k].mean, without.next[k].mean, 0);
    assert_near (with.next[k].sd, without.next[k].sd, 0);
  }
  bw_hands_clear (&with);
  bw_hands_clear (&without);
}

static double
gauss (GRand *rand, double sd)
{
  double a = g_rand_double_range (rand, 1e-12, 1), b = g_rand_double (rand);
  return sd * sqrt (-2 * log (a)) * cos (2 * G_PI * b);
}

/* A maker's book by the model itself. */
static void
weave (GRand *rand, BwHandsSpread spread, BwHandsPiece *pieces, int n, int n_kinds, double *kinds)
{
  double h = gauss (rand, spread.hands);
  for (int k = 0; k < n_kinds; k++)
    kinds[k] = h + gauss (rand, spread.kind);
  for (int i = 0; i < n; i++) {
    int kind = g_rand_int_range (rand, 0, n_kinds);
    double sd = g_rand_double_range (rand, 0.003, 0.02);
    pieces[i] = piece_of (kind, kinds[kind] + gauss (rand, spread.piece) + gauss (rand, sd), sd);
  }
}

/* Of 4,000 makers' next pieces the share within one told sd is that of a normal, 0.683, within
 * three standard errors of the count, 0.022. */
static void
what_is_told_of_the_next_piece_comes_true_as_often_as_it_says (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  BwHandsSpread spread = bw_hands_usual_spread ();
  int within = 0;
  const int makers = 4000;
  for (int i = 0; i < makers; i++) {
    BwHandsPiece pieces[6];
    double kinds[3];
    BwHands hands;
    weave (rand, spread, pieces, 6, 3, kinds);
    bw_hands_init (&hands, spread, pieces, 6, 3);
    double next = kinds[1] + gauss (rand, spread.piece);
    within += fabs (next - hands.next[1].mean) <= hands.next[1].sd;
    bw_hands_clear (&hands);
  }
  assert_near ((double)within / makers, 0.6827, 0.022);
}

static void
few_pieces_leave_the_usual_spread (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  BwHandsPiece pieces[BW_HANDS_FIT_FROM];
  double kinds[2];
  gboolean fitted = TRUE;
  weave (rand, bw_hands_usual_spread (), pieces, BW_HANDS_FIT_FROM, 2, kinds);
  BwHandsSpread spread = bw_hands_fit_spread (pieces, BW_HANDS_FIT_FROM - 1, 2, &fitted);
  assert_false (fitted);
  assert_near (spread.piece, bw_hands_usual_spread ().piece, 0);
  bw_hands_fit_spread (pieces, BW_HANDS_FIT_FROM, 2, &fitted);
  assert_true (fitted);
}

static void
an_uneven_hand_is_recognised_from_many_pieces (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  BwHandsSpread truth = { 0.013, 0.013, 0.03 };
  BwHandsPiece *pieces = g_new (BwHandsPiece, 400);
  double kinds[4];
  gboolean fitted;
  weave (rand, truth, pieces, 400, 4, kinds);
  BwHandsSpread spread = bw_hands_fit_spread (pieces, 400, 4, &fitted);
  assert_near (spread.piece, 0.03, 0.005);
  g_free (pieces);
}

/* Hands are seen once however much they weave, and a kind once however often it is woven. Of 1,500
 * makers with 40 pieces of two kinds the next piece of a third lies within the told sd as often as
 * a normal, within three standard errors of the count, 0.036, or a little oftener. */
static void
a_spread_learnt_from_few_kinds_is_not_told_too_small (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  BwHandsSpread usual = bw_hands_usual_spread ();
  const int makers = 1500;
  int within = 0;
  for (int i = 0; i < makers; i++) {
    BwHandsPiece pieces[40];
    double kinds[3], h = gauss (rand, usual.hands);
    BwHands hands;
    gboolean fitted;
    for (int k = 0; k < 3; k++)
      kinds[k] = h + gauss (rand, usual.kind);
    for (int j = 0; j < 40; j++)
      pieces[j]
          = piece_of (j % 2, kinds[j % 2] + gauss (rand, usual.piece) + gauss (rand, 0.006), 0.006);
    bw_hands_init (&hands, bw_hands_fit_spread (pieces, 40, 3, &fitted), pieces, 40, 3);
    double next = kinds[2] + gauss (rand, usual.piece);
    within += fabs (next - hands.next[2].mean) <= hands.next[2].sd;
    bw_hands_clear (&hands);
  }
  assert_in_range ((int)(1000.0 * within / makers), 683 - 36, 683 + 60);
}

/* Ten thousand pieces, and the sums still add up: one kind of them all is known to the spread of a
 * piece. */
static void
ten_thousand_pieces_are_taken (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  enum { MANY = 10000, KINDS = 40 };
  g_autofree BwHandsPiece *pieces = g_new (BwHandsPiece, MANY);
  double kinds[KINDS];
  BwHandsSpread truth = { 0.013, 0.02, 0.011 };
  gboolean fitted;
  BwHands hands;
  weave (rand, truth, pieces, MANY, KINDS, kinds);
  BwHandsSpread spread = bw_hands_fit_spread (pieces, MANY, KINDS, &fitted);
  assert_true (fitted);
  assert_near (spread.piece, truth.piece, 0.0015);
  assert_near (spread.kind, truth.kind, 0.006);
  bw_hands_init (&hands, spread, pieces, MANY, KINDS);
  for (int k = 0; k < KINDS; k++) {
    assert_near (hands.next[k].mean, kinds[k], 0.005);
    assert_near (hands.next[k].sd, spread.piece, 0.02 * spread.piece);
  }
  bw_hands_clear (&hands);
}

static void
the_likelihood_falls_where_the_spread_is_wrong (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  BwHandsSpread truth = bw_hands_usual_spread (), wrong = truth;
  BwHandsPiece pieces[200];
  double kinds[3];
  weave (rand, truth, pieces, 200, 3, kinds);
  double right = bw_hands_log_likelihood (truth, pieces, 200, 3);
  wrong.piece = 4 * truth.piece;
  assert_true (bw_hands_log_likelihood (wrong, pieces, 200, 3) < right - 5);
  wrong.piece = truth.piece / 8;
  assert_true (bw_hands_log_likelihood (wrong, pieces, 200, 3) < right - 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_empty_book_believes_the_nominal_size_within_two_per_cent),
    cmocka_unit_test (a_strip_tells_the_logarithm_of_its_pitch),
    cmocka_unit_test (a_finished_piece_tells_its_pitch_within_girth_and_half_a_step),
    cmocka_unit_test (counts_of_many_pieces_tell_the_pitch_that_was_woven),
    cmocka_unit_test (readings_of_one_piece_weigh_by_their_precision_in_any_order),
    cmocka_unit_test (the_closed_form_is_the_posterior_summed_over_a_grid),
    cmocka_unit_test (a_kind_never_woven_learns_of_the_hands_alone),
    cmocka_unit_test (a_piece_without_readings_says_nothing),
    cmocka_unit_test (what_is_told_of_the_next_piece_comes_true_as_often_as_it_says),
    cmocka_unit_test (few_pieces_leave_the_usual_spread),
    cmocka_unit_test (an_uneven_hand_is_recognised_from_many_pieces),
    cmocka_unit_test (a_spread_learnt_from_few_kinds_is_not_told_too_small),
    cmocka_unit_test (ten_thousand_pieces_are_taken),
    cmocka_unit_test (the_likelihood_falls_where_the_spread_is_wrong),
  };
  return cmocka_run_group_tests_name ("hands", tests, NULL, NULL);
}
