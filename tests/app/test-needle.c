/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture of a row on the needle, against the lattice and against the thread's path. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/bench/needle-layout.h"
#include "core/base/lattice.h"

#include <math.h>
#include <string.h>

#define DESIGNS 40

/* A tray of a few colours, and beads of them strewn over band and bail. */
static void
strew (BwProject *project, GRand *rand)
{
  BwTray tray = *bw_project_get_tray (project);
  tray.n_colours = g_rand_int_range (rand, 1, 6);
  for (int i = 1; i < tray.n_colours; i++) {
    tray.colour[i] = tray.colour[0];
    tray.colour[i].id = (gunichar)('p' + i);
    g_snprintf (tray.colour[i].name, sizeof tray.colour[i].name, "Glass number %d", i);
  }
  assert_true (bw_project_set_tray (project, "Tray", &tray, NULL));
  for (int canvas = 0; canvas < 2; canvas++) {
    const BwDrawing *drawing
        = canvas ? bw_project_get_bail_drawing (project) : bw_project_get_drawing (project);
    for (int row = 1; drawing && row <= bw_drawing_rows (drawing); row++)
      for (int j = 0; j < bw_drawing_columns (drawing) / 2; j++)
        bw_project_set_bead (project, "Strew", canvas, row, bw_lattice_column (row, j),
                             (guint8)g_rand_int_range (rand, 0, tray.n_colours));
  }
}

/* Columns, rows, bail and colours by chance; what cannot stand on the stone is tried anew. */
static BwProject *
random_project (GRand *rand)
{
  static const BwBailStyle styles[]
      = { BW_BAIL_NONE, BW_BAIL_FLAP, BW_BAIL_UPRIGHT, BW_BAIL_RING, BW_BAIL_OVER };
  BwProject *project = bw_project_new ();
  for (gboolean sound = FALSE; !sound;) {
    BwDesign design = *bw_project_get_design (project);
    design.band.columns = 2 * g_rand_int_range (rand, 2, 12);
    design.band.rows = g_rand_int_range (rand, 3, 130);
    design.band.bottom_mm = 2;
    design.bail.style = styles[g_rand_int_range (rand, 0, 4)];
    design.bail.columns = 2 * g_rand_int_range (rand, 1, 4);
    design.bail.rows = 2 * g_rand_int_range (rand, 5, 14) + 1;
    sound = bw_project_set_design (project, "Design", &design, NULL);
  }
  strew (project, rand);
  return project;
}

static const BwNeedleBead *
bead_at (const GArray *beads, guint i)
{
  return &g_array_index (beads, BwNeedleBead, i);
}

static const BwNeedlePlace *
place_at (const BwNeedleLayout *layout, guint i)
{
  return &g_array_index (layout->places, BwNeedlePlace, i);
}

/* By the rules of the weave alone: a bead, then the raised one of the row before, W of them. */
static void
expect_row_by_the_lattice (BwProject *project, int row)
{
  gboolean upward;
  const BwDrawing *drawing = bw_project_get_drawing (project);
  int columns = bw_drawing_columns (drawing);
  g_autoptr (GArray) beads = bw_needle_beads (project, FALSE, row, &upward);
  assert_int_equal (beads->len, columns);
  assert_int_equal (upward, bw_lattice_direction (row) > 0);
  for (guint i = 0; i < beads->len; i++) {
    const BwNeedleBead *bead = bead_at (beads, i);
    assert_int_equal (bead->column, upward ? (int)i + 1 : columns - (int)i);
    assert_int_equal (bead->is_new, row <= 2 || i % 2 == 0);
    assert_int_equal (bead->row, row <= 2 ? 1 + bead->column % 2 : row - (int)i % 2);
    assert_int_equal (bead->colour, bw_drawing_get (drawing, bead->row, bead->column));
  }
}

static void
a_row_is_the_beads_and_raised_beads_of_the_weave (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (301);
  for (int i = 0; i < DESIGNS; i++) {
    g_autoptr (BwProject) project = random_project (rand);
    int rows = bw_project_get_design (project)->band.rows;
    for (int row = 1; row <= rows; row++)
      expect_row_by_the_lattice (project, row);
  }
}

/* The visits of the whole path that belong to rows, band first and then bail, must be what the
 * pictures show one after the other. */
static void
row_after_row_is_the_path_of_the_thread (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (302);
  int bails = 0;
  for (int i = 0; i < DESIGNS; i++) {
    g_autoptr (BwProject) project = random_project (rand);
    const BwPath *path = bw_project_path (project);
    const BwDesign *design = bw_project_get_design (project);
    int made[2] = { design->band.rows, path->part[BW_PART_BAIL].visits ? design->bail.rows : 0 };
    guint at = 0;
    bails += made[1] > 0;
    for (int bail = 0; bail < 2; bail++)
      for (int row = 1; row <= made[bail]; row++) {
        gboolean upward, strung = row == 2 && (!bail || bw_bail_is_strip (&design->bail));
        if (strung)
          continue;
        g_autoptr (GArray) beads = bw_needle_beads (project, bail, row, &upward);
        assert_true (beads->len > 0);
        const BwVisit *visit = &g_array_index (path->visits, BwVisit, at);
        while (!visit->is_new) /* ends woven in, the join, the way to the bail, the sewing */
          visit = &g_array_index (path->visits, BwVisit, ++at);
        for (guint k = 0; k < beads->len; k++, at++) {
          visit = &g_array_index (path->visits, BwVisit, at);
          assert_int_equal (bead_at (beads, k)->is_new, visit->is_new);
          assert_int_equal (bead_at (beads, k)->row, visit->row);
          assert_int_equal (bead_at (beads, k)->column, visit->column);
          assert_int_equal (upward, visit->direction);
        }
      }
    for (; at < path->visits->len; at++)
      assert_false (g_array_index (path->visits, BwVisit, at).is_new);
  }
  assert_true (bails > DESIGNS / 5);
}

static void
there_is_no_row_beyond_the_last (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  gboolean upward;
  int rows = bw_project_get_design (project)->band.rows;
  g_autoptr (GArray) beyond = bw_needle_beads (project, FALSE, rows + 1, &upward);
  g_autoptr (GArray) bail = bw_needle_beads (project, TRUE, 1, &upward);
  assert_int_equal (beyond->len, 0);
  assert_int_equal (bail->len, 0);
}

/* --- Where it all lies -------------------------------------------------------------------------
 */

/* On a line the needle goes on by one place each time; beads to pick up lie in one height, raised
 * ones half a bead lower, and nothing leaves the picture. */
static void
expect_sound (const BwNeedleLayout *layout, const GArray *beads, double least)
{
  double way = layout->upward ? 1 : -1;
  for (guint i = 0; i < beads->len; i++) {
    const BwNeedlePlace *place = place_at (layout, i);
    assert_true (place->x > layout->bead_width / 2 - 1e-6);
    assert_true (place->x < layout->width - layout->bead_width / 2 + 1e-6);
    double y = (bead_at (beads, i)->is_new ? 0.5 : 1.0) * layout->bead_height;
    assert_true (fabs (place->y - y) < 1e-9);
    if (i > 0 && place->line == place_at (layout, i - 1)->line)
      assert_true (fabs (way * (place->x - place_at (layout, i - 1)->x) - layout->bead_width)
                   < 1e-6);
    else if (i > 0)
      assert_int_equal (place->line, place_at (layout, i - 1)->line + 1);
  }
  double first = place_at (layout, 0)->x, last = place_at (layout, beads->len - 1)->x;
  assert_true (way * (first - layout->enters) > layout->bead_width / 2);
  assert_true (way * (layout->leaves - last) > layout->bead_width);
  assert_true (layout->leaves > -1e-6 && layout->leaves < layout->width + 1e-6);
  assert_true (layout->lines == 1 || layout->bead_height >= least);
}

static void
expect_runs (const BwNeedleLayout *layout, const GArray *beads)
{
  guint at = 0;
  for (guint r = 0; r < layout->runs->len; r++) {
    const BwNeedleRun *run = &g_array_index (layout->runs, BwNeedleRun, r);
    for (int n = 0; n < run->n; at++) {
      const BwNeedleBead *bead = bead_at (beads, at);
      if (!bead->is_new)
        continue;
      double x = place_at (layout, at)->x;
      assert_int_equal (bead->colour, bead_at (beads, (guint)run->first)->colour);
      assert_int_equal (place_at (layout, at)->line, run->line);
      assert_true (x > run->left && x < run->right);
      n++;
    }
  }
  for (; at < beads->len; at++)
    assert_false (bead_at (beads, at)->is_new);
}

static void
every_row_lies_on_its_thread_at_every_width (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (303);
  for (int i = 0; i < DESIGNS; i++) {
    g_autoptr (BwProject) project = random_project (rand);
    int rows = bw_project_get_design (project)->band.rows;
    for (int turn = 0; turn < 20; turn++) {
      BwNeedleLayout layout;
      gboolean upward;
      double width = g_rand_double_range (rand, 200, 2000);
      g_autoptr (GArray) beads
          = bw_needle_beads (project, FALSE, g_rand_int_range (rand, 1, rows + 1), &upward);
      bw_needle_layout_init (&layout, beads, upward, width, g_rand_double_range (rand, 0.5, 1.2),
                             22, g_rand_double_range (rand, 22, 90));
      assert_int_equal (layout.places->len, beads->len);
      expect_sound (&layout, beads, 22);
      expect_runs (&layout, beads);
      bw_needle_layout_clear (&layout);
    }
  }
}

static void
sixty_columns_go_on_in_a_second_line (void **state)
{
  BwNeedleBead bead = { .is_new = TRUE };
  BwNeedleLayout layout;
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof bead);
  for (int i = 0; i < 60; i++) {
    bead.is_new = i % 2 == 0;
    g_array_append_val (beads, bead);
  }
  bw_needle_layout_init (&layout, beads, FALSE, 820, 0.81, 22, 84);
  assert_int_equal (layout.lines, 2);
  assert_true (layout.bead_height > 28);
  /* No raised bead is parted from the one picked up before it, and a run that goes on is named on
   * both lines. */
  assert_true (bead_at (beads, 30)->is_new);
  assert_int_equal (place_at (&layout, 29)->line, 0);
  assert_int_equal (place_at (&layout, 30)->line, 1);
  assert_int_equal (layout.runs->len, 2);
  assert_true (fabs (place_at (&layout, 0)->x - place_at (&layout, 30)->x) < 1e-9);
  bw_needle_layout_clear (&layout);
}

static void
no_name_lies_on_another (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (304);
  int fitted = 0;
  for (int turn = 0; turn < 400; turn++) {
    g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwNeedleBead));
    int n = g_rand_int_range (rand, 1, 40);
    for (int i = 0; i < n; i++) {
      BwNeedleBead bead = { .is_new = i % 2 == 0, .colour = (guint8)g_rand_int_range (rand, 0, 4) };
      g_array_append_val (beads, bead);
    }
    BwNeedleLayout layout;
    double widths[40], middles[40];
    int tiers[40];
    bw_needle_layout_init (&layout, beads, turn % 2, g_rand_double_range (rand, 300, 1400), 0.8, 22,
                           60);
    for (int i = 0; i < 40; i++)
      widths[i] = g_rand_double_range (rand, 30, 150);
    int used = bw_needle_layout_names (&layout, widths, 8, 4, middles, tiers);
    fitted += used > 0;
    for (guint a = 0; used > 0 && a < layout.runs->len; a++) {
      const BwNeedleRun *run = &g_array_index (layout.runs, BwNeedleRun, a);
      assert_in_range (tiers[a], 0, used - 1);
      assert_true (middles[a] - widths[a] / 2 > -1e-9);
      assert_true (middles[a] + widths[a] / 2 < layout.width + 1e-9);
      for (guint b = 0; b < a; b++)
        if (tiers[a] == tiers[b] && run->line == g_array_index (layout.runs, BwNeedleRun, b).line)
          assert_true (fabs (middles[a] - middles[b]) > (widths[a] + widths[b]) / 2 + 8 - 1e-6);
    }
    bw_needle_layout_clear (&layout);
  }
  assert_true (fitted > 200);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_row_is_the_beads_and_raised_beads_of_the_weave),
    cmocka_unit_test (row_after_row_is_the_path_of_the_thread),
    cmocka_unit_test (there_is_no_row_beyond_the_last),
    cmocka_unit_test (every_row_lies_on_its_thread_at_every_width),
    cmocka_unit_test (sixty_columns_go_on_in_a_second_line),
    cmocka_unit_test (no_name_lies_on_another),
  };
  return cmocka_run_group_tests_name ("needle", tests, NULL, NULL);
}
