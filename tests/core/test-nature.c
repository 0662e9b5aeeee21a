/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Needles and chips lie where a stone can have them, and where its seed says. */
#include "stones.h"

#include "core/stone/mineral-striae.h"
#include "core/stone/nature.h"
#include <string.h>

#define N_RANDOM 60

static BwStone
random_stone (GRand *rand)
{
  DrawnStone drawn;
  draw_stone (&drawn, rand);
  return solved (&drawn.measures);
}

static BwNature
nature_of (const BwStone *stone, double needles, double chips, int seed)
{
  BwNature nature;
  bw_nature_init (&nature, stone,
                  &(BwStoneLook){ .needles = needles, .chips = chips, .seed = seed });
  return nature;
}

/* How far a point lies inside of the face it is nearest to; negative outside. */
static double
depth_in (const BwStone *stone, BwVec3 at)
{
  double least = INFINITY;
  for (int f = 0; f < stone->n_polygons; f++) {
    BwVec3 normal;
    double distance;
    bw_stone_plane (stone, f, &normal, &distance);
    least = MIN (least, distance - bw_vec3_dot (normal, at));
  }
  return least;
}

static void
every_needle_lies_wholly_in_the_stone (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  for (int k = 0; k < N_RANDOM; k++) {
    BwStone stone = random_stone (rand);
    BwNature nature = nature_of (&stone, 1, 0, k);
    int long_ones = 0;
    assert_int_equal (nature.n_needles, BW_NEEDLES_MAX);
    for (int i = 0; i < nature.n_needles; i++) {
      const BwNeedle *needle = &nature.needle[i];
      double length = bw_vec3_length (bw_vec3_sub (needle->to, needle->from));
      if (length < 1e-9)
        continue;
      assert_true (depth_in (&stone, needle->from) > needle->radius);
      assert_true (depth_in (&stone, needle->to) > needle->radius);
      long_ones += length > 10 * needle->radius;
    }
    if (stone.h_mm[0] > 4)
      assert_true (long_ones > BW_NEEDLES_MAX / 2);
  }
}

static void
every_chip_lies_on_an_edge_and_faces_out (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (32);
  for (int k = 0; k < N_RANDOM; k++) {
    BwStone stone = random_stone (rand);
    BwNature nature = nature_of (&stone, 0, 1, k);
    assert_int_equal (nature.n_chips, BW_CHIPS_MAX);
    for (int i = 0; i < nature.n_chips; i++) {
      const BwChip *chip = &nature.chip[i];
      int faces = 0;
      for (int f = 0; f < stone.n_polygons; f++) {
        BwVec3 normal;
        double distance;
        bw_stone_plane (&stone, f, &normal, &distance);
        if (fabs (bw_vec3_dot (normal, chip->at) - distance) < 1e-6) {
          assert_true (bw_vec3_dot (normal, chip->out) > 0);
          faces++;
        }
      }
      assert_true (faces >= 2);
      assert_near (bw_vec3_length (chip->out), 1, 1e-9);
      assert_true (chip->radius > 0);
    }
  }
}

static void
a_seed_has_its_own_and_always_the_same (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (33);
  BwStone stone = random_stone (rand);
  BwNature one = nature_of (&stone, 0.5, 0.5, 7), again = nature_of (&stone, 0.5, 0.5, 7);
  BwNature other = nature_of (&stone, 0.5, 0.5, 8);
  assert_memory_equal (&one, &again, sizeof one);
  assert_memory_not_equal (one.needle, other.needle, sizeof one.needle);
  assert_memory_not_equal (one.chip, other.chip, sizeof one.chip);
}

static void
a_larger_amount_adds_to_what_was_there (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (34);
  BwStone stone = random_stone (rand);
  BwNature few = nature_of (&stone, 0.25, 0.25, 7), many = nature_of (&stone, 1, 1, 7);
  assert_int_equal (few.n_needles, BW_NEEDLES_MAX / 4);
  assert_int_equal (few.n_chips, BW_CHIPS_MAX / 4);
  assert_memory_equal (few.needle, many.needle, (gsize)few.n_needles * sizeof *few.needle);
  assert_memory_equal (few.chip, many.chip, (gsize)few.n_chips * sizeof *few.chip);
}

static void
a_quiet_stone_has_neither (void **state)
{
  BwStoneMeasures measures = bench_stone ();
  BwStone stone = solved (&measures);
  BwNature nature = nature_of (&stone, 0, 0, 7);
  assert_int_equal (nature.n_needles, 0);
  assert_int_equal (nature.n_chips, 0);
  assert_true (bw_stone_look_is_quiet (&(BwStoneLook){ .seed = 7 }));
  assert_false (bw_stone_look_is_quiet (&(BwStoneLook){ .base = BW_BASE_BROKEN }));
  assert_false (bw_stone_look_is_quiet (&(BwStoneLook){ .growth_lines = 0.1 }));
}

static void
an_amount_out_of_range_is_a_fault_at_its_key (void **state)
{
  const struct {
    BwStoneLook look;
    BwFaultKey key;
  } cases[] = { { { .growth_lines = -0.01 }, BW_AT_LOOK_GROWTH_LINES },
                { { .veils = 1.01 }, BW_AT_LOOK_VEILS },
                { { .needles = (double)NAN }, BW_AT_LOOK_NEEDLES },
                { { .chips = (double)INFINITY }, BW_AT_LOOK_CHIPS },
                { { .seed = BW_LOOK_SEED_MAX + 1 }, BW_AT_LOOK_SEED } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    BwFault fault = NO_FAULT;
    BwDesign design = bench_design ();
    design.look = cases[i].look;
    assert_false (bw_design_validate (&design, NULL, &fault));
    assert_fault (&fault, BW_FAULTY_RANGE, cases[i].key);
  }
}

static void
lines_run_as_the_mineral_grows_them (void **state)
{
  const struct {
    const char *mineral;
    BwStriae striae;
  } cases[] = { { "Rock crystal, quartz", BW_STRIAE_ACROSS },
                { "smoky quartz", BW_STRIAE_ACROSS },
                { NULL, BW_STRIAE_ACROSS },
                { "what a neighbour gave", BW_STRIAE_ACROSS },
                { "tourmaline (schorl)", BW_STRIAE_ALONG },
                { "Aquamarine", BW_STRIAE_ALONG },
                { "TOPAZ", BW_STRIAE_ALONG },
                { "obsidian", BW_STRIAE_NONE },
                { "volcanic glass", BW_STRIAE_NONE },
                { "rose quartz", BW_STRIAE_NONE },
                { "malachite", BW_STRIAE_NONE },
                { "fluorite", BW_STRIAE_NONE } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_int_equal (bw_mineral_striae (cases[i].mineral), cases[i].striae);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_needle_lies_wholly_in_the_stone),
    cmocka_unit_test (every_chip_lies_on_an_edge_and_faces_out),
    cmocka_unit_test (a_seed_has_its_own_and_always_the_same),
    cmocka_unit_test (a_larger_amount_adds_to_what_was_there),
    cmocka_unit_test (a_quiet_stone_has_neither),
    cmocka_unit_test (an_amount_out_of_range_is_a_fault_at_its_key),
    cmocka_unit_test (lines_run_as_the_mineral_grows_them),
  };
  return cmocka_run_group_tests_name ("nature", tests, NULL, NULL);
}
