/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a step may change. Each edit is checked as a whole before anything of it takes hold, so that
 * a project is always sound and a refused edit leaves no trace. */
#include "config.h"

#include "project/fault/fault-words.h"
#include "core/base/lattice.h"
#include "project/project-private.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* One edit inside a step: what was before, to tell the views what it changed. */
typedef struct {
  BwHead old;
  guint n_changes;
} Edit;

static void
edit_begin (Edit *edit, BwProject *self, const char *label)
{
  bw_project_begin (self, label);
  bw_head_share (&edit->old, &self->document->head);
  edit->n_changes = self->changes->len;
}

static void
edit_end (Edit *edit, BwProject *self)
{
  bw_project_note (self, &edit->old, self->changes->len > edit->n_changes);
  bw_head_clear (&edit->old);
  bw_project_commit (self);
}

/* The design as it would be, checked; NULL with an error when it is not sound. */
static BwFrame *
frame_for (BwProject *self, const BwDesign *design, const BwProgress *progress, GError **error)
{
  g_autoptr (BwFrame) frame = bw_frame_new (self->document->head.frame);
  BwStone stone;
  BwFault fault;

  frame->design = *design;
  bw_supply_keep_pace (&frame->design.supply, self->document->head.frame->design.band.columns,
                       design->band.columns);
  frame->examples = bw_examples_after (&frame->examples, &self->document->head.frame->design.stone,
                                       &design->stone);
  frame->design.tried = (BwBelief){ 0 };
  if (!bw_design_settle (&frame->design, progress, error))
    return NULL;
  if (!bw_design_validate (&frame->design, &stone, &fault)) {
    bw_fault_tell (&fault, error);
    return NULL;
  }
  bw_design_believe (&frame->design, &stone, progress);
  return g_steal_pointer (&frame);
}

gboolean
bw_project_check_design (BwProject *self, const BwDesign *design, GError **error)
{
  g_autoptr (BwFrame) frame = frame_for (self, design, self->document->head.progress, error);

  return frame != NULL;
}

/* Takes frame. */
static void
put_frame (BwProject *self, BwFrame *frame)
{
  BwHead *head = &self->document->head;

  if (bw_examples_equal (&head->frame->examples, &frame->examples)
      && bw_design_difference (&head->frame->design, &frame->design) == 0) {
    bw_frame_unref (frame);
    return;
  }
  bw_canvas_follow (self->document, self->changes, frame);
  bw_frame_unref (head->frame);
  head->frame = frame;
}

/* Takes progress. */
static void
put_progress (BwProject *self, BwProgress *progress)
{
  BwHead *head = &self->document->head;

  bw_progress_inherit (progress, head->progress);
  bw_progress_unref (head->progress);
  head->progress = progress;
}

static void
believe_anew (BwDesign *design, const BwProgress *progress)
{
  BwStone stone;

  if (bw_stone_init (&stone, &design->stone, NULL))
    bw_design_believe (design, &stone, progress);
}

gboolean
bw_project_set_design (BwProject *self, const char *label, const BwDesign *design, GError **error)
{
  BwHead *head = &self->document->head;
  BwFrame *frame = frame_for (self, design, head->progress, error);
  BwProgress next;
  Edit edit;

  if (!frame)
    return FALSE;
  edit_begin (&edit, self, label);
  if (bw_progress_follow (head->progress, &head->frame->design, &frame->design, &next)) {
    put_progress (self, bw_progress_like (&next));
    believe_anew (&frame->design, head->progress);
  }
  put_frame (self, frame);
  edit_end (&edit, self);
  return TRUE;
}

void
bw_project_set_examples (BwProject *self, const char *label, const BwExamples *examples)
{
  BwFrame *frame = bw_frame_new (self->document->head.frame);
  Edit edit;

  frame->examples = *examples;
  edit_begin (&edit, self, label);
  put_frame (self, frame);
  edit_end (&edit, self);
}

void
bw_project_recall_examples (BwProject *self, const BwExamples *examples)
{
  BwFrame *frame = bw_frame_new (self->document->head.frame);

  frame->examples = *examples;
  put_frame (self, frame);
}

/* The first colour at or above n_colours that a bead shown has, −1 when there is none. */
static int
shown_beyond (BwProject *self, int n_colours)
{
  const BwDrawing *bail = bw_project_get_bail_drawing (self);
  guint64 counts[256] = { 0 };

  bw_drawing_count (bw_project_get_drawing (self), counts);
  if (bail)
    bw_drawing_count (bail, counts);
  for (int i = n_colours; i < 256; i++)
    if (counts[i])
      return i;
  return -1;
}

static gboolean
tray_suits (BwProject *self, const BwTray *tray, GError **error)
{
  int beyond;

  if (!bw_tray_validate (tray, error))
    return FALSE;
  beyond = shown_beyond (self, tray->n_colours);
  if (beyond < 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, "/tray",
                _ ("colour %d still has beads; give them another colour first."), beyond + 1);
  return FALSE;
}

/* Takes motifs. */
static void
put_motifs (BwProject *self, BwMotifs *motifs)
{
  BwHead *head = &self->document->head;

  bw_motifs_inherit (motifs, head->motifs);
  bw_motifs_unref (head->motifs);
  head->motifs = motifs;
}

/* Beads and what is remembered of motifs alike. */
static void
recolour (BwProject *self, const guint8 map[256])
{
  const BwMotifs *old = self->document->head.motifs;
  BwMotifs *motifs = bw_motifs_new ();

  bw_canvas_recolour (self->document, self->changes, map);
  motifs->n = old->n;
  for (int i = 0; i < old->n; i++) {
    motifs->made[i] = old->made[i];
    motifs->extra[i] = old->extra[i] ? json_object_ref (old->extra[i]) : NULL;
    for (int c = 0; c < old->made[i].motif.n_colours; c++)
      motifs->made[i].motif.colour[c] = map[old->made[i].motif.colour[c]];
  }
  bw_motifs_unref (self->document->head.motifs);
  self->document->head.motifs = motifs;
}

void
bw_project_set_motifs (BwProject *self, const char *label, const BwMade *made, int n_made)
{
  g_return_if_fail (n_made >= 0 && n_made <= BW_MADE_MAX);
  BwMotifs *motifs = bw_motifs_new ();
  Edit edit;

  motifs->n = n_made;
  if (n_made > 0)
    memcpy (motifs->made, made, sizeof *made * (gsize)n_made);
  edit_begin (&edit, self, label);
  put_motifs (self, motifs);
  edit_end (&edit, self);
}

/* Hidden beads of a colour that goes become the ground. */
static void
recolour_beyond (BwProject *self, int n_colours)
{
  guint8 map[256], ground = bw_canvas_ground (bw_project_get_drawing (self));

  for (int i = 0; i < 256; i++)
    map[i] = i < n_colours ? (guint8)i : ground;
  recolour (self, map);
}

/* Takes tray. */
static void
put_tray (BwProject *self, BwTrayValue *tray)
{
  BwHead *head = &self->document->head;

  bw_tray_value_inherit (tray, head->tray);
  bw_tray_value_unref (head->tray);
  head->tray = tray;
}

gboolean
bw_project_set_tray (BwProject *self, const char *label, const BwTray *tray, GError **error)
{
  BwTrayValue *value;
  Edit edit;

  if (!tray_suits (self, tray, error))
    return FALSE;
  value = bw_tray_value_new ();
  value->tray = *tray;
  edit_begin (&edit, self, label);
  if (tray->n_colours < bw_project_get_tray (self)->n_colours)
    recolour_beyond (self, tray->n_colours);
  put_tray (self, value);
  edit_end (&edit, self);
  return TRUE;
}

/* Takes text. */
static void
set_text (BwProject *self, const char *label, BwText *text)
{
  BwHead *head = &self->document->head;
  Edit edit;

  edit_begin (&edit, self, label);
  bw_text_unref (head->text);
  head->text = text;
  edit_end (&edit, self);
}

void
bw_project_set_title (BwProject *self, const char *label, const char *title)
{
  set_text (self, label, bw_text_with_title (self->document->head.text, title));
}

void
bw_project_set_mineral (BwProject *self, const char *label, const char *mineral)
{
  set_text (self, label, bw_text_with_mineral (self->document->head.text, mineral));
}

void
bw_project_set_about (BwProject *self, const char *label, BwAbout about, const char *words)
{
  set_text (self, label, bw_text_with_about (self->document->head.text, about, words));
}

/* With the try-on forgotten that speaks of more rows than are woven. */
static BwProgress *
progress_for (BwProject *self, int rows_done, const BwCheck *checks, int n_checks)
{
  BwProgress *progress = bw_progress_like (self->document->head.progress);

  progress->rows_done = rows_done;
  progress->n_checks = n_checks;
  if (n_checks > 0 && n_checks <= BW_CHECKS_MAX)
    memcpy (progress->check, checks, sizeof *checks * (gsize)n_checks);
  if (progress->tried.rows > rows_done)
    progress->tried = (BwTried){ 0 };
  if (rows_done < bw_project_get_design (self)->band.rows)
    progress->join_done = progress->bail_rows_done = 0;
  return progress;
}

/* Takes progress. */
static gboolean
set_progress (BwProject *self, const char *label, BwProgress *progress, GError **error)
{
  g_autoptr (BwProgress) owned = progress;
  BwFrame *frame;
  Edit edit;

  if (!bw_progress_validate (progress, error))
    return FALSE;
  frame = frame_for (self, bw_project_get_design (self), progress, error);
  if (!frame)
    return FALSE;
  edit_begin (&edit, self, label);
  put_frame (self, frame);
  put_progress (self, g_steal_pointer (&owned));
  edit_end (&edit, self);
  return TRUE;
}

gboolean
bw_project_set_progress (BwProject *self, const char *label, int rows_done, const BwCheck *checks,
                         int n_checks, GError **error)
{
  return set_progress (self, label, progress_for (self, rows_done, checks, n_checks), error);
}

gboolean
bw_project_set_tried (BwProject *self, const char *label, const BwTried *tried, GError **error)
{
  BwProgress *progress = bw_progress_like (self->document->head.progress);

  progress->tried = *tried;
  return set_progress (self, label, progress, error);
}

gboolean
bw_project_set_done (BwProject *self, const char *label, const BwDone *done, GError **error)
{
  BwProgress *progress = bw_progress_like (self->document->head.progress);

  progress->done = *done;
  return set_progress (self, label, progress, error);
}

gboolean
bw_project_set_join_done (BwProject *self, const char *label, int steps, GError **error)
{
  BwProgress *progress = bw_progress_like (self->document->head.progress);

  progress->join_done = steps;
  return set_progress (self, label, progress, error);
}

gboolean
bw_project_set_bail_rows_done (BwProject *self, const char *label, int rows, GError **error)
{
  BwProgress *progress = bw_progress_like (self->document->head.progress);

  progress->bail_rows_done = rows;
  return set_progress (self, label, progress, error);
}

static gboolean
can_set (BwProject *self, const BwDrawing *drawing, int row, int column, guint8 colour)
{
  return drawing && row >= 1 && row <= bw_drawing_rows (drawing) && column >= 1
         && column <= bw_drawing_columns (drawing) && bw_lattice_has (row, column)
         && colour < bw_project_get_tray (self)->n_colours;
}

static const BwDrawing *
drawing_of (BwProject *self, gboolean in_bail)
{
  return in_bail ? bw_project_get_bail_drawing (self) : bw_project_get_drawing (self);
}

gboolean
bw_project_set_bead (BwProject *self, const char *label, gboolean in_bail, int row, int column,
                     guint8 colour)
{
  const BwDrawing *drawing = drawing_of (self, in_bail);
  BwBeadColour bead = { row, column, colour };

  if (!can_set (self, drawing, row, column, colour))
    return FALSE;
  if (bw_drawing_get (drawing, row, column) != colour)
    bw_project_set_beads (self, label, in_bail, &bead, 1);
  return TRUE;
}

void
bw_project_set_beads (BwProject *self, const char *label, gboolean in_bail,
                      const BwBeadColour *beads, gsize n_beads)
{
  const BwDrawing *drawing = drawing_of (self, in_bail);
  BwCanvas canvas = in_bail ? BW_CANVAS_BAIL : BW_CANVAS_BAND;
  Edit edit;

  edit_begin (&edit, self, label);
  for (gsize i = 0; i < n_beads; i++)
    if (can_set (self, drawing, beads[i].row, beads[i].column, beads[i].colour))
      bw_canvas_set (self->document, self->changes, canvas, beads[i].row,
                     bw_lattice_index (beads[i].column), beads[i].colour);
  edit_end (&edit, self);
}

/* Whether `drawing` may stand in place of `old` with a tray of so many colours. */
static gboolean
drawing_suits (const BwDrawing *drawing, const BwDrawing *old, gboolean in_bail, int n_colours,
               GError **error)
{
  const char *pointer = in_bail ? "/bail/cells" : "/band/cells";
  guint64 counts[256] = { 0 };

  if (!old || bw_drawing_columns (drawing) != bw_drawing_columns (old)
      || bw_drawing_rows (drawing) != bw_drawing_rows (old)) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("the drawing has another size."));
    return FALSE;
  }
  bw_drawing_count (drawing, counts);
  for (int i = n_colours; i < 256; i++)
    if (counts[i]) {
      bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("the tray has no colour %d."), i + 1);
      return FALSE;
    }
  return TRUE;
}

gboolean
bw_project_allows (BwProject *self, const BwTray *tray, const BwDrawing *drawing, GError **error)
{
  int n_colours = (tray ? tray : bw_project_get_tray (self))->n_colours;

  return (!tray || tray_suits (self, tray, error))
         && drawing_suits (drawing, bw_project_get_drawing (self), FALSE, n_colours, error);
}

gboolean
bw_project_set_drawing (BwProject *self, const char *label, gboolean in_bail,
                        const BwDrawing *drawing, GError **error)
{
  BwCanvas canvas = in_bail ? BW_CANVAS_BAIL : BW_CANVAS_BAND;
  const BwDrawing *old = drawing_of (self, in_bail);
  Edit edit;

  if (!drawing_suits (drawing, old, in_bail, bw_project_get_tray (self)->n_colours, error))
    return FALSE;
  edit_begin (&edit, self, label);
  for (int row = 1; row <= bw_drawing_rows (drawing); row++) {
    const guint8 *cells = bw_drawing_row (drawing, row);

    for (int bead = 0; bead < bw_drawing_columns (drawing) / 2; bead++)
      bw_canvas_set (self->document, self->changes, canvas, row, bead, cells[bead]);
  }
  edit_end (&edit, self);
  return TRUE;
}

/* The first colour shown that the map gives no place in a tray of n_colours; −1 when there is none.
 */
static int
unmapped (BwProject *self, const guint8 map[256], int n_colours)
{
  const BwDrawing *bail = bw_project_get_bail_drawing (self);
  guint64 counts[256] = { 0 };

  bw_drawing_count (bw_project_get_drawing (self), counts);
  if (bail)
    bw_drawing_count (bail, counts);
  for (int i = 0; i < 256; i++)
    if (counts[i] && map[i] >= n_colours)
      return i;
  return -1;
}

gboolean
bw_project_replace_tray (BwProject *self, const char *label, const BwTray *tray,
                         const guint8 map[256], GError **error)
{
  guint8 kept[256];
  BwTrayValue *value;
  Edit edit;
  int lost;

  if (!bw_tray_validate (tray, error))
    return FALSE;
  lost = unmapped (self, map, tray->n_colours);
  if (lost >= 0) {
    bw_fault_set (error, BW_FAULT_RANGE, "/tray",
                  _ ("colour %d still has beads; give them another colour first."), lost + 1);
    return FALSE;
  }
  for (int i = 0; i < 256; i++)
    kept[i] = map[i] < tray->n_colours ? map[i] : 0;
  value = bw_tray_value_new ();
  value->tray = *tray;
  edit_begin (&edit, self, label);
  recolour (self, kept);
  put_tray (self, value);
  edit_end (&edit, self);
  return TRUE;
}

static gboolean
can_remove (BwProject *self, int index, int replacement, GError **error)
{
  int n = bw_project_get_tray (self)->n_colours;

  if (n < 2) {
    bw_fault_set (error, BW_FAULT_RANGE, "/tray", _ ("the last colour cannot be removed."));
    return FALSE;
  }
  if (index < 0 || index >= n || replacement < 0 || replacement >= n || index == replacement) {
    bw_fault_set (error, BW_FAULT_RANGE, "/tray",
                  _ ("colour %d cannot be replaced by colour %d of %d."), index + 1,
                  replacement + 1, n);
    return FALSE;
  }
  return TRUE;
}

gboolean
bw_project_remove_colour (BwProject *self, const char *label, int index, int replacement,
                          GError **error)
{
  BwTrayValue *value;
  guint8 map[256];
  Edit edit;

  if (!can_remove (self, index, replacement, error))
    return FALSE;
  for (int i = 0; i < 256; i++) {
    int to = i == index ? replacement : i;

    map[i] = (guint8)(to > index ? to - 1 : to);
  }
  value = bw_tray_value_new ();
  value->tray = *bw_project_get_tray (self);
  value->tray.n_colours--;
  memmove (&value->tray.colour[index], &value->tray.colour[index + 1],
           sizeof (BwColour) * (gsize)(value->tray.n_colours - index));
  edit_begin (&edit, self, label);
  recolour (self, map);
  put_tray (self, value);
  edit_end (&edit, self);
  return TRUE;
}

gboolean
bw_project_move_colour (BwProject *self, const char *label, int index, int to)
{
  const BwTray *tray;
  guint8 map[256];
  BwTrayValue *value;
  Edit edit;

  tray = bw_project_get_tray (self);
  if (index < 0 || to < 0 || index >= tray->n_colours || to >= tray->n_colours)
    return FALSE;
  value = bw_tray_value_new ();
  value->tray = *tray;
  for (int i = 0; i < 256; i++)
    map[i] = (guint8)(i == index             ? to
                      : i > index && i <= to ? i - 1
                      : i < index && i >= to ? i + 1
                                             : i);
  for (int i = 0; i < tray->n_colours; i++)
    value->tray.colour[map[i]] = tray->colour[i];
  edit_begin (&edit, self, label);
  recolour (self, map);
  put_tray (self, value);
  edit_end (&edit, self);
  return TRUE;
}
