/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets on their way to a printer. */
#pragma once

#include "app/make/page-set.h"

/* The paper the maker prefers, or what the country uses, with what else is wished for in print. */
BwPaper bw_print_paper (void);
/* The same on the paper of a word of the settings: "a4", "216x356", or "usual". */
BwPaper bw_print_paper_named (const char *word);

/* The layout that goes on paper of this size (points) at true size: its own where it is larger than
 * the usual or of another shape, else the usual that it holds. FALSE when there is none. */
gboolean bw_print_paper_for (double width, double height, BwPaper *paper);

/* Called once with a plain sentence when it could not be printed, and not otherwise; not after
 * `owner` is gone. */
typedef void (*BwPrintTold) (const char *sentence, gpointer owner);

typedef struct {
  BwProject *project; /* borrowed */
  BwPrintKind kind;
  BwPageSet *seen; /* pages of this kind that the maker saw, borrowed; they are printed where the
                      paper that is chosen is theirs. NULL: none */
  BwPrintTold told;
  GObject *owner;
} BwPrintOrder;

/* Asks for a printer and prints. What was not seen is laid out as the project is when the maker
 * confirms. */
void bw_print_run (GtkWindow *parent, const BwPrintOrder *order);
/* The same with an operation and an action of the caller's: what was set on it (a file to export
 * to, whether it may go on by itself) stays. */
void bw_print_operate (GtkPrintOperation *operation, GtkPrintOperationAction action,
                       GtkWindow *parent, const BwPrintOrder *order);
