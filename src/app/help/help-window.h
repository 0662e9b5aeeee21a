/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The help, in a window of its own that may stay open beside the work: a page, the way back, the
 * contents. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_HELP_WINDOW (bw_help_window_get_type ())
G_DECLARE_FINAL_TYPE (BwHelpWindow, bw_help_window, BW, HELP_WINDOW, GtkWindow)

/* Shows a page in the application's help window, which is opened when there is none. */
void bw_help_show (GtkApplication *application, const char *page);

/* The page that is shown; borrowed. */
const char *bw_help_window_get_page (BwHelpWindow *self);
