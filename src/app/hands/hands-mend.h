/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry of the book of hands, mended: the numbers that were read off its strips. */
#pragma once

#include "app/keep/workbook.h"
#include <gtk/gtk.h>

#define BW_TYPE_HANDS_MEND (bw_hands_mend_get_type ())
G_DECLARE_FINAL_TYPE (BwHandsMend, bw_hands_mend, BW, HANDS_MEND, GtkWindow)

/* piece: at this place of the book; copied. */
void bw_hands_mend_show (GtkWindow *parent, BwWorkbook *book, guint at, const BwWoven *piece);
/* Has the entry replaced by another, as the dialog does. */
void bw_hands_put (BwWorkbook *book, guint at, const BwWoven *before, const BwWoven *after);
