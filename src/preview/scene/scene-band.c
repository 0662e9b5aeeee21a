/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band's beads at their places, and the thread through them. */
#include "preview/scene/scene-parts.h"

#include "core/base/lattice.h"
#include <string.h>

int
bw_scene_bead_index (const BwScene *scene, gboolean in_bail, int row, int column)
{
  int columns = in_bail ? scene->bail_columns : scene->band_columns;
  int n = in_bail ? (int)scene->beads->len - scene->n_band : scene->n_band;
  if (row < 1 || column < 1 || column > columns || !bw_lattice_has (row, column)
      || row > n / (columns / 2))
    return -1;
  return (in_bail ? scene->n_band : 0) + (row - 1) * (columns / 2) + bw_lattice_index (column);
}

void
bw_scene_add_band (BwScene *scene, const BwPlaces *places, const BwDesign *design)
{
  int per_row = places->columns / 2;
  scene->n_band = places->rows * per_row;
  for (int row = 1; row <= places->rows; row++)
    for (int j = 0; j < per_row; j++) {
      const BwPlace *place = &places->place[(row - 1) * per_row + j];
      BwSceneBead bead = { .at = { (float)place->at.x, (float)place->at.y, (float)place->at.z },
                           .axis = { 0, 0, 1 },
                           .out = { (float)place->normal.x, (float)place->normal.y, 0 },
                           .row = row,
                           .column = bw_lattice_column (row, j),
                           .born = G_MAXINT32 };
      g_array_append_val (scene->beads, bead);
    }
}

/* A point of a bead: so far along its hole from its middle, so far outward. */
static void
beside (float to[3], const BwSceneBead *bead, float along, float out)
{
  for (int i = 0; i < 3; i++)
    to[i] = bead->at[i] + bead->axis[i] * along + bead->out[i] * out;
}

/* The visit that a bead was picked up on; one that is passed again keeps it. */
static void
bear (BwSceneBead *bead, const BwVisit *visit, guint at)
{
  if (visit->is_new)
    bead->born = (gint32)at;
}

static float
length (const BwSceneLine *line)
{
  const float *a = line->from, *b = line->to;
  return hypotf (hypotf (a[0] - b[0], a[1] - b[1]), a[2] - b[2]);
}

/* The thread as it lies: through the hole, over to the next bead. Every further pass through a hole
 * lies a little farther out, so that passes can be told apart. A way longer than `longest` is where
 * one length of thread ends and another begins, and is not drawn. */
void
bw_scene_add_thread (BwScene *scene, const BwPath *path, const BwDesign *design)
{
  g_autofree guint16 *passes = g_new0 (guint16, MAX (scene->beads->len, 1));
  float longest = (float)(4 * design->gauge.pitch_mm);
  float room = MAX (scene->hole_radius - scene->thread_radius, 0);
  BwSceneLine link = { .strength = 1 };
  scene->n_band_holes = scene->n_band_links = -1;
  for (guint i = 0; i < path->visits->len; i++) {
    const BwVisit *visit = &g_array_index (path->visits, BwVisit, i);
    int index = bw_scene_bead_index (scene, visit->in_bail, visit->row, visit->column);
    g_return_if_fail (index >= 0);
    BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, index);
    float half = visit->direction ? scene->bead_half_length : -scene->bead_half_length;
    float out = MIN ((float)passes[index] * 2 * scene->thread_radius, room);
    BwSceneLine hole = { .strength = 1 };
    if (visit->in_bail && scene->n_band_holes < 0) {
      scene->n_band_holes = (int)i;
      scene->n_band_links = (int)scene->thread_links->len;
    }
    passes[index]++;
    bear (bead, visit, i);
    beside (hole.from, bead, -half, out);
    beside (hole.to, bead, half, out);
    g_array_append_val (scene->thread_holes, hole);
    memcpy (link.to, hole.from, sizeof link.to);
    if (i > 0 && length (&link) < longest)
      g_array_append_val (scene->thread_links, link);
    else if (i > 0)
      g_array_append_val (scene->thread_gaps, i);
    memcpy (link.from, hole.to, sizeof link.from);
  }
}

void
bw_scene_leave_bail_thread (BwScene *scene)
{
  guint n_gaps = scene->thread_gaps->len;
  if (scene->n_band_holes < 0)
    return;
  g_array_set_size (scene->thread_holes, (guint)scene->n_band_holes);
  g_array_set_size (scene->thread_links, (guint)scene->n_band_links);
  while (n_gaps > 0
         && g_array_index (scene->thread_gaps, guint, n_gaps - 1) >= (guint)scene->n_band_holes)
    n_gaps--;
  g_array_set_size (scene->thread_gaps, n_gaps);
}
