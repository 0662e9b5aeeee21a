/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/picture/thumbnail.h"

#include "preview/picture/offscreen.h"

#define ASIDE_DEG 35.0 /* off the bail, or off the join without one */
#define ABOVE_DEG 6.0  /* the eye of somebody before the shelf */
#define CLEAR 8        /* less opaque than that is nothing, 0..255 */

static gboolean
line_is_clear (const guint32 *pixel, int n, int step)
{
  for (int i = 0; i < n; i++)
    if (pixel[i * step] >> 24 > CLEAR)
      return FALSE;
  return TRUE;
}

/* The part of it that holds the piece. Takes the surface; NULL when all of it is clear. */
static cairo_surface_t *
cut_out (cairo_surface_t *surface)
{
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  cairo_surface_flush (surface);
  const guint32 *pixels = (const guint32 *)(const void *)cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface) / 4;
  int left = 0, right = width, top = 0, end = height;
  while (top < end && line_is_clear (pixels + top * stride, width, 1))
    top++;
  while (end > top && line_is_clear (pixels + (end - 1) * stride, width, 1))
    end--;
  while (left < right && line_is_clear (pixels + left, height, stride))
    left++;
  while (right > left && line_is_clear (pixels + right - 1, height, stride))
    right--;
  cairo_surface_t *cut = NULL;
  if (right > left && end > top) {
    cut = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, right - left, end - top);
    cairo_t *cr = cairo_create (cut);
    cairo_set_source_surface (cr, surface, -left, -top);
    cairo_paint (cr);
    cairo_destroy (cr);
  }
  cairo_surface_destroy (surface);
  return cut;
}

static gboolean
is_worth_painting (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  gint64 band = (gint64)design->band.rows * design->band.columns / 2;
  gint64 bail = design->bail.style == BW_BAIL_NONE
                    ? 0
                    : (gint64)design->bail.rows * design->bail.columns / 2;
  return band + bail <= BW_THUMBNAIL_BEADS_MOST;
}

cairo_surface_t *
bw_thumbnail_new (BwProject *project, int side)
{
  if (!is_worth_painting (project))
    return NULL;
  const BwDesign *design = bw_project_get_design (project);
  gboolean bail = design->bail.style != BW_BAIL_NONE;
  BwCamera camera = { .turn_deg = (bail ? design->bail.at_deg : design->band.seam_deg) + ASIDE_DEG,
                      .tip_deg = ABOVE_DEG,
                      .zoom = 1 };
  guint layers = BW_LAYER_ALL & ~(guint)(BW_LAYER_THREAD | BW_LAYER_CORD | BW_LAYER_BALANCE);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  cairo_surface_t *surface
      = bw_offscreen_render (scene, camera, layers, BW_LIGHT_DAY, side, side, NULL, NULL);
  return surface ? cut_out (surface) : NULL;
}
