/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stays together when a page is full. */
#include "output/page/page.h"
#include "pen.h"
#include "sample.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

typedef struct {
  BwProject *project;
  BwFlow flow;
} Set;

static int
set_up (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (Sample) sample = sample_new (rand, 8, 40, SAMPLE_NO_BAIL);
  g_autofree char *json = sample_json (sample);
  Set *set = g_new0 (Set, 1);
  set->project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (set->project);
  bw_flow_init (&set->flow, bw_sheet_alloc (set->project, BW_PAPER_A5, "Page", FALSE),
                set->project);
  *state = set;
  return 0;
}

static int
tear_down (void **state)
{
  Set *set = *state;
  bw_sheet_free (bw_flow_finish (&set->flow));
  g_object_unref (set->project);
  g_free (set);
  return 0;
}

static guint
last_page (const BwFlow *flow)
{
  return flow->sheet->pages->len - 1;
}

/* The page of the last heading. */
static guint
headed (const BwFlow *flow)
{
  return g_array_index (flow->contents, BwFlowEntry, flow->contents->len - 1).page;
}

static void
draw_box (cairo_t *cr, double width, double height, gpointer data)
{
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_fill (cr);
}

#define LEFT_OVER 90.0

/* A page that has so much left below what is on it. */
static void
fill (BwFlow *flow, double left_over)
{
  bw_flow_new_page (flow);
  bw_flow_figure (flow, bw_flow_left_over (flow) - left_over, draw_box, NULL);
}

static void
add_text (BwFlow *flow)
{
  bw_flow_text (flow, BW_TYPE_TEXT, "One line.\nTwo.\nThree.");
}

static void
add_table (BwFlow *flow)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "ll");
  bw_table_add (&table, g_strdup ("Name"), g_strdup ("What it is"));
  bw_table_add (&table, g_strdup ("One\u2002"),
                g_strdup ("a thing of which there is a lot to "
                          "tell, so that the row is high on a "
                          "small paper"));
  bw_flow_table (flow, &table, NULL, NULL);
}

static void
add_figure (BwFlow *flow)
{
  bw_flow_figure (flow, 60, draw_box, NULL);
}

static void (*const contents[]) (BwFlow *) = { add_text, add_table, add_figure };

/* However little its heading asked for; before the page turns, and after. */
static void
a_heading_goes_with_what_it_heads (void **state)
{
  BwFlow *flow = &((Set *)*state)->flow;
  int turned = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (contents); i++)
    for (double left_over = 30; left_over < 130; left_over += 3.5) {
      fill (flow, left_over);
      guint filled = last_page (flow);
      bw_flow_heading (flow, "A heading", 0);
      contents[i](flow);
      assert_int_equal (headed (flow), last_page (flow));
      turned += headed (flow) > filled;
    }
  assert_in_range (turned, 20, 70);
}

static void
a_heading_that_moved_is_on_no_other_page (void **state)
{
  BwFlow *flow = &((Set *)*state)->flow;
  fill (flow, 60);
  guint filled = last_page (flow), before = flow->contents->len;
  const GArray *stretches = g_ptr_array_index (flow->sheet->pages, filled);
  guint n = stretches->len;
  bw_flow_heading (flow, "A heading", 0);
  add_figure (flow);
  assert_int_equal (last_page (flow), filled + 1);
  assert_int_equal (stretches->len, n);
  assert_int_equal (flow->contents->len, before + 1);
  assert_string_equal (g_array_index (flow->contents, BwFlowEntry, before).heading, "A heading");
}

static void
a_heading_with_something_under_it_stays (void **state)
{
  BwFlow *flow = &((Set *)*state)->flow;
  fill (flow, LEFT_OVER);
  guint filled = last_page (flow);
  bw_flow_heading (flow, "A heading", 0);
  bw_flow_text (flow, BW_TYPE_TEXT, "A line.");
  bw_flow_figure (flow, LEFT_OVER, draw_box, NULL);
  assert_int_equal (headed (flow), filled);
  assert_int_equal (last_page (flow), filled + 1);
}

/* What is too high for any page under a heading leaves no empty page behind. */
static void
a_heading_at_the_top_of_a_page_stays (void **state)
{
  BwFlow *flow = &((Set *)*state)->flow;
  bw_flow_new_page (flow);
  guint opened = last_page (flow);
  bw_flow_heading (flow, "A heading", 0);
  bw_flow_figure (flow, flow->bottom - flow->top, draw_box, NULL);
  assert_int_equal (headed (flow), opened);
}

/* A text that needs more room than there is gives it, even where its words are broken; a number
 * that were broken would be read as two. */
static void
numbers_of_a_table_stay_on_one_line (void **state)
{
  static const char *const numbers[] = { "1234567.11", "1234567.22", "1234567.33", "1234567.44" };
  BwFlow *flow = &((Set *)*state)->flow;
  g_auto (BwTable) table = { 0 };
  bw_flow_new_page (flow);
  pen_begin ();
  bw_table_init (&table, "lrrrr");
  bw_table_add (&table, g_strdup ("What"), g_strdup ("a"), g_strdup ("b"), g_strdup ("c"),
                g_strdup ("d"));
  bw_table_add (&table, g_strdup ("Incontrovertiblynarrowestcrystallographically"),
                g_strdup (numbers[0]), g_strdup (numbers[1]), g_strdup (numbers[2]),
                g_strdup (numbers[3]));
  bw_flow_table (flow, &table, NULL, NULL);
  double line = pen_find ("a")->height;
  assert_true (pen_find ("Incontrovertibly")->height > 1.5 * line);
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    assert_true (pen_find (numbers[i])->height < 1.5 * line);
}

int
main (void)
{
#define IN_PAGES(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_PAGES (a_heading_goes_with_what_it_heads),
    IN_PAGES (a_heading_that_moved_is_on_no_other_page),
    IN_PAGES (a_heading_with_something_under_it_stays),
    IN_PAGES (a_heading_at_the_top_of_a_page_stays),
    IN_PAGES (numbers_of_a_table_stay_on_one_line),
  };
  return cmocka_run_group_tests_name ("flow", tests, NULL, NULL);
}
