/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The trays to start from, each with its beads; one click lays one out. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_TRAY_CHOICE (bw_tray_choice_get_type ())
G_DECLARE_FINAL_TYPE (BwTrayChoice, bw_tray_choice, BW, TRAY_CHOICE, GtkPopover)

void bw_tray_choice_bind (BwTrayChoice *self, BwSession *session);
