/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The prism by itself: which way its faces look, and how it narrows. */
#include "core/stone/stone.h"

static BwVec2
direction (double turns)
{
  double angle = 2 * G_PI * turns;
  return bw_vec2 (cos (angle), sin (angle));
}

BwVec2
bw_stone_normal (int faces, int i)
{
  return direction ((double)i / faces);
}

double
bw_stone_prism_scale (const BwStone *stone, double z_mm)
{
  return 1 + stone->taper_per_mm * (z_mm - stone->at_mm);
}
