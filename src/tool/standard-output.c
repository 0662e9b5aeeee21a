/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A report that was cut short by a full disk must not look like one that is done. */
#include "tool/standard-output.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

void
bw_standard_output_guard (void)
{
  for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
    if (fcntl (fd, F_GETFD) == -1 && errno == EBADF)
      /* The lowest free number is this one; not open for writing, so that a write still fails. */
      (void)open ("/dev/null", O_RDONLY);
  signal (SIGPIPE, SIG_IGN);
}

gboolean
bw_standard_output_write (const char *text, GError **error)
{
  gsize left = strlen (text);
  while (left > 0) {
    gssize written = write (STDOUT_FILENO, text, left);
    if (written < 0 && errno == EINTR)
      continue;
    if (written < 0) {
      int saved = errno;
      g_set_error_literal (error, G_IO_ERROR, g_io_error_from_errno (saved), g_strerror (saved));
      return FALSE;
    }
    text += written;
    left -= (gsize)written;
  }
  return TRUE;
}
