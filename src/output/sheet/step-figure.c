/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pen goes where the layout says and decides nothing but how a thing looks. */
#include "config.h"

#include "output/sheet/step-figure.h"

#include "core/pattern/tint.h"
#include "output/page/page.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static void
cross_out (cairo_t *cr, double x, double y, double width, double height)
{
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_set_line_width (cr, 0.8);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + width, y + height);
  cairo_move_to (cr, x + width, y);
  cairo_line_to (cr, x, y + height);
  cairo_stroke (cr);
}

static void
draw_bead (cairo_t *cr, const BwStepBead *bead)
{
  static const BwTint fills[] = { [BW_BEAD_THERE] = BW_TINT_SHEET,
                                  [BW_BEAD_LEFT] = BW_TINT_SHEET,
                                  [BW_BEAD_PASSED] = BW_TINT_WASH,
                                  [BW_BEAD_NEW] = BW_TINT_SHADE };
  double x = bead->x + 0.4, y = bead->y + 0.4;
  double width = bead->width - 0.8, height = bead->height - 0.8;
  gboolean visited = bead->role != BW_BEAD_THERE;
  cairo_rectangle (cr, x, y, width, height);
  cairo_set_source_rgb (cr, BW_TINT_RGB (fills[bead->role], FALSE));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_TINT_RGB (visited ? BW_TINT_INK : BW_TINT_HAIR, FALSE));
  cairo_set_line_width (cr, visited ? 0.7 : 0.4);
  cairo_stroke (cr);
  if (bead->full)
    cross_out (cr, x, y, width, height);
}

static void
draw_beads (cairo_t *cr, const BwStepLayout *layout, gboolean in_bail)
{
  for (guint i = 0; i < layout->beads->len; i++) {
    const BwStepBead *bead = &g_array_index (layout->beads, BwStepBead, i);
    if (!bead->in_bail == !in_bail)
      draw_bead (cr, bead);
  }
}

/* Two jagged lines, between which something is left out. */
static void
draw_cut (cairo_t *cr, const BwStepLayout *layout)
{
  const double step = 5, deep = 1.4;
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (cr, 0.5);
  for (int side = 0; side < 2; side++) {
    int n = (int)(layout->width / step);
    for (int i = 0; i <= n; i++)
      cairo_line_to (cr, i * step, layout->cut_y[side] + (i % 2 ? deep : -deep));
    cairo_stroke (cr);
  }
}

/* How much smaller a name must be set, not to touch the next one. */
static double
shrunk (cairo_t *cr, const BwStepLabel *label)
{
  g_autoptr (PangoLayout) text = bw_type_layout (cr, BW_TYPE_TINY, label->text, 0);
  int width, height;
  pango_layout_get_size (text, &width, &height);
  double wide = pango_units_to_double (width), tall = pango_units_to_double (height);
  return MIN (1, label->is_row ? label->room / wide : label->room / tall);
}

static void
draw_label (cairo_t *cr, const BwStepLabel *label, double scale)
{
  cairo_save (cr);
  cairo_translate (cr, label->x, label->y);
  cairo_scale (cr, scale, scale);
  bw_type_draw (cr, BW_TYPE_TINY, label->text, 0, -bw_type_height (BW_TYPE_TINY) / 2, label->align);
  cairo_restore (cr);
}

static void
draw_labels (cairo_t *cr, const BwStepLayout *layout)
{
  double scale = 1;
  for (guint i = 0; i < layout->labels->len; i++)
    scale = MIN (scale, shrunk (cr, &g_array_index (layout->labels, BwStepLabel, i)));
  for (guint i = 0; i < layout->labels->len; i++)
    draw_label (cr, &g_array_index (layout->labels, BwStepLabel, i), scale);
  if (layout->band_name.y <= 0)
    return;
  bw_type_draw (cr, BW_TYPE_TINY_BOLD, _ ("band"), layout->band_name.x, layout->band_name.y, 0.5);
  bw_type_draw (cr, BW_TYPE_TINY_BOLD, _ ("bail"), layout->bail_name.x, layout->bail_name.y, 0.5);
}

static void
draw_line (cairo_t *cr, const GArray *points)
{
  for (guint i = 0; i < points->len; i++) {
    BwVec2 at = g_array_index (points, BwVec2, i);
    cairo_line_to (cr, at.x, at.y);
  }
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
}

static void
draw_thread (cairo_t *cr, const BwStepLayout *layout)
{
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (cr, 0.7);
  for (guint i = 0; i < layout->sewn->len; i++)
    draw_line (cr, g_array_index (layout->sewn, GArray *, i));
  cairo_set_source_rgb (cr, BW_ON_PAPER (RUST));
  cairo_set_line_width (cr, 1.1);
  draw_line (cr, layout->thread);
}

/* The tail of the very beginning, with the stopper bead on it. */
static void
draw_stopper (cairo_t *cr, BwVec2 from)
{
  BwVec2 at = bw_vec2 (from.x + 22, from.y + 6);
  cairo_move_to (cr, from.x, from.y);
  cairo_curve_to (cr, from.x, from.y + 6, at.x - 12, at.y, at.x + 14, at.y);
  cairo_set_line_width (cr, 1.1);
  cairo_stroke (cr);
  cairo_arc (cr, at.x, at.y, 3.6, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_set_line_width (cr, 1.4);
  cairo_stroke (cr);
}

/* Two short strokes across the thread: it goes on beyond the drawing. */
static void
draw_break (cairo_t *cr, const GArray *thread)
{
  BwVec2 end = g_array_index (thread, BwVec2, thread->len - 1);
  for (int i = 0; i < 2; i++) {
    cairo_move_to (cr, end.x - 3.5, end.y + 1.2 + 2.2 * (i - 0.5));
    cairo_line_to (cr, end.x + 3.5, end.y - 1.2 + 2.2 * (i - 0.5));
  }
  cairo_set_source_rgb (cr, BW_ON_PAPER (RUST));
  cairo_set_line_width (cr, 0.8);
  cairo_stroke (cr);
}

/* A small head in every bead tells the way. */
static void
draw_head (cairo_t *cr, const BwStepPass *pass, double size)
{
  BwVec2 way = bw_vec2_sub (pass->out, pass->in);
  way = bw_vec2_scale (way, size / bw_vec2_length (way));
  BwVec2 middle = bw_vec2_scale (bw_vec2_add (pass->in, pass->out), 0.5);
  BwVec2 tip = bw_vec2_add (middle, way);
  BwVec2 back = bw_vec2_sub (tip, bw_vec2_scale (way, 1.8));
  cairo_move_to (cr, tip.x, tip.y);
  cairo_line_to (cr, back.x + way.y, back.y - way.x);
  cairo_line_to (cr, back.x - way.y, back.y + way.x);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* The number of a link stands beside the thread in its bead, that of a second pass on the other
 * side. */
static void
draw_link (cairo_t *cr, const BwStepPass *pass, double unit)
{
  g_autofree char *number = g_strdup_printf ("%d", pass->link);
  BwVec2 middle = bw_vec2_scale (bw_vec2_add (pass->in, pass->out), 0.5);
  gboolean across = fabs (pass->out.x - pass->in.x) > fabs (pass->out.y - pass->in.y);
  double scale = MIN (1, unit / 7), beside = (pass->earlier > 0 ? 0.45 : -0.6) * unit;
  cairo_save (cr);
  cairo_translate (cr, middle.x + (across ? 0 : beside), middle.y + (across ? beside : 0));
  cairo_scale (cr, scale, scale);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  bw_type_draw (cr, BW_TYPE_TINY_BOLD, number, 0, -3.8, 0.5);
  cairo_restore (cr);
}

static void
draw_passes (cairo_t *cr, const BwStepLayout *layout)
{
  for (guint i = 0; i < layout->passes->len; i++) {
    const BwStepPass *pass = &g_array_index (layout->passes, BwStepPass, i);
    double length = bw_vec2_length (bw_vec2_sub (pass->out, pass->in));
    cairo_set_source_rgb (cr, BW_ON_PAPER (RUST));
    draw_head (cr, pass, MIN (2.8, 0.3 * length));
    if (pass->link > 0)
      draw_link (cr, pass, layout->unit);
  }
}

/* A dot where the thread comes out of a bead; a ring at the end of a fresh one. */
static void
draw_begin (cairo_t *cr, const BwStepLayout *layout)
{
  BwVec2 at = g_array_index (layout->thread, BwVec2, 0);
  cairo_set_source_rgb (cr, BW_ON_PAPER (RUST));
  if (layout->begin == BW_BEGIN_STOPPER) {
    draw_stopper (cr, at);
    return;
  }
  cairo_arc (cr, at.x, at.y, layout->begin == BW_BEGIN_BEAD ? 2.4 : 2, 0, 2 * G_PI);
  if (layout->begin == BW_BEGIN_BEAD) {
    cairo_fill (cr);
    return;
  }
  cairo_set_line_width (cr, 0.8);
  cairo_stroke (cr);
}

void
bw_step_draw (cairo_t *cr, const BwStepLayout *layout)
{
  draw_beads (cr, layout, FALSE);
  if (layout->is_cut)
    draw_cut (cr, layout);
  draw_beads (cr, layout, TRUE);
  draw_labels (cr, layout);
  draw_thread (cr, layout);
  draw_passes (cr, layout);
  draw_begin (cr, layout);
  if (layout->in_part)
    draw_break (cr, layout->thread);
  cairo_new_path (cr);
}
