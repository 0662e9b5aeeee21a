/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/bead-kind.h"

#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/fault/fault-words.h"
#include "project/file/sizes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Of beads of this size, were they of 1 g/cm³. */
static double
hundred_of_water_g (const BwBead *bead)
{
  BwBead water = *bead;

  water.glass_g_cm3 = 1;
  return 100 * bw_bead_mass_g (&water);
}

BwBead
bw_bead_kind_bead (const BwBeadKind *kind)
{
  BwBead bead = kind->bead;

  if (kind->per_100_g > 0)
    bead.glass_g_cm3 = kind->per_100_g / hundred_of_water_g (&bead);
  return bead;
}

static gboolean
check_size (double mm, const char *pointer, const char *key, GError **error)
{
  g_autofree char *at = g_strconcat (pointer, key, NULL);

  return bw_fault_check_range (mm, BW_BEAD_KIND_LEAST_MM, BW_BEAD_KIND_MOST_MM, at, error);
}

static gboolean
check_weight (const BwBeadKind *kind, const char *pointer, GError **error)
{
  double water_g = hundred_of_water_g (&kind->bead);
  double least = BW_BEAD_KIND_LEAST_G_CM3 * water_g, most = BW_BEAD_KIND_MOST_G_CM3 * water_g;
  g_autofree char *at = g_strconcat (pointer, "/per_100_g", NULL);

  if (kind->per_100_g <= 0 && kind->per_100_g >= 0)
    return TRUE;
  if (kind->per_100_g >= least && kind->per_100_g <= most)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, at,
                _ ("%.10g g was found; a hundred beads of this size weigh from %.2g to %.2g g."),
                kind->per_100_g, least, most);
  return FALSE;
}

static gboolean
check_price (const BwBeadKind *kind, const char *pointer, GError **error)
{
  g_autofree char *price = g_strconcat (pointer, "/price", NULL);
  g_autofree char *pack = g_strconcat (pointer, "/pack_g", NULL);

  if (!bw_fault_check_range (kind->price, 0, BW_PRICE_MAX, price, error)
      || !bw_fault_check_range (kind->pack_g, 0, BW_PACK_MAX_G, pack, error))
    return FALSE;
  if (!(kind->price > 0) || kind->pack_g > 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_MISSING, pack,
                _ ("the grams are missing that the price is for: 1 when it is of a gram."));
  return FALSE;
}

static gboolean
check_texts (const BwBeadKind *kind, const char *pointer, GError **error)
{
  const char *const texts[][2] = { { "/name", kind->bead.name },
                                   { "/article", kind->article },
                                   { "/currency", kind->currency },
                                   { "/lot", kind->lot },
                                   { "/note", kind->note } };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autofree char *at = g_strconcat (pointer, texts[i][0], NULL);

    if (!bw_line_check (texts[i][1], at, error))
      return FALSE;
  }
  if (strspn (kind->bead.name, " ") < strlen (kind->bead.name))
    return TRUE;
  g_autofree char *name = g_strconcat (pointer, "/name", NULL);
  bw_fault_set (error, BW_FAULT_MISSING, name, _ ("a bead of your own needs a name."));
  return FALSE;
}

gboolean
bw_bead_kind_validate (const BwBeadKind *kind, const char *pointer, GError **error)
{
  return check_texts (kind, pointer, error)
         && check_size (kind->bead.diameter_mm, pointer, "/diameter_mm", error)
         && check_size (kind->bead.length_mm, pointer, "/length_mm", error)
         && bw_size_validate (&kind->bead, pointer, error) && check_weight (kind, pointer, error)
         && check_price (kind, pointer, error);
}

gboolean
bw_bead_kind_price (const BwBeadKind *kind, BwSupply *supply)
{
  if (!(kind->price > 0) || (*kind->currency && !g_str_equal (kind->currency, supply->currency)))
    return FALSE;
  supply->pack = kind->price;
  supply->pack_g = kind->pack_g;
  return TRUE;
}
