/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks which other colour the one in hand takes in: its beads become this one, and it is gone. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_TRAY_MERGE (bw_tray_merge_get_type ())
G_DECLARE_FINAL_TYPE (BwTrayMerge, bw_tray_merge, BW, TRAY_MERGE, GtkPopover)

void bw_tray_merge_bind (BwTrayMerge *self, BwSession *session);
