/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a thing lies in the stash, in the same words on paper, in text and in the window. */
#pragma once

#include "output/report/order.h"
#include "project/document/length.h"

/* "3.10 m, in 2 lengths · 2.00 m in the stash, buy 1.10 m": takes what is wanted in words, which
 * may be NULL and are all where the stash does not tell of the thing. counted: it is told in
 * pieces. Owned. */
char *bw_order_words (char *wanted, const BwOrderThing *thing, gboolean counted, BwUnit unit);

/* The thread for further rows that are likely, for so many pieces; NULL where none are. `held`: the
 * same held against the stash, or NULL to tell what it takes alone. Owned. */
char *bw_order_reserve_words (BwProject *project, int pieces, const BwOrderThing *held,
                              BwUnit unit);
