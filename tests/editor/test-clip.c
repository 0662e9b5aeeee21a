/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces of beadwork: what is lifted comes back, what is done twice is undone, and nothing lands
 * off the half-drop. */
#include "editor/tool/clip.h"

#include "core/base/lattice.h"
#include <string.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>

#define COLUMNS 10
#define ROWS 40

static BwDrawing *
random_drawing (GRand *dice)
{
  BwDrawing *drawing = bw_drawing_new (COLUMNS, ROWS, 0);
  for (int row = 1; row <= ROWS; row++)
    for (int j = 0; j < COLUMNS / 2; j++)
      bw_drawing_set (drawing, row, bw_lattice_column (row, j),
                      (guint8)g_rand_int_range (dice, 0, 3));
  return drawing;
}

static BwRegion *
random_region (GRand *dice)
{
  BwRegion *region = bw_region_new (COLUMNS, ROWS);
  int first = g_rand_int_range (dice, 1, ROWS + 1), low = g_rand_int_range (dice, 1, COLUMNS - 2);
  bw_region_add_box (region, first, first + g_rand_int_range (dice, 1, 20), low,
                     g_rand_int_range (dice, low, COLUMNS) + 1);
  for (int i = 0; i < 5; i++)
    bw_region_remove (region, g_rand_int_range (dice, 1, ROWS + 1),
                      g_rand_int_range (dice, 1, COLUMNS + 1));
  return region;
}

static void
give_tray (BwTray *tray)
{
  memset (tray, 0, sizeof *tray);
  tray->n_colours = 3;
  tray->colour[0].id = 'n';
  tray->colour[1].id = '-';
  tray->colour[2].id = 0xe9; /* beyond ASCII */
}

typedef struct {
  const BwDrawing *drawing;
  const BwRegion *region;
  int seen;
} Check;

static void
check_bead (int long_row, int column, guint8 colour, gpointer data)
{
  Check *check = data;
  int row = (long_row - 1) % ROWS + 1;
  assert_true (bw_region_has (check->region, row, column));
  assert_int_equal (bw_drawing_get (check->drawing, row, column), colour);
  check->seen++;
}

static void
what_is_lifted_lies_where_it_was (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (71);
  for (int trial = 0; trial < 500; trial++) {
    g_autoptr (BwDrawing) drawing = random_drawing (dice);
    g_autoptr (BwRegion) region = random_region (dice);
    int row, column;
    g_autoptr (BwClip) clip = bw_clip_lift (drawing, region, &row, &column);
    Check check = { drawing, region, 0 };
    assert_non_null (clip);
    assert_int_equal (bw_clip_land (clip, row, column), row);
    bw_clip_each (clip, row, column, check_bead, &check);
    assert_int_equal (check.seen, bw_region_count (region));
    assert_int_equal (bw_clip_count (clip), check.seen);
  }
}

static void
count_off (int long_row, int column, guint8 colour, gpointer data)
{
  *(int *)data += !bw_lattice_has (long_row, column);
}

static void
doing_it_twice_is_nothing_and_every_landing_keeps_the_half_drop (void **state)
{
  void (*const deeds[]) (BwClip *) = { bw_clip_flip_round, bw_clip_flip_up, bw_clip_turn };
  g_autoptr (GRand) dice = g_rand_new_with_seed (72);
  for (int trial = 0; trial < 600; trial++) {
    g_autoptr (BwDrawing) drawing = random_drawing (dice);
    g_autoptr (BwRegion) region = random_region (dice);
    int row, column, off = 0;
    g_autoptr (BwClip) clip = bw_clip_lift (drawing, region, &row, &column);
    g_autoptr (BwClip) was = bw_clip_copy (clip);
    deeds[trial % 3](clip);
    int landed = bw_clip_land (clip, row, column);
    assert_in_range (abs (landed - row), 0, 1);
    bw_clip_each (clip, landed, column, count_off, &off);
    assert_int_equal (off, 0);
    deeds[trial % 3](clip);
    assert_true (bw_clip_equal (clip, was));
    /* And it is back in its old place, too. */
    assert_int_equal (bw_clip_land (clip, landed, column), row);
  }
}

static void
a_turn_is_both_flips_in_either_order (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (73);
  g_autoptr (BwDrawing) drawing = random_drawing (dice);
  g_autoptr (BwRegion) region = random_region (dice);
  int row, column;
  g_autoptr (BwClip) a = bw_clip_lift (drawing, region, &row, &column), b = bw_clip_copy (a);
  bw_clip_turn (a);
  bw_clip_flip_up (b);
  bw_clip_flip_round (b);
  assert_true (bw_clip_equal (a, b));
}

static void
text_holds_the_whole_piece (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (74);
  BwTray tray;
  give_tray (&tray);
  for (int trial = 0; trial < 300; trial++) {
    g_autoptr (BwDrawing) drawing = random_drawing (dice);
    g_autoptr (BwRegion) region = random_region (dice);
    int row, column;
    g_autoptr (BwClip) clip = bw_clip_lift (drawing, region, &row, &column);
    g_autofree char *text = bw_clip_print (clip, &tray);
    g_autoptr (GError) error = NULL;
    g_autoptr (BwClip) read = bw_clip_parse (text, &tray, &error);
    assert_null (error);
    assert_true (bw_clip_equal (clip, read));
  }
}

static void
assert_refused (const char *text, const char *sentence)
{
  g_autoptr (GError) error = NULL;
  BwTray tray;
  give_tray (&tray);
  assert_null (bw_clip_parse (text, &tray, &error));
  assert_non_null (error);
  assert_string_equal (error->message, sentence);
}

static void
what_is_no_beadwork_is_refused_with_one_sentence (void **state)
{
  const char *foreign = "There are no beads to paste: what was copied is something else.";
  assert_refused ("", "There are no beads to paste: nothing was copied.");
  assert_refused ("Dear customer,", foreign);
  assert_refused ("beads-of-a-band 1", foreign);
  assert_refused ("beads-of-a-band 1 rows 999999 columns 4 bead-first\n", foreign);
  assert_refused ("beads-of-a-band 1 rows 0 columns 4 bead-first\n", foreign);
  assert_refused ("beads-of-a-band 1 rows 2 columns 4 sideways\nnn\nnn\n", foreign);
  assert_refused ("beads-of-a-band 1 rows 2 columns 4 bead-first\n\n\n", foreign);
  assert_refused ("beads-of-a-band 1 rows 2 columns 4 bead-first \xff\n", foreign);
  assert_refused ("beads-of-a-band 1 rows 2 columns 4 bead-first\nnnn\nnn\n",
                  "The beads to paste are damaged in their row 1.");
  assert_refused ("beads-of-a-band 1 rows 2 columns 4 bead-first\nnn",
                  "The beads to paste are damaged in their row 2.");
  assert_refused ("beads-of-a-band 1 rows 2 columns 4 bead-first\nnq\nnn\n",
                  "The beads to paste have a colour “q” that the tray has not.");
}

static void
line_ends_of_other_systems_are_read (void **state)
{
  BwTray tray;
  give_tray (&tray);
  g_autoptr (BwClip) clip
      = bw_clip_parse ("beads-of-a-band 1 rows 2 columns 4 bead-first\r\nn\r\n -\r\n", &tray, NULL);
  assert_non_null (clip);
  assert_int_equal (bw_clip_count (clip), 2);
}

static void
add_colour (int long_row, int column, guint8 colour, gpointer data)
{
  ((int *)data)[colour]++;
}

/* Every bead, and none of the holes. */
static void
beads_are_given_other_colours (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (71);
  for (int trial = 0; trial < 50; trial++) {
    guint8 map[256] = { 2, 0, 5 };
    int row, column, before[256] = { 0 }, after[256] = { 0 };
    g_autoptr (BwDrawing) drawing = random_drawing (dice);
    g_autoptr (BwRegion) region = random_region (dice);
    g_autoptr (BwClip) clip = bw_clip_lift (drawing, region, &row, &column);
    if (!clip)
      continue;
    bw_clip_each (clip, row, column, add_colour, before);
    bw_clip_map (clip, map);
    bw_clip_each (clip, row, column, add_colour, after);
    assert_int_equal (after[2], before[0]);
    assert_int_equal (after[0], before[1]);
    assert_int_equal (after[5], before[2]);
    assert_int_equal (bw_clip_count (clip), before[0] + before[1] + before[2]);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (beads_are_given_other_colours),
    cmocka_unit_test (what_is_lifted_lies_where_it_was),
    cmocka_unit_test (doing_it_twice_is_nothing_and_every_landing_keeps_the_half_drop),
    cmocka_unit_test (a_turn_is_both_flips_in_either_order),
    cmocka_unit_test (text_holds_the_whole_piece),
    cmocka_unit_test (what_is_no_beadwork_is_refused_with_one_sentence),
    cmocka_unit_test (line_ends_of_other_systems_are_read),
  };
  return cmocka_run_group_tests_name ("clip", tests, NULL, NULL);
}
