/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/shelf/told-stone.h"

#include <math.h>

static gboolean
says_nothing (const BwToldStone *told, const BwStoneMeasures *old)
{
  return told->faces == old->faces && told->girth_mm <= 0 && told->at_mm <= 0
         && told->length_mm <= 0 && told->shoulder_mm <= 0;
}

/* What is worked out is told no finer than a ruler tells. */
static double
told_or (double told, double otherwise)
{
  return told > 0 ? told : round (10 * otherwise) / 10;
}

static void
describe (const BwToldStone *told, BwProject *project, BwStoneMeasures *measures)
{
  const BwStone *stone = bw_project_stone (project);
  double length = told_or (told->length_mm, stone->length_mm), share = length / stone->length_mm;
  *measures = (BwStoneMeasures){
    .faces = told->faces,
    .measured = BW_MEASURED_GIRTH,
    .at_mm = told_or (told->at_mm, share * stone->at_mm),
    .length_mm = length,
    .has_shoulder = TRUE,
    .shoulder_mm = told_or (told->shoulder_mm, share * stone->shoulder_mm),
    .base = BW_BASE_FLAT,
    .girth_sd_mm = bw_project_get_design (project)->stone.girth_sd_mm,
    .density_g_cm3 = bw_project_get_design (project)->stone.density_g_cm3,
  };
  measures->values_mm[0] = told_or (told->girth_mm, stone->girth_mm);
}

static void
own (BwExamples *examples, double told, const char *pointer)
{
  if (told > 0)
    bw_examples_own (examples, pointer);
}

void
bw_told_stone_fill (const BwToldStone *told, BwProject *project, BwStoneMeasures *measures,
                    BwExamples *examples)
{
  const BwStoneMeasures *old = &bw_project_get_design (project)->stone;
  if (says_nothing (told, old))
    *measures = *old;
  else
    describe (told, project, measures);
  *examples = bw_examples_all (measures);
  own (examples, told->girth_mm, "/stone/values_mm/0");
  own (examples, told->at_mm, "/stone/at_mm");
  own (examples, told->length_mm, "/stone/length_mm");
  own (examples, told->shoulder_mm, "/stone/shoulder_mm");
}
