/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Azimuth 0 (the middle of face 1) lies to the right in both views; seen from the tip azimuths run
 * counter-clockwise. */
#include "config.h"

#include "app/measure/sheet-drawing.h"
#include "app/form/band-outline.h"
#include "app/form/stone-outline.h"
#include "app/ask/colour-dialog.h"
#include "core/base/lattice.h"
#include "core/stone/section.h"

#include <math.h>

#define SQUARE 20 /* of the paper, pixels */

/* One drawing in the making. */
typedef struct {
  GtkWidget *widget;
  cairo_t *cr;
  const BwSheetPlan *plan;
  const BwPalette *palette;
  GdkRGBA hair; /* hairlines */
  BwProject *project;
  const BwDesign *design;
  const BwStone *stone;
  BwSection under; /* the section at the band's middle */
  double worn_mm;  /* bed and beads on it there */
  const char *lit;
} Paper;

static void
ink (const Paper *paper, const GdkRGBA *colour, double width)
{
  gdk_cairo_set_source_rgba (paper->cr, colour);
  cairo_set_line_width (paper->cr, width);
}

static void
dash (const Paper *paper, double on, double off)
{
  const double dashes[] = { on, off };
  cairo_set_dash (paper->cr, dashes, on > 0 ? 2 : 0, 0);
}

static double
x_of (const Paper *paper, double x_mm)
{
  return paper->plan->cx + x_mm * paper->plan->section_scale;
}

static double
y_of (const Paper *paper, double y_mm)
{
  return paper->plan->cy - y_mm * paper->plan->section_scale;
}

static double
z_of (const Paper *paper, double z_mm)
{
  return paper->plan->base - z_mm * paper->plan->profile_scale;
}

/* --- Paper -------------------------------------------------------------------------------------
 */

static void
draw_squares (const Paper *paper)
{
  GdkRGBA faint = bw_palette_alpha (paper->palette->ink, 0.055);
  double width = paper->plan->width, height = paper->plan->height;
  ink (paper, &faint, 1);
  for (double x = SQUARE + 0.5; x < width; x += SQUARE) {
    cairo_move_to (paper->cr, x, 0);
    cairo_line_to (paper->cr, x, height);
  }
  for (double y = SQUARE + 0.5; y < height; y += SQUARE) {
    cairo_move_to (paper->cr, 0, y);
    cairo_line_to (paper->cr, width, y);
  }
  cairo_stroke (paper->cr);
}

/* --- From above --------------------------------------------------------------------------------
 */

/* The section grown by what lies round it, with round corners as a strip of paper has. */
static void
round_path (const Paper *paper, const BwSection *section, double grow_mm)
{
  double radius = grow_mm * paper->plan->section_scale;
  cairo_new_path (paper->cr);
  for (int i = 0; i < section->edges; i++) {
    double from = atan2 (section->normal[i].y, section->normal[i].x);
    cairo_arc_negative (paper->cr, x_of (paper, section->corner[i].x),
                        y_of (paper, section->corner[i].y), MAX (radius, 0.01), -from,
                        -(from + section->turn[i]));
  }
  cairo_close_path (paper->cr);
}

static void
draw_section_stone (const Paper *paper)
{
  BwSection measured;
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.12);
  bw_section_init (&measured, paper->stone, paper->stone->at_mm);
  round_path (paper, &paper->under, 0);
  ink (paper, &paper->palette->paper, 1);
  cairo_fill_preserve (paper->cr);
  ink (paper, &fill, 1);
  cairo_fill_preserve (paper->cr);
  ink (paper, &paper->palette->ink, 1.5);
  cairo_stroke (paper->cr);
  if (fabs (measured.girth_mm / MAX (paper->under.girth_mm, 1e-6) - 1) < 0.005)
    return;
  round_path (paper, &measured, 0);
  dash (paper, 4, 3);
  ink (paper, &paper->hair, 1);
  cairo_stroke (paper->cr);
  dash (paper, 0, 0);
}

/* Adds the circles of all beads of one colour to the path; FALSE when there are none. */
static gboolean
circle_beads (const Paper *paper, int column, int colour)
{
  const BwPlaces *places = bw_project_places (paper->project);
  const BwDrawing *drawing = bw_project_shown_drawing (paper->project);
  int last = bw_project_shown_tray (paper->project)->n_colours - 1;
  double radius = paper->design->bead.diameter_mm / 2 * paper->plan->section_scale;
  for (int row = bw_lattice_has (1, column) ? 1 : 2; row <= places->rows; row += 2) {
    BwVec3 at = bw_places_get (places, row, column).at;
    if (MIN (bw_drawing_get (drawing, row, column), last) != colour)
      continue;
    cairo_new_sub_path (paper->cr);
    cairo_arc (paper->cr, x_of (paper, at.x), y_of (paper, at.y), MAX (radius - 0.4, 0.5), 0,
               2 * G_PI);
  }
  return cairo_has_current_point (paper->cr);
}

/* Colour by colour: the toolkit records every stroke, and one for all takes a tenth of the room. */
static void
draw_section_beads (const Paper *paper)
{
  const BwTray *tray = bw_project_shown_tray (paper->project);
  int column = MAX (bw_project_places (paper->project)->columns / 2, 1);
  cairo_new_path (paper->cr);
  for (int i = 0; i < tray->n_colours; i++) {
    GdkRGBA rgba = bw_colour_to_rgba (tray->colour[i].srgb);
    if (!circle_beads (paper, column, i))
      continue;
    ink (paper, &rgba, 0.8);
    cairo_fill_preserve (paper->cr);
    ink (paper, &paper->palette->hair, 0.8);
    cairo_stroke (paper->cr);
  }
}

static void
write_at (const Paper *paper, double x, double y, const char *words)
{
  g_autoptr (PangoLayout) text = bw_palette_text (paper->widget, words, 0.85, TRUE);
  int width, height;
  pango_layout_get_pixel_size (text, &width, &height);
  gdk_cairo_set_source_rgba (paper->cr, &paper->palette->faint);
  cairo_move_to (paper->cr, x - width / 2.0, y - height / 2.0);
  pango_cairo_show_layout (paper->cr, text);
}

static void
write_face_numbers (const Paper *paper)
{
  double inside = 0.8 * paper->plan->line;
  if (paper->under.edges > 24)
    return;
  for (int i = 0; i < paper->under.edges; i++) {
    if (paper->under.face[i] < 0)
      continue;
    BwVec2 n = paper->under.normal[i];
    BwVec2 a = paper->under.corner[(i + paper->under.edges - 1) % paper->under.edges];
    BwVec2 at = bw_vec2_scale (bw_vec2_add (a, paper->under.corner[i]), 0.5);
    g_autofree char *number = g_strdup_printf ("%d", paper->under.face[i] + 1);
    write_at (paper, x_of (paper, at.x) - n.x * inside, y_of (paper, at.y) + n.y * inside, number);
  }
}

/* Where the mark of a corner stands at which thread would show; FALSE where none would. */
static gboolean
splay_mark (const Paper *paper, int edge, double *x, double *y)
{
  const BwSplay *splay = bw_project_splay (paper->project);
  if (paper->under.face[edge] < 0 || !splay->corner_over[paper->under.face[edge]])
    return FALSE;
  BwVec2 at = paper->under.corner[edge];
  double far = 1 + (paper->worn_mm + 1) / MAX (bw_vec2_length (at), 1e-9);
  *x = x_of (paper, at.x * far);
  *y = y_of (paper, at.y * far);
  return TRUE;
}

/* A triangle with a stroke in it. */
static void
draw_splay (const Paper *paper)
{
  for (int i = 0; i < paper->under.edges; i++) {
    double x, y;
    if (!splay_mark (paper, i, &x, &y))
      continue;
    cairo_new_path (paper->cr);
    cairo_move_to (paper->cr, x, y - 8);
    cairo_line_to (paper->cr, x + 7, y + 5);
    cairo_line_to (paper->cr, x - 7, y + 5);
    cairo_close_path (paper->cr);
    ink (paper, &paper->palette->paper, 1.6);
    cairo_fill_preserve (paper->cr);
    ink (paper, &paper->palette->warn, 1.6);
    cairo_move_to (paper->cr, x, y - 3);
    cairo_line_to (paper->cr, x, y + 2);
    cairo_stroke (paper->cr);
  }
}

/* --- From the side -----------------------------------------------------------------------------
 */

static void
enter_profile (const Paper *paper)
{
  cairo_save (paper->cr);
  cairo_translate (paper->cr, paper->plan->px, paper->plan->base);
  cairo_scale (paper->cr, paper->plan->profile_scale, -paper->plan->profile_scale);
  cairo_new_path (paper->cr);
}

static void
draw_profile_stone (const Paper *paper)
{
  GdkRGBA fill = bw_palette_alpha (paper->palette->accent, 0.12);
  enter_profile (paper);
  bw_outline_stone_path (paper->cr, paper->stone, 0);
  cairo_restore (paper->cr);
  ink (paper, &paper->palette->paper, 1);
  cairo_fill_preserve (paper->cr);
  ink (paper, &fill, 1);
  cairo_fill_preserve (paper->cr);
  ink (paper, &paper->palette->ink, 1.3);
  cairo_set_line_join (paper->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (paper->cr);
}

static void
draw_profile_band (const Paper *paper)
{
  enter_profile (paper);
  bw_outline_band (paper->cr, paper->project, 0, 0.8 / paper->plan->profile_scale);
  cairo_restore (paper->cr);
}

static void
draw_axis (const Paper *paper)
{
  const double dashes[] = { 8, 3, 2, 3 };
  ink (paper, &paper->palette->hair, 1);
  cairo_set_dash (paper->cr, dashes, 4, 0);
  cairo_move_to (paper->cr, paper->plan->px, z_of (paper, paper->stone->length_mm) - 7);
  cairo_line_to (paper->cr, paper->plan->px, paper->plan->base + 7);
  cairo_stroke (paper->cr);
  dash (paper, 0, 0);
}

/* Where a paper strip or a calliper was laid on. */
static void
draw_level (const Paper *paper, double z_mm)
{
  double left, right;
  bw_outline_extent (paper->stone, CLAMP (z_mm, 0, paper->stone->length_mm), 0, 0, &left, &right);
  dash (paper, 3, 3);
  ink (paper, &paper->hair, 1);
  cairo_move_to (paper->cr, paper->plan->px + left * paper->plan->profile_scale,
                 z_of (paper, z_mm));
  cairo_line_to (paper->cr, paper->plan->px + right * paper->plan->profile_scale,
                 z_of (paper, z_mm));
  cairo_stroke (paper->cr);
  dash (paper, 0, 0);
}

/* --- Hairlines ---------------------------------------------------------------------------------
 */

static void
tick (const Paper *paper, double x, double y, double dx, double dy)
{
  cairo_move_to (paper->cr, x - 4 * dx, y - 4 * dy);
  cairo_line_to (paper->cr, x + 4 * dx, y + 4 * dy);
}

/* Through the stone from face to face, a tick at either. */
static void
line_across (const Paper *paper, const BwSheetNote *note)
{
  double c = cos (note->azimuth), s = sin (note->azimuth);
  int half = paper->stone->faces / 2;
  double front = paper->stone->h_mm[note->index], back = paper->stone->h_mm[note->index + half];
  cairo_move_to (paper->cr, x_of (paper, -back * c), y_of (paper, -back * s));
  cairo_line_to (paper->cr, x_of (paper, front * c), y_of (paper, front * s));
  tick (paper, x_of (paper, -back * c), y_of (paper, -back * s), s, c);
  tick (paper, x_of (paper, front * c), y_of (paper, front * s), s, c);
}

/* Beside the face from corner to corner, outside the beads. */
static void
line_along (const Paper *paper, const BwSheetNote *note)
{
  double out = paper->worn_mm + 4 / paper->plan->section_scale;
  for (int i = 0; i < paper->under.edges; i++) {
    if (paper->under.face[i] != note->index)
      continue;
    BwVec2 n = paper->under.normal[i], grown = bw_vec2_scale (n, out);
    BwVec2 a = bw_vec2_add (paper->under.corner[(i + paper->under.edges - 1) % paper->under.edges],
                            grown);
    BwVec2 b = bw_vec2_add (paper->under.corner[i], grown);
    cairo_move_to (paper->cr, x_of (paper, a.x), y_of (paper, a.y));
    cairo_line_to (paper->cr, x_of (paper, b.x), y_of (paper, b.y));
    tick (paper, x_of (paper, a.x), y_of (paper, a.y), n.x, -n.y);
    tick (paper, x_of (paper, b.x), y_of (paper, b.y), n.x, -n.y);
  }
}

static void
line_round (const Paper *paper)
{
  cairo_stroke (paper->cr);
  round_path (paper, &paper->under, paper->worn_mm + 3 / paper->plan->section_scale);
  dash (paper, 5, 3);
  cairo_stroke (paper->cr);
  dash (paper, 0, 0);
}

/* A short bar at the edge of the beads. */
static void
bar_at (const Paper *paper, const BwSheetNote *note)
{
  double c = cos (note->azimuth), s = sin (note->azimuth);
  cairo_stroke (paper->cr);
  ink (paper, &paper->palette->accent, 3);
  cairo_move_to (paper->cr, note->from_x, note->from_y);
  cairo_line_to (paper->cr, note->from_x + 8 * c, note->from_y - 8 * s);
  cairo_stroke (paper->cr);
  ink (paper, &paper->hair, 1);
}

/* From the base up beside the stone, with the levels it goes between. */
static void
line_tall (const Paper *paper, const BwSheetNote *note)
{
  double x = floor (note->from_x) + 0.5;
  double near = paper->plan->px, top = note->from_y, base = paper->plan->base;
  cairo_move_to (paper->cr, x - 5, top);
  cairo_line_to (paper->cr, near, top);
  cairo_move_to (paper->cr, x - 5, base);
  cairo_line_to (paper->cr, near, base);
  cairo_move_to (paper->cr, x, top);
  cairo_line_to (paper->cr, x, MAX (note->y - 1, top));
  cairo_move_to (paper->cr, x, MIN (note->y + note->h + 1, base));
  cairo_line_to (paper->cr, x, base);
}

static void
draw_lead (const Paper *paper, const BwSheetNote *note)
{
  gboolean section = note->kind != BW_NOTE_HEIGHT && note->kind != BW_NOTE_TALL;
  double elbow = section ? note->to_x + (note->to_x > note->from_x ? -6 : 6) : note->to_x - 8;
  cairo_move_to (paper->cr, note->from_x, note->from_y);
  if (!section)
    cairo_line_to (paper->cr, paper->plan->px + paper->plan->reach_mm * paper->plan->profile_scale,
                   note->from_y);
  cairo_line_to (paper->cr, elbow, note->to_y);
  cairo_line_to (paper->cr, note->to_x, note->to_y);
}

static void
draw_note (const Paper *paper, const BwSheetNote *note)
{
  gboolean lit = g_strcmp0 (paper->lit, note->pointer) == 0;
  gboolean tall = note->kind == BW_NOTE_TALL && !paper->plan->slim;
  ink (paper, lit ? &paper->palette->accent : &paper->hair, lit ? 1.8 : 1);
  cairo_new_path (paper->cr);
  if (note->kind == BW_NOTE_ACROSS)
    line_across (paper, note);
  else if (note->kind == BW_NOTE_WIDTH)
    line_along (paper, note);
  else if (note->kind == BW_NOTE_GIRTH)
    line_round (paper);
  else if (note->kind == BW_NOTE_MARK)
    bar_at (paper, note);
  else if (tall)
    line_tall (paper, note);
  if (!tall)
    draw_lead (paper, note);
  cairo_stroke (paper->cr);
}

static void
draw_notes (const Paper *paper)
{
  for (int i = 0; i < paper->plan->n_notes; i++)
    draw_note (paper, &paper->plan->note[i]);
}

static double
worn_on (const BwDesign *design, const BwStone *stone)
{
  BwBandSpan span = bw_design_span (design);
  BwBedding bedding;
  double bed = 0;
  if (bw_bedding_init (&bedding, &design->bed, stone, span, NULL))
    bed = MAX (bw_bedding_thickness (&bedding, bw_band_span_mid (span)), 0);
  return bed + design->bead.diameter_mm;
}

static Paper
paper_for (const BwSheetPlan *plan, BwProject *project)
{
  Paper paper = { .plan = plan,
                  .project = project,
                  .design = bw_project_get_design (project),
                  .stone = bw_project_stone (project) };
  bw_section_init (&paper.under, paper.stone, bw_band_span_mid (bw_design_span (paper.design)));
  paper.worn_mm = worn_on (paper.design, paper.stone);
  return paper;
}

#define MARK_REACH 10 /* pixels from its middle, a little beyond its outline */

gboolean
bw_sheet_warns_at (const BwSheetPlan *plan, BwProject *project, double x, double y)
{
  Paper paper = paper_for (plan, project);
  for (int i = 0; i < paper.under.edges; i++) {
    double mark_x, mark_y;
    if (splay_mark (&paper, i, &mark_x, &mark_y) && hypot (x - mark_x, y - mark_y) <= MARK_REACH)
      return TRUE;
  }
  return FALSE;
}

void
bw_sheet_draw (GtkWidget *widget, cairo_t *cr, const BwSheetPlan *plan, BwProject *project,
               const char *lit)
{
  BwPalette palette = bw_palette_get (widget);
  Paper paper = paper_for (plan, project);
  paper.widget = widget;
  paper.cr = cr;
  paper.palette = &palette;
  paper.hair = bw_palette_alpha (palette.ink, 0.55);
  paper.lit = lit;
  draw_squares (&paper);
  draw_section_stone (&paper);
  draw_profile_stone (&paper);
  draw_axis (&paper);
  draw_profile_band (&paper);
  draw_level (&paper, paper.stone->at_mm);
  if (paper.design->stone.has_second)
    draw_level (&paper, paper.design->stone.second_at_mm);
  draw_notes (&paper);
  draw_section_beads (&paper);
  write_face_numbers (&paper);
  draw_splay (&paper);
}
