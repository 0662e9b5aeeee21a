/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The points of view are the window's own, so that both show the same piece. */
#include "config.h"

#include "preview/picture/portrait.h"

#include "preview/picture/offscreen.h"
#include "preview/scene/seen-from.h"

cairo_surface_t *
bw_portrait_new (BwProject *project, BwPortrait which, int side, GError **error)
{
  static const BwSeenFrom from[BW_N_PORTRAITS] = { BW_SEEN_FROM_FRONT, BW_SEEN_FROM_JOIN };
  guint layers = BW_LAYER_ALL & ~(guint)BW_LAYER_THREAD;
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  gboolean hangs = which == BW_PORTRAIT_HANGING && scene->rest.hangs;
  if (hangs)
    bw_scene_stand_at_rest (scene);
  BwCamera camera = bw_seen_from (from[which], project, hangs, (BwCamera){ .zoom = 1 });
  return bw_offscreen_render (scene, camera, layers, BW_LIGHT_DAY, side, side, NULL, error);
}
