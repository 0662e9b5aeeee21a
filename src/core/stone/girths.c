/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/stone/girths.h"

#include <math.h>

gboolean
bw_girths_disagree (BwGirths *girths, const BwStone *stone, const BwStoneMeasures *measures)
{
  double tape_mm = measures->girth_sd_mm;
  double first_sd_mm = measures->measured == BW_MEASURED_GIRTH ? tape_mm : tape_mm / 2;
  *girths = (BwGirths){ .first_mm = stone->girth_mm };
  if (!measures->has_second)
    return FALSE;
  girths->second_mm = measures->second_girth_mm;
  girths->rise_mm = measures->second_at_mm - measures->at_mm;
  girths->most_mm = BW_TAPER_STEEP * stone->girth_mm * fabs (girths->rise_mm) / stone->length_mm
                    + BW_GIRTH_ERRORS * hypot (first_sd_mm, tape_mm);
  return fabs (girths->second_mm - girths->first_mm) > girths->most_mm;
}
