/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads: mass, the table of sizes, names and ranges. */
#include "stones.h"

#include <string.h>

static BwBead
eleven (void)
{
  return bw_bead_sizes (&(int){ 0 })[1];
}

/* π/4 (1.6² − 0.8²) 1.3 = 1.9604 mm³; at 2.5 g/cm³ 4.90 mg, 204 beads to the gram. The trade counts
 * "about 200" (common practice, no source). */
static void
an_eleven_weighs_as_a_tube_of_glass_does (void **state)
{
  BwBead bead = eleven ();
  double mass = bw_bead_mass_g (&bead);
  assert_near (mass, 2.5e-3 * G_PI / 4 * (1.6 * 1.6 - 0.8 * 0.8) * 1.3, 1e-14);
  assert_true (1 / mass > 190 && 1 / mass < 210);
}

/* Soda-lime silicate glass, 2.49 g/cm³: Encyclopaedia Britannica, "Industrial glass", table of
 * properties of oxide glasses. The table's density is within one in a hundred of it. */
static void
the_sizes_are_of_soda_lime_glass (void **state)
{
  int n;
  const BwBead *sizes = bw_bead_sizes (&n);
  for (int i = 0; i < n; i++)
    assert_near (sizes[i].glass_g_cm3, 2.49, 0.01);
}

/* "cylinder" or "round seed", after the size. */
static const char *
kind_of (const BwBead *bead)
{
  return strchr (bead->name, ' ');
}

static void
every_size_is_sound_and_larger_than_the_one_before (void **state)
{
  int n;
  const BwBead *sizes = bw_bead_sizes (&n);
  assert_int_equal (n, 8);
  for (int i = 0; i < n; i++) {
    assert_true (bw_bead_validate (&sizes[i], NULL));
    assert_true (strlen (sizes[i].name) > 0);
    if (i && g_str_equal (kind_of (&sizes[i]), kind_of (&sizes[i - 1])))
      assert_true (sizes[i].diameter_mm > sizes[i - 1].diameter_mm
                   && sizes[i].length_mm > sizes[i - 1].length_mm
                   && sizes[i].hole_mm > sizes[i - 1].hole_mm);
  }
}

/* A round bead is flattened at its holes; one kind alone would read as one maker's range. */
static void
round_beads_of_the_usual_sizes_are_among_them (void **state)
{
  static const char *const usual[] = { "15/0", "11/0", "8/0", "6/0" };
  int n, found = 0;
  const BwBead *sizes = bw_bead_sizes (&n);
  for (int i = 0; i < n; i++)
    if (strstr (sizes[i].name, "round")) {
      assert_true (g_str_has_prefix (sizes[i].name, usual[found++]));
      assert_true (sizes[i].length_mm < 0.8 * sizes[i].diameter_mm);
    }
  assert_int_equal (found, G_N_ELEMENTS (usual));
}

static void
mass_grows_with_the_cube_of_the_size (void **state)
{
  BwBead bead = eleven (), twice = bead;
  twice.diameter_mm *= 2;
  twice.length_mm *= 2;
  twice.hole_mm *= 2;
  assert_near (bw_bead_mass_g (&twice), 8 * bw_bead_mass_g (&bead), 1e-14);
}

static void
a_long_name_is_cut_between_characters (void **state)
{
  BwBead bead = eleven ();
  /* Each ü takes two bytes: 31 of them fill 62 of the 63 there are. */
  g_autoptr (GString) name = g_string_new (NULL);
  for (int i = 0; i < 40; i++)
    g_string_append (name, "ü");
  bw_bead_set_name (&bead, name->str);
  assert_int_equal (strlen (bead.name), 62);
  assert_true (g_utf8_validate (bead.name, -1, NULL));
  g_string_prepend (name, "x");
  bw_bead_set_name (&bead, name->str);
  assert_int_equal (strlen (bead.name), 63);
  assert_true (g_utf8_validate (bead.name, -1, NULL));
}

static void
a_name_leaves_nothing_of_the_longer_one_before (void **state)
{
  BwBead bead = eleven (), other = bead;
  bw_bead_set_name (&bead, "a rather long name of a size");
  bw_bead_set_name (&bead, "short");
  bw_bead_set_name (&other, "short");
  assert_memory_equal (&bead, &other, sizeof bead);
  bw_bead_set_name (&bead, "");
  assert_string_equal (bead.name, "");
}

static void
refuses (BwFaultKey key, double *number, const BwBead *bead, double value)
{
  BwFault fault = NO_FAULT;
  double good = *number;
  *number = value;
  assert_false (bw_bead_validate (bead, &fault));
  assert_fault (&fault, BW_FAULTY_RANGE, key);
  *number = good;
}

static void
every_length_must_be_a_possible_one (void **state)
{
  const double wrong[] = { 0, -1, 1e308, (double)NAN, -(double)INFINITY };
  BwBead bead = eleven ();
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    refuses (BW_AT_BEAD_DIAMETER, &bead.diameter_mm, &bead, wrong[i]);
    refuses (BW_AT_BEAD_LENGTH, &bead.length_mm, &bead, wrong[i]);
    refuses (BW_AT_BEAD_HOLE, &bead.hole_mm, &bead, wrong[i]);
    refuses (BW_AT_BEAD_GLASS, &bead.glass_g_cm3, &bead, wrong[i]);
  }
  assert_true (bw_bead_validate (&bead, NULL));
}

static void
the_hole_must_leave_some_glass (void **state)
{
  BwFault fault = NO_FAULT;
  BwBead bead = eleven ();
  bead.hole_mm = bead.diameter_mm;
  assert_false (bw_bead_validate (&bead, &fault));
  assert_fault (&fault, BW_FAULTY_NO_GLASS, BW_AT_BEAD_HOLE);
  bead.hole_mm = bead.diameter_mm - 0.001;
  assert_true (bw_bead_validate (&bead, NULL));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_eleven_weighs_as_a_tube_of_glass_does),
    cmocka_unit_test (the_sizes_are_of_soda_lime_glass),
    cmocka_unit_test (every_size_is_sound_and_larger_than_the_one_before),
    cmocka_unit_test (round_beads_of_the_usual_sizes_are_among_them),
    cmocka_unit_test (mass_grows_with_the_cube_of_the_size),
    cmocka_unit_test (a_long_name_is_cut_between_characters),
    cmocka_unit_test (a_name_leaves_nothing_of_the_longer_one_before),
    cmocka_unit_test (every_length_must_be_a_possible_one),
    cmocka_unit_test (the_hole_must_leave_some_glass),
  };
  return cmocka_run_group_tests_name ("bead", tests, NULL, NULL);
}
