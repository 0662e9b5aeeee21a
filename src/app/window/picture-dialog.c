/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the picture goes is asked first, since making one may take long. The choices are remembered
 * while the program runs. The preview is the picture itself, small: one job at a time, and a choice
 * made meanwhile is followed by another. While the picture itself is made, the dialog stands aside:
 * the window goes on, and what is made is what was chosen. */
#include "config.h"

#include "app/ask/file-dialog.h"
#include "app/kit/part-names.h"
#include "app/ask/tell.h"
#include "app/window/picture-dialog.h"
#include "app/window/picture-files.h"
#include "app/window/still-job.h"
#include "preview/scene/played.h"
#include "preview/scene/seen-from.h"
#include "project/piece-name.h"

#include <glib/gi18n-lib.h>

#define PREVIEW_PX 360

/* In the order of the list. */
typedef enum { AS_SHOWN, FROM_FRONT, AT_JOIN, FROM_ABOVE, HANGING } View;
typedef enum { AS_ON_SCREEN, BEST } Quality;

struct _BwPictureDialog {
  GtkWindow parent_instance;
  BwDraft *draft;
  BwPictureMade made;
  gpointer made_data;
  GtkSpinButton *width;
  GtkSpinButton *height;
  GtkDropDown *ground;
  GtkDropDown *view;
  GtkPicture *preview;
  GtkWidget *choices;
  GtkWidget *save;
  GtkDropDown *quality;
  GtkDropDown *kind;
  GtkSpinButton *frames;
  GtkWidget *frames_name;
  GtkProgressBar *progress;
  GtkStack *foot;
  GtkWidget *resting;
  GtkWidget *making;  /* the progress, and a way to stop it */
  GtkLabel *note;     /* why there is no preview, or none of the names chosen */
  GCancellable *stop; /* of the job under way, NULL for none */
  gboolean stale;     /* the preview is not of the present choices */
  gboolean fine;      /* the preview being made is a fine one, and can be given up */
  gboolean final;     /* the picture itself is being made */
  BwStillOrder order; /* of the picture itself, or of the one asked about */
  GFile *file;        /* where it goes; NULL until it was asked */
};

#define BW_TYPE_PICTURE_DIALOG (bw_picture_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwPictureDialog, bw_picture_dialog, BW, PICTURE_DIALOG, GtkWindow)
G_DEFINE_FINAL_TYPE (BwPictureDialog, bw_picture_dialog, GTK_TYPE_WINDOW)

static struct {
  int width, height, frames;
  guint ground;
} remembered = { 1600, 1600, BW_TURNTABLE_USUAL, BW_GROUND_PAPER };

/* --- What is chosen ----------------------------------------------------------------------------
 */

/* From another side, upright or hanging. */
static void
look_from (BwPictureDialog *self, View view, BwScene *scene, BwStill *still)
{
  static const BwSeenFrom where[] = { [FROM_FRONT] = BW_SEEN_FROM_FRONT,
                                      [AT_JOIN] = BW_SEEN_FROM_JOIN,
                                      [FROM_ABOVE] = BW_SEEN_FROM_ABOVE,
                                      [HANGING] = BW_SEEN_FROM_FRONT };
  gboolean hanging = view == HANGING && scene->rest.hangs;
  bw_scene_play (scene,
                 -1); /* whatever is shown being woven, from elsewhere the piece is finished */
  if (hanging)
    bw_scene_stand_at_rest (scene);
  else
    bw_scene_stand_upright (scene);
  still->camera
      = bw_seen_from (where[view], bw_draft_get_project (self->draft), hanging, still->camera);
}

/* The largest side of the picture becomes `most` pixels, when it is more. */
static void
shrink (BwStill *still, int most)
{
  double share = MIN (1, (double)most / MAX (still->width, still->height));
  still->width = MAX ((int)(still->width * share), 16);
  still->height = MAX ((int)(still->height * share), 16);
}

static BwScene *
chosen (BwPictureDialog *self, BwStillOrder *order)
{
  BwStill *still = &order->still;
  BwScene *scene = bw_still_as_shown (bw_draft_get_session (self->draft), 0, still);
  View view = (View)gtk_drop_down_get_selected (self->view);
  still->ground = (BwGround)gtk_drop_down_get_selected (self->ground);
  still->width = gtk_spin_button_get_value_as_int (self->width);
  still->height = gtk_spin_button_get_value_as_int (self->height);
  order->fine = gtk_drop_down_get_selected (self->quality) == BEST;
  order->kind = (BwStillKind)gtk_drop_down_get_selected (self->kind);
  order->frames = gtk_spin_button_get_value_as_int (self->frames);
  if (view != AS_SHOWN)
    look_from (self, view, scene, still);
  if (order->kind == BW_STILL_WOVEN)
    bw_weaving_init (&order->weaving, bw_draft_get_project (self->draft), order->frames,
                     view == AS_SHOWN, still->camera.turn_deg);
  return scene;
}

/* --- Who is told ---------------------------------------------------------------------------------
 */

/* A picture in the making does not keep the dialog: GTK lets go of a closed dialog's parent only
 * with the dialog itself, and the parent may be gone by then. */
static GWeakRef *
weakly (BwPictureDialog *self)
{
  GWeakRef *weak = g_new0 (GWeakRef, 1);
  g_weak_ref_init (weak, self);
  return weak;
}

/* Takes weak. NULL when the dialog is gone; else owned. */
static BwPictureDialog *
still_there (GWeakRef *weak)
{
  BwPictureDialog *self = g_weak_ref_get (weak);
  g_weak_ref_clear (weak);
  g_free (weak);
  return self;
}

/* --- The preview -------------------------------------------------------------------------------
 */

static void follow (BwPictureDialog *self);

static void
show_texture (BwPictureDialog *self, GdkTexture *texture)
{
  gtk_picture_set_paintable (self->preview, GDK_PAINTABLE (texture));
}

static void
show_preview (BwPictureDialog *self, GBytes *png)
{
  g_autoptr (GdkTexture) texture = gdk_texture_new_from_bytes (png, NULL);
  if (texture)
    show_texture (self, texture);
}

static void
say_why_not (BwPictureDialog *self, const char *words)
{
  gtk_label_set_text (self->note, words ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->note), words != NULL);
}

static void
preview_made (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwPictureDialog) self = still_there (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) png = bw_still_job_finish (result, &error);
  gboolean stopped = g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  if (stopped || !self || !self->draft)
    return;
  g_clear_object (&self->stop);
  say_why_not (self, error ? error->message : NULL);
  if (png)
    show_preview (self, g_ptr_array_index (png, 0));
  if (self->stale)
    follow (self);
}

static gboolean
is_numbered (const BwStillOrder *order)
{
  return order->kind == BW_STILL_NUMBERED || order->kind == BW_STILL_WOVEN;
}

/* Of several pictures it is told which one is being made; of one, its share. */
static void
show_count (BwPictureDialog *self, double done)
{
  int n = self->order.frames, at = MIN ((int)(done * n) + 1, n);
  /* Translators: which picture of how many is being made. */
  g_autofree char *words
      = self->order.kind == BW_STILL_ONE ? NULL : g_strdup_printf (_ ("%d of %d"), at, n);
  gtk_progress_bar_set_text (self->progress, words);
}

/* A fine preview refines before the maker's eyes; that of the picture itself tells how far it is.
 */
static void
picture_told (gpointer watcher, double done, GdkTexture *so_far)
{
  BwPictureDialog *self = watcher;
  if (!self->draft || !self->stop)
    return;
  gtk_progress_bar_set_fraction (self->progress, done);
  show_count (self, done);
  show_texture (self, so_far);
}

static void
stop_job (BwPictureDialog *self)
{
  if (self->stop)
    g_cancellable_cancel (self->stop);
  g_clear_object (&self->stop);
}

static void
follow (BwPictureDialog *self)
{
  BwStillOrder order;
  if (self->fine && !self->final)
    stop_job (self);
  self->stale = self->stop != NULL;
  if (self->stale || self->final)
    return;
  BwScene *scene = chosen (self, &order);
  shrink (&order.still, PREVIEW_PX);
  order.kind = BW_STILL_ONE;
  self->fine = order.fine;
  self->stop = g_cancellable_new ();
  bw_still_job_run (scene, &order, G_OBJECT (self), picture_told, self->stop, preview_made,
                    weakly (self));
}

static void
changed (BwPictureDialog *self)
{
  gboolean turns = gtk_drop_down_get_selected (self->kind) != BW_STILL_ONE;
  gtk_widget_set_sensitive (GTK_WIDGET (self->frames), turns);
  gtk_widget_set_sensitive (self->frames_name, turns);
  if (self->draft)
    follow (self);
}

/* --- The picture itself ------------------------------------------------------------------------
 */

static void
set_busy (BwPictureDialog *self, gboolean busy)
{
  self->final = busy;
  gtk_window_set_modal (GTK_WINDOW (self), !busy);
  gtk_widget_set_sensitive (self->choices, !busy);
  gtk_widget_set_sensitive (self->save, !busy);
  gtk_progress_bar_set_fraction (self->progress, 0);
  gtk_stack_set_visible_child (self->foot, busy ? self->making : self->resting);
}

/* The window behind tells; it owns us. */
static void
tell (BwPictureDialog *self, const GError *error)
{
  bw_tell (GTK_WIDGET (gtk_window_get_transient_for (GTK_WINDOW (self))), GTK_MESSAGE_WARNING,
           error->message);
}

static void
picture_made (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwPictureDialog) self = still_there (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) files = bw_still_job_finish (result, &error);
  if (!self || !self->draft || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_clear_object (&self->stop);
  set_busy (self, FALSE);
  if (!files) {
    tell (self, error);
    return;
  }
  BwPictureMade made = self->made;
  gboolean numbered = is_numbered (&self->order);
  gpointer made_data = self->made_data;
  g_autoptr (GFile) file = g_object_ref (self->file);
  gtk_window_destroy (GTK_WINDOW (self));
  made (file, files, numbered, made_data);
}

/* Back to the choices. */
static void
stop_clicked (BwPictureDialog *self)
{
  stop_job (self);
  set_busy (self, FALSE);
  gtk_widget_grab_focus (self->save);
  follow (self);
}

static void
remember (const BwStillOrder *order)
{
  remembered.width = order->still.width;
  remembered.height = order->still.height;
  remembered.ground = order->still.ground;
  remembered.frames = order->frames;
}

static void
make (BwPictureDialog *self)
{
  BwScene *scene = chosen (self, &self->order);
  stop_job (self);
  remember (&self->order);
  set_busy (self, TRUE);
  show_count (self, 0);
  self->stop = g_cancellable_new ();
  bw_still_job_run (scene, &self->order, G_OBJECT (self), picture_told, self->stop, picture_made,
                    weakly (self));
}

static void ask (BwPictureDialog *self);

/* It was asked for one name; whether the numbered ones are free the asking cannot know. */
static void
ask_again (BwPictureDialog *self, GFile *taken)
{
  g_autofree char *base = g_file_get_basename (taken), *name = g_filename_display_name (base);
  g_autofree char *words
      = g_strdup_printf (_ ("%s is there already. Choose another name for the pictures."), name);
  say_why_not (self, words);
  ask (self);
}

static void
file_chosen (GFile *file, gpointer data)
{
  BwPictureDialog *self = data;
  g_autoptr (GFile) taken
      = is_numbered (&self->order) ? bw_picture_files_taken (file, self->order.frames) : NULL;
  if (taken) {
    ask_again (self, taken);
    return;
  }
  say_why_not (self, NULL);
  g_set_object (&self->file, file);
  make (self);
}

static void
ask (BwPictureDialog *self)
{
  BwProject *project = bw_draft_get_project (self->draft);
  BwFileKind kind = self->order.kind == BW_STILL_MOVING ? BW_FILES_MOVING : BW_FILES_PICTURE;
  g_autofree char *piece = bw_piece_name (project);
  g_autofree char *name = bw_file_name_for (piece, kind);
  bw_file_dialog_save (GTK_WINDOW (self), kind, name, bw_project_get_file (project), file_chosen,
                       self);
}

/* Where the picture goes is asked before it is made, which may take an hour. */
static void
save_clicked (BwPictureDialog *self)
{
  gtk_spin_button_update (self->width);
  gtk_spin_button_update (self->height);
  gtk_spin_button_update (self->frames);
  bw_scene_free (chosen (self, &self->order));
  ask (self);
}

/* --- The dialog --------------------------------------------------------------------------------
 */

static gboolean
hangs (BwDraft *draft)
{
  return bw_project_hang (bw_draft_get_project (draft))->has_bail;
}

static void
fill_views (BwPictureDialog *self)
{
  g_autoptr (GtkStringList) views = gtk_string_list_new (NULL);
  gtk_string_list_append (views, _ ("as shown now"));
  gtk_string_list_append (views, _ ("from the front"));
  gtk_string_list_append (views, _ ("at the join"));
  gtk_string_list_append (views, _ ("from above"));
  if (hangs (self->draft))
    gtk_string_list_append (views, _ ("hanging from its cord"));
  gtk_drop_down_set_model (self->view, G_LIST_MODEL (views));
}

void
bw_picture_dialog_show (GtkWindow *parent, BwDraft *draft, BwPictureMade made, gpointer data)
{
  g_return_if_fail (BW_IS_DRAFT (draft));
  BwPictureDialog *self = g_object_new (BW_TYPE_PICTURE_DIALOG, "transient-for", parent, NULL);
  self->made = made;
  self->made_data = data;
  gtk_spin_button_set_value (self->width, remembered.width);
  gtk_spin_button_set_value (self->height, remembered.height);
  gtk_spin_button_set_value (self->frames, remembered.frames);
  gtk_drop_down_set_selected (self->ground, remembered.ground);
  self->draft = g_object_ref (draft);
  fill_views (self);
  follow (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

static void
bw_picture_dialog_dispose (GObject *object)
{
  BwPictureDialog *self = BW_PICTURE_DIALOG (object);
  stop_job (self);
  g_clear_object (&self->file);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_picture_dialog_parent_class)->dispose (object);
}

static void
bw_picture_dialog_class_init (BwPictureDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_picture_dialog_dispose;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/bandwright/Bandwright/picture-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, width);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, height);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, ground);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, view);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, preview);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, choices);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, save);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, quality);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, kind);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, frames);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, frames_name);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, progress);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, foot);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, resting);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, making);
  gtk_widget_class_bind_template_child (widget_class, BwPictureDialog, note);
  gtk_widget_class_bind_template_callback (widget_class, stop_clicked);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, save_clicked);
}

static void
bw_picture_dialog_init (BwPictureDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
