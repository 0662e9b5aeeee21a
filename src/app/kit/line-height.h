/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What small drawings grow with. */
#pragma once

#include <gtk/gtk.h>

/* Height in pixels of a line of the widget's text, at least 1. */
int bw_line_height (GtkWidget *widget);
