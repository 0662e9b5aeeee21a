/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The designs opened and saved last, as the desktop remembers them. */
#pragma once

#include <gtk/gtk.h>

#define BW_SHELF_DESIGNS_MOST 60

/* Their files, newest first; nothing is asked of a disk. Owned array of GFile. */
GPtrArray *bw_shelf_recent (void);
/* Takes one off the list; the file itself stays where it is. */
void bw_shelf_forget (GFile *file);
