/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A help page as it is read: words, pictures and links in one column. */
#pragma once

#include "app/help/help-text.h"
#include <gtk/gtk.h>

typedef void (*BwHelpFollow) (const char *page, gpointer data);

/* A new widget that shows the text; follow is called with the page of a link that is clicked. */
GtkWidget *bw_help_page_new (const BwHelpText *text, BwHelpFollow follow, gpointer data);
