/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones that are measured and wait: seen, searched, begun upon, edited, given away. */
#pragma once

#include "app/form/draft.h"
#include "app/keep/workbook.h"
#include <gtk/gtk.h>

#define BW_TYPE_STONES_PAGE (bw_stones_page_get_type ())
G_DECLARE_FINAL_TYPE (BwStonesPage, bw_stones_page, BW, STONES_PAGE, GtkWidget)

/* Activates "app.begin-on-stone" and "app.ways-for-stone" with a stone's name. */
GtkWidget *bw_stones_page_new (BwWorkbook *book);
/* The design whose stone can be kept; NULL: none. Not kept alive. */
void bw_stones_page_set_draft (BwStonesPage *self, BwDraft *draft);
