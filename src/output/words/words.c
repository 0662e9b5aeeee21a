/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole work in words, from the bed to the last end of thread, so that someone who has never
 * done it can follow without a picture. */
#include "config.h"

#include "output/report/report.h"

#include "core/base/lattice.h"
#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "output/words/bed-words.h"
#include "output/words/thread-words.h"
#include "output/words/try-on-words.h"
#include "output/words/words.h"
#include "project/place-words.h"

#include <glib/gi18n-lib.h>

static void
append_size (GString *text, const BwDesign *design)
{
  int rows = design->band.rows, around = bw_lattice_beads_around (rows);
  g_autofree char *size = g_strdup_printf (
      g_dngettext (
          GETTEXT_PACKAGE, "The band is %d columns wide and %d row long: %d beads round the stone.",
          "The band is %d columns wide and %d rows long: %d beads round the stone.", (gulong)rows),
      design->band.columns, rows, around);
  bw_text_paragraph (text, size);
  bw_text_paragraph (
      text, _ ("Column 1 is the lower edge, where the tail hangs. ↑ runs from there to the upper "
               "edge, ↓ back to it. Beads are told in the order in which the needle meets them."));
}

/* The join's place in words: what lies under the bead the work begins with. People count faces from
 * 1, as the window's drawing does. */
static char *
seam_place (BwProject *project, BwUnit unit)
{
  BwPlace place = bw_places_get (bw_project_places (project), 1, 2);
  int faces = bw_project_stone (project)->faces;
  if (place.face < 0)
    return g_strdup_printf (_ ("over the edge between faces %d and %d"), place.corner + 1,
                            (place.corner + 1) % faces + 1);
  if (ABS (place.along_mm) <= BW_PLACE_THERE_MM)
    return g_strdup_printf (_ ("over the middle of face %d"), place.face + 1);
  g_autofree char *away = bw_text_length (ABS (place.along_mm), unit, 1);
  return g_strdup_printf (_ ("over face %d, %s from its middle"), place.face + 1, away);
}

static void
append_place (GString *text, BwProject *project, BwUnit unit)
{
  BwBandSpan span = bw_design_span (bw_project_get_design (project));
  g_autofree char *seam = seam_place (project, unit);
  g_autofree char *low = bw_text_length (span.bottom_mm, unit, 1);
  g_autofree char *high = bw_text_length (span.bottom_mm + span.width_mm, unit, 1);
  g_autofree char *place = g_strdup_printf (
      _ ("On the stone it reaches from %s to %s above the base; the join lies %s."), low, high,
      seam);
  bw_text_paragraph (text, place);
}

static char *
even_words (const BwBed *bed, BwBandSpan span, const char *cord, BwUnit unit)
{
  double width = bw_bed_width_mm (bed, span), mid = bw_band_span_mid (span);
  g_autofree char *low = bw_text_length (mid - width / 2, unit, 1);
  g_autofree char *high = bw_text_length (mid + width / 2, unit, 1);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "The bed: cut %s of waxed cord and wind %d even layer, from %s to %s "
                   "above the base.",
                   "The bed: cut %s of waxed cord and wind %d even layers, from %s to %s "
                   "above the base.",
                   (gulong)bed->layers),
      cord, bed->layers, low, high);
}

/* The layers of a graded bed are told with its grade. */
static void
append_layers (GString *text, BwProject *project, double cord_mm, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  g_autofree char *cord = bw_cut_words (cord_mm, unit);
  g_autofree char *wind = bw_bed_is_graded (&design->bed)
                              ? g_strdup_printf (_ ("The bed: cut %s of waxed cord."), cord)
                              : even_words (&design->bed, bw_design_span (design), cord, unit);
  bw_text_item (text, wind);
}

static void
append_grade (GString *text, BwProject *project, BwUnit unit)
{
  const BwBed *bed = &bw_project_get_design (project)->bed;
  if (bw_bed_is_graded (bed)) {
    g_autofree char *grade = bw_bed_grade_words (project, unit);
    bw_text_item (text, grade);
  }
  if (bed->has_girth_over) {
    g_autofree char *over = bw_text_length (bed->girth_over_mm, unit, 1);
    g_autofree char *girth = g_strdup_printf (
        _ ("Half way up the band it should measure %s round, bed and all."), over);
    bw_text_item (text, girth);
  }
}

static void
append_bed (GString *text, BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  double cord = bw_bed_cord_mm (&design->bed, bw_project_stone (project), bw_design_span (design));
  if (cord > 0)
    append_layers (text, project, cord, unit);
  append_grade (text, project, unit);
}

static void
append_thread (GString *text, BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwThreadLength *first
      = &g_array_index (bw_project_path (project)->lengths, BwThreadLength, 0);
  g_autofree char *length = bw_cut_words (first->length_mm, unit);
  g_autofree char *tail = bw_text_length (design->thread.tail_mm, unit, 0);
  g_autofree char *cut = g_strdup_printf (
      _ ("The thread: cut %s. Pass twice through a spare bead, %s from its end: this stopper "
         "bead holds the first row back and comes off again before the zip."),
      length, tail);
  bw_text_item (text, cut);
}

static void
append_pick_up (GString *text, const BwDrawing *drawing, char **labels)
{
  int n;
  g_autofree guint8 *colours = bw_words_pick_up (drawing, &n);
  g_autofree char *runs = bw_words_runs (colours, n, labels);
  if (bw_drawing_rows (drawing) < 2)
    g_string_append_printf (text, _ ("Row 1 ↑  %s\n"), runs);
  else
    g_string_append_printf (text, _ ("Rows 1 and 2 ↑  pick up %d beads: %s\n"), n, runs);
}

/* "56 (row 112, 61 %), 57 (row 114, 30 %)" for every count that has a fair chance. */
char *
bw_words_likely_counts (const BwForecast *forecast)
{
  GString *text = g_string_new (NULL);
  for (int i = 0; i < forecast->n_chances; i++) {
    const BwChance *chance = &forecast->chance[i];
    if (chance->p < 0.05)
      continue;
    /* Translators: beads round the stone, the row that makes them, the chance. */
    g_string_append_printf (
        text, text->len > 0 ? _ (", %d (row %d, %.0f %%)") : _ ("%d (row %d, %.0f %%)"),
        chance->beads_around, 2 * chance->beads_around, 100 * chance->p);
  }
  return g_string_free (text, FALSE);
}

static char *
try_on_sentence (const BwForecast *forecast)
{
  g_autofree char *counts = bw_words_likely_counts (forecast);
  return g_strdup_printf (
      _ ("Try on: from here on, until the ends meet. %s It should close at one of these counts of "
         "beads round the stone: %s. If it closes early leave the last rows out; if it wants more "
         "rows, they are told under “Further rows”. %s Measure the strip lying flat, from edge to "
         "edge, and "
         "write the length down."),
      bw_try_on_words_procedure (), counts, bw_try_on_words_reading ());
}

static char *
turning_sentence (void)
{
  return g_strdup (
      _ ("Row 3 turns back: pick up its first bead, skip the last bead of the pick-up "
         "and pass through the one before it; pick up one, skip one, pass through one, "
         "to the end. From row 4 on every other bead stands out: pick up one bead, pass "
         "through the next that stands out, one at a time."));
}

/* The row after which the ends are pulled together for the first time. */
static int
first_pull (BwProject *project)
{
  int rows = bw_project_get_design (project)->band.rows;
  return CLAMP (bw_project_forecast (project)->try_on_row, 2, rows);
}

static GArray *
band_events (BwProject *project, BwUnit unit)
{
  const BwForecast *forecast = bw_project_forecast (project);
  const GArray *lengths = bw_project_path (project)->lengths;
  int rows = bw_project_get_design (project)->band.rows;
  GArray *events = bw_words_events_new ();
  if (rows >= 3)
    bw_words_events_add (events, 3, turning_sentence ());
  for (guint i = 1; i < lengths->len; i++) {
    const BwThreadLength *length = &g_array_index (lengths, BwThreadLength, i);
    if (length->from_row <= rows)
      bw_words_events_add (events, length->from_row, bw_words_change (project, (int)i, unit));
  }
  bw_words_events_add (events, first_pull (project) + 1, try_on_sentence (forecast));
  return events;
}

static void
append_band (GString *text, BwProject *project, char **labels, BwUnit unit)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  g_autoptr (GArray) rows = bw_words_band_rows (drawing, 3, bw_drawing_rows (drawing));
  g_autoptr (GArray) events = band_events (project, unit);
  append_pick_up (text, drawing, labels);
  bw_words_append_rows (text, rows, labels, events);
}

static GString *
all_words (BwProject *project, BwUnit unit, void (*head) (GString *, BwProject *, const char *))
{
  GString *text = g_string_new (NULL);
  g_auto (GStrv) labels = bw_words_labels (bw_project_get_tray (project));
  head (text, project, _ ("row by row"));
  append_size (text, bw_project_get_design (project));
  append_place (text, project, unit);
  bw_text_warnings (text, project, BW_TOPIC_FIT | BW_TOPIC_HANG | BW_TOPIC_THREAD, unit);
  bw_text_section (text, _ ("Before the first row"));
  append_bed (text, project, unit);
  append_thread (text, project, unit);
  bw_text_section (text, _ ("The band"));
  append_band (text, project, labels, unit);
  bw_words_append_finish (text, project, labels, unit);
  return text;
}

char *
bw_words (BwProject *project, BwUnit unit)
{
  return bw_text_done (all_words (project, unit, bw_text_heading));
}

char *
bw_words_flowing (BwProject *project, BwUnit unit)
{
  return bw_text_done_flowing (all_words (project, unit, bw_text_title));
}

char *
bw_words_row (BwProject *project, int row)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  g_auto (GStrv) labels = bw_words_labels (bw_project_get_tray (project));
  int n;
  if (row <= 2) {
    g_autofree guint8 *colours = bw_words_pick_up (drawing, &n);
    return bw_words_runs (colours, n, labels);
  }
  g_autoptr (GArray) rows = bw_words_band_rows (drawing, row, row);
  const BwWordsRow *first = &g_array_index (rows, BwWordsRow, 0);
  return bw_words_runs (first->colours, first->n, labels);
}

static void
append_line (GString *text, const char *line)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
}

/* In the whole words this would part every pair of rows; row by row it would else be forgotten. */
static gboolean
is_pulled_again (BwProject *project, int row)
{
  int since = row - 1 - first_pull (project);
  return since > 0 && since % 2 == 0;
}

char *
bw_words_before_row (BwProject *project, int row, BwUnit unit)
{
  g_autoptr (GArray) events = band_events (project, unit);
  GString *text = g_string_new (NULL);
  if (is_pulled_again (project, row))
    append_line (text, bw_try_on_words_again ());
  for (guint i = 0; i < events->len; i++) {
    const BwWordsEvent *event = &g_array_index (events, BwWordsEvent, i);
    if (event->before_row == row)
      append_line (text, event->sentence);
  }
  return g_string_free (text, FALSE);
}

char *
bw_words_finish (BwProject *project, BwUnit unit)
{
  GString *text = g_string_new (NULL);
  g_auto (GStrv) labels = bw_words_labels (bw_project_get_tray (project));
  bw_words_append_finish (text, project, labels, unit);
  return bw_text_done_flowing (text);
}
