/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns of text that line up, for reports read at a terminal or on paper. */
#pragma once

#include <glib.h>

typedef struct {
  char *align;     /* one letter a column: l or r */
  GPtrArray *rows; /* of GStrv */
} BwTable;

/* align: one letter for each column, 'l' left or 'r' right. */
void bw_table_init (BwTable *table, const char *align);
void bw_table_clear (BwTable *table);

/* As many owned strings as there are columns, which the table takes. */
void bw_table_add (BwTable *table, ...);

/* Takes a column out, which counts from 0. */
void bw_table_drop (BwTable *table, guint column);

/* Every row on a line of its own, indented by `indent` blanks, columns two blanks apart, without
 * blanks at a line's end. Widths are counted in terminal cells. */
void bw_table_write (const BwTable *table, GString *text, int indent);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BwTable, bw_table_clear)
