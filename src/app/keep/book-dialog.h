/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A dialog whose content goes into the book. It closes when the book has it; where it cannot be
 * kept, what was typed stays there and the dialog says why. */
#pragma once

#include "app/keep/workbook.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What of a dialog takes part; all of it its own. */
typedef struct {
  GtkWindow *window;
  GtkWidget *save;  /* the button */
  GtkLabel *result; /* where the sentence stands */
} BwBookDialog;

/* The dialog rests from now on. Gives what goes with bw_book_dialog_told() into bw_workbook_try(),
 * where it ends: there kept, which may be NULL, is called when the book has it, before the dialog
 * goes.
 */
gpointer bw_book_dialog_rest (const BwBookDialog *dialog, void (*kept) (GtkWindow *window));
void bw_book_dialog_told (const char *sentence, gpointer resting);

G_END_DECLS
