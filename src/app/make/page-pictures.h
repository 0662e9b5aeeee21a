/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The first page of everything that can be printed, as a small picture: laid out and drawn on a
 * thread of its own from a copy of the project, as it would be printed at that moment. */
#pragma once

#include "app/make/print-run.h"

#define BW_PAGE_PICTURES 3 /* one for each BwPrintKind */

typedef struct {
  cairo_surface_t *first[BW_PAGE_PICTURES]; /* ARGB32 on white, BW_PAGE_PICTURE_HEIGHT high */
  int pages[BW_PAGE_PICTURES];              /* how many there are; 0: not laid out */
} BwPagePictures;

#define BW_PAGE_PICTURE_HEIGHT 360

/* stop ends it between two kinds; then nothing is given but an error. */
void bw_page_pictures_ask (BwProject *project, BwPaper paper, GCancellable *stop,
                           GAsyncReadyCallback done, gpointer data);
/* Owned; NULL when it was stopped or the copy could not be read. */
BwPagePictures *bw_page_pictures_finish (GAsyncResult *result);
void bw_page_pictures_free (BwPagePictures *pictures);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPagePictures, bw_page_pictures_free)

/* Waits for the page in hand and lets no other begin: for a program that ends, whose graphics
 * driver goes with it. */
void bw_page_pictures_end (void);
