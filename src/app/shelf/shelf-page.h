/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page to start from: the maker's designs on boards, the examples on boards of their own, and a
 * guide that can be put away. It opens nothing itself: it calls the window's actions "open-file",
 * "open-demo", "new-stone", "open" and "shelf-forget". */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BW_TYPE_SHELF_PAGE (bw_shelf_page_get_type ())
G_DECLARE_FINAL_TYPE (BwShelfPage, bw_shelf_page, BW, SHELF_PAGE, GtkWidget)

GtkWidget *bw_shelf_page_new (void);

G_END_DECLS
