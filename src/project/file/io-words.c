/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One table from what the system says to what the maker reads. */
#include "config.h"

#include "project/file/io-words.h"

#include <errno.h>
#include <glib/gi18n-lib.h>

static const struct {
  int number, code; /* errno and the GIOErrorEnum it is told as */
  const char *words[2];
} table[] = {
  { ENOENT,
    G_IO_ERROR_NOT_FOUND,
    { N_ ("there is no such file"), N_ ("there is no such folder") } },
  { ENOTDIR,
    G_IO_ERROR_NOT_DIRECTORY,
    { N_ ("there is no such file"), N_ ("there is no such folder") } },
  { EISDIR,
    G_IO_ERROR_IS_DIRECTORY,
    { N_ ("this is a folder, not a file"), N_ ("this is a folder") } },
  { EACCES,
    G_IO_ERROR_PERMISSION_DENIED,
    { N_ ("you are not allowed to read this file"), N_ ("you are not allowed to write here") } },
  { EPERM,
    G_IO_ERROR_PERMISSION_DENIED,
    { N_ ("you are not allowed to read this file"), N_ ("you are not allowed to write here") } },
  { EROFS,
    G_IO_ERROR_READ_ONLY,
    { N_ ("you are not allowed to read this file"), N_ ("you are not allowed to write here") } },
  { ENOSPC, G_IO_ERROR_NO_SPACE, { N_ ("the disk is full"), N_ ("the disk is full") } },
  { EDQUOT,
    G_IO_ERROR_NO_SPACE,
    { N_ ("your share of the disk (the quota) is used up"),
      N_ ("your share of the disk (the quota) is used up") } },
  { EFBIG,
    G_IO_ERROR_NO_SPACE,
    { N_ ("a file this large is not allowed there"),
      N_ ("a file this large is not allowed there") } },
  { EIO,
    G_IO_ERROR_FAILED,
    { N_ ("the disk reports a fault and may be failing"),
      N_ ("the disk reports a fault and may be failing: save in another place") } },
  { ENAMETOOLONG,
    G_IO_ERROR_FILENAME_TOO_LONG,
    { N_ ("the name is too long"), N_ ("the name is too long: choose a shorter one") } },
  { EBUSY,
    G_IO_ERROR_BUSY,
    { N_ ("another program keeps it busy: try again in a moment"),
      N_ ("another program keeps it busy: try again in a moment") } },
  { ELOOP,
    G_IO_ERROR_TOO_MANY_LINKS,
    { N_ ("its links lead round in a circle"), N_ ("its links lead round in a circle") } },
  { ESTALE,
    G_IO_ERROR_NOT_MOUNTED,
    { N_ ("the connection to its folder is lost"), N_ ("the connection to its folder is lost") } },
};

static const char *
irregular_words (void)
{
  return _ ("this is no ordinary file");
}

void
bw_io_fail (int number, BwIoWay way, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    if (table[i].number == number) {
      g_set_error_literal (error, G_IO_ERROR, table[i].code, _ (table[i].words[way]));
      return;
    }
  g_set_error_literal (error, G_IO_ERROR, (int)g_io_error_from_errno (number), g_strerror (number));
}

void
bw_io_fail_irregular (GError **error)
{
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_REGULAR_FILE, irregular_words ());
}

/* An error of our own says it best: several of them share a code. */
static gboolean
is_ours (const char *message)
{
  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    if (g_str_equal (message, _ (table[i].words[BW_IO_READ]))
        || g_str_equal (message, _ (table[i].words[BW_IO_WRITE])))
      return TRUE;
  return FALSE;
}

const char *
bw_io_words (const GError *error, BwIoWay way)
{
  if (error->domain != G_IO_ERROR || is_ours (error->message))
    return error->message;
  if (error->code == G_IO_ERROR_NOT_REGULAR_FILE)
    return irregular_words ();
  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    if (table[i].code == error->code && error->code != G_IO_ERROR_FAILED)
      return _ (table[i].words[way]);
  return error->message;
}
