/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line of sight to the middle passes through the stone made thinner by the bead's own size, so
 * every point of the bead lies in the stone's shadow. */
#include "preview/scene/hidden.h"

static float
beyond (const BwScenePlane *plane, const float p[3])
{
  const float *n = plane->normal;
  return n[0] * p[0] + n[1] * p[1] + n[2] * p[2] - plane->distance;
}

gboolean
bw_hidden_by_stone (const BwScene *scene, const float eye[3], const float at[3], float reach)
{
  float enter = 0, leave = 1;
  for (guint i = 0; i < scene->stone_planes->len; i++) {
    const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, i);
    float from = beyond (plane, eye) + reach, to = beyond (plane, at) + reach;
    if (from > 0 && to > 0)
      return FALSE;
    if (from > 0)
      enter = MAX (enter, from / (from - to));
    else if (to > 0)
      leave = MIN (leave, from / (from - to));
  }
  return enter < leave && scene->stone_planes->len > 0;
}
