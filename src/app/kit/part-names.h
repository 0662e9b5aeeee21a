/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names for the parts of GTK's compound controls that a screen reader meets. */
#pragma once

#include <gtk/gtk.h>

/* Looks through every widget below (and with) root, shown or not. Call it once a window or dialog
 * is built, and again for controls made later. */
void bw_part_names_give (GtkWidget *root);
