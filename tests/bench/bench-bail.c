/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one step of a dragged bail costs on a band of 60 × 2,000 beads, before anything is drawn:
 * finding the place, the edit, and what the Hang stage and the stone view then ask for. */
#include "core/bail/bail-place.h"
#include "editor/bail/bail-grip.h"
#include "preview/scene/scene.h"
#include "project/project.h"
#include <stdio.h>
#include <stdlib.h>

#define STEPS 100

static const char text[]
    = "{\"format\": \"bandwright-project\", \"version\": 1,"
      "\"stone\": {\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [1590], \"at_mm\": 66,"
      "\"length_mm\": 200, \"shoulder_mm\": 160},"
      "\"bead\": {\"diameter_mm\": 1.6, \"length_mm\": 1.3, \"hole_mm\": 0.8},"
      "\"band\": {\"columns\": 60, \"rows\": 2000}, \"bail\": {\"style\": \"flap\"}}";

static double
ms_since (gint64 begin)
{
  return (double)(g_get_monotonic_time () - begin) / 1000;
}

static int
ascending (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static void
report (const char *what, double values[STEPS])
{
  qsort (values, STEPS, sizeof *values, ascending);
  printf ("%-44s median %6.3f ms, 95th percentile %6.3f ms\n", what, values[STEPS / 2],
          values[STEPS * 95 / 100]);
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_project_load_data (text, sizeof text - 1, &error);
  double place[STEPS], edit[STEPS], hang[STEPS], follow[STEPS], anew[STEPS];
  if (!project)
    g_error ("%s", error->message);
  bw_project_places (project);
  const BwDesign from = *bw_project_get_design (project);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  bw_project_begin (project, "drag");
  for (int i = 0; i < STEPS; i++) {
    BwDesign design;
    gint64 begin = g_get_monotonic_time ();
    bw_bail_pull (&design, &from, bw_project_mid_ring (project), BW_BAIL_GRIP_BODY, i + 1, 0);
    place[i] = ms_since (begin);
    begin = g_get_monotonic_time ();
    if (!bw_project_set_design (project, "", &design, &error))
      g_error ("%s", error->message);
    edit[i] = ms_since (begin);
    begin = g_get_monotonic_time ();
    bw_project_hang (project);
    hang[i] = ms_since (begin);
    begin = g_get_monotonic_time ();
    if (!bw_scene_follow_bail (scene, project))
      g_error ("more than the bail has changed");
    follow[i] = ms_since (begin);
    begin = g_get_monotonic_time ();
    bw_scene_free (bw_scene_new (project, FALSE));
    anew[i] = ms_since (begin);
  }
  bw_project_revert (project);
  report ("a dragged bail: its nearest place", place);
  report ("  the edit", edit);
  report ("  how it hangs", hang);
  report ("  the scene of the stone view, followed", follow);
  report ("  and built anew, as when it is let go", anew);
  return 0;
}
