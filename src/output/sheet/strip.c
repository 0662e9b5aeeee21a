/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip on paper, at true size. A stone too thick for one sheet's width gets several pieces,
 * each with a tab; a band too broad for the page is shown about its middle. */
#include "config.h"

#include "output/sheet/strip.h"

#include "core/pattern/tint.h"
#include "output/page/label-room.h"
#include "output/report/report-parts.h"
#include "output/sheet/sheet-parts.h"
#include "core/base/tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define MM BW_POINTS_PER_MM
#define TAB_MM 12.0
#define NOTES 26.0    /* above and below a piece, points */
#define SCALE_MM 10.0 /* read on either side of the end, a little less on the tab */
#define INCH_PARTS 20 /* of its scale */
#define LEAST_MM 15.0 /* height of a strip: on one as narrow as a narrow band no name has room */
#define OVER_MM 12.0  /* of one round the bed, which has no names */
#define INCHES 2
#define RULER 24.0 /* height of a check ruler */

typedef struct {
  const BwStripMarks *marks;
  gboolean over;         /* the strip round the bed: no faces */
  double length_mm;      /* of the measuring line */
  double height_mm;      /* of the strip */
  double from_mm, to_mm; /* of this piece */
  int piece, n_pieces;
  BwUnit unit;
  BwLabelRoom *room; /* for the words on it */
} Piece;

/* Where a mark of the measuring line lies at the strip's lower or upper edge: the section there is
 * the same, only smaller or larger. */
static double
at_edge (const Piece *piece, double mm, gboolean upper)
{
  const BwStripMarks *marks = piece->marks;
  if (piece->over)
    return mm;
  double edge = upper ? marks->high_girth_mm : marks->low_girth_mm;
  double shown = piece->height_mm / marks->width_mm;
  return mm * (1 + shown * (edge / marks->girth_mm - 1));
}

static double
x_of (const Piece *piece, double mm)
{
  return (mm - piece->from_mm) * MM;
}

static gboolean
is_last (const Piece *piece)
{
  return piece->piece + 1 == piece->n_pieces;
}

#define MARK 0.4 /* width of a mark, points */

/* A mark across the strip, its middle `inset` points to the right of where it stands. */
static void
draw_mark (cairo_t *cr, const Piece *piece, double mm, double inset)
{
  double height = piece->height_mm * MM;
  cairo_set_line_width (cr, MARK);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_move_to (cr, x_of (piece, at_edge (piece, mm, TRUE)) + inset, 0);
  cairo_line_to (cr, x_of (piece, mm) + inset, height / 2);
  cairo_line_to (cr, x_of (piece, at_edge (piece, mm, FALSE)) + inset, height);
  cairo_stroke (cr);
}

static void
draw_edges (cairo_t *cr, const Piece *piece)
{
  double height = piece->height_mm * MM, end = x_of (piece, piece->to_mm) + TAB_MM * MM;
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_set_line_width (cr, 0.6);
  cairo_set_dash (cr, (double[]){ 4, 3 }, 2, 0);
  for (int i = 0; i < 2; i++) {
    cairo_move_to (cr, 0, i * height);
    cairo_line_to (cr, end, i * height);
  }
  /* Where a piece is cut off to be glued on. */
  if (piece->piece > 0) {
    cairo_move_to (cr, 0, 0);
    cairo_line_to (cr, 0, height);
  }
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* The tab is grey, so that nobody takes its end for the end of the strip. */
static void
draw_tab (cairo_t *cr, const Piece *piece)
{
  double height = piece->height_mm * MM, x = x_of (piece, piece->to_mm);
  gboolean last = is_last (piece);
  cairo_move_to (cr, last ? x_of (piece, at_edge (piece, piece->to_mm, TRUE)) : x, 0);
  cairo_line_to (cr, x + TAB_MM * MM, 0);
  cairo_line_to (cr, x + TAB_MM * MM, height);
  cairo_line_to (cr, last ? x_of (piece, at_edge (piece, piece->to_mm, FALSE)) : x, height);
  cairo_line_to (cr, x, height / 2);
  cairo_close_path (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHADE));
  cairo_fill (cr);
}

/* Small type on a white ground at the first place that is free, so that no line runs through it;
 * FALSE where none is. */
static gboolean
place_note (cairo_t *cr, const Piece *piece, const char *text, const BwVec2 *corner, int n)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, text, 0);
  int width;
  pango_layout_get_size (layout, &width, NULL);
  double wide = pango_units_to_double (width), tall = bw_type_height (BW_TYPE_SMALL);
  int at = bw_label_room_place (piece->room, wide, tall, corner, n);
  if (at < 0)
    return FALSE;
  cairo_rectangle (cr, corner[at].x - 1, corner[at].y + 1, wide + 2, tall - 2);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_fill (cr);
  bw_type_draw (cr, BW_TYPE_SMALL, text, corner[at].x, corner[at].y, 0);
  return TRUE;
}

static double
wide_of (cairo_t *cr, BwType type, const char *text)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, type, text, 0);
  int width;
  pango_layout_get_size (layout, &width, NULL);
  return pango_units_to_double (width);
}

/* Places about (x, y): there, farther and farther to either side, and a line lower. */
#define ABOUT 34
static int
places_about (BwVec2 corner[ABOUT], double x, double y, double lower)
{
  int n = 0;
  for (int line = 0; line < 2; line++)
    for (int step = 0; step <= 8; step++)
      for (int side = -1; side <= (step > 0 ? 1 : -1); side += 2)
        corner[n++] = bw_vec2 (x - side * step * 10, y + line * lower);
  return n;
}

static void
name_tab (cairo_t *cr, const Piece *piece)
{
  double height = piece->height_mm * MM, x = x_of (piece, piece->to_mm) + TAB_MM * MM / 2;
  g_autofree char *text = is_last (piece) ? g_strdup (_ ("tab"))
                                          : g_strdup_printf (_ ("glue %d here"), piece->piece + 2);
  BwType type = is_last (piece) ? BW_TYPE_SMALL : BW_TYPE_TINY;
  double wide = wide_of (cr, type, text), tall = bw_type_height (type);
  BwVec2 corner[] = { { x - wide / 2, height - 11 }, { x - wide / 2, 1 } };
  int at = bw_label_room_place (piece->room, wide, tall, corner, G_N_ELEMENTS (corner));
  if (at >= 0)
    bw_type_draw (cr, type, text, corner[at].x, corner[at].y, 0);
}

/* Where a number as wide as this has its middle: at its mark, but off the strip's end, whose line
 * would run through it, and off the edge of the paper. */
static double
clear_of_end (const Piece *piece, double x, double wide)
{
  double end = x_of (piece, piece->length_mm), off = wide / 2 + 1;
  if (fabs (x - end) < off)
    x = x < end && end - off > wide / 2 ? end - off : end + off;
  return MAX (x, wide / 2);
}

/* A number of the scale; lower where it was moved on to another one. */
static void
name_tick (cairo_t *cr, const Piece *piece, double mm)
{
  double y = piece->height_mm * MM / 2 + 4.5;
  g_autofree char *number = bw_text_in (mm, piece->unit, 0);
  double wide = wide_of (cr, BW_TYPE_TINY, number), tall = bw_type_height (BW_TYPE_TINY);
  double left = clear_of_end (piece, x_of (piece, mm), wide) - wide / 2;
  BwVec2 corner[] = { { left, y }, { left, y + tall }, { left, y + 2 * tall } };
  int at = bw_label_room_place (piece->room, wide, tall, corner, G_N_ELEMENTS (corner));
  if (at >= 0)
    bw_type_draw (cr, BW_TYPE_TINY, number, corner[at].x, corner[at].y, 0);
}

/* What the strip measures, read where its first edge comes to lie on its end: each millimetre with
 * every fifth named, or each twentieth of an inch with every fourth. */
static void
draw_scale (cairo_t *cr, const Piece *piece)
{
  gboolean inches = piece->unit == BW_UNIT_INCH;
  double step = inches ? BW_MM_PER_INCH / INCH_PARTS : 1;
  double from = MAX (piece->from_mm, piece->length_mm - SCALE_MM);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_set_line_width (cr, 0.4);
  for (int i = (int)ceil (from / step); i * step < piece->length_mm + TAB_MM - 1; i++) {
    gboolean named = i % (inches ? 4 : 5) == 0;
    cairo_move_to (cr, x_of (piece, i * step), piece->height_mm * MM / 2);
    cairo_rel_line_to (cr, 0, named ? 5 : 3);
    cairo_stroke (cr);
    if (named)
      name_tick (cr, piece, i * step);
  }
}

/* The measuring line ends exactly where the strip does. */
static void
draw_measure (cairo_t *cr, const Piece *piece)
{
  double y = piece->height_mm * MM / 2;
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_set_line_width (cr, 0.6);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_move_to (cr, 0, y);
  cairo_line_to (cr, x_of (piece, piece->to_mm), y);
  cairo_stroke (cr);
}

/* The name in the middle of a face, or its number alone where there is no room for more. */
static void
name_face (cairo_t *cr, const Piece *piece, int face, double from, double to)
{
  double middle = (from + to) / 2, y = piece->height_mm * MM / 2 - 12;
  if (middle < piece->from_mm || middle > piece->to_mm || to - from <= 4)
    return;
  for (int longer = to - from > 11; longer >= 0; longer--) {
    g_autofree char *name = g_strdup_printf (longer ? _ ("face %d") : "%d", face + 1);
    double x = x_of (piece, middle) - wide_of (cr, BW_TYPE_SMALL, name) / 2;
    BwVec2 corner[] = { { x, y }, { x, y - 7 } };
    if (place_note (cr, piece, name, corner, G_N_ELEMENTS (corner)))
      return;
  }
}

static void
draw_corners (cairo_t *cr, const Piece *piece)
{
  cairo_save (cr);
  cairo_rectangle (cr, 0, -1, x_of (piece, piece->to_mm), piece->height_mm * MM + 2);
  cairo_clip (cr);
  for (int i = 0; i < piece->marks->faces; i++)
    draw_mark (cr, piece, piece->marks->corner_mm[i], 0);
  cairo_restore (cr);
}

static void
name_faces (cairo_t *cr, const Piece *piece)
{
  const BwStripMarks *marks = piece->marks;
  for (int i = 0; i < marks->faces; i++) {
    double from = marks->corner_mm[i], to = marks->corner_mm[(i + 1) % marks->faces];
    gboolean split = to <= from; /* the join lies on this face */
    name_face (cr, piece, i, from, split ? marks->girth_mm : to);
    if (split)
      name_face (cr, piece, i, 0, to);
  }
}

/* Whether a bail sits over the join, where its name goes with the join's. */
static gboolean
is_at_join (const BwStripMarks *marks, double bail_mm)
{
  return fabs (remainder (bail_mm, marks->girth_mm)) < 1;
}

static gboolean
bail_at_join (const BwStripMarks *marks)
{
  for (int i = 0; i < marks->n_bails; i++)
    if (is_at_join (marks, marks->bail_mm[i]))
      return TRUE;
  return FALSE;
}

static gboolean
is_on (const Piece *piece, double mm)
{
  return mm >= piece->from_mm && mm <= piece->to_mm;
}

static void
draw_bail (cairo_t *cr, const Piece *piece, double bail_mm)
{
  double y = piece->height_mm * MM / 2, x = x_of (piece, bail_mm);
  if (!is_on (piece, bail_mm))
    return;
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_move_to (cr, x, y - 1);
  cairo_rel_line_to (cr, -2.5, -5);
  cairo_rel_line_to (cr, 5, 0);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
name_bail (cairo_t *cr, const Piece *piece, double bail_mm)
{
  double y = piece->height_mm * MM / 2;
  BwVec2 corner[ABOUT];
  if (!is_on (piece, bail_mm) || is_at_join (piece->marks, bail_mm))
    return;
  double x = x_of (piece, bail_mm) - wide_of (cr, BW_TYPE_SMALL, _ ("bail")) / 2;
  place_note (cr, piece, _ ("bail"), corner, places_about (corner, x, y + 2, 8.5));
}

/* The two marks that have to meet. */
static void
name_join (cairo_t *cr, const Piece *piece)
{
  double y = piece->height_mm * MM / 2, end = x_of (piece, piece->length_mm);
  gboolean bail = !piece->over && bail_at_join (piece->marks);
  BwVec2 first[] = { { 3, y + 2 }, { 3, y + 8 } };
  BwVec2 last[] = { { end + 2, y - 11 }, { end + 2, y - 17 } };
  if (is_last (piece))
    place_note (cr, piece, _ ("join"), last, G_N_ELEMENTS (last));
  if (piece->piece == 0)
    place_note (cr, piece, bail ? _ ("join, bail") : _ ("join"), first, G_N_ELEMENTS (first));
}

static void
name_piece (cairo_t *cr, const Piece *piece)
{
  if (piece->n_pieces < 2)
    return;
  g_autofree char *number
      = g_strdup_printf (_ ("piece %d of %d"), piece->piece + 1, piece->n_pieces);
  double low = piece->height_mm * MM - bw_type_height (BW_TYPE_SMALL) - 1;
  BwVec2 corner[ABOUT];
  place_note (cr, piece, number, corner, places_about (corner, 3, low, -4));
}

static char *
upper_words (const BwStripMarks *marks, BwUnit unit)
{
  g_autofree char *at = bw_text_length (marks->bottom_mm + marks->width_mm, unit, 1);
  g_autofree char *girth = bw_text_length (marks->high_girth_mm, unit, 1);
  return g_strdup_printf (_ ("↑ tip · upper edge of the band, %s above the base · girth %s"), at,
                          girth);
}

static char *
lower_words (const Piece *piece)
{
  const BwStripMarks *marks = piece->marks;
  g_autofree char *at = bw_text_length (marks->bottom_mm, piece->unit, 1);
  g_autofree char *girth = bw_text_length (marks->low_girth_mm, piece->unit, 1);
  g_autofree char *line = bw_text_length (piece->length_mm, piece->unit, 1);
  return g_strdup_printf (_ ("↓ base · lower edge of the band, %s · girth %s · the line: %s"), at,
                          girth, line);
}

static void
draw_notes (cairo_t *cr, const Piece *piece)
{
  const BwStripMarks *marks = piece->marks;
  double height = piece->height_mm * MM, middle = marks->bottom_mm + marks->width_mm / 2;
  gboolean whole = fabs (piece->height_mm - marks->width_mm) < BW_ROUNDING_MM && !piece->over;
  g_autofree char *upper = upper_words (marks, piece->unit);
  g_autofree char *lower = lower_words (piece);
  g_autofree char *at = bw_text_length (middle, piece->unit, 1);
  g_autofree char *length = bw_text_length (piece->length_mm, piece->unit, 1);
  g_autofree char *line
      = g_strdup_printf (_ ("↑ tip · the line lies %s above the base and is %s long"), at, length);
  bw_type_draw (cr, BW_TYPE_SMALL, whole ? upper : line, 0, -12, 0);
  if (whole)
    bw_type_draw (cr, BW_TYPE_SMALL, lower, 0, height + 2, 0);
}

static void
draw_lines (cairo_t *cr, const Piece *piece)
{
  draw_tab (cr, piece);
  draw_edges (cr, piece);
  if (!piece->over)
    draw_corners (cr, piece);
  draw_measure (cr, piece);
  for (int i = 0; !piece->over && i < piece->marks->n_bails; i++)
    draw_bail (cr, piece, piece->marks->bail_mm[i]);
  if (piece->piece == 0)
    draw_mark (cr, piece, 0, MARK / 2);
  if (!is_last (piece))
    return;
  draw_mark (cr, piece, piece->length_mm, -MARK / 2);
  draw_scale (cr, piece);
}

/* What has one place only comes first. */
static void
draw_names (cairo_t *cr, const Piece *piece)
{
  name_join (cr, piece);
  name_tab (cr, piece);
  for (int i = 0; !piece->over && i < piece->marks->n_bails; i++)
    name_bail (cr, piece, piece->marks->bail_mm[i]);
  name_piece (cr, piece);
  if (!piece->over)
    name_faces (cr, piece);
}

static void
draw_piece (cairo_t *cr, double width, double box_height, gpointer data)
{
  const Piece *piece = data;
  BwLabelRoom room;
  BwLabelBox strip = { 0, 0, x_of (piece, piece->to_mm) + TAB_MM * MM, piece->height_mm * MM };
  bw_label_room_init (&room, strip);
  Piece own = *piece;
  own.room = &room;
  cairo_translate (cr, 0, NOTES / 2 + 2);
  draw_lines (cr, &own);
  draw_names (cr, &own);
  draw_notes (cr, &own);
  bw_label_room_clear (&room);
}

static void
add_strip (BwFlow *flow, const BwStripMarks *marks, gboolean over)
{
  double most = flow->width / MM - TAB_MM, tall = (flow->bottom - flow->top - 2 * NOTES - 40) / MM;
  Piece piece = { .marks = marks,
                  .over = over,
                  .unit = flow->unit,
                  .length_mm = over ? marks->over_mm : marks->girth_mm };
  piece.height_mm = MIN (tall, over ? OVER_MM : MAX (LEAST_MM, marks->width_mm));
  double longest = MAX (piece.length_mm, MAX (at_edge (&piece, piece.length_mm, TRUE),
                                              at_edge (&piece, piece.length_mm, FALSE)));
  /* The tab has room for the difference between the middle and the longer edge. */
  most -= MAX (0, longest - piece.length_mm - TAB_MM / 2);
  piece.n_pieces = (int)ceil (piece.length_mm / most - BW_ROUNDING_WHOLE);
  for (piece.piece = 0; piece.piece < piece.n_pieces; piece.piece++) {
    piece.from_mm = piece.piece * most;
    piece.to_mm = MIN (piece.length_mm, piece.from_mm + most);
    bw_flow_figure (flow, piece.height_mm * MM + NOTES + 4, draw_piece, &piece);
    bw_flow_space (flow, 6);
  }
}

/* A ruler of `n` parts, `unit` points each, every part in ten, its zero at (0, 12). */
static void
draw_ruler (cairo_t *cr, int n, double unit, int fine, const char *name)
{
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, n * unit, 14);
  cairo_clip (cr);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_set_line_width (cr, 0.6);
  cairo_move_to (cr, 0, 12);
  cairo_line_to (cr, n * unit, 12);
  for (int i = 0; i <= n * fine; i++) {
    cairo_move_to (cr, i * unit / fine, 12);
    cairo_line_to (cr, i * unit / fine, i % fine == 0 ? 2 : 2 * i % fine == 0 ? 6 : 8);
  }
  cairo_stroke (cr);
  cairo_restore (cr);
  for (int i = 0; i <= n; i++) {
    g_autofree char *number = g_strdup_printf ("%d", fine == 10 ? 10 * i : i);
    bw_type_draw (cr, BW_TYPE_TINY, number, i * unit, 12.5, i == 0 ? 0 : 0.5);
  }
  bw_type_draw (cr, BW_TYPE_TINY, name, n * unit + 7, 12.5, 0);
}

static gboolean
wants_inches (BwPaper paper)
{
  return bw_paper_unit (paper) == BW_UNIT_INCH || bw_paper_equal (paper, BW_PAPER_LETTER);
}

/* Where paper is sold by the inch, or measured by it, rulers show inches. */
static void
draw_rulers (cairo_t *cr, double width, double height, gpointer data)
{
  const BwSheet *sheet = data;
  gboolean inches = wants_inches (sheet->paper);
  const char *text
      = inches ? _ ("The upper line must measure 50 mm, the lower 2 inches. If they do not, print "
                    "again at 100 %, without “fit to page”.")
               : _ ("This line must measure 50 mm. If it does not, print again at 100 %, without "
                    "“fit to page”.");
  draw_ruler (cr, 5, 10 * MM, 10, "mm");
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, text, width - 50 * MM - 30);
  cairo_set_source_rgb (cr, BW_ON_PAPER (INK));
  cairo_move_to (cr, 50 * MM + 30, 0);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
  if (!inches)
    return;
  cairo_translate (cr, 0, RULER);
  draw_ruler (cr, INCHES, 72, 16, "in");
}

/* How much a value of the project must change for each step the marks are apart. */
static char *
correction (const BwStoneMeasures *stone, const BwStripMarks *marks, BwUnit unit)
{
  double sum = 0;
  int n = bw_stone_value_count (stone->measured, stone->faces);
  for (int i = 0; i < n; i++)
    sum += stone->values_mm[i];
  g_autofree char *each
      = bw_text_length (sum / n / marks->girth_mm * bw_sheet_each_mm (unit), unit, 2);
  switch (stone->measured) {
  case BW_MEASURED_ACROSS_FLATS:
    return g_strdup_printf (_ ("each distance across the flats by %s"), each);
  case BW_MEASURED_FACE_WIDTHS:
    return g_strdup_printf (_ ("each face's width by %s"), each);
  case BW_MEASURED_GIRTH:
    break;
  }
  return g_strdup_printf (_ ("the girth by %s"), each);
}

static void
add_corrections (BwFlow *flow, BwProject *project, const BwStripMarks *marks)
{
  g_autofree char *values = correction (&bw_project_get_design (project)->stone, marks, flow->unit);
  g_autofree char *each = bw_sheet_each_words (flow->unit);
  g_autofree char *paper = bw_text_length (BW_PAPER_OFF_MM, flow->unit, 1);
  g_autofree char *gap = g_strdup_printf (_ ("The end mark does not reach the beginning: the stone "
                                             "is thicker than the project says. For "
                                             "each %s that is missing enlarge %s."),
                                          each, values);
  g_autofree char *over = g_strdup_printf (
      _ ("The end mark lies beyond the beginning: the stone is thinner. For each %s of "
         "overlap reduce %s."),
      each, values);
  const char *sign = bw_text_unit (flow->unit);
  g_autofree char *read = g_strdup_printf (
      _ ("Read the scale where the first edge of the strip comes to lie: that far it is round the "
         "stone at this height. Stone: ________ %s. Bed: ________ %s. Up to %s is the paper's."),
      sign, sign, paper);
  bw_flow_heading (flow, _ ("When the marks do not meet"), 40);
  bw_flow_text (flow, BW_TYPE_TEXT, read);
  bw_flow_item (flow, "·", gap, 10);
  bw_flow_item (flow, "·", over, 10);
  bw_flow_item (
      flow, "·",
      _ ("The marks meet on the line in the middle, but not at the upper or the lower edge: "
         "the taper is wrong. Measure the second girth again, with its height."),
      10);
  bw_flow_item (flow, "·",
                _ ("They meet, but the edges of the stone do not lie under the lines between the "
                   "faces: measure each face by itself."),
                10);
}

BwSheet *
bw_strip_new (BwProject *project, BwPaper paper)
{
  BwFlow flow;
  BwStripMarks marks;
  bw_strip_marks_init (&marks, project);
  bw_flow_init (&flow, bw_sheet_alloc (project, paper, _ ("Paper strip"), TRUE), project);
  bw_sheet_add_title (&flow);
  bw_flow_space (&flow, 4);
  bw_flow_figure (&flow, wants_inches (paper) ? 2 * RULER : RULER, draw_rulers, flow.sheet);
  bw_flow_heading (&flow, _ ("Round the bare stone"), marks.width_mm * MM + 60);
  bw_flow_text (
      &flow, BW_TYPE_TEXT,
      _ ("Cut along the dashed edges and leave the grey tab. Lay the first mark where the "
         "join should be, wrap the strip round the stone at the height written on it, snug "
         "and without force, the tab under the beginning. It fits when the two marks called "
         "join meet on the line, and every edge of the stone lies under a line."));
  if (marks.girth_mm > flow.width / MM - TAB_MM)
    bw_flow_text (&flow, BW_TYPE_TEXT,
                  _ ("It is longer than the paper: glue the pieces together first, each with its "
                     "left edge on the line before the grey tab of the piece before."));
  add_strip (&flow, &marks, FALSE);
  if (marks.over_mm > marks.girth_mm + 0.05) {
    bw_flow_heading (&flow, _ ("Round the wound bed"), 100);
    bw_flow_text (
        &flow, BW_TYPE_TEXT,
        _ ("Wrapped round the bed half way up the band: the marks meet when the bed is as "
           "thick as planned. If they do not, read the scale and put that girth over the bed "
           "into the project."));
    add_strip (&flow, &marks, TRUE);
  }
  add_corrections (&flow, project, &marks);
  return bw_flow_finish (&flow);
}
