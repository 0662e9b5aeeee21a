/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Minerals a maker may set: density, hardness, and what is to be minded with them. */
#pragma once

#include <glib.h>

typedef enum {
  BW_MIND_CLEAVES = 1 << 0,   /* splits at a knock or sudden heat */
  BW_MIND_ACID = 1 << 1,      /* acids, sweat and vinegar etch it */
  BW_MIND_WATER = 1 << 2,     /* do not soak */
  BW_MIND_FADES = 1 << 3,     /* strong light takes its colour */
  BW_MIND_DISSOLVES = 1 << 4, /* goes in water and in damp air */
  BW_MIND_POISON = 1 << 5,    /* not to be worn on skin */
} BwMind;

typedef struct {
  const char *name;     /* untranslated, lower case */
  double density_g_cm3; /* 0: not offered, known for its caution alone */
  double mohs[2];       /* hardness on Mohs' scale, softest and hardest; 0: not told */
  guint mind;           /* flags of BwMind */
} BwMineral;

/* The table; *n entries, borrowed. */
const BwMineral *bw_minerals (int *n);
/* By name or translated name, whatever the case; NULL for an unknown one. Borrowed. */
const BwMineral *bw_mineral_find (const char *name);

/* A steel needle scratches it: softer than Mohs 6 (steel of a needle 5.5 to 6.5; common practice,
 * no source). FALSE where the hardness is not told. */
gboolean bw_mineral_is_soft (const BwMineral *mineral);
