/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whatever is printed can be had as a number too, so that another program can make pages of its
 * own, and a test can hold the printed ones against it. */
#include "config.h"

#include "output/sheet/sheet-answer.h"

#include "core/band/finished.h"
#include "core/band/join.h"
#include "core/base/lattice.h"
#include "core/pattern/colour.h"
#include "output/report/report-parts.h"
#include "output/sheet/sheet-facts.h"
#include "output/words/further-rows.h"
#include "output/words/row-names.h"
#include "output/words/thread-words.h"
#include "output/words/words.h"

static void
json_int (BwAnswer *json, const char *key, int value)
{
  bw_answer_count (json, key, (guint64)MAX (value, 0));
}

/* The face under the join, or the two beside its edge. */
static void
json_seam (BwAnswer *json, BwProject *project)
{
  BwPlace place = bw_places_get (bw_project_places (project), 1, 2);
  int faces = bw_project_stone (project)->faces;
  gboolean on_face = place.face >= 0;
  double both[] = { place.corner + 1, (place.corner + 1) % faces + 1 }, one = place.face + 1;
  bw_answer_numbers (json, "join_faces", on_face ? &one : both, on_face ? 1 : 2);
  bw_answer_number_if (json, on_face, "join_off_mm", ABS (place.along_mm));
}

static void
json_band (BwAnswer *json, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  BwBandSpan span = bw_design_span (design);
  bw_answer_open_object (json, "band");
  json_int (json, "columns", design->band.columns);
  json_int (json, "rows", design->band.rows);
  json_int (json, "beads_around", bw_lattice_beads_around (design->band.rows));
  bw_answer_number (json, "bottom_mm", span.bottom_mm);
  bw_answer_number (json, "top_mm", span.bottom_mm + span.width_mm);
  json_seam (json, project);
  bw_answer_close (json);
}

static void
json_stone (BwAnswer *json, BwProject *project)
{
  const BwStoneMeasures *measures = &bw_project_get_design (project)->stone;
  const BwStone *stone = bw_project_stone (project);
  BwSection section;
  int n = measures->measured == BW_MEASURED_GIRTH          ? 1
          : measures->measured == BW_MEASURED_ACROSS_FLATS ? measures->faces / 2
                                                           : measures->faces;
  bw_section_init (&section, stone, measures->at_mm);
  bw_answer_open_object (json, "stone");
  json_int (json, "faces", measures->faces);
  bw_answer_numbers (json, "values_mm", measures->values_mm, n);
  bw_answer_number (json, "at_mm", measures->at_mm);
  bw_answer_number (json, "girth_at_mm", section.girth_mm);
  bw_answer_number (json, "length_mm", stone->length_mm);
  bw_answer_number (json, "shoulder_mm", stone->shoulder_mm);
  bw_answer_number_if (json, measures->has_second, "second_girth_mm", measures->second_girth_mm);
  bw_answer_number_if (json, measures->has_second, "second_at_mm", measures->second_at_mm);
  bw_answer_number (json, "base_shoulder_mm", stone->base_shoulder_mm);
  bw_answer_number (json, "girth_mm", stone->girth_mm);
  bw_answer_close (json);
}

/* Colours in use that are hard to tell apart. */
static void
json_alike (BwAnswer *json, BwProject *project)
{
  const BwTray *tray = bw_project_get_tray (project);
  const BwMaterials *materials = bw_project_materials (project);
  bw_answer_open_array (json, "alike");
  for (int i = 0; i < tray->n_colours; i++)
    for (int k = i + 1; materials->need[i].count > 0 && k < tray->n_colours; k++) {
      double difference = bw_colour_difference (bw_colour_lab (tray->colour[i].srgb),
                                                bw_colour_lab (tray->colour[k].srgb));
      if (materials->need[k].count > 0 && difference < BW_COLOUR_HARDLY)
        bw_answer_number (json, NULL, difference);
    }
  bw_answer_close (json);
}

static void
json_finished (BwAnswer *json, BwProject *project)
{
  BwFinished size = bw_finished_size (bw_project_get_design (project), bw_project_stone (project),
                                      bw_project_places (project));
  double mm[] = { size.length_mm, size.breadth_mm };
  double inches[] = { size.length_mm / BW_MM_PER_INCH, size.breadth_mm / BW_MM_PER_INCH };
  bw_answer_numbers (json, "finished_mm", mm, 2);
  bw_answer_numbers (json, "finished_in", inches, 2);
}

static void
json_layers (BwAnswer *json, const BwBedFacts *bed)
{
  bw_answer_open_array (json, "layers");
  for (int i = 0; i < bed->n_layers; i++) {
    bw_answer_open_object (json, NULL);
    json_int (json, "layer", i + 1);
    bw_answer_number (json, "from_mm", bed->layer[i].low_mm);
    bw_answer_number (json, "to_mm", bed->layer[i].high_mm);
    json_int (json, "turns", bed->layer[i].turns);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* null where none is wound. */
static void
json_bed (BwAnswer *json, BwProject *project)
{
  const BwBed *bed = &bw_project_get_design (project)->bed;
  BwBedFacts facts = bw_bed_facts_of (project);
  if (facts.cord_mm <= 0) {
    bw_answer_null (json, "bed");
    return;
  }
  bw_answer_open_object (json, "bed");
  bw_answer_number (json, "cord_mm", facts.cord_mm);
  bw_answer_number (json, "cord_width_mm", bed->cord_width_mm);
  bw_answer_number (json, "cord_thickness_mm", bed->cord_thickness_mm);
  bw_answer_number (json, "held_mm", BW_BED_HELD_MM);
  bw_answer_number (json, "first_turn_mm", facts.low_mm);
  bw_answer_number (json, "last_turn_mm", facts.high_mm);
  json_int (json, "even_layers", bed->layers);
  json_int (json, "turns", facts.turns);
  bw_answer_number (json, "top_extra_mm", bed->top_extra_mm);
  json_layers (json, &facts);
  bw_answer_number (json, "check_at_mm", facts.mid_mm);
  bw_answer_number (json, "check_bare_mm", facts.bare_mm);
  bw_answer_number_if (json, facts.over_mm > 0, "check_over_mm", facts.over_mm);
  bw_answer_number_if (json, bed->has_girth_over, "girth_over_mm", bed->girth_over_mm);
  bw_answer_close (json);
}

static void
json_swatch (BwAnswer *json, const BwDesign *design)
{
  BwFirstSwatch swatch = bw_first_swatch_of (design);
  bw_answer_open_object (json, "swatch");
  json_int (json, "columns", swatch.columns);
  json_int (json, "rows", swatch.rows);
  bw_answer_number (json, "long_mm", swatch.long_mm);
  bw_answer_number (json, "wide_mm", swatch.wide_mm);
  bw_answer_close (json);
}

static void
json_ruler (BwAnswer *json, const BwDesign *design)
{
  int rows = design->band.rows;
  bw_answer_open_array (json, "ruler");
  for (int row = BW_RULER_STEP; row <= rows; row += BW_RULER_STEP) {
    bw_answer_open_object (json, NULL);
    json_int (json, "row", row);
    bw_answer_number (json, "strip_mm", bw_strip_length_mm (design, row));
    bw_answer_number (json, "rows_per_mm", rows / bw_strip_length_mm (design, row));
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* Beads of one colour side by side, as the words draw them together. */
static void
json_runs (BwAnswer *json, const guint8 *colours, int n, const BwTray *tray)
{
  bw_answer_open_array (json, "beads");
  for (int i = 0, run; i < n; i += run) {
    char letter[BW_TRAY_LETTER];
    for (run = 1; i + run < n && colours[i + run] == colours[i];)
      run++;
    bw_tray_print_letter (tray, colours[i], letter);
    bw_answer_open_object (json, NULL);
    json_int (json, "count", run);
    bw_answer_string (json, "letter", letter);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

static void
json_row (BwAnswer *json, const BwWordsRow *row, const BwTray *tray)
{
  bw_answer_open_object (json, NULL);
  json_int (json, "row", row->row);
  bw_answer_boolean (json, "up", row->up);
  json_runs (json, row->colours, row->n, tray);
  bw_answer_close (json);
}

static void
json_pick_up (BwAnswer *json, const BwDrawing *drawing, const BwTray *tray)
{
  int n;
  g_autofree guint8 *colours = bw_words_pick_up (drawing, &n);
  bw_answer_open_object (json, "pick_up");
  json_int (json, "beads_in_all", n);
  json_runs (json, colours, n, tray);
  bw_answer_close (json);
}

/* In the order in which the needle meets the beads, up to the last row that is likely. */
static void
json_rows (BwAnswer *json, BwProject *project)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  const BwTray *tray = bw_project_get_tray (project);
  int last = MAX (bw_drawing_rows (drawing), bw_likely_rows (project).last);
  g_autoptr (BwDrawing) longer = bw_drawing_run_on (drawing, last);
  g_autoptr (GArray) rows = bw_words_band_rows (longer, 3, last);
  json_pick_up (json, drawing, tray);
  bw_answer_open_array (json, "rows");
  for (guint i = 0; i < rows->len; i++)
    json_row (json, &g_array_index (rows, BwWordsRow, i), tray);
  bw_answer_close (json);
}

static void
json_breaks (BwAnswer *json, const BwDrawing *drawing, int repeat, BwLikelyRows likely)
{
  bw_answer_open_array (json, "breaks");
  for (int rows = likely.first; repeat > 0 && rows <= likely.last; rows += 2) {
    BwBreak broken = bw_drawing_break (drawing, repeat, rows);
    bw_answer_open_object (json, NULL);
    json_int (json, "rows", rows);
    json_int (json, "beads", broken.beads);
    json_int (json, "first_row", broken.first_row);
    json_int (json, "last_row", broken.last_row);
    json_int (json, "first_column", broken.first_column);
    json_int (json, "last_column", broken.last_column);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* What the words say of other counts than the planned one. */
static void
json_further (BwAnswer *json, BwProject *project)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  BwFurtherThread thread = bw_further_thread (project);
  BwLikelyRows likely = bw_likely_rows (project);
  int repeat = bw_join_repeat (drawing);
  bw_answer_open_object (json, "further");
  json_int (json, "rows", thread.rows);
  json_int (json, "first_row", likely.first);
  json_int (json, "last_row", likely.last);
  bw_answer_number (json, "thread_left_mm", thread.left_mm);
  bw_answer_number (json, "thread_cut_mm", thread.cut_mm);
  json_int (json, "repeat_rows", repeat);
  json_breaks (json, drawing, repeat, likely);
  bw_answer_close (json);
}

/* The row the bail stands on, for each likely count; nothing where it stands by the join. */
static void
json_foot (BwAnswer *json, BwProject *project)
{
  BwLikelyRows likely = bw_likely_rows (project);
  BwRowNames names = bw_row_names (project);
  bw_answer_open_array (json, "foot");
  for (int rows = likely.first; names.foot > 0 && rows <= likely.last; rows += 2) {
    bw_answer_open_object (json, NULL);
    json_int (json, "rows", rows);
    json_int (json, "row", bw_row_names_foot_at (project, rows));
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

/* null without one. */
static void
json_bail (BwAnswer *json, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwBail *bail = &design->bail;
  int margin = (design->band.columns - bail->columns) / 2;
  if (!bw_project_get_bail_drawing (project)) {
    bw_answer_null (json, "bail");
    return;
  }
  bw_answer_open_object (json, "bail");
  json_int (json, "columns", bail->columns);
  json_int (json, "rows", bail->rows);
  bw_answer_number (json, "base_beads", bail->base_beads);
  json_int (json, "free_columns", margin);
  json_int (json, "first_column", margin + 1);
  json_foot (json, project);
  bw_answer_close (json);
}

static void
json_visits (BwAnswer *json, BwStretch stretch)
{
  bw_answer_open_array (json, "beads");
  for (guint i = 0; i < stretch.n; i++) {
    const BwVisit *visit = &stretch.visit[i];
    double bead[] = { visit->in_bail, visit->row, visit->column, visit->is_new };
    bw_answer_numbers (json, NULL, bead, G_N_ELEMENTS (bead));
  }
  bw_answer_close (json);
}

/* The bead a stretch is begun from; NULL where a fresh end leads in. */
static const BwVisit *
begun_from (const GArray *visits, guint i)
{
  const BwVisit *visit = &g_array_index (visits, BwVisit, i);
  return i > 0 && visit[-1].length == visit->length ? visit - 1 : NULL;
}

static void
json_stretch (BwAnswer *json, BwStretch stretch, const BwVisit *from)
{
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "part", bw_part_word (stretch.visit->part));
  json_int (json, "length", stretch.visit->length + 1);
  json_int (json, "passes", (int)stretch.n);
  json_int (json, "turns", bw_stretch_turns (stretch, from));
  json_visits (json, stretch);
  bw_answer_close (json);
}

/* Also the tail of the beginning, which is led on against the way it came. */
static void
json_path (BwAnswer *json, BwProject *project)
{
  const BwPath *path = bw_project_path (project);
  BwStretch end[2], stretch;
  BwVisit from[2];
  gboolean ends = bw_words_last_ends (path, end, from);
  bw_answer_open_array (json, "path");
  for (guint i = 0; i < path->visits->len; i += stretch.n) {
    stretch = bw_stretch_at (path->visits, i);
    gboolean tail = ends && stretch.visit == end[1].visit;
    json_stretch (json, stretch, tail ? &from[1] : begun_from (path->visits, i));
  }
  bw_answer_close (json);
}

char *
bw_report_sheet (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  BwAnswer answer, *json = &answer;
  bw_answer_init (json);
  json_band (json, project);
  json_stone (json, project);
  json_finished (json, project);
  json_alike (json, project);
  json_int (json, "rows_done", bw_project_get_rows_done (project));
  json_bed (json, project);
  bw_answer_number (json, "tail_mm", design->thread.tail_mm);
  json_swatch (json, design);
  json_ruler (json, design);
  json_rows (json, project);
  json_further (json, project);
  json_bail (json, project);
  json_path (json, project);
  return bw_answer_finish (json);
}
