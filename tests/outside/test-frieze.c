/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which of the seven strip groups a half-drop band can have, by trying every two-colour design on
 * small bands under every isometry of the strip.
 *
 * The seven groups and their signs: International Tables for Crystallography, vol. E, Subperiodic
 * Groups, 2nd ed. 2010 (V. Kopský, D. B. Litvin, eds.); B. Grünbaum, G. C. Shephard, Tilings and
 * Patterns, W. H. Freeman 1987. That an even number of columns allows five of them only has no
 * published source that was found; this program is the proof for small bands, and the core must say
 * the same. */
#include "stones.h"

#include "core/pattern/symmetry.h"

#define BEADS_MAX 16
#define ROUND_MAX 32 /* half pitches */

/* A band of W columns and n beads a column, wrapped round: beads where x + column is even, x in
 * half pitches 0..2n − 1, columns from 1. */
typedef struct {
  int columns, around; /* around in half pitches, 2n */
  guint8 colour[ROUND_MAX][BEADS_MAX + 1];
} Band;

/* x → sign · x + shift; flip turns the band's edges over. */
typedef struct {
  int sign, shift;
  gboolean flip;
} Isometry;

static gboolean
has_bead (int x, int column)
{
  return (x + column) % 2 == 0;
}

static Band
nth_design (int columns, int beads, guint32 code)
{
  Band band = { .columns = columns, .around = 2 * beads };
  for (int x = 0; x < band.around; x++)
    for (int column = 1; column <= columns; column++)
      if (has_bead (x, column)) {
        band.colour[x][column] = code & 1;
        code >>= 1;
      }
  return band;
}

static int
modulo (int x, int m)
{
  return ((x % m) + m) % m;
}

/* Whether the isometry carries every bead onto a bead of its own colour. */
static gboolean
keeps (const Band *band, Isometry by)
{
  for (int x = 0; x < band->around; x++)
    for (int column = 1; column <= band->columns; column++) {
      if (!has_bead (x, column))
        continue;
      int to = modulo (by.sign * x + by.shift, band->around);
      int across = by.flip ? band->columns + 1 - column : column;
      if (!has_bead (to, across) || band->colour[to][across] != band->colour[x][column])
        return FALSE;
    }
  return TRUE;
}

static gboolean
any_shift_keeps (const Band *band, int sign, gboolean flip)
{
  for (int shift = 0; shift < band->around; shift++)
    if (keeps (band, (Isometry){ sign, shift, flip }))
      return TRUE;
  return FALSE;
}

/* The shortest translation that keeps the band, in half pitches. */
static int
period_of (const Band *band)
{
  int shift = 1;
  while (!keeps (band, (Isometry){ 1, shift, FALSE }))
    shift++;
  return shift;
}

static BwFrieze
group_of (const Band *band)
{
  gboolean along = keeps (band, (Isometry){ 1, 0, TRUE });
  gboolean across = any_shift_keeps (band, -1, FALSE), turn = any_shift_keeps (band, -1, TRUE);
  gboolean glide = !along && any_shift_keeps (band, 1, TRUE);
  if (along)
    return across ? BW_FRIEZE_P2MM : BW_FRIEZE_P11M;
  if (glide)
    return across ? BW_FRIEZE_P2MG : BW_FRIEZE_P11G;
  return across ? BW_FRIEZE_P1M1 : turn ? BW_FRIEZE_P2 : BW_FRIEZE_P1;
}

/* found[group][parity of the repeat in beads a column] over all designs of all small bands. */
typedef int Census[BW_N_FRIEZES][2];

static void
count_designs (int columns, int beads_max, Census found)
{
  for (int beads = 1; columns * beads <= beads_max; beads++)
    for (guint32 code = 0; code < 1u << (columns * beads); code++) {
      Band band = nth_design (columns, beads, code);
      int period = period_of (&band);
      assert_int_equal (period % 2, 0);
      found[group_of (&band)][period / 2 % 2]++;
    }
}

static gboolean
occurs (Census found, BwFrieze group)
{
  return found[group][0] + found[group][1] > 0;
}

static void
an_even_number_of_columns_allows_five_groups (void **state)
{
  Census found = { { 0 } };
  for (int columns = 2; columns <= 6; columns += 2)
    count_designs (columns, 14, found);
  assert_true (occurs (found, BW_FRIEZE_P1));
  assert_true (occurs (found, BW_FRIEZE_P2));
  assert_true (occurs (found, BW_FRIEZE_P1M1));
  assert_true (occurs (found, BW_FRIEZE_P11G));
  assert_true (occurs (found, BW_FRIEZE_P2MG));
  assert_false (occurs (found, BW_FRIEZE_P11M));
  assert_false (occurs (found, BW_FRIEZE_P2MM));
}

static void
a_glide_repeats_an_odd_number_of_beads (void **state)
{
  Census found = { { 0 } };
  for (int columns = 2; columns <= 6; columns += 2)
    count_designs (columns, 14, found);
  assert_true (found[BW_FRIEZE_P11G][1] > 0 && found[BW_FRIEZE_P2MG][1] > 0);
  assert_int_equal (found[BW_FRIEZE_P11G][0] + found[BW_FRIEZE_P2MG][0], 0);
  const BwFrieze free[] = { BW_FRIEZE_P1, BW_FRIEZE_P2, BW_FRIEZE_P1M1 };
  for (gsize i = 0; i < G_N_ELEMENTS (free); i++)
    assert_true (found[free[i]][0] > 0 && found[free[i]][1] > 0);
}

static void
an_odd_number_of_columns_would_allow_all_seven (void **state)
{
  Census found = { { 0 } };
  count_designs (3, 15, found);
  count_designs (5, 15, found);
  for (int group = 0; group < BW_N_FRIEZES; group++)
    assert_true (occurs (found, group));
  assert_int_equal (found[BW_FRIEZE_P11G][1] + found[BW_FRIEZE_P2MG][1], 0);
}

static void
the_bare_lattice_is_p2mg (void **state)
{
  for (int columns = 2; columns <= 8; columns += 2) {
    Band band = nth_design (columns, 1, 0);
    assert_int_equal (period_of (&band), 2);
    assert_int_equal (group_of (&band), BW_FRIEZE_P2MG);
  }
}

/* --- the core's own account of it ----------------------------------------------------------- */

static BwDrawing *
drawing_of (const Band *band)
{
  BwDrawing *drawing = bw_drawing_new (band->columns, band->around, 0);
  for (int x = 0; x < band->around; x++)
    for (int column = 1; column <= band->columns; column++)
      if (has_bead (x, column))
        bw_drawing_set (drawing, x + 1, column, band->colour[x][column]);
  return drawing;
}

static gboolean
core_finds (const BwDrawing *drawing, BwFrieze frieze, int repeat_rows)
{
  for (int centre = 0; centre < repeat_rows; centre++) {
    BwSymmetry symmetry = { frieze, repeat_rows, centre };
    BwFriezeFit fit = bw_symmetry_fit (&symmetry, bw_drawing_rows (drawing));
    if (fit == BW_FRIEZE_FITS && bw_symmetry_holds (&symmetry, drawing))
      return TRUE;
  }
  return FALSE;
}

/* Whether a design of group `whole` has the symmetries of `part`. */
static gboolean
contains (BwFrieze whole, BwFrieze part)
{
  return part == BW_FRIEZE_P1 || part == whole
         || (whole == BW_FRIEZE_P2MG && part != BW_FRIEZE_P11M && part != BW_FRIEZE_P2MM);
}

static void
the_core_finds_in_every_design_the_symmetries_it_has (void **state)
{
  for (int columns = 2; columns <= 6; columns += 2)
    for (int beads = 1; columns * beads <= 12; beads++)
      for (guint32 code = 0; code < 1u << (columns * beads); code++) {
        Band band = nth_design (columns, beads, code);
        g_autoptr (BwDrawing) drawing = drawing_of (&band);
        int period = period_of (&band);
        BwFrieze group = group_of (&band);
        for (int frieze = 0; frieze < BW_N_FRIEZES; frieze++)
          if (core_finds (drawing, frieze, period) != contains (group, frieze))
            fail_msg ("%d columns, %d beads, design %u: the core is wrong about frieze %d", columns, beads,
                      code, frieze);
      }
}

static void
the_core_offers_what_some_design_has_and_nothing_else (void **state)
{
  Census found = { { 0 } };
  count_designs (4, 12, found);
  count_designs (2, 14, found);
  for (int frieze = 0; frieze < BW_N_FRIEZES; frieze++)
    for (int beads = 1; beads <= 7; beads++) {
      BwSymmetry symmetry = { frieze, 2 * beads, 0 };
      gboolean offered = bw_symmetry_fit (&symmetry, 2 * beads) == BW_FRIEZE_FITS;
      assert_int_equal (offered, found[frieze][beads % 2] > 0);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_even_number_of_columns_allows_five_groups),
    cmocka_unit_test (a_glide_repeats_an_odd_number_of_beads),
    cmocka_unit_test (an_odd_number_of_columns_would_allow_all_seven),
    cmocka_unit_test (the_bare_lattice_is_p2mg),
    cmocka_unit_test (the_core_finds_in_every_design_the_symmetries_it_has),
    cmocka_unit_test (the_core_offers_what_some_design_has_and_nothing_else),
  };
  return cmocka_run_group_tests_name ("frieze", tests, NULL, NULL);
}
