/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one document object: it opens and closes steps, keeps the history, and tells the views what
 * changed. What a step may change lies in edits.c, files in files.c, caches in derived.c. */
#include "config.h"

#include "project/project-private.h"

enum { CHANGED, HISTORY, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwProject, bw_project, G_TYPE_OBJECT)

static void
mark_clear (gpointer mark)
{
  bw_head_clear (&((BwMark *)mark)->head);
}

static void
trial_free (BwTrial *trial)
{
  g_free (trial->label);
  bw_drawing_free (trial->drawing);
  g_clear_pointer (&trial->tray, bw_tray_value_unref);
  g_free (trial->made);
  g_free (trial);
}

static void
bw_project_finalize (GObject *object)
{
  BwProject *self = BW_PROJECT (object);

  g_clear_pointer (&self->marks, g_array_unref);
  g_clear_pointer (&self->changes, g_array_unref);
  bw_history_clear (&self->history);
  g_clear_pointer (&self->document, bw_document_free);
  g_clear_pointer (&self->derived, bw_derived_free);
  g_clear_pointer (&self->trial, trial_free);
  g_clear_object (&self->file);
  g_free (self->label);
  G_OBJECT_CLASS (bw_project_parent_class)->finalize (object);
}

static void
bw_project_class_init (BwProjectClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = bw_project_finalize;
  signals[CHANGED] = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[HISTORY]
      = g_signal_new ("history", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bw_project_init (BwProject *self)
{
  self->marks = g_array_new (FALSE, TRUE, sizeof (BwMark));
  g_array_set_clear_func (self->marks, mark_clear);
  self->changes = g_array_new (FALSE, FALSE, sizeof (BwChange));
  bw_history_init (&self->history);
  self->derived = bw_derived_new ();
}

BwProject *
bw_project_new_for_document (BwDocument *document)
{
  BwProject *self = g_object_new (BW_TYPE_PROJECT, NULL);

  self->document = document;
  return self;
}

GFile *
bw_project_get_file (BwProject *self)
{
  return self->file;
}

BwExamples
bw_project_get_examples (BwProject *self)
{
  return self->file ? (BwExamples){ 0 } : self->document->head.frame->examples;
}

gboolean
bw_project_is_example (BwProject *self, const char *pointer)
{
  BwExamples examples = bw_project_get_examples (self);

  return bw_examples_has (&examples, pointer);
}

gboolean
bw_project_stone_is_example (BwProject *self)
{
  return bw_project_get_examples (self).values != 0;
}

void
bw_project_set_file (BwProject *self, GFile *file)
{
  BwExamples before = bw_project_get_examples (self), after;

  if (!self->file || !file || !g_file_equal (self->file, file))
    self->stamp = (BwStamp){ 0 };
  g_set_object (&self->file, file);
  after = bw_project_get_examples (self);
  if (!bw_examples_equal (&before, &after))
    g_signal_emit (self, signals[CHANGED], 0, (guint)BW_CHANGED_DESIGN);
}

const BwStamp *
bw_project_get_stamp (BwProject *self)
{
  return &self->stamp;
}

void
bw_project_set_stamp (BwProject *self, const BwStamp *stamp)
{
  self->stamp = *stamp;
}

/* Whether anything differs from where the outermost open step began. */
static gboolean
open_step_differs (BwProject *self)
{
  if (self->marks->len == 0)
    return FALSE;
  return self->changes->len > 0
         || !bw_head_equal (&g_array_index (self->marks, BwMark, 0).head, &self->document->head);
}

gboolean
bw_project_get_modified (BwProject *self)
{
  return self->history.saved != self->history.done || open_step_differs (self);
}

void
bw_project_set_modified (BwProject *self, gboolean modified)
{
  self->history.saved = modified ? -1 : (gint64)self->history.done;
  g_signal_emit (self, signals[HISTORY], 0);
}

const BwDesign *
bw_project_get_design (BwProject *self)
{
  return &self->document->head.frame->design;
}

const BwDrawing *
bw_project_get_drawing (BwProject *self)
{
  return self->document->drawing[BW_CANVAS_BAND];
}

const BwDrawing *
bw_project_get_bail_drawing (BwProject *self)
{
  gboolean none = bw_project_get_design (self)->bail.style == BW_BAIL_NONE;

  return none ? NULL : self->document->drawing[BW_CANVAS_BAIL];
}

const BwTray *
bw_project_get_tray (BwProject *self)
{
  return &self->document->head.tray->tray;
}

const char *
bw_project_get_id (BwProject *self)
{
  return self->document->id ? self->document->id : "";
}

void
bw_project_ensure_id (BwProject *self)
{
  if (!self->document->id)
    self->document->id = g_uuid_string_random ();
}

const char *
bw_project_get_title (BwProject *self)
{
  return self->document->head.text->title;
}

const char *
bw_project_get_about (BwProject *self, BwAbout about)
{
  return self->document->head.text->about[about];
}

const char *
bw_project_get_mineral (BwProject *self)
{
  return self->document->head.text->mineral;
}

int
bw_project_get_rows_done (BwProject *self)
{
  return self->document->head.progress->rows_done;
}

int
bw_project_get_join_done (BwProject *self)
{
  return self->document->head.progress->join_done;
}

int
bw_project_get_bail_rows_done (BwProject *self)
{
  return self->document->head.progress->bail_rows_done;
}

const BwTried *
bw_project_get_tried (BwProject *self)
{
  return &self->document->head.progress->tried;
}

const BwDone *
bw_project_get_done (BwProject *self)
{
  return &self->document->head.progress->done;
}

const BwCheck *
bw_project_get_checks (BwProject *self, int *n_checks)
{
  *n_checks = self->document->head.progress->n_checks;
  return self->document->head.progress->check;
}

const BwMade *
bw_project_get_motifs (BwProject *self, int *n_made)
{
  *n_made = self->document->head.motifs->n;
  return self->document->head.motifs->made;
}

gboolean
bw_project_touched (BwProject *self, guint64 *seen, GArray *beads)
{
  const BwTouched *touched = &self->document->touched;
  guint from;
  gboolean told = bw_touched_since (touched, seen, &from);

  for (guint i = from; told && i < touched->places->len; i++) {
    guint32 place = g_array_index (touched->places, guint32, i);
    BwBeadOf bead = { bw_place_canvas (place) == BW_CANVAS_BAIL, bw_place_row (place),
                      bw_place_column (place) };

    g_array_append_val (beads, bead);
  }
  return told;
}

static gboolean
canvases_differ (const BwDesign *a, const BwDesign *b)
{
  return a->band.columns != b->band.columns || a->band.rows != b->band.rows
         || a->bail.style != b->bail.style || a->bail.columns != b->bail.columns
         || a->bail.rows != b->bail.rows;
}

/* What is bought and paid bears on nothing that is seen. */
#define BOUGHT (1u << BW_GROUP_MATERIALS | 1u << BW_GROUP_PRICES)

/* Flags of what differs between two heads; drops what was derived from it. */
static guint
compare_heads (BwProject *self, const BwHead *old, gboolean cells)
{
  const BwHead *head = &self->document->head;
  guint what = 0, groups = 0;

  if (old->frame != head->frame)
    groups = bw_design_difference (&old->frame->design, &head->frame->design);
  cells = cells || canvases_differ (&old->frame->design, &head->frame->design);
  if (groups || !bw_examples_equal (&old->frame->examples, &head->frame->examples))
    what |= BW_CHANGED_DESIGN;
  if (groups & ~BOUGHT)
    what |= BW_CHANGED_SHAPE;
  if (cells)
    what |= BW_CHANGED_CELLS;
  if (old->tray != head->tray)
    what |= BW_CHANGED_TRAY;
  if (old->text != head->text)
    what |= BW_CHANGED_TITLE;
  if (old->progress != head->progress)
    what |= BW_CHANGED_PROGRESS;
  bw_derived_drop (self->derived, groups, cells, (what & BW_CHANGED_TRAY) != 0);
  return what;
}

static void
emit_changed (BwProject *self, guint what)
{
  if (what)
    g_signal_emit (self, signals[CHANGED], 0, what);
}

void
bw_project_note (BwProject *self, const BwHead *old, gboolean cells)
{
  guint what = compare_heads (self, old, cells);

  g_object_ref (self);
  emit_changed (self, what);
  if (what && !self->told_open && self->marks->len > 0) {
    self->told_open = TRUE;
    g_signal_emit (self, signals[HISTORY], 0);
  }
  g_object_unref (self);
}

gboolean
bw_project_in_step (BwProject *self)
{
  return self->marks->len > 0;
}

void
bw_project_take_trial (BwProject *self, BwTrial *trial)
{
  gboolean trays = (trial && trial->tray) || (self->trial && self->trial->tray);

  g_clear_pointer (&self->trial, trial_free);
  self->trial = trial;
  bw_touched_all (&self->document->touched);
  g_object_ref (self);
  emit_changed (self, BW_CHANGED_CELLS | (trays ? BW_CHANGED_TRAY : 0));
  g_signal_emit (self, signals[HISTORY], 0);
  g_object_unref (self);
}

void
bw_project_drop_trial (BwProject *self)
{
  if (self->trial)
    bw_project_take_trial (self, NULL);
}

void
bw_project_begin (BwProject *self, const char *label)
{
  BwMark mark = { 0 };

  bw_project_drop_trial (self);
  mark.n_changes = self->changes->len;
  if (self->marks->len == 0) {
    g_free (self->label);
    self->label = g_strdup (label ? label : "");
    self->told_open = FALSE;
  }
  bw_head_share (&mark.head, &self->document->head);
  g_array_append_val (self->marks, mark);
}

/* Puts the document back to the innermost mark. */
static void
roll_back (BwProject *self)
{
  const BwMark *mark = &g_array_index (self->marks, BwMark, self->marks->len - 1);
  gboolean cells = self->changes->len > mark->n_changes;
  BwHead old;

  bw_head_share (&old, &self->document->head);
  bw_canvas_apply (self->document, self->changes, mark->n_changes, FALSE);
  g_array_set_size (self->changes, mark->n_changes);
  bw_head_assign (&self->document->head, &mark->head);
  bw_canvas_restore_size (self->document, self->document->head.frame);
  bw_project_note (self, &old, cells);
  bw_head_clear (&old);
}

static void
close_mark (BwProject *self)
{
  g_array_set_size (self->marks, self->marks->len - 1);
  if (self->marks->len == 0)
    g_signal_emit (self, signals[HISTORY], 0);
}

void
bw_project_revert (BwProject *self)
{
  g_return_if_fail (bw_project_in_step (self));
  roll_back (self);
  close_mark (self);
}

static gboolean
change_is_shown (BwProject *self, const BwChange *change)
{
  const BwDrawing *drawing = bw_place_canvas (change->place) == BW_CANVAS_BAND
                                 ? bw_project_get_drawing (self)
                                 : bw_project_get_bail_drawing (self);

  return drawing && bw_place_row (change->place) <= bw_drawing_rows (drawing)
         && bw_place_column (change->place) <= bw_drawing_columns (drawing);
}

/* A step is worth keeping when a maker could see what it did. */
static gboolean
worth_keeping (BwProject *self, const BwHead *before)
{
  if (!bw_head_equal (before, &self->document->head))
    return TRUE;
  for (guint i = 0; i < self->changes->len; i++)
    if (change_is_shown (self, &g_array_index (self->changes, BwChange, i)))
      return TRUE;
  return FALSE;
}

static void
keep_step (BwProject *self)
{
  const BwHead *before = &g_array_index (self->marks, BwMark, 0).head;

  bw_changes_join (self->changes);
  if (worth_keeping (self, before))
    bw_history_push (&self->history,
                     bw_step_new (self->label, before, &self->document->head, self->changes));
  else
    roll_back (self);
  g_array_set_size (self->changes, 0);
}

void
bw_project_commit (BwProject *self)
{
  g_return_if_fail (bw_project_in_step (self));
  if (self->marks->len == 1)
    keep_step (self);
  close_mark (self);
}

gboolean
bw_project_can_undo (BwProject *self)
{
  return bw_project_undo_label (self) != NULL;
}

gboolean
bw_project_can_redo (BwProject *self)
{
  return bw_project_redo_label (self) != NULL;
}

const char *
bw_project_undo_label (BwProject *self)
{
  return self->trial ? self->trial->label : bw_history_undo_label (&self->history);
}

const char *
bw_project_redo_label (BwProject *self)
{
  return bw_history_redo_label (&self->history);
}

/* A step in the making is neither done nor undone: while one is open nothing moves. */
static void
go_to (BwProject *self, guint position)
{
  gboolean cells = FALSE;
  BwHead old;

  position = MIN (position, self->history.steps->len);
  if (bw_project_in_step (self) || position == self->history.done)
    return;
  bw_head_share (&old, &self->document->head);
  while (self->history.done != position) {
    const BwStep *step = position < self->history.done
                             ? bw_history_undo (&self->history, self->document)
                             : bw_history_redo (&self->history, self->document);

    cells = cells || bw_step_has_cells (step);
  }
  g_object_ref (self);
  emit_changed (self, compare_heads (self, &old, cells));
  g_signal_emit (self, signals[HISTORY], 0);
  g_object_unref (self);
  bw_head_clear (&old);
}

void
bw_project_undo (BwProject *self)
{
  if (self->trial)
    bw_project_drop_trial (self);
  else if (self->history.done > 0)
    go_to (self, self->history.done - 1);
}

void
bw_project_redo (BwProject *self)
{
  bw_project_drop_trial (self);
  go_to (self, self->history.done + 1);
}

guint
bw_project_count_steps (BwProject *self)
{
  return self->history.steps->len;
}

guint
bw_project_get_position (BwProject *self)
{
  return self->history.done;
}

const char *
bw_project_step_label (BwProject *self, guint step)
{
  return bw_history_label (&self->history, step);
}

void
bw_project_go_to (BwProject *self, guint position)
{
  bw_project_drop_trial (self);
  go_to (self, position);
}
