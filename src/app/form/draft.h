/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Between the entries of a window and its project: what is typed goes through here, so that one
 * change is one undo step, a value being stepped is live, and a value that cannot stand waits
 * beside the project with its reason (see app/pending.h).
 *
 * Signal "changed" (): what is pending may differ; entries then show themselves anew. */
#pragma once

#include "app/form/pending.h"
#include "project/session.h"

G_BEGIN_DECLS

#define BW_TYPE_DRAFT (bw_draft_get_type ())
G_DECLARE_FINAL_TYPE (BwDraft, bw_draft, BW, DRAFT, GObject)

BwDraft *bw_draft_new (BwSession *session);
BwSession *bw_draft_get_session (BwDraft *self); /* borrowed */
BwProject *bw_draft_get_project (BwDraft *self); /* borrowed; the session's present one */
const BwDesign *bw_draft_get_design (BwDraft *self);

/* Takes what was typed into a field. FALSE when it is pending now. */
gboolean bw_draft_type (BwDraft *self, const BwField *field, const char *text, BwUnit unit);
/* The number that stands in a field is the maker's own, though it is the one that a new project
 * made up; typing it says the same. */
void bw_draft_confirm (BwDraft *self, const BwField *field);
/* Sets a whole design as one step, or shows why not: FALSE with *error. */
gboolean bw_draft_apply (BwDraft *self, const char *label, const BwDesign *design, GError **error);

/* Moves a value by a step, live; a run of steps of one field is one undo step, ended by
 * bw_draft_settle() or a short rest. FALSE when the value cannot go there (nothing pending). */
gboolean bw_draft_nudge (BwDraft *self, const BwField *field, double by);
/* Ends a run of steps. Harmless without one. */
void bw_draft_settle (BwDraft *self);

/* What waits in this field; NULL for nothing. Borrowed until the next change. */
const BwPending *bw_draft_pending (BwDraft *self, const char *pointer);
/* Whether something that waits elsewhere is at odds with this field. */
gboolean bw_draft_blames (BwDraft *self, const char *pointer);
/* Forgets what waits in this field. */
void bw_draft_forget (BwDraft *self, const char *pointer);
/* How many values wait. */
guint bw_draft_count_pending (BwDraft *self);
/* Text that waits in an entry which is no field; name is the entry's, translated, NULL once none
 * waits. Ended by another project. */
void bw_draft_set_waiting_text (BwDraft *self, const char *name);
/* Whether what waits is more than words that are no number: it would be lost with the window. */
gboolean bw_draft_holds_work (BwDraft *self);
/* The name of a field in which something waits, translated; NULL when nothing does. Borrowed until
 * the next change. */
const char *bw_draft_waits (BwDraft *self);

G_END_DECLS
