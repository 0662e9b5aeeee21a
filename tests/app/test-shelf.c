/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks of designs: made from the file, kept in the user's cache, and believed only where they are
 * whole. */
#include "app/shelf/shelf-cache.h"
#include "project/project.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <utime.h>
#include <cmocka.h>

static char *folder, *design_path;

static char *
kept_path (const char *key, const char *ending)
{
  g_autofree char *name = g_strconcat (key, ending, NULL);
  return g_build_filename (folder, "cache", "bandwright", "shelf", name, NULL);
}

static void
write_design (const char *title)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GFile) file = g_file_new_for_path (design_path);
  bw_project_set_title (project, "Title", title);
  assert_true (bw_project_set_progress (project, "Rows", 10, NULL, 0, NULL));
  assert_true (bw_project_save (project, file, NULL));
}

/* Owned. */
static char *
key_now (void)
{
  g_autoptr (GFile) file = g_file_new_for_path (design_path);
  char *key = bw_shelf_cache_key (file, NULL, NULL);
  assert_non_null (key);
  return key;
}

static BwShelfLook *
make_now (void)
{
  g_autoptr (GFile) file = g_file_new_for_path (design_path);
  return bw_shelf_look_make (file, NULL);
}

static int
set_up (void **state)
{
  write_design ("Kelp lantern");
  return 0;
}

static void
a_look_tells_title_numbers_and_shows_the_piece_alone (void **state)
{
  g_autoptr (BwShelfLook) look = make_now ();
  g_autoptr (BwProject) project = bw_project_new ();
  const BwDesign *design = bw_project_get_design (project);
  assert_int_equal (look->state, BW_SHELF_SOUND);
  assert_string_equal (look->title, "Kelp lantern");
  assert_int_equal (look->rows, design->band.rows);
  assert_int_equal (look->woven, 10);
  assert_true (look->length_mm > design->stone.length_mm - 1e-9);
  int width = cairo_image_surface_get_width (look->picture);
  int height = cairo_image_surface_get_height (look->picture);
  assert_in_range (height, BW_SHELF_SIDE / 2, BW_SHELF_SIDE);
  assert_true (width < height); /* what is clear beside it was cut away */
}

static void
what_is_kept_comes_back_as_it_was (void **state)
{
  g_autoptr (BwShelfLook) look = make_now ();
  g_autofree char *key = key_now ();
  bw_shelf_cache_keep (key, look);
  g_autoptr (BwShelfLook) again = bw_shelf_cache_find (key);
  assert_non_null (again);
  assert_string_equal (again->title, look->title);
  assert_int_equal (again->rows, look->rows);
  assert_int_equal (again->woven, look->woven);
  assert_memory_equal (&again->length_mm, &look->length_mm, sizeof (double));
  int height = cairo_image_surface_get_height (look->picture);
  int stride = cairo_image_surface_get_stride (look->picture);
  assert_int_equal (cairo_image_surface_get_stride (again->picture), stride);
  assert_memory_equal (cairo_image_surface_get_data (again->picture),
                       cairo_image_surface_get_data (look->picture), (gsize)(stride * height));
}

static void
a_file_of_another_size_or_time_is_another_key (void **state)
{
  g_autofree char *before = key_now ();
  write_design ("Kelp lantern, longer");
  g_autofree char *longer = key_now ();
  assert_string_not_equal (longer, before);
  struct utimbuf then = { 1000000000, 1000000000 };
  assert_int_equal (g_utime (design_path, &then), 0);
  g_autofree char *older = key_now ();
  assert_string_not_equal (older, longer);
}

static void
spoil (const char *key, const char *ending, const char *bytes, gsize length)
{
  g_autofree char *path = kept_path (key, ending);
  assert_true (g_file_set_contents (path, bytes, (gssize)length, NULL));
}

static void
expect_nothing_kept (const char *key)
{
  g_autoptr (BwShelfLook) look = bw_shelf_cache_find (key);
  assert_null (look);
}

static void
half_a_picture_and_a_strange_note_are_not_believed (void **state)
{
  g_autoptr (BwShelfLook) look = make_now ();
  g_autofree char *key = key_now ();
  g_autofree char *png = NULL;
  gsize length;
  bw_shelf_cache_keep (key, look);
  g_autofree char *path = kept_path (key, ".png");
  assert_true (g_file_get_contents (path, &png, &length, NULL));

  spoil (key, ".png", png, length / 2);
  expect_nothing_kept (key);
  png[16] = 0x7f; /* it says that it is two thousand million points wide */
  spoil (key, ".png", png, length);
  expect_nothing_kept (key);
  png[16] = 0;
  spoil (key, ".png", png, length);
  g_autoptr (BwShelfLook) whole = bw_shelf_cache_find (key);
  assert_non_null (whole);

  static const char *const notes[] = { "",
                                       "no note",
                                       "[look]\ntitle=a\\nb\nrows=2\nlength_mm=9\n",
                                       "[look]\ntitle=a\nrows=8\nwoven=9\nlength_mm=9\n",
                                       "[look]\ntitle=a\nrows=-3\nlength_mm=9\n",
                                       "[look]\ntitle=a\nrows=2\nlength_mm=nan\n" };
  for (gsize i = 0; i < G_N_ELEMENTS (notes); i++) {
    spoil (key, ".note", notes[i], strlen (notes[i]));
    expect_nothing_kept (key);
  }
}

static int
files_kept (void)
{
  g_autofree char *path = g_build_filename (folder, "cache", "bandwright", "shelf", NULL);
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  int n = 0;
  while (dir && g_dir_read_name (dir))
    n++;
  return n;
}

static void
the_cache_is_bounded_and_lets_the_oldest_go (void **state)
{
  g_autoptr (BwShelfLook) look = make_now ();
  struct utimbuf then = { 1000000000, 1000000000 };
  for (int i = 0; i < BW_SHELF_KEPT_MOST + 5; i++) {
    g_autofree char *key = g_strdup_printf ("key-%03d", i);
    bw_shelf_cache_keep (key, look);
    if (i > 4)
      continue;
    g_autofree char *png = kept_path (key, ".png");
    g_autofree char *note = kept_path (key, ".note");
    g_utime (png, &then);
    g_utime (note, &then);
  }
  assert_int_equal (files_kept (), 2 * BW_SHELF_KEPT_MOST);
  expect_nothing_kept ("key-000");
  g_autofree char *last = g_strdup_printf ("key-%03d", BW_SHELF_KEPT_MOST + 4);
  g_autoptr (BwShelfLook) there = bw_shelf_cache_find (last);
  assert_non_null (there);
}

static void
no_picture_is_made_of_more_beads_than_anybody_weaves (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GFile) file = g_file_new_for_path (design_path);
  BwDesign design = *bw_project_get_design (project);
  design.stone.measured = BW_MEASURED_GIRTH;
  design.stone.values_mm[0] = 3200;
  design.stone.length_mm = 400;
  design.stone.shoulder_mm = 350;
  design.stone.at_mm = 50;
  design.band.bottom_mm = 20;
  design.band.columns = 60;
  design.band.rows = 4000;
  assert_true (bw_project_set_design (project, "Large", &design, NULL));
  assert_true (bw_project_save (project, file, NULL));
  g_autoptr (BwShelfLook) look = make_now ();
  assert_int_equal (look->state, BW_SHELF_SOUND);
  assert_int_equal (look->rows, 4000);
  assert_null (look->picture);
}

static void
a_file_that_is_gone_or_no_project_is_told_and_not_kept (void **state)
{
  assert_int_equal (g_unlink (design_path), 0);
  g_autoptr (BwShelfLook) gone = make_now ();
  assert_int_equal (gone->state, BW_SHELF_GONE);
  assert_true (g_file_set_contents (design_path, "{}", -1, NULL));
  g_autoptr (BwShelfLook) broken = make_now ();
  assert_int_equal (broken->state, BW_SHELF_BROKEN);
  assert_true (*broken->reason);
  g_autofree char *key = key_now ();
  bw_shelf_cache_keep (key, broken);
  expect_nothing_kept (key);
}

static int
begin (void **state)
{
  folder = g_dir_make_tmp ("bandwright-XXXXXX", NULL);
  g_autofree char *cache = g_build_filename (folder, "cache", NULL);
  g_setenv ("XDG_CACHE_HOME", cache, TRUE);
  design_path = g_build_filename (folder, "kelp.bandwright", NULL);
  return folder ? 0 : 1;
}

static void
remove_below (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    g_autofree char *below = g_build_filename (path, name, NULL);
    remove_below (below);
  }
  g_remove (path);
}

static int
end (void **state)
{
  remove_below (folder);
  g_free (folder);
  g_free (design_path);
  return 0;
}

int
main (void)
{
#define OF_DESIGN(test) cmocka_unit_test_setup (test, set_up)
  const struct CMUnitTest tests[] = {
    OF_DESIGN (a_look_tells_title_numbers_and_shows_the_piece_alone),
    OF_DESIGN (what_is_kept_comes_back_as_it_was),
    OF_DESIGN (a_file_of_another_size_or_time_is_another_key),
    OF_DESIGN (half_a_picture_and_a_strange_note_are_not_believed),
    OF_DESIGN (the_cache_is_bounded_and_lets_the_oldest_go),
    OF_DESIGN (no_picture_is_made_of_more_beads_than_anybody_weaves),
    OF_DESIGN (a_file_that_is_gone_or_no_project_is_told_and_not_kept),
  };
  return cmocka_run_group_tests (tests, begin, end);
}
