/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/pattern/kmeans.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define BEGINNINGS 4
#define ROUNDS_MOST 60
#define SETTLED 1e-5 /* of the cost: done when a round brings no more */
#define ALIKE_RMS                                                                                  \
  4 /* colours that lie this near to their mean are one (common practice, no source) */
#define SEED 0x6265616473ull

/* --- Chance ------------------------------------------------------------------------------------
 */

/* SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, OOPSLA 2014): the same on every machine. 0..1. */
static double
chance (guint64 *state)
{
  guint64 z = *state += 0x9e3779b97f4a7c15ull;
  z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9ull;
  z = (z ^ z >> 27) * 0x94d049bb133111ebull;
  return (double)((z ^ z >> 31) >> 11) * 0x1p-53;
}

static double
square_distance (BwLab a, BwLab b)
{
  double l = a.L - b.L, x = a.a - b.a, y = a.b - b.b;
  return l * l + x * x + y * y;
}

/* --- The beginning -----------------------------------------------------------------------------
 */

/* What is worked on: nearest[i] is the square distance of colour i from its centre. */
typedef struct {
  const BwLab *colours;
  guint n;
  double *nearest;
  guint8 *group;
} Work;

static guint
draw_by_distance (const Work *work, double total, guint64 *state)
{
  double left = chance (state) * total;
  for (guint i = 0; i < work->n; i++) {
    left -= work->nearest[i];
    if (left < 0)
      return i;
  }
  return work->n - 1;
}

/* The cost that is left with this colour as a centre more. */
static double
cost_with (const Work *work, BwLab centre)
{
  double cost = 0;
  for (guint i = 0; i < work->n; i++)
    cost += MIN (work->nearest[i], square_distance (work->colours[i], centre));
  return cost;
}

/* Of several drawn the one that leaves least: the paper's own advice. */
static BwLab
next_centre (const Work *work, double total, int k, guint64 *state)
{
  int trials = 2 + (int)log (k);
  BwLab best = work->colours[0];
  double least = INFINITY;
  for (int t = 0; t < trials; t++) {
    BwLab centre = work->colours[draw_by_distance (work, total, state)];
    double cost = cost_with (work, centre);
    if (cost < least) {
      least = cost;
      best = centre;
    }
  }
  return best;
}

static double
note_centre (Work *work, BwLab centre)
{
  double total = 0;
  for (guint i = 0; i < work->n; i++) {
    work->nearest[i] = MIN (work->nearest[i], square_distance (work->colours[i], centre));
    total += work->nearest[i];
  }
  return total;
}

/* Fewer than k where no colour differs from those there are. */
static void
begin (BwKMeans *means, Work *work, int k, guint64 *state)
{
  means->k = 1;
  means->centre[0] = work->colours[(guint)(chance (state) * work->n)];
  for (guint i = 0; i < work->n; i++)
    work->nearest[i] = INFINITY;
  double total = note_centre (work, means->centre[0]);
  while (means->k < k && total > 0) {
    means->centre[means->k] = next_centre (work, total, k, state);
    total = note_centre (work, means->centre[means->k++]);
  }
}

/* --- Rounds ------------------------------------------------------------------------------------
 */

static void
gather (BwKMeans *means, Work *work)
{
  double cost = 0;
  memset (means->count, 0, sizeof means->count);
  for (guint i = 0; i < work->n; i++) {
    double least = INFINITY;
    for (int c = 0; c < means->k; c++) {
      double away = square_distance (work->colours[i], means->centre[c]);
      if (away < least) {
        least = away;
        work->group[i] = (guint8)c;
      }
    }
    work->nearest[i] = least;
    means->count[work->group[i]]++;
    cost += least;
  }
  means->cost = cost / work->n;
}

static guint
farthest (const Work *work)
{
  guint at = 0;
  for (guint i = 1; i < work->n; i++)
    if (work->nearest[i] > work->nearest[at])
      at = i;
  return at;
}

/* A centre that has lost its colours goes to the one that is served worst. */
static void
move_centres (BwKMeans *means, Work *work)
{
  BwLab sum[BW_KMEANS_MAX] = { { 0 } };
  for (guint i = 0; i < work->n; i++) {
    BwLab *of = &sum[work->group[i]];
    of->L += work->colours[i].L;
    of->a += work->colours[i].a;
    of->b += work->colours[i].b;
  }
  for (int c = 0; c < means->k; c++) {
    guint count = means->count[c];
    if (count > 0)
      means->centre[c] = (BwLab){ sum[c].L / count, sum[c].a / count, sum[c].b / count };
    else
      means->centre[c] = work->colours[farthest (work)];
  }
}

/* Within one beginning the share done is told as that of its rounds. */
typedef struct {
  BwGoOn go_on;
  gpointer data;
  double from, share;
} Told;

static gboolean
goes_on (const Told *told, double share)
{
  return !told->go_on || told->go_on (told->from + share * told->share, told->data);
}

static gboolean
settle (BwKMeans *means, Work *work, const Told *told)
{
  double before = INFINITY;
  gather (means, work);
  for (int round = 0; round < ROUNDS_MOST && means->cost < before * (1 - SETTLED); round++) {
    if (!goes_on (told, (double)round / ROUNDS_MOST))
      return FALSE;
    before = means->cost;
    move_centres (means, work);
    gather (means, work);
  }
  return TRUE;
}

/* --- The whole ---------------------------------------------------------------------------------
 */

typedef struct {
  BwLab centre;
  guint count;
} Centre;

static int
most_first (gconstpointer a, gconstpointer b)
{
  const Centre *one = a, *other = b;
  if (one->count != other->count)
    return one->count < other->count ? 1 : -1;
  return one->centre.L < other->centre.L ? -1 : one->centre.L > other->centre.L;
}

static void
put_in_order (BwKMeans *means)
{
  Centre centre[BW_KMEANS_MAX];
  for (int c = 0; c < means->k; c++)
    centre[c] = (Centre){ means->centre[c], means->count[c] };
  qsort (centre, (gsize)means->k, sizeof *centre, most_first);
  for (int c = 0; c < means->k; c++) {
    means->centre[c] = centre[c].centre;
    means->count[c] = centre[c].count;
  }
  while (means->k > 1 && means->count[means->k - 1] == 0)
    means->k--;
}

static gboolean
find (BwKMeans *best, Work *work, int k, const Told *told)
{
  guint64 state = SEED;
  best->cost = INFINITY;
  for (int b = 0; b < BEGINNINGS; b++) {
    BwKMeans means = { 0 };
    Told part = { told->go_on, told->data, told->from + b * told->share / BEGINNINGS,
                  told->share / BEGINNINGS };
    begin (&means, work, k, &state);
    if (!settle (&means, work, &part))
      return FALSE;
    if (means.cost < best->cost)
      *best = means;
  }
  put_in_order (best);
  return TRUE;
}

static Work
work_on (const BwLab *colours, guint n)
{
  return (Work){ colours, n, g_new (double, n), g_new (guint8, n) };
}

static void
work_clear (Work *work)
{
  g_free (work->nearest);
  g_free (work->group);
}

gboolean
bw_kmeans_find (BwKMeans *means, const BwLab *colours, guint n, int k, BwGoOn go_on, gpointer data)
{
  Work work = work_on (colours, n);
  Told told = { go_on, data, 0, 1 };
  gboolean done = find (means, &work, CLAMP (k, 1, BW_KMEANS_MAX), &told);
  work_clear (&work);
  return done;
}

/* --- How many ----------------------------------------------------------------------------------
 */

/* How much nearer a colour is to its own centre than to the next one, 0..1; centres weigh alike, so
 * that a few beads of one colour count as much as many of another. */
static double
silhouette (const BwKMeans *means, const BwLab *colours, guint n)
{
  double sum[BW_KMEANS_MAX] = { 0 }, mean = 0;
  guint count[BW_KMEANS_MAX] = { 0 };
  for (guint i = 0; i < n; i++) {
    double own = INFINITY, next = INFINITY;
    int group = 0;
    for (int c = 0; c < means->k; c++) {
      double away = square_distance (colours[i], means->centre[c]);
      if (away < own) {
        next = own;
        own = away;
        group = c;
      } else if (away < next) {
        next = away;
      }
    }
    sum[group] += next > 0 ? 1 - sqrt (own / next) : 0;
    count[group]++;
  }
  for (int c = 0; c < means->k; c++)
    mean += count[c] > 0 ? sum[c] / count[c] / means->k : 0;
  return mean;
}

gboolean
bw_kmeans_suggest (BwKMeans *best, const BwLab *colours, guint n, int most, BwGoOn go_on,
                   gpointer data)
{
  Work work = work_on (colours, n);
  double greatest = 0;
  gboolean done = TRUE;
  most = CLAMP (most, 1, BW_KMEANS_MAX);
  for (int k = 1; k <= most && done; k++) {
    BwKMeans means;
    /* A round takes as long as there are centres. */
    Told told = { go_on, data, (double)(k * (k - 1)) / (most * (most + 1)),
                  2.0 * k / (most * (most + 1)) };
    done = find (&means, &work, k, &told);
    double clear = done && means.k > 1 ? silhouette (&means, colours, n) : 0;
    if (done && (k == 1 || clear > greatest)) {
      *best = means;
      greatest = clear;
    }
    if (done && (means.k < k || (k == 1 && means.cost <= ALIKE_RMS * ALIKE_RMS)))
      break;
  }
  work_clear (&work);
  return done;
}
