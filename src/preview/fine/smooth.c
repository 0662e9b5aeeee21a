/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A filter with holes, wider at each round, that stops at edges (H. Dammertz and others, 2010); how
 * much lightness may differ follows from how unsure it is (C. Schied and others, 2017). */
#include "preview/fine/film.h"

#define ROUNDS 4
#define REACH 2        /* cells to each side, times the width of the holes */
#define LIGHTNESS 2.2  /* standard errors by which two cells may differ */
#define COLOUR 0.0025f /* mean square by which what is seen first may differ */
#define NORMAL 0.06f
#define COVER 0.01f
#define GROUND 0.012f /* a ground has no edges of its own: it is never surer than that */
#define SURE 1e-4f    /* an error that is not worth a filter */

/* A cell's means. */
typedef struct {
  float light[6]; /* found, ground */
  float bright, spread;
} Mean;

static const float kernel[REACH + 1] = { 0.375f, 0.25f, 0.0625f };

static Mean
mean_of (const BwFilmCell *cell)
{
  Mean mean = { .spread = (float)bw_film_unsure (cell) };
  float n = MAX (cell->n, 1);
  for (int i = 0; i < 3; i++) {
    mean.light[i] = cell->found[i] / n;
    mean.light[3 + i] = cell->ground[i] / n;
  }
  mean.bright = cell->bright / n;
  mean.spread *= mean.spread;
  return mean;
}

static float
apart (const float a[3], float n_a, const float b[3], float n_b)
{
  float sum = 0;
  for (int i = 0; i < 3; i++) {
    float off = a[i] / n_a - b[i] / n_b;
    sum += off * off;
  }
  return sum;
}

/* How unlike two cells are: 0 for alike. */
static float
unlike (const BwFilmCell *a, const Mean *mean_a, const BwFilmCell *b, const Mean *mean_b,
        float unsure)
{
  float cover = a->cover / a->n - b->cover / b->n;
  float bright = mean_a->bright - mean_b->bright;
  return apart (a->colour, a->n, b->colour, b->n) / COLOUR
         + apart (a->normal, a->n, b->normal, b->n) / NORMAL + cover * cover / COVER
         + bright * bright / unsure;
}

typedef struct {
  const BwFilm *film;
  const Mean *from;
  Mean *to;
  int hole;
} Round;

/* How unsure a cell is, with its neighbours: one cell alone may be sure of something wrong. */
static float
unsure_at (const Round *round, int x, int y)
{
  float sum = 0, weights = 0;
  for (int dy = -1; dy <= 1; dy++)
    for (int dx = -1; dx <= 1; dx++) {
      int sx = CLAMP (x + dx, 0, round->film->width - 1);
      int sy = CLAMP (y + dy, 0, round->film->height - 1);
      float weight = kernel[abs (dx)] * kernel[abs (dy)];
      sum += weight * round->from[sy * round->film->width + sx].spread;
      weights += weight;
    }
  return sum / weights;
}

static void
smooth_cell (const Round *round, int x, int y)
{
  const BwFilm *film = round->film;
  int index = y * film->width + x;
  const BwFilmCell *cell = &film->cell[index];
  float unsure = unsure_at (round, x, y), weights = 0;
  Mean sum = { .bright = 0 };
  round->to[index] = round->from[index];
  if (unsure < SURE * SURE || cell->n <= 0)
    return;
  if (cell->cover <= 0)
    unsure = MAX (unsure, GROUND * GROUND);
  unsure *= (float)(LIGHTNESS * LIGHTNESS);
  for (int dy = -REACH; dy <= REACH; dy++)
    for (int dx = -REACH; dx <= REACH; dx++) {
      int sx = x + dx * round->hole, sy = y + dy * round->hole;
      if (sx < 0 || sy < 0 || sx >= film->width || sy >= film->height)
        continue;
      int other = sy * film->width + sx;
      const Mean *from = &round->from[other];
      if (film->cell[other].n <= 0)
        continue;
      float weight = kernel[abs (dx)] * kernel[abs (dy)]
                     * expf (-unlike (cell, &round->from[index], &film->cell[other], from, unsure));
      for (int i = 0; i < 6; i++)
        sum.light[i] += weight * from->light[i];
      sum.bright += weight * from->bright;
      sum.spread += weight * weight * from->spread;
      weights += weight;
    }
  for (int i = 0; i < 6; i++)
    sum.light[i] /= weights;
  sum.bright /= weights;
  sum.spread /= weights * weights;
  round->to[index] = sum;
}

static void
smooth_row (gpointer row, gpointer data)
{
  const Round *round = data;
  for (int x = 0; x < round->film->width; x++)
    smooth_cell (round, x, GPOINTER_TO_INT (row) - 1);
}

static void
run (Round *round)
{
  GThreadPool *pool
      = g_thread_pool_new (smooth_row, round, (int)g_get_num_processors (), FALSE, NULL);
  for (int y = 1; y <= round->film->height; y++)
    g_thread_pool_push (pool, GINT_TO_POINTER (y), NULL);
  g_thread_pool_free (pool, FALSE, TRUE);
}

void
bw_film_smooth (BwFilm *film)
{
  gsize n = (gsize)film->width * (gsize)film->height;
  g_autofree Mean *from = g_new (Mean, n), *to = g_new (Mean, n);
  for (gsize i = 0; i < n; i++)
    from[i] = mean_of (&film->cell[i]);
  for (int k = 0; k < ROUNDS; k++) {
    Round round = { film, from, to, 1 << k };
    run (&round);
    Mean *other = from;
    from = to;
    to = other;
  }
  for (gsize i = 0; i < n; i++)
    for (int k = 0; k < 3; k++) {
      film->cell[i].found[k] = from[i].light[k] * film->cell[i].n;
      film->cell[i].ground[k] = from[i].light[3 + k] * film->cell[i].n;
    }
}
