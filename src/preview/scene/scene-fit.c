/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours of fit. Lightness alone tells the whole story from loose (light) to will not close
 * (dark); the hues only make it quicker to read. */
#include "preview/scene/scene.h"

typedef struct {
  double at; /* −1: the loosest that still grips; 1: the tightest that still closes */
  guint8 srgb[3];
} Stop;

static const Stop stops[] = {
  { -3.0, { 0xd6, 0xe8, 0xf7 } }, { -1.0, { 0x9c, 0xc7, 0xe6 } }, { -1.0, { 0x8c, 0xc6, 0x9c } },
  { 0.0, { 0x57, 0xa6, 0x6e } },  { 1.0, { 0x2e, 0x7d, 0x52 } },  { 1.0, { 0xb0, 0x3a, 0x2e } },
  { 3.0, { 0x5c, 0x18, 0x1a } },
};

/* Where the gap lies between the two limits. */
static double
tightness (const BwFitColumn *column, double slack_mm)
{
  double limit = column->gap_mm < 0 ? slack_mm : column->pull_mm;
  double share = column->gap_mm / MAX (limit, 1e-6);
  if (!column->closes)
    return CLAMP (share, 1 + 1e-9, 3);
  if (!column->grips)
    return CLAMP (share, -3, -1 - 1e-9);
  return CLAMP (share, -1, 1);
}

void
bw_scene_fit_colour (const BwFitColumn *column, double slack_mm, float srgb[3])
{
  double x = tightness (column, slack_mm);
  gsize i = 1;
  /* The last of two stops at one place begins what lies above it. */
  while (i + 1 < G_N_ELEMENTS (stops) && (x > stops[i].at || (stops[i].at == stops[i - 1].at)))
    i++;
  double share = (x - stops[i - 1].at) / (stops[i].at - stops[i - 1].at);
  for (int c = 0; c < 3; c++)
    srgb[c]
        = (float)((stops[i - 1].srgb[c] + share * (stops[i].srgb[c] - stops[i - 1].srgb[c])) / 255);
}
