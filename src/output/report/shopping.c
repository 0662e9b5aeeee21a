/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A class or a market wants the list for more pieces than the project names; the project itself
 * stays as it is. */
#include "output/report/shopping.h"

void
bw_shopping_init (BwMaterials *materials, BwProject *project, int pieces)
{
  BwDesign design = *bw_project_get_design (project);
  if (pieces > 0)
    design.supply.pieces = pieces;
  bw_materials_init (materials, &design, bw_project_stone (project),
                     bw_project_get_drawing (project), bw_project_get_bail_drawing (project),
                     bw_project_get_tray (project)->n_colours, bw_project_path (project));
}
