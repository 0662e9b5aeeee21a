/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the last row on the words follow the needle's path bead by bead: the join and its return,
 * the anchors, the bail and its sewing down, the ends of the thread. */
#include "config.h"

#include "output/words/words.h"

#include "output/report/report.h"
#include "output/report/report-parts.h"
#include "output/words/words-visits.h"

#include <glib/gi18n-lib.h>

typedef struct {
  GString *text;
  BwProject *project;
  const BwDesign *design;
  const BwPath *path;
  char **labels;
  int length;          /* index of the thread in the needle */
  gboolean row_by_row; /* rows are told elsewhere, one at a time */
} Finish;

/* The bail as it comes off the path: its rows, and what is told between them. */
typedef struct {
  GArray *rows, *events;
  int next_row;
} Bail;

char *
bw_words_change (const BwThreadLength *length, double tail_mm)
{
  g_autofree char *cut = bw_text_cut (length->length_mm);
  return g_strdup_printf (
      _ ("Change the thread: weave the old end in, cut %s, weave the new end in "
         "up to the last bead and leave a tail of %.0f mm."),
      cut, tail_mm);
}

static const char *
stretch_arrow (BwStretch stretch)
{
  return bw_words_arrow (stretch.visit->direction);
}

static char *
change_sentence (const Finish *finish, int length)
{
  const BwThreadLength *fresh = &g_array_index (finish->path->lengths, BwThreadLength, length);
  return bw_words_change (fresh, finish->design->thread.tail_mm);
}

static char *
join_sentence (BwStretch stretch)
{
  g_autofree char *beads = bw_stretch_words (stretch);
  const char *arrow = stretch_arrow (stretch);
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
append_join (Finish *finish)
{
  const GArray *visits = finish->path->visits;
  bw_text_section (finish->text, _ ("The join"));
  BwStretch stretch;
  for (guint i = 0; i < visits->len; i += stretch.n) {
    stretch = bw_stretch_at (visits, i);
    if (stretch.visit->length > finish->length && is_join (stretch.visit)) {
      finish->length = stretch.visit->length;
      g_autofree char *change = change_sentence (finish, finish->length);
      bw_text_item (finish->text, change);
    }
    if (!is_join (stretch.visit))
      continue;
    g_autofree char *sentence = join_sentence (stretch);
    bw_text_item (finish->text, sentence);
  }
}

static void
append_open_strip (const Finish *finish)
{
  int rows = finish->design->band.rows;
  g_autofree char *sentence = g_strdup_printf (
      _ ("With %d rows both ends have their raised beads in the same columns and "
         "cannot interlock. Weave %d or %d rows to zip the band up."),
      rows, rows - 1, rows + 1);
  bw_text_section (finish->text, _ ("The join"));
  bw_text_item (finish->text, sentence);
  if (finish->design->bail.style != BW_BAIL_NONE)
    bw_text_item (finish->text,
                  _ ("The bail is worked on the closed band: its words follow then."));
}

/* The new beads of a pass of the bail. */
static BwWordsRow
bail_row (const Finish *finish, BwStretch stretch)
{
  const BwDrawing *drawing = bw_project_get_bail_drawing (finish->project);
  BwWordsRow row = { .up = stretch.visit->direction, .colours = g_new (guint8, stretch.n) };
  for (guint i = 0; i < stretch.n; i++) {
    const BwVisit *visit = &stretch.visit[i];
    if (!visit->is_new)
      continue;
    row.row = MAX (row.row, visit->row);
    row.colours[row.n++] = bw_drawing_get (drawing, visit->row, visit->column);
  }
  return row;
}

static char *
first_row_sentence (BwStretch stretch)
{
  g_autofree char *beads = bw_stretch_words (stretch);
  return g_strdup_printf (_ ("Row 1 hangs on the band: pick up a bead and pass through one of the "
                             "band, in turn. The beads of the band: %s."),
                          beads);
}

/* An upright strip begins with two rows strung at once, as the band does. */
static char *
strung_sentence (const Finish *finish, const BwWordsRow *row)
{
  g_autofree char *runs = bw_words_runs (row->colours, row->n, finish->labels);
  return g_strdup_printf (row->row < 2 ? _ ("Row 1 %s  pick up %d beads: %s")
                                       : _ ("Rows 1 and 2 %s  pick up %d beads: %s"),
                          bw_words_arrow (row->up), row->n, runs);
}

static void
take_bail_row (Finish *finish, Bail *bail, BwStretch stretch)
{
  BwWordsRow row = bail_row (finish, stretch);
  bail->next_row = row.row + 1;
  if (finish->design->bail.style == BW_BAIL_UPRIGHT && row.row <= 2) {
    if (!finish->row_by_row)
      bw_words_events_add (bail->events, bail->next_row, strung_sentence (finish, &row));
    g_free (row.colours);
    return;
  }
  if (row.row == 1)
    bw_words_events_add (bail->events, 1, first_row_sentence (stretch));
  g_array_append_val (bail->rows, row);
}

static char *
sewing_sentence (BwStretch stretch)
{
  g_autofree char *beads = bw_stretch_words (stretch);
  return g_strdup_printf (_ ("Sew down: pass through %s."), beads);
}

static char *
walk_sentence (BwStretch stretch)
{
  g_autofree char *beads = bw_stretch_words (stretch);
  return g_strdup_printf (_ ("Bring the thread to the bail: pass through %s."), beads);
}

static void
take_bail_stretch (Finish *finish, Bail *bail, BwStretch stretch)
{
  if (stretch.visit->length > finish->length) {
    finish->length = stretch.visit->length;
    bw_words_events_add (bail->events, bail->next_row, change_sentence (finish, finish->length));
  }
  if (stretch.visit->part == BW_PART_ATTACHMENT)
    bw_words_events_add (bail->events, bail->next_row, sewing_sentence (stretch));
  else if (bw_stretch_count_new (stretch) > 0)
    take_bail_row (finish, bail, stretch);
  else
    bw_words_events_add (bail->events, bail->next_row, walk_sentence (stretch));
}

static void
take_bail (Finish *finish, Bail *bail)
{
  const GArray *visits = finish->path->visits;
  BwStretch stretch;
  for (guint i = 0; i < visits->len; i += stretch.n) {
    stretch = bw_stretch_at (visits, i);
    if (stretch.visit->part == BW_PART_BAIL || stretch.visit->part == BW_PART_ATTACHMENT)
      take_bail_stretch (finish, bail, stretch);
  }
}

static char *
bail_sentence (const BwBail *bail)
{
  switch (bail->style) {
  case BW_BAIL_UPRIGHT:
    return g_strdup_printf (
        _ ("A strip of %d columns and %d rows of its own, its beads across the "
           "stone, both ends sewn to the band. ↑ runs to the right and ↓ to the "
           "left, seen with the tip up."),
        bail->columns, bail->rows);
  case BW_BAIL_RING:
    return g_strdup_printf (
        _ ("A flap of %d columns and %d rows that grows off the band round the "
           "stone, folds over a ring and is sewn back to the band: put the ring "
           "in before you sew."),
        bail->columns, bail->rows);
  default:
    return g_strdup_printf (_ ("A flap of %d columns and %d rows that grows off the band round the "
                               "stone, folds over and is sewn back to the band."),
                            bail->columns, bail->rows);
  }
}

static void
append_bail (Finish *finish)
{
  g_autoptr (GArray) rows = bw_words_rows_new ();
  g_autoptr (GArray) events = bw_words_events_new ();
  Bail bail = { rows, events, 1 };
  take_bail (finish, &bail);
  bw_text_section (finish->text, _ ("The bail"));
  g_autofree char *sentence = bail_sentence (&finish->design->bail);
  bw_text_paragraph (finish->text, sentence);
  bw_words_append_rows (finish->text, rows, finish->labels, events);
}

static void
append_ends (const Finish *finish)
{
  bw_text_section (finish->text, _ ("The ends of the thread"));
  bw_text_item (
      finish->text,
      _ ("Weave in the end you have in the needle through 16 beads, turning once, where the "
         "holes are emptiest. Never force the needle: glass breaks."));
  bw_text_item (finish->text, _ ("Take the stopper bead off the tail of the beginning and weave it "
                                 "in the same way. Cut both ends close."));
}

static Finish
finish_of (GString *text, BwProject *project, char **labels)
{
  const BwPath *path = bw_project_path (project);
  Finish finish = { text, project, bw_project_get_design (project), path, labels, 0, FALSE };
  for (guint i = 0; i < path->visits->len; i++) {
    const BwVisit *visit = &g_array_index (path->visits, BwVisit, i);
    if (visit->part <= BW_PART_ROWS)
      finish.length = visit->length;
  }
  return finish;
}

static void
append_events_before (Finish *finish, int row)
{
  g_autoptr (GArray) rows = bw_words_rows_new ();
  g_autoptr (GArray) events = bw_words_events_new ();
  Bail bail = { rows, events, 1 };
  take_bail (finish, &bail);
  for (guint i = 0; i < events->len; i++) {
    const BwWordsEvent *event = &g_array_index (events, BwWordsEvent, i);
    if (event->before_row == row)
      bw_text_item (finish->text, event->sentence);
  }
}

/* The join is told in any case, for it says which thread is in the needle after it. */
char *
bw_words_before_bail_row (BwProject *project, int row)
{
  GString *text = g_string_new (NULL);
  g_auto (GStrv) labels = bw_words_labels (bw_project_get_tray (project));
  Finish finish = finish_of (text, project, labels);
  finish.row_by_row = TRUE;
  append_join (&finish);
  if (row > 1)
    g_string_truncate (text, 0);
  else
    bw_text_section (text, _ ("The bail"));
  append_events_before (&finish, row);
  if (row > finish.design->bail.rows)
    append_ends (&finish);
  return bw_text_done_flowing (text);
}

void
bw_words_append_finish (GString *text, BwProject *project, char **labels)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwPath *path = bw_project_path (project);
  Finish finish = finish_of (text, project, labels);
  if (design->band.rows % 2 == 0)
    append_join (&finish);
  else
    append_open_strip (&finish);
  if (path->part[BW_PART_BAIL].visits > 0)
    append_bail (&finish);
  append_ends (&finish);
}
