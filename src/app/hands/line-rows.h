/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list whose rows are lines of text, of which there may be thousands. */
#pragma once

#include <gtk/gtk.h>

/* The list's model is then of GtkStringObject. */
void bw_line_rows_use (GtkListView *list);
