/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What bed and thread give, learnt from what was measured slack and pulled. */
#include "core/design/give.h"

#include "core/base/fault.h"

#include <math.h>

#define STONE_SD_MM 0.4 /* a girth by a strip of paper: common practice, no source */
/* Beyond these another strip was measured, or a decimal point slipped (judgement). */
#define PULLED_LEAST 0.97
#define PULLED_MOST 1.10
#define BED_LEAST_MM 0.5 /* over the slack bed more than round the stone: less is no bed */
#define BEYOND_MM 1.5    /* what errors make of a bed that gives all or nothing */
#define SD_LEAST 1e-5    /* nobody is surer; it keeps the sums finite */
#define STRETCH_SD_MOST 0.1
#define SQUEEZE_SD_MOST 0.3

BwGive
bw_stretch_usual (void)
{
  return (BwGive){ 0.010, 0.003 };
}

BwGive
bw_squeeze_usual (void)
{
  return (BwGive){ 0.15, 0.05 };
}

double
bw_girth_error_mm (BwStripTool tool)
{
  return tool == BW_STRIP_BY_CALLIPER ? 0.2 : 0.4;
}

BwGive
bw_stretch_said (const BwStretchReading *reading)
{
  double each = bw_strip_error_mm (reading->tool) / reading->slack_mm;
  return (BwGive){ reading->pulled_mm / reading->slack_mm - 1,
                   each * hypot (1, 1 + bw_stretch_usual ().share) };
}

BwGive
bw_squeeze_said (const BwSqueezeReading *reading)
{
  double q = bw_squeeze_usual ().share, bed = reading->slack_mm - reading->girth_mm;
  double girths = bw_girth_error_mm (reading->tool) * hypot (1, 1 - q);
  return (BwGive){ (reading->slack_mm - reading->pulled_mm) / bed,
                   hypot (girths, q * STONE_SD_MM) / bed };
}

BwGive
bw_give_weigh (BwGive before, BwGive said)
{
  double prior = 1 / (before.sd * before.sd), weight = 1 / (said.sd * said.sd);
  return (BwGive){ (prior * before.share + weight * said.share) / (prior + weight),
                   1 / sqrt (prior + weight) };
}

void
bw_give_settle (const BwGive *hands, const BwGive *said, BwGive usual, double most, double *share,
                double *sd)
{
  BwGive known = hands ? *hands : usual;
  if (said)
    known = bw_give_weigh (known, *said);
  *sd = hands || said ? known.sd : 0;
  if (hands || said)
    *share = CLAMP (known.share, 0, most);
}

gboolean
bw_stretch_reading_validate (const BwStretchReading *reading, BwFault *fault)
{
  return bw_check_range (reading->slack_mm, BW_LENGTH_MIN_MM, BW_STRIP_MAX_MM,
                         BW_AT_THREAD_PULLED_SLACK, fault)
         && bw_check_range (reading->pulled_mm, PULLED_LEAST * reading->slack_mm,
                            PULLED_MOST * reading->slack_mm, BW_AT_THREAD_PULLED_PULLED, fault);
}

gboolean
bw_squeeze_reading_validate (const BwSqueezeReading *reading, BwFault *fault)
{
  return bw_check_range (reading->girth_mm, BW_LENGTH_MIN_MM, BW_GIRTH_MAX_MM,
                         BW_AT_BED_PULLED_GIRTH, fault)
         && bw_check_range (reading->slack_mm, reading->girth_mm + BED_LEAST_MM,
                            2 * reading->girth_mm + BED_LEAST_MM, BW_AT_BED_PULLED_SLACK, fault)
         && bw_check_range (reading->pulled_mm, reading->girth_mm - BEYOND_MM,
                            reading->slack_mm + BEYOND_MM, BW_AT_BED_PULLED_PULLED, fault);
}

gboolean
bw_stretch_hands_validate (const BwGive *hands, BwFault *fault)
{
  return bw_check_range (hands->share, 0, BW_STRETCH_MOST, BW_AT_THREAD_HANDS_STRETCH, fault)
         && bw_check_range (hands->sd, SD_LEAST, STRETCH_SD_MOST, BW_AT_THREAD_HANDS_SD, fault);
}

gboolean
bw_squeeze_hands_validate (const BwGive *hands, BwFault *fault)
{
  return bw_check_range (hands->share, 0, BW_SQUEEZE_MOST, BW_AT_BED_HANDS_SQUEEZE, fault)
         && bw_check_range (hands->sd, SD_LEAST, SQUEEZE_SD_MOST, BW_AT_BED_HANDS_SD, fault);
}
