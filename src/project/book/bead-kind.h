/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A kind of bead of the maker's own: its sizes, and what is known of it beside. In the book
 *
 *   "beads": [ { the keys of the project's "bead", "finishes": [ "matte", … ], "article": "…",
 *                "price": 3.2, "pack_g": 5, "currency": "EUR", "per_100_g": 0.52, "lot": "…",
 *                "note": "…" } ]
 *
 * A name, which no other has, and the project's required keys are required; price and pack_g go
 * together. */
#pragma once

#include "core/design/bead.h"
#include "core/design/design.h"
#include "project/document/tray.h"

#define BW_BEAD_KINDS_MAX 10000
/* No smaller and no larger bead is woven (judgement). */
#define BW_BEAD_KIND_LEAST_MM 0.3
#define BW_BEAD_KIND_MOST_MM 30
/* What 100 beads weigh must speak for something between cork and gold (judgement). */
#define BW_BEAD_KIND_LEAST_G_CM3 0.2
#define BW_BEAD_KIND_MOST_G_CM3 20

#define BW_KIND_WORD_BYTES 64
#define BW_KIND_NOTE_BYTES 256

/* A plain value, zeroed but for what is set. */
typedef struct {
  BwBead bead;                      /* its glass is what is believed without a weight */
  guint finishes;                   /* offered: 1 << BwFinish each */
  char article[BW_KIND_WORD_BYTES]; /* texts: "" when not known */
  double price, pack_g;             /* so much for so many grams, 0 when not known */
  char currency[BW_CURRENCY_BYTES];
  double per_100_g; /* weight of a hundred; 0: not weighed */
  char lot[BW_KIND_WORD_BYTES];
  char note[BW_KIND_NOTE_BYTES];
} BwBeadKind;

/* The bead as a project holds it: of glass that weighs what a hundred were found to. */
BwBead bw_bead_kind_bead (const BwBeadKind *kind);

/* pointer is where it stands. */
gboolean bw_bead_kind_validate (const BwBeadKind *kind, const char *pointer, GError **error);

/* Its price as that of a pack, where the costs are in the same currency or it says none. FALSE and
 * nothing done when it has no price or another currency. */
gboolean bw_bead_kind_price (const BwBeadKind *kind, BwSupply *supply);
