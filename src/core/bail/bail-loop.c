/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every style is one arc over one base; styles differ in where the base lies and which way the arc
 * goes. */
#include "core/bail/bail-loop.h"

#include "core/bail/bail-place.h"
#include "core/band/column.h"
#include "core/base/lattice.h"
#include "core/base/tolerance.h"

#define EDGES_MOST (3 * BW_STONE_MAX_VERTICES) /* a polyhedron has fewer than three a corner */

/* On the bead-centre curve at the middle of the band, outward. A strip that stands upright is the
 * flap turned a quarter turn to the left, seen from outside. */
static void
stand_on_band (BwBailFrame *frame, const BwDesign *design, const BwStone *stone)
{
  BwRing ring;
  double azimuth = bw_radians (design->bail.at_deg);
  bw_mid_ring_init (&ring, design, stone);
  BwVec2 at = bw_ring_point (&ring, bw_ring_ray (&ring, azimuth)).at;
  BwVec3 round = bw_vec3 (-sin (azimuth), cos (azimuth), 0), up = bw_vec3 (0, 0, 1);
  gboolean upright = design->bail.style == BW_BAIL_UPRIGHT;
  frame->middle = bw_vec3 (at.x, at.y, bw_band_span_mid (bw_design_span (design)));
  frame->out = bw_vec3 (cos (azimuth), sin (azimuth), 0);
  frame->along = upright ? up : round;
  frame->columns = upright ? bw_vec3_scale (round, -1) : up;
}

/* Where the feet of a loop over the tip stand on the upper edge. */
static void
find_feet (BwRingPoint foot[2], const BwDesign *design, const BwStone *stone)
{
  BwRing middle, edge;
  BwBailBase base;
  bw_mid_ring_init (&middle, design, stone);
  bw_edge_ring_init (&edge, design, stone);
  bw_bail_base_init (&base, design, &middle);
  for (int i = 0; i < 2; i++) {
    double azimuth = bw_radians (bw_bail_azimuth (design, &middle, base.foot_row[i]));
    foot[i] = bw_ring_point (&edge, bw_ring_ray (&edge, azimuth));
  }
}

/* A foot stands square where the edge crosses the loop's plane at right angles. */
static double
twist_of (const BwRingPoint foot[2], BwVec2 along)
{
  double square = 1;
  for (int i = 0; i < 2; i++)
    square = fmin (square, fabs (bw_vec2_dot (foot[i].normal, along)));
  return bw_degrees (acos (fmin (square, 1)));
}

/* Returns the base's length. */
static double
stand_over_tip (BwBailFrame *frame, const BwDesign *design, const BwStone *stone)
{
  BwRingPoint foot[2];
  BwBandSpan span = bw_design_span (design);
  find_feet (foot, design, stone);
  BwVec2 middle = bw_vec2_scale (bw_vec2_add (foot[0].at, foot[1].at), 0.5);
  BwVec2 way = bw_vec2_sub (foot[1].at, foot[0].at);
  double base = fmax (bw_vec2_length (way), BW_ROUNDING_MM);
  BwVec2 along = bw_vec2_scale (way, 1 / base);
  frame->middle = bw_vec3 (middle.x, middle.y, span.bottom_mm + span.width_mm);
  frame->out = bw_vec3 (0, 0, 1);
  frame->along = bw_vec3 (along.x, along.y, 0);
  frame->columns = bw_vec3 (-along.y, along.x, 0);
  frame->twist_deg = twist_of (foot, along);
  return base;
}

/* Room between the inside of the arc and a point of its plane. */
static double
room_at (const BwLoop *loop, const BwBailFrame *frame, double bead_mm, BwVec3 at)
{
  BwVec3 from = bw_vec3_sub (at, frame->middle);
  double low = loop->radius_mm * cos (loop->half_angle);
  double x = bw_vec3_dot (from, frame->along), y = bw_vec3_dot (from, frame->out) + low;
  return loop->radius_mm - bead_mm / 2 - hypot (x, y);
}

/* The stone's edges where they pass through the loop's plane above the band: the corners of what
 * stands in the loop. The tip itself is the opening's affair. */
static double
room_beside (const BwLoop *loop, const BwBailFrame *frame, double bead_mm, const BwStone *stone)
{
  int edges[EDGES_MOST][2], n = bw_stone_edges (stone, edges, EDGES_MOST);
  double least = INFINITY;
  for (int i = 0; i < MIN (n, EDGES_MOST); i++) {
    BwVec3 a = stone->vertex[edges[i][0]], b = stone->vertex[edges[i][1]];
    double off_a = bw_vec3_dot (bw_vec3_sub (a, frame->middle), frame->columns);
    double off_b = bw_vec3_dot (bw_vec3_sub (b, frame->middle), frame->columns);
    if (off_a * off_b >= 0)
      continue;
    BwVec3 at = bw_vec3_add (a, bw_vec3_scale (bw_vec3_sub (b, a), off_a / (off_a - off_b)));
    if (at.z > frame->middle.z && at.z < stone->length_mm - BW_ROUNDING_MM)
      least = fmin (least, room_at (loop, frame, bead_mm, at));
  }
  return least;
}

static gboolean
solve_over (BwLoop *loop, BwBailFrame *frame, const BwDesign *design, const BwStone *stone,
            BwFault *fault)
{
  double bead = design->bead.diameter_mm, base = stand_over_tip (frame, design, stone);
  double above = fmax (0, stone->length_mm - frame->middle.z);
  BwLoopSite site = { base, bead / 2 + above };
  if (!bw_loop_solve (loop, &design->bail, site, &design->gauge, fault))
    return FALSE;
  frame->beside_mm = room_beside (loop, frame, bead, stone);
  return TRUE;
}

gboolean
bw_bail_loop_init (BwLoop *loop, BwBailFrame *frame, const BwDesign *design, const BwStone *stone,
                   BwFault *fault)
{
  BwBailFrame stands = { 0 };
  gboolean over = design->bail.style == BW_BAIL_OVER;
  if (over ? !solve_over (loop, &stands, design, stone, fault)
           : !bw_loop_init (loop, &design->bail, &design->bead, &design->gauge, fault))
    return FALSE;
  if (!over)
    stand_on_band (&stands, design, stone);
  if (frame)
    *frame = stands;
  return TRUE;
}

void
bw_bail_reach_over (BwDesign *design, const BwStone *stone)
{
  BwBail *bail = &design->bail;
  BwLoop loop;
  bail->style = BW_BAIL_OVER;
  bail->columns = CLAMP (design->band.columns / 6 * 2, 2, bw_design_bail_columns_most (design));
  bail->base_beads = bw_lattice_beads_around (design->band.rows) / 2.0;
  if (bw_bail_loop_init (&loop, NULL, design, stone, NULL) && loop.rows_needed > 0)
    bail->rows = loop.rows_needed;
}
