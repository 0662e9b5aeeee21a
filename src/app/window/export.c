/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the window: the materials list, the picture and the model. */
#include "config.h"

#include "app/form/typed.h"
#include "app/ask/file-dialog.h"
#include "project/piece-name.h"
#include "app/ask/tell-file.h"
#include "app/window/export.h"
#include "output/report/report.h"
#include "preview/picture/model.h"
#include "app/window/picture-dialog.h"
#include "app/window/picture-files.h"
#include "app/window/still-job.h"
#include "app/kit/settings.h"

#include <glib/gi18n-lib.h>

#define PICTURE_PX 1600

struct _BwExport {
  GObject parent_instance;
  GtkWindow *window; /* borrowed: it owns us */
  BwDraft *draft;
};

G_DEFINE_FINAL_TYPE (BwExport, bw_export, G_TYPE_OBJECT)

static BwProject *
project_of (BwExport *self)
{
  return bw_draft_get_project (self->draft);
}

static void
tell (BwExport *self, GFile *file, const GError *error)
{
  bw_tell_file_written (GTK_WIDGET (self->window), file, error);
}

/* Asks for a file beside the project, named like it. */
static void
ask (BwExport *self, BwFileKind kind, BwFileChosen chosen)
{
  if (!bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    return;
  g_autofree char *piece = bw_piece_name (project_of (self));
  g_autofree char *name = bw_file_name_for (piece, kind);
  bw_file_dialog_save (self->window, kind, name, bw_project_get_file (project_of (self)), chosen,
                       self);
}

static void
write_bytes (BwExport *self, GFile *file, const char *bytes, gsize size)
{
  g_autoptr (GError) error = NULL;
  bw_save_file (file, bytes, size, BW_SAVE_PLAIN, NULL, NULL, &error);
  tell (self, file, error);
}

static void
csv_chosen (GFile *file, gpointer data)
{
  BwExport *self = data;
  g_autofree char *csv = bw_materials_csv (project_of (self), 0);
  write_bytes (self, file, csv, strlen (csv));
}

static void
export_csv (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, BW_FILES_CSV, csv_chosen);
}

static void
copy_list (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwExport *self = data;
  if (!bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    return;
  g_autofree char *list
      = bw_order_text (project_of (self), bw_settings_get_unit (bw_settings_get ()));
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self->window)), list);
  bw_tell (GTK_WIDGET (self->window), GTK_MESSAGE_INFO, _ ("The order list was copied."));
}

static void
picture_made (GFile *file, GPtrArray *pictures, gboolean numbered, gpointer data)
{
  BwExport *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) last = NULL;
  bw_picture_files_write (file, pictures, numbered, &last, &error);
  tell (self, last, error);
}

static void
save_picture (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwExport *self = data;
  if (bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    bw_picture_dialog_show (self->window, self->draft, picture_made, self);
}

static void
copy_made (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwExport) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) png = bw_still_job_finish (result, &error);
  if (!self->draft)
    return;
  if (!png) {
    bw_tell (GTK_WIDGET (self->window), GTK_MESSAGE_WARNING, error->message);
    return;
  }
  g_autoptr (GdkContentProvider) content
      = gdk_content_provider_new_for_bytes ("image/png", g_ptr_array_index (png, 0));
  gdk_clipboard_set_content (gtk_widget_get_clipboard (GTK_WIDGET (self->window)), content);
  bw_tell (GTK_WIDGET (self->window), GTK_MESSAGE_INFO, _ ("The picture was copied."));
}

static void
copy_picture (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwExport *self = data;
  BwStillOrder order = { .kind = BW_STILL_ONE };
  BwScene *scene = bw_still_as_shown (bw_draft_get_session (self->draft), PICTURE_PX, &order.still);
  bw_still_job_run (scene, &order, NULL, NULL, NULL, copy_made, g_object_ref (self));
}

static void
model_chosen (GFile *file, gpointer data)
{
  BwExport *self = data;
  g_autoptr (GBytes) model = bw_model_new (project_of (self));
  gsize size;
  const char *bytes = g_bytes_get_data (model, &size);
  write_bytes (self, file, bytes, size);
}

static void
save_model (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, BW_FILES_MODEL, model_chosen);
}

static void
bw_export_dispose (GObject *object)
{
  BwExport *self = BW_EXPORT (object);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_export_parent_class)->dispose (object);
}

static void
bw_export_class_init (BwExportClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bw_export_dispose;
}

static void
bw_export_init (BwExport *self)
{
}

BwExport *
bw_export_new (GtkApplicationWindow *window, BwDraft *draft)
{
  static const GActionEntry entries[] = {
    { "export-csv", export_csv },     { "copy-list", copy_list },
    { "save-picture", save_picture }, { "copy-picture", copy_picture },
    { "save-model", save_model },
  };
  BwExport *self = g_object_new (BW_TYPE_EXPORT, NULL);
  self->window = GTK_WINDOW (window);
  self->draft = g_object_ref (draft);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), self);
  return self;
}
