/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A size a shop knows is worth more on a list than a number in millimetres, and a finding is only
 * right when it goes through the loop; so the sentences tell both. */
#include "config.h"

#include "output/report/material-words.h"

#include "core/base/tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define MM_PER_TENTH_FOOT 30.48

char *
bw_cut_words (double mm, BwUnit unit)
{
  if (unit == BW_UNIT_INCH)
    return g_strdup_printf (_ ("%.1f ft"), ceil (mm / MM_PER_TENTH_FOOT - BW_ROUNDING_WHOLE) / 10);
  return g_strdup_printf (_ ("%.2f m"), ceil (mm / 10 - BW_ROUNDING_WHOLE) / 100);
}

char *
bw_needle_words (const BwMaterials *materials, BwUnit unit)
{
  int n;
  const BwNeedleSize *sizes = bw_needle_sizes (&n);
  const BwNeedleSize *needle = materials->needle;
  if (materials->needle_most_mm <= 0)
    return g_strdup (_ ("none goes: the thread alone fills the fullest bead"));
  g_autofree char *shaft
      = bw_length_format (needle ? needle->shaft_mm : materials->needle_most_mm, unit, 2);
  if (needle && materials->needles > 1)
    return g_strdup_printf (_ ("%d, size %s (%s) or finer"), materials->needles, needle->number,
                            shaft);
  if (needle)
    return g_strdup_printf (_ ("size %s (%s) or finer"), needle->number, shaft);
  return g_strdup_printf (_ ("finer than size %s: only %s go through the fullest bead"),
                          sizes[n - 1].number, shaft);
}

char *
bw_necklace_words (const BwSupply *supply, BwUnit unit)
{
  g_autofree char *length = bw_length_format (supply->neck_mm, unit, 0);
  g_autofree char *more = bw_length_format (supply->closing_mm, unit, 0);
  switch (supply->closing) {
  case BW_CLOSING_SLIDING:
    return g_strdup_printf (_ ("%s, closed with sliding knots that take %s more"), length, more);
  case BW_CLOSING_CLASP:
    return g_strdup_printf (_ ("%s, closed with a clasp whose ends take %s more"), length, more);
  case BW_CLOSING_KNOT:
  default:
    return g_strdup_printf (_ ("%s, closed with knots that take %s more"), length, more);
  }
}

char *
bw_ring_size_words (const BwHangRing *ring, BwUnit unit)
{
  g_autofree char *inner = bw_length_format (ring->inner_mm, unit, unit == BW_UNIT_MM ? 1 : 2);
  g_autofree char *wire = bw_length_format (ring->wire_mm, unit, 1);
  g_autofree char *passes = bw_length_format (ring->passes_mm, unit, 1);
  return g_strdup_printf (_ ("at least %s inside, of %s wire; a cord of up to %s passes it"), inner,
                          wire, passes);
}

/* The ring of a ring bail is caught in the loop, so its wire must pass. */
char *
bw_ring_words (const BwMaterials *materials, BwUnit unit)
{
  if (materials->rings == 0)
    return NULL;
  if (materials->fitting_most_mm <= 0)
    return g_strdup_printf (_ ("%d, closed; but nothing goes through the loop yet"),
                            materials->rings);
  g_autofree char *wire = bw_length_format (materials->fitting_most_mm, unit, 1);
  g_autofree char *size = bw_ring_size_words (&materials->ring, unit);
  /* Translators: how many; a thickness; "at least 8.5 mm inside, of 1.2 mm wire; …". */
  return g_strdup_printf (_ ("%d, closed: soldered, or with no gap the thread could slip through; "
                             "wire thinner than %s; %s"),
                          materials->rings, wire, size);
}

char *
bw_clasp_words (const BwMaterials *materials, const BwDesign *design, BwUnit unit)
{
  if (materials->clasps == 0)
    return NULL;
  g_autofree char *cord = bw_length_format (design->bail.cord_mm, unit, 1);
  g_autofree char *most = bw_length_format (MAX (materials->fitting_most_mm, 0), unit, 1);
  if (design->bail.style == BW_BAIL_RING || materials->fitting_most_mm <= 0)
    return g_strdup_printf (_ ("%d, with two ends for a cord of %s"), materials->clasps, cord);
  return g_strdup_printf (_ ("%d, with two ends for a cord of %s; up to %s goes through the bail"),
                          materials->clasps, cord, most);
}

char *
bw_hours_words (double hours)
{
  double minutes = round (hours * 60);
  double whole = floor (minutes / 60);
  return g_strdup_printf (_ ("%.0f h %02.0f min"), whole, minutes - 60 * whole);
}
