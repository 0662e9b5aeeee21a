/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/stash-wants.h"

#include "project/document/line.h"

/* Of cord, thread and findings: how much, and how wide. */
static BwStashWant
want_thing (BwStashWhat what, const BwDesign *design, const BwMaterials *materials)
{
  const struct {
    double wanted, width_mm;
  } things[BW_N_STASH] = {
    [BW_STASH_BED_CORD] = { materials->bed_cord_mm, design->bed.cord_width_mm },
    [BW_STASH_THREAD] = { materials->thread_mm, design->thread.diameter_mm },
    [BW_STASH_HANGING_CORD] = { materials->hanging_cord_mm, design->bail.cord_mm },
    [BW_STASH_STOPPER] = { materials->stopper_beads, 0 },
    [BW_STASH_RING] = { materials->rings, 0 },
    [BW_STASH_CLASP] = { materials->clasps, 0 },
  };
  return (BwStashWant){ .what = what,
                        .wanted = things[what].wanted,
                        .width_mm = things[what].width_mm };
}

GArray *
bw_stash_wants_new (BwProject *project, const BwMaterials *materials)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwTray *tray = bw_project_get_tray (project);
  GArray *wants = g_array_new (FALSE, FALSE, sizeof (BwStashWant));
  for (int i = 0; i < materials->n_colours; i++) {
    BwStashWant want = { .what = BW_STASH_BEADS,
                         .bead = design->bead.name,
                         .colour = &tray->colour[i],
                         .wanted = materials->need[i].grams };
    if (materials->need[i].count > 0)
      g_array_append_val (wants, want);
  }
  for (int what = BW_STASH_BEADS + 1; what < BW_N_STASH; what++) {
    BwStashWant want = want_thing ((BwStashWhat)what, design, materials);
    g_array_append_val (wants, want);
  }
  return wants;
}

/* For one piece, with no bead more than it has. */
static void
materials_of_one (BwMaterials *materials, BwProject *project)
{
  BwDesign design = *bw_project_get_design (project);
  design.supply.pieces = 1;
  design.supply.spare = 0;
  bw_materials_init (materials, &design, bw_project_stone (project),
                     bw_project_get_drawing (project), bw_project_get_bail_drawing (project),
                     bw_project_get_tray (project)->n_colours, bw_project_path (project));
  materials->stopper_beads = 0;
}

void
bw_stash_taking_init (BwStashTaking *taking, BwProject *project, const BwStash *stash,
                      const char *date)
{
  g_autofree BwMaterials *materials = g_new (BwMaterials, 1);
  g_autoptr (GArray) shares = g_array_new (FALSE, FALSE, sizeof (BwStashShare));
  *taking = (BwStashTaking){ .of = g_array_new (FALSE, FALSE, sizeof (BwStashItem)) };
  bw_copy_text (taking->title, sizeof taking->title, bw_project_get_title (project));
  bw_copy_text (taking->piece, sizeof taking->piece, bw_project_get_id (project));
  bw_copy_text (taking->date, sizeof taking->date, date);
  materials_of_one (materials, project);
  g_autoptr (GArray) wants = bw_stash_wants_new (project, materials);
  bw_stash_hold (stash, (BwStashWant *)(void *)wants->data, wants->len, shares);
  for (guint i = 0; i < shares->len; i++) {
    BwStashShare share = g_array_index (shares, BwStashShare, i);
    BwStashItem item = *bw_stash_get (stash, share.at);
    item.amount = share.amount;
    g_array_append_val (taking->of, item);
  }
}
