/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to mind with one mineral, before what to mind with every piece. Common practice, no source.
 */
#include "config.h"

#include "app/caution-words.h"
#include "app/minerals.h"

#include <glib/gi18n-lib.h>

static const struct {
  guint mind;
  const char *words;
} by_mineral[] = {
  { BW_MIND_POISON,
    N_ ("This mineral is poisonous: do not wear it on the skin, wash your hands after "
        "touching it, and keep it from children.") },
  { BW_MIND_DISSOLVES,
    N_ ("This mineral dissolves in water and damp air: it is not for wearing.") },
  { BW_MIND_WATER, N_ ("Do not soak this stone: it is slightly soluble.") },
  { BW_MIND_ACID, N_ ("Acids, vinegar and sweat etch this stone: wipe it dry.") },
  { BW_MIND_CLEAVES,
    N_ ("This stone splits along flat planes: keep it from knocks, from sudden heat, "
        "and from steam or ultrasonic cleaning.") },
  { BW_MIND_SCRATCHES, N_ ("This stone is soft: the needle and other jewellery scratch it.") },
};

char **
bw_caution_words (const char *mineral)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  const BwMineral *known = mineral ? bw_mineral_find (mineral) : NULL;
  for (gsize i = 0; known && i < G_N_ELEMENTS (by_mineral); i++)
    if (known->mind & by_mineral[i].mind)
      g_strv_builder_add (builder, _ (by_mineral[i].words));
  return g_strv_builder_end (builder);
}
