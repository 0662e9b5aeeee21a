/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory that is the program's alone, at rest with a picture of the piece on the screen: for bands
 * of 10 × 98, 60 × 1,000 and 60 × 2,000, against a bare window with an OpenGL area; medians. What a
 * bead takes is the difference of two bands, with all that is known of them: places, thread,
 * drawing, undo, pictures. The two large ones are drawn by the same shaders; the small one is not,
 * so its difference is that of these too. */
#include "screen.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ROUNDS 3
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

static int
ascending (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double
median (double *values)
{
  qsort (values, ROUNDS, sizeof *values, ascending);
  return values[ROUNDS / 2];
}

static double
bytes_a_bead (double more_mb, int beads)
{
  return more_mb * 1024 * 1024 / beads;
}

int
main (int argc, char *argv[])
{
  char *bare[] = { argv[2], NULL };
  double window[ROUNDS], small[ROUNDS], middle[ROUNDS], large[ROUNDS];
  Display *display = screen_open ();
  for (int i = 0; i < ROUNDS; i++) {
    window[i] = mb_at_rest (display, bare);
    small[i] = mb_with_band (display, argv[1], 73, 10, 98);
    middle[i] = mb_with_band (display, argv[1], 795, 60, 1000);
    large[i] = mb_with_band (display, argv[1], 1590, 60, 2000);
  }
  double few = median (small), some = median (middle), many = median (large);
  printf ("bare window %.1f MiB, with 490 beads %.1f MiB, 30,000 %.1f MiB, 60,000 %.1f MiB\n"
          "a bead more: %.0f bytes from 490 to 60,000, %.0f from 30,000 to 60,000\n",
          median (window), few, some, many, bytes_a_bead (many - few, 60000 - 490),
          bytes_a_bead (many - some, 30000));
  screen_close (display);
  return 0;
}
