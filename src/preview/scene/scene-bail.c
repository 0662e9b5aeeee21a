/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the bail's beads sit: on the arc the loop was solved as, in the frame the core stands it
 * in, row by row from the beginning of its base. */
#include "preview/scene/scene-parts.h"

#include "core/base/lattice.h"
#include "preview/scene/scene-bead.h"

static void
store (float to[3], BwVec3 from)
{
  to[0] = (float)from.x;
  to[1] = (float)from.y;
  to[2] = (float)from.z;
}

void
bw_scene_add_bail (BwScene *scene, const BwHang *hang, const BwDesign *design)
{
  const BwBail *bail = &design->bail;
  const BwLoop *loop = &hang->loop;
  if (bail->style == BW_BAIL_NONE || !hang->has_bail)
    return;
  const BwBailFrame *frame = &hang->frame;
  BwVec3 centre = bw_vec3_sub (
      frame->middle, bw_vec3_scale (frame->out, loop->radius_mm * cos (loop->half_angle)));
  double step = design->gauge.pitch_mm / 2 / loop->radius_mm;
  scene->bail_columns = bail->columns;
  for (int row = 1; row <= bail->rows; row++) {
    double angle = row * step - loop->half_angle;
    BwVec3 normal = bw_vec3_add (bw_vec3_scale (frame->out, cos (angle)),
                                 bw_vec3_scale (frame->along, sin (angle)));
    BwVec3 middle = bw_vec3_add (centre, bw_vec3_scale (normal, loop->radius_mm));
    for (int j = 0; j < bail->columns / 2; j++) {
      BwSceneBead bead = { 0 };
      float axis[3], out[3];
      double across
          = (bw_lattice_column (row, j) - (bail->columns + 1) / 2.0) * design->gauge.column_mm;
      store (bead.at, bw_vec3_add (middle, bw_vec3_scale (frame->columns, across)));
      store (axis, frame->columns);
      store (out, normal);
      bw_bead_lie (&bead, axis, out);
      g_array_append_val (scene->beads, bead);
    }
  }
}
