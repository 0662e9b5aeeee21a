/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From starting the program to its first picture on the screen, a demo project open, against a bare
 * window with an OpenGL area: in turn on one virtual display, each pair a ratio. The screen is
 * asked from outside; a window's first frame already holds what its areas drew. */
#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <glib.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#define PAIRS 11
#define GIVE_UP_US (30 * G_USEC_PER_SEC)

static void
die_with_parent (gpointer data)
{
  prctl (PR_SET_PDEATHSIG, SIGKILL);
}

static GPid
spawn (char **argv, gboolean leave_open)
{
  GPid pid = 0;
  g_autoptr (GError) error = NULL;
  GSpawnFlags flags = G_SPAWN_SEARCH_PATH | G_SPAWN_DO_NOT_REAP_CHILD | G_SPAWN_STDERR_TO_DEV_NULL
                      | G_SPAWN_STDOUT_TO_DEV_NULL;
  if (leave_open)
    flags |= G_SPAWN_LEAVE_DESCRIPTORS_OPEN;
  if (!g_spawn_async (NULL, argv, NULL, flags, die_with_parent, NULL, &pid, &error))
    g_error ("%s", error->message);
  return pid;
}

static GPid
start_server (void)
{
  int ready[2];
  char number[16] = { 0 };
  if (pipe (ready))
    g_error ("no pipe");
  g_autofree char *fd = g_strdup_printf ("%d", ready[1]);
  char *argv[] = { "Xvfb",        "-displayfd", fd,    "-screen",  "0",
                   "1280x900x24", "-nolisten",  "tcp", "-noreset", NULL };
  GPid pid = spawn (argv, TRUE);
  close (ready[1]);
  if (read (ready[0], number, sizeof number - 1) <= 0)
    g_error ("no virtual display");
  close (ready[0]);
  g_autofree char *name = g_strconcat (":", g_strstrip (number), NULL);
  g_setenv ("DISPLAY", name, TRUE);
  return pid;
}

static gboolean
screen_is_dark (Display *display)
{
  XImage *image
      = XGetImage (display, DefaultRootWindow (display), 500, 400, 1, 1, AllPlanes, ZPixmap);
  gboolean dark = !image || (XGetPixel (image, 0, 0) & 0xffffff) == 0;
  if (image)
    XDestroyImage (image);
  return dark;
}

static void
wait_for (Display *display, gboolean dark)
{
  gint64 give_up = g_get_monotonic_time () + GIVE_UP_US;
  while (screen_is_dark (display) != dark) {
    if (g_get_monotonic_time () > give_up)
      g_error ("the screen does not change");
    g_usleep (1000);
  }
}

/* Milliseconds to the first picture; the program is ended and the screen is dark again. */
static double
start_ms (Display *display, char **argv)
{
  gint64 begin = g_get_monotonic_time ();
  GPid pid = spawn (argv, FALSE);
  wait_for (display, FALSE);
  double ms = (double)(g_get_monotonic_time () - begin) / 1000;
  kill (pid, SIGKILL);
  waitpid (pid, NULL, 0);
  wait_for (display, TRUE);
  return ms;
}

static int
ascending (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double
median (double *values)
{
  qsort (values, PAIRS, sizeof *values, ascending);
  return values[PAIRS / 2];
}

int
main (int argc, char *argv[])
{
  char *program[] = { argv[1], argv[3], NULL }, *bare[] = { argv[2], NULL };
  double own[PAIRS], other[PAIRS], ratio[PAIRS];
  g_autofree char *home = g_dir_make_tmp ("bandwright-start-XXXXXX", NULL);
  g_setenv ("XDG_STATE_HOME", home, TRUE);
  g_setenv ("XDG_CONFIG_HOME", home, TRUE);
  g_setenv ("XDG_DATA_HOME", home, TRUE);
  g_setenv ("GTK_A11Y", "none", TRUE);
  g_setenv ("GSETTINGS_BACKEND", "memory", TRUE);
  g_unsetenv ("WAYLAND_DISPLAY");
  GPid server = start_server ();
  Display *display = XOpenDisplay (NULL);
  start_ms (display, program);
  start_ms (display, bare);
  for (int i = 0; i < PAIRS; i++) {
    own[i] = start_ms (display, program);
    other[i] = start_ms (display, bare);
    ratio[i] = own[i] / other[i];
  }
  printf ("start to the first picture, median of %d pairs: program %.0f ms, bare window %.0f ms, "
          "ratio %.2f\n",
          PAIRS, median (own), median (other), median (ratio));
  XCloseDisplay (display);
  kill (server, SIGKILL);
  return 0;
}
