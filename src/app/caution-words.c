/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short, where the hurt is, and deferring to the rules of the place: these sentences are no legal
 * advice. What stands behind them: quartz dust is respirable crystalline silica, IARC Group 1
 * (NIOSH Hazard Review 2002-129); a single bead always fits the small-parts cylinder of 16 CFR
 * 1501.4; strangulation by a necklace (US Food and Drug Administration, safety communication of 20
 * December 2018). The rest is common practice, no source. */
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

static const char *const always[] = {
  N_ ("Waxed cord burns and drips: keep a flame away from the bed; cut thread ends instead of "
      "melting "
      "them."),
  N_ ("Needles and the splinters of a broken bead are sharp: never force a needle through a full "
      "bead, "
      "and mind your eyes."),
  N_ ("Do not cut, drill or sand the stone dry: its dust harms the lungs."),
  N_ ("Not for small children: beads and points are small parts."),
};

static const char cord_caution[] = N_ (
    "A cord round the neck can strangle: never on a sleeping child; a clasp that gives way is "
    "wise for everybody.");
static const char last_word[] = N_ (
    "Grip, thread and hanging are estimates: tug the piece over something soft before it is worn. "
    "Local rules for jewellery and for selling it go before all of this.");

char **
bw_caution_words (const char *mineral, gboolean has_cord)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  const BwMineral *known = mineral ? bw_mineral_find (mineral) : NULL;
  for (gsize i = 0; known && i < G_N_ELEMENTS (by_mineral); i++)
    if (known->mind & by_mineral[i].mind)
      g_strv_builder_add (builder, _ (by_mineral[i].words));
  for (gsize i = 0; i < G_N_ELEMENTS (always); i++)
    g_strv_builder_add (builder, _ (always[i]));
  if (has_cord)
    g_strv_builder_add (builder, _ (cord_caution));
  g_strv_builder_add (builder, _ (last_word));
  return g_strv_builder_end (builder);
}
