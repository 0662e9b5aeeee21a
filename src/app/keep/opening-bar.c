/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A thread that waits for a disk cannot be ended, only left alone: it holds all that it touches,
 * and what it brings in the end is dropped. */
#include "config.h"

#include "app/keep/opening-bar.h"
#include "project/file/file-name.h"

#include <glib/gi18n-lib.h>

#define LONG_MS 300 /* before that nobody has begun to wonder */
#define BEAT_MS 100

struct _BwOpeningBar {
  GtkBox parent_instance;
  GtkLabel *words;
  GtkProgressBar *progress;
  GPtrArray *openings; /* of Opening, oldest first */
  guint beat;
};

/* One file. Held by its task and, while it is of interest, by its bar. */
typedef struct {
  gatomicrefcount references;
  BwOpeningBar *bar; /* NULL once the bar is gone */
  GFile *file;
  GCancellable *stop;
  int per_mille; /* atomic */
  BwOpened opened;
  gpointer data;
} Opening;

G_DEFINE_FINAL_TYPE (BwOpeningBar, bw_opening_bar, GTK_TYPE_BOX)

static void
opening_unref (gpointer data)
{
  Opening *opening = data;
  if (!g_atomic_ref_count_dec (&opening->references))
    return;
  g_object_unref (opening->file);
  g_object_unref (opening->stop);
  g_free (opening);
}

static void
load (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Opening *opening = data;
  GError *error = NULL;
  BwProject *project
      = bw_project_load_stoppable (opening->file, opening->stop, &opening->per_mille, &error);
  if (project)
    g_task_return_pointer (task, project, g_object_unref);
  else
    g_task_return_error (task, error);
}

static void
show_progress (BwOpeningBar *self)
{
  const Opening *opening = g_ptr_array_index (self->openings, self->openings->len - 1);
  int per_mille = g_atomic_int_get (&opening->per_mille);
  g_autofree char *name = bw_file_shown (opening->file);
  g_autofree char *words = g_strdup_printf (_ ("Opening “%s”…"), name);
  gtk_label_set_text (self->words, words);
  /* What is read is still to be understood, and nobody knows how long that takes. */
  if (per_mille < 1000)
    gtk_progress_bar_set_fraction (self->progress, per_mille / 1000.0);
  else
    gtk_progress_bar_pulse (self->progress);
}

static gboolean
beat (gpointer data)
{
  BwOpeningBar *self = data;
  show_progress (self);
  return G_SOURCE_CONTINUE;
}

/* A window that is opened for this file alone is not seen before; now there is something to see. */
static gboolean
takes_long (gpointer data)
{
  BwOpeningBar *self = data;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  self->beat = g_timeout_add (BEAT_MS, beat, self);
  show_progress (self);
  gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
  if (root && !gtk_widget_get_visible (GTK_WIDGET (root)))
    gtk_window_present (GTK_WINDOW (root));
  return G_SOURCE_REMOVE;
}

static void
rest (BwOpeningBar *self)
{
  g_clear_handle_id (&self->beat, g_source_remove);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

static void
loaded (GObject *object, GAsyncResult *result, gpointer data)
{
  Opening *opening = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = g_task_propagate_pointer (G_TASK (result), &error);
  g_autoptr (BwOpeningBar) bar = opening->bar ? g_object_ref (opening->bar) : NULL;
  if (!bar)
    return;
  g_ptr_array_remove (bar->openings, opening); /* the task holds it still */
  if (bar->openings->len == 0)
    rest (bar);
  opening->opened (opening->file, project, error, opening->data);
}

static void
start (Opening *opening)
{
  g_autoptr (GTask) task = g_task_new (NULL, opening->stop, loaded, opening);
  g_task_set_return_on_cancel (task, TRUE);
  g_atomic_ref_count_inc (&opening->references);
  g_task_set_task_data (task, opening, opening_unref);
  g_task_run_in_thread (task, load);
}

void
bw_opening_bar_open (BwOpeningBar *self, GFile *file, BwOpened opened, gpointer data)
{
  g_return_if_fail (BW_IS_OPENING_BAR (self) && G_IS_FILE (file));
  Opening *opening = g_new0 (Opening, 1);
  g_atomic_ref_count_init (&opening->references);
  opening->bar = self;
  opening->file = g_object_ref (file);
  opening->stop = g_cancellable_new ();
  opening->opened = opened;
  opening->data = data;
  g_ptr_array_add (self->openings, opening);
  if (!self->beat)
    self->beat = g_timeout_add (LONG_MS, takes_long, self);
  start (opening);
}

void
bw_opening_bar_stop (BwOpeningBar *self)
{
  g_return_if_fail (BW_IS_OPENING_BAR (self));
  for (guint i = 0; i < self->openings->len; i++)
    g_cancellable_cancel (((Opening *)g_ptr_array_index (self->openings, i))->stop);
}

gboolean
bw_opening_bar_is_busy (BwOpeningBar *self)
{
  g_return_val_if_fail (BW_IS_OPENING_BAR (self), FALSE);
  return self->openings->len > 0;
}

static void
bw_opening_bar_dispose (GObject *object)
{
  BwOpeningBar *self = BW_OPENING_BAR (object);
  g_clear_handle_id (&self->beat, g_source_remove);
  for (guint i = 0; i < self->openings->len; i++) {
    Opening *opening = g_ptr_array_index (self->openings, i);
    opening->bar = NULL;
    g_cancellable_cancel (opening->stop);
  }
  g_ptr_array_set_size (self->openings, 0);
  G_OBJECT_CLASS (bw_opening_bar_parent_class)->dispose (object);
}

static void
bw_opening_bar_finalize (GObject *object)
{
  g_ptr_array_unref (BW_OPENING_BAR (object)->openings);
  G_OBJECT_CLASS (bw_opening_bar_parent_class)->finalize (object);
}

static void
bw_opening_bar_class_init (BwOpeningBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_opening_bar_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_opening_bar_finalize;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/opening-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, BwOpeningBar, words);
  gtk_widget_class_bind_template_child (widget_class, BwOpeningBar, progress);
  gtk_widget_class_bind_template_callback (widget_class, bw_opening_bar_stop);
}

static void
bw_opening_bar_init (BwOpeningBar *self)
{
  self->openings = g_ptr_array_new_with_free_func (opening_unref);
  gtk_widget_init_template (GTK_WIDGET (self));
}
