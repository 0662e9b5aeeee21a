/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stone of the maker's own as a form: what it is called, what is known of it, and its measures,
 * to be kept in the book. */
#pragma once

#include "app/keep/workbook.h"
#include "project/book/book-stones.h"
#include <gtk/gtk.h>

#define BW_TYPE_STONE_DIALOG (bw_stone_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwStoneDialog, bw_stone_dialog, BW, STONE_DIALOG, GtkWindow)

/* The name under which it was kept. */
typedef void (*BwStoneKept) (const char *name, gpointer data);

/* before: the stone as it is kept; NULL: this one is new, under its name or one like it that is
 * free. kept is called once it is on its way into the book, while owner lives. */
void bw_stone_dialog_show (GtkWindow *parent, BwWorkbook *book, const BwKeptStone *before,
                           const BwKeptStone *stone, BwStoneKept kept, GObject *owner);
