/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work sheet in the order of the work: what it is, what to have at hand, what to wind, what to
 * weave, how to close it, how to finish it, what to mind, and what a shop is to send. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include <glib/gi18n-lib.h>

static gboolean
has_part (BwPaper paper, BwSheetPart part)
{
  return !(paper.wishes & BW_PRINT_WITHOUT (part));
}

BwSheet *
bw_sheet_new (BwProject *project, BwPaper paper, cairo_surface_t *hanging, cairo_surface_t *join)
{
  BwFlow flow;
  bw_flow_init (&flow, bw_sheet_alloc (project, paper, _ ("Work sheet"), FALSE), project);
  bw_sheet_set_head (&flow, project);
  bw_sheet_add_piece (&flow, project, hanging, join);
  bw_sheet_add_contents (&flow);
  bw_flow_part (&flow);
  if (has_part (paper, BW_SHEET_LISTS)) {
    bw_sheet_add_materials (&flow, project, 1);
    bw_sheet_add_thread (&flow, project);
  }
  if (has_part (paper, BW_SHEET_STONE)) {
    bw_sheet_add_stone (&flow, project);
    bw_sheet_add_bed (&flow, project);
    bw_sheet_add_fit (&flow, project);
  }
  if (has_part (paper, BW_SHEET_SWATCH)) {
    bw_sheet_add_swatch (&flow, project);
    bw_sheet_add_ruler (&flow, project);
  }
  if (has_part (paper, BW_SHEET_STONE))
    bw_sheet_add_others (&flow, project);
  if (has_part (paper, BW_SHEET_CHART)) {
    bw_flow_part (&flow);
    bw_sheet_add_chart (&flow, project);
  }
  if (has_part (paper, BW_SHEET_WORDS))
    bw_sheet_add_words (&flow, project);
  if (has_part (paper, BW_SHEET_CRAFT))
    bw_sheet_add_craft (&flow);
  bw_sheet_add_cautions (&flow, project);
  if (has_part (paper, BW_SHEET_ORDER)) {
    /* Leaves the house: a page of its own. */
    bw_flow_part (&flow);
    bw_sheet_add_order (&flow, project, bw_project_get_design (project)->supply.pieces);
  }
  bw_sheet_draw_contents (&flow);
  return bw_flow_finish (&flow);
}
