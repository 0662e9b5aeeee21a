/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages that are laid out, drawn and written on threads of their own. A set never changes; more
 * than one thread may hold it. */
#pragma once

#include "app/make/page-copy.h"
#include <gtk/gtk.h>

typedef struct _BwPageSet BwPageSet;

/* stop ends what has not begun; then nothing is given but an error. */
void bw_page_set_ask (BwPageCopy *copy, BwPrintKind kind, BwPaper paper, GCancellable *stop,
                      GAsyncReadyCallback done, gpointer data);
/* Owned; NULL with *error. */
BwPageSet *bw_page_set_finish (GAsyncResult *result, GError **error);

BwPageSet *bw_page_set_ref (BwPageSet *set);
void bw_page_set_unref (BwPageSet *set);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPageSet, bw_page_set_unref)

BwPrintKind bw_page_set_get_kind (const BwPageSet *set);
/* What was asked for. */
BwPaper bw_page_set_get_asked (const BwPageSet *set);
/* How large the pages are, points. */
BwPaper bw_page_set_get_paper (const BwPageSet *set);
int bw_page_set_n_pages (const BwPageSet *set);

/* Draws a page at once, one unit of cr being a point; waits for what another thread has in hand. */
void bw_page_set_draw (const BwPageSet *set, cairo_t *cr, int page);

/* A page as a picture, `scale` pixels to the point or fewer where that would be more than
 * BW_PAGE_PIXELS_MOST. */
#define BW_PAGE_PIXELS_MOST (16 * 1000 * 1000)
void bw_page_set_ask_picture (BwPageSet *set, int page, double scale, GCancellable *stop,
                              GAsyncReadyCallback done, gpointer data);
GdkTexture *bw_page_set_finish_picture (GAsyncResult *result, GError **error);

/* Writes all pages as PDF, the picture for a shop as PNG: whole or not at all. */
void bw_page_set_ask_written (BwPageSet *set, const char *path, GCancellable *stop,
                              GAsyncReadyCallback done, gpointer data);
gboolean bw_page_set_finish_written (GAsyncResult *result, GError **error);
