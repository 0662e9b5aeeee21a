/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What helps: what to do, what it gives; a click does it as one undo step. What was tried and does
 * not help is folded below.
 * Signal "applied" (): one was done. */
#pragma once

#include "app/form/draft.h"
#include "output/report/fit-told.h"
#include <gtk/gtk.h>

#define BW_TYPE_REMEDY_LIST (bw_remedy_list_get_type ())
G_DECLARE_FINAL_TYPE (BwRemedyList, bw_remedy_list, BW, REMEDY_LIST, GtkWidget)

void bw_remedy_list_bind (BwRemedyList *self, BwDraft *draft);
/* Lists the remedies of the project as it is now; to be called before it is shown. */
void bw_remedy_list_fill (BwRemedyList *self);
/* All there is: the recommended rows first, then the safer ones, then the project's remedies. Owned
 * array of BwRemedy. */
GArray *bw_remedy_list_collect (BwProject *project);
/* The remedy to offer first: the first that makes it snug or, where it is that on paper already,
 * the safer count; FALSE when there is none. */
gboolean bw_remedy_list_best (BwProject *project, BwRemedy *best);
/* Does a remedy as one undo step named after what it does. FALSE with *error when it does not stand
 * any more; nothing has changed then. */
gboolean bw_remedy_apply (BwDraft *draft, const BwRemedy *remedy, GError **error);
/* The same from a widget of a window, which says so when the remedy does not stand any more. */
void bw_remedy_try (GtkWidget *widget, BwDraft *draft, const BwRemedy *remedy);
