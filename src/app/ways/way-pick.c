/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ways/way-pick.h"

#include <math.h>

typedef struct {
  guint at;
  double short_of; /* the best */
} Rated;

static BwWant
stance_of (const BwWay *way)
{
  if (way->up == BW_UP_LEVEL || way->tilt_deg >= 45)
    return BW_WANT_LEVEL;
  return way->up == BW_UP_BASE ? BW_WANT_TIP_DOWN : BW_WANT_TIP_UP;
}

gboolean
bw_way_passes (const BwWay *way, const BwWayFilter *filter)
{
  return (!filter->bead || g_str_equal (way->design.bead.name, filter->bead))
         && (filter->columns == 0 || way->design.band.columns == filter->columns)
         && way->worth.chance >= filter->chance
         && (!filter->has_want || (way->hangs && stance_of (way) == filter->want));
}

/* Less is better in each. */
static void
aims_of (const BwWay *way, double aims[BW_N_MATTERS])
{
  aims[BW_MATTERS_CHANCE] = -way->worth.chance;
  aims[BW_MATTERS_HANG] = way->worth.stance_deg;
  aims[BW_MATTERS_COVER] = way->worth.coverage_off;
  aims[BW_MATTERS_WORK] = way->worth.hours;
  aims[BW_MATTERS_COST] = way->worth.cost > 0 ? way->worth.cost : way->worth.beads;
}

/* Each aim from its least, 0, to its most, 1, of all that pass. */
static void
rate (GArray *rated, const GArray *ways, const double weights[BW_N_MATTERS])
{
  double least[BW_N_MATTERS], most[BW_N_MATTERS], aims[BW_N_MATTERS];
  for (int i = 0; i < BW_N_MATTERS; i++)
    least[i] = HUGE_VAL, most[i] = -HUGE_VAL;
  for (guint k = 0; k < rated->len; k++) {
    aims_of (&g_array_index (ways, BwWay, g_array_index (rated, Rated, k).at), aims);
    for (int i = 0; i < BW_N_MATTERS; i++)
      least[i] = MIN (least[i], aims[i]), most[i] = MAX (most[i], aims[i]);
  }
  for (guint k = 0; k < rated->len; k++) {
    Rated *one = &g_array_index (rated, Rated, k);
    aims_of (&g_array_index (ways, BwWay, one->at), aims);
    for (int i = 0; i < BW_N_MATTERS; i++)
      if (most[i] > least[i])
        one->short_of += weights[i] * (aims[i] - least[i]) / (most[i] - least[i]);
  }
}

static int
compare (gconstpointer a, gconstpointer b)
{
  const Rated *one = a, *other = b;
  if (one->short_of < other->short_of || one->short_of > other->short_of)
    return one->short_of < other->short_of ? -1 : 1;
  return one->at < other->at ? -1 : 1;
}

/* What a maker would call the same idea, a little higher or lower. */
static gboolean
is_like (const BwWay *a, const BwWay *b)
{
  const BwDesign *d = &a->design, *e = &b->design;
  return d->band.columns == e->band.columns && d->bail.style == e->bail.style
         && g_str_equal (d->bead.name, e->bead.name);
}

static gboolean
is_like_one_before (const GArray *ways, const GArray *rated, guint k)
{
  const BwWay *way = &g_array_index (ways, BwWay, g_array_index (rated, Rated, k).at);
  for (guint i = 0; i < k; i++)
    if (is_like (way, &g_array_index (ways, BwWay, g_array_index (rated, Rated, i).at)))
      return TRUE;
  return FALSE;
}

/* Which of the rated are shown: those like no better one, and as many of the others, the best of
 * them, as there is room for. Owned. */
static gboolean *
choose (const GArray *ways, const GArray *rated, guint most)
{
  gboolean *shown = g_new0 (gboolean, rated->len + 1);
  guint n = 0;
  for (guint k = 0; k < rated->len && n < most; k++)
    n += shown[k] = !is_like_one_before (ways, rated, k);
  for (guint k = 0; k < rated->len && n < most; k++)
    if (!shown[k])
      n += shown[k] = TRUE;
  return shown;
}

GArray *
bw_way_pick (const GArray *ways, const BwWayFilter *filter, const double weights[BW_N_MATTERS],
             guint most)
{
  GArray *picked = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) rated = g_array_new (FALSE, FALSE, sizeof (Rated));
  for (guint i = 0; i < ways->len; i++) {
    Rated one = { i, 0 };
    const BwWay *way = &g_array_index (ways, BwWay, i);
    if (bw_way_passes (way, filter) && (!filter->allowed || filter->allowed (way, i, filter->data)))
      g_array_append_val (rated, one);
  }
  rate (rated, ways, weights);
  g_array_sort (rated, compare);
  g_autofree gboolean *shown = choose (ways, rated, most);
  for (guint k = 0; k < rated->len; k++)
    if (shown[k])
      g_array_append_val (picked, g_array_index (rated, Rated, k).at);
  return picked;
}
