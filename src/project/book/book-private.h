/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book is the JSON tree it was read from, with what the program knows of it beside: so what it
 * does not know is where it was. Private to this room. */
#pragma once

#include "project/book/book.h"
#include <json-glib/json-glib.h>

/* Fifty values for each piece there can be: so much is left for ten thousand trays beside them. */
#define BW_BOOK_VALUES_MAX (50 * BW_BOOK_PIECES_MAX)

struct _BwBook {
  JsonNode *root; /* an object; "pieces" is a list in it */
  GArray *pieces; /* of BwWoven, one for each of the list */
};

/* One element of the list into a piece, checked; *piece is to be cleared in either case. */
gboolean bw_woven_read (JsonNode *node, const char *pointer, BwWoven *piece, GError **error);

/* Fills and clears what the book says of threads and cords. */
void bw_book_gives_init (BwBookHands *hands, const BwBook *book);
void bw_book_gives_clear (BwBookHands *hands);

/* That a day is written like 2026-11-29; pointer is where the key "date" stands in. */
gboolean bw_date_validate (const char *date, const char *pointer, GError **error);

/* Writes what the program knows of a piece over what stands in object, and leaves the rest. */
void bw_woven_write (const BwWoven *piece, JsonObject *object);
