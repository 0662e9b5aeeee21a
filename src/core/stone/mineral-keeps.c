/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A short table of words, looked for within whatever name the maker has given the mineral. */
#include "core/stone/mineral-keeps.h"

#include <string.h>

/* Common practice, no source: how these stones look in the hand. Longer names come first, so that
 * “smoky quartz” is not taken for quartz. */
static const struct {
  const char *word;
  float keeps[3];
} minerals[] = {
  { "rose quartz", { 0.97f, 0.80f, 0.84f } }, { "smok", { 0.70f, 0.58f, 0.46f } },
  { "morion", { 0.35f, 0.27f, 0.22f } },      { "amethyst", { 0.72f, 0.55f, 0.86f } },
  { "citrine", { 0.97f, 0.84f, 0.50f } },     { "prasiolite", { 0.78f, 0.90f, 0.74f } },
  { "fluorite", { 0.66f, 0.88f, 0.80f } },    { "aquamarine", { 0.68f, 0.90f, 0.95f } },
  { "tourmaline", { 0.55f, 0.78f, 0.58f } },  { "calcite", { 0.98f, 0.92f, 0.78f } },
  { "obsidian", { 0.02f, 0.018f, 0.016f } },
  { "quartz", { 0.965f, 0.98f, 0.985f } },
};

void
bw_mineral_keeps (const char *mineral, float keeps[3])
{
  static const float clear[3] = { 0.965f, 0.98f, 0.985f };
  g_autofree char *folded = g_utf8_casefold (mineral ? mineral : "", -1);
  const float *found = clear;
  for (gsize i = 0; found == clear && i < G_N_ELEMENTS (minerals); i++)
    if (strstr (folded, minerals[i].word))
      found = minerals[i].keeps;
  memcpy (keeps, found, 3 * sizeof (float));
}
