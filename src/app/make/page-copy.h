/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A project as it was at one moment, with its pictures, for the threads that lay out pages. */
#pragma once

#include "app/make/print-kind.h"

typedef struct _BwPageCopy BwPageCopy;

/* On the main thread; costs a copy of the cells. */
BwPageCopy *bw_page_copy_new (BwProject *project);
/* On any thread. */
BwPageCopy *bw_page_copy_ref (BwPageCopy *copy);
void bw_page_copy_unref (BwPageCopy *copy);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPageCopy, bw_page_copy_unref)

/* Between bw_page_lock() and bw_page_unlock(). Owned; NULL when the copy cannot be read. Where no
 * picture can be had the pages do without. */
BwSheet *bw_page_copy_lay_out (BwPageCopy *copy, BwPrintKind kind, BwPaper paper, GError **error);

/* Pages are laid out and drawn by one thread at a time. FALSE, and not locked, when the program
 * ends. */
gboolean bw_page_lock (void);
void bw_page_unlock (void);
/* Waits for what is in hand and lets nothing else begin: for a program that ends, whose graphics
 * driver goes with it. */
void bw_page_end (void);
