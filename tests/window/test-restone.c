/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same design on another stone: one dialog asks for the stone alone, shows what would become of
 * the drawing, and goes on to Measure. */
#include "kelp.h"

#include "app/shelf/band-thumb.h"
#include "app/shelf/restone-dialog.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static GtkWidget *
ask (Maker *maker, const char *action)
{
  g_action_group_activate_action (G_ACTION_GROUP (maker->window), action, NULL);
  GtkWindow *dialog = maker_dialog (maker);
  assert_true (BW_IS_RESTONE_DIALOG (dialog));
  desk_settle ();
  return GTK_WIDGET (dialog);
}

static gboolean
is_empty_entry (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_ENTRY (widget) && *gtk_editable_get_text (GTK_EDITABLE (widget)) == '\0';
}

/* Another window of the program is none. */
static gboolean
asks_no_more (gpointer data)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);
    if (BW_IS_RESTONE_DIALOG (window))
      return FALSE;
  }
  return TRUE;
}

/* Into the first of the entries that are empty still: girth, height, length, shoulder. */
static void
type_next (GtkWidget *dialog, const char *text)
{
  desk_click (desk_look_for (dialog, is_empty_entry, NULL));
  desk_type (text);
}

static BwWindow *
other_window (Maker *maker)
{
  GList *item = gtk_application_get_windows (maker_application ());
  for (; item; item = item->next)
    if (BW_IS_WINDOW (item->data) && item->data != maker->window)
      return item->data;
  fail_msg ("no other window");
  return NULL;
}

static void
lay_a_motif (Maker *maker)
{
  maker_stage (maker, "draw");
  desk_key ("Page_Down", GDK_CONTROL_MASK);
  maker_click_words (GTK_WIDGET (maker->window), "Lay on the Band");
  assert_false (bw_project_has_trial (maker_project (maker)));
}

static int
motifs_of (BwProject *project)
{
  int n;
  bw_project_get_motifs (project, &n);
  return n;
}

static void
a_motif_laid_by_the_maker_is_remembered (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  lay_a_motif (maker);
  assert_int_equal (motifs_of (maker_project (maker)), 1);
  int n;
  const BwMade *made = bw_project_get_motifs (maker_project (maker), &n);
  assert_int_equal (bw_anew_by_hand (bw_project_get_drawing (maker_project (maker)), made, n), 0);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (motifs_of (maker_project (maker)), 0);
}

static void
the_new_stone_gets_a_project_of_its_own_on_measure (void **state)
{
  Bench *bench = *state;
  Maker *maker = &bench->maker;
  lay_a_motif (maker);
  GtkWidget *dialog = ask (maker, "restone");
  desk_keep ("restone");
  type_next (dialog, "88");
  desk_keep ("restone-girth");
  desk_key ("Return", 0);
  desk_until (asks_no_more, NULL);
  BwWindow *other = other_window (maker);
  BwProject *project = bw_window_get_project (other);
  const BwDesign *design = bw_project_get_design (project);
  assert_null (bw_project_get_file (project));
  assert_true (bw_project_get_modified (project));
  assert_int_equal (design->stone.measured, BW_MEASURED_GIRTH);
  assert_true (design->stone.values_mm[0] == 88);
  assert_false (bw_project_is_example (project, "/stone/values_mm/0"));
  assert_true (bw_project_is_example (project, "/stone/length_mm"));
  assert_int_equal (design->band.rows, 2 * bw_fit_recommended (design, bw_project_stone (project)));
  assert_int_equal (motifs_of (project), 1);
  g_autoptr (GVariant) stage = g_action_group_get_action_state (G_ACTION_GROUP (other), "stage");
  assert_string_equal (g_variant_get_string (stage, NULL), "measure");
  g_autofree char *after = maker_read (bench->path);
  assert_string_equal (after, bench->before);
}

static void
what_is_left_empty_is_still_to_be_measured (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  maker_click_words (ask (maker, "restone"), "Measure It");
  desk_until (asks_no_more, NULL);
  BwProject *project = bw_window_get_project (other_window (maker));
  assert_true (bw_project_stone_is_example (project));
  assert_true (bw_drawing_equal (bw_project_get_drawing (project),
                                 bw_project_get_drawing (maker_project (maker))));
}

static gboolean
is_thumb (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_BAND_THUMB (widget);
}

static void
each_way_is_shown_and_the_one_chosen_is_made (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  maker_stage (maker, "draw");
  maker_take_colour (maker, 1);
  maker_drag_beads (maker, 21, 4, 41, 4);
  int set = maker_count (maker, 1);
  assert_true (set > 5);
  GtkWidget *dialog = ask (maker, "restone");
  g_autofree char *words
      = g_strdup_printf ("%d rows · %d beads set by hand", maker_design (maker)->band.rows, set);
  desk_find_label (dialog, words);
  GtkWidget *first = desk_look_for (dialog, is_thumb, NULL);
  assert_true (bw_drawing_equal (bw_band_thumb_get (BW_BAND_THUMB (first)),
                                 bw_project_get_drawing (maker_project (maker))));
  maker_click_words (dialog, "Leave Out: motifs and the ground alone");
  desk_keep ("restone-ways");
  maker_click_words (dialog, "Measure It");
  desk_until (asks_no_more, NULL);
  guint64 counts[256] = { 0 };
  bw_drawing_count (bw_project_get_drawing (bw_window_get_project (other_window (maker))), counts);
  assert_int_equal (counts[1], 0);
}

static void
a_number_that_cannot_be_is_marked_and_nothing_begins (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  GtkWidget *dialog = ask (maker, "restone");
  type_next (dialog, "much");
  GtkWidget *entry = gtk_window_get_focus (GTK_WINDOW (dialog));
  assert_true (gtk_widget_has_css_class (gtk_widget_get_ancestor (entry, GTK_TYPE_ENTRY), "error"));
  desk_key ("Return", 0);
  assert_true (gtk_widget_get_mapped (dialog));
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type ("9000");
  desk_key ("Return", 0);
  assert_true (gtk_widget_get_mapped (dialog));
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  assert_int_equal (desk_count_mapped (), 1);
}

static void
laid_anew_on_its_own_stone_it_is_one_step_back (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  lay_a_motif (maker);
  BwDesign design = *maker_design (maker);
  for (int i = 0; i < 3; i++)
    design.stone.values_mm[i] *= 0.9;
  assert_true (bw_project_set_design (maker_project (maker), "Stone", &design, NULL));
  int rows = maker_design (maker)->band.rows;
  GtkWidget *dialog = ask (maker, "lay-anew");
  desk_keep ("restone-anew");
  assert_null (desk_look_for (dialog, is_empty_entry, NULL));
  maker_click_words (dialog, "Lay on the Band");
  maker_no_dialog (maker);
  assert_true (maker_design (maker)->band.rows < rows);
  int n;
  const BwMade *made = bw_project_get_motifs (maker_project (maker), &n);
  assert_int_equal (made->rows, maker_design (maker)->band.rows);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (maker_design (maker)->band.rows, rows);
}

static void
a_design_is_chosen_on_the_shelf (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  desk_key ("Home", GDK_ALT_MASK);
  g_autoptr (GFile) file = g_file_new_for_path (((Bench *)*state)->path);
  g_autofree char *uri = g_file_get_uri (file);
  g_action_group_activate_action (G_ACTION_GROUP (maker->window), "restone-file",
                                  g_variant_new_string (uri));
  GtkWindow *dialog = maker_dialog (maker);
  assert_true (BW_IS_RESTONE_DIALOG (dialog));
  assert_non_null (desk_look_for_prefix (GTK_WIDGET (dialog),
                                         "Bead, colours, motifs, bail and your habits come from "
                                         "“Kelp lantern”."));
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_motif_laid_by_the_maker_is_remembered),
    IN_WINDOW (the_new_stone_gets_a_project_of_its_own_on_measure),
    IN_WINDOW (what_is_left_empty_is_still_to_be_measured),
    IN_WINDOW (each_way_is_shown_and_the_one_chosen_is_made),
    IN_WINDOW (a_number_that_cannot_be_is_marked_and_nothing_begins),
    IN_WINDOW (laid_anew_on_its_own_stone_it_is_one_step_back),
    IN_WINDOW (a_design_is_chosen_on_the_shelf),
  };
  return maker_run (tests);
}
