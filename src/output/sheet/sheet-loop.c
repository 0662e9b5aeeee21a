/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bail seen along its opening: how it arches off the band and what goes through. The arc is the
 * core's own; the flat drawings of the steps cannot show it. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/report/report-parts.h"
#include "core/base/tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define FIGURE_HEIGHT 112.0
#define LEAST_SHARE 0.7 /* of it, where that keeps the drawing on the page */
#define GAP 24.0        /* between the drawing and its words */
#define WORDS_TOP 10.0
#define LEAST_WORDS 240.0 /* width of the words beside the drawing */
#define OVER_HEIGHT 150.0 /* the stone is drawn as well */
#define WIDE 190.0        /* of the drawing; the words stand beside it */
#define BESIDE 3          /* beads of the band shown beyond the base on either side */
#define BELOW 3           /* columns of the band shown below its upper edge */
#define STEPS 32          /* heights at which the stone's outline is drawn */

typedef struct {
  const BwDesign *design;
  const BwStone *stone;
  const BwHang *hang;
  const BwLoop *loop;
  BwUnit unit;
  double scale, x0, y0; /* points a millimetre; where the middle of the base lies */
} Arch;

/* A bead from its end. */
static void
draw_end (cairo_t *cr, const Arch *arch, double x, double y, BwTint fill)
{
  double radius = arch->design->bead.diameter_mm / 2, hole = arch->design->bead.hole_mm / 2;
  double px = arch->x0 + x * arch->scale, py = arch->y0 - y * arch->scale;
  cairo_new_sub_path (cr);
  cairo_arc (cr, px, py, radius * arch->scale, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, BW_TINT_RGB (fill, FALSE));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_set_line_width (cr, 0.6);
  cairo_stroke (cr);
  cairo_arc (cr, px, py, hole * arch->scale, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_fill (cr);
}

static void
draw_box (cairo_t *cr, const Arch *arch, double x, double y, double wide_mm, double high_mm)
{
  double wide = wide_mm * arch->scale, high = high_mm * arch->scale;
  cairo_rectangle (cr, arch->x0 + x * arch->scale - wide / 2, arch->y0 - y * arch->scale - high / 2,
                   wide, high);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHADE));
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_set_line_width (cr, 0.6);
  cairo_stroke (cr);
}

/* A bead from its side. */
static void
draw_side (cairo_t *cr, const Arch *arch, double x, double y)
{
  draw_box (cr, arch, x, y, arch->design->bead.length_mm, arch->design->bead.diameter_mm);
}

static void
draw_upright_bead (cairo_t *cr, const Arch *arch, double x, double y)
{
  draw_box (cr, arch, x, y, arch->design->bead.diameter_mm, arch->design->bead.length_mm);
}

/* From bead to bead of the band under the bail: an upright strip stands along the holes. */
static double
ground_step (const Arch *arch)
{
  const BwGauge *gauge = &arch->design->gauge;
  return arch->design->bail.style == BW_BAIL_UPRIGHT ? gauge->column_mm : gauge->pitch_mm;
}

/* The band under the bail, drawn straight: beads one behind the other. */
static void
draw_ground (cairo_t *cr, const Arch *arch)
{
  double step = ground_step (arch), half = arch->loop->base_mm / 2;
  double end = half + BESIDE * step, low = arch->design->bead.diameter_mm / 2;
  gboolean upright = arch->design->bail.style == BW_BAIL_UPRIGHT;
  for (double x = -end; x <= end + BW_ROUNDING_MM; x += step) {
    if (upright)
      draw_side (cr, arch, x, 0);
    else
      draw_end (cr, arch, x, 0, BW_TINT_SHADE);
  }
  double left = arch->x0 - (end + low) * arch->scale, right = arch->x0 + (end + low) * arch->scale;
  double y = arch->y0 + low * arch->scale;
  cairo_rectangle (cr, left, y, right - left, 5);
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_fill (cr);
  cairo_rectangle (cr, left, y + 5, right - left, 12);
  cairo_set_source_rgb (cr, BW_ON_PAPER (WASH));
  cairo_fill (cr);
  bw_type_draw (cr, BW_TYPE_TINY, _ ("bed, stone"), arch->x0, y + 7, 0.5);
}

static gboolean
is_over (const Arch *arch)
{
  return arch->design->bail.style == BW_BAIL_OVER;
}

/* How far the stone reaches to one side of the middle of the base at a height over the edge. */
static double
stone_reach (const Arch *arch, double height, int side)
{
  const BwBailFrame *frame = &arch->hang->frame;
  BwSection section;
  double most = -INFINITY;
  bw_section_init (&section, arch->stone, frame->middle.z + height);
  for (int i = 0; i < section.edges; i++) {
    BwVec2 from = { section.corner[i].x - frame->middle.x, section.corner[i].y - frame->middle.y };
    most = MAX (most, side * bw_vec2_dot (from, bw_vec2 (frame->along.x, frame->along.y)));
  }
  return side * most;
}

/* What a loop over the tip stands on: the band's upper columns at either foot, and the stone
 * between them. */
static void
draw_edge (cairo_t *cr, const Arch *arch)
{
  double below = BELOW * arch->design->gauge.column_mm;
  double above = arch->stone->length_mm - arch->hang->frame.middle.z;
  for (int i = 0; i <= 2 * STEPS + 1; i++) {
    int side = i <= STEPS ? 1 : -1, step = i <= STEPS ? i : 2 * STEPS + 1 - i;
    double y = -below + (above + below) * step / STEPS;
    cairo_line_to (cr, arch->x0 + stone_reach (arch, y, side) * arch->scale,
                   arch->y0 - y * arch->scale);
  }
  cairo_close_path (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (WASH));
  cairo_fill (cr);
  for (int foot = -1; foot <= 1; foot += 2)
    for (int k = 0; k < BELOW; k++)
      draw_upright_bead (cr, arch, foot * arch->loop->base_mm / 2,
                         -(k + 0.5) * arch->design->gauge.column_mm);
  bw_type_draw (cr, BW_TYPE_TINY, _ ("stone"), arch->x0, arch->y0 - 4, 0.5);
}

static void
draw_arc (cairo_t *cr, const Arch *arch)
{
  const BwLoop *loop = arch->loop;
  int rows = arch->design->bail.rows;
  double r = loop->radius_mm, phi = loop->half_angle;
  /* Odd rows lie in front: their columns come first, seen from the edge of the bail. */
  for (int front = 0; front < 2; front++)
    for (int row = front ? 1 : 2; row <= rows; row += 2) {
      double angle = -phi + 2 * phi * row / (rows + 1);
      draw_end (cr, arch, r * sin (angle), r * (cos (angle) - cos (phi)),
                front ? BW_TINT_SHADE : BW_TINT_WASH);
    }
}

/* The hanging cord, or the ring's wire, where it pulls. */
static void
draw_cord (cairo_t *cr, const Arch *arch)
{
  double radius = arch->design->bail.cord_mm / 2, bead = arch->design->bead.diameter_mm / 2;
  double top = arch->loop->radius_mm * (1 - cos (arch->loop->half_angle)) - bead;
  if (arch->design->bail.cord_mm > arch->loop->opening_mm || radius <= 0)
    return;
  cairo_new_sub_path (cr);
  cairo_arc (cr, arch->x0, arch->y0 - (top - radius) * arch->scale, radius * arch->scale, 0,
             2 * G_PI);
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_fill (cr);
}

static char *
what_over_shows (const Arch *arch)
{
  const BwBail *bail = &arch->design->bail;
  g_autofree char *opening = bw_text_length (arch->loop->opening_mm, arch->unit, 1);
  g_autofree char *cord = bw_text_length (arch->loop->largest_cord_mm, arch->unit, 1);
  g_autofree char *base = bw_text_length (arch->loop->base_mm, arch->unit, 1);
  return g_strdup_printf (
      _ ("Seen from the side, along the cord. The %d rows stand on the upper edge "
         "of the band and come back to it %s farther, over the tip. Between tip "
         "and loop there is room %s high, for a cord of up to %s (dark). The "
         "cord can go in afterwards."),
      bail->rows, base, opening, cord);
}

static char *
what_it_shows (const Arch *arch)
{
  const BwBail *bail = &arch->design->bail;
  g_autofree char *opening = bw_text_length (arch->loop->opening_mm, arch->unit, 1);
  g_autofree char *cord = bw_text_length (arch->loop->largest_cord_mm, arch->unit, 1);
  if (arch->loop->opening_mm <= 0)
    return g_strdup (_ ("Nothing passes through this loop: it wants more rows."));
  if (is_over (arch))
    return what_over_shows (arch);
  const char *seen = bail->style == BW_BAIL_UPRIGHT ? _ ("Seen from the side, along the opening.")
                                                    : _ ("Seen from the tip, along the opening.");
  const char *holds = bail->style == BW_BAIL_RING
                          ? _ ("Put the ring in before the last row is sewn to the band.")
                          : _ ("The cord can go in afterwards.");
  /* Translators: from where it is seen, rows, the opening, the cord, what to mind. */
  return g_strdup_printf (_ ("%s The %d rows arch off the band; the first is worked into it, the "
                             "last is sewn to it, %g beads further on. The opening is %s high, "
                             "room for a cord of up to %s (dark). %s"),
                          seen, bail->rows, bail->base_beads, opening, cord, holds);
}

/* Whether the words go beside the drawing, and not below it. */
static gboolean
is_wide (double width)
{
  return width > WIDE + GAP + LEAST_WORDS;
}

static void
draw_loop (cairo_t *cr, double width, double height, gpointer data)
{
  Arch *arch = data;
  const BwLoop *loop = arch->loop;
  double bead = arch->design->bead.diameter_mm;
  double high = loop->radius_mm * (1 - cos (loop->half_angle)) + bead;
  double half = loop->half_angle > G_PI / 2 ? loop->radius_mm : loop->base_mm / 2;
  double below = is_over (arch) ? BELOW * arch->design->gauge.column_mm : bead / 2;
  double foot = is_over (arch) ? 2 : 18; /* room for stone and bed beneath the beads */
  double beside = is_over (arch) ? 0 : BESIDE * ground_step (arch);
  double wide = 2 * MAX (half, loop->base_mm / 2 + beside) + 2 * bead;
  high += below - bead / 2;
  arch->scale = MIN ((height - 4 - foot) / high, WIDE / wide);
  arch->x0 = WIDE / 2;
  arch->y0 = height - foot - below * arch->scale;
  if (is_over (arch))
    draw_edge (cr, arch);
  draw_cord (cr, arch);
  if (!is_over (arch))
    draw_ground (cr, arch);
  draw_arc (cr, arch);
  if (!is_wide (width))
    return;
  g_autofree char *text = what_it_shows (arch);
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_TEXT, text, width - WIDE - GAP);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_move_to (cr, WIDE + GAP, WORDS_TOP);
  pango_cairo_show_layout (cr, layout);
}

void
bw_sheet_add_loop (BwFlow *flow, BwProject *project)
{
  const BwHang *hang = bw_project_hang (project);
  Arch arch = { .design = bw_project_get_design (project),
                .stone = bw_project_stone (project),
                .hang = hang,
                .loop = &hang->loop,
                .unit = flow->unit };
  if (!hang->has_bail)
    return;
  double most = is_over (&arch) ? OVER_HEIGHT : FIGURE_HEIGHT;
  bw_flow_figure (flow, CLAMP (bw_flow_left_over (flow), LEAST_SHARE * most, most), draw_loop,
                  &arch);
  bw_flow_space (flow, 4);
  if (is_wide (flow->width))
    return;
  g_autofree char *text = what_it_shows (&arch);
  bw_flow_text (flow, BW_TYPE_TEXT, text);
}
