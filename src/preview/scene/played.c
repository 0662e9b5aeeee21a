/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/scene/played.h"

#include "preview/scene/scene-thread.h"

/* A beading needle is some 50 mm long (common practice, no source); drawn so it would cover the
 * piece, and this is enough of it to tell where it points. */
#define NEEDLE_BEADS 6.0f

/* A bead that is passed again keeps the visit it was picked up on. */
static void
tell_births (BwScene *scene)
{
  scene->born = g_new (gint32, MAX (scene->beads->len, 1));
  for (guint i = 0; i < scene->beads->len; i++)
    scene->born[i] = G_MAXINT32;
  for (int i = 0; i < scene->n_visits; i++) {
    const BwVisit *visit = &g_array_index (scene->visits, BwVisit, i);
    int bead = bw_scene_bead_index (scene, visit->in_bail, (int)visit->row, (int)visit->column);
    if (visit->is_new && bead >= 0)
      scene->born[bead] = i;
  }
}

void
bw_scene_play (BwScene *scene, int visits)
{
  scene->played = visits;
  if (visits >= 0 && !scene->born)
    tell_births (scene);
}

guint
bw_played_layers (const BwScene *scene, guint layers)
{
  return scene->played < 0 ? layers : layers & ~(guint)(BW_LAYER_CORD | BW_LAYER_BALANCE);
}

guint
bw_played_layers_around (const BwScene *scene, guint layers)
{
  int end = scene->n_band, last_row = end - scene->band_columns / 2;
  gboolean round = TRUE;
  for (int i = MAX (last_row, 0); i < end; i++)
    round = round && bw_played_has (scene, i);
  layers = bw_played_layers (scene, layers);
  return round ? layers : layers & ~(guint)BW_LAYER_BAND;
}

int
bw_played_holes (const BwScene *scene)
{
  return scene->played < 0 ? scene->n_visits : MIN (scene->played, scene->n_visits);
}

int
bw_played_links (const BwScene *scene)
{
  return bw_scene_thread_links (scene, bw_played_holes (scene));
}

gboolean
bw_played_needle (const BwScene *scene, BwSceneLine *needle)
{
  int holes = bw_played_holes (scene);
  if (scene->played < 1 || holes == scene->n_visits)
    return FALSE;
  BwSceneLine hole = bw_scene_thread_hole (scene, holes - 1);
  float longer = NEEDLE_BEADS * scene->bead_radius / MAX (scene->bead_half_length, 1e-3f);
  needle->strength = 1;
  for (int i = 0; i < 3; i++) {
    needle->from[i] = hole.to[i];
    needle->to[i] = hole.to[i] + longer * (hole.to[i] - hole.from[i]);
  }
  return TRUE;
}
