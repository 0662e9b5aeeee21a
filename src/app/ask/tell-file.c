/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ask/tell-file.h"
#include "picture/kind.h"
#include "project/file/file-name.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The writers put the path before their sentence, as it is shown. */
static const char *
without_path (const char *sentence, GFile *file)
{
  const char *path = g_file_peek_path (file);
  g_autofree char *shown = g_filename_display_name (path ? path : "");
  g_autofree char *prefix = g_strconcat (shown, ": ", NULL);
  return g_str_has_prefix (sentence, prefix) ? sentence + strlen (prefix) : sentence;
}

/* What the file's grammar calls for helps a maker less than to know where a whole copy may be. */
static char *
damage (const char *where)
{
  g_autofree char *bare = g_strndup (where, strlen (where) - g_str_has_suffix (where, "."));
  return g_strdup_printf (_ ("it is damaged (%s). If a backup lies beside it, its name ends in ~."),
                          bare);
}

#define FIRST_BYTES 512

/* Of what is whole and of another kind nobody says that it is damaged. */
static gboolean
is_picture (GFile *file)
{
  guint8 first[FIRST_BYTES];
  gsize n = 0;
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, NULL);
  return stream
         && g_input_stream_read_all (G_INPUT_STREAM (stream), first, sizeof first, &n, NULL, NULL)
         && bw_picture_kind (first, n) != BW_PICTURE_KIND_OTHER;
}

/* A fault names its place in the file; the reader of a sentence wants the place last. Sentences
 * about disks have no full stop of their own. */
static char *
plain_reason (BwFileDeed deed, GFile *file, const GError *error)
{
  BwIoWay way = deed == BW_FILE_OPENED ? BW_IO_READ : BW_IO_WRITE;
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  if (g_error_matches (error, BW_FAULT, BW_FAULT_SYNTAX) && deed == BW_FILE_OPENED
      && is_picture (file))
    return g_strdup (_ ("it is a picture, not a project. Draw, Picture lays it on the band."));
  if (g_error_matches (error, BW_FAULT, BW_FAULT_SYNTAX))
    return damage (bw_fault_sentence (error));
  if (pointer)
    return g_strdup_printf (_ ("%s (at %s)"), bw_fault_sentence (error), pointer);
  const char *own = without_path (bw_fault_sentence (error), file);
  const char *words = own == error->message ? bw_io_words (error, way) : own;
  return g_str_has_suffix (words, ".") ? g_strdup (words) : g_strconcat (words, ".", NULL);
}

static char *
failure (BwFileDeed deed, const char *name, const char *reason)
{
  switch (deed) {
  case BW_FILE_OPENED:
    return g_strdup_printf (_ ("“%s” could not be opened: %s"), name, reason);
  case BW_FILE_SAVED:
    return g_strdup_printf (_ ("“%s” could not be saved: %s"), name, reason);
  case BW_FILE_WRITTEN:
  default:
    return g_strdup_printf (_ ("“%s” could not be written: %s"), name, reason);
  }
}

void
bw_tell_file_failure (GtkWidget *widget, BwFileDeed deed, GFile *file, const GError *error)
{
  g_autofree char *name = bw_file_shown (file);
  g_autofree char *reason = plain_reason (deed, file, error);
  g_autofree char *sentence = failure (deed, name, reason);
  bw_tell (widget, GTK_MESSAGE_ERROR, sentence);
}

void
bw_tell_file_written (GtkWidget *widget, GFile *file, const GError *error)
{
  if (error) {
    bw_tell_file_failure (widget, BW_FILE_WRITTEN, file, error);
    return;
  }
  g_autofree char *name = bw_file_shown (file);
  g_autofree char *sentence = g_strdup_printf (_ ("“%s” was written."), name);
  bw_tell (widget, GTK_MESSAGE_INFO, sentence);
}
