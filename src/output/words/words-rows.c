/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows in words. The needle turns at the end of every row, so a row is told in the order in which
 * the needle meets its beads, not in the order of the columns. Equal rows are told once, and so are
 * two rows that alternate; anything longer is left row by row, which is easier to keep one's place
 * in. */
#include "config.h"

#include "output/words/words.h"

#include "core/base/lattice.h"
#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
clear_row (gpointer row)
{
  g_free (((BwWordsRow *)row)->colours);
}

GArray *
bw_words_rows_new (void)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (BwWordsRow));
  g_array_set_clear_func (rows, clear_row);
  return rows;
}

static BwWordsRow
band_row (const BwDrawing *drawing, int row)
{
  int n = bw_drawing_columns (drawing) / 2;
  const guint8 *cells = bw_drawing_row (drawing, row);
  BwWordsRow words
      = { .row = row, .up = bw_lattice_direction (row) > 0, .n = n, .colours = g_new (guint8, n) };
  for (int j = 0; j < n; j++)
    words.colours[j] = cells[words.up ? j : n - 1 - j];
  return words;
}

GArray *
bw_words_band_rows (const BwDrawing *drawing, int first, int last)
{
  GArray *rows = bw_words_rows_new ();
  for (int row = first; row <= last; row++) {
    BwWordsRow words = band_row (drawing, row);
    g_array_append_val (rows, words);
  }
  return rows;
}

guint8 *
bw_words_pick_up (const BwDrawing *drawing, int *n)
{
  int columns = bw_drawing_columns (drawing);
  gboolean lone = bw_drawing_rows (drawing) < 2;
  guint8 *colours = g_new (guint8, columns);
  *n = 0;
  for (int column = 1; column <= columns; column++) {
    int row = bw_lattice_has (1, column) ? 1 : 2;
    if (row == 1 || !lone)
      colours[(*n)++] = bw_drawing_get (drawing, row, column);
  }
  return colours;
}

const char *
bw_words_arrow (gboolean up)
{
  return up ? "↑" : "↓";
}

static void
clear_event (gpointer event)
{
  g_free (((BwWordsEvent *)event)->sentence);
}

GArray *
bw_words_events_new (void)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (BwWordsEvent));
  g_array_set_clear_func (events, clear_event);
  return events;
}

void
bw_words_events_add (GArray *events, int before_row, char *sentence)
{
  guint i = events->len;
  while (i > 0 && g_array_index (events, BwWordsEvent, i - 1).before_row > before_row)
    i--;
  BwWordsEvent event = { before_row, sentence };
  g_array_insert_val (events, i, event);
}

static gboolean
read_alike (const GArray *rows, guint a, guint b)
{
  const BwWordsRow *first = &g_array_index (rows, BwWordsRow, a);
  const BwWordsRow *second = &g_array_index (rows, BwWordsRow, b);
  return first->n == second->n && memcmp (first->colours, second->colours, (gsize)first->n) == 0;
}

/* How many rows from i on, none at or beyond `end`, read like the one `step` rows before them. */
static guint
count_alike (const GArray *rows, guint i, guint end, guint step)
{
  guint n = step;
  while (i + n < end && read_alike (rows, i + n, i + n - step))
    n++;
  return MIN (n, end - i);
}

static char *
row_runs (const GArray *rows, guint i, char **labels)
{
  const BwWordsRow *row = &g_array_index (rows, BwWordsRow, i);
  return bw_words_runs (row->colours, row->n, labels);
}

static const char *
row_arrow (const GArray *rows, guint i)
{
  return bw_words_arrow (g_array_index (rows, BwWordsRow, i).up);
}

static int
row_number (const GArray *rows, guint i)
{
  return g_array_index (rows, BwWordsRow, i).row;
}

static void
append_single (GString *text, const GArray *rows, guint i, char **labels)
{
  g_autofree char *runs = row_runs (rows, i, labels);
  /* Translators: row number, arrow, beads. */
  g_string_append_printf (text, _ ("Row %d %s  %s\n"), row_number (rows, i), row_arrow (rows, i),
                          runs);
}

static void
append_equal (GString *text, const GArray *rows, guint i, guint n, char **labels)
{
  g_autofree char *runs = row_runs (rows, i, labels);
  /* Translators: first and last row, the arrows of the first two, beads. */
  g_string_append_printf (text, _ ("Rows %d–%d %s%s  each: %s\n"), row_number (rows, i),
                          row_number (rows, i + n - 1), row_arrow (rows, i),
                          row_arrow (rows, i + 1), runs);
}

static void
append_pair (GString *text, const GArray *rows, guint i, guint n, char **labels)
{
  g_autofree char *first = row_runs (rows, i, labels);
  g_autofree char *second = row_runs (rows, i + 1, labels);
  /* Translators: first and last row; then one arrow and its beads, the other and its beads. */
  g_string_append_printf (text, _ ("Rows %d–%d, in turn:\n    %s  %s\n    %s  %s\n"),
                          row_number (rows, i), row_number (rows, i + n - 1), row_arrow (rows, i),
                          first, row_arrow (rows, i + 1), second);
}

/* Tells some rows from i on, none at or beyond `end`; returns how many. */
static guint
append_some (GString *text, const GArray *rows, guint i, guint end, char **labels)
{
  guint equal = count_alike (rows, i, end, 1);
  if (equal > 1) {
    append_equal (text, rows, i, equal, labels);
    return equal;
  }
  guint pairs = count_alike (rows, i, end, 2) & ~1u;
  if (pairs >= 4) {
    append_pair (text, rows, i, pairs, labels);
    return pairs;
  }
  append_single (text, rows, i, labels);
  return 1;
}

/* Tells the events due before `row`, from number *next on, with a blank line on either side. */
static void
append_events (GString *text, const GArray *events, guint *next, int row)
{
  guint first = *next;
  while (*next < events->len) {
    const BwWordsEvent *event = &g_array_index (events, BwWordsEvent, *next);
    if (event->before_row > row)
      break;
    if (*next == first && !g_str_has_suffix (text->str, "\n\n"))
      g_string_append_c (text, '\n');
    bw_text_item (text, event->sentence);
    (*next)++;
  }
  if (*next > first)
    g_string_append_c (text, '\n');
}

/* Where the rows that may be told together with row i end: before the next event. */
static guint
end_of_stretch (const GArray *rows, guint i, const GArray *events, guint next)
{
  if (next == events->len)
    return rows->len;
  int before = g_array_index (events, BwWordsEvent, next).before_row;
  return MIN (rows->len, i + (guint)(before - row_number (rows, i)));
}

void
bw_words_append_rows (GString *text, const GArray *rows, char **labels, const GArray *events)
{
  guint next = 0;
  for (guint i = 0; i < rows->len;) {
    append_events (text, events, &next, row_number (rows, i));
    i += append_some (text, rows, i, end_of_stretch (rows, i, events, next), labels);
  }
  append_events (text, events, &next, G_MAXINT);
}
