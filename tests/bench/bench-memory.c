/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory that is the program's alone, at rest with a picture of the piece on the screen: for a band
 * of 10 × 98 beads and one of 60 × 2,000, against a bare window with an OpenGL area. What a bead
 * takes is the difference of the two bands, with all that is known of them: places, thread,
 * drawing, undo, pictures. */
#include "screen.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define QUIET_US (2 * G_USEC_PER_SEC)

static const char text[]
    = "{\"format\": \"bandwright-project\", \"version\": 1,"
      "\"stone\": {\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [%g], \"at_mm\": 66,"
      "\"length_mm\": 200, \"shoulder_mm\": 160},"
      "\"bead\": {\"diameter_mm\": 1.6, \"length_mm\": 1.3, \"hole_mm\": 0.8},"
      "\"band\": {\"columns\": %d, \"rows\": %d}}";

static char *
read_of (GPid pid, const char *name)
{
  char *words = NULL;
  g_autofree char *path = g_strdup_printf ("/proc/%d/%s", (int)pid, name);
  if (!g_file_get_contents (path, &words, NULL, NULL))
    g_error ("%s cannot be read", path);
  return words;
}

static double
private_mb (GPid pid)
{
  g_autofree char *words = read_of (pid, "smaps_rollup");
  double kb = 0;
  for (const char *at = words; (at = strstr (at, "Private_")); at++)
    if (g_str_has_prefix (at, "Private_Clean:") || g_str_has_prefix (at, "Private_Dirty:"))
      kb += atof (strchr (at, ':') + 1);
  return kb / 1024;
}

/* User and system time so far, in ticks. */
static guint64
ticks_of (GPid pid)
{
  g_autofree char *words = read_of (pid, "stat");
  g_auto (GStrv) fields = g_strsplit (strrchr (words, ')') + 2, " ", 0);
  return g_ascii_strtoull (fields[11], NULL, 10) + g_ascii_strtoull (fields[12], NULL, 10);
}

static double
mb_at_rest (Display *display, char **argv)
{
  GPid pid = screen_spawn (argv);
  screen_wait (display, FALSE);
  for (guint64 before = 0, now = ticks_of (pid); now > before + 2;) {
    before = now;
    g_usleep (QUIET_US);
    now = ticks_of (pid);
  }
  double mb = private_mb (pid);
  screen_end (display, pid);
  return mb;
}

static double
mb_with_band (Display *display, char *program, double girth_mm, int columns, int rows)
{
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "bench-memory.bandwright", NULL);
  g_autofree char *project = g_strdup_printf (text, girth_mm, columns, rows);
  char *argv[] = { program, path, NULL };
  if (!g_file_set_contents (path, project, -1, NULL))
    g_error ("%s cannot be written", path);
  return mb_at_rest (display, argv);
}

int
main (int argc, char *argv[])
{
  char *bare[] = { argv[2], NULL };
  Display *display = screen_open ();
  double window = mb_at_rest (display, bare);
  double small = mb_with_band (display, argv[1], 73, 10, 98);
  double large = mb_with_band (display, argv[1], 1590, 60, 2000);
  printf ("bare window %.1f MiB, with 490 beads %.1f MiB, with 60,000 beads %.1f MiB\n"
          "a bead more: %.0f bytes\n",
          window, small, large, (large - small) * 1024 * 1024 / (60000 - 490));
  screen_close (display);
  return 0;
}
