/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is there, held against what is wanted. Beads are the same when they are of one bead and
 * finish and have one article number or, where either has none, one name (letters alike, large or
 * small). Cord and thread are the same when their widths differ by less than a tenth, or when the
 * stash does not tell (common practice, no source). What is there goes once: to the first that
 * wants it, then to the next. */
#pragma once

#include "project/book/book.h"
#include "project/book/stash-item.h"

/* Immutable, shared; any thread. */
typedef struct _BwStash BwStash;

BwStash *bw_stash_new (const BwBook *book);
BwStash *bw_stash_ref (BwStash *stash);
void bw_stash_unref (BwStash *stash);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwStash, bw_stash_unref)

/* The maker's own, which whoever reads the book tells; NULL: none is known. Any thread. */
void bw_stash_set_own (BwStash *stash);
/* Owned; NULL: none is known. */
BwStash *bw_stash_dup_own (void);

guint bw_stash_n (const BwStash *stash);
const BwStashItem *bw_stash_get (const BwStash *stash, guint i); /* borrowed */

/* One thing wanted, and what is there of it. */
typedef struct {
  BwStashWhat what;
  const char *bead;       /* of beads: its name; borrowed */
  const BwColour *colour; /* of beads; borrowed */
  double width_mm;        /* of cord and thread */
  double wanted;          /* grams, mm or pieces */
  gboolean is_known;      /* out: the stash tells of it, be it that there is none left */
  double there;           /* out: what those before it have left of it */
  double taken;           /* out: of it, never more than is wanted */
} BwStashWant;

/* How much to take of which. */
typedef struct {
  guint at; /* of the stash */
  double amount;
} BwStashShare;

/* Fills in what is there of each, in their order. stash NULL: nothing is known. shares, when not
 * NULL, gets a BwStashShare for each item that gives something. */
void bw_stash_hold (const BwStash *stash, BwStashWant *wants, guint n, GArray *shares);
