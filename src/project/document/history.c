/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A step of undo keeps values, not commands: nothing has to know how to undo itself. Values that a
 * step did not touch are shared with its neighbours; cells are kept as packed patches. */
#include "config.h"

#include "project/document/history.h"
#include "project/document/canvas.h"
#include <string.h>

typedef struct {
  BwHead before, after;
} Heads;

struct _BwStep {
  GRefString *label;
  Heads *heads; /* NULL when only cells changed */
  guint32 length;
  guint8 patch[];
};

BwStep *
bw_step_new (const char *label, const BwHead *before, const BwHead *after, const GArray *changes)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  BwStep *step;

  bw_changes_pack (changes, bytes);
  step = g_malloc (sizeof *step + bytes->len);
  step->label = g_ref_string_new_intern (label);
  step->heads = NULL;
  step->length = bytes->len;
  if (bytes->len > 0) /* an empty array has no data to copy from */
    memcpy (step->patch, bytes->data, bytes->len);
  if (memcmp (before, after, sizeof *before) != 0) {
    step->heads = g_new0 (Heads, 1);
    bw_head_share (&step->heads->before, before);
    bw_head_share (&step->heads->after, after);
  }
  return step;
}

void
bw_step_free (BwStep *step)
{
  if (step->heads) {
    bw_head_clear (&step->heads->before);
    bw_head_clear (&step->heads->after);
    g_free (step->heads);
  }
  g_ref_string_release (step->label);
  g_free (step);
}

gboolean
bw_step_has_cells (const BwStep *step)
{
  return step->length > 0;
}

gsize
bw_step_bytes (const BwStep *step)
{
  return sizeof *step + step->length + (step->heads ? sizeof *step->heads : 0);
}

static void
step_apply (const BwStep *step, BwDocument *document, gboolean forward)
{
  g_autoptr (GArray) changes = g_array_new (FALSE, FALSE, sizeof (BwChange));

  bw_changes_unpack (changes, step->patch, step->length);
  bw_canvas_apply (document, changes, 0, forward);
  if (step->heads)
    bw_head_assign (&document->head, forward ? &step->heads->after : &step->heads->before);
  bw_canvas_restore_size (document, document->head.frame);
}

void
bw_history_init (BwHistory *history)
{
  history->steps = g_ptr_array_new_with_free_func ((GDestroyNotify)bw_step_free);
  history->done = 0;
  history->saved = 0;
}

void
bw_history_clear (BwHistory *history)
{
  g_clear_pointer (&history->steps, g_ptr_array_unref);
}

void
bw_history_push (BwHistory *history, BwStep *step)
{
  g_ptr_array_set_size (history->steps, (int)history->done);
  if (history->saved > history->done)
    history->saved = -1;
  g_ptr_array_add (history->steps, step);
  history->done++;
}

const BwStep *
bw_history_undo (BwHistory *history, BwDocument *document)
{
  const BwStep *step;

  if (history->done == 0)
    return NULL;
  step = g_ptr_array_index (history->steps, --history->done);
  step_apply (step, document, FALSE);
  return step;
}

const BwStep *
bw_history_redo (BwHistory *history, BwDocument *document)
{
  const BwStep *step;

  if (history->done == history->steps->len)
    return NULL;
  step = g_ptr_array_index (history->steps, history->done++);
  step_apply (step, document, TRUE);
  return step;
}

const char *
bw_history_label (const BwHistory *history, guint step)
{
  g_return_val_if_fail (step >= 1 && step <= history->steps->len, NULL);
  return ((const BwStep *)g_ptr_array_index (history->steps, step - 1))->label;
}

const char *
bw_history_undo_label (const BwHistory *history)
{
  return history->done > 0 ? bw_history_label (history, history->done) : NULL;
}

const char *
bw_history_redo_label (const BwHistory *history)
{
  return history->done < history->steps->len ? bw_history_label (history, history->done + 1) : NULL;
}
