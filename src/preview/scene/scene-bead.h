/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead of a scene is kept packed; here it is opened, and closed again. Directions come back to
 * within 0.00004 of their length. */
#pragma once

#include "preview/scene/scene.h"

/* To the nearest of the 65,535 shares there are. */
void bw_bead_lie (BwSceneBead *bead, const float axis[3], const float out[3]);

static inline void
bw_bead_axis (const BwSceneBead *bead, float axis[3])
{
  for (int i = 0; i < 3; i++)
    axis[i] = (float)bead->axis[i] * (1.f / BW_UNIT);
}

static inline void
bw_bead_out (const BwSceneBead *bead, float out[3])
{
  for (int i = 0; i < 3; i++)
    out[i] = (float)bead->out[i] * (1.f / BW_UNIT);
}

static inline void
bw_bead_paint (BwSceneBead *bead, guint32 srgb, BwFinish finish)
{
  for (int i = 0; i < 3; i++)
    bead->srgb[i] = (guint8)(srgb >> (16 - 8 * i) & 255);
  bead->finish = (guint8)finish;
}

/* Its colour as linear light, 0..1. */
void bw_bead_light (const BwSceneBead *bead, float light[3]);
