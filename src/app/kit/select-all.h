/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A click into a number that has not the focus selects all of it, as Tab does: whoever goes there
 * goes there to type another. A second click, or a drag, means a place in it as everywhere. */
#pragma once

#include <gtk/gtk.h>

/* field: an entry or a spin button. */
void bw_select_all_on_click (GtkWidget *field);
