/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trays go out to other programs as palettes, and palettes come in as trays. */
#include "kelp.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static void
open_choice (Maker *maker)
{
  maker_stage (maker, "draw");
  GtkWidget *label = desk_find_label (GTK_WIDGET (maker->window), "Other Trays");
  gtk_widget_grab_focus (gtk_widget_get_ancestor (label, GTK_TYPE_MENU_BUTTON));
  desk_key ("space", 0);
  desk_settle ();
}

/* What lies in the popover is in sight, whatever the tray beneath is scrolled to. */
static void
click (Maker *maker, const char *words)
{
  desk_click (desk_find_label (GTK_WIDGET (maker->window), words));
}

typedef struct {
  Maker *maker;
  const char *words;
} Told;

static gboolean
is_told (gpointer data)
{
  const Told *told = data;
  return desk_look_for_prefix (GTK_WIDGET (told->maker->window), told->words) != NULL;
}

static void
wait_to_be_told (Maker *maker, const char *words)
{
  Told told = { maker, words };
  desk_until (is_told, &told);
}

static void
a_palette_is_read_in_as_one_step (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  g_autofree char *path = maker_path ("ebb.gpl");
  guint steps = bw_project_count_steps (project);
  assert_true (
      g_file_set_contents (path, "GIMP Palette\n#\n1 2 3\tDeep\n250 251 252\tSalt\n", -1, NULL));
  open_choice (maker);
  desk_keep ("palette-choice");
  click (maker, "Read In a Palette…");
  maker_answer_path (maker, path);
  desk_settle ();
  const BwTray *tray = bw_project_get_tray (project);
  assert_int_equal (tray->n_colours, 2);
  assert_int_equal (tray->colour[0].srgb, 0x010203);
  assert_string_equal (tray->colour[1].name, "Salt");
  assert_int_equal (bw_project_count_steps (project), steps + 1);
  desk_key ("z", GDK_CONTROL_MASK);
  assert_int_equal (bw_project_get_tray (project)->n_colours, 4);
}

static void
what_is_no_palette_changes_nothing (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *path = maker_path ("no.gpl");
  assert_true (g_file_set_contents (path, "GIMP Palette\n#\n1 2\n", -1, NULL));
  open_choice (maker);
  click (maker, "Read In a Palette…");
  maker_answer_path (maker, path);
  wait_to_be_told (maker, "“no.gpl” could not be opened");
  desk_keep ("palette-broken");
  assert_false (bw_project_can_undo (maker_project (maker)));
}

static void
the_tray_goes_out_as_either_kind (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  g_autofree char *gpl = maker_path ("out.gpl"), *css = maker_path ("out.css");
  open_choice (maker);
  click (maker, "Export as GIMP Palette…");
  maker_answer_path (maker, gpl);
  wait_to_be_told (maker, "“out.gpl” was written");
  g_autofree char *text = maker_read (gpl);
  assert_non_null (strstr (text, "Name: Kelp lantern\n"));
  assert_non_null (strstr (text, " 47  72  88\tSlate tide\n"));
  open_choice (maker);
  click (maker, "Export as CSS Colours…");
  maker_answer_path (maker, css);
  wait_to_be_told (maker, "“out.css” was written");
  g_autofree char *sheet = maker_read (css);
  assert_non_null (strstr (sheet, "--slate-tide: #2f4858;"));
}

static gboolean
has_id (GtkWidget *widget, gconstpointer id)
{
  return GTK_IS_ENTRY (widget)
         && g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), id) == 0;
}

static gboolean
is_focused (gpointer entry)
{
  return (gtk_widget_get_state_flags (entry) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
}

typedef struct {
  GtkWidget *entry;
  const char *text;
} Written;

static gboolean
is_written (gpointer data)
{
  const Written *written = data;
  return g_str_equal (gtk_editable_get_text (GTK_EDITABLE (written->entry)), written->text);
}

static GtkWidget *
write_in (Maker *maker, const char *id, const char *text)
{
  GtkWidget *entry = desk_look_for (GTK_WIDGET (maker->window), has_id, id);
  Written written = { entry, text };
  maker_reveal (entry);
  desk_settle ();
  desk_click (entry);
  desk_until (is_focused, entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_key ("BackSpace", 0);
  desk_type (text);
  desk_until (is_written, &written);
  desk_key ("Return", 0);
  return entry;
}

static void
what_is_in_hand_is_a_weight_or_says_why_not (void **state)
{
  static const char *const none[] = { "two", "-1", "nan", "100001", "3x" };
  Maker *maker = &((Bench *)*state)->maker;
  BwProject *project = maker_project (maker);
  maker_stage (maker, "draw");
  desk_settle ();
  write_in (maker, "article", "ST-4");
  assert_string_equal (bw_project_get_tray (project)->colour[0].article, "ST-4");
  write_in (maker, "in_hand", "2,5");
  assert_true (bw_project_get_tray (project)->colour[0].in_hand_g == 2.5);
  guint steps = bw_project_count_steps (project);
  for (gsize i = 0; i < G_N_ELEMENTS (none); i++) {
    g_autofree char *words
        = g_strdup_printf ("“%s” is no weight in grams from 0 to 100000.", none[i]);
    GtkWidget *entry = write_in (maker, "in_hand", none[i]);
    wait_to_be_told (maker, words);
    assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "2.5");
  }
  assert_int_equal (bw_project_count_steps (project), steps);
  assert_true (bw_project_get_tray (project)->colour[0].in_hand_g == 2.5);
  desk_keep ("palette-order");
}

/* The toolkit's text takes the keys for all of its text and for none of it without always saying
 * that it did. */
static void
all_of_a_text_is_not_all_beads (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  maker_stage (maker, "draw");
  desk_settle ();
  GtkWidget *entry = desk_look_for (GTK_WIDGET (maker->window), has_id, "article");
  maker_reveal (entry);
  desk_settle ();
  desk_click (entry);
  desk_until (is_focused, entry);
  for (int i = 0; i < 8; i++) {
    desk_key ("a", GDK_CONTROL_MASK | (i % 2 ? GDK_SHIFT_MASK : 0));
    desk_settle ();
    assert_true (is_focused (entry));
  }
}

static gboolean
take_the_field (gpointer entry)
{
  gtk_widget_grab_focus (entry);
  return G_SOURCE_REMOVE;
}

static void
is_come_to (GtkWidget *entry)
{
  g_idle_add_full (G_PRIORITY_DEFAULT, take_the_field, entry, NULL);
}

/* However busy the program is: the next event comes before anything that waits for idleness. */
static void
a_field_taken_at_once_keeps_the_keyboard (void **state)
{
  Maker *maker = &((Bench *)*state)->maker;
  maker_stage (maker, "draw");
  desk_settle ();
  GtkWidget *entry = desk_look_for (GTK_WIDGET (maker->window), has_id, "article");
  maker_stage (maker, "measure");
  desk_settle ();
  gulong mapped = g_signal_connect (entry, "map", G_CALLBACK (is_come_to), NULL);
  maker_stage (maker, "draw");
  desk_settle ();
  g_signal_handler_disconnect (entry, mapped);
  assert_true (is_focused (entry));
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (a_palette_is_read_in_as_one_step),
    IN_WINDOW (what_is_no_palette_changes_nothing),
    IN_WINDOW (the_tray_goes_out_as_either_kind),
    IN_WINDOW (what_is_in_hand_is_a_weight_or_says_why_not),
    IN_WINDOW (all_of_a_text_is_not_all_beads),
    IN_WINDOW (a_field_taken_at_once_keeps_the_keyboard),
  };
  return maker_run (tests);
}
