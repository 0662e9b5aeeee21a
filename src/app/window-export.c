/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the window: the materials list, the picture and the model. */
#include "config.h"

#include "app/file-dialog.h"
#include "app/settings.h"
#include "app/window-private.h"
#include "output/report.h"
#include "preview/model.h"
#include "preview/offscreen.h"

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

static void
csv_chosen (GFile *file, gpointer data)
{
  BwWindow *self = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *csv = bw_materials_csv (self->project, 0);
  if (g_file_replace_contents (file, csv, strlen (csv), NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL,
                               &error))
    bw_window_tell_written (self, file);
  else
    bw_window_tell_failure (self, _ ("“%s” could not be written: %s"), file, error);
}

void
bw_window_export_csv (BwWindow *self)
{
  g_autofree char *name = bw_file_name_for (bw_project_get_title (self->project), BW_FILES_CSV);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_CSV, name, bw_project_get_file (self->project),
                       csv_chosen, self);
}

void
bw_window_copy_list (BwWindow *self)
{
  g_autofree char *list = bw_materials_text (self->project, 0);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), list);
  bw_window_tell (self, GTK_MESSAGE_INFO, _ ("The materials list was copied."));
}

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* The piece as the stone view shows it now, on a transparent ground. */
static cairo_surface_t *
picture (BwWindow *self, GError **error)
{
  BwSession *session = self->session;
  g_autoptr (BwScene) scene = bw_scene_new (self->project, bw_session_get_colour_by_fit (session));
  return bw_offscreen_render (scene, bw_session_get_camera (session),
                              bw_session_get_layers (session), bw_session_get_light (session),
                              PICTURE_PX, PICTURE_PX, NULL, error);
}

static gboolean
write_picture (BwWindow *self, GFile *file, GError **error)
{
  cairo_surface_t *surface = picture (self, error);
  if (!surface)
    return FALSE;
  g_autoptr (GByteArray) png = g_byte_array_new ();
  cairo_surface_write_to_png_stream (surface, append_bytes, png);
  cairo_surface_destroy (surface);
  return g_file_replace_contents (file, (const char *)png->data, png->len, NULL, FALSE,
                                  G_FILE_CREATE_NONE, NULL, NULL, error);
}

static void
picture_chosen (GFile *file, gpointer data)
{
  BwWindow *self = data;
  g_autoptr (GError) error = NULL;
  if (write_picture (self, file, &error))
    bw_window_tell_written (self, file);
  else
    bw_window_tell_failure (self, _ ("“%s” could not be written: %s"), file, error);
}

void
bw_window_save_picture (BwWindow *self)
{
  g_autofree char *name = bw_file_name_for (bw_project_get_title (self->project), BW_FILES_PICTURE);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_PICTURE, name,
                       bw_project_get_file (self->project), picture_chosen, self);
}

static void
model_chosen (GFile *file, gpointer data)
{
  BwWindow *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) model = bw_model_new (self->project);
  gsize size;
  const char *bytes = g_bytes_get_data (model, &size);
  if (g_file_replace_contents (file, bytes, size, NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL,
                               &error))
    bw_window_tell_written (self, file);
  else
    bw_window_tell_failure (self, _ ("“%s” could not be written: %s"), file, error);
}

void
bw_window_save_model (BwWindow *self)
{
  g_autofree char *name = bw_file_name_for (bw_project_get_title (self->project), BW_FILES_MODEL);
  bw_file_dialog_save (GTK_WINDOW (self), BW_FILES_MODEL, name, bw_project_get_file (self->project),
                       model_chosen, self);
}
