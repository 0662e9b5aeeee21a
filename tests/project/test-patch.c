/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"

#include "project/document/patch.h"

static GArray *
changes_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (BwChange));
}

static void
add (GArray *changes, guint32 place, guint8 before, guint8 after)
{
  BwChange change = { place, before, after };

  g_array_append_val (changes, change);
}

static void
assert_same (const GArray *a, const GArray *b)
{
  assert_int_equal (a->len, b->len);
  for (guint i = 0; i < a->len; i++) {
    BwChange p = g_array_index (a, BwChange, i), q = g_array_index (b, BwChange, i);

    assert_int_equal (p.place, q.place);
    assert_int_equal (p.before, q.before);
    assert_int_equal (p.after, q.after);
  }
}

static void
a_place_names_one_bead_of_one_canvas (void **state)
{
  static const int rows[] = { 1, 2, 3, 114, BW_ROWS_MAX };

  for (BwCanvas c = 0; c < BW_N_CANVASES; c++)
    for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
      for (int bead = 0; bead < BW_COLUMNS_MAX / 2; bead += 33) {
        guint32 place = bw_place_of (c, rows[i], bead);

        assert_int_equal (bw_place_canvas (place), c);
        assert_int_equal (bw_place_row (place), rows[i]);
        assert_int_equal (bw_place_column (place), 2 * bead + (rows[i] % 2 ? 2 : 1));
      }
}

static void
changes_of_one_bead_join_and_cancel (void **state)
{
  g_autoptr (GArray) changes = changes_new (), joined = changes_new ();

  add (changes, 9, 0, 1);
  add (changes, 4, 2, 3);
  add (changes, 9, 1, 5);
  add (changes, 7, 6, 7);
  add (changes, 7, 7, 6);
  bw_changes_join (changes);
  add (joined, 4, 2, 3);
  add (joined, 9, 0, 5);
  assert_same (changes, joined);
}

static void
what_is_packed_is_unpacked_the_same (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);

  for (int round = 0; round < 300; round++) {
    g_autoptr (GArray) changes = changes_new (), back = changes_new ();
    g_autoptr (GByteArray) bytes = g_byte_array_new ();
    guint32 place = (guint32)g_rand_int_range (rand, 0, 3);

    for (int i = g_rand_int_range (rand, 0, 400); i > 0; i--) {
      add (changes, place, (guint8)g_rand_int (rand), (guint8)g_rand_int (rand));
      place += g_rand_boolean (rand) ? 1 : (guint32)g_rand_int_range (rand, 1, 20000);
    }
    bw_changes_pack (changes, bytes);
    bw_changes_unpack (back, bytes->data, bytes->len);
    assert_same (changes, back);
  }
}

static void
the_last_bead_of_the_largest_bail_can_be_packed (void **state)
{
  g_autoptr (GArray) changes = changes_new (), back = changes_new ();
  g_autoptr (GByteArray) bytes = g_byte_array_new ();

  add (changes, 0, 1, 2);
  add (changes, bw_place_of (BW_CANVAS_BAIL, BW_ROWS_MAX, BW_COLUMNS_MAX / 2 - 1), 255, 0);
  bw_changes_pack (changes, bytes);
  bw_changes_unpack (back, bytes->data, bytes->len);
  assert_same (changes, back);
}

static void
one_bead_takes_few_bytes (void **state)
{
  g_autoptr (GArray) changes = changes_new ();
  g_autoptr (GByteArray) bytes = g_byte_array_new ();

  add (changes, bw_place_of (BW_CANVAS_BAND, 114, 6), 1, 2);
  bw_changes_pack (changes, bytes);
  assert_true (bytes->len <= 6);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_place_names_one_bead_of_one_canvas),
    cmocka_unit_test (changes_of_one_bead_join_and_cancel),
    cmocka_unit_test (what_is_packed_is_unpacked_the_same),
    cmocka_unit_test (the_last_bead_of_the_largest_bail_can_be_packed),
    cmocka_unit_test (one_bead_takes_few_bytes),
  };

  return cmocka_run_group_tests_name ("patch", tests, NULL, NULL);
}
