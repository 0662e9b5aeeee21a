/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/tell-file.h"
#include "core/base/fault.h"

#include <glib/gi18n-lib.h>

/* What went wrong with a file in plain words, where the system's own would repeat its whole path.
 */
static const char *
plain_io_words (const GError *error)
{
  if (error->domain != G_IO_ERROR)
    return NULL;
  switch (error->code) {
  case G_IO_ERROR_NOT_FOUND:
    return _ ("there is no such file or folder.");
  case G_IO_ERROR_PERMISSION_DENIED:
    return _ ("you have no permission to do that.");
  case G_IO_ERROR_READ_ONLY:
    return _ ("it is on a medium that can only be read.");
  case G_IO_ERROR_IS_DIRECTORY:
    return _ ("it is a folder.");
  case G_IO_ERROR_NO_SPACE:
    return _ ("there is no room left.");
  default:
    return NULL;
  }
}

static const char *
without_path (const char *sentence, GFile *file)
{
  const char *path = g_file_peek_path (file);
  g_autofree char *prefix = g_strconcat (path ? path : "", ": ", NULL);
  return g_str_has_prefix (sentence, prefix) ? sentence + strlen (prefix) : sentence;
}

/* A fault names its place in the file; the reader of a sentence wants the place last. */
static char *
plain_reason (GFile *file, const GError *error)
{
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  const char *words = plain_io_words (error);
  if (words)
    return g_strdup (words);
  if (!pointer)
    return g_strdup (without_path (bw_fault_sentence (error), file));
  return g_strdup_printf (_ ("%s (at %s)"), bw_fault_sentence (error), pointer);
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
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *reason = plain_reason (file, error);
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
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *sentence = g_strdup_printf (_ ("“%s” was written."), name);
  bw_tell (widget, GTK_MESSAGE_INFO, sentence);
}
