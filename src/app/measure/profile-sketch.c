/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking at the stone from the side, azimuth 0 to the right, as the section beside it has it. */
#include "config.h"

#include "app/measure/profile-sketch.h"
#include "app/form/stone-outline.h"
#include "core/stone/section.h"

#include <glib/gi18n-lib.h>

struct _BwProfileSketch {
  BwSketch parent_instance;
};

G_DEFINE_FINAL_TYPE (BwProfileSketch, bw_profile_sketch, BW_TYPE_SKETCH)

/* A note right of the stone at a height. */
typedef struct {
  double z_mm;
  char *text;
  const char *pointer;
} Note;

#define NOTES_MOST 6

/* One drawing in the making. */
typedef struct {
  BwSketch *sketch;
  cairo_t *cr;
  const BwPalette *palette;
  const BwDesign *design;
  const BwStone *stone;
  double cx, base;                 /* pixels: the axis, and height 0 */
  double scale;                    /* pixels per mm */
  double left, right, top, bottom; /* pixels: where the stone ends */
  double length_x, point_x;        /* pixels: where the heights stand left of it */
  Note notes[NOTES_MOST];
  int n_notes;
} Paper;

static double
x_of (const Paper *paper, double x_mm)
{
  return paper->cx + x_mm * paper->scale;
}

static double
y_of (const Paper *paper, double z_mm)
{
  return paper->base - z_mm * paper->scale;
}

static void
ink (const Paper *paper, const GdkRGBA *colour, double width)
{
  gdk_cairo_set_source_rgba (paper->cr, colour);
  cairo_set_line_width (paper->cr, width);
}

static void
draw_stone (const Paper *paper)
{
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.10);
  cairo_save (paper->cr);
  cairo_translate (paper->cr, paper->cx, paper->base);
  cairo_scale (paper->cr, paper->scale, -paper->scale);
  cairo_new_path (paper->cr);
  bw_outline_stone_path (paper->cr, paper->stone, 0);
  cairo_restore (paper->cr);
  gdk_cairo_set_source_rgba (paper->cr, &fill);
  cairo_fill_preserve (paper->cr);
  ink (paper, &paper->palette->ink, 1.4);
  cairo_set_line_join (paper->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (paper->cr);
}

/* A closed strip round the stone between two heights, grown by what lies on it at each of them. */
static void
strip_path (const Paper *paper, double z0, double grow0, double z1, double grow1)
{
  double left0, right0, left1, right1;
  bw_outline_extent (paper->stone, z0, 0, grow0, &left0, &right0);
  bw_outline_extent (paper->stone, z1, 0, grow1, &left1, &right1);
  cairo_new_path (paper->cr);
  cairo_move_to (paper->cr, x_of (paper, left0), y_of (paper, z0));
  cairo_line_to (paper->cr, x_of (paper, left1), y_of (paper, z1));
  cairo_line_to (paper->cr, x_of (paper, right1), y_of (paper, z1));
  cairo_line_to (paper->cr, x_of (paper, right0), y_of (paper, z0));
  cairo_close_path (paper->cr);
}

static void
draw_bed (const Paper *paper, const BwBedding *bedding, BwBandSpan span)
{
  double inset = MIN (paper->design->bed.overhang_mm, span.width_mm / 2);
  double z0 = span.bottom_mm + inset, z1 = span.bottom_mm + span.width_mm - inset;
  GdkRGBA wash = bw_palette_alpha (paper->palette->ink, 0.35);
  strip_path (paper, z0, bw_bedding_thickness (bedding, z0), z1,
              bw_bedding_thickness (bedding, z1));
  gdk_cairo_set_source_rgba (paper->cr, &wash);
  cairo_fill (paper->cr);
}

/* One strip a column, so that taper, grade and a band that runs onto the point all show. */
static void
draw_columns (const Paper *paper, const BwBedding *bedding)
{
  double w = paper->design->gauge.column_mm, d = paper->design->bead.diameter_mm;
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.55);
  for (int i = 0; i < paper->design->band.columns; i++) {
    double z0 = paper->design->band.bottom_mm + i * w, z1 = z0 + w;
    strip_path (paper, z0, bw_bedding_thickness (bedding, z0) + d, z1,
                bw_bedding_thickness (bedding, z1) + d);
    gdk_cairo_set_source_rgba (paper->cr, &fill);
    cairo_fill_preserve (paper->cr);
    /* Columns too fine to be told apart are one band. */
    ink (paper, &paper->palette->paper, w * paper->scale < 3 ? 0.1 : 1);
    cairo_stroke (paper->cr);
  }
}

static void
draw_band (const Paper *paper)
{
  BwBandSpan span = bw_design_span (paper->design);
  BwBedding bedding;
  if (!bw_bedding_init (&bedding, &paper->design->bed, paper->stone, span, NULL))
    return;
  draw_bed (paper, &bedding, span);
  draw_columns (paper, &bedding);
}

static void
draw_axis (const Paper *paper)
{
  const double dash[] = { 8, 3, 2, 3 };
  ink (paper, &paper->palette->hair, 1);
  cairo_set_dash (paper->cr, dash, 4, 0);
  cairo_move_to (paper->cr, paper->cx, paper->top - 6);
  cairo_line_to (paper->cr, paper->cx, paper->bottom + 6);
  cairo_stroke (paper->cr);
  cairo_set_dash (paper->cr, NULL, 0, 0);
}

/* A height from the base up, written on a vertical line left of the stone. */
static void
write_height (const Paper *paper, double x, double z_mm, const char *pointer)
{
  g_autofree char *text = bw_card_length (z_mm, 2);
  ink (paper, &paper->palette->hair, 1);
  cairo_move_to (paper->cr, x - 4, y_of (paper, z_mm));
  cairo_line_to (paper->cr, paper->cx, y_of (paper, z_mm));
  cairo_stroke (paper->cr);
  bw_sketch_dimension (paper->sketch, paper->cr, x, y_of (paper, 0), x, y_of (paper, z_mm), text,
                       pointer);
}

static void
write_point (const Paper *paper, double x)
{
  if (paper->design->stone.has_shoulder) {
    write_height (paper, x, paper->stone->shoulder_mm, "/stone/shoulder_mm");
    return;
  }
  g_autofree char *angle = g_strdup_printf ("%.4g°", paper->design->stone.natural_angle_deg);
  bw_sketch_write (paper->sketch, paper->cr, x_of (paper, 0) - 14,
                   y_of (paper, (paper->stone->shoulder_mm + paper->stone->length_mm) / 2), 1, 0.5,
                   angle, "/stone/natural_angle_deg");
}

static void
add_note (Note *notes, int *n, double z_mm, char *text, const char *pointer)
{
  notes[(*n)++] = (Note){ z_mm, text, pointer };
}

static char *
at_height (const char *what, double z_mm)
{
  g_autofree char *height = bw_card_length (z_mm, 1);
  return g_strdup_printf (_ ("%s at %s"), what, height);
}

static void
collect_notes (Paper *paper)
{
  const BwDesign *design = paper->design;
  Note *notes = paper->notes;
  BwBandSpan span = bw_design_span (design);
  g_autofree char *width = bw_card_length (span.width_mm, 1);
  g_autofree char *bottom = bw_card_length (span.bottom_mm, 2);
  int n = 0;
  add_note (notes, &n, bw_band_span_mid (span),
            g_strdup_printf (_ ("%d columns · %s"), design->band.columns, width), "/band/columns");
  add_note (notes, &n, span.bottom_mm, g_strdup_printf (_ ("band from %s"), bottom),
            "/band/bottom_mm");
  add_note (notes, &n, design->stone.at_mm, at_height (_ ("measured"), design->stone.at_mm),
            "/stone/at_mm");
  if (design->stone.has_second) {
    g_autofree char *girth = bw_card_length (design->stone.second_girth_mm, 2);
    g_autofree char *words = g_strdup_printf (_ ("girth %s"), girth);
    add_note (notes, &n, design->stone.second_at_mm, at_height (words, design->stone.second_at_mm),
              "/stone/second_girth_mm");
  }
  if (design->stone.base == BW_BASE_POINT) {
    g_autofree char *height = bw_card_length (paper->stone->base_shoulder_mm, 2);
    add_note (notes, &n, paper->stone->base_shoulder_mm,
              g_strdup_printf (_ ("shoulder %s"), height), "/stone/base_shoulder_mm");
  }
  paper->n_notes = n;
}

static double
widest_note (const Paper *paper)
{
  double widest = 0;
  for (int i = 0; i < paper->n_notes; i++)
    widest = MAX (widest, bw_sketch_text_width (paper->sketch, paper->notes[i].text));
  return widest;
}

static void
write_notes (const Paper *paper)
{
  double y[NOTES_MOST];
  double line = bw_sketch_line_height (paper->sketch);
  const Note *notes = paper->notes;
  int n = paper->n_notes;
  for (int i = 0; i < n; i++)
    y[i] = y_of (paper, notes[i].z_mm);
  bw_sketch_spread (y, n, line + 3, paper->top, paper->bottom);
  for (int i = 0; i < n; i++) {
    double edge, from;
    bw_outline_extent (paper->stone, notes[i].z_mm, 0, 0, &edge, &from);
    ink (paper, &paper->palette->hair, 1);
    cairo_move_to (paper->cr, x_of (paper, from), y_of (paper, notes[i].z_mm));
    cairo_line_to (paper->cr, paper->right + 10, y_of (paper, notes[i].z_mm));
    cairo_line_to (paper->cr, paper->right + 18, y[i]);
    cairo_stroke (paper->cr);
    bw_sketch_write (paper->sketch, paper->cr, paper->right + 20, y[i], 0, 0.5, notes[i].text,
                     notes[i].pointer);
    g_free (notes[i].text);
  }
}

/* Room for the heights on the left and for the notes on the right, the stone between them. */
static void
lay_out (Paper *paper, double width, double height)
{
  double line = bw_sketch_line_height (paper->sketch);
  double left = 2 * line + 24;
  double right = widest_note (paper) + 26;
  double reach = bw_outline_reach (paper->stone, 0) + paper->design->bead.diameter_mm + 1;
  double sides = (width - left - right) / (2 * reach);
  double heights = (height - 2.5 * line) / paper->stone->length_mm;
  paper->scale = MAX (MIN (sides, heights), 0.01);
  paper->cx = left + (width - left - right) / 2;
  paper->top = (height - line - paper->stone->length_mm * paper->scale) / 2;
  paper->base = paper->bottom = paper->top + paper->stone->length_mm * paper->scale;
  paper->left = paper->cx - reach * paper->scale;
  paper->right = paper->cx + reach * paper->scale;
  paper->point_x = paper->left - 8 - line / 2;
  paper->length_x = paper->point_x - 6 - line;
}

static void
bw_profile_sketch_draw (BwSketch *sketch, cairo_t *cr, const BwPalette *palette, double width,
                        double height)
{
  BwProject *project = bw_card_get_project (BW_CARD (sketch));
  Paper paper = { .sketch = sketch,
                  .cr = cr,
                  .palette = palette,
                  .design = bw_project_get_design (project),
                  .stone = bw_project_stone (project) };
  collect_notes (&paper);
  lay_out (&paper, width, height);
  draw_axis (&paper);
  draw_stone (&paper);
  draw_band (&paper);
  write_height (&paper, paper.length_x, paper.stone->length_mm, "/stone/length_mm");
  write_point (&paper, paper.point_x);
  write_notes (&paper);
  g_autofree char *mass = g_strdup_printf (_ ("from the side · stone %.1f g"), paper.stone->mass_g);
  bw_sketch_write (sketch, cr, width / 2, height, 0.5, 1, mass, NULL);
}

static void
bw_profile_sketch_class_init (BwProfileSketchClass *klass)
{
  BW_SKETCH_CLASS (klass)->draw = bw_profile_sketch_draw;
}

static void
bw_profile_sketch_init (BwProfileSketch *self)
{
  gtk_accessible_update_property (
      GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
      _ ("Profile of the stone from the side"), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
      _ ("Arrow keys walk from number to number, Enter types over one"), -1);
}
