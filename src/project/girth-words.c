/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/girth-words.h"

#include "core/stone/girths.h"

#include <glib/gi18n-lib.h>
#include <math.h>

char *
bw_girth_words (const BwStoneMeasures *measures, BwUnit unit)
{
  BwStone stone;
  BwGirths girths;
  if (!bw_stone_init (&stone, measures, NULL) || !bw_girths_disagree (&girths, &stone, measures))
    return NULL;
  g_autofree char *first = bw_length_format (girths.first_mm, unit, 1);
  g_autofree char *second = bw_length_format (girths.second_mm, unit, 1);
  g_autofree char *by = bw_length_format (fabs (girths.second_mm - girths.first_mm), unit, 1);
  g_autofree char *rise = bw_length_format (fabs (girths.rise_mm), unit, 1);
  if (measures->measured == BW_MEASURED_GIRTH)
    return g_strdup_printf (
        _ ("The girths of %s and %s differ by %s over %s of height, more than a tape errs and a "
           "crystal tapers: the first is used as the girth, the second for the taper alone."),
        first, second, by, rise);
  return g_strdup_printf (
      _ ("The faces as measured make a girth of %s, the tape says %s: they differ by %s over %s of "
         "height, more than a tape errs and a crystal tapers. The faces are used for the girth, "
         "the tape for the taper alone."),
      first, second, by, rise);
}
