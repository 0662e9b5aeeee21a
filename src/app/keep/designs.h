/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The designs opened and saved last. The list is the program's own, a text with one address a line
 * in the user's data folder: the desktop's forgets after a month, and a pendant is often taken up
 * again after a longer time. The desktop is told as well, for its other programs. Where the desktop
 * is set to remember no files nothing is remembered here either. A demo opened where it lies is
 * nobody's design.
 *
 * Signal "changed": by this process. What other processes add is seen with the next question. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

#define BW_DESIGNS_MOST 60

#define BW_TYPE_DESIGNS (bw_designs_get_type ())
G_DECLARE_FINAL_TYPE (BwDesigns, bw_designs, BW, DESIGNS, GObject)

/* The one object of the process; borrowed. */
BwDesigns *bw_designs_get (void);

/* Their files, newest first; no disk is asked whether they are there. Owned array of GFile. */
GPtrArray *bw_designs_list (BwDesigns *self);
/* Puts one at the head. Main thread, as GTK's own list wants it. */
void bw_designs_remember (BwDesigns *self, GFile *file);
/* Takes one off the list; the file itself stays where it is. */
void bw_designs_forget (BwDesigns *self, GFile *file);

G_END_DECLS
