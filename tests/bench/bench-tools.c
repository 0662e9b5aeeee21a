/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A flood of 10⁵ beads, and a stroke under a symmetry that carries each bead to many. Fails when
 * the flood takes longer than 5 ms or a stroke's cost grows with the band instead of with what it
 * changes. */
#include "editor/tool/flood.h"
#include "editor/tool/hand.h"

#include <stdio.h>
#include <stdlib.h>

#define FLOOD_MS 5.0
#define MOVE_MS 8.3

static int
compare (const void *a, const void *b)
{
  const double *p = a, *q = b;
  return (*p > *q) - (*p < *q);
}

static double
flood_ms (void)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (100, 2000, 0);
  double took[21];
  int reached = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (took); i++) {
    gint64 start = g_get_monotonic_time ();
    g_autoptr (BwRegion) region = bw_flood (drawing, 1001, 50);
    took[i] = (double)(g_get_monotonic_time () - start) / 1000;
    reached = bw_region_count (region);
  }
  qsort (took, G_N_ELEMENTS (took), sizeof *took, compare);
  printf ("flood of %d beads: median %.2f ms\n", reached, took[G_N_ELEMENTS (took) / 2]);
  return took[G_N_ELEMENTS (took) / 2];
}

static BwProject *
long_band (void)
{
  BwProject *project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;
  BwTray tray = *bw_project_get_tray (project);

  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 1590;
  design.stone.has_second = FALSE;
  design.stone.length_mm = 200;
  design.stone.shoulder_mm = 150;
  design.stone.at_mm = 50;
  design.band = (BwBand){ 60, 2000, 20, 180 };
  design.bail.style = BW_BAIL_NONE;
  tray.n_colours = 2;
  tray.colour[1] = (BwColour){ 'z', "Buoy", 0xb23a48, BW_FINISH_CLEAR };
  if (!bw_project_set_design (project, "A long band", &design, &error)
      || !bw_project_set_tray (project, "Tray", &tray, &error))
    g_error ("%s", error->message);
  return project;
}

/* One move of the pointer by some beads, its 20 repeats with it. */
static double
move_ms (void)
{
  g_autoptr (BwProject) project = long_band ();
  g_autoptr (BwSession) session = bw_session_new (project);
  g_autoptr (BwHand) hand = bw_hand_new (session);
  BwBandLayout layout
      = { .columns = 60, .rows = 2000, .pitch_mm = 1.6, .column_mm = 1.3, .zoom = 1 };
  double took[200];
  bw_session_set_colour (session, 1);
  bw_session_set_symmetry (session, (BwLiveSymmetry){ { BW_FRIEZE_P2MG, 50, 0 }, FALSE });
  bw_hand_begin (hand, &bw_tool_bead, &layout, bw_band_middle (1, 2));
  for (gsize i = 0; i < G_N_ELEMENTS (took); i++) {
    BwBandPoint at = { 0.05 * (double)i, 1.5 + 0.25 * (double)i };
    gint64 start = g_get_monotonic_time ();
    bw_hand_update (hand, at);
    took[i] = (double)(g_get_monotonic_time () - start) / 1000;
  }
  bw_hand_revert (hand);
  qsort (took, G_N_ELEMENTS (took), sizeof *took, compare);
  printf ("a move with its 80 images: 95 %% below %.3f ms, worst %.3f ms\n", took[190], took[199]);
  return took[190];
}

int
main (void)
{
  gboolean quick = flood_ms () <= FLOOD_MS;
  return quick && move_ms () <= MOVE_MS ? EXIT_SUCCESS : EXIT_FAILURE;
}
