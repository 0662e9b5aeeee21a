/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All pieces that are done: how often the planned count was right, and what had been told of it. */
#pragma once

#include "project/book/book.h"

#define BW_TOLD_BINS 10

/* Pieces of which had been told so many tenths. */
typedef struct {
  int pieces, right;
  double told; /* mean of what was told */
} BwToldBin;

typedef struct {
  int pieces;
  int planned; /* those of which the planned count is known */
  int right;   /* of these, that took just that */
  double told; /* mean of what had been told of these */
  double hours;
  gint64 hours_rows; /* rows of the pieces with hours */
  double beads_hours; /* hours of those of them whose columns are known */
  gint64 beads;       /* in the bands of these */
  BwToldBin bin[BW_TOLD_BINS];
} BwBookDone;

void bw_book_done_init (BwBookDone *done, const BwBook *book);

/* Beads of a band woven in an hour, all that belongs to a piece in its hours; 0: not known. */
double bw_book_pace (const BwBook *book);
