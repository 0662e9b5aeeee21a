/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/window/still-job.h"
#include "preview/picture/picture-bytes.h"

BwScene *
bw_still_as_shown (BwSession *session, int side, BwStill *still)
{
  BwProject *project = bw_session_get_project (session);
  BwScene *scene = bw_scene_new (project, bw_session_get_colour_by_fit (session));
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

typedef struct {
  BwScene *scene;
  BwStill still;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  bw_scene_free (job->scene);
  g_free (job);
}

static void
make (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  Job *job = data;
  GError *error = NULL;
  GBytes *png = NULL;
  if (g_task_return_error_if_cancelled (task))
    return;
  cairo_surface_t *surface = bw_still_new (job->scene, &job->still, &error);
  if (surface)
    png = bw_picture_png (surface, &error);
  if (surface)
    cairo_surface_destroy (surface);
  if (png)
    g_task_return_pointer (task, png, (GDestroyNotify)g_bytes_unref);
  else
    g_task_return_error (task, error);
}

void
bw_still_job_run (BwScene *scene, const BwStill *still, GCancellable *stop,
                  GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, stop, done, data);
  Job *job = g_new (Job, 1);
  *job = (Job){ scene, *still };
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, make);
}

GBytes *
bw_still_job_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
