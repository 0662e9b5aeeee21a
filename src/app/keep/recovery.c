/* SPDX-License-Identifier: GPL-3.0-or-later */
/* When a copy is due, and who writes it. The moment is taken on the main thread; turning it into
 * text and bringing it to the disk is not the maker's time to spend. */
#include "config.h"

#include "app/keep/copy-file.h"
#include "app/keep/recovery.h"
#include "app/kit/settings.h"
#include "project/snapshot.h"

#include <glib/gi18n-lib.h>

#define QUIET_MS 2000
#define MOST_MS 10000
/* A row woven is work of hands that no undo brings back, and there is one only now and then. */
#define PROGRESS_MS 500
#define BUSY_MS 200

struct _BwRecovery {
  GObject parent_instance;
  BwProject *project; /* NULL once it has ended */
  BwCopyFile *copy;
  guint serial; /* of what was last asked of the copy */
  guint timer;
  gint64 deadline;  /* monotonic µs: the copy is due by then; while stale */
  gboolean stale;   /* changed since the last copy was begun */
  gboolean writing; /* a thread is at it */
  gboolean told;    /* a failure was told already */
};

enum { FAILED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwRecovery, bw_recovery, G_TYPE_OBJECT)

/* What a writing thread owns. */
typedef struct {
  BwCopyFile *copy;
  BwSnapshot *snapshot;
  BwCopyLabel label;
  guint serial;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  bw_copy_file_unref (job->copy);
  bw_snapshot_free (job->snapshot);
  bw_copy_label_clear (&job->label);
  g_free (job);
}

static Job *
job_new (BwRecovery *self)
{
  GFile *file = bw_project_get_file (self->project);
  BwExamples examples = bw_project_get_examples (self->project);
  Job *job = g_new0 (Job, 1);
  job->copy = bw_copy_file_ref (self->copy);
  job->snapshot = bw_snapshot_new (self->project);
  job->label.title = g_strdup (bw_project_get_title (self->project));
  job->label.uri = file ? g_file_get_uri (file) : NULL;
  if (bw_project_get_stamp (self->project)->known)
    job->label.stamp = bw_stamp_to_text (bw_project_get_stamp (self->project));
  job->label.examples = bw_examples_to_text (&examples);
  job->serial = ++self->serial;
  return job;
}

static gboolean
job_run (const Job *job, GError **error)
{
  gsize length;
  g_autofree char *data = bw_snapshot_to_data (job->snapshot, &length);
  return bw_copy_file_write (job->copy, job->serial, &job->label, data, length, error);
}

static void
run_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  if (job_run (data, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void arm (BwRecovery *self, gint64 due);

/* Told once; tried again later, for disks are made room on. */
static void
copy_failed (BwRecovery *self, const GError *error)
{
  self->stale = TRUE;
  self->deadline = g_get_monotonic_time () + MOST_MS * 1000;
  arm (self, self->deadline);
  if (self->told)
    return;
  self->told = TRUE;
  g_autofree char *sentence = g_strdup_printf (
      _ ("No safety copy of your unsaved work could be kept: %s."), error->message);
  g_signal_emit (self, signals[FAILED], 0, sentence);
}

static void
written (GObject *object, GAsyncResult *result, gpointer data)
{
  BwRecovery *self = BW_RECOVERY (object);
  g_autoptr (GError) error = NULL;
  self->writing = FALSE;
  if (!g_task_propagate_boolean (G_TASK (result), &error) && self->project)
    copy_failed (self, error);
}

static void
write_in_thread (BwRecovery *self)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, written, NULL);
  self->stale = FALSE;
  self->writing = TRUE;
  g_task_set_task_data (task, job_new (self), job_free);
  g_task_run_in_thread (task, run_in_thread);
}

static gboolean
wants_copy (BwRecovery *self)
{
  return self->project && self->stale && bw_project_get_modified (self->project)
         && bw_settings_get_flag (bw_settings_get (), "autosave");
}

static void
remove_copy (BwRecovery *self)
{
  bw_copy_file_remove (self->copy, ++self->serial);
  self->stale = TRUE;
}

static gboolean
due (gpointer data)
{
  BwRecovery *self = data;
  self->timer = 0;
  if (!bw_project_get_modified (self->project))
    remove_copy (self);
  else if (self->writing)
    arm (self, g_get_monotonic_time () + BUSY_MS * 1000);
  else if (wants_copy (self))
    write_in_thread (self);
  return G_SOURCE_REMOVE;
}

static void
arm (BwRecovery *self, gint64 when)
{
  gint64 wait_us = MAX (when - g_get_monotonic_time (), 0);
  g_clear_handle_id (&self->timer, g_source_remove);
  self->timer = g_timeout_add ((guint)(wait_us / 1000), due, self);
}

static void
project_changed (BwRecovery *self, guint what)
{
  gint64 now = g_get_monotonic_time ();
  if (!self->stale || !self->timer)
    self->deadline = now + MOST_MS * 1000;
  if (what & BW_CHANGED_PROGRESS)
    self->deadline = MIN (self->deadline, now + PROGRESS_MS * 1000);
  self->stale = TRUE;
  arm (self, MIN (self->deadline, now + QUIET_MS * 1000));
}

void
bw_recovery_keep (BwRecovery *self)
{
  g_autoptr (GError) error = NULL;
  g_return_if_fail (BW_IS_RECOVERY (self));
  if (!self->project)
    return;
  if (!bw_project_get_modified (self->project)) {
    g_clear_handle_id (&self->timer, g_source_remove);
    remove_copy (self);
    return;
  }
  self->stale = self->stale || self->writing;
  if (!wants_copy (self))
    return;
  Job *job = job_new (self);
  self->stale = FALSE;
  g_clear_handle_id (&self->timer, g_source_remove);
  if (!job_run (job, &error))
    copy_failed (self, error);
  job_free (job);
}

static void
leave_project (BwRecovery *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_clear_object (&self->project);
}

void
bw_recovery_end (BwRecovery *self)
{
  g_return_if_fail (BW_IS_RECOVERY (self));
  if (self->project)
    remove_copy (self);
  leave_project (self);
}

gboolean
bw_recovery_lay_work_aside (BwRecovery *self, GError **error)
{
  g_return_val_if_fail (BW_IS_RECOVERY (self) && self->project, FALSE);
  Job *job = job_new (self);
  gboolean kept = job_run (job, error);
  job_free (job);
  if (kept && !bw_copy_file_lay_aside (self->copy, ++self->serial)) {
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                         _ ("there is no room for what is discarded"));
    kept = FALSE;
  }
  return kept;
}

/* The copy stays: nobody ended it on purpose. */
static void
bw_recovery_finalize (GObject *object)
{
  BwRecovery *self = BW_RECOVERY (object);
  leave_project (self);
  g_clear_pointer (&self->copy, bw_copy_file_unref);
  G_OBJECT_CLASS (bw_recovery_parent_class)->finalize (object);
}

static void
bw_recovery_class_init (BwRecoveryClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_recovery_finalize;
  signals[FAILED] = g_signal_new ("failed", BW_TYPE_RECOVERY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
bw_recovery_init (BwRecovery *self)
{
  self->stale = TRUE;
}

BwRecovery *
bw_recovery_new (BwProject *project, BwLeftover *leftover)
{
  g_return_val_if_fail (BW_IS_PROJECT (project), NULL);
  BwRecovery *self = g_object_new (BW_TYPE_RECOVERY, NULL);
  self->copy = leftover ? bw_leftover_adopt (leftover) : bw_copy_file_new ();
  self->stale = leftover == NULL;
  self->project = g_object_ref (project);
  g_signal_connect_swapped (project, "changed", G_CALLBACK (project_changed), self);
  return self;
}
