/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is typed into the field that has the focus is taken before anything goes by the project: it
 * is on screen, so the maker takes it to be in the file and on the paper.
 *
 * A widget with entries of its own installs BW_TYPED_ACTION in its class, and takes there what
 * Enter takes. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

/* Takes what is typed; no parameter. Harmless when nothing is. */
#define BW_TYPED_ACTION "typed.take"

/* Takes what is typed into the focused field of the widget's window. */
void bw_typed_take (GtkWidget *widget);
/* The same, and whether all that was typed stands; when a value waits, the window tells which. */
gboolean bw_typed_stands (GtkWidget *widget, BwDraft *draft);
