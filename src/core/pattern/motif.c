/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Most motifs are a rule for one bead: where it lies in its repeat and in its column decides the
 * colour. The place in the repeat is taken from the whole ring, so every rule closes at the join
 * whatever the row count. */
#include "core/pattern/motif.h"

#include "core/pattern/alphabet.h"
#include "core/base/fault.h"
#include "core/base/lattice.h"
#include "core/base/tolerance.h"
#include <math.h>
#include <string.h>

#define FACES_CLOSE 1e-6 /* of the way round: faces come from a file, written with fewer digits */
#define CENTRE_MOST 1e6  /* pitches, either way: counts stay far from the ends of an int */

/* Room between letters, in units of the alphabet's box: four half pitches where the box is
 * smallest, so that a bead of every column stays free between two uprights. A unit is one column
 * high and so many half pitches wide, since beads stand closer along the ring than across it. */
#define LETTER_SPACE 2.7
#define LETTER_WIDTH 1.5
#define BOX_MIDDLE 2.0 /* of the alphabet's box */
/* The pen reaches this far. It stands half a half pitch off the lattice, so that an upright stroke
 * takes one bead of every column: those on it and, in between, those on one side of it. */
#define PEN_REACH 0.75
#define PEN_SHIFT 0.5

/* A bead as the rules see it. */
typedef struct {
  double turn;   /* place in the repeat, −½..½, 0 in its middle */
  double along;  /* the same in half pitches */
  double up;     /* columns above the middle of the worked columns */
  double height; /* columns above the lower edge of the worked columns, 0-based */
  int row, column;
} Bead;

static double
wrap_half (double x)
{
  return x - floor (x + 0.5);
}

static double
wrap_ring (double x, double ring)
{
  return x - ring * floor (x / ring);
}

/* Where a bead lies in its face: the two halves of a face are stretched apart when its middle is
 * not midway, which on the band it seldom is. */
static void
place_in_face (const BwMotif *motif, double ring, Bead *bead)
{
  double at = bead->row - 1;
  for (int i = 0; i < motif->n_faces; i++) {
    double begin = 2 * motif->face_end[(i + motif->n_faces - 1) % motif->n_faces];
    double from = wrap_ring (at - begin, ring),
           width = wrap_ring (2 * motif->face_end[i] - begin, ring);
    double middle = wrap_ring (2 * motif->face_middle[i] - begin, ring);
    if (motif->n_faces == 1)
      width = ring;
    if (from >= width)
      continue;
    bead->along = from - middle;
    bead->turn = bead->along / (2 * (bead->along < 0 ? middle : width - middle));
    return;
  }
}

static Bead
bead_at (const BwMotif *motif, int rows, int row, int column)
{
  double ring = MAX (2, rows - rows % 2);
  Bead bead = { .row = row, .column = column };
  bead.turn = wrap_half ((row - 1 - 2 * motif->centre) / ring * motif->repeats);
  bead.along = bead.turn * ring / motif->repeats;
  if (motif->n_faces > 0)
    place_in_face (motif, ring, &bead);
  bead.up = column - (motif->first_column + motif->last_column) / 2.0;
  bead.height = column - motif->first_column;
  return bead;
}

/* Colours in turn by a running band number, any sign. */
static int
in_turn (const BwMotif *motif, double position)
{
  int n = motif->n_colours;
  int band = (int)fmod (floor (position + BW_ROUNDING_WHOLE), n);
  return motif->colour[band < 0 ? band + n : band];
}

/* Up and down once in a repeat: 1 in the middle, 0 at its ends. */
static double
tent (double turn)
{
  return 1 - 2 * fabs (turn);
}

static int
bars (const BwMotif *motif, const Bead *bead)
{
  return in_turn (motif, (bead->turn + 0.5) * motif->n_colours);
}

static int
steps (const BwMotif *motif, const Bead *bead)
{
  double treads = MAX (1, round (motif->reach / motif->size));
  double level = floor (tent (bead->turn) * treads + BW_ROUNDING_WHOLE) * motif->size;
  return in_turn (motif, (bead->height - level) / motif->size);
}

static int
chevrons (const BwMotif *motif, const Bead *bead)
{
  return in_turn (motif, (bead->height + fabs (bead->along) * motif->slope) / motif->size);
}

static int
diamonds (const BwMotif *motif, const Bead *bead)
{
  double ring = floor ((fabs (bead->along) + fabs (bead->up)) / motif->size + BW_ROUNDING_WHOLE);
  return motif->colour[(int)MIN (ring, motif->n_colours - 1)];
}

static int
waves (const BwMotif *motif, const Bead *bead)
{
  double swing = motif->reach * cos (2 * G_PI * bead->turn);
  return in_turn (motif, (bead->up - swing) / motif->size + 0.5);
}

/* Once through all colours a repeat: whole numbers of bands round the ring, so it closes. */
static int
spiral (const BwMotif *motif, const Bead *bead)
{
  double lean = motif->slope < 0 ? -1 : 1;
  return in_turn (motif, bead->height / motif->size + lean * bead->turn * motif->n_colours);
}

/* A fixed mixing of three numbers into 32 bits: the same bead, seed and answer everywhere. */
static guint32
mix (guint32 a, guint32 b, guint32 c)
{
  guint32 h = a * 0x9e3779b1u ^ b * 0x85ebca77u ^ c * 0xc2b2ae3du;
  h ^= h >> 15;
  h *= 0x2c1b3c6du;
  h ^= h >> 12;
  h *= 0x297a2d39u;
  return h ^ h >> 15;
}

static int
scatter (const BwMotif *motif, const Bead *bead)
{
  guint32 h = mix ((guint32)bead->row, (guint32)bead->column, motif->seed);
  if (h / 4294967296.0 >= motif->density)
    return BW_MOTIF_LEAVE;
  return motif->colour[mix (h, motif->seed, 7) % (guint32)motif->n_colours];
}

static int
border (const BwMotif *motif, const Bead *bead)
{
  double edge = MIN (bead->height, motif->last_column - bead->column);
  if (edge >= motif->size)
    return BW_MOTIF_LEAVE;
  return motif->colour[(int)MIN (edge, motif->n_colours - 1)];
}

/* --- blend ---------------------------------------------------------------------------------- */

/* 0..n−1: which of the colours in a row the bead wants, fractional. */
static double
blend_wish (const BwMotif *motif, const Bead *bead)
{
  double span = motif->last_column - motif->first_column;
  return span > 0 ? bead->height / span * (motif->n_colours - 1) : 0;
}

/* An ordered threshold on the half-drop lattice: four columns by eight rows of evenly spread
 * values, neighbours as far apart as they can be. */
static double
threshold (int row, int column)
{
  static const guint8 order[4][4]
      = { { 0, 8, 2, 10 }, { 12, 4, 14, 6 }, { 3, 11, 1, 9 }, { 15, 7, 13, 5 } };
  return (order[column % 4][(row / 2) % 4] + 0.5) / 16;
}

static int
blend_ordered (const BwMotif *motif, const Bead *bead)
{
  double wish = blend_wish (motif, bead);
  double lift = motif->dither == BW_DITHER_ORDERED ? threshold (bead->row, bead->column) : 0.5;
  return motif->colour[(int)CLAMP (floor (wish + lift), 0, motif->n_colours - 1)];
}

/* What a bead could not show is handed to the bead above in its own row and to the two it touches
 * in the next row: shares 1/2, 1/4, 1/4. Beads at the upper edge keep what they cannot hand on. */
static void
hand_on (double *error, int columns, int row, int column, double rest)
{
  double *same = error + (row % 2) * (columns + 3), *next = error + ((row + 1) % 2) * (columns + 3);
  if (column + 2 <= columns)
    same[column + 2] += rest / 2;
  next[column + 1] += rest / 4;
  next[column - 1] += rest / 4;
}

static void
blend_diffused (const BwMotif *motif, BwDrawing *drawing)
{
  int columns = bw_drawing_columns (drawing), rows = bw_drawing_rows (drawing);
  g_autofree double *error = g_new0 (double, 2 * (columns + 3));
  for (int row = 1; row <= rows; row++) {
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      if (column < motif->first_column || column > motif->last_column)
        continue;
      Bead bead = bead_at (motif, rows, row, column);
      double wish = blend_wish (motif, &bead) + error[(row % 2) * (columns + 3) + column];
      double shown = CLAMP (round (wish), 0, motif->n_colours - 1);
      bw_drawing_set (drawing, row, column, motif->colour[(int)shown]);
      hand_on (error, columns, row, column, wish - shown);
    }
    memset (error + (row % 2) * (columns + 3), 0, sizeof (double) * (gsize)(columns + 3));
  }
}

/* --- letters -------------------------------------------------------------------------------- */

/* From one letter's corner to the next one's, whole half pitches: every letter stands on the
 * lattice as the first one does. `wide` is a unit in half pitches. */
static double
advance (gunichar character, double wide)
{
  return round ((bw_alphabet_width (character) + LETTER_SPACE) * wide);
}

static double
text_half_pitches (const char *text, double wide)
{
  double width = 0;
  for (const char *c = text; *c; c = g_utf8_next_char (c))
    width += advance (g_utf8_get_char (c), wide);
  return MAX (0, width - round (LETTER_SPACE * wide));
}

/* One unit of the box in columns when the text is `height` columns high. */
static double
unit_columns (int height)
{
  return MAX (1, height - 1) / BW_GLYPH_HEIGHT;
}

double
bw_motif_text_pitches (const char *text, int height)
{
  return text_half_pitches (text, unit_columns (height) * LETTER_WIDTH) / 2;
}

static double
distance_to (const BwStroke *s, double x, double y)
{
  double dx = s->x1 - s->x0, dy = s->y1 - s->y0, square = dx * dx + dy * dy;
  double t = square > 0 ? ((x - s->x0) * dx + (y - s->y0) * dy) / square : 0;
  t = CLAMP (t, 0, 1);
  return hypot (x - s->x0 - t * dx, y - s->y0 - t * dy);
}

/* A place of the box on the lattice, so that uprights inside a letter are unbroken too; to the left
 * and to the right of the box's middle alike. */
static double
on_half_pitch (double units, double wide)
{
  double aside = (units - BOX_MIDDLE) * wide;
  return round (BOX_MIDDLE * wide) + copysign (ceil (fabs (aside) - 0.5), aside);
}

/* Whether the pen inks a bead at (x, y) in half pitches and columns from the character's corner. */
static gboolean
inked (gunichar character, double x, double y, double unit)
{
  BwStroke strokes[24];
  int n = bw_alphabet_strokes (character, strokes, G_N_ELEMENTS (strokes));
  double wide = unit * LETTER_WIDTH, reach = MAX (PEN_REACH, 0.45 * unit);
  for (int i = 0; i < n; i++) {
    BwStroke s = { on_half_pitch (strokes[i].x0, wide), strokes[i].y0 * unit,
                   on_half_pitch (strokes[i].x1, wide), strokes[i].y1 * unit };
    if (distance_to (&s, x, y) <= reach)
      return TRUE;
  }
  return FALSE;
}

static int
letters (const BwMotif *motif, const Bead *bead)
{
  double unit = unit_columns (motif->last_column - motif->first_column + 1);
  double wide = unit * LETTER_WIDTH;
  double x = round (bead->along) + PEN_SHIFT + floor (text_half_pitches (motif->text, wide) / 2);
  for (const char *c = motif->text; *c; c = g_utf8_next_char (c)) {
    gunichar character = g_utf8_get_char (c);
    if (inked (character, x, bead->height, unit))
      return motif->colour[0];
    x -= advance (character, wide);
  }
  return BW_MOTIF_LEAVE;
}

/* --- the whole ------------------------------------------------------------------------------ */

static int
stripes (const BwMotif *motif, const Bead *bead)
{
  return in_turn (motif, bead->height / motif->size);
}

static int (*const rules[BW_N_MOTIFS]) (const BwMotif *motif, const Bead *bead) = {
  [BW_MOTIF_STRIPES] = stripes,   [BW_MOTIF_BARS] = bars,           [BW_MOTIF_STEPS] = steps,
  [BW_MOTIF_CHEVRONS] = chevrons, [BW_MOTIF_DIAMONDS] = diamonds,   [BW_MOTIF_WAVES] = waves,
  [BW_MOTIF_SPIRAL] = spiral,     [BW_MOTIF_BLEND] = blend_ordered, [BW_MOTIF_SCATTER] = scatter,
  [BW_MOTIF_BORDER] = border,     [BW_MOTIF_LETTERS] = letters,
};

void
bw_motif_init (BwMotif *motif, BwMotifKind kind, int columns, int rows)
{
  *motif = (BwMotif){ .kind = kind,
                      .n_colours = 2,
                      .colour = { 0, 1 },
                      .first_column = 1,
                      .last_column = columns,
                      .repeats = kind == BW_MOTIF_LETTERS || rows < 24 ? 1 : 6,
                      .centre = 0,
                      .size = kind == BW_MOTIF_BORDER ? 1 : 2,
                      .reach = MAX (1, columns / 3),
                      .slope = 1,
                      .density = 0.15,
                      .seed = 1,
                      .dither = BW_DITHER_ORDERED,
                      .text = "2026" };
  if (kind == BW_MOTIF_LETTERS && columns > 9) {
    motif->first_column = (columns - 7) / 2 + 1;
    motif->last_column = motif->first_column + 6;
  }
}

void
bw_motif_set_faces (BwMotif *motif, int n_faces, const double *middle, const double *corner)
{
  g_return_if_fail (n_faces >= 0 && n_faces <= BW_FACES_MAX);
  motif->n_faces = n_faces;
  for (int i = 0; i < n_faces; i++) {
    motif->face_middle[i] = round (2 * middle[i]) / 2;
    motif->face_end[i] = corner[i];
  }
}

/* Each face has room on both sides of its middle. */
static gboolean
check_faces (const BwMotif *motif, int rows, BwFault *fault)
{
  double ring = MAX (2, rows - rows % 2) / 2.0, sum = 0;
  for (int i = 0; i < motif->n_faces; i++) {
    double begin = motif->face_end[(i + motif->n_faces - 1) % motif->n_faces];
    double width = motif->n_faces == 1 ? ring : wrap_ring (motif->face_end[i] - begin, ring);
    double middle = wrap_ring (motif->face_middle[i] - begin, ring);
    sum += width;
    if (middle > 0 && middle < width)
      continue;
    return bw_fault_is (fault, BW_FAULTY_FACE_NARROW, BW_AT_MOTIF_FACES, i, 0, 0);
  }
  if (motif->n_faces == 0 || fabs (sum - ring) < FACES_CLOSE * ring)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_FACES_OPEN, BW_AT_MOTIF_FACES, 0, 0, 0);
}

static gboolean
check_text (const char *text, BwFault *fault)
{
  if (!g_utf8_validate (text, -1, NULL) || !*text) {
    return bw_fault_is (fault, BW_FAULTY_NO_TEXT, BW_AT_MOTIF_TEXT, 0, 0, 0);
  }
  for (const char *c = text; *c; c = g_utf8_next_char (c)) {
    if (bw_alphabet_strokes (g_utf8_get_char (c), NULL, 0) >= 0)
      continue;
    return bw_fault_is (fault, BW_FAULTY_NO_LETTER, BW_AT_MOTIF_TEXT, g_utf8_get_char (c), 0, 0);
  }
  return TRUE;
}

gboolean
bw_motif_validate (const BwMotif *motif, int columns, int rows, BwFault *fault)
{
  int least = motif->kind == BW_MOTIF_BLEND ? 2 : 1;
  return bw_check_range (motif->n_colours, least, BW_MOTIF_COLOURS, BW_AT_MOTIF_COLOURS, fault)
         && bw_check_range (motif->first_column, 1, columns, BW_AT_MOTIF_FIRST_COLUMN, fault)
         && bw_check_range (motif->last_column, motif->first_column, columns,
                            BW_AT_MOTIF_LAST_COLUMN, fault)
         && bw_check_range (motif->repeats, 1, MAX (1, rows / 2), BW_AT_MOTIF_REPEATS, fault)
         && bw_check_range (motif->centre, -CENTRE_MOST, CENTRE_MOST, BW_AT_MOTIF_CENTRE, fault)
         && bw_check_range (motif->size, 0.25, 1000, BW_AT_MOTIF_SIZE, fault)
         && bw_check_range (motif->reach, 0, 1000, BW_AT_MOTIF_REACH, fault)
         && bw_check_range (motif->slope, -100, 100, BW_AT_MOTIF_SLOPE, fault)
         && bw_check_range (motif->density, 0, 1, BW_AT_MOTIF_DENSITY, fault)
         && bw_check_range (motif->n_faces, 0, BW_FACES_MAX, BW_AT_MOTIF_FACES, fault)
         && check_faces (motif, rows, fault)
         && (motif->kind != BW_MOTIF_LETTERS || check_text (motif->text, fault));
}

void
bw_motif_draw (const BwMotif *motif, BwDrawing *drawing)
{
  int columns = bw_drawing_columns (drawing), rows = bw_drawing_rows (drawing);
  if (motif->kind == BW_MOTIF_BLEND && motif->dither == BW_DITHER_DIFFUSED) {
    blend_diffused (motif, drawing);
    return;
  }
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      if (column < motif->first_column || column > motif->last_column)
        continue;
      Bead bead = bead_at (motif, rows, row, column);
      int colour = rules[motif->kind](motif, &bead);
      if (colour != BW_MOTIF_LEAVE)
        bw_drawing_set (drawing, row, column, (guint8)colour);
    }
}
