/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One point of view for the window and the command line, so that both print the same picture. */
#include "config.h"

#include "preview/picture/portrait.h"

#include "preview/picture/offscreen.h"

#define ASIDE_DEG 35.0 /* off the bail, or off the join without one */
#define ABOVE_DEG 10.0 /* so that the bail is seen as a loop */

cairo_surface_t *
bw_portrait_new (BwProject *project, BwPortrait from, int side, GError **error)
{
  const BwDesign *design = bw_project_get_design (project);
  gboolean bail = design->bail.style != BW_BAIL_NONE;
  double turn = (bail ? design->bail.at_deg : design->band.seam_deg) + ASIDE_DEG
                + (from == BW_PORTRAIT_BACK ? 180 : 0);
  BwCamera camera = { .turn_deg = turn, .tip_deg = ABOVE_DEG, .zoom = 1 };
  guint layers = BW_LAYER_ALL & ~(guint)BW_LAYER_THREAD;
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  return bw_offscreen_render (scene, camera, layers, BW_LIGHT_DAY, side, side, NULL, error);
}
