/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/picture/finish-pictures.h"

#include "preview/gl/offscreen-context.h"
#include "preview/picture/projection.h"
#include "preview/scene/scene-bead.h"

#define NEAR 13.0      /* so that two or three beads lie across the picture */
#define ABOVE_DEG 12.0 /* a little of their holes and the lining show */
#define ASIDE_DEG 16.0 /* off the middle of a face: light falls across it */
#define LAYERS (BW_LAYER_STONE | BW_LAYER_BED | BW_LAYER_BAND)

static void
dress (BwScene *scene, guint32 srgb, BwFinish finish)
{
  for (guint i = 0; i < scene->beads->len; i++)
    bw_bead_paint (&g_array_index (scene->beads, BwSceneBead, i), srgb, finish);
}

static cairo_surface_t *
drawn (const BwScene *scene, BwCamera camera, int side)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, side, side);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, scene, camera, LAYERS, BW_LIGHT_DAY, -1, side, side);
  cairo_destroy (cr);
  return surface;
}

gboolean
bw_finish_pictures (guint32 srgb, int side, cairo_surface_t *picture[BW_N_FINISHES])
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (BwOffscreen) gl = bw_offscreen_new (FALSE, NULL);
  const BwCamera camera = { ASIDE_DEG, ABOVE_DEG, NEAR };
  for (BwFinish finish = 0; finish < BW_N_FINISHES; finish++) {
    dress (scene, srgb, finish);
    if (gl)
      bw_offscreen_set_scene (gl, scene);
    picture[finish]
        = gl ? bw_offscreen_picture (gl, scene, camera, LAYERS, BW_LIGHT_DAY, -1, side, side, NULL)
             : drawn (scene, camera, side);
    if (!picture[finish]) {
      while (finish > 0)
        cairo_surface_destroy (picture[--finish]);
      return FALSE;
    }
  }
  return TRUE;
}
