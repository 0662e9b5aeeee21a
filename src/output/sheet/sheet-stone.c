/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone as a bench sketch: its section seen from the tip and its profile, with the numbers that
 * were measured written where they were taken. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/bail/bail-place.h"
#include "core/pattern/tint.h"
#include "output/page/label-room.h"
#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define FIGURE_HEIGHT 206.0
#define LEAST_SHARE 0.6   /* of it, where that keeps the sketches on the page */
#define LEAST_WIDTH 210.0 /* of a sketch; on a narrower paper the two lie one below the other */
#define HEIGHTS_AWAY 18.0 /* from the stone to the names of heights */
#define LENGTH_AWAY 40.0  /* room for its length beside it */
#define NAME_STEPS 8      /* how far a face's name may give way */

typedef struct {
  BwProject *project;
  const BwDesign *design;
  const BwStone *stone;
  BwUnit unit;
  cairo_t *cr;
  double scale;  /* points a millimetre */
  double x0, y0; /* where the axis and the base, or the section's middle, lie */
  BwLabelRoom room;
} Sketch;

/* The first and the last line of a sketch are its captions. */
#define BETWEEN 0.3 /* of a line, or two numbers side by side read as one */
#define CAPTION 12.0

/* What was measured is told as finely as it is measured in either unit. Owned. */
static char *
measured_words (const Sketch *sketch, double mm)
{
  return bw_text_in (mm, sketch->unit, sketch->unit == BW_UNIT_INCH ? 2 : 1);
}

static void
ink (cairo_t *cr, BwTint tint, double width)
{
  cairo_set_source_rgb (cr, BW_TINT_RGB (tint, FALSE));
  cairo_set_line_width (cr, width);
}

static BwVec2
on_page (const Sketch *sketch, BwVec2 at)
{
  return bw_vec2 (sketch->x0 + at.x * sketch->scale, sketch->y0 - at.y * sketch->scale);
}

/* A line with a small arrow head at both ends, and its number on a white patch in the middle. */
static void
head (cairo_t *cr, BwVec2 tip, double angle)
{
  cairo_move_to (cr, tip.x, tip.y);
  cairo_line_to (cr, tip.x - 4 * cos (angle - 0.3), tip.y - 4 * sin (angle - 0.3));
  cairo_line_to (cr, tip.x - 4 * cos (angle + 0.3), tip.y - 4 * sin (angle + 0.3));
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
on_white (cairo_t *cr, PangoLayout *layout, BwVec2 corner, double width, double height)
{
  cairo_rectangle (cr, corner.x - 1, corner.y, width + 2, height);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_fill (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_move_to (cr, corner.x, corner.y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
}

/* Words with their middle at the first of n places that is free; FALSE where none is. */
static gboolean
place_words (Sketch *sketch, const char *text, const BwVec2 *middle, int n)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (sketch->cr, BW_TYPE_SMALL, text, 0);
  int width, height;
  pango_layout_get_size (layout, &width, &height);
  double w = pango_units_to_double (width), h = pango_units_to_double (height);
  g_autofree BwVec2 *corner = g_new (BwVec2, n);
  for (int i = 0; i < n; i++)
    corner[i] = bw_vec2 (middle[i].x - w / 2, middle[i].y - h / 2);
  int at = bw_label_room_place (&sketch->room, w, h, corner, n);
  if (at >= 0)
    on_white (sketch->cr, layout, corner[at], w, h);
  return at >= 0;
}

/* The number stands on its line, where it is free; the first place tried is `at` of the way. */
static void
dimension (Sketch *sketch, BwVec2 a, BwVec2 b, double value, double at)
{
  static const double places[] = { 0, 0.08, -0.08, 0.16, 0.6, 0.52, 0.44, 0.24, 0.36, 0.3 };
  double angle = atan2 (b.y - a.y, b.x - a.x);
  g_autofree char *text = measured_words (sketch, value);
  BwVec2 middle[G_N_ELEMENTS (places)];
  ink (sketch->cr, BW_TINT_INK, 0.5);
  cairo_move_to (sketch->cr, a.x, a.y);
  cairo_line_to (sketch->cr, b.x, b.y);
  cairo_stroke (sketch->cr);
  head (sketch->cr, b, angle);
  head (sketch->cr, a, angle + G_PI);
  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    middle[i] = bw_vec2_add (a, bw_vec2_scale (bw_vec2_sub (b, a), at + places[i]));
  place_words (sketch, text, middle, G_N_ELEMENTS (middle));
}

static void
draw_polygon (const Sketch *sketch, const BwSection *section, BwTint fill)
{
  for (int i = 0; i < section->edges; i++) {
    BwVec2 at = on_page (sketch, section->corner[i]);
    cairo_line_to (sketch->cr, at.x, at.y);
  }
  cairo_close_path (sketch->cr);
  cairo_set_source_rgb (sketch->cr, BW_TINT_RGB (fill, FALSE));
  cairo_fill_preserve (sketch->cr);
  ink (sketch->cr, BW_TINT_PRINT, 1.1);
  cairo_stroke (sketch->cr);
}

static BwVec2
face_middle (const BwSection *section, int face)
{
  int before = (face + section->edges - 1) % section->edges;
  return bw_vec2_scale (bw_vec2_add (section->corner[before], section->corner[face]), 0.5);
}

/* Many faces would crowd their names: then every other one, or fewer, is named. */
static int
name_step (int faces)
{
  return (faces + 15) / 16;
}

#define NAME_GAP 3.0 /* between a face and its name, points */

/* How far a name's middle must be from a line for the whole of it to lie beyond. */
static double
reach_of (const Sketch *sketch, const char *name, BwVec2 normal)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (sketch->cr, BW_TYPE_SMALL, name, 0);
  int width, height;
  pango_layout_get_size (layout, &width, &height);
  return (fabs (normal.x) * pango_units_to_double (width)
          + fabs (normal.y) * pango_units_to_double (height))
         / 2;
}

/* Outside its face, farther and farther and a little to either side; never over its line. */
static void
name_face (Sketch *sketch, const BwSection *section, int face, const char *name)
{
  BwVec2 normal = section->normal[face], at = on_page (sketch, face_middle (section, face));
  double reach = reach_of (sketch, name, normal) + NAME_GAP;
  static const double sides[] = { 0, 9, -9, 18, -18, 27, -27 };
  BwVec2 middle[NAME_STEPS * G_N_ELEMENTS (sides)];
  int n = 0;
  for (int step = 0; step < NAME_STEPS; step++)
    for (gsize side = 0; side < G_N_ELEMENTS (sides); side++) {
      double aside = sides[side], away = reach + 8 * step;
      middle[n++] = bw_vec2 (at.x + normal.x * away - normal.y * aside,
                             at.y - normal.y * away - normal.x * aside);
    }
  place_words (sketch, name, middle, n);
}

static void
draw_face_names (Sketch *sketch, const BwSection *section)
{
  const BwStoneMeasures *stone = &sketch->design->stone;
  gboolean measured = stone->measured == BW_MEASURED_FACE_WIDTHS;
  for (int face = 0; face < section->edges; face += name_step (section->edges)) {
    g_autofree char *width = measured_words (sketch, stone->values_mm[face]);
    g_autofree char *name = measured ? g_strdup_printf (_ ("face %d: %s"), face + 1, width)
                                     : g_strdup_printf (_ ("face %d"), face + 1);
    name_face (sketch, section, face, name);
  }
}

static void
draw_across (Sketch *sketch, const BwSection *section)
{
  int half = section->edges / 2;
  for (int i = 0; i < half && half <= 6; i++) {
    BwVec2 normal = section->normal[i];
    BwVec2 from = face_middle (section, i + half);
    double span = sketch->stone->h_mm[i] + sketch->stone->h_mm[i + half];
    BwVec2 to = bw_vec2_add (from, bw_vec2_scale (normal, span));
    dimension (sketch, on_page (sketch, from), on_page (sketch, to),
               sketch->design->stone.values_mm[i], 0.2);
  }
}

/* A triangle outside the section at an azimuth, and what lies there. */
static void
draw_azimuth (Sketch *sketch, double deg, double radius, const char *text)
{
  double angle = deg * G_PI / 180, c = cos (angle), s = sin (angle);
  BwVec2 tip = on_page (sketch, bw_vec2 (radius * c, radius * s));
  ink (sketch->cr, BW_TINT_PRINT, 0.5);
  cairo_move_to (sketch->cr, tip.x, tip.y);
  for (int side = -1; side <= 1; side += 2)
    cairo_line_to (sketch->cr, tip.x + 8 * cos (angle + side * 0.45),
                   tip.y - 8 * sin (angle + side * 0.45));
  cairo_close_path (sketch->cr);
  cairo_fill (sketch->cr);
  bw_label_room_take (&sketch->room, (BwLabelBox){ tip.x + 4 * c - 4, tip.y - 4 * s - 4, 8, 8 });
  BwVec2 middle[]
      = { { tip.x + 24 * c, tip.y - 16 * s },     { tip.x + 14 * c, tip.y - 16 * s - 9 },
          { tip.x + 14 * c, tip.y - 16 * s + 9 }, { tip.x + 30, tip.y - 4 * s },
          { tip.x - 30, tip.y - 4 * s },          { tip.x + 4 * c, tip.y - 4 * s + 13 },
          { tip.x + 4 * c, tip.y - 4 * s - 13 },  { tip.x + 22, tip.y - 4 * s + 12 },
          { tip.x - 22, tip.y - 4 * s + 12 },     { tip.x + 22, tip.y - 4 * s - 12 },
          { tip.x - 22, tip.y - 4 * s - 12 },     { tip.x + 44, tip.y - 4 * s },
          { tip.x - 44, tip.y - 4 * s } };
  place_words (sketch, text, middle, G_N_ELEMENTS (middle));
}

static void
draw_azimuths (Sketch *sketch, double away)
{
  const BwDesign *design = sketch->design;
  double at_deg[2];
  int n = bw_bail_azimuths (at_deg, design, bw_project_mid_ring (sketch->project));
  gboolean same = FALSE;
  for (int i = 0; i < n; i++)
    same |= fabs (remainder (at_deg[i] - design->band.seam_deg, 360)) < 1;
  draw_azimuth (sketch, design->band.seam_deg, away, same ? _ ("join and bail") : _ ("join"));
  for (int i = 0; i < n; i++)
    if (fabs (remainder (at_deg[i] - design->band.seam_deg, 360)) >= 1)
      draw_azimuth (sketch, at_deg[i], away, _ ("bail"));
}

static void
draw_section (Sketch *sketch, double width, double height)
{
  const BwStoneMeasures *stone = &sketch->design->stone;
  BwSection section;
  bw_section_init (&section, sketch->stone, stone->at_mm);
  double radius = 0;
  for (int i = 0; i < section.edges; i++)
    radius = MAX (radius, hypot (section.corner[i].x, section.corner[i].y));
  /* Names of join and bail may come to lie between the captions and the section. */
  sketch->scale = MIN (width - 120, height - 108) / (2 * radius);
  sketch->x0 = width / 2;
  sketch->y0 = height / 2;
  bw_label_room_init (&sketch->room, (BwLabelBox){ 0, CAPTION, width, height - 2 * CAPTION });
  sketch->room.between = BETWEEN;
  draw_polygon (sketch, &section, BW_TINT_WASH);
  draw_azimuths (sketch, radius + 26 / sketch->scale);
  if (stone->measured == BW_MEASURED_ACROSS_FLATS)
    draw_across (sketch, &section);
  draw_face_names (sketch, &section);
  bw_label_room_clear (&sketch->room);
  g_autofree char *girth = bw_text_length (section.girth_mm, sketch->unit, 1);
  g_autofree char *at = bw_text_length (stone->at_mm, sketch->unit, 1);
  g_autofree char *caption = g_strdup_printf (_ ("section at %s, seen from the tip"), at);
  g_autofree char *around = g_strdup_printf (_ ("girth there: %s"), girth);
  bw_type_draw (sketch->cr, BW_TYPE_SMALL, caption, width / 2, 0, 0.5);
  bw_type_draw (sketch->cr, BW_TYPE_SMALL, around, width / 2, height - 11, 0.5);
}

/* The profile is seen along the +y axis: x to the right, the tip up. */
static BwVec2
seen (const Sketch *sketch, BwVec3 at)
{
  return on_page (sketch, bw_vec2 (at.x, at.z));
}

static void
draw_outlines (const Sketch *sketch)
{
  const BwStone *stone = sketch->stone;
  for (int f = 0; f < stone->n_polygons; f++) {
    BwVec3 normal;
    double distance;
    int vertices[BW_FACES_MAX], n = bw_stone_polygon (stone, f, vertices, NULL, NULL);
    bw_stone_plane (stone, f, &normal, &distance);
    if (normal.y > 1e-9)
      continue;
    for (int i = 0; i < n; i++) {
      BwVec2 at = seen (sketch, stone->vertex[vertices[i]]);
      cairo_line_to (sketch->cr, at.x, at.y);
    }
    cairo_close_path (sketch->cr);
    cairo_set_source_rgb (sketch->cr, BW_ON_PAPER (WASH));
    cairo_fill_preserve (sketch->cr);
    ink (sketch->cr, BW_TINT_PRINT, 0.8);
    cairo_set_line_join (sketch->cr, CAIRO_LINE_JOIN_ROUND);
    cairo_stroke (sketch->cr);
  }
}

static void
extent_at (const Sketch *sketch, double z, double *left, double *right)
{
  BwSection section;
  bw_section_init (&section, sketch->stone, z);
  *left = INFINITY;
  *right = -INFINITY;
  for (int i = 0; i < section.edges; i++) {
    *left = MIN (*left, section.corner[i].x);
    *right = MAX (*right, section.corner[i].x);
  }
}

static void
draw_band (const Sketch *sketch)
{
  BwBandSpan span = bw_design_span (sketch->design);
  double z[2] = { span.bottom_mm, span.bottom_mm + span.width_mm }, left[2], right[2];
  for (int i = 0; i < 2; i++)
    extent_at (sketch, z[i], &left[i], &right[i]);
  for (int i = 0; i < 4; i++) {
    int edge = i == 0 || i == 3 ? 0 : 1;
    BwVec2 at = on_page (sketch, bw_vec2 (i < 2 ? left[edge] - 1 : right[edge] + 1, z[edge]));
    cairo_line_to (sketch->cr, at.x, at.y);
  }
  cairo_close_path (sketch->cr);
  cairo_set_source_rgba (sketch->cr, BW_ON_PAPER (NOTE), 0.25);
  cairo_fill_preserve (sketch->cr);
  ink (sketch->cr, BW_TINT_PRINT, 0.8);
  cairo_stroke (sketch->cr);
}

/* A height with its name, on the left side of the profile. */
typedef struct {
  double z;
  const char *name;
  double at; /* where the label stands, points */
} Height;

/* Owned. */
static char *
height_words (const Height *height, BwUnit unit)
{
  g_autofree char *value = bw_text_in (height->z, unit, 1);
  /* Translators: what lies at a height, and the height. */
  return g_strdup_printf (_ ("%s %s"), height->name, value);
}

static double
widest_height (const Sketch *sketch, const Height *heights, int n)
{
  double widest = 0;
  for (int i = 0; i < n; i++) {
    int width;
    g_autofree char *text = height_words (&heights[i], sketch->unit);
    g_autoptr (PangoLayout) layout = bw_type_layout (sketch->cr, BW_TYPE_SMALL, text, 0);
    pango_layout_get_size (layout, &width, NULL);
    widest = MAX (widest, pango_units_to_double (width));
  }
  return widest;
}

static void
draw_heights (const Sketch *sketch, Height *heights, int n, double left, double bottom)
{
  double floor_y = bottom;
  for (int i = 0; i < n; i++) {
    double left_mm, right_mm;
    extent_at (sketch, heights[i].z, &left_mm, &right_mm);
    BwVec2 from = on_page (sketch, bw_vec2 (left_mm, heights[i].z));
    heights[i].at = MIN (from.y, floor_y);
    floor_y = heights[i].at - 10;
    g_autofree char *text = height_words (&heights[i], sketch->unit);
    ink (sketch->cr, BW_TINT_HAIR, 0.4);
    cairo_move_to (sketch->cr, from.x - 2, from.y);
    cairo_line_to (sketch->cr, left + 12, heights[i].at);
    cairo_line_to (sketch->cr, left + 3, heights[i].at);
    cairo_stroke (sketch->cr);
    bw_type_draw (sketch->cr, BW_TYPE_SMALL, text, left, heights[i].at - 5, 1);
  }
}

static int
by_height (const void *a, const void *b)
{
  double x = ((const Height *)a)->z, y = ((const Height *)b)->z;
  return (x > y) - (x < y);
}

static int
list_heights (const Sketch *sketch, Height heights[6])
{
  const BwStoneMeasures *measures = &sketch->design->stone;
  const BwStone *stone = sketch->stone;
  BwBandSpan span = bw_design_span (sketch->design);
  int n = 0;
  heights[n++] = (Height){ span.bottom_mm, _ ("band, lower edge"), 0 };
  heights[n++] = (Height){ span.bottom_mm + span.width_mm, _ ("upper edge"), 0 };
  heights[n++] = (Height){ stone->shoulder_mm, _ ("shoulder"), 0 };
  heights[n++] = (Height){ measures->at_mm, _ ("measured at"), 0 };
  if (measures->has_second)
    heights[n++] = (Height){ measures->second_at_mm, _ ("second girth at"), 0 };
  if (stone->base == BW_BASE_POINT)
    heights[n++] = (Height){ stone->base_shoulder_mm, _ ("lower shoulder"), 0 };
  qsort (heights, (size_t)n, sizeof *heights, by_height);
  return n;
}

/* The stone with its length to the right and its heights to the left, in the middle of the rest. */
static void
draw_profile (Sketch *sketch, double width, double height)
{
  const BwStoneMeasures *measures = &sketch->design->stone;
  const BwStone *stone = sketch->stone;
  double left = 0, right = 0;
  for (int i = 0; i < stone->n_vertices; i++) {
    left = MIN (left, stone->vertex[i].x);
    right = MAX (right, stone->vertex[i].x);
  }
  Height heights[6];
  int n = list_heights (sketch, heights);
  double names = widest_height (sketch, heights, n) + HEIGHTS_AWAY;
  double room = width - names - LENGTH_AWAY;
  sketch->scale = MIN (room / (right - left), (height - 40) / stone->length_mm);
  sketch->x0 = names + (room - (left + right) * sketch->scale) / 2;
  sketch->y0 = height - 22;
  draw_outlines (sketch);
  draw_band (sketch);
  draw_heights (sketch, heights, n, sketch->x0 + left * sketch->scale - HEIGHTS_AWAY, sketch->y0);
  double x = sketch->x0 + right * sketch->scale + 16;
  bw_label_room_init (&sketch->room, (BwLabelBox){ 0, CAPTION, width, height - 2 * CAPTION });
  sketch->room.between = BETWEEN;
  dimension (sketch, bw_vec2 (x, sketch->y0),
             bw_vec2 (x, sketch->y0 - stone->length_mm * sketch->scale), stone->length_mm, 0.5);
  bw_label_room_clear (&sketch->room);
  g_autofree char *caption
      = g_strdup_printf (_ ("profile, face 1 to the right; heights above the base in %s"),
                         bw_text_unit (sketch->unit));
  bw_type_draw (sketch->cr, BW_TYPE_SMALL, caption, width / 2, 0, 0.5);
  if (measures->has_second) {
    g_autofree char *girth = bw_text_length (measures->second_girth_mm, sketch->unit, 1);
    g_autofree char *text = g_strdup_printf (_ ("second girth: %s"), girth);
    bw_type_draw (sketch->cr, BW_TYPE_SMALL, text, width / 2, height - 11, 0.5);
  }
}

/* What a figure is drawn from. */
typedef struct {
  BwProject *project;
  BwUnit unit;
} Drawn;

static Sketch
sketch_of (const Drawn *drawn, cairo_t *cr)
{
  return (Sketch){ .project = drawn->project,
                   .design = bw_project_get_design (drawn->project),
                   .stone = bw_project_stone (drawn->project),
                   .unit = drawn->unit,
                   .cr = cr };
}

static void
draw_stone (cairo_t *cr, double width, double height, gpointer data)
{
  Sketch sketch = sketch_of (data, cr);
  draw_section (&sketch, width / 2, height);
  cairo_translate (cr, width / 2, 0);
  draw_profile (&sketch, width / 2, height);
}

static void
draw_section_alone (cairo_t *cr, double width, double height, gpointer data)
{
  Sketch sketch = sketch_of (data, cr);
  draw_section (&sketch, width, height);
}

static void
draw_profile_alone (cairo_t *cr, double width, double height, gpointer data)
{
  Sketch sketch = sketch_of (data, cr);
  draw_profile (&sketch, width, height);
}

/* As high as the page allows, within bounds. */
static void
add_sketch (BwFlow *flow, BwFlowFigure draw, double most, BwProject *project)
{
  Drawn drawn = { project, flow->unit };
  bw_flow_figure (flow, CLAMP (bw_flow_left_over (flow), LEAST_SHARE * most, most), draw, &drawn);
  bw_flow_space (flow, 4);
}

void
bw_sheet_add_stone (BwFlow *flow, BwProject *project)
{
  const BwStone *stone = bw_project_stone (project);
  const char *mineral = bw_project_get_mineral (project);
  g_autofree char *line = bw_sheet_one_line (mineral && *mineral ? mineral : _ ("crystal"));
  g_autofree char *mass = bw_text_mass (stone->mass_g);
  g_autofree char *length = bw_text_length (stone->length_mm, flow->unit, 1);
  g_autofree char *text = g_strdup_printf (
      _ ("Mineral: %s; %d faces, %s long, about %s. Faces count from 1, counter-clockwise seen "
         "from the tip: mark face 1 with a dot that comes off. Check the measurements with the "
         "paper strip before you begin."),
      line, stone->faces, length, mass);
  bw_flow_heading (flow, _ ("The stone"), LEAST_SHARE * FIGURE_HEIGHT);
  if (flow->width >= 2 * LEAST_WIDTH) {
    add_sketch (flow, draw_stone, FIGURE_HEIGHT, project);
  } else {
    add_sketch (flow, draw_section_alone, FIGURE_HEIGHT, project);
    add_sketch (flow, draw_profile_alone, FIGURE_HEIGHT, project);
  }
  bw_flow_text (flow, BW_TYPE_TEXT, text);
}
