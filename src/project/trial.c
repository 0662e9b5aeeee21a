/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A trial shows what a motif or a picture would be. It is a value beside the document and never in
 * it: whoever edits reads the document and so cannot begin on a trial, and only who asks for what
 * is shown sees one. */
#include "config.h"

#include "project/fault/fault-error.h"
#include "project/project-private.h"
#include <glib/gi18n-lib.h>
#include <string.h>

gboolean
bw_project_has_trial (BwProject *self)
{
  return self->trial != NULL;
}

const BwDrawing *
bw_project_shown_drawing (BwProject *self)
{
  return self->trial ? self->trial->drawing : bw_project_get_drawing (self);
}

const BwTray *
bw_project_shown_tray (BwProject *self)
{
  return self->trial && self->trial->tray ? &self->trial->tray->tray : bw_project_get_tray (self);
}

static BwTrial *
trial_new (const char *label, const BwTray *tray, const BwDrawing *drawing)
{
  BwTrial *trial = g_new0 (BwTrial, 1);

  trial->label = g_strdup (label);
  trial->drawing = bw_drawing_copy (drawing);
  if (tray) {
    trial->tray = bw_tray_value_new ();
    trial->tray->tray = *tray;
  }
  return trial;
}

static gboolean
may_try (BwProject *self, const BwTray *tray, const BwDrawing *drawing, GError **error)
{
  if (!bw_project_in_step (self))
    return bw_project_allows (self, tray, drawing, error);
  bw_fault_set (error, BW_FAULT_RANGE, "", _ ("another change is still being made."));
  return FALSE;
}

gboolean
bw_project_try (BwProject *self, const char *label, const BwTray *tray, const BwDrawing *drawing,
                GError **error)
{
  gboolean sound = may_try (self, tray, drawing, error);

  if (sound)
    bw_project_take_trial (self, trial_new (label, tray, drawing));
  else
    bw_project_drop_trial (self);
  return sound;
}

void
bw_project_trial_is (BwProject *self, const BwMade *made)
{
  g_return_if_fail (self->trial);
  g_free (self->trial->made);
  self->trial->made = g_memdup2 (made, sizeof *made);
}

static void
remember_motif (BwProject *self, const BwMade *made)
{
  const BwMotifs *old = self->document->head.motifs;
  BwMade list[BW_MADE_MAX];

  memcpy (list, old->made, sizeof list);
  bw_project_set_motifs (self, "", list, bw_made_append (list, old->n, made));
}

/* The step begins on the document as any other does; what it changes is what the trial was. */
void
bw_project_keep_trial (BwProject *self)
{
  const BwTrial *trial = self->trial;

  if (!trial)
    return;
  g_autofree char *label = g_strdup (trial->label);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (trial->drawing);
  BwTray tray = *bw_project_shown_tray (self);
  gboolean own_tray = trial->tray != NULL;
  g_autofree BwMade *made = trial->made ? g_memdup2 (trial->made, sizeof *made) : NULL;

  bw_project_begin (self, label); /* and the trial is gone */
  if (!own_tray || bw_project_set_tray (self, "", &tray, NULL))
    bw_project_set_drawing (self, "", FALSE, drawing, NULL);
  if (made)
    remember_motif (self, made);
  bw_project_commit (self);
}
