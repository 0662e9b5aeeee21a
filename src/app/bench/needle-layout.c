/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A raised bead and the picked-up one beside it stand half a bead apart, as they do in the weave; a
 * pass that meets no raised bead, as the first pick-up, lies straight. */
#include "config.h"

#include "app/bench/needle-layout.h"

#include "core/path/path-pass.h"

#include <math.h>

#define ENTRY 0.9  /* thread before the first bead, in diameters */
#define NEEDLE 2.6 /* needle and thread after the last one */
#define DROP 0.5   /* by how much a raised bead lies lower */
#define LINES_MOST 40

static const BwDrawing *
drawing_of (BwProject *project, gboolean in_bail)
{
  return in_bail ? bw_project_get_bail_drawing (project) : bw_project_get_drawing (project);
}

GArray *
bw_needle_beads (BwProject *project, gboolean in_bail, int row, gboolean *upward)
{
  const BwPath *path = bw_project_path (project);
  GArray *beads = g_array_new (FALSE, FALSE, sizeof (BwNeedleBead));
  BwPass pass;
  *upward = TRUE;
  if (!bw_path_row_pass (path, in_bail, row, &pass))
    return beads;
  for (guint i = pass.first; i < pass.first + pass.n; i++) {
    const BwVisit *visit = &g_array_index (path->visits, BwVisit, i);
    BwNeedleBead bead = { .is_new = visit->is_new, .row = visit->row, .column = visit->column };
    bead.colour
        = (guint8)bw_drawing_get (drawing_of (project, visit->in_bail), visit->row, visit->column);
    g_array_append_val (beads, bead);
    *upward = visit->direction;
  }
  return beads;
}

static const BwNeedleBead *
bead_at (const GArray *beads, guint i)
{
  return &g_array_index (beads, BwNeedleBead, i);
}

static gboolean
passes_any (const GArray *beads)
{
  for (guint i = 0; i < beads->len; i++)
    if (!bead_at (beads, i)->is_new)
      return TRUE;
  return FALSE;
}

/* Beads of a line: an even number, so that none is parted from the raised one it goes with. */
static int
beads_a_line (int n, int lines)
{
  int each = (n + lines - 1) / lines;
  return lines > 1 ? each + each % 2 : each;
}

/* The diameter with which so many lines fill the width. */
static double
diameter_for (int n, int lines, double width, double flat)
{
  double aside = ENTRY + NEEDLE;
  return width / (beads_a_line (n, lines) * flat + aside);
}

static void
choose_size (BwNeedleLayout *layout, int n, double flat, double least_px, double most_px)
{
  layout->lines = 1;
  while (layout->lines < LINES_MOST
         && diameter_for (n, layout->lines, layout->width, flat) < least_px)
    layout->lines++;
  layout->bead_height = MIN (diameter_for (n, layout->lines, layout->width, flat), most_px);
  layout->bead_width = layout->bead_height * flat;
}

/* x of the k-th place of a line, counted from where the thread comes in. */
static double
along (const BwNeedleLayout *layout, double k)
{
  double x = ENTRY * layout->bead_height + k * layout->bead_width;
  return layout->upward ? x : layout->width - x;
}

static void
add_places (BwNeedleLayout *layout, const GArray *beads, gboolean drops)
{
  int each = beads_a_line ((int)beads->len, layout->lines);
  for (guint i = 0; i < beads->len; i++) {
    double drop = drops && !bead_at (beads, i)->is_new ? DROP : 0;
    BwNeedlePlace place = { .line = (int)i / each, .x = along (layout, (int)i % each + 0.5) };
    place.y = (0.5 + drop) * layout->bead_height;
    g_array_append_val (layout->places, place);
  }
}

static void
add_to_runs (BwNeedleLayout *layout, const GArray *beads, guint i)
{
  const BwNeedlePlace *place = &g_array_index (layout->places, BwNeedlePlace, i);
  double half = layout->bead_width / 2;
  guint n = layout->runs->len;
  BwNeedleRun *last = n > 0 ? &g_array_index (layout->runs, BwNeedleRun, n - 1) : NULL;
  if (last && last->line == place->line
      && bead_at (beads, (guint)last->first)->colour == bead_at (beads, i)->colour) {
    last->n++;
    last->left = MIN (last->left, place->x - half);
    last->right = MAX (last->right, place->x + half);
    return;
  }
  BwNeedleRun run = { (int)i, 1, place->line, place->x - half, place->x + half };
  g_array_append_val (layout->runs, run);
}

void
bw_needle_layout_init (BwNeedleLayout *layout, const GArray *beads, gboolean upward, double width,
                       double flat, double least_px, double most_px)
{
  gboolean drops = passes_any (beads);
  *layout = (BwNeedleLayout){ .upward = upward, .width = width };
  layout->places = g_array_new (FALSE, FALSE, sizeof (BwNeedlePlace));
  layout->runs = g_array_new (FALSE, FALSE, sizeof (BwNeedleRun));
  if (beads->len == 0)
    return;
  choose_size (layout, (int)beads->len, flat, least_px, most_px);
  layout->line_height = (drops ? 1 + DROP : 1) * layout->bead_height;
  add_places (layout, beads, drops);
  for (guint i = 0; i < beads->len; i++)
    if (bead_at (beads, i)->is_new)
      add_to_runs (layout, beads, i);
  double last = g_array_index (layout->places, BwNeedlePlace, beads->len - 1).x;
  double beyond = layout->bead_width / 2 + (NEEDLE - 0.2) * layout->bead_height;
  layout->enters = upward ? 0 : width;
  layout->leaves = upward ? last + beyond : last - beyond;
}

void
bw_needle_layout_clear (BwNeedleLayout *layout)
{
  g_clear_pointer (&layout->places, g_array_unref);
  g_clear_pointer (&layout->runs, g_array_unref);
}

/* How far the names of a tier reach on a line so far. */
typedef struct {
  int line;
  double to;
} Reach;

/* Runs come from left to right or from right to left; names are put in the order of x. */
static guint
nth_from_left (const BwNeedleLayout *layout, guint k)
{
  if (layout->upward)
    return k;
  const BwNeedleRun *runs = (const BwNeedleRun *)layout->runs->data;
  guint first = k, end = k; /* the runs of k's line */
  while (first > 0 && runs[first - 1].line == runs[k].line)
    first--;
  while (end + 1 < layout->runs->len && runs[end + 1].line == runs[k].line)
    end++;
  return first + end - k;
}

static int
first_free (const Reach *reach, int most, int line, double left)
{
  int tier = 0;
  while (tier < most && reach[tier].line == line && reach[tier].to > left)
    tier++;
  return tier;
}

int
bw_needle_layout_names (const BwNeedleLayout *layout, const double *widths, double gap, int most,
                        double *middles, int *tiers)
{
  g_autofree Reach *reach = g_new (Reach, most);
  int used = 0;
  for (int i = 0; i < most; i++)
    reach[i] = (Reach){ -1, 0 };
  for (guint k = 0; k < layout->runs->len; k++) {
    guint i = nth_from_left (layout, k);
    const BwNeedleRun *run = &g_array_index (layout->runs, BwNeedleRun, i);
    double half = widths[i] / 2, middle = (run->left + run->right) / 2;
    middles[i] = CLAMP (middle, half, MAX (layout->width - half, half));
    tiers[i] = first_free (reach, most, run->line, middles[i] - half - gap);
    if (tiers[i] == most)
      return 0;
    reach[tiers[i]] = (Reach){ run->line, middles[i] + half };
    used = MAX (used, tiers[i] + 1);
  }
  return used;
}
