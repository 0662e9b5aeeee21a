/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/band/forecast.h"
#include "output/report/report-parts.h"

void
bw_answer_gives (BwAnswer *json, const BwDesign *design)
{
  bw_answer_number (json, "squeeze", design->bed.squeeze);
  bw_answer_number (json, "squeeze_sd", bw_forecast_squeeze_sd (design));
  bw_answer_boolean (json, "squeeze_learnt", design->bed.squeeze_sd > 0);
  bw_answer_number (json, "stretch", design->thread.stretch);
  bw_answer_number (json, "stretch_sd", bw_forecast_stretch_sd (design));
  bw_answer_boolean (json, "stretch_learnt", design->thread.stretch_sd > 0);
}
