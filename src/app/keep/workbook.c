/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Threads come one after the other: the next begins when the one before has told what it found, so
 * that the last word is the book's last state. */
#include "config.h"

#include "app/keep/workbook.h"

#include "project/book/book-beads.h"
#include "project/book/book-file.h"
#include "project/file/sizes.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"
#include "project/observed.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>

struct _BwWorkbook {
  GObject parent_instance;
  char *path;
  gboolean has_hands;
  BwBookHands hands;
  BwBook *book; /* NULL until it is read */
  char *fault;
  GQueue waiting; /* of GTask */
  gboolean busy;
};

G_DEFINE_FINAL_TYPE (BwWorkbook, bw_workbook, G_TYPE_OBJECT)

/* What a thread is to do and what it finds. */
typedef struct {
  char *path;
  BwWoven piece; /* to be noted */
  gboolean notes;
  BwBookEdit edit; /* NULL: none */
  gpointer data;
  GDestroyNotify release;
  BwWorkbookTold told; /* NULL: the fault is everybody's */
  gpointer asker;
  BwBookHands hands;
  BwBook *book;
  GArray *sizes; /* of BwBead: the book's kinds */
  BwStash *stash;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  g_free (job->path);
  bw_woven_clear (&job->piece);
  bw_book_hands_clear (&job->hands);
  g_clear_pointer (&job->book, bw_book_free);
  g_clear_pointer (&job->sizes, g_array_unref);
  g_clear_pointer (&job->stash, bw_stash_unref);
  if (job->release)
    job->release (job->data);
  g_free (job);
}

/* What windows ask of a book often. */
static void
look_into_book (Job *job)
{
  bw_book_hands_init (&job->hands, job->book);
  job->sizes = bw_book_bead_sizes (job->book);
  job->stash = bw_stash_new (job->book);
}

static void
run (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  Job *job = data;
  g_autoptr (GError) error = NULL;
  gboolean done = (!job->notes || bw_observed_put (&job->piece, job->path, &error))
                  && (!job->edit || bw_book_change (job->path, job->edit, job->data, &error));
  job->book = done ? bw_book_load (job->path, &error) : NULL;
  if (!done) /* what was meant for another book is not done to this one, which is to be seen */
    job->book = bw_book_load (job->path, NULL);
  if (job->book)
    look_into_book (job);
  if (error)
    g_task_return_error (task, g_steal_pointer (&error));
  else
    g_task_return_boolean (task, TRUE);
}

static char *
fault_sentence (BwWorkbook *self, const Job *job, const GError *error)
{
  g_autofree char *name = g_filename_display_name (self->path);
  gboolean writes = job->notes || job->edit;
  const char *why = error->domain == BW_FAULT
                        ? error->message
                        : bw_io_words (error, writes ? BW_IO_WRITE : BW_IO_READ);
  /* Translators: in both a file's name, and why. */
  return writes ? g_strdup_printf (_ ("Your workshop’s book, %s, was not kept up: %s"), name, why)
                : g_strdup_printf (_ ("Your workshop’s book, %s, cannot be read: %s"), name, why);
}

/* What could not be done is told to who asked for it; a fault that nobody asked about, or a book
 * that cannot be read, to everybody. */
static void
tell (BwWorkbook *self, const Job *job, gboolean readable, const GError *error)
{
  if (error && (!job->told || !readable))
    self->fault = fault_sentence (self, job, error);
  if (job->told)
    job->told (!error                      ? NULL
               : error->domain == BW_FAULT ? bw_fault_sentence (error)
                                           : bw_io_words (error, BW_IO_WRITE),
               job->asker);
}

static void begin_next (BwWorkbook *self);

static void
take_over (BwWorkbook *self, Job *job)
{
  bw_book_hands_clear (&self->hands);
  self->hands = job->hands;
  job->hands = (BwBookHands){ 0 };
  g_clear_pointer (&self->book, bw_book_free);
  self->book = g_steal_pointer (&job->book);
  bw_sizes_set_own (job->sizes);
  bw_stash_set_own (job->stash);
  self->has_hands = TRUE;
}

static void
done (GObject *source, GAsyncResult *result, gpointer data)
{
  BwWorkbook *self = BW_WORKBOOK (source);
  Job *job = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_clear_pointer (&self->fault, g_free);
  gboolean readable = job->book != NULL;
  g_task_propagate_boolean (G_TASK (result), &error);
  if (readable)
    take_over (self, job);
  tell (self, job, readable, error);
  self->busy = FALSE;
  begin_next (self);
  g_signal_emit_by_name (self, "changed");
  if (g_application_get_default ())
    g_application_release (g_application_get_default ());
}

static void
begin_next (BwWorkbook *self)
{
  g_autoptr (GTask) task = self->busy ? NULL : g_queue_pop_head (&self->waiting);
  if (!task)
    return;
  self->busy = TRUE;
  g_task_run_in_thread (task, run);
}

static void
begin (BwWorkbook *self, Job *job)
{
  GTask *task = g_task_new (self, NULL, done, NULL);
  /* A window that saves and closes must not end the program before its note is in the book. */
  if (g_application_get_default ())
    g_application_hold (g_application_get_default ());
  job->path = g_strdup (self->path);
  g_task_set_task_data (task, job, job_free);
  g_queue_push_tail (&self->waiting, task);
  begin_next (self);
}

static void
bw_workbook_finalize (GObject *object)
{
  BwWorkbook *self = BW_WORKBOOK (object);
  g_queue_clear_full (&self->waiting, g_object_unref);
  bw_book_hands_clear (&self->hands);
  g_clear_pointer (&self->book, bw_book_free);
  g_free (self->fault);
  g_free (self->path);
  G_OBJECT_CLASS (bw_workbook_parent_class)->finalize (object);
}

static void
bw_workbook_class_init (BwWorkbookClass *class)
{
  G_OBJECT_CLASS (class)->finalize = bw_workbook_finalize;
  g_signal_new ("changed", BW_TYPE_WORKBOOK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                0);
}

static void
bw_workbook_init (BwWorkbook *self)
{
  g_queue_init (&self->waiting);
}

BwWorkbook *
bw_workbook_new (const char *path)
{
  BwWorkbook *self = g_object_new (BW_TYPE_WORKBOOK, NULL);
  self->path = g_strdup (path);
  bw_workbook_read (self);
  return self;
}

BwWorkbook *
bw_workbook_get (void)
{
  static BwWorkbook *own;
  if (!own) {
    g_autofree char *path = bw_book_usual_path ();
    own = bw_workbook_new (path);
  }
  return own;
}

const BwBook *
bw_workbook_get_book (BwWorkbook *self)
{
  return self->book;
}

gboolean
bw_workbook_is_known (BwWorkbook *self)
{
  return self->book && !self->fault;
}

gboolean
bw_workbook_price (BwWorkbook *self, const BwBead *bead, BwSupply *supply)
{
  int at = self->book && *bead->name ? bw_book_find_bead (self->book, bead->name) : -1;
  BwBeadKind kind;
  if (at < 0)
    return FALSE;
  bw_book_get_bead (self->book, (guint)at, &kind);
  return bw_bead_kind_price (&kind, supply);
}

void
bw_workbook_read (BwWorkbook *self)
{
  begin (self, g_new0 (Job, 1));
}

void
bw_workbook_change (BwWorkbook *self, BwBookEdit edit, gpointer data, GDestroyNotify release)
{
  Job *job = g_new0 (Job, 1);
  *job = (Job){ .edit = edit, .data = data, .release = release };
  begin (self, job);
}

void
bw_workbook_try (BwWorkbook *self, BwBookEdit edit, gpointer data, GDestroyNotify release,
                 BwWorkbookTold told, gpointer asker)
{
  Job *job = g_new0 (Job, 1);
  *job = (Job){ .edit = edit, .data = data, .release = release, .told = told, .asker = asker };
  begin (self, job);
}

const BwBookHands *
bw_workbook_get_hands (BwWorkbook *self)
{
  return self->has_hands ? &self->hands : NULL;
}

BwGauge
bw_workbook_gauge (BwWorkbook *self, const BwBead *bead)
{
  BwGauge gauge = { .column_mm = bead->length_mm, .pitch_mm = bead->diameter_mm };
  int pieces = 0;
  if (self->has_hands)
    gauge.hands = bw_book_hands_of (&self->hands, bead->name, bead->diameter_mm, &pieces);
  gauge.has_hands = pieces > 0;
  if (gauge.has_hands)
    gauge.pitch_mm = gauge.hands.pitch_mm;
  return gauge;
}

const char *
bw_workbook_get_fault (BwWorkbook *self)
{
  return self->fault;
}

void
bw_workbook_prepare (BwProject *project)
{
  g_autofree char *date = bw_observed_today ();
  g_auto (BwWoven) piece = { 0 };
  if (bw_observed_piece (&piece, project, date))
    bw_project_ensure_id (project);
}

void
bw_workbook_note (BwWorkbook *self, BwProject *project)
{
  g_autofree char *date = bw_observed_today ();
  Job *job = g_new0 (Job, 1);
  job->notes = TRUE;
  if (bw_observed_piece (&job->piece, project, date))
    begin (self, job);
  else
    job_free (job);
}
