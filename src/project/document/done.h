/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece that is done: what it really took, and what became of it. */
#pragma once

#include <gio/gio.h>

typedef enum { BW_FATE_KEPT, BW_FATE_SOLD, BW_FATE_GIVEN, BW_N_FATES } BwFate;

/* "kept", "sold", "given", NULL. */
extern const char *const bw_fate_words[];

#define BW_DONE_PICTURE_BYTES 256
#define BW_DONE_HOURS_MAX 10000
#define BW_DONE_PRICE_MAX 1e6

typedef struct {
  int rows; /* even ≥ 6; 0: the piece is not done */
  /* The count that was planned and what had been told of it by then: the chance that it is the one
   * that closes first, 0..1. planned 0: nobody knows, and told means nothing. */
  int planned;
  double told;
  double hours;                        /* of work; 0: not noted */
  double price;                        /* it went for; 0: none */
  char picture[BW_DONE_PICTURE_BYTES]; /* a photograph's name, one line; "" for none */
  BwFate fate;
} BwDone;

/* Ranges; pointer is where it stands. One with 0 rows is valid. */
gboolean bw_done_validate (const BwDone *done, const char *pointer, GError **error);
gboolean bw_done_equal (const BwDone *a, const BwDone *b);
