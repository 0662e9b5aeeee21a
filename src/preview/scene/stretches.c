/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/scene/stretches.h"

#include "preview/scene/hidden.h"
#include <string.h>

#define SIDES 4 /* of the picture */
#define BELTS_MOST 4096

/* Belts as high as a stretch of beads is wide, and parts of each that hold one. */
typedef struct {
  float low, height;
  int belts, parts;
} Grid;

static const float *
at_of (const BwScene *scene, const gint32 *order, int i)
{
  return g_array_index (scene->beads, BwSceneBead, order[i]).at;
}

static Grid
grid_of (const BwScene *scene, const gint32 *order, int n)
{
  float low = INFINITY, high = -INFINITY;
  for (int i = 0; i < n; i++) {
    low = MIN (low, at_of (scene, order, i)[2]);
    high = MAX (high, at_of (scene, order, i)[2]);
  }
  float height = MAX (high - low, 1e-3f), round = 2 * (float)G_PI * MAX (scene->breadth, 1e-3f);
  float side = sqrtf (height * round * BW_STRETCH_BEADS / (float)MAX (n, 1));
  return (Grid){ low, height, CLAMP ((int)(height / side), 1, BELTS_MOST),
                 CLAMP ((int)(round / side), 1, BELTS_MOST) };
}

static int
cell_of (const Grid *grid, const float at[3])
{
  int belt = (int)((at[2] - grid->low) / grid->height * (float)grid->belts);
  int part = (int)((0.5f + atan2f (at[1], at[0]) / (2 * (float)G_PI)) * (float)grid->parts);
  return CLAMP (belt, 0, grid->belts - 1) * grid->parts + CLAMP (part, 0, grid->parts - 1);
}

/* A counting sort over the cells of the grid. */
void
bw_stretches_sort (const BwScene *scene, gint32 *order, int n)
{
  Grid grid = grid_of (scene, order, n);
  int cells = grid.belts * grid.parts;
  g_autofree int *cell = g_new (int, MAX (n, 1));
  g_autofree int *start = g_new0 (int, cells + 1);
  g_autofree gint32 *sorted = g_new (gint32, MAX (n, 1));
  for (int i = 0; i < n; i++) {
    cell[i] = cell_of (&grid, at_of (scene, order, i));
    start[cell[i] + 1]++;
  }
  for (int k = 0; k < cells; k++)
    start[k + 1] += start[k];
  for (int i = 0; i < n; i++)
    sorted[start[cell[i]]++] = order[i];
  memcpy (order, sorted, (gsize)n * sizeof *order);
}

static BwStretch
stretch_of (const BwScene *scene, const gint32 *order, int first, int n)
{
  vec3 low = { INFINITY, INFINITY, INFINITY }, high = { -INFINITY, -INFINITY, -INFINITY };
  BwStretch stretch;
  float far = 0;
  for (int i = first; i < first + n; i++) {
    float *at = (float *)at_of (scene, order, i);
    glm_vec3_minv (low, at, low);
    glm_vec3_maxv (high, at, high);
  }
  for (int k = 0; k < 3; k++)
    stretch.at[k] = (low[k] + high[k]) / 2;
  for (int i = first; i < first + n; i++)
    far = MAX (far, glm_vec3_distance (stretch.at, (float *)at_of (scene, order, i)));
  stretch.reach = far + hypotf (scene->bead_radius, scene->bead_half_length);
  return stretch;
}

GArray *
bw_stretches_new (const BwScene *scene, const gint32 *order, int n)
{
  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (BwStretch));
  for (int first = 0; first < n; first += BW_STRETCH_BEADS) {
    BwStretch stretch = stretch_of (scene, order, first, MIN (BW_STRETCH_BEADS, n - first));
    g_array_append_val (stretches, stretch);
  }
  return stretches;
}

static gboolean
is_outside (const BwStretch *stretch, vec4 side[])
{
  for (int i = 0; i < SIDES; i++)
    if (glm_vec3_dot (side[i], (float *)stretch->at) + side[i][3] < -stretch->reach)
      return TRUE;
  return FALSE;
}

static void
add_to_runs (GArray *runs, int first, int n)
{
  BwStretchRun run = { first, n };
  BwStretchRun *last = runs->len ? &g_array_index (runs, BwStretchRun, runs->len - 1) : NULL;
  if (last && last->first + last->n == first)
    last->n += n;
  else
    g_array_append_val (runs, run);
}

void
bw_stretches_seen (const GArray *stretches, int n, const BwScene *scene, const BwEye *eye,
                   gboolean stone_shown, GArray *runs)
{
  mat4 whole;
  vec4 side[6]; /* the picture's four, then near and far */
  glm_mat4_mul ((vec4 *)eye->projection, (vec4 *)eye->view, whole);
  glm_frustum_planes (whole, side);
  for (guint i = 0; i < stretches->len; i++) {
    const BwStretch *stretch = &g_array_index (stretches, BwStretch, i);
    int first = (int)i * BW_STRETCH_BEADS;
    if (is_outside (stretch, side)
        || (stone_shown && bw_hidden_by_stone (scene, eye->eye, stretch->at, stretch->reach)))
      continue;
    add_to_runs (runs, first, MIN (BW_STRETCH_BEADS, n - first));
  }
}
