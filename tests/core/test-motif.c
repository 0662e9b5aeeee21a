/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Motifs by what a maker expects of them: they close at the join, keep to their columns, and are
 * what their name says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "core/base/fault.h"
#include "core/base/lattice.h"
#include "core/pattern/motif.h"

#define UNTOUCHED 99

static BwDrawing *
worked (const BwMotif *motif, int columns, int rows)
{
  BwDrawing *drawing = bw_drawing_new (columns, rows, UNTOUCHED);
  BwFault fault;
  if (!bw_motif_validate (motif, columns, rows, &fault))
    fail_msg ("fault %d at key %d", fault.kind, fault.key);
  bw_motif_draw (motif, drawing);
  return drawing;
}

static BwMotif
random_motif (GRand *dice, BwMotifKind kind, int columns, int rows)
{
  BwMotif motif;
  bw_motif_init (&motif, kind, columns, rows);
  motif.n_colours = g_rand_int_range (dice, 2, 5);
  for (int i = 0; i < motif.n_colours; i++)
    motif.colour[i] = (guint8)(10 + i);
  motif.size = g_rand_int_range (dice, 1, 4);
  motif.seed = g_rand_int (dice);
  return motif;
}

static gboolean
is_own_colour (const BwMotif *motif, guint8 colour)
{
  return memchr (motif->colour, colour, (gsize)motif->n_colours) != NULL;
}

static void
a_motif_uses_its_own_colours_and_its_own_columns_alone (void **state)
{
  GRand *dice = g_rand_new_with_seed (3);
  for (int i = 0; i < 300; i++) {
    int columns = 2 * g_rand_int_range (dice, 3, 11), rows = 2 * g_rand_int_range (dice, 12, 70);
    BwMotif motif = random_motif (dice, (BwMotifKind)(i % BW_N_MOTIFS), columns, rows);
    motif.first_column = g_rand_int_range (dice, 1, columns / 2);
    motif.last_column = g_rand_int_range (dice, motif.first_column + 1, columns + 1);
    motif.dither = (BwDither)(i % 3);
    if (motif.kind == BW_MOTIF_LETTERS) {
      motif.first_column = 1;
      motif.last_column = MAX (5, motif.last_column);
      strcpy (motif.text, "I");
    }
    g_autoptr (BwDrawing) drawing = worked (&motif, columns, rows);
    for (int row = 1; row <= rows; row++)
      for (int j = 0; j < columns / 2; j++) {
        int column = bw_lattice_column (row, j);
        guint8 colour = bw_drawing_get (drawing, row, column);
        gboolean inside = column >= motif.first_column && column <= motif.last_column;
        assert_true (colour == UNTOUCHED || (inside && is_own_colour (&motif, colour)));
      }
  }
  g_rand_free (dice);
}

/* Rotating the motif by whole repeats must change nothing, also across the join. */
static void
a_motif_whose_repeat_divides_the_ring_repeats_across_the_join (void **state)
{
  static const BwMotifKind kinds[]
      = { BW_MOTIF_STRIPES,  BW_MOTIF_BARS,  BW_MOTIF_STEPS, BW_MOTIF_CHEVRONS,
          BW_MOTIF_DIAMONDS, BW_MOTIF_WAVES, BW_MOTIF_SPIRAL };
  GRand *dice = g_rand_new_with_seed (4);
  for (int i = 0; i < 200; i++) {
    int repeats = g_rand_int_range (dice, 1, 7), k = 2 * g_rand_int_range (dice, 4, 12);
    int columns = 2 * g_rand_int_range (dice, 2, 9), rows = repeats * k;
    BwMotif motif = random_motif (dice, kinds[i % G_N_ELEMENTS (kinds)], columns, rows);
    motif.repeats = repeats;
    motif.centre = g_rand_int_range (dice, 0, rows / 2);
    g_autoptr (BwDrawing) drawing = worked (&motif, columns, rows);
    for (int row = 1; row <= rows; row++) {
      int next = (row - 1 + k) % rows + 1;
      assert_memory_equal (bw_drawing_row (drawing, row), bw_drawing_row (drawing, next),
                           (gsize)columns / 2);
    }
  }
  g_rand_free (dice);
}

static void
chevrons_and_diamonds_are_mirrored_about_their_middle (void **state)
{
  static const BwMotifKind kinds[]
      = { BW_MOTIF_CHEVRONS, BW_MOTIF_DIAMONDS, BW_MOTIF_WAVES, BW_MOTIF_STEPS };
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++) {
    BwMotif motif;
    bw_motif_init (&motif, kinds[i], 12, 120);
    motif.centre = 7;
    g_autoptr (BwDrawing) drawing = worked (&motif, 12, 120);
    for (int h = 1; h < 10; h++) {
      int right = 15 + h, left = 15 - h;
      for (int column = 1; column <= 12; column++)
        if (bw_lattice_has (right, column))
          assert_int_equal (bw_drawing_get (drawing, right, column),
                            bw_drawing_get (drawing, left, column));
    }
  }
}

/* Faces of different widths: what stands on each is mirrored about that face's own middle, and the
 * motif still meets itself wherever the seam lies. */
static void
each_face_carries_its_motif_about_its_own_middle (void **state)
{
  static const double widths[] = { 14, 8, 11, 9, 10, 8 };
  for (int start = 0; start < 120; start += 7) {
    double middle[6], corner[6], at = start / 2.0;
    for (int i = 0; i < 6; i++) {
      middle[i] = fmod (at + widths[i] / 2, 60);
      corner[i] = fmod (at + widths[i], 60);
      at += widths[i];
    }
    BwMotif motif;
    bw_motif_init (&motif, BW_MOTIF_CHEVRONS, 12, 120);
    bw_motif_set_faces (&motif, 6, middle, corner);
    g_autoptr (BwDrawing) drawing = worked (&motif, 12, 120);
    for (int i = 0; i < 6; i++) {
      int half = (int)widths[i] - 1, centre = (int)lround (2 * motif.face_middle[i]);
      for (int h = 1; h < half; h++)
        for (int column = 1; column <= 12; column++) {
          int right = (centre + h) % 120 + 1, left = (centre - h + 120) % 120 + 1;
          if (bw_lattice_has (right, column))
            assert_int_equal (bw_drawing_get (drawing, right, column),
                              bw_drawing_get (drawing, left, column));
        }
    }
  }
}

static void
equal_faces_are_the_same_as_repeats (void **state)
{
  double middle[6], corner[6];
  for (int i = 0; i < 6; i++) {
    middle[i] = 10 * i;
    corner[i] = fmod (10 * i + 5, 60);
  }
  for (BwMotifKind kind = 0; kind < BW_N_MOTIFS; kind++) {
    BwMotif repeated, faced;
    bw_motif_init (&repeated, kind, 12, 120);
    repeated.repeats = 6;
    strcpy (repeated.text, "7");
    faced = repeated;
    bw_motif_set_faces (&faced, 6, middle, corner);
    g_autoptr (BwDrawing) a = worked (&repeated, 12, 120);
    g_autoptr (BwDrawing) b = worked (&faced, 12, 120);
    assert_true (bw_drawing_equal (a, b));
  }
}

static void
a_face_without_room_is_named (void **state)
{
  static const double middle[] = { 5, 10, 40 }, corner[] = { 10, 10.2, 0 };
  BwFault fault = { .key = BW_N_FAULT_KEYS };
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_CHEVRONS, 12, 120);
  bw_motif_set_faces (&motif, 3, middle, corner);
  assert_false (bw_motif_validate (&motif, 12, 120, &fault));
  assert_int_equal (fault.kind, BW_FAULTY_FACE_NARROW);
  assert_int_equal (fault.key, BW_AT_MOTIF_FACES);
  assert_true (fault.number[0] > 0.5 && fault.number[0] < 1.5); /* the second */
}

static void
a_spiral_climbs_one_round_of_colours_in_each_repeat (void **state)
{
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_SPIRAL, 12, 120);
  motif.repeats = 3;
  g_autoptr (BwDrawing) drawing = worked (&motif, 12, 120);
  /* Along one column the colour changes twice a repeat with two colours: six times round. */
  int changes = 0;
  for (int row = 1; row <= 119; row += 2)
    changes += bw_drawing_get (drawing, row, 4) != bw_drawing_get (drawing, (row + 1) % 120 + 1, 4);
  assert_int_equal (changes, 6);
}

static void
scattered_beads_keep_their_density_and_their_seed (void **state)
{
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_SCATTER, 20, 2000);
  motif.density = 0.2;
  g_autoptr (BwDrawing) once = worked (&motif, 20, 2000);
  g_autoptr (BwDrawing) again = worked (&motif, 20, 2000);
  motif.seed++;
  g_autoptr (BwDrawing) other = worked (&motif, 20, 2000);
  guint64 counts[256] = { 0 };
  bw_drawing_count (once, counts);
  assert_true (bw_drawing_equal (once, again));
  assert_false (bw_drawing_equal (once, other));
  /* 20,000 beads: five standard deviations of a binomial with p = 0.2 are 283. */
  assert_in_range (20000 - counts[UNTOUCHED], 4000 - 283, 4000 + 283);
  assert_true (counts[0] > 1500 && counts[1] > 1500);
}

static void
a_blend_has_the_first_colour_below_and_the_last_above_and_the_middle_shared (void **state)
{
  for (int dither = BW_DITHER_ORDERED; dither <= BW_DITHER_DIFFUSED; dither++) {
    BwMotif motif;
    bw_motif_init (&motif, BW_MOTIF_BLEND, 20, 400);
    motif.dither = (BwDither)dither;
    g_autoptr (BwDrawing) drawing = worked (&motif, 20, 400);
    guint64 counts[256] = { 0 };
    int low = 0, high = 0;
    bw_drawing_count (drawing, counts);
    for (int row = 1; row <= 400; row++) {
      if (bw_lattice_has (row, 1))
        low += bw_drawing_get (drawing, row, 1) == 0;
      if (bw_lattice_has (row, 20))
        high += bw_drawing_get (drawing, row, 20) == 1;
    }
    assert_true (low >= 190 && high >= 190);
    /* The mean of the wish is one half: 4,000 beads, half of each within two in a hundred. */
    assert_in_range (counts[0], 1920, 2080);
  }
}

static void
letters_stand_inside_the_width_they_announce (void **state)
{
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_LETTERS, 12, 200);
  strcpy (motif.text, "TIDE 7");
  motif.centre = 50;
  g_autoptr (BwDrawing) drawing = worked (&motif, 12, 200);
  double half = bw_motif_room (&motif, 200).needs / 4.0;
  int inked = 0;
  for (int row = 1; row <= 200; row++)
    for (int j = 0; j < 6; j++) {
      int column = bw_lattice_column (row, j);
      if (bw_drawing_get (drawing, row, column) == UNTOUCHED)
        continue;
      double pitches = bw_lattice_pitches (row);
      assert_true (pitches >= 50 - half && pitches <= 50 + half);
      assert_in_range (column, motif.first_column, motif.last_column);
      inked++;
    }
  assert_true (inked > 40);
}

/* An upright stroke takes exactly one bead of every column it runs through. */
static void
the_letter_i_is_one_unbroken_line_of_beads (void **state)
{
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_LETTERS, 12, 80);
  strcpy (motif.text, "I");
  motif.centre = 20;
  g_autoptr (BwDrawing) drawing = worked (&motif, 12, 80);
  for (int column = motif.first_column; column <= motif.last_column; column++) {
    int inked = 0;
    for (int row = 1; row <= 80; row++)
      if (bw_lattice_has (row, column))
        inked += bw_drawing_get (drawing, row, column) == 0;
    assert_int_equal (inked, 1);
  }
}

/* The first or last row of a column that the text inks. */
static int
end_of (const BwDrawing *drawing, int column, int step)
{
  int rows = bw_drawing_rows (drawing), row = step > 0 ? 1 : rows;
  while (row >= 1 && row <= rows
         && !(bw_lattice_has (row, column) && bw_drawing_get (drawing, row, column) == 0))
    row += step;
  return row;
}

/* How far the outermost beads of the text stray from one upright line, in rows. */
static int
ragged (const char *text, int columns, double centre, int step)
{
  int band = columns + columns % 2;
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_LETTERS, band, 400);
  motif.n_colours = 1;
  motif.last_column = columns;
  motif.first_column = 1;
  g_strlcpy (motif.text, text, sizeof motif.text);
  motif.centre = centre;
  g_autoptr (BwDrawing) drawing = worked (&motif, band, 400);
  int low = G_MAXINT, high = 0;
  for (int column = 1; column <= columns; column++) {
    int row = end_of (drawing, column, step);
    low = MIN (low, row);
    high = MAX (high, row);
  }
  return high - low;
}

/* An H is upright on both sides whichever letter it stands beside, however high the letters are. */
static void
uprights_stay_unbroken_beside_every_letter (void **state)
{
  static const int heights[] = { 5, 7, 9, 10, 11, 12, 14, 16, 18, 20 };
  const char *letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
  for (const char *c = letters; *c; c++)
    for (gsize i = 0; i < G_N_ELEMENTS (heights); i++) {
      const char before[] = { 'H', *c, '\0' }, after[] = { *c, 'H', '\0' };
      int most = heights[i] < 16 ? 1 : 2; /* a thick pen is round at its ends */
      assert_in_range (ragged (before, heights[i], 100, 1), 0, most);
      assert_in_range (ragged (after, heights[i], 100.5, -1), 0, most);
    }
}

/* Takes out a bead that is inked, and those that hang on it. */
static void
take_out (BwDrawing *drawing, int row, int column)
{
  static const int beside[][2]
      = { { -2, 0 }, { 2, 0 }, { -1, -1 }, { -1, 1 }, { 1, -1 }, { 1, 1 } };
  if (row < 1 || row > bw_drawing_rows (drawing) || column < 1
      || column > bw_drawing_columns (drawing) || bw_drawing_get (drawing, row, column) != 0)
    return;
  bw_drawing_set (drawing, row, column, 1);
  for (gsize i = 0; i < G_N_ELEMENTS (beside); i++)
    take_out (drawing, row + beside[i][0], column + beside[i][1]);
}

static int
n_pieces (BwDrawing *drawing)
{
  int pieces = 0;
  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int column = 1; column <= bw_drawing_columns (drawing); column++)
      if (bw_lattice_has (row, column) && bw_drawing_get (drawing, row, column) == 0) {
        pieces++;
        take_out (drawing, row, column);
      }
  return pieces;
}

/* However it slants, and however high it is. */
static void
no_stroke_of_a_letter_breaks (void **state)
{
  const char *letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
  for (int high = 9; high <= 20; high++)
    for (const char *c = letters; *c; c++)
      for (int half = 0; half < 2; half++) {
        BwMotif motif;
        bw_motif_init (&motif, BW_MOTIF_LETTERS, 20, 120);
        motif.n_colours = 1;
        motif.first_column = 1;
        motif.last_column = high;
        motif.centre = 30 + half / 2.0;
        motif.text[0] = *c;
        motif.text[1] = '\0';
        g_autoptr (BwDrawing) drawing = worked (&motif, 20, 120);
        assert_int_equal (n_pieces (drawing), 1);
      }
}

static BwMotif
word (const char *text, int first, int last)
{
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_LETTERS, 24, 400);
  motif.n_colours = 1;
  motif.first_column = first;
  motif.last_column = last;
  motif.centre = 100;
  g_strlcpy (motif.text, text, sizeof motif.text);
  return motif;
}

/* Whether the beads inked about row 201 in columns 3..9 are inked there so many rows and columns
 * on. */
static gboolean
same_beads (const BwDrawing *a, const BwDrawing *b, int shift, int up)
{
  for (int row = 170; row <= 232; row++)
    for (int column = 3; column <= 9; column++)
      if (bw_lattice_has (row, column)
          && (bw_drawing_get (a, row, column) == 0)
                 != (bw_drawing_get (b, row + shift, column + up) == 0))
        return FALSE;
  return TRUE;
}

/* Wherever it is put, by halves of a pitch, by columns, once or four times round: the lattice
 * decides by half a pitch where it begins. */
static void
a_word_is_the_same_bead_for_bead_wherever_it_stands (void **state)
{
  for (int i = 0; i < 24; i++) {
    BwMotif here = word ("TIDE", 3, 9), there = word ("TIDE", 3 + i % 4, 9 + i % 4);
    there.repeats = 1 + 3 * (i % 2);
    there.centre += i / 2.0;
    g_autoptr (BwDrawing) a = worked (&here, 24, 400);
    g_autoptr (BwDrawing) b = worked (&there, 24, 400);
    int up = i % 4;
    assert_false (same_beads (a, b, i + (i + up) % 2 + 2, up));
    assert_true (same_beads (a, b, i + (i + up) % 2, up)
                 || same_beads (a, b, i - (i + up) % 2, up));
  }
}

/* One above another: the same beads, with the dots and a free column over them. */
static void
an_accent_stands_over_its_letter_and_leaves_it_as_it_is (void **state)
{
  static const char *const pairs[][2] = { { "A", "ä" }, { "O", "Ö" }, { "U", "ü" }, { "E", "É" },
                                          { "E", "è" }, { "E", "ê" }, { "N", "Ñ" } };
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++) {
    BwMotif plain = word (pairs[i][0], 3, 9), marked = word (pairs[i][1], 3, 12);
    g_autoptr (BwDrawing) a = worked (&plain, 24, 400), b = worked (&marked, 24, 400);
    int above = 0;
    for (int row = 150; row <= 250; row++)
      for (int column = 3; column <= 12; column++) {
        if (!bw_lattice_has (row, column))
          continue;
        gboolean inked = bw_drawing_get (b, row, column) == 0;
        if (column <= 9)
          assert_int_equal (inked, bw_drawing_get (a, row, column) == 0);
        else if (column == 10)
          assert_false (inked);
        else
          above += inked;
      }
    assert_in_range (above, 2, 5);
  }
}

/* A word is told how many rows it needs and has; one bead less, and it is refused. */
static void
a_text_that_does_not_fit_is_refused_with_what_it_needs (void **state)
{
  BwMotif motif = word ("HARBOUR LAMP", 3, 9);
  BwFault fault;
  BwMotifRoom room = bw_motif_room (&motif, 400);
  assert_int_equal (room.height, 7);
  assert_int_equal (room.has, 400);
  int enough = room.needs + room.needs % 2;
  assert_true (bw_motif_validate (&motif, 24, enough, &fault));
  assert_false (bw_motif_validate (&motif, 24, enough - 2, &fault));
  assert_int_equal (fault.kind, BW_FAULTY_TEXT_LONG);
  assert_int_equal ((int)fault.number[0], room.needs);
  assert_int_equal ((int)fault.number[1], enough - 2);
  motif.repeats = 2;
  assert_int_equal (bw_motif_room (&motif, 400).has, 200);
  motif = word ("GRÜN", 3, 8);
  assert_false (bw_motif_validate (&motif, 24, 400, &fault));
  assert_int_equal (fault.kind, BW_FAULTY_TEXT_HIGH);
  assert_int_equal ((int)fault.number[0], 7);
  assert_int_equal ((int)fault.number[1], 6);
}

/* What the text is said to need is what it takes, a free bead before it comes round again. */
static void
the_rows_a_text_needs_are_those_it_takes (void **state)
{
  static const char *const texts[] = { "I", "TIDE", "2026", "Ö", "É!", "A B", "WM" };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    for (int last = 12; last <= 24; last += 3) {
      BwMotif motif = word (texts[i], 3, last);
      g_autoptr (BwDrawing) drawing = worked (&motif, 24, 400);
      int low = 1000, high = 0;
      for (int row = 1; row <= 400; row++)
        for (int column = 3; column <= last; column++)
          if (bw_lattice_has (row, column) && bw_drawing_get (drawing, row, column) == 0) {
            low = MIN (low, row);
            high = MAX (high, row);
          }
      /* A bead takes two rows, and letters stand on whole beads. */
      int spare = bw_motif_room (&motif, 400).needs - 2 - (high + 2 - low);
      assert_true (spare >= 0 && spare <= 4);
    }
}

/* The ground is one plate under the word, a bead wider on both sides, and nothing else. */
static void
a_ground_lies_under_the_word_alone (void **state)
{
  BwMotif bare = word ("TIDE", 3, 9), laid = bare;
  laid.n_colours = 2;
  g_autoptr (BwDrawing) a = worked (&bare, 24, 400), b = worked (&laid, 24, 400);
  int needs = bw_motif_room (&laid, 400).needs;
  assert_int_equal (needs, bw_motif_room (&bare, 400).needs + 2);
  for (int column = 1; column <= 24; column++) {
    int n = 0;
    for (int row = 1; row <= 400; row++) {
      if (!bw_lattice_has (row, column))
        continue;
      guint8 with = bw_drawing_get (b, row, column);
      assert_int_equal (with == 0, bw_drawing_get (a, row, column) == 0);
      n += with != UNTOUCHED;
    }
    if (column >= 3 && column <= 9)
      assert_in_range (n, needs / 2 - 1, needs / 2);
    else
      assert_int_equal (n, 0);
  }
}

/* The figure alone is the motif without the beads of its last colour; what has no ground, or one
 * colour, is the same either way. */
static void
a_figure_alone_leaves_what_lies_between (void **state)
{
  GRand *dice = g_rand_new_with_seed (29);
  for (int i = 0; i < 300; i++) {
    int columns = 2 * g_rand_int_range (dice, 3, 11), rows = 2 * g_rand_int_range (dice, 12, 70);
    BwMotif laid = random_motif (dice, (BwMotifKind)(i % BW_MOTIF_LETTERS), columns, rows), figure;
    if (i % 5 == 0 && laid.kind != BW_MOTIF_BLEND)
      laid.n_colours = 1;
    figure = laid;
    figure.leaves_ground = TRUE;
    int ground = laid.n_colours > 1 && bw_motif_has_ground (laid.kind)
                     ? laid.colour[laid.n_colours - 1]
                     : UNTOUCHED;
    int left = 0;
    g_autoptr (BwDrawing) a = worked (&laid, columns, rows), b = worked (&figure, columns, rows);
    for (int row = 1; row <= rows; row++)
      for (int j = 0; j < columns / 2; j++) {
        int column = bw_lattice_column (row, j), with = bw_drawing_get (a, row, column);
        assert_int_equal (bw_drawing_get (b, row, column), with == ground ? UNTOUCHED : with);
        left += bw_drawing_get (b, row, column) == UNTOUCHED;
      }
    assert_int_equal (bw_motif_covers (&figure), left == 0 && bw_motif_covers (&laid));
  }
  g_rand_free (dice);
}

/* A colour may be in a figure and be its ground: it is left out where it is the ground. */
static void
a_ring_in_the_colour_of_the_ground_stays (void **state)
{
  BwMotif motif;
  bw_motif_init (&motif, BW_MOTIF_STRIPES, 12, 24);
  motif.n_colours = 3;
  motif.colour[0] = motif.colour[2] = 5;
  motif.colour[1] = 6;
  motif.leaves_ground = TRUE;
  g_autoptr (BwDrawing) drawing = worked (&motif, 12, 24);
  assert_int_equal (bw_drawing_get (drawing, 2, 1), 5);
  assert_int_equal (bw_drawing_get (drawing, 2, 3), 6);
  assert_int_equal (bw_drawing_get (drawing, 2, 5), UNTOUCHED);
}

static void
assert_fault (const BwMotif *motif, BwFaultKey key)
{
  BwFault fault = { .key = BW_N_FAULT_KEYS };
  assert_false (bw_motif_validate (motif, 12, 120, &fault));
  assert_int_equal (fault.key, key);
}

static void
a_motif_that_cannot_be_is_refused_by_name (void **state)
{
  BwMotif good, bad;
  bw_motif_init (&good, BW_MOTIF_LETTERS, 12, 120);
  bad = good;
  strcpy (bad.text, "Ω");
  assert_fault (&bad, BW_AT_MOTIF_TEXT);
  bad = good;
  bad.text[0] = 0;
  assert_fault (&bad, BW_AT_MOTIF_TEXT);
  bad = good;
  bad.size = 0;
  assert_fault (&bad, BW_AT_MOTIF_SIZE);
  bad = good;
  bad.repeats = 0;
  assert_fault (&bad, BW_AT_MOTIF_REPEATS);
  bad = good;
  bad.last_column = 13;
  assert_fault (&bad, BW_AT_MOTIF_LAST_COLUMN);
  bad = good;
  bad.density = 1.5;
  assert_fault (&bad, BW_AT_MOTIF_DENSITY);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_motif_uses_its_own_colours_and_its_own_columns_alone),
    cmocka_unit_test (a_motif_whose_repeat_divides_the_ring_repeats_across_the_join),
    cmocka_unit_test (chevrons_and_diamonds_are_mirrored_about_their_middle),
    cmocka_unit_test (each_face_carries_its_motif_about_its_own_middle),
    cmocka_unit_test (equal_faces_are_the_same_as_repeats),
    cmocka_unit_test (a_face_without_room_is_named),
    cmocka_unit_test (a_spiral_climbs_one_round_of_colours_in_each_repeat),
    cmocka_unit_test (scattered_beads_keep_their_density_and_their_seed),
    cmocka_unit_test (a_blend_has_the_first_colour_below_and_the_last_above_and_the_middle_shared),
    cmocka_unit_test (letters_stand_inside_the_width_they_announce),
    cmocka_unit_test (uprights_stay_unbroken_beside_every_letter),
    cmocka_unit_test (a_word_is_the_same_bead_for_bead_wherever_it_stands),
    cmocka_unit_test (an_accent_stands_over_its_letter_and_leaves_it_as_it_is),
    cmocka_unit_test (a_text_that_does_not_fit_is_refused_with_what_it_needs),
    cmocka_unit_test (the_rows_a_text_needs_are_those_it_takes),
    cmocka_unit_test (a_ground_lies_under_the_word_alone),
    cmocka_unit_test (a_figure_alone_leaves_what_lies_between),
    cmocka_unit_test (a_ring_in_the_colour_of_the_ground_stays),
    cmocka_unit_test (the_letter_i_is_one_unbroken_line_of_beads),
    cmocka_unit_test (no_stroke_of_a_letter_breaks),
    cmocka_unit_test (a_motif_that_cannot_be_is_refused_by_name),
  };
  return cmocka_run_group_tests_name ("motif", tests, NULL, NULL);
}
