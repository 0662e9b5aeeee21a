/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the window: the materials list, the picture and the model. */
#include "config.h"

#include "app/form/typed.h"
#include "app/kit/file-dialog.h"
#include "project/piece-name.h"
#include "app/kit/tell-file.h"
#include "app/window/export.h"
#include "output/report/report.h"
#include "preview/picture/model.h"
#include "app/window/picture-dialog.h"
#include "app/window/still-job.h"
#include "app/kit/settings.h"

#include <glib/gi18n-lib.h>

#define PICTURE_PX 1600

struct _BwExport {
  GObject parent_instance;
  GtkWindow *window; /* borrowed: it owns us */
  BwDraft *draft;
  GPtrArray *pictures; /* made and to be saved (GBytes), NULL for none */
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
picture_chosen (GFile *file, gpointer data)
{
  BwExport *self = data;
  gsize size;
  const char *bytes = g_bytes_get_data (g_ptr_array_index (self->pictures, 0), &size);
  write_bytes (self, file, bytes, size);
  g_clear_pointer (&self->pictures, g_ptr_array_unref);
}

static GFile *
numbered (GFile *file, int i)
{
  g_autofree char *name = g_file_get_basename (file), *with_number = bw_turntable_name (name, i);
  g_autoptr (GFile) folder = g_file_get_parent (file);
  return g_file_get_child (folder, with_number);
}

/* The first of the pictures that would take the place of a file; NULL for none. */
static GFile *
in_the_way (GFile *file, int n)
{
  for (int i = 0; i < n; i++) {
    GFile *taken = numbered (file, i);
    if (g_file_query_exists (taken, NULL))
      return taken;
    g_object_unref (taken);
  }
  return NULL;
}

static void numbered_chosen (GFile *file, gpointer data);

/* The dialog has asked for one name; whether the numbered ones are free it cannot know. */
static void
ask_again (BwExport *self, GFile *taken)
{
  g_autofree char *base = g_file_get_basename (taken), *name = g_filename_display_name (base);
  g_autofree char *told
      = g_strdup_printf (_ ("%s is there already. Choose another name for the pictures."), name);
  bw_tell (GTK_WIDGET (self->window), GTK_MESSAGE_WARNING, told);
  ask (self, BW_FILES_PICTURE, numbered_chosen);
}

static void
write_numbered (BwExport *self, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) last = NULL;
  for (guint i = 0; !error && i < self->pictures->len; i++) {
    gsize size;
    const char *bytes = g_bytes_get_data (g_ptr_array_index (self->pictures, i), &size);
    g_clear_object (&last);
    last = numbered (file, (int)i);
    bw_save_file (last, bytes, size, BW_SAVE_PLAIN, NULL, NULL, &error);
  }
  tell (self, last, error);
}

static void
numbered_chosen (GFile *file, gpointer data)
{
  BwExport *self = data;
  g_autoptr (GFile) taken = in_the_way (file, (int)self->pictures->len);
  if (taken) {
    ask_again (self, taken);
    return;
  }
  write_numbered (self, file);
  g_clear_pointer (&self->pictures, g_ptr_array_unref);
}

/* It is asked where to only once the picture is there. */
static void
picture_made (GPtrArray *files, BwStillKind kind, gpointer data)
{
  BwExport *self = data;
  g_clear_pointer (&self->pictures, g_ptr_array_unref);
  self->pictures = g_ptr_array_ref (files);
  if (kind == BW_STILL_NUMBERED || kind == BW_STILL_WOVEN)
    ask (self, BW_FILES_PICTURE, numbered_chosen);
  else
    ask (self, kind == BW_STILL_MOVING ? BW_FILES_MOVING : BW_FILES_PICTURE, picture_chosen);
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
  g_clear_pointer (&self->pictures, g_ptr_array_unref);
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
