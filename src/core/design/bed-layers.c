/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thickness is linear in the height, so each layer lies on one side of one height. */
#include "core/design/bed-layers.h"

#include "core/base/tolerance.h"

#include <math.h>

/* Where the bed is as thick as the middle of layer k, clipped to the bed. */
static BwBedLayer
layer_at (const BwBedding *bedding, const BwBed *bed, double low, double high, int k)
{
  double middle = (k - 0.5) * bed->cord_thickness_mm;
  double at_low = bw_bedding_thickness (bedding, low) - middle;
  double at_high = bw_bedding_thickness (bedding, high) - middle;
  BwBedLayer layer = { low, high, 0 };
  if (at_low < 0 && at_high < 0)
    layer.high_mm = low;
  else if (at_low < 0)
    layer.low_mm = low + (high - low) * at_low / (at_low - at_high);
  else if (at_high < 0)
    layer.high_mm = low + (high - low) * at_low / (at_low - at_high);
  layer.turns
      = (int)floor ((layer.high_mm - layer.low_mm) / bed->cord_width_mm + 0.5 + BW_ROUNDING_WHOLE);
  return layer;
}

int
bw_bed_layers (const BwBed *bed, const BwStone *stone, BwBandSpan span,
               BwBedLayer layers[BW_BED_LAYERS_LISTED])
{
  double mid = bw_band_span_mid (span), half = bw_bed_width_mm (bed, span) / 2;
  BwBedding bedding;
  int n = 0;
  if (!bw_bedding_init (&bedding, bed, stone, span, NULL))
    return 0;
  while (n < BW_BED_LAYERS_LISTED) {
    layers[n] = layer_at (&bedding, bed, mid - half, mid + half, n + 1);
    if (layers[n].turns < 1)
      break;
    n++;
  }
  return n;
}
