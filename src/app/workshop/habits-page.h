/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker is used to: seen and mended, or taken over from a design. */
#pragma once

#include "app/form/draft.h"
#include "app/keep/workbook.h"
#include <gtk/gtk.h>

#define BW_TYPE_HABITS_PAGE (bw_habits_page_get_type ())
G_DECLARE_FINAL_TYPE (BwHabitsPage, bw_habits_page, BW, HABITS_PAGE, GtkWidget)

GtkWidget *bw_habits_page_new (BwWorkbook *book);
/* The design whose settings can become habits; NULL: none. Not kept alive. */
void bw_habits_page_set_draft (BwHabitsPage *self, BwDraft *draft);

/* "Begun with your habits: needle diameter 0.4 mm, tail 120 mm."; NULL when there are none. Owned.
 */
char *bw_habits_told (BwWorkbook *book);
