/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same design on another band: motifs are made again, what was set by hand follows, and on the
 * same band nothing changes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <string.h>

#include "core/band/refit.h"
#include "core/base/lattice.h"
#include "core/pattern/anew.h"

#define COLOURS 6

static void
regular_band (BwMadeBand *band, int columns, int rows, int faces)
{
  *band = (BwMadeBand){ .columns = columns, .rows = rows, .n_faces = faces };
  double share = rows / 2 / (double)faces;
  for (int i = 0; i < faces; i++) {
    band->middle[i] = i * share;
    band->corner[i] = (i + 0.5) * share;
  }
}

static BwMade
random_made (GRand *dice, const BwMadeBand *band)
{
  BwMade made = { .middle = g_rand_int_range (dice, -1, band->n_faces + 1) };
  BwMotifKind kind = (BwMotifKind)g_rand_int_range (dice, 0, BW_MOTIF_LETTERS);
  bw_motif_init (&made.motif, kind, band->columns, band->rows);
  made.motif.n_colours = g_rand_int_range (dice, 2, 4);
  for (int i = 0; i < made.motif.n_colours; i++)
    made.motif.colour[i] = (guint8)g_rand_int_range (dice, 0, COLOURS);
  made.motif.repeats = g_rand_boolean (dice) ? band->n_faces : g_rand_int_range (dice, 1, 5);
  made.motif.centre = g_rand_int_range (dice, 0, band->rows) / 2.0;
  made.motif.size = g_rand_int_range (dice, 1, 4);
  made.motif.seed = g_rand_int (dice);
  made.motif.dither = (BwDither)g_rand_int_range (dice, 0, 3);
  made.motif.leaves_ground = made.motif.seed % 2;
  made.motif.first_column = g_rand_int_range (dice, 1, band->columns / 2 + 1);
  made.motif.last_column = g_rand_int_range (dice, made.motif.first_column, band->columns + 1);
  made.motif.n_faces = g_rand_boolean (dice) ? band->n_faces : 0;
  bw_made_settle (&made, band);
  return made;
}

/* Motifs one upon the other, and beads set by hand over them. */
static BwDrawing *
random_design (GRand *dice, const BwMadeBand *band, BwMade *made, int *n_made, int hands)
{
  BwDrawing *drawing = bw_drawing_new (band->columns, band->rows, 0);
  *n_made = 0;
  for (int i = g_rand_int_range (dice, 0, 4); i > 0; i--) {
    BwMade one = random_made (dice, band);
    assert_true (bw_motif_validate (&one.motif, band->columns, band->rows, NULL));
    bw_motif_draw (&one.motif, drawing);
    *n_made = bw_made_append (made, *n_made, &one);
  }
  for (int i = 0; i < hands; i++) {
    int row = g_rand_int_range (dice, 1, band->rows + 1);
    int j = g_rand_int_range (dice, 0, band->columns / 2);
    bw_drawing_set (drawing, row, bw_lattice_column (row, j),
                    (guint8)g_rand_int_range (dice, 0, COLOURS));
  }
  return drawing;
}

static void
random_band (GRand *dice, BwMadeBand *band)
{
  regular_band (band, 2 * g_rand_int_range (dice, 2, 10), 2 * g_rand_int_range (dice, 12, 60),
                g_rand_int_range (dice, 3, 9));
}

static void
renew_all (const BwMade *made, int n, const BwMadeBand *band, BwMade *renewed)
{
  for (int i = 0; i < n; i++)
    assert_true (bw_made_renew (&made[i], band, &renewed[i], NULL));
}

static void
on_the_same_band_every_bead_stays (void **state)
{
  GRand *dice = g_rand_new_with_seed (11);
  for (int i = 0; i < 400; i++) {
    BwMadeBand band;
    BwMade made[BW_MADE_MAX], renewed[BW_MADE_MAX];
    int n;
    random_band (dice, &band);
    g_autoptr (BwDrawing) old = random_design (dice, &band, made, &n, i % 60);
    renew_all (made, n, &band, renewed);
    for (BwAnewWay way = 0; way < BW_ANEW_GROUND; way++) {
      g_autoptr (BwDrawing) anew = bw_drawing_new (band.columns, band.rows, COLOURS);
      bw_anew_draw (old, made, renewed, n, way, anew);
      assert_true (bw_drawing_equal (anew, old));
    }
  }
  g_rand_free (dice);
}

static void
motifs_alone_are_the_same_in_every_way (void **state)
{
  GRand *dice = g_rand_new_with_seed (12);
  for (int i = 0; i < 200; i++) {
    BwMadeBand band, other;
    BwMade made[BW_MADE_MAX], renewed[BW_MADE_MAX];
    int n;
    random_band (dice, &band);
    random_band (dice, &other);
    g_autoptr (BwDrawing) old = random_design (dice, &band, made, &n, 0);
    if (bw_anew_by_hand (old, made, n) > 0) /* the ground came to be another colour's */
      continue;
    renew_all (made, n, &other, renewed);
    g_autoptr (BwDrawing) first = bw_drawing_new (other.columns, other.rows, COLOURS);
    bw_anew_draw (old, made, renewed, n, BW_ANEW_GROUND, first);
    for (BwAnewWay way = 0; way < BW_ANEW_GROUND; way++) {
      g_autoptr (BwDrawing) anew = bw_drawing_new (other.columns, other.rows, COLOURS);
      bw_anew_draw (old, made, renewed, n, way, anew);
      assert_true (bw_drawing_equal (anew, first));
    }
  }
  g_rand_free (dice);
}

static void
every_bead_gets_a_colour_of_the_design (void **state)
{
  GRand *dice = g_rand_new_with_seed (13);
  for (int i = 0; i < 600; i++) {
    BwMadeBand band, other;
    BwMade made[BW_MADE_MAX], renewed[BW_MADE_MAX];
    int n;
    guint64 had[256] = { 0 }, has[256] = { 0 };
    random_band (dice, &band);
    random_band (dice, &other);
    g_autoptr (BwDrawing) old = random_design (dice, &band, made, &n, 80);
    g_autoptr (BwDrawing) anew = bw_drawing_new (other.columns, other.rows, 77);
    renew_all (made, n, &other, renewed);
    bw_anew_draw (old, made, renewed, n, (BwAnewWay)(i % BW_N_ANEW), anew);
    bw_drawing_count (old, had);
    bw_drawing_count (anew, has);
    for (int k = 0; k < n; k++)
      for (int c = 0; c < made[k].motif.n_colours; c++)
        had[made[k].motif.colour[c]]++;
    for (int c = 0; c < 256; c++)
      assert_true (has[c] == 0 || had[c] > 0);
  }
  g_rand_free (dice);
}

/* A single bead on the ground. */
static BwDrawing *
one_bead (int columns, int rows, int row, int column)
{
  BwDrawing *drawing = bw_drawing_new (columns, rows, 0);
  bw_drawing_set (drawing, row, column, 1);
  return drawing;
}

static int
count_ones (const BwDrawing *drawing)
{
  guint64 counts[256] = { 0 };
  bw_drawing_count (drawing, counts);
  return (int)counts[1];
}

static void
what_is_repeated_begins_again_and_is_cut_off (void **state)
{
  g_autoptr (BwDrawing) old = one_bead (6, 20, 7, 4);
  g_autoptr (BwDrawing) twice = bw_drawing_new (6, 40, 0);
  g_autoptr (BwDrawing) cut = bw_drawing_new (6, 6, 0);
  bw_anew_draw (old, NULL, NULL, 0, BW_ANEW_REPEAT, twice);
  assert_int_equal (count_ones (twice), 2);
  assert_int_equal (bw_drawing_get (twice, 7, 4), 1);
  assert_int_equal (bw_drawing_get (twice, 27, 4), 1);
  bw_anew_draw (old, NULL, NULL, 0, BW_ANEW_REPEAT, cut);
  assert_int_equal (count_ones (cut), 0);
}

static void
what_is_stretched_keeps_its_share_of_the_way (void **state)
{
  g_autoptr (BwDrawing) old = bw_drawing_new (6, 40, 0);
  for (int row = 1; row <= 20; row++)
    for (int j = 0; j < 3; j++)
      bw_drawing_set (old, row, bw_lattice_column (row, j), 1);
  static const int rows[] = { 80, 60, 20, 44 };
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (BwDrawing) anew = bw_drawing_new (6, rows[i], 0);
    bw_anew_draw (old, NULL, NULL, 0, BW_ANEW_STRETCH, anew);
    assert_in_range (count_ones (anew), rows[i] / 2 * 3 - 3, rows[i] / 2 * 3 + 3);
    assert_int_equal (bw_drawing_get (anew, 1, 2), 1);
    assert_int_equal (bw_drawing_get (anew, rows[i] - 1, 2), 0);
  }
}

static void
what_is_grounded_leaves_no_bead_set_by_hand (void **state)
{
  g_autoptr (BwDrawing) old = one_bead (6, 20, 7, 4);
  g_autoptr (BwDrawing) anew = bw_drawing_new (6, 30, 5);
  assert_int_equal (bw_anew_by_hand (old, NULL, 0), 1);
  bw_anew_draw (old, NULL, NULL, 0, BW_ANEW_GROUND, anew);
  assert_int_equal (count_ones (anew), 0);
  assert_int_equal (bw_drawing_get (anew, 1, 2), 0);
}

static BwMade
stripes_on (const BwMadeBand *band)
{
  BwMade made = { .middle = BW_MADE_AT_JOIN };
  bw_motif_init (&made.motif, BW_MOTIF_BARS, band->columns, band->rows);
  made.motif.colour[0] = 1;
  made.motif.colour[1] = 2;
  made.motif.repeats = band->n_faces;
  bw_made_settle (&made, band);
  return made;
}

static void
a_motif_that_was_painted_over_is_not_made_again (void **state)
{
  BwMadeBand band;
  regular_band (&band, 8, 48, 6);
  BwMade made = stripes_on (&band);
  g_autoptr (BwDrawing) old = bw_drawing_new (8, 48, 0);
  bw_motif_draw (&made.motif, old);
  assert_int_equal (bw_anew_by_hand (old, &made, 1), 0);
  for (int row = 1; row <= 40; row++)
    for (int j = 0; j < 4; j++)
      bw_drawing_set (old, row, bw_lattice_column (row, j), 0);
  g_autoptr (BwDrawing) anew = bw_drawing_new (8, 48, 3);
  bw_anew_draw (old, &made, &made, 1, BW_ANEW_GROUND, anew);
  guint64 counts[256] = { 0 };
  bw_drawing_count (anew, counts);
  assert_int_equal (counts[0], 48 * 4);
}

static void
paint (BwDrawing *drawing, int columns, guint8 colour)
{
  for (int column = 1; column <= columns; column++)
    for (int row = column % 2 ? 2 : 1; row <= bw_drawing_rows (drawing); row += 2)
      bw_drawing_set (drawing, row, column, colour);
}

/* A figure laid on a painted band is whole on every other band, with the paint around it. */
static void
a_figure_comes_whole_upon_what_it_was_laid_on (void **state)
{
  GRand *dice = g_rand_new_with_seed (19);
  for (int i = 0; i < 100; i++) {
    BwMadeBand band, other;
    random_band (dice, &band);
    random_band (dice, &other);
    BwMade made = stripes_on (&band), renewed;
    made.motif.leaves_ground = TRUE;
    made.motif.last_column = band.columns / 2;
    assert_true (bw_made_renew (&made, &other, &renewed, NULL));
    g_autoptr (BwDrawing) old = bw_drawing_new (band.columns, band.rows, 0),
                          figure = bw_drawing_new (other.columns, other.rows, 0),
                          anew = bw_drawing_new (other.columns, other.rows, 5);
    paint (old, 2, 3);
    bw_motif_draw (&made.motif, old);
    bw_motif_draw (&renewed.motif, figure);
    bw_anew_draw (old, &made, &renewed, 1, (BwAnewWay)(i % 2), anew);
    guint64 counts[256] = { 0 };
    bw_drawing_count (anew, counts);
    assert_true (counts[3] > 0);
    for (int row = 1; row <= other.rows; row++)
      for (int j = 0; j < other.columns / 2; j++) {
        int column = bw_lattice_column (row, j), found = bw_drawing_get (anew, row, column);
        assert_int_equal (found == 1, bw_drawing_get (figure, row, column) == 1);
        assert_true (found == 1 || found == 0 || found == 3);
      }
  }
  g_rand_free (dice);
}

/* What was painted upon the figure stays upon it. */
static void
paint_upon_a_figure_stays_upon_it (void **state)
{
  BwMadeBand band;
  regular_band (&band, 8, 48, 6);
  BwMade made = stripes_on (&band);
  made.motif.leaves_ground = TRUE;
  made.motif.last_column = 4;
  g_autoptr (BwDrawing) old = bw_drawing_new (8, 48, 0), anew = bw_drawing_new (8, 48, 5);
  bw_motif_draw (&made.motif, old);
  paint (old, 1, 3);
  bw_anew_draw (old, &made, &made, 1, BW_ANEW_REPEAT, anew);
  assert_true (bw_drawing_equal (anew, old));
}

static void
a_figure_alone_hides_no_other (void **state)
{
  BwMadeBand band;
  BwMade list[BW_MADE_MAX];
  regular_band (&band, 8, 48, 6);
  BwMade first = stripes_on (&band), figure = first;
  figure.motif.leaves_ground = TRUE;
  assert_false (bw_made_equal (&first, &figure));
  int n = bw_made_append (list, 0, &first);
  assert_int_equal (bw_made_append (list, n, &figure), 2);
}

/* --- How a motif was made ----------------------------------------------------------------------
 */

static void
repeats_go_with_the_faces_and_other_numbers_stay (void **state)
{
  BwMadeBand six, five;
  regular_band (&six, 8, 48, 6);
  regular_band (&five, 8, 60, 5);
  BwMade made = stripes_on (&six), renewed;
  assert_true (bw_made_renew (&made, &five, &renewed, NULL));
  assert_int_equal (renewed.motif.repeats, 5);
  assert_int_equal (renewed.rows, 60);
  made.motif.repeats = 4;
  assert_true (bw_made_renew (&made, &five, &renewed, NULL));
  assert_int_equal (renewed.motif.repeats, 4);
}

static void
the_middle_stays_on_its_face_or_at_its_share (void **state)
{
  BwMadeBand six, other;
  regular_band (&six, 8, 48, 6);
  regular_band (&other, 8, 96, 6);
  BwMade made = stripes_on (&six), renewed;
  made.middle = 3;
  bw_made_settle (&made, &six);
  assert_true (made.motif.centre == six.middle[2]);
  assert_true (bw_made_renew (&made, &other, &renewed, NULL));
  assert_true (renewed.motif.centre == other.middle[2]);
  made.middle = BW_MADE_ELSEWHERE;
  made.motif.centre = 5.5;
  assert_true (bw_made_renew (&made, &other, &renewed, NULL));
  assert_true (renewed.motif.centre == 11);
}

static void
columns_keep_their_share_of_the_band (void **state)
{
  BwMadeBand narrow, wide;
  regular_band (&narrow, 8, 48, 6);
  regular_band (&wide, 16, 48, 6);
  BwMade made = stripes_on (&narrow), renewed;
  assert_true (bw_made_renew (&made, &wide, &renewed, NULL));
  assert_int_equal (renewed.motif.first_column, 1);
  assert_int_equal (renewed.motif.last_column, 16);
}

static void
what_cannot_be_drawn_there_is_a_fault (void **state)
{
  BwMadeBand large, small;
  BwFault fault;
  regular_band (&large, 8, 96, 6);
  regular_band (&small, 8, 8, 6);
  BwMade made = stripes_on (&large), renewed;
  made.motif.repeats = 20;
  assert_false (bw_made_renew (&made, &small, &renewed, &fault));
  assert_int_equal (fault.key, BW_AT_MOTIF_REPEATS);
}

static void
what_a_motif_hides_is_forgotten_and_so_is_the_oldest_of_too_many (void **state)
{
  BwMadeBand band;
  BwMade list[BW_MADE_MAX];
  regular_band (&band, 8, 48, 6);
  BwMade whole = stripes_on (&band), part = whole, dots = whole;
  part.motif.last_column = 4;
  dots.motif.kind = BW_MOTIF_SCATTER;
  int n = bw_made_append (list, 0, &part);
  n = bw_made_append (list, n, &dots);
  assert_int_equal (n, 2);
  n = bw_made_append (list, n, &whole);
  assert_int_equal (n, 1);
  n = bw_made_append (list, n, &part);
  assert_int_equal (n, 2);
  for (int i = 0; i < 2 * BW_MADE_MAX; i++) {
    dots.motif.seed = (guint32)i;
    n = bw_made_append (list, n, &dots);
    assert_true (n <= BW_MADE_MAX);
    assert_true (bw_made_equal (&list[n - 1], &dots));
  }
  assert_int_equal (n, BW_MADE_MAX);
  assert_int_equal (list[0].motif.seed, BW_MADE_MAX);
}

/* --- A band that grew since --------------------------------------------------------------------
 */

/* Rows that the bench adds go on with the motif or are plain; neither was set by hand, and a design
 * laid anew leaves nothing of them over. */
static void
rows_that_were_added_count_as_set_by_hand_only_where_they_are_painted (void **state)
{
  GRand *dice = g_rand_new_with_seed (17);
  int grown = 0;
  for (int i = 0; i < 1000; i++) {
    BwMadeBand band;
    BwMade made[BW_MADE_MAX];
    int n;
    regular_band (&band, 2 * g_rand_int_range (dice, 5, 12), 2 * g_rand_int_range (dice, 12, 60),
                  g_rand_int_range (dice, 3, 9));
    g_autoptr (BwDrawing) old = random_design (dice, &band, made, &n, 0);
    if (n == 0 || bw_anew_by_hand (old, made, n) > 0)
      continue;
    int rows = band.rows + 2 * g_rand_int_range (dice, 1, 6), columns = band.columns;
    g_autoptr (BwDrawing) longer
        = bw_refit (old, rows, 0, g_rand_boolean (dice) ? BW_REFIT_REPEAT : BW_REFIT_GROUND);
    assert_int_equal (bw_anew_by_hand (longer, made, n), 0);
    int j = g_rand_int_range (dice, 0, columns / 2), column = bw_lattice_column (rows, j);
    bw_drawing_set (longer, rows, column, COLOURS);
    assert_true (bw_anew_by_hand (longer, made, n) >= 1);
    grown++;
  }
  assert_true (grown > 50);
  g_rand_free (dice);
}

static void
nothing_of_the_rows_that_were_added_is_left_over (void **state)
{
  BwMadeBand band, other;
  BwMade made = { .middle = 1 }, renewed;
  regular_band (&band, 14, 92, 6);
  regular_band (&other, 14, 110, 5);
  bw_motif_init (&made.motif, BW_MOTIF_DIAMONDS, 14, 92);
  made.motif.colour[0] = 0;
  made.motif.colour[1] = 1;
  made.motif.repeats = 6;
  bw_made_settle (&made, &band);
  assert_true (bw_made_renew (&made, &other, &renewed, NULL));
  g_autoptr (BwDrawing) old = bw_drawing_new (14, 92, 0);
  bw_motif_draw (&made.motif, old);
  g_autoptr (BwDrawing) grown = bw_refit (old, 94, 10, BW_REFIT_REPEAT);
  g_autoptr (BwDrawing) motif_alone = bw_drawing_new (14, 110, 0);
  bw_motif_draw (&renewed.motif, motif_alone);
  for (BwAnewWay way = 0; way < BW_N_ANEW; way++) {
    g_autoptr (BwDrawing) anew = bw_drawing_new (14, 110, COLOURS);
    bw_anew_draw (grown, &made, &renewed, 1, way, anew);
    assert_true (bw_drawing_equal (anew, motif_alone));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (on_the_same_band_every_bead_stays),
    cmocka_unit_test (motifs_alone_are_the_same_in_every_way),
    cmocka_unit_test (every_bead_gets_a_colour_of_the_design),
    cmocka_unit_test (what_is_repeated_begins_again_and_is_cut_off),
    cmocka_unit_test (what_is_stretched_keeps_its_share_of_the_way),
    cmocka_unit_test (what_is_grounded_leaves_no_bead_set_by_hand),
    cmocka_unit_test (a_motif_that_was_painted_over_is_not_made_again),
    cmocka_unit_test (a_figure_comes_whole_upon_what_it_was_laid_on),
    cmocka_unit_test (paint_upon_a_figure_stays_upon_it),
    cmocka_unit_test (a_figure_alone_hides_no_other),
    cmocka_unit_test (repeats_go_with_the_faces_and_other_numbers_stay),
    cmocka_unit_test (the_middle_stays_on_its_face_or_at_its_share),
    cmocka_unit_test (columns_keep_their_share_of_the_band),
    cmocka_unit_test (what_cannot_be_drawn_there_is_a_fault),
    cmocka_unit_test (what_a_motif_hides_is_forgotten_and_so_is_the_oldest_of_too_many),
    cmocka_unit_test (rows_that_were_added_count_as_set_by_hand_only_where_they_are_painted),
    cmocka_unit_test (nothing_of_the_rows_that_were_added_is_left_over),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
