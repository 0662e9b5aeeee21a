/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The job in four lines, for somebody who sees the program for the first time. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_SHELF_GUIDE (bw_shelf_guide_get_type ())
G_DECLARE_FINAL_TYPE (BwShelfGuide, bw_shelf_guide, BW, SHELF_GUIDE, GtkWidget)
