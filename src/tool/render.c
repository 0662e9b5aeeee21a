/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Renders off-screen and writes the PNG whole or not at all. */
#include "config.h"

#include "tool/render.h"

#include "output/page/whole-file.h"
#include "preview/fine/fine.h"
#include "preview/scene/seen-from.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <unistd.h>

static gboolean
write_png (cairo_surface_t *surface, const char *name, GError **error)
{
  g_autoptr (GByteArray) png = g_byte_array_new ();
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, bw_whole_file_append, png);
  return bw_whole_file_write (png, status, name, error);
}

/* The camera of a view by name; "rest" hangs the piece. FALSE where it has nothing to hang by. */
static gboolean
take_view (BwScene *scene, BwProject *project, const char *view, BwCamera *camera, GError **error)
{
  BwSeenFrom where = BW_SEEN_FROM_FRONT;
  gboolean rest = g_str_equal (view, "rest");
  if (rest && !scene->rest.hangs) {
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_ARGUMENT,
                         _ ("--view rest: the piece has no bail to hang by"));
    return FALSE;
  }
  if (rest)
    bw_scene_stand_at_rest (scene);
  else
    bw_seen_from_parse (view, &where);
  *camera = bw_seen_from (where, project, rest, *camera);
  return TRUE;
}

/* How far it has come, where somebody watches. */
static void
tell_progress (double done, cairo_surface_t *so_far, gpointer told)
{
  int *percent = told;
  if ((int)(100 * done) == *percent)
    return;
  *percent = (int)(100 * done);
  fprintf (stderr, "\r%3d %%", *percent);
}

static cairo_surface_t *
make_fine (BwScene *scene, const BwStill *still, GError **error)
{
  int percent = -1;
  gboolean watched = isatty (STDERR_FILENO);
  cairo_surface_t *surface = bw_fine_new (scene, still, &BW_FINE_USUAL, NULL,
                                          watched ? tell_progress : NULL, &percent, error);
  if (watched)
    fputs ("\r     \r", stderr);
  return surface;
}

char *
bw_render_run (BwProject *project, const BwOptions *options, GError **error)
{
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = { .camera = { options->turn_deg, options->tip_deg, 1 },
                    .layers = BW_LAYER_ALL & ~(guint)BW_LAYER_THREAD,
                    .light = BW_LIGHT_DAY,
                    .ground = options->ground,
                    .width = options->width,
                    .height = options->height };
  if (options->view && !take_view (scene, project, options->view, &still.camera, error))
    return NULL;
  cairo_surface_t *surface = options->given & BW_OPTION_FINE ? make_fine (scene, &still, error)
                                                             : bw_still_new (scene, &still, error);
  if (!surface)
    return NULL;
  gboolean written = write_png (surface, options->output, error);
  cairo_surface_destroy (surface);
  return written ? g_strdup ("") : NULL;
}
