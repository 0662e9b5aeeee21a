/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's own trays: seen, searched, used in a design, edited, and given to other programs. */
#pragma once

#include "app/form/draft.h"
#include "app/keep/workbook.h"
#include <gtk/gtk.h>

#define BW_TYPE_TRAYS_PAGE (bw_trays_page_get_type ())
G_DECLARE_FINAL_TYPE (BwTraysPage, bw_trays_page, BW, TRAYS_PAGE, GtkWidget)

GtkWidget *bw_trays_page_new (BwWorkbook *book);
/* The design at work in; NULL: none. Not kept alive. */
void bw_trays_page_set_draft (BwTraysPage *self, BwDraft *draft);
