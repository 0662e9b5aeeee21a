/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench pages: every row once, a repeat once, and nothing between rows lost. */
#define _GNU_SOURCE
#include "core/band/join.h"
#include "core/base/lattice.h"
#include "output/page/page.h"
#include "pen.h"
#include "sample.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

static BwProject *
some_project (guint32 seed, int columns)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (Sample) sample = sample_new (rand, columns, 0, SAMPLE_NO_BAIL);
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

/* A band whose rows come round every `repeat`. */
static BwProject *
repeating_project (int repeat)
{
  BwProject *project = some_project (91, 10);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));
  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int column = 1; column <= 10; column++)
      if (bw_lattice_has (row, column))
        bw_drawing_set (drawing, row, column,
                        (guint8)(((row - 1) % repeat * 7 + column * (row % repeat + 1)) % 3));
  assert_true (bw_project_set_drawing (project, "", FALSE, drawing, NULL));
  assert_int_equal (bw_join_repeat (drawing), repeat);
  return project;
}

/* How often the labels of rows tell each row of the band. */
static guint *
rows_told (BwProject *project)
{
  int rows = bw_project_get_design (project)->band.rows;
  guint *told = g_new0 (guint, rows + 1);
  for (guint i = 0; i < pen_n_words (); i++) {
    const char *text = pen_word (i)->text;
    int first, last;
    if (g_str_has_prefix (text, "Rows 1 and 2"))
      first = 1, last = 2;
    else if (sscanf (text, "Rows %d\u2013%d", &first, &last) == 2)
      ;
    else if (sscanf (text, "Row %d ", &first) == 1 && strlen (text) < 14)
      last = first;
    else
      continue;
    for (int row = first; row <= MIN (last, rows); row++)
      told[row]++;
  }
  return told;
}

static void
every_row_of_the_band_is_told_once (void **state)
{
  static const int repeats[] = { 0, 6, 14, 20 };
  for (gsize i = 0; i < G_N_ELEMENTS (repeats); i++) {
    g_autoptr (BwProject) project
        = repeats[i] ? repeating_project (repeats[i]) : some_project (92, 10);
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
    g_autofree guint *told = rows_told (project);
    for (int row = 1; row <= bw_project_get_design (project)->band.rows; row++)
      if (told[row] != 1)
        fail_msg ("repeat %d: row %d is told %u times", repeats[i], row, told[row]);
  }
}

static void
a_repeat_is_written_once_with_how_often_it_comes (void **state)
{
  g_autoptr (BwProject) project = repeating_project (14);
  int rows = bw_project_get_design (project)->band.rows, times = (rows - 16 + 13) / 14;
  g_autofree char *told
      = g_strdup_printf ("Repeat rows 3 to 16: %d times, up to row %d.", times, rows);
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  assert_non_null (pen_look_for (told));
  assert_non_null (pen_look_for ("Rows 17\u201330"));
  assert_null (pen_look_for ("Row 17 "));
}

static gboolean
is_tick (const PenLine *box)
{
  return fabs (box->x1 - box->x0 - 9) < 1e-6 && fabs (box->y1 - box->y0 - 9) < 1e-6;
}

/* On every paper: the longest number may be wider than the room that others have. */
static void
boxes_of_a_repeat_begin_right_of_its_number (void **state)
{
  const BwPaper papers[] = { BW_PAPER_A4, BW_PAPER_A5 };
  int n = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (papers); i++) {
    g_autoptr (BwProject) project = repeating_project (14);
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, papers[i], NULL, NULL);
    for (guint w = 0; w < pen_n_words (); w++) {
      const PenWords *label = pen_word (w);
      int first, last;
      if (sscanf (label->text, "Rows %d\u2013%d", &first, &last) != 2 || first < 17)
        continue;
      for (guint b = 0; b < pen_n_boxes (); b++) {
        const PenLine *box = pen_box (b);
        if (box->page != label->page || !is_tick (box) || box->y1 < label->y
            || box->y0 > label->y + label->height)
          continue;
        assert_true (box->x0 > label->x + label->width);
        n++;
      }
    }
  }
  assert_true (n > 50);
}

/* A change of thread within rows that are not written again says after which row it comes. */
static void
what_is_done_between_rows_is_told_with_its_row (void **state)
{
  g_autoptr (BwProject) project = repeating_project (14);
  BwDesign design = *bw_project_get_design (project);
  design.thread.working_mm = 900;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  const GArray *lengths = bw_project_path (project)->lengths;
  int n = 0;
  pen_begin ();
  g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
  g_autofree char *text = pen_text ();
  for (guint i = 1; i < lengths->len; i++) {
    int row = g_array_index (lengths, BwThreadLength, i).from_row;
    if (row <= 17 || row > design.band.rows)
      continue;
    g_autofree char *told = g_strdup_printf ("After row %d: Change the thread", row - 1);
    assert_non_null (strstr (text, told));
    n++;
  }
  assert_true (n > 0);
}

/* The last box on the line of this one. */
static double
last_x (const PenLine *of)
{
  double last = of->x1;
  for (guint i = 0; i < pen_n_boxes (); i++) {
    const PenLine *box = pen_box (i);
    if (box->page == of->page && is_tick (box) && fabs (box->y0 - of->y0) < 1)
      last = MAX (last, box->x1);
  }
  return last;
}

/* A row's own box stands before it at the left edge. */
static void
boxes_of_several_rows_end_at_the_right_edge (void **state)
{
  const BwPaper papers[] = { BW_PAPER_A4, BW_PAPER_A5 };
  for (gsize i = 0; i < G_N_ELEMENTS (papers); i++) {
    g_autoptr (BwProject) project = some_project (92, 10);
    int n = 0;
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, papers[i], NULL, NULL);
    for (guint k = 0; k < pen_n_boxes (); k++) {
      const PenLine *box = pen_box (k);
      if (!is_tick (box) || box->x0 < BW_SHEET_MARGIN + 1)
        continue;
      if (fabs (last_x (box) - papers[i].width + BW_SHEET_MARGIN) > 0.5)
        fail_msg ("a box at %.1f, the last of its line ends at %.1f of %.1f", box->x0, last_x (box),
                  papers[i].width);
      n++;
    }
    assert_true (n > 10);
  }
}

/* The rule below each tenth row does not part the number of rows from the lines that tell them. */
static void
no_rule_parts_rows_in_turn_from_their_lines (void **state)
{
  int n = 0;
  for (guint32 seed = 90; seed < 100; seed++) {
    g_autoptr (BwProject) project = some_project (seed, 10);
    pen_begin ();
    g_autoptr (BwSheet) sheet = bw_sheet_new (project, BW_PAPER_A4, NULL, NULL);
    for (guint i = 0; i + 4 < pen_n_words (); i++) {
      const PenWords *label = pen_word (i), *last = pen_word (i + 4);
      if (!g_str_has_suffix (label->text, ", in turn:") || last->page != label->page)
        continue;
      for (guint k = 0; k < pen_n_lines (); k++) {
        const PenLine *line = pen_line (k);
        assert_true (line->page != label->page || line->x1 - line->x0 < 500
                     || line->y0 < label->y + 4 || line->y0 > last->y + 10);
      }
      n++;
    }
  }
  assert_true (n > 3);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_row_of_the_band_is_told_once),
    cmocka_unit_test (a_repeat_is_written_once_with_how_often_it_comes),
    cmocka_unit_test (boxes_of_a_repeat_begin_right_of_its_number),
    cmocka_unit_test (boxes_of_several_rows_end_at_the_right_edge),
    cmocka_unit_test (no_rule_parts_rows_in_turn_from_their_lines),
    cmocka_unit_test (what_is_done_between_rows_is_told_with_its_row),
  };
  return cmocka_run_group_tests_name ("bench-rows", tests, NULL, NULL);
}
