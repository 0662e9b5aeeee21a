/* SPDX-License-Identifier: GPL-3.0-or-later */
/* File and answer go through memory that has no name, so that nothing waits for a pipe to be
 * emptied, nothing lies about on a disk, and the points are used where the decoder put them. */
#include "config.h"

#include "picture/apart.h"

#include <fcntl.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

/* $BANDWRIGHT_LIBEXEC_DIR is for a program run from its build folder. */
static char *
decoder_path (void)
{
  const char *folder = g_getenv ("BANDWRIGHT_LIBEXEC_DIR");
  return g_build_filename (folder ? folder : BW_DECODER_DIR, "bandwright-picture", NULL);
}

static int
memory_new (void)
{
  return memfd_create ("picture", MFD_CLOEXEC);
}

/* A descriptor of memory with the bytes, at their beginning; -1: there is no room for them. */
static int
memory_of (GBytes *bytes)
{
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);
  int memory = memory_new ();
  for (gsize at = 0; memory >= 0 && at < length;) {
    gssize written = write (memory, data + at, length - at);
    if (written <= 0) {
      close (memory);
      return -1;
    }
    at += (gsize)written;
  }
  if (memory >= 0)
    lseek (memory, 0, SEEK_SET);
  return memory;
}

/* Takes in; gives the answer's memory a second descriptor. */
static GSubprocess *
start (int in, int out)
{
  g_autofree char *path = decoder_path ();
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDERR_SILENCE);
  g_subprocess_launcher_take_stdin_fd (launcher, in);
  g_subprocess_launcher_take_stdout_fd (launcher, fcntl (out, F_DUPFD_CLOEXEC, 3));
  return g_subprocess_launcher_spawn (launcher, NULL, path, NULL);
}

typedef struct {
  GSubprocess *decoder;
  gboolean ended;
} Wait;

static gboolean
kill_it (gpointer data)
{
  g_subprocess_force_exit (((Wait *)data)->decoder);
  return G_SOURCE_CONTINUE;
}

static gboolean
cancelled (GCancellable *cancellable, gpointer data)
{
  return kill_it (data);
}

static void
decoder_ended (GObject *source, GAsyncResult *result, gpointer data)
{
  g_subprocess_wait_finish (G_SUBPROCESS (source), result, NULL);
  ((Wait *)data)->ended = TRUE;
}

static void
attach (GSource *source, GSourceFunc call, gpointer data, GMainContext *context)
{
  g_source_set_callback (source, call, data, NULL);
  g_source_attach (source, context);
}

/* However it ends, the process is gone when this returns. */
static void
wait_for (GSubprocess *decoder, int seconds, GCancellable *cancellable)
{
  g_autoptr (GMainContext) context = g_main_context_new ();
  g_autoptr (GSource) late = g_timeout_source_new_seconds ((guint)seconds);
  g_autoptr (GSource) stop = g_cancellable_source_new (cancellable);
  Wait wait = { decoder, FALSE };
  g_main_context_push_thread_default (context);
  attach (late, kill_it, &wait, context);
  attach (stop, G_SOURCE_FUNC (cancelled), &wait, context);
  g_subprocess_wait_async (decoder, NULL, decoder_ended, &wait);
  while (!wait.ended)
    g_main_context_iteration (context, TRUE);
  g_source_destroy (late);
  g_source_destroy (stop);
  g_main_context_pop_thread_default (context);
}

static gboolean
is_sound (const BwPictureAnswer *answer, gsize length)
{
  gsize points = (gsize)MAX (answer->width, 0) * (gsize)MAX (answer->height, 0);
  if (answer->magic != BW_PICTURE_MAGIC || answer->outcome > BW_PICTURE_TOO_LARGE)
    return FALSE;
  return answer->outcome != BW_PICTURE_DONE
         || (points > 0 && points <= BW_PICTURE_POINTS_MAX
             && (answer->channels == 3 || answer->channels == 4)
             && length == sizeof *answer + points * (gsize)answer->channels);
}

/* The decoder is gone, so nobody writes to this memory any more. */
static GdkPixbuf *
take (int out, BwPictureAnswer *answer)
{
  g_autoptr (GMappedFile) map = g_mapped_file_new_from_fd (out, FALSE, NULL);
  g_autoptr (GBytes) all = map ? g_mapped_file_get_bytes (map) : NULL;
  gsize length = all ? g_bytes_get_size (all) : 0;
  *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_COSTLY };
  if (length < sizeof *answer)
    return NULL;
  memcpy (answer, g_bytes_get_data (all, NULL), sizeof *answer);
  if (!is_sound (answer, length))
    *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_COSTLY };
  if (answer->outcome != BW_PICTURE_DONE)
    return NULL;
  g_autoptr (GBytes) points = g_bytes_new_from_bytes (all, sizeof *answer, length - sizeof *answer);
  return gdk_pixbuf_new_from_bytes (points, GDK_COLORSPACE_RGB, answer->channels == 4, 8,
                                    answer->width, answer->height,
                                    answer->width * answer->channels);
}

GdkPixbuf *
bw_picture_decode_apart (GBytes *file, int seconds, GCancellable *cancellable,
                         BwPictureAnswer *answer)
{
  *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_NO_DECODER };
  int in = memory_of (file), out = memory_new ();
  g_autoptr (GSubprocess) decoder = in >= 0 && out >= 0 ? start (in, out) : NULL;
  GdkPixbuf *pixbuf = NULL;
  if (decoder) {
    wait_for (decoder, seconds, cancellable);
    *answer = (BwPictureAnswer){ .outcome = BW_PICTURE_COSTLY };
    if (g_subprocess_get_if_exited (decoder) && g_subprocess_get_exit_status (decoder) == 0)
      pixbuf = take (out, answer);
  } else if (in >= 0 && out < 0) {
    close (in);
  }
  if (out >= 0)
    close (out);
  return pixbuf;
}
