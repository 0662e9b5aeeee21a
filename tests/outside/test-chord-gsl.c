/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chord against a general root finder: GNU Scientific Library 2.7, Brent–Dekker, on hundreds of
 * random sections. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "core/band/ring.h"
#include "gsl-chord.h"
#include "samples.h"

static void
the_chord_is_the_one_a_general_root_finder_finds (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2024);
  for (int k = 0; k < 400; k++) {
    BwSection section;
    BwRing ring;
    sample_random_section (&section, rand);
    bw_ring_init (&ring, &section, sample_between (rand, 0.65, 2.5));
    int fewest = (int)ceil (ring.length_mm / (2 * ring.rho_mm));
    int n = fewest + g_rand_int_range (rand, 0, 30);
    double start = sample_between (rand, 0, ring.length_mm);
    double expected = gsl_chord (&section, ring.rho_mm, n, start, 1e-12);
    assert_near (bw_ring_chord (&ring, n, start), expected, 1e-9 * expected);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_chord_is_the_one_a_general_root_finder_finds),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
