/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One job at a time: a change while one runs stops it and begins again with what is wanted last. */
#include "config.h"

#include "app/ask/file-dialog.h"
#include "app/draw/picture-file.h"
#include "app/draw/picture-job.h"
#include "app/draw/picture-panel.h"
#include "project/fault/fault-error.h"
#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define LOOK_MS 100        /* between two looks at how far the work is */
#define PATIENCE_US 150000 /* work that is done sooner shows no progress */

struct _BwPicturePanel {
  BwCard parent_instance;
  GdkPixbuf *picture;
  BwPlacement placement;
  GCancellable *reading, *working; /* NULL when nothing is under way */
  BwPictureJob *job;               /* the thread's, to look at its progress alone */
  gint64 began, read_since;
  guint look, read_look;
  gboolean again;
  gboolean showing;
  GtkLabel *name, *problem;
  GtkWidget *fields, *work, *count_row, *drop, *keep;
  GtkSpinButton *size, *turn, *along, *up, *count;
  GtkDropDown *source;
  GtkCheckButton *dither;
  GtkProgressBar *progress;
};

G_DEFINE_FINAL_TYPE (BwPicturePanel, bw_picture_panel, BW_TYPE_CARD)

enum { PLACED, N_SIGNALS };
static guint signals[N_SIGNALS];

static BwProject *
project_of (BwPicturePanel *self)
{
  return bw_card_get_project (BW_CARD (self));
}

static BwBandGrid
grid_of (BwPicturePanel *self)
{
  const BwDesign *design = bw_card_get_design (BW_CARD (self));
  return (BwBandGrid){ design->band.columns, design->band.rows, design->gauge.pitch_mm,
                       design->gauge.column_mm };
}

/* The width at 100 %: the whole height of the band is covered. */
static double
whole_width (BwPicturePanel *self)
{
  BwPicture picture = bw_picture_of (self->picture);
  BwBandGrid grid = grid_of (self);
  return bw_placement_cover (&picture, &grid, 0).width_mm;
}

static void
show_problem (BwPicturePanel *self, const char *sentence)
{
  gtk_label_set_text (self->problem, sentence ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (self->problem), sentence != NULL);
}

/* Once it is taken away, or laid, there is nothing more to take hold of. */
static gboolean
is_laid_over (BwPicturePanel *self)
{
  return self->working || (project_of (self) && bw_project_has_trial (project_of (self)));
}

static void
show_state (BwPicturePanel *self)
{
  gboolean shown = project_of (self) && bw_project_has_trial (project_of (self));
  g_signal_emit (self, signals[PLACED], 0);
  gtk_widget_set_sensitive (self->fields, self->picture != NULL);
  gtk_widget_set_sensitive (self->drop, shown);
  gtk_widget_set_sensitive (self->keep, self->picture != NULL && !self->working);
  gtk_widget_set_visible (self->count_row, gtk_drop_down_get_selected (self->source) == 1);
}

static void
show_placement (BwPicturePanel *self)
{
  const BwPlacement *at = &self->placement;
  self->showing = TRUE;
  if (self->picture)
    gtk_spin_button_set_value (self->size, 100 * at->width_mm / whole_width (self));
  gtk_spin_button_set_value (self->turn, at->turn_deg - 360 * floor (at->turn_deg / 360 + 0.5));
  gtk_spin_button_set_value (self->along, at->u);
  gtk_spin_button_set_value (self->up, at->v);
  self->showing = FALSE;
  show_state (self);
}

/* What is done sooner than one can read it is not told. words may be NULL; share < 0: not known. */
static void
show_work (BwPicturePanel *self, gint64 since, const char *words, double share)
{
  gtk_widget_set_visible (self->work, g_get_monotonic_time () - since > PATIENCE_US);
  gtk_progress_bar_set_show_text (self->progress, words != NULL);
  gtk_progress_bar_set_text (self->progress, words);
  if (share < 0)
    gtk_progress_bar_pulse (self->progress);
  else
    gtk_progress_bar_set_fraction (self->progress, MIN (share, 1));
}

/* --- the work ------------------------------------------------------------------------------- */

static void start (BwPicturePanel *self);

static gboolean
look (gpointer data)
{
  BwPicturePanel *self = data;
  if (!self->reading)
    show_work (self, self->began, NULL, g_atomic_int_get (&self->job->per_mille) / 1000.0);
  return G_SOURCE_CONTINUE;
}

/* The maker may have drawn, or changed the band or the tray, while the thread was at work. */
static gboolean
is_overtaken (BwPicturePanel *self, const BwPictureJob *job)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  return !bw_drawing_equal (bw_project_get_drawing (project_of (self)), job->base)
         || job->tray.n_colours < tray->n_colours
         || memcmp (job->tray.colour, tray->colour, sizeof *tray->colour * (gsize)tray->n_colours)
                != 0;
}

static void
show_job (BwPicturePanel *self, const BwPictureJob *job)
{
  g_autoptr (GError) error = NULL;
  if (is_overtaken (self, job)) {
    start (self);
    return;
  }
  bw_draft_settle (bw_card_get_draft (BW_CARD (self)));
  bw_session_keep_locked (bw_draft_get_session (bw_card_get_draft (BW_CARD (self))), job->drawing);
  bw_project_try (project_of (self), _ ("Picture"), job->n_new ? &job->tray : NULL, job->drawing,
                  &error);
  show_problem (self, error ? bw_fault_sentence (error) : NULL);
}

static void
job_done (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwPicturePanel) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwPictureJob) job = bw_picture_job_finish (result, &error);
  gboolean again = self->again, seen = gtk_widget_get_mapped (GTK_WIDGET (self));
  g_clear_handle_id (&self->look, g_source_remove);
  g_clear_object (&self->working);
  self->job = NULL;
  self->again = FALSE;
  gtk_widget_set_visible (self->work, self->reading != NULL);
  if (seen && again)
    start (self);
  else if (seen && job)
    show_job (self, job);
  else if (error && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    show_problem (self, error->message);
  show_state (self);
}

static void
start (BwPicturePanel *self)
{
  BwBandGrid grid = grid_of (self);
  if (!self->picture || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (self->working) {
    self->again = TRUE;
    g_cancellable_cancel (self->working);
    return;
  }
  self->job = bw_picture_job_new (self->picture, &self->placement, &grid,
                                  bw_project_get_tray (project_of (self)),
                                  bw_drawing_copy (bw_project_get_drawing (project_of (self))));
  self->job->dither = gtk_check_button_get_active (self->dither);
  self->job->n_new = gtk_drop_down_get_selected (self->source) == 1
                         ? gtk_spin_button_get_value_as_int (self->count)
                         : 0;
  self->working = g_cancellable_new ();
  self->began = g_get_monotonic_time ();
  self->look = g_timeout_add (LOOK_MS, look, self);
  bw_picture_job_start (self->job, self->working, job_done, g_object_ref (self));
  show_state (self);
}

static void
stop (BwPicturePanel *self)
{
  self->again = FALSE;
  if (self->working)
    g_cancellable_cancel (self->working);
}

/* --- reading -------------------------------------------------------------------------------- */

static void
read_on_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  GdkPixbuf *pixbuf = bw_picture_read (data, cancellable, &error);
  if (pixbuf)
    g_task_return_pointer (task, pixbuf, g_object_unref);
  else
    g_task_return_error (task, error);
}

static gboolean
look_at_reading (gpointer data)
{
  BwPicturePanel *self = data;
  show_work (self, self->read_since, _ ("Reading…"), -1);
  return G_SOURCE_CONTINUE;
}

/* Nothing more will come of what is being read. */
static void
end_reading (BwPicturePanel *self)
{
  if (self->reading)
    g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  g_clear_handle_id (&self->read_look, g_source_remove);
}

/* In the middle of what the join is farthest from: the front of the piece. */
static void
cover (BwPicturePanel *self)
{
  BwPicture picture = bw_picture_of (self->picture);
  BwBandGrid grid = grid_of (self);
  self->placement = bw_placement_cover (&picture, &grid, bw_lattice_beads_around (grid.rows) / 2.0);
}

static void
picture_read (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwPicturePanel) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkPixbuf) pixbuf = g_task_propagate_pointer (G_TASK (result), &error);
  GFile *file = g_task_get_task_data (G_TASK (result));
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  end_reading (self);
  gtk_widget_set_visible (self->work, FALSE);
  show_problem (self, error ? error->message : NULL);
  if (!pixbuf || !project_of (self))
    return;
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *words
      = g_strdup_printf (_ ("%s, %d × %d points"), name, gdk_pixbuf_get_width (pixbuf),
                         gdk_pixbuf_get_height (pixbuf));
  gtk_label_set_text (self->name, words);
  g_set_object (&self->picture, pixbuf);
  cover (self);
  show_placement (self);
  start (self);
}

void
bw_picture_panel_open (BwPicturePanel *self, GFile *file)
{
  g_return_if_fail (BW_IS_PICTURE_PANEL (self) && G_IS_FILE (file));
  end_reading (self);
  self->reading = g_cancellable_new ();
  self->read_since = g_get_monotonic_time ();
  self->read_look = g_timeout_add (LOOK_MS, look_at_reading, self);
  g_autoptr (GTask) task = g_task_new (NULL, self->reading, picture_read, g_object_ref (self));
  g_task_set_task_data (task, g_object_ref (file), g_object_unref);
  g_task_run_in_thread (task, read_on_thread);
}

/* --- the maker's hands ---------------------------------------------------------------------- */

gboolean
bw_picture_panel_get_placement (BwPicturePanel *self, BwPlacement *placement, double *aspect)
{
  g_return_val_if_fail (BW_IS_PICTURE_PANEL (self), FALSE);
  if (!self->picture || !gtk_widget_get_mapped (GTK_WIDGET (self)) || !is_laid_over (self))
    return FALSE;
  *placement = self->placement;
  *aspect = (double)gdk_pixbuf_get_height (self->picture) / gdk_pixbuf_get_width (self->picture);
  return TRUE;
}

void
bw_picture_panel_set_placement (BwPicturePanel *self, const BwPlacement *placement)
{
  g_return_if_fail (BW_IS_PICTURE_PANEL (self));
  if (!self->picture)
    return;
  double whole = whole_width (self);
  self->placement = *placement;
  self->placement.width_mm = CLAMP (placement->width_mm, 0.05 * whole, 50 * whole);
  show_placement (self);
  start (self);
}

static void
changed (BwPicturePanel *self)
{
  if (self->showing || !self->picture)
    return;
  self->placement.width_mm = whole_width (self) * gtk_spin_button_get_value (self->size) / 100;
  self->placement.turn_deg = gtk_spin_button_get_value (self->turn);
  self->placement.u = gtk_spin_button_get_value (self->along);
  self->placement.v = gtk_spin_button_get_value (self->up);
  show_state (self);
  start (self);
}

static void
source_chosen (BwPicturePanel *self)
{
  show_state (self);
  changed (self);
}

static void
cover_clicked (BwPicturePanel *self)
{
  double u = self->placement.u;
  cover (self);
  self->placement.u = u;
  show_placement (self);
  start (self);
}

/* Whole round the stone: what is then too high goes beyond the band's edges. */
static void
round_clicked (BwPicturePanel *self)
{
  BwBandGrid grid = grid_of (self);
  self->placement.width_mm = bw_lattice_beads_around (grid.rows) * grid.pitch_mm;
  self->placement.turn_deg = 0;
  self->placement.v = grid.columns / 2.0;
  show_placement (self);
  start (self);
}

static void
file_chosen (GFile *file, gpointer data)
{
  bw_picture_panel_open (data, file);
}

static void
open_clicked (BwPicturePanel *self)
{
  bw_file_dialog_open (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), BW_FILES_DRAWN,
                       file_chosen, self);
}

static void
keep_clicked (BwPicturePanel *self)
{
  if (bw_project_has_trial (project_of (self)))
    bw_project_keep_trial (project_of (self));
  else
    start (self);
  show_state (self);
}

static void
stop_clicked (BwPicturePanel *self)
{
  stop (self);
  end_reading (self);
  gtk_widget_set_visible (self->work, self->working != NULL);
}

static void
drop_clicked (BwPicturePanel *self)
{
  stop_clicked (self);
  bw_project_drop_trial (project_of (self));
}

static gboolean
enter_pressed (GtkWidget *widget, GVariant *args, gpointer data)
{
  BwPicturePanel *self = BW_PICTURE_PANEL (widget);
  if (gtk_widget_get_sensitive (self->keep))
    keep_clicked (self);
  return TRUE;
}

static gboolean
escape_pressed (GtkWidget *widget, GVariant *args, gpointer data)
{
  BwPicturePanel *self = BW_PICTURE_PANEL (widget);
  gboolean busy = self->reading || self->working || bw_project_has_trial (project_of (self));
  drop_clicked (self);
  return busy;
}

/* --- the widget ----------------------------------------------------------------------------- */

static void
bw_picture_panel_refresh (BwCard *card)
{
  show_state (BW_PICTURE_PANEL (card));
}

static void
bw_picture_panel_map (GtkWidget *widget)
{
  BwPicturePanel *self = BW_PICTURE_PANEL (widget);
  GTK_WIDGET_CLASS (bw_picture_panel_parent_class)->map (widget);
  if (!project_of (self))
    return;
  show_placement (self);
  start (self);
}

static void
bw_picture_panel_unmap (GtkWidget *widget)
{
  BwPicturePanel *self = BW_PICTURE_PANEL (widget);
  GTK_WIDGET_CLASS (bw_picture_panel_parent_class)->unmap (widget);
  stop (self);
  if (project_of (self))
    bw_project_drop_trial (project_of (self));
  g_signal_emit (self, signals[PLACED], 0);
}

static void
bw_picture_panel_dispose (GObject *object)
{
  BwPicturePanel *self = BW_PICTURE_PANEL (object);
  stop (self);
  g_clear_handle_id (&self->look, g_source_remove);
  end_reading (self);
  g_clear_object (&self->picture);
  G_OBJECT_CLASS (bw_picture_panel_parent_class)->dispose (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, name);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, problem);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, fields);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, work);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, count_row);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, drop);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, keep);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, size);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, turn);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, along);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, up);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, count);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, source);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, dither);
  gtk_widget_class_bind_template_child (widget_class, BwPicturePanel, progress);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, source_chosen);
  gtk_widget_class_bind_template_callback (widget_class, cover_clicked);
  gtk_widget_class_bind_template_callback (widget_class, round_clicked);
  gtk_widget_class_bind_template_callback (widget_class, open_clicked);
  gtk_widget_class_bind_template_callback (widget_class, keep_clicked);
  gtk_widget_class_bind_template_callback (widget_class, drop_clicked);
  gtk_widget_class_bind_template_callback (widget_class, stop_clicked);
}

static void
bw_picture_panel_class_init (BwPicturePanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_picture_panel_dispose;
  BW_CARD_CLASS (klass)->refresh = bw_picture_panel_refresh;
  widget_class->map = bw_picture_panel_map;
  widget_class->unmap = bw_picture_panel_unmap;
  signals[PLACED] = g_signal_new ("placed", BW_TYPE_PICTURE_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_pressed, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Return, GDK_CONTROL_MASK, enter_pressed,
                                NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_Enter, GDK_CONTROL_MASK, enter_pressed,
                                NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/picture-panel.ui");
  bind_template (widget_class);
}

static void
bw_picture_panel_init (BwPicturePanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  show_state (self);
}
