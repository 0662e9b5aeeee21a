/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/workshop/ways.h"

#include "core/band/column.h"
#include "core/band/forecast.h"
#include "core/base/normal.h"
#include "core/base/tolerance.h"
#include "core/path/materials.h"
#include "core/path/path.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define BASE_BEADS 3 /* of a flap: common practice, no source */
#define LAYERS_MOST 4
#define GRADE_MOST_MM 1.5 /* as the remedies have it */
#define HEIGHT_STEP_MM 0.5
#define COARSE 8
#define LEAST_OF_BEST                                                                              \
  0.6                    /* of the best chance; less is no good way, whatever it saves: judgement */
#define LEAST_CHANCE 0.5 /* of closing */
#define WIDTH_LEAST_MM 5.0 /* a narrower band holds no stone: practice, no source */
#define ANCHOR_VISITS 8

/* --- The shares of the grid --------------------------------------------------------------------
 */

static double
prism_mm (const BwStone *stone)
{
  return stone->shoulder_mm - stone->base_shoulder_mm;
}

static int
columns_least (const BwWaysBead *bead)
{
  return MAX (4, 2 * (int)ceil (WIDTH_LEAST_MM / (2 * bead->gauge.column_mm)));
}

static int
columns_most (const BwWaysAsk *ask, const BwWaysBead *bead)
{
  double most = floor (prism_mm (ask->stone) / (2 * bead->gauge.column_mm) + BW_ROUNDING_WHOLE);
  return (int)MIN (2 * most, BW_COLUMNS_MAX);
}

static int
shares_of_bead (const BwWaysAsk *ask, const BwWaysBead *bead)
{
  return MAX (0, (columns_most (ask, bead) - columns_least (bead)) / 2 + 1);
}

int
bw_ways_n_shares (const BwWaysAsk *ask)
{
  int n = 0;
  for (int i = 0; i < ask->n_beads; i++)
    n += shares_of_bead (ask, &ask->beads[i]);
  return n;
}

/* The bead of a share; *columns its number of columns. */
static const BwWaysBead *
bead_of_share (const BwWaysAsk *ask, int share, int *columns)
{
  const BwWaysBead *bead = ask->beads;
  while (share >= shares_of_bead (ask, bead))
    share -= shares_of_bead (ask, bead++);
  *columns = columns_least (bead) + 2 * share;
  return bead;
}

/* --- One candidate -----------------------------------------------------------------------------
 */

static double
chance_below (double mm, double sigma_mm)
{
  if (sigma_mm > 0)
    return bw_normal_below (mm / sigma_mm);
  return mm >= 0 ? 1 : 0;
}

/* The forecast's chances of the count. The errors of girth and pitch act on every column alike: a
 * band that closes grips when the error is at least what its loosest column must lack. */
static void
weigh_chance (BwWayWorth *worth, const BwDesign *design, const BwStone *stone)
{
  BwFit fit;
  double lack = -HUGE_VAL;
  bw_fit_init (&fit, design, stone, design->band.rows);
  for (int c = 0; c < fit.n_columns; c++)
    lack = MAX (lack, -design->limits.slack_mm - fit.column[c].gap_mm);
  BwCountChance count = bw_forecast_count (design, stone, fit.beads_around);
  worth->closes = count.closes;
  worth->chance = count.fewest;
  worth->snug = MAX (0, count.closes - chance_below (lack, count.sigma_mm));
}

gboolean
bw_way_tell_chances (BwWay *way, const BwStone *stone)
{
  weigh_chance (&way->worth, &way->design, stone);
  return bw_fit_is_snug (&way->design, stone, way->design.band.rows);
}

static double
off_stance (const BwWaysWish *wish, const BwWay *way)
{
  if (!wish->has_stance || !way->hangs)
    return 0;
  if (wish->stance == BW_WANT_LEVEL)
    return 90 - way->tilt_deg;
  BwUp wanted = wish->stance == BW_WANT_TIP_DOWN ? BW_UP_BASE : BW_UP_TIP;
  return way->up == wanted ? way->tilt_deg : 180 - way->tilt_deg;
}

/* What the bail adds to the needle's way: a row passes as many beads as it is wide, and the last of
 * them is sewn to the band out and back, an upright strip with both ends. */
static double
bail_visits (const BwBail *bail)
{
  int ends = bail->style == BW_BAIL_UPRIGHT || bail->style == BW_BAIL_OVER ? 2 : 1;
  return bail->style == BW_BAIL_NONE ? 0 : (bail->rows + 2.0 * ends) * bail->columns;
}

/* Lengths of thread for so many visits, two tails and two weavings-in left out of each. */
static double
thread_lengths (const BwDesign *design, double visits)
{
  double step = bw_path_step_mm (design);
  double works
      = design->thread.working_mm - 2 * design->thread.tail_mm - 2 * BW_WEAVING_VISITS * step;
  double mm = visits * step + design->band.rows * design->pitch.mm;
  return ceil (mm / MAX (works, design->thread.tail_mm));
}

/* Hours as the list of materials counts them, join, bail, ends and bed included, but without
 * leading the thread bead by bead: thousands of candidates are weighed. Those chosen are led. */
static double
hours_about (const BwDesign *design, const BwStone *stone)
{
  int columns = design->band.columns;
  double after = 2.0 * columns + ANCHOR_VISITS + bail_visits (&design->bail);
  double lengths = thread_lengths (design, design->band.rows * columns + after);
  after += 2 * BW_WEAVING_VISITS * lengths;
  return bw_work_hours (&design->supply, columns, design->band.rows + after / columns,
                        bw_bed_cord_mm (&design->bed, stone, bw_design_span (design)));
}

static double
cost_of (const BwDesign *design, const BwStone *stone, const BwWayWorth *worth)
{
  const BwSupply *supply = &design->supply;
  if (!supply->has_prices)
    return 0;
  double grams = worth->beads * (1 + supply->spare) * bw_bead_mass_g (&design->bead);
  double cord_m = bw_bed_cord_mm (&design->bed, stone, bw_design_span (design)) / 1000;
  return grams / supply->pack_g * supply->pack + cord_m * supply->bed_cord_per_m
         + worth->hours * supply->hour;
}

static void
weigh (BwWay *way, const BwWaysAsk *ask)
{
  const BwDesign *design = &way->design;
  BwWayWorth *worth = &way->worth;
  way->coverage = bw_design_span (design).width_mm / ask->stone->length_mm;
  way->moved_mm = fabs (design->band.bottom_mm - ask->design->band.bottom_mm);
  worth->coverage_off = fabs (way->coverage - ask->wish.coverage);
  worth->stance_deg = off_stance (&ask->wish, way);
  worth->beads
      = design->band.rows / 2.0 * design->band.columns + bw_bail_bead_count (&design->bail);
  worth->hours = hours_about (design, ask->stone);
  worth->cost = cost_of (design, ask->stone, worth);
}

/* --- What is kept -------------------------------------------------------------------------------
 */

#define N_AIMS 7

/* All as what is to be small. */
static void
aims (const BwWayWorth *worth, double aim[N_AIMS])
{
  aim[0] = -worth->chance;
  aim[1] = worth->stance_deg;
  aim[2] = worth->coverage_off;
  aim[3] = worth->hours;
  aim[4] = worth->cost;
  aim[5] = worth->beads;
  aim[6] = -worth->snug;
}

/* Nowhere worse, somewhere better. */
static gboolean
beats (const BwWay *a, const BwWay *b)
{
  double one[N_AIMS], other[N_AIMS];
  gboolean better = FALSE;
  aims (&a->worth, one);
  aims (&b->worth, other);
  for (int i = 0; i < N_AIMS; i++) {
    if (one[i] > other[i] + BW_SOLVED)
      return FALSE;
    better = better || one[i] < other[i] - BW_SOLVED;
  }
  return better;
}

static int
compare_numbers (double a, double b)
{
  return (a > b) - (a < b);
}

/* A whole order of ways that depends on nothing but what they are. */
static int
compare_ways (gconstpointer a, gconstpointer b)
{
  const BwWay *one = a, *other = b;
  const BwDesign *d = &one->design, *e = &other->design;
  const double first[] = { -one->worth.chance,    one->worth.stance_deg, one->worth.coverage_off,
                           one->worth.hours,      one->moved_mm,         d->bead.diameter_mm,
                           d->bead.length_mm,     d->band.columns,       d->band.rows,
                           d->bed.layers,         d->bed.top_extra_mm,   d->band.bottom_mm,
                           (double)d->bail.style, d->bail.columns,       d->bail.rows };
  const double second[]
      = { -other->worth.chance,  other->worth.stance_deg, other->worth.coverage_off,
          other->worth.hours,    other->moved_mm,         e->bead.diameter_mm,
          e->bead.length_mm,     e->band.columns,         e->band.rows,
          e->bed.layers,         e->bed.top_extra_mm,     e->band.bottom_mm,
          (double)e->bail.style, e->bail.columns,         e->bail.rows };
  for (gsize i = 0; i < G_N_ELEMENTS (first); i++)
    if (compare_numbers (first[i], second[i]) != 0)
      return compare_numbers (first[i], second[i]);
  return strcmp (d->bead.name, e->bead.name);
}

/* Of two that are worth the same the earlier one stands for both. */
static gboolean
stands_for (const BwWay *ways, guint i, guint k)
{
  if (beats (&ways[k], &ways[i]))
    return TRUE;
  return k < i && !beats (&ways[i], &ways[k])
         && memcmp (&ways[i].worth, &ways[k].worth, sizeof ways[i].worth) == 0;
}

void
bw_ways_front (GArray *ways)
{
  g_autoptr (GArray) front = g_array_new (FALSE, FALSE, sizeof (BwWay));
  g_array_sort (ways, compare_ways);
  const BwWay *all = (const BwWay *)(void *)ways->data;
  for (guint i = 0; i < ways->len; i++) {
    gboolean beaten = FALSE;
    for (guint k = 0; k < ways->len && !beaten; k++)
      beaten = k != i && stands_for (all, i, k);
    if (!beaten)
      g_array_append_vals (front, &all[i], 1);
  }
  g_array_set_size (ways, 0);
  g_array_append_vals (ways, front->data, front->len);
}

/* --- The search of one share ---------------------------------------------------------------------
 */

typedef struct {
  const BwWaysAsk *ask;
  BwDesign design; /* the share's bead and columns in it */
  const int *stop;
  GArray *found;
} Search;

static gboolean
is_stopped (const Search *search)
{
  return search->stop && g_atomic_int_get (search->stop);
}

/* How thick a layer of this maker's cord really lies, where a girth over the bed told it. */
static double
layer_mm (const BwWaysAsk *ask)
{
  const BwBed *bed = &ask->design->bed;
  BwBedding bedding;
  BwBandSpan span = bw_design_span (ask->design);
  if (!bed->has_girth_over || bed->layers < 1
      || !bw_bedding_init (&bedding, bed, ask->stone, span, NULL)
      || bedding.bottom_mm < BW_LENGTH_MIN_MM)
    return bed->cord_thickness_mm;
  return bedding.bottom_mm / bed->layers;
}

/* What was read of one strip says nothing of another. */
static gboolean
is_another_strip (const BwDesign *a, const BwDesign *b)
{
  return a->band.columns != b->band.columns || !bw_bead_same_size (&a->bead, &b->bead);
}

/* FALSE: no band of so many of these beads covers as much of the stone as is wished. */
static gboolean
begin (Search *search, int share)
{
  int columns;
  const BwWaysBead *bead = bead_of_share (search->ask, share, &columns);
  search->design = *search->ask->design;
  search->design.bead = bead->bead;
  search->design.gauge = bead->gauge;
  search->design.pitch = bead->pitch;
  search->design.band.columns = columns;
  search->design.bed.cord_thickness_mm = layer_mm (search->ask);
  search->design.bed.has_girth_over = FALSE;
  bw_supply_keep_pace (&search->design.supply, search->ask->design->band.columns, columns);
  if (is_another_strip (search->ask->design, &search->design))
    search->design.tried = (BwBelief){ 0 };
  double coverage = bw_design_span (&search->design).width_mm / search->ask->stone->length_mm;
  return coverage >= search->ask->wish.coverage_least
         && coverage <= search->ask->wish.coverage_most;
}

/* A candidate whose band is snug and whose bail is settled. */
static void
keep (Search *search, BwWay *way)
{
  if (!bw_design_validate (&way->design, NULL, NULL))
    return;
  weigh (way, search->ask);
  g_array_append_vals (search->found, way, 1);
}

static gboolean
fit_over (BwDesign *design, const BwStone *stone, int columns)
{
  BwLoop loop;
  bw_bail_reach_over (design, stone);
  design->bail.columns = columns;
  return bw_bail_loop_init (&loop, NULL, design, stone, NULL) && loop.rows_needed > 0;
}

/* The bail of a style with the least rows whose loop lets the cord through; FALSE: there is none.
 */
static gboolean
fit_bail (BwDesign *design, const BwStone *stone, BwBailStyle style, int columns)
{
  BwBail *bail = &design->bail;
  BwLoop loop;
  if (style != BW_BAIL_UPRIGHT && style != BW_BAIL_OVER && columns > design->band.columns - 2)
    return FALSE;
  /* A base as long as the other kind's: beads of a flap lie round the stone, of a strip along it.
   */
  if (style == BW_BAIL_UPRIGHT && bail->style != BW_BAIL_UPRIGHT)
    bail->base_beads = MIN (4, design->band.columns - 2);
  if (style == BW_BAIL_OVER)
    return fit_over (design, stone, columns);
  /* Half round the stone is no foot for a loop of another kind. */
  if (bail->style == BW_BAIL_OVER && style != BW_BAIL_UPRIGHT)
    bail->base_beads = BASE_BEADS;
  bail->style = style;
  bail->columns = columns;
  bail->rows = 41; /* long enough to arch over any base; the loop then tells what is needed */
  if (!bw_loop_init (&loop, bail, &design->bead, &design->gauge, NULL) || loop.rows_needed == 0)
    return FALSE;
  bail->rows = loop.rows_needed;
  return TRUE;
}

static void
keep_with_bail (Search *search, const BwWay *band, BwBailStyle style, int columns)
{
  BwWay way = *band;
  BwHang hang;
  if (!fit_bail (&way.design, search->ask->stone, style, columns)
      || !bw_hang_init (&hang, &way.design, search->ask->stone, NULL)
      || hang.loop.largest_cord_mm < way.design.bail.cord_mm - BW_ROUNDING_MM)
    return;
  way.hangs = TRUE;
  way.tilt_deg = hang.tilt_deg;
  way.up = hang.up;
  keep (search, &way);
}

static void
try_bails (Search *search, BwWay *band)
{
  static const struct {
    BwBailStyle style;
    int columns;
  } bails[]
      = { { BW_BAIL_FLAP, 4 },    { BW_BAIL_FLAP, 6 }, { BW_BAIL_RING, 4 }, { BW_BAIL_UPRIGHT, 4 },
          { BW_BAIL_UPRIGHT, 6 }, { BW_BAIL_OVER, 4 }, { BW_BAIL_OVER, 6 } };
  BwBailStyle own = search->ask->design->bail.style;
  if (own == BW_BAIL_NONE) {
    keep (search, band);
    return;
  }
  /* Over the tip only where that is what the maker thinks of. */
  for (gsize i = 0; i < G_N_ELEMENTS (bails); i++)
    if (bails[i].style != BW_BAIL_OVER || own == BW_BAIL_OVER)
      keep_with_bail (search, band, bails[i].style, bails[i].columns);
}

static void
try_count (Search *search, const BwDesign *design, int n)
{
  BwWay way = { .design = *design };
  way.design.band.rows = 2 * n;
  if (2 * n > BW_ROWS_MAX || !bw_fit_is_snug (&way.design, search->ask->stone, 2 * n))
    return;
  weigh_chance (&way.worth, &way.design, search->ask->stone);
  if (way.worth.closes >= LEAST_CHANCE)
    try_bails (search, &way);
}

/* The band at one height on one bed: the count that just closes, and one bead more. */
static void
try_bed (Search *search, const BwDesign *design)
{
  BwBedding bedding;
  if (!bw_bedding_init (&bedding, &design->bed, search->ask->stone, bw_design_span (design), NULL))
    return;
  int n = bw_fit_recommended (design, search->ask->stone);
  try_count (search, design, n);
  try_count (search, design, n + 1);
}

/* The grade that makes both edges alike; 0 where that is none worth winding. */
static double
levelling_grade (const BwDesign *design, const BwStone *stone)
{
  BwSection first, last;
  int columns = design->band.columns;
  bw_section_init (&first, stone, bw_column_height_mm (design, 1));
  bw_section_init (&last, stone, bw_column_height_mm (design, columns));
  double grade = (first.girth_mm - last.girth_mm) / (2 * G_PI) * columns / (columns - 1);
  grade = round (grade / 0.05) * 0.05; /* no cord is wound finer */
  return fabs (grade) > GRADE_MOST_MM ? 0 : grade;
}

static void
try_height (Search *search, double bottom_mm)
{
  BwDesign design = search->design;
  design.band.bottom_mm = bottom_mm;
  double grade = levelling_grade (&design, search->ask->stone);
  for (int layers = 0; layers <= LAYERS_MOST && !is_stopped (search); layers++) {
    design.bed.layers = layers;
    design.bed.top_extra_mm = 0;
    try_bed (search, &design);
    design.bed.top_extra_mm = grade;
    if (fabs (grade) > 0)
      try_bed (search, &design);
  }
}

void
bw_ways_search (const BwWaysAsk *ask, int share, gboolean coarse, const int *stop, GArray *ways)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (BwWay));
  Search search = { .ask = ask, .stop = stop, .found = found };
  if (!begin (&search, share))
    return;
  double step = coarse ? COARSE * HEIGHT_STEP_MM : HEIGHT_STEP_MM;
  double first = ceil (ask->stone->base_shoulder_mm / HEIGHT_STEP_MM) * HEIGHT_STEP_MM;
  double last = ask->stone->shoulder_mm - bw_design_span (&search.design).width_mm + BW_ROUNDING_MM;
  for (int k = 0; first + k * step <= last && !is_stopped (&search); k++)
    try_height (&search, first + k * step);
  bw_ways_front (found);
  g_array_append_vals (ways, found->data, found->len);
}

/* --- The choice ---------------------------------------------------------------------------------
 */

#define N_SIDES (N_AIMS + 7)

/* Knobs and worth of a way as one point. */
static void
sides (const BwWay *way, double side[N_SIDES])
{
  const BwDesign *d = &way->design;
  const double knobs[N_SIDES - N_AIMS]
      = { d->bead.diameter_mm, d->band.columns,       d->bed.layers, d->bed.top_extra_mm,
          d->band.bottom_mm,   (double)d->bail.style, way->tilt_deg };
  aims (&way->worth, side);
  memcpy (side + N_AIMS, knobs, sizeof knobs);
}

typedef struct {
  double least[N_SIDES], range[N_SIDES];
} Scale;

static Scale
scale_of (const GArray *ways)
{
  Scale scale;
  for (int i = 0; i < N_SIDES; i++) {
    double least = HUGE_VAL, most = -HUGE_VAL;
    for (guint k = 0; k < ways->len; k++) {
      double side[N_SIDES];
      sides (&g_array_index (ways, BwWay, k), side);
      least = MIN (least, side[i]);
      most = MAX (most, side[i]);
    }
    scale.least[i] = least;
    scale.range[i] = most - least > BW_SOLVED ? most - least : 1;
  }
  return scale;
}

static double
distance (const Scale *scale, const BwWay *a, const BwWay *b)
{
  double one[N_SIDES], other[N_SIDES], sum = 0;
  sides (a, one);
  sides (b, other);
  for (int i = 0; i < N_SIDES; i++) {
    double apart = (one[i] - other[i]) / scale->range[i];
    sum += apart * apart;
  }
  return sqrt (sum);
}

/* How far from the best in everything, each on its own scale. */
static double
shortfall (const Scale *scale, const BwWay *way)
{
  double aim[N_AIMS], sum = 0;
  aims (&way->worth, aim);
  for (int i = 0; i < N_AIMS; i++)
    sum += (aim[i] - scale->least[i]) / scale->range[i];
  return sum;
}

typedef struct {
  double key;
  guint at;
} Place;

static int
compare_places (gconstpointer a, gconstpointer b)
{
  const Place *one = a, *other = b;
  int by_key = compare_numbers (one->key, other->key);
  return by_key ? by_key : (one->at > other->at) - (one->at < other->at);
}

/* The way with the seed-th least shortfall, of those that may be taken. */
static guint
first_place (const GArray *front, const Scale *scale, const double *nearest, guint seed)
{
  g_autofree Place *places = g_new (Place, front->len);
  guint n = 0;
  for (guint i = 0; i < front->len; i++)
    if (nearest[i] > 0)
      places[n++] = (Place){ shortfall (scale, &g_array_index (front, BwWay, i)), i };
  qsort (places, n, sizeof *places, compare_places);
  return places[seed % n].at;
}

/* Leads the thread: FALSE where a needle does not pass a bead that must be passed again; else hours
 * and cost are those of this very path. */
static gboolean
sew (BwWay *way, const BwStone *stone)
{
  const BwDesign *design = &way->design;
  BwRing ring;
  BwBailBase base;
  BwPath path;
  bw_mid_ring_init (&ring, design, stone);
  if (design->bail.style != BW_BAIL_NONE)
    bw_bail_base_init (&base, design, &ring);
  bw_path_init (&path, design, design->bail.style == BW_BAIL_NONE ? NULL : &base);
  gboolean goes = path.full_holes->len == 0;
  way->worth.hours
      = bw_work_hours (&design->supply, design->band.columns, bw_work_rows (&path, &design->band),
                       bw_bed_cord_mm (&design->bed, stone, bw_design_span (design)));
  way->worth.cost = cost_of (design, stone, &way->worth);
  bw_path_clear (&path);
  return goes;
}

/* Takes ways[at] into chosen when it can be sewn, and tells all others how near it is. */
static void
take (const GArray *front, const Scale *scale, guint at, double *nearest, GArray *chosen)
{
  const BwWay *way = &g_array_index (front, BwWay, at);
  BwWay sewn = *way;
  BwStone stone;
  nearest[at] = -1;
  if (!bw_stone_init (&stone, &way->design.stone, NULL) || !sew (&sewn, &stone))
    return;
  g_array_append_vals (chosen, &sewn, 1);
  for (guint i = 0; i < front->len; i++)
    nearest[i] = MIN (nearest[i], distance (scale, way, &g_array_index (front, BwWay, i)));
}

/* The one farthest from all chosen; the earlier of two. -1: none is left. */
static int
farthest (const double *nearest, guint n)
{
  int best = -1;
  for (guint i = 0; i < n; i++)
    if (nearest[i] > 0 && (best < 0 || nearest[i] > nearest[best]))
      best = (int)i;
  return best;
}

/* A band that grips and is seldom the fewest rows is as little wanted as the other way round. */
static double
lesser_chance (const GArray *front, guint at)
{
  const BwWayWorth *worth = &g_array_index (front, BwWay, at).worth;
  return MIN (worth->chance, worth->snug);
}

static double
best_chance (const GArray *front)
{
  double best = 0;
  for (guint i = 0; i < front->len; i++)
    best = MAX (best, lesser_chance (front, i));
  return best;
}

GArray *
bw_ways_choose (const GArray *front, int limit, guint seed)
{
  GArray *chosen = g_array_new (FALSE, FALSE, sizeof (BwWay));
  if (front->len == 0)
    return chosen;
  Scale scale = scale_of (front);
  g_autofree double *nearest = g_new (double, front->len);
  double least = LEAST_OF_BEST * best_chance (front);
  for (guint i = 0; i < front->len; i++)
    nearest[i] = lesser_chance (front, i) < least ? -1 : HUGE_VAL;
  take (front, &scale, first_place (front, &scale, nearest, seed), nearest, chosen);
  for (int at; (int)chosen->len < limit && (at = farthest (nearest, front->len)) >= 0;)
    take (front, &scale, (guint)at, nearest, chosen);
  return chosen;
}
