/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Winding the bed: where it begins and ends, how many turns, and how one judges it. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "output/sheet/sheet-facts.h"
#include "output/words/bed-words.h"
#include "core/base/tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define FIGURE_HEIGHT 108.0
#define MOST_TURNS_DRAWN 60
#define MOST_HALF 60.0  /* of the stone's width as drawn, points */
#define NOTES_AWAY 26.0 /* from the stone to the notes beside it */
#define LAYER_OUT 3.0   /* how far each layer stands out, points */
#define NOTE_APART 11.0 /* from one note to the next */
#define MOST_OFF_MM 1   /* a bed may be, before it is worth typing */

typedef struct {
  const BwDesign *design;
  BwUnit unit;
  BwBedFacts facts;
} Bed;

/* A line from the drawing to what lies at its height, which is written beyond its far end, at
 * another height where another note stands. */
static void
bent_note (cairo_t *cr, double y, double near, double far, double text_y, const char *value,
           const char *what)
{
  /* Translators: an edge, its height. */
  g_autofree char *text = g_strdup_printf (_ ("%s: %s"), what, value);
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (cr, 0.4);
  cairo_move_to (cr, near, y);
  cairo_line_to (cr, far, text_y);
  cairo_stroke (cr);
  bw_type_draw (cr, BW_TYPE_SMALL, text, far > near ? far + 3 : far - 3, text_y - 5,
                far > near ? 0 : 1);
}

static void
edge_note (cairo_t *cr, const Bed *bed, double y, double near, double far, double z,
           const char *what)
{
  g_autofree char *value = bw_text_length (z, bed->unit, 1);
  bent_note (cr, y, near, far, y, value, what);
}

static void
draw_turns (cairo_t *cr, int turns, double left, double right, double y_low, double y_high)
{
  int n = CLAMP (turns, 1, MOST_TURNS_DRAWN);
  double step = (y_low - y_high) / n;
  cairo_save (cr);
  cairo_rectangle (cr, left, y_high, right - left, y_low - y_high);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHADE));
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  cairo_new_path (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (cr, 0.5);
  for (int i = 0; i <= n; i++) {
    double y = y_low - i * step;
    cairo_move_to (cr, left, y);
    cairo_line_to (cr, right, y - step);
  }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* Where a layer begins or ends within the bed, below or above the notes of the bed's own edges. */
static double
clear_of (double y, double y_low, double y_high)
{
  if (y_low - y < NOTE_APART)
    return y_low - NOTE_APART;
  return y - y_high < NOTE_APART ? y_high + NOTE_APART : y;
}

/* Layer on layer, each standing out a little more; one that does not reach from edge to edge says
 * where it begins or ends. */
static void
draw_layers (cairo_t *cr, const Bed *bed, double left, double right, double base, double scale)
{
  const BwBedFacts *facts = &bed->facts;
  double y_low = base - facts->low_mm * scale, y_high = base - facts->high_mm * scale;
  for (int i = 0; i < facts->n_layers; i++) {
    const BwBedLayer *layer = &facts->layer[i];
    double out = LAYER_OUT * (i + 1);
    draw_turns (cr, layer->turns, left - out, right + out, base - layer->low_mm * scale,
                base - layer->high_mm * scale);
    gboolean begins = layer->low_mm > facts->low_mm + BW_ROUNDING_MM;
    gboolean ends = layer->high_mm < facts->high_mm - BW_ROUNDING_MM;
    if (!begins && !ends)
      continue;
    double z = begins ? layer->low_mm : layer->high_mm, y = base - z * scale;
    g_autofree char *value = bw_text_length (z, bed->unit, 1);
    g_autofree char *what
        = g_strdup_printf (begins ? _ ("layer %d from") : _ ("layer %d up to"), i + 1);
    bent_note (cr, y, right + out, right + 24, clear_of (y, y_low, y_high), value, what);
  }
}

/* How wide the names of the band's edges are set, to the left of the drawing. */
static double
widest_note (cairo_t *cr, BwBandSpan span, BwUnit unit)
{
  const char *names[] = { _ ("band, lower edge"), _ ("band, upper edge") };
  double widest = 0;
  g_autofree char *value = bw_text_length (span.bottom_mm + span.width_mm, unit, 1);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++) {
    int wide;
    g_autofree char *text = g_strdup_printf (_ ("%s: %s"), names[i], value);
    g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, text, 0);
    pango_layout_get_size (layout, &wide, NULL);
    widest = MAX (widest, pango_units_to_double (wide));
  }
  return widest;
}

static void
draw_bed (cairo_t *cr, double width, double height, gpointer data)
{
  const Bed *bed = data;
  BwBandSpan span = bw_design_span (bed->design);
  double top = span.bottom_mm + span.width_mm, margin = 0.2 * span.width_mm;
  double scale = (height - 20) / (span.width_mm + 2 * margin);
  double half = MIN (MOST_HALF, width / 2 - widest_note (cr, span, bed->unit) - NOTES_AWAY);
  double left = width / 2 - half, right = width / 2 + half;
  double base = height - 10 + (span.bottom_mm - margin) * scale;
  cairo_rectangle (cr, left, 4, right - left, height - 8);
  cairo_set_source_rgb (cr, BW_ON_PAPER (WASH));
  cairo_fill (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_set_line_width (cr, 0.9);
  for (int i = 0; i < 2; i++) {
    cairo_move_to (cr, i ? right : left, 4);
    cairo_rel_line_to (cr, 0, height - 8);
  }
  cairo_stroke (cr);
  draw_layers (cr, bed, left, right, base, scale);
  edge_note (cr, bed, base - bed->facts.low_mm * scale, right + 4, right + 24, bed->facts.low_mm,
             _ ("first turn"));
  edge_note (cr, bed, base - bed->facts.high_mm * scale, right + 4, right + 24, bed->facts.high_mm,
             _ ("last turn"));
  cairo_set_dash (cr, (double[]){ 3, 2 }, 2, 0);
  edge_note (cr, bed, base - span.bottom_mm * scale, left - 2, left - 22, span.bottom_mm,
             _ ("band, lower edge"));
  edge_note (cr, bed, base - top * scale, left - 2, left - 22, top, _ ("band, upper edge"));
  cairo_set_dash (cr, NULL, 0, 0);
  bw_type_draw (cr, BW_TYPE_SMALL, _ ("tip ↑"), (left + right) / 2, 3, 0.5);
  bw_type_draw (cr, BW_TYPE_SMALL, _ ("base ↓"), (left + right) / 2, height - 13, 0.5);
}

static void
add_cut (BwFlow *flow, const Bed *bed)
{
  const BwDesign *design = bed->design;
  g_autofree char *cord = bw_cut_words (bed->facts.cord_mm, bed->unit);
  g_autofree char *wide = bw_length_format (design->bed.cord_width_mm, bed->unit, 2);
  g_autofree char *thick = bw_length_format (design->bed.cord_thickness_mm, bed->unit, 2);
  g_autofree char *held = bw_text_length (BW_BED_HELD_MM, bed->unit, 0);
  g_autofree char *text = g_strdup_printf (
      _ ("Cut %s of waxed cord, %s wide and %s thick. Mark the height of the first and the "
         "last turn on the stone. Hold the first %s up along the stone, where the join should "
         "be, and begin at the lower mark, over it."),
      cord, wide, thick, held);
  bw_flow_item (flow, "1", text, 14);
}

static char *
even_words (const Bed *bed)
{
  int layers = bed->design->bed.layers;
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "Wind %d even layer of about %d turns, side by side, firmly, no turn over "
                   "another.",
                   "Wind %d even layers of about %d turns, side by side and firmly, each layer "
                   "back over the one before.",
                   (gulong)layers),
      layers, bed->facts.turns);
}

static void
add_layers (BwFlow *flow, BwProject *project, const Bed *bed)
{
  gboolean graded = bw_bed_is_graded (&bed->design->bed);
  g_autofree char *words = graded ? bw_bed_grade_words (project, bed->unit) : even_words (bed);
  bw_flow_item (flow, "2", words, 14);
}

static void
add_ends (BwFlow *flow)
{
  bw_flow_item (flow, "3",
                _ ("Lead the end back under the last turns with a needle or a loop of thread, pull "
                   "it tight and cut both ends off where they come out. The bed stays a little "
                   "inside the edges of the band, so that it does not show."),
                14);
}

static void
add_check (BwFlow *flow, const Bed *bed)
{
  if (bed->facts.over_mm <= 0)
    return;
  g_autofree char *mid = bw_text_length (bed->facts.mid_mm, bed->unit, 1);
  g_autofree char *over = bw_text_length (bed->facts.over_mm, bed->unit, 1);
  g_autofree char *bare = bw_text_length (bed->facts.bare_mm, bed->unit, 1);
  g_autofree char *most = bw_text_length (MOST_OFF_MM, bed->unit, bed->unit == BW_UNIT_MM ? 0 : 1);
  g_autofree char *text = g_strdup_printf (
      _ ("Check: half way up the band, at %s, a paper strip round the bed should measure %s (the "
         "stone alone measures %s there). Write here what it does measure: ________ %s, and put it "
         "into the project if it differs by more than %s."),
      mid, over, bare, bw_text_unit (bed->unit), most);
  bw_flow_item (flow, "4", text, 14);
}

void
bw_sheet_add_bed (BwFlow *flow, BwProject *project)
{
  Bed bed = { bw_project_get_design (project), flow->unit, bw_bed_facts_of (project) };
  if (bed.facts.cord_mm <= 0)
    return;
  bw_flow_heading (flow, _ ("Winding the bed"), FIGURE_HEIGHT + 40);
  bw_flow_figure (flow, FIGURE_HEIGHT, draw_bed, &bed);
  bw_flow_space (flow, 4);
  add_cut (flow, &bed);
  add_layers (flow, project, &bed);
  add_ends (flow);
  add_check (flow, &bed);
}
