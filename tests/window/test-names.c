/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who does not see the window hears it: every control of every stage that is on screen has a name
 * of its own, or words in it. */
#include "maker.h"

#include "app/measure/squeeze-dialog.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static gboolean
says_something (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LABEL (widget) && *gtk_label_get_text (GTK_LABEL (widget)) != '\0';
}

static gboolean
is_called_something (GtkWidget *widget)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (widget);
  return gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL)
         || gtk_test_accessible_has_relation (accessible, GTK_ACCESSIBLE_RELATION_LABELLED_BY);
}

/* What a value stands in is not named by the value. */
static gboolean
shows_a_value (GtkWidget *widget)
{
  return GTK_IS_EDITABLE (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_RANGE (widget);
}

static gboolean
is_control (GtkWidget *widget)
{
  return shows_a_value (widget) || GTK_IS_BUTTON (widget) || GTK_IS_MENU_BUTTON (widget)
         || GTK_IS_CHECK_BUTTON (widget) || GTK_IS_SWITCH (widget) || GTK_IS_FLOW_BOX_CHILD (widget)
         || GTK_IS_LIST_BOX_ROW (widget) || gtk_widget_get_focusable (widget);
}

/* A label that can be selected is its own name; a scrolled page is only a way to what is in it. */
static gboolean
needs_no_name (GtkWidget *widget)
{
  return GTK_IS_LABEL (widget) || GTK_IS_SCROLLED_WINDOW (widget) || GTK_IS_VIEWPORT (widget)
         || GTK_IS_LIST_BOX (widget) || GTK_IS_FLOW_BOX (widget) || GTK_IS_PANED (widget)
         || GTK_IS_WINDOW (widget) || GTK_IS_EXPANDER (widget);
}

static char *
whereabouts (GtkWidget *widget)
{
  GString *path = g_string_new (NULL);
  for (; widget; widget = gtk_widget_get_parent (widget)) {
    const char *id = gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget));
    g_string_append_printf (path, " < %s%s%s", G_OBJECT_TYPE_NAME (widget), id ? " " : "",
                            id ? id : "");
  }
  return g_string_free (path, FALSE);
}

/* Controls in controls are the toolkit's own. Gives how many were named. */
static int
expect_names (GtkWidget *widget)
{
  int named = 0;
  if (!gtk_widget_get_mapped (widget) || GTK_IS_SCROLLBAR (widget))
    return 0;
  if (is_control (widget) && !needs_no_name (widget)) {
    if (!is_called_something (widget)
        && (shows_a_value (widget) || !desk_look_for (widget, says_something, NULL))) {
      g_autofree char *where = whereabouts (widget);
      fail_msg ("without a name:%s", where);
    }
    return 1;
  }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    named += expect_names (child);
  return named;
}

static void
every_control_of_every_stage_has_a_name (void **state)
{
  static const char *const stages[] = { "measure", "draw", "hang", "make" };
  Maker *maker = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++) {
    maker_stage (maker, stages[i]);
    assert_true (expect_names (GTK_WIDGET (maker->window)) > 15);
  }
}

static void
every_control_beside_the_band_has_a_name (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "draw");
  for (int page = 0; page < 3; page++) {
    assert_true (expect_names (GTK_WIDGET (maker->window)) > 25);
    desk_key ("Page_Down", GDK_CONTROL_MASK);
  }
  desk_key ("m", GDK_CONTROL_MASK);
  assert_non_null (desk_look_for_label (GTK_WIDGET (maker->window), "Half-turn"));
  assert_true (expect_names (GTK_WIDGET (maker->window)) > 35);
  desk_key ("Escape", 0);
}

/* Every motif's page has fields of its own. */
static void
every_motif_names_its_fields (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "draw");
  desk_key ("Page_Down", GDK_CONTROL_MASK);
  desk_key ("Home", 0);
  for (int kind = 0; kind < 11; kind++) {
    assert_true (expect_names (GTK_WIDGET (maker->window)) > 25);
    desk_key ("Right", 0);
  }
}

/* On the shelf cards stand where the stages were. */
static void
every_control_of_the_shelf_has_a_name (void **state)
{
  Maker *maker = *state;
  desk_key ("Home", GDK_ALT_MASK);
  assert_true (expect_names (GTK_WIDGET (maker->window)) > 5);
  desk_key ("Escape", 0);
}

static void
expect_dialog_names (Maker *maker, GActionGroup *group, const char *action, int most_nameless)
{
  g_action_group_activate_action (group, action, NULL);
  GtkWindow *dialog = maker_dialog (maker);
  int named = expect_names (GTK_WIDGET (dialog));
  if (named <= most_nameless)
    fail_msg ("%s: %d controls were seen", action, named);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

static void
every_control_of_every_window_has_a_name (void **state)
{
  Maker *maker = *state;
  GActionGroup *window = G_ACTION_GROUP (maker->window);
  GActionGroup *application = G_ACTION_GROUP (maker_application ());
  expect_dialog_names (maker, application, "preferences", 8);
  expect_dialog_names (maker, window, "restone", 5);
  expect_dialog_names (maker, window, "swatch", 3);
  expect_dialog_names (maker, window, "save-picture", 5);
  expect_dialog_names (maker, window, "help", 3);
}

static void
every_control_at_the_bench_has_a_name (void **state)
{
  Maker *maker = *state;
  g_action_group_activate_action (G_ACTION_GROUP (maker->window), "bench", NULL);
  desk_settle ();
  assert_true (expect_names (GTK_WIDGET (maker->window)) > 5);
  desk_key ("Escape", 0);
}

/* --- Room on a small screen ---------------------------------------------------------------------
 */

#define TWICE_DPI (2 * 96 * 1024) /* text of 200 % */

/* A dialog that cannot be made smaller is as large as it is; of others the least counts. */
static void
measure (GtkWidget *dialog, int *width, int *height)
{
  *width = gtk_widget_get_width (dialog);
  *height = gtk_widget_get_height (dialog);
  if (!gtk_window_get_resizable (GTK_WINDOW (dialog)))
    return;
  gtk_widget_measure (dialog, GTK_ORIENTATION_HORIZONTAL, -1, width, NULL, NULL, NULL);
  gtk_widget_measure (dialog, GTK_ORIENTATION_VERTICAL, *width, height, NULL, NULL, NULL);
}

static void
expect_room (Maker *maker, const char *what)
{
  int width, height;
  GtkWidget *dialog = GTK_WIDGET (maker_dialog (maker));
  measure (dialog, &width, &height);
  desk_keep (what);
  /* Shortcuts take the width of the window that they stand over. */
  if (width > MAX (900, gtk_widget_get_width (GTK_WIDGET (maker->window))) || height > 600)
    fail_msg ("%s: %d by %d", what, width, height);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
}

static void
window_and_dialogs_have_room_on_a_small_screen_with_large_text (void **state)
{
  static const char *const actions[]
      = { "restone", "swatch", "save-picture", "help", "finished", "show-help-overlay" };
  Maker *maker = *state;
  int usual;
  g_object_get (gtk_settings_get_default (), "gtk-xft-dpi", &usual, NULL);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", TWICE_DPI, NULL);
  gtk_window_set_default_size (GTK_WINDOW (maker->window), 900, 600);
  desk_settle ();
  int width;
  gtk_widget_measure (GTK_WIDGET (maker->window), GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL,
                      NULL, NULL);
  assert_in_range (width, 1, 900);
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++) {
    g_action_group_activate_action (G_ACTION_GROUP (maker->window), actions[i], NULL);
    expect_room (maker, actions[i]);
  }
  bw_squeeze_dialog_show (GTK_WINDOW (maker->window), bw_window_get_draft (maker->window));
  expect_room (maker, "squeeze");
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", usual, NULL);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, maker_set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (every_control_of_every_stage_has_a_name),
    IN_WINDOW (every_control_beside_the_band_has_a_name),
    IN_WINDOW (every_motif_names_its_fields),
    IN_WINDOW (every_control_of_the_shelf_has_a_name),
    IN_WINDOW (every_control_of_every_window_has_a_name),
    IN_WINDOW (every_control_at_the_bench_has_a_name),
    IN_WINDOW (window_and_dialogs_have_room_on_a_small_screen_with_large_text),
  };
  /* The toolkit keeps names in memory instead of telling them to a bus. */
  g_setenv ("GTK_A11Y", "test", TRUE);
  return maker_run (tests);
}
