/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the safety copy of one project: NAME.bandwright is the document, NAME.info tells its title
 * and its file and is locked as long as this program lives. */
#include "config.h"

#include "app/keep/recovery.h"
#include "app/keep/recovery-folder.h"
#include "app/kit/settings.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <sys/file.h>
#include <unistd.h>

#define EVERY_S 20
/* A row woven is work of hands that no undo brings back, and there is one only now and then. */
#define PROGRESS_MS 500

struct _BwRecovery {
  GObject parent_instance;
  BwProject *project;
  char *copy; /* path of NAME.bandwright */
  char *info; /* path of NAME.info */
  int lock;   /* its open descriptor; −1 while there is no copy */
  guint timer;
  guint soon;     /* a copy is due for a row just woven */
  gboolean stale; /* changed since the copy was written */
  gboolean told;  /* a failure was told already */
};

enum { FAILED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwRecovery, bw_recovery, G_TYPE_OBJECT)

char *
bw_recovery_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "bandwright", "recovery", NULL);
}

static gboolean
open_lock (BwRecovery *self)
{
  g_autofree char *folder = bw_recovery_folder ();
  if (self->lock >= 0)
    return TRUE;
  if (g_mkdir_with_parents (folder, 0700) != 0)
    return FALSE;
  self->lock = g_open (self->info, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  return self->lock >= 0 && flock (self->lock, LOCK_EX | LOCK_NB) == 0;
}

/* Written through the locked descriptor: a file put in its place would not carry the lock. */
static gboolean
write_info (BwRecovery *self)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  GFile *file = bw_project_get_file (self->project);
  g_autofree char *uri = file ? g_file_get_uri (file) : NULL;
  gsize length;
  g_key_file_set_string (keys, "copy", "title", bw_project_get_title (self->project));
  if (uri)
    g_key_file_set_string (keys, "copy", "file", uri);
  g_key_file_set_int64 (keys, "copy", "time", g_get_real_time () / G_USEC_PER_SEC);
  g_autofree char *text = g_key_file_to_data (keys, &length, NULL);
  return ftruncate (self->lock, 0) == 0 && pwrite (self->lock, text, length, 0) == (gssize)length;
}

static gboolean
write_copy (BwRecovery *self, GError **error)
{
  gsize length;
  g_autofree char *data = bw_project_to_data (self->project, &length);
  if (!open_lock (self) || !write_info (self)) {
    int saved = errno;
    g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (saved), g_strerror (saved));
    return FALSE;
  }
  return g_file_set_contents_full (self->copy, data, (gssize)length, G_FILE_SET_CONTENTS_CONSISTENT,
                                   0600, error);
}

static void
remove_copy (BwRecovery *self)
{
  if (self->lock < 0)
    return;
  g_unlink (self->copy);
  g_unlink (self->info);
  close (self->lock);
  self->lock = -1;
}

void
bw_recovery_keep (BwRecovery *self)
{
  g_autoptr (GError) error = NULL;
  g_return_if_fail (BW_IS_RECOVERY (self));
  if (!bw_project_get_modified (self->project)) {
    remove_copy (self);
    self->stale = TRUE;
    return;
  }
  if (!self->stale || !bw_settings_get_flag (bw_settings_get (), "autosave"))
    return;
  if (write_copy (self, &error)) {
    self->stale = FALSE;
    return;
  }
  if (!self->told) {
    g_autofree char *sentence = g_strdup_printf (
        _ ("No safety copy of your unsaved work could be kept: %s"), error->message);
    self->told = TRUE;
    g_signal_emit (self, signals[FAILED], 0, sentence);
  }
}

static gboolean
tick (gpointer data)
{
  bw_recovery_keep (data);
  return G_SOURCE_CONTINUE;
}

static gboolean
keep_now (gpointer data)
{
  BwRecovery *self = data;
  self->soon = 0;
  bw_recovery_keep (self);
  return G_SOURCE_REMOVE;
}

static void
project_changed (BwRecovery *self, guint what)
{
  self->stale = TRUE;
  if ((what & BW_CHANGED_PROGRESS) && !self->soon)
    self->soon = g_timeout_add (PROGRESS_MS, keep_now, self);
}

void
bw_recovery_end (BwRecovery *self)
{
  g_return_if_fail (BW_IS_RECOVERY (self));
  g_clear_handle_id (&self->timer, g_source_remove);
  g_clear_handle_id (&self->soon, g_source_remove);
  remove_copy (self);
}

static void
bw_recovery_finalize (GObject *object)
{
  BwRecovery *self = BW_RECOVERY (object);
  g_clear_handle_id (&self->timer, g_source_remove);
  g_clear_handle_id (&self->soon, g_source_remove);
  if (self->lock >= 0)
    close (self->lock); /* the copy stays: nobody ended it on purpose */
  g_signal_handlers_disconnect_by_data (self->project, self);
  g_clear_object (&self->project);
  g_free (self->copy);
  g_free (self->info);
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
  self->lock = -1;
  self->stale = TRUE;
}

BwRecovery *
bw_recovery_new (BwProject *project)
{
  g_return_val_if_fail (BW_IS_PROJECT (project), NULL);
  BwRecovery *self = g_object_new (BW_TYPE_RECOVERY, NULL);
  g_autofree char *folder = bw_recovery_folder ();
  g_autofree char *name = g_uuid_string_random ();
  g_autofree char *stem = g_build_filename (folder, name, NULL);
  self->copy = g_strconcat (stem, ".bandwright", NULL);
  self->info = g_strconcat (stem, ".info", NULL);
  self->project = g_object_ref (project);
  g_signal_connect_swapped (project, "changed", G_CALLBACK (project_changed), self);
  self->timer = g_timeout_add_seconds (EVERY_S, tick, self);
  return self;
}
