/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's own prices, kept between starts in prices.ini of the user's config folder
 * ($XDG_CONFIG_HOME/bandwright). A project keeps its own prices in its file; the book is what new
 * projects start with, and only the maker changes it. Nothing below this room knows of it.
 *
 * A price book that cannot be read remembers nothing and says why; it is written over only when the
 * maker asks for prices to be remembered.
 *
 * Signal "changed" (): what is remembered, or the fault, differs. */
#pragma once

#include "core/design/design.h"
#include <glib-object.h>

G_BEGIN_DECLS

#define BW_TYPE_PRICE_BOOK (bw_price_book_get_type ())
G_DECLARE_FINAL_TYPE (BwPriceBook, bw_price_book, BW, PRICE_BOOK, GObject)

/* The one of the process; borrowed. */
BwPriceBook *bw_price_book_get (void);
/* Another, kept in this file, which need not be there. Owned. */
BwPriceBook *bw_price_book_new (const char *path);

gboolean bw_price_book_has_prices (BwPriceBook *self);
/* One translated sentence when the book could not be read or written; NULL otherwise. Borrowed. */
const char *bw_price_book_get_fault (BwPriceBook *self);

/* Whether a project's prices are the remembered ones. FALSE when either has none. */
gboolean bw_price_book_matches (BwPriceBook *self, const BwSupply *supply);
/* Whether these are still the prices that the program brings as examples: nobody's own. */
gboolean bw_prices_are_examples (const BwSupply *supply);
/* Whether a change of these prices is to be remembered without a question: they are the remembered
 * ones, or neither the book nor the project has any but the examples. */
gboolean bw_price_book_follows (BwPriceBook *self, const BwSupply *supply);

/* Remembers currency, prices, pace and the pack they are for, and writes the book. Does nothing
 * when supply has no prices. columns: of the band that a pace was told of which names none. */
void bw_price_book_remember (BwPriceBook *self, const BwSupply *supply, int columns);
/* Puts the remembered prices into supply. FALSE, and nothing done, when there are none. */
gboolean bw_price_book_fill (BwPriceBook *self, BwSupply *supply);
/* A project is to have prices: the remembered ones, else the examples at the usual pace. */
void bw_price_book_begin (BwPriceBook *self, BwSupply *supply);

G_END_DECLS
