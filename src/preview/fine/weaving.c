/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/fine/weaving.h"

#include "preview/picture/picture-bytes.h"
#include "preview/scene/seen-from.h"
#include "preview/scene/played.h"

void
bw_weaving_init (BwWeaving *weaving, BwProject *project, int n, gboolean follows, double turn_deg)
{
  gint64 visits = (gint64)bw_project_path (project)->visits->len;
  BwCamera camera = { .turn_deg = turn_deg, .zoom = 1 };
  weaving->n = n;
  for (int i = 0; i < n; i++) {
    weaving->visits[i] = (int)(visits * i / (n - 1));
    if (follows)
      camera = bw_seen_from_needle (project, weaving->visits[i], camera);
    weaving->turn_deg[i] = camera.turn_deg;
  }
}

/* How far all of them are, while one is made. */
typedef struct {
  int i, n;
  BwFineTold told;
  gpointer data;
} Progress;

static void
tell (double done, cairo_surface_t *so_far, gpointer data)
{
  const Progress *progress = data;
  if (progress->told)
    progress->told ((progress->i + done) / progress->n, so_far, progress->data);
}

static GBytes *
make_png (BwScene *scene, const BwStill *still, const BwFineOptions *fine, GCancellable *stop,
          Progress *progress, GError **error)
{
  cairo_surface_t *surface = fine ? bw_fine_new (scene, still, fine, stop, tell, progress, error)
                                  : bw_still_new (scene, still, error);
  GBytes *png = surface ? bw_picture_png (surface, error) : NULL;
  if (png)
    tell (1, surface, progress);
  g_clear_pointer (&surface, cairo_surface_destroy);
  return png;
}

GPtrArray *
bw_weaving_pngs (BwScene *scene, const BwStill *still, const BwWeaving *weaving,
                 const BwFineOptions *fine, GCancellable *stop, BwFineTold told, gpointer data,
                 GError **error)
{
  g_autoptr (GPtrArray) pngs = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  Progress progress = { 0, weaving->n, told, data };
  BwStill now = *still;
  now.layers |= BW_LAYER_THREAD;
  bw_scene_stand_upright (scene);
  for (; progress.i < weaving->n; progress.i++) {
    if (g_cancellable_set_error_if_cancelled (stop, error))
      return NULL;
    bw_scene_play (scene, weaving->visits[progress.i]);
    now.camera.turn_deg = weaving->turn_deg[progress.i];
    GBytes *png = make_png (scene, &now, fine, stop, &progress, error);
    if (!png)
      return NULL;
    g_ptr_array_add (pngs, png);
  }
  return g_steal_pointer (&pngs);
}
