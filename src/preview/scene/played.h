/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece that is still being woven: what of it is there once scene->played visits of the thread's
 * path are made. Beads lie where they will lie in the finished piece. */
#pragma once

#include "preview/scene/scene.h"

/* Shows the piece after so many visits; −1: finished. */
void bw_scene_play (BwScene *scene, int visits);

/* Whether the bead of that index is on the thread already: scene->born is the visit of the thread's
 * path, from 0, that picks it up; G_MAXINT32: none does. */
static inline gboolean
bw_played_has (const BwScene *scene, int bead)
{
  return scene->played < 0 || scene->born[bead] < scene->played;
}

/* Of these layers, those that may be drawn: what the piece hangs by comes when it is finished. */
guint bw_played_layers (const BwScene *scene, guint layers);

/* The same for stone and bed, which darken under a band: only one that is all round them does. */
guint bw_played_layers_around (const BwScene *scene, guint layers);

/* How many visits the thread has run so far, and links between them; of a finished piece all. */
int bw_played_holes (const BwScene *scene);
int bw_played_links (const BwScene *scene);

/* The needle, from the bead it has just left on. FALSE while there is none: before the first bead,
 * and once the last end is woven in. */
gboolean bw_played_needle (const BwScene *scene, BwSceneLine *needle);
