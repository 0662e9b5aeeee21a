/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A trial is an open step that gives way: it shows what a motif or a picture would be, and whatever
 * the maker does instead finds the document as if it had never been there. */
#include "config.h"

#include "core/base/fault.h"
#include "project/project-private.h"
#include <glib/gi18n-lib.h>

gboolean
bw_project_has_trial (BwProject *self)
{
  return self->trial;
}

void
bw_project_leave_trial (BwProject *self)
{
  if (!self->in_trial)
    bw_project_drop_trial (self);
}

void
bw_project_drop_trial (BwProject *self)
{
  if (!self->trial)
    return;
  self->trial = FALSE;
  bw_project_revert (self);
}

void
bw_project_keep_trial (BwProject *self)
{
  if (!self->trial)
    return;
  self->trial = FALSE;
  bw_project_commit (self);
}

static gboolean
show (BwProject *self, const BwTray *tray, const BwDrawing *drawing, GError **error)
{
  gboolean sound;

  self->in_trial = TRUE;
  sound = (!tray || bw_project_set_tray (self, "", tray, error))
          && bw_project_set_drawing (self, "", FALSE, drawing, error);
  self->in_trial = FALSE;
  return sound;
}

gboolean
bw_project_try (BwProject *self, const char *label, const BwTray *tray, const BwDrawing *drawing,
                GError **error)
{
  bw_project_drop_trial (self);
  if (bw_project_in_step (self)) {
    bw_fault_set (error, BW_FAULT_RANGE, "", _ ("another change is still being made."));
    return FALSE;
  }
  bw_project_begin (self, label);
  self->trial = TRUE;
  if (show (self, tray, drawing, error))
    return TRUE;
  bw_project_drop_trial (self);
  return FALSE;
}

void
bw_project_trial_aside (BwProject *self, BwTrialAside *aside)
{
  if (!self->trial)
    return;
  bw_canvas_apply (self->document, self->changes, 0, FALSE);
  bw_head_share (&aside->head, &self->document->head);
  bw_head_assign (&self->document->head, &g_array_index (self->marks, BwMark, 0).head);
}

void
bw_project_trial_back (BwProject *self, BwTrialAside *aside)
{
  if (!self->trial)
    return;
  bw_head_assign (&self->document->head, &aside->head);
  bw_head_clear (&aside->head);
  bw_canvas_apply (self->document, self->changes, 0, TRUE);
}

BwDrawing *
bw_project_copy_kept (BwProject *self)
{
  BwTrialAside aside = { 0 };
  BwDrawing *kept;

  bw_project_trial_aside (self, &aside);
  kept = bw_drawing_copy (bw_project_get_drawing (self));
  bw_project_trial_back (self, &aside);
  return kept;
}

void
bw_project_copy_kept_tray (BwProject *self, BwTray *tray)
{
  BwTrialAside aside = { 0 };

  bw_project_trial_aside (self, &aside);
  *tray = *bw_project_get_tray (self);
  bw_project_trial_back (self, &aside);
}
