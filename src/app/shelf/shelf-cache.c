/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The folder is the user's own, and yet nothing in it is believed: a disk that was full leaves half
 * a file as easily as another program does. */
#include "config.h"

#include "app/shelf/shelf-cache.h"
#include "project/document/line.h"
#include "project/file/save-whole.h"

#include <glib/gstdio.h>
#include <string.h>
#include <utime.h>

#define PAINTED "2" /* another number where pictures or notes are made in another way */
#define GROUP "look"
#define PNG_MOST (2 * 1024 * 1024) /* bytes */
#define NOTE_MOST 8192

static char *
folder_path (void)
{
  return g_build_filename (g_get_user_cache_dir (), "bandwright", "shelf", NULL);
}

static char *
path_of (const char *key, const char *ending)
{
  g_autofree char *folder = folder_path ();
  g_autofree char *name = g_strconcat (key, ending, NULL);
  return g_build_filename (folder, name, NULL);
}

char *
bw_shelf_cache_key (GFile *file, GCancellable *stop, GError **error)
{
  g_autoptr (GFileInfo) info
      = g_file_query_info (file,
                           G_FILE_ATTRIBUTE_STANDARD_SIZE "," G_FILE_ATTRIBUTE_TIME_MODIFIED
                                                          "," G_FILE_ATTRIBUTE_TIME_MODIFIED_USEC,
                           G_FILE_QUERY_INFO_NONE, stop, error);
  if (!info)
    return NULL;
  g_autofree char *uri = g_file_get_uri (file);
  g_autofree char *text = g_strdup_printf (
      "%s\n%s\n%" G_GINT64_FORMAT "\n%" G_GUINT64_FORMAT ".%06u", PAINTED, uri,
      (gint64)g_file_info_get_size (info),
      g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED),
      g_file_info_get_attribute_uint32 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED_USEC));
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
}

/* The bytes of a file that is not longer than most. Owned; NULL for any other. */
static char *
small_file (const char *path, gsize most, gsize *length)
{
  GStatBuf status;
  char *data = NULL;
  if (g_stat (path, &status) != 0 || !S_ISREG (status.st_mode) || status.st_size <= 0
      || (gsize)status.st_size > most || !g_file_get_contents (path, &data, length, NULL))
    return NULL;
  return data;
}

/* Both sides as the head of a PNG tells them (W3C, "PNG Specification", 11.2.2): looked at before
 * anything is decoded, so that no file can ask for more than a picture of ours takes. */
static gboolean
has_our_size (const char *png, gsize length)
{
  const guint8 *head = (const guint8 *)png;
  if (length < 24 || memcmp (png + 12, "IHDR", 4) != 0)
    return FALSE;
  for (int i = 16; i < 24; i += 4) {
    guint32 side = (guint32)head[i] << 24 | (guint32)head[i + 1] << 16 | (guint32)head[i + 2] << 8
                   | head[i + 3];
    if (side < 1 || side > BW_SHELF_SIDE)
      return FALSE;
  }
  return TRUE;
}

typedef struct {
  const char *data;
  gsize left;
} Bytes;

static cairo_status_t
give (void *closure, unsigned char *into, unsigned int n)
{
  Bytes *bytes = closure;
  if (n > bytes->left)
    return CAIRO_STATUS_READ_ERROR;
  memcpy (into, bytes->data, n);
  bytes->data += n;
  bytes->left -= n;
  return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *
find_picture (const char *key)
{
  g_autofree char *path = path_of (key, ".png");
  gsize length;
  g_autofree char *png = small_file (path, PNG_MOST, &length);
  if (!png || !has_our_size (png, length))
    return NULL;
  Bytes bytes = { png, length };
  cairo_surface_t *surface = cairo_image_surface_create_from_png_stream (give, &bytes);
  if (cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS
      && cairo_image_surface_get_format (surface) == CAIRO_FORMAT_ARGB32)
    return surface;
  cairo_surface_destroy (surface);
  return NULL;
}

static gboolean
read_note (BwShelfLook *look, const char *text, gsize length)
{
  g_autoptr (GKeyFile) note = g_key_file_new ();
  if (!g_key_file_load_from_data (note, text, length, G_KEY_FILE_NONE, NULL))
    return FALSE;
  look->state = BW_SHELF_SOUND;
  look->title = g_key_file_get_string (note, GROUP, "title", NULL);
  look->rows = g_key_file_get_integer (note, GROUP, "rows", NULL);
  look->woven = g_key_file_get_integer (note, GROUP, "woven", NULL);
  look->length_mm = g_key_file_get_double (note, GROUP, "length_mm", NULL);
  return look->title && g_utf8_strlen (look->title, -1) <= BW_LINE_MAX
         && bw_line_check (look->title, "", NULL) && look->rows > 0 && look->woven >= 0
         && look->woven <= look->rows && look->length_mm > 0 && look->length_mm < 1e4;
}

/* A look that was wanted is young again. */
static void
touch (const char *key)
{
  g_autofree char *note = path_of (key, ".note");
  g_autofree char *picture = path_of (key, ".png");
  g_utime (note, NULL);
  g_utime (picture, NULL);
}

BwShelfLook *
bw_shelf_cache_find (const char *key)
{
  g_autoptr (BwShelfLook) look = g_new0 (BwShelfLook, 1);
  g_autofree char *path = path_of (key, ".note");
  gsize length;
  g_autofree char *text = small_file (path, NOTE_MOST, &length);
  if (!text || !read_note (look, text, length))
    return NULL;
  look->picture = find_picture (key);
  if (!look->picture)
    return NULL;
  touch (key);
  return g_steal_pointer (&look);
}

static cairo_status_t
append (void *closure, const unsigned char *data, unsigned int n)
{
  g_byte_array_append (closure, data, n);
  return CAIRO_STATUS_SUCCESS;
}

static gboolean
keep_picture (const char *key, cairo_surface_t *picture)
{
  g_autofree char *path = path_of (key, ".png");
  g_autoptr (GByteArray) png = g_byte_array_new ();
  return cairo_surface_write_to_png_stream (picture, append, png) == CAIRO_STATUS_SUCCESS
         && bw_save_whole (path, (const char *)png->data, png->len, BW_SAVE_PRIVATE, NULL, NULL);
}

static void
keep_note (const char *key, const BwShelfLook *look)
{
  g_autoptr (GKeyFile) note = g_key_file_new ();
  g_key_file_set_string (note, GROUP, "title", look->title);
  g_key_file_set_integer (note, GROUP, "rows", look->rows);
  g_key_file_set_integer (note, GROUP, "woven", look->woven);
  g_key_file_set_double (note, GROUP, "length_mm", look->length_mm);
  gsize length;
  g_autofree char *text = g_key_file_to_data (note, &length, NULL);
  g_autofree char *path = path_of (key, ".note");
  bw_save_whole (path, text, length, BW_SAVE_PRIVATE, NULL, NULL);
}

/* --- What is too much --------------------------------------------------------------------------
 */

typedef struct {
  char *name;
  gint64 seconds;
} Kept;

static void
kept_clear (gpointer kept)
{
  g_free (((Kept *)kept)->name);
}

static int
oldest_first (gconstpointer a, gconstpointer b)
{
  const Kept *first = a, *second = b;
  return (first->seconds > second->seconds) - (first->seconds < second->seconds);
}

static GArray *
list_kept (const char *folder)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (Kept));
  g_array_set_clear_func (list, kept_clear);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    GStatBuf status;
    if (g_lstat (path, &status) == 0) {
      Kept kept = { g_strdup (name), (gint64)status.st_mtime };
      g_array_append_val (list, kept);
    }
  }
  g_array_sort (list, oldest_first);
  return list;
}

/* Files come in twos. */
static void
sweep (void)
{
  g_autofree char *folder = folder_path ();
  g_autoptr (GArray) list = list_kept (folder);
  for (guint i = 0; i + 2 * BW_SHELF_KEPT_MOST < list->len; i++) {
    g_autofree char *path = g_build_filename (folder, g_array_index (list, Kept, i).name, NULL);
    g_unlink (path);
  }
}

void
bw_shelf_cache_keep (const char *key, const BwShelfLook *look)
{
  g_autofree char *folder = folder_path ();
  if (!look->picture || look->state != BW_SHELF_SOUND || g_mkdir_with_parents (folder, 0700) != 0)
    return;
  if (keep_picture (key, look->picture))
    keep_note (key, look);
  sweep ();
}
