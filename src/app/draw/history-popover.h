/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps by name, oldest first, to jump to. The view stays where it is. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_HISTORY_POPOVER (bw_history_popover_get_type ())
G_DECLARE_FINAL_TYPE (BwHistoryPopover, bw_history_popover, BW, HISTORY_POPOVER, GtkPopover)

void bw_history_popover_bind (BwHistoryPopover *self, BwSession *session);

/* The list behind it: item 0 is the project as it was opened, item i the state after step i. Items
 * are made when asked for, so that a million steps cost nothing. Of GtkStringObject; owned. */
GListModel *bw_history_list_new (BwProject *project);
