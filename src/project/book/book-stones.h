/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stones that are measured and wait for their design, kept in the book under a name each:
 *
 *   "stones": [ { "name": "Smoky point", "date": "2026-11-29", "picture": "smoky.jpg",
 *                 "state": "waiting", "stone": { the keys of the project's "stone", "look" too } }
 * ]
 *
 * Required: name and stone. state is "waiting" (unless given), "in-design" or "set". Keys that are
 * not known are kept. */
#pragma once

#include "project/book/book.h"
#include "project/document/line.h"

#define BW_BOOK_STONES_MAX 10000
#define BW_MINERAL_BYTES (4 * BW_LINE_MAX + 1)
#define BW_PHOTO_NAME_BYTES 256

typedef enum { BW_STONE_WAITING, BW_STONE_IN_DESIGN, BW_STONE_SET, BW_N_STONE_STATES } BwStoneState;

/* A plain value. */
typedef struct {
  char name[BW_KEPT_NAME_BYTES];
  char date[BW_DATE_BYTES];          /* "" when not known */
  char picture[BW_PHOTO_NAME_BYTES]; /* a photograph's file name; "" when there is none */
  char mineral[BW_MINERAL_BYTES];    /* "" when not known */
  BwStoneState state;
  BwStoneMeasures measures;
  BwStoneLook look;
} BwKeptStone;

guint bw_book_n_stones (const BwBook *book);
const char *bw_book_stone_name (const BwBook *book, guint i); /* borrowed */
void bw_book_get_stone (const BwBook *book, guint i, BwKeptStone *stone);
/* Its place; −1 when none has this name. */
int bw_book_find_stone (const BwBook *book, const char *name);
/* The place of one with the same mineral and measures under this name, or under this name with a
 * number; −1: none. */
int bw_book_find_same_stone (const BwBook *book, const BwKeptStone *stone);

/* As bw_book_change_tray(). The stone must be solvable. */
gboolean bw_book_change_stone (BwBook *book, const BwKeptStone *before, const BwKeptStone *stone,
                               GError **error);

/* Puts a stone of one book, with all that is not known of it, into another that has none of its
 * name. */
void bw_book_copy_stone (BwBook *to, const BwBook *from, guint i);
