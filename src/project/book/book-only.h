/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Books of one list alone, to be exported. */
#pragma once

#include "project/book/book.h"

/* Owned. */
BwBook *bw_book_only_beads (const BwBook *book);
BwBook *bw_book_only_stash (const BwBook *book);
BwBook *bw_book_only_trays (const BwBook *book);
BwBook *bw_book_only_stones (const BwBook *book);
BwBook *bw_book_only_habits (const BwBook *book);
