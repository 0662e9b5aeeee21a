/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The join in words, bead by bead, told from the last row whichever that turns out to be. */
#include "config.h"

#include "output/words/words.h"

#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "output/words/further-rows.h"
#include "output/words/thread-words.h"

#include <glib/gi18n-lib.h>

static char *
stretch_sentence (const BwRowNames *names, BwStretch stretch)
{
  g_autofree char *beads = bw_stretch_words (names, stretch);
  const char *arrow = bw_words_arrow (stretch.visit->direction);
  switch (stretch.visit->part) {
  case BW_PART_ZIP:
    return g_strdup_printf (
        _ ("Zip: bend the strip round the bed until its ends meet; the beads that stand out at "
           "either end fit between those of the other. Without picking up, pass %s through %s. "
           "Pull the join together as you go."),
        arrow, beads);
  case BW_PART_RETURN:
    return g_strdup_printf (_ ("Return: turn and pass back %s through %s."), arrow, beads);
  default:
    return g_strdup_printf (_ ("Anchor: to hold the join, pass on through %s."), beads);
  }
}

static gboolean
is_join (const BwVisit *visit)
{
  return visit->part == BW_PART_ZIP || visit->part == BW_PART_RETURN
         || visit->part == BW_PART_ANCHORS;
}

static void
append_letters (GString *text, int rows)
{
  g_autofree char *letters = g_strdup_printf (
      _ ("L is the last row you have woven, row %d as planned; L − 1 is the row before it. The "
         "numbers in brackets are those of the plan: with another count go by the letters."),
      rows);
  bw_text_item (text, letters);
  bw_text_item (text, _ ("Take the stopper bead off now. Its tail stays hanging and is woven in at "
                         "the end."));
}

/* Rows left out take the change of thread that was due in them along. */
static void
append_missed_change (GString *text, BwProject *project, int length, BwUnit unit)
{
  const GArray *lengths = bw_project_path (project)->lengths;
  const BwThreadLength *taken = &g_array_index (lengths, BwThreadLength, length);
  if (taken->from_row <= bw_likely_rows (project).first)
    return;
  g_autofree char *cut = bw_cut_words (taken->length_mm, unit);
  g_autofree char *words = g_strdup_printf (
      _ ("If you have stopped before row %d, change the thread now, as told there, and cut %s."),
      taken->from_row, cut);
  bw_text_item (text, words);
}

void
bw_words_append_join_head (GString *text, BwProject *project, int length, BwUnit unit)
{
  bw_text_section (text, _ ("The join"));
  append_letters (text, bw_row_names (project).rows);
  bw_words_append_pattern (text, project);
  append_missed_change (text, project, length, unit);
}

void
bw_words_append_join_pass (GString *text, BwProject *project, guint first, int *length, BwUnit unit)
{
  BwStretch stretch = bw_stretch_at (bw_project_path (project)->visits, first);
  BwRowNames names = bw_row_names (project);
  if (stretch.visit->length > *length) {
    *length = stretch.visit->length;
    g_autofree char *change = bw_words_change (project, *length, unit);
    bw_text_item (text, change);
  }
  g_autofree char *sentence = stretch_sentence (&names, stretch);
  bw_text_item (text, sentence);
}

void
bw_words_append_join (GString *text, BwProject *project, int *length, BwUnit unit)
{
  const GArray *visits = bw_project_path (project)->visits;
  BwStretch stretch;
  bw_words_append_join_head (text, project, *length, unit);
  for (guint i = 0; i < visits->len; i += stretch.n) {
    stretch = bw_stretch_at (visits, i);
    if (is_join (stretch.visit))
      bw_words_append_join_pass (text, project, i, length, unit);
  }
}
