/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All finished pieces: how often the planned count was right, and what pieces took and brought. */
#pragma once

#include "app/keep/workbook.h"
#include <gtk/gtk.h>

#define BW_TYPE_DONE_PAGE (bw_done_page_get_type ())
G_DECLARE_FINAL_TYPE (BwDonePage, bw_done_page, BW, DONE_PAGE, GtkWidget)

GtkWidget *bw_done_page_new (BwWorkbook *book);
