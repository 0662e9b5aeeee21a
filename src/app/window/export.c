/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the window: the materials list, the picture and the model. */
#include "config.h"

#include "app/kit/file-dialog.h"
#include "app/kit/settings.h"
#include "app/window/window-private.h"
#include "output/report/report.h"
#include "output/page/whole-file.h"
#include "preview/picture/model.h"
#include "preview/picture/offscreen.h"

#include <cairo.h>
#include <glib/gi18n-lib.h>

#define PICTURE_PX 1600

void
bw_window_tell_written (BwWindow *self, GFile *file)
{
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *sentence = g_strdup_printf (_ ("“%s” was written."), name);
  bw_window_tell (self, GTK_MESSAGE_INFO, sentence);
}

/* The output room writes to paths and puts the path before its sentence; here the file's name is
 * told anyway. */
void
bw_window_tell_outcome (BwWindow *self, GFile *file, const GError *error)
{
  if (!error) {
    bw_window_tell_written (self, file);
    return;
  }
  const char *path = g_file_peek_path (file);
  g_autofree char *prefix = g_strconcat (path ? path : "", ": ", NULL);
  const char *message = error->message;
  if (g_str_has_prefix (message, prefix))
    message += strlen (prefix);
  g_autoptr (GError) plain = g_error_new_literal (error->domain, error->code, message);
  bw_window_tell_failure (self, _ ("“%s” could not be written: %s"), file, plain);
}

/* Whole or not at all; a place that is no path of this computer is left to the system. */
static void
write_bytes (BwWindow *self, GFile *file, const char *bytes, gsize size)
{
  const char *path = g_file_peek_path (file);
  g_autoptr (GError) error = NULL;
  if (path)
    bw_whole_file_write_data (bytes, size, path, &error);
  else
    g_file_replace_contents (file, bytes, size, NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL,
                             &error);
  bw_window_tell_outcome (self, file, error);
}

static void
csv_chosen (GFile *file, gpointer data)
{
  BwWindow *self = data;
  g_autofree char *csv = bw_materials_csv (self->project, 0);
  write_bytes (self, file, csv, strlen (csv));
}

void
bw_window_export_csv (BwWindow *self)
{
  g_autofree char *name = bw_file_name_for (bw_project_get_title (self->project), BW_FILES_CSV);
  bw_draft_settle (self->draft);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_CSV, name, bw_project_get_file (self->project),
                       csv_chosen, self);
}

void
bw_window_copy_list (BwWindow *self)
{
  bw_draft_settle (self->draft);
  g_autofree char *list = bw_materials_text (self->project, 0);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), list);
  bw_window_tell (self, GTK_MESSAGE_INFO, _ ("The materials list was copied."));
}

/* The piece as the stone view shows it now, on a transparent ground. */
static cairo_surface_t *
picture (BwWindow *self, GError **error)
{
  BwSession *session = self->session;
  g_autoptr (BwScene) scene = bw_scene_new (self->project, bw_session_get_colour_by_fit (session));
  if (bw_session_get_at_rest (session))
    bw_scene_stand_at_rest (scene);
  return bw_offscreen_render (scene, bw_session_get_camera (session),
                              bw_session_get_layers (session), bw_session_get_light (session),
                              PICTURE_PX, PICTURE_PX, NULL, error);
}

static void
picture_chosen (GFile *file, gpointer data)
{
  BwWindow *self = data;
  g_autoptr (GError) error = NULL;
  cairo_surface_t *surface = picture (self, &error);
  g_autoptr (GByteArray) png = g_byte_array_new ();
  if (!surface) {
    bw_window_tell_outcome (self, file, error);
    return;
  }
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, bw_whole_file_append, png);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS) {
    error = g_error_new_literal (G_IO_ERROR, G_IO_ERROR_FAILED, cairo_status_to_string (status));
    bw_window_tell_outcome (self, file, error);
    return;
  }
  write_bytes (self, file, (const char *)png->data, png->len);
}

void
bw_window_save_picture (BwWindow *self)
{
  g_autofree char *name = bw_file_name_for (bw_project_get_title (self->project), BW_FILES_PICTURE);
  bw_draft_settle (self->draft);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_PICTURE, name,
                       bw_project_get_file (self->project), picture_chosen, self);
}

static void
model_chosen (GFile *file, gpointer data)
{
  BwWindow *self = data;
  g_autoptr (GBytes) model = bw_model_new (self->project);
  gsize size;
  const char *bytes = g_bytes_get_data (model, &size);
  write_bytes (self, file, bytes, size);
}

void
bw_window_save_model (BwWindow *self)
{
  g_autofree char *name = bw_file_name_for (bw_project_get_title (self->project), BW_FILES_MODEL);
  bw_draft_settle (self->draft);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_MODEL, name, bw_project_get_file (self->project),
                       model_chosen, self);
}
