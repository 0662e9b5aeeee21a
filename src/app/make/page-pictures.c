/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project itself stays with the main thread: what the thread reads is what would be saved. */
#include "config.h"

#include "app/make/page-pictures.h"

#include "core/pattern/tint.h"
#include "project/snapshot.h"

static GMutex drawing;
static gboolean ended; /* under drawing */

typedef struct {
  BwSnapshot *snapshot;
  GFile *file; /* whose name the pages bear where there is no title; NULL for never saved */
  BwPaper paper;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  bw_snapshot_free (job->snapshot);
  g_clear_object (&job->file);
  g_free (job);
}

void
bw_page_pictures_free (BwPagePictures *pictures)
{
  for (int i = 0; i < BW_PAGE_PICTURES; i++)
    g_clear_pointer (&pictures->first[i], cairo_surface_destroy);
  g_free (pictures);
}

static void
free_pictures (gpointer pictures)
{
  bw_page_pictures_free (pictures);
}

static cairo_surface_t *
draw_first (const BwSheet *sheet)
{
  BwPaper paper = bw_sheet_get_paper (sheet);
  double scale = BW_PAGE_PICTURE_HEIGHT / paper.height;
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, (int)(paper.width * scale + 0.5), BW_PAGE_PICTURE_HEIGHT);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  bw_sheet_draw_page (sheet, cr, 0);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static void
draw_kind (BwPagePictures *pictures, BwProject *project, BwPaper paper, BwPrintKind kind)
{
  g_mutex_lock (&drawing);
  if (!ended) {
    g_autoptr (BwSheet) sheet = bw_print_sheet_new (project, kind, paper);
    pictures->first[kind] = draw_first (sheet);
    pictures->pages[kind] = bw_sheet_n_pages (sheet);
  }
  g_mutex_unlock (&drawing);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  Job *job = data;
  gsize length;
  g_autofree char *text = bw_snapshot_to_data (job->snapshot, &length);
  GError *error = NULL;
  g_autoptr (BwProject) project = bw_project_load_data (text, length, &error);
  if (!project) {
    g_task_return_error (task, error);
    return;
  }
  bw_project_set_file (project, job->file);
  g_autoptr (BwPagePictures) pictures = g_new0 (BwPagePictures, 1);
  for (int kind = 0; kind < BW_PAGE_PICTURES && !g_cancellable_is_cancelled (stop); kind++)
    draw_kind (pictures, project, job->paper, (BwPrintKind)kind);
  if (!g_task_return_error_if_cancelled (task))
    g_task_return_pointer (task, g_steal_pointer (&pictures), free_pictures);
}

void
bw_page_pictures_ask (BwProject *project, BwPaper paper, GCancellable *stop,
                      GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, stop, done, data);
  Job *job = g_new (Job, 1);
  *job = (Job){ bw_snapshot_new (project), NULL, paper };
  g_set_object (&job->file, bw_project_get_file (project));
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work);
}

BwPagePictures *
bw_page_pictures_finish (GAsyncResult *result)
{
  return g_task_propagate_pointer (G_TASK (result), NULL);
}

void
bw_page_pictures_end (void)
{
  g_mutex_lock (&drawing);
  ended = TRUE;
  g_mutex_unlock (&drawing);
}
