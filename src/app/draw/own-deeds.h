/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be done with a motif of the maker's own besides laying it: it is given another name, or
 * removed. By the right button, a long press and keys. */
#pragma once

#include <gtk/gtk.h>

/* The name of the motif that a child of the box stands for. Borrowed. */
const char *bw_own_deeds_name (GtkFlowBoxChild *child);

/* `panel` holds the box and the menu's actions. `changed` (panel) shows what is kept now. */
void bw_own_deeds_attach (GtkWidget *panel, GtkFlowBox *box, void (*changed) (GtkWidget *panel));
