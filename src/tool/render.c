/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Renders off-screen and writes each picture whole or not at all. */
#include "config.h"

#include "tool/render.h"

#include "output/page/whole-file.h"
#include "preview/picture/picture-bytes.h"
#include "preview/picture/thumbnail.h"
#include "preview/fine/weaving.h"
#include "preview/scene/seen-from.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>
#include <stdio.h>
#include <unistd.h>

static gboolean
write_bytes (GBytes *bytes, const char *name, GError **error)
{
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  return bw_whole_file_write_data (data, size, name, error);
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

static gboolean
make_one (BwScene *scene, const BwStill *still, const BwFineOptions *fine, BwFineTold told,
          gpointer data, const char *name, GError **error)
{
  cairo_surface_t *surface = fine ? bw_fine_new (scene, still, fine, NULL, told, data, error)
                                  : bw_still_new (scene, still, error);
  g_autoptr (GBytes) png = surface ? bw_picture_png (surface, error) : NULL;
  g_clear_pointer (&surface, cairo_surface_destroy);
  return png && write_bytes (png, name, error);
}

static gboolean
write_numbered (const GPtrArray *pngs, const char *name, GError **error)
{
  gboolean written = TRUE;
  for (guint i = 0; written && i < pngs->len; i++) {
    g_autofree char *numbered = bw_turntable_name (name, (int)i);
    written = write_bytes (g_ptr_array_index (pngs, i), numbered, error);
  }
  return written;
}

/* All of them are made before the first is written. */
static gboolean
make_round (BwScene *scene, const BwStill *still, const BwFineOptions *fine, int frames,
            BwFineTold told, gpointer data, const char *name, GError **error)
{
  if (g_str_has_suffix (name, ".webp")) {
    g_autoptr (GBytes) webp
        = bw_turntable_webp (scene, still, frames, fine, NULL, told, data, error);
    return webp && write_bytes (webp, name, error);
  }
  g_autoptr (GPtrArray) pngs
      = bw_turntable_pngs (scene, still, frames, fine, NULL, told, data, error);
  return pngs && write_numbered (pngs, name, error);
}

/* Unless a side was asked for the eye goes round with the needle. */
static gboolean
make_weaving (BwScene *scene, BwProject *project, const BwStill *still, const BwOptions *options,
              const BwFineOptions *fine, BwFineTold told, gpointer data, GError **error)
{
  g_autofree BwWeaving *weaving = g_new (BwWeaving, 1);
  gboolean follows = !(options->given & (BW_OPTION_TURN | BW_OPTION_VIEW));
  bw_weaving_init (weaving, project, options->frames, follows, still->camera.turn_deg);
  g_autoptr (GPtrArray) pngs
      = bw_weaving_pngs (scene, still, weaving, fine, NULL, told, data, error);
  return pngs && write_numbered (pngs, options->output, error);
}

static gboolean
make (BwScene *scene, BwProject *project, const BwStill *still, const BwOptions *options,
      GError **error)
{
  int percent = -1;
  gboolean watched = isatty (STDERR_FILENO);
  BwFineOptions usual = BW_FINE_USUAL, *fine = options->given & BW_OPTION_FINE ? &usual : NULL;
  BwFineTold told = watched ? tell_progress : NULL;
  gboolean made;
  if (options->given & BW_OPTION_PLAY)
    made = make_weaving (scene, project, still, options, fine, told, &percent, error);
  else if (options->given & BW_OPTION_TURNTABLE)
    made = make_round (scene, still, fine, options->frames, told, &percent, options->output, error);
  else
    made = make_one (scene, still, fine, told, &percent, options->output, error);
  if (percent >= 0)
    fputs ("\r     \r", stderr);
  return made;
}

/* A name without an ending may be a pipe or what a terminal shows; another picture's ending would
 * lie about what is written. */
static gboolean
check_name (const BwOptions *options, GError **error)
{
  g_autofree char *name = g_path_get_basename (options->output);
  g_autofree char *ending = g_utf8_strdown (strrchr (name, '.') ? strrchr (name, '.') : ".png", -1);
  gboolean round = (options->given & BW_OPTION_TURNTABLE) != 0;
  if (g_str_equal (ending, ".png") || (round && g_str_equal (ending, ".webp")))
    return TRUE;
  g_set_error (error, BW_USAGE, BW_USAGE_WRONG,
               round ? _ ("%s: the name must end in .png or .webp")
                     : _ ("%s: the name must end in .png"),
               options->output);
  return FALSE;
}

/* What of the options goes with what. */
static gboolean
check_together (const BwOptions *options, GError **error)
{
  gboolean round = (options->given & BW_OPTION_TURNTABLE) != 0;
  gboolean play = (options->given & BW_OPTION_PLAY) != 0;
  const char *wrong = NULL;
  if ((options->given & BW_OPTION_FRAMES) && !round && !play)
    wrong = _ ("--frames goes with --turntable or --play");
  else if (round && play)
    wrong = _ ("--turntable and --play do not go together");
  else if (play && g_strcmp0 (options->view, "rest") == 0)
    wrong = _ ("--play: a piece that is being woven does not hang: another --view");
  else if (play && g_str_has_suffix (options->output, ".webp"))
    wrong = _ ("--play writes numbered PNG files: name them .png");
  if (wrong)
    g_set_error_literal (error, BW_USAGE, BW_USAGE_WRONG, wrong);
  return !wrong;
}

char *
bw_render_run (BwProject *project, const BwOptions *options, GError **error)
{
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = { .camera = { options->turn_deg, options->tip_deg, options->near },
                    .layers = BW_LAYER_ALL,
                    .light = options->by_lamp ? BW_LIGHT_LAMP : BW_LIGHT_DAY,
                    .ground = options->ground,
                    .width = options->width,
                    .height = options->height };
  if (!check_together (options, error) || !check_name (options, error))
    return NULL;
  if (options->view && !take_view (scene, project, options->view, &still.camera, error))
    return NULL;
  still.camera.zoom = options->near;
  return make (scene, project, &still, options, error) ? g_strdup ("") : NULL;
}

char *
bw_render_run_thumbnail (BwProject *project, const BwOptions *options, GError **error)
{
  cairo_surface_t *surface = bw_thumbnail_new (project, MIN (options->width, options->height));
  if (!surface) {
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                         _ ("no small picture is made of so many beads"));
    return NULL;
  }
  g_autoptr (GBytes) png = bw_picture_png (surface, error);
  cairo_surface_destroy (surface);
  return png && write_bytes (png, options->output, error) ? g_strdup ("") : NULL;
}
