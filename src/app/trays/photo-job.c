/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/trays/photo-job.h"

#include "app/draw/picture-file.h"

void
bw_photo_job_free (BwPhotoJob *job)
{
  g_clear_object (&job->file);
  g_clear_object (&job->photo);
  g_free (job);
}

typedef struct {
  BwPhotoJob *job;
  GCancellable *stop;
} Run;

static gboolean
go_on (double share, gpointer data)
{
  const Run *run = data;
  g_atomic_int_set (&run->job->per_mille, (int)(1000 * share));
  return !g_cancellable_is_cancelled (run->stop);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  BwPhotoJob *job = data;
  Run run = { job, stop };
  GError *error = NULL;
  if (job->file && !(job->photo = bw_picture_read (job->file, stop, &error))) {
    g_task_return_error (task, error);
    return;
  }
  g_atomic_int_set (&job->per_mille, 0);
  BwPicture picture = bw_picture_of (job->photo);
  bw_photo_tray_find (&job->found, &picture, &job->wish, go_on, &run);
  if (!g_task_return_error_if_cancelled (task))
    g_task_return_boolean (task, TRUE);
}

void
bw_photo_job_start (BwPhotoJob *job, GCancellable *stop, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, stop, done, data);
  job->per_mille = job->file ? -1 : 0;
  g_task_set_task_data (task, job, NULL);
  g_task_run_in_thread (task, work);
}

BwPhotoJob *
bw_photo_job_finish (GAsyncResult *result, GError **error)
{
  BwPhotoJob *job = g_task_get_task_data (G_TASK (result));
  if (g_task_propagate_boolean (G_TASK (result), error))
    return job;
  bw_photo_job_free (job);
  return NULL;
}
