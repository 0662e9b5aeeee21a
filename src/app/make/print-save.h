/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files for what can be printed. */
#pragma once

#include "app/ask/file-dialog.h"
#include "app/make/print-kind.h"

/* Asks where to, and offers "TITLE — WHAT.ext" beside the project. */
void bw_print_ask_file (GtkWindow *parent, BwProject *project, BwPrintKind what, BwFileKind kind,
                        BwFileChosen chosen, gpointer data);
/* Whether it is a file of this computer, which the writers of pages want. */
gboolean bw_print_has_path (GFile *file, GError **error);
