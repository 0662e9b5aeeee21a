/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Motifs of the maker's own, in the program's window: kept, renamed, removed, and never lost
 * without a question. */
#include "maker.h"

#include "app/draw/motif-panel.h"
#include "app/draw/own-deeds.h"
#include "app/draw/own-motifs.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* One of a single bead, known by its colour. */
static void
keep_motif (Maker *maker, const char *name, guint8 colour)
{
  BwProject *project = maker_project (maker);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project));
  g_autoptr (BwRegion) region
      = bw_region_new (bw_drawing_columns (drawing), bw_drawing_rows (drawing));
  g_autoptr (GError) error = NULL;
  bw_drawing_set (drawing, 1, 2, colour);
  bw_region_add (region, 1, 2);
  g_autofree char *kept
      = bw_own_motif_save (drawing, region, bw_project_get_tray (project), name, &error);
  assert_null (error);
  assert_string_equal (kept, name);
}

static void
throw_all_away (void)
{
  g_autofree char *damaged = NULL;
  g_autoptr (GPtrArray) all = bw_own_motifs_load (&damaged);
  for (guint i = 0; i < all->len; i++)
    assert_true (bw_own_motif_remove (((BwOwnMotif *)all->pdata[i])->name, NULL));
}

static int
set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  maker_start (maker, NULL);
  maker_stage (maker, "draw");
  keep_motif (maker, "Lozenge", 1);
  keep_motif (maker, "Wave", 2);
  *state = maker;
  return 0;
}

static int
tear_down (void **state)
{
  throw_all_away ();
  return maker_tear_down (state);
}

/* Their names, in the order they are shown. */
static void
assert_kept (const char *names)
{
  g_autofree char *damaged = NULL;
  g_autoptr (GPtrArray) all = bw_own_motifs_load (&damaged);
  g_autoptr (GString) found = g_string_new (NULL);
  for (guint i = 0; i < all->len; i++)
    g_string_append_printf (found, "%s%s", i ? ", " : "", ((BwOwnMotif *)all->pdata[i])->name);
  assert_string_equal (found->str, names);
}

static void
note_colour (int row, int column, guint8 colour, gpointer data)
{
  *(int *)data = colour;
}

/* The colour of the only bead of a motif. */
static int
colour_of (const char *name)
{
  g_autofree char *damaged = NULL;
  g_autoptr (GPtrArray) all = bw_own_motifs_load (&damaged);
  int colour = -1;
  for (guint i = 0; i < all->len; i++) {
    const BwOwnMotif *motif = all->pdata[i];
    if (g_str_equal (motif->name, name))
      bw_clip_each (motif->clip, 1, 2, note_colour, &colour);
  }
  return colour;
}

static gboolean
stands_for (GtkWidget *widget, gconstpointer name)
{
  GtkWidget *box = gtk_widget_get_parent (widget);
  return GTK_IS_FLOW_BOX_CHILD (widget) && GTK_IS_FLOW_BOX (box)
         && gtk_flow_box_get_selection_mode (GTK_FLOW_BOX (box)) == GTK_SELECTION_NONE
         && g_str_equal (bw_own_deeds_name (GTK_FLOW_BOX_CHILD (widget)), name);
}

static GtkWidget *
own (Maker *maker, const char *name)
{
  GtkWidget *child = desk_look_for (GTK_WIDGET (maker->window), stands_for, name);
  assert_non_null (child);
  maker_reveal (child);
  return child;
}

static void
turn_to_motifs (Maker *maker)
{
  maker_click_words (GTK_WIDGET (maker->window), "Motif");
  desk_settle ();
}

static void
open_menu (Maker *maker, const char *name)
{
  GtkWidget *child = own (maker, name);
  desk_click_at (child, gtk_widget_get_width (child) / 2.0, gtk_widget_get_height (child) / 2.0, 3);
}

static gboolean
is_question_to_replace (gpointer data)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);
    if (gtk_widget_get_mapped (window) && desk_look_for_label (window, "Replace")) {
      *(GtkWidget **)data = window;
      return TRUE;
    }
  }
  return FALSE;
}

static GtkWidget *
question_to_replace (void)
{
  GtkWidget *question = NULL;
  desk_until (is_question_to_replace, &question);
  desk_settle ();
  return question;
}

static void
write_name (const char *name)
{
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (name);
  desk_key ("Return", 0);
}

static void
a_motif_is_renamed_by_the_right_button (void **state)
{
  Maker *maker = *state;
  turn_to_motifs (maker);
  open_menu (maker, "Lozenge");
  desk_keep ("own-menu");
  maker_click_words (GTK_WIDGET (maker->window), "Rename…");
  maker_dialog (maker);
  desk_keep ("own-rename");
  write_name ("Diamond");
  maker_no_dialog (maker);
  assert_kept ("Diamond, Wave");
  assert_int_equal (colour_of ("Diamond"), 1);
  own (maker, "Diamond");
}

static void
a_motif_is_renamed_by_a_key (void **state)
{
  Maker *maker = *state;
  turn_to_motifs (maker);
  gtk_widget_grab_focus (own (maker, "Wave"));
  desk_key ("F2", 0);
  maker_dialog (maker);
  write_name ("Surf");
  maker_no_dialog (maker);
  assert_kept ("Lozenge, Surf");
}

static void
a_motif_is_removed_once_the_question_is_answered (void **state)
{
  Maker *maker = *state;
  turn_to_motifs (maker);
  gtk_widget_grab_focus (own (maker, "Lozenge"));
  desk_key ("Delete", 0);
  GtkWindow *question = maker_dialog (maker);
  desk_keep ("own-remove");
  assert_kept ("Lozenge, Wave");
  maker_click_words (GTK_WIDGET (question), "Cancel");
  maker_no_dialog (maker);
  assert_kept ("Lozenge, Wave");
  gtk_widget_grab_focus (own (maker, "Lozenge"));
  desk_key ("Menu", 0);
  maker_click_words (GTK_WIDGET (maker->window), "Remove…");
  maker_click_words (GTK_WIDGET (maker_dialog (maker)), "Remove");
  maker_no_dialog (maker);
  assert_kept ("Wave");
  assert_null (desk_look_for (GTK_WIDGET (maker->window), stands_for, "Lozenge"));
}

/* Neither a rename nor a save takes the place of a motif unasked. */
static void
a_name_that_is_there_is_asked_about (void **state)
{
  Maker *maker = *state;
  turn_to_motifs (maker);
  gtk_widget_grab_focus (own (maker, "Wave"));
  desk_key ("F2", 0);
  maker_dialog (maker);
  write_name ("Lozenge");
  GtkWidget *question = question_to_replace ();
  desk_keep ("own-replace");
  assert_kept ("Lozenge, Wave");
  maker_click_words (question, "Another Name");
  desk_settle ();
  write_name ("Lozenge");
  maker_click_words (question_to_replace (), "Replace");
  maker_no_dialog (maker);
  assert_kept ("Lozenge");
  assert_int_equal (colour_of ("Lozenge"), 2);
}

static void
saving_under_a_name_that_is_there_asks (void **state)
{
  Maker *maker = *state;
  double x, y;
  maker_click_bead (maker, 21, 4);
  desk_key ("a", GDK_CONTROL_MASK);
  maker_bead_point (maker, 21, 4, &x, &y);
  desk_click_at (maker_find (maker, BW_TYPE_BAND_CANVAS), x, y, 3);
  maker_click_words (GTK_WIDGET (maker->window), "Save as Motif…");
  maker_dialog (maker);
  write_name ("Wave");
  GtkWidget *question = question_to_replace ();
  assert_int_equal (colour_of ("Wave"), 2);
  maker_click_words (question, "Replace");
  maker_no_dialog (maker);
  assert_kept ("Lozenge, Wave");
  assert_int_equal (colour_of ("Wave"), 0);
}

static gboolean
is_there (gpointer name)
{
  return bw_own_motif_is_kept (name);
}

static void
read_in (Maker *maker, const char *path)
{
  maker_click_words (GTK_WIDGET (maker->window), "Read In a Motif…");
  maker_answer_path (maker, path);
}

/* Out by its menu and in again; what is kept already comes in no second time, another one of its
 * name gets a number, and what is no motif is told. */
static void
a_motif_goes_out_and_comes_in (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = maker_path ("Lozenge.beads");
  turn_to_motifs (maker);
  open_menu (maker, "Lozenge");
  maker_click_words (GTK_WIDGET (maker->window), "Export…");
  maker_answer_path (maker, path);
  assert_true (bw_own_motif_remove ("Lozenge", NULL));
  GtkWidget *button = desk_find_label (GTK_WIDGET (maker->window), "Read In a Motif…");
  maker_reveal (button);
  read_in (maker, path);
  desk_until (is_there, "Lozenge");
  desk_settle ();
  desk_keep ("own-read-in");
  assert_kept ("Lozenge, Wave");
  assert_int_equal (colour_of ("Lozenge"), 1);
  read_in (maker, path);
  desk_settle ();
  assert_kept ("Lozenge, Wave");
  keep_motif (maker, "Lozenge", 2);
  read_in (maker, path);
  desk_until (is_there, "Lozenge 2");
  desk_settle ();
  assert_int_equal (colour_of ("Lozenge 2"), 1);
  assert_int_equal (colour_of ("Lozenge"), 2);
  assert_true (g_file_set_contents (path, "no beads", -1, NULL));
  read_in (maker, path);
  desk_settle ();
  assert_non_null (
      desk_look_for_prefix (GTK_WIDGET (maker->window), "“Lozenge.beads” could not be opened"));
  assert_kept ("Lozenge, Lozenge 2, Wave");
}

static gboolean
is_search (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_SEARCH_ENTRY (widget);
}

static gboolean
is_hidden (gpointer maker)
{
  return !desk_look_for (GTK_WIDGET (((Maker *)maker)->window), stands_for, "Wave");
}

/* A few are seen at once; of more the name finds one. */
static void
many_motifs_are_searched_by_name (void **state)
{
  Maker *maker = *state;
  turn_to_motifs (maker);
  assert_null (desk_look_for (GTK_WIDGET (maker->window), is_search, NULL));
  for (int i = 0; i < 6; i++) {
    g_autofree char *name = g_strdup_printf ("Pebble %d", i);
    keep_motif (maker, name, 1);
  }
  bw_motif_panel_look_at_own (BW_MOTIF_PANEL (maker_find (maker, BW_TYPE_MOTIF_PANEL)));
  desk_settle ();
  GtkWidget *search = desk_look_for (GTK_WIDGET (maker->window), is_search, NULL);
  assert_non_null (search);
  maker_reveal (search);
  desk_click (search);
  desk_type ("ebble 4");
  desk_until (is_hidden, maker);
  desk_settle ();
  desk_keep ("own-search");
  assert_non_null (desk_look_for (GTK_WIDGET (maker->window), stands_for, "Pebble 4"));
  assert_null (desk_look_for (GTK_WIDGET (maker->window), stands_for, "Pebble 5"));
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_motif_is_renamed_by_the_right_button),
    IN_WINDOW (a_motif_is_renamed_by_a_key),
    IN_WINDOW (a_motif_is_removed_once_the_question_is_answered),
    IN_WINDOW (a_name_that_is_there_is_asked_about),
    IN_WINDOW (saving_under_a_name_that_is_there_asks),
    IN_WINDOW (a_motif_goes_out_and_comes_in),
    IN_WINDOW (many_motifs_are_searched_by_name),
  };
  return maker_run (tests);
}
