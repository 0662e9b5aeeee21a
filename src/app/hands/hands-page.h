/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's hands: what was woven of each bead, and what the next piece of it starts from. */
#pragma once

#include "app/keep/workbook.h"
#include <gtk/gtk.h>

#define BW_TYPE_HANDS_PAGE (bw_hands_page_get_type ())
G_DECLARE_FINAL_TYPE (BwHandsPage, bw_hands_page, BW, HANDS_PAGE, GtkWidget)

GtkWidget *bw_hands_page_new (BwWorkbook *book);
