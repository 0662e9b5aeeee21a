/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/report-own.h"

#include "project/book/book-habits.h"
#include "project/book/book-only.h"
#include "project/book/book-stones.h"
#include "project/book/book-trays.h"

#include <glib/gi18n-lib.h>

static char *
as_book (BwBook *only)
{
  g_autoptr (BwBook) book = only;
  return bw_book_to_data (book, NULL);
}

char *
bw_report_trays (const BwBook *book, gboolean json)
{
  g_autofree BwKeptTray *kept = g_new0 (BwKeptTray, 1);
  GString *text = g_string_new (NULL);
  if (json) {
    g_string_free (text, TRUE);
    return as_book (bw_book_only_trays (book));
  }
  if (bw_book_n_trays (book) == 0)
    g_string_append (text, _ ("No tray of your own is in the book yet.\n"));
  for (guint i = 0; i < bw_book_n_trays (book); i++) {
    bw_book_get_tray (book, i, kept);
    g_string_append_printf (text, "%s:", kept->name);
    for (int c = 0; c < kept->tray.n_colours; c++)
      g_string_append_printf (text, " #%06x", kept->tray.colour[c].srgb);
    g_string_append_c (text, '\n');
  }
  return g_string_free (text, FALSE);
}

char *
bw_report_stones (const BwBook *book, gboolean json)
{
  static const char *const states[BW_N_STONE_STATES]
      = { N_ ("waiting"), N_ ("in a design"), N_ ("set") };
  GString *text = g_string_new (NULL);
  if (json) {
    g_string_free (text, TRUE);
    return as_book (bw_book_only_stones (book));
  }
  if (bw_book_n_stones (book) == 0)
    g_string_append (text, _ ("No stone is in the book yet.\n"));
  for (guint i = 0; i < bw_book_n_stones (book); i++) {
    BwKeptStone kept;
    bw_book_get_stone (book, i, &kept);
    g_string_append_printf (text, _ ("%s: %s, %d faces, %g mm long"), kept.name,
                            _ (states[kept.state]), kept.measures.faces, kept.measures.length_mm);
    g_string_append_c (text, '\n');
  }
  return g_string_free (text, FALSE);
}

char *
bw_report_habits (const BwBook *book, gboolean json)
{
  GString *text = g_string_new (NULL);
  BwHabits habits;
  if (json) {
    g_string_free (text, TRUE);
    return as_book (bw_book_only_habits (book));
  }
  bw_book_get_habits (book, &habits);
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    if (habits.has[habit])
      g_string_append_printf (text, "%s %g\n", bw_habit_pointer (habit), habits.value[habit]);
  if (text->len == 0)
    g_string_append (text, _ ("No habit is in the book yet.\n"));
  return g_string_free (text, FALSE);
}
