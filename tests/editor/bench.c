/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several programs put the same canvas on the desk; here it is put up once. */
#include "bench.h"

#include "../window/desk.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static void
on_status (BwBandCanvas *canvas, const char *words, Bench *bench)
{
  g_free (bench->status);
  bench->status = g_strdup (words);
}

static void
give_tray (BwProject *project)
{
  BwTray tray = *bw_project_get_tray (project);
  tray.n_colours = 3;
  tray.colour[0].id = 'n';
  tray.colour[1] = (BwColour){ 'y', "Lamp glass", 0xe9c46a, BW_FINISH_CLEAR };
  tray.colour[2] = (BwColour){ 'z', "Buoy", 0xb23a48, BW_FINISH_OPAQUE };
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
}

int
bench_set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->project = bw_project_new ();
  give_tray (bench->project);
  bench->session = bw_session_new (bench->project);
  bw_session_set_colour (bench->session, 1);
  bench->canvas = BW_BAND_CANVAS (bw_band_canvas_new (bench->session));
  g_signal_connect (bench->canvas, "status", G_CALLBACK (on_status), bench);
  bench->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (bench->window), 1000, 600);
  gtk_window_set_decorated (GTK_WINDOW (bench->window), FALSE);
  gtk_window_set_child (GTK_WINDOW (bench->window), GTK_WIDGET (bench->canvas));
  gtk_window_present (GTK_WINDOW (bench->window));
  desk_settle ();
  gtk_widget_grab_focus (GTK_WIDGET (bench->canvas));
  /* So that every bead can be pointed at. */
  bw_band_canvas_fit (bench->canvas);
  desk_settle ();
  *state = bench;
  return 0;
}

int
bench_tear_down (void **state)
{
  Bench *bench = *state;
  gtk_window_destroy (GTK_WINDOW (bench->window));
  desk_settle ();
  g_object_unref (bench->session);
  g_assert_finalize_object (bench->project);
  g_free (bench->status);
  g_free (bench);
  return 0;
}

guint8
bench_cell (Bench *bench, int row, int column)
{
  return bw_drawing_get (bw_project_get_drawing (bench->project), row, column);
}

int
bench_count (Bench *bench, guint8 colour)
{
  guint64 counts[256] = { 0 };
  bw_drawing_count (bw_project_get_drawing (bench->project), counts);
  return (int)counts[colour];
}
