/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of the workshop: things of one sort that the maker keeps, and what is done with them. */
#pragma once

#include "app/form/draft.h"
#include "app/things/things.h"

#define BW_TYPE_THINGS_PAGE (bw_things_page_get_type ())
G_DECLARE_FINAL_TYPE (BwThingsPage, bw_things_page, BW, THINGS_PAGE, GtkWidget)

/* The work that a new thing begins from; NULL: none. Held weakly. */
void bw_things_page_set_draft (BwThingsPage *self, BwDraft *draft);

/* things is borrowed for good. extra: a widget between list and buttons, taken; NULL: none. */
GtkWidget *bw_things_page_new (const BwThings *things, BwWorkbook *book, GtkWidget *extra);
