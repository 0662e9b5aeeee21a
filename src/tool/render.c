/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Renders off-screen and writes the PNG whole or not at all. */
#include "config.h"

#include "tool/render.h"

#include "preview/offscreen.h"

#include <gio/gio.h>

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static gboolean
write_png (cairo_surface_t *surface, const char *name, GError **error)
{
  g_autoptr (GByteArray) png = g_byte_array_new ();
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, append_bytes, png);
  if (status != CAIRO_STATUS_SUCCESS) {
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, cairo_status_to_string (status));
    return FALSE;
  }
  g_autoptr (GFile) file = g_file_new_for_path (name);
  return g_file_replace_contents (file, (const char *)png->data, png->len, NULL, FALSE,
                                  G_FILE_CREATE_NONE, NULL, NULL, error);
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
  if (written)
    return g_strdup ("");
  g_prefix_error (error, "%s: ", options->output);
  return NULL;
}
