/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a beginner asks before the first bead and after the last: the swatch, tools and thread, and
 * how the piece is looked after. Common practice, no source; the pages say so. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/report/report-parts.h"
#include "output/sheet/sheet-facts.h"

#include <glib/gi18n-lib.h>

#define SWATCH_ROOM 110.0 /* of the words over its frame */
#define MOST_ROOM 0.25    /* of a page that stays empty for both to stand together */

typedef struct {
  BwFirstSwatch size;
  double points_per_mm; /* at true size, in the units of the page */
  BwUnit unit;
} Frame;

static void
draw_swatch (cairo_t *cr, double width, double height, gpointer data)
{
  const Frame *frame = data;
  const BwFirstSwatch *swatch = &frame->size;
  double wide = swatch->long_mm * frame->points_per_mm;
  double tall = swatch->wide_mm * frame->points_per_mm;
  g_autofree char *length = bw_text_length (swatch->long_mm, frame->unit, 1);
  g_autofree char *breadth = bw_text_length (swatch->wide_mm, frame->unit, 1);
  g_autofree char *along = g_strdup_printf (_ ("%d rows: %s"), swatch->rows, length);
  g_autofree char *across = g_strdup_printf (_ ("%d columns: %s"), swatch->columns, breadth);
  cairo_rectangle (cr, 1, 1, wide, tall);
  cairo_set_source_rgb (cr, BW_ON_PAPER (WASH));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_set_line_width (cr, 0.5);
  cairo_stroke (cr);
  bw_type_draw (cr, BW_TYPE_SMALL, along, 1, tall + 4, 0);
  bw_type_draw (cr, BW_TYPE_SMALL, across, wide + 8, tall / 2 - 4, 0);
}

void
bw_sheet_add_swatch (BwFlow *flow, BwProject *project)
{
  Frame frame = { bw_first_swatch_of (bw_project_get_design (project)),
                  BW_POINTS_PER_MM / flow->sheet->scale, flow->unit };
  g_autofree char *text = g_strdup_printf (
      _ ("Hands differ more than stones do. With the same beads, needle and thread weave %d "
         "columns "
         "and %d rows as the band is woven, lay the piece flat, and measure its length along the "
         "rows and its width across the columns, from edge to edge. Woven as these pages take it, "
         "it "
         "is as large as the frame below; lay yours on it. If it is longer or shorter, measure and "
         "type both into the program, and print these pages again: the count of rows follows your "
         "hands. Yours: ______ %s long, ______ %s wide."),
      frame.size.columns, frame.size.rows, bw_text_unit (flow->unit), bw_text_unit (flow->unit));
  double height = frame.size.wide_mm * frame.points_per_mm + 18;
  bw_flow_heading (flow, _ ("First a swatch"),
                   MIN (SWATCH_ROOM + height, MOST_ROOM * (flow->bottom - flow->top)));
  bw_flow_text (flow, BW_TYPE_TEXT, text);
  bw_flow_figure (flow, height, draw_swatch, &frame);
  bw_flow_space (flow, 4);
}

void
bw_sheet_add_craft (BwFlow *flow)
{
  const char *const told[][2] = {
    { _ ("Thread"),
      _ ("Cut the length told, no more: a long thread frays. Draw it once or twice over a little "
         "wax "
         "or thread conditioner and through two fingers, so that it lies smooth and two passes do "
         "not tangle.") },
    { _ ("Tension"),
      _ ("Pull after every bead, always alike: until the bead sits, and not until the thread "
         "sings. A band that is stiff as a card was pulled too hard, one that shows thread too "
         "little. The measured pitch is that of your pull.") },
    { _ ("A fresh thread"),
      _ ("Change at the end of a row, before the rest is too short to weave in. Weave the new end "
         "in "
         "first, come out where the old one does, go on, and weave the old end in afterwards. No "
         "knots: they stop the needle later.") },
    { _ ("No glue"), _ ("Glue stiffens the band, yellows, and cannot be undone; this one holds by "
                        "its fit. What is "
                        "too loose wants a thicker bed or fewer rows, not glue.") },
    { _ ("Wax and beads"),
      _ ("Wash your hands between winding the bed and threading beads, and keep the cord's wax off "
         "them: it dulls matte glass and clogs holes. A bead that has caught wax is put aside.") },
    { _ ("Cleaning"),
      _ ("Wipe with a soft, barely damp cloth and let the piece dry lying flat. No soaking, no "
         "ultrasound, no solvents: they loosen the bed.") },
    { _ ("Mending"),
      _ ("A broken bead: weave a thread in, bring it to the neighbours, put a new bead in the gap "
         "and "
         "pass on. A worn thread: weave the same path again beside it before it gives. A loose "
         "band: lift it off, wind a thicker bed, and set it again.") },
  };
  bw_flow_heading (flow, _ ("Tools and thread"), 80);
  bw_flow_text (flow, BW_TYPE_SMALL, _ ("Common practice; no published source stands behind it."));
  for (gsize i = 0; i < G_N_ELEMENTS (told); i++) {
    bw_flow_room (flow, 4 * bw_type_height (BW_TYPE_TEXT));
    bw_flow_text (flow, BW_TYPE_BOLD, told[i][0]);
    bw_flow_text (flow, BW_TYPE_TEXT, told[i][1]);
    bw_flow_space (flow, 2);
  }
}
