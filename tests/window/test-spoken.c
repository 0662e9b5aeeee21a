/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a screen reader is told of the real window, over the accessibility bus: every control that
 * can be reached has a name, and what matters can be heard. */
#include "heard.h"
#include "maker.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define OPENED "opened-before"

static int
set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  g_autofree char *path
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  maker_start (maker, path);
  *state = maker;
  return 0;
}

/* --- Names -------------------------------------------------------------------------------------
 */

/* Writes down every nameless control there is now. Gives how many controls there are. */
static int
note_nameless (const char *where, GString *nameless)
{
  g_autoptr (GPtrArray) all = heard_now ();
  int controls = 0;
  for (guint i = 0; i < all->len; i++) {
    const Heard *heard = g_ptr_array_index (all, i);
    if (!heard_is_control (heard))
      continue;
    controls++;
    if (!heard_has_name (all, i))
      g_string_append_printf (nameless, "\n%s: %s, name “%s”, “%s”, %d × %d px", where, heard->role,
                              heard->name, heard->description, heard->width, heard->height);
  }
  desk_keep (where);
  return controls;
}

/* All at once, once everything that was opened is closed. */
static void
expect_names (GString *nameless)
{
  if (nameless->len > 0)
    fail_msg ("controls without a name:%s", nameless->str);
}

static void
collect (GtkWidget *root, GType type, GPtrArray *found)
{
  if (!gtk_widget_get_mapped (root))
    return;
  if (g_type_is_a (G_OBJECT_TYPE (root), type))
    g_ptr_array_add (found, root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    collect (child, type, found);
}

static void
unfold (Maker *maker)
{
  g_autoptr (GPtrArray) folds = g_ptr_array_new ();
  collect (GTK_WIDGET (maker->window), GTK_TYPE_EXPANDER, folds);
  for (guint i = 0; i < folds->len; i++)
    gtk_expander_set_expanded (g_ptr_array_index (folds, i), TRUE);
}

/* Opens whatever a button opens, one after the other, but what was opened before. Gives how many
 * there were. */
static guint
note_popovers (Maker *maker, const char *where, GString *nameless)
{
  g_autoptr (GPtrArray) buttons = g_ptr_array_new ();
  collect (GTK_WIDGET (maker->window), GTK_TYPE_MENU_BUTTON, buttons);
  for (guint i = 0; i < buttons->len; i++) {
    GtkMenuButton *button = g_ptr_array_index (buttons, i);
    g_autofree char *place = g_strdup_printf ("%s-popover-%u", where, i + 1);
    if (!gtk_widget_is_sensitive (GTK_WIDGET (button))
        || g_object_get_data (G_OBJECT (button), OPENED))
      continue;
    g_object_set_data (G_OBJECT (button), OPENED, button);
    gtk_menu_button_popup (button);
    desk_rest ();
    note_nameless (place, nameless);
    gtk_menu_button_popdown (button);
    desk_settle ();
  }
  return buttons->len;
}

static void
every_control_of_every_stage_and_of_what_opens_there_has_a_name (void **state)
{
  static const struct {
    const char *name;
    int controls; /* at the least */
    guint popovers;
  } stages[] = { { "measure", 30, 3 }, { "draw", 30, 6 }, { "hang", 10, 3 }, { "make", 15, 3 } };
  g_autoptr (GString) nameless = g_string_new (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++) {
    g_autofree char *where = g_strdup_printf ("spoken-%s", stages[i].name);
    maker_stage (*state, stages[i].name);
    unfold (*state);
    desk_rest ();
    assert_true (note_nameless (where, nameless) >= stages[i].controls);
    assert_true (note_popovers (*state, where, nameless) >= stages[i].popovers);
  }
  expect_names (nameless);
}

static void
every_control_beside_the_band_has_a_name (void **state)
{
  static const char *const sides[] = { "Motif", "Picture", "Tray" };
  Maker *maker = *state;
  g_autoptr (GString) nameless = g_string_new (NULL);
  maker_stage (maker, "draw");
  for (gsize i = 0; i < G_N_ELEMENTS (sides); i++) {
    g_autofree char *where = g_strdup_printf ("spoken-side-%s", sides[i]);
    maker_click_words (GTK_WIDGET (maker->window), sides[i]);
    desk_rest ();
    note_nameless (where, nameless);
    note_popovers (maker, where, nameless);
  }
  expect_names (nameless);
}

static void
every_control_at_the_bench_has_a_name (void **state)
{
  g_autoptr (GString) nameless = g_string_new (NULL);
  desk_key ("F11", 0);
  desk_rest ();
  assert_true (note_nameless ("spoken-bench", nameless) >= 4);
  desk_key ("F11", 0);
  desk_rest ();
  expect_names (nameless);
}

static void
every_control_of_the_dialogs_has_a_name (void **state)
{
  Maker *maker = *state;
  g_autoptr (GString) nameless = g_string_new (NULL);
  maker_stage (maker, "measure");
  maker_click_words (GTK_WIDGET (maker->window), "Measure a Swatch…");
  maker_dialog (maker);
  note_nameless ("spoken-swatch", nameless);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  maker_fill (maker, "/band/rows", "110");
  desk_key ("w", GDK_CONTROL_MASK);
  maker_dialog (maker);
  note_nameless ("spoken-question", nameless);
  desk_key ("Escape", 0);
  maker_no_dialog (maker);
  expect_names (nameless);
}

/* --- What is told ------------------------------------------------------------------------------
 */

static const Heard *
expect_heard (GPtrArray *all, const char *role, const char *name)
{
  const Heard *heard = heard_find (all, role, name);
  if (!heard)
    fail_msg ("no %s is called “%s…”", role ? role : "object", name);
  return heard;
}

static void
the_band_tells_the_bead_under_the_cursor (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "draw");
  maker_take_colour (maker, 2);
  const char *colour = bw_project_get_tray (maker_project (maker))->colour[2].name;
  maker_click_bead (maker, 21, 4);
  desk_key ("Right", 0); /* shows the cursor where it was clicked */
  g_autoptr (GPtrArray) before = heard_now ();
  const Heard *band = expect_heard (before, NULL, "The band unrolled");
  assert_non_null (strchr (band->states, 'F'));
  assert_true (g_str_has_prefix (band->description, "Row 21, column 4, "));
  assert_true (g_str_has_suffix (band->description, colour));

  desk_key ("Right", 0);
  g_autoptr (GPtrArray) after = heard_now ();
  band = expect_heard (after, NULL, "The band unrolled");
  assert_true (g_str_has_prefix (band->description, "Row 23, column 4, "));
  expect_heard (after, "status bar", band->description);
}

static void
the_fit_line_and_a_notice_are_told_where_a_reader_listens (void **state)
{
  Maker *maker = *state;
  g_autoptr (GPtrArray) before = heard_now ();
  expect_heard (before, "status bar", "Snug on paper");
  maker_stage (maker, "measure");
  maker_fill (maker, "/band/rows", "110");
  desk_key ("c", GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  desk_rest ();
  g_autoptr (GPtrArray) after = heard_now ();
  expect_heard (after, "status bar", "Will not close");
  assert_null (heard_find (after, "status bar", "Snug on paper"));
  expect_heard (after, "image", "Will not close");
  expect_heard (after, "alert", "The order list was copied.");
}

static void
a_wrong_value_is_told_with_its_field (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "measure");
  maker_fill (maker, "/stone/length_mm", "-3");
  g_autoptr (GPtrArray) all = heard_now ();
  const Heard *field = expect_heard (all, "text", "Length, base to tip");
  assert_string_equal (field->text, "-3");
  assert_true (*field->description);
}

static const Heard *
control_called (GPtrArray *all, const char *name)
{
  for (guint i = 0; i < all->len; i++) {
    const Heard *heard = g_ptr_array_index (all, i);
    if (heard_is_control (heard) && g_str_equal (heard->name, name))
      return heard;
  }
  fail_msg ("no control is called “%s”", name);
  return NULL;
}

static void
expect_described (const char *head)
{
  g_autoptr (GPtrArray) all = heard_now ();
  const Heard *heard = control_called (all, head);
  assert_true (*heard->description);
  expect_heard (all, "label", heard->description);
}

static void
what_stands_beside_a_control_describes_it (void **state)
{
  Maker *maker = *state;
  maker_stage (maker, "measure");
  expect_described ("Bead and hands");
  maker_stage (maker, "make");
  expect_described ("Necklace");

  desk_key ("F11", 0);
  desk_key ("m", 0);
  desk_rest ();
  desk_type ("wrong");
  desk_key ("Return", 0);
  desk_rest ();
  g_autoptr (GPtrArray) all = heard_now ();
  const Heard *length = expect_heard (all, "text", "The strip now measures, edge to edge");
  assert_string_equal (length->text, "wrong");
  assert_true (g_str_has_prefix (length->description, "“wrong” is not "));
  desk_key ("F11", 0);
  desk_rest ();
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, maker_tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (every_control_of_every_stage_and_of_what_opens_there_has_a_name),
    IN_WINDOW (every_control_beside_the_band_has_a_name),
    IN_WINDOW (every_control_at_the_bench_has_a_name),
    IN_WINDOW (every_control_of_the_dialogs_has_a_name),
    IN_WINDOW (the_band_tells_the_bead_under_the_cursor),
    IN_WINDOW (the_fit_line_and_a_notice_are_told_where_a_reader_listens),
    IN_WINDOW (a_wrong_value_is_told_with_its_field),
    IN_WINDOW (what_stands_beside_a_control_describes_it),
  };
  return maker_run (tests);
}
