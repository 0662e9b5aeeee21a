/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/photo.h"

#include "core/pattern/photo-tray.h"
#include "picture/apart.h"
#include "project/file/palette.h"
#include "project/file/read-whole.h"
#include "project/file/save-whole.h"
#include "tool/failed-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* By the clock: others may be at work as well. */
#define PATIENCE_SECONDS (3 * BW_PICTURE_SECONDS)

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
    bw_failed_file (path, failure, BW_IO_READ, error);
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

static gboolean
find (const char *path, int k, BwPhotoTray *found, GError **error)
{
  g_autoptr (GdkPixbuf) photo = read_photo (path, error);
  if (!photo)
    return FALSE;
  BwPicture picture = { gdk_pixbuf_read_pixels (photo), gdk_pixbuf_get_width (photo),
                        gdk_pixbuf_get_height (photo), gdk_pixbuf_get_n_channels (photo),
                        (gsize)gdk_pixbuf_get_rowstride (photo) };
  BwPhotoWish wish = { .k = k };
  bw_photo_tray_find (found, &picture, &wish, NULL, NULL);
  if (found->n > 0)
    return TRUE;
  g_autofree char *name = g_filename_display_name (path);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("%s: nothing can be seen in this picture."),
               name);
  return FALSE;
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

static gboolean
is_css (const char *path)
{
  return g_str_has_suffix (path, ".css");
}

/* Which palette it is to be is the caller's to say, by the file's name. */
static gboolean
check_output (const BwOptions *options, GError **error)
{
  const char *path = options->given & BW_OPTION_OUTPUT ? options->output : NULL;
  if (!path || is_css (path) || g_str_has_suffix (path, ".gpl"))
    return TRUE;
  g_set_error (error, BW_USAGE, BW_USAGE_WRONG, _ ("%s: the name must end in .gpl or .css"), path);
  return FALSE;
}

/* The file's, without its ending. Owned. */
static char *
palette_name (const char *path)
{
  char *name = g_path_get_basename (path);
  *strrchr (name, '.') = '\0';
  return name;
}

static gboolean
write_palette (const BwPhotoTray *found, const char *path, GError **error)
{
  g_autoptr (GError) failure = NULL;
  g_autofree BwTray *tray = g_new0 (BwTray, 1);
  for (int i = 0; i < found->n; i++) {
    tray->colour[i] = (BwColour){ .id = bw_tray_free_letter (tray), .srgb = found->srgb[i] };
    tray->n_colours++;
  }
  g_autofree char *name = palette_name (path);
  g_autofree char *text = is_css (path) ? bw_palette_to_css (tray) : bw_palette_to_gpl (tray, name);
  if (bw_save_whole (path, text, strlen (text), BW_SAVE_PLAIN, NULL, &failure))
    return TRUE;
  bw_failed_file (path, failure, BW_IO_WRITE, error);
  return FALSE;
}

char *
bw_photo_run_tray (const BwOptions *options, GError **error)
{
  int k = options->given & BW_OPTION_LIMIT ? options->limit : 0;
  BwPhotoTray found;
  if (k > BW_PHOTO_COLOURS_MAX) {
    g_set_error (error, BW_USAGE, BW_USAGE_WRONG,
                 _ ("--limit: a photograph gives %d colours at most"), BW_PHOTO_COLOURS_MAX);
    return NULL;
  }
  if (!check_output (options, error) || !find (options->from, k, &found, error))
    return NULL;
  if (!(options->given & BW_OPTION_OUTPUT))
    return print (&found, (options->given & BW_OPTION_JSON) != 0);
  return write_palette (&found, options->output, error) ? g_strdup ("") : NULL;
}
