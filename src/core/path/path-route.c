/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the needle may choose its way: weaving in a tail, setting an anchor, walking to the bail.
 * The emptiest holes are best, because forcing a needle through a full one breaks the bead. */
#include "core/path/path-route.h"

/* One full bead outweighs every count of passes a route can gather. */
#define FULL_COST (BW_ROUTE_MAX * G_MAXUINT16)

static gboolean
same_bead (const BwStitch *a, const BwStitch *b)
{
  return a->in_bail == b->in_bail && a->row == b->row && a->column == b->column;
}

static gint64
cost_of (const BwNeedle *needle, const BwStitch *stitch, int more)
{
  int passes = *bw_needle_hole (needle, stitch) + more;
  return passes + (bw_path_is_full (needle->design, passes) ? FULL_COST : 0);
}

/* A state of the search: a bead just left, after so many beads and turns. */
typedef struct {
  BwStitch stitch;
  int turns;
  int parent; /* index of the state before, −1 at the start */
  gint64 cost;
} State;

typedef struct {
  const BwNeedle *needle;
  const BwRouteWish *wish;
  GArray *states;    /* of State, layer by layer */
  GHashTable *layer; /* key of a state → its index + 1, in the layer being built */
} Search;

/* Rows reach 20 000 and columns 200: 15 and 8 bits. */
static gpointer
key_of (const State *state)
{
  guint key = (guint)state->stitch.row | (guint)state->stitch.column << 15
              | (state->stitch.in_bail ? 1u << 23 : 0) | (state->stitch.way > 0 ? 1u << 24 : 0)
              | (guint)state->turns << 25;
  return GUINT_TO_POINTER (key);
}

static void
reach (Search *search, const State *state)
{
  gpointer key = key_of (state);
  guint known = GPOINTER_TO_UINT (g_hash_table_lookup (search->layer, key));
  if (known == 0) {
    g_array_append_val (search->states, *state);
    g_hash_table_insert (search->layer, key, GUINT_TO_POINTER (search->states->len));
  } else if (state->cost < g_array_index (search->states, State, known - 1).cost)
    g_array_index (search->states, State, known - 1) = *state;
}

/* How often the way to a state goes through a bead already. */
static int
times_before (const Search *search, int index, const BwStitch *stitch)
{
  int times = 0;
  while (index > 0) {
    const State *state = &g_array_index (search->states, State, index);
    times += same_bead (&state->stitch, stitch);
    index = state->parent;
  }
  return times;
}

static void
expand (Search *search, int index)
{
  State from = g_array_index (search->states, State, index);
  BwStitch next[6];
  int n = bw_needle_next (search->needle, &from.stitch, next), wanted = search->wish->turns;
  for (int i = 0; i < n; i++) {
    int turns = from.turns + (next[i].way != from.stitch.way);
    if (wanted >= 0 && turns > wanted)
      continue;
    int more = times_before (search, index, &next[i]);
    State state = { next[i], wanted < 0 ? 0 : turns, index,
                    from.cost + cost_of (search->needle, &next[i], more) };
    reach (search, &state);
  }
}

static gboolean
is_wished (const BwRouteWish *wish, const State *state)
{
  const BwStitch *target = wish->target;
  if (wish->turns >= 0 && state->turns != wish->turns)
    return FALSE;
  return !target
         || (target->in_bail == state->stitch.in_bail && target->column == state->stitch.column
             && (target->row == 0 || target->row == state->stitch.row)
             && (target->way == 0 || target->way == state->stitch.way));
}

/* The cheapest state of the layer that is as wished; −1 when there is none. */
static int
best_of (const Search *search, int first, int end)
{
  int best = -1;
  for (int i = first; i < end; i++) {
    const State *state = &g_array_index (search->states, State, i);
    if (is_wished (search->wish, state)
        && (best < 0 || state->cost < g_array_index (search->states, State, best).cost))
      best = i;
  }
  return best;
}

/* Layer by layer, each bead and way at its least cost: after `least` beads the first layer with a
 * state as wished ends it. Returns that state, and how many beads it took. */
static int
find (Search *search, BwStitch from, int *n)
{
  State start = { from, 0, -1, 0 };
  g_array_append_val (search->states, start);
  int first = 0, end = 1;
  for (*n = 1; *n <= search->wish->most && first < end; (*n)++) {
    g_hash_table_remove_all (search->layer);
    for (int i = first; i < end; i++)
      expand (search, i);
    first = end;
    end = (int)search->states->len;
    int best = *n < search->wish->least ? -1 : best_of (search, first, end);
    if (best >= 0)
      return best;
  }
  return -1;
}

gboolean
bw_route_search (BwRoute *route, const BwNeedle *needle, BwStitch from, const BwRouteWish *wish)
{
  g_autoptr (GArray) states = g_array_new (FALSE, FALSE, sizeof (State));
  g_autoptr (GHashTable) layer = g_hash_table_new (NULL, NULL);
  Search search = { needle, wish, states, layer };
  int n, index = find (&search, from, &n);
  if (index < 0)
    return FALSE;
  route->n = n;
  for (int i = n - 1; i >= 0; i--) {
    const State *state = &g_array_index (states, State, index);
    route->stitch[i] = state->stitch;
    index = state->parent;
  }
  return TRUE;
}

/* How often the route itself goes through a bead. */
static int
times_in (const BwRoute *route, const BwStitch *stitch)
{
  int times = 0;
  for (int i = 0; i < route->n; i++)
    times += same_bead (&route->stitch[i], stitch);
  return times;
}

/* One attempt at weaving in. */
typedef struct {
  const BwNeedle *needle;
  BwRoute *route;
  int n;             /* beads wanted */
  gboolean full_ok;  /* may pass full beads */
  gboolean short_ok; /* may end early where there is no way on */
  int tries;         /* left, so that a crowded corner costs bounded time */
} Dive;

/* The beads in reach, emptiest first; ties keep their order: the older row before the newer, going
 * on before turning. */
static int
sorted_next (const Dive *dive, const BwStitch *from, BwStitch next[6], gint64 cost[6])
{
  int n = bw_needle_next (dive->needle, from, next);
  for (int i = 0; i < n; i++) {
    BwStitch stitch = next[i];
    gint64 its_cost = cost_of (dive->needle, &stitch, times_in (dive->route, &stitch));
    int k = i;
    for (; k > 0 && cost[k - 1] > its_cost; k--) {
      cost[k] = cost[k - 1];
      next[k] = next[k - 1];
    }
    cost[k] = its_cost;
    next[k] = stitch;
  }
  return n;
}

/* Always into the emptiest hole, and a bead back from where that leads nowhere. */
static gboolean
dive_on (Dive *dive, BwStitch from)
{
  BwRoute *route = dive->route;
  BwStitch next[6];
  gint64 cost[6];
  if (route->n == dive->n)
    return TRUE;
  int n = sorted_next (dive, &from, next, cost);
  if (n == 0)
    return dive->short_ok;
  for (int i = 0; i < n && (dive->full_ok || cost[i] < FULL_COST); i++) {
    if (dive->tries-- <= 0)
      return FALSE;
    route->stitch[route->n++] = next[i];
    if (dive_on (dive, next[i]))
      return TRUE;
    route->n--;
  }
  return FALSE;
}

void
bw_route_weave (BwRoute *route, const BwNeedle *needle, BwStitch from, int n)
{
  Dive empty = { needle, route, n, FALSE, FALSE, 4000 };
  Dive full = { needle, route, n, TRUE, FALSE, 4000 };
  Dive stuck = { needle, route, n, TRUE, TRUE, 4000 };
  if (!dive_on (&empty, from) && !dive_on (&full, from))
    dive_on (&stuck, from);
}
