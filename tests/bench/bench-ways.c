/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the joint search takes: a first look, and the whole front, on all processors; and
 * whether every way it brings is snug by the fit and hangs as it says. Fails where the first good
 * ways take more than 2 s, the front more than 20 s, or a promise is broken. The load tells what
 * else the machine did: a process of its own that runs beside the search makes these times longer.
 */
#include "core/bail/hang.h"
#include "project/find-ways.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define HANG_DEG 1e-9

static gboolean
holds (const BwWay *way)
{
  BwStone stone;
  BwHang hang;
  if (!bw_design_validate (&way->design, &stone, NULL)
      || !bw_fit_is_snug (&way->design, &stone, way->design.band.rows))
    return FALSE;
  return !way->hangs
         || (bw_hang_init (&hang, &way->design, &stone, NULL) && hang.up == way->up
             && fabs (hang.tilt_deg - way->tilt_deg) < HANG_DEG);
}

static double
seconds_of (const BwWaysQuestion *question, gboolean coarse, guint *found, int *broken)
{
  gint64 begin = g_get_monotonic_time ();
  g_autoptr (GArray) ways = bw_ways_question_answer (question, coarse, 12, 0, NULL, NULL);
  double seconds = (double)(g_get_monotonic_time () - begin) / 1e6;
  *found = ways->len;
  for (guint i = 0; i < ways->len; i++)
    *broken += !holds (&g_array_index (ways, BwWay, i));
  return seconds;
}

int
main (int argc, char **argv)
{
  gboolean late = FALSE;
  int broken = 0;
  double load[1] = { 0 };
  getloadavg (load, 1);
  printf ("%u processors, load %.1f\n", g_get_num_processors (), load[0]);
  for (int i = 1; i < argc; i++) {
    g_autoptr (GFile) file = g_file_new_for_path (argv[i]);
    g_autoptr (BwProject) project = bw_project_load (file, NULL);
    g_autoptr (BwWaysQuestion) question = project ? bw_ways_question_new (project, NULL) : NULL;
    g_autofree char *name = g_path_get_basename (argv[i]);
    guint first, all;
    if (!question)
      return 1;
    double look = seconds_of (question, TRUE, &first, &broken);
    double whole = seconds_of (question, FALSE, &all, &broken);
    printf ("%-28s first look %5.2f s, %2u ways; the front %5.2f s, %2u ways; ratio %.1f\n", name,
            look, first, whole, all, whole / look);
    late = late || look > 2 || whole > 20;
  }
  printf ("%d promises broken\n", broken);
  return late || broken > 0;
}
