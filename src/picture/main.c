/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decoder: one picture in, its points out (answer.h). It is started anew for each picture and
 * binds its own hands before it looks at one. */
#include "config.h"

#include "picture/answer.h"
#include "picture/decode.h"

#include <stdio.h>
#include <stdlib.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

static gboolean
limit (__rlimit_resource_t what, rlim_t most)
{
  struct rlimit value = { most, most };
  return setrlimit (what, &value) == 0;
}

/* Time of the processor, addresses, what is written, no memory image of a crash; it ends with the
 * program that started it and never has more rights than now. */
static gboolean
bind_hands (void)
{
  rlim_t answer = sizeof (BwPictureAnswer) + 4ULL * BW_PICTURE_POINTS_MAX;
  return limit (RLIMIT_CPU, BW_PICTURE_SECONDS) && limit (RLIMIT_AS, BW_PICTURE_MEMORY_MAX)
         && limit (RLIMIT_FSIZE, answer) && limit (RLIMIT_CORE, 0)
         && prctl (PR_SET_PDEATHSIG, SIGKILL) == 0 && prctl (PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0;
}

static gboolean
write_rows (const GdkPixbuf *pixbuf)
{
  gsize row = (gsize)(gdk_pixbuf_get_width (pixbuf) * gdk_pixbuf_get_n_channels (pixbuf));
  const guint8 *pixels = gdk_pixbuf_read_pixels (pixbuf);
  for (int y = 0; y < gdk_pixbuf_get_height (pixbuf); y++)
    if (fwrite (pixels + (gsize)y * (gsize)gdk_pixbuf_get_rowstride (pixbuf), row, 1, stdout) != 1)
      return FALSE;
  return TRUE;
}

int
main (void)
{
  BwPictureAnswer answer;
  if (!bind_hands ())
    return EXIT_FAILURE;
  g_autoptr (GMappedFile) file = g_mapped_file_new_from_fd (STDIN_FILENO, FALSE, NULL);
  if (!file)
    return EXIT_FAILURE;
  g_autoptr (GdkPixbuf) pixbuf = bw_picture_decode (
      (const guint8 *)g_mapped_file_get_contents (file), g_mapped_file_get_length (file), &answer);
  answer.magic = BW_PICTURE_MAGIC;
  if (fwrite (&answer, sizeof answer, 1, stdout) != 1 || (pixbuf && !write_rows (pixbuf)))
    return EXIT_FAILURE;
  return fflush (stdout) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
