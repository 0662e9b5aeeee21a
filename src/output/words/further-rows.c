/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/words/further-rows.h"

#include "core/base/lattice.h"
#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "output/words/thread-words.h"
#include "output/words/words.h"

#include <glib/gi18n-lib.h>

static void
fill_row (BwDrawing *drawing, int row, int repeat, guint8 ground)
{
  for (int j = 0; j < bw_drawing_columns (drawing) / 2; j++) {
    int column = bw_lattice_column (row, j);
    bw_drawing_set (drawing, row, column,
                    repeat ? bw_drawing_get (drawing, row - repeat, column) : ground);
  }
}

BwDrawing *
bw_drawing_run_on (const BwDrawing *drawing, int rows)
{
  int own = bw_drawing_rows (drawing), repeat = bw_join_repeat (drawing);
  guint8 ground = bw_drawing_ground (drawing);
  BwDrawing *longer = bw_drawing_copy (drawing);
  bw_drawing_resize (longer, bw_drawing_columns (drawing), rows, ground);
  for (int row = own + 1; row <= rows; row++)
    fill_row (longer, row, repeat, ground);
  return longer;
}

static void
take_broken (BwBreak *broken, int row, int column)
{
  if (broken->beads++ == 0)
    *broken = (BwBreak){ 1, row, row, column, column };
  broken->last_row = row;
  broken->first_column = MIN (broken->first_column, column);
  broken->last_column = MAX (broken->last_column, column);
}

BwBreak
bw_drawing_break (const BwDrawing *drawing, int repeat, int rows)
{
  BwBreak broken = { 0 };
  for (int row = 1; row <= repeat; row++) {
    int follows = (rows + row - 1) % repeat + 1;
    for (int j = 0; j < bw_drawing_columns (drawing) / 2; j++)
      if (bw_drawing_row (drawing, row)[j] != bw_drawing_row (drawing, follows)[j])
        take_broken (&broken, row, bw_lattice_column (row, j));
  }
  return broken;
}

static char *
break_words (BwBreak broken, int rows)
{
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "With %d rows the pattern breaks at the join: %d bead in rows %d–%d, columns "
                   "%d–%d.",
                   "With %d rows the pattern breaks at the join: %d beads in rows %d–%d, columns "
                   "%d–%d.",
                   (gulong)broken.beads),
      rows, broken.beads, broken.first_row, broken.last_row, broken.first_column,
      broken.last_column);
}

/* "It runs on with 120 or 140 rows"; nothing when it does with none of them. */
static void
append_whole_counts (GString *text, const BwDrawing *drawing, int repeat, BwLikelyRows likely)
{
  g_autoptr (GString) counts = g_string_new (NULL);
  for (int rows = likely.first; rows <= likely.last; rows += 2)
    if (bw_drawing_break (drawing, repeat, rows).beads == 0)
      g_string_append_printf (counts, counts->len > 0 ? _ (", %d") : "%d", rows);
  if (counts->len == 0)
    return;
  g_autofree char *words = g_strdup_printf (
      _ ("The pattern repeats every %d rows and runs on across the join with this many rows: %s."),
      repeat, counts->str);
  bw_text_item (text, words);
}

void
bw_words_append_pattern (GString *text, BwProject *project)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  BwLikelyRows likely = bw_likely_rows (project);
  int repeat = bw_join_repeat (drawing);
  if (repeat == 0) {
    bw_text_item (text, _ ("The drawing has no repeat that could run on: with another count than "
                           "planned it is cut, or goes on plain. Look how the ends meet before you "
                           "zip them."));
    return;
  }
  append_whole_counts (text, drawing, repeat, likely);
  for (int rows = likely.first; rows <= likely.last; rows += 2) {
    BwBreak broken = bw_drawing_break (drawing, repeat, rows);
    if (broken.beads == 0)
      continue;
    g_autofree char *words = break_words (broken, rows);
    bw_text_item (text, words);
  }
}

static char *
how_they_go (BwProject *project, const BwDrawing *drawing, char **labels)
{
  int repeat = bw_join_repeat (drawing), rows = bw_drawing_rows (drawing);
  if (repeat > 0)
    return g_strdup_printf (_ ("If the ends do not meet at row %d yet, go on row by row until they "
                               "do. The pattern repeats every %d rows and runs on."),
                            rows, repeat);
  return g_strdup_printf (_ ("If the ends do not meet at row %d yet, go on row by row until they "
                             "do. The drawing has no "
                             "repeat that could run on, so these rows are plain, in %s; or end the "
                             "pattern as you like."),
                          rows, labels[bw_drawing_ground (drawing)]);
}

/* Whoever cut as planned finds out here, and not in the middle of the zip. */
static char *
thread_for_them (BwProject *project, BwUnit unit)
{
  BwFurtherThread thread = bw_further_thread (project);
  g_autofree char *left = bw_cut_words (thread.left_mm, unit),
                  *cut = bw_cut_words (thread.cut_mm, unit);
  return g_strdup_printf (_ ("These rows and what follows them take %s of thread. If the thread in "
                             "the needle is shorter, change it first, and cut %s."),
                          left, cut);
}

void
bw_words_append_further_rows (GString *text, BwProject *project, char **labels, BwUnit unit)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  int own = bw_drawing_rows (drawing), last = bw_likely_rows (project).last;
  if (last <= own)
    return;
  g_autoptr (BwDrawing) longer = bw_drawing_run_on (drawing, last);
  g_autoptr (GArray) rows = bw_words_band_rows (longer, own + 1, last);
  g_autoptr (GArray) events = bw_words_events_new ();
  g_autofree char *how = how_they_go (project, drawing, labels);
  g_autofree char *thread = thread_for_them (project, unit);
  bw_text_section (text, _ ("Further rows"));
  bw_text_item (text, how);
  bw_text_item (text, thread);
  g_string_append_c (text, '\n');
  bw_words_append_rows (text, rows, labels, events);
}
