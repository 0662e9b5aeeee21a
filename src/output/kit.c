/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For a class: what the teacher buys, and for each maker a page to pack the bag by and to work
 * beside. The work sheet itself is the same for all and printed as often as needed. */
#include "config.h"

#include "output/sheet-private.h"

#include "output/cautions.h"
#include "output/report-parts.h"

#include <glib/gi18n-lib.h>

#define PICTURE_HEIGHT 150.0

typedef struct {
  BwProject *project;
  cairo_surface_t *picture;
  int maker, makers;
} Page;

static void
draw_head (cairo_t *cr, double width, double height, gpointer data)
{
  const Page *page = data;
  g_autofree char *who = g_strdup_printf (_ ("Maker %d of %d"), page->maker, page->makers);
  bw_type_draw (cr, BW_TYPE_TITLE, who, 0, 0, 0);
  bw_type_draw (cr, BW_TYPE_TEXT, _ ("Name"), 0, 52, 0);
  cairo_set_source_rgb (cr, 0.5, 0.5, 0.5);
  cairo_set_line_width (cr, 0.5);
  cairo_move_to (cr, 36, 62);
  cairo_line_to (cr, width - 180, 62);
  cairo_stroke (cr);
  if (!page->picture)
    return;
  cairo_translate (cr, width - 160, 0);
  bw_sheet_draw_picture (cr, page->picture, 160, height);
}

static void
add_facts (BwFlow *flow, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const GArray *lengths = bw_project_path (project)->lengths;
  double cord = bw_bed_cord_mm (&design->bed, bw_project_stone (project), bw_design_span (design));
  g_autofree char *band = g_strdup_printf (
      _ ("The band: %d columns, %d rows, from %.1f mm above the base. Try on after row %d."),
      design->band.columns, design->band.rows, design->band.bottom_mm,
      bw_project_forecast (project)->try_on_row);
  bw_flow_heading (flow, _ ("To cut and to know"), 40);
  bw_flow_item (flow, "·", band, 10);
  if (cord > 0) {
    g_autofree char *length = bw_text_cut (cord);
    g_autofree char *text = g_strdup_printf (_ ("The bed: %s of waxed cord."), length);
    bw_flow_item (flow, "·", text, 10);
  }
  for (guint i = 0; i < lengths->len && i < 8; i++) {
    g_autofree char *length = bw_text_cut (g_array_index (lengths, BwThreadLength, i).length_mm);
    g_autofree char *text
        = g_strdup_printf (_ ("Thread %u of %u: %s."), i + 1, lengths->len, length);
    bw_flow_item (flow, "·", text, 10);
  }
}

static void
add_maker (BwFlow *flow, Page *page)
{
  g_auto (GStrv) cautions = bw_cautions_new (page->project, NULL);
  bw_flow_new_page (flow);
  bw_flow_figure (flow, page->picture ? PICTURE_HEIGHT : 76, draw_head, page);
  bw_flow_text (flow, BW_TYPE_BOLD, flow->sheet->title);
  bw_sheet_add_bag (flow, page->project);
  add_facts (flow, page->project);
  g_autofree char *all = g_strjoinv (" ", cautions);
  bw_flow_heading (flow, _ ("Mind"), 40);
  bw_flow_text (flow, BW_TYPE_SMALL, all);
  bw_flow_text (flow, BW_TYPE_SMALL, bw_cautions_deference ());
}

BwSheet *
bw_kit_new (BwProject *project, BwPaper paper, int makers, cairo_surface_t *picture)
{
  BwFlow flow;
  Page page = { project, picture, 1, CLAMP (makers, 1, BW_KIT_MAX) };
  bw_flow_init (&flow, bw_sheet_alloc (project, paper, _ ("Kit sheet")));
  bw_flow_text (&flow, BW_TYPE_BOLD, flow.sheet->title);
  bw_sheet_add_materials (&flow, project, page.makers);
  for (; page.maker <= page.makers; page.maker++)
    add_maker (&flow, &page);
  return bw_flow_finish (&flow);
}
