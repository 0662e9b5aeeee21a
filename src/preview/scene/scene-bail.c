/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the bail's beads sit: on the arc the loop was solved as, standing on its base chord.
 *
 * The chord touches the ring of bead centres at the bail's azimuth, at the height of the band's
 * middle. A flap's arc lies across the stone, its holes along the stone's axis, its rows advancing
 * the way the band's do. An upright strip is the same strip turned a quarter turn to the left as
 * seen from outside: its rows climb, its columns run clockwise. */
#include "preview/scene/scene-parts.h"

#include "core/base/lattice.h"

/* The strip's own directions, unit and at right angles. */
typedef struct {
  BwVec3 centre;  /* of the arc */
  BwVec3 out;     /* away from the stone, at the arc's summit */
  BwVec3 along;   /* the way rows advance at the summit */
  BwVec3 columns; /* towards the higher column */
} Strip;

static Strip
strip_of (const BwBail *bail, const BwLoop *loop, BwVec3 pivot, double bead_diameter)
{
  double at = bw_radians (bail->at_deg);
  BwVec3 out = bw_vec3 (cos (at), sin (at), 0), round = bw_vec3 (-sin (at), cos (at), 0);
  BwVec3 up = bw_vec3 (0, 0, 1);
  /* The pivot is the inside of the summit's bead: half a bead nearer than the arc's summit. */
  double summit = pivot.x * out.x + pivot.y * out.y + bead_diameter / 2;
  BwVec3 centre = bw_vec3_scale (out, summit - loop->radius_mm);
  centre.z = pivot.z;
  if (bail->style == BW_BAIL_UPRIGHT)
    return (Strip){ centre, out, up, bw_vec3_scale (round, -1) };
  return (Strip){ centre, out, round, up };
}

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
  Strip strip = strip_of (bail, loop, hang->pivot, design->bead.diameter_mm);
  double step = design->gauge.pitch_mm / 2 / loop->radius_mm;
  scene->bail_columns = bail->columns;
  for (int row = 1; row <= bail->rows; row++) {
    double angle = row * step - loop->half_angle;
    BwVec3 normal = bw_vec3_add (bw_vec3_scale (strip.out, cos (angle)),
                                 bw_vec3_scale (strip.along, sin (angle)));
    BwVec3 middle = bw_vec3_add (strip.centre, bw_vec3_scale (normal, loop->radius_mm));
    for (int j = 0; j < bail->columns / 2; j++) {
      BwSceneBead bead = { .row = row, .column = bw_lattice_column (row, j), .in_bail = TRUE };
      double across = (bead.column - (bail->columns + 1) / 2.0) * design->gauge.column_mm;
      store (bead.at, bw_vec3_add (middle, bw_vec3_scale (strip.columns, across)));
      store (bead.axis, strip.columns);
      store (bead.out, normal);
      g_array_append_val (scene->beads, bead);
    }
  }
}
