/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Renders off-screen and writes the PNG whole or not at all. */
#include "config.h"

#include "tool/render.h"

#include "output/page/whole-file.h"
#include "preview/picture/offscreen.h"

#include <gio/gio.h>

static gboolean
write_png (cairo_surface_t *surface, const char *name, GError **error)
{
  g_autoptr (GByteArray) png = g_byte_array_new ();
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, bw_whole_file_append, png);
  return bw_whole_file_write (png, status, name, error);
}

char *
bw_render_run (BwProject *project, const BwOptions *options, GError **error)
{
  BwCamera camera = { .turn_deg = options->turn_deg, .tip_deg = options->tip_deg, .zoom = 1 };
  guint layers = BW_LAYER_ALL & ~(guint)BW_LAYER_THREAD;
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  cairo_surface_t *surface = bw_offscreen_render (scene, camera, layers, BW_LIGHT_DAY,
                                                  options->width, options->height, NULL, error);
  if (!surface)
    return NULL;
  gboolean written = write_png (surface, options->output, error);
  cairo_surface_destroy (surface);
  return written ? g_strdup ("") : NULL;
}
