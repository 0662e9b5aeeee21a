/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One job at a time: a wish that changes while one runs stops it and begins again with what is
 * wanted last. */
#include "config.h"

#include "app/trays/photo-pane.h"

#include "app/kit/words.h"
#include "app/trays/photo-job.h"
#include "app/trays/photo-sight.h"

#include <glib/gi18n-lib.h>

#define LOOK_MS 100 /* between two looks at how far the work is */

struct _BwPhotoPane {
  GtkWidget parent_instance;
  GtkWidget *box, *work;
  BwPhotoSight *sight;
  GtkDropDown *ground;
  GtkCheckButton *suggest;
  GtkSpinButton *count;
  GtkProgressBar *progress;
  GtkLabel *told;
  GFile *file;
  GdkPixbuf *photo;
  BwPhotoWish wish;
  BwPhotoTray found;
  GCancellable *stop; /* NULL: nothing is under way */
  BwPhotoJob *job;    /* the thread's, to look at its progress alone */
  guint look;
  gboolean again, showing;
};

G_DEFINE_FINAL_TYPE (BwPhotoPane, bw_photo_pane, GTK_TYPE_WIDGET)

enum { FOUND, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- What is told ------------------------------------------------------------------------------
 */

/* Owned. */
static char *
found_words (const BwPhotoTray *found, const BwPhotoWish *wish)
{
  if (found->n == 0)
    return g_strdup (_ ("Nothing can be seen in this photograph."));
  g_autofree char *colours = g_strdup_printf (
      ngettext ("%d colour is found.", "%d colours are found.", (gulong)found->n), found->n);
  g_autofree char *fewer
      = wish->k > found->n ? g_strdup_printf (_ ("There are no more than these.")) : g_strdup ("");
  g_autofree char *ground
      = found->has_ground ? g_strdup_printf (
            _ ("The ground, %.0f %% of the photograph, is left out."), 100 * found->ground_share)
        : wish->ground == BW_PHOTO_GROUND_NONE
            ? g_strdup ("")
            : g_strdup (_ ("No ground was found to leave out; click on it."));
  return g_strjoin (" ", colours, *fewer ? fewer : ground, *fewer ? ground : NULL, NULL);
}

static void
tell (BwPhotoPane *self, const char *words)
{
  bw_label_set_words (self->told, words);
}

static void
show (BwPhotoPane *self)
{
  self->showing = TRUE;
  bw_photo_sight_show (self->sight, self->photo, &self->found, &self->wish);
  gtk_drop_down_set_selected (self->ground, self->wish.ground);
  gtk_widget_set_sensitive (GTK_WIDGET (self->count), self->wish.k > 0);
  if (self->wish.k == 0 && self->found.n > 0)
    gtk_spin_button_set_value (self->count, self->found.n);
  gtk_widget_set_visible (self->work, self->stop != NULL);
  self->showing = FALSE;
}

/* --- The work ----------------------------------------------------------------------------------
 */

static gboolean
look (gpointer data)
{
  BwPhotoPane *self = data;
  int per_mille = g_atomic_int_get (&self->job->per_mille);
  if (per_mille < 0)
    gtk_progress_bar_pulse (self->progress);
  else
    gtk_progress_bar_set_fraction (self->progress, per_mille / 1000.0);
  return G_SOURCE_CONTINUE;
}

static void start (BwPhotoPane *self);

static void
take (BwPhotoPane *self, BwPhotoJob *job)
{
  g_autofree char *words = found_words (&job->found, &job->wish);
  g_clear_object (&self->file);
  g_set_object (&self->photo, job->photo);
  self->found = job->found;
  tell (self, words);
  g_signal_emit (self, signals[FOUND], 0);
}

static void
done (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwPhotoPane) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwPhotoJob) job = bw_photo_job_finish (result, &error);
  gboolean again = self->again;
  g_clear_handle_id (&self->look, g_source_remove);
  g_clear_object (&self->stop);
  self->job = NULL;
  self->again = FALSE;
  if (!self->box) /* the pane was closed meanwhile */
    return;
  if (job)
    take (self, job);
  else if (!again)
    tell (self, g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) ? _ ("Stopped.")
                                                                          : error->message);
  if (again)
    start (self);
  show (self);
}

static void
start (BwPhotoPane *self)
{
  if (self->stop) {
    self->again = TRUE;
    g_cancellable_cancel (self->stop);
    return;
  }
  if (!self->file && !self->photo)
    return;
  self->job = g_new0 (BwPhotoJob, 1);
  self->job->file = self->file ? g_object_ref (self->file) : NULL;
  self->job->photo = self->photo ? g_object_ref (self->photo) : NULL;
  self->job->wish = self->wish;
  self->stop = g_cancellable_new ();
  self->look = g_timeout_add (LOOK_MS, look, self);
  bw_photo_job_start (self->job, self->stop, done, g_object_ref (self));
  show (self);
}

void
bw_photo_pane_open (BwPhotoPane *self, GFile *file)
{
  g_return_if_fail (BW_IS_PHOTO_PANE (self));
  g_set_object (&self->file, file);
  start (self);
}

void
bw_photo_pane_get_tray (BwPhotoPane *self, BwTray *tray)
{
  g_return_if_fail (BW_IS_PHOTO_PANE (self));
  *tray = (BwTray){ 0 };
  for (int i = 0; i < self->found.n; i++) {
    tray->colour[i] = (BwColour){ .id = bw_tray_free_letter (tray), .srgb = self->found.srgb[i] };
    tray->n_colours++;
  }
}

/* --- The maker's hands -------------------------------------------------------------------------
 */

static void
changed (BwPhotoPane *self)
{
  if (self->showing || !self->box)
    return;
  self->wish.k = gtk_check_button_get_active (self->suggest)
                     ? 0
                     : gtk_spin_button_get_value_as_int (self->count);
  self->wish.ground = (BwPhotoGround)gtk_drop_down_get_selected (self->ground);
  start (self);
}

static void
marked (BwPhotoPane *self, double x, double y)
{
  self->wish.ground = BW_PHOTO_GROUND_MARKED;
  self->wish.x = x;
  self->wish.y = y;
  start (self);
  show (self);
}

static void
stop_clicked (BwPhotoPane *self)
{
  self->again = FALSE;
  if (self->stop)
    g_cancellable_cancel (self->stop);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
bw_photo_pane_dispose (GObject *object)
{
  BwPhotoPane *self = BW_PHOTO_PANE (object);
  stop_clicked (self);
  g_clear_handle_id (&self->look, g_source_remove);
  g_clear_object (&self->file);
  g_clear_object (&self->photo);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_photo_pane_parent_class)->dispose (object);
}

static void
bw_photo_pane_class_init (BwPhotoPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_photo_pane_dispose;
  g_type_ensure (BW_TYPE_PHOTO_SIGHT);
  signals[FOUND] = g_signal_new ("found", BW_TYPE_PHOTO_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/photo-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, box);
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, work);
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, sight);
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, ground);
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, suggest);
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, count);
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, progress);
  gtk_widget_class_bind_template_child (widget_class, BwPhotoPane, told);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, marked);
  gtk_widget_class_bind_template_callback (widget_class, stop_clicked);
}

static void
bw_photo_pane_init (BwPhotoPane *self)
{
  self->wish = (BwPhotoWish){ 0, BW_PHOTO_GROUND_BORDER, 0.5, 0.5 };
  self->showing = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
  self->showing = FALSE;
  show (self);
}
