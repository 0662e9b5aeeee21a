/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/stone/stone-look.h"

#include "core/base/tolerance.h"

gboolean
bw_stone_look_validate (const BwStoneLook *look, BwFault *fault)
{
  return bw_check_range (look->growth_lines, 0, 1, BW_AT_LOOK_GROWTH_LINES, fault)
         && bw_check_range (look->veils, 0, 1, BW_AT_LOOK_VEILS, fault)
         && bw_check_range (look->needles, 0, 1, BW_AT_LOOK_NEEDLES, fault)
         && bw_check_range (look->chips, 0, 1, BW_AT_LOOK_CHIPS, fault)
         && bw_check_range (look->seed, 0, BW_LOOK_SEED_MAX, BW_AT_LOOK_SEED, fault);
}

gboolean
bw_stone_look_is_quiet (const BwStoneLook *look)
{
  return look->growth_lines <= 0 && look->veils <= 0 && look->needles <= 0 && look->chips <= 0
         && look->base == BW_BASE_PLAIN;
}

gboolean
bw_stone_look_equal (const BwStoneLook *a, const BwStoneLook *b)
{
  return bw_same_number (a->growth_lines, b->growth_lines) && bw_same_number (a->veils, b->veils)
         && bw_same_number (a->needles, b->needles) && bw_same_number (a->chips, b->chips)
         && a->base == b->base && a->seed == b->seed;
}
