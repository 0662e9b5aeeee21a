/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book asks of its habits. Private to this room. */
#pragma once

#include "project/book/book.h"

gboolean bw_book_check_habits (const BwBook *book, GError **error);
/* Those of the other book that this one has none of. */
void bw_book_take_in_habits (BwBook *book, const BwBook *other);
