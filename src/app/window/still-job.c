/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/window/still-job.h"
#include "preview/picture/picture-bytes.h"

#define SMALL_PX 360 /* the larger side of a picture that is only looked at */
#include "preview/scene/played.h"

BwScene *
bw_still_as_shown (BwSession *session, int side, BwStill *still)
{
  BwProject *project = bw_session_get_project (session);
  BwScene *scene = bw_scene_new (project, bw_session_get_colour_by_fit (session));
  bw_scene_play (scene, bw_session_get_played (session));
  if (bw_session_get_at_rest (session))
    bw_scene_stand_at_rest (scene);
  *still = (BwStill){ .camera = bw_session_get_camera (session),
                      .layers = bw_session_get_layers (session),
                      .light = bw_session_get_light (session),
                      .ground = BW_GROUND_CLEAR,
                      .width = side,
                      .height = side };
  return scene;
}

/* --- Who watches -------------------------------------------------------------------------------
 */

/* Shared by the job and by what it has sent to the main loop. */
typedef struct {
  GWeakRef watcher;
  BwStillTold told;
} Watch;

typedef struct {
  Watch *watch;
  double done;
  GdkTexture *so_far;
} News;

static void
watch_clear (gpointer data)
{
  g_weak_ref_clear (&((Watch *)data)->watcher);
}

static Watch *
watch_new (GObject *watcher, BwStillTold told)
{
  Watch *watch = g_atomic_rc_box_new0 (Watch);
  g_weak_ref_init (&watch->watcher, watcher);
  watch->told = told;
  return watch;
}

static void
news_free (gpointer data)
{
  News *news = data;
  g_atomic_rc_box_release_full (news->watch, watch_clear);
  g_object_unref (news->so_far);
  g_free (news);
}

static gboolean
tell_news (gpointer data)
{
  const News *news = data;
  g_autoptr (GObject) watcher = g_weak_ref_get (&news->watch->watcher);
  if (watcher)
    news->watch->told (watcher, news->done, news->so_far);
  return G_SOURCE_REMOVE;
}

/* The same, no larger than is looked at while it is made: a preview of the picture's own size would
 * make its window as large as the screen. Owned. */
static cairo_surface_t *
small_of (cairo_surface_t *surface)
{
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  double share = (double)SMALL_PX / MAX (width, height);
  if (share >= 1)
    return cairo_surface_reference (surface);
  cairo_surface_t *small = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, MAX (1, (int)(share * width)), MAX (1, (int)(share * height)));
  cairo_t *cr = cairo_create (small);
  cairo_scale (cr, share, share);
  cairo_set_source_surface (cr, surface, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  return small;
}

static GdkTexture *
texture_of (cairo_surface_t *surface)
{
  cairo_surface_flush (surface);
  int stride = cairo_image_surface_get_stride (surface);
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  g_autoptr (GBytes) bytes
      = g_bytes_new (cairo_image_surface_get_data (surface), (gsize)stride * (gsize)height);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, (gsize)stride);
}

/* --- The job -----------------------------------------------------------------------------------
 */

typedef struct {
  BwScene *scene;
  BwStillOrder order;
  Watch *watch;
  int percent; /* told last */
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  bw_scene_free (job->scene);
  g_atomic_rc_box_release_full (job->watch, watch_clear);
  g_free (job);
}

/* In the job's thread; no more often than there is something new to see. */
static void
tell (double done, cairo_surface_t *so_far, gpointer data)
{
  Job *job = data;
  if ((int)(100 * done) == job->percent || !job->watch->told)
    return;
  job->percent = (int)(100 * done);
  News *news = g_new (News, 1);
  cairo_surface_t *small = small_of (so_far);
  *news = (News){ g_atomic_rc_box_acquire (job->watch), done, texture_of (small) };
  cairo_surface_destroy (small);
  g_main_context_invoke_full (NULL, G_PRIORITY_DEFAULT, tell_news, news, news_free);
}

static GPtrArray *
alone (GBytes *bytes)
{
  if (!bytes)
    return NULL;
  GPtrArray *files = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  g_ptr_array_add (files, bytes);
  return files;
}

static GPtrArray *
make_one (Job *job, const BwFineOptions *fine, GCancellable *stop, GError **error)
{
  const BwStill *still = &job->order.still;
  cairo_surface_t *surface = fine ? bw_fine_new (job->scene, still, fine, stop, tell, job, error)
                                  : bw_still_new (job->scene, still, error);
  GBytes *png = surface ? bw_picture_png (surface, error) : NULL;
  g_clear_pointer (&surface, cairo_surface_destroy);
  return alone (png);
}

static GPtrArray *
make_files (Job *job, GCancellable *stop, GError **error)
{
  const BwStillOrder *order = &job->order;
  const BwFineOptions usual = BW_FINE_USUAL, *fine = order->fine ? &usual : NULL;
  if (order->kind == BW_STILL_WOVEN)
    return bw_weaving_pngs (job->scene, &order->still, &order->weaving, fine, stop, tell, job,
                            error);
  if (order->kind == BW_STILL_NUMBERED)
    return bw_turntable_pngs (job->scene, &order->still, order->frames, fine, stop, tell, job,
                              error);
  if (order->kind == BW_STILL_MOVING)
    return alone (
        bw_turntable_webp (job->scene, &order->still, order->frames, fine, stop, tell, job, error));
  return make_one (job, fine, stop, error);
}

static void
make (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  GError *error = NULL;
  if (g_task_return_error_if_cancelled (task))
    return;
  GPtrArray *files = make_files (data, stop, &error);
  if (files)
    g_task_return_pointer (task, files, (GDestroyNotify)g_ptr_array_unref);
  else
    g_task_return_error (task, error);
}

void
bw_still_job_run (BwScene *scene, const BwStillOrder *order, GObject *watcher, BwStillTold told,
                  GCancellable *stop, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, stop, done, data);
  Job *job = g_new (Job, 1);
  *job = (Job){ scene, *order, watch_new (watcher, told), -1 };
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, make);
}

GPtrArray *
bw_still_job_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
