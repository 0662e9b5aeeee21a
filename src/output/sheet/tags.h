/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For a market stall and for the page of a shop. */
#pragma once

#include "output/page/sheet.h"

/* A page of cards of 85 × 55 mm with cutting lines: ten on A4 and Letter, as many as fit on a
 * smaller paper. picture may be NULL. The price stands on them where prices are wished for. */
BwSheet *bw_tags_new (BwProject *project, BwPaper paper, cairo_surface_t *picture);

/* "48.00 EUR"; "" where there is no cost. Owned. */
char *bw_tag_price_words (BwProject *project);

/* A square sheet with the piece, its band laid out and its title. picture may be NULL. */
BwSheet *bw_listing_new (BwProject *project, cairo_surface_t *picture);
/* That sheet as a PNG of so many pixels each way, whole or not at all; errors of G_IO_ERROR with
 * the path before them. */
#define BW_LISTING_SIDE 1600
gboolean bw_listing_write (const BwSheet *listing, const char *path, GError **error);
