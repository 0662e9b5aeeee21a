/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking down on the stone from its tip. Azimuth 0 (the middle of face 1) lies to the right,
 * azimuths run counter-clockwise. */
#include "config.h"

#include "app/measure/section-sketch.h"
#include "app/kit/colour-dialog.h"
#include "core/base/lattice.h"
#include "core/stone/section.h"

#include <glib/gi18n-lib.h>

struct _BwSectionSketch {
  BwSketch parent_instance;
};

G_DEFINE_FINAL_TYPE (BwSectionSketch, bw_section_sketch, BW_TYPE_SKETCH)

/* One drawing in the making. */
typedef struct {
  BwSketch *sketch;
  cairo_t *cr;
  const BwPalette *palette;
  BwProject *project;
  const BwDesign *design;
  const BwStone *stone;
  double cx, cy;  /* of the axis, pixels */
  double scale;   /* pixels per mm */
  double outer;   /* mm from the axis to the outside of the beads */
  double writing; /* mm from the axis to where numbers stand */
} Paper;

static double
x_of (const Paper *paper, double x_mm)
{
  return paper->cx + x_mm * paper->scale;
}

static double
y_of (const Paper *paper, double y_mm)
{
  return paper->cy - y_mm * paper->scale;
}

static void
ink (const Paper *paper, const GdkRGBA *colour, double width)
{
  gdk_cairo_set_source_rgba (paper->cr, colour);
  cairo_set_line_width (paper->cr, width);
}

static void
section_path (const Paper *paper, const BwSection *section)
{
  cairo_new_path (paper->cr);
  for (int i = 0; i < section->edges; i++)
    cairo_line_to (paper->cr, x_of (paper, section->corner[i].x),
                   y_of (paper, section->corner[i].y));
  cairo_close_path (paper->cr);
}

static double
farthest_corner (const BwSection *section)
{
  double reach = 0;
  for (int i = 0; i < section->edges; i++)
    reach = MAX (reach, bw_vec2_length (section->corner[i]));
  return reach;
}

/* The stone under the band, filled; where it was measured, when that differs, as a dashed line. */
static void
draw_stone (const Paper *paper, const BwSection *measured, const BwSection *under)
{
  const double dash[] = { 4, 3 };
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.10);
  section_path (paper, under);
  gdk_cairo_set_source_rgba (paper->cr, &fill);
  cairo_fill_preserve (paper->cr);
  ink (paper, &paper->palette->ink, 1.6);
  cairo_stroke (paper->cr);
  if (fabs (measured->girth_mm / MAX (under->girth_mm, 1e-6) - 1) < 0.005)
    return;
  section_path (paper, measured);
  cairo_set_dash (paper->cr, dash, 2, 0);
  ink (paper, &paper->palette->faint, 1);
  cairo_stroke (paper->cr);
  cairo_set_dash (paper->cr, NULL, 0, 0);
}

static void
draw_bead (const Paper *paper, int row, int column)
{
  const BwPlace *place = bw_places_get (bw_project_places (paper->project), row, column);
  const BwTray *tray = bw_project_shown_tray (paper->project);
  int colour = bw_drawing_get (bw_project_shown_drawing (paper->project), row, column);
  GdkRGBA rgba = bw_colour_to_rgba (tray->colour[MIN (colour, tray->n_colours - 1)].srgb);
  double radius = paper->design->bead.diameter_mm / 2 * paper->scale;
  cairo_new_path (paper->cr);
  cairo_arc (paper->cr, x_of (paper, place->at.x), y_of (paper, place->at.y),
             MAX (radius - 0.5, 0.5), 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (paper->cr, &rgba);
  cairo_fill_preserve (paper->cr);
  ink (paper, &paper->palette->hair, 1);
  cairo_stroke (paper->cr);
}

static void
draw_beads (const Paper *paper)
{
  const BwPlaces *places = bw_project_places (paper->project);
  int column = MAX (places->columns / 2, 1);
  for (int row = 1; row <= places->rows; row++)
    if (bw_lattice_has (row, column))
      draw_bead (paper, row, column);
}

static void
write_face_numbers (const Paper *paper, const BwSection *under)
{
  double inside = bw_sketch_line_height (paper->sketch) / paper->scale;
  if (under->edges > 24)
    return;
  for (int i = 0; i < under->edges; i++) {
    if (under->face[i] < 0)
      continue;
    BwVec2 n = under->normal[i];
    BwVec2 a = under->corner[(i + under->edges - 1) % under->edges], b = under->corner[i];
    BwVec2 at = bw_vec2_scale (bw_vec2_add (a, b), 0.5);
    at = bw_vec2_sub (at, bw_vec2_scale (n, 0.8 * inside));
    g_autofree char *number = g_strdup_printf ("%d", under->face[i] + 1);
    g_autoptr (PangoLayout) text = bw_palette_text (GTK_WIDGET (paper->sketch), number, 0.85, TRUE);
    int width, height;
    pango_layout_get_pixel_size (text, &width, &height);
    gdk_cairo_set_source_rgba (paper->cr, &paper->palette->ink);
    cairo_move_to (paper->cr, x_of (paper, at.x) - width / 2.0, y_of (paper, at.y) - height / 2.0);
    pango_cairo_show_layout (paper->cr, text);
  }
}

static void
write_value (const Paper *paper, int i, double azimuth, const char *words)
{
  g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
  g_autofree char *length = bw_card_length (paper->design->stone.values_mm[i], 2);
  g_autofree char *text = words ? g_strdup_printf ("%s %s", words, length) : g_strdup (length);
  double c = cos (azimuth), s = sin (azimuth);
  bw_sketch_write (paper->sketch, paper->cr, x_of (paper, paper->writing * c),
                   y_of (paper, paper->writing * s), 0.5 - 0.5 * c, 0.5 + 0.5 * s, text, pointer);
}

/* A thin line through the stone from face to face, and on to the number outside the beads. */
static void
draw_across (const Paper *paper, int i)
{
  BwVec2 n = bw_stone_normal (paper->stone->faces, i);
  double back = paper->stone->h_mm[i + paper->stone->faces / 2];
  ink (paper, &paper->palette->hair, 1);
  cairo_move_to (paper->cr, x_of (paper, -back * n.x), y_of (paper, -back * n.y));
  cairo_line_to (paper->cr, x_of (paper, paper->writing * n.x), y_of (paper, paper->writing * n.y));
  cairo_stroke (paper->cr);
}

static void
write_measures (const Paper *paper)
{
  const BwStoneMeasures *stone = &paper->design->stone;
  int n = bw_stone_value_count (stone->measured, stone->faces);
  if (stone->measured == BW_MEASURED_GIRTH) {
    write_value (paper, 0, -G_PI / 2, _ ("girth"));
    return;
  }
  for (int i = 0; i < n && n <= 16; i++) {
    if (stone->measured == BW_MEASURED_ACROSS_FLATS)
      draw_across (paper, i);
    write_value (paper, i, 2 * G_PI * i / stone->faces, NULL);
  }
}

static gboolean
hits (const Paper *paper, const GdkRectangle *place, const char *pointer)
{
  GdkRectangle other;
  return bw_sketch_find (paper->sketch, pointer, &other)
         && gdk_rectangle_intersect (place, &other, NULL);
}

/* Whether nothing of what has been written round the stone so far stands there. */
static gboolean
is_clear (const Paper *paper, const GdkRectangle *place)
{
  const BwStoneMeasures *stone = &paper->design->stone;
  for (int i = 0; i < bw_stone_value_count (stone->measured, stone->faces); i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    if (hits (paper, place, pointer))
      return FALSE;
  }
  return !hits (paper, place, "/band/seam_deg");
}

/* The nearest line above or below y at which a text stands clear. */
static double
clear_line (const Paper *paper, double x, double y, double anchor_x, double anchor_y,
            const char *text)
{
  static const double lines[] = { 0, -1, 1, -2, 2 };
  double line = bw_sketch_line_height (paper->sketch);
  double width = bw_sketch_text_width (paper->sketch, text);
  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++) {
    double at = y + lines[i] * (line + 1);
    GdkRectangle place = { (int)lround (x - anchor_x * width), (int)lround (at - anchor_y * line),
                           (int)width, (int)line };
    if (is_clear (paper, &place))
      return at;
  }
  return y;
}

/* A mark outside the beads at an azimuth, with its name beside it; a number keeps its place. */
static void
draw_mark (const Paper *paper, double degrees, const char *name, const char *pointer)
{
  double azimuth = bw_radians (degrees), c = cos (azimuth), s = sin (azimuth);
  double r0 = paper->outer, r1 = paper->outer + 9 / paper->scale;
  g_autofree char *text = g_strdup_printf ("%s %.4g°", name, degrees);
  ink (paper, &paper->palette->accent, 2.5);
  cairo_move_to (paper->cr, x_of (paper, r0 * c), y_of (paper, r0 * s));
  cairo_line_to (paper->cr, x_of (paper, r1 * c), y_of (paper, r1 * s));
  cairo_stroke (paper->cr);
  double x = x_of (paper, r1 * c) + 3 * c, y = y_of (paper, r1 * s) - 3 * s;
  double ax = 0.5 - 0.5 * c, ay = 0.5 + 0.5 * s;
  y = clear_line (paper, x, y, ax, ay, text);
  bw_sketch_write (paper->sketch, paper->cr, x, y, ax, ay, text, pointer);
}

static void
draw_marks (const Paper *paper)
{
  const BwBail *bail = &paper->design->bail;
  draw_mark (paper, paper->design->band.seam_deg, _ ("join"), "/band/seam_deg");
  if (bail->style != BW_BAIL_NONE)
    draw_mark (paper, bail->at_deg, _ ("bail"), "/bail/at_deg");
}

/* A triangle with a stroke in it at every corner where thread would show. */
static void
draw_splay (const Paper *paper, const BwSection *under)
{
  const BwSplay *splay = bw_project_splay (paper->project);
  for (int i = 0; i < under->edges; i++) {
    if (under->face[i] < 0 || !splay->corner_over[under->face[i]])
      continue;
    BwVec2 out
        = bw_vec2_scale (under->corner[i], 1 / MAX (bw_vec2_length (under->corner[i]), 1e-9));
    double x = x_of (paper, out.x * (paper->outer + 1)),
           y = y_of (paper, out.y * (paper->outer + 1));
    cairo_new_path (paper->cr);
    cairo_move_to (paper->cr, x, y - 8);
    cairo_line_to (paper->cr, x + 7, y + 5);
    cairo_line_to (paper->cr, x - 7, y + 5);
    cairo_close_path (paper->cr);
    gdk_cairo_set_source_rgba (paper->cr, &paper->palette->paper);
    cairo_fill_preserve (paper->cr);
    ink (paper, &paper->palette->warn, 1.6);
    cairo_move_to (paper->cr, x, y - 3);
    cairo_line_to (paper->cr, x, y + 2);
    cairo_stroke (paper->cr);
  }
}

/* The least worth reading under the picture: where it was measured, and how well it closes. */
static void
write_foot (const Paper *paper, double width, double height)
{
  const BwStone *stone = paper->stone;
  g_autofree char *at = bw_card_length (stone->at_mm, 1);
  g_autofree char *girth = bw_card_length (stone->girth_mm, 1);
  g_autofree char *text
      = bw_project_stone_is_example (paper->project)
            ? g_strdup (_ ("example stone – type your own"))
            : g_strdup_printf (_ ("from above · girth %s at height %s"), girth, at);
  bw_sketch_write (paper->sketch, paper->cr, width / 2, height, 0.5, 1, text, NULL);
  if (paper->design->stone.measured != BW_MEASURED_FACE_WIDTHS)
    return;
  g_autofree char *error = bw_card_length (stone->closing_error_mm, 2);
  g_autofree char *closing = g_strdup_printf (_ ("misfit of the measurements %s"), error);
  bw_sketch_write (paper->sketch, paper->cr, width / 2, 0, 0.5, 0, closing, NULL);
}

static void
lay_out (Paper *paper, const BwSection *measured, const BwSection *under, double width,
         double height)
{
  double line = bw_sketch_line_height (paper->sketch);
  double number = bw_sketch_text_width (paper->sketch, "00.00 mm");
  double reach = MAX (farthest_corner (measured), farthest_corner (under));
  BwBandSpan span = bw_design_span (paper->design);
  BwBedding bedding;
  double bed = 0;
  if (bw_bedding_init (&bedding, &paper->design->bed, paper->stone, span, NULL))
    bed = bw_bedding_thickness (&bedding, bw_band_span_mid (span));
  paper->outer = reach + MAX (bed, 0) + paper->design->bead.diameter_mm;
  paper->cx = width / 2;
  paper->cy = (height - line) / 2;
  paper->scale = MIN (width / 2 - number - 14, height / 2 - 2.2 * line - 14) / paper->outer;
  paper->scale = MAX (paper->scale, 0.01);
  paper->writing = paper->outer + 12 / paper->scale;
}

static void
bw_section_sketch_draw (BwSketch *sketch, cairo_t *cr, const BwPalette *palette, double width,
                        double height)
{
  BwProject *project = bw_card_get_project (BW_CARD (sketch));
  Paper paper = { .sketch = sketch,
                  .cr = cr,
                  .palette = palette,
                  .project = project,
                  .design = bw_project_get_design (project),
                  .stone = bw_project_stone (project) };
  BwSection measured, under;
  bw_section_init (&measured, paper.stone, paper.stone->at_mm);
  bw_section_init (&under, paper.stone, bw_band_span_mid (bw_design_span (paper.design)));
  lay_out (&paper, &measured, &under, width, height);
  draw_stone (&paper, &measured, &under);
  draw_beads (&paper);
  write_face_numbers (&paper, &under);
  draw_splay (&paper, &under);
  write_measures (&paper);
  draw_marks (&paper);
  write_foot (&paper, width, height);
}

static void
bw_section_sketch_class_init (BwSectionSketchClass *klass)
{
  BW_SKETCH_CLASS (klass)->draw = bw_section_sketch_draw;
}

static void
bw_section_sketch_init (BwSectionSketch *self)
{
  gtk_accessible_update_property (
      GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Section of the stone from above"),
      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
      _ ("Arrow keys walk from number to number, Enter types over one"), -1);
}
