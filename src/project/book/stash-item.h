/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing that is there to work with. In the book
 *
 *   "stash": [ { "what": "beads", "name": "Night water", "bead": "11/0 cylinder",
 *                "srgb": "#1b2a41", "finish": "matte", "article": "…", "lot": "…", "grams": 12.5,
 *                "note": "…" },
 *              { "what": "thread", "name": "…", "width_mm": 0.15, "length_mm": 50000 },
 *              { "what": "clasp", "name": "…", "count": 2 } ]
 *
 * Required: what, name, of beads bead, and the amount in what it is measured by. No two are the
 * same thing. */
#pragma once

#include "project/book/bead-kind.h"
#include "project/document/tray.h"

typedef enum {
  BW_STASH_BEADS,
  BW_STASH_BED_CORD,
  BW_STASH_THREAD,
  BW_STASH_HANGING_CORD,
  BW_STASH_STOPPER,
  BW_STASH_RING,
  BW_STASH_CLASP,
  BW_N_STASH
} BwStashWhat;

typedef enum { BW_STASH_BY_GRAMS, BW_STASH_BY_LENGTH, BW_STASH_BY_COUNT } BwStashMeasure;

extern const char *const bw_stash_words[]; /* "beads", "bed-cord", …, NULL */

#define BW_STASH_MAX 10000
#define BW_STASH_LENGTH_MAX_MM 1e7
#define BW_STASH_COUNT_MAX 1e6

/* A plain value, zeroed but for what is set; what is meant for another what is 0. */
typedef struct {
  BwStashWhat what;
  char name[BW_NAME_BYTES]; /* of the colour, or of the thing */
  char bead[BW_NAME_BYTES]; /* of beads: which */
  gboolean has_srgb;        /* of beads */
  guint32 srgb;             /* 0xRRGGBB */
  BwFinish finish;
  char article[BW_KIND_WORD_BYTES], lot[BW_KIND_WORD_BYTES]; /* "" when not known */
  double width_mm; /* of cord and thread, as lists name them; 0: not known */
  double amount;   /* grams, mm or pieces, ≥ 0 */
  char note[BW_KIND_NOTE_BYTES];
} BwStashItem;

BwStashMeasure bw_stash_measure (BwStashWhat what);

/* Whether both are one thing, however much there is of each and whatever is noted. */
gboolean bw_stash_item_is (const BwStashItem *a, const BwStashItem *b);

/* pointer is where it stands. */
gboolean bw_stash_item_validate (const BwStashItem *item, const char *pointer, GError **error);
