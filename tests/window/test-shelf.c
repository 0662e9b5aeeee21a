/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page to start from: every design is one click away, what is gone or broken says so, and
 * nothing in the list of them can end the program or keep it waiting. */
#include "maker.h"

#include "app/keep/designs.h"
#include "app/kit/settings.h"
#include "app/make/make-stage.h"
#include "app/shelf/shelf-boards.h"
#include "app/shelf/shelf-guide.h"
#include "app/shelf/shelf-page.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <cmocka.h>

static int
tear_down (void **state)
{
  maker_stop (*state);
  g_autoptr (GPtrArray) known = bw_designs_list (bw_designs_get ());
  for (guint i = 0; i < known->len; i++)
    bw_designs_forget (bw_designs_get (), g_ptr_array_index (known, i));
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
  g_object_set (bw_settings_get (), "show-guide", TRUE, NULL);
  desk_rest ();
  g_free (*state);
  return 0;
}

static int
set_up (void **state)
{
  *state = g_new0 (Maker, 1);
  return 0;
}

static void
remember (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  bw_designs_remember (bw_designs_get (), file);
}

/* A design among those opened last, the newest so far. Owned. */
static char *
put_by (const char *title, const char *name)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", title);
  char *path = maker_save (project, name);
  remember (path);
  return path;
}

static int
designs_known (void)
{
  g_autoptr (GPtrArray) files = bw_designs_list (bw_designs_get ());
  return (int)files->len;
}

static gboolean
knows_so_many (gpointer n)
{
  return designs_known () == GPOINTER_TO_INT (n);
}

static void
start (Maker *maker, int designs)
{
  desk_until (knows_so_many, GINT_TO_POINTER (designs));
  maker_start_at_shelf (maker);
}

static BwShelfBoards *
boards_called (Maker *maker, const char *name)
{
  GtkWidget *page = maker_find (maker, BW_TYPE_SHELF_PAGE);
  GtkWidget *first = desk_find_type (page, BW_TYPE_SHELF_BOARDS);
  if (g_str_equal (name, "designs"))
    return BW_SHELF_BOARDS (first);
  GtkWidget *part = gtk_widget_get_next_sibling (first);
  return BW_SHELF_BOARDS (desk_find_type (part, BW_TYPE_SHELF_BOARDS));
}

static BwShelfCard *
design (Maker *maker, int place)
{
  return bw_shelf_boards_get (boards_called (maker, "designs"), place);
}

typedef struct {
  BwShelfCard *card;
  BwShelfState state;
} Wanted;

static gboolean
has_state (gpointer data)
{
  const Wanted *wanted = data;
  return bw_shelf_card_get_state (wanted->card) == wanted->state;
}

static void
wait_for_state (BwShelfCard *card, BwShelfState state)
{
  Wanted wanted = { card, state };
  desk_until (has_state, &wanted);
  desk_settle ();
}

static gboolean
shows_work (gpointer data)
{
  Maker *maker = data;
  GType type = BW_TYPE_SHELF_PAGE;
  GtkWidget *window = GTK_WIDGET (maker->window);
  for (GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window)); focus;
       focus = gtk_widget_get_parent (focus))
    if (G_TYPE_CHECK_INSTANCE_TYPE (focus, type))
      return FALSE;
  return !bw_window_is_opening (maker->window)
         && desk_look_for_label (window, "Your designs") == NULL;
}

static void
expect_title (Maker *maker, const char *title)
{
  assert_string_equal (bw_project_get_title (maker_project (maker)), title);
}

/* --- Starting ----------------------------------------------------------------------------------
 */

static void
an_empty_shelf_has_a_place_for_a_new_stone_and_the_examples (void **state)
{
  Maker *maker = *state;
  start (maker, 0);
  desk_keep ("shelf-empty");
  assert_int_equal (bw_shelf_card_get_kind (design (maker, 0)), BW_CARD_NEW);
  assert_null (design (maker, 1));
  assert_int_equal (
      bw_shelf_card_get_kind (bw_shelf_boards_get (boards_called (maker, "examples"), 0)),
      BW_CARD_EXAMPLE);
  desk_click (GTK_WIDGET (design (maker, 0)));
  assert_true (shows_work (maker));
  assert_false (bw_project_get_modified (maker_project (maker)));
  maker_stage (maker, "measure");
}

static void
one_click_opens_a_design_in_this_window (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Kelp lantern", "kelp.bandwright");
  start (maker, 1);
  wait_for_state (design (maker, 1), BW_SHELF_SOUND);
  assert_string_equal (bw_shelf_card_get_name (design (maker, 1)), "Kelp lantern");
  desk_keep ("shelf-one");
  desk_click (GTK_WIDGET (design (maker, 1)));
  desk_until (shows_work, maker);
  expect_title (maker, "Kelp lantern");
  assert_int_equal (desk_count_mapped (), 1);
}

static gboolean
label_ends_in (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_LABEL (widget) && g_str_has_suffix (gtk_label_get_text (GTK_LABEL (widget)), words);
}

static gboolean
is_make_stage (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_MAKE_STAGE (widget);
}

/* What lies on the bench is taken up there. */
static void
a_piece_half_woven_says_so_and_opens_where_it_is_made (void **state)
{
  Maker *maker = *state;
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "On the needle");
  assert_true (bw_project_set_progress (project, "Rows", 10, NULL, 0, NULL));
  g_autofree char *path = maker_save (project, "needle.bandwright");
  g_autofree char *woven
      = g_strdup_printf (" · 10 of %d rows woven", bw_project_get_design (project)->band.rows);
  remember (path);
  start (maker, 1);
  wait_for_state (design (maker, 1), BW_SHELF_SOUND);
  assert_non_null (desk_look_for (GTK_WIDGET (design (maker, 1)), label_ends_in, woven));
  desk_click (GTK_WIDGET (design (maker, 1)));
  desk_until (shows_work, maker);
  expect_title (maker, "On the needle");
  assert_non_null (desk_look_for (GTK_WIDGET (maker->window), is_make_stage, NULL));
}

static void
keys_alone_walk_the_shelf_and_open (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Kelp lantern", "kelp.bandwright");
  start (maker, 1);
  assert_true (gtk_widget_has_focus (GTK_WIDGET (design (maker, 0))));
  desk_key ("Right", 0);
  assert_true (gtk_widget_has_focus (GTK_WIDGET (design (maker, 1))));
  desk_key ("Return", 0);
  desk_until (shows_work, maker);
  expect_title (maker, "Kelp lantern");
}

static void
an_example_opens_as_a_copy_without_a_file (void **state)
{
  Maker *maker = *state;
  start (maker, 0);
  BwShelfCard *card = bw_shelf_boards_get (boards_called (maker, "examples"), 0);
  wait_for_state (card, BW_SHELF_SOUND);
  g_autofree char *before = maker_read (g_file_peek_path (bw_shelf_card_get_file (card)));
  g_autoptr (GFile) file = g_object_ref (bw_shelf_card_get_file (card));
  maker_reveal (GTK_WIDGET (card));
  desk_click (GTK_WIDGET (card));
  desk_until (shows_work, maker);
  assert_null (bw_project_get_file (maker_project (maker)));
  bw_project_set_title (maker_project (maker), "Title", "Changed");
  desk_key ("s", GDK_CONTROL_MASK);
  assert_true (GTK_IS_FILE_CHOOSER (maker_dialog (maker)));
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  g_autofree char *after = maker_read (g_file_peek_path (file));
  assert_string_equal (after, before);
}

static gboolean
is_bare (gpointer maker)
{
  return design (maker, 1) == NULL;
}

/* --- What is no design (any more) --------------------------------------------------------------
 */

static void
a_design_that_is_gone_says_so_and_can_be_taken_off (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Kelp lantern", "kelp.bandwright");
  assert_int_equal (g_unlink (path), 0);
  start (maker, 1);
  BwShelfCard *card = design (maker, 1);
  wait_for_state (card, BW_SHELF_GONE);
  desk_find_label (GTK_WIDGET (card), "no longer there");
  desk_keep ("shelf-gone");
  desk_click (GTK_WIDGET (card));
  desk_find_label (GTK_WIDGET (maker->window),
                   "“kelp” is no longer there. Put its file back, or take it off the shelf.");
  assert_false (shows_work (maker));
  desk_key ("Delete", 0);
  desk_until (is_bare, maker);
}

static void
what_cannot_be_read_says_so_and_hurts_nothing (void **state)
{
  Maker *maker = *state;
  g_autofree char *half = put_by ("Half", "half.bandwright");
  g_autofree char *pipe = maker_path ("pipe.bandwright");
  g_autofree char *folder = maker_path ("folder.bandwright");
  g_autofree char *own = maker_path ("own.bandwright");
  assert_true (g_file_set_contents (half, "{\"format\": \"bandwright-project\", ", -1, NULL));
  assert_int_equal (mkfifo (pipe, 0600), 0);
  assert_int_equal (g_mkdir (folder, 0700), 0);
  assert_true (g_file_set_contents (own, "[[[[[[[[[[[[[[[[[", -1, NULL));
  remember (pipe);
  remember (folder);
  remember (own);
  start (maker, 4);
  for (int i = 1; i <= 4; i++) {
    wait_for_state (design (maker, i), BW_SHELF_BROKEN);
    desk_find_label (GTK_WIDGET (design (maker, i)), "cannot be read");
  }
  desk_keep ("shelf-broken");
  desk_click (GTK_WIDGET (design (maker, 0)));
  assert_true (shows_work (maker));
  assert_int_equal (g_unlink (pipe), 0);
  assert_int_equal (g_rmdir (folder), 0);
}

static gboolean
is_take_off (GtkWidget *widget, gconstpointer data)
{
  const char *tip = gtk_widget_get_tooltip_text (widget);
  return GTK_IS_BUTTON (widget) && tip && g_str_has_suffix (tip, "off the shelf");
}

static void
a_button_takes_a_broken_design_off_and_leaves_its_file (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Half", "half.bandwright");
  assert_true (g_file_set_contents (path, "{", -1, NULL));
  start (maker, 1);
  wait_for_state (design (maker, 1), BW_SHELF_BROKEN);
  desk_click (desk_look_for (GTK_WIDGET (design (maker, 1)), is_take_off, NULL));
  desk_until (knows_so_many, GINT_TO_POINTER (0));
  assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
}

static void
a_right_click_opens_the_menu_of_a_design (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Kelp lantern", "kelp.bandwright");
  start (maker, 1);
  wait_for_state (design (maker, 1), BW_SHELF_SOUND);
  desk_click_at (GTK_WIDGET (design (maker, 1)), 60, 60, 3);
  maker_click_words (GTK_WIDGET (maker->window), "Take off the Shelf");
  desk_until (knows_so_many, GINT_TO_POINTER (0));
  assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
}

static void
fifty_designs_with_titles_of_every_kind_stand_on_the_shelf (void **state)
{
  Maker *maker = *state;
  static const char *const titles[]
      = { "Harbour Night", "A pendant whose title goes on and on until the label cannot hold it",
          "\u062d\u062c\u0631 \u0627\u0644\u0628\u062d\u0631", "\u202eebb\u202c tide", "" };
  for (int i = 0; i < 50; i++) {
    g_autofree char *name = g_strdup_printf ("piece %d.bandwright", i);
    g_autofree char *path = put_by (titles[i % 5], name);
  }
  gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  start (maker, 50);
  assert_non_null (design (maker, 50));
  assert_null (design (maker, 51));
  wait_for_state (design (maker, 50), BW_SHELF_SOUND);
  desk_keep ("shelf-fifty");
  desk_key ("End", 0);
  assert_true (gtk_widget_has_focus (GTK_WIDGET (design (maker, 50))));
  GtkWidget *page
      = gtk_widget_get_ancestor (GTK_WIDGET (design (maker, 50)), GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t bounds;
  assert_true (gtk_widget_compute_bounds (GTK_WIDGET (design (maker, 50)), page, &bounds));
  assert_true (bounds.origin.y >= 0
               && bounds.origin.y + bounds.size.height <= (float)gtk_widget_get_height (page) + 1);
}

static void
in_large_type_every_card_is_whole (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("A pendant with a name", "kelp.bandwright");
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 2 * dpi, NULL);
  start (maker, 1);
  gtk_window_set_default_size (GTK_WINDOW (maker->window), 900, 600);
  wait_for_state (design (maker, 1), BW_SHELF_SOUND);
  desk_settle ();
  desk_keep ("shelf-large");
  GtkWidget *boards = GTK_WIDGET (boards_called (maker, "designs"));
  graphene_rect_t bounds;
  assert_true (gtk_widget_compute_bounds (GTK_WIDGET (design (maker, 1)), boards, &bounds));
  assert_true (bounds.origin.x >= 0
               && bounds.origin.x + bounds.size.width <= (float)gtk_widget_get_width (boards) + 1);
  assert_in_range (gtk_widget_get_width (GTK_WIDGET (maker->window)), 1, 960);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* --- The shelf over work -----------------------------------------------------------------------
 */

static void
the_shelf_comes_over_work_and_goes_back_to_it (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Kelp lantern", "kelp.bandwright");
  maker_start (maker, path);
  maker_stage (maker, "hang");
  desk_key ("Home", GDK_ALT_MASK);
  assert_false (shows_work (maker));
  desk_find_label (GTK_WIDGET (maker->window), "Back to “Kelp lantern”");
  desk_key ("z", GDK_CONTROL_MASK);
  desk_key ("Escape", 0);
  assert_true (shows_work (maker));
  g_autoptr (GVariant) stage
      = g_action_group_get_action_state (G_ACTION_GROUP (maker->window), "stage");
  assert_string_equal (g_variant_get_string (stage, NULL), "hang");
  desk_key ("Home", GDK_ALT_MASK);
  wait_for_state (design (maker, 1), BW_SHELF_SOUND);
  desk_click (GTK_WIDGET (design (maker, 1)));
  assert_true (shows_work (maker));
  assert_int_equal (desk_count_mapped (), 1);
}

static void
nothing_out_of_sight_is_undone_or_printed (void **state)
{
  Maker *maker = *state;
  maker_start (maker, NULL);
  bw_project_set_title (maker_project (maker), "Title", "Changed");
  GActionGroup *actions = G_ACTION_GROUP (maker->window);
  static const char *const resting[] = { "undo", "save", "print", "bench" };
  assert_true (g_action_group_get_action_enabled (actions, "undo"));
  desk_key ("Home", GDK_ALT_MASK);
  for (gsize i = 0; i < G_N_ELEMENTS (resting); i++)
    assert_false (g_action_group_get_action_enabled (actions, resting[i]));
  desk_key ("z", GDK_CONTROL_MASK);
  expect_title (maker, "Changed");
  desk_key ("2", GDK_CONTROL_MASK);
  assert_true (shows_work (maker));
  for (gsize i = 0; i < G_N_ELEMENTS (resting); i++)
    assert_true (g_action_group_get_action_enabled (actions, resting[i]));
}

/* As the list of what was opened last does it. */
static void
open_from_menu (Maker *maker, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *uri = g_file_get_uri (file);
  g_action_group_activate_action (G_ACTION_GROUP (maker->window), "open-file",
                                  g_variant_new_string (uri));
  desk_until (shows_work, maker);
  desk_settle ();
}

/* A design as it was opened makes way for the next, and for a new stone. */
static void
the_next_design_opens_in_the_same_window (void **state)
{
  Maker *maker = *state;
  g_autofree char *first = put_by ("Kelp lantern", "kelp.bandwright");
  g_autofree char *second = put_by ("Shore light", "shore.bandwright");
  maker_start (maker, first);
  desk_key ("Home", GDK_ALT_MASK);
  open_from_menu (maker, second);
  expect_title (maker, "Shore light");
  assert_int_equal (desk_count_mapped (), 1);
  desk_key ("Home", GDK_ALT_MASK);
  desk_settle ();
  desk_click (GTK_WIDGET (design (maker, 0)));
  desk_until (shows_work, maker);
  desk_settle ();
  assert_null (bw_project_get_file (maker_project (maker)));
  assert_int_equal (desk_count_mapped (), 1);
}

static gboolean
is_saved (gpointer maker)
{
  return !bw_project_get_modified (maker_project (maker));
}

/* Though it is saved: its steps would be lost. */
static void
a_design_that_was_worked_on_keeps_its_window (void **state)
{
  Maker *maker = *state;
  g_autofree char *first = put_by ("Kelp lantern", "kelp.bandwright");
  g_autofree char *second = put_by ("Shore light", "shore.bandwright");
  maker_start (maker, first);
  bw_project_set_title (maker_project (maker), "Title", "Work");
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (is_saved, maker);
  desk_key ("Home", GDK_ALT_MASK);
  open_from_menu (maker, second);
  expect_title (maker, "Work");
  assert_int_equal (desk_count_mapped (), 2);
}

static void
another_design_gets_a_window_of_its_own_when_there_is_work (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Kelp lantern", "kelp.bandwright");
  maker_start (maker, NULL);
  bw_project_set_title (maker_project (maker), "Title", "Work");
  desk_key ("Home", GDK_ALT_MASK);
  desk_click (GTK_WIDGET (design (maker, 1)));
  desk_until (shows_work, maker);
  desk_settle ();
  expect_title (maker, "Work");
  assert_int_equal (desk_count_mapped (), 2);
}

static void
the_guide_goes_away_and_comes_back (void **state)
{
  Maker *maker = *state;
  start (maker, 0);
  GtkWidget *guide = maker_find (maker, BW_TYPE_SHELF_GUIDE);
  desk_find_label (guide, "1 · Measure");
  desk_click (desk_find_type (guide, GTK_TYPE_BUTTON));
  assert_false (gtk_widget_get_mapped (guide));
  assert_false (bw_settings_get_flag (bw_settings_get (), "show-guide"));
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "show-guide", NULL);
  desk_settle ();
  assert_true (gtk_widget_get_mapped (guide));
}

/* --- The cache ---------------------------------------------------------------------------------
 */

static int
files_kept (void)
{
  g_autofree char *folder = g_build_filename (g_get_user_cache_dir (), "bandwright", "shelf", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  while (dir && g_dir_read_name (dir))
    n++;
  return n;
}

static gboolean
is_called_after (gpointer maker)
{
  return g_str_equal (bw_shelf_card_get_name (design (maker, 1)), "And after it");
}

static void
a_design_that_changed_is_looked_at_anew (void **state)
{
  Maker *maker = *state;
  g_autofree char *path = put_by ("Before", "kelp.bandwright");
  start (maker, 1);
  wait_for_state (design (maker, 1), BW_SHELF_SOUND);
  assert_true (files_kept () > 0);
  g_autoptr (BwProject) other = bw_project_new ();
  bw_project_set_title (other, "Title", "And after it");
  g_autofree char *again = maker_save (other, "kelp.bandwright");
  desk_click (GTK_WIDGET (design (maker, 0)));
  desk_key ("Home", GDK_ALT_MASK);
  desk_until (is_called_after, maker);
}

/* A menu that is filled too late is a scrap of nothing. */
static void
the_menu_of_another_stone_lists_every_design (void **state)
{
  Maker *maker = *state;
  g_free (put_by ("Kelp lantern", "kelp.bandwright"));
  g_free (put_by ("Bladder wrack", "wrack.bandwright"));
  start (maker, 2);
  wait_for_state (design (maker, 2), BW_SHELF_SOUND);
  GtkWidget *window = GTK_WIDGET (maker->window);
  for (int time = 0; time < 2; time++) {
    GtkWidget *button = desk_find_label (window, "Same Design on Another Stone");
    desk_click (button);
    desk_settle ();
    GtkWidget *popover
        = desk_find_type (gtk_widget_get_ancestor (button, GTK_TYPE_MENU_BUTTON), GTK_TYPE_POPOVER);
    GtkWidget *item = desk_find_label (popover, "Kelp lantern");
    desk_keep ("shelf-another-stone");
    graphene_rect_t box;
    assert_true (gtk_widget_compute_bounds (item, popover, &box));
    assert_true (box.origin.y >= 0 && box.size.width > 50);
    assert_true (box.origin.y + box.size.height <= (float)gtk_widget_get_height (popover));
    assert_true (box.origin.x + box.size.width <= (float)gtk_widget_get_width (popover));
    desk_key ("Escape", 0);
  }
}

int
main (void)
{
#define AT_SHELF(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    AT_SHELF (an_empty_shelf_has_a_place_for_a_new_stone_and_the_examples),
    AT_SHELF (one_click_opens_a_design_in_this_window),
    AT_SHELF (a_piece_half_woven_says_so_and_opens_where_it_is_made),
    AT_SHELF (keys_alone_walk_the_shelf_and_open),
    AT_SHELF (an_example_opens_as_a_copy_without_a_file),
    AT_SHELF (a_design_that_is_gone_says_so_and_can_be_taken_off),
    AT_SHELF (what_cannot_be_read_says_so_and_hurts_nothing),
    AT_SHELF (a_button_takes_a_broken_design_off_and_leaves_its_file),
    AT_SHELF (a_right_click_opens_the_menu_of_a_design),
    AT_SHELF (fifty_designs_with_titles_of_every_kind_stand_on_the_shelf),
    AT_SHELF (in_large_type_every_card_is_whole),
    AT_SHELF (the_shelf_comes_over_work_and_goes_back_to_it),
    AT_SHELF (nothing_out_of_sight_is_undone_or_printed),
    AT_SHELF (the_next_design_opens_in_the_same_window),
    AT_SHELF (a_design_that_was_worked_on_keeps_its_window),
    AT_SHELF (another_design_gets_a_window_of_its_own_when_there_is_work),
    AT_SHELF (the_guide_goes_away_and_comes_back),
    AT_SHELF (a_design_that_changed_is_looked_at_anew),
    AT_SHELF (the_menu_of_another_stone_lists_every_design),
  };
  return maker_run (tests);
}
