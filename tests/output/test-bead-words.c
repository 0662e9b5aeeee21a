/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures of beads in place of the colours' names: one for every run, with its count, and no other
 * word lost. */
#include "output/sheet/bead-words.h"
#include "output/words/words.h"
#include "project/project.h"
#include "sample.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define MOST_RUNS 12

static BwProject *
some_project (GRand *rand)
{
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
  sample->n_colours = SAMPLE_COLOURS;
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

/* The text as it was given: blanks for blanks that hold, without joiners; "#" for a bead. */
static char *
plain (const char *text)
{
  GString *out = g_string_new (text);
  g_string_replace (out, "\302\240", " ", 0);
  g_string_replace (out, "\342\201\240", "", 0);
  g_string_replace (out, "\342\200\257", "", 0);
  g_string_replace (out, "\357\277\274", "#", 0);
  return g_string_free (out, FALSE);
}

/* The colours of the shapes in the order of the text. */
static int
shapes_of (PangoLayout *layout, int colours[MOST_RUNS])
{
  int n = 0;
  PangoAttrIterator *iter = pango_attr_list_get_iterator (pango_layout_get_attributes (layout));
  do {
    PangoAttribute *shape = pango_attr_iterator_get (iter, PANGO_ATTR_SHAPE);
    if (shape && n < MOST_RUNS)
      colours[n++] = GPOINTER_TO_INT (((PangoAttrShape *)(gpointer)shape)->data);
  } while (pango_attr_iterator_next (iter));
  pango_attr_iterator_destroy (iter);
  return n;
}

static void
assert_layout_of (BwBeadWords *words, cairo_t *cr, const char *text, const char *set,
                  const int *expected, int n)
{
  int colours[MOST_RUNS];
  g_autoptr (PangoLayout) layout = bw_bead_words_bench (words, cr, text, 200);
  g_autofree char *back = plain (pango_layout_get_text (layout));
  assert_string_equal (back, set);
  assert_int_equal (shapes_of (layout, colours), n);
  for (int i = 0; i < n; i++)
    assert_int_equal (colours[i], expected[i]);
}

/* Names with commas, quotes, the same name twice and no name are among the sample's. */
static void
every_run_has_its_count_and_its_bead (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (91);
  g_autoptr (BwProject) project = some_project (rand);
  const BwTray *tray = bw_project_get_tray (project);
  g_auto (GStrv) labels = bw_words_labels (tray);
  g_autoptr (BwBeadWords) words = bw_bead_words_new (tray, TRUE);
  cairo_surface_t *page = cairo_image_surface_create (CAIRO_FORMAT_A8, 8, 8);
  cairo_t *cr = cairo_create (page);
  for (int i = 0; i < 200; i++) {
    guint8 beads[MOST_RUNS];
    int expected[MOST_RUNS], length[MOST_RUNS] = { 0 };
    int n = g_rand_int_range (rand, 1, MOST_RUNS + 1), runs = 0;
    g_autoptr (GString) set = g_string_new (NULL);
    for (int k = 0; k < n; k++) {
      beads[k] = (guint8)g_rand_int_range (rand, 0, tray->n_colours);
      if (k == 0 || beads[k] != beads[k - 1])
        expected[runs++] = beads[k];
      length[runs - 1]++;
    }
    for (int k = 0; k < runs; k++) {
      g_string_append (set, k ? " · " : "");
      if (length[k] > 1)
        g_string_append_printf (set, "%d", length[k]);
      g_string_append (set, "#");
    }
    g_autofree char *text = bw_words_runs (beads, n, labels);
    g_autofree char *led = g_strdup_printf ("pick up %d beads: %s", n, text);
    g_autofree char *led_set = g_strdup_printf ("pick up %d beads: %s", n, set->str);
    assert_layout_of (words, cr, text, set->str, expected, runs);
    assert_layout_of (words, cr, led, led_set, expected, runs);
  }
  cairo_destroy (cr);
  cairo_surface_destroy (page);
}

static void
words_that_name_no_colour_are_left_alone (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (92);
  g_autoptr (BwProject) project = some_project (rand);
  const BwTray *tray = bw_project_get_tray (project);
  g_auto (GStrv) labels = bw_words_labels (tray);
  g_autoptr (BwBeadWords) words = bw_bead_words_new (tray, TRUE);
  g_autoptr (BwBeadWords) bare = bw_bead_words_new (tray, FALSE);
  static const char *const texts[] = { "", "12", "3 Nightwater", "weave 2 rows,  then 4", "5 " };
  const guint8 beads[] = { 0, 0, 0, 1 };
  char letter[2][BW_TRAY_LETTER];
  cairo_surface_t *page = cairo_image_surface_create (CAIRO_FORMAT_A8, 8, 8);
  cairo_t *cr = cairo_create (page);
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    assert_layout_of (words, cr, texts[i], texts[i], NULL, 0);
  bw_tray_print_letter (tray, 0, letter[0]);
  bw_tray_print_letter (tray, 1, letter[1]);
  g_autofree char *text = bw_words_runs (beads, 4, labels);
  g_autofree char *set = g_strdup_printf ("3%s · %s", letter[0], letter[1]);
  assert_layout_of (bare, cr, text, set, NULL, 0);
  cairo_destroy (cr);
  cairo_surface_destroy (page);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_run_has_its_count_and_its_bead),
    cmocka_unit_test (words_that_name_no_colour_are_left_alone),
  };
  return cmocka_run_group_tests_name ("bead-words", tests, NULL, NULL);
}
