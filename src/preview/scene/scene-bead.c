/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/scene/scene-bead.h"

#include "core/pattern/colour.h"

static gint16
share_of (float part)
{
  return (gint16)lroundf (CLAMP (part, -1, 1) * BW_UNIT);
}

void
bw_bead_lie (BwSceneBead *bead, const float axis[3], const float out[3])
{
  for (int i = 0; i < 3; i++) {
    bead->axis[i] = share_of (axis[i]);
    bead->out[i] = share_of (out[i]);
  }
}

/* Asked for every bead and every ray, and there are no more than these. */
static const float *
light_of_share (void)
{
  static float light[256];
  static gsize made;
  if (g_once_init_enter (&made)) {
    for (int i = 0; i < 256; i++)
      light[i] = (float)bw_colour_decode (i / 255.0);
    g_once_init_leave (&made, 1);
  }
  return light;
}

void
bw_bead_light (const BwSceneBead *bead, float light[3])
{
  const float *of_share = light_of_share ();
  for (int i = 0; i < 3; i++)
    light[i] = of_share[bead->srgb[i]];
}
