/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to mind with one mineral. Common practice, no source, where minerals.c names none. */
#include "config.h"

#include "output/sheet/cautions.h"
#include "output/sheet/minerals.h"
#include "project/document/filled.h"

#include <glib/gi18n-lib.h>

static const struct {
  BwMind mind;
  const char *words;
} grave[] = {
  { BW_MIND_POISON,
    N_ ("This mineral is poisonous: do not wear it on the skin, wash your hands after "
        "touching it, and keep it from children.") },
  { BW_MIND_DISSOLVES,
    N_ ("This mineral dissolves in water and damp air: it is not for wearing.") },
},
  usual[] = {
    { BW_MIND_WATER, N_ ("Do not soak this stone: it is slightly soluble.") },
    { BW_MIND_ACID, N_ ("Acids, vinegar and sweat etch this stone: wipe it dry.") },
    { BW_MIND_CLEAVES,
      N_ ("This stone splits along flat planes: keep it from knocks, from sudden heat, "
          "and from steam or ultrasonic cleaning.") },
    { BW_MIND_FADES,
      N_ ("Strong light may fade this stone: keep it in the dark when it is not worn.") },
  };

/* "7", "7.5 to 8" */
static char *
mohs_words (const BwMineral *mineral)
{
  if (mineral->mohs[0] < mineral->mohs[1])
    return g_strdup_printf (_ ("%.3g to %.3g"), mineral->mohs[0], mineral->mohs[1]);
  return g_strdup_printf ("%.3g", mineral->mohs[0]);
}

static void
add_hardness (GStrvBuilder *cautions, const BwMineral *mineral)
{
  if (mineral->mohs[0] <= 0)
    return;
  const char *format
      = bw_mineral_is_soft (mineral)
            ? _ (
                "This stone is soft (Mohs hardness %s): the needle and other jewellery scratch it.")
            : _ ("This stone is hard (Mohs hardness %s) and scratches softer stones and metals it "
                 "lies with; a knock or sudden heat can still crack it.");
  g_autofree char *mohs = mohs_words (mineral);
  g_autofree char *words = bw_filled (format, mohs);
  g_strv_builder_add (cautions, words);
}

static char **
grave_words (const BwMineral *mineral)
{
  g_autoptr (GStrvBuilder) cautions = g_strv_builder_new ();
  for (gsize i = 0; mineral && i < G_N_ELEMENTS (grave); i++)
    if (mineral->mind & grave[i].mind)
      g_strv_builder_add (cautions, _ (grave[i].words));
  return g_strv_builder_end (cautions);
}

static char **
usual_words (const BwMineral *mineral)
{
  g_autoptr (GStrvBuilder) cautions = g_strv_builder_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (usual); i++)
    if (mineral->mind & usual[i].mind)
      g_strv_builder_add (cautions, _ (usual[i].words));
  add_hardness (cautions, mineral);
  return g_strv_builder_end (cautions);
}

static char **
general_words (void)
{
  g_autoptr (GStrvBuilder) cautions = g_strv_builder_new ();
  g_strv_builder_add (cautions, _ ("Know your mineral. Some are soft or cleave at a knock, some "
                                   "dissolve or dull in water, some are not for the skin. When in "
                                   "doubt keep it dry and away from heat, acid and ultrasonic "
                                   "cleaners."));
  return g_strv_builder_end (cautions);
}

char **
bw_mineral_cautions_grave (const char *mineral)
{
  return grave_words (mineral ? bw_mineral_find (mineral) : NULL);
}

char **
bw_mineral_cautions (const char *mineral)
{
  const BwMineral *known = mineral ? bw_mineral_find (mineral) : NULL;
  return known ? usual_words (known) : general_words ();
}
