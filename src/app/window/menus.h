/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two parts of the main menu that are not known beforehand. Their items call "win.open-file"
 * with the address of a file and "win.open-demo" with the path of one. */
#pragma once

#include <gtk/gtk.h>

/* Fills it with the projects opened and saved last, from now on. */
void bw_recent_menu_follow (GMenu *menu);
void bw_demo_menu_fill (GMenu *menu);
