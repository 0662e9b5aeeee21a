/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tray says of colours that look alike, the trays to start from, and the list of steps. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <string.h>

#include "app/draw/history-popover.h"
#include "app/colours/tray-starts.h"
#include "app/colours/tray-words.h"

static BwTray
tray_of (int n, const guint32 *srgb)
{
  BwTray tray = { .n_colours = 0 };
  for (int i = 0; i < n; i++) {
    BwColour colour = { .id = bw_tray_free_letter (&tray), .srgb = srgb[i] };
    g_snprintf (colour.name, sizeof colour.name, "Bead %d", i + 1);
    tray.colour[tray.n_colours++] = colour;
  }
  return tray;
}

static void
colours_far_apart_give_no_words (void **state)
{
  static const guint32 srgb[] = { 0x000000, 0xffffff, 0x0050c0, 0xe0c020 };
  BwTray tray = tray_of (4, srgb);
  assert_null (bw_tray_words_alike (&tray, 3));
}

static void
two_nearly_equal_colours_are_named (void **state)
{
  static const guint32 srgb[] = { 0x804020, 0x0050c0, 0x814020 };
  BwTray tray = tray_of (3, srgb);
  g_autofree char *words = bw_tray_words_alike (&tray, 3);
  assert_string_equal (words, "“Bead 1” and “Bead 3” can hardly be told apart.");
  tray.colour[2].finish = BW_FINISH_METAL;
  assert_null (bw_tray_words_alike (&tray, 3));
}

/* A red and a green that an eye weak in red cannot tell, found by search: apart to everybody else.
 */
static void
colours_alike_to_fewer_cones_are_named_with_the_sight (void **state)
{
  guint32 red = 0xb04030;
  BwLab wanted = bw_colour_lab_seen (red, BW_SIGHT_PROTAN);
  guint32 green = 0;
  for (guint32 g = 0; g < 256 && !green; g += 2)
    for (guint32 r = 0; r < 256 && !green; r += 2) {
      guint32 other = r << 16 | g << 8 | 0x30;
      if (bw_colour_difference (bw_colour_lab (red), bw_colour_lab (other)) > 20
          && bw_colour_difference (wanted, bw_colour_lab_seen (other, BW_SIGHT_PROTAN)) < 1.5)
        green = other;
    }
  assert_true (green != 0);
  const guint32 srgb[] = { red, green };
  BwTray tray = tray_of (2, srgb);
  g_autoptr (GArray) alike = bw_tray_alike (&tray);
  assert_int_equal (alike->len, 1);
  assert_true (g_array_index (alike, BwAlike, 0).sights & (1u << BW_SIGHT_PROTAN));
  assert_false (g_array_index (alike, BwAlike, 0).sights & (1u << BW_SIGHT_FULL));
  g_autofree char *words = bw_tray_words_alike (&tray, 3);
  assert_non_null (strstr (words, "eyes weak in red"));
}

/* Every pair against the definition, on random trays. */
static void
no_pair_is_missed_and_none_invented (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (41);
  for (int round = 0; round < 40; round++) {
    guint32 srgb[30];
    for (int i = 0; i < 30; i++)
      srgb[i] = 0x606060 + (guint32)g_rand_int_range (dice, 0, 16) * 0x010001
                + (guint32)g_rand_int_range (dice, 0, 16) * 0x000100;
    BwTray tray = tray_of (30, srgb);
    g_autoptr (GArray) alike = bw_tray_alike (&tray);
    guint wanted = 0;
    for (int a = 0; a < 30; a++)
      for (int b = a + 1; b < 30; b++) {
        guint sights = 0;
        for (BwSight s = 0; s < BW_N_SIGHTS; s++)
          if (bw_colour_difference (bw_colour_lab_seen (srgb[a], s),
                                    bw_colour_lab_seen (srgb[b], s))
              < BW_COLOUR_HARDLY)
            sights |= 1u << s;
        wanted += sights != 0;
      }
    assert_int_equal (alike->len, wanted);
  }
}

static void
many_pairs_are_counted_not_listed (void **state)
{
  guint32 srgb[BW_TRAY_MAX];
  for (int i = 0; i < BW_TRAY_MAX; i++)
    srgb[i] = 0x445566;
  BwTray tray = tray_of (BW_TRAY_MAX, srgb);
  g_autofree char *words = bw_tray_words_alike (&tray, 3);
  g_auto (GStrv) lines = g_strsplit (words, "\n", -1);
  assert_int_equal (g_strv_length (lines), 4);
  assert_non_null (strstr (lines[3], "19897"));
}

static void
the_trays_to_start_from_can_be_told_apart (void **state)
{
  assert_in_range (bw_tray_starts_count (), 3, 6);
  for (int i = 0; i < bw_tray_starts_count (); i++) {
    guint64 counts[256] = { 0 };
    guint8 map[256];
    BwTray tray;
    bw_tray_init (&tray);
    bw_tray_start_lay (&tray, i, counts, map);
    g_autofree char *words = bw_tray_words_alike (&tray, 9);
    if (words)
      fail_msg ("%s: %s", bw_tray_start_name (i), words);
  }
}

static void
a_start_keeps_every_bead_in_its_place (void **state)
{
  guint32 srgb[20];
  guint64 counts[256] = { 0 };
  guint8 map[256];
  for (int i = 0; i < 20; i++)
    srgb[i] = (guint32)i * 0x0a0b0c;
  BwTray tray = tray_of (20, srgb), old = tray;
  counts[2] = counts[7] = counts[19] = 5;
  bw_tray_start_lay (&tray, 1, counts, map);
  assert_int_equal (tray.n_colours, 8);
  assert_int_equal (map[2], 2);
  assert_int_equal (map[7], 6);
  assert_int_equal (map[19], 7);
  assert_int_equal (tray.colour[6].srgb, old.colour[7].srgb);
  assert_int_equal (tray.colour[7].srgb, old.colour[19].srgb);
  for (int a = 0; a < tray.n_colours; a++)
    for (int b = 0; b < a; b++)
      assert_int_not_equal (tray.colour[a].id, tray.colour[b].id);
}

static void
a_full_tray_in_use_keeps_what_has_beads (void **state)
{
  guint32 srgb[BW_TRAY_MAX];
  guint64 counts[256] = { 0 };
  guint8 map[256];
  for (int i = 0; i < BW_TRAY_MAX; i++) {
    srgb[i] = (guint32)i * 0x010203;
    counts[i] = 1;
  }
  BwTray tray = tray_of (BW_TRAY_MAX, srgb);
  bw_tray_start_lay (&tray, 0, counts, map);
  assert_int_equal (tray.n_colours, BW_TRAY_MAX);
  for (int i = 0; i < BW_TRAY_MAX; i++)
    assert_int_equal (map[i], i);
}

static void
the_list_of_steps_names_them_in_order (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_bead (project, "Stroke", FALSE, 1, 2, 1);
  bw_project_set_title (project, "Title", "Other");
  bw_project_undo (project);
  g_autoptr (GListModel) list = bw_history_list_new (project);
  static const char *const wanted[] = { "As it was opened", "Stroke", "Title" };
  assert_int_equal (g_list_model_get_n_items (list), 3);
  for (guint i = 0; i < 3; i++) {
    g_autoptr (GtkStringObject) item = g_list_model_get_item (list, i);
    assert_string_equal (gtk_string_object_get_string (item), wanted[i]);
  }
  assert_null (g_list_model_get_item (list, 3));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (colours_far_apart_give_no_words),
    cmocka_unit_test (two_nearly_equal_colours_are_named),
    cmocka_unit_test (colours_alike_to_fewer_cones_are_named_with_the_sight),
    cmocka_unit_test (no_pair_is_missed_and_none_invented),
    cmocka_unit_test (many_pairs_are_counted_not_listed),
    cmocka_unit_test (the_trays_to_start_from_can_be_told_apart),
    cmocka_unit_test (a_start_keeps_every_bead_in_its_place),
    cmocka_unit_test (a_full_tray_in_use_keeps_what_has_beads),
    cmocka_unit_test (the_list_of_steps_names_them_in_order),
  };
  return cmocka_run_group_tests_name ("tray-words", tests, NULL, NULL);
}
