/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the closed band on the words follow the needle's path bead by bead: the bail and its sewing
 * down, the ends of the thread. */
#include "config.h"

#include "output/words/words.h"

#include "output/report/material-words.h"
#include "output/report/report.h"
#include "output/report/report-parts.h"
#include "output/words/further-rows.h"
#include "output/words/thread-words.h"

#include <glib/gi18n-lib.h>

typedef struct {
  GString *text;
  BwProject *project;
  const BwDesign *design;
  const BwPath *path;
  BwRowNames names;
  char **labels;
  BwUnit unit;
  int length;          /* index of the thread in the needle */
  gboolean row_by_row; /* rows are told elsewhere, one at a time */
} Finish;

/* The bail as it comes off the path: its rows, and what is told between them. */
typedef struct {
  GArray *rows, *events;
  int next_row;
} Bail;

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
first_row_sentence (const Finish *finish, BwStretch stretch)
{
  g_autofree char *beads = bw_stretch_words (&finish->names, stretch);
  return g_strdup_printf (_ ("Row 1 hangs on the band: pick up a bead and pass through one of the "
                             "band, in turn. The beads of the band: %s."),
                          beads);
}

/* A strip of its own begins with two rows strung at once, as the band does. */
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
  if (bw_bail_is_strip (&finish->design->bail) && row.row <= 2) {
    if (!finish->row_by_row)
      bw_words_events_add (bail->events, bail->next_row, strung_sentence (finish, &row));
    g_free (row.colours);
    return;
  }
  if (row.row == 1)
    bw_words_events_add (bail->events, 1, first_row_sentence (finish, stretch));
  g_array_append_val (bail->rows, row);
}

/* The way is that of the bail's beads: one bead alone would not show it. */
static char *
sewing_sentence (const Finish *finish, BwStretch stretch)
{
  const BwVisit *in_bail = stretch.visit;
  for (guint i = 0; i < stretch.n; i++)
    if (stretch.visit[i].in_bail)
      in_bail = &stretch.visit[i];
  g_autofree char *beads = bw_stretch_words (&finish->names, stretch);
  return g_strdup_printf (_ ("Sew down: pass %s through %s."), bw_words_arrow (in_bail->direction),
                          beads);
}

/* With another count a bail off the join is a few rows nearer or farther. `last`: the bead from
 * which it is begun. */
static char *
other_way_words (const Finish *finish, const BwVisit *last)
{
  BwVisit named = *last;
  named.part = BW_PART_BAIL;
  g_autofree char *row = bw_row_name_of (&finish->names, &named);
  return g_strdup_printf (
      _ ("With another count go from bead to bead until the thread comes out %s "
         "of %s, column %d."),
      bw_words_arrow (last->direction), row, last->column);
}

static char *
walk_sentence (const Finish *finish, BwStretch stretch)
{
  g_autofree char *beads = bw_stretch_words (&finish->names, stretch);
  if (finish->names.foot == 0)
    return g_strdup_printf (_ ("Bring the thread to the bail: pass through %s."), beads);
  g_autofree char *other = other_way_words (finish, &stretch.visit[stretch.n - 1]);
  /* Translators: the beads; "With another count go …". */
  return g_strdup_printf (_ ("Bring the thread to the bail: as planned, pass through %s. %s"),
                          beads, other);
}

/* Where the anchors end just where the bail begins, they do so with the planned count alone. */
static void
take_way_to_foot (const Finish *finish, Bail *bail, BwStretch stretch)
{
  const BwVisit *before = stretch.visit - 1;
  if (finish->names.foot > 0 && before->part == BW_PART_ANCHORS)
    bw_words_events_add (bail->events, 1, other_way_words (finish, before));
}

static void
take_bail_stretch (Finish *finish, Bail *bail, BwStretch stretch)
{
  if (stretch.visit->length > finish->length) {
    finish->length = stretch.visit->length;
    bw_words_events_add (bail->events, bail->next_row,
                         bw_words_change (finish->project, finish->length, finish->unit));
  }
  if (bw_stretch_count_new (stretch) > 0)
    take_way_to_foot (finish, bail, stretch);
  if (stretch.visit->part == BW_PART_ATTACHMENT)
    bw_words_events_add (bail->events, bail->next_row, sewing_sentence (finish, stretch));
  else if (bw_stretch_count_new (stretch) > 0)
    take_bail_row (finish, bail, stretch);
  else
    bw_words_events_add (bail->events, bail->next_row, walk_sentence (finish, stretch));
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

/* When the ring of a ring bail is put in, and which one is. */
static char *
ring_sentence (const BwDesign *design, const BwLoop *loop, BwUnit unit)
{
  BwHangRing ring;
  if (!bw_hang_ring_init (&ring, design, loop))
    return g_strdup (_ ("Put the ring in before the last row is sewn to the band."));
  g_autofree char *size = bw_ring_size_words (&ring, unit);
  /* Translators: "at least 8.5 mm inside, of 1.2 mm wire; …". */
  return g_strdup_printf (_ ("Put the ring in before the last row is sewn to the band: %s."), size);
}

static char *
bail_sentence (const BwBail *bail)
{
  switch (bail->style) {
  case BW_BAIL_UPRIGHT:
    return g_strdup_printf (_ ("A strip of %d columns and %d rows of its own, its beads across the "
                               "stone, both ends sewn to the band. ↑ runs to the left and ↓ to the "
                               "right, seen with the tip up."),
                            bail->columns, bail->rows);
  case BW_BAIL_OVER:
    return g_strdup_printf (
        _ ("A strip of %d columns and %d rows of its own that goes over the tip, both ends sewn to "
           "the upper edge: down through one bead of the edge, up through the next. Seen from "
           "outside where it begins, ↑ runs to the left and ↓ to the right."),
        bail->columns, bail->rows);
  case BW_BAIL_RING:
    return g_strdup_printf (_ ("A flap of %d columns and %d rows that grows off the band round the "
                               "stone, folds over a ring and is sewn back to the band."),
                            bail->columns, bail->rows);
  default:
    return g_strdup_printf (_ ("A flap of %d columns and %d rows that grows off the band round the "
                               "stone, folds over and is sewn back to the band."),
                            bail->columns, bail->rows);
  }
}

/* Where the bail stands, for every count that may come out. */
static void
append_foot (const Finish *finish)
{
  if (finish->names.foot == 0)
    return;
  BwLikelyRows likely = bw_likely_rows (finish->project);
  g_autoptr (GString) others = g_string_new (NULL);
  for (int rows = likely.first; rows <= likely.last; rows += 2)
    if (rows != finish->names.rows)
      g_string_append_printf (others, others->len > 0 ? _ (", %d (%d)") : _ ("%d (%d)"),
                              bw_row_names_foot_at (finish->project, rows), rows);
  g_autofree char *sentence = g_strdup_printf (
      _ ("F is the band row the bail stands on: row %d with %d rows. With another count it is, the "
         "count in brackets, row %s. F + 1 is the row after it."),
      finish->names.foot, finish->names.rows, others->str);
  bw_text_item (finish->text, sentence);
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
  if (finish->design->bail.style == BW_BAIL_RING) {
    g_autofree char *ring
        = ring_sentence (finish->design, &bw_project_hang (finish->project)->loop, finish->unit);
    bw_text_item (finish->text, ring);
  }
  append_foot (finish);
  bw_words_append_rows (finish->text, rows, finish->labels, events);
}

/* A strip that is not zipped has its stopper bead on yet. */
static void
append_tail (const Finish *finish, const char *way)
{
  gboolean zipped = finish->path->part[BW_PART_ZIP].visits > 0;
  g_autofree char *sentence = g_strdup_printf (
      zipped ? _ ("Weave in the tail of the beginning in the same way, %s. Cut both ends close.")
             : _ ("Take the stopper bead off the tail of the beginning and weave it in in the same "
                  "way, %s. Cut both ends close."),
      way);
  bw_text_item (finish->text, sentence);
}

static void
append_ends (const Finish *finish)
{
  BwStretch end[2];
  BwVisit from[2];
  bw_text_section (finish->text, _ ("The ends of the thread"));
  if (!bw_words_last_ends (finish->path, end, from)) {
    bw_text_item (finish->text, _ ("Weave both ends in. Never force the needle: glass breaks."));
    return;
  }
  g_autofree char *needle = bw_words_way (end[0], &from[0]);
  g_autofree char *tail = bw_words_way (end[1], &from[1]);
  g_autofree char *sentence = g_strdup_printf (_ ("Weave in the end you have in the needle %s, "
                                                  "where the holes are emptiest. Never force the "
                                                  "needle: glass breaks."),
                                               needle);
  bw_text_item (finish->text, sentence);
  append_tail (finish, tail);
}

static Finish
finish_of (GString *text, BwProject *project, char **labels, BwUnit unit)
{
  const BwPath *path = bw_project_path (project);
  Finish finish = { .text = text,
                    .project = project,
                    .design = bw_project_get_design (project),
                    .path = path,
                    .names = bw_row_names (project),
                    .labels = labels,
                    .unit = unit };
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

/* The thread in the needle when the passes before visit `first` are made; ends are woven in apart.
 */
static int
length_before (const BwPath *path, guint first)
{
  int length = 0;
  for (guint i = 0; i < first; i++) {
    const BwVisit *visit = &g_array_index (path->visits, BwVisit, i);
    if (visit->part <= BW_PART_ANCHORS)
      length = visit->length;
  }
  return length;
}

char *
bw_words_before_join (BwProject *project, BwUnit unit)
{
  GString *text = g_string_new (NULL);
  g_auto (GStrv) labels = bw_words_labels (bw_project_get_tray (project));
  Finish finish = finish_of (text, project, labels, unit);
  bw_words_append_further_rows (text, project, labels, unit);
  bw_words_append_join_head (text, project, finish.length, unit);
  return bw_text_done_flowing (text);
}

char *
bw_words_join_pass (BwProject *project, guint first, BwUnit unit)
{
  GString *text = g_string_new (NULL);
  int length = length_before (bw_project_path (project), first);
  bw_words_append_join_pass (text, project, first, &length, unit);
  return bw_text_done_flowing (text);
}

/* What comes after the anchors is told with the thread that is in the needle then. */
char *
bw_words_before_bail_row (BwProject *project, int row, BwUnit unit)
{
  GString *text = g_string_new (NULL);
  const BwPath *path = bw_project_path (project);
  g_auto (GStrv) labels = bw_words_labels (bw_project_get_tray (project));
  Finish finish = finish_of (text, project, labels, unit);
  finish.row_by_row = TRUE;
  finish.length = length_before (path, path->visits->len);
  if (row == 1)
    append_foot (&finish);
  append_events_before (&finish, row);
  if (row > finish.design->bail.rows)
    append_ends (&finish);
  return bw_text_done_flowing (text);
}

void
bw_words_append_finish (GString *text, BwProject *project, char **labels, BwUnit unit)
{
  const BwPath *path = bw_project_path (project);
  Finish finish = finish_of (text, project, labels, unit);
  bw_words_append_further_rows (text, project, labels, unit);
  if (path->part[BW_PART_ZIP].visits > 0)
    bw_words_append_join (text, project, &finish.length, unit);
  else
    append_open_strip (&finish);
  if (path->part[BW_PART_BAIL].visits > 0)
    append_bail (&finish);
  append_ends (&finish);
}
