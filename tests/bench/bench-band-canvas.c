/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A band of 60 × 2,000 under the pointer: from a bead set to the snapshots built of the canvas and
 * of the strip beneath it, and a frame of rolling and of coming nearer. The window is 1200 × 800.
 * Fails when a painted bead or a roll takes longer than half a frame at 60 per second. */
#include "../window/desk.h"
#include "core/base/lattice.h"
#include "editor/band/band-overview.h"

#include <stdio.h>
#include <stdlib.h>

#define FRAMES 200
#define HALF_FRAME_MS 8.3

typedef struct {
  BwProject *project;
  GtkWidget *canvas, *overview;
  GRand *rand;
  int frame;
} Bench;

static BwProject *
long_band (void)
{
  BwProject *project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;

  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 1590;
  design.stone.has_second = FALSE;
  design.stone.length_mm = 200;
  design.stone.shoulder_mm = 150;
  design.stone.at_mm = 50;
  design.band = (BwBand){ 60, 2000, 20, 180 };
  design.bail.style = BW_BAIL_NONE;
  if (!bw_project_set_design (project, "A long band", &design, &error))
    g_error ("%s", error->message);
  BwTray tray = *bw_project_get_tray (project);
  tray.n_colours = MAX (tray.n_colours, 2);
  if (tray.colour[1].id == 0)
    tray.colour[1] = (BwColour){ 'z', "Buoy", 0xb23a48, BW_FINISH_CLEAR };
  bw_project_set_tray (project, "Tray", &tray, NULL);
  return project;
}

static void
build_widget (GtkWidget *widget)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GTK_WIDGET_GET_CLASS (widget)->snapshot (widget, snapshot);
  GskRenderNode *node = gtk_snapshot_free_to_node (snapshot);
  gsk_render_node_unref (node);
}

static void
build_snapshot (Bench *bench)
{
  build_widget (bench->canvas);
  build_widget (bench->overview);
}

/* A bead in view, in the other colour than it has. */
static void
set_a_bead (Bench *bench)
{
  int row = 0, column = 0;
  while (!bw_band_canvas_bead_at (BW_BAND_CANVAS (bench->canvas),
                                  g_rand_double_range (bench->rand, 100, 1100),
                                  g_rand_double_range (bench->rand, 50, 700), &row, &column))
    ;
  const BwDrawing *drawing = bw_project_get_drawing (bench->project);
  guint8 colour = bw_drawing_get (drawing, row, column) == 0;
  bw_project_set_bead (bench->project, "Draw beads", FALSE, row, column, colour);
}

static void
roll_on (Bench *bench)
{
  bw_band_canvas_roll_to (BW_BAND_CANVAS (bench->canvas), 0.37 * bench->frame);
}

static void
come_nearer (Bench *bench)
{
  BwBandCanvas *canvas = BW_BAND_CANVAS (bench->canvas);
  double zoom = bw_band_canvas_get_zoom (canvas);
  bw_band_canvas_set_zoom (canvas, zoom > 8 ? 0.25 : zoom * 1.03);
}

static int
compare (const void *a, const void *b)
{
  const double *p = a, *q = b;
  return (*p > *q) - (*p < *q);
}

/* Median and 95th percentile of what each frame takes, ms; returns the median. */
static double
measure (Bench *bench, const char *words, void (*act) (Bench *bench))
{
  double took[FRAMES];
  build_snapshot (bench);
  for (bench->frame = 0; bench->frame < FRAMES; bench->frame++) {
    gint64 start = g_get_monotonic_time ();
    act (bench);
    build_snapshot (bench);
    took[bench->frame] = (double)(g_get_monotonic_time () - start) / 1000;
  }
  qsort (took, FRAMES, sizeof *took, compare);
  printf ("%-34s median %6.2f ms, 95 %% below %6.2f ms\n", words, took[FRAMES / 2],
          took[FRAMES * 95 / 100]);
  return took[FRAMES / 2];
}

int
main (void)
{
  g_setenv ("GTK_A11Y", "none", TRUE);
  desk_open ();
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);

  Bench bench = { .project = long_band (), .rand = g_rand_new_with_seed (60) };
  BwSession *session = bw_session_new (bench.project);
  GtkWidget *window = gtk_window_new ();
  bench.canvas = bw_band_canvas_new (session);
  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 800);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  bench.overview = bw_band_overview_new (BW_BAND_CANVAS (bench.canvas), session);
  gtk_box_append (GTK_BOX (box), bench.canvas);
  gtk_box_append (GTK_BOX (box), bench.overview);
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_present (GTK_WINDOW (window));
  desk_settle ();

  gboolean smooth = TRUE;
  static const double zooms[] = { 0.25, 0.6, 1, 4 };
  for (gsize i = 0; i < G_N_ELEMENTS (zooms); i++) {
    g_autofree char *set = g_strdup_printf ("set a bead at %g %%", 100 * zooms[i]);
    g_autofree char *roll = g_strdup_printf ("roll at %g %%", 100 * zooms[i]);
    bw_band_canvas_set_zoom (BW_BAND_CANVAS (bench.canvas), zooms[i]);
    smooth &= measure (&bench, set, set_a_bead) < HALF_FRAME_MS;
    smooth &= measure (&bench, roll, roll_on) < HALF_FRAME_MS;
  }
  measure (&bench, "come nearer by 3 %", come_nearer);

  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (session);
  g_object_unref (bench.project);
  g_rand_free (bench.rand);
  desk_close ();
  return smooth ? EXIT_SUCCESS : EXIT_FAILURE;
}
