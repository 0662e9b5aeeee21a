/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ways/way-stash.h"

#include "project/stash-wants.h"

gboolean
bw_way_in_stash (BwProject *project, const BwWay *way)
{
  const BwMaterials *now = bw_project_materials (project);
  g_autoptr (BwStash) stash = bw_stash_dup_own ();
  g_autoptr (GArray) wants = bw_stash_wants_new (project, now);
  BwStashWant *want = (BwStashWant *)(void *)wants->data;
  double then_g = way->worth.beads * bw_bead_mass_g (&way->design.bead);
  double now_g = (double)now->total_beads * bw_bead_mass_g (&bw_project_get_design (project)->bead);
  if (!stash || !(now_g > 0))
    return FALSE;
  for (guint i = 0; i < wants->len; i++) {
    want[i].bead = way->design.bead.name;
    if (want[i].what == BW_STASH_BEADS)
      want[i].wanted *= then_g / now_g;
  }
  bw_stash_hold (stash, want, wants->len, NULL);
  for (guint i = 0; i < wants->len; i++)
    if (want[i].what == BW_STASH_BEADS && want[i].taken < want[i].wanted)
      return FALSE;
  return TRUE;
}
