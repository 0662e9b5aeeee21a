/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the workshop's pages take to show a book of ten thousand pieces, stones, trays, beads
 * and things in the stash: from the click until the book was read anew and the page is painted, and
 * from a change until it is shown. */
#include "../window/own-book.h"
#include "../window/pauses.h"

#include "app/keep/workbook.h"

#include <stdio.h>
#include <time.h>

#define MANY 10000

static void
add_list (GString *text, const char *key, void (*add) (GString *text, int i))
{
  g_string_append_printf (text, ",\n\"%s\": [", key);
  for (int i = 0; i < MANY; i++) {
    g_string_append (text, i ? ",\n" : "\n");
    add (text, i);
  }
  g_string_append_c (text, ']');
}

static void
add_piece (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"id\": \"p%d\", \"title\": \"Piece %d\", \"bead\": \"11/0 cylinder\", "
                          "\"diameter_mm\": 1.6, \"date\": \"20%02d-%02d-%02d\", "
                          "\"checks\": [{\"rows\": 39, \"length_mm\": %d.%02d}], "
                          "\"finished\": {\"rows\": %d, \"closing_pitch_mm\": 1.61, "
                          "\"girth_sd_mm\": 0.4, \"planned\": 100, \"told\": 0.6, \"hours\": 5}}",
                          i, i, 10 + i / 366, 1 + i / 30 % 12, 1 + i % 28, 32, i % 60,
                          98 + i % 3 * 2);
}

static void
add_stone (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"name\": \"Stone %05d\", \"state\": \"waiting\", \"stone\": "
                          "{\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [%d], "
                          "\"at_mm\": 12, \"length_mm\": 52, \"shoulder_mm\": 37}}",
                          i, 55 + i % 30);
}

static void
add_tray (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"name\": \"Tray %05d\", \"tray\": [{\"id\": \"a\", \"srgb\": "
                          "\"#%06x\"}, {\"id\": \"b\", \"name\": \"Shade %d\"}]}",
                          i, i * 1000, i);
}

static void
add_bead (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"name\": \"Bead %05d\", \"diameter_mm\": 1.6, \"length_mm\": 1.3, "
                          "\"hole_mm\": 0.8, \"article\": \"B-%d\"}",
                          i, i);
}

static void
add_thing (GString *text, int i)
{
  g_string_append_printf (text,
                          "{\"what\": \"beads\", \"name\": \"Shade %05d\", \"bead\": \"11/0 "
                          "cylinder\", \"srgb\": \"#%06x\", \"grams\": %d}",
                          i, i * 1000, i % 40);
}

static void
write_book (void)
{
  g_autofree char *path = bw_book_usual_path (), *folder = g_path_get_dirname (path);
  g_autoptr (GString) text = g_string_new ("{\"format\": \"bandwright-book\", \"version\": 1");
  g_autoptr (GError) error = NULL;
  add_list (text, "pieces", add_piece);
  add_list (text, "stones", add_stone);
  add_list (text, "trays", add_tray);
  add_list (text, "beads", add_bead);
  add_list (text, "stash", add_thing);
  g_string_append (text, "}\n");
  g_mkdir_with_parents (folder, 0700);
  if (!g_file_set_contents (path, text->str, (gssize)text->len, &error))
    g_error ("%s", error->message);
}

/* By the clock, and what the main thread worked, during which the windows stand still. */
typedef struct {
  double clock_ms, work_ms;
} Time;

static Time
now (void)
{
  struct timespec spent;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &spent);
  return (Time){ (double)g_get_monotonic_time () / 1000,
                 1000.0 * (double)spent.tv_sec + (double)spent.tv_nsec / 1e6 };
}

static Time
since (Time begin)
{
  Time end = now ();
  return (Time){ end.clock_ms - begin.clock_ms, end.work_ms - begin.work_ms };
}

static void
note (gboolean *changed)
{
  *changed = TRUE;
}

/* Until the book was read, or changed, and everything that shows it is painted. */
static Time
take_change (Time begin)
{
  gboolean changed = FALSE;
  gulong handler
      = g_signal_connect_swapped (bw_workbook_get (), "changed", G_CALLBACK (note), &changed);
  while (!changed)
    g_main_context_iteration (NULL, TRUE);
  g_signal_handler_disconnect (bw_workbook_get (), handler);
  desk_settle ();
  return since (begin);
}

static gboolean
leave_alone (BwBook *book, gpointer data, GError **error)
{
  return TRUE;
}

static void
measure (Maker *maker, const char *page)
{
  Time begin = now ();
  GtkWidget *window = open_workshop (maker, page);
  Time seen = since (begin), read = take_change (begin);
  begin = now ();
  bw_workbook_change (bw_workbook_get (), leave_alone, NULL, NULL);
  Time changed = take_change (begin);
  printf ("%-10s %8.0f (%4.0f) %8.0f (%4.0f) %8.0f (%4.0f)\n", page, seen.clock_ms, seen.work_ms,
          read.clock_ms, read.work_ms, changed.clock_ms, changed.work_ms);
  fflush (stdout);
  close_workshop (maker, window);
}

static int
measure_all (gconstpointer data)
{
  static const char *const pages[]
      = { "hands", "finished", "stones", "trays", "beads", "stash", "habits" };
  Maker maker = { 0 };
  pauses_follow_time ();
  write_book ();
  maker_start (&maker, NULL);
  printf ("ms (of them work of the main thread): on screen, book read anew, a change shown\n");
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    measure (&maker, pages[i]);
  maker_stop (&maker);
  return 0;
}

int
main (void)
{
  return maker_work (measure_all, NULL);
}
