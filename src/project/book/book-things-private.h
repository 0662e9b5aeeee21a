/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book asks of its own kinds of bead and of the stash. Private to this room. */
#pragma once

#include "project/book/book.h"
#include "project/book/stash-item.h"

/* Each is sound; see book-list.h for both. */
gboolean bw_book_check_beads (const BwBook *book, GError **error);
gboolean bw_book_check_stash (const BwBook *book, GError **error);
gboolean bw_book_take_in_beads (BwBook *book, const BwBook *other, GError **error);
/* What is the same thing as one that is there takes its place: what is read in was counted. */
gboolean bw_book_take_in_stash (BwBook *book, const BwBook *other, GError **error);

/* What pieces took. */
gboolean bw_book_check_takings (const BwBook *book, GError **error);
gboolean bw_book_take_in_takings (BwBook *book, const BwBook *other, GError **error);

/* Adds to what there is of the same thing, or an item of its own. */
gboolean bw_stash_add (BwBook *book, const BwStashItem *item, GError **error);
/* Takes away so much of the same thing, as far as it goes; the item then tells how much it was. */
gboolean bw_stash_lessen (BwBook *book, BwStashItem *item, GError **error);
