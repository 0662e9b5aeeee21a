/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is going to be printed, page by page and as large as one likes, with everything that can be
 * chosen about it beside. The pages follow the project and what is chosen. One a window, and it
 * goes when that shows another project. */
#pragma once

#include "app/form/draft.h"
#include "app/make/print-kind.h"
#include <gtk/gtk.h>

#define BW_TYPE_PRINT_WINDOW (bw_print_window_get_type ())
G_DECLARE_FINAL_TYPE (BwPrintWindow, bw_print_window, BW, PRINT_WINDOW, GtkWindow)

/* Shows it; an open one comes to the front. */
void bw_print_window_show (GtkWindow *parent, BwDraft *draft, BwPrintKind kind);
/* The kind that the window of this parent shows or showed last; BW_PRINT_SHEET before the first. */
BwPrintKind bw_print_window_last (GtkWindow *parent);
