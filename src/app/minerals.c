/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Densities and cautions of minerals.
 *
 * Densities: Handbook of Mineralogy (Anthony, Bideaux, Bladh & Nichols) for quartz 2.65, elbaite
 * 3.069 (calculated), schorl 3.244 (calculated) and calcite 2.71; for beryl, apatite, fluorite,
 * topaz and gypsum the middle of the ranges in general circulation; halite from memory. Calcite
 * dissolving in dilute acid: Handbook of Mineralogy. What is not to be worn: J. Freedman, "Safe
 * Storage and Handling of Potentially Hazardous Minerals", NatSCA News 22 (2012) 51–65 (arsenic,
 * mercury, lead, antimony, radioactive, asbestiform); the choice of species is common practice, no
 * source. */
#include "config.h"

#include "app/minerals.h"

#include <glib/gi18n-lib.h>

static const BwMineral minerals[] = {
  { N_ ("quartz"), 2.65, 0 },
  { N_ ("amethyst"), 2.65, 0 },
  { N_ ("citrine"), 2.65, 0 },
  { N_ ("smoky quartz"), 2.65, 0 },
  { N_ ("tourmaline (elbaite)"), 3.07, 0 },
  { N_ ("tourmaline (schorl)"), 3.24, 0 },
  { N_ ("beryl"), 2.75, 0 },
  { N_ ("topaz"), 3.53, BW_MIND_CLEAVES },
  { N_ ("apatite"), 3.18, BW_MIND_SCRATCHES | BW_MIND_ACID },
  { N_ ("fluorite"), 3.18, BW_MIND_SCRATCHES | BW_MIND_CLEAVES },
  { N_ ("calcite"), 2.71, BW_MIND_SCRATCHES | BW_MIND_CLEAVES | BW_MIND_ACID },
  { N_ ("selenite"), 2.32, BW_MIND_SCRATCHES | BW_MIND_CLEAVES | BW_MIND_WATER },
  { N_ ("gypsum"), 2.32, BW_MIND_SCRATCHES | BW_MIND_CLEAVES | BW_MIND_WATER },
  { N_ ("halite"), 2.17, BW_MIND_SCRATCHES | BW_MIND_CLEAVES | BW_MIND_DISSOLVES },
  { N_ ("cinnabar"), 0, BW_MIND_POISON },
  { N_ ("galena"), 0, BW_MIND_POISON },
  { N_ ("stibnite"), 0, BW_MIND_POISON },
  { N_ ("orpiment"), 0, BW_MIND_POISON },
  { N_ ("realgar"), 0, BW_MIND_POISON },
  { N_ ("arsenopyrite"), 0, BW_MIND_POISON },
  { N_ ("torbernite"), 0, BW_MIND_POISON },
  { N_ ("autunite"), 0, BW_MIND_POISON },
  { N_ ("crocidolite"), 0, BW_MIND_POISON },
  { N_ ("chalcanthite"), 0, BW_MIND_POISON | BW_MIND_DISSOLVES },
};

const BwMineral *
bw_minerals (int *n)
{
  *n = G_N_ELEMENTS (minerals);
  return minerals;
}

static gboolean
same_name (const char *a, const char *b)
{
  g_autofree char *first = g_utf8_casefold (a, -1);
  g_autofree char *second = g_utf8_casefold (b, -1);
  return g_utf8_collate (first, second) == 0;
}

const BwMineral *
bw_mineral_find (const char *name)
{
  g_autofree char *bare = g_strstrip (g_strdup (name ? name : ""));
  for (gsize i = 0; i < G_N_ELEMENTS (minerals); i++)
    if (same_name (bare, minerals[i].name) || same_name (bare, _ (minerals[i].name)))
      return &minerals[i];
  return NULL;
}
