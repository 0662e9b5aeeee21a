/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From starting the program to its first picture on the screen, a demo project open, against a bare
 * window with an OpenGL area: in turn on one virtual display, each pair a ratio. The screen is
 * asked from outside; a window's first frame already holds what its areas drew. */
#include "screen.h"

#include <stdio.h>
#include <stdlib.h>

#define PAIRS 11

/* Milliseconds to the first picture, and of the processors until then; the program is ended and the
 * screen is dark again. */
typedef struct {
  double ms, processor_ms;
} Start;

static Start
start (Display *display, char **argv)
{
  Start took;
  gint64 begin = g_get_monotonic_time ();
  GPid pid = screen_spawn (argv);
  screen_wait (display, FALSE);
  took.ms = (double)(g_get_monotonic_time () - begin) / 1000;
  took.processor_ms = screen_end (display, pid);
  return took;
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
  double own[PAIRS], other[PAIRS], ratio[PAIRS], processor[PAIRS];
  Display *display = screen_open ();
  start (display, program);
  start (display, bare);
  for (int i = 0; i < PAIRS; i++) {
    Start one = start (display, program), two = start (display, bare);
    own[i] = one.ms;
    other[i] = two.ms;
    ratio[i] = one.ms / two.ms;
    processor[i] = one.processor_ms / two.processor_ms;
  }
  printf ("start to the first picture, median of %d pairs: program %.0f ms, bare window %.0f ms, "
          "ratio %.2f, of the processors' time %.2f\n",
          PAIRS, median (own), median (other), median (ratio), median (processor));
  screen_close (display);
  return 0;
}
