/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of the project file beside the fields of BwDesign they fill: one table that the reader,
 * the writer and the comparison of two designs share, so that they cannot drift apart. Private to
 * this room. */
#pragma once

#include "core/design/design.h"

typedef enum {
  BW_KEY_NUMBER, /* double */
  BW_KEY_WHOLE,  /* int, lo..hi */
  BW_KEY_WORD,   /* an enum, by its word */
  BW_KEY_TEXT,   /* char[hi], NUL included */
  BW_KEY_PAIR,   /* double[2] */
  BW_KEY_VALUES, /* the stone's measurements; how many depends on the way of measuring */
} BwKeyKind;

/* When a key says anything at all. Where it does not, the reader keeps it as it stands, like a key
 * it does not know. */
typedef enum {
  BW_ALWAYS,
  BW_IF_SECOND_GIRTH,
  BW_IF_BASE_POINT,
  BW_IF_BASE_FLAT,
  BW_IF_BAIL
} BwKeyWhen;

typedef struct {
  const char *name;
  BwKeyKind kind;
  size_t offset; /* in BwDesign */
  gboolean required;
  BwKeyWhen when;
  size_t has; /* offset in BwDesign of the flag that the key is given; 0 = it always has a value */
  int lo, hi;
  const char *const *words; /* NULL-terminated, in the order of the enum */
} BwKey;

/* The groups of keys, outer before inner. As bits (1 << group) they tell what differs. */
typedef enum {
  BW_GROUP_STONE,
  BW_GROUP_LOOK,
  BW_GROUP_BEAD,
  BW_GROUP_GAUGE,
  BW_GROUP_HANDS,
  BW_GROUP_SWATCH,
  BW_GROUP_BED,
  BW_GROUP_BED_HANDS,
  BW_GROUP_BED_PULLED,
  BW_GROUP_BAND,
  BW_GROUP_BAIL,
  BW_GROUP_THREAD,
  BW_GROUP_THREAD_HANDS,
  BW_GROUP_THREAD_PULLED,
  BW_GROUP_FIT,
  BW_GROUP_MATERIALS,
  BW_GROUP_PRICES,
  BW_N_GROUPS,
} BwGroupId;

typedef struct {
  const char *name;    /* "swatch" */
  const char *pointer; /* "/gauge/swatch" */
  size_t has;          /* offset of the flag that the section is there; 0 = always */
  const BwKey *keys;
  int n_keys;
} BwKeyGroup;

const BwKeyGroup *bw_key_group (BwGroupId id);

gboolean bw_key_applies (const BwKey *key, const BwDesign *design);
/* Applies and is given: what the writer writes. */
gboolean bw_key_is_given (const BwKey *key, const BwDesign *design);

/* How many numbers a BW_KEY_PAIR or BW_KEY_VALUES holds in this design. */
int bw_key_count (const BwKey *key, const BwDesign *design);

static inline void *
bw_key_field (const BwKey *key, BwDesign *design)
{
  return (char *)design + key->offset;
}

static inline const void *
bw_key_value (const BwKey *key, const BwDesign *design)
{
  return (const char *)design + key->offset;
}

/* The flag at an offset of BwDesign. */
static inline gboolean *
bw_design_flag (BwDesign *design, size_t offset)
{
  return (gboolean *)((char *)design + offset);
}

/* Bits of the groups in which two designs differ by meaning: what is not given is not compared.
 * A differing believed pitch counts as the gauge's, and how sure squeeze and stretch are as the
 * bed's and the thread's. 0 = equal. */
guint bw_design_difference (const BwDesign *a, const BwDesign *b);

/* Copies the keys of the groups (bits as above) and nothing else, the believed pitch with the
 * gauge, how sure squeeze and stretch are with bed and thread. */
void bw_design_take_groups (BwDesign *to, const BwDesign *from, guint groups);
