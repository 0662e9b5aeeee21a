/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hands' posterior and likelihood against the dense normal distribution over all pieces at
 * once, by the Cholesky decomposition of the GNU Scientific Library (2.7, chapter Linear Algebra).
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/workshop/hands.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <math.h>

#define PIECES 14
#define KINDS 4

typedef struct {
  BwHandsSpread spread;
  BwHandsPiece pieces[PIECES];
  gsl_matrix *factor; /* Cholesky, of the covariance of what was read */
  gsl_vector *y, *weighed;
} Book;

static double
covariance (const Book *book, int i, int j)
{
  double v = book->spread.hands * book->spread.hands;
  if (book->pieces[i].kind == book->pieces[j].kind)
    v += book->spread.kind * book->spread.kind;
  if (i == j)
    v += book->spread.piece * book->spread.piece + 1 / book->pieces[i].weight;
  return v;
}

static void
solve (Book *book)
{
  for (int i = 0; i < PIECES; i++) {
    gsl_vector_set (book->y, i, book->pieces[i].y);
    for (int j = 0; j < PIECES; j++)
      gsl_matrix_set (book->factor, i, j, covariance (book, i, j));
  }
  gsl_linalg_cholesky_decomp1 (book->factor);
  gsl_linalg_cholesky_solve (book->factor, book->y, book->weighed);
}

static void
draw (Book *book, GRand *rand)
{
  book->spread = (BwHandsSpread){ g_rand_double_range (rand, 0.002, 0.03),
                                  g_rand_double_range (rand, 0.002, 0.03),
                                  g_rand_double_range (rand, 0.002, 0.03) };
  for (int i = 0; i < PIECES; i++) {
    /* The last kind stays unwoven. */
    book->pieces[i] = (BwHandsPiece){ .kind = g_rand_int_range (rand, 0, KINDS - 1) };
    bw_hands_add (&book->pieces[i], (BwHandsReading){ g_rand_double_range (rand, -0.05, 0.05),
                                                      g_rand_double_range (rand, 0.001, 0.03) });
  }
  solve (book);
}

/* The next piece of a kind given all readings: mean cᵀΣ⁻¹y, variance v − cᵀΣ⁻¹c. */
static BwHandsBelief
dense_next (const Book *book, int kind)
{
  gsl_vector *c = gsl_vector_alloc (PIECES), *solved = gsl_vector_alloc (PIECES);
  const BwHandsSpread *s = &book->spread;
  double mean, taken, own = s->hands * s->hands + s->kind * s->kind + s->piece * s->piece;
  for (int i = 0; i < PIECES; i++)
    gsl_vector_set (c, i,
                    s->hands * s->hands + (book->pieces[i].kind == kind ? s->kind * s->kind : 0));
  gsl_linalg_cholesky_solve (book->factor, c, solved);
  gsl_blas_ddot (c, book->weighed, &mean);
  gsl_blas_ddot (c, solved, &taken);
  gsl_vector_free (c);
  gsl_vector_free (solved);
  return (BwHandsBelief){ mean, sqrt (own - taken) };
}

static double
dense_log_likelihood (const Book *book)
{
  double squares, log_root = 0;
  gsl_blas_ddot (book->y, book->weighed, &squares);
  for (int i = 0; i < PIECES; i++)
    log_root += log (gsl_matrix_get (book->factor, i, i));
  return -0.5 * squares - log_root;
}

static Book *
book_new (void)
{
  Book *book = g_new0 (Book, 1);
  book->factor = gsl_matrix_alloc (PIECES, PIECES);
  book->y = gsl_vector_alloc (PIECES);
  book->weighed = gsl_vector_alloc (PIECES);
  return book;
}

static void
book_free (Book *book)
{
  gsl_matrix_free (book->factor);
  gsl_vector_free (book->y);
  gsl_vector_free (book->weighed);
  g_free (book);
}

static void
near (double a, double b, double tolerance)
{
  if (!(fabs (a - b) <= tolerance * MAX (1, fabs (b))))
    fail_msg ("%.17g is not %.17g", a, b);
}

static void
the_next_piece_of_every_kind_is_what_the_dense_normal_says (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  Book *book = book_new ();
  for (int n = 0; n < 500; n++) {
    BwHands hands;
    draw (book, rand);
    bw_hands_init (&hands, book->spread, book->pieces, PIECES, KINDS);
    for (int kind = 0; kind < KINDS; kind++) {
      BwHandsBelief dense = dense_next (book, kind);
      near (hands.next[kind].mean, dense.mean, 1e-12);
      near (hands.next[kind].sd, dense.sd, 1e-12);
    }
    bw_hands_clear (&hands);
  }
  book_free (book);
}

/* Ours leaves out a constant, the same for every spread: differences tell. */
static void
likelihoods_differ_between_spreads_as_the_dense_ones_do (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);
  Book *book = book_new ();
  for (int n = 0; n < 300; n++) {
    draw (book, rand);
    double ours = bw_hands_log_likelihood (book->spread, book->pieces, PIECES, KINDS);
    double dense = dense_log_likelihood (book);
    book->spread.piece *= 1.7;
    book->spread.kind *= 0.6;
    book->spread.hands *= 1.2;
    solve (book);
    near (bw_hands_log_likelihood (book->spread, book->pieces, PIECES, KINDS) - ours,
          dense_log_likelihood (book) - dense, 1e-9);
  }
  book_free (book);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_next_piece_of_every_kind_is_what_the_dense_normal_says),
    cmocka_unit_test (likelihoods_differ_between_spreads_as_the_dense_ones_do),
  };
  return cmocka_run_group_tests_name ("hands against a dense normal", tests, NULL, NULL);
}
