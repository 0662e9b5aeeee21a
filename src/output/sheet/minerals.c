/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Densities, hardness and cautions of minerals.
 *
 * Densities: Handbook of Mineralogy (Anthony, Bideaux, Bladh & Nichols) for quartz 2.65, elbaite
 * 3.069 (calculated), schorl 3.244 (calculated) and calcite 2.71; for beryl, apatite, fluorite,
 * topaz and gypsum the middle of the ranges in general circulation; all others from memory.
 *
 * Mohs hardness: quartz 7, tourmaline 7, beryl 7.5 to 8, topaz 8, apatite 5, fluorite 4, calcite 3
 * and gypsum 1.5 to 2 as in the Handbook of Mineralogy and in general circulation; all others from
 * memory. Cleavage of fluorite, calcite, topaz and gypsum, and calcite dissolving in dilute acid:
 * Handbook of Mineralogy; of the others from memory, as is which colours fade.
 *
 * What is not to be worn: J. Freedman, "Safe Storage and Handling of Potentially Hazardous
 * Minerals", NatSCA News 22 (2012) 51–65 (arsenic, mercury, lead, antimony, radioactive,
 * asbestiform); the choice of species is common practice, no source. */
#include "config.h"

#include "output/sheet/minerals.h"

#include <glib/gi18n-lib.h>

static const BwMineral minerals[] = {
  { N_ ("quartz"), 2.65, { 7, 7 }, 0 },
  { N_ ("rock crystal"), 2.65, { 7, 7 }, 0 },
  { N_ ("amethyst"), 2.65, { 7, 7 }, BW_MIND_FADES },
  { N_ ("citrine"), 2.65, { 7, 7 }, 0 },
  { N_ ("rose quartz"), 2.65, { 7, 7 }, BW_MIND_FADES },
  { N_ ("smoky quartz"), 2.65, { 7, 7 }, BW_MIND_FADES },
  { N_ ("tourmaline (elbaite)"), 3.07, { 7, 7 }, 0 },
  { N_ ("tourmaline (schorl)"), 3.24, { 7, 7 }, 0 },
  { N_ ("beryl"), 2.75, { 7.5, 8 }, 0 },
  { N_ ("aquamarine"), 2.7, { 7.5, 8 }, 0 },
  { N_ ("topaz"), 3.53, { 8, 8 }, BW_MIND_CLEAVES },
  { N_ ("danburite"), 3, { 7, 7.5 }, 0 },
  { N_ ("spodumene"), 3.15, { 6.5, 7 }, BW_MIND_CLEAVES | BW_MIND_FADES },
  { N_ ("kyanite"), 3.6, { 4.5, 7 }, BW_MIND_CLEAVES },
  { N_ ("apatite"), 3.18, { 5, 5 }, BW_MIND_ACID },
  { N_ ("obsidian"), 2.4, { 5, 5.5 }, 0 },
  { N_ ("fluorite"), 3.18, { 4, 4 }, BW_MIND_CLEAVES | BW_MIND_FADES },
  { N_ ("aragonite"), 2.95, { 3.5, 4 }, BW_MIND_ACID },
  { N_ ("rhodochrosite"), 3.7, { 3.5, 4 }, BW_MIND_CLEAVES | BW_MIND_ACID },
  { N_ ("malachite"), 4, { 3.5, 4 }, BW_MIND_ACID },
  { N_ ("barite"), 4.48, { 3, 3.5 }, BW_MIND_CLEAVES },
  { N_ ("celestine"), 3.97, { 3, 3.5 }, BW_MIND_CLEAVES | BW_MIND_FADES },
  { N_ ("calcite"), 2.71, { 3, 3 }, BW_MIND_CLEAVES | BW_MIND_ACID },
  { N_ ("selenite"), 2.32, { 1.5, 2 }, BW_MIND_CLEAVES | BW_MIND_WATER },
  { N_ ("gypsum"), 2.32, { 1.5, 2 }, BW_MIND_CLEAVES | BW_MIND_WATER },
  { N_ ("halite"), 2.17, { 2, 2.5 }, BW_MIND_CLEAVES | BW_MIND_DISSOLVES },
  { N_ ("cinnabar"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("galena"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("cerussite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("vanadinite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("wulfenite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("crocoite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("stibnite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("orpiment"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("realgar"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("arsenopyrite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("torbernite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("autunite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("crocidolite"), 0, { 0 }, BW_MIND_POISON },
  { N_ ("chalcanthite"), 0, { 0 }, BW_MIND_POISON | BW_MIND_DISSOLVES },
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

gboolean
bw_mineral_is_soft (const BwMineral *mineral)
{
  return mineral->mohs[0] > 0 && mineral->mohs[0] < 6;
}
