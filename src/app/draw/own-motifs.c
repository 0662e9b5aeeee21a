/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file is a line for each colour and then the beads as the clipboard has them. */
#include "config.h"

#include "app/draw/own-motifs.h"
#include "core/pattern/colour.h"
#include "project/file/file-name.h"
#include "project/file/read-whole.h"
#include "project/file/save-whole.h"

#include <errno.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define HEADER "motif-of-beads 1"
#define ENDING ".beads"
#define BYTES_MOST (4 * 1024 * 1024)

void
bw_own_motif_free (BwOwnMotif *motif)
{
  g_clear_pointer (&motif->clip, bw_clip_free);
  g_free (motif->name);
  g_free (motif);
}

static char *
folder_path (void)
{
  return g_build_filename (g_get_user_data_dir (), "bandwright", "motifs", NULL);
}

static char *
file_path (const char *name)
{
  g_autofree char *folder = folder_path ();
  g_autofree char *file = g_strconcat (name, ENDING, NULL);
  return g_build_filename (folder, file, NULL);
}

/* --- Reading -----------------------------------------------------------------------------------
 */

/* "colour a 343a5e 1 Dusk": letter, colour, finish, name. */
static gboolean
read_colour (const char *line, BwTray *tray)
{
  const char *at = line + strlen ("colour ");
  if (!g_str_has_prefix (line, "colour ") || tray->n_colours >= BW_TRAY_MAX)
    return FALSE;
  BwColour *colour = &tray->colour[tray->n_colours];
  gunichar letter = g_utf8_get_char (at);
  if (letter == 0 || !bw_tray_is_letter (letter) || *(at = g_utf8_next_char (at)) != ' ')
    return FALSE;
  char *end;
  guint64 srgb = g_ascii_strtoull (at + 1, &end, 16);
  guint64 finish = g_ascii_strtoull (end, &end, 10);
  if (srgb >> 24 != 0 || finish >= BW_N_FINISHES || *end != ' ')
    return FALSE;
  *colour = (BwColour){ .id = letter, .srgb = (guint32)srgb, .finish = (BwFinish)finish };
  g_strlcpy (colour->name, end + 1, sizeof colour->name);
  tray->n_colours++;
  return TRUE;
}

static BwOwnMotif *
read_motif (const char *text, const char *name)
{
  if (!g_utf8_validate (text, -1, NULL) || !g_str_has_prefix (text, HEADER "\n"))
    return NULL;
  g_autoptr (BwOwnMotif) motif = g_new0 (BwOwnMotif, 1);
  motif->name = g_strdup (name);
  const char *at = strchr (text, '\n') + 1;
  while (g_str_has_prefix (at, "colour ")) {
    const char *end = strchr (at, '\n');
    g_autofree char *line = end ? g_strndup (at, (gsize)(end - at)) : NULL;
    if (!line || !read_colour (line, &motif->tray))
      return NULL;
    at = end + 1;
  }
  motif->clip = bw_clip_parse (at, &motif->tray, NULL);
  return motif->clip ? g_steal_pointer (&motif) : NULL;
}

static BwOwnMotif *
load_file (const char *file)
{
  g_autofree char *folder = folder_path ();
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *name = g_strndup (file, strlen (file) - strlen (ENDING));
  g_autofree char *text = NULL;
  GStatBuf about;
  if (g_stat (path, &about) != 0 || about.st_size > BYTES_MOST
      || !g_file_get_contents (path, &text, NULL, NULL))
    return NULL;
  return read_motif (text, name);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  const BwOwnMotif *const *first = a, *const *second = b;
  return g_utf8_collate ((*first)->name, (*second)->name);
}

GPtrArray *
bw_own_motifs_load (char **damaged)
{
  g_autofree char *path = folder_path ();
  g_autoptr (GDir) folder = g_dir_open (path, 0, NULL);
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)bw_own_motif_free);
  *damaged = NULL;
  for (const char *file; folder && (file = g_dir_read_name (folder));) {
    BwOwnMotif *motif = g_str_has_suffix (file, ENDING) ? load_file (file) : NULL;
    if (motif)
      g_ptr_array_add (all, motif);
    else if (g_str_has_suffix (file, ENDING) && !*damaged)
      *damaged = g_filename_display_name (file);
  }
  g_ptr_array_sort (all, by_name);
  return all;
}

/* --- Writing -----------------------------------------------------------------------------------
 */

/* What no file may be called by gives way; a name without anything left is "Motif". Owned. */
static char *
plain_name (const char *name)
{
  char *plain = g_strstrip (g_strdup (name));
  g_strdelimit (plain, "/\\\n\r\t", '-');
  while (*plain == '.')
    memmove (plain, plain + 1, strlen (plain));
  if (*plain != '\0')
    return plain;
  g_free (plain);
  return g_strdup (_ ("Motif"));
}

gboolean
bw_own_motif_is_kept (const char *name)
{
  g_autofree char *plain = plain_name (name);
  g_autofree char *path = file_path (plain);
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

char *
bw_own_motif_free_name (const char *wanted)
{
  char *name = plain_name (wanted);
  for (int i = 2; bw_own_motif_is_kept (name); i++) {
    g_free (name);
    name = g_strdup_printf ("%s %d", wanted, i);
  }
  return name;
}

static char *
print_motif (const BwClip *clip, const BwTray *tray)
{
  g_autofree char *beads = bw_clip_print (clip, tray);
  GString *text = g_string_new (HEADER "\n");
  for (int i = 0; i < tray->n_colours; i++) {
    const BwColour *colour = &tray->colour[i];
    g_string_append (text, "colour ");
    g_string_append_unichar (text, colour->id);
    g_string_append_printf (text, " %06x %d %s\n", colour->srgb, (int)colour->finish, colour->name);
  }
  g_string_append (text, beads);
  return g_string_free (text, FALSE);
}

char *
bw_own_motif_save (const BwDrawing *drawing, const BwRegion *region, const BwTray *tray,
                   const char *name, GError **error)
{
  int row, column;
  g_autofree char *folder = folder_path ();
  g_autofree char *plain = plain_name (name);
  g_autofree char *path = file_path (plain);
  g_autoptr (BwClip) clip = bw_clip_lift (drawing, region, &row, &column);
  g_autofree char *text = print_motif (clip, tray);
  g_mkdir_with_parents (folder, 0700);
  return bw_save_whole (path, text, strlen (text), BW_SAVE_PLAIN, NULL, error)
             ? g_steal_pointer (&plain)
             : NULL;
}

static gboolean
went_well (int result, const char *name, GError **error)
{
  int number = errno;
  if (result == 0)
    return TRUE;
  g_set_error (error, G_IO_ERROR, (int)g_io_error_from_errno (number), "“%s”: %s", name,
               g_strerror (number));
  return FALSE;
}

char *
bw_own_motif_rename (const char *name, const char *wanted, GError **error)
{
  g_autofree char *plain = plain_name (wanted);
  g_autofree char *from = file_path (name), *to = file_path (plain);
  return went_well (g_rename (from, to), name, error) ? g_steal_pointer (&plain) : NULL;
}

gboolean
bw_own_motif_remove (const char *name, GError **error)
{
  g_autofree char *path = file_path (name);
  return went_well (g_remove (path), name, error);
}

/* --- From and to other makers ------------------------------------------------------------------
 */

gboolean
bw_own_motif_export (const char *name, GFile *file, GError **error)
{
  g_autofree char *path = file_path (name), *text = NULL;
  g_autoptr (GFile) kept = g_file_new_for_path (path);
  gsize length;
  return g_file_load_contents (kept, NULL, &text, &length, NULL, error)
         && bw_save_file (file, text, length, BW_SAVE_PLAIN, NULL, NULL, error);
}

/* The text of a file that is a motif; NULL with an error. */
static char *
motif_text (GFile *file, GError **error)
{
  BwStamp stamp;
  g_autoptr (GByteArray) bytes = bw_read_whole (file, BYTES_MOST, NULL, NULL, &stamp, error);
  if (!bytes)
    return NULL;
  g_autofree char *text = g_strndup ((const char *)bytes->data, bytes->len);
  g_autoptr (BwOwnMotif) motif = read_motif (text, "");
  if (motif)
    return g_steal_pointer (&text);
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _ ("this is no motif of beads"));
  return NULL;
}

static gboolean
is_kept_as (const char *name, const char *text)
{
  g_autofree char *path = file_path (name), *kept = NULL;
  return g_file_get_contents (path, &kept, NULL, NULL) && g_str_equal (kept, text);
}

/* The first name of these that none has, or under which this very motif is kept. Owned. */
static char *
name_for (const char *wanted, const char *text)
{
  char *name = plain_name (wanted);
  for (int i = 2; bw_own_motif_is_kept (name) && !is_kept_as (name, text); i++) {
    g_free (name);
    name = g_strdup_printf ("%s %d", wanted, i);
  }
  return name;
}

char *
bw_own_motif_read_in (GFile *file, GError **error)
{
  g_autofree char *text = motif_text (file, error), *folder = folder_path ();
  g_autofree char *called = bw_file_shown (file);
  if (!text)
    return NULL;
  if (g_str_has_suffix (called, ENDING))
    called[strlen (called) - strlen (ENDING)] = '\0';
  g_autofree char *name = name_for (called, text), *path = file_path (name);
  g_mkdir_with_parents (folder, 0700);
  return is_kept_as (name, text)
                 || bw_save_whole (path, text, strlen (text), BW_SAVE_PLAIN, NULL, error)
             ? g_steal_pointer (&name)
             : NULL;
}

/* --- Using -------------------------------------------------------------------------------------
 */

static guint8
nearest (const BwColour *colour, const BwTray *tray)
{
  BwLab wanted = bw_colour_lab (colour->srgb);
  double least = INFINITY;
  int found = 0;
  for (int i = 0; i < tray->n_colours; i++) {
    double away = bw_colour_difference (wanted, bw_colour_lab (tray->colour[i].srgb));
    /* Of equal colours the one with the same letter. */
    if (tray->colour[i].id == colour->id)
      away -= 1e-6;
    if (away < least) {
      least = away;
      found = i;
    }
  }
  return (guint8)found;
}

char *
bw_own_motif_for (const BwOwnMotif *motif, const BwTray *tray)
{
  guint8 map[256] = { 0 };
  g_autoptr (BwClip) clip = bw_clip_copy (motif->clip);
  for (int i = 0; i < motif->tray.n_colours; i++)
    map[i] = nearest (&motif->tray.colour[i], tray);
  bw_clip_map (clip, map);
  return bw_clip_print (clip, tray);
}
