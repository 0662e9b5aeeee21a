/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* After Escape from a menu within a menu GTK 4.8 leaves a window's focus in the menu that is gone,
 * or nowhere, and every key of the window is dead until something is clicked. From now on the focus
 * goes back to what had it before, or to the first control there is. */
void bw_focus_keep (GtkWindow *window);
