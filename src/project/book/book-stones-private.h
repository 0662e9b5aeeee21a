/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book asks of its stones. Private to this room. */
#pragma once

#include "project/book/book.h"

/* Each is sound; see book-list.h for both. */
gboolean bw_book_check_stones (const BwBook *book, GError **error);
gboolean bw_book_take_in_stones (BwBook *book, const BwBook *other, GError **error);
