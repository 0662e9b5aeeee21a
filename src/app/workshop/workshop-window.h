/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's workshop: the hands, and what else the book keeps, a page each. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_WORKSHOP_WINDOW (bw_workshop_window_get_type ())
G_DECLARE_FINAL_TYPE (BwWorkshopWindow, bw_workshop_window, BW, WORKSHOP_WINDOW, GtkWindow)

/* One for the program, before parent, which may be NULL; the book is read anew. draft: of the
 * design in which what is kept is used; NULL: none. page: "hands", "finished", "trays",
 * "stones", "beads", "stash" or "habits". */
void bw_workshop_window_show (GtkApplication *application, GtkWindow *parent, BwDraft *draft,
                              const char *page);
