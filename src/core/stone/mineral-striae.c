/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Across the prism: quartz (L.J. Spencer, "Quartz", Encyclopædia Britannica, 11th ed., vol. 22,
 * 1911; A.H. Church, Precious Stones, sets it against beryl).
 * Along it: tourmaline (F.W. Rudler, "Tourmaline", the same, vol. 27), beryl ("Beryl", the same,
 * vol. 3, p. 817; Church), topaz (M. Bauer, Precious Stones, translated by L.J. Spencer, 1904);
 * danburite, spodumene and kyanite from memory.
 * None: obsidian is a glass, cooled too fast for crystals to grow; chalcedony and its kinds, opal,
 * jade, lapis lazuli, turquoise and malachite are massive, as rose quartz nearly always is;
 * fluorite, calcite, gypsum and halite have smooth faces. All from memory. */
#include "core/stone/mineral-striae.h"

#include <string.h>

/* Looked for within the name; longer ones first, so that “rose quartz” is not taken for quartz. */
static const struct {
  const char *word;
  BwStriae striae;
} minerals[] = {
  { "rose quartz", BW_STRIAE_NONE }, { "obsidian", BW_STRIAE_NONE },
  { "glass", BW_STRIAE_NONE },       { "opal", BW_STRIAE_NONE },
  { "agate", BW_STRIAE_NONE },       { "jasper", BW_STRIAE_NONE },
  { "chalcedony", BW_STRIAE_NONE },  { "carnelian", BW_STRIAE_NONE },
  { "chrysoprase", BW_STRIAE_NONE }, { "onyx", BW_STRIAE_NONE },
  { "flint", BW_STRIAE_NONE },       { "aventurine", BW_STRIAE_NONE },
  { "jade", BW_STRIAE_NONE },        { "lapis", BW_STRIAE_NONE },
  { "turquoise", BW_STRIAE_NONE },   { "malachite", BW_STRIAE_NONE },
  { "fluorite", BW_STRIAE_NONE },    { "calcite", BW_STRIAE_NONE },
  { "gypsum", BW_STRIAE_NONE },      { "selenite", BW_STRIAE_NONE },
  { "halite", BW_STRIAE_NONE },      { "tourmaline", BW_STRIAE_ALONG },
  { "elbaite", BW_STRIAE_ALONG },    { "schorl", BW_STRIAE_ALONG },
  { "beryl", BW_STRIAE_ALONG },      { "emerald", BW_STRIAE_ALONG },
  { "aquamarine", BW_STRIAE_ALONG }, { "topaz", BW_STRIAE_ALONG },
  { "danburite", BW_STRIAE_ALONG },  { "spodumene", BW_STRIAE_ALONG },
  { "kyanite", BW_STRIAE_ALONG },
};

BwStriae
bw_mineral_striae (const char *mineral)
{
  g_autofree char *folded = g_utf8_casefold (mineral ? mineral : "", -1);
  for (gsize i = 0; i < G_N_ELEMENTS (minerals); i++)
    if (strstr (folded, minerals[i].word))
      return minerals[i].striae;
  return BW_STRIAE_ACROSS;
}
