/* SPDX-License-Identifier: GPL-3.0-or-later */
/* printf's field widths count bytes; names of colours and translated headings are UTF-8, and some
 * letters take two cells of a terminal. Hence a table that measures before it writes. */
#include "output/report/table.h"

#include <stdarg.h>
#include <string.h>

void
bw_table_init (BwTable *table, const char *align)
{
  table->align = g_strdup (align);
  table->rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
}

void
bw_table_clear (BwTable *table)
{
  g_clear_pointer (&table->align, g_free);
  g_clear_pointer (&table->rows, g_ptr_array_unref);
}

void
bw_table_add (BwTable *table, ...)
{
  gsize n = strlen (table->align);
  char **cells = g_new0 (char *, n + 1);
  va_list args;
  va_start (args, table);
  for (gsize i = 0; i < n; i++)
    cells[i] = va_arg (args, char *);
  va_end (args);
  g_ptr_array_add (table->rows, cells);
}

void
bw_table_drop (BwTable *table, guint column)
{
  gsize n = strlen (table->align);
  memmove (table->align + column, table->align + column + 1, n - column);
  for (guint i = 0; i < table->rows->len; i++) {
    char **cells = g_ptr_array_index (table->rows, i);
    g_free (cells[column]);
    memmove (cells + column, cells + column + 1, (n - column) * sizeof *cells);
  }
}

static int
cell_width (const char *cell)
{
  int width = 0;
  for (const char *c = cell; *c; c = g_utf8_next_char (c)) {
    gunichar letter = g_utf8_get_char (c);
    if (!g_unichar_iszerowidth (letter))
      width += g_unichar_iswide (letter) ? 2 : 1;
  }
  return width;
}

static int
column_width (const BwTable *table, gsize column)
{
  int width = 0;
  for (guint i = 0; i < table->rows->len; i++) {
    char **cells = g_ptr_array_index (table->rows, i);
    width = MAX (width, cell_width (cells[column]));
  }
  return width;
}

static void
append_blanks (GString *text, int n)
{
  for (int i = 0; i < n; i++)
    g_string_append_c (text, ' ');
}

static void
drop_blanks (GString *text)
{
  while (text->len > 0 && text->str[text->len - 1] == ' ')
    g_string_truncate (text, text->len - 1);
}

static void
write_row (const BwTable *table, char **cells, const int *widths, GString *text, int indent)
{
  for (gsize i = 0; table->align[i]; i++) {
    int room = widths[i] - cell_width (cells[i]);
    append_blanks (text, i == 0 ? indent : 2);
    append_blanks (text, table->align[i] == 'r' ? room : 0);
    g_string_append (text, cells[i]);
    append_blanks (text, table->align[i] == 'r' ? 0 : room);
  }
  drop_blanks (text);
  g_string_append_c (text, '\n');
}

void
bw_table_write (const BwTable *table, GString *text, int indent)
{
  gsize n = strlen (table->align);
  g_autofree int *widths = g_new (int, n);
  for (gsize i = 0; i < n; i++)
    widths[i] = column_width (table, i);
  for (guint i = 0; i < table->rows->len; i++)
    write_row (table, g_ptr_array_index (table->rows, i), widths, text, indent);
}
