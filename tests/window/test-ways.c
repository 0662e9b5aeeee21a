/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ways to set the stone, asked for at the window, sifted, and one of them taken. */
#include "kelp.h"

#include "app/fit/fit-line.h"
#include "app/fit/remedy-list.h"
#include "app/ways/way-card.h"
#include "app/ways/ways-window.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static gboolean
is_card (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_WAY_CARD (widget);
}

static gboolean
has_name (GtkWidget *widget, gconstpointer name)
{
  return g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), name) == 0;
}

static GtkWidget *
part (GtkWidget *window, const char *name)
{
  GtkWidget *widget = desk_look_for (window, has_name, name);
  assert_non_null (widget);
  return widget;
}

/* Nothing is searched any more. */
static gboolean
is_done (gpointer window)
{
  return desk_look_for (window, has_name, "progress") == NULL;
}

static gboolean
shows_a_way (gpointer window)
{
  return desk_look_for (window, is_card, NULL) != NULL;
}

static GtkFlowBox *
cards_of (GtkWidget *window)
{
  return GTK_FLOW_BOX (part (window, "cards"));
}

static guint
count_cards (GtkWidget *window)
{
  guint n = 0;
  while (gtk_flow_box_get_child_at_index (cards_of (window), (int)n))
    n++;
  return n;
}

static GtkWidget *
card_at (GtkWidget *window, guint at)
{
  GtkFlowBoxChild *card = gtk_flow_box_get_child_at_index (cards_of (window), (int)at);
  assert_non_null (card);
  return GTK_WIDGET (card);
}

static const BwWay *
way_at (GtkWidget *window, guint at)
{
  return bw_way_card_get_way (BW_WAY_CARD (card_at (window, at)));
}

/* The words of a label within, with plain blanks; owned. */
static char *
text_of (GtkWidget *within, const char *name)
{
  g_autoptr (GString) text = g_string_new (gtk_label_get_text (GTK_LABEL (part (within, name))));
  g_string_replace (text, "\302\240", " ", 0);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static GtkWidget *
open_ways (Maker *maker)
{
  gtk_widget_activate_action (GTK_WIDGET (maker->window), "win.ways", NULL);
  GtkWidget *window = GTK_WIDGET (maker_dialog (maker));
  assert_true (BW_IS_WAYS_WINDOW (window));
  return window;
}

static GtkWidget *
search (Maker *maker)
{
  GtkWidget *window = open_ways (maker);
  desk_until (is_done, window);
  desk_settle ();
  return window;
}

static void
close_ways (Maker *maker)
{
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

/* By keys, as a maker without a mouse does. */
static void
choose (GtkWidget *window, const char *name, int down)
{
  desk_click (part (window, name));
  while (down-- > 0)
    desk_key ("Down", 0);
  desk_key ("Return", 0);
  desk_settle ();
}

/* Fewer heights to search, the same for the maker. */
static int
set_up_short (void **state)
{
  set_up (state);
  Maker *maker = &((Bench *)*state)->maker;
  BwDesign design = *maker_design (maker);
  design.stone.length_mm = 40;
  design.stone.shoulder_mm = 28;
  design.band.bottom_mm = 6;
  assert_true (bw_project_set_design (maker_project (maker), "Length", &design, NULL));
  return 0;
}

static void
one_click_makes_a_way_the_project_in_one_step (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  g_autofree char *before = bw_project_to_data (project, NULL);
  guint steps = bw_project_count_steps (project);
  maker_click_words (GTK_WIDGET (maker->window), "Measure");
  GtkWidget *button = desk_find_label (GTK_WIDGET (maker->window), "Ways to Set This Stone…");
  maker_reveal (button);
  desk_click (button);
  GtkWidget *window = GTK_WIDGET (maker_dialog (maker));
  desk_until (shows_a_way, window);
  desk_until (is_done, window);
  desk_rest ();
  desk_keep ("ways");
  assert_in_range (count_cards (window), 6, 12);
  g_autofree char *chance = text_of (card_at (window, 1), "chance");
  BwWay way = *way_at (window, 1);
  desk_click (card_at (window, 1));
  maker_no_dialog (maker);
  const BwDesign *design = bw_project_get_design (project);
  assert_int_equal (bw_project_count_steps (project), steps + 1);
  assert_int_equal (design->band.rows, way.design.band.rows);
  assert_int_equal (design->band.columns, way.design.band.columns);
  assert_string_equal (design->bead.name, way.design.bead.name);
  assert_int_equal (bw_project_fit (project)->verdict, BW_VERDICT_SNUG);
  assert_non_null (desk_look_for_prefix (GTK_WIDGET (maker->window), "The stone is set this way"));
  /* What the card told of its rows is what the foot tells of them. */
  g_autofree char *foot = text_of (maker_find (maker, BW_TYPE_FIT_LINE), "odds");
  g_autofree char *told
      = g_strdup_printf ("%d rows turn out right with %s", design->band.rows, chance);
  told[strlen (told) - strlen (" right the first time")] = '\0';
  assert_non_null (strstr (foot, told));
  desk_key ("z", GDK_CONTROL_MASK);
  g_autofree char *after = bw_project_to_data (project, NULL);
  assert_string_equal (after, before);
  /* What was told is so no longer. */
  desk_settle ();
  assert_null (desk_look_for_prefix (GTK_WIDGET (maker->window), "The stone is set this way"));
}

static gboolean
all_have_columns (GtkWidget *window, int columns)
{
  for (guint i = 0; i < count_cards (window); i++)
    if (way_at (window, i)->design.band.columns != columns)
      return FALSE;
  return TRUE;
}

static void
filters_leave_what_is_asked_for (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = search (maker);
  choose (window, "columns", 2);
  int columns = way_at (window, 0)->design.band.columns;
  assert_true (all_have_columns (window, columns));
  choose (window, "columns", -1);
  choose (window, "bead", 1);
  const char *bead = way_at (window, 0)->design.bead.name;
  for (guint i = 0; i < count_cards (window); i++)
    assert_string_equal (way_at (window, i)->design.bead.name, bead);
  close_ways (maker);
}

static void
how_it_should_hang_is_searched_for (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = search (maker);
  choose (window, "want", 1);
  desk_until (is_done, window);
  desk_settle ();
  desk_keep ("ways-level");
  assert_true (count_cards (window) > 0);
  for (guint i = 0; i < count_cards (window); i++) {
    assert_true (way_at (window, i)->hangs);
    assert_true (way_at (window, i)->tilt_deg >= 45);
  }
  close_ways (maker);
}

static GtkWidget *
first_scale (GtkWidget *window)
{
  return desk_find_type (window, GTK_TYPE_SCALE);
}

/* The first is what the odds weigh: with all weight on them the likeliest comes first. */
static void
weights_order_the_ways (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = search (maker);
  desk_click (part (window, "matters"));
  GtkWidget *scale = first_scale (window);
  gtk_widget_grab_focus (scale);
  desk_keep ("ways-weights");
  desk_key ("End", 0);
  for (int i = 1; i < 5; i++) {
    desk_key ("Tab", 0);
    desk_key ("Home", 0);
  }
  desk_key ("Escape", 0);
  desk_settle ();
  for (guint i = 1; i < count_cards (window); i++)
    assert_true (way_at (window, i - 1)->worth.chance >= way_at (window, i)->worth.chance);
  close_ways (maker);
}

/* Cards of another stone would bring it back. */
static void
ways_of_a_project_that_changed_cannot_be_taken (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *window = search (maker);
  BwDesign design = *maker_design (maker);
  design.stone.length_mm += 1;
  assert_true (bw_project_set_design (maker_project (maker), "Length", &design, NULL));
  desk_settle ();
  assert_false (gtk_widget_get_sensitive (GTK_WIDGET (cards_of (window))));
  assert_non_null (desk_look_for_prefix (window, "The project is another now"));
  maker_click_words (window, "Search Again");
  desk_until (is_done, window);
  assert_true (gtk_widget_get_sensitive (GTK_WIDGET (cards_of (window))));
  assert_true (way_at (window, 0)->design.stone.length_mm == design.stone.length_mm);
  close_ways (maker);
}

/* A search may be over before a pointer gets to the button: it is pressed before anything that the
 * search has to tell can be heard. */
static void
a_search_can_be_stopped_and_the_window_closed_meanwhile (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwDesign design = *maker_design (maker);
  design.stone.length_mm = 290;
  design.stone.shoulder_mm = 270;
  assert_true (bw_project_set_design (maker_project (maker), "Length", &design, NULL));
  gtk_widget_activate_action (GTK_WIDGET (maker->window), "win.ways", NULL);
  GtkWidget *window = GTK_WIDGET (desk_dialog (GTK_WINDOW (maker->window)));
  assert_true (BW_IS_WAYS_WINDOW (window));
  assert_non_null (desk_look_for_prefix (window, "Looking for ways"));
  GtkWidget *stop = gtk_widget_get_ancestor (desk_find_label (window, "Stop"), GTK_TYPE_BUTTON);
  assert_true (gtk_widget_activate (stop));
  desk_until (is_done, window);
  maker_click_words (window, "Search Again");
  close_ways (maker);
  assert_true (maker_design (maker)->band.columns == design.band.columns);
}

static void
where_nothing_else_helps_the_list_leads_here (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwDesign design = *maker_design (maker);
  design.band.rows += 6;
  assert_true (bw_project_set_design (maker_project (maker), "Rows", &design, NULL));
  desk_rest ();
  maker_click_words (GTK_WIDGET (maker->window), "What helps");
  desk_settle ();
  maker_click_words (maker_find (maker, BW_TYPE_REMEDY_LIST), "Ways to Set This Stone…");
  assert_true (BW_IS_WAYS_WINDOW (maker_dialog (maker)));
  close_ways (maker);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up_short, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (one_click_makes_a_way_the_project_in_one_step),
    IN_WINDOW (filters_leave_what_is_asked_for),
    IN_WINDOW (how_it_should_hang_is_searched_for),
    IN_WINDOW (weights_order_the_ways),
    IN_WINDOW (ways_of_a_project_that_changed_cannot_be_taken),
    IN_WINDOW (a_search_can_be_stopped_and_the_window_closed_meanwhile),
    IN_WINDOW (where_nothing_else_helps_the_list_leads_here),
  };
  return maker_run (tests);
}
