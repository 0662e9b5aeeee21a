/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What finished pieces took from the stash, the last one first, and the button that puts it back.
 * Nothing to be seen while none took anything. */
#pragma once

#include "app/keep/workbook.h"
#include <gtk/gtk.h>

#define BW_TYPE_STASH_LAST (bw_stash_last_get_type ())
G_DECLARE_FINAL_TYPE (BwStashLast, bw_stash_last, BW, STASH_LAST, GtkBox)

GtkWidget *bw_stash_last_new (BwWorkbook *book);
