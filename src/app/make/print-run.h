/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets on their way to a printer. */
#pragma once

#include "output/page/sheet.h"
#include <gtk/gtk.h>

typedef enum { BW_PRINT_SHEET, BW_PRINT_STRIP, BW_PRINT_KIT } BwPrintKind;

/* The sheet of a kind, owned. Where no picture can be had the sheet does without. */
BwSheet *bw_print_sheet_new (BwProject *project, BwPrintKind kind, BwPaper paper);

/* The paper the maker prefers, or what the country uses, with what else is wished for in print. */
BwPaper bw_print_paper (void);

/* The layout that goes on paper of this size (points) at true size: its own where it is larger than
 * the usual or of another shape, else the usual that it holds. FALSE when there is none. */
gboolean bw_print_paper_for (double width, double height, BwPaper *paper);

/* Asks for a printer and prints. The project is laid out as it is when the maker confirms. told is
 * called once with a plain sentence when it could not be printed, and not otherwise; it is not
 * called after `owner` is gone. */
typedef void (*BwPrintTold) (const char *sentence, gpointer owner);
void bw_print_run (GtkWindow *parent, BwProject *project, BwPrintKind kind, BwPrintTold told,
                   GObject *owner);
/* The same with an operation and an action of the caller's: what was set on it (a file to export
 * to, whether it may go on by itself) stays. */
void bw_print_operate (GtkPrintOperation *operation, GtkPrintOperationAction action,
                       GtkWindow *parent, BwProject *project, BwPrintKind kind, BwPrintTold told,
                       GObject *owner);
