/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Most motifs are a rule for one bead: where it lies in its repeat and in its column decides the
 * colour. The place in the repeat is taken from the whole ring, so every rule closes at the join
 * whatever the row count. */
#include "core/pattern/motif.h"

#include "core/pattern/lettering.h"
#include "core/base/fault.h"
#include "core/base/lattice.h"
#include "core/base/tolerance.h"
#include <math.h>
#include <string.h>

#define FACES_CLOSE 1e-6 /* of the way round: faces come from a file, written with fewer digits */
#define CENTRE_MOST 1e6  /* pitches, either way: counts stay far from the ends of an int */

/* Half pitches: between a text and itself, and from a letter to the edge of its ground. */
#define LETTER_MARGIN 2

/* A bead as the rules see it. */
typedef struct {
  double turn;   /* place in the repeat, −½..½, 0 in its middle */
  double along;  /* the same in half pitches */
  double up;     /* columns above the middle of the worked columns */
  double height; /* columns above the lower edge of the worked columns, 0-based */
  int row, column;
  const BwLettering *lettering; /* of letters */
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

/* Colours in turn by a running band number, any sign. Every rule gives a colour's place. */
static int
in_turn (const BwMotif *motif, double position)
{
  int n = motif->n_colours;
  int band = (int)fmod (floor (position + BW_ROUNDING_WHOLE), n);
  return band < 0 ? band + n : band;
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
  return (int)MIN (ring, motif->n_colours - 1);
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
  return (int)(mix (h, motif->seed, 7) % (guint32)motif->n_colours);
}

static int
border (const BwMotif *motif, const Bead *bead)
{
  double edge = MIN (bead->height, motif->last_column - bead->column);
  if (edge >= motif->size)
    return BW_MOTIF_LEAVE;
  return (int)MIN (edge, motif->n_colours - 1);
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
  return (int)CLAMP (floor (wish + lift), 0, motif->n_colours - 1);
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

/* The text stands in the middle of its repeat, or half a half pitch beside it where the lattice has
 * no bead there: the beads of a repeat are all moved alike. The ground is a bead wider on both
 * sides. */
static int
letters (const BwMotif *motif, const Bead *bead)
{
  const BwLettering *l = bead->lettering;
  int y = bead->column - motif->first_column;
  int x = (int)floor (bead->along + 0.5) + l->length / 2 - 1;
  if (l->unit <= 0)
    x -= abs (x + y - l->foot) % 2;
  gboolean under = x >= -LETTER_MARGIN && x <= l->length - 2 + LETTER_MARGIN;
  if (under && bw_lettering_inked (l, x, y))
    return 0;
  return motif->n_colours > 1 && under ? 1 : BW_MOTIF_LEAVE;
}

/* Half pitches that the repeat, or the narrowest face, leaves on both sides of the middle together.
 */
static int
room_for_text (const BwMotif *motif, int rows)
{
  double ring = MAX (2, rows - rows % 2), room = ring / motif->repeats;
  for (int i = 0; i < motif->n_faces; i++) {
    double begin = 2 * motif->face_end[(i + motif->n_faces - 1) % motif->n_faces];
    double middle = wrap_ring (2 * motif->face_middle[i] - begin, ring);
    double end = wrap_ring (2 * (motif->face_end[i] - motif->face_middle[i]), ring);
    room = MIN (i ? room : ring, 2 * MIN (middle, end));
  }
  return (int)floor (room + FACES_CLOSE);
}

BwMotifRoom
bw_motif_room (const BwMotif *motif, int rows)
{
  BwLettering l = bw_lettering_set (motif->text, motif->last_column - motif->first_column + 1);
  int around = motif->n_colours > 1 ? 2 * LETTER_MARGIN : LETTER_MARGIN;
  return (BwMotifRoom){ l.height, l.length + around, room_for_text (motif, rows) };
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
  if (!g_utf8_validate (text, -1, NULL) || !*text)
    return bw_fault_is (fault, BW_FAULTY_NO_TEXT, BW_AT_MOTIF_TEXT, 0, 0, 0);
  gunichar unknown = bw_lettering_unknown (text);
  if (unknown)
    return bw_fault_is (fault, BW_FAULTY_NO_LETTER, BW_AT_MOTIF_TEXT, unknown, 0, 0);
  return TRUE;
}

/* The text fits in height, and beside itself: nothing is ever cut. */
static gboolean
check_lettering (const BwMotif *motif, int rows, BwFault *fault)
{
  int columns = motif->last_column - motif->first_column + 1;
  if (!check_text (motif->text, fault))
    return FALSE;
  if (columns < bw_lettering_needs (motif->text))
    return bw_fault_is (fault, BW_FAULTY_TEXT_HIGH, BW_AT_MOTIF_TEXT,
                        bw_lettering_needs (motif->text), columns, 0);
  BwMotifRoom room = bw_motif_room (motif, rows);
  if (room.needs > room.has)
    return bw_fault_is (fault, BW_FAULTY_TEXT_LONG, BW_AT_MOTIF_TEXT, room.needs, room.has, 0);
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
         && (motif->kind != BW_MOTIF_LETTERS || check_lettering (motif, rows, fault));
}

gboolean
bw_motif_has_ground (BwMotifKind kind)
{
  return kind != BW_MOTIF_BLEND && kind != BW_MOTIF_SCATTER && kind != BW_MOTIF_BORDER
         && kind != BW_MOTIF_LETTERS;
}

static gboolean
leaves_ground (const BwMotif *motif)
{
  return motif->leaves_ground && motif->n_colours > 1 && bw_motif_has_ground (motif->kind);
}

gboolean
bw_motif_covers (const BwMotif *motif)
{
  return (bw_motif_has_ground (motif->kind) || motif->kind == BW_MOTIF_BLEND)
         && !leaves_ground (motif);
}

/* The colour of a bead, or BW_MOTIF_LEAVE. */
static int
colour_at (const BwMotif *motif, const Bead *bead)
{
  int place = rules[motif->kind](motif, bead);
  if (place == BW_MOTIF_LEAVE || (place == motif->n_colours - 1 && leaves_ground (motif)))
    return BW_MOTIF_LEAVE;
  return motif->colour[place];
}

void
bw_motif_draw (const BwMotif *motif, BwDrawing *drawing)
{
  int columns = bw_drawing_columns (drawing), rows = bw_drawing_rows (drawing);
  if (motif->kind == BW_MOTIF_BLEND && motif->dither == BW_DITHER_DIFFUSED) {
    blend_diffused (motif, drawing);
    return;
  }
  BwLettering lettering = { 0 };
  if (motif->kind == BW_MOTIF_LETTERS)
    lettering = bw_lettering_set (motif->text, motif->last_column - motif->first_column + 1);
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      if (column < motif->first_column || column > motif->last_column)
        continue;
      Bead bead = bead_at (motif, rows, row, column);
      bead.lettering = &lettering;
      int colour = colour_at (motif, &bead);
      if (colour != BW_MOTIF_LEAVE)
        bw_drawing_set (drawing, row, column, (guint8)colour);
    }
}
