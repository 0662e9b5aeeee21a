/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the work sheet on sheets of their own, for who wants no more: the order list for a shop,
 * the chart to weave by. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include <glib/gi18n-lib.h>

BwSheet *
bw_order_sheet_new (BwProject *project, BwPaper paper)
{
  BwFlow flow;
  bw_flow_init (&flow, bw_sheet_alloc (project, paper, _ ("Order list"), FALSE), project);
  bw_sheet_add_title (&flow);
  bw_sheet_add_order (&flow, project, bw_project_get_design (project)->supply.pieces);
  return bw_flow_finish (&flow);
}

BwSheet *
bw_chart_sheet_new (BwProject *project, BwPaper paper)
{
  BwFlow flow;
  bw_flow_init (&flow, bw_sheet_alloc (project, paper, _ ("Chart"), FALSE), project);
  bw_sheet_add_title (&flow);
  bw_sheet_add_chart (&flow, project);
  return bw_flow_finish (&flow);
}
