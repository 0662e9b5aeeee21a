/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tray of the maker's own as a form: its name and its colours, to be kept in the book. */
#pragma once

#include "app/keep/workbook.h"
#include "project/book/book-trays.h"
#include <gtk/gtk.h>

#define BW_TYPE_TRAY_DIALOG (bw_tray_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwTrayDialog, bw_tray_dialog, BW, TRAY_DIALOG, GtkWindow)

/* The name under which it was kept. */
typedef void (*BwTrayKept) (const char *name, gpointer data);

/* before: the tray as it is kept; NULL: this one is new, under its name or one like it that is
 * free. kept is called once it is on its way into the book, while owner lives. */
void bw_tray_dialog_show (GtkWindow *parent, BwWorkbook *book, const BwKeptTray *before,
                          const BwKeptTray *tray, BwTrayKept kept, GObject *owner);
/* A new tray with the colours of a photograph, which stands beside them. */
void bw_tray_dialog_show_photo (GtkWindow *parent, BwWorkbook *book, GFile *photo, const char *name,
                                BwTrayKept kept, GObject *owner);
