/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Whether a widget may move what it shows by itself: it is seen, and the desktop does not want less
 * motion. */
gboolean bw_view_may_move (GtkWidget *widget);
