/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawn in the plane of the stone's axis and the bail: first with the axis up and the bail to the
 * right, then turned about the point it hangs by until it is at rest. */
#include "config.h"

#include "app/hang/hang-sketch.h"
#include "app/hang/hang-cards.h"
#include "app/form/band-outline.h"
#include "app/form/stone-outline.h"
#include "core/base/tolerance.h"

#include <glib/gi18n-lib.h>

struct _BwHangSketch {
  BwSketch parent_instance;
};

G_DEFINE_FINAL_TYPE (BwHangSketch, bw_hang_sketch, BW_TYPE_SKETCH)

/* One drawing in the making. */
typedef struct {
  BwSketch *sketch;
  cairo_t *cr;
  const BwPalette *palette;
  BwProject *project;
  const BwDesign *design;
  const BwStone *stone;
  const BwHang *hang;
  double azimuth; /* what points to the right, degrees */
  double turn;    /* radians */
  BwVec2 pivot;   /* mm, before turning: x to the right, y = z */
  double x, y;    /* of the pivot, pixels */
  double scale;
} Paper;

double
bw_hang_sketch_azimuth (const BwHang *hang, const BwBail *bail)
{
  if (!hang->has_bail || bail->style != BW_BAIL_OVER)
    return bail->at_deg;
  const BwBailFrame *frame = &hang->frame;
  BwVec3 off = bw_vec3_sub (hang->pivot, hang->centroid);
  double within = fabs (bw_vec3_dot (off, frame->along)), aside = bw_vec3_dot (off, frame->columns);
  /* A hair of lean either way is no reason to turn the picture round. */
  BwVec3 right
      = within + BW_ROUNDING_MM >= fabs (aside) ? frame->along : bw_vec3_scale (frame->columns, -1);
  return bw_degrees (atan2 (right.y, right.x));
}

double
bw_hang_sketch_turn (const BwHang *hang, const BwBail *bail)
{
  if (!hang->has_bail)
    return 0;
  if (bail->style == BW_BAIL_FLAP) {
    double tilt = hang->level ? 90 : hang->tilt_deg;
    return bw_radians (hang->up == BW_UP_BASE ? 180 - tilt : tilt);
  }
  BwVec2 pivot = { hang->pivot.x, hang->pivot.y }, centre = { hang->centroid.x, hang->centroid.y };
  double across = bw_outline_x (bw_vec2_sub (pivot, centre), bw_hang_sketch_azimuth (hang, bail));
  return G_PI / 2 - atan2 (hang->pivot.z - hang->centroid.z, across);
}

/* Stone coordinates on the paper, relative to the pivot and turned, in mm. */
static BwVec2
turned (const Paper *paper, double x_mm, double z_mm)
{
  BwVec2 d = { x_mm - paper->pivot.x, z_mm - paper->pivot.y };
  double c = cos (paper->turn), s = sin (paper->turn);
  return bw_vec2 (c * d.x - s * d.y, s * d.x + c * d.y);
}

static void
to_pixels (const Paper *paper, double x_mm, double z_mm, double *x, double *y)
{
  BwVec2 at = turned (paper, x_mm, z_mm);
  *x = paper->x + at.x * paper->scale;
  *y = paper->y - at.y * paper->scale;
}

static void
ink (const Paper *paper, const GdkRGBA *colour, double width)
{
  gdk_cairo_set_source_rgba (paper->cr, colour);
  cairo_set_line_width (paper->cr, width);
}

/* Paths drawn between these two are in stone coordinates; lines keep their width. */
static void
enter_stone (const Paper *paper)
{
  cairo_save (paper->cr);
  cairo_translate (paper->cr, paper->x, paper->y);
  cairo_scale (paper->cr, paper->scale, -paper->scale);
  cairo_rotate (paper->cr, paper->turn);
  cairo_translate (paper->cr, -paper->pivot.x, -paper->pivot.y);
  cairo_new_path (paper->cr);
}

static void
leave_stone (const Paper *paper, const GdkRGBA *fill, const GdkRGBA *line, double width)
{
  cairo_restore (paper->cr);
  gdk_cairo_set_source_rgba (paper->cr, fill);
  cairo_fill_preserve (paper->cr);
  ink (paper, line, width);
  cairo_stroke (paper->cr);
}

static void
draw_stone (const Paper *paper)
{
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.10);
  enter_stone (paper);
  bw_outline_stone_path (paper->cr, paper->stone, paper->azimuth);
  leave_stone (paper, &fill, &paper->palette->ink, 1.4);
}

static void
draw_band (const Paper *paper)
{
  enter_stone (paper);
  bw_outline_band (paper->cr, paper->project, paper->azimuth, 1 / paper->scale);
  cairo_restore (paper->cr);
}

/* A loop over the tip: the arc it is, or a bar from the edge to the crest. */
static void
draw_over (const Paper *paper)
{
  const BwLoop *loop = &paper->hang->loop;
  const BwBailFrame *frame = &paper->hang->frame;
  double azimuth = bw_radians (paper->azimuth), d = paper->design->bead.diameter_mm;
  double x = bw_outline_x (bw_vec2 (frame->middle.x, frame->middle.y), paper->azimuth);
  double half = paper->design->bail.columns * paper->design->gauge.column_mm / 2;
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.8), none = bw_palette_alpha (fill, 0);
  enter_stone (paper);
  if (fabs (frame->along.x * cos (azimuth) + frame->along.y * sin (azimuth)) < 0.5) {
    cairo_rectangle (paper->cr, x - half, frame->middle.z, 2 * half,
                     paper->pivot.y + d - frame->middle.z);
    leave_stone (paper, &fill, &paper->palette->ink, 1);
    return;
  }
  cairo_arc (paper->cr, x, frame->middle.z - loop->radius_mm * cos (loop->half_angle),
             loop->radius_mm, G_PI / 2 - loop->half_angle, G_PI / 2 + loop->half_angle);
  leave_stone (paper, &none, &paper->palette->accent, MAX (d * paper->scale, 2));
}

/* A flap's loop is seen edge on, as a tab; an upright strip's is seen as the arc it is. */
static void
draw_bail (const Paper *paper)
{
  if (paper->design->bail.style == BW_BAIL_OVER) {
    draw_over (paper);
    return;
  }
  const BwLoop *loop = &paper->hang->loop;
  double mid = paper->pivot.y, d = paper->design->bead.diameter_mm;
  double crest = loop->radius_mm * (1 - cos (loop->half_angle));
  double surface = paper->pivot.x + d / 2 - crest;
  double half = paper->design->bail.columns * paper->design->gauge.column_mm / 2;
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.8), none = bw_palette_alpha (fill, 0);
  enter_stone (paper);
  if (paper->design->bail.style != BW_BAIL_UPRIGHT) {
    cairo_rectangle (paper->cr, surface, mid - half, crest + d / 2, 2 * half);
    leave_stone (paper, &fill, &paper->palette->ink, 1);
    return;
  }
  cairo_arc (paper->cr, surface - loop->radius_mm * cos (loop->half_angle), mid, loop->radius_mm,
             -loop->half_angle, loop->half_angle);
  leave_stone (paper, &none, &paper->palette->accent, MAX (d * paper->scale, 2));
}

static void
draw_cord (const Paper *paper)
{
  double ring = paper->design->bail.style == BW_BAIL_RING ? 5 : 0;
  double top = paper->y - ring * 2;
  ink (paper, &paper->palette->ink, 2.5);
  cairo_move_to (paper->cr, paper->x - top * 0.35, 0);
  cairo_line_to (paper->cr, paper->x, top);
  cairo_line_to (paper->cr, paper->x + top * 0.35, 0);
  cairo_stroke (paper->cr);
  if (ring == 0)
    return;
  cairo_arc (paper->cr, paper->x, paper->y - ring, ring, 0, 2 * G_PI);
  ink (paper, &paper->palette->ink, 1.6);
  cairo_stroke (paper->cr);
}

static void
draw_dashed (const Paper *paper, double x0, double y0, double x1, double y1)
{
  const double dash[] = { 6, 4 };
  cairo_set_dash (paper->cr, dash, 2, 0);
  ink (paper, &paper->palette->faint, 1);
  cairo_move_to (paper->cr, x0, y0);
  cairo_line_to (paper->cr, x1, y1);
  cairo_stroke (paper->cr);
  cairo_set_dash (paper->cr, NULL, 0, 0);
}

/* The balance point as engineers mark it: a circle with two of its quarters filled. */
static void
draw_balance (const Paper *paper)
{
  double x, y;
  BwVec2 at = { paper->hang->centroid.x, paper->hang->centroid.y };
  to_pixels (paper, bw_outline_x (at, paper->azimuth), paper->hang->centroid.z, &x, &y);
  cairo_new_path (paper->cr);
  cairo_arc (paper->cr, x, y, 7, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (paper->cr, &paper->palette->paper);
  cairo_fill_preserve (paper->cr);
  ink (paper, &paper->palette->ink, 1.4);
  cairo_stroke (paper->cr);
  for (int i = 0; i < 2; i++) {
    cairo_move_to (paper->cr, x, y);
    cairo_arc (paper->cr, x, y, 7, i * G_PI, i * G_PI + G_PI / 2);
    cairo_close_path (paper->cr);
    cairo_fill (paper->cr);
  }
  bw_sketch_write (paper->sketch, paper->cr, x + 12, y, 0, 0.5, _ ("balance point"));
}

/* The stone's axis, and the plumb line from the point of the cord that the balance point is under.
 */
static void
draw_lines (const Paper *paper, double height)
{
  double x0, y0, x1, y1, beyond = 0.06 * paper->stone->length_mm;
  to_pixels (paper, 0, -beyond, &x0, &y0);
  to_pixels (paper, 0, paper->stone->length_mm + beyond, &x1, &y1);
  draw_dashed (paper, x0, y0, x1, y1);
  if (!paper->hang->has_bail)
    return;
  BwVec3 hold = paper->hang->hold;
  to_pixels (paper, bw_outline_x (bw_vec2 (hold.x, hold.y), paper->azimuth), hold.z, &x0, &y0);
  draw_dashed (paper, x0, y0, x0, height - 1.5 * bw_sketch_line_height (paper->sketch));
}

static void
grow (const Paper *paper, double x_mm, double z_mm, BwVec2 *least, BwVec2 *most)
{
  BwVec2 at = turned (paper, x_mm, z_mm);
  least->x = MIN (least->x, at.x);
  least->y = MIN (least->y, at.y);
  most->x = MAX (most->x, at.x);
  most->y = MAX (most->y, at.y);
}

/* The whole piece, with room for the cord above it and for a line of writing below. */
static void
lay_out (Paper *paper, double width, double height)
{
  double line = bw_sketch_line_height (paper->sketch);
  BwVec2 least = { 0, 0 }, most = { 0, 0 };
  for (int i = 0; i < paper->stone->n_vertices; i++) {
    BwVec3 v = paper->stone->vertex[i];
    grow (paper, bw_outline_x (bw_vec2 (v.x, v.y), paper->azimuth), v.z, &least, &most);
  }
  if (paper->hang->has_bail)
    grow (paper, paper->pivot.x, paper->pivot.y, &least, &most);
  double margin = paper->design->bead.diameter_mm + 2, cord = 3 * line;
  double across = most.x - least.x + 2 * margin, down = most.y - least.y + 2 * margin;
  paper->scale = MAX (MIN ((width - 20) / across, (height - cord - 2 * line) / down), 0.01);
  paper->x = width / 2 - (least.x + most.x) / 2 * paper->scale;
  paper->y = cord + (most.y + margin) * paper->scale;
}

static BwVec2
pivot_on_paper (const Paper *paper)
{
  const BwHang *hang = paper->hang;
  if (!hang->has_bail)
    return bw_vec2 (0, paper->stone->length_mm / 2);
  return bw_vec2 (bw_outline_x (bw_vec2 (hang->pivot.x, hang->pivot.y), paper->azimuth),
                  hang->pivot.z);
}

static void
bw_hang_sketch_draw (BwSketch *sketch, cairo_t *cr, const BwPalette *palette, double width,
                     double height)
{
  BwProject *project = bw_card_get_project (BW_CARD (sketch));
  Paper paper = { .sketch = sketch,
                  .cr = cr,
                  .palette = palette,
                  .project = project,
                  .design = bw_project_get_design (project),
                  .stone = bw_project_stone (project),
                  .hang = bw_project_hang (project) };
  paper.azimuth = bw_hang_sketch_azimuth (paper.hang, &paper.design->bail);
  paper.turn = bw_hang_sketch_turn (paper.hang, &paper.design->bail);
  paper.pivot = pivot_on_paper (&paper);
  lay_out (&paper, width, height);
  if (paper.hang->has_bail)
    draw_cord (&paper);
  draw_stone (&paper);
  draw_band (&paper);
  if (paper.hang->has_bail)
    draw_bail (&paper);
  draw_lines (&paper, height);
  draw_balance (&paper);
  g_autofree char *rest = bw_rest_words (paper.hang);
  bw_sketch_write (sketch, cr, width / 2, height, 0.5, 1, rest);
}

static void
bw_hang_sketch_class_init (BwHangSketchClass *klass)
{
  BW_SKETCH_CLASS (klass)->draw = bw_hang_sketch_draw;
}

static void
bw_hang_sketch_init (BwHangSketch *self)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The piece at rest on its cord"), -1);
}
