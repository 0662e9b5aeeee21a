/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a bead on the way costs, and how much goes through a hole: by the design alone, wherever the
 * needle is. */
#include "core/path/path.h"

double
bw_path_step_mm (const BwDesign *design)
{
  double jog
      = MAX (0.0, design->gauge.pitch_mm / 2 - (design->bead.hole_mm - design->thread.diameter_mm));
  return hypot (design->gauge.column_mm, jog);
}

double
bw_path_pass_mm (const BwDesign *design, int beads)
{
  return beads * bw_path_step_mm (design) + design->gauge.pitch_mm;
}

gboolean
bw_path_is_full (const BwDesign *design, int passes)
{
  double thread = design->thread.diameter_mm, needle = design->thread.needle_mm;
  double hole = design->bead.hole_mm;
  return passes * thread * thread + needle * needle > BW_FULL_SHARE * hole * hole;
}
