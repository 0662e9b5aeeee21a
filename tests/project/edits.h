/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits as a maker (or a careless program) might make them, at random but repeatable. */
#pragma once

#include "fixture.h"

static inline void
assert_text (BwProject *project, const char *text)
{
  g_autofree char *found = bw_project_to_data (project, NULL);

  assert_string_equal (found, text);
}

static inline void
set_rows (BwProject *project, const char *label, int rows)
{
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;

  design.band.rows = rows;
  if (!bw_project_set_design (project, label, &design, &error))
    fail_msg ("%d rows: %s", rows, error->message);
}

static inline void
set_columns (BwProject *project, const char *label, int columns)
{
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;

  design.band.columns = columns;
  if (!bw_project_set_design (project, label, &design, &error))
    fail_msg ("%d columns: %s", columns, error->message);
}

static inline void
set_bail_style (BwProject *project, const char *label, BwBailStyle style)
{
  BwDesign design = *bw_project_get_design (project);
  g_autoptr (GError) error = NULL;

  design.bail.style = style;
  if (!bw_project_set_design (project, label, &design, &error))
    fail_msg ("%s", error->message);
}

static inline void
edit_design_somehow (BwProject *project, GRand *rand)
{
  BwDesign design = *bw_project_get_design (project);

  switch (g_rand_int_range (rand, 0, 8)) {
  case 0:
    design.band.rows = g_rand_int_range (rand, 1, 90);
    break;
  case 1:
    design.band.columns = 2 * g_rand_int_range (rand, 1, 9);
    break;
  case 2:
    design.bail.style = (BwBailStyle)g_rand_int_range (rand, 0, 4);
    break;
  case 3:
    design.bail.rows = g_rand_int_range (rand, 1, 40);
    break;
  case 4:
    design.bail.columns = 2 * g_rand_int_range (rand, 1, 5);
    break;
  case 5:
    design.stone.values_mm[0] *= g_rand_double_range (rand, 0.97, 1.03);
    break;
  case 6:
    design.gauge.has_swatch = g_rand_boolean (rand);
    design.gauge.swatch = (BwSwatch){ 10, 24, 13.1, g_rand_double_range (rand, 19, 21) };
    break;
  default:
    design.supply.has_prices = !design.supply.has_prices;
  }
  bw_project_set_design (project, "Design", &design, NULL);
}

static inline void
edit_tray_somehow (BwProject *project, GRand *rand)
{
  BwTray tray = *bw_project_get_tray (project);
  int n = tray.n_colours;

  switch (g_rand_int_range (rand, 0, 4)) {
  case 0:
    tray.colour[n]
        = (BwColour){ .id = bw_tray_free_letter (&tray), .srgb = g_rand_int (rand) & 0xffffff };
    tray.n_colours += n < 12;
    bw_project_set_tray (project, "Add colour", &tray, NULL);
    break;
  case 1:
    bw_project_remove_colour (project, "Remove colour", g_rand_int_range (rand, 0, n),
                              g_rand_int_range (rand, 0, n), NULL);
    break;
  case 2:
    tray.n_colours--;
    bw_project_set_tray (project, "Drop colour", &tray, NULL);
    break;
  default:
    tray.colour[0].id = g_rand_boolean (rand) ? 'x' : 'a';
    bw_project_set_tray (project, "Rename colour", &tray, NULL);
  }
}

static inline void
edit_progress_somehow (BwProject *project, GRand *rand)
{
  BwCheck checks[4];
  int n = g_rand_int_range (rand, 0, 4);

  for (int i = 0; i < n; i++)
    checks[i] = (BwCheck){ 12 * (i + 1), g_rand_double_range (rand, 9, 11) * (i + 1) };
  BwTried tried = { 0 };
  bw_project_begin (project, "Progress");
  bw_project_set_progress (project, "", g_rand_int_range (rand, 0, 60), checks, n, NULL);
  if (g_rand_boolean (rand)) {
    tried.rows = bw_project_get_rows_done (project);
    tried.reading
        = (BwReading){ g_rand_double_range (rand, -1, 3), BW_TRIED_PULLED, BW_TRIED_BY_CALLIPER };
  }
  bw_project_set_tried (project, "", &tried, NULL);
  bw_project_set_join_done (project, "", g_rand_int_range (rand, 0, 5), NULL);
  bw_project_set_bail_rows_done (project, "", g_rand_int_range (rand, 0, 5), NULL);
  bw_project_commit (project);
}

static inline void
edit_drawing_somehow (BwProject *project, GRand *rand)
{
  gboolean in_bail = bw_project_get_bail_drawing (project) && g_rand_boolean (rand);
  const BwDrawing *old
      = in_bail ? bw_project_get_bail_drawing (project) : bw_project_get_drawing (project);
  int n = bw_project_get_tray (project)->n_colours, period = 2 * g_rand_int_range (rand, 1, 4);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (old);

  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int column = 1 + row % 2; column <= bw_drawing_columns (drawing); column += 2)
      bw_drawing_set (drawing, row, column, (guint8)((row % period + column) % n));
  bw_project_set_drawing (project, "Fill", in_bail, drawing, NULL);
}

static inline void
edit_somehow (BwProject *project, GRand *rand)
{
  g_autofree char *title = NULL;

  switch (g_rand_int_range (rand, 0, 9)) {
  case 0:
  case 1:
  case 2:
    bw_project_set_bead (project, "Bead", g_rand_int_range (rand, 0, 4) == 0,
                         g_rand_int_range (rand, 0, 70), g_rand_int_range (rand, 0, 14),
                         (guint8)g_rand_int_range (rand, 0, 6));
    break;
  case 3:
  case 4:
    edit_design_somehow (project, rand);
    break;
  case 5:
    edit_tray_somehow (project, rand);
    break;
  case 6:
    edit_progress_somehow (project, rand);
    break;
  case 7:
    edit_drawing_somehow (project, rand);
    break;
  default:
    title = g_strdup_printf ("Title %d", g_rand_int_range (rand, 0, 5));
    bw_project_set_title (project, "Title", title);
  }
}

/* One edit, or a few as one step. TRUE when it changed the document, which must then be one step
 * more to take back; otherwise there must be none. */
static inline gboolean
random_edit (BwProject *project, GRand *rand)
{
  g_autofree char *before = bw_project_to_data (project, NULL);
  g_autofree char *after = NULL;
  gboolean group = g_rand_int_range (rand, 0, 5) == 0;

  if (group)
    bw_project_begin (project, "Group");
  for (int i = group ? g_rand_int_range (rand, 0, 6) : 1; i > 0; i--)
    edit_somehow (project, rand);
  if (group && g_rand_boolean (rand))
    bw_project_commit (project);
  else if (group)
    bw_project_revert (project);
  after = bw_project_to_data (project, NULL);
  return !g_str_equal (before, after);
}
