/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies over the beads: a repeat that breaks at the join is marked on the beads that break it,
 * and nowhere else, pixel by pixel. */
#include "../window/desk.h"
#include "core/base/lattice.h"
#include "editor/band/band-canvas.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <cmocka.h>

#define COLUMNS 8
#define ROWS 50
#define REPEAT 12

typedef struct {
  BwProject *project;
  BwSession *session;
  GtkWidget *window;
  BwBandCanvas *canvas;
} Bench;

/* A pattern of its own in each of 12 rows, all in blues, told again as far as there are rows. */
static void
draw_repeat (BwProject *project)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));
  for (int row = 1; row <= ROWS; row++)
    for (int j = 0; j < COLUMNS / 2; j++) {
      int in_repeat = (row - 1) % REPEAT;
      guint8 colour = (in_repeat * in_repeat + 3 * j) % 5 < 2;
      bw_drawing_set (drawing, row, bw_lattice_column (row, j), colour);
    }
  assert_true (bw_project_set_drawing (project, "Repeat", FALSE, drawing, NULL));
}

static void
prepare (BwProject *project)
{
  BwTray tray = *bw_project_get_tray (project);
  BwDesign design = *bw_project_get_design (project);
  tray.n_colours = 2;
  tray.colour[0] = (BwColour){ 'n', "Night", 0x1b2a41, BW_FINISH_MATTE };
  tray.colour[1] = (BwColour){ 's', "Sky", 0x7fa6d0, BW_FINISH_MATTE };
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
  design.band.columns = COLUMNS;
  design.band.rows = ROWS;
  assert_true (bw_project_set_design (project, "Size", &design, NULL));
  draw_repeat (project);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->project = bw_project_new ();
  prepare (bench->project);
  bench->session = bw_session_new (bench->project);
  bench->canvas = BW_BAND_CANVAS (bw_band_canvas_new (bench->session));
  bench->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (bench->window), 1000, 500);
  gtk_window_set_decorated (GTK_WINDOW (bench->window), FALSE);
  gtk_window_set_child (GTK_WINDOW (bench->window), GTK_WIDGET (bench->canvas));
  gtk_window_present (GTK_WINDOW (bench->window));
  desk_settle ();
  bw_band_canvas_fit (bench->canvas);
  desk_settle ();
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  gtk_window_destroy (GTK_WINDOW (bench->window));
  desk_settle ();
  g_object_unref (bench->session);
  g_assert_finalize_object (bench->project);
  g_free (bench);
  return 0;
}

/* The canvas drawn into memory: 0xAARRGGBB, width × height of the widget. Owned. */
static guint32 *
draw (Bench *bench)
{
  GtkWidget *widget = GTK_WIDGET (bench->canvas);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  desk_settle ();
  gdk_paintable_snapshot (paintable, snapshot, width, height);
  g_autoptr (GskRenderNode) node = gtk_snapshot_free_to_node (snapshot);
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (widget));
  graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  g_autoptr (GdkTexture) texture = gsk_renderer_render_texture (renderer, node, &all);
  guint32 *pixels = g_new0 (guint32, (gsize)width * (gsize)height);
  gdk_texture_download (texture, (guchar *)pixels, 4 * (gsize)width);
  return pixels;
}

/* The warm red of a cross; nothing else on this band is red. */
static gboolean
is_cross (guint32 pixel)
{
  guint32 rust = bw_tint_srgb (BW_TINT_RUST, TRUE);
  for (int shift = 0; shift <= 16; shift += 8)
    if (abs ((int)(pixel >> shift & 0xff) - (int)(rust >> shift & 0xff)) >= 12)
      return FALSE;
  return TRUE;
}

/* By the definition: the bead differs from the one a repeat before it, over the join. */
static gboolean
breaks (Bench *bench, int row, int column)
{
  const BwDrawing *drawing = bw_project_get_drawing (bench->project);
  return row <= REPEAT
         && bw_drawing_get (drawing, row, column)
                != bw_drawing_get (drawing, row + ROWS - REPEAT, column);
}

static gboolean
is_listed (const BwJoin *join, int row, int column)
{
  for (guint i = 0; i < join->broken->len; i++) {
    BwBeadAt bead = g_array_index (join->broken, BwBeadAt, i);
    if (bead.row == row && bead.column == column)
      return TRUE;
  }
  return FALSE;
}

/* Every red pixel lies on a bead that breaks the repeat. Gives how many there are. */
static int
expect_crosses_only_on_broken_beads (Bench *bench, const guint32 *pixels)
{
  int width = gtk_widget_get_width (GTK_WIDGET (bench->canvas)), crosses = 0;
  int height = gtk_widget_get_height (GTK_WIDGET (bench->canvas));
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      int row, column;
      if (!is_cross (pixels[y * width + x]))
        continue;
      crosses++;
      if (!bw_band_canvas_bead_at (bench->canvas, x + 0.5, y + 0.5, &row, &column)
          || !breaks (bench, row, column))
        fail_msg ("a cross at pixel %d, %d, where nothing breaks", x, y);
    }
  return crosses;
}

static void
every_bead_that_breaks_the_repeat_has_a_cross_and_no_other (void **state)
{
  Bench *bench = *state;
  const BwJoin *join = bw_project_join (bench->project);
  int width = gtk_widget_get_width (GTK_WIDGET (bench->canvas)), broken = 0;
  bw_session_set_symmetry (bench->session, (BwLiveSymmetry){ { BW_FRIEZE_P1, REPEAT, 0 }, FALSE });
  g_autofree guint32 *pixels = draw (bench);
  desk_keep ("crosses");
  for (int row = 1; row <= ROWS; row++)
    for (int j = 0; j < COLUMNS / 2; j++) {
      int column = bw_lattice_column (row, j);
      double x, y;
      assert_true (bw_band_canvas_bead_point (bench->canvas, row, column, &x, &y));
      assert_int_equal (is_listed (join, row, column), breaks (bench, row, column));
      assert_int_equal (is_cross (pixels[(int)y * width + (int)x]), breaks (bench, row, column));
      broken += breaks (bench, row, column);
    }
  assert_in_range (broken, 4, REPEAT * COLUMNS / 2 - 4);
  assert_true (expect_crosses_only_on_broken_beads (bench, pixels) >= 9 * broken);
}

static void
a_repeat_that_divides_the_rows_has_no_crosses (void **state)
{
  Bench *bench = *state;
  bw_session_set_symmetry (bench->session, (BwLiveSymmetry){ { BW_FRIEZE_P1, 10, 0 }, FALSE });
  g_autofree guint32 *pixels = draw (bench);
  int width = gtk_widget_get_width (GTK_WIDGET (bench->canvas));
  int height = gtk_widget_get_height (GTK_WIDGET (bench->canvas));
  for (int i = 0; i < width * height; i++)
    assert_false (is_cross (pixels[i]));
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (every_bead_that_breaks_the_repeat_has_a_cross_and_no_other),
    IN_WINDOW (a_repeat_that_divides_the_rows_has_no_crosses),
  };
  g_setenv ("GTK_A11Y", "none", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", FALSE);
  desk_open ();
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  desk_close ();
  return desk_end (failed);
}
