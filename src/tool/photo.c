/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/photo.h"

#include "core/pattern/photo-tray.h"
#include "picture/apart.h"
#include "project/file/palette.h"
#include "project/file/read-whole.h"
#include "project/file/save-whole.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define PATIENCE_SECONDS (3 * BW_PICTURE_SECONDS) /* by the clock: others may be at work as well   \
                                                   */

static GdkPixbuf *
read_photo (const char *path, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *name = g_filename_display_name (path);
  g_autoptr (GError) failure = NULL;
  BwPictureAnswer answer;
  BwStamp stamp;
  GByteArray *bytes = bw_read_whole (file, BW_PICTURE_BYTES_MAX, NULL, NULL, &stamp, &failure);
  if (!bytes) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", name, failure->message);
    return NULL;
  }
  g_autoptr (GBytes) data = g_byte_array_free_to_bytes (bytes);
  GdkPixbuf *photo = bw_picture_decode_apart (data, PATIENCE_SECONDS, NULL, &answer);
  if (!photo)
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                 _ ("%s: no picture could be read: PNG, JPEG and SVG can, where they are whole and "
                    "not too large."),
                 name);
  return photo;
}

static void
find (GdkPixbuf *photo, int k, BwPhotoTray *found)
{
  BwPicture picture = { gdk_pixbuf_read_pixels (photo), gdk_pixbuf_get_width (photo),
                        gdk_pixbuf_get_height (photo), gdk_pixbuf_get_n_channels (photo),
                        (gsize)gdk_pixbuf_get_rowstride (photo) };
  BwPhotoWish wish = { .k = k };
  bw_photo_tray_find (found, &picture, &wish, NULL, NULL);
}

static char *
print (const BwPhotoTray *found, gboolean json)
{
  GString *text = g_string_new (json ? "{\"colours\": [" : NULL);
  for (int i = 0; i < found->n; i++) {
    char share[G_ASCII_DTOSTR_BUF_SIZE];
    g_ascii_formatd (share, sizeof share, "%.4f", found->share[i]);
    if (json)
      g_string_append_printf (text, "%s{\"srgb\": \"#%06x\", \"share\": %s}", i ? ", " : "",
                              found->srgb[i], share);
    else
      g_string_append_printf (text, "#%06x %4.1f %%\n", found->srgb[i], 100 * found->share[i]);
  }
  if (json)
    g_string_append (text, "]}\n");
  return g_string_free (text, FALSE);
}

/* As the ending of the file says: CSS, or a GIMP palette. */
static gboolean
write_palette (const BwPhotoTray *found, const char *path, GError **error)
{
  g_autofree BwTray *tray = g_new0 (BwTray, 1);
  for (int i = 0; i < found->n; i++) {
    tray->colour[i] = (BwColour){ .id = bw_tray_free_letter (tray), .srgb = found->srgb[i] };
    tray->n_colours++;
  }
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *text
      = g_str_has_suffix (path, ".css") ? bw_palette_to_css (tray) : bw_palette_to_gpl (tray, name);
  return bw_save_whole (path, text, strlen (text), BW_SAVE_PLAIN, NULL, error);
}

char *
bw_photo_run_tray (const BwOptions *options, GError **error)
{
  int k = options->given & BW_OPTION_LIMIT ? options->limit : 0;
  g_autoptr (GdkPixbuf) photo = NULL;
  BwPhotoTray found;
  if (k > BW_PHOTO_COLOURS_MAX) {
    g_set_error (error, BW_USAGE, BW_USAGE_WRONG,
                 _ ("--limit: a photograph gives %d colours at most"), BW_PHOTO_COLOURS_MAX);
    return NULL;
  }
  if (!(photo = read_photo (options->from, error)))
    return NULL;
  find (photo, k, &found);
  if (!(options->given & BW_OPTION_OUTPUT))
    return print (&found, (options->given & BW_OPTION_JSON) != 0);
  return write_palette (&found, options->output, error) ? g_strdup ("") : NULL;
}
