/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the window: the materials list, the picture and the model. */
#include "config.h"

#include "app/form/typed.h"
#include "app/kit/file-dialog.h"
#include "app/kit/piece-name.h"
#include "app/kit/tell-file.h"
#include "app/window/export.h"
#include "output/page/whole-file.h"
#include "output/report/report.h"
#include "preview/picture/model.h"
#include "preview/picture/offscreen.h"

#include <cairo.h>
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
  g_autofree char *list = bw_materials_text (project_of (self), 0);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self->window)), list);
  bw_tell (GTK_WIDGET (self->window), GTK_MESSAGE_INFO, _ ("The materials list was copied."));
}

/* The piece as the stone view shows it now, on a transparent ground. */
static cairo_surface_t *
picture (BwExport *self, GError **error)
{
  BwSession *session = bw_draft_get_session (self->draft);
  g_autoptr (BwScene) scene
      = bw_scene_new (project_of (self), bw_session_get_colour_by_fit (session));
  if (bw_session_get_at_rest (session))
    bw_scene_stand_at_rest (scene);
  return bw_offscreen_render (scene, bw_session_get_camera (session),
                              bw_session_get_layers (session), bw_session_get_light (session),
                              PICTURE_PX, PICTURE_PX, NULL, error);
}

static void
picture_chosen (GFile *file, gpointer data)
{
  BwExport *self = data;
  g_autoptr (GError) error = NULL;
  cairo_surface_t *surface = picture (self, &error);
  g_autoptr (GByteArray) png = g_byte_array_new ();
  if (!surface) {
    tell (self, file, error);
    return;
  }
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, bw_whole_file_append, png);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS) {
    error = g_error_new_literal (G_IO_ERROR, G_IO_ERROR_FAILED, cairo_status_to_string (status));
    tell (self, file, error);
    return;
  }
  write_bytes (self, file, (const char *)png->data, png->len);
}

static void
save_picture (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, BW_FILES_PICTURE, picture_chosen);
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
  g_clear_object (&BW_EXPORT (object)->draft);
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
    { "export-csv", export_csv },
    { "copy-list", copy_list },
    { "save-picture", save_picture },
    { "save-model", save_model },
  };
  BwExport *self = g_object_new (BW_TYPE_EXPORT, NULL);
  self->window = GTK_WINDOW (window);
  self->draft = g_object_ref (draft);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), self);
  return self;
}
