/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Proposing a tray: the beads as a cloud of points in CIELAB, and the few colours that lie nearest
 * to them all. */
#include "core/pattern/mapping.h"

#include <math.h>
#include <stdlib.h>

#define ROUNDS_MOST 40
#define SETTLED_SHARE 500 /* done when not one point in so many moves any more */
#define SPREAD_LEAST 1e-3 /* a group this tight is one colour */

typedef struct {
  double at[3]; /* L, a, b */
  int group;
} Point;

typedef struct {
  double mean[3], spread[3]; /* spread: sum of squares about the mean, by axis */
  guint n;
} Group;

static GArray *
covered_points (const BwFootprints *footprints)
{
  gsize beads = (gsize)footprints->grid.rows * (gsize)footprints->grid.columns / 2;
  GArray *points = g_array_new (FALSE, FALSE, sizeof (Point));
  for (gsize i = 0; i < beads; i++) {
    if (footprints->share[i] < (float)BW_FOOTPRINT_LEAST)
      continue;
    BwLab lab = bw_colour_lab_from_linear (footprints->mean[i]);
    Point point = { { lab.L, lab.a, lab.b }, 0 };
    g_array_append_val (points, point);
  }
  return points;
}

static void
measure (const GArray *points, Group *groups, int n)
{
  for (int i = 0; i < n; i++)
    groups[i] = (Group){ 0 };
  for (guint p = 0; p < points->len; p++) {
    const Point *point = &g_array_index (points, Point, p);
    Group *group = &groups[point->group];
    group->n++;
    /* Running mean and sum of squares: no cancellation however tight the group. */
    for (int axis = 0; axis < 3; axis++) {
      double way = point->at[axis] - group->mean[axis];
      group->mean[axis] += way / group->n;
      group->spread[axis] += way * (point->at[axis] - group->mean[axis]);
    }
  }
}

static int
widest_axis (const Group *group)
{
  int axis = group->spread[1] > group->spread[0] ? 1 : 0;
  return group->spread[2] > group->spread[axis] ? 2 : axis;
}

static double
spread_of (const Group *group)
{
  return group->spread[0] + group->spread[1] + group->spread[2];
}

/* Halves the most spread group at its mean along its widest axis; FALSE when none is worth it. */
static gboolean
split (GArray *points, const Group *groups, int n)
{
  int most = 0;
  for (int i = 1; i < n; i++)
    if (spread_of (&groups[i]) > spread_of (&groups[most]))
      most = i;
  if (spread_of (&groups[most]) <= SPREAD_LEAST * groups[most].n)
    return FALSE;
  int axis = widest_axis (&groups[most]);
  for (guint p = 0; p < points->len; p++) {
    Point *point = &g_array_index (points, Point, p);
    if (point->group == most && point->at[axis] > groups[most].mean[axis])
      point->group = n;
  }
  return TRUE;
}

static double
square_distance (const double a[3], const double b[3])
{
  double l = a[0] - b[0], x = a[1] - b[1], y = a[2] - b[2];
  return l * l + x * x + y * y;
}

/* Every point to its nearest mean; how many have moved. A group left empty stays so. */
static guint
reassign (GArray *points, const Group *groups, int n)
{
  guint moved = 0;
  for (guint p = 0; p < points->len; p++) {
    Point *point = &g_array_index (points, Point, p);
    int best = point->group;
    for (int i = 0; i < n; i++)
      if (groups[i].n > 0
          && square_distance (point->at, groups[i].mean)
                 < square_distance (point->at, groups[best].mean))
        best = i;
    moved += best != point->group;
    point->group = best;
  }
  return moved;
}

static int
most_beads_first (gconstpointer a, gconstpointer b)
{
  const Group *first = a, *second = b;
  if (first->n != second->n)
    return first->n < second->n ? 1 : -1;
  return first->mean[0] < second->mean[0] ? -1 : first->mean[0] > second->mean[0];
}

static int
collect (Group *groups, int n, guint32 *srgb)
{
  int found = 0;
  qsort (groups, (gsize)n, sizeof *groups, most_beads_first);
  for (int i = 0; i < n && groups[i].n > 0; i++) {
    const double *lab = groups[i].mean;
    guint32 colour = bw_colour_srgb (bw_colour_linear_from_lab ((BwLab){ lab[0], lab[1], lab[2] }));
    gboolean known = FALSE;
    for (int j = 0; j < found; j++)
      known = known || srgb[j] == colour;
    if (!known)
      srgb[found++] = colour;
  }
  return found;
}

int
bw_mapping_propose (const BwFootprints *footprints, int k, guint32 *srgb)
{
  g_autoptr (GArray) points = covered_points (footprints);
  g_autofree Group *groups = g_new0 (Group, (gsize)k);
  int n = 1;
  if (points->len == 0)
    return 0;
  measure (points, groups, n);
  while (n < k && split (points, groups, n))
    measure (points, groups, ++n);
  for (int round = 0; round < ROUNDS_MOST; round++) {
    guint moved = reassign (points, groups, n);
    measure (points, groups, n);
    if (moved <= points->len / SETTLED_SHARE)
      break;
  }
  return collect (groups, n, srgb);
}
