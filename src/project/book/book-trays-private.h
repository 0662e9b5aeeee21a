/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book asks of its trays. Private to this room. */
#pragma once

#include "project/book/book.h"

/* Each is sound; see book-list.h for both. */
gboolean bw_book_check_trays (const BwBook *book, GError **error);
gboolean bw_book_take_in_trays (BwBook *book, const BwBook *other, GError **error);
