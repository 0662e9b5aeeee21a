/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one piece teaches comes to the next: through the window, its saves and the maker's book. */
#include "maker.h"

#include "app/keep/workbook.h"
#include "project/book/book-file.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static void
finish (Maker *maker)
{
  g_autofree char *path = bw_book_usual_path ();
  maker_stop (maker);
  g_unlink (path);
}

static gboolean
book_has_a_piece (gpointer data)
{
  g_autofree char *path = bw_book_usual_path ();
  g_autoptr (BwBook) book = bw_book_load (path, NULL);
  return book && bw_book_n_pieces (book) == 1;
}

static gboolean
hands_know_a_kind (gpointer data)
{
  const BwBookHands *hands = bw_workbook_get_hands (bw_workbook_get ());
  return hands && hands->n_kinds == 1;
}

/* A strip of 39 rows that measures two in a hundred more than its beads' size says. */
static char *
save_a_measured_piece (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwCheck check = { 39, 20 * 1.6 * 1.02 };
  assert_true (bw_project_set_progress (project, "Strip", 40, &check, 1, NULL));
  return maker_save (project, "measured.bandwright");
}

static BwWindow *
other_window (const Maker *maker)
{
  GList *item = gtk_application_get_windows (maker_application ());
  for (; item; item = item->next)
    if (BW_IS_WINDOW (item->data) && item->data != (gpointer)maker->window)
      return item->data;
  fail_msg ("no second window");
  return NULL;
}

static void
a_saved_strip_length_is_what_the_next_stone_begins_with (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = save_a_measured_piece ();
  maker_start (&maker, path);
  assert_false (maker_design (&maker)->gauge.has_hands);
  bw_project_set_title (maker_project (&maker), "Title", "Measured");
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (book_has_a_piece, NULL);
  desk_until (hands_know_a_kind, NULL);
  desk_key ("n", GDK_CONTROL_MASK);
  Maker second = { other_window (&maker) };
  const BwGauge *gauge = &maker_design (&second)->gauge;
  assert_true (gauge->has_hands);
  assert_true (gauge->pitch_mm > 1.6 * 1.01 && gauge->pitch_mm < 1.6 * 1.02);
  assert_true (gauge->hands.pitch_sd_mm < 0.02 * gauge->pitch_mm);
  assert_false (bw_project_can_undo (maker_project (&second)));
  BwBead known = maker_design (&maker)->bead, other = known;
  bw_bead_set_name (&other, "never woven");
  assert_true (bw_workbook_gauge (bw_workbook_get (), &known).has_hands);
  assert_false (bw_workbook_gauge (bw_workbook_get (), &other).has_hands);
  finish (&maker);
}

static char *
save_a_pulled_piece (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.bed.has_pulled = design.thread.has_pulled = TRUE;
  design.bed.pulled = (BwSqueezeReading){ 70, 78, 76, BW_STRIP_BY_CALLIPER };
  design.thread.pulled = (BwStretchReading){ 48.8, 49.6, BW_STRIP_BY_CALLIPER };
  assert_true (bw_project_set_design (project, "Pulled", &design, NULL));
  return maker_save (project, "pulled.bandwright");
}

static gboolean
thread_is_known (gpointer data)
{
  const BwBookHands *hands = bw_workbook_get_hands (bw_workbook_get ());
  return hands && hands->stretch.pieces == 1 && hands->squeeze.pieces == 1;
}

static gboolean
tells_what_gives (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words);
}

static void
what_thread_and_bed_gave_is_what_the_next_stone_begins_with (void **state)
{
  Maker maker = { 0 };
  g_autofree char *path = save_a_pulled_piece ();
  maker_start (&maker, path);
  bw_project_set_title (maker_project (&maker), "Title", "Pulled");
  desk_key ("s", GDK_CONTROL_MASK);
  desk_until (book_has_a_piece, NULL);
  desk_until (thread_is_known, NULL);
  maker_stop (&maker);
  Maker second = { 0 };
  maker_start (&second, NULL);
  const BwDesign *design = maker_design (&second);
  assert_true (design->bed.has_hands && design->thread.has_hands);
  assert_false (design->bed.has_pulled || design->thread.has_pulled);
  assert_true (design->thread.stretch > 0.011 && design->thread.stretch_sd < 0.003);
  assert_true (design->bed.squeeze > 0.16 && design->bed.squeeze_sd < 0.05);
  GtkWidget *window = GTK_WIDGET (second.window);
  assert_non_null (desk_look_for (window, tells_what_gives, "stretches by"));
  maker_unfold (window, tells_what_gives, "Squeeze and overhang");
  desk_keep ("book-begun");
  assert_non_null (desk_look_for (window, tells_what_gives,
                                  "1.2\u00a0% ± 0.3\u00a0%, by the pieces you have woven"));
  finish (&second);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_saved_strip_length_is_what_the_next_stone_begins_with),
    cmocka_unit_test (what_thread_and_bed_gave_is_what_the_next_stone_begins_with),
  };
  return maker_run (tests);
}
