/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's stash (see stash-item.h), and what pieces have taken from it:
 *
 *   "taken": [ { "name": "Harbour Night", "piece": "the project's id", "date": "2026-11-29",
 *                "of": [ entries as in the stash, with the amount that was taken ] } ]
 *
 * No piece stands there twice, so that none takes twice. */
#pragma once

#include "project/book/book.h"
#include "project/book/stash.h"

guint bw_book_n_stash (const BwBook *book);
const char *bw_book_stash_name (const BwBook *book, guint i); /* borrowed */
void bw_book_get_stash (const BwBook *book, guint i, BwStashItem *item);

/* Puts an item in the place of `before`, which was read from the book some time ago; before NULL:
 * at the end; item NULL: before is taken out. FALSE with an error, and nothing done, when before is
 * not there any more as it was, the item is not sound, or another is the same thing. */
gboolean bw_book_change_stash (BwBook *book, const BwStashItem *before, const BwStashItem *item,
                               GError **error);

/* What one piece took. */
typedef struct {
  char title[BW_WOVEN_TITLE_BYTES];
  char piece[BW_WOVEN_ID_BYTES];
  char date[BW_DATE_BYTES];
  GArray *of; /* of BwStashItem, owned; amount: what was taken */
} BwStashTaking;

void bw_stash_taking_clear (BwStashTaking *taking);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BwStashTaking, bw_stash_taking_clear)

/* The place of what this piece took; −1: nothing. */
int bw_book_find_taking (const BwBook *book, const char *piece);
guint bw_book_n_takings (const BwBook *book);
/* *taking is to be cleared. */
void bw_book_get_taking (const BwBook *book, guint i, BwStashTaking *taking);

/* Takes from the stash, never more than is there now, and notes what was taken; what the piece took
 * before is put back first. Nothing left to take is nothing done. */
gboolean bw_book_take (BwBook *book, const BwStashTaking *taking, GError **error);
/* Puts back what a piece took: onto what there is of it, or as an item again. Nothing taken:
 * nothing done. */
gboolean bw_book_put_back (BwBook *book, const char *piece, GError **error);
