/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/pattern/lettering.h"

#include "core/pattern/accent.h"
#include "core/pattern/alphabet.h"
#include "core/pattern/letter-cuts.h"
#include <math.h>

#define STROKES_FROM 9 /* columns; below them strokes run into one another */
#define STROKES 28     /* more than any letter has, its accent included */

/* Over the small letters the two dots can be told apart, a slanting accent cannot: it wants tall
 * ones. */
#define SMALL_ACCENT 2

/* Letter for letter: room for one bead between the widest places of two, and as much as a letter
 * for a blank. */
#define CUT_SPACE 2
#define CUT_BLANK 6

/* Between two letters, in units of the stroke alphabet. */
#define LETTER_SPACE 4
/* The pen is a circle on the stone: half a unit either way as the letters grow, less by what beads
 * add at its edge, and never so thin that a slant breaks. It stands half a half pitch off the
 * lattice, so that a thin upright takes one bead of every column: those on it and, in between,
 * those on one side of it. Half a pitch is so many columns (beads of the usual size, 0.8 mm
 * to 1.3). */
#define PEN_LEAST 0.6
#define PEN_UNITS 0.5
#define PEN_EDGE 0.1
#define PEN_SHIFT 0.5
#define HALF_PITCH 0.6

gunichar
bw_lettering_unknown (const char *text)
{
  for (const char *c = text; *c; c = g_utf8_next_char (c)) {
    gunichar character = g_utf8_get_char (c);
    if (bw_alphabet_strokes (bw_accent_apart (character).letter, NULL, 0) < 0)
      return character;
  }
  return 0;
}

static int
accent_columns (const char *text)
{
  int columns = 0;
  for (const char *c = text; *c; c = g_utf8_next_char (c))
    columns = MAX (columns, bw_accent_columns (bw_accent_apart (g_utf8_get_char (c)).mark));
  return columns;
}

int
bw_lettering_needs (const char *text)
{
  int accents = accent_columns (text);
  return accents + (accents > SMALL_ACCENT ? BW_CUT_TALL : BW_CUT_SMALL);
}

/* --- bead for bead -------------------------------------------------------------------------- */

/* A letter and its accent, pushed to the right where the accent overhangs it. */
static int
cut_beads (gunichar character, int height, BwLetterBead *beads)
{
  BwAccented parts = bw_accent_apart (character);
  int n = MAX (0, bw_letter_cut (parts.letter, height, beads)), width = 0, left = 0;
  for (int i = 0; i < n; i++)
    width = MAX (width, beads[i].x);
  if (parts.mark)
    n += bw_accent_beads (parts.mark, width, height, beads + n);
  for (int i = 0; i < n; i++)
    left = MIN (left, beads[i].x);
  for (int i = 0; i < n; i++)
    beads[i].x += (1 - left) / 2 * 2;
  return n;
}

/* Even, so that every letter stands on the lattice as the first one does. */
static int
cut_width (gunichar character, int height)
{
  BwLetterBead beads[BW_CUT_BEADS];
  int n = cut_beads (character, height, beads), right = 0;
  for (int i = 0; i < n; i++)
    right = MAX (right, beads[i].x + 2);
  return n ? (right + 1) / 2 * 2 : CUT_BLANK;
}

static gboolean
cut_inked (gunichar character, int height, int x, int y)
{
  BwLetterBead beads[BW_CUT_BEADS];
  int n = cut_beads (character, height, beads);
  for (int i = 0; i < n; i++)
    if (beads[i].x == x && beads[i].y == y)
      return TRUE;
  return FALSE;
}

/* --- by strokes ----------------------------------------------------------------------------- */

static double
distance_to (const BwStroke *s, double x, double y)
{
  double dx = s->x1 - s->x0, dy = s->y1 - s->y0, square = dx * dx + dy * dy;
  double t = square > 0 ? ((x - s->x0) * dx + (y - s->y0) * dy) / square : 0;
  t = CLAMP (t, 0, 1);
  return hypot (x - s->x0 - t * dx, y - s->y0 - t * dy);
}

static double
pen_reach (double unit)
{
  return MAX (PEN_LEAST, PEN_UNITS * unit - PEN_EDGE);
}

/* A place of the box on the lattice, so that uprights inside a letter are unbroken too; to the left
 * and to the right of the letter's middle alike. */
static double
on_half_pitch (double x, double middle, double unit)
{
  double aside = (x - middle) * unit;
  return round (middle * unit) + copysign (ceil (fabs (aside) - 0.5), aside);
}

static int
stroke_width (gunichar character, double unit)
{
  double width = bw_alphabet_width (bw_accent_apart (character).letter);
  return (int)on_half_pitch (width, width / 2, unit);
}

static int
strokes_of (gunichar character, BwStroke *strokes)
{
  BwAccented parts = bw_accent_apart (character);
  int n = bw_alphabet_strokes (parts.letter, strokes, STROKES);
  if (parts.mark)
    n += bw_accent_strokes (parts.mark, bw_alphabet_width (parts.letter), strokes + n, STROKES - n);
  return n;
}

/* Whether the pen inks a bead at x half pitches in column y. The pen's own thickness stays inside
 * the columns. */
static gboolean
stroke_inked (const BwLettering *l, gunichar character, double x, double y)
{
  BwStroke strokes[STROKES];
  int n = strokes_of (character, strokes);
  double middle = bw_alphabet_width (bw_accent_apart (character).letter) / 2;
  double inset = floor (l->reach);
  for (int i = 0; i < n; i++) {
    const BwStroke *s = &strokes[i];
    BwStroke set
        = { on_half_pitch (s->x0, middle, l->unit) * HALF_PITCH, inset + round (s->y0 * l->unit),
            on_half_pitch (s->x1, middle, l->unit) * HALF_PITCH, inset + round (s->y1 * l->unit) };
    if (distance_to (&set, (x + PEN_SHIFT) * HALF_PITCH, y) <= l->reach)
      return TRUE;
  }
  return FALSE;
}

/* --- the line ------------------------------------------------------------------------------- */

/* From one letter's left edge to the next one's, whole half pitches. */
static int
advance (const BwLettering *l, gunichar character)
{
  if (l->unit > 0)
    return stroke_width (character, l->unit) + (int)round (LETTER_SPACE * l->unit);
  return cut_width (character, l->height) + CUT_SPACE;
}

/* Half pitches by which the pen's thickness reaches out to the left (1) or right (−1) of a stroke.
 */
static int
overhang (const BwLettering *l, int side)
{
  return l->unit > 0 ? (int)floor (l->reach / HALF_PITCH + side * PEN_SHIFT) : 0;
}

static void
measure (BwLettering *l)
{
  int space = l->unit > 0 ? (int)round (LETTER_SPACE * l->unit) - 2 : CUT_SPACE;
  for (const char *c = l->text; *c; c = g_utf8_next_char (c))
    l->length += advance (l, g_utf8_get_char (c));
  l->length = MAX (0, l->length - space) + overhang (l, 1) + overhang (l, -1);
}

/* As large as they can be, the pen's thickness taken off above and below. */
static void
set_strokes (BwLettering *l, gboolean accents)
{
  double box = BW_GLYPH_HEIGHT + (accents ? BW_ACCENT_UNITS : 0);
  l->reach = pen_reach ((l->columns - 1) / box);
  double inset = floor (l->reach);
  l->unit = (l->columns - 1 - 2 * inset) / box;
  l->height = 1 + (int)round (BW_GLYPH_HEIGHT * l->unit) + 2 * (int)inset;
}

BwLettering
bw_lettering_set (const char *text, int columns)
{
  BwLettering l = { .text = text, .columns = columns };
  int accents = accent_columns (text), room = columns - accents;
  if (room >= STROKES_FROM + (accents > 0)) {
    set_strokes (&l, accents > 0);
  } else {
    l.height = room >= BW_CUT_TALL ? BW_CUT_TALL : BW_CUT_SMALL;
    l.foot = (room - l.height) / 2;
  }
  measure (&l);
  return l;
}

gboolean
bw_lettering_inked (const BwLettering *l, int x, int y)
{
  x -= overhang (l, 1);
  for (const char *c = l->text; *c; c = g_utf8_next_char (c)) {
    gunichar character = g_utf8_get_char (c);
    gboolean inked = l->unit > 0 ? stroke_inked (l, character, x, y)
                                 : cut_inked (character, l->height, x, y - l->foot);
    if (inked)
      return TRUE;
    x -= advance (l, character);
  }
  return FALSE;
}
