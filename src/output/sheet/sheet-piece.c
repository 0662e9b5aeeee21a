/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The head of the work sheet: the title in full, the finished piece from two sides, and the few
 * numbers one looks for first. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "core/base/lattice.h"
#include "output/report/report-parts.h"
#include "project/hang-words.h"

#include <glib/gi18n-lib.h>

#define PICTURE_HEIGHT 192.0

typedef struct {
  cairo_surface_t *picture[2];
  gboolean hangs; /* there is a bail to be seen */
} Pictures;

static void
draw_pictures (cairo_t *cr, double width, double height, gpointer data)
{
  const Pictures *pictures = data;
  const char *labels[2]
      = { pictures->hangs ? _ ("the join and the bail") : _ ("the join"), _ ("the other side") };
  double tall = height - 14;
  for (int i = 0; i < 2; i++) {
    if (!pictures->picture[i])
      continue;
    cairo_save (cr);
    cairo_translate (cr, i * width / 2, 0);
    bw_sheet_draw_picture (cr, pictures->picture[i], width / 2, tall);
    cairo_restore (cr);
    bw_type_draw (cr, BW_TYPE_SMALL, labels[i], (i + 0.5) * width / 2, tall + 2, 0.5);
  }
}

/* A long title is set smaller, never cut. */
void
bw_sheet_add_title (BwFlow *flow)
{
  const char *title = flow->sheet->title;
  g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, BW_TYPE_TITLE, title, flow->width);
  int lines = pango_layout_get_line_count (layout), height;
  pango_layout_get_size (layout, NULL, &height);
  if (lines > 2) {
    bw_flow_text (flow, BW_TYPE_BOLD, title);
  } else {
    cairo_set_source_rgb (flow->cr, BW_ON_PAPER (PRINT));
    cairo_move_to (flow->cr, flow->left, flow->y);
    pango_cairo_show_layout (flow->cr, layout);
    flow->y += pango_units_to_double (height) + 2;
  }
  bw_flow_text (flow, BW_TYPE_SMALL, flow->sheet->date);
}

static char *
band_sentence (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  return g_strdup_printf (
      _ ("A band of even-count peyote stitch, %d columns wide and %d rows long (%d beads round the "
         "stone), of %s beads, from %.1f mm to %.1f mm above the base of the stone."),
      design->band.columns, design->band.rows, bw_lattice_beads_around (design->band.rows),
      *design->bead.name ? design->bead.name : _ ("cylinder"), design->band.bottom_mm,
      design->band.bottom_mm + bw_design_span (design).width_mm);
}

static char *
hang_sentence (BwProject *project)
{
  const BwHang *hang = bw_project_hang (project);
  if (!hang->has_bail)
    return g_strdup_printf (_ ("The finished piece weighs about %.0f g. It has no bail."),
                            hang->mass_g);
  g_autofree char *opening = bw_text_mm (hang->loop.opening_mm, 1);
  g_autofree char *cord = bw_text_mm (hang->loop.largest_cord_mm, 1);
  g_autofree char *how = bw_hang_words (hang->level ? BW_UP_LEVEL : hang->up, hang->tilt_deg);
  /* Translators: grams; how it hangs ("nearly level, tip 6° low"); the opening; the cord. */
  return g_strdup_printf (
      _ ("The finished piece weighs about %.0f g. It hangs %s. The opening of its bail "
         "is %s, for a cord of up to %s."),
      hang->mass_g, how, opening, cord);
}

/* What is doubtful is said on top, before any thread is cut. */
static void
add_warnings (BwFlow *flow, BwProject *project)
{
  g_auto (GStrv) warnings = bw_project_warnings (project, BW_UNIT_MM);
  for (char **warning = warnings; *warning; warning++)
    bw_flow_item (flow, "!", *warning, 12);
}

void
bw_sheet_add_piece (BwFlow *flow, BwProject *project, cairo_surface_t *front, cairo_surface_t *back)
{
  Pictures pictures = { { front, back }, bw_project_hang (project)->has_bail };
  g_autofree char *band = band_sentence (project), *hang = hang_sentence (project);
  bw_sheet_add_title (flow);
  if (front || back)
    bw_flow_figure (flow, PICTURE_HEIGHT, draw_pictures, &pictures);
  bw_flow_space (flow, 4);
  bw_flow_text (flow, BW_TYPE_TEXT, band);
  bw_flow_text (flow, BW_TYPE_TEXT, hang);
  add_warnings (flow, project);
}
