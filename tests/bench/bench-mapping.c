/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time to turn a picture of 12 megapixels into beads of 12 colours, with dithering and a tray
 * proposed: whole on the band, turned askew on it, and spread over 60,000 beads. At most one second
 * each. */
#include "core/pattern/mapping.h"
#include <stdio.h>

#define WIDTH 4000
#define HEIGHT 3000

static double
since (gint64 begin)
{
  return (double)(g_get_monotonic_time () - begin) / 1e3;
}

/* Milliseconds of the whole way. */
static double
whole_way (const BwPicture *picture, double width_mm, double turn_deg)
{
  const BwBandGrid grid = { 60, 2000, 1.6, 1.3 };
  BwPlacement placement = { 500, 30, width_mm, turn_deg };
  BwFootprints footprints;
  BwChoice choice = { .n = 12 };
  g_autoptr (BwDrawing) drawing = bw_drawing_new (60, 2000, 0);
  gint64 begin = g_get_monotonic_time ();
  bw_mapping_sample (&footprints, picture, &placement, &grid, NULL, NULL);
  double sampled = since (begin);
  choice.n = bw_mapping_propose (&footprints, 12, choice.srgb);
  double proposed = since (begin);
  for (int i = 0; i < choice.n; i++)
    choice.index[i] = (guint8)i;
  bw_mapping_match (&footprints, &choice, TRUE, drawing, NULL, NULL);
  double all = since (begin);
  printf (
      "%4.0f mm wide, turned %2.0f°: sampled %.0f ms, tray %.0f ms, matched %.0f ms, all %.0f ms\n",
      width_mm, turn_deg, sampled, proposed - sampled, all - proposed, all);
  bw_footprints_clear (&footprints);
  return all;
}

int
main (void)
{
  g_autofree guint8 *pixels = g_malloc ((gsize)WIDTH * HEIGHT * 4);
  guint32 noise = 1;
  for (gsize i = 0; i < (gsize)WIDTH * HEIGHT; i++) {
    noise = noise * 1664525u + 1013904223u;
    pixels[4 * i] = (guint8)(i % WIDTH * 255 / WIDTH);
    pixels[4 * i + 1] = (guint8)(i / WIDTH * 255 / HEIGHT);
    pixels[4 * i + 2] = (guint8)(noise >> 24);
    pixels[4 * i + 3] = 255;
  }
  BwPicture picture = { pixels, WIDTH, HEIGHT, 4, (gsize)WIDTH * 4 };
  double whole = whole_way (&picture, 104, 0), askew = whole_way (&picture, 70, 33);
  double spread = whole_way (&picture, 1600, 0);
  return whole > 1000 || askew > 1000 || spread > 1000;
}
