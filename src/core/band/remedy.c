/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would make the band fit. A remedy is a whole changed design, validated and solved again, so
 * that what it promises is what the maker will see after taking it. */
#include "core/band/remedy.h"

#include "core/band/column.h"
#include "core/base/tolerance.h"
#include <stdlib.h>

#define LAYERS_MAX 20   /* more layers of cord than this are no bed any more */
#define BED_MOST_MM 2.0 /* nobody winds a thicker one unless it is already: practice, no source */
#define MOVE_STEP 0.5   /* mm; finer than a maker sets a band */
#define WIDTH_LEAST_MM 5.0  /* a narrower band holds no stone: common practice, no source */
#define GRADE_MOST_MM 1.5   /* nobody winds a steeper bed: practice, no source */
#define GRADE_STEP_MM 0.05  /* no cord is wound finer */
#define JOINT_LAYERS_MOST 4 /* as the joint search has it */

typedef struct {
  const BwDesign *design;
  const BwStone *stone;
  BwLaid laid;
  BwVerdict verdict;
  double gap_min_mm, gap_max_mm;
  gboolean joint; /* what is offered now turns more than one knob */
  GArray *found;
} Search;

const char *
bw_remedy_word (BwRemedyKind kind)
{
  static const char *const words[] = {
    [BW_REMEDY_ROWS] = "rows",   [BW_REMEDY_BED] = "bed",   [BW_REMEDY_LAYERS] = "layers",
    [BW_REMEDY_GRADE] = "grade", [BW_REMEDY_MOVE] = "move", [BW_REMEDY_BEAD] = "bead",
  };
  return words[kind];
}

/* Adds the changed design when it can be made at all. */
static gboolean
offer (Search *search, BwRemedyKind kind, double value, const BwDesign *changed)
{
  BwRemedy remedy = { .kind = kind, .value = value, .design = *changed };
  if (!bw_design_validate (changed, NULL, NULL))
    return FALSE;
  remedy.verdict = bw_fit_verdict (changed, search->stone, changed->band.rows, &remedy.gap_min_mm,
                                   &remedy.gap_max_mm);
  remedy.joint = search->joint;
  remedy.voids_girth_over = search->design->bed.has_girth_over && !changed->bed.has_girth_over;
  g_array_append_val (search->found, remedy);
  return TRUE;
}

/* How thick a bed may be that is offered. */
static double
bed_most_mm (const Search *search)
{
  return MAX (BED_MOST_MM, search->laid.bedding.bottom_mm) + BW_ROUNDING_MM;
}

static double
worst_gap (double least, double greatest)
{
  return MAX (fabs (least), fabs (greatest));
}

/* A band with an odd row count fits nowhere, whatever is done to the bed. */
static gboolean
is_ring (const Search *search)
{
  return search->verdict != BW_VERDICT_ODD_ROWS && search->design->band.rows >= 6;
}

/* Fewer rows first when the band is too long, else more rows first. */
static void
find_rows (Search *search)
{
  int now = search->design->band.rows;
  int step = now % 2 ? 1 : 2;
  int first = search->verdict == BW_VERDICT_LOOSE ? -step : step;
  for (int k = 0; k < 2; k++) {
    BwDesign changed = *search->design;
    changed.band.rows = k == 0 ? now + first : now - first;
    if (changed.band.rows >= BW_ROWS_MIN && changed.band.rows <= BW_ROWS_MAX)
      offer (search, BW_REMEDY_ROWS, changed.band.rows, &changed);
  }
}

/* Drops the girth measured over the bed, and keeps what it told: how thick a layer really lies, or
 * that there is none. */
static void
drop_girth_over (const Search *search, BwBed *bed)
{
  if (!bed->has_girth_over)
    return;
  bed->has_girth_over = FALSE;
  if (search->laid.bedding.bottom_mm < BW_LENGTH_MIN_MM) {
    bed->layers = 0;
    return;
  }
  bed->layers = MAX (bed->layers, 1);
  bed->cord_thickness_mm = search->laid.bedding.bottom_mm / bed->layers;
}

static void
thickened_ring (BwRing *ring, const BwColumn *column, double more_mm)
{
  bw_ring_init (ring, &column->section, column->relaxed_mm + more_mm);
}

static double
gap_with (const Search *search, const BwColumn *column, int n, double more_mm)
{
  BwRing ring;
  thickened_ring (&ring, column, more_mm);
  return n
         * (bw_ring_chord_mean (&ring, n, bw_laid_seam (&search->laid, &ring))
            - search->design->pitch.mm);
}

/* The change of thickness at which a column lies at its natural length. Each millimetre makes the
 * curve 2π longer, the n chords a little more or less: secant steps begun with that slope. */
static double
natural_thickening (const Search *search, const BwColumn *column, int n, double guess)
{
  double floor_mm = -column->relaxed_mm * 0.999, slope = 2 * G_PI;
  double more = MAX (guess, floor_mm), last = 0, last_gap = 0;
  for (int k = 0; k < 60; k++) {
    double gap = gap_with (search, column, n, more);
    double secant = k > 0 ? (gap - last_gap) / (more - last) : slope;
    if (secant > G_PI / 4 && secant < 8 * G_PI)
      slope = secant;
    last = more;
    last_gap = gap;
    more = MAX (more - gap / slope, floor_mm);
    if (fabs (more - last) <= BW_SOLVED * (1 + fabs (more)))
      break;
  }
  return more;
}

/* The thickening that even a column's arcs need: a little less than its chords do. */
static double
arc_thickening (const Search *search, const BwColumn *column, int n)
{
  double length = column->section.girth_mm + 2 * G_PI * column->relaxed_mm;
  return (n * search->design->pitch.mm - length) / (2 * G_PI);
}

static BwColumn
tightest_column (const Search *search, int n)
{
  BwColumn tightest, other;
  bw_column_init (&tightest, &search->laid, 1);
  for (int c = 2; c <= search->design->band.columns; c++) {
    bw_column_init (&other, &search->laid, c);
    if (arc_thickening (search, &other, n) < arc_thickening (search, &tightest, n))
      tightest = other;
  }
  return tightest;
}

/* The thickening at which the tightest of all columns lies at its natural length. */
static double
band_thickening (const Search *search, int n)
{
  BwColumn tightest = tightest_column (search, n), other;
  double more = natural_thickening (search, &tightest, n, arc_thickening (search, &tightest, n));
  for (int c = 1; c <= search->design->band.columns; c++) {
    BwRing ring;
    bw_column_init (&other, &search->laid, c);
    thickened_ring (&ring, &other, more);
    if (bw_column_equal (&other, &tightest)
        || bw_ring_closes (&ring, n, bw_laid_seam (&search->laid, &ring), search->design->pitch.mm))
      continue;
    tightest = other;
    more = MIN (more, natural_thickening (search, &tightest, n, more));
  }
  return more;
}

static void
find_bed (Search *search)
{
  BwDesign changed = *search->design;
  if (!is_ring (search))
    return;
  double change = band_thickening (search, changed.band.rows / 2);
  double bottom = search->laid.bedding.bottom_mm + change;
  if (fabs (change) < BW_ROUNDING_MM || bottom <= 0 || bottom > bed_most_mm (search))
    return;
  changed.bed.has_girth_over = FALSE;
  changed.bed.layers = MAX (changed.bed.layers, 1);
  changed.bed.cord_thickness_mm = bottom / changed.bed.layers;
  offer (search, BW_REMEDY_BED, change, &changed);
}

/* The design with another number of layers. */
static BwDesign
with_layers (const Search *search, int layers)
{
  BwDesign changed = *search->design;
  drop_girth_over (search, &changed.bed);
  changed.bed.layers = layers;
  return changed;
}

static gboolean
is_snug (const Search *search, const BwDesign *changed)
{
  return bw_design_validate (changed, NULL, NULL)
         && bw_fit_is_snug (changed, search->stone, changed->band.rows);
}

static gboolean
can_wind (const Search *search, int layers)
{
  BwBed bed = search->design->bed;
  drop_girth_over (search, &bed);
  return layers >= 0 && layers <= LAYERS_MAX
         && layers * bed.cord_thickness_mm <= bed_most_mm (search);
}

/* The neighbour that brings the gaps nearest to nothing, when it brings them nearer at all. */
static void
offer_better_neighbour (Search *search, int layers)
{
  double best = worst_gap (search->gap_min_mm, search->gap_max_mm);
  int chosen = layers;
  for (int other = layers - 1; other <= layers + 1; other += 2) {
    double least, greatest;
    BwDesign changed = with_layers (search, other);
    if (!can_wind (search, other) || !bw_design_validate (&changed, NULL, NULL))
      continue;
    bw_fit_verdict (&changed, search->stone, changed.band.rows, &least, &greatest);
    if (worst_gap (least, greatest) < best) {
      best = worst_gap (least, greatest);
      chosen = other;
    }
  }
  BwDesign better = with_layers (search, chosen);
  if (chosen != layers)
    offer (search, BW_REMEDY_LAYERS, chosen, &better);
}

static void
find_layers (Search *search)
{
  BwDesign changed = *search->design;
  if (!is_ring (search))
    return;
  drop_girth_over (search, &changed.bed);
  int layers = changed.bed.layers;
  int toward = search->verdict == BW_VERDICT_LOOSE ? 1 : -1;
  for (int k = 2; k < 2 * (LAYERS_MAX + 1); k++) {
    int other = layers + (k % 2 ? -toward : toward) * (k / 2);
    changed = with_layers (search, other);
    if (can_wind (search, other) && is_snug (search, &changed)) {
      offer (search, BW_REMEDY_LAYERS, other, &changed);
      return;
    }
  }
  offer_better_neighbour (search, layers);
}

/* As many rows as the changed design wants; FALSE when it cannot be made at all. */
static gboolean
take_recommended_rows (const Search *search, BwDesign *changed)
{
  if (!bw_design_validate (changed, NULL, NULL))
    return FALSE;
  changed->band.rows = 2 * bw_fit_recommended (changed, search->stone);
  return changed->band.rows <= BW_ROWS_MAX;
}

static double
girth_at_column (const Search *search, int c)
{
  BwSection section;
  bw_section_init (&section, search->stone, bw_column_height_mm (search->design, c));
  return section.girth_mm;
}

/* As many layers as a grade takes away from the top edge, and no fewer than there are. */
static int
layers_for_grade (const BwBed *bed, double grade_mm)
{
  return MAX (bed->layers, (int)ceil (-grade_mm / bed->cord_thickness_mm - BW_ROUNDING_WHOLE));
}

/* The grade that gives the first and the last column curves of the same length. Where the stone is
 * thin at its base it takes bed away from the top: there must be that much. */
static void
find_grade (Search *search)
{
  BwDesign changed = *search->design;
  int columns = changed.band.columns;
  double grade = (girth_at_column (search, 1) - girth_at_column (search, columns)) / (2 * G_PI)
                 * columns / (columns - 1);
  if (fabs (grade - changed.bed.top_extra_mm) < BW_ROUNDING_MM || fabs (grade) > GRADE_MOST_MM)
    return;
  drop_girth_over (search, &changed.bed);
  changed.bed.top_extra_mm = grade;
  changed.bed.layers = layers_for_grade (&changed.bed, grade);
  if (take_recommended_rows (search, &changed))
    offer (search, BW_REMEDY_GRADE, grade, &changed);
}

/* The nearest snug height in one direction, the band wholly on the prism: on the point it would
 * slide off. The same bed is wound again at the new place, where the girth that was measured over
 * it no longer holds. */
static void
find_height (Search *search, int direction)
{
  BwDesign changed = *search->design;
  double low = search->stone->base_shoulder_mm - BW_ROUNDING_MM;
  double top = search->stone->shoulder_mm - bw_design_span (&changed).width_mm + BW_ROUNDING_MM;
  drop_girth_over (search, &changed.bed);
  for (int k = 1;; k++) {
    double bottom = search->design->band.bottom_mm + direction * k * MOVE_STEP;
    if (direction > 0 ? bottom > top : bottom < low)
      return;
    changed.band.bottom_mm = bottom;
    if (bottom >= low && bottom <= top && is_snug (search, &changed)
        && offer (search, BW_REMEDY_MOVE, bottom, &changed))
      return;
  }
}

static void
find_move (Search *search)
{
  gsize before = search->found->len;
  if (!is_ring (search))
    return;
  find_height (search, 1);
  find_height (search, -1);
  if (search->found->len - before < 2)
    return;
  BwRemedy *up = &g_array_index (search->found, BwRemedy, before), *down = up + 1;
  double now = search->design->band.bottom_mm;
  if (now - down->value < up->value - now) {
    BwRemedy nearer = *down;
    *down = *up;
    *up = nearer;
  }
}

/* The design woven from another size: as wide as before, with the size's own gauge until a swatch
 * tells better. */
static BwDesign
with_bead (const Search *search, const BwBead *size)
{
  BwDesign changed = *search->design;
  double width = bw_design_span (&changed).width_mm;
  changed.bead = *size;
  changed.gauge = (BwGauge){ .column_mm = size->length_mm, .pitch_mm = size->diameter_mm };
  changed.pitch = bw_gauge_pitch (&changed.gauge, NULL, 0);
  changed.tried = (BwBelief){ 0 };
  changed.band.columns = 2 * (int)CLAMP (lround (width / (2 * size->length_mm)), 1, G_MAXINT16);
  return changed;
}

static double
size_distance (const BwBead *a, const BwBead *b)
{
  return hypot (a->diameter_mm - b->diameter_mm, a->length_mm - b->length_mm);
}

static int
compare_sizes (gconstpointer a, gconstpointer b, gpointer now)
{
  double to_a = size_distance (a, now), to_b = size_distance (b, now);
  return (to_a > to_b) - (to_a < to_b);
}

/* A copy, the size nearest to the present one first; owned. */
static GArray *
nearest_sizes (const Search *search, const BwBead *sizes, int n_sizes)
{
  GArray *near = g_array_sized_new (FALSE, FALSE, sizeof (BwBead), (guint)n_sizes);
  BwBead now = search->design->bead;
  g_array_append_vals (near, sizes, (guint)n_sizes);
  g_array_sort_with_data (near, compare_sizes, &now);
  return near;
}

static void
find_bead (Search *search, const BwBead *sizes, int n_sizes)
{
  g_autoptr (GArray) near = nearest_sizes (search, sizes, n_sizes);
  for (guint i = 0; i < near->len; i++) {
    const BwBead *size = &g_array_index (near, BwBead, i);
    BwDesign changed = with_bead (search, size);
    if (size_distance (size, &search->design->bead) >= BW_ROUNDING_MM
        && take_recommended_rows (search, &changed))
      offer (search, BW_REMEDY_BEAD, size->diameter_mm, &changed);
  }
}

/* --- More than one knob --------------------------------------------------------------------------
 */

/* With the rows that just close, or a bead more: FALSE where neither is snug. */
static gboolean
rows_make_snug (const Search *search, BwDesign *changed)
{
  if (!take_recommended_rows (search, changed))
    return FALSE;
  for (int more = 0; more <= 2; more += 2, changed->band.rows += 2)
    if (changed->band.rows <= BW_ROWS_MAX && is_snug (search, changed))
      return TRUE;
  return FALSE;
}

/* What makes both edges alike, no finer than a cord is wound; 0 where that is none. */
static double
levelling_grade (const Search *search, const BwDesign *changed)
{
  BwSection low, high;
  int columns = changed->band.columns;
  bw_section_init (&low, search->stone, bw_column_height_mm (changed, 1));
  bw_section_init (&high, search->stone, bw_column_height_mm (changed, columns));
  double grade = (low.girth_mm - high.girth_mm) / (2 * G_PI) * columns / (columns - 1);
  grade = rint (grade / GRADE_STEP_MM) * GRADE_STEP_MM;
  return fabs (grade) > GRADE_MOST_MM ? 0 : grade;
}

/* As many layers as are nearest to now_layers, with their own rows. */
static gboolean
bed_makes_snug (const Search *search, BwDesign *changed)
{
  int now = search->design->bed.layers;
  for (int k = 0; k <= 2 * JOINT_LAYERS_MOST + 1; k++) {
    int layers = now + (k % 2 ? 1 : -1) * ((k + 1) / 2);
    changed->bed.layers = layers;
    if (layers >= 0 && layers <= MAX (JOINT_LAYERS_MOST, now) && rows_make_snug (search, changed))
      return TRUE;
  }
  return FALSE;
}

/* A level bed first, then the graded one. */
static gboolean
graded_bed_makes_snug (const Search *search, BwDesign *changed)
{
  double grade = levelling_grade (search, changed);
  changed->bed.top_extra_mm = 0;
  if (bed_makes_snug (search, changed))
    return TRUE;
  changed->bed.top_extra_mm = grade;
  return fabs (grade) > 0 && bed_makes_snug (search, changed);
}

/* The design with the bed as it really lies and no measurement that a change would void. */
static BwDesign
free_to_change (const Search *search)
{
  BwDesign changed = *search->design;
  drop_girth_over (search, &changed.bed);
  return changed;
}

static void
find_bed_and_rows (Search *search)
{
  BwDesign changed = *search->design;
  if (rows_make_snug (search, &changed)) {
    offer (search, BW_REMEDY_ROWS, changed.band.rows, &changed);
    return;
  }
  changed = free_to_change (search);
  if (bed_makes_snug (search, &changed))
    offer (search, BW_REMEDY_LAYERS, changed.bed.layers, &changed);
}

static void
find_grade_and_rows (Search *search)
{
  BwDesign changed = free_to_change (search);
  double grade = levelling_grade (search, &changed);
  changed.bed.top_extra_mm = grade;
  if (fabs (grade - search->design->bed.top_extra_mm) >= BW_ROUNDING_MM
      && bed_makes_snug (search, &changed))
    offer (search, BW_REMEDY_GRADE, grade, &changed);
}

typedef gboolean (*Makes) (const Search *search, BwDesign *changed);

/* The bed alone, the rows as they are. */
static gboolean
layers_make_snug (const Search *search, BwDesign *changed)
{
  for (int layers = 0; layers <= JOINT_LAYERS_MOST; layers++) {
    changed->bed.layers = layers;
    if (is_snug (search, changed))
      return TRUE;
  }
  return FALSE;
}

/* The height nearest to `now`, up or down, where that makes the band snug; the band wholly on the
 * prism. */
static gboolean
height_makes_snug (const Search *search, BwDesign *changed, double now, Makes makes)
{
  double low = search->stone->base_shoulder_mm - BW_ROUNDING_MM;
  double top = search->stone->shoulder_mm - bw_design_span (changed).width_mm + BW_ROUNDING_MM;
  double away = MAX (top - now, now - low);
  BwDesign start = *changed;
  for (int k = 0; k * MOVE_STEP <= away; k++)
    for (int sign = -1; sign <= (k > 0 ? 1 : -1); sign += 2) {
      *changed = start;
      changed->band.bottom_mm = now + sign * k * MOVE_STEP;
      if (changed->band.bottom_mm >= low && changed->band.bottom_mm <= top
          && makes (search, changed))
        return TRUE;
    }
  return FALSE;
}

static void
find_height_and_bed (Search *search)
{
  BwDesign changed = free_to_change (search);
  double now = changed.band.bottom_mm;
  if (is_ring (search) && height_makes_snug (search, &changed, now, layers_make_snug))
    offer (search, BW_REMEDY_MOVE, changed.band.bottom_mm, &changed);
}

/* Another size with columns of its own near the width there is. */
static void
find_bead_and_columns (Search *search, const BwBead *sizes, int n_sizes)
{
  for (int i = 0; i < n_sizes; i++) {
    BwDesign changed = with_bead (search, &sizes[i]);
    int columns = changed.band.columns;
    drop_girth_over (search, &changed.bed);
    if (size_distance (&sizes[i], &search->design->bead) < BW_ROUNDING_MM)
      continue;
    for (int k = 0; k <= 2; k++) {
      changed.band.columns = MAX (columns - 2 * k, BW_COLUMNS_MIN);
      if (!graded_bed_makes_snug (search, &changed))
        continue;
      offer (search, BW_REMEDY_BEAD, sizes[i].diameter_mm, &changed);
      return;
    }
  }
}

/* Everything at once: heights for each number of columns the prism has room for, the nearest number
 * first, a narrower band before a wider one. */
static gboolean
anywhere_makes_snug (const Search *search, BwDesign *changed, int least)
{
  BwDesign start = *changed;
  double prism = search->stone->shoulder_mm - search->stone->base_shoulder_mm;
  int now = start.band.columns, most = (int)MIN (prism / start.gauge.column_mm, BW_COLUMNS_MAX);
  for (int k = 0; k <= MAX (now, most); k++) {
    *changed = start;
    changed->band.columns = now + (k % 2 ? -2 : 2) * ((k + 1) / 2);
    if (changed->band.columns >= least && changed->band.columns <= most
        && height_makes_snug (search, changed, start.band.bottom_mm, graded_bed_makes_snug))
      return TRUE;
  }
  return FALSE;
}

/* On the half millimetres, where the joint search looks for ways. */
static double
whole_step (double height_mm)
{
  return rint (height_mm / MOVE_STEP) * MOVE_STEP;
}

/* Steps from where the band lies, and on the whole ones, so that no way is missed. */
static void
find_anywhere (Search *search)
{
  BwDesign changed = free_to_change (search), whole = changed;
  whole.band.bottom_mm = whole_step (whole.band.bottom_mm);
  if (anywhere_makes_snug (search, &changed, BW_COLUMNS_MIN))
    offer (search, BW_REMEDY_MOVE, changed.band.bottom_mm, &changed);
  else if (anywhere_makes_snug (search, &whole, BW_COLUMNS_MIN))
    offer (search, BW_REMEDY_MOVE, whole.band.bottom_mm, &whole);
}

/* Another size where nothing else is left; the nearest one that can. */
static void
find_bead_anywhere (Search *search, const BwBead *sizes, int n_sizes)
{
  g_autoptr (GArray) near = nearest_sizes (search, sizes, n_sizes);
  for (guint i = 0; i < near->len; i++) {
    const BwBead *size = &g_array_index (near, BwBead, i);
    BwDesign changed = with_bead (search, size);
    drop_girth_over (search, &changed.bed);
    changed.band.bottom_mm = whole_step (changed.band.bottom_mm);
    int least = (int)ceil (WIDTH_LEAST_MM / size->length_mm);
    if (size_distance (size, &search->design->bead) < BW_ROUNDING_MM
        || !anywhere_makes_snug (search, &changed, least))
      continue;
    offer (search, BW_REMEDY_BEAD, size->diameter_mm, &changed);
    return;
  }
}

/* A cure that changes nothing the maker would have to buy beads for. */
static gboolean
is_cured (const Search *search)
{
  gboolean cured = search->verdict == BW_VERDICT_SNUG;
  for (guint i = 0; i < search->found->len && !cured; i++) {
    const BwRemedy *remedy = &g_array_index (search->found, BwRemedy, i);
    cured = remedy->verdict == BW_VERDICT_SNUG && remedy->kind != BW_REMEDY_BEAD;
  }
  return cured;
}

static void
find_joint (Search *search, const BwBead *sizes, int n_sizes)
{
  if (is_cured (search))
    return;
  guint single = search->found->len;
  search->joint = TRUE;
  find_bed_and_rows (search);
  find_grade_and_rows (search);
  find_height_and_bed (search);
  if (search->found->len > single)
    return;
  find_anywhere (search);
  find_bead_and_columns (search, sizes, n_sizes);
  if (search->found->len == single)
    find_bead_anywhere (search, sizes, n_sizes);
}

GArray *
bw_remedies (const BwDesign *design, const BwStone *stone, const BwBead *sizes, int n_sizes)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (BwRemedy));
  Search search = { .design = design, .stone = stone, .found = found };
  g_return_val_if_fail (bw_laid_init (&search.laid, design, stone), found);
  search.verdict
      = bw_fit_verdict (design, stone, design->band.rows, &search.gap_min_mm, &search.gap_max_mm);
  find_rows (&search);
  find_bed (&search);
  find_layers (&search);
  find_grade (&search);
  find_move (&search);
  find_bead (&search, sizes, n_sizes);
  find_joint (&search, sizes, n_sizes);
  return found;
}
