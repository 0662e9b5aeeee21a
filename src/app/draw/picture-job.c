/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thread owns all it touches, so that nothing has to be locked; the only thing shared is how
 * far it has come. */
#include "config.h"

#include "app/draw/picture-job.h"
#include "app/draw/picture-file.h"

#include <glib/gi18n-lib.h>

BwPictureJob *
bw_picture_job_new (GdkPixbuf *pixbuf, const BwPlacement *placement, const BwBandGrid *grid,
                    const BwTray *tray, BwDrawing *base)
{
  BwPictureJob *job = g_new0 (BwPictureJob, 1);
  job->pixbuf = g_object_ref (pixbuf);
  job->placement = *placement;
  job->grid = *grid;
  job->tray = *tray;
  job->base = base;
  job->drawing = bw_drawing_copy (base);
  return job;
}

void
bw_picture_job_free (BwPictureJob *job)
{
  g_object_unref (job->pixbuf);
  bw_drawing_free (job->base);
  bw_drawing_free (job->drawing);
  g_free (job);
}

/* The part of the whole that one of its steps is. */
typedef struct {
  BwPictureJob *job;
  GCancellable *cancellable;
  double from, span;
} Part;

static gboolean
go_on (double share, gpointer data)
{
  Part *part = data;
  g_atomic_int_set (&part->job->per_mille, (int)(1000 * (part->from + share * part->span)));
  return !g_cancellable_is_cancelled (part->cancellable);
}

/* New colours go to the end of the tray; their beads are matched to them alone. */
static gboolean
add_colours (BwPictureJob *job, const BwFootprints *footprints, BwChoice *choice, GError **error)
{
  int room = BW_TRAY_MAX - job->tray.n_colours;
  if (room < 1) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE,
                 _ ("The tray is full: %d colours. Remove some, or use those in the tray."),
                 BW_TRAY_MAX);
    return FALSE;
  }
  choice->n = bw_mapping_propose (footprints, MIN (job->n_new, room), choice->srgb);
  for (int i = 0; i < choice->n; i++) {
    BwColour *colour = &job->tray.colour[job->tray.n_colours];
    *colour = (BwColour){ .id = bw_tray_free_letter (&job->tray),
                          .srgb = choice->srgb[i],
                          .finish = BW_FINISH_OPAQUE };
    g_snprintf (colour->name, sizeof colour->name, _ ("Picture %d"), i + 1);
    choice->index[i] = (guint8)job->tray.n_colours++;
  }
  return TRUE;
}

static void
choose_tray (const BwPictureJob *job, BwChoice *choice)
{
  choice->n = job->tray.n_colours;
  for (int i = 0; i < choice->n; i++) {
    choice->srgb[i] = job->tray.colour[i].srgb;
    choice->index[i] = (guint8)i;
  }
}

static gboolean
match (BwPictureJob *job, const BwFootprints *footprints, Part *part, GError **error)
{
  BwChoice choice = { 0 };
  if (job->n_new == 0)
    choose_tray (job, &choice);
  else if (!add_colours (job, footprints, &choice, error))
    return FALSE;
  if (choice.n == 0) /* the picture lies off the band */
    return TRUE;
  if (bw_mapping_match (footprints, &choice, job->dither, job->drawing, go_on, part))
    return TRUE;
  return !g_cancellable_set_error_if_cancelled (part->cancellable, error);
}

gboolean
bw_picture_job_run (BwPictureJob *job, GCancellable *cancellable, GError **error)
{
  BwPicture picture = bw_picture_of (job->pixbuf);
  Part part = { job, cancellable, 0, 0.6 };
  BwFootprints footprints;
  if (!bw_mapping_sample (&footprints, &picture, &job->placement, &job->grid, go_on, &part)) {
    g_cancellable_set_error_if_cancelled (cancellable, error);
    return FALSE;
  }
  part = (Part){ job, cancellable, 0.6, 0.4 };
  gboolean done = match (job, &footprints, &part, error);
  bw_footprints_clear (&footprints);
  return done;
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  if (bw_picture_job_run (data, cancellable, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

void
bw_picture_job_start (BwPictureJob *job, GCancellable *cancellable, GAsyncReadyCallback done,
                      gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, data);
  g_task_set_task_data (task, job, NULL);
  g_task_run_in_thread (task, work);
}

BwPictureJob *
bw_picture_job_finish (GAsyncResult *result, GError **error)
{
  BwPictureJob *job = g_task_get_task_data (G_TASK (result));
  if (g_task_propagate_boolean (G_TASK (result), error))
    return job;
  bw_picture_job_free (job);
  return NULL;
}
