/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one road from an entry to the project. */
#include "config.h"

#include "app/form/draft.h"
#include "app/form/face-memory.h"
#include "app/form/measures.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A pause this long ends a run of steps: the next press of a key is another undo step. */
#define REST_MS 700

struct _BwDraft {
  GObject parent_instance;
  BwSession *session;
  BwProject *project;
  GPtrArray *pendings;
  BwFaceMemory *faces;
  char stepping[BW_POINTER_BYTES]; /* field of the open run; "" for none */
  char *waiting_text;              /* name of the entry; NULL for none */
  char *label;                     /* of the last step that has a name of its own */
  guint rest;
  gboolean own_change; /* the project changes by our hand */
  BwDesign known;      /* design at the last change, to tell which fields differ */
};

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwDraft, bw_draft, G_TYPE_OBJECT)

static void
tell (BwDraft *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

/* A value that changed under what waits (undo, a remedy, another entry) makes it stale. */
static void
drop_stale (BwDraft *self, const BwDesign *now)
{
  for (guint i = self->pendings->len; i > 0; i--) {
    const BwPending *pending = g_ptr_array_index (self->pendings, i - 1);
    double before = bw_field_get (&pending->field, &self->known);
    if (bw_field_get (&pending->field, now) != before)
      g_ptr_array_remove_index (self->pendings, i - 1);
  }
}

static void
project_changed (BwDraft *self, guint what)
{
  if (!(what & BW_CHANGED_DESIGN))
    return;
  const BwDesign *now = bw_project_get_design (self->project);
  if (!self->own_change && self->pendings->len > 0) {
    drop_stale (self, now);
    tell (self);
  }
  self->known = *now;
}

static void
forget_all (BwDraft *self)
{
  g_ptr_array_set_size (self->pendings, 0);
  g_clear_pointer (&self->waiting_text, g_free);
  bw_face_memory_clear (self->faces);
  self->known = *bw_project_get_design (self->project);
  tell (self);
}

static void
follow_project (BwDraft *self)
{
  bw_draft_settle (self);
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_set_object (&self->project, bw_session_get_project (self->session));
  g_signal_connect_swapped (self->project, "changed", G_CALLBACK (project_changed), self);
  forget_all (self);
}

static void
bw_draft_dispose (GObject *object)
{
  BwDraft *self = BW_DRAFT (object);
  g_clear_handle_id (&self->rest, g_source_remove);
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_clear_object (&self->project);
  g_clear_object (&self->session);
  g_clear_pointer (&self->pendings, g_ptr_array_unref);
  G_OBJECT_CLASS (bw_draft_parent_class)->dispose (object);
}

static void
bw_draft_finalize (GObject *object)
{
  bw_face_memory_free (BW_DRAFT (object)->faces);
  g_free (BW_DRAFT (object)->waiting_text);
  g_free (BW_DRAFT (object)->label);
  G_OBJECT_CLASS (bw_draft_parent_class)->finalize (object);
}

static void
bw_draft_class_init (BwDraftClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bw_draft_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_draft_finalize;
  signals[CHANGED] = g_signal_new ("changed", BW_TYPE_DRAFT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
bw_draft_init (BwDraft *self)
{
  self->pendings = bw_pendings_new ();
  self->faces = bw_face_memory_new ();
}

BwDraft *
bw_draft_new (BwSession *session)
{
  g_return_val_if_fail (BW_IS_SESSION (session), NULL);
  BwDraft *self = g_object_new (BW_TYPE_DRAFT, NULL);
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (follow_project), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
  return self;
}

BwSession *
bw_draft_get_session (BwDraft *self)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), NULL);
  return self->session;
}

BwProject *
bw_draft_get_project (BwDraft *self)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), NULL);
  return self->project;
}

const BwDesign *
bw_draft_get_design (BwDraft *self)
{
  return bw_project_get_design (bw_draft_get_project (self));
}

/* With another number of faces or way of measuring, what was measured so the last time; NULL when
 * the stone has become one that it does not fit. */
static const BwFaces *
recall_faces (BwDraft *self, BwDesign *design)
{
  BwDesign recalled = *design;
  const BwFaces *faces
      = bw_face_memory_recall (self->faces, &bw_draft_get_design (self)->stone, &design->stone);
  if (!faces)
    return NULL;
  bw_faces_put (faces, &recalled.stone);
  if (!bw_project_check_design (self->project, &recalled, NULL))
    return NULL;
  *design = recalled;
  return faces;
}

/* What comes back is as much made up as it was. */
static void
mark_recalled (BwDraft *self, const char *label, const BwFaces *faces)
{
  BwExamples examples = bw_project_get_examples (self->project);
  examples.values = faces->examples;
  bw_project_set_examples (self->project, label, &examples);
}

/* Of a girth or a width across the flats each face is given its share: none of them was measured.
 */
static gboolean
is_shared_out (const BwFaces *before, const BwStoneMeasures *now)
{
  return now->measured == BW_MEASURED_FACE_WIDTHS
         && (before->measured != now->measured || before->faces != now->faces);
}

static void
mark_shared_out (BwDraft *self, const char *label)
{
  BwExamples examples = bw_project_get_examples (self->project);
  examples.values = bw_examples_all (&bw_draft_get_design (self)->stone).values;
  bw_project_set_examples (self->project, label, &examples);
}

static BwFaces
present_faces (BwDraft *self)
{
  return bw_faces_of (&bw_draft_get_design (self)->stone,
                      bw_project_get_examples (self->project).values);
}

/* What else is pending may be stale by it. */
static gboolean
apply_design (BwDraft *self, const char *label, const BwDesign *design, GError **error)
{
  BwDesign now = *design;
  BwFaces before = present_faces (self);
  const BwFaces *recalled = recall_faces (self, &now);
  bw_project_begin (self->project, label);
  gboolean done = bw_project_set_design (self->project, label, &now, error);
  if (done && recalled)
    mark_recalled (self, label, recalled);
  else if (done && is_shared_out (&before, &now.stone))
    mark_shared_out (self, label);
  bw_project_commit (self->project);
  if (done && (before.faces != now.stone.faces || before.measured != now.stone.measured)) {
    BwFaces entered = present_faces (self);
    bw_face_memory_note (self->faces, &before, &entered);
  }
  return done;
}

static gboolean
set_design (BwDraft *self, const char *label, const BwDesign *design, GError **error)
{
  self->own_change = TRUE;
  gboolean done = apply_design (self, label, design, error);
  self->own_change = FALSE;
  return done;
}

/* What a step is called: of several measurements of one kind the one that was typed. */
static const char *
step_label (BwDraft *self, const BwField *field)
{
  static const char values[] = "/stone/values_mm/";
  const BwStoneMeasures *stone = &bw_draft_get_design (self)->stone;
  if (!g_str_has_prefix (field->pointer, values))
    return _ (field->label);
  g_free (self->label);
  self->label = bw_value_title (stone, atoi (field->pointer + strlen (values)));
  return self->label;
}

void
bw_draft_confirm (BwDraft *self, const BwField *field)
{
  g_return_if_fail (BW_IS_DRAFT (self));
  BwExamples examples = bw_project_get_examples (self->project);
  if (!bw_examples_has (&examples, field->pointer))
    return;
  bw_examples_own (&examples, field->pointer);
  bw_project_set_examples (self->project, step_label (self, field), &examples);
}

gboolean
bw_draft_type (BwDraft *self, const BwField *field, const char *text, BwUnit unit)
{
  BwDesign result;
  g_return_val_if_fail (BW_IS_DRAFT (self), FALSE);
  bw_draft_settle (self);
  gboolean stands = bw_pendings_offer (self->pendings, self->project, field, text, unit, &result);
  bw_project_begin (self->project, step_label (self, field));
  if (stands)
    stands = set_design (self, step_label (self, field), &result, NULL);
  if (stands)
    bw_draft_confirm (self, field);
  bw_project_commit (self->project);
  tell (self);
  return stands;
}

gboolean
bw_draft_apply (BwDraft *self, const char *label, const BwDesign *design, GError **error)
{
  BwDesign result;
  g_return_val_if_fail (BW_IS_DRAFT (self), FALSE);
  bw_draft_settle (self);
  bw_project_begin (self->project, label);
  gboolean done = apply_design (self, label, design, error);
  if (done && bw_pendings_retry (self->pendings, self->project, &result))
    set_design (self, label, &result, NULL);
  bw_project_commit (self->project);
  tell (self);
  return done;
}

static gboolean
rested (gpointer data)
{
  BwDraft *self = data;
  self->rest = 0;
  bw_draft_settle (self);
  return G_SOURCE_REMOVE;
}

static void
open_run (BwDraft *self, const BwField *field)
{
  if (!g_str_equal (self->stepping, field->pointer)) {
    bw_draft_settle (self);
    bw_project_begin (self->project, step_label (self, field));
    g_strlcpy (self->stepping, field->pointer, sizeof self->stepping);
  }
  g_clear_handle_id (&self->rest, g_source_remove);
  /* Behind the keys that already wait: a machine that is busy ends no run. */
  self->rest = g_timeout_add_full (G_PRIORITY_DEFAULT_IDLE, REST_MS, rested, self, NULL);
}

gboolean
bw_draft_nudge (BwDraft *self, const BwField *field, double by)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), FALSE);
  BwDesign design = *bw_draft_get_design (self);
  if (!bw_field_is_there (field, &design))
    return FALSE;
  bw_pendings_drop (self->pendings, field->pointer);
  open_run (self, field);
  /* Many small steps must not add up to digits nobody typed. */
  bw_field_set (field, &design, round ((bw_field_get (field, &design) + by) * 1e6) / 1e6);
  gboolean done = set_design (self, step_label (self, field), &design, NULL);
  tell (self);
  return done;
}

void
bw_draft_settle (BwDraft *self)
{
  g_return_if_fail (BW_IS_DRAFT (self));
  g_clear_handle_id (&self->rest, g_source_remove);
  bw_session_settle (self->session);
  if (!*self->stepping)
    return;
  *self->stepping = '\0';
  bw_project_commit (self->project);
}

const BwPending *
bw_draft_pending (BwDraft *self, const char *pointer)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), NULL);
  return bw_pendings_find (self->pendings, pointer);
}

/* A fault may name a whole list ("/stone/apex_offset_mm"): then every value of it is meant. */
static gboolean
names (const char *blamed, const char *pointer)
{
  return blamed && g_str_has_prefix (pointer, blamed)
         && (pointer[strlen (blamed)] == '\0' || pointer[strlen (blamed)] == '/');
}

gboolean
bw_draft_blames (BwDraft *self, const char *pointer)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), FALSE);
  for (guint i = 0; i < self->pendings->len; i++) {
    const BwPending *pending = g_ptr_array_index (self->pendings, i);
    if (names (pending->blamed, pointer) && !g_str_equal (pending->field.pointer, pointer))
      return TRUE;
  }
  return FALSE;
}

void
bw_draft_forget (BwDraft *self, const char *pointer)
{
  g_return_if_fail (BW_IS_DRAFT (self));
  bw_pendings_drop (self->pendings, pointer);
  tell (self);
}

guint
bw_draft_count_pending (BwDraft *self)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), 0);
  return self->pendings->len;
}

void
bw_draft_set_waiting_text (BwDraft *self, const char *name)
{
  g_return_if_fail (BW_IS_DRAFT (self));
  if (g_strcmp0 (self->waiting_text, name) == 0)
    return;
  g_free (self->waiting_text);
  self->waiting_text = g_strdup (name);
  tell (self);
}

gboolean
bw_draft_holds_work (BwDraft *self)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), FALSE);
  gboolean holds = self->waiting_text != NULL;
  for (guint i = 0; i < self->pendings->len; i++) {
    const BwPending *pending = g_ptr_array_index (self->pendings, i);
    holds = holds || pending->is_number || pending->is_clear;
  }
  return holds;
}

const char *
bw_draft_waits (BwDraft *self)
{
  g_return_val_if_fail (BW_IS_DRAFT (self), NULL);
  if (self->pendings->len == 0)
    return self->waiting_text;
  const BwPending *pending = g_ptr_array_index (self->pendings, 0);
  return _ (pending->field.label);
}
