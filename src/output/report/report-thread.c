/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thread: how many beads the needle visits in each part of the work, how full the holes get,
 * how much thread that takes and where to change it. */
#include "config.h"

#include "output/report/report-parts.h"
#include "output/report/report.h"

#include <glib/gi18n-lib.h>

static void
json_parts (BwAnswer *json, const BwPath *path)
{
  bw_answer_open_array (json, "parts");
  for (int i = 0; i < BW_N_PARTS; i++) {
    bw_answer_open_object (json, NULL);
    bw_answer_string (json, "part", bw_part_word (i));
    bw_answer_count (json, "visits", path->part[i].visits);
    bw_answer_number (json, "length_mm", path->part[i].length_mm);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

static void
json_lengths (BwAnswer *json, const BwPath *path)
{
  bw_answer_open_array (json, "lengths");
  for (guint i = 0; i < path->lengths->len; i++) {
    const BwThreadLength *length = &g_array_index (path->lengths, BwThreadLength, i);
    bw_answer_open_object (json, NULL);
    bw_answer_count (json, "length", i + 1);
    bw_answer_count (json, "from_row", (guint64)length->from_row);
    bw_answer_count (json, "to_row", (guint64)length->to_row);
    bw_answer_number (json, "length_mm", length->length_mm);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

static void
json_full_holes (BwAnswer *json, const BwPath *path)
{
  bw_answer_open_array (json, "full_holes");
  for (guint i = 0; i < path->full_holes->len; i++) {
    const BwFullHole *hole = &g_array_index (path->full_holes, BwFullHole, i);
    bw_answer_open_object (json, NULL);
    bw_answer_string (json, "in", hole->in_bail ? "bail" : "band");
    bw_answer_count (json, "row", (guint64)hole->row);
    bw_answer_count (json, "column", (guint64)hole->column);
    bw_answer_count (json, "passes", (guint64)hole->passes);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* One array a row, lowest column first, as the cells of the project file. */
static void
json_passes (BwAnswer *json, const char *key, const guint16 *passes, int rows, int per_row)
{
  if (!passes) {
    bw_answer_null (json, key);
    return;
  }
  g_autofree double *numbers = g_new (double, per_row);
  bw_answer_open_array (json, key);
  for (int row = 0; row < rows; row++) {
    for (int j = 0; j < per_row; j++)
      numbers[j] = passes[row * per_row + j];
    bw_answer_numbers (json, NULL, numbers, per_row);
  }
  bw_answer_close (json);
}

static char *
thread_json (BwProject *project, gboolean all)
{
  const BwPath *path = bw_project_path (project);
  const BwDesign *design = bw_project_get_design (project);
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_count (&json, "visits", path->visits->len);
  bw_answer_count (&json, "passes_max", (guint64)path->passes_max);
  json_parts (&json, path);
  bw_answer_number (&json, "length_mm", path->length_mm);
  json_lengths (&json, path);
  bw_answer_number (&json, "working_mm", design->thread.working_mm);
  bw_answer_count (&json, "n_full_holes", path->full_holes->len);
  json_full_holes (&json, path);
  if (all) {
    json_passes (&json, "band_passes", path->band_passes, design->band.rows,
                 design->band.columns / 2);
    json_passes (&json, "bail_passes", path->bail_passes, design->bail.rows,
                 design->bail.columns / 2);
  }
  bw_answer_warnings (&json, project, BW_TOPIC_THREAD, NULL);
  return bw_answer_finish (&json);
}

static const char *
part_name (BwPart part)
{
  switch (part) {
  case BW_PART_PICK_UP:
    return _ ("Pick-up");
  case BW_PART_ROWS:
    return _ ("Rows");
  case BW_PART_ZIP:
    return _ ("Zip");
  case BW_PART_RETURN:
    return _ ("Return");
  case BW_PART_ANCHORS:
    return _ ("Anchors");
  case BW_PART_BAIL:
    return _ ("Bail");
  case BW_PART_ATTACHMENT:
    return _ ("Bail's attachment");
  case BW_PART_WEAVING_IN:
    return _ ("Weaving-in");
  case BW_PART_TAILS:
  case BW_N_PARTS:
    break;
  }
  return _ ("Tails");
}

static void
text_parts (GString *text, const BwPath *path)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "lrr");
  bw_table_add (&table, g_strdup (_ ("Part")), g_strdup (_ ("beads passed")),
                g_strdup (_ ("thread mm")));
  for (int i = 0; i < BW_N_PARTS; i++)
    if (path->part[i].length_mm > 0)
      bw_table_add (&table, g_strdup (part_name (i)), bw_text_count (path->part[i].visits),
                    bw_text_number (path->part[i].length_mm, 0));
  bw_table_add (&table, g_strdup (_ ("In all")), bw_text_count (path->visits->len),
                bw_text_number (path->length_mm, 0));
  bw_table_write (&table, text, 0);
}

static char *
step_name (int step, int rows)
{
  if (step <= rows)
    return g_strdup_printf (_ ("row %d"), step);
  if (step == rows + 1)
    return g_strdup (_ ("the zip"));
  if (step == rows + 2)
    return g_strdup (_ ("the return"));
  return g_strdup_printf (_ ("pass %d after the return"), step - rows - 2);
}

static void
text_lengths (GString *text, const BwPath *path, int rows)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "rllr");
  bw_table_add (&table, g_strdup (_ ("Length")), g_strdup (_ ("from")), g_strdup (_ ("to")),
                g_strdup (_ ("cut mm")));
  for (guint i = 0; i < path->lengths->len; i++) {
    const BwThreadLength *length = &g_array_index (path->lengths, BwThreadLength, i);
    bw_table_add (&table, bw_text_count (i + 1), step_name (length->from_row, rows),
                  step_name (length->to_row, rows), bw_text_number (length->length_mm, 0));
  }
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

static void
text_holes (GString *text, const BwPath *path)
{
  g_string_append_printf (
      text,
      g_dngettext (GETTEXT_PACKAGE, "\nThe fullest hole takes the thread %d time.\n",
                   "\nThe fullest hole takes the thread %d times.\n", (gulong)path->passes_max),
      path->passes_max);
  for (guint i = 0; i < path->full_holes->len; i++) {
    const BwFullHole *hole = &g_array_index (path->full_holes, BwFullHole, i);
    g_string_append_printf (text,
                            hole->in_bail ? _ ("Full hole: bail, row %d, column %d (%d passes)\n")
                                          : _ ("Full hole: band, row %d, column %d (%d passes)\n"),
                            hole->row, hole->column, hole->passes);
  }
}

static void
text_row_passes (BwTable *table, const guint16 *passes, int row, int per_row)
{
  GString *numbers = g_string_new (NULL);
  for (int j = 0; j < per_row; j++)
    g_string_append_printf (numbers, j > 0 ? " %u" : "%u", passes[(row - 1) * per_row + j]);
  bw_table_add (table, bw_text_count ((guint64)row), g_string_free (numbers, FALSE));
}

static void
text_passes (GString *text, const char *heading, const guint16 *passes, int rows, int per_row)
{
  if (!passes)
    return;
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "rl");
  bw_table_add (&table, g_strdup (_ ("Row")), g_strdup (heading));
  for (int row = 1; row <= rows; row++)
    text_row_passes (&table, passes, row, per_row);
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

static char *
thread_text (BwProject *project, gboolean all)
{
  const BwPath *path = bw_project_path (project);
  const BwDesign *design = bw_project_get_design (project);
  GString *text = g_string_new (NULL);
  bw_text_heading (text, project, _ ("the thread"));
  text_parts (text, path);
  text_lengths (text, path, design->band.rows);
  text_holes (text, path);
  if (all) {
    text_passes (text, _ ("passes in each hole of the band, lowest column first"),
                 path->band_passes, design->band.rows, design->band.columns / 2);
    text_passes (text, _ ("passes in each hole of the bail, lowest column first"),
                 path->bail_passes, design->bail.rows, design->bail.columns / 2);
  }
  bw_text_warnings (text, project, BW_TOPIC_THREAD, BW_UNIT_MM);
  return bw_text_done (text);
}

char *
bw_report_thread (BwProject *project, gboolean all, gboolean json)
{
  return json ? thread_json (project, all) : thread_text (project, all);
}
