/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one step of a dragged value costs before anything is drawn: the edit, validated as a whole,
 * and all that the fit line and the stone view then ask for. Sixty a second leave 16.7 ms for it.
 */
#include "preview/scene/scene.h"
#include "project/project.h"
#include <stdio.h>
#include <stdlib.h>

#define STEPS 200

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
main (int argc, char *argv[])
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (argv[1]);
  g_autoptr (BwProject) project = bw_project_load (file, &error);
  double edit[STEPS], fit[STEPS], scene[STEPS];
  if (!project)
    g_error ("%s", error->message);
  bw_project_begin (project, "drag");
  for (int i = 0; i < STEPS; i++) {
    BwDesign design = *bw_project_get_design (project);
    gint64 begin = g_get_monotonic_time ();
    design.stone.values_mm[0] += i % 2 ? 0.05 : -0.05;
    if (!bw_project_set_design (project, "", &design, &error))
      g_error ("%s", error->message);
    edit[i] = ms_since (begin);
    begin = g_get_monotonic_time ();
    bw_project_fit (project);
    bw_project_forecast (project);
    bw_project_remedies (project);
    fit[i] = ms_since (begin);
    begin = g_get_monotonic_time ();
    bw_scene_free (bw_scene_new (project, FALSE));
    scene[i] = ms_since (begin);
  }
  bw_project_revert (project);
  report ("a dragged value: the edit", edit);
  report ("  fit, forecast and all remedies", fit);
  report ("  the scene of the stone view, built anew", scene);
  return 0;
}
