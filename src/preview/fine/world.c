/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the piece before the rays; how light goes on from there stands in look.c. */
#include "preview/fine/world.h"

#include "preview/fine/world-shapes.h"
#include "preview/scene/played.h"
#include "preview/scene/scene-bead.h"
#include "preview/scene/scene-thread.h"

static void
add_stone (BwWorld *world)
{
  const GArray *stone = world->scene->stone;
  g_autofree float (*corner)[3] = g_malloc_n (MAX (stone->len, 1), sizeof *corner);
  g_autofree guint32 (*triangle)[3] = g_malloc_n (MAX (stone->len / 3, 1), sizeof *triangle);
  for (guint i = 0; i < stone->len; i++) {
    memcpy (corner[i], g_array_index (stone, BwSceneVertex, i).at, sizeof *corner);
    triangle[i / 3][i % 3] = i;
  }
  bw_rays_add_mesh (world->rays, BW_SHAPE_STONE, (const float (*)[3])corner, stone->len,
                    (const guint32 (*)[3])triangle, stone->len / 3);
}

static void
add_beads (BwWorld *world, guint layers)
{
  for (guint i = 0; i < world->scene->beads->len; i++) {
    const BwSceneBead *bead = &g_array_index (world->scene->beads, BwSceneBead, i);
    const float *at = bead->at;
    float x[3], z[3];
    bw_bead_out (bead, x);
    bw_bead_axis (bead, z);
    if (!bw_played_has (world->scene, (int)i)
        || !(layers & ((int)i >= world->scene->n_band ? BW_LAYER_BAIL : BW_LAYER_BAND)))
      continue;
    const float placed[12] = { x[0],
                               x[1],
                               x[2],
                               z[1] * x[2] - z[2] * x[1],
                               z[2] * x[0] - z[0] * x[2],
                               z[0] * x[1] - z[1] * x[0],
                               z[0],
                               z[1],
                               z[2],
                               at[0],
                               at[1],
                               at[2] };
    bw_rays_add_copy (world->rays, BW_SHAPE_BEADS + i, world->bead.body, placed);
  }
}

static void
add_thread (BwWorld *world)
{
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
  bw_scene_thread_lines (world->scene, bw_played_holes (world->scene), lines, lines);
  guint n = lines->len;
  g_autofree float (*end)[4] = g_malloc_n (MAX (2 * n, 1), sizeof *end);
  float (*at)[4] = end;
  for (guint i = 0; i < n; i++, at += 2) {
    const BwSceneLine *line = &g_array_index (lines, BwSceneLine, i);
    memcpy (at[0], line->from, sizeof line->from);
    memcpy (at[1], line->to, sizeof line->to);
    at[0][3] = at[1][3] = world->scene->thread_radius;
  }
  if (n)
    bw_rays_add_rods (world->rays, BW_SHAPE_THREAD, (const float (*)[4])end, n);
}

static void
add_shapes (BwWorld *world, guint layers)
{
  bw_skin_init_bed (&world->bed, world->scene);
  bw_skin_init_tube (&world->cord, &world->scene->cord, TRUE);
  bw_skin_init_tube (&world->ring, &world->scene->ring, FALSE);
  if (layers & BW_LAYER_STONE)
    add_stone (world);
  if (layers & BW_LAYER_BED)
    bw_skin_add (&world->bed, world->rays, BW_SHAPE_BED);
  if (layers & BW_LAYER_CORD) {
    bw_skin_add (&world->cord, world->rays, BW_SHAPE_CORD);
    bw_skin_add (&world->ring, world->rays, BW_SHAPE_RING);
  }
  add_beads (world, layers);
  if ((layers & (BW_LAYER_BAND | BW_LAYER_BAIL)) == (BW_LAYER_BAND | BW_LAYER_BAIL))
    add_thread (world);
}

static void
make_pure (BwWorld *world)
{
  bw_studio_init_white (&world->studio);
  world->crystal.groove = 0;
  for (int i = 0; i < 3; i++) {
    world->crystal.takes[i] = 0;
    world->crystal.cord[i] = world->crystal.needles[i] = 1;
  }
}

BwWorld *
bw_world_new (const BwScene *scene, const BwEye *eye, const BwStill *still, gboolean pure,
              GError **error)
{
  g_autoptr (BwWorld) world = g_new0 (BwWorld, 1);
  world->scene = scene;
  world->pure = pure;
  if (!bw_bead_shape_init (&world->bead, scene, error) || !(world->rays = bw_rays_new (error)))
    return NULL;
  bw_studio_init (&world->studio, scene, eye, still);
  bw_crystal_init (&world->crystal, scene, (still->layers & BW_LAYER_BED) && scene->bed->len);
  if (pure)
    make_pure (world);
  for (int k = 0; k < 3; k++)
    world->thread[k] = pure ? 1 : (double)scene->thread_colour[k];
  add_shapes (world, bw_played_layers (scene, still->layers));
  if (!bw_rays_close (world->rays, error))
    return NULL;
  return g_steal_pointer (&world);
}

void
bw_world_free (BwWorld *world)
{
  if (!world)
    return;
  g_clear_pointer (&world->rays, bw_rays_free);
  bw_bead_shape_clear (&world->bead);
  bw_skin_clear (&world->bed);
  bw_skin_clear (&world->cord);
  bw_skin_clear (&world->ring);
  g_free (world);
}
