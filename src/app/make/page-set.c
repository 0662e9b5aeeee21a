/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/make/page-set.h"

#include "core/pattern/tint.h"
#include "output/sheet/tags.h"

#include <math.h>

struct _BwPageSet {
  BwSheet *sheet; /* drawn from under bw_page_lock () alone */
  BwPrintKind kind;
  BwPaper asked;
};

/* What a thread is asked to do. */
typedef struct {
  BwPageCopy *copy;
  BwPageSet *set;
  BwPrintKind kind;
  BwPaper paper;
  int page;
  double scale;
  char *path;
} Job;

static void
free_job (gpointer data)
{
  Job *job = data;
  g_clear_pointer (&job->copy, bw_page_copy_unref);
  g_clear_pointer (&job->set, bw_page_set_unref);
  g_free (job->path);
  g_free (job);
}

static void
run (const Job *job, GTaskThreadFunc work, GCancellable *stop, GAsyncReadyCallback done,
     gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, stop, done, data);
  g_task_set_task_data (task, g_memdup2 (job, sizeof *job), free_job);
  g_task_run_in_thread (task, work);
}

/* FALSE, and the task has its answer, when it was stopped while it waited or the program ends. */
static gboolean
begin (GTask *task)
{
  if (!bw_page_lock ()) {
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "%s", "");
    return FALSE;
  }
  if (!g_task_return_error_if_cancelled (task))
    return TRUE;
  bw_page_unlock ();
  return FALSE;
}

/* --- A set -------------------------------------------------------------------------------------
 */

static void
clear_set (gpointer set)
{
  bw_sheet_free (((BwPageSet *)set)->sheet);
}

BwPageSet *
bw_page_set_ref (BwPageSet *set)
{
  return g_atomic_rc_box_acquire (set);
}

void
bw_page_set_unref (BwPageSet *set)
{
  g_atomic_rc_box_release_full (set, clear_set);
}

static void
drop_set (gpointer set)
{
  bw_page_set_unref (set);
}

static void
lay_out (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  const Job *job = data;
  GError *error = NULL;
  if (!begin (task))
    return;
  BwSheet *sheet = bw_page_copy_lay_out (job->copy, job->kind, job->paper, &error);
  bw_page_unlock ();
  if (!sheet) {
    g_task_return_error (task, error);
    return;
  }
  BwPageSet *set = g_atomic_rc_box_new0 (BwPageSet);
  *set = (BwPageSet){ sheet, job->kind, job->paper };
  g_task_return_pointer (task, set, drop_set);
}

void
bw_page_set_ask (BwPageCopy *copy, BwPrintKind kind, BwPaper paper, GCancellable *stop,
                 GAsyncReadyCallback done, gpointer data)
{
  Job job = { .copy = bw_page_copy_ref (copy), .kind = kind, .paper = paper };
  run (&job, lay_out, stop, done, data);
}

BwPageSet *
bw_page_set_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

BwPrintKind
bw_page_set_get_kind (const BwPageSet *set)
{
  return set->kind;
}

BwPaper
bw_page_set_get_asked (const BwPageSet *set)
{
  return set->asked;
}

BwPaper
bw_page_set_get_paper (const BwPageSet *set)
{
  return bw_sheet_get_paper (set->sheet);
}

int
bw_page_set_n_pages (const BwPageSet *set)
{
  return bw_sheet_n_pages (set->sheet);
}

void
bw_page_set_draw (const BwPageSet *set, cairo_t *cr, int page)
{
  if (!bw_page_lock ())
    return;
  bw_sheet_draw_page (set->sheet, cr, page);
  bw_page_unlock ();
}

/* --- A page as a picture -----------------------------------------------------------------------
 */

static cairo_surface_t *
draw (const Job *job)
{
  BwPaper paper = bw_page_set_get_paper (job->set);
  double most = sqrt (BW_PAGE_PIXELS_MOST / (paper.width * paper.height));
  double scale = MIN (job->scale, most);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, MAX (1, (int)lround (paper.width * scale)),
                                    MAX (1, (int)lround (paper.height * scale)));
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  bw_sheet_draw_page (job->set->sheet, cr, job->page);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* The bytes stay with the surface. */
static GdkTexture *
texture_of (cairo_surface_t *surface)
{
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  int stride = cairo_image_surface_get_stride (surface);
  g_autoptr (GBytes) bytes = g_bytes_new_with_free_func (
      cairo_image_surface_get_data (surface), (gsize)stride * (gsize)height,
      (GDestroyNotify)cairo_surface_destroy, surface);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, (gsize)stride);
}

static void
picture (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  if (!begin (task))
    return;
  cairo_surface_t *surface = draw (data);
  bw_page_unlock ();
  g_task_return_pointer (task, texture_of (surface), g_object_unref);
}

void
bw_page_set_ask_picture (BwPageSet *set, int page, double scale, GCancellable *stop,
                         GAsyncReadyCallback done, gpointer data)
{
  Job job = { .set = bw_page_set_ref (set), .page = page, .scale = scale };
  run (&job, picture, stop, done, data);
}

GdkTexture *
bw_page_set_finish_picture (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

/* --- A file ------------------------------------------------------------------------------------
 */

static void
write_file (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  const Job *job = data;
  GError *error = NULL;
  if (!begin (task))
    return;
  gboolean written = job->set->kind == BW_PRINT_LISTING
                         ? bw_listing_write (job->set->sheet, job->path, &error)
                         : bw_sheet_write_pdf (job->set->sheet, job->path, &error);
  bw_page_unlock ();
  if (written)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

void
bw_page_set_ask_written (BwPageSet *set, const char *path, GCancellable *stop,
                         GAsyncReadyCallback done, gpointer data)
{
  Job job = { .set = bw_page_set_ref (set), .path = g_strdup (path) };
  run (&job, write_file, stop, done, data);
}

gboolean
bw_page_set_finish_written (GAsyncResult *result, GError **error)
{
  return g_task_propagate_boolean (G_TASK (result), error);
}
