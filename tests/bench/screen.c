/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "screen.h"

#include <X11/Xutil.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#define GIVE_UP_US (60 * G_USEC_PER_SEC)

static GPid server;

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

void
screen_wait (Display *display, gboolean dark)
{
  gint64 give_up = g_get_monotonic_time () + GIVE_UP_US;
  while (screen_is_dark (display) != dark) {
    if (g_get_monotonic_time () > give_up)
      g_error ("the screen does not change");
    g_usleep (1000);
  }
}

GPid
screen_spawn (char **argv)
{
  return spawn (argv, FALSE);
}

Display *
screen_open (void)
{
  g_autofree char *home = g_dir_make_tmp ("bandwright-bench-XXXXXX", NULL);
  g_setenv ("XDG_STATE_HOME", home, TRUE);
  g_setenv ("XDG_CONFIG_HOME", home, TRUE);
  g_setenv ("XDG_DATA_HOME", home, TRUE);
  g_setenv ("GTK_A11Y", "none", TRUE);
  g_setenv ("GSETTINGS_BACKEND", "memory", TRUE);
  g_unsetenv ("WAYLAND_DISPLAY");
  server = start_server ();
  return XOpenDisplay (NULL);
}

void
screen_close (Display *display)
{
  XCloseDisplay (display);
  kill (server, SIGKILL);
}

static double
ms_of (struct timeval time)
{
  return (double)time.tv_sec * 1e3 + (double)time.tv_usec * 1e-3;
}

double
screen_end (Display *display, GPid pid)
{
  struct rusage used = { 0 };
  kill (pid, SIGKILL);
  wait4 (pid, NULL, 0, &used);
  screen_wait (display, TRUE);
  return ms_of (used.ru_utime) + ms_of (used.ru_stime);
}
