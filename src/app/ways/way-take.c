/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ways/way-take.h"

#include "app/ways/way-words.h"

static gboolean
keep_progress (BwProject *project, const BwDesign *design, GError **error)
{
  const BwDesign *now = bw_project_get_design (project);
  int n_checks, done = MIN (bw_project_get_rows_done (project), design->band.rows);
  const BwCheck *checks = bw_project_get_checks (project, &n_checks);
  if (!bw_bead_same_size (&now->bead, &design->bead))
    n_checks = 0;
  g_autofree BwCheck *kept = g_memdup2 (checks, sizeof *checks * (gsize)n_checks);
  return bw_project_set_progress (project, "", done, kept, n_checks, error);
}

gboolean
bw_way_take (BwDraft *draft, const BwWay *way, GError **error)
{
  BwProject *project = bw_draft_get_project (draft);
  g_autofree char *label = bw_way_words_band (&way->design);
  bw_draft_settle (draft);
  bw_project_begin (project, label);
  gboolean done = keep_progress (project, &way->design, error)
                  && bw_draft_apply (draft, label, &way->design, error);
  if (done)
    bw_project_commit (project);
  else
    bw_project_revert (project);
  return done;
}
