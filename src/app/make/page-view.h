/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages under one another, for a scrolled window: only what is seen is drawn, beside the window's
 * own work, and until it is there the page is shown as it was, or white.
 *
 * Properties: "page" (which one is read, counted from 0), "zoom" (see below), "small" (a list of
 * small pages with their numbers to pick from; construct only).
 * Signal "picked" (int page): the maker clicked a page of the small ones. */
#pragma once

#include "app/make/page-set.h"

G_BEGIN_DECLS

#define BW_TYPE_PAGE_VIEW (bw_page_view_get_type ())
G_DECLARE_FINAL_TYPE (BwPageView, bw_page_view, BW, PAGE_VIEW, GtkWidget)

/* Other zooms are how many times life size a page is shown, up to BW_ZOOM_MOST. */
#define BW_ZOOM_WIDTH 0.0  /* as wide as there is room */
#define BW_ZOOM_WHOLE -1.0 /* whole */
#define BW_ZOOM_MOST 8.0

/* NULL: no pages. Pages of the same kind and paper take the place of the ones before, and the place
 * stays. */
void bw_page_view_set_pages (BwPageView *self, BwPageSet *set);
BwPageSet *bw_page_view_get_pages (BwPageView *self); /* borrowed */

/* To the beginning of a page. */
void bw_page_view_go (BwPageView *self, int page);
int bw_page_view_get_page (BwPageView *self);
/* On or back by what is in view, but never past the beginning of the next page. */
void bw_page_view_read_on (BwPageView *self, int forward);

void bw_page_view_set_zoom (BwPageView *self, double zoom);
/* How many times life size pages are shown now, taking 96 pixels for an inch. */
double bw_page_view_get_size (BwPageView *self);

/* Every page in view is shown as it is in the set, as large as it is shown. */
gboolean bw_page_view_is_drawn (BwPageView *self);

G_END_DECLS
