/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/scene/played.h"

/* A beading needle is some 50 mm long (common practice, no source); drawn so it would cover the
 * piece, and this is enough of it to tell where it points. */
#define NEEDLE_BEADS 6.0f

guint
bw_played_layers (const BwScene *scene, guint layers)
{
  return scene->played < 0 ? layers : layers & ~(guint)(BW_LAYER_CORD | BW_LAYER_BALANCE);
}

guint
bw_played_layers_around (const BwScene *scene, guint layers)
{
  const BwSceneBead *bead = (const BwSceneBead *)(const void *)scene->beads->data;
  int end = scene->n_band, last_row = end - scene->band_columns / 2;
  gboolean round = TRUE;
  for (int i = MAX (last_row, 0); i < end; i++)
    round = round && bw_played_has (scene, &bead[i]);
  layers = bw_played_layers (scene, layers);
  return round ? layers : layers & ~(guint)BW_LAYER_BAND;
}

int
bw_played_holes (const BwScene *scene)
{
  int all = (int)scene->thread_holes->len;
  return scene->played < 0 ? all : MIN (scene->played, all);
}

int
bw_played_links (const BwScene *scene)
{
  int holes = bw_played_holes (scene), links = MAX (holes - 1, 0);
  for (guint i = 0; i < scene->thread_gaps->len; i++)
    links -= (int)g_array_index (scene->thread_gaps, guint, i) < holes;
  return links;
}

gboolean
bw_played_needle (const BwScene *scene, BwSceneLine *needle)
{
  int holes = bw_played_holes (scene);
  if (scene->played < 1 || holes == (int)scene->thread_holes->len)
    return FALSE;
  const BwSceneLine *hole = &g_array_index (scene->thread_holes, BwSceneLine, holes - 1);
  float longer = NEEDLE_BEADS * scene->bead_radius / MAX (scene->bead_half_length, 1e-3f);
  needle->strength = 1;
  for (int i = 0; i < 3; i++) {
    needle->from[i] = hole->to[i];
    needle->to[i] = hole->to[i] + longer * (hole->to[i] - hole->from[i]);
  }
  return TRUE;
}
